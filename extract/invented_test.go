package extract_test

import (
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// An invented paper is a text with its truth.
type invented struct {
	truth
	lines []string
}

func readInvented(t *testing.T, path string) []invented {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var out []invented
	for _, block := range strings.Split(string(text), "\n=== ")[1:] {
		head, body, _ := strings.Cut(block, "\n---\n")
		lines := strings.Split(head, "\n")
		p := invented{truth: truth{name: lines[0], values: map[paper.Field]string{}}, lines: strings.Split(strings.TrimRight(body, "\n"), "\n")}
		for _, line := range lines[1:] {
			key, value, ok := strings.Cut(line, ": ")
			switch {
			case !ok:
				t.Fatalf("%s: %s: line %q is not \"field: value\"", path, lines[0], line)
			case key == "ask":
				for _, f := range strings.Fields(value) {
					p.ask = append(p.ask, paper.Field(f))
				}
			default:
				canonical, err := paper.Canonical(paper.Field(key), value)
				if err != nil {
					t.Fatalf("%s: %s: %v", path, lines[0], err)
				}
				p.values[paper.Field(key)] = canonical
			}
		}
		out = append(out, p)
	}
	return out
}

// asText returns the paper as a format without pages.
func (p invented) asText() page.Document {
	var lines []string
	for _, l := range p.lines {
		lines = append(lines, strings.TrimLeft(l, "#> "))
	}
	return page.Document{Type: "txt", Pages: []page.Page{{Number: 1, Lines: lines}}}
}

// asPage returns the paper set on a page of 595 × 842 points, with words in boxes.
func (p invented) asPage() page.Document { return p.within(6000, 1100) }

// within sets the lines with such a margin and such letters; columns are as much narrower.
func (p invented) within(left, letters int) page.Document {
	const width = 59500
	column := (width - 2*left) * 17000 / 47500
	pg := page.Page{Number: 1, Width: width, Height: 84200}
	y := 7000
	for _, l := range p.lines {
		text := strings.TrimLeft(l, "#> ")
		size := letters
		if strings.Contains(l[:len(l)-len(text)], "#") {
			size = letters * 18 / 11
		}
		x := left
		if strings.HasPrefix(l, ">") {
			x = (width - utf8.RuneCountInString(text)*size/2) / 2
		}
		bottom := y
		for k, cell := range strings.Split(text, "   ") {
			from, edge, line := x, width-left, y
			if strings.Contains(text, "   ") {
				from, edge = left+k*column, left+k*column+column*16/17
			}
			right := from
			for _, w := range strings.Fields(cell) {
				n := utf8.RuneCountInString(w) * size / 2
				if right+n > edge && right > from {
					right, line = from, line+size*13/10
				}
				pg.Words = append(pg.Words, page.Word{Text: w, Box: [4]int{right, line, right + n, line + size}, Size: size, Confidence: 100})
				right += n + size/4
			}
			bottom = max(bottom, line)
		}
		y = bottom + size*16/10
	}
	return page.Document{Type: "pdf", Pages: []page.Page{pg}}
}

func TestInvented(t *testing.T) {
	least := level{paper.FieldKind: 95, paper.FieldStart: 92, paper.FieldEnd: 92, paper.FieldIssue: 92, paper.FieldDuration: 85,
		paper.FieldProvider: 90, paper.FieldTitle: 80, paper.FieldAttendee: 92, paper.FieldCredits: 85, paper.FieldTotal: 85}
	for _, form := range []struct {
		name string
		of   func(invented) page.Document
	}{{"text", invented.asText}, {"page", invented.asPage}} {
		t.Run(form.name, func(t *testing.T) {
			b := newBoard()
			for _, file := range []string{"testdata/invented1.txt", "testdata/invented2.txt", "testdata/invented3.txt", "testdata/invented4.txt", "testdata/invented5.txt", "testdata/invented6.txt"} {
				for _, p := range readInvented(t, file) {
					b.add(p.truth, extract.Understand(form.of(p), extract.Hints{})[0])
				}
			}
			b.log(t, form.name)
			b.hold(t, least)
		})
	}
}
