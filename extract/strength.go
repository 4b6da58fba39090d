package extract

import (
	"regexp"
	"strings"

	"evidencevault/extract/paper"
)

// leastScore is the score from which a value may be certain, where a field has one of
// its own: chosen on papers on which nothing was tuned, see docs/reading.md.
var leastScore = map[paper.Field]int{
	paper.FieldTitle:    750,
	paper.FieldProvider: 650,
	paper.FieldAttendee: 700,
	paper.FieldKind:     400,
}

// misread are letters that recognition makes of others: "fiir" for "für".
var misread = regexp.MustCompile(`(?i)ii|[a-z][0-9][a-z]`)

// cutOff reports a text that ends with a small word, so that more belongs to it, or that
// recognition seems to have misread; the holder's own name is not doubted.
func (l *look) cutOff(g guess) bool {
	if runsOn(g.text) && strings.Contains(g.text, " ") {
		return true
	}
	_, confidence, _ := l.place(g.at)
	return confidence < 100 && misread.MatchString(g.text) && !(l.hints.Holder != "" && samePerson(l.hints.Holder, g.text))
}

// strength is the score of a value, 0 to 1000: ten times what speaks for it, less where
// another comes near it, and less where recognition of its letters was not sure.
func (l *look) strength(top guess, others []guess) int {
	score := 10 * min(top.score, 100)
	for _, g := range others {
		if b := bare(g.text); strings.Contains(bare(top.text), b) || strings.Contains(b, bare(top.text)) {
			continue
		}
		if near := 20 - (top.score - g.score); near > 0 {
			score -= 10 * near
		}
		break
	}
	if _, confidence, _ := l.place(top.at); confidence < 100 {
		score -= 5 * (100 - confidence)
	}
	return max(score, 1)
}
