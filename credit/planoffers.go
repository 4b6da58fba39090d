package credit

import (
	"fmt"
	"slices"
)

// offer is one possible activity within one stretch of days, all of which look alike
// to the rules.
type offer struct {
	possible int
	category string // in which it counts
	stretch  Period
	days     []Date // on which it is offered; none: on any day of the stretch
	unit     Amount // credits that one unit earns before the caps that look at several claims
	hours    Amount // of one unit, with travel and preparation
	cost     Amount // of one unit, in its own currency
	most     *Amount
	whole    bool   // only whole units; else any part of one
	contact  Amount // hours of one unit, for a rate
	tier     int    // which turn of a series it is; see [Repeat]
	group    int
}

// planner is one plan in the making: the confirmed claims, worked out as [Calculate]
// does, with the offers among them.
type planner struct {
	*calculation
	today     Date
	last      Date // the last day on which anything can be done; zero: no end
	possible  []Possible
	budget    Budget
	currency  string // in which costs are compared; "" if they cannot be
	confirmed int    // entries before the offers
	offers    []offer
	notes     []string
	perDay    bool
	needs     []need
	groups    []planGroup
	repeated  series // see series; nil until it is asked for
}

func newPlanner(s Scheme, in Input, today Date, possible []Possible, budget Budget) (*planner, error) {
	c := &calculation{scheme: s, byID: make(map[string]int, len(s.Categories))}
	for i := len(s.Categories) - 1; i >= 0; i-- {
		c.byID[s.Categories[i].ID] = i
	}
	p := &planner{calculation: c, today: today, possible: possible, budget: budget}
	in.On = Date{}
	c.input = in
	if err := c.span(); err != nil {
		return nil, err
	}
	p.last = c.cycle.End
	if p.last.IsZero() {
		c.input.On = p.lastOffered()
		c.st.On = c.input.On
	}
	c.head()
	if err := c.enter(); err != nil {
		return nil, err
	}
	c.award()
	c.single()
	c.alternatives()
	p.confirmed = len(c.entries)
	p.currency, _ = budget.comparable(possible)
	p.offer()
	p.gather()
	return p, nil
}

// lastOffered is the last day of any possible activity, today at the least.
func (p *planner) lastOffered() Date {
	last := p.today
	for _, o := range p.possible {
		for _, d := range append(slices.Clone(o.Dates), o.From, o.Until) {
			if d.After(last) {
				last = d
			}
		}
	}
	return last
}

// offer makes the offers of all possible activities.
func (p *planner) offer() {
	from := p.today
	if s := p.window.Start; s.After(from) {
		from = s
	}
	to := p.last
	if to.IsZero() {
		to = p.input.On
	}
	breaks := p.breaks(from, to)
	for i := range p.possible {
		if why := p.offerOne(i, from, to, breaks); why != "" {
			p.notes = append(p.notes, fmt.Sprintf("%s is left out: %s", p.possible[i].Title, why))
		}
	}
}

func (p *planner) offerOne(i int, from, to Date, breaks []Date) string {
	o := &p.possible[i]
	at, ok := p.byID[o.Category]
	if !ok {
		return fmt.Sprintf("the scheme %s has no category %q", p.scheme.ID, o.Category)
	}
	if from.After(to) {
		return fmt.Sprintf("the last day to earn credit was %v", to)
	}
	if o.left() == 0 {
		return ""
	}
	why := p.offerAs(i, from, to, breaks, &p.scheme.Categories[at])
	for _, id := range p.scheme.Categories[at].Or {
		if k, ok := p.byID[id]; ok && id != o.Category && p.offerAs(i, from, to, breaks, &p.scheme.Categories[k]) == "" {
			why = ""
		}
	}
	return why
}

// offerAs makes the offers of activity i that count in the category.
func (p *planner) offerAs(i int, from, to Date, breaks []Date, category *Category) string {
	o := &p.possible[i]
	var list []offer
	for _, d := range o.Dates {
		if d.Before(from) || d.After(to) {
			continue
		}
		list = addDay(list, d, breaks, p.perDay)
	}
	if len(o.Dates) == 0 {
		list = stretches(later(from, o.From), earlier(to, o.Until), breaks)
		if category.spans(o.claim("", from, to, o.Hours)) {
			list = []offer{{stretch: Period{later(from, o.From), earlier(to, o.Until)}}}
		}
	}
	if len(list) == 0 || list[0].stretch.End.Before(list[0].stretch.Start) {
		if len(o.Dates) > 0 {
			return "all its days are over, or lie after the last day to earn credit"
		}
		return "its time is over, or begins after the last day to earn credit"
	}
	for _, f := range list {
		f.possible, f.category = i, category.ID
		if why := p.offerIn(f, o, category); why != "" {
			return why
		}
	}
	return ""
}

// left is how often p may still be done; for a rate it says only whether.
func (p Possible) left() int {
	if p.Rate {
		return 1
	}
	n := p.Times
	if n == 0 {
		n = max(1, len(p.Dates))
	}
	return max(0, n-len(p.Done))
}

// offerIn works out what the offer earns, and adds it with its entry.
func (p *planner) offerIn(f offer, o *Possible, category *Category) string {
	e := entry{Claim: p.sample(f, o)}
	if why := p.place(&e, category); why != "" {
		return why
	}
	if o.Rate {
		return p.offerRate(f, o, category, e)
	}
	f.whole, f.hours, f.cost = true, o.Hours.Add(o.Extra), o.Cost
	left := o.left()
	if len(f.days) > 0 {
		left = min(left, len(f.days))
	}
	if p.perDay && len(f.days) == 0 {
		left = min(left, f.stretch.End.Sub(f.stretch.Start)+1)
	}
	d := category.award(e.Claim, p.until())
	for t, n := range p.turns(e.Claim, category, left) {
		most := Whole(int64(n.times))
		f.tier, f.most, f.unit = t, &most, d.After.Mul(n.factor)
		p.add(f, e)
	}
	if d.After.Sign() == 0 {
		return "it would earn nothing: " + d.Text
	}
	return ""
}

// sample is the claim that one unit of the offer becomes.
func (p *planner) sample(f offer, o *Possible) Claim {
	c := o.claim("", f.stretch.Start, f.stretch.End, o.Hours)
	if c.Category = f.category; !p.scheme.Categories[p.byID[f.category]].spans(c) {
		c.End = c.Start
	}
	return c
}

func (p *planner) offerRate(f offer, o *Possible, category *Category, e entry) string {
	e.Claim = o.claim("", f.stretch.Start, f.stretch.Start, Amount{})
	e.Category = category.ID
	even, why := category.evenly(e.Claim)
	if why != "" {
		return why + "; give it hours of its own"
	}
	for _, a := range category.Asks {
		if why := a.fails(o.claim("", f.stretch.Start, f.stretch.Start, Whole(1)), p.until()); why != "" {
			return why
		}
	}
	most := even.most
	lower := func(a Amount) {
		if most == nil || a.Cmp(*most) < 0 {
			most = &a
		}
	}
	for _, k := range p.inForce() {
		if !k.Largest && k.perClaim() && k.Selection.Holds(e.Claim) {
			lower(p.most(k))
		}
	}
	if o.Hours.Sign() > 0 {
		lower(o.Hours.Mul(even.perHour))
	}
	switch {
	case even.step.Sign() > 0:
		f.unit, f.whole = even.step, true
	case o.Cost.Sign() > 0: // what costs something is taken by the whole hour
		f.unit, f.whole = even.perHour, true
	default:
		f.unit = Whole(1)
	}
	f.contact = f.unit.Div(even.perHour)
	f.hours, f.cost = f.contact, f.contact.Mul(o.Cost)
	if most == nil {
		lower(p.plenty())
	}
	units := most.Div(f.unit)
	if f.whole {
		units = units.Down(Whole(1))
	}
	f.most = &units
	p.add(f, e)
	return ""
}

// plenty is more credit than any plan needs of one claim.
func (p *planner) plenty() Amount {
	sum := p.target.Add(Whole(1))
	for _, m := range p.scheme.Minimums {
		sum = sum.Add(m.Least)
	}
	return sum.Mul(Whole(100))
}

// turn is a run of turns in a series that earn the same.
type turn struct {
	factor Amount
	times  int
}

// turns says what the next so many claims of a series earn.
func (p *planner) turns(claim Claim, category *Category, times int) []turn {
	r := category.Repeat
	name := claim.text(r.By)
	if len(r.Factors) == 0 || name == "" {
		return []turn{{Whole(1), times}}
	}
	if r.Anew != "" && slices.Contains(claim.Tags, r.Anew) {
		return []turn{{r.Factors[0], times}}
	}
	seen := p.series().turns(category.ID+"\x00"+name, claim.Date(), r.Within)
	var list []turn
	for n := range times {
		f := r.Factors[min(seen+n, len(r.Factors)-1)]
		if k := len(list) - 1; k >= 0 && list[k].factor.Equal(f) {
			list[k].times++
		} else {
			list = append(list, turn{f, 1})
		}
	}
	return list
}

// series has the days of the confirmed claims, of this cycle and of earlier ones where a
// rule looks back on them, that the next claim of the same name repeats.
func (p *planner) series() series {
	if p.repeated != nil {
		return p.repeated
	}
	p.repeated = p.earlierTurns()
	for _, e := range p.entries[:p.confirmed] {
		if i, ok := p.byID[e.Category]; ok && !e.carried && !e.outside {
			p.scheme.Categories[i].repeated(e.Claim, Amount{}, p.repeated, new(Derivation))
		}
	}
	return p.repeated
}

// add takes the offer in, if it earns anything.
func (p *planner) add(f offer, e entry) {
	limit := f.unit
	if !p.possible[f.possible].Rate {
		for _, k := range p.inForce() {
			alone := k.perClaim() || p.perDay && len(f.days) == 0 && slices.Equal(k.Per, []string{PerDay}) && k.Share != ShareCounted && k.MostClaims == 0
			if !alone || k.Largest || !k.Selection.Holds(e.Claim) {
				continue
			}
			if limit = limit.Min(p.most(k)); k.Whole && limit.Cmp(f.unit) < 0 {
				limit = Amount{}
			}
		}
	}
	if limit.Sign() <= 0 || f.most.Sign() <= 0 {
		return
	}
	f.unit, e.limit = limit, limit
	for _, k := range p.inForce() {
		e.whole = e.whole || k.Whole && k.Selection.Holds(e.Claim)
	}
	p.offers = append(p.offers, f)
	p.entries = append(p.entries, e)
}
