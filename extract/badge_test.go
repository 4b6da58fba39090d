package extract_test

import (
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// What no signature covers is never certain; what one covers is, but for what the badge
// does not say in words.
func TestBadgeIsCertainOnlyUnderItsSeal(t *testing.T) {
	for _, seal := range []page.Seal{page.SealGood, page.SealUnchecked} {
		b := &page.Badge{Title: "Root Cause Workshop", Provider: "Bright Harbor Institute", Attendee: "Mira Tolland", Type: "Course",
			Start: "2025-06-18T09:00:00Z", End: "2025-06-19", Issued: "last June", Credits: "1.1", Seal: seal, Why: "a reason"}
		d := page.Document{Type: "application/jwt", Badge: b, Pages: []page.Page{{Number: 1, Lines: []string{"Digital badge", "Instruction of 11 contact hours."}}}}
		r := extract.Understand(d, extract.Hints{Holder: "Mira Tolland"})[0]
		for f, want := range map[paper.Field]string{paper.FieldKind: "completion", paper.FieldTitle: "Root Cause Workshop", paper.FieldProvider: "Bright Harbor Institute",
			paper.FieldAttendee: "Mira Tolland", paper.FieldStart: "2025-06-18", paper.FieldEnd: "2025-06-19", paper.FieldCredits: "1.1", paper.FieldIssue: ""} {
			v := r.Values[f]
			sealed := seal == page.SealGood && f != paper.FieldKind && f != paper.FieldCredits && want != ""
			if _, asked := r.Question(f); v.Text != want || v.Certain != sealed || asked != (want != "" && !sealed) {
				t.Errorf("signature %s, %s: %+v, asked %v: want %q, certain %v", seal, f, v, asked, want, sealed)
			}
		}
		other := extract.Understand(d, extract.Hints{Holder: "Someone Else"})[0]
		if _, asked := other.Question(paper.FieldAttendee); !asked || other.Values[paper.FieldAttendee].Certain {
			t.Errorf("signature %s: the badge of another person is not asked about", seal)
		}
	}
}
