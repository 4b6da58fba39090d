package page

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// seeds adds the test documents of the patterns to a target.
func seeds(f *testing.F, patterns ...string) {
	f.Helper()
	for _, pattern := range patterns {
		files, err := filepath.Glob(filepath.Join("testdata", pattern))
		if err != nil || len(files) == 0 {
			f.Fatalf("no files %s: %v", pattern, err)
		}
		for _, name := range files {
			b, err := os.ReadFile(name)
			if err != nil {
				f.Fatal(err)
			}
			if len(b) < 100_000 {
				f.Add(b)
			}
		}
	}
}

// sound fails if a document breaks what [checked] demands, or holds what no reader
// could show on one line.
func sound(t *testing.T, d Document) {
	t.Helper()
	if _, err := checked(d); err != nil {
		t.Fatal(err)
	}
	if d.Trouble != None && d.Reason == "" {
		t.Fatalf("trouble %q without a reason", d.Trouble)
	}
	for _, p := range d.Pages {
		for _, line := range p.Lines {
			if !utf8.ValidString(line) || strings.ContainsAny(line, "\n\r\x00") {
				t.Fatalf("line %q", line)
			}
		}
	}
	for _, part := range d.Parts {
		if strings.ContainsAny(part.Name, "\n\r\x00") || part.Type == "" {
			t.Fatalf("part %q of type %q", part.Name, part.Type)
		}
	}
}

// Whatever bytes come, the readers of formats without pages give a sound document and
// do not panic; the limits of the child stand behind them, not before.
func FuzzFormatsNeverPanic(f *testing.F) {
	seeds(f, "own/*.eml", "own/*.docx", "own/*.html", "own/*.ics", "own/*.txt", "mail/*.eml", "mail/*.ics")
	f.Fuzz(func(t *testing.T, b []byte) {
		e := &engine{last: b}
		switch kind := typeOf(b); kind {
		case "pdf", "jpeg", "png", "tiff":
		default:
			a, _ := e.read(kind, order{})
			sound(t, a.Document)
		}
		sound(t, readDocx(b))
		sound(t, readHTML(b))
		sound(t, readCalendar(b))
		sound(t, readText(b))
	})
}

func FuzzImageHeadsNeverPanic(f *testing.F) {
	seeds(f, "own/*.png")
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x10Exif\x00\x00II*\x00\x08\x00\x00\x00\x01\x00"))
	f.Add([]byte("MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x06\x00\x00"))
	f.Fuzz(func(t *testing.T, b []byte) {
		for _, kind := range []string{"jpeg", "png", "tiff"} {
			h := headOf(b, kind)
			if h.orientation < 0 || h.orientation > 8 || h.dpi < 0 || h.dpi > 4800 {
				t.Fatalf("%s: %+v", kind, h)
			}
		}
		sound(t, readImage(b, "png").Document)
	})
}

// Every word that the table gives has letters, a box on the page and a confidence, or
// the table is refused.
func FuzzTablesOfLetters(f *testing.F) {
	f.Add(tsvHead+"\n5\t1\t1\t1\t1\t1\t10\t20\t30\t40\t96.5\tword\n", 1)
	f.Add(tsvHead+"\n1\t1\t0\t0\t0\t0\t0\t0\t100\t200\t-1\t\n", 0)
	f.Fuzz(func(t *testing.T, out string, turn int) {
		pic := picture{width: 1000, height: 1000, back: scaling(0.001, 0.001).after(unturned(turn, 1000, 1000))}
		ws, _, err := tsvWords(out, pic)
		if err != nil {
			return
		}
		a := attempt{pic: pic, words: ws, slant: turn % 500}
		a.lay(&Page{Width: 60_000, Height: 80_000})
		for _, w := range ws {
			if w.Text == "" || w.Confidence < 0 || w.Confidence > 100 || w.Box[0] > w.Box[2] || w.Box[1] > w.Box[3] {
				t.Fatalf("%+v", w)
			}
		}
	})
}

// Letters of any place and kind group to words that hold all of them.
func TestWordsKeepTheirLetters(t *testing.T) {
	at := func(r rune, x, y int) char {
		return char{r: r, box: [4]int{x, y, x + 600, y + 1200}, size: 1200}
	}
	space := char{made: true, r: ' '}
	tests := []struct {
		name, why string
		give      []char
		want      string
	}{
		{"space", "a space parts", []char{at('a', 0, 0), space, at('b', 900, 0)}, "a b"},
		{"touching", "letters that touch are one word", []char{at('a', 0, 0), at('b', 600, 0)}, "ab"},
		{"gap", "a table has no spaces, only places", []char{at('a', 0, 0), at('b', 5000, 0)}, "a b"},
		{"next line", "a line ends a word", []char{at('a', 5000, 0), at('b', 0, 1300)}, "a b"},
		{"raised", "the th of 5th belongs to it", []char{at('5', 0, 500), {r: 't', box: [4]int{600, 200, 900, 900}}}, "5t"},
		{"ligature", "a word is found by its letters", []char{at(0xfb01, 0, 0), at('n', 600, 0)}, "fin"},
		{"hyphen of the engine", "it stands for the hyphen at a line's end", []char{at('a', 0, 0), at(2, 600, 0)}, "a-"},
		{"marks of direction", "they could turn an amount round", []char{at('1', 0, 0), at(0x202e, 600, 0), at('2', 600, 0)}, "12"},
	}
	for _, tt := range tests {
		var got []string
		for _, w := range words(tt.give, 60_000, 80_000) {
			got = append(got, w.Text)
		}
		if s := strings.Join(got, " "); s != tt.want {
			t.Errorf("%s: %q, want %q (%s)", tt.name, s, tt.want, tt.why)
		}
	}
}
