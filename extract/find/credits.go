package find

import "evidencevault/credit"

// Credit is a number of credits with its unit, as printed.
type Credit struct {
	Span
	Value string // decimal with a point, "1.50" stays "1.50"
	Unit  string // as printed, white space single
	Kind  string // the unit folded to one name: "ceu", "pdh", "cpd hour", "point" …
	Total bool   // a word such as total, awarded, earned stands before it
}

// Amount returns the value as an exact number.
func (c Credit) Amount() credit.Amount {
	a, err := credit.ParseAmount(c.Value)
	if err != nil {
		return credit.Amount{} // the finder writes nothing else
	}
	return a
}
