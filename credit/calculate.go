package credit

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
)

// ErrNoCategory says that a claim names a category that the scheme does not have.
var ErrNoCategory = errors.New("the scheme has no such category")

// CategoryCarried is the category of credit carried in for which none is named.
const CategoryCarried = "carried"

// entry is one claim on its way through the rules.
type entry struct {
	Claim
	placed  Date // the day that places it; zero: in the cycle and no smaller window
	awarded Amount
	limit   Amount // what is left after the caps that look at this claim alone
	counted Amount
	carried bool
	outside bool // lies outside the cycle or after the day of the statement

	alternative int  // the same number for all that one claim may count as; 0: it counts only so
	left        bool // the claim counts as another of its alternatives
	whole       bool // counts with all of limit or not at all
	without     int  // one more than the row whose number of claims leaves it out; 0: none does
}

// calculation is one run of [Calculate].
type calculation struct {
	scheme  Scheme
	byID    map[string]int // category → its place in the scheme
	input   Input
	cycle   Period
	window  Period // in which claims are accepted
	target  Amount
	entries []entry
	rows    []capRow
	met     bool    // one split meets all that is asked
	room    *Amount // what carried credit may add at most; nil: no bound of its own
	st      Statement
}

// Calculate works out what the claims come to under the scheme: awards, then caps and
// minimums together, then what may be carried on. What counts is chosen so: first,
// whether the target and every minimum are met; among equals the largest total; then,
// in the scheme's order, the smallest shortfalls; then what spends carried and soon
// expiring credit first; then the earliest claim. Where caps overlap this is a linear
// programme, which is solved exactly; where a claim counts whole or not at all, or as
// one of several things, a search with exact bounds: what it does not prove within
// in.Steps is said in [Statement.Unproven].
//
// Equal arguments give equal statements, in whatever order the claims stand. The error
// wraps [ErrNoCategory], or [ErrCycle] where the cycle's facts are there but wrong.
func Calculate(s Scheme, in Input) (Statement, error) {
	c, err := calculate(s, in)
	return c.st, err
}

// calculate is [Calculate], with all that led to the statement.
func calculate(s Scheme, in Input) (calculation, error) {
	c := calculation{scheme: s, input: in, byID: make(map[string]int, len(s.Categories))}
	for i := len(s.Categories) - 1; i >= 0; i-- {
		c.byID[s.Categories[i].ID] = i
	}
	c.st.given = newGiven(s, in)
	if err := c.span(); err != nil {
		return calculation{}, err
	}
	c.head()
	if err := c.enter(); err != nil {
		return calculation{}, err
	}
	c.award()
	c.single()
	c.gatherRows()
	c.choose()
	c.explainCuts()
	c.totals()
	c.carryOut()
	c.meets()
	c.leaving()
	c.leavingWindows()
	c.deadlines()
	c.results()
	return c, nil
}

// span settles the cycle, the days in which claims are accepted, and the day.
func (c *calculation) span() error {
	c.cycle = c.input.Cycle
	if c.cycle.IsZero() && c.scheme.Cycle.Anchor != "" {
		facts := c.input.Facts
		if p, err := c.scheme.Cycle.For(facts); err == nil {
			c.cycle = p
		} else if len(facts) > 0 && c.scheme.Cycle.told(facts) {
			return fmt.Errorf("scheme %s: %w", c.scheme.ID, err)
		}
	}
	c.st.On = c.input.On
	if c.st.On.IsZero() {
		c.st.On = c.cycle.End
	}
	c.window = c.cycle
	if r := c.scheme.Cycle; !r.From.IsZero() {
		c.window.Start = r.From
	} else if r.AcceptFrom > 0 && !c.cycle.Start.IsZero() {
		c.window.Start = c.cycle.Start.AddMonths(-r.AcceptFrom)
	}
	return nil
}

func (c *calculation) head() {
	s := c.scheme
	c.st.Certification, c.st.Scheme, c.st.Unit = c.input.Certification, s.ID, s.Unit
	c.st.Cycle = c.cycle
	if s.Target.Set {
		amount, words := s.Target.For(c.factsOfCycle())
		c.target = amount
		c.st.HasTarget, c.st.Target = true, amount
		c.note(Derivation{Step: StepTarget, Rule: "target", Origin: s.Target.Origin, Text: words, Before: amount, After: amount})
	}
}

// factsOfCycle are the holder's facts with the first day of the cycle as date.
func (c *calculation) factsOfCycle() Facts {
	if c.scheme.Target.Formula == nil || c.cycle.Start.IsZero() || c.input.Facts[MeasureDate] != "" {
		return c.input.Facts
	}
	facts := maps.Clone(c.input.Facts)
	if facts == nil {
		facts = Facts{}
	}
	facts[MeasureDate] = c.cycle.Start.String()
	return facts
}

// enter takes the claims in, in an order that does not depend on how they were given.
func (c *calculation) enter() error {
	for _, claim := range c.input.Claims {
		if _, ok := c.byID[claim.Category]; !ok {
			return fmt.Errorf("claim %s: category %q: %w %s: want one of %s", claim.ID, claim.Category, ErrNoCategory, c.scheme.ID, strings.Join(c.categoryIDs(), ", "))
		}
		claim.holder = c.input.Facts
		c.entries = append(c.entries, c.asEntries(claim)...)
	}
	for i, k := range c.input.Carried {
		claim := Claim{ID: k.ID, Category: k.Category, Tags: k.Tags, End: k.Earned}
		if claim.ID == "" {
			claim.ID = fmt.Sprintf("carried %d", i+1)
		}
		if claim.Category == "" {
			claim.Category = CategoryCarried
		}
		c.entries = append(c.entries, entry{Claim: claim, carried: true, awarded: k.Amount})
	}
	slices.SortStableFunc(c.entries, func(a, b entry) int {
		if a.carried != b.carried { // carried credit is spent first
			if a.carried {
				return -1
			}
			return 1
		}
		return a.compare(b.Claim)
	})
	return nil
}

func (c *calculation) categoryIDs() []string {
	ids := make([]string, len(c.scheme.Categories))
	for i, k := range c.scheme.Categories {
		ids[i] = k.ID
	}
	return ids
}

func (c *calculation) note(d Derivation) { c.st.Derivations = append(c.st.Derivations, d) }

// category is the category of a claim that [calculation.enter] has let in.
func (c *calculation) category(e *entry) *Category {
	return &c.scheme.Categories[c.byID[e.Category]]
}

// award works out what each claim earns before any cap.
func (c *calculation) award() {
	repeats := c.earlierTurns()
	for i := range c.entries {
		e := &c.entries[i]
		if e.carried && c.expired(e) {
			continue
		}
		if e.carried {
			c.note(Derivation{Step: StepAward, Claim: e.ID, Category: e.Category, Rule: "carry-over", Origin: c.scheme.CarryOver.Origin,
				Text: "carried in: " + fractionText(e.awarded), After: e.awarded})
			continue
		}
		category := c.category(e)
		if why := c.place(e, category); why != "" {
			e.outside = true
			c.note(Derivation{Step: StepOutside, Claim: e.ID, Category: e.Category, Rule: "cycle", Origin: c.scheme.Cycle.Origin, Text: why})
			if !c.window.Holds(e.placed) { // it earns nothing, and yet was the first time
				category.repeated(e.Claim, Amount{}, repeats, new(Derivation))
			}
			continue
		}
		if c.expired(e) {
			continue
		}
		d := category.award(e.Claim, c.until())
		d.After = category.repeated(e.Claim, d.After, repeats, &d)
		e.awarded = d.After
		c.note(d)
	}
	for i := range c.entries {
		c.entries[i].limit = c.entries[i].awarded
	}
}

// expired reports whether e counts no more on the day, and then notes it.
func (c *calculation) expired(e *entry) bool {
	end := c.expiry(e)
	if end.IsZero() || c.st.On.IsZero() || c.st.On.Before(end) {
		return false
	}
	category := c.category(e)
	e.outside, e.awarded = true, Amount{}
	c.note(Derivation{Step: StepOutside, Claim: e.ID, Category: e.Category, Rule: e.Category, Origin: category.Origin,
		Text: fmt.Sprintf("dated %v, counted for %d months, until the day before %v: counts 0", e.lifeFrom(), category.Life, end)})
	return true
}

// expiry is the first day on which e counts no more; zero: it lasts as long as the cycle.
func (c *calculation) expiry(e *entry) Date {
	from := e.lifeFrom()
	if i, ok := c.byID[e.Category]; !ok || c.scheme.Categories[i].Life == 0 || from.IsZero() {
		return Date{}
	}
	return from.AddMonths(c.category(e).Life)
}

// lifeFrom is the day from which e lives: of credit carried in, the day it was earned.
func (e *entry) lifeFrom() Date {
	if e.carried {
		return e.Date()
	}
	return e.placed
}

// leaving lists what stops counting, day by day.
func (c *calculation) leaving() {
	sums := map[Date]Amount{}
	var days []Date
	for i := range c.entries {
		e := &c.entries[i]
		if e.counted.Sign() == 0 {
			continue
		}
		d := c.expiry(e)
		if d.IsZero() {
			continue
		}
		if _, ok := sums[d]; !ok {
			days = append(days, d)
		}
		sums[d] = sums[d].Add(e.counted)
	}
	slices.SortFunc(days, Date.Compare)
	for _, d := range days {
		c.st.Leaving = append(c.st.Leaving, Leaving{Date: d, Amount: sums[d]})
	}
}

// until is the window, cut off at the day of the statement.
func (c *calculation) until() Period {
	p := c.window
	if on := c.input.On; !on.IsZero() && (p.End.IsZero() || on.Before(p.End)) {
		p.End = on
	}
	return p
}

// place settles the day that places e, and says why e lies outside if it does. An
// activity that earns by the length of its span is placed by the part of it that lies
// inside.
func (c *calculation) place(e *entry, category *Category) string {
	window := c.until()
	e.placed = e.Date()
	if category.spans(e.Claim) && !e.Start.IsZero() {
		if e.End.IsZero() || !window.End.IsZero() && e.End.After(window.End) {
			e.placed = window.End
		}
		if e.Start.After(e.placed) && !e.placed.IsZero() {
			e.placed = e.Start
		}
	}
	switch d := e.placed; {
	case d.IsZero() || window.Holds(d):
		return ""
	case c.window.Holds(d):
		return fmt.Sprintf("dated %v, after %v, the day of this statement: counts 0", d, c.input.On)
	default:
		return fmt.Sprintf("dated %v, outside the cycle %v to %v: counts 0", d, c.window.Start, c.window.End)
	}
}

func (c *calculation) totals() {
	byCategory := make(map[string]CategoryTotal, len(c.scheme.Categories))
	for i := range c.entries {
		e := &c.entries[i]
		t := byCategory[e.Category]
		t.Awarded, t.Counted = t.Awarded.Add(e.awarded), t.Counted.Add(e.counted)
		byCategory[e.Category] = t
	}
	for _, k := range c.scheme.Categories {
		t := byCategory[k.ID]
		t.ID = k.ID
		if most, ok := c.scheme.CapOf(k.ID, c.input.Facts, c.cycle.Start); ok {
			t.Cap = &most
		}
		c.st.Categories = append(c.st.Categories, t)
	}
	for _, e := range c.entries {
		c.st.Counted = c.st.Counted.Add(e.counted)
		if e.carried {
			c.st.CarryIn = c.st.CarryIn.Add(e.counted)
		}
	}
	c.st.Missing = Amount{}.Max(c.target.Sub(c.st.Counted))
}

func (c *calculation) meets() {
	asked := c.st.HasTarget || len(c.st.Minimums) > 0
	c.st.Meets = asked && c.allMet()
	for _, f := range c.scheme.Instead.Facts {
		if c.input.Facts.Holds(f) {
			c.st.Meets = true
			c.note(Derivation{Step: StepTarget, Rule: "instead", Origin: c.scheme.Instead.Origin, Text: f + " stands instead of all that is asked"})
		}
	}
}

func (c *calculation) deadlines() {
	add := func(what string, d Date) {
		if !d.IsZero() {
			c.st.Deadlines = append(c.st.Deadlines, Deadline{what, d})
		}
	}
	defer func() {
		for _, r := range c.scheme.Deadlines {
			add(r.What, r.On(c.cycle, c.input.Facts))
		}
	}()
	end, r := c.cycle.End, c.scheme.Cycle
	if end.IsZero() {
		return
	}
	add("last day to earn credit", end)
	if r.GraceDays > 0 {
		add("end of the days of grace", end.AddDays(r.GraceDays))
	}
	if r.ReportDays > 0 {
		add("last day to report", end.AddDays(r.ReportDays))
	}
	add(KeepDeadline, c.keepUntil())
}

// keepUntil is the latest day until which a proof of the cycle must be kept.
func (c *calculation) keepUntil() Date {
	last := c.scheme.Keeping.Until(Date{}, c.cycle.End)
	for i := range c.entries {
		if d := c.scheme.Keeping.Until(c.entries[i].placed, c.cycle.End); d.After(last) {
			last = d
		}
	}
	return last
}

// results hands out what each claim came to, in the order of the input.
func (c *calculation) results() {
	at := map[string]entry{}
	for _, e := range c.entries {
		r := ClaimResult{ID: e.ID, Awarded: e.awarded, Counted: e.counted, Category: e.Category}
		if e.left {
			continue
		}
		if e.carried {
			c.st.CarriedIn = append(c.st.CarriedIn, r)
		} else {
			at[e.ID] = e
		}
	}
	for _, k := range c.input.Claims {
		e := at[k.ID]
		r := ClaimResult{ID: k.ID, Awarded: e.awarded, Counted: e.counted, Category: e.Category}
		if e.Category != k.Category {
			r.CountsAs = e.Category
		}
		c.st.Claims = append(c.st.Claims, r)
	}
}
