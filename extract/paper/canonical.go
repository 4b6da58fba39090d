package paper

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"evidencevault/credit"
)

// ErrValue says that a text is no value of its field.
var ErrValue = errors.New("not a value of this field")

// Printed is a number of credits as a document prints it, with its unit.
type Printed struct {
	Unit  string        `json:"unit"`
	Value credit.Amount `json:"value"`
}

// Money is a sum with the ISO 4217 code of its currency; negative when paid back.
type Money struct {
	Amount   string `json:"amount"` // as printed, exact: "518.40"
	Currency string `json:"currency"`
}

// FormatCredits prints credits in canonical form: "1.5 CEU; 3 points".
func FormatCredits(list []Printed) string {
	parts := make([]string, len(list))
	for i, p := range list {
		parts[i] = strings.TrimSpace(p.Value.String() + " " + p.Unit)
	}
	return strings.Join(parts, "; ")
}

// ParseCredits reads what [FormatCredits] prints. The error wraps [ErrValue].
func ParseCredits(text string) ([]Printed, error) {
	var list []Printed
	for part := range strings.SplitSeq(text, ";") {
		number, unit, _ := strings.Cut(strings.TrimSpace(part), " ")
		value, err := credit.ParseAmount(number)
		if err != nil {
			return nil, fmt.Errorf("credits %q: %w: want a number and a unit, as in \"1.5 CEU; 3 points\"", text, ErrValue)
		}
		list = append(list, Printed{Unit: strings.TrimSpace(unit), Value: value})
	}
	return list, nil
}

var moneyText = regexp.MustCompile(`^(-?[0-9]{1,15}(?:\.[0-9]{1,4})?) ([A-Z]{3})$`)

// String prints m in canonical form: "518.40 GBP".
func (m Money) String() string { return m.Amount + " " + m.Currency }

// ParseMoney reads what [Money.String] prints. The error wraps [ErrValue].
func ParseMoney(text string) (Money, error) {
	got := moneyText.FindStringSubmatch(text)
	if got == nil {
		return Money{}, fmt.Errorf("total %q: %w: want an amount and a currency, as in \"518.40 GBP\"", text, ErrValue)
	}
	return Money{Amount: got[1], Currency: got[2]}, nil
}

// Canonical returns text as the value of f is kept everywhere: a date as
// YYYY-MM-DD, minutes as a whole number, credits as "1.5 CEU; 3 points", a total as
// "518.40 GBP", a kind as one of [Kinds], anything else as it stands, without white
// space around it. The error wraps [ErrValue] or [credit.ErrDate] and says what is wanted.
func Canonical(f Field, text string) (string, error) {
	text = strings.TrimSpace(text)
	switch f {
	case FieldKind:
		if !Kind(text).Known() {
			return "", fmt.Errorf("kind %q: %w: want one of %s", text, ErrValue, joinKinds())
		}
	case FieldStart, FieldEnd, FieldIssue:
		d, err := credit.ParseDate(text)
		if err != nil {
			return "", fmt.Errorf("%s: %w", f, err)
		}
		return d.String(), nil
	case FieldDuration:
		n, err := strconv.ParseUint(text, 10, 31)
		if err != nil {
			return "", fmt.Errorf("duration_minutes %q: %w: want whole minutes, as in 90", text, ErrValue)
		}
		return strconv.FormatUint(n, 10), nil
	case FieldCredits:
		list, err := ParseCredits(text)
		return FormatCredits(list), err
	case FieldTotal:
		m, err := ParseMoney(text)
		if err != nil {
			return "", err
		}
		return m.String(), nil
	}
	return text, nil
}

func joinKinds() string {
	names := make([]string, len(kinds))
	for i, k := range kinds {
		names[i] = string(k)
	}
	return strings.Join(names, ", ")
}
