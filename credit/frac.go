package credit

import (
	"cmp"
	"math"
	"math/big"
	"math/bits"
)

// frac is an exact fraction for the inner loops of the solver: two machine words where
// they suffice, else a [big.Rat]. The zero frac is 0. A frac never changes, so it may
// be copied and shared.
type frac struct {
	num int64    // of the reduced fraction, never the least int64
	den int64    // above 0; 0 stands for 1
	big *big.Rat // if set, the number does not fit in the two words
}

var fracOne = frac{num: 1}

// fracOf returns r as a frac; nil is 0.
func fracOf(r *big.Rat) frac {
	switch {
	case r == nil:
		return frac{}
	case r.Num().IsInt64() && r.Denom().IsInt64() && r.Num().Int64() != math.MinInt64:
		return frac{num: r.Num().Int64(), den: r.Denom().Int64()}
	}
	return frac{big: new(big.Rat).Set(r)}
}

// rat returns a as a new big.Rat.
func (a frac) rat() *big.Rat {
	if a.big != nil {
		return new(big.Rat).Set(a.big)
	}
	return big.NewRat(a.num, a.below())
}

func (a frac) below() int64 {
	if a.den == 0 {
		return 1
	}
	return a.den
}

func (a frac) sign() int {
	if a.big != nil {
		return a.big.Sign()
	}
	return cmp.Compare(a.num, 0)
}

func (a frac) isZero() bool { return a.num == 0 && a.big == nil }

func (a frac) isInt() bool {
	if a.big != nil {
		return a.big.IsInt()
	}
	return a.den <= 1
}

func (a frac) neg() frac {
	if a.big != nil {
		return frac{big: new(big.Rat).Neg(a.big)}
	}
	return frac{num: -a.num, den: a.den}
}

func (a frac) abs() frac {
	if a.sign() < 0 {
		return a.neg()
	}
	return a
}

// floor is the largest whole number that is not above a.
func (a frac) floor() frac {
	if a.big != nil {
		return fracOf(new(big.Rat).SetInt(new(big.Int).Div(a.big.Num(), a.big.Denom())))
	}
	d := a.below()
	n := a.num / d
	if a.num < 0 && n*d != a.num {
		n--
	}
	return frac{num: n}
}

func (a frac) add(b frac) frac {
	if a.big == nil && b.big == nil {
		if a.den <= 1 && b.den <= 1 {
			if s := a.num + b.num; (b.num == 0 || (s > a.num) == (b.num > 0)) && s != math.MinInt64 {
				return frac{num: s}
			}
		} else if c, ok := addSmall(a, b); ok {
			return c
		}
	}
	return fracOf(new(big.Rat).Add(a.rat(), b.rat()))
}

func (a frac) sub(b frac) frac { return a.add(b.neg()) }

func (a frac) mul(b frac) frac {
	if a.big == nil && b.big == nil {
		if c, ok := mulSmall(a, b); ok {
			return c
		}
	}
	return fracOf(new(big.Rat).Mul(a.rat(), b.rat()))
}

// quo is a ÷ b; b must not be 0.
func (a frac) quo(b frac) frac { return a.mul(b.inv()) }

func (a frac) inv() frac {
	switch {
	case a.big != nil:
		return fracOf(new(big.Rat).Inv(a.big))
	case a.num < 0:
		return frac{num: -a.below(), den: -a.num}
	case a.num == 0:
		panic("credit: the solver divided by 0")
	}
	return frac{num: a.below(), den: a.num}
}

func (a frac) cmp(b frac) int {
	if a.big == nil && b.big == nil {
		if a.below() == b.below() {
			return cmp.Compare(a.num, b.num)
		}
		left, okLeft := times(a.num, b.below())
		right, okRight := times(b.num, a.below())
		if okLeft && okRight {
			return cmp.Compare(left, right)
		}
	}
	return a.rat().Cmp(b.rat())
}

// times multiplies, and reports whether the product fits.
func times(a, b int64) (int64, bool) {
	high, low := bits.Mul64(magnitude(a), magnitude(b))
	if high != 0 || low > math.MaxInt64 {
		return 0, false
	}
	if (a < 0) != (b < 0) {
		return -int64(low), true
	}
	return int64(low), true
}

func magnitude(a int64) uint64 {
	if a < 0 {
		return uint64(-a)
	}
	return uint64(a)
}

func gcd(a, b uint64) uint64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func mulSmall(a, b frac) (frac, bool) {
	an, ad, bn, bd := a.num, a.below(), b.num, b.below()
	if an == 0 || bn == 0 {
		return frac{}, true
	}
	if bd > 1 {
		g := int64(gcd(magnitude(an), uint64(bd)))
		an, bd = an/g, bd/g
	}
	if ad > 1 {
		g := int64(gcd(magnitude(bn), uint64(ad)))
		bn, ad = bn/g, ad/g
	}
	n, okN := times(an, bn)
	d, okD := times(ad, bd)
	return frac{num: n, den: d}, okN && okD
}

func addSmall(a, b frac) (frac, bool) {
	ad, bd := a.below(), b.below()
	if ad != bd {
		g := int64(gcd(uint64(ad), uint64(bd)))
		left, okLeft := times(a.num, bd/g)
		right, okRight := times(b.num, ad/g)
		below, okBelow := times(ad, bd/g)
		if !okLeft || !okRight || !okBelow {
			return frac{}, false
		}
		return reduced(left, right, below)
	}
	return reduced(a.num, b.num, ad)
}

// reduced is (left + right) ÷ below in lowest terms.
func reduced(left, right, below int64) (frac, bool) {
	n := left + right
	if (n > left) != (right > 0) && right != 0 || n == math.MinInt64 {
		return frac{}, false
	}
	if n == 0 {
		return frac{}, true
	}
	g := int64(gcd(magnitude(n), uint64(below)))
	return frac{num: n / g, den: below / g}, true
}
