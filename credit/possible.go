package credit

import (
	"fmt"
	"maps"
	"slices"
)

// Money is a sum in one currency, named by its three letters of ISO 4217. The zero
// Money is nothing.
type Money struct {
	Currency string `json:"currency"`
	Amount   Amount `json:"amount"`
}

// Possible is something that could still be done. The zero Possible earns nothing.
type Possible struct {
	Origin
	Title    string
	Category string
	Provider string
	Tags     []string
	Fields   map[string]string // log fields, numbers as [ParseAmount] reads them

	Hours    Amount // contact time; with Rate the most hours that are to be had, 0: any number
	Credits  []Credit
	Count    *int64 // of items; nil means 1
	Extra    Amount // hours of travel and preparation, each time
	Cost     Amount // each time; with Rate for an hour
	Currency string // "" only where Cost is 0

	Dates       []Date // on these days; none: on any day from From to Until
	From, Until Date   // zero: no bound but the cycle's
	Times       int    // how often at most; 0 means once, or with Dates once on each
	Rate        bool   // any number of hours, in one claim for each year or window

	Chosen Amount   // so many times, or hours, are settled on already
	Since  Date     // when that was settled
	Done   []string // ids of the claims that it has become
}

// Budget is what a plan goes by besides the rules.
type Budget struct {
	HoursPerWeek Amount            // 0: not stated
	Base         string            // the currency in which costs are compared; "" where none was given
	Rates        map[string]Amount // what one unit of a currency is worth in Base
	Again        *Again            // nil: nothing is known of one
}

// Again is the examination that could be sat instead of all that is asked.
type Again struct {
	Title     string
	Member    bool   // the holder pays as a member
	Fee       Amount // for everyone else
	MemberFee *Amount
	Currency  string
	Hours     *Amount // to prepare and sit it; nil: not known
	Source    string
}

// Pays returns the fee that this holder pays.
func (a Again) Pays() Amount {
	if a.Member && a.MemberFee != nil {
		return *a.MemberFee
	}
	return a.Fee
}

// currencies lists the currencies that the activities cost, sorted.
func currencies(list []Possible) []string {
	seen := map[string]bool{}
	for _, p := range list {
		if p.Cost.Sign() > 0 {
			seen[p.Currency] = true
		}
	}
	return slices.Sorted(maps.Keys(seen))
}

// comparable returns the currency in which all the costs can be compared: the only
// one there is, or the base where each other one has a rate. The text says why they
// cannot be.
func (b Budget) comparable(list []Possible) (currency, why string) {
	all := currencies(list)
	switch len(all) {
	case 0:
		return b.Base, ""
	case 1:
		return all[0], ""
	}
	for _, c := range all {
		if _, ok := b.Rates[c]; c != b.Base && !ok {
			return "", fmt.Sprintf("costs are in %s, and no rate of exchange is given for %s: they stand beside each other and are not added up", words(all), c)
		}
	}
	return b.Base, ""
}

// in converts a sum to currency; [Budget.comparable] has found that it can.
func (b Budget) in(currency string, m Money) Amount {
	if m.Currency == currency || m.Amount.Sign() == 0 {
		return m.Amount
	}
	return m.Amount.Mul(b.Rates[m.Currency])
}

// words joins names: "EUR, GBP and USD".
func words(names []string) string {
	text := ""
	for i, n := range names {
		switch {
		case i == 0:
		case i == len(names)-1:
			text += " and "
		default:
			text += ", "
		}
		text += n
	}
	return text
}

// claim is what p is claimed as when it is done once, or for so many hours of a rate.
func (p Possible) claim(id string, start, end Date, hours Amount) Claim {
	c := Claim{ID: id, Category: p.Category, Start: start, End: end, Credits: p.Credits, Count: p.Count, Tags: p.Tags, Provider: p.Provider,
		Fields: maps.Clone(p.Fields)}
	if c.Fields == nil {
		c.Fields = map[string]string{}
	}
	if p.Title != "" && c.Fields["title"] == "" {
		c.Fields["title"] = p.Title
	}
	if hours.Sign() > 0 {
		if minutes := hours.Mul(Whole(60)); minutes.value().IsInt() {
			m := Minutes(minutes.value().Num().Int64())
			c.Minutes = &m
		} else {
			c.Fields[MeasureHours] = hours.value().RatString()
		}
	}
	return c
}

// evenly is how an award grows with the hours: by perHour, or in whole steps of
// step credits, up to most.
type evenly struct {
	perHour Amount
	step    Amount  // 0: no steps
	most    *Amount // nil: no bound
}

// evenly returns how the category's award of this claim grows with the hours, or why
// it does not do so evenly.
func (c Category) evenly(claim Claim) (evenly, string) {
	if len(c.Repeat.Factors) > 0 && claim.text(c.Repeat.By) != "" {
		return evenly{}, "repeats earn another amount there"
	}
	return c.Award.evenly(claim)
}

func (a Award) evenly(claim Claim) (evenly, string) {
	if a.Case != "" {
		text := claim.text(a.Case)
		for _, k := range a.Of {
			if len(k.Is) == 0 || slices.Contains(k.Is, text) {
				got, why := k.Then.evenly(claim)
				return got.after(a.Steps, why)
			}
		}
		return evenly{}, fmt.Sprintf("the award has no case for %s %q", a.Case, text)
	}
	switch a.From {
	case MeasureHours:
		return evenly{perHour: Whole(1)}.after(a.Steps, "")
	case MeasureMinutes:
		return evenly{perHour: Whole(60)}.after(a.Steps, "")
	}
	return evenly{}, "the award there does not go by hours alone"
}

func (e evenly) after(steps []Step, why string) (evenly, string) {
	if why != "" {
		return e, why
	}
	for _, s := range steps {
		if s.By.Field != "" {
			return e, "the award there goes by " + s.By.Field + " too"
		}
		by := s.By.Amount
		switch {
		case s.Op == OpDivide && by.Sign() > 0:
			e = e.times(Whole(1).Div(by))
		case s.Op == OpTimes:
			e = e.times(by)
		case s.Op == OpDown && e.step.Sign() == 0 && e.most == nil:
			e.step = by
		case s.Op == OpAtMost && (e.most == nil || by.Cmp(*e.most) < 0):
			e.most = &by
		case s.Op == OpAtMost:
		default:
			return e, "the award there does not grow evenly with the hours (step " + string(s.Op) + ")"
		}
	}
	if e.perHour.Sign() <= 0 {
		return e, "an hour there earns nothing"
	}
	return e, ""
}

func (e evenly) times(f Amount) evenly {
	e.perHour, e.step = e.perHour.Mul(f), e.step.Mul(f)
	if e.most != nil {
		most := e.most.Mul(f)
		e.most = &most
	}
	return e
}

// ByHours returns an activity of any number of hours in the category, without a cost,
// and false if its award does not grow evenly with the hours alone.
func (c Category) ByHours() (Possible, bool) {
	title := c.Title
	if title == "" {
		title = c.ID
	}
	p := Possible{Origin: c.Origin, Title: title, Category: c.ID, Rate: true}
	_, why := c.evenly(p.claim("", Date{}, Date{}, Amount{}))
	return p, why == "" && len(c.Asks) == 0
}

// HoursFor returns the hours that so much credit takes in the category, and false where
// [Category.ByHours] has none.
func (c Category) HoursFor(a Amount) (Amount, bool) {
	e, why := c.evenly(Claim{Category: c.ID})
	if why != "" {
		return Amount{}, false
	}
	if e.step.Sign() > 0 {
		a = a.Up(e.step)
	}
	return a.Div(e.perHour), true
}
