package credit

import (
	"math/big"
	"slices"
)

// maxWays bounds how many combinations of any-of lists a plan searches one by one. The
// any-of minimums beyond are a choice within each search.
const maxWays = 16

// ways lists the sets of needs of which each is enough: one for each choice among the
// any-of lists. Where there would be too many, an any-of need stands in them itself, see
// [planner.anyOf]. What counts is chosen without ways, see [asker.anyOf].
func ways(needs []need) [][]int {
	var base []int
	at := map[string]int{}
	for i, n := range needs {
		at[n.ID] = i
		if !n.listed && len(n.AnyOf) == 0 {
			base = append(base, i)
		}
	}
	list := [][]int{base}
	for i, n := range needs {
		if len(n.AnyOf) == 0 || n.listed {
			continue
		}
		if len(list)*len(n.AnyOf) > maxWays {
			for k := range list {
				list[k] = append(list[k], i)
			}
			continue
		}
		var more [][]int
		for _, way := range list {
			for _, ids := range n.AnyOf {
				next := slices.Clone(way)
				for _, id := range ids {
					if i, ok := at[id]; ok && !slices.Contains(next, i) {
						next = append(next, i)
					}
				}
				slices.Sort(next)
				more = append(more, next)
			}
		}
		list = more
	}
	return list
}

// lists are the any-of lists of need n as places among the needs. Without lax those are
// left out that ask for a fact which does not stand.
func (p *planner) lists(n int, lax bool) [][]int {
	var lists [][]int
	for _, ids := range p.needs[n].AnyOf {
		var list []int
		barred := false
		for _, id := range ids {
			k := slices.IndexFunc(p.needs, func(o need) bool { return o.ID == id })
			if k >= 0 {
				list = append(list, k)
				barred = barred || p.barred(k)
			}
		}
		if lax || !barred {
			lists = append(lists, list)
		}
	}
	return lists
}

// barred reports whether no activity can meet need n: it asks for a fact that does not
// stand, or each of its lists does.
func (p *planner) barred(n int) bool {
	need := p.needs[n]
	if len(need.AnyOf) > 0 && !need.listed {
		return len(p.lists(n, false)) == 0
	}
	return need.Fact != "" && !need.met
}

// anyOf asks that one list of need n is met, whichever the search takes.
func (p *planner) anyOf(m *planModel, n int) {
	lists := p.lists(n, false)
	if len(lists) == 0 {
		lists = p.lists(n, m.lax)
	}
	var some []term
	for _, list := range lists {
		take := m.add(one)
		m.whole = append(m.whole, take)
		some = append(some, term{take, one})
		for _, k := range list {
			if len(p.needs[k].AnyOf) == 0 {
				m.where = &take
				p.needOf(m, k)
				m.where = nil
			}
		}
	}
	m.atLeast(new(big.Rat).Set(one), some...)
}
