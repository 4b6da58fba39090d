package find

import (
	"slices"
	"strings"

	"evidencevault/internal/memo"
)

// longestKept is the longest text of which it is remembered what stands in it, in bytes. Lines are
// asked about again and again while a paper is read, whole pages hardly ever.
const longestKept = 1024

// asked is a text and the languages it may be in.
type asked struct{ text, langs string }

// again returns what a finder finds in a text, as a copy of what it found there before if that is kept.
func again[A any](kept *memo.Memo[asked, []A], text string, l Languages, finds func(string, Languages) []A) []A {
	if len(text) > longestKept {
		return finds(text, l)
	}
	langs := make([]string, len(l))
	for i := range l {
		langs[i] = string(l[i])
	}
	return slices.Clone(kept.Of(asked{text, strings.Join(langs, " ")}, func(asked) []A { return finds(text, l) }))
}

// without makes a finder that asks for no languages one that does.
func without[A any](finds func(string) []A) func(string, Languages) []A {
	return func(text string, _ Languages) []A { return finds(text) }
}

var (
	keptDates  memo.Memo[asked, []Date]
	keptRanges memo.Memo[asked, []Range]
	keptBodies memo.Memo[asked, []Organisation]
	keptPhones memo.Memo[asked, []Phone]
	keptCuts   memo.Memo[string, *tokens]
)
