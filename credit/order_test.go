package credit_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"evidencevault/credit"
)

// dated is a claim of category id of n hours on a day of the cycle.
func dated(id, category string, n int64, day int, tags ...string) credit.Claim {
	c := hour(id, category, n, tags...)
	c.End = cycle.Start.AddDays(day)
	return c
}

func TestOrderAmongEquals(t *testing.T) {
	expiring := hoursScheme([]credit.Cap{over("all", 5, "a", "b")})
	expiring.Categories[1].Life = 24
	tests := []struct {
		name, why string
		scheme    credit.Scheme
		claims    []credit.Claim
		want      string
	}{
		{"groups take turns", "x and y serve different minimums, so they are two groups; the earliest of both fill the cap",
			hoursScheme([]credit.Cap{over("a", 10, "a")},
				credit.Minimum{ID: "x", Selection: credit.Selection{Tags: []string{"x"}}, Least: credit.Whole(1)},
				credit.Minimum{ID: "y", Selection: credit.Selection{Tags: []string{"y"}}, Least: credit.Whole(1)}),
			[]credit.Claim{dated("1", "a", 4, 1, "x"), dated("2", "a", 4, 2, "y"), dated("3", "a", 4, 3, "x"), dated("4", "a", 4, 4, "y")}, "4, 4, 2, 0"},
		{"a minimum before the order", "y is last, and 3 of it are asked",
			hoursScheme([]credit.Cap{over("a", 10, "a")},
				credit.Minimum{ID: "y", Selection: credit.Selection{Tags: []string{"y"}}, Least: credit.Whole(3)}),
			[]credit.Claim{dated("1", "a", 4, 1), dated("2", "a", 4, 2), dated("3", "a", 4, 3), dated("4", "a", 4, 4, "y")}, "4, 3, 0, 3"},
		{"what expires first", "b lives 24 months, a as long as the cycle",
			expiring,
			[]credit.Claim{dated("1", "a", 4, 300), dated("2", "b", 4, 400), dated("3", "b", 4, 350)}, "0, 1, 4"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			st, err := credit.Calculate(tt.scheme, credit.Input{Cycle: cycle, On: cycle.Start.AddDays(500), Claims: tt.claims})
			if err != nil {
				t.Fatal(err)
			}
			if got := countedOf(st, tt.claims); got != tt.want {
				t.Errorf("%s: counted %s, want %s", tt.why, got, tt.want)
			}
		})
	}
}

// No split that gives the same total, and meets what is met, lets an earlier claim
// count more: what the first claims count is asked anew as a cap and as a minimum of
// their own, a little above.
func TestEarlierClaimsCannotCountMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawScheme(t)
		s.Caps = slices.DeleteFunc(s.Caps, func(c credit.Cap) bool { return slices.Equal(c.Per, []string{credit.PerClaim}) })
		s.Target, s.Minimums = credit.Target{}, nil
		claims := drawClaims(t)
		for i := range claims {
			claims[i].Tags = append(claims[i].Tags, "t"+claims[i].ID)
		}
		st := run(t, s, claims)
		order := slices.Clone(claims)
		slices.SortStableFunc(order, func(a, b credit.Claim) int {
			if a.Date().IsZero() != b.Date().IsZero() {
				if a.Date().IsZero() {
					return 1
				}
				return -1
			}
			return a.Date().Compare(b.Date())
		})
		for i, c := range order {
			r, _ := st.Result(c.ID)
			if r.Counted.Equal(r.Awarded) {
				continue
			}
			asked := s
			asked.Target = credit.Target{Set: true, Amount: st.Counted}
			for k, earlier := range order[:i+1] {
				e, _ := st.Result(earlier.ID)
				least := e.Counted
				if k == i {
					least = least.Add(credit.Fraction(1, 1000))
				}
				asked.Minimums = append(asked.Minimums, credit.Minimum{ID: earlier.ID, Selection: credit.Selection{Tags: []string{"t" + earlier.ID}}, Least: least})
			}
			if again := run(t, asked, claims); again.Meets {
				t.Fatalf("%s counts %v, and could count more:\n%s", c.ID, r.Counted, strings.Join(again.ExplainAll(), "\n"))
			}
		}
	})
}

// TestManyTurns interleaves two groups of many claims under one cap: the order is
// settled without a step for each claim.
func TestManyTurns(t *testing.T) {
	s := hoursScheme([]credit.Cap{over("a", 3_001, "a", "b"), over("b", 1_000, "b", "c")},
		credit.Minimum{ID: "x", Selection: credit.Selection{Tags: []string{"x"}}, Least: credit.Whole(1)})
	var claims []credit.Claim
	for i := range 6_000 {
		c := dated(fmt.Sprintf("C%d", i+1), []string{"a", "b"}[i%2], 1, i/6)
		if i%3 == 0 {
			c.Tags = []string{"x"}
		}
		claims = append(claims, c)
	}
	st, err := credit.Calculate(s, credit.Input{Cycle: cycle, Claims: claims, Steps: 2_000})
	if err != nil || st.Unproven != nil {
		t.Fatal(err, st.Unproven)
	}
	one := credit.Whole(1)
	for i, r := range st.Claims { // of b the first 1,000, of a the first 2,001
		want := i%2 == 0 && i/2 < 2_001 || i%2 == 1 && i/2 < 1_000
		if r.Counted.Equal(one) != want {
			t.Fatalf("%s counts %v", r.ID, r.Counted)
		}
	}
}
