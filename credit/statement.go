package credit

import (
	"encoding/json"
	"fmt"
)

// Statement is what one certification's claims come to on a day, and how. Its JSON is
// part of the machine interface: amounts are strings, and what does not apply is null.
type Statement struct {
	Certification    string
	Scheme           string
	Unit             string
	Cycle            Period // zero: no cycle was given, and every claim is inside
	On               Date   // zero: no day was given
	HasTarget        bool
	Target           Amount
	Counted          Amount
	Missing          Amount // to the target
	Meets            bool   // target and every minimum; false when nothing is asked
	CarryIn          Amount // counted of what was carried in
	CarryOut         Amount // what may go on if the cycle closed so
	ExclusiveMissing Amount // what is missing to fill the minimums that may not share a credit
	Categories       []CategoryTotal
	Minimums         []MinimumState
	Cuts             []Cut
	Leaving          []Leaving
	Deadlines        []Deadline
	Claims           []ClaimResult // in the order of the input; carried credit is not among them
	CarriedIn        []ClaimResult
	Derivations      []Derivation  // of everything, in the order in which it was worked out
	Unproven         *Unproven     // nil: everything is proven to be the best
	Changed          *SchemeChange // nil: the cycle runs under the rules it began with; set by who knows both
	given            *given        // what it was worked out from; nil of a Statement made otherwise
}

// Unproven says that the search for what counts ended before it was proven to be the
// best: what was found is right in itself, and may fall short of the best by Distance.
type Unproven struct {
	What     string `json:"what"`     // the first aim that was not settled
	Distance Amount `json:"distance"` // no choice can do better by more than this
	Steps    int    `json:"steps"`    // that were taken
}

// String says in a sentence, without a point, what is open.
func (u Unproven) String() string {
	text := fmt.Sprintf("the search for the best ended after %d steps before this was settled: %s", u.Steps, u.What)
	if u.Distance.Sign() > 0 {
		text += fmt.Sprintf(", by up to %v", u.Distance)
	}
	return text
}

// CategoryTotal is what one category comes to.
type CategoryTotal struct {
	ID      string  `json:"id"`
	Awarded Amount  `json:"awarded"`
	Counted Amount  `json:"counted"`
	Cap     *Amount `json:"cap"` // over this category alone and the whole cycle; nil: none
}

// MinimumState is how far one minimum is filled.
type MinimumState struct {
	ID   string `json:"id"`
	Have Amount `json:"have"` // the largest that any split of the total gives it; of several windows the smallest
	Want Amount `json:"want"`
	Met  bool   `json:"met"`
}

// Cut is what one rule took from one claim.
type Cut struct {
	Claim  string `json:"claim"`
	Rule   string `json:"rule"`
	Amount Amount `json:"amount"`

	category string // in which the claim lost it
}

// Leaving is credit that stops counting on a day, or that then lies outside the window
// of years of one minimum.
type Leaving struct {
	Date    Date   `json:"date"`
	Amount  Amount `json:"amount"`
	Minimum string `json:"minimum,omitempty"` // over rolling windows; "" means that it stops counting altogether
}

// Deadline is a day by which something must be done.
type Deadline struct {
	What string `json:"what"`
	Date Date   `json:"date"`
}

// KeepDeadline is the deadline until which proof must be kept: nothing is to be done by it.
const KeepDeadline = "proof must be kept until"

// ClaimResult is what one claim comes to.
type ClaimResult struct {
	ID       string `json:"id"`
	Awarded  Amount `json:"awarded"`
	Counted  Amount `json:"counted"`
	Category string `json:"-"`                   // in which it counts
	CountsAs string `json:"counts_as,omitempty"` // that category where the claim was put forward in another
}

// Kinds of derivation.
const (
	StepAward   = "award"   // what a claim earns before any cap
	StepOutside = "outside" // why a claim earns nothing whatever it is
	StepCut     = "cut"     // what a cap took from a claim
	StepMinimum = "minimum"
	StepTarget  = "target"
	StepCarry   = "carry"
	StepSearch  = "search" // that the search ended before all was proven
)

// Derivation says how one figure came about.
type Derivation struct {
	Step     string `json:"step"`
	Claim    string `json:"claim,omitempty"`
	Category string `json:"category,omitempty"`
	Rule     string `json:"rule"`
	Origin
	Text   string `json:"text"` // the arithmetic in words and fractions
	Before Amount `json:"before"`
	After  Amount `json:"after"`
	Parts  []Part `json:"parts,omitempty"` // of a minimum: what serves it
}

// Part is what one claim adds to a figure.
type Part struct {
	Window string `json:"window,omitempty"` // which of several windows of time: "2025"
	Claim  string `json:"claim"`
	Amount Amount `json:"amount"`
}

// Result returns what the claim id comes to, and false if there is no such claim.
//
// Who asks for each claim in turn takes [Statement.Results].
func (s Statement) Result(id string) (ClaimResult, bool) {
	for _, c := range s.Claims {
		if c.ID == id {
			return c, true
		}
	}
	for _, c := range s.CarriedIn {
		if c.ID == id {
			return c, true
		}
	}
	return ClaimResult{}, false
}

// Results returns what became of every claim, by its id: as [Statement.Result], which goes
// through them all.
func (s Statement) Results() map[string]ClaimResult {
	all := make(map[string]ClaimResult, len(s.Claims)+len(s.CarriedIn))
	for _, list := range [][]ClaimResult{s.Claims, s.CarriedIn} {
		for _, c := range list {
			if _, ok := all[c.ID]; !ok {
				all[c.ID] = c
			}
		}
	}
	return all
}

// OfClaim returns the derivations of the claim id, in order.
func (s Statement) OfClaim(id string) []Derivation {
	return s.derivations(func(d Derivation) bool { return d.Claim == id })
}

// OfCategory returns the derivations of the claims in the category id, in order.
func (s Statement) OfCategory(id string) []Derivation {
	return s.derivations(func(d Derivation) bool { return d.Category == id })
}

// OfMinimum returns the derivations of the minimum id.
func (s Statement) OfMinimum(id string) []Derivation {
	return s.derivations(func(d Derivation) bool { return d.Step == StepMinimum && d.Rule == id })
}

func (s Statement) derivations(keep func(Derivation) bool) []Derivation {
	var list []Derivation
	for _, d := range s.Derivations {
		if keep(d) {
			list = append(list, d)
		}
	}
	return list
}

// DaysLeft returns the days from the day of the statement to the end of the cycle,
// negative after it, and false if one of the two is not known.
func (s Statement) DaysLeft() (int, bool) {
	if s.On.IsZero() || s.Cycle.End.IsZero() {
		return 0, false
	}
	return s.Cycle.End.Sub(s.On), true
}

type periodJSON struct {
	Start *Date `json:"start"`
	End   *Date `json:"end"`
}

type statementJSON struct {
	Certification    string          `json:"certification"`
	Scheme           string          `json:"scheme"`
	Unit             string          `json:"unit"`
	Cycle            periodJSON      `json:"cycle"`
	On               *Date           `json:"on"`
	Target           *Amount         `json:"target"`
	Counted          Amount          `json:"counted"`
	Missing          Amount          `json:"missing"`
	Meets            bool            `json:"meets"`
	DaysLeft         *int            `json:"days_left"`
	CarryIn          Amount          `json:"carry_in"`
	CarryOut         Amount          `json:"carry_out"`
	ExclusiveMissing Amount          `json:"exclusive_missing"`
	Categories       []CategoryTotal `json:"categories"`
	Minimums         []MinimumState  `json:"minimums"`
	Cuts             []Cut           `json:"cuts"`
	Leaving          []Leaving       `json:"leaving"`
	Deadlines        []Deadline      `json:"deadlines"`
	Unproven         *Unproven       `json:"unproven,omitempty"`
	Changed          *SchemeChange   `json:"scheme_change,omitempty"`
	Claims           *[]ClaimResult  `json:"claims,omitempty"`
	Steps            []Derivation    `json:"steps,omitempty"`
	Lines            []string        `json:"lines,omitempty"`
}

func (s Statement) json() statementJSON {
	j := statementJSON{
		Certification: s.Certification, Scheme: s.Scheme, Unit: s.Unit,
		Cycle: periodJSON{dayOrNull(s.Cycle.Start), dayOrNull(s.Cycle.End)}, On: dayOrNull(s.On),
		Counted: s.Counted, Missing: s.Missing, Meets: s.Meets,
		CarryIn: s.CarryIn, CarryOut: s.CarryOut, ExclusiveMissing: s.ExclusiveMissing,
		Categories: listed(s.Categories), Minimums: listed(s.Minimums), Cuts: listed(s.Cuts),
		Leaving: listed(s.Leaving), Deadlines: listed(s.Deadlines), Unproven: s.Unproven, Changed: s.Changed,
	}
	if s.HasTarget {
		j.Target = &s.Target
	}
	if n, ok := s.DaysLeft(); ok {
		j.DaysLeft = &n
	}
	return j
}

// MarshalJSON prints s as `standing` shows it, without the claims.
func (s Statement) MarshalJSON() ([]byte, error) { return json.Marshal(s.json()) }

// Calc is a Statement that prints with what each claim comes to, as `calc` shows it.
type Calc struct {
	Statement
	Explained bool // how each figure came about is printed too
}

// MarshalJSON prints c with the further key claims, and steps and lines if it is to
// explain itself.
func (c Calc) MarshalJSON() ([]byte, error) {
	j := c.json()
	claims := listed(c.Claims)
	j.Claims = &claims
	if c.Explained {
		j.Steps, j.Lines = c.Derivations, c.ExplainAll()
	}
	return json.Marshal(j)
}

func dayOrNull(d Date) *Date {
	if d.IsZero() {
		return nil
	}
	return &d
}

// listed keeps an empty list from printing as null.
func listed[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}
