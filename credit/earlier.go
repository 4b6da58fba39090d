package credit

import (
	"fmt"
	"slices"
)

// series keeps the days of the claims so far that repeat each other, by category and
// the value by which they are told apart.
type series map[string][]Date

// turns is how many claims come before one of this day, in so many years; 0: ever. One
// whose day is not known counts.
func (s series) turns(key string, day Date, years int) int {
	if years == 0 || day.IsZero() {
		return len(s[key])
	}
	n, since := 0, day.AddYears(-years)
	for _, d := range s[key] {
		if d.IsZero() || d.After(since) {
			n++
		}
	}
	return n
}

// reach says in words how far a series looks back beyond the cycle.
func (r Repeat) reach() string {
	switch {
	case r.Within == 1:
		return " within a year"
	case r.Within > 0:
		return fmt.Sprintf(" within %d years", r.Within)
	case r.Across:
		return ", earlier cycles counted"
	}
	return ""
}

// earlierTurns begins the series with the claims of earlier cycles, for the categories
// whose rule looks across cycles.
func (c *calculation) earlierTurns() series {
	seen := series{}
	list := slices.Clone(c.input.Earlier)
	slices.SortStableFunc(list, Claim.compare)
	for _, claim := range list {
		i, ok := c.byID[claim.Category]
		if !ok || !c.scheme.Categories[i].Repeat.Across {
			continue
		}
		claim.holder = c.input.Facts
		c.scheme.Categories[i].repeated(claim, Amount{}, seen, new(Derivation))
	}
	return seen
}
