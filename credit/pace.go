package credit

import (
	"math/big"
	"slices"
)

// Pace is how much a span of time asks for, evenly spread. The zero Pace asks nothing.
type Pace struct {
	Days   int    // from the day of the plan to the last day to earn credit, both counted
	Weeks  Amount // days ÷ 7
	Months Amount // full months, and the days left over those of the month begun
}

// PaceFrom returns the time from a day to the last day, both counted; the zero Pace if
// there is no last day, or it has passed.
func PaceFrom(day, last Date) Pace {
	if day.IsZero() || last.IsZero() || day.After(last) {
		return Pace{}
	}
	after := last.AddDays(1)
	if after.IsZero() {
		return Pace{}
	}
	months := fullMonths(day, after)
	from := day.AddMonths(months)
	p := Pace{Days: after.Sub(day), Months: Whole(int64(months))}
	p.Weeks = Fraction(int64(p.Days), 7)
	if left := after.Sub(from); left > 0 {
		p.Months = p.Months.Add(Fraction(int64(left), int64(day.AddMonths(months+1).Sub(from))))
	}
	return p
}

// PerWeek returns a per week; where less than a week is left, all of it.
func (p Pace) PerWeek(a Amount) Amount { return a.Div(p.Weeks.Max(Whole(1))) }

// PerMonth returns a per month; where less than a month is left, all of it.
func (p Pace) PerMonth(a Amount) Amount { return a.Div(p.Months.Max(Whole(1))) }

// task is work that must be done by a day.
type task struct {
	by    Date
	hours Amount // that can be spread over the weeks before
}

// lastDay is the last day on which a way can be begun so that all of it is done in time
// at the hours per week that are to be had. What is on fixed days takes only its travel
// and preparation out of the weeks before. Without such a figure only the days count.
func (r *run) lastDay(w Way, f found) Date {
	var tasks []task
	for k, n := range f.units {
		if n.Sign() <= 0 {
			continue
		}
		offer := r.offers[k]
		o := r.possible[offer.possible]
		if len(offer.days) == 0 {
			tasks = append(tasks, task{offer.stretch.End, n.Mul(offer.hours)})
			continue
		}
		days := slices.Clone(offer.days)
		slices.SortFunc(days, func(a, b Date) int { return b.Compare(a) }) // the latest will do
		for _, d := range days[:min(len(days), int(n.value().Num().Int64()))] {
			tasks = append(tasks, task{d, o.Extra})
		}
	}
	slices.SortFunc(tasks, func(a, b task) int { return a.by.Compare(b.by) })
	var last Date
	var hours Amount
	for _, t := range tasks {
		hours = hours.Add(t.hours)
		day := t.by
		if r.budget.HoursPerWeek.Sign() > 0 && hours.Sign() > 0 {
			days := hours.Mul(Whole(7)).Div(r.budget.HoursPerWeek).Up(Whole(1))
			if !days.value().Num().IsInt64() || days.value().Num().Cmp(big.NewInt(3_000_000)) > 0 {
				return Date{}
			}
			day = day.AddDays(1 - int(days.value().Num().Int64()))
		}
		if last.IsZero() || day.Before(last) {
			last = day
		}
	}
	return last
}
