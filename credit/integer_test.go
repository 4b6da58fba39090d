package credit

import (
	"math/big"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// drawWhole draws a programme of a few whole variables with rows both ways, of which
// some cannot hold where the variables begin.
func drawWhole(t *rapid.T) (l *linear, vars []int, objectives [][]term) {
	l = &linear{}
	n := rapid.IntRange(1, 4).Draw(t, "variables")
	for range n {
		vars = append(vars, l.variable(big.NewRat(int64(rapid.IntRange(0, 3).Draw(t, "upper")), 1), rapid.Bool().Draw(t, "at upper")))
	}
	for range rapid.IntRange(0, 4).Draw(t, "rows") {
		l.atMost(drawRat(t, -6, 12, "most"), drawTerms(t, n, 0)...)
	}
	if rapid.Bool().Draw(t, "at least") {
		l.atLeast(drawRat(t, 0, 6, "least"), drawTerms(t, n, 1)...)
	}
	for range rapid.IntRange(1, 3).Draw(t, "objectives") {
		var o []term
		for v := range n {
			o = append(o, term{v, drawRat(t, -3, 3, "worth")})
		}
		objectives = append(objectives, o)
	}
	return l, vars, objectives
}

func sumOf(objective []term, values []*big.Rat) *big.Rat {
	sum := new(big.Rat)
	for _, t := range objective {
		sum.Add(sum, new(big.Rat).Mul(t.factor, values[t.variable]))
	}
	return sum
}

func (l *linear) hold(values []*big.Rat) bool {
	for _, r := range l.rows {
		if sumOf(r.terms, values).Cmp(r.most) > 0 {
			return false
		}
	}
	for v, u := range l.upper {
		if values[v].Sign() < 0 || u != nil && values[v].Cmp(u) > 0 {
			return false
		}
	}
	return true
}

// every calls see with every choice of whole numbers within the bounds.
func (l *linear) every(see func([]*big.Rat)) {
	values := make([]*big.Rat, len(l.upper))
	var from func(v int)
	from = func(v int) {
		if v == len(values) {
			see(values)
			return
		}
		for n := int64(0); big.NewRat(n, 1).Cmp(l.upper[v]) <= 0; n++ {
			values[v] = big.NewRat(n, 1)
			from(v + 1)
		}
	}
	from(0)
}

// TestWholeIsTheBest tries every choice of whole numbers one by one, objective after
// objective.
func TestWholeIsTheBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, vars, objectives := drawWhole(t)
		var want []*big.Rat
		l.every(func(values []*big.Rat) {
			if !l.hold(values) {
				return
			}
			var got []*big.Rat
			for _, o := range objectives {
				got = append(got, sumOf(o, values))
			}
			if want == nil || lexBelow(want, got) {
				want = got
			}
		})
		res := l.whole(vars, objectives, nil)
		if res.found != (want != nil) || !res.proven {
			t.Fatalf("found %v, proven %v, one by one %v", res.found, res.proven, want)
		}
		if want == nil {
			return
		}
		if !l.hold(res.values) {
			t.Fatalf("%v does not hold the rows", res.values)
		}
		for i, o := range objectives {
			if got := sumOf(o, res.values); got.Cmp(want[i]) != 0 || res.objectives[i].value.Cmp(want[i]) != 0 || !res.objectives[i].proven() {
				t.Fatalf("objective %d: got %v, want %v, said %v", i, got, want[i], res.objectives[i])
			}
		}
	})
}

func lexBelow(a, b []*big.Rat) bool {
	for i := range a {
		if c := a[i].Cmp(b[i]); c != 0 {
			return c < 0
		}
	}
	return false
}

// activities draws a choice among n activities of which each can be done a few times:
// enough credit at the least cost, then in the least time, with caps over some of them.
func activities(n int, seed uint64) (*linear, []int, [][]term) {
	d := rand.New(rand.NewPCG(seed, 3))
	l := &linear{}
	var vars []int
	var credits, cost, hours []term
	caps := make([][]term, 4)
	for range n {
		v := l.variable(big.NewRat(int64(1+d.IntN(4)), 1), false)
		vars = append(vars, v)
		h := int64(2 + d.IntN(60))
		t := term{v, big.NewRat(h, int64(1+d.IntN(4)))}
		credits = append(credits, t)
		cost = append(cost, term{v, big.NewRat(-int64(500+d.IntN(90_000)), 100)})
		hours = append(hours, term{v, big.NewRat(-h, 2)})
		k := d.IntN(4)
		caps[k] = append(caps[k], t)
	}
	for _, c := range caps {
		l.atMost(big.NewRat(200, 1), c...)
	}
	l.atLeast(big.NewRat(361, 3), credits...)
	return l, vars, [][]term{cost, hours}
}

// TestFortyActivities is what a plan asks of the search, and counts its steps.
func TestFortyActivities(t *testing.T) {
	for seed := range uint64(12) {
		l, vars, objectives := activities(40, seed)
		b := &budget{steps: 50_000}
		res := l.whole(vars, objectives, b)
		if !res.proven || !l.hold(res.values) {
			t.Errorf("seed %d: found %v, proven %v after %d steps: %v", seed, res.found, res.proven, b.used(), res.objectives)
		}
	}
}

// TestSearchEndsHonestly gives too few steps, and holds what is said against the truth:
// the solution is one, and the best that there is lies within the bound.
func TestSearchEndsHonestly(t *testing.T) {
	short := 0
	for seed := range uint64(20) {
		l, vars, objectives := activities(25, seed)
		best := l.whole(vars, objectives[:1], nil).objectives[0].value
		for steps := 1; steps < 400; steps *= 3 {
			res := l.whole(vars, objectives[:1], &budget{steps: steps})
			if !res.found {
				short++
				continue
			}
			got := res.objectives[0]
			if !res.proven {
				short++
			}
			if !l.hold(res.values) || sumOf(objectives[0], res.values).Cmp(got.value) != 0 || got.value.Cmp(best) > 0 || got.bound.Cmp(best) < 0 || res.proven != got.proven() {
				t.Errorf("seed %d, %d steps: reached %v, bound %v, proven %v; the best is %v", seed, steps, got.value, got.bound, res.proven, best)
			}
		}
	}
	if short < 10 {
		t.Errorf("only %d searches ended early", short)
	}
}

// TestSearchStops asks stop now and then, and ends when it says so.
func TestSearchStops(t *testing.T) {
	l, vars, objectives := activities(40, 5)
	asked := 0
	res := l.whole(vars, objectives, &budget{steps: 1_000_000, stop: func() bool { asked++; return asked > 3 }})
	if asked != 4 || res.proven {
		t.Errorf("asked %d times, proven %v", asked, res.proven)
	}
}
