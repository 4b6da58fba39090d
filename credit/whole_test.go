package credit

import (
	"testing"

	"pgregory.net/rapid"
)

// TestLargestSum tries every set of a few awards one by one.
func TestLargestSum(t *testing.T) {
	search := map[string]func([]Amount, Amount) (Amount, bool){"marks": largestSum, "tried": bestOfTried}
	for name, largest := range search {
		t.Run(name, rapid.MakeCheck(func(t *rapid.T) {
			room := Fraction(int64(rapid.IntRange(0, 400).Draw(t, "room")), int64(rapid.IntRange(1, 9).Draw(t, "below")))
			var awards []Amount
			for range rapid.IntRange(0, 9).Draw(t, "awards") {
				a := Fraction(int64(rapid.IntRange(1, 90).Draw(t, "award")), int64(rapid.IntRange(1, 9).Draw(t, "below")))
				if a.AtMost(room) {
					awards = append(awards, a)
				}
			}
			var want Amount
			for set := range 1 << len(awards) {
				var sum Amount
				for i, a := range awards {
					if set>>i&1 == 1 {
						sum = sum.Add(a)
					}
				}
				if sum.AtMost(room) {
					want = want.Max(sum)
				}
			}
			if got, all := largest(awards, room); !all || !got.Equal(want) {
				t.Fatalf("%v within %v: got %v (all tried: %v), want %v", awards, room, got, all, want)
			}
		}))
	}
}

// TestLargestSumEnds gives it sums without a part in common, more than can be tried.
func TestLargestSumEnds(t *testing.T) {
	var awards []Amount
	for i := range 300 {
		awards = append(awards, Fraction(int64(i+1), 1_000_003).Add(Fraction(1, int64(2*i+3))))
	}
	room := Whole(500)
	got, all := largestSum(awards, room)
	if all || !got.AtMost(room) || got.AtMost(Whole(1)) {
		t.Errorf("got %v of %v, all tried: %v", got, room, all)
	}
}

// TestSearchedSum proves a sum that the marks cannot hold: the awards have no part in
// common that is large enough.
func TestSearchedSum(t *testing.T) {
	awards := []Amount{Fraction(10_000_019, 10_000_079), Fraction(20_000_003, 10_000_103), Fraction(3, 10_000_121), Fraction(30_000_001, 10_000_189), Fraction(5, 2)}
	room := Whole(5)
	var want Amount
	for set := range 1 << len(awards) {
		var sum Amount
		for i, a := range awards {
			if set>>i&1 == 1 {
				sum = sum.Add(a)
			}
		}
		if sum.AtMost(room) {
			want = want.Max(sum)
		}
	}
	c := calculation{}
	if got, proven := c.searchedSum(awards, room, Amount{}); !proven || !got.Equal(want) {
		t.Errorf("got %v, proven %v, want %v", got, proven, want)
	}
	c.input.Steps = 1
	if got, proven := c.searchedSum(awards, room, want); !proven && !got.Equal(want) {
		t.Errorf("with a step: %v", got)
	}
}
