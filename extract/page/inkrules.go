package page

import (
	"cmp"
	"image"
	"slices"
)

// The straight lines of a picture that is ready for recognition: the rules of a table or a form.

const (
	ruleInk   = 150 // what is darker belongs to a rule
	ruleGap   = 3   // dots of white that do not end one
	ruleThick = 12  // dots that it is thick at most: what is thicker is a bar or a shadow
	ruleLeast = 60  // dots that it is long at least
)

// inkRules returns the level and the upright rules of a picture that is set level, as boxes in its dots.
func inkRules(g *image.Gray) [][4]int {
	b := g.Rect
	least := max(ruleLeast, b.Dx()/30)
	var level, upright [][4]int
	began, last := make([]int, b.Dx()), make([]int, b.Dx()) // of each column: where the run began that is open, and its last dot
	for x := range began {
		began[x] = -1
	}
	for y := range b.Dy() {
		from, to := -1, -1
		for x, v := range g.Pix[y*g.Stride : y*g.Stride+b.Dx()] {
			if v < ruleInk {
				if from >= 0 && x-to > ruleGap {
					level = withRun(level, [4]int{from, y, to + 1, y + 1}, least)
					from = -1
				}
				if from < 0 {
					from = x
				}
				to = x
				if began[x] >= 0 && y-last[x] > ruleGap {
					upright = withRun(upright, [4]int{x, began[x], x + 1, last[x] + 1}, least)
					began[x] = -1
				}
				if began[x] < 0 {
					began[x] = y
				}
				last[x] = y
			}
		}
		if from >= 0 {
			level = withRun(level, [4]int{from, y, to + 1, y + 1}, least)
		}
		if len(level)+len(upright) > 20*mostMarks {
			return nil // a picture of something else
		}
	}
	for x, y := range began {
		if y >= 0 {
			upright = withRun(upright, [4]int{x, y, x + 1, last[x] + 1}, least)
		}
	}
	slices.SortFunc(upright, func(a, b [4]int) int { return cmp.Compare(a[0], b[0]) })
	rules := append(merged(level, 1), merged(upright, 0)...)
	return rules[:min(len(rules), mostRules)]
}

// withRun adds a run of dots that is long enough.
func withRun(list [][4]int, run [4]int, least int) [][4]int {
	if run[2]-run[0] < least && run[3]-run[1] < least {
		return list
	}
	return append(list, run)
}

// merged joins runs that lie side by side, in the order of side, to rules, and leaves out what is too thick for one.
func merged(runs [][4]int, side int) [][4]int {
	along := 1 - side
	var open, out [][4]int
	shut := func(r [4]int) {
		if r[side+2]-r[side] <= ruleThick {
			out = append(out, r)
		}
	}
	for _, r := range runs {
		kept := open[:0]
		at := -1
		for _, o := range open {
			switch {
			case r[side]-o[side+2] > ruleGap:
				shut(o)
			case r[along] <= o[along+2]+ruleGap && o[along] <= r[along+2]+ruleGap:
				if at >= 0 {
					kept[at] = joined(kept[at], o)
					continue
				}
				at = len(kept)
				kept = append(kept, joined(o, r))
			default:
				kept = append(kept, o)
			}
		}
		if open = kept; at < 0 {
			open = append(open, r)
		}
	}
	for _, o := range open {
		shut(o)
	}
	return out
}
