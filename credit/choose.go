package credit

import (
	"fmt"
	"math/big"
	"slices"
)

// group is claims that lie in the same rows and serve the same needs: for the choice
// of what counts they are one.
type group struct {
	members []int
	upper   Amount
	carried bool
	rows    []int
	windows []service
}

// service says that a group serves a window of a need, and whether only as part of
// what has a ceiling of its own there.
type service struct {
	need, window int
	part         bool
}

// choice is one solution of the choice of what counts.
type choice struct {
	met       bool // target and every minimum, together
	total     Amount
	counted   []Amount // per group
	have      []Amount // per need
	exclusive Amount   // missing
}

// chooser builds and solves the programmes of one calculation.
type chooser struct {
	*calculation
	needs  []need
	groups []group
	fill   *Amount // the most that carried credit may add; nil: no bound of its own
}

// choose settles what counts of each claim.
func (c *calculation) choose() {
	h := chooser{calculation: c, needs: c.needs()}
	h.groups = h.grouped()
	if c.scheme.CarryOver.Fill && len(c.input.Carried) > 0 {
		own := h.ownTotal()
		room := Amount{}.Max(c.target.Sub(own))
		h.fill = &room
	}
	var best *choice
	for _, way := range ways(h.needs) {
		got := h.solve(way)
		if best == nil || got.met && !best.met || got.met == best.met && got.total.Cmp(best.total) > 0 {
			best = &got
		}
	}
	for g, grp := range h.groups {
		left := best.counted[g]
		for _, i := range grp.members {
			e := &c.entries[i]
			e.counted = e.limit.Min(left)
			left = left.Sub(e.counted)
		}
	}
	for i := range h.needs {
		if h.needs[i].amounts() {
			h.needs[i].have = best.have[i]
		}
	}
	c.met, c.room = best.met, h.fill
	c.st.ExclusiveMissing = best.exclusive
	c.settleNeeds(h.needs)
}

// allMet reports whether one and the same split meets the target and all minimums.
func (c *calculation) allMet() bool { return c.met }

func (h *chooser) grouped() []group {
	rows := make([][]int, len(h.entries))
	for r, row := range h.rows {
		for _, i := range row.members {
			rows[i] = append(rows[i], r)
		}
	}
	windows := make([][]service, len(h.entries))
	for n, need := range h.needs {
		for w, window := range need.windows {
			for k, i := range window.members {
				windows[i] = append(windows[i], service{n, w, window.part[k]})
			}
		}
	}
	var list []group
	at := map[string]int{}
	for i, e := range h.entries {
		if e.limit.Sign() <= 0 {
			continue
		}
		key := fmt.Sprint(e.carried, rows[i], windows[i])
		g, ok := at[key]
		if !ok {
			g = len(list)
			at[key] = g
			list = append(list, group{carried: e.carried, rows: rows[i], windows: windows[i]})
		}
		list[g].members = append(list[g].members, i)
		list[g].upper = list[g].upper.Add(e.limit)
	}
	return list
}

// model is a programme with the numbers of its variables.
type model struct {
	linear
	total     []term
	carried   []term
	target    []term   // what is missing to the target, negative
	short     [][]term // per need, what is missing to it, negative
	have      [][]term // per need, what it has
	exclusive []term   // what is missing to minimums that may not share, negative
}

var minusOne = big.NewRat(-1, 1)

// ownTotal is the largest total without credit carried in.
func (h *chooser) ownTotal() Amount {
	var m model
	h.amounts(&m)
	var own []term
	for g, t := range m.total {
		if h.groups[g].carried {
			m.upper[g] = new(big.Rat)
		} else {
			own = append(own, t)
		}
	}
	return amountOf(m.program(nil).maximize(own))
}

// amounts adds a variable for each group and a row for each cap.
func (h *chooser) amounts(m *model) {
	rows := make([][]term, len(h.rows))
	for _, g := range h.groups {
		v := m.variable(g.upper.Rat(), false)
		m.total = append(m.total, term{v, one})
		if g.carried {
			m.carried = append(m.carried, term{v, one})
		}
		for _, r := range g.rows {
			rows[r] = append(rows[r], term{v, one})
		}
	}
	for r, terms := range rows {
		row := h.rows[r]
		if !row.counted {
			m.atMost(row.most.Rat(), terms...)
			continue
		}
		share := new(big.Rat).Neg(row.cap.Most.value())
		for _, t := range m.total {
			terms = append(terms, term{t.variable, share})
		}
		m.atMost(new(big.Rat), terms...)
	}
	if h.fill != nil {
		m.atMost(h.fill.Rat(), m.carried...)
	}
}

// missing adds a variable for what terms lack to want, and the row that holds it.
func (m *model) missing(want Amount, terms []term) term {
	v := m.variable(want.Rat(), true)
	row := []term{{v, minusOne}}
	for _, t := range terms {
		row = append(row, term{t.variable, minusOne})
	}
	m.atMost(new(big.Rat).Neg(want.value()), row...)
	return term{v, minusOne}
}

// windowTerms are the groups that serve one window of a need. Those of the part with a
// ceiling come in through a variable of their own.
func (h *chooser) windowTerms(m *model, need, window int) []term {
	var terms, part []term
	for g, grp := range h.groups {
		switch {
		case slices.Contains(grp.windows, service{need, window, false}):
			terms = append(terms, term{g, one})
		case slices.Contains(grp.windows, service{need, window, true}):
			part = append(part, term{g, minusOne})
		}
	}
	if len(part) > 0 {
		v := m.variable(h.needs[need].PartMost.Rat(), false)
		m.atMost(new(big.Rat), append(part, term{v, one})...)
		terms = append(terms, term{v, one})
	}
	return terms
}

func (h *chooser) model(way []int) *model {
	m := &model{short: make([][]term, len(h.needs)), have: make([][]term, len(h.needs))}
	h.amounts(m)
	if h.st.HasTarget && h.target.Sign() > 0 {
		m.target = []term{m.missing(h.target, m.total)}
	}
	for n, need := range h.needs {
		asked := slices.Contains(way, n) && need.Least.Sign() > 0
		served := make([][]term, len(need.windows))
		for w := range need.windows {
			terms := h.windowTerms(m, n, w)
			if len(need.windows) > 1 {
				served[w] = terms
			}
			if asked {
				m.short[n] = append(m.short[n], m.missing(need.Least, terms))
			}
			if len(need.windows) == 1 {
				m.have[n] = terms
			}
		}
		if len(need.windows) > 1 {
			m.have[n] = m.least(served)
		}
	}
	for _, x := range h.scheme.Exclusive {
		h.exclusiveRows(m, x)
	}
	return m
}

// least adds a variable that is at most what each window has.
func (m *model) least(windows [][]term) []term {
	v := m.variable(nil, false)
	for _, terms := range windows {
		row := []term{{v, one}}
		for _, t := range terms {
			row = append(row, term{t.variable, minusOne})
		}
		m.atMost(new(big.Rat), row...)
	}
	return []term{{v, one}}
}

// exclusiveRows shares out each group's credit among the minimums that may not share.
func (h *chooser) exclusiveRows(m *model, x Exclusive) {
	serves := make([][]term, len(h.needs))
	for g, grp := range h.groups {
		parts := []term{{g, minusOne}}
		for _, w := range grp.windows {
			if slices.Contains(x.Minimums, h.needs[w.need].ID) {
				v := m.variable(grp.upper.Rat(), false)
				parts = append(parts, term{v, one})
				serves[w.need] = append(serves[w.need], term{v, one})
			}
		}
		if len(parts) > 1 {
			m.atMost(new(big.Rat), parts...)
		}
	}
	for n, need := range h.needs {
		if slices.Contains(x.Minimums, need.ID) && need.Least.Sign() > 0 {
			m.exclusive = append(m.exclusive, m.missing(need.Least, serves[n]))
		}
	}
}

// solve finds what counts when the needs of way are asked.
func (h *chooser) solve(way []int) choice {
	m := h.model(way)
	p := m.program(nil)
	p.restore(nil)
	var got choice
	got.met = true
	for _, n := range way {
		got.met = got.met && (h.needs[n].amounts() || h.needs[n].met)
	}
	all := slices.Concat(m.target, slices.Concat(m.short...), m.exclusive)
	if got.met {
		if p.maximize(all).isZero() {
			p.settle(all)
		} else {
			got.met = false
		}
	}
	got.total = amountOf(p.settle(m.total))
	got.have = make([]Amount, len(h.needs))
	for n, terms := range m.have {
		if len(terms) > 0 {
			got.have[n] = amountOf(p.maximize(terms))
		}
	}
	if len(m.exclusive) > 0 {
		got.exclusive = amountOf(p.maximize(m.exclusive).neg())
	}
	p.settle(m.target)
	for _, n := range way {
		p.settle(m.short[n])
	}
	p.settle(m.exclusive)
	p.settle(m.carried)
	for _, t := range m.total {
		p.settle([]term{t})
	}
	for g := range h.groups {
		got.counted = append(got.counted, amountOf(p.at(g)))
	}
	return got
}

func amountOf(f frac) Amount { return Amount{f.rat()} }
