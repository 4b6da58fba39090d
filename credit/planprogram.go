package credit

import (
	"maps"
	"math/big"
	"slices"
)

// planModel is the programme of one plan with the numbers of its variables.
type planModel struct {
	linear
	lax   bool  // it may fall short of what is asked
	units []int // per offer
	whole []int // variables that are whole numbers
	total []term
	sum   [][]term // per group, what counts of it
	fixed []Amount // per group, what counts of it besides
	where *int     // if set, what is asked is asked only where this variable is 1
	lacks []term   // what is missing to the target, to each need, and to what is settled on; negative
}

func (m *planModel) add(upper *big.Rat) int { return m.variable(upper, false) }

// ask asks that terms come to want. A model that may fall short has a variable for
// what is missing.
func (m *planModel) ask(want Amount, terms []term) {
	if want.Sign() <= 0 {
		return
	}
	terms = slices.Clone(terms)
	least := want.Rat()
	if m.where != nil {
		terms, least = append(terms, term{*m.where, Amount{}.Sub(want).Rat()}), new(big.Rat)
	}
	if m.lax {
		v := m.variable(want.Rat(), true)
		m.lacks = append(m.lacks, term{v, minusOne})
		terms = append(terms, term{v, one})
	}
	m.atLeast(least, terms...)
}

func minus(t []term) []term {
	out := make([]term, len(t))
	for i, x := range t {
		out[i] = term{x.variable, new(big.Rat).Neg(x.factor)}
	}
	return out
}

// model builds the programme that asks for the needs of way.
func (p *planner) model(way []int, lax bool) *planModel {
	m := &planModel{lax: lax}
	for _, f := range p.offers {
		v := m.add(f.most.Rat())
		if m.units = append(m.units, v); f.whole {
			m.whole = append(m.whole, v)
		}
	}
	rows := make([][]term, len(p.rows))
	var total []term
	var all Amount
	sides := map[int][]term{}
	for _, g := range p.groups {
		if g.single {
			sum := p.singleOf(m, g, rows, sides)
			m.sum, m.fixed = append(m.sum, []term{sum}), append(m.fixed, Amount{})
			total = append(total, sum)
			continue
		}
		var earned []term
		for _, o := range g.offers {
			earned = append(earned, term{m.units[o], p.offers[o].unit.Rat()})
		}
		sum, fixed := earned, g.upper
		if g.bound {
			v := m.add(nil)
			m.atMost(g.upper.Rat(), append(minus(earned), term{v, one})...)
			sum, fixed = []term{{v, one}}, Amount{}
			for _, r := range g.rows {
				rows[r] = append(rows[r], sum...)
			}
		}
		m.sum, m.fixed = append(m.sum, sum), append(m.fixed, fixed)
		total, all = append(total, sum...), all.Add(fixed)
	}
	for _, a := range slices.Sorted(maps.Keys(sides)) {
		m.atMost(one, sides[a]...)
	}
	m.total = total
	p.capsOf(m, rows, all)
	if p.st.HasTarget {
		m.ask(p.target.Sub(all), total)
	}
	for _, n := range way {
		p.needOf(m, n)
	}
	for _, x := range p.scheme.Exclusive {
		p.exclusiveOf(m, x)
	}
	p.howOften(m)
	return m
}

// singleOf adds the variables of one entry by itself: of how many of it anything
// counts, and how much.
func (p *planner) singleOf(m *planModel, g planGroup, rows [][]term, sides map[int][]term) term {
	e := &p.entries[g.entry]
	v, most := 0, one
	if len(g.offers) > 0 {
		most = p.offers[g.offers[0]].most.Up(Whole(1)).Rat()
	}
	if v = m.add(most); len(g.offers) > 0 {
		m.atMost(new(big.Rat), term{v, one}, term{m.units[g.offers[0]], minusOne})
	}
	m.whole = append(m.whole, v)
	sum := term{v, e.limit.Rat()}
	if !e.whole {
		sum = term{m.add(nil), one}
		m.atMost(new(big.Rat), sum, negative(term{v, e.limit.Rat()}))
	}
	for _, r := range g.rows {
		if p.rows[r].cap.MostClaims > 0 {
			rows[r] = append(rows[r], term{v, one})
		} else {
			rows[r] = append(rows[r], sum)
		}
	}
	if e.alternative > 0 {
		sides[e.alternative] = append(sides[e.alternative], term{v, one})
	}
	return sum
}

func (p *planner) capsOf(m *planModel, rows [][]term, all Amount) {
	for r, terms := range rows {
		row := p.rows[r]
		if row.cap.MostClaims > 0 {
			m.atMost(big.NewRat(int64(row.cap.MostClaims), 1), terms...)
			continue
		}
		if !row.counted {
			m.atMost(row.most.Rat(), terms...)
			continue
		}
		share := new(big.Rat).Neg(row.cap.Most.value())
		for _, t := range m.total {
			terms = append(terms, term{t.variable, new(big.Rat).Mul(share, t.factor)})
		}
		m.atMost(row.cap.Most.Mul(all).Rat(), terms...)
	}
}

func (p *planner) needOf(m *planModel, n int) {
	need := p.needs[n]
	switch {
	case len(need.AnyOf) > 0:
		p.anyOf(m, n)
		return
	case need.Distinct > 0:
		p.distinctOf(m, need)
		return
	}
	for w := range need.windows {
		var terms, part []term
		var have, partHave Amount
		for g, grp := range p.groups {
			switch {
			case slices.Contains(grp.windows, service{n, w, false}):
				terms, have = append(terms, m.sum[g]...), have.Add(m.fixed[g])
			case slices.Contains(grp.windows, service{n, w, true}):
				part, partHave = append(part, m.sum[g]...), partHave.Add(m.fixed[g])
			}
		}
		if len(part) > 0 || partHave.Sign() > 0 {
			v := m.add(need.PartMost.Rat())
			m.atMost(partHave.Rat(), append(minus(part), term{v, one})...)
			terms = append(terms, term{v, one})
		}
		m.ask(need.Least.Sub(have), terms)
	}
}

// distinctOf asks for activities in so many further categories.
func (p *planner) distinctOf(m *planModel, n need) {
	by := map[string][]term{}
	var ids []string
	for i := range p.offers {
		e := p.entries[p.confirmed+i]
		if !n.Selection.Holds(e.Claim) || p.present(n, e.Category) {
			continue
		}
		if by[e.Category] == nil {
			ids = append(ids, e.Category)
		}
		by[e.Category] = append(by[e.Category], term{m.units[i], one})
	}
	var terms []term
	for _, id := range ids {
		v := m.add(one)
		m.atMost(new(big.Rat), append(minus(by[id]), term{v, one})...)
		terms = append(terms, term{v, one})
	}
	m.ask(Whole(int64(n.Minimum.Distinct)).Sub(n.have), terms)
}

func (p *planner) present(n need, category string) bool {
	return slices.ContainsFunc(p.entries[:p.confirmed], func(e entry) bool {
		return !e.carried && e.awarded.Sign() > 0 && e.Category == category && n.Selection.Holds(e.Claim)
	})
}

func (p *planner) exclusiveOf(m *planModel, x Exclusive) {
	serves := make([][]term, len(p.needs))
	for g, grp := range p.groups {
		parts := minus(m.sum[g])
		before := len(parts)
		for _, w := range grp.windows {
			if slices.Contains(x.Minimums, p.needs[w.need].ID) {
				v := m.add(nil)
				parts = append(parts, term{v, one})
				serves[w.need] = append(serves[w.need], term{v, one})
			}
		}
		if len(parts) > before {
			m.atMost(m.fixed[g].Rat(), parts...)
		}
	}
	for n, need := range p.needs {
		if slices.Contains(x.Minimums, need.ID) {
			m.ask(need.Least, serves[n])
		}
	}
}

// howOften bounds each activity over all its stretches, and asks for what is settled.
func (p *planner) howOften(m *planModel) {
	for i := range p.possible {
		o := &p.possible[i]
		var terms []term
		tiers := map[int][]term{}
		tierMost := map[int]Amount{}
		for k, f := range p.offers {
			if f.possible != i {
				continue
			}
			t := term{m.units[k], one}
			if o.Rate {
				t.factor = f.contact.Rat()
			}
			terms = append(terms, t)
			tiers[f.tier], tierMost[f.tier] = append(tiers[f.tier], t), tierMost[f.tier].Max(*f.most)
		}
		if len(terms) == 0 {
			continue
		}
		most := Whole(int64(o.left()))
		if o.Rate {
			most = o.Hours
		}
		if len(terms) > 1 && most.Sign() > 0 {
			m.atMost(most.Rat(), terms...)
		}
		for t := range len(tiers) {
			if len(tiers) > 1 && len(tiers[t]) > 1 {
				m.atMost(tierMost[t].Rat(), tiers[t]...)
			}
		}
		settled := o.Chosen.Sub(Whole(int64(len(o.Done))))
		if o.Rate {
			settled = o.Chosen
		}
		if settled.Sign() > 0 {
			if most.Sign() > 0 {
				settled = settled.Min(most)
			}
			m.ask(settled, terms)
		}
	}
}
