package extract_test

import (
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// TestCountTimesLength: how often something was held may be written out, and whoever was
// at some of several sessions was at those only.
func TestCountTimesLength(t *testing.T) {
	tests := []struct{ line, want string }{
		{"Der Unterricht fand an 18 Montagen mit jeweils 90 Minuten statt.", "1620"},
		{"She attended six evenings of 90 minutes.", "540"},
		{"The course was held on 4 and 11 November 2025, each session from 18.00 to 20.00.", "240"},
		{"The course met on Mondays from 18.00 to 19.30. She was at 8 of 10 evenings.", "720"},
		{"One CPE credit equals 50 minutes. Time: 9.00 to 11.00", "120"},
	}
	for _, tt := range tests {
		r := extract.Understand(pagesOf("Quillmere Institute\n# Certificate of Attendance\nName of participant:   Corina Dunnrigg\nCourse title:   Thread Gauges for Reviewers\n\n"+tt.line), extract.Hints{})[0]
		if v := r.Values[paper.FieldDuration]; v.Text != tt.want {
			t.Errorf("%q gives %q minutes, want %s", tt.line, v.Text, tt.want)
		}
	}
}

// TestHeadsOverOneRow: a row of headings over a single row of values is a form, not a list.
func TestHeadsOverOneRow(t *testing.T) {
	r := extract.Understand(pagesOf("Quillmere Institute\n# Certificate of Completion\n\nStudent   Course   Completed on   Course length\nCorina Dunnrigg   Silica Dust on Small Sites   5 October 2025   2.5 hours"), extract.Hints{})[0]
	for f, want := range map[paper.Field]string{paper.FieldAttendee: "Corina Dunnrigg", paper.FieldTitle: "Silica Dust on Small Sites", paper.FieldEnd: "2025-10-05", paper.FieldDuration: "150"} {
		if v := r.Values[f]; v.Text != want || !v.Certain {
			t.Errorf("%s is %q, certain %v; want %q for certain", f, v.Text, v.Certain, want)
		}
	}
}
