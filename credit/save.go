package credit

import (
	"fmt"
	"slices"
)

// Saved is a claim that is not needed now and may serve the next cycle.
type Saved struct {
	Claim   string `json:"claim"`
	Credits Amount `json:"credits"` // what it was awarded
}

// save says which confirmed claims to hand in and which to keep for the next cycle:
// those without which target and minimums are met all the same, as much credit of them
// as the rules let pass.
func (r *run) save() error {
	for i := range r.entries[:r.confirmed] {
		if e := &r.entries[i]; !e.carried && !e.outside && e.awarded.Sign() > 0 {
			r.plan.HandIn = append(r.plan.HandIn, e.ID)
		}
	}
	slices.SortFunc(r.plan.HandIn, compareIDs)
	able, most, why := r.savable()
	if why != "" {
		r.plan.SaveWhy = why
		return nil
	}
	keep, proven := r.keepBack(able, most)
	if len(keep) == 0 {
		r.plan.SaveWhy = "every claim that the next cycle would take is needed now"
		return nil
	}
	in := r.input
	in.Claims = slices.DeleteFunc(slices.Clone(in.Claims), func(c Claim) bool { return slices.Contains(keep, c.ID) })
	st, err := Calculate(r.scheme, in)
	if err != nil {
		return err
	}
	if !st.Meets {
		r.plan.SaveWhy = "no claim can be kept back: without it a rule would not be met"
		return nil
	}
	for _, e := range r.entries[:r.confirmed] {
		if slices.Contains(keep, e.ID) {
			r.plan.Save = append(r.plan.Save, Saved{e.ID, e.awarded})
		}
	}
	slices.SortFunc(r.plan.Save, func(a, b Saved) int { return compareIDs(a.Claim, b.Claim) })
	r.plan.HandIn = slices.DeleteFunc(r.plan.HandIn, func(id string) bool { return slices.Contains(keep, id) })
	if !proven {
		r.plan.Notes = append(r.plan.Notes, "more may be kept for the next cycle: the search ended with its budget")
	}
	return nil
}

// savable returns the entries that the next cycle would take, the most credit of them
// (nil: no bound), and why there are none.
func (r *run) savable() (able []int, most *Amount, why string) {
	rule, k := r.scheme.Cycle, r.scheme.CarryOver
	next := r.cycle.End.AddDays(1)
	switch {
	case r.cycle.End.IsZero():
		return nil, nil, "the cycle has no end, so there is no next one to keep anything for"
	case k.Set && k.Whole:
		r.plan.SaveWhy = "whole activities pass into the next cycle" + k.Origin.inLine()
		if why := r.carryBarred(r.plan.Ahead.Counted.Sub(r.plan.Ahead.CarryIn)); why != "" {
			return nil, nil, why
		}
		if k.HasMost {
			most = &k.Most
		}
		from := r.carryFrom()
		for i, e := range r.entries[:r.confirmed] {
			if r.claimed(e) && k.Selection.Holds(e.Claim) && !e.placed.Before(from) {
				able = append(able, i)
			}
		}
	case rule.AcceptFrom > 0:
		first := next.AddMonths(-rule.AcceptFrom)
		r.plan.SaveWhy = fmt.Sprintf("the next cycle takes what is dated on %v or later%s", first, rule.Origin.inLine())
		for i, e := range r.entries[:r.confirmed] {
			if r.claimed(e) && !e.placed.Before(first) {
				able = append(able, i)
			}
		}
	case k.Set:
		return nil, nil, fmt.Sprintf("hand in all: what is above the need passes by itself, %s %s as things are", fractionText(r.plan.Ahead.CarryOut), r.scheme.Unit)
	default:
		return nil, nil, "nothing passes into the next cycle, so nothing is gained by keeping a claim back"
	}
	if len(able) == 0 {
		return nil, nil, "no claim is such as the next cycle takes"
	}
	return able, most, ""
}

// inLine says where the rule stands, if that is known.
func (o Origin) inLine() string {
	if o.Line == 0 {
		return ""
	}
	return fmt.Sprintf(" (%s:%d)", o.File, o.Line)
}

func (r *run) claimed(e entry) bool {
	return !e.carried && !e.outside && e.awarded.Sign() > 0 && !e.placed.IsZero()
}

// keepBack chooses what to keep back, as much credit as can be, and says whether that
// is proven. Each claim that may be kept back becomes an offer that need not be taken.
func (r *run) keepBack(able []int, most *Amount) ([]string, bool) {
	p := *r.planner
	c := *r.calculation
	p.calculation = &c
	c.entries, p.offers, p.groups = nil, nil, nil
	p.possible = nil
	var free []entry
	for i, e := range r.entries[:r.confirmed] {
		if slices.Contains(able, i) {
			free = append(free, e)
		} else {
			c.entries = append(c.entries, e)
		}
	}
	p.confirmed = len(c.entries)
	once := Whole(1)
	for i, e := range free {
		c.entries = append(c.entries, e)
		p.possible = append(p.possible, Possible{Title: e.ID})
		p.offers = append(p.offers, offer{possible: i, days: []Date{e.placed}, stretch: Period{e.placed, e.placed}, unit: e.limit, hours: e.awarded, most: &once, whole: true})
	}
	p.gather()
	s := run{planner: &p, plan: r.plan, in: r.in, left: r.left}
	var limits []limit
	if most != nil { // at least what may not pass is handed in
		var all Amount
		for _, e := range free {
			all = all.Add(e.awarded)
		}
		limits = []limit{{value: hoursOf, most: all.Sub(*most), least: true}}
	}
	best, all := s.bestOf(1, false, limits, hoursOf)
	if best == nil {
		return nil, all
	}
	var ids []string
	for i, n := range best.units {
		if n.Sign() == 0 {
			ids = append(ids, free[i].ID)
		}
	}
	return ids, all
}
