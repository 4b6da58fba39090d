package credit_test

import (
	"fmt"
	"strings"
	"testing"

	"evidencevault/credit"
)

func TestRollingMinimums(t *testing.T) {
	perYear := func(figures ...int64) []credit.Claim {
		var list []credit.Claim
		for i, n := range figures {
			c := hour(fmt.Sprintf("C%d", i+1), "a", n)
			c.End = credit.Day(2024+i, 5, 1)
			list = append(list, c)
		}
		return list
	}
	of := func(per string, least int64, windows ...string) credit.Minimum {
		return credit.Minimum{ID: "rolling", Per: per, Least: credit.Whole(least), Windows: windows}
	}
	tests := []struct {
		name, why string
		minimum   credit.Minimum
		figures   []int64
		have      string
		met       bool
		leaving   string
	}{
		{"each two years", "50 + 40 = 90 and 40 + 30 = 70", of("rolling:2", 60), []int64{50, 40, 30}, "70", true, "2026-01-01 50, 2027-01-01 40, 2028-01-01 30"},
		{"one window short", "40 + 10 = 50", of("rolling:2", 60), []int64{50, 40, 10}, "50", false, "2026-01-01 50, 2027-01-01 40, 2028-01-01 10"},
		{"only the first window", "the second is not looked at", of("rolling:2", 60, "2024 to 2025"), []int64{50, 40, 10}, "90", true, "2026-01-01 50, 2027-01-01 40, 2028-01-01 10"},
		{"longer than the cycle", "of four years that end with the cycle, three have claims", of("rolling:4", 100), []int64{50, 40, 30}, "120", true, "2028-01-01 50, 2029-01-01 40, 2030-01-01 30"},
		{"years of the cycle", "they begin on 1 January here as well", of("cycle_rolling:2", 60), []int64{50, 40, 30}, "70", true, "2026-01-01 50, 2027-01-01 40, 2028-01-01 30"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			st, err := credit.Calculate(hoursScheme(nil, tt.minimum), credit.Input{Cycle: cycle, Claims: perYear(tt.figures...)})
			if err != nil {
				t.Fatal(err)
			}
			var leaving []string
			for _, l := range st.Leaving {
				if l.Minimum != "rolling" {
					t.Errorf("what leaves belongs to %q", l.Minimum)
				}
				leaving = append(leaving, fmt.Sprintf("%v %v", l.Date, l.Amount))
			}
			m := st.Minimums[0]
			if m.Have.String() != tt.have || m.Met != tt.met || strings.Join(leaving, ", ") != tt.leaving {
				t.Errorf("%s: there are %v, met %v, leaving %v; want %s, %v, %s", tt.why, m.Have, m.Met, leaving, tt.have, tt.met, tt.leaving)
			}
		})
	}
}

// A cycle that accepts claims from before its start is looked at over the years before.
func TestRollingWindowReachesBack(t *testing.T) {
	s := hoursScheme(nil, credit.Minimum{ID: "three years", Per: "rolling:3", Least: credit.Whole(60)})
	s.Cycle.AcceptFrom = 24
	year := credit.Period{Start: credit.MustDate("2026-01-01"), End: credit.MustDate("2026-12-31")}
	claims := []credit.Claim{hour("1", "a", 30), hour("2", "a", 25), hour("3", "a", 5)}
	for i := range claims {
		claims[i].End = credit.Day(2024+i, 3, 1)
	}
	st, err := credit.Calculate(s, credit.Input{Cycle: year, Claims: claims})
	if err != nil || !st.Meets || st.Minimums[0].Have.String() != "60" {
		t.Errorf("meets %v, %+v, %v", st.Meets, st.Minimums, err)
	}
}

func TestWindowLabels(t *testing.T) {
	for _, tt := range []struct {
		per, label string
		ok         bool
	}{
		{"year", "2024", true}, {"year", "year 1", false}, {"year", "24x", false},
		{"cycle_year", "year 1", true}, {"cycle_year", "2024", false}, {"cycle_year", "year 0", false},
		{"rolling:3", "2024 to 2026", true}, {"rolling:3", "2024 to 2025", false}, {"rolling:3", "2024", false}, {"rolling:1", "2024", true},
		{"cycle_rolling:2", "year 1 to 2", true}, {"cycle_rolling:2", "1 to 2", false},
	} {
		if got := credit.ValidWindowLabel(tt.per, tt.label); got != tt.ok {
			t.Errorf("%s %q: %v", tt.per, tt.label, got)
		}
	}
}
