package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// hourHead is the head of a column of hours.
var hourHead = matching(`^(?:(?:contact|total|net|course) )?(?:hours?|hrs\.?|hs\.?|h\.?|std\.?|stunden|zeitstunden|heures|nb\.? d'heures|horas|n\.?[º°o] (?:de )?horas|uren|contacturen|aantal uren)(?: \(?(?:h|net|netto|nettes?|netas?)\)?)?$`)

// lessonHead is the head of a column of lessons.
var lessonHead = matching(`^(?:(?:anzahl|nombre de|numero de|aantal|no\.? of|number of) )?(?:ue|u\.?e\.?|le|u-?std\.?|unterrichtseinheiten|unterrichtsstunden|lektionen|lehreinheiten|lessons?|teaching (?:units?|hours)|periods?|periodes?|unites|lecons?|lecciones|periodos?|lesuren|lessen)$`)

// lessonSaid is a sentence that says how long a lesson is: "Eine UE dauert bei uns 45 Minuten".
var lessonSaid = matching(`\b(?:eine?|1|one|each|a|an|une?|chaque|una?|cada|een|elke|jede) (?:ue|u\.?e\.?|le|unterrichtseinheit|unterrichtsstunde|lektion|lehreinheit|lesson|teaching (?:unit|hour)|period|periode|unite(?: d'enseignement)?|lecon|leccion|periodo|unidad(?: lectiva)?|lesuur|les)(?: \([^()]{2,40}\))?(?: ?[=≙] ?| (?:dauert|umfasst|entspricht|betragt|hat|lasts?|is|equals|takes|comprises|dure|comprend|vaut|correspond a|dura|equivale a|comprende|duurt|beslaat|telt|is gelijk aan)\b[^.;\d]{0,44})(\d{2}) ?min`)

// lessonMinutes is how long the paper says that a lesson is; 0 where it does not.
func (l *look) lessonMinutes() credit.Minutes {
	for _, text := range l.folded {
		if m := lessonSaid.FindStringSubmatch(text); m != nil {
			return credit.Minutes(numberOf(m[1]))
		}
	}
	return 0
}

// saysLesson reports a length by which a sentence only says how long a lesson is.
func (l *look) saysLesson(h lengthHit) bool {
	return (h.length.Minutes > 0 && h.length.Minutes <= 60 || h.length.Count.Equal(credit.Whole(1))) && lessonSaid.MatchString(l.folded[h.at.passage]) && h.role != isAttended
}

// hourColumn returns the time that a column of plain figures under a head for hours, or for lessons of
// which the length is said, comes to, or the sum that stands beneath it, where no rows were made of the
// list.
func (l *look) hourColumn() (timed, bool) {
	for ci := range l.cells {
		h := &l.cells[ci]
		each, head := credit.Minutes(60), fold(h.text)
		if l.lesson > 0 && lessonHead.MatchString(head) {
			each = l.lesson
		} else if !hourHead.MatchString(head) {
			continue
		}
		if len(l.rows[h.row]) < 2 || strings.HasSuffix(h.text, ":") {
			continue
		}
		if t, ok := l.columnOf(ci, each); ok {
			return t, true
		}
	}
	return timed{}, false
}

// listColumn is the time of a column beneath such a head beside the days of a list of sessions, all of
// which the person was at.
func (l *look) listColumn() (timed, bool) {
	if len(l.series) < 2 || l.kind == paper.Transcript || slices.ContainsFunc(l.series, func(r line) bool { return r.absent || r.minutes > 0 }) {
		return timed{}, false
	}
	t, ok := l.hourColumn()
	t.level = min(t.level, 3)
	return t, ok
}

// columnOf is the time to which the figures beneath the head ci come, of which each stands for so much.
func (l *look) columnOf(ci int, each credit.Minutes) (timed, bool) {
	c := creditColumn{cells: l.numbersBelow(ci)}
	if !c.settle() {
		return timed{}, false
	}
	n, ok := wholeMinutes(c.sum.Mul(credit.Whole(int64(each))))
	if !ok || n <= 0 {
		return timed{}, false
	}
	t := timed{minutes: n, level: 3}
	t.guess = guess{text: minutesText(n), at: c.cells[0].at, score: 70, why: "the rows add up to it", sure: !c.open && l.everyDay([]creditColumn{c})}
	if c.total > 0 {
		t.level, t.at, t.score, t.why, t.sure = 5, c.cells[c.total].at, 85, "the rows add up to the sum that is stated", true
	}
	return t, true
}

// lessonsDefined gives lessons without a length the one that the paper gives others: "18 UE of 45
// minutes. Attended: 15 UE".
func (l *look) lessonsDefined() {
	each := l.lesson
	for _, h := range l.lengths {
		if h.length.Unit == find.Lesson && h.length.Each > 0 {
			if each > 0 && each != h.length.Each {
				return
			}
			each = h.length.Each
		}
	}
	if each > 0 {
		l.sessionsSaid(each)
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

// sessionsSaid adds the time of the lessons that a line sums up, where the paper says how long one is and gives no other
// length for them: "samen 16 lessen".
func (l *look) sessionsSaid(each credit.Minutes) {
	if slices.ContainsFunc(l.lengths, func(h lengthHit) bool { return h.length.Unit == find.Lesson && !h.length.Count.Equal(credit.Whole(1)) }) {
		return
	}
	for i, p := range l.passages {
		if m := lessonsInAll.FindStringSubmatchIndex(p.text); m != nil {
			n := numberOf(fold(p.text[m[2]:m[3]]))
			d := find.Duration{Span: find.Span{From: m[2], To: m[5]}, Unit: find.Lesson, Count: credit.Whole(int64(n)), Each: each, Minutes: each * credit.Minutes(n)}
			l.lengths = append(l.lengths, lengthHit{at: l.passageAt(i).within(m[2], m[5]-m[2]), length: d})
			return
		}
	}
}

// lessonsInAll counts the lessons of all days.
var lessonsInAll = matching(`(?i)(?:^|\s)(?:samen|totaal|in totaal|total|in all|together|altogether|insgesamt|zusammen|gesamt|au total|en total|attended all|alle)\W{1,3}(\d{1,3}|\p{L}{3,9}) (lessen|lessons|les|lektionen|stunden lang|leçons|clases|lecciones)\b`)

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

// nextWords are the two words behind the i-th, as far as there are.
func nextWords(words []page.Word, i int) string {
	var out []string
	for _, w := range words[i+1 : min(i+3, len(words))] {
		out = append(out, strings.TrimSpace(w.Text))
	}
	return strings.Join(out, " ")
}

// hoursNext begins with hours, with or without the word that says of which sort.
var hoursNext = matching(`^(?:(?:contact|teaching|study|training|clock|full|volle|ganze|bonnes|lange) )?(?:hours?|hrs|(?:zeit|kontakt|voll|unterrichts)?stunden|std|heures|horas|(?:contact|les)?(?:uur|uren))(?:\W|$)`)

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
