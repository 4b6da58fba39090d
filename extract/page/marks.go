package page

import (
	"cmp"
	"image"
	"slices"
	"strings"
	"unicode/utf8"
)

// The ink of a page that is ready for recognition tells three things that the recogniser does not:
// where a form has boxes to tick, where letters stand that it passed over, and where lines are drawn.

const (
	boxEdge   = 0.85 // share of a side of a box that is inked at least
	boxLeast  = 11   // dots of a side of a box
	boxMost   = 48   // the same
	tickShare = 0.1  // share of the inside of a box that is inked where it is ticked
	mostMarks = 5000 // of either sort, that are looked at
)

// A tickBox is a box to tick, in dots of the picture.
type tickBox struct {
	Box    [4]int
	Ticked bool
}

// marks is what the ink of a picture tells.
type marks struct {
	Boxes []tickBox
	Runs  [][4]int // letters that stand side by side
	Rules [][4]int // straight lines, level or upright
}

// marksOf looks at the ink of a picture.
func marksOf(g *image.Gray) marks {
	var m marks
	var letters [][4]int
	for _, p := range inkPieces(g) {
		if box, ok := p.tickBox(g); ok {
			m.Boxes = append(m.Boxes, box)
		} else if p.isLetter(g.Rect.Dy()) {
			letters = append(letters, [4]int{p.left, p.top, p.right + 1, p.bottom + 1})
		}
	}
	if len(m.Boxes) < mostMarks && len(letters) < mostMarks {
		m.Runs = sideBySide(letters)
	}
	m.Boxes = m.Boxes[:min(len(m.Boxes), mostMarks)]
	m.Rules = inkRules(g)
	return m
}

// tickBox reports a piece that is a square with four whole sides. Nothing else is: letters that
// have all four corners lack a side.
func (p inkPiece) tickBox(g *image.Gray) (tickBox, bool) {
	wide, high := p.right-p.left+1, p.bottom-p.top+1
	if min(wide, high) < boxLeast || max(wide, high) > boxMost || 6*abs(wide-high) > wide {
		return tickBox{}, false
	}
	rim := max(2, wide/6)
	dark := func(x, y int) bool { return g.Pix[y*g.Stride+x] < 128 }
	for _, side := range [4]func(along, in int) bool{
		func(along, in int) bool { return dark(p.left+along, p.top+in) },
		func(along, in int) bool { return dark(p.left+along, p.bottom-in) },
		func(along, in int) bool { return dark(p.left+in, p.top+along) },
		func(along, in int) bool { return dark(p.right-in, p.top+along) },
	} {
		if inked(min(wide, high), rim, side) < boxEdge {
			return tickBox{}, false
		}
	}
	ink, all := 0, 0
	for y := p.top + rim + 1; y < p.bottom-rim; y++ {
		for x := p.left + rim + 1; x < p.right-rim; x++ {
			if all++; dark(x, y) {
				ink++
			}
		}
	}
	full := float64(ink) / float64(max(1, all))
	return tickBox{[4]int{p.left, p.top, p.right + 1, p.bottom + 1}, full > tickShare}, full < 0.8
}

// inked returns the share of a side that has ink within its rim.
func inked(length, rim int, at func(along, in int) bool) float64 {
	n := 0
	for along := range length {
		for in := range rim {
			if at(along, in) {
				n++
				break
			}
		}
	}
	return float64(n) / float64(length)
}

func abs(n int) int { return max(n, -n) }

// sideBySide joins letters of one line between which there is no more white than between words.
func sideBySide(letters [][4]int) [][4]int {
	slices.SortFunc(letters, func(a, b [4]int) int { return cmp.Compare(a[0], b[0]) })
	var runs [][4]int
	for _, l := range letters {
		at := -1
		for i := len(runs) - 1; i >= 0 && i > len(runs)-200; i-- {
			r := runs[i]
			high := max(r[3]-r[1], l[3]-l[1])
			if 2*(l[0]-r[2]) < high && 2*(min(r[3], l[3])-max(r[1], l[1])) > min(r[3]-r[1], l[3]-l[1]) {
				at = i
				break
			}
		}
		if at < 0 {
			runs = append(runs, l)
			continue
		}
		r := &runs[at]
		*r = joined(*r, l)
	}
	return runs
}

// passed says that letters stand level with words that were read, within the width of the print,
// where none was read: a column of single figures is soon taken for dust.
func (a attempt) passed() bool {
	var heights []int
	for _, w := range a.words {
		heights = append(heights, w.Box[3]-w.Box[1])
	}
	if len(heights) == 0 {
		return false
	}
	slices.Sort(heights)
	usual, print := heights[len(heights)/2], Word{Box: boxAround(a.words)}
	return slices.ContainsFunc(a.pic.marks.Runs, func(run [4]int) bool {
		r := Word{Box: run}
		high := run[3] - run[1]
		if 5*high < 3*usual || high > 2*usual || !print.holdsMiddle(r) {
			return false
		}
		level := false
		for _, w := range a.words {
			if w.holdsMiddle(r) || r.holdsMiddle(w) {
				return false
			}
			both := min(w.Box[3], run[3]) - max(w.Box[1], run[1])
			level = level || w.Confidence >= surelyRead && utf8.RuneCountInString(w.Text) > 2 && 4*both > 3*high
		}
		return level
	})
}

// withBoxes puts the boxes of a form in the place of what was read for them.
func withBoxes(words []Word, boxes []tickBox) []Word {
	for _, b := range boxes {
		mark := Word{Text: Unticked, Box: b.Box, Size: (b.Box[3] - b.Box[1]) * 100 / 72, Confidence: surelyRead + 10}
		if b.Ticked {
			mark.Text = Ticked
		}
		over := func(w Word) bool { return mark.holdsMiddle(w) || w.holdsMiddle(mark) }
		if slices.ContainsFunc(words, func(w Word) bool { return over(w) && utf8.RuneCountInString(w.Text) > 3 }) {
			continue // a letter of that word, or too near to it to be told from it
		}
		words = append(slices.DeleteFunc(words, over), mark)
	}
	if len(boxes) == 0 {
		return words
	}
	// Another box of the form may lack a piece of a side: it reads as an opening bracket.
	usual := boxes[0].Box[3] - boxes[0].Box[1]
	for i, w := range words {
		if strings.HasPrefix(w.Text, "[") && utf8.RuneCountInString(w.Text) < 3 && 3*abs(w.Box[3]-w.Box[1]-usual) < usual {
			words[i].Text, words[i].Confidence = Unticked, min(w.Confidence, contradicted)
		}
	}
	return words
}
