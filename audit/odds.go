package audit

import (
	"fmt"
	"math/big"
)

// SampleOdds is the chance that a sample hits at least one weak claim.
type SampleOdds struct {
	Sample   int    `json:"sample"`              // claims that are drawn
	Exact    string `json:"exact"`               // as a fraction
	Percent  string `json:"percent"`             // to one place
	OneFewer string `json:"one_fewer,omitempty"` // percent when one weak claim is mended
}

// Chance returns the probability that a sample of k of n claims, each set of k as
// likely as any other, has at least one of the w weak ones: 1 − C(n−w, k) ÷ C(n, k), the
// hypergeometric distribution's tail. k is taken as n when it is larger.
func Chance(n, w, k int) *big.Rat {
	k = min(k, n)
	if k <= 0 || w <= 0 {
		return new(big.Rat)
	}
	none := new(big.Int).Binomial(int64(n-w), int64(k)) // 0 when the others are too few
	if n-w < k {
		none.SetInt64(0)
	}
	all := new(big.Int).Binomial(int64(n), int64(k))
	return new(big.Rat).Sub(big.NewRat(1, 1), new(big.Rat).SetFrac(none, all))
}

// percent prints a chance: "0 %" and "100 %" only when it is exactly that.
func percent(p *big.Rat) string {
	switch {
	case p.Sign() == 0:
		return "0 %"
	case p.Cmp(big.NewRat(1, 1)) == 0:
		return "100 %"
	}
	hundred := new(big.Rat).Mul(p, big.NewRat(100, 1))
	switch text := hundred.FloatString(1); text {
	case "0.0":
		return "below 0.1 %"
	case "100.0":
		return "above 99.9 %"
	default:
		return fmt.Sprintf("%s %%", text)
	}
}

// odds lists the samples that bodies draw: one, three, a tenth, a quarter, half, all.
func odds(n, weak int) []SampleOdds {
	list := []SampleOdds{}
	last := 0
	for _, k := range []int{1, 3, 5, (n + 9) / 10, (n + 3) / 4, (n + 1) / 2, n} {
		if k <= last || k > n {
			continue
		}
		last = k
		o := SampleOdds{Sample: k, Exact: Chance(n, weak, k).RatString(), Percent: percent(Chance(n, weak, k))}
		if weak > 0 {
			o.OneFewer = percent(Chance(n, weak-1, k))
		}
		list = append(list, o)
	}
	return list
}
