package credit

import (
	"math/big"
	"slices"
)

// DefaultSteps is how many steps a search may take where nothing else is said: some
// 10 s on an ordinary machine.
const DefaultSteps = 100_000

// workOfStep is how many numbers of the tableau are worked on in one step.
const workOfStep = 1_000

// asksStop is after how many exchanges of variables stop is asked.
const asksStop = 16

// budget bounds a search by the work that it does, never by time, so that equal input
// gives equal results. The nil budget has no bound.
type budget struct {
	steps int         // at most so many; 0 or less: none at all
	stop  func() bool // nil: never; asked now and then
	work  int
	turns int
	over  bool
}

// spend counts the work of one exchange.
func (b *budget) spend(numbers int) {
	if b != nil {
		b.work += numbers + workOfStep/20
	}
}

// more reports whether the search may go on.
func (b *budget) more() bool {
	if b == nil {
		return true
	}
	if b.over = b.over || b.used() >= b.steps; b.over {
		return false
	}
	if b.turns++; b.stop != nil && b.turns%asksStop == 0 {
		b.over = b.stop()
	}
	return !b.over
}

// used is how many steps were taken.
func (b *budget) used() int { return b.work / workOfStep }

// reached is how far one objective was brought.
type reached struct {
	value *big.Rat
	bound *big.Rat // no solution has more; equal to value once that is proven
}

func (r reached) proven() bool { return r.bound != nil && r.value.Cmp(r.bound) == 0 }

// result is a solution of a programme with whole numbers.
type result struct {
	found      bool       // some solution is known
	values     []*big.Rat // per variable
	objectives []reached  // as far as they were looked at: the first that is not proven is the last
	proven     bool       // found and every objective proven, or proven that there is no solution
}

// whole looks for the best solution in which the variables vars are whole numbers: the
// first objective as large as can be, then the second without giving up any of the
// first, and so on. Rows need not hold where the variables begin. When the budget ends
// the best solution so far is returned, with a bound on what may remain.
func (l *linear) whole(vars []int, objectives [][]term, b *budget) result {
	s := l.search(vars, b)
	if s.begin(); !s.feasible {
		return result{proven: s.none}
	}
	res := result{}
	for _, o := range objectives {
		value, bound := s.raise(o)
		if s.best == nil {
			return result{proven: s.none}
		}
		res.objectives = append(res.objectives, reached{value.rat(), bound.rat()})
		if value.cmp(bound) != 0 {
			break
		}
		s.keep()
	}
	if len(objectives) == 0 {
		s.raise(nil)
	}
	if s.best == nil {
		return result{proven: s.none}
	}
	res.found = true
	for _, x := range s.best {
		res.values = append(res.values, x.rat())
	}
	res.proven = len(res.objectives) == len(objectives)
	for _, o := range res.objectives {
		res.proven = res.proven && o.proven()
	}
	return res
}

// search is a branch-and-bound search over one tableau: a branch moves the bounds of a
// variable and lets the dual method mend the rest. It goes to the depth first, nearer
// side first, and comes back to the other side when that can still be better.
type search struct {
	*program
	given     *linear
	whole     []int // variables that must be whole numbers
	feasible  bool  // the rows can hold, whole numbers left aside
	none      bool  // proven: no solution at all
	best      []frac
	objective []term
	step      frac  // the objective is a multiple of it; 0: nothing is known
	tight     bool  // the best is as good as the programme without whole numbers
	atLeast   *frac // solutions with less are of no use
	enough    *frac // the search may end once the objective is so much
	lost      bool  // the budget ended while the variables lay outside their bounds
}

// branching is one decision on the way down.
type branching struct {
	variable     int
	lower, upper frac // bounds before
	otherLower   frac // bounds of the side not yet looked at
	otherUpper   frac
	bound        frac // no solution below it has more
	tried        bool // both sides were taken
}

func (l *linear) search(whole []int, b *budget) *search {
	return &search{program: l.program(b), given: l, whole: whole}
}

// begin makes the rows hold, and takes the start for a solution if it is one.
func (s *search) begin() {
	switch s.restore(nil) {
	case holds:
		s.feasible = true
		if s.fractional() < 0 {
			s.take()
		}
	case cannot:
		s.none = true
	}
}

func (s *search) take() {
	s.best = make([]frac, len(s.given.upper))
	for v := range s.best {
		s.best[v] = s.at(v)
	}
}

// valueOf is what the objective comes to in the best solution.
func (s *search) valueOf(objective []term) frac {
	var sum frac
	for _, t := range objective {
		sum = sum.add(fracOf(t.factor).mul(s.best[t.variable]))
	}
	return sum
}

// raise makes the objective as large as can be, and returns what was reached and the
// bound that no solution exceeds. Without a solution the value says nothing.
func (s *search) raise(objective []term) (value, bound frac) {
	s.objective, s.tight = objective, false
	s.aim(objective)
	if s.lost {
		return s.ending(s.most())
	}
	done := s.climb()
	if len(s.whole) == 0 {
		s.tight = done
		return s.worth, s.most()
	}
	if s.fractional() < 0 {
		s.better()
	}
	if !done {
		return s.ending(s.most())
	}
	s.step = s.commonStep()
	root := s.worth
	if bound := s.rounded(root); !s.hopeful(bound) {
		if s.best != nil {
			s.tight = s.valueOf(objective).cmp(root) == 0
			bound = s.valueOf(objective)
		}
		return s.ending(bound)
	}
	bound = s.down()
	if s.best != nil {
		s.tight = s.valueOf(objective).cmp(root) == 0
	}
	return s.ending(bound)
}

func (s *search) ending(bound frac) (frac, frac) {
	if s.best == nil {
		return frac{}, bound
	}
	return s.valueOf(s.objective), bound
}

// most is a bound on the objective last aimed at, wherever the variables stand: the
// lowest of what the gains of the columns allow, if those have bounds, of what the
// prices of the rows allow, and of what the variables allow without any row.
func (s *search) most() frac {
	most := s.priced(false)
	if bound := s.priced(true); bound.cmp(most) < 0 {
		most = bound
	}
	if bound, ok := s.bound(); ok && bound.cmp(most) < 0 {
		most = bound
	}
	return most
}

// priced is the bound that the prices of the rows put on the objective (weak duality):
// each row is worth its price, and each variable what it brings above that. Prices below
// 0, which a search that ended early can have, are taken for 0. It is worked out from
// the programme as it was stated. Without rows every price is 0.
func (s *search) priced(rows bool) frac {
	n := len(s.given.upper)
	rest := make([]frac, n)
	for _, t := range s.objective {
		rest[t.variable] = rest[t.variable].add(fracOf(t.factor))
	}
	var bound frac
	for i, r := range s.given.rows {
		j := s.column[n+i]
		if !rows || j < 0 || s.gain[j].sign() >= 0 {
			continue
		}
		price := s.gain[j].neg()
		bound = bound.add(price.mul(fracOf(r.most)))
		for _, t := range r.terms {
			rest[t.variable] = rest[t.variable].sub(price.mul(fracOf(t.factor)))
		}
	}
	for v, worth := range rest {
		switch worth.sign() {
		case 1:
			bound = bound.add(worth.mul(s.upper[v]))
		case -1:
			bound = bound.add(worth.mul(s.lower[v]))
		}
	}
	return bound
}

// better takes the solution at hand if its objective is above that of the best.
func (s *search) better() {
	if s.best == nil || s.worth.cmp(s.valueOf(s.objective)) > 0 {
		s.take()
	}
}

// keep holds the objective last raised at what the best solution gives it.
func (s *search) keep() {
	if s.budget != nil && s.budget.over {
		return
	}
	if s.tight {
		s.freeze()
		return
	}
	s.hold(s.valueOf(s.objective))
}

// hold adds the row: the objective last set is at least so much.
func (s *search) hold(least frac) {
	v := len(s.lower)
	s.lower, s.upper, s.open = append(s.lower, frac{}), append(s.upper, frac{}), append(s.open, true)
	s.atUpper, s.frozen = append(s.atUpper, false), append(s.frozen, false)
	s.column, s.program.row = append(s.column, -1), append(s.program.row, len(s.rows))
	var cells []cell
	for j, g := range s.gain {
		if !g.isZero() {
			cells = append(cells, cell{j, g.neg()})
		}
	}
	s.rows, s.value, s.basis = append(s.rows, cells), append(s.value, s.worth.sub(least)), append(s.basis, v)
}

// commonStep is a step of which every value of the objective is a multiple: the largest
// common part of its factors where all its variables are whole numbers.
func (s *search) commonStep() frac {
	part := new(big.Rat)
	for _, t := range s.objective {
		if t.factor.Sign() == 0 {
			continue
		}
		if !slices.Contains(s.whole, t.variable) {
			return frac{}
		}
		part = commonPart(part, t.factor)
	}
	return fracOf(part)
}

// commonPart is the largest fraction of which both are multiples.
func commonPart(a, b *big.Rat) *big.Rat {
	num := new(big.Int).GCD(nil, nil, new(big.Int).Mul(new(big.Int).Abs(a.Num()), b.Denom()), new(big.Int).Mul(new(big.Int).Abs(b.Num()), a.Denom()))
	return new(big.Rat).SetFrac(num, new(big.Int).Mul(a.Denom(), b.Denom()))
}

// rounded lowers a bound to the next value that the objective can have.
func (s *search) rounded(bound frac) frac {
	if s.step.isZero() {
		return bound
	}
	return bound.quo(s.step).floor().mul(s.step)
}

// down searches below the root, where nothing gains and some variable is not whole. It
// returns the bound on the objective that is proven, and comes back to the root.
func (s *search) down() frac {
	var path []branching
	root := s.rounded(s.worth)
	state := holds
	for state != ended && !s.content() {
		if state == holds {
			if v, up := s.costliest(); v < 0 {
				s.better()
				state = below
			} else if bound := s.rounded(s.worth); !s.hopeful(bound) {
				state = below
			} else {
				path = append(path, s.branch(v, up, bound))
				state = s.restore(s.floor())
				continue
			}
		}
		for len(path) > 0 && (path[len(path)-1].tried || !s.hopeful(path[len(path)-1].bound)) {
			last := path[len(path)-1]
			s.within(last.variable, last.lower, last.upper)
			path = path[:len(path)-1]
		}
		if len(path) == 0 {
			break
		}
		last := &path[len(path)-1]
		last.tried = true
		s.within(last.variable, last.otherLower, last.otherUpper)
		state = s.restore(s.floor())
	}
	return s.surface(path, state == ended, root)
}

// surface goes back to the root and returns the bound that the search has proven.
func (s *search) surface(path []branching, early bool, root frac) frac {
	var bound frac
	some := s.best != nil
	if some {
		bound = s.valueOf(s.objective)
	}
	for i := len(path) - 1; i >= 0; i-- {
		open := !path[i].tried || i == len(path)-1 // else what remains lies further down
		if early && open && (!some || path[i].bound.cmp(bound) > 0) {
			bound, some = path[i].bound, true
		}
		s.within(path[i].variable, path[i].lower, path[i].upper)
	}
	if early {
		s.lost = true
		if !some {
			return root
		}
		return bound
	}
	s.none = s.none || s.best == nil
	s.lost = s.restore(nil) != holds
	return bound
}

// hopeful reports whether a solution with this bound could beat the best.
func (s *search) hopeful(bound frac) bool {
	if s.atLeast != nil && bound.cmp(*s.atLeast) < 0 {
		return false
	}
	return s.best == nil || bound.cmp(s.valueOf(s.objective)) > 0
}

// content reports whether what was found is enough.
func (s *search) content() bool {
	return s.enough != nil && s.best != nil && s.valueOf(s.objective).cmp(*s.enough) >= 0
}

// floor is what a branch must exceed to be of use; nil: nothing yet.
func (s *search) floor() *frac {
	if s.best == nil {
		return nil
	}
	f := s.valueOf(s.objective)
	return &f
}

// fractional picks the variable to branch on, the one nearest to the middle between two
// whole numbers; −1 if all are whole.
func (s *search) fractional() int {
	best := -1
	var size frac
	half := frac{num: 1, den: 2}
	for _, v := range s.whole {
		if s.program.row[v] < 0 && !s.program.atUpper[v] {
			continue // at a lower bound, which is whole
		}
		x := s.at(v)
		if x.isInt() {
			continue
		}
		off := x.sub(x.floor()).sub(half).abs()
		if best < 0 || off.cmp(size) < 0 {
			best, size = v, off
		}
	}
	return best
}

// branch moves a bound of v to the next whole number above or below.
func (s *search) branch(v int, up bool, bound frac) branching {
	x := s.at(v)
	low := x.floor()
	high := low.add(fracOne)
	b := branching{variable: v, lower: s.lower[v], upper: s.upper[v], bound: bound}
	if up {
		b.otherLower, b.otherUpper = b.lower, low
		s.within(v, high, b.upper)
	} else {
		b.otherLower, b.otherUpper = high, b.upper
		s.within(v, b.lower, low)
	}
	return b
}
