package credit_test

import (
	"testing"

	"evidencevault/credit"
)

func TestAmountPrintsExactly(t *testing.T) {
	tests := []struct{ name, why, give, want string }{
		{"decimal", "a finite decimal prints as one", "7.20", "7.2"},
		{"fraction", "thirds have no finite decimal", "62/6", "31/3"},
		{"whole", "no trailing point", "18", "18"},
		{"small", "15 minutes at 0.1 an hour", "1/40", "0.025"},
		{"negative", "money paid back", "-84.50", "-84.5"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a, err := credit.ParseAmount(tt.give)
			if err != nil || a.String() != tt.want {
				t.Fatalf("%s: %q gave %q, %v, want %q", tt.why, tt.give, a, err, tt.want)
			}
		})
	}
	for _, bad := range []string{"", "1e400", "NaN", "1/0", "+1", ".5", "1.", "0x10", "1_000", "١"} {
		if a, err := credit.ParseAmount(bad); err == nil {
			t.Errorf("%q was taken for %v", bad, a)
		}
	}
}

func TestRounding(t *testing.T) {
	step := credit.Fraction(1, 2)
	for _, tt := range []struct{ give, down, up, nearest string }{
		{"1.75", "1.5", "2", "2"}, {"1.7", "1.5", "2", "1.5"}, {"2", "2", "2", "2"}, {"-0.3", "-0.5", "0", "-0.5"},
	} {
		a := credit.MustAmount(tt.give)
		if d, u, n := a.Down(step), a.Up(step), a.Nearest(step); d.String() != tt.down || u.String() != tt.up || n.String() != tt.nearest {
			t.Errorf("%s to 1/2: down %v, up %v, nearest %v", tt.give, d, u, n)
		}
	}
}

func TestDateAcrossShortMonths(t *testing.T) {
	for _, tt := range []struct {
		from   string
		months int
		want   string
	}{
		{"2024-01-31", 1, "2024-02-29"}, {"2023-01-31", 1, "2023-02-28"}, {"2024-02-29", 12, "2025-02-28"},
		{"2026-12-31", 2, "2027-02-28"}, {"2026-03-31", -1, "2026-02-28"},
	} {
		if got := credit.MustDate(tt.from).AddMonths(tt.months); got.String() != tt.want {
			t.Errorf("%s + %d months = %v, want %s", tt.from, tt.months, got, tt.want)
		}
	}
	if _, err := credit.ParseDate("2026-02-30"); err == nil {
		t.Error("30 February was taken for a day")
	}
	if d := credit.MustDate("9999-12-31"); d.String() != "9999-12-31" || d.Sub(credit.MustDate("0001-01-01")) != 3652058 {
		t.Errorf("the far end of the calendar is off: %v", d)
	}
}
