package extract

import (
	"slices"
	"strings"

	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// A narrow column beside the text, such as a bar with the name and the address of who
// issues the paper, is read by itself: its lines are no labels of what stands beside them.
// So are two columns of running text, whatever their widths.

// gutter is the least width of the white between a narrow column and the text, and
// widest the most of the printed width, per hundred, that such a column takes.
const (
	gutter = 700
	widest = 42
)

// band is a part of a page in which an upright line of white parts two columns.
type band struct {
	at          int // where the right column begins
	top, bottom int
}

// A strand is words that are read one after the other.
type strand struct {
	words []page.Word
	edge  int // of a narrow column: how far right its lines run; else 0
}

// strands parts the words of a page into what is read one after the other: usually all
// of them; with a narrow column, what stands above it, the columns, and what stands below.
func strands(words []page.Word) []strand {
	b, ok := narrowColumn(words)
	if !ok {
		return []strand{{words: words}}
	}
	out := make([]strand, 4)
	var column, text paper.Box
	for _, g := range segments(words) { // whole, for the letters of one reach lower than those of another
		k := 0
		switch middle := (g.box[1] + g.box[3]) / 2; {
		case middle < b.top:
		case middle > b.bottom:
			k = 3
		case g.box[0] < b.at:
			k, column = 1, column.Union(g.box)
		default:
			k, text = 2, text.Union(g.box)
		}
		out[k].words = append(out[k].words, g.words...)
	}
	switch left, right := column[2]-column[0], text[2]-text[0]; {
	case 10*min(left, right) > 7*max(left, right):
		out[1].edge, out[2].edge = column[2], text[2]
	case left < right:
		out[1].edge = column[2]
	default:
		out[2].edge = text[2]
	}
	return out
}

// segment is a run of words of one row without a wide gap.
type segment struct {
	box   paper.Box
	text  string
	row   int
	words []page.Word
}

func segments(words []page.Word) []segment {
	var out []segment
	for r, row := range rowsOf(slices.Clone(words)) {
		for i, w := range row {
			if i == 0 || wide(row[i-1], w) && !dashed(row, i) {
				out = append(out, segment{box: paper.Box(w.Box), text: w.Text, row: r, words: []page.Word{w}})
				continue
			}
			last := &out[len(out)-1]
			last.box, last.text, last.words = last.box.Union(paper.Box(w.Box)), last.text+" "+w.Text, append(last.words, w)
		}
	}
	return out
}

// narrowColumn looks for the upright line of white that parts most lines.
func narrowColumn(words []page.Word) (band, bool) {
	segs := segments(words)
	if len(segs) < 8 || len(segs) > 400 {
		return band{}, false
	}
	var print paper.Box
	for _, g := range segs {
		print = print.Union(g.box)
	}
	var edges []int
	for _, g := range segs {
		if !slices.ContainsFunc(edges, func(e int) bool { return abs(e-g.box[0]) < 100 }) {
			edges = append(edges, g.box[0])
		}
	}
	best, most := band{}, 0
	for _, x := range edges {
		if b, n := bandAt(segs, x, print); n > most {
			best, most = b, n
		}
	}
	return best, most > 0
}

// bandAt returns the tallest band parted at x, and how many lines it parts; 0 if what
// stands beside the text is no column of its own.
func bandAt(segs []segment, x int, print paper.Box) (band, int) {
	listed := tableRows(segs)
	crosses := func(g segment) bool { return listed[g.row] || g.box[0] < x-100 && g.box[2] > x-gutter }
	best, most := band{}, 0
	for from := 0; from < len(segs); {
		to := from
		for to < len(segs) && !crosses(segs[to]) {
			to++
		}
		for to > from && to < len(segs) && segs[to-1].row == segs[to].row {
			to-- // the row of what crosses is no part of the band
		}
		var left, right []segment
		for _, g := range segs[from:max(from, to)] {
			if g.box[0] < x-100 {
				left = append(left, g)
			} else {
				right = append(right, g)
			}
		}
		if n := len(left) + len(right); n > most && asColumn(left, right, print) {
			b := band{at: x - 100, top: 1 << 30}
			for _, g := range segs[from:to] {
				b.top, b.bottom = min(b.top, (g.box[1]+g.box[3])/2-1), max(b.bottom, (g.box[1]+g.box[3])/2+1)
			}
			best, most = b, n
		}
		for to < len(segs) && (crosses(segs[to]) || to <= from) {
			to++
		}
		from = max(to, from+1)
	}
	return best, most
}

// tableRows returns the rows of three cells or more that stand on one line exactly.
func tableRows(segs []segment) map[int]bool {
	n, out := map[int][]segment{}, map[int]bool{}
	for _, g := range segs {
		n[g.row] = append(n[g.row], g)
	}
	for row, list := range n {
		out[row] = len(list) > 2 && !slices.ContainsFunc(list, func(g segment) bool { return !g.onLineOf(list[0]) })
	}
	return out
}

// onLineOf reports two segments on one line: exactly, or on a picture, where boxes are those of the ink, nearly.
func (g segment) onLineOf(o segment) bool {
	top, bottom := abs(g.box[1]-o.box[1]), abs(g.box[3]-o.box[3])
	if g.words[0].Confidence < 100 {
		return 3*min(top, bottom) <= g.box[3]-g.box[1]
	}
	return max(top, bottom) <= 30
}

// asColumn reports that one of two columns is a narrow one whose lines belong together:
// they mostly stand at heights of their own and are no labels.
func asColumn(left, right []segment, print paper.Box) bool {
	if asProse(left) && asProse(right) {
		return true
	}
	narrow, text := left, right
	if width(left) > width(right) {
		narrow, text = right, left
	}
	whole := narrow
	narrow, text = abreast(narrow, text), abreast(text, narrow)
	if len(narrow) > 0 && len(whole)-len(narrow) <= 3 {
		narrow = whole // it may begin a little higher
	}
	if len(narrow) < 2 || len(text) < 3 || 100*width(narrow) > widest*(print[2]-print[0]) {
		return false
	}
	level, labels, ragged, sums, named := 0, 0, 0, 0, 0
	for _, g := range narrow {
		if roleOf(g.text) != noRole {
			named++
		}
		beside := slices.IndexFunc(text, func(t segment) bool {
			height := min(g.box[3]-g.box[1], t.box[3]-t.box[1])
			// letters that reach below the line, or above others, are in one of the two only
			return 4*abs(g.box[3]-t.box[3]) < height || 4*abs(g.box[1]-t.box[1]) < height
		})
		if beside >= 0 {
			level++
		}
		if g.labels(text, beside) {
			labels++
		}
		if bareNumber.MatchString(g.text) {
			sums++
		}
		if abs(g.box[0]-narrow[0].box[0]) > 150 && abs(g.box[0]+g.box[2]-narrow[0].box[0]-narrow[0].box[2]) > 300 {
			ragged++ // cells of a table rather than lines of a column
		}
	}
	if 2*sums >= len(narrow) {
		return false // the last column of a table
	}
	return labels < 2 && 3*named <= 2*len(narrow) && 2*level <= len(narrow) && 3*ragged <= len(narrow)
}

// labels reports that g is the label of what stands beside it, or its value. Small capitals
// are not on one line with the letters beside them, but they are beside them.
func (g segment) labels(text []segment, beside int) bool {
	if beside >= 0 && (g.text[len(g.text)-1] == ':' || roleOf(text[beside].text) != noRole) {
		return true
	}
	return roleOf(g.text) != noRole && (beside >= 0 || slices.ContainsFunc(text, func(t segment) bool {
		return 5*(min(g.box[3], t.box[3])-max(g.box[1], t.box[1])) > 4*min(g.box[3]-g.box[1], t.box[3]-t.box[1])
	}))
}

// asProse reports lines of running text: most of them go on in the middle of a sentence.
func asProse(list []segment) bool {
	words, runs := 0, 0
	for i, g := range list {
		words += strings.Count(g.text, " ") + 1
		if i > 0 && startsLower(g.text) && !ended(list[i-1].text) {
			runs++
		}
	}
	return len(list) >= 4 && words >= 3*len(list) && 2*runs > len(list)-1
}

// abreast returns those of a list that stand no higher and no lower than the others.
func abreast(list, others []segment) []segment {
	var all paper.Box
	for _, g := range others {
		all = all.Union(g.box)
	}
	return slices.DeleteFunc(slices.Clone(list), func(g segment) bool { return g.box[3] < all[1] || g.box[1] > all[3] })
}

func width(list []segment) int {
	var b paper.Box
	for _, g := range list {
		b = b.Union(g.box)
	}
	return b[2] - b[0]
}
