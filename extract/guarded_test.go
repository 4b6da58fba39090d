package extract

import (
	"strings"
	"testing"

	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// TestFaultIsAnOutcome: a fault while one document is understood is said of that document.
func TestFaultIsAnOutcome(t *testing.T) {
	doc := page.Document{Type: "pdf", Pages: []page.Page{{Number: 2}, {Number: 3}}}
	out := guarded(doc, func() []paper.Reading { panic("slice bounds out of range") })
	if len(out) != 1 || out[0].Outcome != paper.OutcomeUnreadable || !strings.Contains(out[0].Reason, "slice bounds") || out[0].From != 2 || out[0].To != 3 {
		t.Errorf("%+v", out)
	}
}
