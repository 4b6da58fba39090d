package extract_test

import (
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// However much is dropped, reading ends soon; a paper that was not read to its end is
// never clear, and what follows in the file still has its pages.
func TestLongPaperIsReadInPartAndAsked(t *testing.T) {
	line := "has attended the course from 3 March 2026 to 5 March 2026, 7.5 hours, 09:00-17:30, 1.5 CEU"
	lines := append([]string{"Certificate of Attendance", ""}, strings.Split(strings.Repeat(line+"\n", 400), "\n")...)
	pages := []page.Page{{Number: 1, Lines: lines}, {Number: 2, Lines: lines}}
	got := extract.Understand(page.Document{Type: "txt", Pages: pages}, extract.Hints{})
	last := got[len(got)-1]
	if last.Clear() || last.Reason == "" || last.To != 2 {
		t.Errorf("clear %v, reason %q, to page %d", last.Clear(), last.Reason, last.To)
	}
	for _, r := range got {
		for f, v := range r.Values {
			if v.Certain && f != paper.FieldKind {
				t.Errorf("%s is certain", f)
			}
		}
	}
}
