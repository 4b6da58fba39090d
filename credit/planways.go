package credit

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// take turns solutions into ways, each counted as claims.
func (r *run) take(list []found) error {
	for _, f := range list {
		w, err := r.way(f)
		if err != nil {
			return err
		}
		if !w.Meets && !r.plan.Open {
			r.plan.Proven, r.plan.Curve = false, false
			r.plan.Notes = append(r.plan.Notes, "a way was found that does not meet everything when it is counted, since a rule looks at several activities in a way the search does not know"+r.unknownRules()+"; it is left out")
			continue
		}
		r.plan.Ways = append(r.plan.Ways, w)
	}
	r.plan.Notes = slices.Compact(r.plan.Notes)
	return nil
}

// unknownRules names the rules in force that the search for a way passes over; each way
// is counted under them all the same.
func (r *run) unknownRules() string {
	var ids []string
	for _, k := range r.inForce() {
		if k.Largest {
			ids = append(ids, "cap "+k.ID)
		}
	}
	if r.scheme.CarryOver.Fill && len(r.input.Carried) > 0 {
		ids = append(ids, "credit carried in that only fills up to the target")
	}
	if len(ids) == 0 {
		return ""
	}
	return " (" + strings.Join(ids, ", ") + ")"
}

// count works the confirmed claims and these out, at the end of the cycle.
func (p *planner) count(claims []Claim) (Statement, error) {
	in := p.input
	in.Claims = append(slices.Clone(in.Claims), claims...)
	return Calculate(p.scheme, in)
}

func (r *run) way(f found) (Way, error) {
	w := Way{Proven: f.proven, Short: f.short, Hours: r.sumOf(f.units, hoursOf)}
	of := r.claims(&w, f)
	st, err := r.count(w.Claims)
	if err != nil {
		return w, err
	}
	w.Meets, w.Total = st.Meets, st.Counted
	w.Credits = st.Counted.Sub(r.plan.Ahead.Counted)
	results := make(map[string]ClaimResult, len(st.Claims))
	for _, c := range st.Claims {
		results[c.ID] = c
	}
	for i, ids := range of {
		for _, id := range ids {
			a := &w.Activities[i]
			a.Awarded, a.Counted = a.Awarded.Add(results[id].Awarded), a.Counted.Add(results[id].Counted)
		}
	}
	w.Costs = costs(w.Activities)
	if r.currency != "" || len(w.Costs) == 0 {
		cost := r.sumOf(f.units, r.costOf)
		w.Compared = &cost
	}
	if !f.proven && len(f.bounds) > 0 {
		bound := Amount{}.Max(f.bounds[0])
		if r.in.ByTime {
			w.HoursFrom = &bound
		} else {
			w.CostFrom = &bound
		}
	}
	w.LastDay = r.lastDay(w, f)
	return w, nil
}

func costs(list []Planned) []Money {
	sums := map[string]Amount{}
	for _, a := range list {
		if a.Cost.Amount.Sign() > 0 {
			sums[a.Cost.Currency] = sums[a.Cost.Currency].Add(a.Cost.Amount)
		}
	}
	var out []Money
	for _, c := range slices.Sorted(maps.Keys(sums)) {
		out = append(out, Money{c, sums[c]})
	}
	return out
}

// claims fills in the activities of a way and the claims that they become, and says for
// each activity which claims are its own.
func (r *run) claims(w *Way, f found) [][]string {
	taken := map[Date]bool{} // days on which something lies already
	for _, e := range r.entries[:r.confirmed] {
		taken[e.placed] = true
	}
	for _, o := range r.possible {
		for _, d := range o.Dates {
			taken[d] = true
		}
	}
	var of [][]string
	at := map[int]int{}
	for k, n := range f.units {
		if n.Sign() <= 0 {
			continue
		}
		offer := r.offers[k]
		o := &r.possible[offer.possible]
		i, ok := at[offer.possible]
		if !ok {
			i = len(w.Activities)
			at[offer.possible] = i
			w.Activities = append(w.Activities, Planned{Possible: offer.possible, Title: o.Title, Category: o.Category, Provider: o.Provider, Rate: o.Rate,
				Cost: Money{Currency: o.Currency}, Chosen: o.Chosen.Sign() > 0})
			of = append(of, nil)
		}
		a := &w.Activities[i]
		a.Hours, a.Cost.Amount = a.Hours.Add(n.Mul(offer.hours)), a.Cost.Amount.Add(n.Mul(offer.cost))
		claims := r.claimsOf(offer, n, taken, &a.When)
		for _, d := range offer.days {
			if !slices.Contains(a.When, Period{d, d}) && !slices.Contains(a.Or, d) {
				a.Or = append(a.Or, d)
			}
		}
		for _, c := range claims {
			c.ID = fmt.Sprintf("plan %d.%d", offer.possible+1, len(of[i])+1)
			of[i] = append(of[i], c.ID)
			w.Claims = append(w.Claims, c)
		}
		if !o.Rate {
			a.Times += n.value().Num().Int64()
		}
	}
	return of
}

// claimsOf makes the claims of so many units of an offer.
func (r *run) claimsOf(f offer, n Amount, taken map[Date]bool, when *[]Period) []Claim {
	o := &r.possible[f.possible]
	if o.Rate {
		*when = append(*when, f.stretch)
		return []Claim{o.claim("", f.stretch.Start, f.stretch.Start, n.Mul(f.contact))}
	}
	count := int(n.value().Num().Int64())
	var list []Claim
	if len(f.days) == 0 {
		*when = append(*when, f.stretch)
	}
	used := len(*when)
	for i := range count {
		if len(f.days) > 0 {
			d := f.days[(i+f.before(*when, used))%len(f.days)]
			*when = append(*when, Period{d, d})
			list = append(list, o.claim("", d, d, o.Hours))
			continue
		}
		c := r.sample(f, o)
		if r.perDay && c.Start == c.End {
			d := c.Start
			for taken[d] && d.Before(f.stretch.End) {
				d = d.AddDays(1)
			}
			taken[d] = true
			c.Start, c.End = d, d
		}
		list = append(list, c)
	}
	return list
}

// before counts the days of f that an earlier turn of the same series has taken.
func (f offer) before(when []Period, upTo int) int {
	n := 0
	for _, w := range when[:upTo] {
		if slices.Contains(f.days, w.Start) {
			n++
		}
	}
	return n
}
