package credit_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"evidencevault/credit"
)

// drawChoices draws a scheme whose rules leave choices beside the amounts.
func drawChoices(t *rapid.T) credit.Scheme {
	s := drawScheme(t)
	for i := range s.Categories {
		if other := rapid.SampledFrom(categories).Draw(t, "or"); rapid.Bool().Draw(t, "has or") && other != s.Categories[i].ID {
			s.Categories[i].Or = []string{other}
		}
	}
	for i := range rapid.IntRange(1, 3).Draw(t, "choices") {
		s.Caps = append(s.Caps, drawChoiceCap(t, fmt.Sprintf("choice %d", i)))
	}
	return s
}

func drawChoiceCap(t *rapid.T, id string) credit.Cap {
	c := credit.Cap{ID: id, Selection: drawSelection(t)}
	if rapid.Bool().Draw(t, "whole") {
		c.Most, c.Whole = drawAmount(t, "most", 60), true
		return c
	}
	c.MostClaims = rapid.IntRange(1, 3).Draw(t, "most claims")
	if rapid.Bool().Draw(t, "by provider") {
		c.Per = []string{credit.PerProvider}
	}
	return c
}

func TestMoreEvidenceNeverLowersTheChoice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, claims := drawChoices(t), drawClaims(t)
		before := run(t, s, claims)
		after := run(t, s, append(slices.Clone(claims), drawClaim(t, "C99")))
		if before.Meets && !after.Meets || before.Meets == after.Meets && after.Counted.Cmp(before.Counted) < 0 {
			t.Fatalf("from %v (meets %v) to %v (meets %v)", before.Counted, before.Meets, after.Counted, after.Meets)
		}
	})
}

func TestFurtherChoiceNeverRaises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, claims := drawChoices(t), drawClaims(t)
		s.Minimums = nil
		before := run(t, s, claims).Counted
		s.Caps = append(slices.Clone(s.Caps), drawChoiceCap(t, "further"))
		if after := run(t, s, claims).Counted; !after.AtMost(before) {
			t.Fatalf("a further cap raised the total from %v to %v", before, after)
		}
	})
}

// The order of the claims in the file changes neither a figure nor a word, also where
// equal claims exclude each other.
func TestOrderDoesNotMatterToTheChoice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, claims := drawChoices(t), drawClaims(t)
		a, b := run(t, s, claims), run(t, s, rapid.Permutation(claims).Draw(t, "order"))
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

// Every cut and every choice is told, and leads from what was awarded to what counts.
func TestChoicesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		st := run(t, drawChoices(t), drawClaims(t))
		var byClaim, byCategory credit.Amount
		for _, r := range st.Claims {
			left := r.Awarded
			for _, c := range st.Cuts {
				if c.Claim == r.ID {
					left = left.Sub(c.Amount)
				}
			}
			if !left.Equal(r.Counted) || r.Counted.Sign() < 0 {
				t.Fatalf("%s: awarded %v, counted %v, after its cuts %v\n%s", r.ID, r.Awarded, r.Counted, left, strings.Join(st.Explain(r.ID), "\n"))
			}
			byClaim = byClaim.Add(r.Counted)
		}
		for _, c := range st.Categories {
			byCategory = byCategory.Add(c.Counted)
		}
		if !byClaim.Equal(st.Counted) || !byCategory.Equal(st.Counted) || st.Unproven != nil {
			t.Fatalf("claims give %v, categories %v, the statement %v (%v)", byClaim, byCategory, st.Counted, st.Unproven)
		}
	})
}

// countedOf prints what each claim counts, with the category if that is not its own.
func countedOf(st credit.Statement, claims []credit.Claim) string {
	var list []string
	for i, r := range st.Claims {
		text := r.Counted.String()
		if r.Category != claims[i].Category {
			text += " in " + r.Category
		}
		list = append(list, text)
	}
	return strings.Join(list, ", ")
}

func TestWhatIsChosen(t *testing.T) {
	of := func(field, value string, c credit.Claim) credit.Claim {
		c.Fields = map[string]string{field: value}
		return c
	}
	or := func(s credit.Scheme, id string, others ...string) credit.Scheme {
		for i := range s.Categories {
			if s.Categories[i].ID == id {
				s.Categories[i].Or = others
			}
		}
		return s
	}
	role := credit.Cap{ID: "role", Selection: credit.Selection{Categories: []string{"a", "b"}}, Per: []string{"course"}, MostClaims: 1}
	of4 := func(id, tag string, least int64) credit.Minimum {
		return credit.Minimum{ID: id, Selection: credit.Selection{Categories: []string{tag}}, Least: credit.Whole(least)}
	}
	tests := []struct {
		name, why string
		scheme    credit.Scheme
		claims    []credit.Claim
		want      string
		meets     bool
	}{
		{"the other category has room", "a is full after 5, b is not",
			or(hoursScheme([]credit.Cap{over("a", 5, "a")}), "a", "b"),
			[]credit.Claim{hour("1", "a", 5), hour("2", "a", 4)}, "5, 4 in b", false},
		{"the other category is wanted", "the minimum asks for b, and both are one claim each",
			or(hoursScheme(nil, of4("b", "b", 4)), "a", "b"),
			[]credit.Claim{hour("1", "a", 3), hour("2", "a", 4)}, "3, 4 in b", true},
		{"a whole claim goes to one", "4 in a or 4 in b, never 2 and 2: only one of the minimums is met, and a stands first",
			or(hoursScheme(nil, of4("a", "a", 2), of4("b", "b", 2)), "a", "b"),
			[]credit.Claim{hour("1", "a", 4)}, "4", false},
		{"own category before another", "nothing is gained in b",
			or(hoursScheme(nil), "a", "b"),
			[]credit.Claim{hour("1", "a", 4)}, "4", false},
		{"developer or instructor", "one of the two, the larger",
			hoursScheme([]credit.Cap{role}),
			[]credit.Claim{of("course", "k", hour("1", "a", 3)), of("course", "k", hour("2", "b", 6)), of("course", "m", hour("3", "a", 2))}, "0, 6, 2", false},
		{"the smaller is wanted", "the minimum asks for a, so the smaller of the two counts",
			hoursScheme([]credit.Cap{role}, of4("a", "a", 3)),
			[]credit.Claim{of("course", "k", hour("1", "a", 3)), of("course", "k", hour("2", "b", 6))}, "3, 0", true},
		{"the larger has no room", "b is capped at 2, so the 3 of a are more",
			hoursScheme([]credit.Cap{role, over("b", 2, "b")}),
			[]credit.Claim{of("course", "k", hour("1", "a", 3)), of("course", "k", hour("2", "b", 6))}, "3, 0", false},
		{"no course named", "nothing says that they belong together",
			hoursScheme([]credit.Cap{role}),
			[]credit.Claim{hour("1", "a", 3), hour("2", "b", 6)}, "3, 6", false},
		{"two of three", "the two largest",
			hoursScheme([]credit.Cap{{ID: "two", MostClaims: 2}}),
			[]credit.Claim{hour("1", "a", 3), hour("2", "b", 6), hour("3", "c", 4)}, "0, 6, 4", false},
		{"equals", "the earlier of two that are worth the same",
			hoursScheme([]credit.Cap{{ID: "one", MostClaims: 1}}),
			[]credit.Claim{hour("1", "a", 3), hour("2", "a", 3)}, "3, 0", false},
		{"whole claims", "7 + 3 fill 10; 6 + 3 would not",
			hoursScheme([]credit.Cap{{ID: "w", Most: credit.Whole(10), Whole: true}}),
			[]credit.Claim{hour("1", "a", 6), hour("2", "a", 7), hour("3", "a", 3)}, "0, 7, 3", false},
		{"whole, too large for the cap", "12 never fit",
			hoursScheme([]credit.Cap{{ID: "w", Most: credit.Whole(10), Whole: true}}),
			[]credit.Claim{hour("1", "a", 12), hour("2", "a", 1)}, "0, 1", false},
		{"whole in one claim", "above 8 nothing counts",
			hoursScheme([]credit.Cap{{ID: "w", Most: credit.Whole(8), Per: []string{credit.PerClaim}, Whole: true}}),
			[]credit.Claim{hour("1", "a", 9), hour("2", "a", 8)}, "0, 8", false},
		{"equal whole claims", "two of three fit, the earliest",
			hoursScheme([]credit.Cap{{ID: "w", Most: credit.Whole(9), Whole: true}}),
			[]credit.Claim{hour("1", "a", 4), hour("2", "a", 4), hour("3", "a", 4)}, "4, 4, 0", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			st, err := credit.Calculate(tt.scheme, credit.Input{Claims: tt.claims})
			if err != nil {
				t.Fatal(err)
			}
			if got := countedOf(st, tt.claims); got != tt.want || st.Meets != tt.meets {
				t.Errorf("%s: counted %s, meets %v, want %s, %v\n%s", tt.why, got, st.Meets, tt.want, tt.meets, strings.Join(st.ExplainAll(), "\n"))
			}
		})
	}
}

// TestManyLists asks for one of two minimums thirty times over: 2 to the 30 ways.
func TestManyLists(t *testing.T) {
	s := hoursScheme(nil)
	var claims []credit.Claim
	for i := range 30 {
		tag := fmt.Sprint("t", i)
		for side, id := range []string{"a", "b"} {
			m := credit.Minimum{ID: tag + id, Selection: credit.Selection{Categories: []string{id}, Tags: []string{tag}}, Least: credit.Whole(3)}
			s.Minimums = append(s.Minimums, m)
			n := int64(2)
			if (i+side)%3 > 0 {
				n = 3
			}
			claims = append(claims, hour(fmt.Sprint(tag, id), id, n, tag))
		}
		s.Minimums = append(s.Minimums, credit.Minimum{ID: tag, AnyOf: [][]string{{tag + "a"}, {tag + "b"}}})
	}
	st, err := credit.Calculate(s, credit.Input{Claims: claims})
	if err != nil || !st.Meets || st.Unproven != nil {
		t.Errorf("meets %v, %v, %v", st.Meets, st.Unproven, err)
	}
	s.Caps = []credit.Cap{over("all", 89, "a", "b")} // one too few for thirty times 3
	if st, err = credit.Calculate(s, credit.Input{Claims: claims}); err != nil || st.Meets || st.Unproven != nil || st.Counted.String() != "89" {
		t.Errorf("with 89 in all: meets %v, counted %v, %v, %v", st.Meets, st.Counted, st.Unproven, err)
	}
}
