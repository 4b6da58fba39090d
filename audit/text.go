package audit

import (
	"strconv"
	"strings"
	"unicode"

	"golang.org/x/text/runes"
	"golang.org/x/text/transform"
	"golang.org/x/text/unicode/norm"
)

// fold takes accents off letters, so that a name survives in plain ASCII.
func fold(s string) string {
	t := transform.Chain(norm.NFKD, runes.Remove(runes.In(unicode.Mn)), norm.NFC)
	out, _, err := transform.String(t, s)
	if err != nil {
		return s // what cannot be folded is left to slug, which drops it
	}
	return out
}

// plainText is s without accents, case, punctuation and doubled blanks.
func plainText(s string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(fold(s)), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}), " ")
}

// lettersApart counts the letters to be put in, taken out or exchanged to make b of a
// (the Levenshtein distance).
func lettersApart(a, b string) int {
	x, y := []rune(a), []rune(b)
	row := make([]int, len(y)+1)
	for j := range row {
		row[j] = j
	}
	for i, p := range x {
		before := row[0]
		row[0] = i + 1
		for j, q := range y {
			step := before
			if p != q {
				step++
			}
			before = row[j+1]
			row[j+1] = min(step, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(y)]
}

// count prints n with the word that goes with it.
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
