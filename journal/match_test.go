package journal

import (
	"strings"
	"testing"

	"evidencevault/credit"
)

func day(text string) credit.Date {
	if text == "" {
		return credit.Date{}
	}
	return credit.MustDate(text)
}

func TestMatchesAreProposedWithReasons(t *testing.T) {
	activities := []event{
		{id: "A1", title: "Wire Rope Inspection", provider: "Ostrava Cableway School", start: day("2026-03-03"), end: day("2026-03-04")},
		{id: "A2", title: "Evacuation by Night", provider: "Ostrava Cableway School", start: day("2026-09-01"), end: day("2026-09-01")},
		{id: "A3", title: "Wire Rope Inspection", provider: "Vallmere Registry", start: day("2025-03-03"), end: day("2025-03-03")},
	}
	tests := []struct {
		name, why string
		give      event
		issued    string
		want      string
	}{
		{"all agrees", "title, provider and days", event{title: "wire rope inspection", provider: "Ostrava Cableway School", start: day("2026-03-03"), end: day("2026-03-04")}, "2026-02-01", "A1"},
		{"title alone", "twice the same course, the nearer one first", event{title: "Wire Rope Inspection"}, "2026-02-20", "A1 A3"},
		{"provider and date", "the receipt names no course", event{provider: "Ostrava Cableway School"}, "2026-08-01", "A2"},
		{"provider alone", "too little: it may be any course of theirs", event{provider: "Ostrava Cableway School"}, "2027-08-01", ""},
		{"other days", "it was paid for another day", event{title: "Wire Rope Inspection", provider: "Ostrava Cableway School", start: day("2026-05-05"), end: day("2026-05-05")}, "2026-02-01", ""},
		{"words of the title", "the invoice shortens it", event{title: "Rope inspection, fee", provider: "Ostrava Cableway School"}, "2026-02-20", "A1"},
		{"nothing", "an empty title is no title", event{}, "2026-02-20", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var ids []string
			for _, m := range matches(tt.give, day(tt.issued), activities) {
				if ids = append(ids, m.Activity); len(m.Why) == 0 {
					t.Errorf("%s is proposed without a reason", m.Activity)
				}
			}
			if got := strings.Join(ids, " "); got != tt.want {
				t.Errorf("%s: got %q, want %q", tt.why, got, tt.want)
			}
		})
	}
}

func TestNames(t *testing.T) {
	names := []string{"Mara Quillfeather", "Mara Oldname"}
	tests := []struct {
		give string
		want bool
	}{
		{"Mara Quillfeather", true}, {"QUILLFEATHER, Mara", true}, {"Dr. Mara Quillfeather, PhD", true}, {"Quillfeather", true},
		{"M. Quillfeather", true}, {"Mara Oldname", true}, {"Ms Quillfeather", true},
		{"Tara Quillfeather", false}, {"M.", false}, {"", false}, {"Mara Quillfeather Smith", false}, {"Dr. Frau", false}, {"T. Quillfeather", false},
	}
	for _, tt := range tests {
		if got := namesOne(tt.give, names); got != tt.want {
			t.Errorf("%q: %v, want %v", tt.give, got, tt.want)
		}
	}
}
