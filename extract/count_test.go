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

// TestFormAndLetters: boxes with a number, the position held last, a periodical by the
// number of its issue, and the row of the sum.
func TestFormAndLetters(t *testing.T) {
	tests := []struct {
		text, why, want string
		field           paper.Field
	}{
		{"# Course completion\n\nA. Licensee name\n# Rosamund Tally\n\nB. Course provider\n# Pinyon Learning Center\n\nE. Date completed\n# 28 November 2025", "letters number the boxes", "Pinyon Learning Center", paper.FieldProvider},
		{"Hexworth Surveys Ltd\nReference for Mr Rafe Dunwoody\nMr Dunwoody has worked for Hexworth Surveys Ltd since 6 September 2021. He started as a Trainee Surveyor and has held the post of Hull Surveyor since 1 April 2024.", "it is held last", "Hull Surveyor", paper.FieldTitle},
		{"Bulletin of Applied Horology 27 (2026), pp. 41-58\n# Temperature Drift in Tower Clocks\nOrlando Fenwick-Shah\n\nAccepted for publication on 20 November 2025. The article was read by two referees.", "the issue stands behind it", "Bulletin of Applied Horology", paper.FieldProvider},
		{"Quillmere Institute\n# Certificate of Attendance\nParticipant:   Corina Dunnrigg\nCourse title:   Thread Gauges for Reviewers\n\nField of study   CPE credits\nAccounting   3.0\nEthics   1.0\nTotal   4.0", "it is the sum of the rows", "4 CPE credits", paper.FieldCredits},
	}
	for _, tt := range tests {
		r := extract.Understand(pagesOf(tt.text), extract.Hints{})[0]
		if v := r.Values[tt.field]; v.Text != tt.want {
			t.Errorf("%s is %q, want %q: %s", tt.field, v.Text, tt.want, tt.why)
		}
	}
}
