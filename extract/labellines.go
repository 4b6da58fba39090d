package extract

import "strings"

// A label of a form may run over lines of which the value stands beside the middle one, or beside the
// first.

// pairOverLines adds the pair of such a label at row r, and reports whether it is one.
func (s *sheet) pairOverLines(r, ci int) bool {
	label := s.labelLines(r, ci)
	if label == "" || s.isLabel(s.rows[r][1]) {
		return false
	}
	role := s.lineRole(label, s.rows[r][1])
	if role == noRole {
		return false
	}
	s.addPair(label, role, s.whole(s.rows[r][1]), beside)
	s.formed[s.rows[r+1][0]] = true // it is no label of its own
	return true
}

// labelLines returns the whole text of such a label at row r, or "" where it has one line.
func (s *sheet) labelLines(r, ci int) string {
	row := s.rows[r]
	if !s.boxed || len(row) != 2 || row[0] != ci || strings.HasSuffix(s.cells[ci].text, ":") {
		return ""
	}
	above, below := s.lineOfLabel(ci, r-1), s.lineOfLabel(ci, r+1)
	switch {
	case above >= 0 && below >= 0 && s.lineOfLabel(above, s.cells[above].row-1) < 0:
		return s.cellText([]int{above, ci, below})
	case above < 0 && below >= 0 && startsLower(s.cells[below].text) && s.lineOfLabel(below, s.cells[below].row+1) < 0:
		return s.cellText([]int{ci, below})
	}
	return ""
}

// lineOfLabel returns the one cell of row r where it is set as the line of a label next to cell ci: in
// line with it, of its size, and nearer than the height of a line; else -1.
func (s *sheet) lineOfLabel(ci, r int) int {
	if r < 0 || r >= len(s.rows) || len(s.rows[r]) != 1 {
		return -1
	}
	c, o := &s.cells[ci], &s.cells[s.rows[r][0]]
	height := c.box[3] - c.box[1]
	gap := max(o.box[1]-c.box[3], c.box[1]-o.box[3])
	if o.page != c.page || abs(o.box[0]-c.box[0]) > 40 || 10*abs(o.size-c.size) > c.size || o.bold != c.bold || 2*gap > height || len(strings.Fields(o.text)) > 4 || strings.HasSuffix(o.text, ":") || hasFigure(o.text) {
		return -1
	}
	return s.rows[r][0]
}

// lineRole is the role of a label that runs over lines: that of a label which is known, or for a day
// what its words say.
func (s *sheet) lineRole(label string, value int) role {
	role := roleOf(label)
	if role == noRole && s.onlyDays(value) {
		role, _, _ = cueOf(label+" ", "")
	}
	return role
}
