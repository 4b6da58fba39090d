package credit_test

import (
	"fmt"
	"slices"
	"testing"

	"evidencevault/credit"
)

func ofHours(id, divide string) credit.Category {
	return credit.Category{ID: id, Award: credit.Award{From: "hours", Steps: []credit.Step{{Op: credit.OpDivide, By: credit.Operand{Amount: credit.MustAmount(divide)}}}}}
}

// Common practice, without a source: who lacks 7.2 at 0.1 for an hour, with 36 months
// to go, has 72 hours to read, 2 in a month.
func TestPlanReading(t *testing.T) {
	s := credit.Scheme{ID: "reading", Unit: "point", Target: credit.Target{Set: true, Amount: credit.MustAmount("12.7")}, Categories: []credit.Category{ofHours("course", "4"), ofHours("reading", "10")}}
	day := credit.MustDate("2026-01-01")
	span := credit.Period{Start: day, End: credit.MustDate("2028-12-31")}
	minutes := credit.Minutes(22 * 60)
	in := credit.PlanInput{Input: credit.Input{Cycle: span, On: day, Claims: []credit.Claim{{ID: "C1", Category: "course", End: day, Minutes: &minutes}}},
		Possible: []credit.Possible{{Title: "reading", Category: "reading", Rate: true}}}
	plan, err := credit.MakePlan(s, in)
	if err != nil {
		t.Fatal(err)
	}
	if !plan.Now.Missing.Equal(credit.MustAmount("7.2")) || len(plan.Ways) != 1 || !plan.Proven {
		t.Fatalf("missing %v, %d ways, proven %v", plan.Now.Missing, len(plan.Ways), plan.Proven)
	}
	hours := plan.Ways[0].Hours
	pace := credit.PaceFrom(day, plan.Last)
	if !hours.Equal(credit.Whole(72)) || !pace.Months.Equal(credit.Whole(36)) || !pace.PerMonth(hours).Equal(credit.Whole(2)) {
		t.Errorf("%v h in %v months, %v a month; want 72, 36 and 2", hours, pace.Months, pace.PerMonth(hours))
	}
}

// planned draws a scheme with overlapping caps, claims, and activities that may follow.
func (d dice) planned(activities int) (credit.Scheme, credit.PlanInput) {
	s := d.overlapping()
	s.Target.Amount = d.amount(2 + 3*activities)
	s.Minimums = s.Minimums[:min(len(s.Minimums), d.IntN(3))]
	in := credit.PlanInput{Input: credit.Input{Cycle: cycle, On: cycle.Start.AddDays(d.IntN(700))}}
	for i := range d.IntN(5) {
		c := d.claim(i)
		hours := credit.Minutes(60 * d.IntN(20))
		c.Minutes = &hours
		in.Claims = append(in.Claims, c)
	}
	for i := range activities {
		o := credit.Possible{Title: fmt.Sprintf("activity %d", i+1), Category: categories[d.IntN(len(categories))], Hours: credit.Whole(int64(1 + d.IntN(30))),
			Cost: credit.Whole(int64(d.IntN(40))), Currency: "EUR", Times: 1 + d.IntN(3)}
		if d.oneIn(2) {
			o.Tags = []string{tags[d.IntN(len(tags))]}
		}
		if d.oneIn(3) {
			o.Provider = "provider"
		}
		switch d.IntN(4) {
		case 0:
			o.Dates, o.Times = []credit.Date{in.On.AddDays(d.IntN(400)), in.On.AddDays(d.IntN(400))}, 0
			o.Dates = slices.Compact(o.Dates)
		case 1:
			o.From = in.On.AddDays(d.IntN(300))
		}
		in.Possible = append(in.Possible, o)
	}
	return s, in
}

// yearsOf are the days that the windows of the drawn schemes tell apart.
func yearsOf(o credit.Possible, in credit.PlanInput) [][]credit.Date {
	var list [][]credit.Date
	if len(o.Dates) > 0 {
		by := map[string][]credit.Date{}
		for _, d := range o.Dates {
			if !d.After(cycle.End) {
				by[d.String()[:4]] = append(by[d.String()[:4]], d)
			}
		}
		for _, y := range []string{"2024", "2025", "2026", "2027"} {
			if len(by[y]) > 0 {
				list = append(list, by[y])
			}
		}
		return list
	}
	from := in.On
	if o.From.After(from) {
		from = o.From
	}
	for !from.After(cycle.End) {
		list = append(list, []credit.Date{from})
		y, _, _ := from.YMD()
		from = credit.Day(y+1, 1, 1)
	}
	return list
}

// TestPlanAgainstEveryChoice tries each number of each activity in each year, counts it
// as claims, and holds the ways that no other beats against the plan's.
func TestPlanAgainstEveryChoice(t *testing.T) {
	seen, shut := 0, 0
	for seed := range uint64(90) {
		d := newDice(seed + 5_000)
		s, in := d.planned(2 + d.IntN(2))
		for i := range in.Possible {
			in.Possible[i].Times = min(in.Possible[i].Times, 2)
		}
		switch d.IntN(6) { // rules that the outside judge of plans does not know
		case 0:
			s.Caps = append(s.Caps, credit.Cap{ID: "few", Selection: d.selection(), MostClaims: 1 + d.IntN(2)})
		case 1:
			s.Caps = append(s.Caps, credit.Cap{ID: "whole", Selection: d.selection(), Most: d.amount(12), Whole: true})
		case 2:
			s.Categories[0].Or = []string{"b"}
		case 3:
			s.Minimums = append(s.Minimums, credit.Minimum{ID: "kinds", Distinct: 1 + d.IntN(2)})
		}
		plan, err := credit.MakePlan(s, in)
		if err != nil {
			t.Fatal(err)
		}
		want := everyChoice(t, s, in)
		if plan.Ahead.Meets || plan.Nothing {
			continue
		}
		var got [][2]string
		if !plan.Open {
			for _, w := range plan.Ways {
				got = append(got, [2]string{w.Compared.String(), w.Hours.String()})
			}
			seen++
		} else {
			shut++
		}
		if !slices.Equal(got, want) || !plan.Proven {
			t.Errorf("seed %d: cost and hours of the ways are %v, every choice gives %v (proven %v, %v)", seed, got, want, plan.Proven, plan.Notes)
		}
	}
	if seen < 15 || shut < 10 {
		t.Errorf("the drawn plans show too little: %d with a way, %d without", seen, shut)
	}
}

type choice struct{ cost, hours credit.Amount }

func everyChoice(t *testing.T, s credit.Scheme, in credit.PlanInput) [][2]string {
	t.Helper()
	var all []choice
	var try func(i int, claims []credit.Claim, c choice)
	try = func(i int, claims []credit.Claim, c choice) {
		if i == len(in.Possible) {
			calc := in.Input
			calc.On = credit.Date{}
			calc.Claims = append(slices.Clone(in.Claims), claims...)
			st, err := credit.Calculate(s, calc)
			if err != nil {
				t.Fatal(err)
			}
			if st.Meets {
				all = append(all, c)
			}
			return
		}
		o := in.Possible[i]
		years := yearsOf(o, in)
		times := max(o.Times, 1)
		if len(o.Dates) > 0 && o.Times == 0 {
			times = len(o.Dates)
		}
		var place func(y, left int, claims []credit.Claim, c choice)
		place = func(y, left int, claims []credit.Claim, c choice) {
			if y == len(years) {
				try(i+1, claims, c)
				return
			}
			for n := 0; n <= left && (len(o.Dates) == 0 || n <= len(years[y])); n++ {
				if n > 0 {
					m := credit.Minutes(o.Hours.Mul(credit.Whole(60)).Rat().Num().Int64())
					day := years[y][min(n, len(years[y]))-1]
					claims = append(slices.Clone(claims), credit.Claim{ID: fmt.Sprintf("x%d.%d.%d", i, y, n), Category: o.Category, Tags: o.Tags, Provider: o.Provider, End: day, Minutes: &m})
					c = choice{c.cost.Add(o.Cost), c.hours.Add(o.Hours)}
				}
				place(y+1, left-n, claims, c)
			}
		}
		place(0, times, claims, c)
	}
	try(0, nil, choice{})
	slices.SortFunc(all, func(a, b choice) int {
		if n := a.cost.Cmp(b.cost); n != 0 {
			return n
		}
		return a.hours.Cmp(b.hours)
	})
	var front [][2]string
	var least *credit.Amount
	for _, c := range all {
		if least == nil || c.hours.Cmp(*least) < 0 {
			front = append(front, [2]string{c.cost.String(), c.hours.String()})
			least = &c.hours
		}
	}
	return front
}
