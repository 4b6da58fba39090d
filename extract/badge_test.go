package extract_test

import (
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

func badgeOf(seal page.Seal, issued string) page.Document {
	b := &page.Badge{Title: "Root Cause Workshop", Provider: "Bright Harbor Institute", Attendee: "Mira Tolland", Type: "Course",
		Start: "2025-06-18T09:00:00Z", End: "2025-06-19", Issued: issued, Credits: "1.1", Seal: seal, Why: "by a key or not"}
	return page.Document{Type: "application/jwt", Badge: b, Pages: []page.Page{{Number: 1, Lines: []string{"Digital badge", "Instruction of 11 contact hours."}}}}
}

// No value of a badge is ever certain: a key that the file brings along may be anyone's.
func TestBadgeIsNeverCertain(t *testing.T) {
	for seal, says := range map[page.Seal]string{page.SealGood: "is the issuer's is not checked", page.SealUnchecked: "signature was not checked"} {
		r := extract.Understand(badgeOf(seal, "last June"), extract.Hints{Holder: "Mira Tolland"})[0]
		for f, want := range map[paper.Field]string{paper.FieldKind: "completion", paper.FieldTitle: "Root Cause Workshop", paper.FieldProvider: "Bright Harbor Institute",
			paper.FieldAttendee: "Mira Tolland", paper.FieldStart: "2025-06-18", paper.FieldEnd: "2025-06-19", paper.FieldCredits: "1.1", paper.FieldIssue: ""} {
			v := r.Values[f]
			if _, asked := r.Question(f); v.Text != want || v.Certain || asked != (want != "") {
				t.Errorf("signature %s, %s: %+v, asked %v: want %q, asked and not certain", seal, f, v, asked, want)
			}
		}
		if q, _ := r.Question(paper.FieldTitle); !strings.Contains(q.Text, says) {
			t.Errorf("signature %s: %q, want it to say %q", seal, q.Text, says)
		}
		if q, _ := r.Question(paper.FieldKind); !strings.HasSuffix(q.Text, "Its signature is "+string(seal)+": by a key or not.") {
			t.Errorf("signature %s: %q, want it to say what the signature is worth", seal, q.Text)
		}
		other := extract.Understand(badgeOf(seal, ""), extract.Hints{Holder: "Someone Else"})[0]
		if q, asked := other.Question(paper.FieldAttendee); !asked || other.Values[paper.FieldAttendee].Certain || !strings.Contains(q.Text, "another name") {
			t.Errorf("signature %s: the badge of another person is not asked about: %+v", seal, q)
		}
	}
}

// The day is that which the badge writes, at the place whose offset it gives; of an
// instant in UTC near midnight the neighbouring day is a candidate too.
func TestDaysOfABadge(t *testing.T) {
	tests := []struct{ issued, day, other, why string }{
		{"2025-03-14", "2025-03-14", "", "a day"},
		{"2025-03-14T23:30:00+01:00", "2025-03-14", "", "the day at the place it was made"},
		{"2025-03-14T23:30:00-05:00", "2025-03-14", "", "likewise, though it is the 15th in UTC"},
		{"2025-03-14T00:30:00+00:00", "2025-03-14", "", "an offset of nought names a place"},
		{"2025-03-14T12:00:00Z", "2025-03-14", "", "far from midnight"},
		{"2025-03-14T00:00:00Z", "2025-03-14", "", "a day that a program wrote as an instant"},
		{"2025-03-14T23:59:59Z", "2025-03-14", "", "the end of a day, likewise"},
		{"2025-03-14T01:15:00Z", "2025-03-14", "2025-03-13", "an evening to the west"},
		{"2025-03-14T08:00:00Z", "2025-03-14", "", "eight hours"},
		{"2025-03-14T22:10:00Z", "2025-03-14", "2025-03-15", "a morning to the east"},
		{"2025-12-31T23:00:00.5Z", "2025-12-31", "2026-01-01", "over new year"},
		{"14/03/2025", "", "", "no form of the standards: the line shows it"},
	}
	for _, tt := range tests {
		r := extract.Understand(badgeOf(page.SealGood, tt.issued), extract.Hints{})[0]
		v := r.Values[paper.FieldIssue]
		q, _ := r.Question(paper.FieldIssue)
		other := ""
		if len(q.Candidates) == 2 {
			other = q.Candidates[1].Text
		}
		if v.Text != tt.day || v.Certain || other != tt.other || (tt.other != "") != strings.Contains(q.Text, "in UTC") {
			t.Errorf("%s (%s): %q or %q, %q; want %q or %q", tt.issued, tt.why, v.Text, other, q.Text, tt.day, tt.other)
		}
	}
}
