package credit

import "math/big"

// program is a linear programme over exact fractions: variables from 0 up to a bound,
// rows of the form Σ factor × variable ≤ most, and objectives that are made as large
// as can be one after the other, each without giving up what an earlier one reached.
//
// It is the primal simplex method with bounded variables on a condensed tableau. The
// order of all choices is fixed, so equal programmes give equal solutions; after a run
// of steps that gain nothing the least index decides (Bland's rule), so it ends.
type program struct {
	upper   []*big.Rat   // per variable; nil: none
	atUpper []bool       // of variables outside the basis
	frozen  []bool       // must stay at its bound for an earlier objective's sake
	rows    [][]*big.Rat // nil stands for 0: most of them are
	value   []*big.Rat   // per row, of the basic variable
	basis   []int        // per row
	outside []int        // per column
	column  []int        // per variable, its column, or −1 in the basis
	row     []int        // per variable, its row, or −1 outside
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

// atMost adds a row. With the variables where they begin it must hold.
func (l *linear) atMost(most *big.Rat, terms ...term) {
	l.rows = append(l.rows, linearRow{terms, most})
}

func (l *linear) program() *program {
	n, m := len(l.upper), len(l.rows)
	p := &program{
		upper: make([]*big.Rat, n+m), atUpper: make([]bool, n+m), frozen: make([]bool, n+m),
		rows: make([][]*big.Rat, m), value: make([]*big.Rat, m), basis: make([]int, m),
		outside: make([]int, n), column: make([]int, n+m), row: make([]int, n+m),
	}
	copy(p.upper, l.upper)
	copy(p.atUpper, l.start)
	for j := range n {
		p.outside[j], p.column[j], p.row[j] = j, j, -1
	}
	for i, r := range l.rows {
		p.basis[i], p.column[n+i], p.row[n+i] = n+i, -1, i
		p.rows[i] = make([]*big.Rat, n)
		p.value[i] = new(big.Rat).Set(r.most)
		for _, t := range r.terms {
			sum := new(big.Rat).Set(t.factor)
			if before := p.rows[i][t.variable]; before != nil {
				sum.Add(sum, before)
			}
			p.rows[i][t.variable] = sum
			if p.atUpper[t.variable] {
				p.value[i].Sub(p.value[i], new(big.Rat).Mul(t.factor, p.upper[t.variable]))
			}
		}
		if p.value[i].Sign() < 0 {
			panic("credit: a linear programme begins outside its rows")
		}
	}
	return p
}

// clone returns a program that can be driven on without changing p.
func (p *program) clone() *program {
	c := &program{
		upper: p.upper, atUpper: append([]bool(nil), p.atUpper...), frozen: append([]bool(nil), p.frozen...),
		rows: make([][]*big.Rat, len(p.rows)), value: copyRats(p.value),
		basis: append([]int(nil), p.basis...), outside: append([]int(nil), p.outside...),
		column: append([]int(nil), p.column...), row: append([]int(nil), p.row...),
	}
	for i, r := range p.rows {
		c.rows[i] = copyRats(r)
	}
	return c
}

func copyRats(list []*big.Rat) []*big.Rat {
	out := make([]*big.Rat, len(list))
	for i, r := range list {
		if r != nil {
			out[i] = new(big.Rat).Set(r)
		}
	}
	return out
}

// at returns the value of a variable.
func (p *program) at(variable int) *big.Rat {
	if i := p.row[variable]; i >= 0 {
		return p.value[i]
	}
	if p.atUpper[variable] {
		return p.upper[variable]
	}
	return zero
}

// maximize makes Σ factor × variable as large as can be and returns it.
func (p *program) maximize(objective []term) *big.Rat {
	gain := p.gains(objective)
	idle := 0
	for {
		j := p.entering(gain, idle > len(p.rows)+len(p.outside))
		if j < 0 {
			break
		}
		if p.move(j, gain) {
			idle = 0
		} else {
			idle++
		}
	}
	sum, part := new(big.Rat), new(big.Rat)
	for _, t := range objective {
		sum.Add(sum, part.Mul(t.factor, p.at(t.variable)))
	}
	return sum
}

// settle is maximize, and keeps what was reached for all objectives that follow.
func (p *program) settle(objective []term) *big.Rat {
	best := p.maximize(objective)
	for j, g := range p.gains(objective) {
		if g != nil && g.Sign() != 0 {
			p.frozen[p.outside[j]] = true
		}
	}
	return best
}

// gains returns per column what the objective gains for each unit of that variable; nil
// stands for 0.
func (p *program) gains(objective []term) []*big.Rat {
	gain := make([]*big.Rat, len(p.outside))
	at := func(j int) *big.Rat {
		if gain[j] == nil {
			gain[j] = new(big.Rat)
		}
		return gain[j]
	}
	part := new(big.Rat)
	for _, t := range objective {
		if j := p.column[t.variable]; j >= 0 {
			at(j).Add(at(j), t.factor)
			continue
		}
		for j, a := range p.rows[p.row[t.variable]] {
			if a != nil && a.Sign() != 0 {
				at(j).Sub(at(j), part.Mul(t.factor, a))
			}
		}
	}
	return gain
}

// entering picks the column that is worth moving: the one with the largest gain, or
// with the least variable when steps have long gained nothing; −1 if there is none.
func (p *program) entering(gain []*big.Rat, least bool) int {
	best := -1
	size, bestSize := new(big.Rat), new(big.Rat)
	for j, g := range gain {
		v := p.outside[j]
		if p.frozen[v] || g == nil || g.Sign() == 0 || (g.Sign() > 0) == p.atUpper[v] {
			continue
		}
		if u := p.upper[v]; u != nil && u.Sign() == 0 {
			continue // it cannot move
		}
		size.Abs(g)
		better := best < 0
		switch {
		case better:
		case least:
			better = v < p.outside[best]
		default:
			c := size.Cmp(bestSize)
			better = c > 0 || c == 0 && v < p.outside[best]
		}
		if better {
			best = j
			bestSize.Set(size)
		}
	}
	return best
}

// move moves the variable of column j as far as it can go, and reports whether that
// was any way at all.
func (p *program) move(j int, gain []*big.Rat) bool {
	v := p.outside[j]
	up := !p.atUpper[v]
	var way *big.Rat // nil: no bound yet
	leaves, toUpper := -1, false
	if p.upper[v] != nil {
		way = new(big.Rat).Set(p.upper[v])
	}
	for i := range p.rows {
		a := p.rows[i][j]
		if a == nil || a.Sign() == 0 {
			continue
		}
		sinks := (a.Sign() > 0) == up // the basic variable of row i goes down
		room := new(big.Rat).Set(p.value[i])
		if !sinks {
			u := p.upper[p.basis[i]]
			if u == nil {
				continue
			}
			room.Sub(u, room)
		}
		room.Quo(room, new(big.Rat).Abs(a))
		if way == nil || room.Cmp(way) < 0 || room.Cmp(way) == 0 && leaves >= 0 && p.basis[i] < p.basis[leaves] {
			way, leaves, toUpper = room, i, !sinks
		}
	}
	if way == nil {
		panic("credit: a linear programme without bound")
	}
	p.shift(j, way, up)
	if leaves < 0 {
		p.atUpper[v] = !p.atUpper[v]
		return way.Sign() != 0
	}
	at := new(big.Rat).Set(way)
	if !up {
		at.Sub(p.upper[v], way)
	}
	p.pivot(leaves, j, gain)
	p.atUpper[p.outside[j]] = toUpper
	p.value[leaves] = at
	return way.Sign() != 0
}

// shift moves the basic variables along as the variable of column j goes its way.
func (p *program) shift(j int, way *big.Rat, up bool) {
	part := new(big.Rat)
	for i := range p.rows {
		if p.rows[i][j] == nil || p.rows[i][j].Sign() == 0 {
			continue
		}
		part.Mul(p.rows[i][j], way)
		if up {
			p.value[i].Sub(p.value[i], part)
		} else {
			p.value[i].Add(p.value[i], part)
		}
	}
}

// pivot exchanges the basic variable of row r with the variable of column j.
func (p *program) pivot(r, j int, gain []*big.Rat) {
	inv := new(big.Rat).Inv(p.rows[r][j])
	own := p.rows[r]
	var filled []int // columns of the row that are not 0
	for k := range own {
		if k != j && own[k] != nil && own[k].Sign() != 0 {
			own[k].Mul(own[k], inv)
			filled = append(filled, k)
		}
	}
	own[j].Set(inv)
	part := new(big.Rat)
	eliminate := func(row []*big.Rat) {
		if row[j] == nil || row[j].Sign() == 0 {
			return
		}
		f := new(big.Rat).Set(row[j])
		for _, k := range filled {
			if row[k] == nil {
				row[k] = new(big.Rat)
			}
			if row[k].Sub(row[k], part.Mul(f, own[k])); row[k].Sign() == 0 {
				row[k] = nil
			}
		}
		row[j].Neg(f.Mul(f, inv))
	}
	for i := range p.rows {
		if i != r {
			eliminate(p.rows[i])
		}
	}
	eliminate(gain)
	in, out := p.outside[j], p.basis[r]
	p.outside[j], p.basis[r] = out, in
	p.column[in], p.row[in] = -1, r
	p.column[out], p.row[out] = j, -1
}
