package extract

import (
	_ "embed"
	"strings"
	"sync"
)

//go:embed weights/concepts.txt
var conceptsText string

// A stem is the begin of a word, or of a part of it, that tells what words are about in
// whatever language they say it.
type stem struct {
	text   string
	within bool // it may begin within a word
	ends   bool // the word ends with it
}

// A lexicon is the concepts, and their stems by their first byte: a text is gone through once.
type lexicon struct {
	names []string
	stems [256][]conceptStem
}

var concepts = sync.OnceValue(func() *lexicon { return readConcepts(conceptsText) })

// conceptStem is a stem with the place of its concept in the names.
type conceptStem struct {
	stem
	concept int
}

func readConcepts(text string) *lexicon {
	var out lexicon
	for line := range strings.SplitSeq(strings.TrimSpace(text), "\n") {
		name, list, parted := strings.Cut(line, "\t")
		if !parted {
			continue // a remark
		}
		for one := range strings.SplitSeq(list, "|") {
			var s stem
			one, s.within = strings.CutPrefix(one, "-")
			s.text, s.ends = strings.CutSuffix(one, "$")
			out.stems[s.text[0]] = append(out.stems[s.text[0]], conceptStem{s, len(out.names)})
		}
		out.names = append(out.names, name)
	}
	return &out
}

// conceptsIn counts how often each concept is spoken of in folded text, in the order of
// their names.
func conceptsIn(low string) []int {
	known := concepts()
	out := make([]int, len(known.names))
	for i := range len(low) {
		begins := i == 0 || !wordByte(low[i-1])
		for _, s := range known.stems[low[i]] {
			if !begins && !s.within || !strings.HasPrefix(low[i:], s.text) {
				continue
			}
			if to := i + len(s.text); s.ends && to < len(low) && wordByte(low[to]) {
				continue
			}
			out[s.concept]++
		}
	}
	return out
}

func wordByte(b byte) bool { return b >= 'a' && b <= 'z' || b >= '0' && b <= '9' || b >= 0x80 }
