package page

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"golang.org/x/net/html/charset"
	"golang.org/x/text/encoding/unicode"
)

const (
	textBytes = 8 << 20 // of the text of one document: more is no certificate
	mostLines = 100_000
)

// readText reads a plain text.
func readText(b []byte) Document {
	if len(b) > textBytes {
		return tooLarge("it is a text of more than 8 MiB")
	}
	return textDocument(columned(strings.Split(decoded(b, "text/plain"), "\n")))
}

// textDocument makes the one page of a format without pages.
func textDocument(lines []string) Document {
	p := Page{Number: 1}
	empty := true
	for _, line := range lines[:min(len(lines), mostLines)] {
		line = cleanLine(line)
		if line == "" && empty {
			continue // blank lines part paragraphs; more than one says no more
		}
		empty = line == ""
		p.Lines = append(p.Lines, line)
	}
	for len(p.Lines) > 0 && p.Lines[len(p.Lines)-1] == "" {
		p.Lines = p.Lines[:len(p.Lines)-1]
	}
	d := Document{Pages: []Page{p}}
	if len(lines) > mostLines {
		d.Unread, d.Reason = 1, "it has more lines than are read"
	}
	return d
}

// cleanLine makes one space of many in each cell of a line. Tabs part the cells; those
// before the first are kept, for a cell that has nothing before it is in its column.
func cleanLine(s string) string {
	s = unmangled(s)
	cells := strings.Split(s, "\t")
	for i := range cells {
		cells[i] = plain(cells[i], 64<<10)
	}
	return strings.TrimRight(strings.Join(cells, "\t"), "\t")
}

// decoded turns bytes into text: by their mark of order, as UTF-8 if they are that,
// else as said in contentType or inside, else as Windows-1252.
func decoded(b []byte, contentType string) string {
	switch {
	case bytes.HasPrefix(b, []byte("\xff\xfe")), bytes.HasPrefix(b, []byte("\xfe\xff")):
		if out, err := unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewDecoder().Bytes(b); err == nil {
			return lineEnds(string(out))
		}
	case utf16ish(b):
		order := unicode.LittleEndian
		if b[0] == 0 {
			order = unicode.BigEndian
		}
		if out, err := unicode.UTF16(order, unicode.IgnoreBOM).NewDecoder().Bytes(b); err == nil {
			return lineEnds(string(out))
		}
	}
	b = bytes.TrimPrefix(b, []byte("\xef\xbb\xbf"))
	if utf8.Valid(b) {
		return lineEnds(string(b))
	}
	enc, name, _ := charset.DetermineEncoding(b[:min(len(b), 1024)], contentType)
	if name == "utf-8" { // says so, and is not
		enc, _ = charset.Lookup("windows-1252")
	}
	out, err := enc.NewDecoder().Bytes(b)
	if err != nil {
		return lineEnds(strings.ToValidUTF8(string(b), "�"))
	}
	return lineEnds(string(out))
}

// utf16ish says whether every other byte of the beginning is nought.
func utf16ish(b []byte) bool {
	n := min(len(b), 64) &^ 1
	if n < 4 {
		return false
	}
	var zero [2]int
	for i := range n {
		if b[i] == 0 {
			zero[i%2]++
		}
	}
	return (zero[0] == 0) != (zero[1] == 0) && max(zero[0], zero[1])*10 >= n/2*8
}

func lineEnds(s string) string {
	return strings.ReplaceAll(strings.ReplaceAll(s, "\r\n", "\n"), "\r", "\n")
}
