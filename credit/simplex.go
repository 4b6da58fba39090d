package credit

import (
	"cmp"
	"math/big"
	"slices"
)

// program is a linear programme over exact fractions: variables between two bounds,
// rows of the form Σ factor × variable ≤ most, and objectives that are made as large
// as can be one after the other, each without giving up what an earlier one reached.
//
// It is the simplex method with bounded variables on a condensed tableau of sparse
// rows: the primal method for a new objective, the dual one after a bound was moved or
// where the rows do not hold at the start. The order of all choices is fixed, so equal
// programmes give equal solutions; after a run of steps that gain nothing the least
// index decides (Bland's rule), so it ends.
type program struct {
	lower   []frac
	upper   []frac
	open    []bool   // per variable: it has no upper bound
	atUpper []bool   // of variables outside the basis
	frozen  []bool   // must stay at its bound for an earlier objective's sake
	rows    [][]cell // sorted by column, without zeros
	value   []frac   // per row, of the basic variable
	basis   []int    // per row
	outside []int    // per column
	column  []int    // per variable, its column, or −1 in the basis
	row     []int    // per variable, its row, or −1 outside
	gain    []frac   // per column, of the objective last set
	worth   frac     // of the objective, where the variables stand
	budget  *budget
	idle    int
	spare   []cell // scratch
	touched []touch
}

// cell is one number of a row.
type cell struct {
	column int
	factor frac
}

// touch is a row that has a number in the column at hand.
type touch struct {
	row    int
	factor frac
}

// term is factor × variable.
type term struct {
	variable int
	factor   *big.Rat
}

var one = big.NewRat(1, 1)

// linear is what a program is built from.
type linear struct {
	upper []*big.Rat
	start []bool // begins at its upper bound
	rows  []linearRow
}

type linearRow struct {
	terms []term
	most  *big.Rat
}

// variable adds a variable between 0 and upper (nil: no bound) and returns its number.
func (l *linear) variable(upper *big.Rat, atUpper bool) int {
	l.upper = append(l.upper, upper)
	l.start = append(l.start, atUpper)
	return len(l.upper) - 1
}

// atMost adds a row.
func (l *linear) atMost(most *big.Rat, terms ...term) {
	l.rows = append(l.rows, linearRow{terms, most})
}

// atLeast adds a row the other way round.
func (l *linear) atLeast(least *big.Rat, terms ...term) {
	row := make([]term, len(terms))
	for i, t := range terms {
		row[i] = term{t.variable, new(big.Rat).Neg(t.factor)}
	}
	l.atMost(new(big.Rat).Neg(least), row...)
}

// program sets up the tableau. Where the variables begin some rows may not hold:
// [program.restore] sees to that.
func (l *linear) program(b *budget) *program {
	n, m := len(l.upper), len(l.rows)
	p := &program{
		lower: make([]frac, n+m), upper: make([]frac, n+m), open: make([]bool, n+m), atUpper: make([]bool, n+m), frozen: make([]bool, n+m),
		rows: make([][]cell, m), value: make([]frac, m), basis: make([]int, m),
		outside: make([]int, n), column: make([]int, n+m), row: make([]int, n+m), gain: make([]frac, n), budget: b,
	}
	copy(p.atUpper, l.start)
	for j, u := range l.upper {
		p.outside[j], p.column[j], p.row[j] = j, j, -1
		p.upper[j], p.open[j] = fracOf(u), u == nil
	}
	for i, r := range l.rows {
		p.basis[i], p.column[n+i], p.row[n+i], p.open[n+i] = n+i, -1, i, true
		cells := make([]cell, 0, len(r.terms))
		for _, t := range r.terms {
			cells = append(cells, cell{t.variable, fracOf(t.factor)})
		}
		p.rows[i] = gather(cells)
		p.value[i] = fracOf(r.most)
		for _, c := range p.rows[i] {
			if p.atUpper[c.column] {
				p.value[i] = p.value[i].sub(c.factor.mul(p.upper[c.column]))
			}
		}
	}
	return p
}

// gather sorts the cells and adds up those of one column.
func gather(cells []cell) []cell {
	slices.SortStableFunc(cells, func(a, b cell) int { return cmp.Compare(a.column, b.column) })
	out := cells[:0]
	for _, c := range cells {
		if n := len(out); n > 0 && out[n-1].column == c.column {
			out[n-1].factor = out[n-1].factor.add(c.factor)
		} else {
			out = append(out, c)
		}
	}
	return slices.DeleteFunc(out, func(c cell) bool { return c.factor.isZero() })
}

// at returns the value of a variable.
func (p *program) at(variable int) frac {
	if i := p.row[variable]; i >= 0 {
		return p.value[i]
	}
	if p.atUpper[variable] {
		return p.upper[variable]
	}
	return p.lower[variable]
}

// aim sets the objective that [program.climb] raises.
func (p *program) aim(objective []term) {
	p.gain = p.gains(objective)
	p.worth = frac{}
	for _, t := range objective {
		p.worth = p.worth.add(fracOf(t.factor).mul(p.at(t.variable)))
	}
	p.idle = 0
}

// maximize makes Σ factor × variable as large as can be and returns it. The rows must
// hold. When the budget ends before, what was reached is returned; [program.bound] tells
// how much more there could be.
func (p *program) maximize(objective []term) frac {
	p.aim(objective)
	p.climb()
	return p.worth
}

// climb raises the objective until nothing gains, and reports whether it came so far.
func (p *program) climb() bool {
	for p.idle = 0; ; {
		j := p.entering(p.idle > len(p.rows)+len(p.outside))
		if j < 0 {
			return true
		}
		if !p.budget.more() {
			return false
		}
		if p.move(j) {
			p.idle = 0
		} else {
			p.idle++
		}
	}
}

// bound is the most that the objective can reach: its worth, and what each column could
// gain at most. It is the worth itself once nothing gains. The result is false where a
// column that gains has no bound.
func (p *program) bound() (frac, bool) {
	most := p.worth
	for j, g := range p.gain {
		v := p.outside[j]
		if !p.gains1(j, g) {
			continue
		}
		if p.open[v] {
			return most, false
		}
		most = most.add(g.abs().mul(p.upper[v].sub(p.lower[v])))
	}
	return most, true
}

// settle is maximize, and keeps what was reached for all objectives that follow.
func (p *program) settle(objective []term) frac {
	best := p.maximize(objective)
	p.freeze()
	return best
}

// freeze holds the objective where [program.climb] has brought it.
func (p *program) freeze() {
	for j, g := range p.gain {
		if !g.isZero() {
			p.frozen[p.outside[j]] = true
		}
	}
}

// gains returns per column what the objective gains for each unit of that variable.
func (p *program) gains(objective []term) []frac {
	gain := make([]frac, len(p.outside))
	for _, t := range objective {
		factor := fracOf(t.factor)
		if j := p.column[t.variable]; j >= 0 {
			gain[j] = gain[j].add(factor)
			continue
		}
		for _, c := range p.rows[p.row[t.variable]] {
			gain[c.column] = gain[c.column].sub(factor.mul(c.factor))
		}
	}
	return gain
}

// gains1 reports whether moving the variable of column j raises the objective.
func (p *program) gains1(j int, g frac) bool {
	v := p.outside[j]
	if s := g.sign(); s == 0 || p.frozen[v] || (s > 0) == p.atUpper[v] {
		return false
	}
	return p.loose(v)
}

// loose reports whether a variable outside the basis can move at all.
func (p *program) loose(v int) bool {
	return !p.frozen[v] && (p.open[v] || p.upper[v].cmp(p.lower[v]) > 0)
}

// entering picks the column that is worth moving: the one with the largest gain, or
// with the least variable when steps have long gained nothing; −1 if there is none.
func (p *program) entering(least bool) int {
	best := -1
	var size frac
	for j, g := range p.gain {
		if !p.gains1(j, g) {
			continue
		}
		c := 0
		if !least && best >= 0 {
			c = g.abs().cmp(size)
		}
		if best < 0 || c > 0 || c == 0 && p.outside[j] < p.outside[best] {
			best, size = j, g.abs()
		}
	}
	return best
}

// touching lists the rows that have a number in column j.
func (p *program) touching(j int) []touch {
	p.touched = p.touched[:0]
	for i, row := range p.rows {
		if k, ok := find(row, j); ok {
			p.touched = append(p.touched, touch{i, row[k].factor})
		}
	}
	return p.touched
}

func find(row []cell, column int) (int, bool) {
	low, high := 0, len(row)
	for low < high {
		if middle := int(uint(low+high) >> 1); row[middle].column < column {
			low = middle + 1
		} else {
			high = middle
		}
	}
	return low, low < len(row) && row[low].column == column
}

// move moves the variable of column j as far as it can go, and reports whether that
// was any way at all.
func (p *program) move(j int) bool {
	v := p.outside[j]
	up := !p.atUpper[v]
	bounded := !p.open[v]
	way := p.upper[v].sub(p.lower[v])
	leaves, toUpper := -1, false
	for _, t := range p.touching(j) {
		sinks := (t.factor.sign() > 0) == up // the basic variable of the row goes down
		b := p.basis[t.row]
		var room frac
		switch {
		case sinks:
			room = p.value[t.row].sub(p.lower[b])
		case p.open[b]:
			continue
		default:
			room = p.upper[b].sub(p.value[t.row])
		}
		room = room.quo(t.factor.abs())
		c := -1
		if bounded {
			c = room.cmp(way)
		}
		if c < 0 || c == 0 && leaves >= 0 && b < p.basis[leaves] {
			bounded, way, leaves, toUpper = true, room, t.row, !sinks
		}
	}
	if !bounded {
		panic("credit: a linear programme without bound")
	}
	if !up {
		way = way.neg()
	}
	at := p.at(v).add(way)
	p.shift(j, way)
	if leaves < 0 {
		p.atUpper[v] = up
		p.budget.spend(len(p.touched))
		return !way.isZero()
	}
	p.pivot(leaves, j, at, toUpper)
	return !way.isZero()
}

// shift moves the basic variables along as the variable of column j goes its way. The
// rows that [program.touching] listed last are those of column j.
func (p *program) shift(j int, way frac) {
	if way.isZero() {
		return
	}
	for _, t := range p.touched {
		p.value[t.row] = p.value[t.row].sub(t.factor.mul(way))
	}
	p.worth = p.worth.add(p.gain[j].mul(way))
}

// longer is how many times as long the work on a number takes that does not fit in two
// machine words.
const longer = 8

// pivot exchanges the basic variable of row r, which leaves at one of its bounds, with
// the variable of column j, which now stands at the value given. The rows that
// [program.touching] listed last are those of column j.
func (p *program) pivot(r, j int, at frac, toUpper bool) {
	own := p.rows[r]
	k, _ := find(own, j)
	inv := own[k].factor.inv()
	for i := range own {
		own[i].factor = own[i].factor.mul(inv)
	}
	own[k].factor = inv
	work, each := len(own), len(own)
	if slices.ContainsFunc(own, func(c cell) bool { return c.factor.big != nil }) {
		each *= longer
	}
	for _, t := range p.touched {
		if t.row != r {
			p.eliminate(t, own, k)
			work += each
		}
	}
	if g := p.gain[j]; !g.isZero() {
		for i, c := range own {
			if i != k {
				p.gain[c.column] = p.gain[c.column].sub(g.mul(c.factor))
			}
		}
		p.gain[j] = g.mul(inv).neg()
	}
	in, out := p.outside[j], p.basis[r]
	p.outside[j], p.basis[r] = out, in
	p.column[in], p.row[in] = -1, r
	p.column[out], p.row[out] = j, -1
	p.atUpper[out] = toUpper
	p.value[r] = at
	p.budget.spend(work)
}

// eliminate takes the row own, whose cell k is that of the column at hand, out of the
// row of t.
func (p *program) eliminate(t touch, own []cell, k int) {
	row, out := p.rows[t.row], p.spare[:0]
	minus := t.factor.neg()
	x := 0
	for i, c := range own {
		for x < len(row) && row[x].column < c.column {
			out = append(out, row[x])
			x++
		}
		part := minus.mul(c.factor)
		if x < len(row) && row[x].column == c.column {
			if i != k {
				part = part.add(row[x].factor)
			}
			x++
		}
		if !part.isZero() {
			out = append(out, cell{c.column, part})
		}
	}
	out = append(out, row[x:]...)
	p.spare, p.rows[t.row] = row, out
}
