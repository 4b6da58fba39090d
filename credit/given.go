package credit

import (
	"fmt"
	"strings"
)

// given is what a statement was worked out from, so that it can explain itself.
type given struct {
	scheme Scheme
	input  Input
	claims map[string]Claim
}

func newGiven(s Scheme, in Input) *given {
	g := &given{scheme: s, input: in, claims: make(map[string]Claim, len(in.Claims))}
	for _, c := range in.Claims {
		g.claims[c.ID] = c
	}
	return g
}

// parts lists what serves a minimum, window by window. A claim that counts nothing is
// left out.
func (c *calculation) parts(n need) []Part {
	var list []Part
	for _, w := range n.windows {
		for _, i := range w.members {
			if e := &c.entries[i]; e.counted.Sign() > 0 {
				list = append(list, Part{w.label, e.ID, e.counted})
			}
		}
	}
	return list
}

// words prints the number n of the measure name with what it was worked out from.
func (c Claim) words(name string, n Amount, in Period) string {
	if unit, ok := strings.CutPrefix(name, MeasureCreditsOf); ok {
		return fractionText(n) + " " + unit + " as printed"
	}
	_, stated := c.field(name)
	figure := func(one string) string { return fractionText(n) + " " + Units(n, one) }
	switch {
	case name == MeasureHours && !stated && c.Minutes != nil:
		return fmt.Sprintf("%d minutes ÷ 60 = %s", *c.Minutes, figure("hour"))
	case name == MeasureHours:
		return figure("hour")
	case name == MeasureMinutes:
		return figure("minute")
	case name == MeasureCount:
		return figure("item")
	case !stated && IsSpan(name):
		return c.spanWords(name, n, in)
	}
	return name + " " + fractionText(n)
}

func (c Claim) spanWords(name string, n Amount, in Period) string {
	start, end, ok := c.within(in)
	if !ok || end.Before(start) {
		return name + " " + fractionText(n)
	}
	days := fmt.Sprintf("%v to %v: ", start, end)
	months := Whole(int64(fullMonths(start, end.AddDays(1))))
	switch name {
	case MeasureDays:
		return days + n.String() + " " + Units(n, "day")
	case MeasureMonths:
		return days + n.String() + " full " + Units(n, "month")
	case MeasureYears:
		return fmt.Sprintf("%s%v full %s ÷ 12 = %s %s", days, months, Units(months, "month"), fractionText(n), Units(n, "year"))
	}
	return days + fractionText(n) + " " + Units(n, "year") + " by the day"
}

// Rules returns the scheme under which s was worked out; the zero Scheme if s was not
// made by [Calculate].
func (s Statement) Rules() Scheme {
	if s.given == nil {
		return Scheme{}
	}
	return s.given.scheme
}

// Claim returns the claim id as it was put forward, and false if s has none of that id.
func (s Statement) Claim(id string) (Claim, bool) {
	if s.given == nil {
		return Claim{}, false
	}
	c, ok := s.given.claims[id]
	return c, ok
}
