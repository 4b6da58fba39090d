package credit

import (
	"errors"
	"fmt"
	"slices"
)

// ErrNoClaim says that a statement has no claim of that id.
var ErrNoClaim = errors.New("the statement has no such claim")

// Effect is what leaving out one claim would change.
type Effect struct {
	Claim    string        `json:"claim"`
	Counted  Change        `json:"counted"` // of the whole statement
	Missing  Change        `json:"missing"` // to the target
	Meets    bool          `json:"meets"`   // without the claim
	Claims   []ClaimChange `json:"claims"`  // other claims that would count more or less
	Minimums []ClaimChange `json:"minimums"`
	was      bool          // met with the claim
	unit     string
}

// Change is a figure before and after.
type Change struct {
	Before Amount `json:"before"`
	After  Amount `json:"after"`
}

// ClaimChange is what one claim or minimum would come to.
type ClaimChange struct {
	ID string `json:"id"`
	Change
}

// Without works out the statement anew without the claim id and returns what differs,
// in exact figures. The error wraps [ErrNoClaim] if s has no such claim, or was not
// made by [Calculate].
func (s Statement) Without(id string) (Effect, error) {
	if s.given == nil {
		return Effect{}, fmt.Errorf("claim %s: %w", id, ErrNoClaim)
	}
	in := s.given.input
	in.Claims = slices.DeleteFunc(slices.Clone(in.Claims), func(c Claim) bool { return c.ID == id })
	if len(in.Claims) == len(s.given.input.Claims) {
		return Effect{}, fmt.Errorf("claim %s: %w", id, ErrNoClaim)
	}
	other, err := Calculate(s.given.scheme, in)
	if err != nil {
		return Effect{}, err
	}
	e := Effect{Claim: id, Counted: Change{s.Counted, other.Counted}, Missing: Change{s.Missing, other.Missing}, Meets: other.Meets, was: s.Meets, unit: s.Unit,
		Claims: []ClaimChange{}, Minimums: []ClaimChange{}}
	counted := map[string]Amount{}
	for _, r := range other.results() {
		counted[r.ID] = r.Counted
	}
	for _, r := range s.results() {
		if now := counted[r.ID]; r.ID != id && !now.Equal(r.Counted) {
			e.Claims = append(e.Claims, ClaimChange{r.ID, Change{r.Counted, now}})
		}
	}
	for i, m := range s.Minimums {
		if i < len(other.Minimums) && other.Minimums[i].ID == m.ID && !other.Minimums[i].Have.Equal(m.Have) {
			e.Minimums = append(e.Minimums, ClaimChange{m.ID, Change{m.Have, other.Minimums[i].Have}})
		}
	}
	return e, nil
}

// Lines says the effect in words.
func (e Effect) Lines() []string {
	var lines []string
	if e.Counted.Before.Equal(e.Counted.After) {
		lines = append(lines, fmt.Sprintf("without %s the total would still be %s", e.Claim, Quantity(e.Counted.After, e.unit)))
	} else {
		lines = append(lines, fmt.Sprintf("without %s the total would be %v instead of %s", e.Claim, e.Counted.After, Quantity(e.Counted.Before, e.unit)))
	}
	for i, c := range e.Claims {
		if i == 5 && len(e.Claims) > 6 {
			lines = append(lines, fmt.Sprintf("  %d more would change", len(e.Claims)-i))
			break
		}
		lines = append(lines, fmt.Sprintf("  %s would count %v instead of %v", c.ID, c.After, c.Before))
	}
	for _, m := range e.Minimums {
		lines = append(lines, fmt.Sprintf("  %v instead of %v could count for the minimum %s", m.After, m.Before, m.ID))
	}
	if e.was && !e.Meets {
		lines = append(lines, "  not all that is asked would be met")
	}
	return lines
}
