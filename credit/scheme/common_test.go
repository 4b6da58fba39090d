package scheme_test

import (
	"os"
	"testing"

	"evidencevault/credit"
	"evidencevault/credit/scheme"
)

func readScheme(t *testing.T, name string) credit.Scheme {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	s, bad := scheme.Parse(name, data)
	for _, p := range append(bad, scheme.Check(name, data)...) {
		t.Fatal(p)
	}
	return s
}

var threeYears = credit.Period{Start: credit.MustDate("2024-01-01"), End: credit.MustDate("2026-12-31")}

func minutes(n int64) *credit.Minutes {
	m := credit.Minutes(n)
	return &m
}

func hours(category string, n int64) credit.Claim {
	return credit.Claim{Category: category, End: credit.MustDate("2025-05-05"), Minutes: minutes(60 * n)}
}

func years(category string, n int) credit.Claim {
	start := threeYears.Start
	return credit.Claim{Category: category, Start: start, End: start.AddYears(n).AddDays(-1)}
}

func items(category string, n int64) credit.Claim {
	return credit.Claim{Category: category, End: credit.MustDate("2025-05-05"), Count: &n}
}

func calculate(t *testing.T, s credit.Scheme, claims ...credit.Claim) credit.Statement {
	t.Helper()
	for i := range claims {
		claims[i].ID = "C" + string(rune('1'+i))
	}
	st, err := credit.Calculate(s, credit.Input{Cycle: threeYears, Claims: claims})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// The figures of this test are common practice, no source.
func TestCommonPracticeAwards(t *testing.T) {
	s := readScheme(t, "testdata/common-practice.toml")
	tests := []struct {
		name, why        string
		give             credit.Claim
		awarded, counted string
	}{
		{"ten hours", "0.1 per hour", hours("course", 10), "1", "1"},
		{"a quarter hour", "nothing rounds", credit.Claim{Category: "course", Minutes: minutes(15)}, "0.025", "0.025"},
		{"courses", "at most 9", hours("course", 100), "10", "9"},
		{"one year", "3.6 a year full time", years("practice", 1), "3.6", "3.6"},
		{"three years", "at most 10.8", years("practice", 3), "10.8", "10.8"},
		{"longer than the cycle", "only what lies inside counts", years("practice", 9), "10.8", "10.8"},
		{"one month", "3.6 ÷ 12", credit.Claim{Category: "practice", Start: credit.MustDate("2024-02-01"), End: credit.MustDate("2024-02-29")}, "0.3", "0.3"},
		{"part time", "1.8 a year, at most 5.4", years("part-time", 3), "5.4", "5.4"},
		{"teaching", "0.15 per hour", hours("teaching", 10), "1.5", "1.5"},
		{"study", "0.1 per hour", hours("study", 21), "2.1", "2.1"},
		{"meetings", "0.5 each, at most 11", items("meeting", 23), "11.5", "11"},
		{"committee", "2 a year, at most 8", years("committee", 3), "6", "6"},
		{"certification", "2 for a further one", items("certification", 1), "2", "2"},
		{"multimedia", "at most 3.6", hours("multimedia", 40), "4", "3.6"},
		{"membership", "0.5 a year", years("membership", 3), "1.5", "1.5"},
		{"what is left", "18 − 10.8 = 7.2 needs 72 h, 2 h a month for 36 months", hours("course", 2*36), "7.2", "7.2"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r, _ := calculate(t, s, tt.give).Result("C1")
			if r.Awarded.String() != tt.awarded || r.Counted.String() != tt.counted {
				t.Errorf("%s: awarded %v, counted %v, want %s, %s", tt.why, r.Awarded, r.Counted, tt.awarded, tt.counted)
			}
		})
	}
}

// Five ways that each give 18: common practice, no source.
func TestCommonPracticeWays(t *testing.T) {
	s := readScheme(t, "testdata/common-practice.toml")
	tests := []struct {
		name string
		give []credit.Claim
	}{
		{"10.8 + 7.2", []credit.Claim{years("practice", 3), hours("course", 72)}},
		{"10.8 + 2 + 5.2", []credit.Claim{years("practice", 3), items("certification", 1), hours("course", 52)}},
		{"10.8 + 1.5 + 5.7", []credit.Claim{years("practice", 3), years("membership", 3), hours("course", 57)}},
		{"10.8 + 1.5 + 3.6 + 2.1", []credit.Claim{years("practice", 3), years("membership", 3), hours("multimedia", 36), hours("course", 21)}},
		{"10.8 + 1.5 + 2 + 3.7", []credit.Claim{years("practice", 3), years("membership", 3), items("certification", 1), hours("course", 37)}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			st := calculate(t, s, tt.give...)
			if st.Counted.String() != "18" || !st.Meets || st.Missing.Sign() != 0 {
				t.Errorf("counted %v, missing %v, meets %v, want 18, 0, true", st.Counted, st.Missing, st.Meets)
			}
			last := len(tt.give) - 1
			less := tt.give[last].Minutes
			*less -= 6
			if st := calculate(t, s, tt.give...); st.Meets || st.Missing.String() != "0.01" {
				t.Errorf("six minutes less: missing %v, meets %v, want 0.01, false", st.Missing, st.Meets)
			}
		})
	}
}

func mustParse(t *testing.T, name, text string) credit.Scheme {
	t.Helper()
	s, bad := scheme.Parse(name, []byte(text))
	for _, p := range bad {
		t.Fatal(p)
	}
	return s
}
