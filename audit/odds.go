package audit

import (
	"fmt"
	"math/big"
	"slices"

	"evidencevault/credit"
)

// SampleOdds is the chance that a sample hits at least one weak claim.
type SampleOdds struct {
	Sample   int    `json:"sample"`              // claims that are drawn
	Exact    string `json:"exact"`               // as a fraction
	Percent  string `json:"percent"`             // to one place
	OneFewer string `json:"one_fewer,omitempty"` // percent when one weak claim is mended
}

// Mend is one weak claim, and where mending it leaves the whole. Each stands on those
// before it: they are taken to be mended too.
type Mend struct {
	Claim   string        `json:"claim"`
	AtStake credit.Amount `json:"at_stake"`
	Left    int           `json:"weak_left"` // weak claims that are left then
	Counted credit.Amount `json:"counted"`   // if those fall
	Meets   bool          `json:"meets"`     // if those fall
	Sample  int           `json:"sample"`    // a tenth of the claims, as bodies draw
	Exact   string        `json:"exact"`     // chance that such a sample hits a weak claim, as a fraction
	Percent string        `json:"percent"`
}

// mostMends bounds how many mends are worked out one after the other.
const mostMends = 20

// mends puts the weak claims in the order of what is at stake, and works out what is
// left after each.
func (r *rehearsing) mends(weak []string) ([]Mend, error) {
	list, n := []Mend{}, len(r.grounds.Claims)
	order := slices.Clone(weak)
	slices.SortStableFunc(order, func(a, b string) int { return r.counted[b].Cmp(r.counted[a]) })
	for i, claim := range order[:min(len(order), mostMends)] {
		rest := order[i+1:]
		fallen, err := r.grounds.Without(rest)
		if err != nil {
			return nil, err
		}
		k := (n + 9) / 10
		p := Chance(n, len(rest), k)
		list = append(list, Mend{Claim: claim, AtStake: r.counted[claim], Left: len(rest), Counted: fallen.Counted, Meets: fallen.Meets,
			Sample: k, Exact: p.RatString(), Percent: percent(p)})
	}
	return list, nil
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
