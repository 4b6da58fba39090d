package credit_test

import (
	"testing"

	"pgregory.net/rapid"

	"evidencevault/credit"
)

func drawCarryOver(t *rapid.T) credit.CarryOver {
	k := credit.CarryOver{Set: true, Selection: drawSelection(t), Into: rapid.SampledFrom([]string{"", "a"}).Draw(t, "into"),
		FromAwarded: rapid.Bool().Draw(t, "from awarded"), Whole: rapid.IntRange(0, 3).Draw(t, "whole") == 0}
	if rapid.Bool().Draw(t, "has most") {
		k.HasMost, k.Most = true, drawAmount(t, "carry most", 20)
	}
	if rapid.IntRange(0, 2).Draw(t, "has part") == 0 {
		k.HasPart, k.Part, k.PartMost = true, drawSelection(t), drawAmount(t, "part most", 10)
	}
	if rapid.IntRange(0, 2).Draw(t, "late") == 0 {
		k.LastMonths = rapid.IntRange(1, 24).Draw(t, "months")
	}
	return k
}

// What passes is shared out among claims to the last fraction, no claim passes more than
// it was awarded, and each keeps its day and tags.
func TestPassingSumsUpToCarryOut(t *testing.T) {
	passed := 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawScheme(t)
		s.CarryOver = drawCarryOver(t)
		in := credit.Input{Cycle: cycle}
		for i := range rapid.IntRange(0, 8).Draw(t, "claims") {
			in.Claims = append(in.Claims, drawClaim(t, "C"+string(rune('1'+i))))
		}
		st, err := credit.Calculate(s, in)
		if err != nil {
			t.Fatal(err)
		}
		list, err := st.Passing()
		if err != nil {
			t.Fatal(err)
		}
		var sum credit.Amount
		for _, p := range list {
			sum = sum.Add(p.Amount)
			if p.Amount.Sign() <= 0 || p.Category != s.CarryOver.Into {
				t.Fatalf("%+v: want an amount above 0, into %q", p, s.CarryOver.Into)
			}
			if p.ID == "" {
				continue
			}
			r, ok := st.Result(p.ID)
			claim, known := st.Claim(p.ID)
			if !ok || !known || !p.Amount.AtMost(r.Awarded) {
				t.Fatalf("%s passes %v of %v awarded", p.ID, p.Amount, r.Awarded)
			}
			if s.CarryOver.Whole && !p.Amount.Equal(r.Awarded) {
				t.Fatalf("%s passes %v of %v, and only whole activities may", p.ID, p.Amount, r.Awarded)
			}
			if p.Earned != claim.Date() && !claim.Date().IsZero() {
				t.Fatalf("%s was earned on %v, want %v", p.ID, p.Earned, claim.Date())
			}
		}
		if !sum.Equal(credit.Amount{}.Max(st.CarryOut)) {
			t.Fatalf("shared out %v of %v: %+v", sum, st.CarryOut, list)
		}
		passed += len(list)
	})
	if passed == 0 {
		t.Error("nothing passed in any draw, so nothing was tried")
	}
}

// The latest earned passes first; of one part no more than its own ceiling.
func TestPassingTakesTheLatestFirst(t *testing.T) {
	hours := func(id, category, day string, n int64) credit.Claim {
		m := credit.Minutes(60 * n)
		return credit.Claim{ID: id, Category: category, End: credit.MustDate(day), Minutes: &m, Tags: []string{"x"}}
	}
	s := credit.Scheme{ID: "s", Target: credit.Target{Set: true, Amount: credit.Whole(10)}, CarryOver: credit.CarryOver{Set: true,
		HasPart: true, Part: credit.Selection{Categories: []string{"b"}}, PartMost: credit.Whole(2)}}
	for _, id := range []string{"a", "b"} {
		s.Categories = append(s.Categories, credit.Category{ID: id, Award: credit.Award{From: "hours"}})
	}
	st, err := credit.Calculate(s, credit.Input{Cycle: cycle, Claims: []credit.Claim{
		hours("C1", "a", "2024-03-01", 9), hours("C2", "a", "2025-03-01", 3), hours("C3", "b", "2026-03-01", 4)}})
	if err != nil {
		t.Fatal(err)
	}
	list, err := st.Passing()
	if err != nil || len(list) != 3 {
		t.Fatalf("%+v, %v: want three parts of %v", list, err, st.CarryOut)
	}
	want := []string{"C3 2 2026-03-01", "C2 3 2025-03-01", "C1 1 2024-03-01"}
	for i, p := range list {
		if got := p.ID + " " + p.Amount.String() + " " + p.Earned.String(); got != want[i] || len(p.Tags) != 1 {
			t.Errorf("part %d is %s with tags %v, want %s with its tag", i, got, p.Tags, want[i])
		}
	}
}
