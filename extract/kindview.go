package extract

import (
	_ "embed"
	"math"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"

	"evidencevault/extract/paper"
)

//go:embed weights/kind.txt
var kindWeightsText string

var kindWeights = sync.OnceValue(func() map[string]float64 { return readWeights("weights/kind.txt", kindWeightsText) })

// wordsAsWhole is the reason for a kind that no sign gives.
const wordsAsWhole = "its words as a whole are those of such papers"

// Shares of 100 from which a kind may be certain and from which it is another one that the
// paper may be, and what a sign of 100 adds to the log-odds of a kind: chosen so that both
// together are right most often where neither knows the paper (docs/reading.md).
const (
	leastKindShare  = 80
	agreedKindShare = 40 // where two signs agree as well
	unrivalledShare = 5  // where nothing else has a sign
	rivalKindShare  = 15
	kindSignWeight  = 4.0
	mostKindSign    = 160
	leastKindSign   = -50
	proposedSign    = 35 // of a kind that only the words as a whole give
	longishLetters  = 1800
	longLetters     = 3500
	shortLetters    = 500
	headingLetters  = 120
	firstLineLetter = 100
)

// paperTraits are what a paper speaks of, where on the page it does, and what it holds:
// by them its kind is weighed.
func (l *look) paperTraits() []string {
	var out []string
	all, head, label := conceptsIn(l.all), conceptsIn(l.headText()), conceptsIn(l.labelWords())
	for k, name := range concepts().names {
		if all[k] > 0 {
			out = append(out, name)
		}
		if all[k] > 2 {
			out = append(out, "often "+name)
		}
		if head[k] > 0 {
			out = append(out, name+" at the head")
		}
		if label[k] > 0 {
			out = append(out, name+" as a label")
		}
	}
	for _, p := range l.pairs {
		if t := "label of " + string(p.role); p.role != noRole && !slices.Contains(out, t) {
			out = append(out, t)
		}
	}
	return append(out, l.holdings()...)
}

// holdings are how many days, sums and so on a paper has, and what sort of file it is.
func (l *look) holdings() []string {
	n := utf8.RuneCountInString(l.all)
	out := []string{"paper", "file of type " + l.doc.Type}
	for _, t := range []struct {
		name string
		has  bool
	}{
		{"a sum", len(l.sums) > 0}, {"many sums", len(l.sums) > 2},
		{"no day", len(l.days) == 0}, {"one day", len(l.days) == 1}, {"several days", len(l.days) > 2}, {"many days", len(l.days) > 5},
		{"clock times", len(l.clocks) > 0}, {"a length", len(l.lengths) > 0}, {"many lengths", len(l.lengths) > 2},
		{"rows with a day each", len(l.series) > 1}, {"rows of different things", len(l.series) > 1 && l.differentThings() && !l.sittings()},
		{"credits", len(l.credits) > 0}, {"many credits", len(l.credits) > 2}, {"percent", strings.Contains(l.all, "%")},
		{"short", n < shortLetters}, {"longish", n > longishLetters}, {"long", n > longLetters},
	} {
		if t.has {
			out = append(out, t.name)
		}
	}
	return out
}

// headText is what is set larger than the rest, and the first lines, folded.
func (l *look) headText() string {
	size := l.bodySize()
	var out []string
	for i, p := range l.passages {
		large := l.boxed && l.cells[p.cells[0]].size*100 > size*115 && len(p.text) < headingLetters
		if (large || i < 4 && len(p.text) < firstLineLetter) && len(out) < 12 {
			out = append(out, l.folded[i])
		}
	}
	return strings.Join(out, "\n")
}

func (l *look) labelWords() string {
	var out []string
	for _, p := range l.pairs {
		out = append(out, fold(p.label))
	}
	return strings.Join(out, "\n")
}

// kindShares returns how far the traits of the paper speak for each kind, of 100 together.
func (l *look) kindShares() map[paper.Kind]int {
	l.seen = l.paperTraits()
	sum := 0.0
	odds := map[paper.Kind]float64{}
	for _, k := range paper.Kinds() {
		odds[k] = math.Exp(weighTraits(kindWeights(), "", prefixed(string(k), l.seen)))
		sum += odds[k]
	}
	out := map[paper.Kind]int{}
	for k, o := range odds {
		out[k] = int(100*o/sum + 0.5)
	}
	return out
}

// prefixed names traits as those of something that a paper, or a day of it, may be.
func prefixed(what string, seen []string) []string {
	out := make([]string, len(seen))
	for i, s := range seen {
		out[i] = what + "|" + s
	}
	return out
}

// near reports a kind that the paper may be of as well as the top one.
func (t tallied) near(top tallied) bool {
	return t.share >= rivalKindShare || t.score > 0 && (t.score >= top.score-14 || top.score < 40 && t.score >= 20)
}

// twoSigns reports that signs that do not depend on each other speak for the kind at the head
// of the list, and none for another.
func (l *look) twoSigns(list []tallied) bool {
	return agreed(list) && list[0].score >= 40 && !slices.ContainsFunc(list[1:], func(t tallied) bool {
		return t.kind != list[0].kind && t.score > 0 && t.score >= list[0].score-14
	})
}

// unrivalled reports that several signs say one kind with all the weight they can have, at
// least two of them in words, and hardly anything says another.
func unrivalled(list []tallied) bool {
	top := list[0]
	return top.score >= 100 && len(top.words) > 1 && top.kind != paper.NotEvidence && !slices.ContainsFunc(list[1:], func(t tallied) bool { return t.kind != top.kind && t.score > 12 })
}

// viewKinds holds what signs say of the kind against the words of the paper as a whole, and
// puts first what both together have most to say for. It reports whether both say the same,
// so that it may be certain.
func (l *look) viewKinds(list []tallied) ([]tallied, bool) {
	if l.doc.Type == "ics" {
		return list, true
	}
	shares := l.kindShares()
	if list[0].kind == paper.NotEvidence && (len(l.days) == 0 || carries(l.doc)) {
		return list, true // a paper without a day, or a message that only brings one, needs a sign to prove anything
	}
	if list[0].kind == l.answered && !slices.ContainsFunc(list[1:], func(t tallied) bool { return t.score >= list[0].score-14 }) {
		return list, true
	}
	together := func(t tallied) float64 {
		return math.Log(math.Max(float64(shares[t.kind]), 0.5)/100) + kindSignWeight*float64(min(max(t.score, leastKindSign), mostKindSign))/100
	}
	first := slices.MaxFunc(list, func(a, b tallied) int { return int(math.Copysign(1, together(a)-together(b))) })
	same := first.kind == list[0].kind && !l.taughtAsWell(list) && (shares[first.kind] >= leastKindShare || l.twoSigns(list) && shares[first.kind] >= agreedKindShare || unrivalled(list) && shares[first.kind] >= unrivalledShare)
	for k := range list {
		list[k].share = shares[list[k].kind]
	}
	if first.kind == list[0].kind {
		return list, same
	}
	if first.kind == paper.NotEvidence && provesHead.MatchString(l.headings()) {
		return list, false // what is headed as a proof is not set aside by the rest of its words
	}
	first.share = shares[first.kind]
	first.score = max(first.score, proposedSign)
	if first.because == "" {
		first.because = wordsAsWhole
	}
	return append([]tallied{first}, slices.DeleteFunc(list, func(t tallied) bool { return t.kind == first.kind })...), false
}
