package credit

import (
	"errors"
	"fmt"
	"math/big"
	"regexp"
	"strings"
)

// ErrAmount says that a text is no exact number.
var ErrAmount = errors.New("not an exact number")

// Amount is a number of credits, held as an exact fraction. The zero Amount is
// 0 credits. An Amount never changes, so it may be copied and shared.
type Amount struct {
	rat *big.Rat // nil means 0
}

var amountText = regexp.MustCompile(`^-?[0-9]{1,40}(\.[0-9]{1,40}|/[0-9]{1,40})?$`)

// ParseAmount reads a decimal ("7.2") or a fraction ("31/3"). There is no
// exponent, no sign but a leading minus, and at most 40 digits on each side, so
// that no text can ask for a number that does not fit in memory. The error wraps
// [ErrAmount].
func ParseAmount(text string) (Amount, error) {
	if !amountText.MatchString(text) {
		return Amount{}, fmt.Errorf("amount %q: %w: want a decimal such as 7.2 or a fraction such as 31/3", text, ErrAmount)
	}
	r, ok := new(big.Rat).SetString(text)
	if !ok {
		return Amount{}, fmt.Errorf("amount %q: %w: the part below the line is 0", text, ErrAmount)
	}
	return Amount{r}, nil
}

// MustAmount is [ParseAmount] for amounts written in code; it panics on an error.
func MustAmount(text string) Amount {
	a, err := ParseAmount(text)
	if err != nil {
		panic(err)
	}
	return a
}

// Fraction returns num/den. It panics if den is 0.
func Fraction(num, den int64) Amount { return Amount{big.NewRat(num, den)} }

// Whole returns n as an Amount.
func Whole(n int64) Amount { return Fraction(n, 1) }

// FromRat returns r as an Amount; r is copied.
func FromRat(r *big.Rat) Amount { return Amount{new(big.Rat).Set(r)} }

// Rat returns a copy of a's fraction.
func (a Amount) Rat() *big.Rat { return new(big.Rat).Set(a.value()) }

var zero = new(big.Rat)

func (a Amount) value() *big.Rat {
	if a.rat == nil {
		return zero
	}
	return a.rat
}

// Add returns a + b.
func (a Amount) Add(b Amount) Amount { return Amount{new(big.Rat).Add(a.value(), b.value())} }

// Sub returns a − b.
func (a Amount) Sub(b Amount) Amount { return Amount{new(big.Rat).Sub(a.value(), b.value())} }

// Mul returns a × b.
func (a Amount) Mul(b Amount) Amount { return Amount{new(big.Rat).Mul(a.value(), b.value())} }

// Div returns a ÷ b. It panics if b is 0.
func (a Amount) Div(b Amount) Amount { return Amount{new(big.Rat).Quo(a.value(), b.value())} }

// Cmp returns −1, 0 or 1 as a is below, equal to or above b.
func (a Amount) Cmp(b Amount) int { return a.value().Cmp(b.value()) }

// Equal reports whether a and b are the same number.
func (a Amount) Equal(b Amount) bool { return a.Cmp(b) == 0 }

// AtMost reports whether a ≤ b.
func (a Amount) AtMost(b Amount) bool { return a.Cmp(b) <= 0 }

// Sign returns −1, 0 or 1 as a is below, equal to or above 0.
func (a Amount) Sign() int { return a.value().Sign() }

// Min returns the smaller of a and b.
func (a Amount) Min(b Amount) Amount {
	if b.Cmp(a) < 0 {
		return b
	}
	return a
}

// Max returns the larger of a and b.
func (a Amount) Max(b Amount) Amount {
	if b.Cmp(a) > 0 {
		return b
	}
	return a
}

// Down returns the largest multiple of step that is not above a. It panics if
// step is not above 0.
func (a Amount) Down(step Amount) Amount {
	if step.Sign() <= 0 {
		panic("credit: a step must be above 0")
	}
	q := new(big.Rat).Quo(a.value(), step.value())
	n := new(big.Int).Div(q.Num(), q.Denom()) // Euclidean: floor, since Denom > 0
	return Amount{new(big.Rat).Mul(new(big.Rat).SetInt(n), step.value())}
}

// Up returns the smallest multiple of step that is not below a.
func (a Amount) Up(step Amount) Amount {
	return Amount{}.Sub(Amount{}.Sub(a).Down(step))
}

// Nearest returns the multiple of step nearest to a; halves go up.
func (a Amount) Nearest(step Amount) Amount {
	return a.Add(step.Div(Whole(2))).Down(step)
}

// String prints the finite decimal where there is one ("7.2"), else the reduced
// fraction ("31/3").
func (a Amount) String() string {
	r := a.value()
	if r.IsInt() {
		return r.Num().String()
	}
	n, exact := r.FloatPrec()
	if !exact {
		return r.String()
	}
	return strings.TrimRight(r.FloatString(n), "0")
}

// MarshalText prints a as [Amount.String] does, so that JSON shows a string.
func (a Amount) MarshalText() ([]byte, error) { return []byte(a.String()), nil }

// UnmarshalText reads what [ParseAmount] reads.
func (a *Amount) UnmarshalText(text []byte) error {
	got, err := ParseAmount(string(text))
	if err != nil {
		return err
	}
	*a = got
	return nil
}
