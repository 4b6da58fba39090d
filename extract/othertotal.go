package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// A paper may give the whole time twice, and not the same: in its sentence and as the sum of its
// programme, in its head and as what was attended. Where the second stands in a form that is no
// length by itself it is looked for here, and it is asked which of them holds.

// otherTotals returns whole times that disagree with the one that was taken, besides the rivals.
func (l *look) otherTotals(top timed, rivals []guess) []guess {
	if top.level == 5 || l.kind == paper.Transcript {
		return nil
	}
	found := l.attendedHours()
	if len(l.series) == 0 {
		found = append(found, l.columnSums()...)
	}
	var out []guess
	for _, g := range found {
		if g.text != top.text && !slices.ContainsFunc(append(slices.Clone(rivals), out...), func(o guess) bool { return o.text == g.text }) {
			out = append(out, g)
		}
	}
	return out
}

// attendedHours returns times that a sentence says somebody attended, in a form that may be an
// hour of the day: "asistió a las 14 horas que comprende el curso".
func (l *look) attendedHours() []guess {
	var out []guess
	for i, text := range l.folded {
		m := attendedHours.FindStringSubmatch(text)
		if m == nil {
			continue
		}
		if n, ok := wholeMinutes(amount(strings.ReplaceAll(m[1], ",", ".")).Mul(credit.Whole(60))); ok && n > 0 {
			out = append(out, guess{text: minutesText(n), at: l.passageAt(i), score: 70, why: "it is said to be the time attended"})
		}
	}
	return out
}

var attendedHours = matching(`\b(?:asisti\w+|ha asistido|a assiste|a participe|attended|teilgenommen an|bijgewoond)(?: a| aan| an| aux)?(?: las| les| the| all| de| den)? (\d{1,3}(?:[.,]\d)?) (?:horas|heures|hours|stunden|uren)\b(?: que| qui| of| that| die| lectivas| comprised| du | del )`)

// columnSums returns the sum of each column of plain figures under a head that says hours, where
// it is no table of sessions: its last figure where that is the sum of the others.
func (l *look) columnSums() []guess {
	var out []guess
	for i, c := range l.cells {
		head := fold(c.text)
		if !l.boxed || !hourLabel.MatchString(head) || hasFigure(head) || len(strings.Fields(head)) > 2 {
			continue
		}
		n, last := credit.Whole(0), i
		count := 0
		for k, o := range l.cells {
			m := bareNumber.FindStringSubmatch(o.text)
			if m == nil || o.page != c.page || o.box[1] < c.box[3] || o.clearOf(&c) {
				continue
			}
			v := amount(m[1])
			if count > 1 && v.Equal(n) {
				last = k
				break
			}
			n, last, count = n.Add(v), k, count+1
		}
		if m, ok := wholeMinutes(n.Mul(credit.Whole(60))); ok && count > 1 && m > 0 {
			out = append(out, guess{text: minutesText(m), at: l.whole(last), score: 70, why: "it is the sum of the column"})
		}
	}
	return out
}

// unitLost reports that a word for the whole time stands before a figure with which its line
// ends: what the figure counts was lost where columns were read as one.
func (l *look) unitLost() bool {
	return slices.ContainsFunc(l.folded, unitGone.MatchString)
}

var unitGone = matching(`\b(?:duration|length|dauer|umfang|duree|volume horaire|duracion|intensidad horaria|duur|omvang)(?: total(?:e|es)?| horaire)? (?:of|von|de|van) (?:a total of )?\d{1,3}\W*$`)

// ofWhichPrepared says of a time how much of it was preparation.
var ofWhichPrepared = matching(`^[^.;:]{0,40}\b(?:of which|of these|davon|dont|de las (?:que|cuales)|de ellas|waarvan|daarvan) (\d{1,2}|\p{L}+)(?: (?:hours?|h|stunden|std\.?|heures?|horas?|uur))?(?: (?:were|was|wurden|entfielen auf|for|of|de|para|pour|voor|fur|auf|zur|en concepto de))*(?: (?:the|die|la))? (?:prepar\w+|vorbereitung\w*|voorbereiding\w*|travel\w*|reis\w*|trajet\w*|viaje\w*|desplazamiento\w*)`)
