package page

import (
	"slices"
	"unicode"
	"unicode/utf8"
)

// On a page that is not quite flat the recogniser may cut a word in two, and give its ends to
// different columns: "Ev" and "ening" then stand far apart in the text, and each of them looks
// like a whole word. Between two words there is more white than between their letters.

// continuedBy says whether b is the rest of the word that a begins: letters right behind letters,
// at the same height, with less white between them than any space has. Where both were recognised
// in one line, the recogniser saw the space: slanted letters reach over it.
func (a Word) continuedBy(b Word) bool {
	high := max(a.Box[3]-a.Box[1], b.Box[3]-b.Box[1])
	gap := b.Box[0] - a.Box[2]
	if a.line == b.line && a.line != 0 || gap < -high/5 || 5*gap > high || b.Box[2] <= a.Box[2] {
		return false
	}
	both := min(a.Box[3], b.Box[3]) - max(a.Box[1], b.Box[1])
	if 2*both < min(a.Box[3]-a.Box[1], b.Box[3]-b.Box[1]) {
		return false
	}
	last, _ := utf8.DecodeLastRuneInString(a.Text)
	first, _ := utf8.DecodeRuneInString(b.Text)
	return unicode.IsLetter(last) && unicode.IsLower(first) && utf8.RuneCountInString(a.Text) > 1
}

// pieces returns the words that are parts of another: index of the first part to that of the rest.
func pieces(words []Word) map[int]int {
	out := map[int]int{}
	for i, a := range words {
		for k, b := range words {
			if i != k && a.continuedBy(b) {
				out[i] = k
				break
			}
		}
	}
	return out
}

// rejoined makes one word of each two that are pieces of one. How it reads is not sure.
func rejoined(words []Word) []Word {
	to := pieces(words)
	gone := map[int]bool{}
	out := slices.Clone(words)
	for i := len(words) - 1; i >= 0; i-- { // a word of three pieces is joined from its end
		k, ok := to[i]
		if !ok || gone[k] {
			continue
		}
		a, b := &out[i], out[k]
		a.Text += b.Text
		a.Box = [4]int{min(a.Box[0], b.Box[0]), min(a.Box[1], b.Box[1]), max(a.Box[2], b.Box[2]), max(a.Box[3], b.Box[3])}
		a.Confidence = min(a.Confidence, b.Confidence, contradicted)
		gone[k] = true
	}
	kept := out[:0]
	for i, w := range out {
		if !gone[i] {
			kept = append(kept, w)
		}
	}
	return kept
}

// withWhole puts words of a second reading in the place of the pieces that the first made of them.
func withWhole(first, second []Word) []Word {
	all := slices.Clone(first)
	for i, k := range pieces(first) {
		a, b := first[i], first[k]
		n := slices.IndexFunc(second, func(w Word) bool {
			return w.Confidence >= missedSure && w.holdsMiddle(a) && w.holdsMiddle(b)
		})
		if n < 0 {
			continue
		}
		all = slices.DeleteFunc(all, func(w Word) bool { return second[n].holdsMiddle(w) })
		all = append(all, second[n])
	}
	return all
}
