package extract_test

import (
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// TestKindsOfOpenings reads the openings of papers of all kinds in five languages, as plain
// text and as a page, and holds how many kinds are right, and how many of the certain ones.
func TestKindsOfOpenings(t *testing.T) {
	for _, table := range []struct {
		file         string
		right, wrong int // at least right, and at most wrong though certain, in each form
	}{
		{"testdata/kinds1.txt", 80, 0},
		{"testdata/kinds2.txt", 56, 0},
		{"testdata/kinds3.txt", 39, 0},
	} {
		for _, form := range []struct {
			name string
			of   func(invented) page.Document
		}{{"text", invented.asText}, {"page", invented.asPage}} {
			t.Run(table.file+" "+form.name, func(t *testing.T) {
				papers := readInvented(t, table.file)
				right, certain, wrong := 0, 0, 0
				for _, p := range papers {
					v := extract.Understand(form.of(p), extract.Hints{})[0].Values[paper.FieldKind]
					ok := v.Text == p.values[paper.FieldKind]
					if ok {
						right++
					}
					if v.Certain {
						certain++
					}
					if v.Certain && !ok {
						wrong++
					}
					if !ok {
						t.Logf("%s is %s (certain: %v; %s), want %s", p.name, v.Text, v.Certain, v.Why, p.values[paper.FieldKind])
					}
				}
				t.Logf("%d papers: %d right, %d certain, %d of them wrong", len(papers), right, certain, wrong)
				if right < table.right || wrong > table.wrong {
					t.Errorf("%d kinds are right, want at least %d; %d certain ones are wrong, want at most %d", right, table.right, wrong, table.wrong)
				}
			})
		}
	}
}
