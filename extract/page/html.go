package page

import (
	"errors"
	"io"
	"strconv"
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// readHTML reads the visible text of a page. Nothing is run or fetched: it is walked
// as a stream of tags, so that no depth of nesting can hurt.
func readHTML(b []byte) Document {
	if len(b) > textBytes {
		return tooLarge("it is a page of more than 8 MiB")
	}
	w := walkHTML(decoded(b, "text/html"))
	d := textDocument(w.lines)
	d.Title, d.Language = plain(w.title.String(), 500), languageTag(w.language)
	return d
}

// htmlWalk gathers lines while the tags of a page go by.
type htmlWalk struct {
	lines    []string
	line     strings.Builder
	title    strings.Builder
	language string
	inTitle  bool
	silent   int      // how deep within what is not shown
	hidden   []string // open elements that hide what they hold
	depth    int      // of open tables' rows
	row      []string // cells, empty ones too, so that each keeps its column
	cell     bool     // a cell is open
	wide     int      // columns that it covers
	down     int      // rows that it covers
	spans    []int    // of the open table, by column: further rows that a cell above covers
	outer    [][]int  // the same of the tables around it
	inTerm   bool     // a term of a list of terms is open
	term     string   // the term whose description comes next
	bytes    int
}

// silentTags hold no text that a reader sees.
var silentTags = map[atom.Atom]bool{atom.Script: true, atom.Style: true, atom.Noscript: true, atom.Template: true,
	atom.Iframe: true, atom.Object: true, atom.Svg: true, atom.Head: true}

// blockTags begin and end a line.
var blockTags = map[atom.Atom]bool{atom.P: true, atom.Div: true, atom.H1: true, atom.H2: true, atom.H3: true, atom.H4: true,
	atom.H5: true, atom.H6: true, atom.Li: true, atom.Ul: true, atom.Ol: true, atom.Dl: true, atom.Dt: true, atom.Dd: true,
	atom.Table: true, atom.Thead: true, atom.Tbody: true, atom.Tfoot: true, atom.Caption: true, atom.Section: true, atom.Article: true,
	atom.Header: true, atom.Footer: true, atom.Nav: true, atom.Aside: true, atom.Main: true, atom.Form: true, atom.Fieldset: true,
	atom.Blockquote: true, atom.Pre: true, atom.Hr: true, atom.Address: true, atom.Figure: true, atom.Figcaption: true,
	atom.Legend: true, atom.Body: true, atom.Option: true, atom.Details: true, atom.Summary: true}

func walkHTML(s string) *htmlWalk {
	w := &htmlWalk{}
	z := html.NewTokenizer(strings.NewReader(s))
	z.SetMaxBuf(1 << 20)
	for {
		kind := z.Next()
		if kind == html.ErrorToken {
			if err := z.Err(); !errors.Is(err, io.EOF) {
				w.text("…")
			}
			break
		}
		t := z.Token()
		switch kind {
		case html.TextToken:
			w.text(t.Data)
		case html.StartTagToken, html.SelfClosingTagToken:
			w.open(t, kind == html.SelfClosingTagToken)
		case html.EndTagToken:
			w.close(t)
		}
	}
	w.endRow()
	w.endTerm()
	w.endLine()
	w.leaveTerm()
	return w
}

func (w *htmlWalk) text(s string) {
	if w.inTitle {
		w.title.WriteString(s)
		return
	}
	if w.silent > 0 || len(w.hidden) > 0 || w.bytes > textBytes {
		return
	}
	w.bytes += len(s)
	w.line.WriteString(strings.Map(func(r rune) rune {
		if r == '\n' || r == '\t' || r == '\r' {
			return ' '
		}
		return r
	}, s))
}

func (w *htmlWalk) open(t html.Token, closed bool) {
	if t.DataAtom == atom.Html {
		w.language = attr(t, "lang")
	}
	if len(w.hidden) > 0 && !void(t.DataAtom) && !closed {
		w.hidden = append(w.hidden, t.Data)
		return
	}
	switch {
	case t.DataAtom == atom.Title && !closed:
		w.inTitle = true
	case silentTags[t.DataAtom] && !closed:
		w.silent++
	case t.DataAtom == atom.Body:
		w.silent = 0 // a head that was never closed ends here
		w.endLine()
	case !closed && !void(t.DataAtom) && hides(t):
		w.hidden = append(w.hidden, t.Data)
	case t.DataAtom == atom.Span && strings.Contains(strings.ReplaceAll(attr(t, "style"), " ", ""), "float:right"):
		if w.depth == 0 && w.silent == 0 {
			w.line.WriteByte('\n') // it stands apart, at the other side
		}
	case t.DataAtom == atom.Br:
		w.line.WriteByte('\n')
	case t.DataAtom == atom.Input && attr(t, "type") != "hidden" && attr(t, "type") != "password":
		w.text(" " + attr(t, "value") + " ")
	case t.DataAtom == atom.Tr:
		w.endRow()
		w.endLine()
		w.depth++
	case t.DataAtom == atom.Td || t.DataAtom == atom.Th:
		if w.depth > 0 {
			w.endCell()
			w.cell, w.wide, w.down = true, spanOf(t, "colspan"), spanOf(t, "rowspan")
		}
	case w.depth == 0 && (t.DataAtom == atom.Dt || t.DataAtom == atom.Dd):
		w.openTerm(t.DataAtom == atom.Dt)
	case blockTags[t.DataAtom]:
		w.openBlock(t.DataAtom)
	}
}

// openTerm begins a term of a list of terms, or what is said of one.
func (w *htmlWalk) openTerm(term bool) {
	w.endTerm()
	w.endLine()
	if w.inTerm = term; term {
		w.leaveTerm()
	}
}

// openBlock begins a block, which stands in lines of its own.
func (w *htmlWalk) openBlock(tag atom.Atom) {
	if tag == atom.Table && len(w.outer) < 100 {
		w.outer, w.spans = append(w.outer, w.spans), nil
	}
	w.endLine()
	w.gap(tag)
}

func (w *htmlWalk) close(t html.Token) {
	if n := len(w.hidden); n > 0 {
		for i := n - 1; i >= max(0, n-64); i-- {
			if w.hidden[i] == t.Data {
				w.hidden = w.hidden[:i]
				break
			}
		}
		return
	}
	switch {
	case t.DataAtom == atom.Title:
		w.inTitle = false
	case silentTags[t.DataAtom]:
		w.silent = max(0, w.silent-1)
	case t.DataAtom == atom.Tr:
		w.endRow()
		w.depth = max(0, w.depth-1)
	case t.DataAtom == atom.Td || t.DataAtom == atom.Th:
		if w.depth > 0 {
			w.endCell()
		}
	case w.depth == 0 && t.DataAtom == atom.Dt:
		w.endTerm()
	case w.depth == 0 && t.DataAtom == atom.Dl:
		w.endTerm()
		w.endLine()
		w.leaveTerm()
		w.gap(t.DataAtom)
	case blockTags[t.DataAtom]:
		if n := len(w.outer); t.DataAtom == atom.Table && n > 0 {
			w.outer, w.spans = w.outer[:n-1], w.outer[n-1]
		}
		w.endLine()
		w.gap(t.DataAtom)
	}
}

// endLine ends a line, but within a cell only a word: a cell stays on its row's line.
func (w *htmlWalk) endLine() {
	if w.depth > 0 {
		w.line.WriteByte('\n')
		return
	}
	if strings.TrimSpace(w.line.String()) != "" {
		for _, line := range strings.Split(w.line.String(), "\n") {
			line = plain(line, 64<<10)
			if w.term != "" && line != "" {
				line, w.term = w.term+"\t"+line, "" // a term and its description stand in a row
			}
			w.lines = append(w.lines, line)
		}
	}
	w.line.Reset()
}

// endTerm ends the open term of a list, and keeps it for its description.
func (w *htmlWalk) endTerm() {
	if !w.inTerm {
		return
	}
	w.leaveTerm() // two terms with one description
	w.term, w.inTerm = plain(w.line.String(), 64<<10), false
	w.line.Reset()
}

// leaveTerm writes a term that has no description of its own.
func (w *htmlWalk) leaveTerm() {
	if w.term != "" {
		w.lines = append(w.lines, w.term)
	}
	w.term = ""
}

// gap leaves a blank line before what stands apart on the page.
func (w *htmlWalk) gap(a atom.Atom) {
	switch a {
	case atom.P, atom.H1, atom.H2, atom.H3, atom.H4, atom.H5, atom.H6, atom.Table, atom.Hr, atom.Ul, atom.Ol, atom.Dl, atom.Section, atom.Blockquote:
		if w.depth == 0 {
			w.lines = append(w.lines, "")
		}
	}
}

// endCell ends the open cell, or what stands in a row outside of one.
func (w *htmlWalk) endCell() {
	text := cellText(w.line.String())
	w.line.Reset()
	if !w.cell && text == "" {
		return
	}
	for len(w.row) < len(w.spans) && w.spans[len(w.row)] > 0 {
		w.spans[len(w.row)]--
		w.row = append(w.row, "") // a cell of a row above reaches down here
	}
	for k := range max(1, w.wide) {
		at := len(w.row)
		if w.down > 1 && at < mostSpan {
			for len(w.spans) <= at {
				w.spans = append(w.spans, 0)
			}
			w.spans[at] = w.down - 1
		}
		if k > 0 {
			text = ""
		}
		w.row = append(w.row, text)
	}
	w.cell, w.wide, w.down = false, 0, 0
}

// endRow writes the row as a line whose cells are parted by tabs.
func (w *htmlWalk) endRow() {
	if w.depth == 0 {
		return
	}
	w.endCell()
	for at := len(w.row); at < len(w.spans); at++ {
		w.spans[at] = max(0, w.spans[at]-1)
	}
	line := strings.TrimRight(strings.Join(w.row, "\t"), "\t")
	switch {
	case line == "":
	case !strings.Contains(line, "\t"): // a row of one cell only lays the page out
		w.lines = append(w.lines, strings.Split(line, "\n")...)
	default:
		beneath := remarksBeneath(w.row)
		line = strings.Join(w.row, "\t") // without them
		w.lines = append(w.lines, strings.ReplaceAll(strings.TrimRight(line, "\t"), "\n", " "))
		w.lines = append(w.lines, beneath...)
	}
	w.row = nil
}

// remarksBeneath takes out of the only cell of a row that has several lines those from the first on
// that holds a figure, and returns them: they say something of the row, as "on 5 May" beneath a course.
func remarksBeneath(row []string) []string {
	at := -1
	for i, cell := range row {
		if strings.Contains(cell, "\n") {
			if at >= 0 {
				return nil
			}
			at = i
		}
	}
	if at < 0 {
		return nil
	}
	lines := strings.Split(row[at], "\n")
	if len(strings.Fields(lines[0])) < 3 {
		return nil // a term with what is said of it
	}
	for k := 1; k < len(lines); k++ {
		if strings.ContainsAny(lines[k], "0123456789") {
			row[at] = strings.Join(lines[:k], "\n")
			return lines[k:]
		}
	}
	return nil
}

// cellText returns the lines of a cell that hold something.
func cellText(s string) string {
	var lines []string
	for line := range strings.SplitSeq(s, "\n") {
		if line = plain(line, 64<<10); line != "" {
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "\n")
}

// mostSpan bounds the columns and rows that one cell covers.
const mostSpan = 50

// spanOf returns how many columns or rows a cell covers.
// Source: HTML, section 4.9.11, attributes colspan and rowspan.
func spanOf(t html.Token, key string) int {
	n, err := strconv.Atoi(strings.TrimSpace(attr(t, key)))
	if err != nil || n < 1 {
		return 1
	}
	return min(n, mostSpan)
}

func attr(t html.Token, key string) string {
	for _, a := range t.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

// hides says whether an element says of itself that it is not shown.
func hides(t html.Token) bool {
	style := strings.ReplaceAll(strings.ToLower(attr(t, "style")), " ", "")
	if strings.Contains(style, "display:none") || strings.Contains(style, "visibility:hidden") {
		return true
	}
	for _, a := range t.Attr {
		if a.Key == "hidden" {
			return true
		}
	}
	return false
}

// void elements have no end.
func void(a atom.Atom) bool {
	switch a {
	case atom.Br, atom.Hr, atom.Img, atom.Input, atom.Meta, atom.Link, atom.Area, atom.Base, atom.Col, atom.Embed, atom.Source, atom.Track, atom.Wbr:
		return true
	}
	return false
}
