package page

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strconv"
	"strings"
)

const (
	docxBytes   = 32 << 20 // really unpacked, of all files read together
	docxEntries = 10_000
	docxDepth   = 500
)

// errUnpacked says that a packed file grew beyond what is read.
var errUnpacked = fmt.Errorf("it unpacks to more than %d MiB", docxBytes>>20)

// readDocx reads a word processor's document: head and foot, paragraphs, tables, text
// boxes and notes. What is unpacked is counted as it comes, whatever the archive says.
// Source: ECMA-376, part 1, sections 11.3 and 17.
func readDocx(b []byte) Document {
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		return Document{Trouble: Unreadable, Reason: "the document is damaged: its archive cannot be opened"}
	}
	if len(z.File) > docxEntries {
		return tooLarge(fmt.Sprintf("the document is an archive of %d files", len(z.File)))
	}
	room := int64(docxBytes)
	var head, body, foot []string
	found := false
	d := Document{}
	for _, f := range z.File {
		dir, base := path.Split(f.Name)
		var to *[]string
		switch {
		case f.Name == "word/document.xml":
			to, found = &body, true
		case dir == "word/" && strings.HasPrefix(base, "header") && strings.HasSuffix(base, ".xml"):
			to = &head
		case dir == "word/" && (strings.HasPrefix(base, "footer") || base == "footnotes.xml" || base == "endnotes.xml") && strings.HasSuffix(base, ".xml"):
			to = &foot
		case f.Name == "docProps/core.xml":
			d.Title, d.Language = docxProperties(f, &room)
			continue
		default:
			continue
		}
		lines, err := docxLines(f, &room)
		if errors.Is(err, errUnpacked) {
			return tooLarge("the document is packed so tightly that it cannot be one: " + err.Error())
		}
		if err != nil && f.Name == "word/document.xml" && len(lines) == 0 {
			return Document{Trouble: Unreadable, Reason: "the document is damaged: " + plain(err.Error(), 200)}
		}
		*to = append(*to, lines...)
	}
	if !found {
		return Document{Trouble: Unreadable, Reason: "the document is damaged: it has no text inside"}
	}
	pages := textDocument(append(append(append(head, ""), body...), append([]string{""}, foot...)...))
	d.Pages, d.Unread, d.Reason = pages.Pages, pages.Unread, pages.Reason
	return d
}

// counted reads from r and takes what it reads off room.
type counted struct {
	r    io.Reader
	room *int64
}

func (c counted) Read(p []byte) (int, error) {
	n, err := c.r.Read(p)
	if *c.room -= int64(n); *c.room < 0 {
		return 0, errUnpacked
	}
	return n, err
}

// docxText walks one of the document's files.
type docxText struct {
	lines  []string
	levels []docxLevel // open tables' cells and text boxes, the innermost last
	skip   int         // depth within what is not shown
	run    bool        // within the letters of a run: only they are text
}

// docxLevel is what a paragraph's text is put into: the page, a cell or a box.
type docxLevel struct {
	text strings.Builder
	row  [][]string   // the lines of each cell
	rows [][][]string // of the table that is open on the page
	wide int          // columns that a cell covers; 0 means 1
	box  bool
}

func docxLines(f *zip.File, room *int64) ([]string, error) {
	rc, err := f.Open()
	if err != nil {
		return nil, err
	}
	defer rc.Close()
	dec := xml.NewDecoder(counted{rc, room})
	dec.Strict = false
	dec.Entity = map[string]string{}
	t := &docxText{levels: []docxLevel{{}}}
	depth := 0
	for {
		tok, err := dec.RawToken()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.finish()
			return t.lines, err
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			if depth++; depth > docxDepth {
				return t.lines, errUnpacked
			}
			t.open(tok)
		case xml.EndElement:
			depth--
			t.close(tok.Name.Local)
		case xml.CharData:
			if t.skip == 0 && t.run {
				t.top().text.Write(tok)
			}
		}
	}
	t.finish()
	return t.lines, nil
}

// finish ends what is still open, as in a file that was cut off.
func (t *docxText) finish() {
	for len(t.levels) > 1 {
		t.close("tc")
	}
	if len(t.top().row) > 0 {
		t.close("tr")
	}
	t.table()
	t.paragraph()
}

func (t *docxText) top() *docxLevel { return &t.levels[len(t.levels)-1] }

func (t *docxText) push() { t.levels = append(t.levels, docxLevel{}) }

// pop ends a cell or a box and returns its text.
func (t *docxText) pop() string {
	if len(t.levels) == 1 {
		return ""
	}
	s := t.top().text.String()
	t.levels = t.levels[:len(t.levels)-1]
	return s
}

// lined returns the lines of a text that hold anything.
func lined(text string) []string {
	var out []string
	for _, line := range strings.Split(text, "\n") {
		if line = plain(line, 64<<10); line != "" {
			out = append(out, line)
		}
	}
	return out
}

// silentParts hold what is not shown, or is shown a second time for old programs.
var silentParts = map[string]bool{"instrText": true, "delText": true, "Fallback": true, "del": true, "moveFrom": true}

func (t *docxText) open(tag xml.StartElement) {
	name := tag.Name.Local
	if silentParts[name] || t.skip > 0 {
		t.skip++
		return
	}
	switch name {
	case "t":
		t.run = true
	case "tab":
		t.top().text.WriteByte('\t')
	case "br", "cr":
		t.top().text.WriteByte('\n')
	case "noBreakHyphen":
		t.top().text.WriteByte('-')
	case "tc":
		t.push()
	case "txbxContent":
		t.push()
		t.top().box = true
	case "gridSpan":
		for _, a := range tag.Attr {
			if n, err := strconv.Atoi(a.Value); err == nil && a.Name.Local == "val" {
				t.top().wide = min(max(n, 1), mostSpan)
			}
		}
	case "tr":
		t.top().row = nil
	}
}

func (t *docxText) close(name string) {
	if t.skip > 0 {
		t.skip--
		return
	}
	switch name {
	case "t":
		t.run = false
	case "p":
		t.paragraph()
	case "tc":
		wide := max(1, t.top().wide)
		cell := make([][]string, wide) // the further columns that it covers are empty
		cell[0] = lined(t.pop())
		t.top().row = append(t.top().row, cell...)
	case "tr":
		top := t.top()
		if len(t.levels) > 1 {
			top.text.WriteString("\n" + strings.ReplaceAll(inOne(top.row), "\t", " ") + "\n")
		} else {
			top.rows = append(top.rows, top.row)
		}
		top.row = nil
	case "tbl":
		t.table()
	case "txbxContent":
		t.closeBox()
	}
}

// table ends a table of the page. What stands side by side in several lines each, as a letterhead does that is set
// without lines, is read line by line; a single text of several lines beside others is one, or of two in a row alone.
func (t *docxText) table() {
	if len(t.levels) > 1 {
		return
	}
	rows := t.top().rows
	t.top().rows = nil
	for _, row := range rows {
		several, filled, most := 0, 0, 0
		for _, cell := range row {
			most = max(most, len(cell))
			if len(cell) > 0 {
				filled++
			}
			if len(cell) > 1 {
				several++
			}
		}
		if several < 2 && filled > 1 && (len(rows) > 1 || most < 3) {
			t.lines = append(t.lines, inOne(row))
			continue
		}
		for k := range most {
			line := make([]string, len(row))
			for i, cell := range row {
				if k < len(cell) {
					line[i] = cell[k]
				}
			}
			t.lines = append(t.lines, strings.TrimRight(strings.Join(line, "\t"), "\t"))
		}
	}
}

// inOne returns the cells of a row in one line.
func inOne(row [][]string) string {
	line := make([]string, len(row))
	for i, cell := range row {
		line[i] = strings.Join(cell, " ")
	}
	return strings.TrimRight(strings.Join(line, "\t"), "\t")
}

// closeBox ends a box: each of its paragraphs is a line of the page.
func (t *docxText) closeBox() {
	text := t.top().text.String()
	t.pop()
	for _, line := range strings.Split(text, "\n") {
		if line = cleanLine(line); line != "" {
			t.lines = append(t.lines, line)
		}
	}
}

// paragraph ends a line.
func (t *docxText) paragraph() {
	top := t.top()
	if len(t.levels) > 1 {
		top.text.WriteByte('\n')
		return
	}
	for _, line := range strings.Split(top.text.String(), "\n") {
		t.lines = append(t.lines, cleanLine(line))
	}
	top.text.Reset()
}

// docxProperties reads title and language of the document's own properties.
func docxProperties(f *zip.File, room *int64) (title, language string) {
	rc, err := f.Open()
	if err != nil {
		return "", ""
	}
	defer rc.Close()
	var core struct {
		Title    string `xml:"title"`
		Language string `xml:"language"`
	}
	if err := xml.NewDecoder(counted{rc, room}).Decode(&core); err != nil {
		return "", ""
	}
	return plain(core.Title, 500), languageTag(core.Language)
}
