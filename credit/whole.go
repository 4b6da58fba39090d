package credit

import (
	"maps"
	"math/big"
	"slices"
)

// Bounds of the search for the best sum of whole activities.
const (
	maxUnits = 1 << 24 // of the smallest part in which all awards can be told
	maxWords = 1 << 31 // words of 64 units looked at
	maxSums  = 1 << 10 // sums kept where there are more units
	maxTries = 1 << 14 // sums tried there
)

// wholeSum is the largest sum of whole selected awards that may pass and leaves the
// target filled, and whether all sums were tried.
func (c *calculation) wholeSum(own Amount) (Amount, bool) {
	k, from := c.scheme.CarryOver, c.carryFrom()
	room := own.Sub(c.target)
	if k.HasMost {
		room = room.Min(k.Most)
	}
	var awards []Amount
	for i := range c.entries {
		e := &c.entries[i]
		if e.carried || e.awarded.Sign() <= 0 || !e.awarded.AtMost(room) || !k.Selection.Holds(e.Claim) || e.placed.Before(from) {
			continue
		}
		awards = append(awards, e.awarded)
	}
	if len(awards) == 0 {
		return Amount{}, true
	}
	sum, all := largestSum(awards, room)
	if !all {
		sum, all = c.searchedSum(awards, room, sum)
	}
	return sum, all
}

// searchedSum looks for a larger sum than the one given by branch and bound, where the
// awards have no part in common, and tells whether what it returns is proven.
func (c *calculation) searchedSum(awards []Amount, room, sum Amount) (Amount, bool) {
	l := &linear{}
	var vars []int
	var terms []term
	for _, a := range awards {
		v := l.variable(one, false)
		vars, terms = append(vars, v), append(terms, term{v, a.value()})
	}
	l.atMost(room.value(), terms...)
	res := l.whole(vars, [][]term{terms}, c.newBudget())
	if !res.found {
		return sum, false
	}
	best := Amount{res.objectives[0].value}.Max(sum)
	return best, best.value().Cmp(res.objectives[0].bound) == 0
}

// largestSum returns the largest sum of some of the awards that is at most room, and
// whether all sums were tried. Equal awards are taken together. Where all awards are
// multiples of one part that is not too small, the sums are marked on a line of such
// parts, and the answer is exact; else as many sums are tried as the bounds allow.
func largestSum(awards []Amount, room Amount) (Amount, bool) {
	part := new(big.Int).SetInt64(1)
	for _, a := range awards {
		den := a.value().Denom()
		gcd := new(big.Int).GCD(nil, nil, part, den)
		if part.Mul(part, gcd.Quo(den, gcd)); part.BitLen() > 64 {
			return bestOfTried(awards, room)
		}
	}
	units := func(a Amount) *big.Int {
		n := new(big.Int).Mul(a.value().Num(), part)
		return n.Quo(n, a.value().Denom())
	}
	counts := map[int64]int64{}
	most := units(room)
	if !most.IsInt64() || most.Int64() > maxUnits {
		return bestOfTried(awards, room)
	}
	for _, a := range awards {
		counts[units(a).Int64()]++ // at most room, so it fits
	}
	line := make(marks, most.Int64()/64+1)
	if int64(len(counts))*int64(len(line)) > maxWords/8 {
		return bestOfTried(awards, room)
	}
	line[0] = 1
	for _, size := range slices.Sorted(maps.Keys(counts)) {
		left := min(counts[size], most.Int64()/size)
		for n := int64(1); left > 0; n *= 2 { // 1, 2, 4 … of it and the rest give every number of it
			n = min(n, left)
			line.shift(n * size)
			left -= n
		}
	}
	best := new(big.Int).SetInt64(line.last(most.Int64()))
	return Amount{new(big.Rat).SetFrac(best, part)}, true
}

// marks is a line of units with a bit for each sum that can be reached.
type marks []uint64

// shift marks every sum that is by units above one that is marked.
func (m marks) shift(by int64) {
	words, bits := int(by/64), uint(by%64)
	for i := len(m) - 1; i >= words; i-- {
		moved := m[i-words] << bits
		if bits > 0 && i > words {
			moved |= m[i-words-1] >> (64 - bits)
		}
		m[i] |= moved
	}
}

// last is the largest mark at or below most.
func (m marks) last(most int64) int64 {
	for n := most; n > 0; n-- {
		if m[n/64]>>uint(n%64)&1 == 1 {
			return n
		}
	}
	return 0
}

// bestOfTried adds up awards that have no part in common, largest first. It keeps the
// largest sums when there are too many, and at last only adds what still fits.
func bestOfTried(awards []Amount, room Amount) (Amount, bool) {
	awards = slices.Clone(awards)
	slices.SortFunc(awards, func(a, b Amount) int { return b.Cmp(a) })
	sums, all, tries := []Amount{{}}, true, 0
	for _, a := range awards {
		if tries += len(sums); tries > maxTries {
			sums, all = sums[len(sums)-1:], false
		}
		var more []Amount
		for _, s := range sums {
			next := s.Add(a)
			if !next.AtMost(room) {
				break // sums rise
			}
			more = append(more, next)
		}
		sums = append(sums, more...)
		slices.SortFunc(sums, Amount.Cmp)
		sums = slices.CompactFunc(sums, Amount.Equal)
		if n := len(sums) - maxSums; n > 0 {
			sums, all = slices.Delete(sums, 0, n), false
		}
	}
	return sums[len(sums)-1], all
}
