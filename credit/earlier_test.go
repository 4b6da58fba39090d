package credit_test

import (
	"testing"

	"evidencevault/credit"
)

// What was done in an earlier cycle counts in a series only where the rule looks across
// cycles, and with years only what lies less than so many years before the claim.
func TestSeriesAcrossCycles(t *testing.T) {
	first := func(id, day string) credit.Claim {
		m := credit.Minutes(240)
		return credit.Claim{ID: id, Category: "a", End: credit.MustDate(day), Minutes: &m, Fields: map[string]string{"course": "knots"}}
	}
	tests := []struct {
		name, why string
		repeat    credit.Repeat
		earlier   string // day of the claim in an earlier cycle; "" for none
		want      string
	}{
		{"within the cycle", "the rule does not look back", credit.Repeat{}, "2023-06-01", "4"},
		{"across", "it was done once, whenever that was", credit.Repeat{Across: true}, "1999-06-01", "0"},
		{"across, none", "there is nothing to look back on", credit.Repeat{Across: true}, "", "4"},
		{"within nine years", "one day too early", credit.Repeat{Across: true, Within: 9}, "2015-06-03", "0"},
		{"nine years later", "on the day it may be done again", credit.Repeat{Across: true, Within: 9}, "2015-06-02", "4"},
	}
	for _, test := range tests {
		test.repeat.By, test.repeat.Factors = "course", []credit.Amount{credit.Whole(1), credit.Whole(0)}
		s := credit.Scheme{ID: "s", Categories: []credit.Category{{ID: "a", Award: credit.Award{From: "hours"}, Repeat: test.repeat}}}
		in := credit.Input{Cycle: cycle, Claims: []credit.Claim{first("C2", "2024-06-02")}}
		if test.earlier != "" {
			in.Earlier = []credit.Claim{first("C1", test.earlier)}
		}
		st, err := credit.Calculate(s, in)
		if err != nil {
			t.Fatal(err)
		}
		if st.Counted.String() != test.want || len(st.Claims) != 1 {
			t.Errorf("%s (%s): counted %v of %d claims, want %s", test.name, test.why, st.Counted, len(st.Claims), test.want)
		}
	}
}
