package credit

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
)

// PlanSteps is how many steps the search for a plan may take where nothing else is said:
// some 2 s on an ordinary machine.
const PlanSteps = 30_000

// PlanInput is what [MakePlan] works on.
type PlanInput struct {
	Input    // the confirmed claims; On is the day on which the plan is made
	Possible []Possible
	Budget   Budget
	ByTime   bool        // the shortest way comes first, else the cheapest
	Steps    int         // of the search in all; 0 means [PlanSteps]
	Stop     func() bool // ends the search early; nil: never
}

// Plan is what is missing on a day, and the ways to close the gap.
type Plan struct {
	Now      Statement // on the day of the plan
	Ahead    Statement // at the end of the cycle if nothing more is done
	Last     Date      // the last day to earn credit; zero: the cycle has no end
	Over     bool      // that day has passed
	Nothing  bool      // the scheme asks for nothing
	Currency string    // in which costs are compared; "" where they cannot be, or there are none
	Ways     []Way     // none is better than another in both cost and time; the one asked for first
	Open     bool      // the gap cannot be closed, or no way was found: Ways holds what comes closest
	Why      []string  // why the gap cannot be closed
	Notes    []string  // what was left out, what cannot be compared, where the search was cut short
	Curve    bool      // Ways are every way that no other beats in both cost and time
	Proven   bool      // of all ways
	HandIn   []string  // claims to hand in now
	Save     []Saved   // claims to keep for the next cycle
	SaveWhy  string
}

// Way is one set of activities that closes the gap.
type Way struct {
	Activities []Planned
	Credits    Amount // by which the counted total rises
	Total      Amount // counted with them
	Hours      Amount
	Costs      []Money // one for each currency
	Compared   *Amount // the costs in [Plan.Currency]; nil where they cannot be compared
	Meets      bool    // counted as claims, they meet the target and every minimum
	Proven     bool    // no way is better
	CostFrom   *Amount // where not proven: no way costs less
	HoursFrom  *Amount // where not proven: no way takes less time
	Short      Amount  // what is missing all the same, over target and minimums
	LastDay    Date    // on which it can be begun; zero: not known
	Claims     []Claim // as which they were counted
}

// Planned is one activity of a way.
type Planned struct {
	Possible int // its place in [PlanInput.Possible]
	Title    string
	Category string
	Provider string
	Rate     bool
	Times    int64 // 0 for a rate
	When     []Period
	Or       []Date // other days on which it is offered
	Awarded  Amount
	Counted  Amount
	Hours    Amount
	Cost     Money
	Chosen   bool // settled on before
}

// MakePlan works out what is missing, and the ways that close the gap: the cheapest,
// the shortest, and every one between them that no other beats in both cost and time.
// It asks for the target and every minimum, under all caps and windows, with the
// confirmed claims. Each way is then counted as [Calculate] counts, with the planned
// activities as claims at the end of the cycle.
//
// Equal arguments give equal plans while Stop is not used. Errors are those of [Calculate].
func MakePlan(s Scheme, in PlanInput) (Plan, error) {
	today := in.On
	var plan Plan
	var err error
	if plan.Now, err = Calculate(s, in.Input); err != nil {
		return plan, err
	}
	p, err := newPlanner(s, in.Input, today, in.Possible, in.Budget)
	if err != nil {
		return plan, err
	}
	if plan.Ahead, err = Calculate(s, p.input); err != nil {
		return plan, err
	}
	plan.Last, plan.Currency, plan.Notes = p.last, p.currency, p.notes
	plan.Over = !p.last.IsZero() && today.After(p.last)
	plan.Nothing = !plan.Ahead.HasTarget && len(plan.Ahead.Minimums) == 0
	r := &run{planner: p, plan: &plan, in: in, left: in.Steps}
	if r.left == 0 {
		r.left = PlanSteps
	}
	switch {
	case plan.Nothing:
	case plan.Ahead.Meets && !p.settled():
		plan.Proven = true
		err = r.save()
	case plan.Over:
		plan.Open = true
		plan.Why = append(plan.Why, fmt.Sprintf("the last day to earn credit was %v", p.last))
	default:
		err = r.ways()
	}
	return plan, err
}

// settled reports whether something is settled on that is not done yet.
func (p *planner) settled() bool {
	return slices.ContainsFunc(p.possible, func(o Possible) bool {
		return o.Chosen.Cmp(Whole(int64(len(o.Done)))) > 0
	})
}

// run is one search for ways.
type run struct {
	*planner
	plan *Plan
	in   PlanInput
	left int // steps
}

// spent returns a budget of a share of the steps that are left, and a function that
// takes off what was used.
func (r *run) share(of int) (*budget, func()) {
	b := &budget{steps: max(1, r.left/of), stop: r.in.Stop}
	return b, func() { r.left -= min(b.used(), b.steps) }
}

// objective is one of what is made as small as can be.
type objective func(f offer) Amount

func (r *run) costOf(f offer) Amount {
	o := r.possible[f.possible]
	return r.budget.in(r.currency, Money{o.Currency, f.cost})
}

func hoursOf(f offer) Amount { return f.hours }

// errands counts what is done at a time of its own; any number of hours is none.
func errands(f offer) Amount {
	if f.contact.Sign() > 0 {
		return Amount{}
	}
	return Whole(1)
}

// least are the terms of an objective that makes value as small as can be.
func (r *run) least(m *planModel, value objective) []term {
	var terms []term
	for i, f := range r.offers {
		if v := value(f); v.Sign() > 0 {
			terms = append(terms, term{m.units[i], Amount{}.Sub(v).Rat()})
		}
	}
	return terms
}

// found is one solution: so many units of each offer.
type found struct {
	units  []Amount
	values []Amount // per objective
	bounds []Amount
	short  Amount // what is missing all the same
	proven bool
	none   bool // proven that there is none
}

// better reports whether f is better than g, objective by objective.
func (f found) better(g *found) bool {
	if g == nil {
		return true
	}
	if c := f.short.Cmp(g.short); c != 0 {
		return c < 0
	}
	for i := range min(len(f.values), len(g.values)) {
		if c := f.values[i].Cmp(g.values[i]); c != 0 {
			return c < 0
		}
	}
	return false
}

// limit is a bound on a value besides: at most so much, or at least.
type limit struct {
	value objective
	most  Amount
	least bool
}

// search finds the best units for one way of meeting the minimums, or proves that
// there are none.
func (r *run) search(way []int, lax bool, b *budget, limits []limit, values ...objective) found {
	m := r.model(way, lax)
	for _, l := range limits {
		if terms := minus(r.least(m, l.value)); l.least {
			m.atLeast(l.most.Rat(), terms...)
		} else {
			m.atMost(l.most.Rat(), terms...)
		}
	}
	var objectives [][]term
	if lax {
		objectives = append(objectives, m.lacks)
	}
	for _, v := range values {
		objectives = append(objectives, r.least(m, v))
	}
	asked := len(objectives)
	objectives = append(objectives, r.least(m, errands)) // of equals the one with the fewest errands
	res := m.linear.whole(m.whole, objectives, b)
	if !res.found {
		return found{none: res.proven}
	}
	f := found{proven: len(res.objectives) >= asked}
	for _, o := range res.objectives[:min(asked, len(res.objectives))] {
		f.proven = f.proven && o.proven()
	}
	for _, v := range m.units {
		f.units = append(f.units, FromRat(res.values[v]))
	}
	if lax {
		for _, t := range m.lacks {
			f.short = f.short.Add(FromRat(res.values[t.variable]))
		}
	}
	for i, v := range values {
		f.values = append(f.values, r.sumOf(f.units, v))
		if k := i + asked - len(values); k < len(res.objectives) {
			f.bounds = append(f.bounds, FromRat(new(big.Rat).Neg(res.objectives[k].bound)))
		}
	}
	return f
}

func (r *run) sumOf(units []Amount, value objective) Amount {
	var sum Amount
	for i, n := range units {
		sum = sum.Add(n.Mul(value(r.offers[i])))
	}
	return sum
}

// bestOf searches every way of meeting the minimums and returns the best solution, or
// nil, and whether all of them were searched to the end.
func (r *run) bestOf(share int, lax bool, limits []limit, values ...objective) (*found, bool) {
	open := r.openWays(lax)
	var best *found
	all := true
	for i, way := range open {
		b, done := r.share(share * (len(open) - i))
		f := r.search(way, lax, b, limits, values...)
		done()
		if len(f.units) > 0 || len(r.offers) == 0 && !f.none && f.proven {
			if f.better(best) {
				if best != nil {
					f.bounds = lower(f.bounds, best.bounds)
				}
				best = &f
			} else {
				best.bounds = lower(best.bounds, f.bounds)
			}
		}
		all = all && (f.proven || f.none)
	}
	return best, all
}

// lower is the lower of two bounds on the first objective.
func lower(a, b []Amount) []Amount {
	if len(a) == 0 || len(b) == 0 {
		return nil
	}
	return []Amount{a[0].Min(b[0])}
}

// openWays lists the ways of meeting the minimums that activities can meet; with lax
// all of them, where none can be.
func (r *run) openWays(lax bool) [][]int {
	var open [][]int
	all := ways(r.needs)
	for _, way := range all {
		if !slices.ContainsFunc(way, r.barred) {
			open = append(open, way)
		}
	}
	if len(open) == 0 && lax {
		return all
	}
	return open
}

// ways finds the ways that close the gap.
func (r *run) ways() error {
	cost, hours := objective(r.costOf), objective(hoursOf)
	free := len(currencies(r.possible)) == 0
	if r.currency == "" && !free {
		return r.apart()
	}
	var cheap, quick *found
	var all, rest bool
	if r.in.ByTime && !free {
		if quick, all = r.bestOf(3, false, nil, hours, cost); quick == nil {
			return r.closest(all, hours, cost)
		}
		cheap, rest = r.bestOf(3, false, nil, cost, hours)
	} else {
		if cheap, all = r.bestOf(3, false, nil, cost, hours); cheap == nil {
			return r.closest(all, cost, hours)
		}
		if quick, rest = cheap, true; !free {
			quick, rest = r.bestOf(3, false, nil, hours, cost)
		}
	}
	if cheap == nil || quick == nil {
		return r.take([]found{*cmp.Or(cheap, quick)})
	}
	list, whole := r.between(cheap, quick)
	list = r.unbeaten(list)
	r.plan.Proven = all && rest && whole
	r.plan.Curve = r.plan.Proven
	if r.in.ByTime {
		slices.Reverse(list)
	}
	return r.take(list)
}

// Bounds of the curve.
const maxCurve = 100

// minute is by how much one way must be shorter than another for the two to be told
// apart.
var minute = Fraction(1, 60)

// between returns the ways from the cheapest to the shortest, both included, and
// whether those are all that no other beats.
func (r *run) between(cheap, quick *found) ([]found, bool) {
	cost, hours := objective(r.costOf), objective(hoursOf)
	at := func(f *found, v objective) Amount { return r.sumOf(f.units, v) }
	least, dearest := at(quick, hours), at(quick, cost)
	list, whole := []found{*cheap}, true
	for {
		last := at(&list[len(list)-1], hours)
		if last.Sub(minute).Cmp(least) < 0 {
			return list, whole
		}
		if len(list) == maxCurve {
			return append(list, *quick), false
		}
		next, all := r.bestOf(3, false, []limit{{value: hours, most: last.Sub(minute)}}, cost, hours)
		if whole = whole && all; next == nil || !all && dearest.AtMost(at(next, cost)) {
			return append(list, *quick), false
		}
		list = append(list, *next)
	}
}

// unbeaten leaves out what another of the list beats: a search that ended early may find
// such ways.
func (r *run) unbeaten(list []found) []found {
	beats := func(a, b *found) bool {
		return r.sumOf(a.units, r.costOf).AtMost(r.sumOf(b.units, r.costOf)) && r.sumOf(a.units, hoursOf).AtMost(r.sumOf(b.units, hoursOf))
	}
	var out []found
	for i := range list {
		beaten := false
		for k := range list {
			beaten = beaten || k != i && beats(&list[k], &list[i]) && (k < i || !beats(&list[i], &list[k]))
		}
		if !beaten {
			out = append(out, list[i])
		}
	}
	return out
}

// apart finds the shortest way, and for each currency the way that costs least of it:
// the costs cannot be added up.
func (r *run) apart() error {
	_, why := r.planner.budget.comparable(r.possible)
	r.plan.Notes = append(r.plan.Notes, why)
	all := currencies(r.possible)
	of := func(currency string) objective {
		return func(f offer) Amount {
			if r.possible[f.possible].Currency == currency {
				return f.cost
			}
			return Amount{}
		}
	}
	var list []found
	proven := true
	for i := range len(all) + 1 {
		values := []objective{hoursOf}
		if i > 0 {
			values = []objective{of(all[i-1])}
			for k, c := range all {
				if k != i-1 {
					values = append(values, of(c))
				}
			}
			values = append(values, hoursOf)
		}
		best, ok := r.bestOf(len(all)+1-i, false, nil, values...)
		if best == nil {
			return r.closest(ok, hoursOf)
		}
		proven = proven && ok
		if !slices.ContainsFunc(list, func(f found) bool { return slices.EqualFunc(f.units, best.units, Amount.Equal) }) {
			best.bounds = nil
			list = append(list, *best)
		}
	}
	if !r.in.ByTime && len(list) > 1 {
		list = append(list[1:], list[0])
	}
	r.plan.Proven = proven
	return r.take(list)
}

// closest finds what comes closest when nothing closes the gap, and says why.
func (r *run) closest(proven bool, values ...objective) error {
	r.plan.Open = true
	best, all := r.bestOf(1, true, nil, values...)
	if !proven {
		r.plan.Notes = append(r.plan.Notes, "within the budget of the search no way was found, nor was it proven that there is none")
	}
	r.plan.Proven = proven && all
	if best == nil {
		return nil
	}
	best.bounds = nil
	if err := r.take([]found{*best}); err != nil {
		return err
	}
	w := r.plan.Ways[0]
	st, err := r.count(w.Claims)
	if err != nil {
		return err
	}
	r.plan.Why = append(r.plan.Why, r.reasons(st)...)
	if len(w.Activities) == 0 {
		r.plan.Ways = nil
	}
	return nil
}

// reasons says what is missing all the same.
func (r *run) reasons(st Statement) []string {
	var why []string
	unit := st.Unit
	if st.Missing.Sign() > 0 {
		why = append(why, fmt.Sprintf("the target still lacks %s %s", fractionText(st.Missing), unit))
	}
	for _, m := range st.Minimums {
		if m.Met {
			continue
		}
		text := fmt.Sprintf("minimum %s reaches %s of %s", m.ID, fractionText(m.Have), fractionText(m.Want))
		for _, n := range r.needs {
			if n.ID == m.ID && n.Fact != "" {
				text = fmt.Sprintf("minimum %s asks that %s stands, which no activity brings about", m.ID, n.Fact)
			}
		}
		why = append(why, text)
	}
	if st.ExclusiveMissing.Sign() > 0 {
		why = append(why, "minimums that may not share a credit lack "+fractionText(st.ExclusiveMissing))
	}
	if len(why) == 0 && !st.Meets {
		why = append(why, "target and minimums can each be met, but not all of them by the same credit")
	}
	rules := map[string]bool{}
	for _, c := range st.Cuts {
		if !rules[c.Rule] {
			rules[c.Rule] = true
			why = append(why, fmt.Sprintf("the cap %s is full", c.Rule))
		}
	}
	return why
}
