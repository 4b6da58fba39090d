package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/page"
)

// hourHead is the head of a column of hours.
var hourHead = matching(`^(?:(?:contact|total|net|course) )?(?:hours?|hrs\.?|hs\.?|h\.?|std\.?|stunden|zeitstunden|heures|nb\.? d'heures|horas|n\.?[º°o] (?:de )?horas|uren|contacturen|aantal uren)(?: \(?(?:h|net|netto|nettes?|netas?)\)?)?$`)

// hourColumn returns the time that a column of plain figures under a head for hours comes to, or
// the sum that stands beneath it, where no rows were made of the list.
func (l *look) hourColumn() (timed, bool) {
	for ci := range l.cells {
		h := &l.cells[ci]
		if len(l.rows[h.row]) < 2 || !hourHead.MatchString(fold(h.text)) || strings.HasSuffix(h.text, ":") {
			continue
		}
		c := creditColumn{cells: l.numbersBelow(ci)}
		if !c.settle() {
			continue
		}
		n, ok := wholeMinutes(c.sum.Mul(credit.Whole(60)))
		if !ok || n <= 0 {
			continue
		}
		t := timed{minutes: n, level: 3}
		t.guess = guess{text: minutesText(n), at: c.cells[0].at, score: 70, why: "the rows add up to it", sure: !c.open && l.everyDay([]creditColumn{c})}
		if c.total > 0 {
			t.level, t.at, t.score, t.why, t.sure = 5, c.cells[c.total].at, 85, "the rows add up to the sum that is stated", true
		}
		return t, true
	}
	return timed{}, false
}

// lessonsDefined gives lessons without a length the one that the paper gives others: "18 UE of 45
// minutes. Attended: 15 UE".
func (l *look) lessonsDefined() {
	var each credit.Minutes
	for _, h := range l.lengths {
		if h.length.Unit == find.Lesson && h.length.Each > 0 {
			if each > 0 && each != h.length.Each {
				return
			}
			each = h.length.Each
		}
	}
	for i := range l.lengths {
		d := &l.lengths[i].length
		if each == 0 || d.Unit != find.Lesson || d.Each > 0 || len(d.Candidates) == 0 {
			continue
		}
		if m, ok := wholeMinutes(d.Count.Mul(credit.Whole(int64(each)))); ok {
			d.Minutes, d.Candidates = m, nil
		}
	}
}

// bareClock reports that two numbers of four figures are hours of the day and no number of
// registration: a label or the head above says that they are times.
func (l *look) bareClock(a at, c find.Clock) bool {
	if c.PastMidnight || c.From%5 != 0 || c.To%5 != 0 || c.Minutes > 12*60 {
		return false
	}
	if p, ok := l.labelOf(a); ok && (p.role == isTime || timeHead.MatchString(p.label)) {
		return true
	}
	return timeHead.MatchString(strings.Trim(l.rowLabel(a), " :")) || l.boxed && timeHead.MatchString(strings.Trim(l.overColumn(a), " :"))
}

var timeHead = matching(`^(?:times?|hours|zeit(?:en)?|uhrzeit(?:en)?|kurszeit(?:en)?|horaires?|heures?|horarios?|hora|tijd(?:en)?)$`)

// comeTo reports that several of the times that are stated, wherever they stand, come together to
// the one at a place.
func comeTo(list []timed, whole at, minutes credit.Minutes) bool {
	var sum credit.Minutes
	n := 0
	for _, t := range list {
		if t.at != whole && t.level == 4 && len(t.open) == 0 {
			sum, n = sum+t.minutes, n+1
		}
	}
	return n > 1 && sum == minutes
}

// halfLost is a number of hours on a picture of which the half was read as another sign.
var halfLost = matching(`^\d{1,2}[!%]$`)

// halved puts back the half of a number that recognition took for a sign, where hours stand behind.
func halved(text, next string) string {
	if !halfLost.MatchString(text) || !hoursNext.MatchString(fold(next)) {
		return text
	}
	return text[:len(text)-1] + "½"
}

// nextWord is the text of the word behind the i-th; "" behind the last.
func nextWord(words []page.Word, i int) string {
	if i+1 >= len(words) {
		return ""
	}
	return strings.TrimSpace(words[i+1].Text)
}

var hoursNext = matching(`^(?:hours?|hrs|stunden|std|heures|horas|uur|uren)\W?$`)

// wholeColumn takes the sum of a column of hours for the time of a list of which the rows give none.
func (l *look) wholeColumn(list []timed, sum credit.Minutes) []timed {
	if sum > 0 || slices.ContainsFunc(list, func(t timed) bool { return t.level == 5 }) {
		return list
	}
	if t, ok := l.hourColumn(); ok {
		return append([]timed{t}, slices.DeleteFunc(list, func(o timed) bool { return o.level < 5 })...)
	}
	return list
}
