package credit_test

import (
	"testing"

	"evidencevault/credit"
)

func TestUnitsGoWithTheFigure(t *testing.T) {
	tests := []struct{ amount, unit, want, why string }{
		{"1", "point", "1 point", "one alone is singular"},
		{"2", "point", "2 points", "more are plural"},
		{"0", "point", "0 points", "none is plural"},
		{"1/2", "point", "0.5 points", "a decimal is read as a plural"},
		{"31/3", "contact hour", "31/3 contact hours", "the last word carries the plural"},
		{"12", "CEU", "12 CEU", "an abbreviation stays"},
		{"12", "PDUs", "12 PDUs", "the scheme wrote the plural"},
		{"3", "CPD point", "3 CPD points", "only the last word decides"},
		{"2", "activity", "2 activities", "y after a consonant"},
		{"2", "day", "2 days", "y after a vowel"},
		{"2", "Punkt", "2 Punkt", "a name, whose plural is not known"},
		{"2", "h", "2 h", "a sign, not a word"},
		{"2", "", "2", "no unit"},
	}
	for _, tt := range tests {
		if got := credit.Quantity(credit.MustAmount(tt.amount), tt.unit); got != tt.want {
			t.Errorf("%s %q: %q, want %q (%s)", tt.amount, tt.unit, got, tt.want, tt.why)
		}
	}
}
