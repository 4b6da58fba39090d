package credit_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"evidencevault/credit"
)

// A search that ends early says so, and what it gives is a way all the same: no better
// one lies below the figure that it names.
func TestPlanEndsWithItsBudget(t *testing.T) {
	s, in := possibleNow(7, 300)
	in.Steps = 4_000
	plan, err := credit.MakePlan(s, in)
	if err != nil {
		t.Fatal(err)
	}
	if plan.Proven || len(plan.Ways) == 0 {
		t.Fatalf("%d ways, proven %v", len(plan.Ways), plan.Proven)
	}
	for i, w := range plan.Ways {
		for k, other := range plan.Ways {
			if k != i && other.Compared.AtMost(*w.Compared) && other.Hours.AtMost(w.Hours) {
				t.Errorf("way %d is beaten by way %d", i+1, k+1)
			}
		}
		switch {
		case !w.Meets:
			t.Error("a way that does not meet everything")
		case !w.Proven && w.CostFrom != nil && w.Compared.Cmp(*w.CostFrom) < 0:
			t.Errorf("a way costs %v, below the bound %v", w.Compared, w.CostFrom)
		}
	}
	in.Stop = func() bool { return true }
	if plan, err = credit.MakePlan(s, in); err != nil || plan.Proven {
		t.Errorf("stopped at once: %v, proven %v", err, plan.Proven)
	}
}

// What is settled on is in every way, whatever it costs.
func TestPlanHoldsWhatIsSettled(t *testing.T) {
	s, in := possibleNow(1, 12)
	in.Steps = 20_000
	dear := -1
	for i, o := range in.Possible {
		if dear < 0 || o.Cost.Cmp(in.Possible[dear].Cost) > 0 {
			dear = i
		}
	}
	in.Possible[dear].Chosen = credit.Whole(1)
	plan, err := credit.MakePlan(s, in)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range plan.Ways {
		held := false
		for _, a := range w.Activities {
			held = held || a.Possible == dear && a.Times >= 1 && a.Chosen
		}
		if !held && !plan.Open {
			t.Errorf("the way %v leaves out what is settled on", w.Activities)
		}
	}
}

// Costs in two currencies are compared only at a rate that was given.
func TestPlanCurrencies(t *testing.T) {
	s := credit.Scheme{ID: "two", Unit: "point", Target: credit.Target{Set: true, Amount: credit.Whole(4)}, Categories: []credit.Category{ofHours("a", "1")}}
	in := credit.PlanInput{Input: credit.Input{Cycle: cycle, On: cycle.Start}, Possible: []credit.Possible{
		{Title: "pounds", Category: "a", Hours: credit.Whole(4), Cost: credit.Whole(100), Currency: "GBP"},
		{Title: "euros", Category: "a", Hours: credit.Whole(4), Cost: credit.Whole(110), Currency: "EUR"}}}
	plan, err := credit.MakePlan(s, in)
	if err != nil {
		t.Fatal(err)
	}
	if plan.Currency != "" || len(plan.Ways) != 2 || plan.Ways[0].Compared != nil || !strings.Contains(strings.Join(plan.Notes, " "), "no rate of exchange is given for") {
		t.Errorf("without rates: %q, %d ways, %v", plan.Currency, len(plan.Ways), plan.Notes)
	}
	in.Budget = credit.Budget{Base: "EUR", Rates: map[string]credit.Amount{"GBP": credit.MustAmount("1.2")}}
	if plan, err = credit.MakePlan(s, in); err != nil || len(plan.Ways) != 1 || plan.Ways[0].Activities[0].Title != "euros" || !plan.Ways[0].Compared.Equal(credit.Whole(110)) {
		t.Errorf("at 1.2: %+v %v", plan.Ways, err)
	}
	in.Budget.Rates["GBP"] = credit.Whole(1)
	if plan, err = credit.MakePlan(s, in); err != nil || plan.Ways[0].Activities[0].Title != "pounds" || !plan.Ways[0].Compared.Equal(credit.Whole(100)) {
		t.Errorf("at 1: %+v %v", plan.Ways, err)
	}
}

// Odd states have sensible answers.
func TestPlanOddStates(t *testing.T) {
	s := credit.Scheme{ID: "odd", Unit: "point", Target: credit.Target{Set: true, Amount: credit.Whole(4)}, Categories: []credit.Category{ofHours("a", "1")}}
	reading := []credit.Possible{{Title: "reading", Category: "a", Rate: true}}
	tests := []struct {
		why   string
		in    credit.PlanInput
		holds func(credit.Plan) bool
	}{
		{"without an end the plan has no last day", credit.PlanInput{Input: credit.Input{On: cycle.Start}, Possible: reading},
			func(p credit.Plan) bool {
				return p.Last.IsZero() && len(p.Ways) == 1 && p.Ways[0].Hours.Equal(credit.Whole(4))
			}},
		{"after the cycle nothing can be done", credit.PlanInput{Input: credit.Input{Cycle: cycle, On: cycle.End.AddDays(1)}, Possible: reading},
			func(p credit.Plan) bool { return p.Over && p.Open && len(p.Ways) == 0 }},
		{"on the last day it still can", credit.PlanInput{Input: credit.Input{Cycle: cycle, On: cycle.End}, Possible: reading},
			func(p credit.Plan) bool { return !p.Over && len(p.Ways) == 1 && p.Ways[0].Meets }},
		{"before the cycle it begins with the cycle", credit.PlanInput{Input: credit.Input{Cycle: cycle, On: cycle.Start.AddDays(-30)}, Possible: reading},
			func(p credit.Plan) bool {
				return len(p.Ways) == 1 && p.Ways[0].Activities[0].When[0].Start == cycle.Start
			}},
		{"nothing known", credit.PlanInput{Input: credit.Input{Cycle: cycle, On: cycle.Start}},
			func(p credit.Plan) bool { return p.Open && len(p.Ways) == 0 && len(p.Why) > 0 }},
		{"offered only when it is too late", credit.PlanInput{Input: credit.Input{Cycle: cycle, On: cycle.Start}, Possible: []credit.Possible{{Title: "late", Category: "a", Hours: credit.Whole(9), Dates: []credit.Date{cycle.End.AddDays(1)}}}},
			func(p credit.Plan) bool { return p.Open && strings.Contains(p.Notes[0], "after the last day") }},
	}
	for _, test := range tests {
		plan, err := credit.MakePlan(s, test.in)
		if err != nil || !test.holds(plan) {
			t.Errorf("%s: %+v %v", test.why, plan, err)
		}
	}
}

// The last day to begin: 20 hours at 5 a week are 28 days of work.
func TestPlanLastDay(t *testing.T) {
	s := credit.Scheme{ID: "last", Unit: "point", Target: credit.Target{Set: true, Amount: credit.Whole(20)}, Categories: []credit.Category{ofHours("a", "1")}}
	in := credit.PlanInput{Input: credit.Input{Cycle: cycle, On: cycle.Start}, Possible: []credit.Possible{{Title: "reading", Category: "a", Rate: true}}, Budget: credit.Budget{HoursPerWeek: credit.Whole(5)}}
	plan, err := credit.MakePlan(s, in)
	if err != nil || plan.Ways[0].LastDay != cycle.End.AddDays(-27) {
		t.Errorf("%v %+v", err, plan.Ways)
	}
	course := credit.MustDate("2025-06-10") // 7 h to get there must be found in the ten days before
	in.Possible = []credit.Possible{{Title: "course", Category: "a", Hours: credit.Whole(20), Extra: credit.Whole(7), Dates: []credit.Date{course}}}
	if plan, err = credit.MakePlan(s, in); err != nil || plan.Ways[0].LastDay != course.AddDays(-9) {
		t.Errorf("%v %+v", err, plan.Ways)
	}
}

// Of claims that are not needed as much is kept back as passes: whole activities up to 5.
func TestPlanKeepsForTheNextCycle(t *testing.T) {
	s := credit.Scheme{ID: "keep", Unit: "point", Target: credit.Target{Set: true, Amount: credit.Whole(10)}, Categories: []credit.Category{ofHours("a", "1")},
		CarryOver: credit.CarryOver{Set: true, Whole: true, HasMost: true, Most: credit.Whole(5)}}
	in := credit.PlanInput{Input: credit.Input{Cycle: cycle, On: cycle.Start.AddDays(900)}}
	for i, hours := range []int64{6, 4, 3, 2, 4} { // 19: up to 5 of the 9 that are above 10 pass, as 3 + 2
		m := credit.Minutes(60 * hours)
		in.Claims = append(in.Claims, credit.Claim{ID: []string{"C1", "C2", "C3", "C4", "C5"}[i], Category: "a", End: cycle.Start.AddDays(i), Minutes: &m})
	}
	plan, err := credit.MakePlan(s, in)
	if err != nil {
		t.Fatal(err)
	}
	if len(plan.Save) != 2 || plan.Save[0].Claim != "C3" || plan.Save[1].Claim != "C4" || strings.Join(plan.HandIn, " ") != "C1 C2 C5" {
		t.Errorf("hand in %v, keep %v (%s)", plan.HandIn, plan.Save, plan.SaveWhy)
	}
}

// Twelve minimums of which each may be met in one of two ways are 4,096 combinations: all
// are asked, and the cheapest is found: of each pair the cheaper list. A list that asks
// for a fact that does not stand is not open, however cheap.
func TestPlanManyEitherOr(t *testing.T) {
	const pairs = 12
	s := credit.Scheme{ID: "either", Unit: "hour"}
	in := credit.PlanInput{Input: credit.Input{Cycle: cycle, On: cycle.Start}}
	add := func(id string, cost int64) {
		s.Categories = append(s.Categories, ofHours(id, "1"))
		s.Minimums = append(s.Minimums, credit.Minimum{ID: id, Selection: credit.Selection{Categories: []string{id}}, Least: credit.Whole(2)})
		in.Possible = append(in.Possible, credit.Possible{Title: id, Category: id, Hours: credit.Whole(2), Cost: credit.Whole(cost), Currency: "EUR", Times: 1})
	}
	want := int64(0)
	for i := range pairs {
		a, b := fmt.Sprintf("a%d", i), fmt.Sprintf("b%d", i)
		add(a, int64(10+i))
		add(b, int64(16-i%3))
		anyOf := [][]string{{a}, {b}}
		want += min(int64(10+i), int64(16-i%3))
		if i == 0 {
			s.Minimums = append(s.Minimums, credit.Minimum{ID: "fact", Fact: "examined"})
			anyOf = append(anyOf, []string{"fact"})
		}
		s.Minimums = append(s.Minimums, credit.Minimum{ID: fmt.Sprintf("either %d", i), AnyOf: anyOf})
	}
	plan, err := credit.MakePlan(s, in)
	if err != nil {
		t.Fatal(err)
	}
	if len(plan.Ways) == 0 || !plan.Proven || !plan.Ways[0].Meets || !plan.Ways[0].Compared.Equal(credit.Whole(want)) || len(plan.Ways[0].Activities) != pairs {
		t.Fatalf("ways %+v, proven %v, want one that costs %d", plan.Ways, plan.Proven, want)
	}
	in.Possible = slices.DeleteFunc(in.Possible, func(o credit.Possible) bool { return o.Title == "a5" || o.Title == "b5" })
	if plan, err = credit.MakePlan(s, in); err != nil || !plan.Open || !plan.Proven {
		t.Errorf("%v, open %v, proven %v: want that it cannot be closed", err, plan.Open, plan.Proven)
	}
}

// Of several offices only the largest counts, which the search does not weigh: what it
// finds is counted, and since that is not enough the plan names the rule.
func TestPlanNamesWhatItPassesOver(t *testing.T) {
	s := credit.Scheme{ID: "offices", Unit: "hour", Target: credit.Target{Set: true, Amount: credit.Whole(4)}, Categories: []credit.Category{ofHours("office", "1")},
		Caps: []credit.Cap{{ID: "one office", Largest: true}}}
	in := credit.PlanInput{Input: credit.Input{Cycle: cycle, On: cycle.Start}}
	for _, title := range []string{"treasurer", "secretary"} {
		in.Possible = append(in.Possible, credit.Possible{Title: title, Category: "office", Hours: credit.Whole(2), Times: 1})
	}
	plan, err := credit.MakePlan(s, in)
	if err != nil {
		t.Fatal(err)
	}
	if len(plan.Ways) > 0 || plan.Proven || len(plan.Notes) != 1 || !strings.Contains(plan.Notes[0], "cap one office") {
		t.Errorf("%d ways, proven %v, notes %q", len(plan.Ways), plan.Proven, plan.Notes)
	}
}
