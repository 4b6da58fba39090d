package credit

import "strings"

// Units returns the word for a amount of unit as it goes with the figure: 1 point,
// 2 points, 0.5 points, 3 CPD points, 2 activities. A unit whose last word is an
// abbreviation or begins with a capital letter stays as it is: 12 CEU. The empty unit
// stays empty.
func Units(a Amount, unit string) string {
	last := unit[strings.LastIndexByte(unit, ' ')+1:]
	if len(last) < 2 || a.Equal(Whole(1)) || strings.HasSuffix(last, "s") || strings.Trim(last, "abcdefghijklmnopqrstuvwxyz-") != "" {
		return unit
	}
	stem := strings.TrimSuffix(unit, "y")
	if stem != unit && !strings.ContainsAny(stem[len(stem)-1:], "aeiou") {
		return stem + "ies"
	}
	return unit + "s"
}

// Quantity prints a with its unit: "1 point", "7.5 points", "31/3 points".
func Quantity(a Amount, unit string) string {
	return strings.TrimSpace(a.String() + " " + Units(a, unit))
}
