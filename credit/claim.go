package credit

import (
	"cmp"
	"strings"
)

// Claim is an activity put forward for one cycle in one category, as the rules see it.
type Claim struct {
	ID       string
	Category string
	Start    Date     // zero: not known
	End      Date     // zero: not known; a claim without any date lies in the cycle and in no smaller window
	Minutes  *Minutes // nil: not known
	Credits  []Credit // as the document prints them
	Count    *int64   // nil means 1
	Tags     []string
	Provider string
	Fields   map[string]string // log fields; numbers as ParseAmount reads them

	holder Facts // of the calculation that the claim is in
}

// Credit is a figure as a document prints it, with its unit.
type Credit struct {
	Unit  string `json:"unit"`
	Value Amount `json:"value"`
}

// Carried is credit brought in from the cycle before.
type Carried struct {
	ID       string // "" is filled in as "carried 1" and so on
	Amount   Amount
	Category string // "" means the category "carried", which no rule of a scheme names unless it says so
	Tags     []string
	Earned   Date
}

// Facts are what rules ask about the holder: "true" for one that simply stands.
type Facts map[string]string

// Holds reports whether the fact name stands; the empty name always does.
func (f Facts) Holds(name string) bool {
	v := f[name]
	return name == "" || v != "" && v != "false"
}

// Input is what [Calculate] works on. The zero Input has no claim.
type Input struct {
	Certification string // only handed through
	Cycle         Period // zero: taken from the scheme and the facts if they tell, else every claim is inside
	On            Date   // zero: the cycle's end
	Facts         Facts
	Carried       []Carried
	Claims        []Claim
	Earlier       []Claim     // of earlier cycles: they earn nothing here, and only rules that look across cycles see them
	Steps         int         // how long what counts may be searched for; 0: [DefaultSteps]
	Stop          func() bool // asked now and then while searching; true: end with the best so far. nil: never
}

// Date returns the day that places the claim: its end, or its start if no end is known.
func (c Claim) Date() Date {
	if c.End.IsZero() {
		return c.Start
	}
	return c.End
}

// compare orders claims by date, those without one last, then by id.
func (c Claim) compare(d Claim) int {
	a, b := c.Date(), d.Date()
	if a.IsZero() != b.IsZero() {
		if a.IsZero() {
			return 1
		}
		return -1
	}
	return cmp.Or(a.Compare(b), compareIDs(c.ID, d.ID))
}

// compareIDs puts C9 before C10: equal letters, then the number, then the text.
func compareIDs(a, b string) int {
	la, na := splitID(a)
	lb, nb := splitID(b)
	return cmp.Or(strings.Compare(la, lb), cmp.Compare(len(na), len(nb)), strings.Compare(na, nb), strings.Compare(a, b))
}

func splitID(id string) (letters, number string) {
	letters = strings.TrimRight(id, "0123456789")
	return letters, strings.TrimLeft(id[len(letters):], "0")
}

// sameUnit compares the names of units: without case, without a plural s.
func sameUnit(a, b string) bool {
	norm := func(s string) string {
		return strings.TrimSuffix(strings.ToLower(strings.Join(strings.Fields(s), " ")), "s")
	}
	return norm(a) == norm(b)
}
