package extract

import (
	"strings"
	"testing"

	"evidencevault/extract/page"
)

func TestOrdinalsThatWereMisread(t *testing.T) {
	for give, want := range map[string]string{
		"Sth": "5th", "lst": "1st", "2Ist,": "21st,", "Ist": "Ist", "2lst": "21st", "Znd": "2nd", "3Oth": "30th", "5th": "5th",
		"South": "South", "list": "list", "Ind": "Ind", "Smith": "Smith",
	} {
		if got := counted(give); got != want {
			t.Errorf("%q became %q, want %q", give, got, want)
		}
	}
}

// TestSpacedLetters: a line whose letters are set apart is one text, and a word in it is whole,
// though the font drew two of its letters together; the heads of columns stay apart.
func TestSpacedLetters(t *testing.T) {
	row := func(letter int, gaps []int, texts ...string) (out []page.Word) {
		x := 1000
		for i, text := range texts {
			box := [4]int{x, 0, x + letter*len(text), 1000}
			out = append(out, page.Word{Text: text, Box: box, Laid: box, Confidence: 100})
			x = box[2] + gaps[i%len(gaps)]
		}
		return out
	}
	same, uneven, near := []int{1300}, []int{1300, 1500, 1400}, []int{120}
	for _, tt := range []struct {
		why  string
		row  []page.Word
		want string
	}{
		{"all gaps are the same", row(700, same, "MOORLAND", "LODGE", "OF", "DYERS"), "MOORLAND LODGE OF DYERS"},
		{"the heads of columns", row(700, uneven, "DATE", "TOPIC", "ROOM", "POINTS"), "DATE|TOPIC|ROOM|POINTS"},
		{"no capitals", row(700, same, "Date", "Topic", "Room", "Points"), "Date|Topic|Room|Points"},
		{"two letters drawn together", row(500, near, "S", "T", "AT", "E", "M", "E", "N", "T"), "STATEMENT"},
		{"words of two letters", row(500, []int{400}, "IT", "IS", "ON", "AT"), "IT IS ON AT"},
	} {
		var parts []string
		for _, part := range partRow(page.Page{}, tt.row, 0) {
			var words []string
			for _, w := range part {
				words = append(words, w.Text)
			}
			parts = append(parts, strings.Join(words, " "))
		}
		if got := strings.Join(parts, "|"); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.why, got, tt.want)
		}
	}
}

// TestTypewriterUnderAnotherHead: a letter typed on paper with a printed head keeps its lines in one,
// though the white behind a comma is wide there; a text of letters of many widths has no pitch.
func TestTypewriterUnderAnotherHead(t *testing.T) {
	typed := func(text string, pitch func(r rune) int) (rows [][]page.Word) {
		for r, line := range strings.Split(text, "\n") {
			at := 0
			var row []page.Word
			for _, word := range strings.Fields(line) {
				w := page.Word{Text: word, Box: [4]int{at, 3000 * r, at, 3000*r + 1000}, Confidence: 96}
				for _, r := range word {
					at += pitch(r)
				}
				w.Box[2] = at - 60
				at += pitch(' ')
				row = append(row, w)
			}
			rows = append(rows, row)
		}
		return rows
	}
	body := "worked for this company until August, when\nhydraulic traction machines, little lifts, door operators,\nthroughout until their first safety trial\nBoard started position Mechanic tests"
	head := typed("Installation Modernization Service Grainbin Minton", func(rune) int { return 330 })
	same := func(rune) int { return 600 }
	if got := pitchOf(append(head, typed(body, same)...)); got < 560 || got > 640 {
		t.Errorf("a typewriter's pitch under a printed head is %d, want about 600", got)
	}
	print := func(r rune) int {
		if strings.ContainsRune("fijlrtI1", r) {
			return 330
		}
		return 600
	}
	if got := pitchOf(typed(body, print)); got != 0 {
		t.Errorf("print has a pitch of %d, want none", got)
	}
}

func TestHalvesOfHours(t *testing.T) {
	for _, c := range []struct{ text, next, want string }{
		{"5%", "hours", "5½"}, {"5%", "contact hours", "5½"}, {"3!", "Zeitstunden Unterricht", "3½"}, {"2%", "heures de", "2½"}, {"4%", "horas lectivas", "4½"}, {"6%", "contacturen", "6½"},
		{"5%", "of the", "5%"}, {"20%", "contact with", "20%"},
	} {
		if got := halved(c.text, c.next); got != c.want {
			t.Errorf("%q before %q: %q, want %q", c.text, c.next, got, c.want)
		}
	}
}

// TestBodyInTwoLinesOfAPicture: recognition makes the size of a line with letters below it larger.
func TestBodyInTwoLinesOfAPicture(t *testing.T) {
	line := func(y, size int, words ...string) (out []page.Word) {
		at := 4200
		for _, w := range words {
			out = append(out, page.Word{Text: w, Box: [4]int{at, y, at + 600*len(w), y + 3000}, Size: size, Confidence: 96})
			at += 600*len(w) + 700
		}
		return out
	}
	for confidence, want := range map[int]int{96: 2, 100: 3} {
		p := page.Page{Number: 1, Width: 90000, Height: 60000, Picture: confidence < 100}
		for _, words := range [][]page.Word{line(4000, 9410, "Asociación", "de", "Alfareros", "Jurados"), line(8500, 7710, "del", "Alto", "Barro"), line(20000, 8090, "Remedios", "Quintana")} {
			p.Words = append(p.Words, words...)
		}
		for i := range p.Words {
			p.Words[i].Confidence = confidence
		}
		if s := newSheet(page.Document{Type: "pdf"}, []page.Page{p}); len(s.passages) != want {
			t.Errorf("read with %d of 100: %d passages, want %d", confidence, len(s.passages), want)
		}
	}
}
