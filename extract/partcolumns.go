package extract

import (
	"slices"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// partColumns parts cells of which two columns of a table stand so near that no wide
// gap is between them: two headings, or a title and the number behind it. What begins
// in other rows at the same place shows where a column begins.
func (s *sheet) partColumns() {
	for r, row := range s.rows {
		for k := 0; k < len(row); k++ {
			if at := s.columnWithin(r, row[k]); at > 0 {
				row = slices.Insert(slices.Clone(row), k+1, s.cutCell(row[k], at))
				s.rows[r] = row
			}
		}
	}
}

// columnWithin returns the word of a cell with which another column begins, or 0.
func (s *sheet) columnWithin(r, ci int) int {
	c := &s.cells[ci]
	if len(c.words) < 2 || !s.boxed || len(s.rows[r]) < 2 {
		return 0
	}
	for k := 1; k < len(c.words); k++ {
		left, right := c.text[:c.words[k].from-1], c.text[c.words[k].from:]
		heads := roleOf(left) != noRole && roleOf(right) != noRole
		number := k == len(c.words)-1 && bareNumber.MatchString(right)
		if (heads || number) && s.begins(c, c.words[k].box[0], heads) >= 2 || s.datedRow(c, left, c.words[k].box[0]) {
			return k
		}
	}
	return 0
}

// datedRow reports that left is a day and nothing else, and that what stands at x behind
// it begins right beneath a heading, with or without a gap.
func (s *sheet) datedRow(c *cell, left string, x int) bool {
	if !hasFigure(left) || startsLower(left) {
		return false
	}
	if d := find.Dates(left, nil); len(d) != 1 || d[0].From > 0 || d[0].To < len(left) {
		return false
	}
	return slices.ContainsFunc(s.cells, func(o cell) bool {
		return o.page == c.page && o.row < c.row && c.row-o.row < 14 && abs(o.box[0]-x) < 12 && len(s.rows[o.row]) > 2 && !hasFigure(o.text) && o.box[0] > c.box[0]
	})
}

// begins counts the rows near the cell in which a number, or the number's heading, begins at x.
func (s *sheet) begins(c *cell, x int, below bool) int {
	n := 0
	for i := range s.cells {
		o := &s.cells[i]
		if o.page == c.page && o.row != c.row && abs(o.row-c.row) < 14 && (!below || o.row > c.row) && abs(o.box[0]-x) < 150 && len(s.rows[o.row]) > 2 && bareNumber.MatchString(o.text) {
			n++
		}
	}
	return n
}

// cutCell cuts a cell before word k and returns the cell of what follows.
func (s *sheet) cutCell(ci, k int) int {
	c := s.cells[ci]
	from := c.words[k].from
	rest := c
	rest.text, rest.box, rest.words = c.text[from:], paper.Box{}, nil
	for _, w := range c.words[k:] {
		rest.box = rest.box.Union(w.box)
		rest.words = append(rest.words, placed{w.from - from, w.to - from, w.box, w.confidence, w.hidden, w.bold})
	}
	c.text, c.words, c.box = c.text[:from-1], slices.Clone(c.words[:k]), paper.Box{}
	for _, w := range c.words {
		c.box = c.box.Union(w.box)
	}
	s.cells[ci] = c
	s.cells = append(s.cells, rest)
	return len(s.cells) - 1
}
