package credit

import (
	"math/big"
	"slices"
)

// model is a programme with the numbers of its variables.
type model struct {
	linear
	whole     []int // variables that must be whole numbers
	total     []term
	carried   []term
	own       []term   // the rest of total
	target    []term   // what is missing to the target, negative
	short     [][]term // per need, what is missing to it, negative
	have      [][]term // per need, what it has
	exclusive []term   // what is missing to minimums that may not share, negative
	canMeet   bool     // no need that is asked fails whatever counts
}

var minusOne = big.NewRat(-1, 1)

// binary adds a variable that is 0 or 1.
func (m *model) binary(atUpper bool) int {
	v := m.variable(one, atUpper)
	m.whole = append(m.whole, v)
	return v
}

// amounts adds the variables of each group and a row for each cap.
func (h *chooser) amounts(m *model) {
	rows := make([][]term, len(h.rows))
	sides := map[int][]term{} // per claim that may count in several categories
	for k := range h.groups {
		g := &h.groups[k]
		h.variables(m, g)
		m.total = append(m.total, g.amount)
		if g.carried {
			m.carried = append(m.carried, g.amount)
		} else {
			m.own = append(m.own, g.amount)
		}
		for _, r := range g.rows {
			if h.rows[r].cap.MostClaims > 0 {
				rows[r] = append(rows[r], term{g.chosen, one})
			} else {
				rows[r] = append(rows[r], g.amount)
			}
		}
		if a := h.entries[g.members[0]].alternative; g.single && a > 0 {
			sides[a] = append(sides[a], term{g.chosen, one})
		}
	}
	h.capRows(m, rows)
	for k := range h.groups {
		a := h.entries[h.groups[k].members[0]].alternative
		if terms := sides[a]; a > 0 && len(terms) > 1 {
			m.atMost(one, terms...)
			delete(sides, a)
		}
	}
	switch {
	case h.fill == nil:
	case h.fillShared:
		h.fillsUp(m)
	default:
		m.atMost(h.fill.value(), m.carried...)
	}
}

// capRows adds a row for each cap and window, over the terms that lie in it.
func (h *chooser) capRows(m *model, rows [][]term) {
	for r, terms := range rows {
		row := h.rows[r]
		switch {
		case row.cap.MostClaims > 0:
			m.atMost(big.NewRat(int64(row.cap.MostClaims), 1), terms...)
		case row.counted:
			share := new(big.Rat).Neg(row.cap.Most.value())
			for _, t := range m.total {
				terms = append(terms, term{t.variable, new(big.Rat).Mul(share, t.factor)})
			}
			m.atMost(new(big.Rat), terms...)
		default:
			m.atMost(row.most.value(), terms...)
		}
	}
}

// fillsUp adds that credit carried in counts only in a total that is not above the target.
func (h *chooser) fillsUp(m *model) {
	var all, carried Amount
	for _, g := range h.groups {
		all = all.Add(g.upper)
		if g.carried {
			carried = carried.Add(g.upper)
		}
	}
	fills := m.binary(true)
	m.atMost(new(big.Rat), append(slices.Clone(m.carried), term{fills, new(big.Rat).Neg(carried.value())})...)
	above := Amount{}.Max(all.Sub(h.target))
	m.atMost(h.target.Add(above).value(), append(slices.Clone(m.total), term{fills, above.value()})...)
}

// variables adds what stands for a group: an amount; a number of equal entries that
// count whole; or a yes or no, with an amount that hangs on it.
func (h *chooser) variables(m *model, g *group) {
	g.chosen = -1
	if g.unit.Sign() > 0 {
		n := int64(len(g.members))
		if slices.ContainsFunc(g.rows, func(r int) bool {
			return !h.rows[r].counted && h.rows[r].cap.MostClaims == 0 && g.unit.Cmp(h.rows[r].most) > 0
		}) {
			n = 0
		}
		g.chosen = m.variable(big.NewRat(n, 1), false)
		m.whole = append(m.whole, g.chosen)
		g.amount = term{g.chosen, g.unit.value()}
		return
	}
	g.amount = term{m.variable(g.upper.value(), false), one}
	if g.single {
		g.chosen = m.binary(false)
		m.atMost(new(big.Rat), g.amount, term{g.chosen, new(big.Rat).Neg(g.upper.value())})
	}
}

// negative is −t.
func negative(t term) term { return term{t.variable, new(big.Rat).Neg(t.factor)} }

// missing adds a variable for what terms lack to want, and the row that holds it. If
// asked is a variable, all of want is asked only where that is 1.
func (m *model) missing(want Amount, terms []term, asked int) term {
	v := m.variable(want.value(), true)
	row := []term{{v, minusOne}}
	for _, t := range terms {
		row = append(row, negative(t))
	}
	most := new(big.Rat).Neg(want.value())
	if asked != always {
		row = append(row, term{asked, want.value()})
		most = new(big.Rat)
	}
	m.atMost(most, row...)
	return term{v, minusOne}
}

// windowTerms are, per window of each need, the groups that serve it. Those of a part
// with a ceiling come in through a variable of their own.
func (h *chooser) windowTerms(m *model) [][][]term {
	served, part := make([][][]term, len(h.needs)), make([][][]term, len(h.needs))
	for n, need := range h.needs {
		served[n], part[n] = make([][]term, len(need.windows)), make([][]term, len(need.windows))
	}
	for _, g := range h.groups {
		for _, w := range g.windows {
			if w.part {
				part[w.need][w.window] = append(part[w.need][w.window], negative(g.amount))
			} else {
				served[w.need][w.window] = append(served[w.need][w.window], g.amount)
			}
		}
	}
	for n, need := range h.needs {
		for w, terms := range part[n] {
			if len(terms) > 0 {
				v := m.variable(need.PartMost.value(), false)
				m.atMost(new(big.Rat), append(terms, term{v, one})...)
				served[n][w] = append(served[n][w], term{v, one})
			}
		}
	}
	return served
}

func (h *chooser) model() *model {
	m := &model{short: make([][]term, len(h.needs)), have: make([][]term, len(h.needs)), canMeet: true}
	h.amounts(m)
	if h.st.HasTarget && h.target.Sign() > 0 {
		m.target = []term{m.missing(h.target, m.total, always)}
	}
	served := h.windowTerms(m)
	for n := range h.needs {
		switch need := &h.needs[n]; {
		case need.categories != nil:
			served[n] = [][]term{h.different(m, need)}
			m.have[n] = served[n][0]
		case len(need.windows) == 1:
			m.have[n] = served[n][0]
		case len(need.windows) > 1:
			m.have[n] = m.least(served[n])
		}
	}
	asker := asker{h, m, served, map[string]int{}}
	for n := len(h.needs) - 1; n >= 0; n-- {
		asker.at[h.needs[n].ID] = n
	}
	for n, need := range h.needs {
		if !need.listed {
			short, ok := asker.ask(n, always)
			m.short[n] = short
			m.canMeet = m.canMeet && ok
		}
	}
	for _, x := range h.scheme.Exclusive {
		h.exclusiveRows(m, x)
	}
	return m
}

// least adds a variable that is at most what each window has.
func (m *model) least(windows [][]term) []term {
	v := m.variable(m.mostOf(windows[0]), false)
	for _, terms := range windows {
		row := []term{{v, one}}
		for _, t := range terms {
			row = append(row, negative(t))
		}
		m.atMost(new(big.Rat), row...)
	}
	return []term{{v, one}}
}

// mostOf is what the terms come to with their variables at their upper bounds.
func (m *model) mostOf(terms []term) *big.Rat {
	sum := new(big.Rat)
	for _, t := range terms {
		sum.Add(sum, new(big.Rat).Mul(t.factor, m.upper[t.variable]))
	}
	return sum
}

// different counts the categories with an award: those that have one whatever is
// chosen, and one for each that a claim is put into by choice.
func (h *chooser) different(m *model, need *need) []term {
	sure := m.variable(big.NewRat(int64(need.sure), 1), true)
	terms := []term{{sure, one}}
	for _, id := range need.categories {
		there := m.binary(false)
		row := []term{{there, one}}
		for _, g := range h.groups {
			if e := &h.entries[g.members[0]]; g.single && e.alternative > 0 && e.Category == id && need.Selection.Holds(e.Claim) {
				row = append(row, term{g.chosen, minusOne})
			}
		}
		m.atMost(new(big.Rat), row...)
		terms = append(terms, term{there, one})
	}
	return terms
}

// asker adds the rows that ask for needs.
type asker struct {
	*chooser
	m      *model
	served [][][]term
	at     map[string]int
}

// always stands for a variable that is 1 whatever happens.
const always = -1

// ask adds what is missing to need n, asked where the variable on is 1. It reports
// whether the need can be met at all.
func (a *asker) ask(n, on int) ([]term, bool) {
	need := &a.needs[n]
	switch {
	case len(need.AnyOf) > 0:
		return a.anyOf(n)
	case need.Fact != "" || need.Distinct > 0 && need.categories == nil:
		return nil, need.met
	case need.Least.Sign() <= 0:
		return nil, true
	}
	var short []term
	for _, terms := range a.served[n] {
		short = append(short, a.m.missing(need.Least, terms, on))
	}
	return short, true
}

// anyOf asks for one of the lists of need n. Where several are open it is a choice.
func (a *asker) anyOf(n int) ([]term, bool) {
	lists := a.openLists(n)
	ok := len(lists) > 0
	if !ok {
		lists = a.needs[n].AnyOf
	}
	if len(lists) == 1 {
		return a.list(lists[0], always), ok
	}
	var short []term
	some := make([]term, 0, len(lists))
	for k, ids := range lists {
		take := a.m.binary(k == 0)
		some = append(some, term{take, minusOne})
		short = append(short, a.list(ids, take)...)
	}
	a.m.atMost(minusOne, some...)
	return short, ok
}

func (a *asker) list(ids []string, on int) []term {
	var short []term
	for _, id := range ids {
		if n, ok := a.at[id]; ok && len(a.needs[n].AnyOf) == 0 {
			more, _ := a.ask(n, on)
			short = append(short, more...)
		}
	}
	return short
}

// openLists are the lists of need n that no need fails whatever counts.
func (a *asker) openLists(n int) [][]string {
	var open [][]string
	for _, ids := range a.needs[n].AnyOf {
		if !slices.ContainsFunc(ids, func(id string) bool {
			k, ok := a.at[id]
			return ok && !a.canBe(k)
		}) {
			open = append(open, ids)
		}
	}
	return open
}

// canBe reports whether need n does not fail whatever counts.
func (a *asker) canBe(n int) bool {
	need := &a.needs[n]
	switch {
	case len(need.AnyOf) > 0:
		return false // a list of lists is asked nowhere
	case need.Fact != "" || need.Distinct > 0 && need.categories == nil:
		return need.met
	}
	return true
}

// exclusiveRows shares out each group's credit among the minimums that may not share.
func (h *chooser) exclusiveRows(m *model, x Exclusive) {
	serves := make([][]term, len(h.needs))
	for _, g := range h.groups {
		parts := []term{negative(g.amount)}
		for _, w := range g.windows {
			if slices.Contains(x.Minimums, h.needs[w.need].ID) {
				v := m.variable(g.upper.value(), false)
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
			m.exclusive = append(m.exclusive, m.missing(need.Least, serves[n], always))
		}
	}
}
