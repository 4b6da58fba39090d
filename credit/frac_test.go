package credit

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// TestFracIsRat holds the quick fractions against big.Rat, also where machine words
// overflow.
func TestFracIsRat(t *testing.T) {
	edge := rapid.SampledFrom([]int64{0, 1, -1, 2, -3, 60, math.MaxInt64, -math.MaxInt64, math.MinInt64, math.MaxInt64 - 1, 1 << 31, 1 << 32, 1<<62 + 1})
	number := rapid.OneOf(edge, rapid.Int64Range(-1000, 1000), rapid.Int64())
	draw := func(t *rapid.T, label string) *big.Rat {
		below := number.Filter(func(n int64) bool { return n != 0 }).Draw(t, label+" below")
		return big.NewRat(number.Draw(t, label), below)
	}
	rapid.Check(t, func(t *rapid.T) {
		ra, rb := draw(t, "a"), draw(t, "b")
		a, b := fracOf(ra), fracOf(rb)
		same := func(what string, got frac, want *big.Rat) {
			if got.rat().Cmp(want) != 0 {
				t.Fatalf("%v %s %v gave %v, want %v", ra, what, rb, got.rat(), want)
			}
			if got.big == nil && big.NewRat(got.num, got.below()).Denom().Int64() != got.below() || got.isZero() != (want.Sign() == 0) {
				t.Fatalf("%v %s %v is not in lowest terms: %+v", ra, what, rb, got)
			}
		}
		same("+", a.add(b), new(big.Rat).Add(ra, rb))
		same("−", a.sub(b), new(big.Rat).Sub(ra, rb))
		same("×", a.mul(b), new(big.Rat).Mul(ra, rb))
		if rb.Sign() != 0 {
			same("÷", a.quo(b), new(big.Rat).Quo(ra, rb))
		}
		same("floor", a.floor(), new(big.Rat).SetInt(new(big.Int).Div(ra.Num(), ra.Denom())))
		if a.cmp(b) != ra.Cmp(rb) || a.sign() != ra.Sign() || a.isInt() != ra.IsInt() {
			t.Fatalf("%v and %v: cmp %d, sign %d, whole %v", ra, rb, a.cmp(b), a.sign(), a.isInt())
		}
	})
}
