package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// A creditColumn is what stands beneath a heading for credits, whether or not a table was
// made out: it holds over wrapped rows and page breaks.
type creditColumn struct {
	unit  string
	cells []columnNumber
	sum   credit.Amount // of the rows
	total int           // which of the cells states the sum; 0 if none does
	open  bool          // a row may be missing, or a number has no row
}

// columnNumber is a number in a column, and whether its row has a day.
type columnNumber struct {
	value credit.Amount
	at    at
	row   int
	dated bool
}

// creditColumns reads the columns for credits of a list of several courses.
func (l *look) creditColumns() []creditColumn {
	var out []creditColumn
	for ci := range l.cells {
		h := &l.cells[ci]
		if len(l.rows[h.row]) < 2 || hasFigure(h.text) || strings.HasSuffix(h.text, ":") || len(h.text) > 30 {
			continue
		}
		unit, ok := l.headUnit(ci)
		if !ok || slices.ContainsFunc(out, func(c creditColumn) bool { return foldUnit(c.unit) == foldUnit(unit) }) {
			continue
		}
		c := creditColumn{unit: unit, cells: l.numbersBelow(ci)}
		if c.settle() {
			l.nameColumn(&c)
			out = append(out, c)
		}
	}
	return out
}

// headUnit returns the unit that a heading names, which may stand in two lines: "CPD" over
// "points".
func (l *look) headUnit(ci int) (string, bool) {
	h := &l.cells[ci]
	text := h.text
	if l.boxed && h.row+1 < len(l.rows) {
		for _, oi := range l.rows[h.row+1] {
			o := &l.cells[oi]
			if o.page == h.page && !hasFigure(o.text) && min(o.box[2], h.box[2]) > max(o.box[0], h.box[0]) && len(o.text) < 16 && roleOf(text+" "+o.text) == isCredits {
				text += " " + o.text
				break
			}
		}
	}
	if unit := l.legendUnit(h.text); unit != "" {
		return unit, true
	}
	return unitOf(text), roleOf(text) == isCredits
}

// numbersBelow collects the numbers beneath a heading, on its page and those that follow,
// up to the first row of a foot.
func (l *look) numbersBelow(hi int) []columnNumber {
	h := &l.cells[hi]
	var out []columnNumber
	empty := 0
	for r := h.row + 1; r < len(l.rows) && empty < 14; r++ {
		if len(l.rows[r]) == 0 {
			continue
		}
		n, ok := l.numberUnder(r, hi)
		if !ok {
			empty++
			continue
		}
		empty = 0
		out = append(out, n)
	}
	return out
}

// numberUnder returns the number of a row that stands beneath a heading: a cell, or the last
// word of one.
func (l *look) numberUnder(r, hi int) (columnNumber, bool) {
	h := &l.cells[hi]
	row := l.rows[r]
	dated := slices.ContainsFunc(row, func(ci int) bool { return len(l.daysIn([]int{ci})) > 0 })
	for _, ci := range row {
		c := &l.cells[ci]
		text, from := c.text, 0
		if l.boxed && len(c.words) > 0 {
			w := c.words[len(c.words)-1]
			if min(w.box[2], h.box[2]) < max(w.box[0], h.box[0])-100 {
				continue
			}
			text, from = c.text[w.from:w.to], w.from
		} else if l.boxed || c.column != h.column && ci != row[len(row)-1] || ci != row[len(row)-1] && l.rows[h.row][len(l.rows[h.row])-1] == hi {
			continue
		}
		m := bareNumber.FindStringSubmatch(text)
		if p := pointFirst.FindString(text); p != "" {
			m = []string{p, "0" + p}
		}
		if m == nil || len(row) < 2 && from == 0 && !l.boxed {
			continue
		}
		return columnNumber{value: amount(m[1]), at: l.whole(ci).within(from, len(text)), row: r, dated: dated}, true
	}
	return columnNumber{}, false
}

// pointFirst is a part of one without the nought before its point: ".40".
var pointFirst = matching(`^[.,]\d{1,3}$`)

// settle finds the sum of a column: the rows with a day are the list, and a number behind
// them that they add up to is their sum. It reports a list of at least two rows.
func (c *creditColumn) settle() bool {
	last := -1
	for i, n := range c.cells {
		if n.dated {
			last = i
		}
	}
	var days credit.Amount
	for i, n := range c.cells {
		if i >= 2 && i >= last && n.value.Sign() > 0 && !n.dated && (n.value.Equal(c.sum) || n.value.Equal(days)) {
			c.total, c.sum = i, n.value
			return true
		}
		c.sum = c.sum.Add(n.value)
		if n.dated {
			days = days.Add(n.value)
		}
	}
	// Nothing adds up: the list ends with the last day, and what stands behind is unknown.
	c.sum = credit.Amount{}
	for _, n := range c.cells[:last+1] {
		c.sum = c.sum.Add(n.value)
	}
	c.open = slices.ContainsFunc(c.cells, func(n columnNumber) bool { return !n.dated })
	return last >= 1
}

// nameColumn takes the unit that the row of the sum names, where it says more than the heading.
func (l *look) nameColumn(c *creditColumn) {
	if c.total == 0 {
		return
	}
	for _, ci := range l.rows[c.cells[c.total].row] {
		m := lettersUnit.FindStringSubmatch(l.cells[ci].text)
		if m == nil {
			continue
		}
		word := strings.TrimSuffix(fold(m[2]), "s")
		if head := strings.TrimSuffix(fold(c.unit), "s"); head == word || head == fold(m[1]) || strings.HasPrefix(head, fold(m[1])+" hr") {
			c.unit = m[1] + " " + strings.ToLower(m[2])
		}
	}
}

// provenColumns returns the credits of a list of which the rows add up to the sum that is stated.
func provenColumns(columns []creditColumn) (printed []paper.Printed, first at) {
	for _, c := range columns {
		if c.total == 0 {
			continue
		}
		if printed == nil {
			first = c.cells[c.total].at
		}
		printed = append(printed, paper.Printed{Unit: c.unit, Value: c.sum})
	}
	return printed, first
}

// listCredits settles the credits of a list by its columns; false where they do not tell.
// A column without a sum is taken for whole only where each day of the list has its number.
func (l *look) listCredits(hits []creditHit) bool {
	columns := l.creditColumns()
	printed, first := provenColumns(columns)
	if printed != nil {
		for _, c := range hits {
			if !slices.ContainsFunc(printed, func(p paper.Printed) bool { return foldUnit(p.Unit) == c.kind || kin(p.Unit, c.unit) }) && !l.inColumns(columns, c.at) {
				printed = append(printed, paper.Printed{Unit: c.unit, Value: c.value})
			}
		}
		l.putCredits([]guess{{text: paper.FormatCredits(printed), at: first, score: 90, why: "the rows add up to the sum that is stated", sure: true}})
		return true
	}
	stated := slices.ContainsFunc(hits, func(c creditHit) bool { return !l.inColumns(columns, c.at) })
	if len(columns) == 0 || stated || slices.ContainsFunc(l.series, func(r line) bool { return len(r.credits) > 0 }) {
		return false
	}
	var rows []paper.Printed
	for _, c := range columns {
		rows = append(rows, paper.Printed{Unit: c.unit, Value: c.sum})
	}
	l.putCredits([]guess{{text: paper.FormatCredits(rows), at: columns[0].cells[0].at, score: 75, why: "the rows add up to it", sure: l.everyDay(columns)}})
	return true
}

// everyDay reports columns that have one number for each row that begins with a day.
func (l *look) everyDay(columns []creditColumn) bool {
	first := columns[0].cells[0]
	n := 0
	for r := first.row; r < len(l.rows); r++ {
		if len(l.rows[r]) > 0 {
			if d := find.Dates(l.cells[l.rows[r][0]].text, nil); len(d) > 0 && d[0].From == 0 {
				n++
			}
		}
	}
	return !slices.ContainsFunc(columns, func(c creditColumn) bool { return c.open || len(c.cells) != n })
}

// inColumns reports a place that is one of the numbers of the columns.
func (l *look) inColumns(columns []creditColumn, a at) bool {
	return slices.ContainsFunc(columns, func(c creditColumn) bool {
		return slices.ContainsFunc(c.cells, func(n columnNumber) bool { return n.at.overlaps(a) })
	})
}

// kin reports two units of which one says more of the same: "points" and "CPD points".
func kin(a, b string) bool {
	x, y := strings.TrimSuffix(fold(a), "s"), strings.TrimSuffix(fold(b), "s")
	return strings.HasSuffix(x, y) || strings.HasSuffix(y, x)
}
