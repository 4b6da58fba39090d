package page_test

import (
	"encoding/xml"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"evidencevault/extract/page"
)

// counts returns how often each word occurs.
func counts(s string) map[string]int {
	m := map[string]int{}
	for _, w := range strings.Fields(s) {
		m[w]++
	}
	return m
}

// recall returns how many of the words of want are in have, and how many there are.
func recall(have, want string) (hit, all int) {
	h := counts(have)
	for w, n := range counts(want) {
		all += n
		hit += min(n, h[w])
	}
	return hit, all
}

// documents lists the PDFs to compare: our own, and a larger folder if one is named.
func documents(t testing.TB) []string {
	files := append(glob(t, "testdata/own/*.pdf"), glob(t, "testdata/hard/*.pdf")...)
	if dir := os.Getenv("EVIDENCE_VAULT_PDFS"); dir != "" {
		files = append(files, glob(t, filepath.Join(dir, "*.pdf"))...)
	}
	return files
}

// anyAngle has words written at every angle, which the judge takes apart into letters
// ("lo G o2"): its words are no measure there. All other files count.
const anyAngle = "rotate-text-many.pdf"

// The judge is pdftotext of poppler, which shares no code with our engine.
func TestWordsAgreeWithPdftotext(t *testing.T) {
	hits, wants := 0, 0
	for _, f := range documents(t) {
		want, err := tool(t, "pdftotext", "-enc", "UTF-8", f, "-")
		if err != nil || filepath.Base(f) == anyAngle {
			continue // what the judge cannot read is judged elsewhere
		}
		d := read(t, reader(t), f, page.Request{NoOCR: true})
		var all strings.Builder
		for _, p := range d.Pages {
			for _, w := range p.Words {
				all.WriteString(w.Text + " ")
			}
		}
		hit, n := recall(all.String(), want)
		hits, wants = hits+hit, wants+n
		if n >= 20 && float64(hit) < 0.9*float64(n) {
			t.Logf("%s: %d of %d words of pdftotext", f, hit, n)
		}
	}
	t.Logf("%d of %d words that pdftotext reads (%.1f %%)", hits, wants, 100*float64(hits)/float64(wants))
	if wants < 1500 || float64(hits) < 0.97*float64(wants) {
		t.Errorf("%d of %d words of pdftotext: want 97 in 100, of 1500 at least", hits, wants)
	}
}

func TestPageCountsAgreeWithPdfinfo(t *testing.T) {
	judged := 0
	for _, f := range append(glob(t, "testdata/own/*.pdf"), glob(t, "testdata/hard/*.pdf")...) {
		info, err := tool(t, "pdfinfo", f)
		if err != nil {
			continue
		}
		_, after, _ := strings.Cut(info, "Pages:")
		want, err := strconv.Atoi(strings.TrimSpace(strings.SplitN(after, "\n", 2)[0]))
		if err != nil {
			t.Fatalf("%s: pdfinfo said %q", f, info)
		}
		d := read(t, reader(t), f, page.Request{NoOCR: true})
		if len(d.Pages)+d.Unread != want {
			t.Errorf("%s: %d pages and %d unread; pdfinfo counts %d", f, len(d.Pages), d.Unread, want)
		}
		judged++
	}
	if judged < 20 {
		t.Errorf("only %d files judged", judged)
	}
}

// bboxes is what pdftotext -bbox prints.
type bboxes struct {
	Pages []struct {
		Width  float64 `xml:"width,attr"`
		Height float64 `xml:"height,attr"`
		Words  []struct {
			X0   float64 `xml:"xMin,attr"`
			Y0   float64 `xml:"yMin,attr"`
			X1   float64 `xml:"xMax,attr"`
			Y1   float64 `xml:"yMax,attr"`
			Text string  `xml:",chardata"`
		} `xml:"word"`
	} `xml:"body>doc>page"`
}

// Boxes are compared on turned and cropped pages too, since both readers give them as
// the page is displayed.
func TestBoxesAgreeWithPdftotext(t *testing.T) {
	files := append(glob(t, "testdata/own/*.pdf"), "testdata/hard/rotate-each-way.pdf", "testdata/hard/rotate-90-annotations.pdf", "testdata/hard/rotate-inherited.pdf")
	near, all := 0, 0
	for _, f := range files {
		out, err := tool(t, "pdftotext", "-bbox", f, "-")
		if err != nil {
			t.Fatalf("%s: pdftotext: %v", f, err)
		}
		var judge bboxes
		dec := xml.NewDecoder(strings.NewReader(out))
		dec.Strict, dec.AutoClose, dec.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
		if err := dec.Decode(&judge); err != nil {
			t.Fatalf("%s: %v", f, err)
		}
		d := read(t, reader(t), f, page.Request{NoOCR: true})
		for i, p := range d.Pages {
			if i >= len(judge.Pages) {
				t.Fatalf("%s: the judge has %d pages", f, len(judge.Pages))
			}
			want := judge.Pages[i]
			// pdftotext prints the size before the page is turned.
			w, h := int(want.Width*100), int(want.Height*100)
			if abs(p.Width-w)+abs(p.Height-h) > 100 && abs(p.Width-h)+abs(p.Height-w) > 100 {
				t.Errorf("%s page %d: %d × %d hundredths of a point; pdftotext says %d × %d", f, p.Number, p.Width, p.Height, w, h)
			}
			for _, w := range want.Words {
				all++
				if slices.ContainsFunc(p.Words, func(got page.Word) bool {
					x, y := (w.X0+w.X1)*50, (w.Y0+w.Y1)*50
					return got.Text == strings.TrimSpace(w.Text) && inside(got.Box, int(x), int(y))
				}) {
					near++
				}
			}
		}
	}
	t.Logf("%d of %d words have their box where pdftotext has it", near, all)
	if all < 400 || near*100 < all*93 {
		t.Errorf("%d of %d words have their box where pdftotext has it: want 93 in 100", near, all)
	}
}

func abs(n int) int { return max(n, -n) }

func inside(b [4]int, x, y int) bool {
	return x >= b[0]-100 && x <= b[2]+100 && y >= b[1]-200 && y <= b[3]+200
}

func TestPDF(t *testing.T) {
	tests := []struct {
		name, file, why string
		q               page.Request
		check           func(page.Document) error
	}{
		{"password missing", "hard/enc-aes-256-user-view.pdf", "only the person knows it", page.Request{}, trouble(page.Password)},
		{"password wrong", "hard/enc-aes-256-user-view.pdf", "a wrong one opens nothing", page.Request{Password: "nope"}, trouble(page.Password)},
		{"password right", "hard/enc-aes-256-user-view.pdf", "it opens the text", page.Request{Password: "view"}, says("Potato 29")},
		{"owner password only", "hard/enc-aes-256-owner-only.pdf", "the empty user password is tried first", page.Request{}, says("Potato 29")},
		{"some pages", "hard/xref-hybrid.pdf", "a paper may be a range of pages", page.Request{From: 3, To: 4}, func(d page.Document) error {
			if len(d.Pages) != 2 || d.Pages[0].Number != 3 || d.Unread != 0 {
				return fmt.Errorf("%d pages, %d unread", len(d.Pages), d.Unread)
			}
			return nil
		}},
		{"form filled in", "hard/form-filled.pdf", "what is typed into a form is on the page", page.Request{}, func(d page.Document) error {
			for _, w := range d.Pages[0].Words {
				if w.Form && !w.Hidden {
					return nil
				}
			}
			return fmt.Errorf("no word of a form in %q", text(d))
		}},
		{"form without drawings", "hard/form-no-appearances-utf8.pdf", "the value is there though nothing draws it", page.Request{}, says("elephant")},
		{"files within", "hard/attachments.pdf", "each is evidence of its own", page.Request{}, func(d page.Document) error {
			if len(d.Parts) != 3 || len(d.Parts[0].Data) == 0 || d.Parts[0].Name == "" || d.Parts[0].Type == "" {
				return fmt.Errorf("parts %+v", d.Parts)
			}
			return nil
		}},
		{"circle of pages", "hard/loop-pages.pdf", "a page tree that holds itself ends", page.Request{}, says("Potato")},
		{"no map of letters", "hard/font-no-tounicode-2.pdf", "the file says (ELLO7ORLD, the page shows what is meant", page.Request{}, says("Hello World")},
		{"letters mapped to nothing", "hard/font-tounicode-zero.pdf", "one mark that is no letter: nothing is made up", page.Request{}, trouble(page.Unreadable)},
		{"ligatures", "hard/text-ligatures.pdf", "a word is found by its letters", page.Request{}, says("abcdeffffiflffiffl")},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := read(t, reader(t), "testdata/"+tt.file, tt.q)
			if err := tt.check(d); err != nil {
				t.Errorf("%v (%s)", err, tt.why)
			}
		})
	}
}

func trouble(want page.Trouble) func(page.Document) error {
	return func(d page.Document) error {
		if d.Trouble != want || d.Reason == "" {
			return fmt.Errorf("trouble %q because %q: want %q", d.Trouble, d.Reason, want)
		}
		return nil
	}
}

func says(want string) func(page.Document) error {
	return func(d page.Document) error {
		if d.Trouble != page.None || !strings.Contains(text(d), want) {
			return fmt.Errorf("trouble %q, text %q: want %q in it", d.Trouble, text(d), want)
		}
		return nil
	}
}

// The second reader shares no code with the first, so words that both have are safe.
func TestSecondOpinionReadsTheSameWords(t *testing.T) {
	hits, wants := 0, 0
	for _, f := range glob(t, "testdata/own/*.pdf") {
		d := read(t, reader(t), f, page.Request{NoOCR: true, Second: true})
		for _, p := range d.Pages {
			if p.Second != "" {
				hit, n := recall(p.Second, text(page.Document{Pages: []page.Page{p}}))
				hits, wants = hits+hit, wants+n
			}
		}
	}
	t.Logf("%d of %d words have a second opinion", hits, wants)
	if wants < 300 || hits*100 < wants*80 {
		t.Errorf("%d of %d words have a second opinion: want 80 in 100", hits, wants)
	}
}

// A page tree of two thousand pages, as a bomb has it: the first are read, the rest
// are counted.
func TestPagesBeyondTheLimitAreCounted(t *testing.T) {
	d := readBytes(t, reader(t), manyPages(2000), page.Request{NoOCR: true})
	if len(d.Pages) != 200 || d.Unread != 1800 || d.Trouble != page.None {
		t.Errorf("%d pages, %d unread, trouble %q: want 200 and 1800", len(d.Pages), d.Unread, d.Trouble)
	}
}

// A value that nobody can see must not pass as seen.
func TestLettersThatNobodySees(t *testing.T) {
	for ground, draw := range map[string]string{"the paper": "", "a white ground": "1 g 0 0 700 900 re f 0 g "} {
		d := readBytes(t, reader(t), onePage(draw+
			"BT /F 12 Tf 50 700 Td (shown) Tj ET "+
			"1 g BT /F 12 Tf 50 650 Td (white) Tj ET "+
			"0 g BT 3 Tr /F 12 Tf 50 600 Td (ghost) Tj 0 Tr ET "+
			"BT /F 12 Tf 50 2000 Td (far) Tj ET "+
			"BT /F 0.5 Tf 50 550 Td (tiny) Tj ET "+
			"BT /F 12 Tf 50 500 Td (covered) Tj ET 0.9 g 40 490 200 30 re f "+
			"0.2 g 40 440 200 30 re f 1 g BT /F 12 Tf 50 450 Td (banner) Tj ET"), page.Request{NoOCR: true})
		hidden(t, ground, d, map[string]bool{"shown": false, "white": true, "ghost": true, "far": true, "tiny": true, "covered": true, "banner": false})
	}
	d := readBytes(t, reader(t), onePage("0 g 40 690 200 30 re f BT /F 12 Tf 50 700 Td (lost) Tj ET BT /F 12 Tf 50 600 Td (shown) Tj ET"), page.Request{NoOCR: true})
	hidden(t, "a black ground", d, map[string]bool{"lost": true, "shown": false})
}

// hidden demands of each word of the first page whether it is hidden.
func hidden(t *testing.T, ground string, d page.Document, want map[string]bool) {
	t.Helper()
	for _, w := range d.Pages[0].Words {
		hidden, ok := want[w.Text]
		if !ok || hidden != w.Hidden {
			t.Errorf("on %s %q: hidden %v, want %v", ground, w.Text, w.Hidden, hidden)
		}
		delete(want, w.Text)
	}
	if len(want) > 0 {
		t.Errorf("on %s not read at all: %v", ground, want)
	}
}
