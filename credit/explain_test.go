package credit_test

import (
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"evidencevault/credit"
)

var (
	subtraction = regexp.MustCompile(`: (\S+) − (\S+) = (\S+)(  \[|$)`)
	addition    = regexp.MustCompile(`[0-9./]+ \([^()]*\)(?: \+ [0-9./]+ \([^()]*\))+ = [0-9./]+`)
	addend      = regexp.MustCompile(`([0-9./]+) \([^()]*\)`)
)

// TestDerivationsAddUp follows every statement with a pencil: each step begins with what
// the one before left, the last leaves what counts, the claims give the total, and every
// subtraction and sum that is printed is right.
func TestDerivationsAddUp(t *testing.T) {
	sums, cuts := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		d := newDice(rapid.Uint64().Draw(t, "seed"))
		s := d.scheme()
		st, err := credit.Calculate(s, d.input(d.IntN(12)))
		if err != nil {
			t.Fatal(err)
		}
		var total credit.Amount
		for _, r := range append(append([]credit.ClaimResult{}, st.Claims...), st.CarriedIn...) {
			var at credit.Amount
			for _, step := range st.OfClaim(r.ID) {
				if step.Step == credit.StepCut && !step.Before.Equal(at) {
					t.Fatalf("%s: a cut begins with %v, the step before left %v\n%s", r.ID, step.Before, at, strings.Join(st.Explain(r.ID), "\n"))
				}
				at = step.After
			}
			if !at.Equal(r.Counted) {
				t.Fatalf("%s: the steps lead to %v, and %v counts\n%s", r.ID, at, r.Counted, strings.Join(st.Explain(r.ID), "\n"))
			}
			total = total.Add(at)
		}
		if !total.Equal(st.Counted) {
			t.Fatalf("the derivations give %v, the statement counts %v", total, st.Counted)
		}
		for _, line := range st.ExplainAll() {
			if m := subtraction.FindStringSubmatch(line); m != nil {
				cuts++
				if a, b, c := credit.MustAmount(m[1]), credit.MustAmount(m[2]), credit.MustAmount(m[3]); !a.Sub(b).Equal(c) {
					t.Fatalf("%q: %v − %v is not %v", line, a, b, c)
				}
			}
			for _, text := range addition.FindAllString(line, -1) {
				sums++
				parts, want, _ := strings.Cut(text, " = ")
				var sum credit.Amount
				for _, m := range addend.FindAllStringSubmatch(parts, -1) {
					sum = sum.Add(credit.MustAmount(m[1]))
				}
				if !sum.Equal(credit.MustAmount(want)) {
					t.Fatalf("%q: the parts give %v", text, sum)
				}
			}
		}
	})
	if sums < 50 || cuts < 20 {
		t.Errorf("too little was checked: %d sums, %d cuts", sums, cuts)
	}
}

// TestWithoutIsAnotherCount holds what leaving a claim out would change against a count
// of the other claims alone.
func TestWithoutIsAnotherCount(t *testing.T) {
	changed := 0
	for seed := range uint64(60) {
		d := newDice(seed)
		s := d.scheme()
		in := d.input(6)
		st, err := credit.Calculate(s, in)
		if err != nil {
			t.Fatal(err)
		}
		e, err := st.Without("C3")
		if err != nil {
			t.Fatal(err)
		}
		in.Claims = append(append([]credit.Claim{}, in.Claims[:2]...), in.Claims[3:]...)
		other, err := credit.Calculate(s, in)
		if err != nil {
			t.Fatal(err)
		}
		if !e.Counted.After.Equal(other.Counted) || !e.Missing.After.Equal(other.Missing) || e.Meets != other.Meets {
			t.Errorf("seed %d: %+v, the others alone count %v, missing %v", seed, e, other.Counted, other.Missing)
		}
		for _, c := range e.Claims {
			changed++
			if r, ok := other.Result(c.ID); !ok || !r.Counted.Equal(c.After) {
				t.Errorf("seed %d: %s would count %v, counts %v", seed, c.ID, c.After, r.Counted)
			}
		}
	}
	if changed < 5 {
		t.Errorf("only %d other claims changed", changed)
	}
}

// TestSummaryNeverCallsNothingMet says in the first sentence what a deadline asks for.
func TestSummaryNeverCallsNothingMet(t *testing.T) {
	asks := credit.Scheme{Unit: "point", Target: credit.Target{Set: true, Amount: credit.Whole(2)}, Categories: []credit.Category{{ID: "a", Award: credit.Award{From: "count"}}}}
	none := asks
	none.Target = credit.Target{Set: true}
	span := credit.Period{Start: credit.Day(2024, 1, 1), End: credit.Day(2024, 12, 31)}
	one := credit.Period{Start: credit.Day(2024, 1, 1), End: credit.Day(2024, 1, 1)}
	claim := func(n int) []credit.Claim {
		list := []credit.Claim{{ID: "C1", Category: "a", End: credit.Day(2024, 1, 1)}, {ID: "C2", Category: "a", End: credit.Day(2024, 1, 1)}}
		return list[:n]
	}
	tests := []struct {
		why    string
		scheme credit.Scheme
		cycle  credit.Period
		on     credit.Date
		claims int
		want   string
	}{
		{"nothing is asked", none, span, credit.Day(2024, 6, 1), 1, "the scheme asks for nothing; the cycle ends on 31 December 2024, in 213 days"},
		{"an empty vault", asks, span, credit.Day(2024, 12, 30), 0, "2 of 2 points are missing, to be earned by 31 December 2024, in 1 day"},
		{"one point short on the last day", asks, span, credit.Day(2024, 12, 31), 1, "1 of 2 points is missing, to be earned by 31 December 2024, today"},
		{"met", asks, span, credit.Day(2024, 12, 31), 2, "met: all that is asked is there; the cycle ends on 31 December 2024, today"},
		{"before the cycle", asks, span, credit.Day(2023, 12, 31), 2, "2 of 2 points are missing; the cycle begins on 1 January 2024, in 1 day"},
		{"after the cycle", asks, span, credit.Day(2025, 1, 1), 1, "1 of 2 points is missing; the cycle ended on 31 December 2024, 1 day before"},
		{"a cycle of one day", asks, one, credit.Day(2024, 1, 1), 2, "met: all that is asked is there; the cycle ends on 1 January 2024, today"},
	}
	for _, tt := range tests {
		st, err := credit.Calculate(tt.scheme, credit.Input{Cycle: tt.cycle, On: tt.on, Claims: claim(tt.claims)})
		if err != nil {
			t.Fatal(err)
		}
		if got := st.Summary(); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.why, got, tt.want)
		}
	}
}
