package audit

import (
	"slices"
	"testing"
)

func TestClockHoursOfPapers(t *testing.T) {
	for text, want := range map[string][]hour{
		"08:30 – 17:00 Uhr":          {{510, 1020}},
		"09.00 bis 12.30":            {{540, 750}},
		"de 14h00 à 17h30":           {{840, 1050}},
		"9:00 a.m. to 1:30 p.m.":     {{540, 810}},
		"1:00 - 5:00 pm":             {{780, 1020}},
		"12:15 am to 1:00 am":        {{15, 60}},
		"09:00-10:30, 11:00-12:00":   {{540, 630}, {660, 720}},
		"7 hours":                    nil,
		"17:00 - 09:00":              nil, // past midnight: not judged
		"2026-03-05 - 2026-03-06":    nil,
		"page 109:00 - 10:00":        nil,
		" - ":                        nil,
		"0.6 CEU, 6 contact hours":   nil,
		"from 10:00 until 24:00 h":   {{600, 1440}},
		"van 9.30 tot 10.00 uur":     {{570, 600}},
		"ratio 03:04 - 05:06, 10:99": {{184, 306}},
	} {
		if got := clockHours(text); !slices.Equal(got, want) {
			t.Errorf("%q: %v, want %v", text, got, want)
		}
	}
}
