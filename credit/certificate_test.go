package credit

import "slices"

// Certificate is what the linear programme of a statement without choices proves: the
// prices of its rows put a bound on the objective, worked out from the programme as it
// was stated, and that bound is what was reached.
type Certificate struct {
	Total, Bound          Amount // of what counts, with all that is asked where that was met
	Shortfall, LeastShort Amount // of all that is asked; the least that the prices allow
}

// Certify solves the programme of a statement once more and reads its prices.
func Certify(s Scheme, in Input, met bool) (Certificate, error) {
	c := calculation{scheme: s, input: in, byID: make(map[string]int)}
	for i, k := range s.Categories {
		c.byID[k.ID] = i
	}
	if err := c.span(); err != nil {
		return Certificate{}, err
	}
	c.head()
	if err := c.enter(); err != nil {
		return Certificate{}, err
	}
	c.award()
	c.single()
	c.gatherRows()
	h := chooser{calculation: &c}
	h.needs = c.needs()
	h.grouped()

	var got Certificate
	m := h.model()
	all := slices.Concat(m.target, slices.Concat(m.short...))
	p := m.search(nil, nil)
	p.begin()
	value, _ := p.raise(all)
	got.Shortfall, got.LeastShort = amountOf(value.neg()), amountOf(p.priced(true).neg())

	m = h.model()
	if met {
		for _, t := range slices.Concat(m.target, slices.Concat(m.short...)) {
			m.upper[t.variable] = zero
		}
	}
	p = m.search(nil, nil)
	p.begin()
	value, _ = p.raise(m.total)
	got.Total, got.Bound = amountOf(value), amountOf(p.priced(true))
	return got, nil
}
