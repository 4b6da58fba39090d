package credit

// outcome is how a run of the dual method ended.
type outcome int

const (
	holds  outcome = iota // every variable lies within its bounds
	cannot                // no values of the variables do
	below                 // the objective fell to what is not wanted any more
	ended                 // the budget ended before
)

// within moves the bounds of a variable. The variables may not fit afterwards:
// [program.restore] sees to that.
func (p *program) within(v int, lower, upper frac) {
	before := p.at(v)
	p.lower[v], p.upper[v], p.open[v] = lower, upper, false
	j := p.column[v]
	if j < 0 {
		return
	}
	if g := p.gain[j].sign(); g != 0 && !p.frozen[v] {
		p.atUpper[v] = g > 0 // a variable without room stands at either bound, now only one is right
	}
	if way := p.at(v).sub(before); !way.isZero() {
		p.touching(j)
		p.shift(j, way)
	}
}

// restore brings every variable back within its bounds by the dual method, and keeps
// that nothing gains: the objective must have been raised as far as it goes, or be none.
// It gives up as soon as the objective is not above floor, if there is one.
func (p *program) restore(floor *frac) outcome {
	for p.idle = 0; ; {
		if floor != nil && p.worth.cmp(*floor) <= 0 {
			return below
		}
		least := p.idle > len(p.rows)+len(p.outside)
		r := p.leaving(least)
		if r < 0 {
			return holds
		}
		if !p.budget.more() {
			return ended
		}
		b := p.basis[r]
		rises := p.value[r].cmp(p.lower[b]) < 0
		to := p.upper[b]
		if rises {
			to = p.lower[b]
		}
		j, factor := p.helping(r, rises, least)
		if j < 0 {
			p.budget.spend(len(p.rows[r]))
			return cannot
		}
		if p.gain[j].isZero() {
			p.idle++
		} else {
			p.idle = 0
		}
		way := p.value[r].sub(to).quo(factor)
		at := p.at(p.outside[j]).add(way)
		p.touching(j)
		p.shift(j, way)
		p.pivot(r, j, at, !rises)
	}
}

// leaving picks the row whose variable lies farthest outside its bounds, or the one with
// the least variable; −1 if all lie inside.
func (p *program) leaving(least bool) int {
	best := -1
	var size frac
	for i, x := range p.value {
		b := p.basis[i]
		out := p.lower[b].sub(x)
		if out.sign() <= 0 {
			if p.open[b] {
				continue
			}
			if out = x.sub(p.upper[b]); out.sign() <= 0 {
				continue
			}
		}
		c := 0
		if !least && best >= 0 {
			c = out.cmp(size)
		}
		if best < 0 || c > 0 || c == 0 && b < p.basis[best] {
			best, size = i, out
		}
	}
	return best
}

// helping picks the column that can bring the variable of row r back at the least cost
// to the objective; −1 if none can.
func (p *program) helping(r int, rises, least bool) (int, frac) {
	best := -1
	var cost, factor frac
	for _, c := range p.rows[r] {
		v := p.outside[c.column]
		up := !p.atUpper[v] // it can only go up
		if !p.loose(v) || (c.factor.sign() > 0) == (up == rises) {
			continue
		}
		size := c.factor.abs()
		is := p.gain[c.column].abs().quo(size)
		k := 0
		if best >= 0 {
			if k = is.cmp(cost); k == 0 && !least {
				k = factor.abs().cmp(size)
			}
		}
		if best < 0 || k < 0 || k == 0 && v < p.outside[best] {
			best, cost, factor = c.column, is, c.factor
		}
	}
	return best, factor
}
