package find_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"golang.org/x/text/currency"

	"evidencevault/credit"
	"evidencevault/extract/find"
)

// wordsInCapitals are codes of ISO 4217 that headings and names print more often than
// sums do; they are no currency to the finder.
var wordsInCapitals = strings.Fields("ALL BAM BOB CUP CVE MOP PEN SHP SOS SSP SVC TOP")

// TestCurrencyCodes takes the codes of ISO 4217 that are legal tender from the tables of
// Unicode CLDR (golang.org/x/text/currency): each is read before and behind a sum.
func TestCurrencyCodes(t *testing.T) {
	seen := 0
	for it := currency.Query(currency.Date(time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC))); it.Next(); {
		code := it.Unit().String()
		seen++
		for _, text := range []string{"Total " + code + " 1,234.50", "1.234,50 " + code} {
			got := find.Amounts(text, nil)
			if slices.Contains(wordsInCapitals, code) {
				if len(got) > 0 {
					t.Errorf("%q: %+v, want nothing: the code is a word", text, got)
				}
				continue
			}
			if len(got) != 1 || got[0].Currency != code || got[0].Value != "1234.50" {
				t.Errorf("%q: %+v, want 1234.50 %s", text, got, code)
			}
		}
	}
	if seen < 150 {
		t.Errorf("%d codes, want those of the world", seen)
	}
}

// TestISODurations reads the durations that RFC 5545, section 3.3.6, and ISO 8601-1,
// section 5.5.2, give as examples. Days and weeks have no length.
func TestISODurations(t *testing.T) {
	tests := []struct {
		text    string
		minutes credit.Minutes
		count   string
		unit    find.Unit
	}{
		{"P15DT5H0M20S", 0, "15", find.Day}, {"P7W", 0, "7", find.Week}, {"PT1H0M0S", 60, "1", find.Hour}, {"PT15M", 15, "1/4", find.Hour},
		{"P2D", 0, "2", find.Day}, {"PT36H", 2160, "36", find.Hour}, {"PT0.5H", 30, "1/2", find.Hour}, {"PT7H30M", 450, "15/2", find.Hour},
	}
	for _, tt := range tests {
		got := find.Durations("Duration "+tt.text+".", nil)
		if len(got) != 1 || got[0].Minutes != tt.minutes || got[0].Unit != tt.unit || got[0].Count.Rat().RatString() != tt.count {
			t.Errorf("%s: %+v, want %s %s", tt.text, got, tt.count, tt.unit)
		}
	}
	for _, text := range []string{"P1Y2M", "PT", "P", "PT7", "P 4 x"} {
		if got := find.Durations(text, nil); len(got) > 0 {
			t.Errorf("%s: %+v, want nothing", text, got)
		}
	}
}

// TestISOWeeks compares weeks and days of weeks (ISO 8601-1, section 5.2.3) with those
// that package time works out.
func TestISOWeeks(t *testing.T) {
	for d := credit.MustDate("1998-12-20"); d.Before(credit.MustDate("2032-01-20")); d = d.AddDays(5) {
		year, week := d.Time().ISOWeek()
		day := (int(d.Weekday())+6)%7 + 1
		text := fmt.Sprintf("%d-W%02d-%d", year, week, day)
		if got := find.Dates(text, nil); len(got) != 1 || !slices.Equal(got[0].Days(), []credit.Date{d}) || got[0].Of(text) != text {
			t.Fatalf("%s: %+v, want %v", text, got, d)
		}
		for _, text := range []string{fmt.Sprintf("%d-W%02d", year, week), fmt.Sprintf("KW %d/%d", week, year), fmt.Sprintf("week %d of %d", week, year)} {
			got := find.Ranges(text, nil)
			if len(got) != 1 || !got[0].Week || got[0].Readings[0].Start != d.AddDays(1-day) || got[0].Readings[0].End != d.AddDays(7-day) {
				t.Fatalf("%s: %+v, want the week of %v", text, got, d)
			}
		}
	}
}

// TestISOForms reads the forms of dates and intervals of ISO 8601-1 (sections 5.2 and
// 5.5.2) and RFC 3339 (appendix A).
func TestISOForms(t *testing.T) {
	tests := []struct{ text, start, end string }{
		{"2026-03-03", "2026-03-03", ""},
		{"20260303", "2026-03-03", ""},
		{"2026-03-03T09:00:00Z", "2026-03-03", ""},
		{"2026-03-03T09:00:00.5+01:00", "2026-03-03", ""},
		{"2026-03", "2026-03-01", "2026-03-31"},
		{"2026-03-03/2026-03-05", "2026-03-03", "2026-03-05"},
		{"2026-03-30/04-02", "2026-03-30", "2026-04-02"},
		{"2026-03-03/05", "2026-03-03", "2026-03-05"},
		{"2026-03-03T09:00+01:00/2026-03-05T17:00+01:00", "2026-03-03", "2026-03-05"},
		{"2026-03-05/03", "", ""},
		{"2026-02-30", "", ""},
		{"2026-W54-1", "", ""},
	}
	for _, tt := range tests {
		var got []string
		for _, d := range find.Dates(tt.text, nil) {
			first, last := d.Readings[0].First().String(), d.Readings[0].Last().String()
			if first == last {
				last = ""
			}
			got = append(got, first+last)
		}
		for _, r := range find.Ranges(tt.text, nil) {
			got = append(got, r.Readings[0].Start.String()+r.Readings[0].End.String())
		}
		if s := strings.Join(got, " "); s != tt.start+tt.end {
			t.Errorf("%s: %q, want %q", tt.text, s, tt.start+tt.end)
		}
	}
}
