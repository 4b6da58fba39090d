package credit

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// TestSimplexProvesItsOptimum draws programmes of caps and shortfalls, and holds each
// solution against the dual: prices of the rows, all at least 0, whose bound on the
// objective is exactly what was reached. No larger solution can exist then.
func TestSimplexProvesItsOptimum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, objective := drawLinear(t)
		p := l.program(nil)
		got := p.maximize(objective).rat()
		checkFeasible(t, l, p)
		bound := dualBound(t, l, p, objective)
		if got.Cmp(bound) != 0 {
			t.Fatalf("reached %v, but the dual allows %v", got, bound)
		}
	})
}

// TestSettledStaysSettled drives a second and third objective, and looks whether the
// first is still worth what it was.
func TestSettledStaysSettled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, first := drawLinear(t)
		p := l.program(nil)
		best := p.settle(first).rat()
		for v := range l.upper {
			p.settle([]term{{v, one}})
			checkFeasible(t, l, p)
			if got := worth(p, first); got.Cmp(best) != 0 {
				t.Fatalf("the first objective fell from %v to %v", best, got)
			}
		}
	})
}

func drawRat(t *rapid.T, low, high int, label string) *big.Rat {
	return big.NewRat(int64(rapid.IntRange(low, high).Draw(t, label)), int64(rapid.IntRange(1, 4).Draw(t, label+" below")))
}

func drawLinear(t *rapid.T) (*linear, []term) {
	l := &linear{}
	var objective []term
	n := rapid.IntRange(1, 7).Draw(t, "variables")
	for v := range n {
		l.variable(drawRat(t, 0, 9, "upper"), false)
		objective = append(objective, term{v, drawRat(t, -2, 5, "worth")})
	}
	for range rapid.IntRange(0, 6).Draw(t, "caps") {
		l.atMost(drawRat(t, 0, 12, "most"), drawTerms(t, n, 0)...)
	}
	for range rapid.IntRange(0, 3).Draw(t, "minimums") {
		want := drawRat(t, 1, 9, "want")
		short := l.variable(want, true)
		row := []term{{short, minusOne}}
		for _, x := range drawTerms(t, n, 1) {
			row = append(row, term{x.variable, minusOne})
		}
		l.atMost(new(big.Rat).Neg(want), row...)
		objective = append(objective, term{short, drawRat(t, -6, 0, "price")})
	}
	return l, objective
}

func drawTerms(t *rapid.T, n, low int) []term {
	var terms []term
	for v := range n {
		if rapid.Bool().Draw(t, "in") {
			f := one
			if low == 0 {
				f = drawRat(t, -1, 3, "factor")
			}
			terms = append(terms, term{v, f})
		}
	}
	return terms
}

func worth(p *program, objective []term) *big.Rat {
	sum := new(big.Rat)
	for _, t := range objective {
		sum.Add(sum, new(big.Rat).Mul(t.factor, p.at(t.variable).rat()))
	}
	return sum
}

func checkFeasible(t *rapid.T, l *linear, p *program) {
	for v, u := range l.upper {
		if x := p.at(v).rat(); x.Sign() < 0 || x.Cmp(u) > 0 {
			t.Fatalf("variable %d is %v, outside 0 to %v", v, x, u)
		}
	}
	for i, r := range l.rows {
		if sum := worth(p, r.terms); sum.Cmp(r.most) > 0 {
			t.Fatalf("row %d is %v, above %v", i, sum, r.most)
		}
	}
}

// dualBound reads the prices of the rows from the solution and returns the bound that
// they put on the objective, worked out from the programme as it was stated.
func dualBound(t *rapid.T, l *linear, p *program, objective []term) *big.Rat {
	n := len(l.upper)
	rest := make([]*big.Rat, n)
	for v := range rest {
		rest[v] = new(big.Rat)
	}
	for _, o := range objective {
		rest[o.variable].Add(rest[o.variable], o.factor)
	}
	gain := p.gains(objective)
	bound := new(big.Rat)
	for i, r := range l.rows {
		price := new(big.Rat)
		if j := p.column[n+i]; j >= 0 {
			price.Neg(gain[j].rat())
		}
		if price.Sign() < 0 {
			t.Fatalf("row %d has the price %v, below 0", i, price)
		}
		bound.Add(bound, new(big.Rat).Mul(price, r.most))
		for _, x := range r.terms {
			rest[x.variable].Sub(rest[x.variable], new(big.Rat).Mul(price, x.factor))
		}
	}
	for v, c := range rest {
		if c.Sign() > 0 {
			bound.Add(bound, new(big.Rat).Mul(c, l.upper[v]))
		}
	}
	return bound
}
