package extract_test

import (
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// TestDatedPapers reads short papers in five languages that hold other days, times and numbers
// besides those of the event, as plain lines and as a page. Only days, minutes and credits are
// judged. The floors are what was reached; what the first reading gave is in docs/reading.md.
func TestDatedPapers(t *testing.T) {
	fields := []paper.Field{paper.FieldStart, paper.FieldEnd, paper.FieldIssue, paper.FieldDuration, paper.FieldCredits}
	for _, tt := range []struct {
		file         string
		exact, right int // of a thousand values, and of a thousand certain values
	}{
		{"testdata/dated1.txt", 950, 985},
		{"testdata/dated2.txt", 875, 985},
		{"testdata/dated3.txt", 925, 980},
		{"testdata/dated4.txt", 880, 975},
	} {
		for _, form := range []struct {
			name string
			of   func(invented) page.Document
		}{{"text", invented.asText}, {"page", invented.asPage}} {
			t.Run(strings.TrimPrefix(tt.file, "testdata/")+" "+form.name, func(t *testing.T) {
				b := newBoard()
				for _, p := range readInvented(t, tt.file) {
					b.addOf(fields, p.truth, extract.Understand(form.of(p), extract.Hints{})[0])
				}
				b.log(t, form.name)
				var sum tally
				for _, f := range fields {
					c := b.fields[f]
					sum.exact, sum.wrong, sum.missing = sum.exact+c.exact, sum.wrong+c.wrong, sum.missing+c.missing
					sum.certain, sum.certainExact, sum.silent = sum.certain+c.certain, sum.certainExact+c.certainExact, sum.silent+c.silent
				}
				has := sum.exact + sum.wrong + sum.missing
				t.Logf("%d of %d values exact, %d of %d certain ones right", sum.exact, has, sum.certainExact, sum.certain)
				if 1000*sum.exact < tt.exact*has || 1000*sum.certainExact < tt.right*sum.certain || sum.silent > 0 {
					t.Errorf("%d of %d values are exact, %d of %d certain ones right, %d decided silently; want %d and %d of a thousand, and none",
						sum.exact, has, sum.certainExact, sum.certain, sum.silent, tt.exact, tt.right)
				}
			})
		}
	}
}
