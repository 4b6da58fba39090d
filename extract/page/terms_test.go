package page

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// A list of terms is read as rows of label and value, whether its ends are written or not.
func TestHTMLTermsAreRows(t *testing.T) {
	for _, tt := range []struct {
		name, give string
		want       []string
	}{
		{"with ends", "<h1>Certificate</h1><dl><dt>Name</dt><dd>Mirela Tannhof</dd><dt>Date of birth</dt><dd>4 May 1980</dd></dl><p>Issued 3 March 2026", []string{"Certificate", "Name\tMirela Tannhof", "Date of birth\t4 May 1980", "Issued 3 March 2026"}},
		{"without ends", "<dl><dt>Date<dd>3 March 2026<dt>Hours<dd>6</dl>after", []string{"Date\t3 March 2026", "Hours\t6", "after"}},
		{"in groups", "<dl><div><dt>Date</dt><dd>3 March 2026</dd></div><div><dt>Place</dt><dd>Tarn</dd></div></dl>", []string{"Date\t3 March 2026", "Place\tTarn"}},
		{"two descriptions", "<dl><dt>Days</dt><dd>3 March</dd><dd>4 March</dd></dl>", []string{"Days\t3 March", "4 March"}},
		{"two terms", "<dl><dt>Course</dt><dt>Kurs</dt><dd>Ropes</dd></dl>", []string{"Course", "Kurs\tRopes"}},
		{"no description", "<dl><dt>Note</dt></dl><p>text", []string{"Note", "text"}},
		{"a paragraph within", "<dl><dt>Course</dt><dd><p>Ropes</p><p>and clamps</p></dd></dl>", []string{"Course\tRopes", "and clamps"}},
		{"in a cell", "<table><tr><td><dl><dt>Date</dt><dd>3 March</dd></dl></td><td>x</td></tr></table>", []string{"Date 3 March\tx"}},
		{"never closed", "<dl><dt>Name", []string{"Name"}},
	} {
		var got []string
		for _, line := range walkHTML(tt.give).lines {
			if line != "" {
				got = append(got, line)
			}
		}
		if diff := cmp.Diff(tt.want, got); diff != "" {
			t.Errorf("%s: %s", tt.name, diff)
		}
	}
}
