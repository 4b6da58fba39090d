package extract

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// Rules that are drawn on a page tell which lines stand in one cell of a table, and which words
// do not, more surely than the white between them.

// A grid holds the drawn rules of a page, pieces of one line joined.
type grid struct {
	level, upright []paper.Box
	cells          map[paper.Box]int       // numbers of the cells of tables, counted from 1
	found          map[paper.Box]cellFound // what stands in which, once it was looked for
}

// cellFound is the ruled cell in which something stands.
type cellFound struct {
	box paper.Box
	ok  bool
}

// touch is how far apart, in hundredths of a point, two ends of rules may be that meet.
const touch = 200

// gridOf returns the grid of a page that is shown as it is read; nil if it has none.
func gridOf(p page.Page) *grid {
	if len(p.Rules) < 4 || !p.Picture && slices.ContainsFunc(p.Words, func(w page.Word) bool { return w.Laid != [4]int{} }) {
		return nil
	}
	g := &grid{cells: map[paper.Box]int{}, found: map[paper.Box]cellFound{}}
	for _, r := range p.Rules {
		if b := paper.Box(r); b[2]-b[0] > b[3]-b[1] {
			g.level = append(g.level, b)
		} else {
			g.upright = append(g.upright, b)
		}
	}
	g.level, g.upright = mergedRules(g.level, 0), mergedRules(g.upright, 1)
	return g
}

// mergedRules joins rules of one line that touch; along is 0 for level rules and 1 for upright ones.
func mergedRules(list []paper.Box, along int) []paper.Box {
	across := 1 - along
	slices.SortFunc(list, func(a, b paper.Box) int {
		return cmp.Or(cmp.Compare(a[across]+a[across+2], b[across]+b[across+2]), cmp.Compare(a[along], b[along]))
	})
	var out []paper.Box
	for _, r := range list {
		k := slices.IndexFunc(out[max(0, len(out)-40):], func(o paper.Box) bool {
			return abs(o[across]+o[across+2]-r[across]-r[across+2]) < touch/2 && r[along] <= o[along+2]+touch && o[along] <= r[along+2]+touch
		})
		if k < 0 {
			out = append(out, r)
			continue
		}
		k += max(0, len(out)-40)
		out[k] = out[k].Union(r)
	}
	return out
}

// around returns the ruled box around a point of the page; false where a side is open.
func (g *grid) around(x, y int) (b paper.Box, closed bool) {
	top, bottom := nearest(g.level, 0, x, y)
	left, right := nearest(g.upright, 1, y, x)
	return paper.Box{left, top, right, bottom}, min(left, top, right, bottom) >= 0
}

// nearest returns where the rules lie next before and behind a place across them, of those that reach over at along
// their own length; -1 where there is none. along is as in [mergedRules].
func nearest(rules []paper.Box, along, at, across int) (before, behind int) {
	before, behind = -1, -1
	for _, r := range rules {
		if r[along]-touch > at || r[along+2]+touch < at {
			continue
		}
		if lies := (r[1-along] + r[3-along]) / 2; lies <= across {
			before = max(before, lies)
		} else if behind < 0 || lies < behind {
			behind = lies
		}
	}
	return before, behind
}

// cellOf returns the ruled cell of a table in which the middle of a box lies: one beside which is another of
// the same height. False for a frame and for what stands free.
func (g *grid) cellOf(of paper.Box) (paper.Box, bool) {
	if g == nil {
		return paper.Box{}, false
	}
	r, known := g.found[of]
	if !known {
		r.box, r.ok = g.findCell(of)
		g.found[of] = r
	}
	return r.box, r.ok
}

func (g *grid) findCell(of paper.Box) (paper.Box, bool) {
	b, ok := g.around((of[0]+of[2])/2, (of[1]+of[3])/2)
	if !ok || b[3]-b[1] > 20000 {
		return b, false
	}
	y := (b[1] + b[3]) / 2
	for _, x := range [2]int{b[0] - 2*touch, b[2] + 2*touch} {
		if o, ok := g.around(x, y); ok && abs(o[1]-b[1]) < touch && abs(o[3]-b[3]) < touch {
			return b, true
		}
	}
	return b, false
}

// number returns the number of the ruled cell in which a box lies; 0 if it is in none.
func (g *grid) number(of paper.Box) int {
	b, ok := g.cellOf(of)
	if !ok {
		return 0
	}
	if g.cells[b] == 0 {
		g.cells[b] = len(g.cells) + 1
	}
	return g.cells[b]
}

// partedRow parts a row into cells: where a rule of a table stands between, and at wide gaps.
func (g *grid) partedRow(p page.Page, row []page.Word, pitch int) [][]page.Word {
	if g == nil {
		return partRow(p, row, pitch)
	}
	var parts [][]page.Word
	from := 0
	for k := 1; k <= len(row); k++ {
		if k == len(row) || g.number(paper.Box(row[k-1].Box)) != g.number(paper.Box(row[k].Box)) {
			parts = append(parts, partRow(p, row[from:k], pitch)...)
			from = k
		}
	}
	return parts
}

// rows returns the rows of a page so that the cells of one row of a ruled table begin in one row, however
// many lines each has: those with fewer may be set level with the middle of the others.
func (g *grid) rows(rows [][]page.Word) [][]page.Word {
	if g == nil {
		return rows
	}
	bands := map[[2]int]map[int][]page.Word{} // of a top and a bottom edge, the words of each cell
	edges := func(w page.Word) ([2]int, bool) {
		b, ok := g.cellOf(paper.Box(w.Box))
		return [2]int{b[1], b[3]}, ok
	}
	for _, row := range rows {
		for _, w := range row {
			if e, ok := edges(w); ok {
				if bands[e] == nil {
					bands[e] = map[int][]page.Word{}
				}
				n := g.number(paper.Box(w.Box))
				bands[e][n] = append(bands[e][n], w)
			}
		}
	}
	order := slices.SortedFunc(maps.Keys(bands), func(a, b [2]int) int { return slices.Compare(a[:], b[:]) })
	for _, e := range order {
		if ranked := ranks(bands[e]); ranked != nil {
			rows = instead(rows, ranked, func(w page.Word) bool {
				at, ok := edges(w)
				return ok && at == e
			})
		}
	}
	return rows
}

// ranks returns the first lines of all cells, then the second, and so on; nil where the first lines are level as
// they stand, or only one cell holds anything.
func ranks(cells map[int][]page.Word) [][]page.Word {
	if len(cells) < 2 {
		return nil
	}
	var out [][]page.Word
	for _, words := range cells {
		for k, line := range rowsOf(words) {
			if k == len(out) {
				out = append(out, nil)
			}
			out[k] = append(out[k], line...)
		}
	}
	slices.SortFunc(out[0], func(a, b page.Word) int { return cmp.Compare(a.Box[1]+a.Box[3], b.Box[1]+b.Box[3]) })
	if level(out[0][0], out[0][len(out[0])-1]) {
		return nil
	}
	for _, line := range out {
		slices.SortStableFunc(line, func(a, b page.Word) int { return cmp.Compare(a.Box[0], b.Box[0]) })
	}
	return out
}

// instead puts the rows ranked where the words for which in holds stood.
func instead(rows, ranked [][]page.Word, in func(page.Word) bool) [][]page.Word {
	var out [][]page.Word
	put := false
	for _, row := range rows {
		if slices.ContainsFunc(row, in) && !put {
			out, put = append(out, ranked...), true
		}
		if row = slices.DeleteFunc(slices.Clone(row), in); len(row) > 0 {
			out = append(out, row)
		}
	}
	return out
}

// overInRuled returns the cell that stands right above ci in the ruled cell of a table in which ci does; -1 if
// there is none.
func (s *sheet) overInRuled(ci int) int {
	c, best := &s.cells[ci], -1
	for pi := ci - 1; pi >= 0 && s.cells[pi].page == c.page; pi-- {
		p := &s.cells[pi]
		if p.ruled == c.ruled && p.box[1] < c.box[1] && min(p.box[2], c.box[2]) > max(p.box[0], c.box[0]) && (best < 0 || p.box[1] > s.cells[best].box[1]) {
			best = pi
		}
	}
	return best
}

// wrapsInRuled reports that c goes on the line p of one ruled cell: the cell had no room for its first word there,
// or the words themselves tell it.
func (s *sheet) wrapsInRuled(p, c *cell) bool {
	height := p.box[3] - p.box[1]
	near := p.size / 20
	if p.confidence < 100 {
		near = p.size / 4 // it was measured
	}
	if abs(p.size-c.size) > near || p.bold != c.bold || c.box[1]-p.box[3] > height || strings.HasSuffix(p.text, ":") || beginsItem(c.text) {
		return false
	}
	if allCaps(p.text) != allCaps(c.text) && strings.Contains(p.text, " ") && !hasFigure(p.text) {
		return false
	}
	if startsLower(c.text) || hyphenated(p.text, c.text) > 0 || strings.HasSuffix(p.text, "&") || runsOn(p.text) && (!startsFigure(c.text) || hasFigure(p.text)) {
		return true
	}
	if roleOf(p.text) != noRole || reachLine(c.text) || startsStreet.MatchString(c.text) || dayAlone(c.text) || bareNumber.MatchString(c.text) || sumOnly.MatchString(c.text) || s.sumsBeside(p, c) {
		return false
	}
	first := c.words[0].box
	need := first[2] - first[0] + p.size/4
	if abs(p.box[0]-c.box[0]) < height/3 {
		pad := min(max(p.box[0]-p.room[0], 100), 1000)
		return p.box[2]+need > p.room[2]-pad-p.size/10
	}
	return p.box[2]-p.box[0]+need > p.room[2]-p.room[0]-400
}

// sumsBeside reports two lines of a ruled cell that are rows of a list: beside each stands a number of its own.
func (s *sheet) sumsBeside(p, c *cell) bool {
	beside := func(x *cell) bool {
		return slices.ContainsFunc(s.rows[x.row], func(ci int) bool {
			o := &s.cells[ci]
			return o.ruled != x.ruled && o.ruled > 0 && strings.ContainsAny(o.text, "0123456789") && !strings.ContainsFunc(o.text, isLetter)
		})
	}
	return beside(p) && beside(c)
}
