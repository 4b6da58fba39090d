package extract_test

import (
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// TestWhoCameLater: of an event with one span of the day the time counts for which the person was there,
// less the breaks in it, and the sentence that says so is shown.
func TestWhoCameLater(t *testing.T) {
	const head, foot = "Tannvale Training Trust\nCertificate of Attendance\nThis certifies that\nMona Arkell\nattended the course\nRope Inspection Refresher\non 14 May 2026\n", "\nIssued 20 May 2026"
	for _, c := range []struct {
		says, minutes, shown string
		certain              bool
	}{
		{"The course ran from 9.00 to 16.30. She joined at 10.20 and stayed until the end. Lunch 12.30 to 13.15.", "325", "She joined at 10.20 and stayed until the end", true},
		{"The course ran from 9.00 to 16.30. Ms Arkell left at 15.00. Lunch 12.30 to 13.15.", "315", "Ms Arkell left at 15.00", true},
		{"The course ran from 9.00 to 16.30. She left at 12.00. Lunch 12.30 to 13.15.", "180", "She left at 12.00", true},
		{"The course ran from 9.00 to 16.30, less 45 minutes for lunch. She joined at 10.20.", "325", "She joined at 10.20.", false}, // whether lunch came later is not said
		{"The course ran from 9.00 to 16.30. The lecturer arrived at 8.30.", "450", "9.00 to 16.30", false},                          // of whom it is said is not sure
	} {
		v := extract.Understand(pagesOf(head+c.says+foot), extract.Hints{})[0].Values[paper.FieldDuration]
		if v.Text != c.minutes || v.Place.Quote != c.shown || c.certain && !v.Certain || !c.certain && v.Certain {
			t.Errorf("%q: %q minutes at %q, certain %v; want %s at %q, %v", c.says, v.Text, v.Place.Quote, v.Certain, c.minutes, c.shown, c.certain)
		}
	}
}
