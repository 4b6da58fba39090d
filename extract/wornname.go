package extract

import (
	"slices"
	"strings"
)

// restOfName returns the first names that a form has in the next box behind the surname, or
// beneath it: "VEY," beside "ANN MARIE"; "" where the value of the label is whole.
func (l *look) restOfName(p pair) string {
	ci := l.cellAt(p.value)
	c := &l.cells[ci]
	if last, ok := strings.CutSuffix(c.text, ","); !ok || !surnameOnly.MatchString(last) {
		return ""
	}
	row := l.rows[c.row]
	next := l.below(c.row, ci)
	if k := slices.Index(row, ci); k >= 0 && k+1 < len(row) {
		next = row[k+1]
	}
	if next < 0 || l.isLabel(next) {
		return ""
	}
	first := l.cells[next].text
	if m := plainName.FindStringIndex(first); m == nil || m[1] < len(first) || len(strings.Fields(first)) > 3 || notName.MatchString(fold(first)) {
		return ""
	}
	return first
}

// listBeneath reports a label over several names, as the heading of a list has them: the
// first of them is no more meant than the others.
func (l *look) listBeneath(p pair) bool {
	if p.how != beneath {
		return false
	}
	ci := l.cellAt(p.value)
	next := l.below(l.cells[ci].row, ci)
	return next >= 0 && isPersonal(l.cells[ci].text) && isPersonal(l.cells[next].text) && roleOf(l.cells[next].text) == noRole && !l.noName(l.cells[next].text) && !l.isLabel(next)
}
