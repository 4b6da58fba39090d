package credit

import (
	"fmt"
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
	unit    Amount // of an entry that counts whole or not at all; else 0
	single  bool   // one entry that others may exclude

	amount term // what counts of the group: a variable times a factor
	chosen int  // the variable that says whether it may count at all; −1: none
}

// service says that a group serves a window of a need, and whether only as part of
// what has a ceiling of its own there.
type service struct {
	need, window int
	part         bool
}

// chooser builds and solves the programme of one calculation.
type chooser struct {
	*calculation
	needs   []need
	groups  []group
	groupOf []int   // per entry, its group; −1: none
	fill    *Amount // what credit carried in may add where it only fills up to the target
	// A cap is a share of what counts, so that credit carried in makes room for own credit:
	// then it counts only in a total that is not above the target, and fill is not read.
	fillShared bool
	budget     *budget
	unproven   *Unproven
}

// choose settles what counts of each claim.
func (c *calculation) choose() {
	c.alternatives()
	c.dominated()
	h := chooser{calculation: c, budget: c.newBudget()}
	h.needs = c.needs()
	h.grouped()
	if c.scheme.CarryOver.Fill && len(c.input.Carried) > 0 {
		room := Amount{}.Max(c.target.Sub(h.ownTotal()))
		h.fill = &room
		h.fillShared = slices.ContainsFunc(h.rows, func(r capRow) bool { return r.counted })
	}
	h.solve()
	c.room, c.st.Unproven = h.roomLeft(), h.unproven
	if u := h.unproven; u != nil {
		c.note(Derivation{Step: StepSearch, Rule: "search", Text: u.String(), After: u.Distance})
	}
	c.dropOthers()
	c.settleNeeds(h.needs)
}

func (c *calculation) newBudget() *budget {
	b := &budget{steps: c.input.Steps, stop: c.input.Stop}
	if b.steps == 0 {
		b.steps = DefaultSteps
	}
	return b
}

// allMet reports whether one and the same split meets the target and all minimums.
func (c *calculation) allMet() bool { return c.met }

// roomLeft is what carried credit could add to own credit up to the target, once it is
// known what counts; nil where it has no bound of its own.
func (h *chooser) roomLeft() *Amount {
	if h.fill == nil || !h.fillShared {
		return h.fill
	}
	room := h.target
	for i := range h.entries {
		if e := &h.entries[i]; !e.carried {
			room = room.Sub(e.counted)
		}
	}
	room = Amount{}.Max(room)
	return &room
}

// grouped takes together the entries between which no rule tells a difference.
func (h *chooser) grouped() {
	rows := make([][]int, len(h.entries))
	excluded := make([]bool, len(h.entries))
	for r, row := range h.rows {
		for _, i := range row.members {
			rows[i] = append(rows[i], r)
			excluded[i] = excluded[i] || row.cap.MostClaims > 0
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
	h.groupOf = make([]int, len(h.entries))
	at := map[string]int{}
	for i := range h.entries {
		e := &h.entries[i]
		h.groupOf[i] = -1
		if e.limit.Sign() <= 0 || e.without > 0 {
			continue
		}
		var unit Amount
		if e.whole && len(rows[i]) > 0 {
			unit = e.limit
		}
		key := fmt.Sprint(e.carried, rows[i], windows[i], unit)
		g, ok := at[key]
		if single := excluded[i] || e.alternative > 0; !ok || single {
			g = len(h.groups)
			if !single {
				at[key] = g
			}
			h.groups = append(h.groups, group{carried: e.carried, rows: rows[i], windows: windows[i], unit: unit, single: single})
		}
		h.groupOf[i] = g
		h.groups[g].members = append(h.groups[g].members, i)
		h.groups[g].upper = h.groups[g].upper.Add(e.limit)
	}
}

// solve finds what counts, one aim after the other.
func (h *chooser) solve() {
	m := h.model()
	s := m.search(m.whole, h.budget)
	s.begin()
	all := slices.Concat(m.target, slices.Concat(m.short...), m.exclusive)
	h.met = m.canMeet
	if h.met {
		s.atLeast = &frac{}
		value, bound := s.raise(all)
		if h.met = value.isZero(); h.met {
			s.keep()
		} else if bound.sign() >= 0 {
			h.open("whether all that is asked can be met", value, bound)
		}
		s.atLeast = nil
	}
	if h.instead(h.settle(s, openTotal, m.total)) {
		return
	}
	if h.fillShared {
		h.settle(s, "whether more of the own credit can count", m.own)
	}
	for n, terms := range m.have {
		if len(terms) > 0 {
			value, bound := s.raise(terms)
			h.needs[n].have = amountOf(value)
			h.judge("whether there is more for minimum "+h.needs[n].ID, value, bound)
		}
	}
	if len(m.exclusive) > 0 {
		value, bound := s.raise(m.exclusive)
		h.st.ExclusiveMissing = amountOf(value.neg())
		h.judge("whether less is missing to the minimums that may not share", value, bound)
	}
	if !h.met {
		h.settle(s, "whether less is missing to the target", m.target)
		for n := range h.needs {
			h.settle(s, "whether less is missing to minimum "+h.needs[n].ID, m.short[n])
		}
		h.settle(s, "whether less is missing to the minimums that may not share", m.exclusive)
	}
	h.settle(s, "whether more of the credit carried in can count", m.carried)
	h.inOrder(s)
}

// settle raises the objective and keeps it for all that follow.
func (h *chooser) settle(s *search, what string, objective []term) frac {
	if len(objective) == 0 {
		return frac{}
	}
	value, bound := s.raise(objective)
	h.judge(what, value, bound)
	s.keep()
	return value
}

// openTotal says that it is open whether the total is the largest.
const openTotal = "whether more can count in all"

func (h *chooser) judge(what string, value, bound frac) {
	if value.cmp(bound) != 0 {
		h.open(what, value, bound)
	}
}

// open notes the first aim that was not proven to be reached as far as can be.
func (h *chooser) open(what string, value, bound frac) {
	if h.unproven == nil {
		h.unproven = &Unproven{What: what, Distance: amountOf(bound.sub(value)), Steps: h.budget.used()}
	}
}

func amountOf(f frac) Amount { return Amount{f.rat()} }

// ownTotal is the largest total without credit carried in.
func (h *chooser) ownTotal() Amount {
	var m model
	h.amounts(&m)
	var own []term
	for g, t := range m.total {
		if h.groups[g].carried {
			m.upper[t.variable] = zero
		} else {
			own = append(own, t)
		}
	}
	s := m.search(m.whole, h.budget)
	s.begin()
	value, bound := s.raise(own)
	h.judge("whether more can count without the credit carried in", value, bound)
	return amountOf(value)
}
