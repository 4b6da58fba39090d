package credit_test

import (
	"testing"

	"evidencevault/credit"
)

// A course repeated within three years earns nothing; the plan knows the day from which
// it earns again, and plans it then rather than not at all.
func TestPlanWaitsForARepeatToEarnAgain(t *testing.T) {
	course := ofHours("course", "1")
	course.Repeat = credit.Repeat{By: "provider", Factors: []credit.Amount{credit.Whole(1), {}}, Across: true, Within: 3}
	s := credit.Scheme{ID: "repeats", Unit: "point", Target: credit.Target{Set: true, Amount: credit.Whole(6)}, Categories: []credit.Category{course}}
	hours := credit.Minutes(6 * 60)
	span := credit.Period{Start: credit.MustDate("2026-01-01"), End: credit.MustDate("2028-12-31")}
	tests := []struct {
		name, why string
		earlier   string
		until     string
		first     string // day from which it is planned; "" for not at all
	}{
		{"leaves within the cycle", "three years after 14 May 2025 it earns again", "2025-05-14", "", "2028-05-14"},
		{"long past", "it lies more than three years back from the start", "2022-11-30", "", "2026-03-01"},
		{"offered only before", "the last day it is offered lies within the three years", "2025-05-14", "2028-05-13", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			day := credit.MustDate("2026-03-01")
			in := credit.PlanInput{Input: credit.Input{Cycle: span, On: day,
				Earlier: []credit.Claim{{ID: "C1", Category: "course", Provider: "Rope School", End: credit.MustDate(tt.earlier), Minutes: &hours}}}}
			o := credit.Possible{Title: "Rope Access", Category: "course", Provider: "Rope School", Hours: credit.Whole(6), Times: 1}
			if tt.until != "" {
				o.Until = credit.MustDate(tt.until)
			}
			in.Possible = []credit.Possible{o}
			plan, err := credit.MakePlan(s, in)
			if err != nil {
				t.Fatal(err)
			}
			got := ""
			if len(plan.Ways) > 0 && plan.Ways[0].Meets {
				got = plan.Ways[0].Activities[0].When[0].Start.String()
			}
			if got != tt.first {
				t.Errorf("planned from %q, want %q: %s", got, tt.first, tt.why)
			}
		})
	}
}
