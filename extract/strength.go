package extract

import (
	"strings"

	"evidencevault/extract/paper"
)

// leastScore is the score from which a value may be certain, where a field has one of
// its own: chosen on papers on which nothing was tuned, see docs/reading.md.
var leastScore = map[paper.Field]int{
	paper.FieldTitle:    660,
	paper.FieldProvider: 600,
	paper.FieldAttendee: 650,
	paper.FieldKind:     400,
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
