package journal

import (
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"
)

// titles are what stands before or after a name and is no part of it. Words that are
// also names are left out.
var titles = []string{
	"dr", "prof", "professor", "mr", "mrs", "ms", "miss", "mx", "herr", "frau", "sir", "dame", "m", "mme", "mlle",
	"monsieur", "madame", "sr", "sra", "don", "dona", "dhr", "mevr", "mw", "ing", "ir", "dipl", "phd", "msc", "bsc",
	"ma", "ba", "md", "rn", "pe", "ceng", "ir", "drs", "mag", "jr",
}

// namesOne reports whether the name that a paper gives can be one of names: its
// words, without titles and degrees and in any order, all belong to one of them, an
// initial standing for a word, and at least one word is whole.
func namesOne(given string, names []string) bool {
	words := nameWords(given)
	for _, name := range names {
		if covers(nameWords(name), words) {
			return true
		}
	}
	return false
}

func covers(name, given []string) bool {
	left := slices.Clone(name)
	whole := 0
	for _, w := range given {
		i := slices.Index(left, w)
		if i >= 0 {
			whole++
		} else if i = slices.IndexFunc(left, func(n string) bool { return isInitial(w, n) }); i < 0 {
			return false
		}
		left = slices.Delete(left, i, i+1)
	}
	return whole > 0
}

func isInitial(w, name string) bool {
	return len([]rune(w)) == 1 && strings.HasPrefix(name, w)
}

func nameWords(name string) []string {
	var words []string
	for w := range strings.FieldsSeq(plain(norm.NFKC.String(name))) {
		if len(w) < 2 || !slices.Contains(titles, w) {
			words = append(words, w)
		}
	}
	return words
}
