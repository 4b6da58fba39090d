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
	days := []paper.Field{paper.FieldStart, paper.FieldEnd, paper.FieldIssue}
	all := append(days[:len(days):len(days)], paper.FieldDuration, paper.FieldCredits)
	for _, tt := range []struct {
		file         string
		fields       []paper.Field
		exact, right int // of a thousand values, and of a thousand certain values
	}{
		{"testdata/dated1.txt", all, 950, 985},
		{"testdata/dated2.txt", all, 875, 985},
		{"testdata/dated3.txt", all, 925, 980},
		{"testdata/dated4.txt", all, 880, 975},
		{"testdata/dated5.txt", days, 960, 980},
		{"testdata/dated6.txt", days, 985, 995},
		{"testdata/dated7.txt", days, 985, 995},
		{"testdata/dated8.txt", days, 1000, 1000},
	} {
		for _, form := range []struct {
			name string
			of   func(invented) page.Document
		}{{"text", invented.asText}, {"page", invented.asPage}} {
			t.Run(strings.TrimPrefix(tt.file, "testdata/")+" "+form.name, func(t *testing.T) {
				b := newBoard()
				for _, p := range readInvented(t, tt.file) {
					b.addOf(tt.fields, p.truth, extract.Understand(form.of(p), extract.Hints{})[0])
				}
				b.log(t, form.name)
				var sum tally
				for _, f := range tt.fields {
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
