package page

import (
	"strings"
	"unicode"
)

// A text that is set in columns with spaces or tabs is a table like any other: what
// stands beneath each other belongs to one column. The places of its letters are those
// of a typewriter, where every letter has the same width.

// segment is a run of text without a wide gap.
type segment struct {
	text     string
	from, to int  // columns of the typewriter, to exclusive
	gap      int  // columns of white space before it
	tabbed   bool // a tab is among that
}

const (
	wideGap = 3 // spaces that part two cells wherever they stand; two do where a line nearby has them there too
	tabStop = 8 // a tab goes to the next column that this divides
	nearby  = 3 // lines up and down
)

// columned turns lines that are set in columns into lines whose cells are parted by
// tabs, with an empty cell where a column has nothing. Blank lines part tables.
func columned(lines []string) []string {
	cut := make([][]segment, len(lines))
	for i, line := range lines {
		cut[i] = segments(line)
	}
	cells := make([][]segment, len(lines))
	for i := range cut {
		cells[i] = respaced(joinedNarrow(cut, i))
	}
	out := make([]string, len(lines))
	for from, to := 0, 0; from < len(lines); from = to + 1 {
		to = from
		for to < len(lines) && len(cells[to]) > 0 {
			to++
		}
		setColumns(cells[from:to], out[from:to])
	}
	return out
}

// segments cuts a line at every gap of more than one space, and at every tab.
func segments(line string) []segment {
	var out []segment
	var text strings.Builder
	column, from, gap, tabbed := 0, 0, 0, false
	for _, r := range line {
		if r == '\t' || unicode.IsSpace(r) || r == 0xfeff {
			next := column + 1
			if r == '\t' {
				next, tabbed = (column/tabStop+1)*tabStop, true
			}
			gap += next - column
			column = next
			continue
		}
		if gap > 0 || text.Len() == 0 {
			switch {
			case text.Len() > 0 && gap == 1 && !tabbed:
				text.WriteByte(' ')
			default:
				if n := len(out); text.Len() > 0 {
					out[n-1].text, out[n-1].to = text.String(), column-gap
				}
				text.Reset()
				from = column
				out = append(out, segment{from: from, gap: gap, tabbed: tabbed})
			}
		}
		text.WriteRune(r)
		column++
		gap, tabbed = 0, false
	}
	if n := len(out); n > 0 {
		out[n-1].text, out[n-1].to = text.String(), column-gap
	}
	return out
}

// joinedNarrow joins the segments of line i again where only two spaces part them, as behind
// a sentence, and no line nearby has a gap before the same column.
func joinedNarrow(cut [][]segment, i int) []segment {
	var out []segment
	for k, s := range cut[i] {
		if k == 0 || s.tabbed || s.gap >= wideGap || stoppedNearby(cut, i, s.from) {
			out = append(out, s)
			continue
		}
		last := &out[len(out)-1]
		last.text, last.to = last.text+" "+s.text, s.to
	}
	return out
}

// stoppedNearby reports a line near i with a cell that begins at the column, behind a gap.
func stoppedNearby(cut [][]segment, i, column int) bool {
	for n := max(0, i-nearby); n <= min(len(cut)-1, i+nearby); n++ {
		for k, s := range cut[n] {
			if n != i && k > 0 && s.from == column {
				return true
			}
		}
	}
	return false
}

// respaced joins letters that are spaced out, "C E R T I F I C A T E   O F", to words.
func respaced(line []segment) []segment {
	letters := 0
	for _, s := range line {
		for _, f := range strings.Fields(s.text) {
			if len([]rune(f)) != 1 {
				return line
			}
			letters++
		}
	}
	if letters < 5 || !lettered(line[0].text) {
		return line
	}
	words := make([]string, len(line))
	for i, s := range line {
		words[i] = strings.ReplaceAll(s.text, " ", "")
	}
	return []segment{{text: strings.Join(words, " "), from: line[0].from, to: line[len(line)-1].to}}
}

// setColumns writes the lines of one block. The line with the most cells says where the
// columns stand; a line whose cells do not fit beneath it is written as it comes.
func setColumns(block [][]segment, out []string) {
	var head []segment
	for _, line := range block {
		if len(line) > len(head) {
			head = line
		}
	}
	for i, line := range block {
		cells := make([]string, 0, len(head))
		for k, at := range columnsOf(head, line) {
			for len(cells) < at {
				cells = append(cells, "")
			}
			cells = append(cells, line[k].text)
		}
		out[i] = strings.Join(cells, "\t")
	}
}

// columnsOf returns for each cell of a line the column it stands in: the one that it
// overlaps most. Where two would share a column they are simply counted.
func columnsOf(head, line []segment) []int {
	at := make([]int, len(line))
	for k := range line {
		at[k] = k
	}
	if len(head) < 3 && len(line) != 1 || len(line) == len(head) {
		return at
	}
	found := make([]int, len(line))
	for k, s := range line {
		best := -1
		for c, h := range head {
			if o := min(s.to, h.to) - max(s.from, h.from); o > 0 && (best < 0 || o > min(s.to, head[best].to)-max(s.from, head[best].from)) {
				best = c
			}
		}
		if best < 0 || k > 0 && best <= found[k-1] || k == 0 && best > 0 && s.from != head[best].from && len(line) == 1 {
			return at
		}
		found[k] = best
	}
	return found
}
