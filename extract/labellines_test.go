package extract_test

import (
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// TestLabelsOverLines: a label of a form runs over lines, and its last words say what the day is.
func TestLabelsOverLines(t *testing.T) {
	const head = "Seilschule Bergau\n# Abschlussbestätigung über ein Fernstudium\nTeilnehmerin   Lena Marscher\nLehrgang   Knotenkunde\n"
	tests := []struct {
		why, page string
		field     paper.Field
		want      string
	}{
		{"the value stands beside the first line", head + "Letzte Hausarbeit angenommen, abgeschlossen   27.2.2026\nBergau, 6.3.2026", paper.FieldEnd, "2026-02-27"},
		{"in English", "Fellside Rope Trainers\n# Certificate of completion of a home study course\nName   Lena Marsh\nCourse   Knots and Anchors\nFinal assignment accepted and course completed   27 February 2026\nIssued   6 March 2026", paper.FieldEnd, "2026-02-27"},
		{"a line that goes on with nothing", head + "Einschreibung   3.11.2025\nabgeschlossen am   27.2.2026\nBergau, 6.3.2026", paper.FieldEnd, "2026-02-27"},
	}
	for _, tt := range tests {
		if v := extract.Understand(pagesOf(tt.page), extract.Hints{})[0].Values[tt.field]; v.Text != tt.want {
			t.Errorf("%s: the %s is %q, want %q", tt.why, tt.field, v.Text, tt.want)
		}
	}
}
