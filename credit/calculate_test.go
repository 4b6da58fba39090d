package credit_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"evidencevault/credit"
)

var categories = []string{"a", "b", "c", "d"}

var tags = []string{"x", "y"}

var cycle = credit.Period{Start: credit.MustDate("2024-01-01"), End: credit.MustDate("2026-12-31")}

func drawAmount(t *rapid.T, label string, high int) credit.Amount {
	return credit.Fraction(int64(rapid.IntRange(0, high).Draw(t, label)), int64(rapid.IntRange(1, 6).Draw(t, label+" below")))
}

func drawSelection(t *rapid.T) credit.Selection {
	var s credit.Selection
	for _, c := range categories {
		if rapid.Bool().Draw(t, "category "+c) {
			s.Categories = append(s.Categories, c)
		}
	}
	if rapid.IntRange(0, 3).Draw(t, "by tag") == 0 {
		s.Tags = []string{rapid.SampledFrom(tags).Draw(t, "tag")}
	}
	return s
}

func drawCap(t *rapid.T, id string) credit.Cap {
	c := credit.Cap{ID: id, Selection: drawSelection(t), Most: drawAmount(t, "most", 30)}
	if per := rapid.SampledFrom([]string{"", credit.PerYear, credit.PerClaim, credit.PerCycleYear, "rolling:2", credit.PerProvider}).Draw(t, "per"); per != "" {
		c.Per = []string{per}
	}
	return c
}

func drawScheme(t *rapid.T) credit.Scheme {
	s := credit.Scheme{ID: "drawn", Unit: "point", Target: credit.Target{Set: true, Amount: drawAmount(t, "target", 60)}}
	for _, id := range categories {
		s.Categories = append(s.Categories, credit.Category{ID: id, Award: credit.Award{From: "hours", Steps: []credit.Step{
			{Op: credit.OpDivide, By: credit.Operand{Amount: credit.Whole(int64(rapid.IntRange(1, 5).Draw(t, "rate")))}}}}})
	}
	for i := range rapid.IntRange(0, 5).Draw(t, "caps") {
		s.Caps = append(s.Caps, drawCap(t, fmt.Sprintf("cap %d", i)))
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "minimums") {
		m := credit.Minimum{ID: fmt.Sprintf("minimum %d", i), Selection: drawSelection(t), Least: drawAmount(t, "least", 20)}
		if rapid.IntRange(0, 3).Draw(t, "yearly") == 0 {
			m.Per = credit.PerYear
		}
		s.Minimums = append(s.Minimums, m)
	}
	return s
}

func drawClaim(t *rapid.T, id string) credit.Claim {
	n := credit.Minutes(rapid.IntRange(0, 2000).Draw(t, "minutes"))
	c := credit.Claim{ID: id, Category: rapid.SampledFrom(categories).Draw(t, "category"), Minutes: &n,
		Provider: rapid.SampledFrom([]string{"", "p", "q"}).Draw(t, "provider")}
	if days := rapid.IntRange(-20, 1120).Draw(t, "day"); days != 0 {
		c.End = cycle.Start.AddDays(days)
	}
	for _, tag := range tags {
		if rapid.Bool().Draw(t, "tag "+tag) {
			c.Tags = append(c.Tags, tag)
		}
	}
	return c
}

func drawClaims(t *rapid.T) []credit.Claim {
	list := make([]credit.Claim, rapid.IntRange(0, 8).Draw(t, "claims"))
	for i := range list {
		list[i] = drawClaim(t, fmt.Sprintf("C%d", i+1))
	}
	return list
}

func run(t *rapid.T, s credit.Scheme, claims []credit.Claim) credit.Statement {
	st, err := credit.Calculate(s, credit.Input{Cycle: cycle, Claims: claims})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// The sum of the parts is the whole, every cut is told, and no cap is exceeded.
func TestFiguresAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, claims := drawScheme(t), drawClaims(t)
		st := run(t, s, claims)
		var counted, byCategory credit.Amount
		for i, r := range st.Claims {
			counted = counted.Add(r.Counted)
			left := r.Awarded
			for _, c := range st.Cuts {
				if c.Claim == r.ID {
					left = left.Sub(c.Amount)
				}
			}
			if !left.Equal(r.Counted) || r.Counted.Sign() < 0 || !r.Counted.AtMost(r.Awarded) {
				t.Fatalf("%s: awarded %v, counted %v, after its cuts %v", r.ID, r.Awarded, r.Counted, left)
			}
			if d := claims[i].Date(); !d.IsZero() && !cycle.Holds(d) && r.Awarded.Sign() != 0 {
				t.Fatalf("%s of %v lies outside and is awarded %v", r.ID, d, r.Awarded)
			}
			if lines := st.Explain(r.ID); len(lines) < 3 {
				t.Fatalf("%s is not explained: %q", r.ID, lines)
			}
		}
		for _, c := range st.Categories {
			byCategory = byCategory.Add(c.Counted)
		}
		if !counted.Equal(st.Counted) || !byCategory.Equal(st.Counted) {
			t.Fatalf("claims give %v, categories %v, the statement %v", counted, byCategory, st.Counted)
		}
		for _, k := range s.Caps {
			checkCap(t, k, claims, st)
		}
	})
}

// checkCap adds up what counts in each window of the cap by itself.
func checkCap(t *rapid.T, k credit.Cap, claims []credit.Claim, st credit.Statement) {
	sums := map[string]credit.Amount{}
	for i, c := range claims {
		if !k.Selection.Holds(c) {
			continue
		}
		y, _, _ := c.Date().YMD()
		windows := []string{""}
		if len(k.Per) > 0 {
			switch k.Per[0] {
			case credit.PerYear, credit.PerCycleYear: // the cycle begins on 1 January
				windows = []string{fmt.Sprint(y)}
			case credit.PerClaim:
				windows = []string{c.ID}
			case credit.PerProvider:
				windows = []string{c.Provider}
			default:
				windows = []string{fmt.Sprint(y - 1), fmt.Sprint(y)}
			}
			if c.Date().IsZero() && k.Per[0] != credit.PerClaim && k.Per[0] != credit.PerProvider {
				windows = nil
			}
		}
		for _, w := range windows {
			sums[w] = sums[w].Add(st.Claims[i].Counted)
		}
	}
	for w, sum := range sums {
		if !sum.AtMost(k.Most) {
			t.Fatalf("%s %q allows %v, but %v counts", k.ID, w, k.Most, sum)
		}
	}
}

func TestCapNeverRaises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, claims := drawScheme(t), drawClaims(t)
		s.Minimums = nil // a minimum can only be met at the cost of the total; without one the total is all
		before := run(t, s, claims).Counted
		s.Caps = append(slices.Clone(s.Caps), drawCap(t, "further"))
		if after := run(t, s, claims).Counted; !after.AtMost(before) {
			t.Fatalf("a further cap raised the total from %v to %v", before, after)
		}
	})
}

func TestOrderOfClaimsDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, claims := drawScheme(t), drawClaims(t)
		shuffled := rapid.Permutation(claims).Draw(t, "order")
		a, b := run(t, s, claims), run(t, s, shuffled)
		if ja, jb := mustJSON(t, a), mustJSON(t, b); ja != jb {
			t.Fatalf("two orders give\n%s\n%s", ja, jb)
		}
		for _, c := range claims {
			if ea, eb := strings.Join(a.Explain(c.ID), "\n"), strings.Join(b.Explain(c.ID), "\n"); ea != eb {
				t.Fatalf("two orders explain %s by\n%s\n%s", c.ID, ea, eb)
			}
		}
	})
}

func mustJSON(t *rapid.T, v any) string {
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// A further claim never makes it worse: what was met stays met, and between two equals
// the total does not fall.
func TestMoreEvidenceNeverLowersTheCount(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, claims := drawScheme(t), drawClaims(t)
		before := run(t, s, claims)
		after := run(t, s, append(slices.Clone(claims), drawClaim(t, "C99")))
		if before.Meets && !after.Meets || before.Meets == after.Meets && after.Counted.Cmp(before.Counted) < 0 {
			t.Fatalf("from %v (meets %v) to %v (meets %v)", before.Counted, before.Meets, after.Counted, after.Meets)
		}
	})
}

func TestSplittingAClaimDoesNotPay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, claims := drawScheme(t), drawClaims(t)
		s.Caps = slices.DeleteFunc(s.Caps, func(c credit.Cap) bool { return slices.Equal(c.Per, []string{credit.PerClaim}) })
		whole := drawClaim(t, "C50")
		first, second := whole, whole
		part := credit.Minutes(rapid.IntRange(0, int(*whole.Minutes)).Draw(t, "part"))
		rest := *whole.Minutes - part
		first.Minutes, second.Minutes, second.ID = &part, &rest, "C51"
		one := run(t, s, append(slices.Clone(claims), whole))
		two := run(t, s, append(slices.Clone(claims), first, second))
		if !one.Counted.Equal(two.Counted) || one.Meets != two.Meets {
			t.Fatalf("whole it counts %v, in two %v", one.Counted, two.Counted)
		}
	})
}

// hoursScheme has categories a to d at one credit an hour.
func hoursScheme(caps []credit.Cap, minimums ...credit.Minimum) credit.Scheme {
	s := credit.Scheme{ID: "hours", Unit: "hour", Caps: caps, Minimums: minimums}
	for _, id := range categories {
		s.Categories = append(s.Categories, credit.Category{ID: id, Award: credit.Award{From: "hours"}})
	}
	return s
}

func hour(id, category string, n int64, tags ...string) credit.Claim {
	m := credit.Minutes(60 * n)
	return credit.Claim{ID: id, Category: category, Minutes: &m, Tags: tags}
}

func over(id string, most int64, categories ...string) credit.Cap {
	return credit.Cap{ID: id, Selection: credit.Selection{Categories: categories}, Most: credit.Whole(most)}
}

func TestChoiceOfWhatCounts(t *testing.T) {
	tests := []struct {
		name, why string
		scheme    credit.Scheme
		claims    []credit.Claim
		want      string // counted per claim
		meets     bool
	}{
		{"caps in a chain", "cutting b first would lose: a and c fill both caps without it",
			hoursScheme([]credit.Cap{over("ab", 10, "a", "b"), over("bc", 10, "b", "c")}),
			[]credit.Claim{hour("1", "b", 10), hour("2", "a", 10), hour("3", "c", 10)}, "0 10 10", false},
		{"caps in a ring", "half of each is best: 5 + 5 + 5",
			hoursScheme([]credit.Cap{over("ab", 10, "a", "b"), over("bc", 10, "b", "c"), over("ca", 10, "c", "a")}),
			[]credit.Claim{hour("1", "a", 9), hour("2", "b", 9), hour("3", "c", 9)}, "5 5 5", false},
		{"minimum before total", "the minimum asks 4 of b, at the cost of 4 in all",
			hoursScheme([]credit.Cap{over("ab", 10, "a", "b"), over("bc", 10, "b", "c")}, credit.Minimum{ID: "b", Selection: credit.Selection{Categories: []string{"b"}}, Least: credit.Whole(4)}),
			[]credit.Claim{hour("1", "b", 10), hour("2", "a", 10), hour("3", "c", 10)}, "4 6 6", true},
		{"minimum out of reach", "then the largest total decides",
			hoursScheme([]credit.Cap{over("ab", 10, "a", "b"), over("bc", 10, "b", "c")}, credit.Minimum{ID: "b", Selection: credit.Selection{Categories: []string{"b"}}, Least: credit.Whole(11)}),
			[]credit.Claim{hour("1", "b", 10), hour("2", "a", 10), hour("3", "c", 10)}, "0 10 10", false},
		{"equals", "the earliest claim counts",
			hoursScheme([]credit.Cap{over("a", 10, "a")}),
			[]credit.Claim{hour("1", "a", 7), hour("2", "a", 7)}, "7 3", false},
		{"share of what counts", "a is at most a quarter of all: 3 beside 9",
			hoursScheme([]credit.Cap{{ID: "quarter", Selection: credit.Selection{Categories: []string{"a"}}, Most: credit.Fraction(1, 4), Share: credit.ShareCounted}}),
			[]credit.Claim{hour("1", "a", 8), hour("2", "b", 9)}, "3 9", false},
		{"only a share", "alone it is all of what counts, so nothing may count",
			hoursScheme([]credit.Cap{{ID: "quarter", Selection: credit.Selection{Categories: []string{"a"}}, Most: credit.Fraction(1, 4), Share: credit.ShareCounted}}),
			[]credit.Claim{hour("1", "a", 8)}, "0", false},
		{"largest only", "of several offices the largest counts",
			hoursScheme([]credit.Cap{{ID: "office", Selection: credit.Selection{Categories: []string{"a"}}, Largest: true}}),
			[]credit.Claim{hour("1", "a", 2), hour("2", "a", 5), hour("3", "a", 5)}, "0 5 0", false},
		{"any of", "the second list is filled",
			hoursScheme(nil,
				credit.Minimum{ID: "one", Selection: credit.Selection{Categories: []string{"a"}}, Least: credit.Whole(9)},
				credit.Minimum{ID: "two", Selection: credit.Selection{Categories: []string{"b"}}, Least: credit.Whole(3)},
				credit.Minimum{ID: "way", AnyOf: [][]string{{"one"}, {"two"}}}),
			[]credit.Claim{hour("1", "a", 2), hour("2", "b", 3)}, "2 3", true},
		{"nothing asked", "without target and minimum nothing is met",
			hoursScheme(nil), []credit.Claim{hour("1", "a", 2)}, "2", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			st, err := credit.Calculate(tt.scheme, credit.Input{Claims: tt.claims})
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, r := range st.Claims {
				got = append(got, r.Counted.String())
			}
			if s := strings.Join(got, " "); s != tt.want || st.Meets != tt.meets {
				t.Errorf("%s: counted %s, meets %v, want %s, %v\n%s", tt.why, s, st.Meets, tt.want, tt.meets, strings.Join(st.ExplainAll(), "\n"))
			}
		})
	}
}

func TestUnknownCategoryIsAnError(t *testing.T) {
	_, err := credit.Calculate(hoursScheme(nil), credit.Input{Claims: []credit.Claim{{ID: "C1", Category: "z"}}})
	if !errors.Is(err, credit.ErrNoCategory) || !strings.Contains(err.Error(), "C1") {
		t.Errorf("got %v", err)
	}
}

func TestEmptyInputAnswers(t *testing.T) {
	st, err := credit.Calculate(credit.Scheme{}, credit.Input{})
	if err != nil || st.Meets || st.Counted.Sign() != 0 || len(st.ExplainAll()) != 1 {
		t.Errorf("got %+v, %v", st, err)
	}
	if st.Explain("C1") != nil {
		t.Error("a claim that is not there was explained")
	}
}
