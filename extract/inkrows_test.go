package extract_test

import (
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// inked sets a line of words whose boxes are those of their ink: letters that reach below the
// line make theirs deeper. Each letter is as wide as given.
func inked(text string, x, y, size, wide int) []page.Word {
	var out []page.Word
	for _, w := range strings.Fields(text) {
		bottom := y + 7*size/10
		if strings.ContainsAny(w, "gjpqy,()/") {
			bottom += size / 5
		}
		to := x + wide*len([]rune(w))
		out = append(out, page.Word{Text: w, Box: [4]int{x, y, to, bottom}, Size: size, Confidence: 100})
		x = to + 280
	}
	return out
}

// TestRowsOfInk: the name of a body stays in one piece beside a column that begins between its
// line and the next, though some of its letters reach lower than others.
func TestRowsOfInk(t *testing.T) {
	p := page.Page{Number: 1, Width: 59500, Height: 84200}
	for _, l := range []struct {
		text string
		x, y int
	}{
		{"Southern Register of Kiln Examiners", 6130, 3575}, {"Furnace House, Quay Parade, Grimsmoor GR1 4ZZ", 6130, 4725}, {"Tel 01632 960 118", 6130, 5875},
		{"Form KX/9 (rev. 3, March 2021)", 35000, 4190}, {"Notification of outcome", 35000, 5300},
		{"Candidate: FENNIMORE, Orla Jane", 6130, 7935}, {"Born 17/07/1988", 30000, 7935}, {"Candidate no. 40-2217", 42000, 7935},
		{"Written papers sat on", 6130, 9985}, {"Practical and oral sat on", 35000, 9985}, {"09/03/2026", 6130, 11135}, {"10/03/2026 and 11/03/2026", 35000, 11135},
		{"Result: written 71 % practical 84 % oral satisfactory. The board has PASSED the candidate.", 6130, 13195},
		{"Qualification now held: Tower Kiln Examiner, Grade B", 6130, 15245}, {"Signed for the board", 6130, 19715}, {"Date signed", 35000, 19715}, {"27/03/2026", 35000, 20865},
	} {
		p.Words = append(p.Words, inked(l.text, l.x, l.y, 1000, 450)...)
	}
	got := extract.Understand(page.Document{Type: "pdf", Pages: []page.Page{p}}, extract.Hints{})[0]
	if v := got.Values[paper.FieldProvider]; v.Text != "Southern Register of Kiln Examiners" {
		t.Errorf("the provider is %q, want Southern Register of Kiln Examiners", v.Text)
	}
}
