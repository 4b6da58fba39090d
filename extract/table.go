package extract

import (
	"slices"
	"strings"

	"evidencevault/extract/find"
)

// A table is a row of headings with rows of cells beneath them.
type table struct {
	head  []int     // cells
	roles []role    // of the columns
	lines [][][]int // per row and column the cells
}

// findTables looks for rows in which at least two cells are headings and that are
// followed by rows whose cells stand beneath them.
func (s *sheet) findTables() {
	for r := 0; r < len(s.rows); r++ {
		row := s.rows[r]
		if len(row) < 2 || !s.isHead(row) {
			continue
		}
		t := table{head: row, roles: s.headRoles(row)}
		last := s.fill(&t, r)
		if len(t.lines) == 0 || len(t.lines) == 1 && len(row) < 3 {
			continue
		}
		if len(t.lines) == 1 && !t.priced() {
			s.formLine(t)
			r = last
			continue
		}
		s.tables = append(s.tables, t)
		r = last
	}
}

// formLine takes a row of headings with one row beneath it for what it is: labels with
// their values.
func (s *sheet) formLine(t table) {
	for k, cells := range t.lines[0] {
		if len(cells) == 0 {
			continue
		}
		value := s.whole(cells[0])
		if last := s.whole(cells[len(cells)-1]); last.passage == value.passage {
			value.span.To = last.span.To
		}
		s.formed[t.head[k]] = true
		s.addPair(s.cells[t.head[k]].text, t.roles[k], value, beneath)
	}
}

// priced reports a table of what was bought.
func (t table) priced() bool {
	return slices.Contains(t.roles, isGrandTotal) || slices.Contains(t.roles, isPartSum)
}

// dated reports a table that has a day in each row.
func (t table) dated() bool {
	return slices.ContainsFunc(t.roles, func(r role) bool { return asksDay(r) || r == isStart || r == isEnd || r == isEvent })
}

func (s *sheet) isHead(row []int) bool {
	known, roles := 0, s.headRoles(row)
	if s.boxed && 10*s.least(row) > 14*s.usual {
		return false // the heading of the paper, its letters set apart
	}
	for k, ci := range row {
		if roleOf(s.cells[ci].text) == isPerson && s.besideValue(row, k) {
			return false // a row of a form: the person, and the name beside it
		}
		text := s.cells[ci].text
		if len(find.Dates(text, nil)) > 0 || len(text) > 40 || countedValue.MatchString(text) || strings.HasSuffix(text, ":") {
			return false
		}
		if roles[k] != noRole {
			known++
		}
	}
	return known >= 2 && 2*known >= len(row) && !s.labelsBetween(row) && !s.labelsUnder(row)
}

// labelsUnder reports a row of labels that stand beneath their values: each has a cell right above it,
// in line with it and in larger letters, and values that stand beneath the row are farther off.
func (s *sheet) labelsUnder(row []int) bool {
	r := s.cells[row[0]].row
	if !s.boxed || r == 0 || len(s.rows[r-1]) < len(row) {
		return false
	}
	gap := s.gap(r-1, r)
	for _, ci := range row {
		c := &s.cells[ci]
		if !slices.ContainsFunc(s.rows[r-1], func(oi int) bool {
			o := &s.cells[oi]
			return o.page == c.page && abs(o.box[0]-c.box[0]) <= c.box[3]-c.box[1] && 10*o.size > 11*c.size
		}) {
			return false
		}
	}
	for next := r + 1; next < min(r+3, len(s.rows)); next++ {
		if len(s.rows[next]) > 0 {
			return 3*gap < 2*s.gap(r, next) || len(row) > 1 && len(s.rows[next]) == 1
		}
	}
	return true
}

// countedValue is a number of something, which is a value and heads no column.
var countedValue = matching(`^\d{1,3}(?:[.,]\d+)? \p{L}{2,}`)

// labelsBetween reports a row of a form that has labels and values by turns, which are set
// in type of another size or weight.
func (s *sheet) labelsBetween(row []int) bool {
	if !s.boxed || len(row) < 4 || len(row)%2 > 0 {
		return false
	}
	for k := 0; k < len(row); k += 2 {
		label, value := &s.cells[row[k]], &s.cells[row[k+1]]
		if roleOf(label.text) == noRole || roleOf(value.text) != noRole || 10*abs(label.size-value.size) < label.size && label.bold == value.bold {
			return false
		}
	}
	return true
}

// fill collects the rows beneath the heading at r and returns the last row of the table.
func (s *sheet) fill(t *table, r int) int {
	last, gap := r, 0
	var pending [][]int
	for next := r + 1; next < len(s.rows); next++ {
		row := s.rows[next]
		if len(row) == 0 {
			if gap++; gap > 1 && s.boxed {
				break
			}
			continue
		}
		if row = s.rightOfNote(t, row); len(row) == 0 {
			gap = 0 // a note beside the table
			continue
		}
		if s.endsTable(t, last, next) {
			break
		}
		if s.headGoesOn(t, next) {
			last, gap = next, 0
			continue
		}
		line, fits := s.nextLine(t, row)
		if !fits {
			break
		}
		pending = s.addLine(t, row, line, pending)
		last, gap = next, 0
	}
	return last
}

// nextLine puts the cells of a row under the headings; false where the table ends before it.
func (s *sheet) nextLine(t *table, row []int) ([][]int, bool) {
	line, fits := s.columns(t, row)
	if !fits || len(row) == 1 && len(t.lines) > 1 && s.sumsUp(t.lines[len(t.lines)-1]) {
		return nil, false
	}
	if filledColumns(line) > 1 && t.dated() && !s.leadsOn(row) && !s.figured(row) {
		return nil, false // boxes to tick, or who signs
	}
	return line, true
}

// addLine adds a row to a table, or lets the one above it go on with it. It returns the cells that the
// next row begins with.
func (s *sheet) addLine(t *table, row []int, line, pending [][]int) [][]int {
	n := len(t.lines)
	switch {
	case n > 0 && (s.closesHours(t.lines[n-1], line) || s.allGoOn(row)):
		t.lines[n-1] = join(t.lines[n-1], line)
		return pending
	case s.leadsOn(row):
		return join(pending, line)
	case filledColumns(line) > 1:
		t.lines = append(t.lines, join(pending, line))
		return nil
	case pending != nil || n == 0 || !s.wrapsUp(t, row):
		return join(pending, line)
	}
	t.lines[n-1] = join(t.lines[n-1], line)
	return nil
}

// allGoOn reports a row of further lines of the ruled cells above it.
func (s *sheet) allGoOn(row []int) bool {
	return !slices.ContainsFunc(row, func(ci int) bool {
		over := -1
		if s.cells[ci].ruled > 0 {
			over = s.overInRuled(ci)
		}
		return over < 0 || s.cells[over].passage != s.cells[ci].passage
	})
}

// figured reports a row in which figures stand.
func (s *sheet) figured(row []int) bool {
	return slices.ContainsFunc(row, func(ci int) bool { return hasFigure(s.cells[ci].text) })
}

// leadsOn reports the first lines of cells that wrap, above the row in which the other cells stand: words alone, nearer to
// the figures beneath than to what is above.
func (s *sheet) leadsOn(row []int) bool {
	r := s.cells[row[0]].row
	if !s.boxed || r == 0 || r+1 >= len(s.rows) || len(s.rows[r+1]) <= len(row) || s.figured(row) {
		return false
	}
	c := &s.cells[row[0]]
	height, gap := c.box[3]-c.box[1], s.gap(r, r+1)
	return 2*gap < height && gap > -height && gap <= s.gap(r-1, r) && s.figured(s.rows[r+1])
}

// filledColumns is in how many columns of a row something stands.
func filledColumns(line [][]int) int {
	n := 0
	for _, cells := range line {
		if len(cells) > 0 {
			n++
		}
	}
	return n
}

// rightOfNote returns the cells of a row without those of a narrow column of notes that ends left of
// the table.
func (s *sheet) rightOfNote(t *table, row []int) []int {
	if !s.boxed {
		return row
	}
	left := s.cells[t.head[0]].box[0]
	k := slices.IndexFunc(row, func(ci int) bool {
		c := &s.cells[ci]
		return c.box[2]+c.box[3]-c.box[1] > left
	})
	if k < 0 {
		return nil
	}
	return row[k:]
}

// closesHours reports a row that goes on with the one above it, since it gives the end to hours that
// stand open there: "09.15–" over "10.30".
func (s *sheet) closesHours(above, line [][]int) bool {
	for k, cells := range line {
		if len(cells) == 1 && k < len(above) && len(above[k]) > 0 && openHours.MatchString(strings.TrimSpace(s.cellText(above[k]))) && loneHour.MatchString(strings.TrimSpace(s.cells[cells[0]].text)) {
			return true
		}
	}
	return false
}

var (
	openHours = matching(`(?i)^\d{1,2}(?:[.:hu] ?\d\d)? ?(?:[ap]\.?m\.?|uhr|uur|h)? ?(?:-|–|—|to|bis|à|a|tot|until)$`)
	loneHour  = matching(`(?i)^\d{1,2}(?:[.:hu] ?\d\d)? ?(?:[ap]\.?m\.?|uhr|uur|h)?$`)
)

// endsTable reports that the row next, the first with cells behind the row last, begins something
// else than t: a form, another table, an item, or the place and the day.
func (s *sheet) endsTable(t *table, last, next int) bool {
	row := s.rows[next]
	text := s.cells[row[0]].text
	if r := roleOf(text); s.boxed && len(t.head) == 2 && len(row) == 2 && r != noRole && r != isGrandTotal && r != isPartSum && r != isTitle && len(t.lines) == 1 && s.isLabel(row[0]) {
		return true // the labels of the next row of a form
	}
	if placeAndDay(text) && len(t.lines) > 0 || s.labelsAgain(t, row) {
		return true
	}
	return !s.near(last, next) || s.isHead(row) || beginsDated(text) || len(row) == 1 && beginsItem(text) && !s.itemNamed(t, row[0]) && !s.wrapsClose(t, last, row[0]) && !(s.boxed && startsLower(text) && s.column(t, &s.cells[row[0]]) > 0)
}

// wrapsClose reports a lone cell that is the next line of what stands above it in a narrow column for
// what was bought: in line with it, no wider than the column, nearer than half a line, and no known label.
func (s *sheet) wrapsClose(t *table, last, ci int) bool {
	c := &s.cells[ci]
	k := s.column(t, c)
	label, _, _ := strings.Cut(c.text, ": ")
	if !s.boxed || t.roles[k] != isTitle || k+1 >= len(t.head) || c.box[2] > s.cells[t.head[k+1]].box[0] || roleOf(label) != noRole {
		return false
	}
	return slices.ContainsFunc(s.rows[last], func(oi int) bool {
		o := &s.cells[oi]
		return abs(o.box[0]-c.box[0]) < 100 && 2*(c.box[1]-o.box[3]) < c.box[3]-c.box[1] && o.size == c.size && o.bold == c.bold
	})
}

// sumsUp reports the row that adds up the others, which is the last of a table.
func (s *sheet) sumsUp(line [][]int) bool {
	for _, cells := range line {
		if len(cells) > 0 {
			text := fold(s.cellText(cells))
			return totalWord.MatchString(text) && len(strings.Fields(text)) < 4
		}
	}
	return false
}

// labelsAgain reports a row that is set as the heading is, in letters of another size
// than the row between them: the paper is a form, with labels over their values. A row of
// figures holds no labels.
func (s *sheet) labelsAgain(t *table, row []int) bool {
	if !s.boxed || len(t.lines) != 1 || s.mostlyFigures(row) {
		return false
	}
	head, size := s.least(t.head), s.least(row)
	for _, cells := range t.lines[0] {
		if len(cells) > 0 && 10*abs(s.cells[cells[0]].size-head) <= head {
			return false
		}
	}
	return 20*abs(size-head) < head
}

// mostlyFigures reports a row of which more cells hold figures and no letters than do not.
func (s *sheet) mostlyFigures(row []int) bool {
	n := 0
	for _, ci := range row {
		if text := s.cells[ci].text; hasFigure(text) && !strings.ContainsFunc(text, isLetter) {
			n++
		}
	}
	return 2*n > len(row)
}

// least is the size of the smallest letters in a row.
func (s *sheet) least(row []int) int {
	size := s.cells[row[0]].size
	for _, ci := range row {
		size = min(size, s.cells[ci].size)
	}
	return size
}

// wrapsUp reports that the lone cell of a row goes on the row above rather than
// beginning the next: it stands nearer to it.
func (s *sheet) wrapsUp(t *table, row []int) bool {
	c := &s.cells[row[0]]
	if !s.boxed || c.row+1 >= len(s.rows) {
		return true
	}
	above, below := s.gap(c.row-1, c.row), s.gap(c.row, c.row+1)
	return above <= below+(c.box[3]-c.box[1])/20
}

func (s *sheet) gap(a, b int) int {
	if len(s.rows[a]) == 0 || len(s.rows[b]) == 0 {
		return 1 << 30
	}
	return s.cells[s.rows[b][0]].box[1] - s.cells[s.rows[a][0]].box[3]
}

func join(a, b [][]int) [][]int {
	if a == nil {
		return b
	}
	for i := range b {
		a[i] = append(a[i], b[i]...)
	}
	return a
}

// near reports that row b follows row a closely enough for one table.
func (s *sheet) near(a, b int) bool {
	if !s.boxed {
		return true
	}
	p, c := &s.cells[s.rows[a][0]], &s.cells[s.rows[b][0]]
	return p.page == c.page && c.box[1]-p.box[3] < 3*(c.box[3]-c.box[1])
}

// columns puts the cells of a row under the headings; false if one stands outside. A lone
// cell beneath another heading than the first goes on the cell above it.
func (s *sheet) columns(t *table, row []int) ([][]int, bool) {
	line := make([][]int, len(t.head))
	if s.boxed && s.oneEach(t, row) {
		for k, ci := range row {
			line[k] = []int{ci}
		}
		return line, true
	}
	if !s.boxed && s.sumsFromRight(t, row) {
		line[0] = row[:1]
		for k := 1; k < len(row); k++ {
			line[len(line)-len(row)+k] = []int{row[k]}
		}
		return line, true
	}
	if !s.boxed {
		for _, ci := range row {
			at := len(t.head) - 1
			for at >= 0 && s.cells[t.head[at]].column > s.cells[ci].column {
				at--
			}
			if at < 0 || len(line[at]) > 0 && at == len(t.head)-1 {
				return line, false
			}
			line[at] = append(line[at], ci)
		}
		return line, len(row) > 1 || len(line[0]) == 0
	}
	left, right := s.cells[t.head[0]].box[0], s.cells[t.head[len(t.head)-1]].box[2]
	for _, ci := range row {
		c := &s.cells[ci]
		if len(row) == 1 && (c.box[2]-c.box[0] > (right-left)*3/4 && len(t.head) > 2 || s.crosses(t, c)) {
			return line, false
		}
		line[s.column(t, c)] = append(line[s.column(t, c)], ci)
	}
	return line, true
}

// sumsFromRight reports sums of which the first would stand in the column of names, where the row begins
// with the word for them: cells without places were left out between.
func (s *sheet) sumsFromRight(t *table, row []int) bool {
	if len(row) < 2 || len(row) >= len(t.head) || !totalWord.MatchString(fold(s.cells[row[0]].text)) {
		return false
	}
	if slices.ContainsFunc(row[1:], func(ci int) bool { return !bareNumber.MatchString(s.cells[ci].text) }) {
		return false
	}
	at := len(t.head) - 1
	for at > 0 && s.cells[t.head[at]].column > s.cells[row[1]].column {
		at--
	}
	return t.roles[at] == isTitle
}

// oneEach reports a row with one cell for each heading, none of which stands beneath
// another heading only.
func (s *sheet) oneEach(t *table, row []int) bool {
	if len(row) != len(t.head) {
		return false
	}
	over := func(a, b *cell) bool { return min(a.box[2], b.box[2]) > max(a.box[0], b.box[0]) }
	for k, ci := range row {
		c := &s.cells[ci]
		if over(&s.cells[t.head[k]], c) {
			continue
		}
		if slices.ContainsFunc(t.head, func(hi int) bool { return over(&s.cells[hi], c) }) {
			return false
		}
	}
	return true
}

// crosses reports that c stands under several headings, as a sentence beneath the table does.
func (s *sheet) crosses(t *table, c *cell) bool {
	n := 0
	for _, hi := range t.head {
		h := &s.cells[hi]
		if min(h.box[2], c.box[2])-max(h.box[0], c.box[0]) > (h.box[2]-h.box[0])/2 {
			n++
		}
	}
	return n > 1
}

// column returns the heading with which c overlaps most, else the nearest.
func (s *sheet) column(t *table, c *cell) int {
	best, bestOverlap := 0, -1<<30
	for k, hi := range t.head {
		h := &s.cells[hi]
		if h.ruled > 0 && c.ruled > 0 && h.page == c.page && abs(h.room[0]-c.room[0]) < touch && abs(h.room[2]-c.room[2]) < touch {
			return k
		}
		overlap := min(h.box[2], c.box[2]) - max(h.box[0], c.box[0])
		if abs(h.box[0]-c.box[0]) < 200 || abs(h.box[2]-c.box[2]) < 200 {
			overlap += 1 << 20
		}
		if overlap > bestOverlap {
			best, bestOverlap = k, overlap
		}
	}
	return best
}

// inTable reports whether ci belongs to a table.
func (s *sheet) inTable(ci int) bool {
	return slices.ContainsFunc(s.tables, func(t table) bool {
		if slices.Contains(t.head, ci) {
			return true
		}
		return slices.ContainsFunc(t.lines, func(line [][]int) bool {
			return slices.ContainsFunc(line, func(cells []int) bool { return slices.Contains(cells, ci) })
		})
	})
}

// cellText returns the text of cells of one column, joined.
func (s *sheet) cellText(cells []int) string {
	text := ""
	for i, ci := range cells {
		next := s.cells[ci].text
		if cut := hyphenated(text, next); i > 0 && cut > 0 {
			text = text[:len(text)-cut]
		} else if i > 0 {
			text += " "
		}
		text += next
	}
	return text
}

// placeAndDay reports "Ahrenkamp, 3 March 2026", which closes a paper.
func placeAndDay(text string) bool {
	d := find.Dates(text, nil)
	return len(d) > 0 && d[0].From > 3 && placeGiven(text[:d[0].From]) && capitalised(text) && d[0].To == len(strings.TrimRight(text, " ."))
}
