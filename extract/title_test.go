package extract_test

import (
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// TestOddTitlesAreAsked: what is hardly all of a title, or more than one, is never certain.
func TestOddTitlesAreAsked(t *testing.T) {
	tests := []struct{ title, why string }{
		{"III: Ergonomie", "the word before the number is missing"},
		{"Course code", "it is a label"},
		{"Wir danken für Ihr Interesse", "these are words of thanks"},
		{"Hola, Honoria Sotonueva", "it speaks to a person"},
	}
	for _, tt := range tests {
		r := extract.Understand(pagesOf("Quillmere Institute\n# Certificate of Attendance\nName of participant:   Corina Dunnrigg\nCourse title:   "+tt.title+"\nHeld on:   3 March 2026"), extract.Hints{})[0]
		if v := r.Values[paper.FieldTitle]; v.Certain && v.Text == tt.title {
			t.Errorf("the title %q is certain, want a question: %s", tt.title, tt.why)
		}
	}
	r := extract.Understand(pagesOf("Quillmere Institute\n# Certificate of Attendance\nName of participant:   Corina Dunnrigg\nCourse title:   Thread Gauges for Reviewers\nHeld on:   3 March 2026"), extract.Hints{})[0]
	if v := r.Values[paper.FieldTitle]; !v.Certain || v.Text != "Thread Gauges for Reviewers" {
		t.Errorf("the title is %q, certain %v; want a plain title to be certain", v.Text, v.Certain)
	}
}
