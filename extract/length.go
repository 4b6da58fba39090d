package extract

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

var (
	attendedWord = words(`assiduite|watched live|attended|attending|was present(?: for)?|credited(?: with)?|took part in|sign-in|besucht|anwesend|anwesenheit|teilgenommen|suivie?s?|effectivement|de presence|a assiste|asistio a|asistidas|ha asistido|bijgewoond|aanwezig|gevolgd|in all|actually`)
	plannedWord  = words(`scheduled|planned|full course|of a possible|out of|geplant|vorgesehen|prevues?|previstas?|gepland|nominal|offered|available|usually|normally|advertised|announced|proposee?s?|angeboten\w*|ofrecid[oa]s?|ofertad[oa]s?|aangeboden|complete course (?:is|runs|lasts)|kurs umfasst|course (?:comprises|consists|runs for|lasts)`)
	leftOutWord  = words(`prepar\w*|vorbereitung|vor- und nachbereitung|nachbereitung|travel(?:ling)?|anreise|fahrzeit|private study|self[- ]?study|selbststudium|selbstlern\w*|reading time|homework|trajet|deplacement|travail personnel|travail individuel|travail autonome|trabajo autonomo|trabajo individual|trabajo independiente|estudio autonomo|preparacion|viaje|trabajo personal|estudio personal|voorbereiding|reistijd|zelfstudie|huiswerk|minutes' notice|weekly|a week|pro woche|par semaine|por semana|per week|verguetet|late|verspatet|zu spat|ago|old|each year|per year|minimum(?: is| of)?|minimo|mindestmass|at least|mindestens|au moins|al menos|minimaal|required|erforderlich|within|innerhalb|binnen|dans les|notice|up to|zelfstandig|thuis|at home|independently|on (?:her|his|their|your) own|zu hause|selbststandig|a la maison|chez (?:elle|lui|soi)|en casa|por su cuenta|erreichbar|bereikbaar|joignables?|reachable|localizables?|bis zu|jusqu'a|dans un delai de|en un plazo de|valid(?: for)?|gultig|years? of|jahre|wochentlich|hebdomadaires?|semanal(?:es)?|wekelijks`)
	dailyWord    = words(`(?:each|every|both|all)(?: (?:two|three|four|five))? (?:days|afternoons?|mornings?|evenings?|dates|occasions|weekends?)|(?:an|zu) (?:beiden|allen)(?: \w+)? (?:tagen|abenden|nachmittagen|vormittagen|terminen)|(?:les|aux) (?:deux|trois|quatre) (?:jours|soirs|soirees|apres-midi|matins|matinees|dates|seances)|(?:amb[oa]s|l[oa]s (?:dos|tres|cuatro)|tod[oa]s l[oa]s) (?:dias|tardes|mananas|sesiones|fechas|jornadas)|(?:beide|alle|elke|iedere)(?: (?:twee|drie|vier))? (?:dagen|dag|middagen|middag|avonden|avond|ochtenden|ochtend|data|keren)|each day|daily|every day|both days|all days|per day|on each|taglich|jeweils|je(?:den)? tag|an beiden tagen|chaque jour|tous les jours|les deux jours|cada dia|diariamente|ambos dias|dagelijks|elke dag|beide dagen|each evening|each evenings?|every evening|each session|jeden abend|chaque soir|chaque seance|cada sesion|diari[oa]s|par jour|al dia|elke avond|elke keer|(?:each|every|jede[nmrs]?|chaque|cada|elke|iedere) ` + sessionNoun + `|elke avond|elke keer|iedere avond`)
	noBreakWord  = words(`no (?:breaks?|intervals?|pauses?)|without (?:an? )?(?:breaks?|intervals?|pauses?)|ohne pausen?|sans pause|sin (?:pausas?|descansos?)|zonder pauzes?`)
	untimed      = []paper.Kind{paper.Receipt, paper.Membership, paper.Employment, paper.Publication, paper.Credential, paper.NotEvidence}
)

// labelledLengths reads numbers whose label names the unit: "Hours 6.5".
func (l *look) labelledLengths() {
	for _, p := range l.withRole(isDuration, isAttended, isScheduled) {
		text := l.text(p.value)
		bare, of := ofAll(text)
		n := bareNumber.FindStringSubmatch(bare)
		if m := wordAndFigure.FindStringSubmatch(fold(bare)); n == nil && m != nil && numberOf(m[1]) == numberOf(m[2]) {
			n = m[1:] // "eight (8)"
		}
		if d, ok := hoursAndMinutes(text); ok && !l.timed(p.value) {
			l.lengths = append(l.lengths, lengthHit{at: p.value, length: d, role: p.role, label: p.label})
			continue
		}
		if n == nil || l.isLength(at{p.value.passage, find.Span{From: p.value.span.From, To: p.value.span.From + len(bare)}}) {
			continue
		}
		h := lengthHit{at: at{p.value.passage, find.Span{From: p.value.span.From, To: p.value.span.From + len(bare)}}, role: p.role, label: p.label}
		if of {
			h.role = isAttended
		}
		h.length.Count = amount(n[1])
		switch {
		case unitLabel.MatchString(p.label):
			h.length.Unit = find.Lesson
			for _, each := range []int64{45, 50, 60} {
				if m, ok := wholeMinutes(h.length.Count.Mul(credit.Whole(each))); ok {
					h.length.Candidates = append(h.length.Candidates, m)
				}
			}
		case hourLabel.MatchString(p.label):
			h.length.Unit = find.Hour
			h.length.Minutes, _ = wholeMinutes(h.length.Count.Mul(credit.Whole(60)))
		case minuteLabel.MatchString(p.label):
			h.length.Unit = find.Minute
			h.length.Minutes, _ = wholeMinutes(h.length.Count)
		default:
			continue
		}
		l.lengths = append(l.lengths, h)
	}
	l.totalsOfSheets()
}

// wordAndFigure is a number in words and again in figures.
var wordAndFigure = matching(`^\s*(\p{L}+) ?\((\d{1,3})\)\s*$`)

// totalsOfSheets reads the whole time at the foot of a list: a row of such a label and hours with their
// minutes.
func (l *look) totalsOfSheets() {
	for _, row := range l.rows {
		if len(row) != 2 {
			continue
		}
		label, value := l.cells[row[0]].text, l.whole(row[1])
		d, ok := hoursAndMinutes(l.text(value))
		if !ok || l.timed(value) || !totalWord.MatchString(fold(label)) || roleOf(label) != isDuration {
			continue
		}
		l.lengths = append(l.lengths, lengthHit{at: value, length: d, role: isDuration, label: strings.Trim(fold(label), " :")})
	}
}

// hoursMinutes are hours with their minutes in two figures: "2u15", "7 h 30".
var hoursMinutes = matching(`(?i)^\s*(\d{1,3})\s?[hu]\s?([0-5]\d)(?:\s?(?:min\.?|h|hrs?|std\.?|uur|m))?\s*$`)

// hoursAndMinutes reads a length that is written as the time of day is, so that only its label
// tells the one from the other.
func hoursAndMinutes(text string) (find.Duration, bool) {
	m := hoursMinutes.FindStringSubmatch(text)
	if m == nil {
		return find.Duration{}, false
	}
	n := 60*numberOf(m[1]) + numberOf(m[2])
	return find.Duration{Unit: find.Hour, Minutes: credit.Minutes(n), Count: credit.Fraction(int64(n), 60)}, true
}

// timed reports that a length or a span of the day was found at a place.
func (l *look) timed(a at) bool {
	return l.isLength(a) || slices.ContainsFunc(l.clocks, func(c clockHit) bool { return c.at.overlaps(a) })
}

// isLength reports that a length was found at a place.
func (l *look) isLength(a at) bool {
	return slices.ContainsFunc(l.lengths, func(h lengthHit) bool { return h.at.overlaps(a) })
}

// What stands right behind a length may say whether it was planned or attended.
var (
	behindScheduled = matching(`^ ?(?:\(?scheduled|planned|advertised|vorgesehen|geplant|programmees?|prevues?|programadas|previstas|gepland)\b`)
	behindAttended  = matching(`^ ?(?:(?:of these |of them )?(?:were|was|wurden?|ont ete|se|zijn|werden) )?(?:attended|besucht|wahrgenommen|suivies?|asistio|asistidas|bijgewoond|gevolgd)\b`)
)

// A span of time with what it is.
type timed struct {
	guess
	minutes credit.Minutes
	level   int // 5 attended, 4 stated total, 3 sum of the sessions, 2 clock, 1 count × length
	open    []credit.Minutes
}

// findDuration settles how long the person was at it, in the order of the schema:
// attended, stated total, sum of the sessions, clock times less breaks, count × length.
func (l *look) findDuration() {
	if slices.Contains(untimed, l.kind) {
		return
	}
	l.clocks = slices.DeleteFunc(l.clocks, func(c clockHit) bool { return l.houseOpen(c.at) })
	stated := l.statedLengths()
	if sum, ok := l.sessionSum(); ok {
		stated = append(stated, sum)
	} else if sum, ok := l.listColumn(); ok {
		stated = append(stated, sum)
	} else if sum, rows, ok := l.lengthList(); ok {
		stated = append(slices.DeleteFunc(stated, func(t timed) bool { return slices.ContainsFunc(rows, t.at.overlaps) }), sum)
	}
	if clock, ok := l.clockTime(); ok {
		stated = append(l.withoutParts(stated, clock), clock)
	}
	if len(stated) == 0 {
		return
	}
	slices.SortStableFunc(stated, func(a, b timed) int { return b.level - a.level })
	for _, t := range stated {
		l.note(paper.FieldDuration, t.guess)
	}
	top := stated[0]
	if len(top.open) > 0 {
		known := slices.IndexFunc(stated, func(t timed) bool { return len(t.open) == 0 && slices.Contains(top.open, t.minutes) })
		if known < 0 {
			l.openLength(top)
			return
		}
		top = stated[known]
	}
	l.putLength(top, stated[1:])
}

// putLength puts a length into the reading, with a question where another disagrees or its sign
// is not one to trust.
func (l *look) putLength(top timed, others []timed) {
	rivals := []guess{top.guess}
	for _, t := range others {
		if len(t.open) == 0 && t.minutes != top.minutes && l.disagrees(top, t) && !slices.ContainsFunc(rivals, func(g guess) bool { return g.text == t.text }) {
			rivals = append(rivals, t.guess)
		}
	}
	top.score = l.lengthScore(top, others)
	v := l.value(top.guess)
	rivals = append(rivals, l.otherTotals(top, rivals)...)
	v.Certain = top.sure && len(rivals) == 1 && !l.unitLost() && !(top.level <= 3 && l.againstCredits(top.minutes)) && !l.aloneLength(top, others) && !l.partLength(top, others) && !l.perhapsUntimed() && !l.onlyPartly(top) && !l.hoursUntold(top) && !l.stoppedBetween(top) &&
		l.legibleLength(top, others, v.Place) && v.Score >= leastScore[paper.FieldDuration]
	if !v.Certain {
		text := fmt.Sprintf("Did this take %s? The paper does not say it for sure.", spoken(top.minutes))
		if len(rivals) > 1 {
			text = fmt.Sprintf("How long was it: %s? The paper gives times that disagree.", orList(rivals, func(g guess) string { n, _ := strconv.Atoi(g.text); return spoken(credit.Minutes(n)) }))
		}
		l.question(paper.FieldDuration, &v, rivals, text)
	}
	l.out.Values[paper.FieldDuration] = v
}

// hoursUntold reports that the passage of the clock times has another hour of the day besides them: "on the
// last Saturday we ended at 1 pm".
func (l *look) hoursUntold(t timed) bool {
	if t.level != 2 || !strings.Contains(t.why, " days ") && t.why != "count times length" || !slices.ContainsFunc(l.clocks, func(c clockHit) bool { return c.at == t.at }) {
		return false
	}
	text := l.passages[t.at.passage].text
	for _, m := range oneTime.FindAllStringSubmatchIndex(text, -1) {
		a := l.passageAt(t.at.passage).within(m[0], m[1]-m[0])
		if !slices.ContainsFunc(l.clocks, func(c clockHit) bool {
			return c.at.overlaps(a) || c.at.passage == a.passage && slices.ContainsFunc(c.clock.Breaks, func(b find.Break) bool { return b.Span.Overlaps(a.span) })
		}) && !l.isLength(a) && !slices.ContainsFunc(l.days, func(d day) bool { return d.at.overlaps(a) }) && !doors.MatchString(fold(tail(text[:m[0]], 20))+" ") {
			return true
		}
	}
	return false
}

// stoppedBetween reports that a sentence tells of a while in which everybody stopped, where clock times of several
// days are added up: nothing shows of which days it was.
func (l *look) stoppedBetween(t timed) bool {
	return t.level == 2 && strings.Contains(t.why, " days ") && stoppedFor.MatchString(l.all)
}

var stoppedFor = matching(`\b(?:stopped|paused|broke(?: off)?|adjourned|unterbrachen|pausierten|arretes?|arretions|paramos|pararon|stopten|pauzeerden|onderbraken)\b[^.;\d]{0,30}\b(?:hours?|minutes?|stunden?|minuten?|heures?|horas?|minutos?|uur|kwartier)\b`)

// perhapsUntimed reports that the paper may be of a kind of which no time is written down.
func (l *look) perhapsUntimed() bool {
	return slices.ContainsFunc(l.rivals, func(k paper.Kind) bool { return slices.Contains(untimed, k) })
}

// aloneLength reports a length that rests on one sign that is not proven: nothing at another
// place of the paper comes to the same.
func (l *look) aloneLength(top timed, others []timed) bool {
	if l.oneSitting() && top.minutes >= 45 && top.minutes <= longestHalf || l.halvesOfDay() {
		return false // a morning, an evening or a sitting without a break: the one pair of clock times on the paper
	}
	if l.kind == paper.Meeting && len(l.clocks) == 0 && top.minutes <= longestHalf {
		if _, _, ok := l.openedAndClosed(); ok {
			return false // it was opened and closed at hours that the minutes give
		}
	}
	return top.alone(paper.FieldDuration) && !slices.ContainsFunc(others, func(t timed) bool {
		return len(t.open) == 0 && t.minutes == top.minutes && t.why != top.why
	})
}

// oneSitting reports that the paper has one pair of clock times, or several of which each begins when
// the one before it ends: "Talk 11:10–11:50, discussion 11:50–12:05".
func (l *look) oneSitting() bool {
	there := l.clocksThere()
	for i, c := range there {
		if i > 0 && (c.clock.From != there[i-1].clock.To || l.isPause(c)) {
			return false
		}
	}
	return len(there) > 0
}

// longestHalf is the longest half day that is held without a break that is worth listing.
const longestHalf = 300

// halvesOfDay reports that the paper has several pairs of clock times, in one line, with breaks
// between them, or one of the morning and one of the afternoon by their labels: "9.00–12.30 and
// 13.30–16.00".
func (l *look) halvesOfDay() bool {
	if len(l.clocks) < 2 || l.eventDays() > 1 {
		return false
	}
	for i, b := range l.clocks {
		if b.clock.Minutes > longestHalf || l.isPause(b) {
			return false
		}
		if i > 0 {
			a := l.clocks[i-1]
			if rest := b.clock.From - a.clock.To; a.at.passage != b.at.passage && !(l.inHalf(a.at, 0) && l.inHalf(b.at, 1)) || rest < 0 || rest > 150 && a.at.passage != b.at.passage || rest > 300 {
				return false
			}
		}
	}
	return true
}

// legibleLength reports that a length can be read beyond doubt, or that another way to
// the same length can, at another place of the paper.
func (l *look) legibleLength(top timed, others []timed, p paper.Place) bool {
	return l.legible(top.at, p) || slices.ContainsFunc(others, func(t timed) bool {
		place, _, _ := l.place(t.at)
		return len(t.open) == 0 && t.minutes == top.minutes && t.at.passage != top.at.passage && l.legible(t.at, place)
	})
}

// lengthScore weighs what a length is, and what agrees with it: another way to the same
// length, clock times that hold it, credits that go by the hour.
func (l *look) lengthScore(top timed, others []timed) int {
	score := map[int]int{5: 84, 4: 78, 3: 76, 2: 74, 1: 70}[top.level]
	if top.level == 2 && l.eventDays() > 1 {
		score -= 6
	}
	for _, t := range others {
		switch {
		case len(t.open) > 0:
		case t.minutes == top.minutes:
			score += 8
		case top.level >= 3 && t.level == 2 && t.minutes > top.minutes && t.minutes < 2*top.minutes:
			score += 4
		case top.level != 5:
			score -= 10
		}
	}
	return min(100, max(1, score+l.byCredits(top.minutes)))
}

// byCredits is what credits that go by the hour add to a length, or take from it.
func (l *look) byCredits(m credit.Minutes) int {
	for _, c := range l.credits {
		per := map[string]int64{"ceu": 600, "pdh": 60}[c.kind]
		if per == 0 {
			continue
		}
		for _, each := range []int64{per, 60} { // some bodies give one for each hour, whatever they call it
			if want, ok := wholeMinutes(c.value.Mul(credit.Whole(each))); ok && want == m {
				return 8
			}
		}
		return -8
	}
	return 0
}

// againstCredits reports credits that go by the hour and stand for far more or far less than a length.
func (l *look) againstCredits(m credit.Minutes) bool {
	if l.byCredits(m) >= 0 {
		return false
	}
	for _, c := range l.credits {
		if per := map[string]int64{"ceu": 600, "pdh": 60}[c.kind]; per > 0 {
			want, ok := wholeMinutes(c.value.Mul(credit.Whole(per)))
			return ok && (4*want < 3*m || 3*want > 4*m)
		}
	}
	return false
}

// disagrees reports whether t contradicts top, given what each of them is.
func (l *look) disagrees(top, t timed) bool {
	switch {
	case top.level == 5:
		return t.level == 5
	case top.level == t.level:
		return true
	case t.level == 3 && top.level == 4 && top.minutes < t.minutes && 3*t.minutes < 4*top.minutes && l.saidTwice(top):
		return false // the sessions with breaks that nobody listed
	case t.level == 1:
		return top.level == 4
	case t.level == 2 && top.level == 4:
		if l.timesOver(t.minutes, top.minutes) {
			return false
		}
		if t.minutes < top.minutes || t.minutes > 3*top.minutes && l.eventDays() == 1 {
			return true // no breaks are that long
		}
		return noBreakWord.MatchString(l.all) || l.breaksListed()
	}
	return true
}

// timesOver reports that the paper counts as many sessions or days as it takes for one time to come to a
// whole: "eight Tuesdays, from 6 to 8:30 pm, for a total of 20 hours".
func (l *look) timesOver(one, whole credit.Minutes) bool {
	if one <= 0 || whole <= one || whole%one != 0 {
		return false
	}
	return slices.ContainsFunc(l.folded, func(text string) bool {
		return slices.ContainsFunc(severalTimes.FindAllStringSubmatch(text, -1), func(m []string) bool { return numberOf(m[1]) == int(whole/one) })
	})
}

// severalTimes counts sessions, or days of the week on which they were held.
var severalTimes = matching(`(?:^|[\s(])` + someCount + ` (?:\p{L}+ )?(?:` + sessionNoun + `|(?:mon|tues|wednes|thurs|fri|satur|sun)days|(?:mon|diens|donners|frei|sams|sonn)tagen?|mittwochen?|(?:lun|mar|mercre|jeu|vendre|same)dis|dimanches|lunes|martes|miercoles|jueves|viernes|sabados|domingos|(?:maan|dins|woens|donder|vrij|zater|zon)dagen)\b`)

// timesCounted is how many sessions the paper counts, less those that were missed or not held; 0 where it
// does not, or counts several things.
func (l *look) timesCounted() int {
	count := 0
	for _, text := range l.folded {
		for _, m := range severalTimes.FindAllStringSubmatch(text, -1) {
			n := numberOf(m[1])
			if n < 2 || n == count || strings.HasSuffix(m[0], "stunden") {
				continue
			}
			if count > 0 || n > 60 {
				return 0
			}
			count = n
		}
	}
	return max(0, count-l.missedCount()-l.notHeldCount())
}

// saidOfEach reports clock times that are said to be those of each session.
func (l *look) saidOfEach(a at) bool {
	before, after := l.ownSentence(a)
	return dailyWord.MatchString(tail(before, 60)+" ") || dailyWord.MatchString(" "+head(after, 24)+" ")
}

// saidTwice reports a stated length to which its sentence comes in another way too: "12 units of 45
// minutes, that is 9 hours".
func (l *look) saidTwice(t timed) bool {
	return slices.ContainsFunc(l.lengths, func(h lengthHit) bool {
		return h.at != t.at && h.at.passage == t.at.passage && h.length.Minutes == t.minutes
	})
}

func (l *look) breaksListed() bool {
	return slices.ContainsFunc(l.clocks, func(c clockHit) bool { return len(c.clock.Breaks) > 0 })
}

func (l *look) openLength(t timed) {
	v := l.value(t.guess)
	v.Text = ""
	var rivals []guess
	for _, m := range t.open {
		g := t.guess
		g.text = strconv.FormatInt(int64(m), 10)
		rivals = append(rivals, g)
	}
	text := fmt.Sprintf("How many minutes are %s? The paper does not tell.", quoted(v.Place.Quote))
	l.question(paper.FieldDuration, &v, rivals, text)
	l.out.Values[paper.FieldDuration] = v
}

// statedLengths returns the lengths that the text gives, by what they are.
func (l *look) statedLengths() []timed {
	var out []timed
	for _, h := range l.lengths {
		if before, after := l.around(h.at); !l.otherLength(h, before, after) {
			out = append(out, l.lessWithin(l.weighLength(h, before, after), h))
		}
	}
	if l.kind == paper.Transcript {
		return l.transcriptTotal(l.wholeOfSentence(out))
	}
	return append(append(l.withDiscussion(l.lessAway(l.wholeOfSentence(l.sessionsNamed(l.namedParts(l.wholeOfParts(out)))))), l.weekly()...), l.daily()...)
}

// otherLength reports a length that is none of the person's time: a break, a way, what a unit
// stands for, a part of another.
func (l *look) otherLength(h lengthHit, before, after string) bool {
	d := h.length
	switch {
	case d.Break || d.PerWeek || h.role == isBreak || h.role == isLeftOut || h.role == isOther || l.inSeries(h.at) && !(h.role == isDuration && totalWord.MatchString(h.label)) || l.isCredit(h.at):
		return true
	case slices.Contains([]find.Unit{find.Day, find.Week, find.Month, find.Year}, d.Unit) || d.Minutes == 0 && len(d.Candidates) == 0:
		return true
	case ofExam.MatchString(h.label):
		return true
	case notTaken.MatchString(before) || l.behindTalk(h):
		return true
	case l.restOf(h.at) || l.saysLesson(h) || awayAhead.MatchString(before):
		return true
	case l.hourOfDay(h) || l.underComing(h.at): // "Clôture 17 h 00"
		return true
	case d.Minutes > 0 && d.Minutes <= 60 && toRound.MatchString(before) && len(l.lengths)+len(l.clocks) > 1: // "from the next half hour"
		return true
	case everyOnce.MatchString(before) || l.leftOut(h.at) || l.underPause(h.at):
		return true
	case partOfTime.MatchString(before) && len(l.lengths)+len(l.clocks) > 1: // "including half an hour of questions"
		return true
	}
	return l.notMine(h, before, after) || definesCredit.MatchString(before) || d.Unit == find.Minute && namesUnit.MatchString(after) // "One credit equals 50 minutes", "a 50-minute hour"
}

// notTaken ends in front of the length of what the person left out: "optional workshop, not attended: 2 hours".
var notTaken = matching(`(?:\bnon (?:suivi|choisi|effectue|realise|visionne)e?s?|\bnot (?:attended|taken|watched|followed|chosen|booked|done)|\bnicht (?:besucht|belegt|absolviert|angesehen|gewahlt|wahrgenommen|gebucht)|\bno (?:realizad|cursad|elegid|asistid|vist|hech)[oa]s?|\bniet (?:gevolgd|bijgewoond|bekeken|gekozen|gedaan))\)?\s*[:,–-]?\s*(?:\(\s*)?$`)

// ofExam is the label of an examination, of which no time is written down.
var ofExam = matching(`^(?:(?:final|closing|written|oral|schriftliche|mundliche) )?(?:exam(?:ination)?|test|quiz|(?:schluss|end|abschluss)test|(?:abschluss)?prufung|klausur|examen(?: final)?|epreuve|evaluation|prueba|examen|(?:eind)?toets)$`)

// weighLength tells what a length is that the text gives.
func (l *look) weighLength(h lengthHit, before, after string) timed {
	d, role := h.length, h.role
	if p, ok := l.labelOf(h.at); ok && h.at.span.From-p.value.span.From > 8 && p.how == inline && role != isScheduled {
		role = noRole // it stands further on in the line
	}
	t := timed{minutes: d.Minutes, level: 4, open: d.Candidates}
	t.guess = guess{text: minutesText(d.Minutes), at: h.at, score: 80, why: "it is stated", sure: true}
	several := len(l.lengths) > 1
	mine := l.ofWhole(h, before, after)
	switch {
	case h.label == inAllLabel:
	case mine > 0:
		t.level, t.why, t.minutes, t.open = 5, "it is said to be the time attended", mine, nil
		t.text = minutesText(mine)
	case behindScheduled.MatchString(head(after, 24)) && several:
		t.level, t.why = 1, "it is the planned time"
	case several && guideAhead.MatchString(before):
		t.level, t.why = 1, "it is the planned time"
	case len(d.Candidates) == 2 && d.Unit != find.Lesson && (role == isAttended || l.partMine(h)): // "Attendance: 36 of 40 hours"
		t.level, t.why, t.minutes, t.open = 5, "it is said to be the time attended", d.Candidates[0], nil
		t.text = minutesText(t.minutes)
	case len(d.Candidates) == 2 && wholeSaid.MatchString(fold(l.text(h.at))): // "three of the nine hours are private study"
		t.minutes, t.open, t.sure = d.Candidates[1], nil, false
		t.text = minutesText(t.minutes)
	case role == isAttended || role == isDuration && attendedLabel.MatchString(h.label) || several && (behindAttended.MatchString(head(after, 34)) || fulfilledThere(before, after)):
		t.level, t.why = 5, "it is said to be the time attended"
	case role == isScheduled && l.kind == paper.Completion && !several: // for what is done at one's own pace it is the total
	case role == isScheduled || lastMatch(plannedWord, tail(before, 40)+" ") > lastMatch(attendedWord, tail(before, 40)+" "):
		t.level, t.why = 1, "it is the planned time"
	case role == noRole && attendedWord.MatchString(before+" ") && several && attendedNear(before) && l.attendedHere(h.at):
		t.level, t.why = 5, "it is said to be the time attended"
	case h.role != isScheduled && t.minutes <= longestSitting && oneLabel.MatchString(withoutUnit(h.label)):
		t = l.ofOne(t)
	case several && netSaid.MatchString(before):
		t.level = 5 // the others are gross
	case d.Each > 0:
		t.level, t.why = 1, "count times length"
		t = l.ofCount(t, h)
	case plusDays.MatchString(after) || daysPlus.MatchString(before) || addedTime.MatchString(before):
		t.level, t.why, t.sure = 1, "it comes on top of another time", false
	case eachBefore.MatchString(before) || eachBehind.MatchString(after):
		t = l.eachOf(t)
	case onBothDays.MatchString(before):
		t = l.eachOf(t)
	case onEachDay.MatchString(after):
		t = l.onEach(t, after)
	case ofEach.MatchString(before):
		t = l.eachNamed(t, before)
	}
	return t
}

// guideAhead ends in front of a time that is a guide and not that of this person: "(guide value: 4 h".
var guideAhead = matching(`\b(?:guide(?:line)?(?: value| time| length)?|recommended|suggested|target|standard|allotted|maximum|richtwert|richtzeit|regelzeit|sollzeit|soll|maximal|hochstens|duree (?:indicative|conseillee)|valeur indicative|maximum|valor orientativo|tiempo orientativo|maximo|richtwaarde|richttijd|streeftijd|maximaal)(?: (?:of|for|des|der|fur|du|de|del|la|van|het|the) (?:\p{L}+ ?){1,3})?[ :]*$`)

// attendedLabel is a label that says, among other things, that the time was attended.
var attendedLabel = matching(`^(?:your|ihre?|votre|su|uw|jouw) |\b(?:spent|aufgewendete?|passee?|dedicad[oa]|bestede?|attended|present|besuchte?|anwesende?|suivie?s?|effectuee?s?|asistid[oa]s?|cursad[oa]s?|cumplid[oa]s?|gevolgde?|bijgewoonde?)\b`)

// eachNamed takes a time for that of each of the things that the sentence before it names.
func (l *look) eachNamed(t timed, before string) timed {
	if been := l.wasAtSome(); been > 0 {
		return l.timesEach(t, been, "the sessions attended times the time of one", 5)
	}
	if m := eachOfMany.FindStringSubmatch(before); m != nil && numberOf(m[1]) > 1 {
		return l.timesEach(t, numberOf(m[1]), "count times length", 1)
	}
	if n := l.countNamed(before); n > 0 {
		return l.timesEach(t, n, "count times length", 1)
	}
	if n := l.examinedEach(t.at.passage); n > 1 {
		t.sure = false
		return l.timesEach(t, n, "count times length", 1)
	}
	if days := l.eventDays(); days > 1 && l.listed(days) {
		return l.eachOf(t)
	}
	t.level, t.why, t.sure = 1, "count times length", false
	return t
}

// hourOfDay reports a time in the French form, "17 h 00", that a word for opening or closing
// makes an hour of the day, and one in the Dutch form, "21.30 uur", behind such a word; either right behind a day.
func (l *look) hourOfDay(h lengthHit) bool {
	before := l.folded[h.at.passage]
	if (dutchHour.MatchString(l.text(h.at)) || hourForm.MatchString(l.text(h.at))) && l.behindDay(h.at) {
		return true
	}
	if dutchHour.MatchString(l.text(h.at)) {
		k := strings.Index(before, fold(l.text(h.at)))
		return k <= 0 || untilHour.MatchString(before[:k])
	}
	if !hourForm.MatchString(l.text(h.at)) {
		return false
	}
	if k := strings.LastIndex(before, fold(l.text(h.at))); k >= 0 {
		before = tail(before[:k], 30)
	}
	return hourSaid.MatchString(h.label+" ") || hourSaid.MatchString(before)
}

// behindDay reports a place right behind a day: "23 avril 2026, 14 h 00".
func (l *look) behindDay(a at) bool {
	return slices.ContainsFunc(l.days, func(d day) bool {
		return d.single && d.at.passage == a.passage && d.at.span.To <= a.span.From && strings.Trim(l.passages[a.passage].text[d.at.span.To:a.span.From], ", à") == ""
	})
}

var (
	dutchHour = matching(`(?i)^(?:[01]?\d|2[0-3])[.:][0-5]\d ?(?:uur|u\.?|uhr)$`)
	untilHour = matching(`(?:^|\s)(?:tot|om|van|vanaf|tussen|en|bis|um|von|ab|aanvang|begin|start|einde|sluiting|opening|geopend|open|inloop|zaal open|beginn|ende|schluss|einlass)\W*$`)
	hourForm  = matching(`^\d{1,2} ?[hH](?: ?\d\d)?$`)
	hourSaid  = matching(`(?:^|[\s(,;])(?:ouverture|ouverte?|cloture|levee?|debut|fin|accueil|arrivee|depart|apertura|inicio|clausura|cierre|a las)(?: de (?:la )?(?:seance|session|reunion))?[ :]*$`)
)

// eachOf takes a time for that of each day of the event; it is sure where the paper counts them.
func (l *look) eachOf(t timed) timed {
	if n := l.occasionsOf(t.at.passage); n > 1 && len(t.open) == 0 {
		if been, of := l.attendedCount(); of == n && been > 0 && been < n {
			return l.timesEach(t, been, "the sessions attended times the time of one", 5)
		}
		return l.timesEach(t, n, "count times length", 1)
	}
	days := l.eventDays()
	t.level, t.why, t.sure = 1, "count times length", days == 1 && !l.overDays() || l.listed(days) || dailyWord.MatchString(l.folded[t.at.passage]) && days < 6
	if days > 1 {
		t.minutes *= credit.Minutes(days)
		t.text = minutesText(t.minutes)
		for i := range t.open {
			t.open[i] *= credit.Minutes(days)
		}
	}
	return t
}

var (
	// namesUnit stands behind the length of a unit of which several are counted.
	namesUnit = matching(`^ ?-? ?(?:hours?|lessons?|periods?|units?|stunden?|unterrichtsstunden?|unterrichtseinheit(?:en)?|lektionen?|heures?|horas?|lesuren|lesuur)\b`)
	// plusDays and daysPlus join a length to days of which the length is not told.
	plusDays = matching(`^[^.;,]{0,22}(?:plus|and|\+|und|et|y|en|sowie|&) (?:\S+ ){0,3}(?:half-)?(?:days?|tage?n?|praxistage?|prasenztage?|halbtage?n?|jours?|journees?|demi-journees?|dias?|jornadas?|dag|dagen|praktijkdag(?:en)?|dagdeel|dagdelen)\b`)
	daysPlus = matching(`\b(?:days?|tage?n?|prasenztage?n?|halbtage?n?|jours?|journees?|demi-journees?|dias?|jornadas?|dag|dagen|dagdeel|dagdelen)(?: \S+){0,2} (?:plus|and|\+|und|et|y|en|sowie|&) (?:\S+ )?$`)
	// eachBefore and eachBehind stand with the length of every day of an event.
	eachBefore = matching(`\b(?:(?:en|in|a) (?:sesiones|sessions|seances|sitzungen|sessies|bijeenkomsten|clases|classes|terminen) (?:de|of|von|van|d')|jeweils|je|each(?: lasting| of)?|chaque fois|telkens|cada (?:una|uno|dia|sesion)(?: de)?|a raison de)[ :]*$`)
	eachBehind = matching(`^,? ?(?:each\b|jeweils|chacune?|cada una?|(?:per|pro|par|por|a|al|je) (?:day|evening|session|afternoon|morning|tag|abend|termin|sitzung|jour|journee|soir|soiree|seance|demi-journee|dia|sesion|tarde|dag|avond|keer|bijeenkomst)\b)`)
)

// untilNext cuts what stands behind a length before the next item of a list.
func untilNext(after string) string {
	if i := strings.IndexAny(after, ",;0123456789"); i >= 0 {
		return after[:i]
	}
	return after
}

// lessWithin takes from a stated time what is said to be within it and is none of it: a
// break ("8 hours including 1 hour for lunch"), or what was not attended of it ("6 hours,
// of which 5 attended").
func (l *look) lessWithin(t timed, h lengthHit) timed {
	text := l.passages[h.at.passage].text
	behind := fold(head(text[h.at.span.To:], 60))
	if m := ofWhich.FindStringSubmatch(behind); m != nil && len(t.open) == 0 && t.level >= 4 && h.length.Count.Sign() > 0 {
		each := credit.Fraction(int64(t.minutes), 1).Mul(amount(strings.ReplaceAll(m[1], ",", ".")))
		if n, ok := wholeMinutes(each.Div(h.length.Count)); ok && n <= t.minutes && n > 0 {
			t.level, t.why, t.minutes, t.text = 5, "it is said to be the time attended", n, minutesText(n)
		}
		return t
	}
	if m := ofWhichWent.FindStringSubmatch(behind); m != nil && len(t.open) == 0 && t.level == 4 && h.length.Each == 0 && h.length.Count.Sign() > 0 {
		part := credit.Whole(int64(numberOf(m[1] + m[2])))
		if hasFigure(m[1] + m[2]) {
			part = amount(m[1] + m[2])
		}
		if n, ok := wholeMinutes(credit.Fraction(int64(t.minutes), 1).Mul(part).Div(h.length.Count)); ok && n > 0 && n <= t.minutes {
			t.level, t.why, t.minutes, t.text = 5, "it is said to be the time attended", n, minutesText(n)
		}
		return t
	}
	if m := ofThoseWent.FindStringSubmatch(fold(head(text[h.at.span.To:], 100))); m != nil && len(t.open) == 0 && t.level == 4 && h.length.Each == 0 && h.length.Count.Sign() > 0 && !deniedPart.MatchString(m[1]+" ") {
		if n, ok := wholeMinutes(credit.Fraction(int64(t.minutes), 1).Mul(credit.Whole(int64(numberOf(m[2])))).Div(h.length.Count)); ok && n > 0 && n <= t.minutes {
			t.level, t.why, t.minutes, t.text = 5, "it is said to be the time attended", n, minutesText(n)
		}
		return t
	}
	if m := ofWhichMissed.FindStringSubmatch(behind); m != nil && len(t.open) == 0 && t.level >= 4 && h.length.Count.Sign() > 0 {
		if n, ok := wholeMinutes(credit.Fraction(int64(t.minutes), 1).Mul(credit.Whole(int64(max(1, numberOf(m[1]+m[2]))))).Div(h.length.Count)); ok && n > 0 && n < t.minutes {
			t.level, t.why, t.minutes, t.text = 5, "it is said to be the time attended", t.minutes-n, minutesText(t.minutes-n)
		}
		return t
	}
	if m := ofWhichPrepared.FindStringSubmatch(fold(head(text[h.at.span.To:], 110))); m != nil && len(t.open) == 0 && t.level >= 4 && h.length.Count.Sign() > 0 {
		if n, ok := wholeMinutes(credit.Fraction(int64(t.minutes), 1).Mul(credit.Whole(int64(numberOf(m[1])))).Div(h.length.Count)); ok && n > 0 && n < t.minutes {
			t.minutes -= n
			t.text, t.why = minutesText(t.minutes), "it is stated, less the preparation within it"
		}
		return t
	}
	if t.level != 4 || len(t.open) > 0 || !includes.MatchString(behind) && !breaksIn.MatchString(fold(head(text[h.at.span.To:], 90))) {
		return t
	}
	for _, o := range l.lengths {
		off := o.at.span.From - h.at.span.To
		if o.at.passage != h.at.passage || off < 0 || off > 36 || o.length.Minutes <= 0 || o.length.Minutes >= t.minutes {
			continue
		}
		if o.length.Break || pauseNear.MatchString(fold(text[h.at.span.To:o.at.span.From])) || pauseNear.MatchString(fold(head(text[o.at.span.To:], 28))) {
			t.minutes -= o.length.Minutes
			t.text, t.why = minutesText(t.minutes), "it is stated, less the break within it"
		}
		return t
	}
	return t
}

var (
	ofWhich = matching(`^[,;(]? ?(?:of which|of these|davon|dont|de las (?:que|cuales)|waarvan)(?: \p{L}+)? (\d{1,3}(?:[.,]\d{1,2})?)(?: (?:hours?|h|stunden|std\.?|heures?|horas?|uur))? ?(?:were |was |wurden |ont ete |asistio |zijn )?(?:attended|besucht|anwesend|suivies?|asistidas?|asistio|gevolgd|bijgewoond)`)
	// ofWhichMissed stands behind a time and says how much of it somebody was missing, in the same unit.
	ofWhichMissed = matching(`^[,;(]{0,2} ?(?:` + someNumber + ` (?:hours?|minutes?|h|std\.?|stunden?|heures?|horas?|uur) (?:of which|of these|of them)|(?:of which|davon|dont|de l[oa]s (?:que|cuales)|waarvan|daarvan) ` + someNumber + `(?: (?:hours?|minutes?|h|std\.?|stunden?|heures?|horas?|uur))?)(?: (?:she|he|they|the \p{L}+|was|were|sie|er|wurden?|hat|a|ont|ete|se|is|zijn|war|on))*? (?:missed|absent|not attended|versaumt|gefehlt|fehlte|fehlend|nicht besucht|manquees?|d'absence|ausente|perdio|perdidas|de ausencia|gemist|afwezig|verzuimd)`)
	// breaksIn says behind a time that breaks, of a length that stands with them, are part of it.
	breaksIn  = matching(`^[,;(]{0,2} ?(?:the |die |les |las |los |de |with |mit |avec |con |met )?(?:\p{L}+ )?(?:breaks?|\p{L}*pausen?|pauses?|pausas?|descansos?|\p{L}*pauzes?)\b[^.;]{1,40}\b(?:included|includes|eingeschlossen|inbegriffen|eingerechnet|inklusive|comprises?|incluses?|incluid[oa]s?|inbegrepen|meegerekend)\b`)
	includes  = matching(`^[,;(]{0,2} ?\(?(?:of which|davon|dont|de l[oa]s (?:que|cuales)|waarvan|includ(?:ing|es)|incl\.?|inclusive of|inkl\.?|inklusive|einschliesslich|y compris|compris|incluyendo|incluid[oa]s?|inclusief|met inbegrip van)\b`)
	pauseNear = matching(`(?:^|\W)(?:lunch|breaks?|\p{L}*pausen?|mittag\w*|mittagessen|pauses?|dejeuner|descansos?|pausas?|almuerzo|comida|pauzes?|\p{L}*pauze)(?:\W|$)`)
)

// daily returns times that every day of the event had, times its days. Of more than five
// days some may be none of the event.
func (l *look) daily() []timed {
	if l.out.Values[paper.FieldStart].Text == "" || l.weekCount() > 0 {
		return nil
	}
	var out []timed
	days := l.eventDays()
	for _, h := range l.lengths {
		_, after := l.around(h.at)
		if d := h.length; d.PerWeek && !d.Break && d.Minutes > 0 && behindDaily.MatchString(after) && h.role != isBreak && h.role != isLeftOut && days < 15 {
			t := timed{minutes: d.Minutes * credit.Minutes(days), level: 1}
			t.guess = guess{text: minutesText(t.minutes), at: h.at, score: 70, why: "the days times the time of one", sure: days < 6 && l.out.Values[paper.FieldEnd].Certain}
			out = append(out, t)
		}
	}
	return out
}

var behindDaily = matching(`^[ ,]{0,2}(?:per|a|each|every|pro|je|am|par|por|al|cada|chaque) (?:day|tag|jour|dia|dag)\b`)

// ofEach says of a length that every one of several things took it: "Each lecture lasted".
var ofEach = matching(`(?:^|\b)(?:each|every|jede[rsnm]?|chaque|chacune?|cada|elke?|iedere?)\s[^.;]{0,40}$`)

// addedTime ends in front of a length that another comes before.
var addedTime = matching(`\b(?:a further|further|another|an? additional|additional|an extra|extra|weitere[nrs]?|zusatzliche[nrs]?|encore|de plus|otr[oa]s|adicionales|nog(?: eens)?|extra)\s*$`)

// countNamed returns how many things the paper speaks of, by the noun behind "each": six
// for "each lecture lasted" where "six lectures" stands; 0 where it does not say.
func (l *look) countNamed(before string) int {
	m := eachThing.FindStringSubmatch(before)
	if m == nil {
		return 0
	}
	stem, count := head(m[1], max(4, len(m[1])-2)), 0
	for _, n := range countedNoun.FindAllStringSubmatch(l.all, -1) {
		if k := numberOf(n[1]); k > 1 && strings.HasPrefix(n[2], stem) {
			if count > 0 && count != k {
				return 0
			}
			count = k
		}
	}
	return count
}

var (
	eachThing   = matching(`\b(?:each|every|jede[rsnm]?|chaque|cada|elke?|iedere?) (?:of (?:the|these) )?(\p{L}{4,})[^.;]{0,30}$`)
	countedNoun = matching(`(?:^|[\s(])(\d{1,2}|\p{L}{3,12}) (\p{L}{4,})`)
)

// partOfTime ends in front of a length that lies within another.
var partOfTime = matching(`\b(?:includ(?:ing|es|ed)|inclusive of|incl\.?|of which|of these|inkl\.?|inklusive|einschliesslich|davon|darunter|dont|y compris|compris|incluid[oa]s?|incluyendo|inclu[iy]\w*|de l[oa]s cuales|waarvan|inclusief|met inbegrip van|daarvan)(?: (?:a|an|the|eine[rsn]?|une?|una?|een))?\s*$`)

// definesCredit ends in front of the length that a unit of credit stands for.
var definesCredit = matching(`(?:credits?|points?|units?|ceus?|pdhs?|cpes?|hours?|punkte?|einheit|creditos?|puntos?|punten)\b.{0,12}(?: (?:equals?|corresponds? to|represents?|stands? for|is(?: worth| equal to)?|are|entspr\w+|steht fur|equivaut a|correspond a|equivale a|corresponde a|staat voor|komt overeen met)| ?=)(?: \w+)?\s*$`)

func attendedNear(before string) bool {
	return lastMatch(attendedWord, before+" ") > len(before)-40
}

// attendedHere reports a word for attending in the sentence of a, or in the one before where that of a goes on from it:
// not "… was present. The course lasted 6 hours".
func (l *look) attendedHere(a at) bool {
	before, _ := l.ownSentence(a)
	return attendedWord.MatchString(before+" ") || goesOnFrom.MatchString(strings.TrimSpace(before)+" ")
}

// goesOnFrom begins a sentence about what the one before says.
var goesOnFrom = matching(`^(?:this|that|these|it|he|she|they|you|in all|altogether|das|dies\w*|es|er|sie|insgesamt|cela|ce|ceci|il|elle|vous|soit|au total|en tout|es[ot]o?|est[eo]|ello|en total|dit|dat|deze|het|hij|zij|u|samen)\b`)

// bothHalves are two parts of what was held, each with the same clock times.
var bothHalves = words(`both (?:halves|parts)|(?:each|either) (?:half|part) (?:ran|lasted|took|was|began)|beide (?:halften|teile)|les deux (?:moities|parties)|ambas (?:mitades|partes)|beide (?:helften|delen)`)

// around returns the folded text before and after a in its sentence.
func (l *look) around(a at) (before, after string) {
	text := l.passages[a.passage].text
	before, after = fold(tail(text[:a.span.From], 90)), fold(head(text[a.span.To:], 60))
	if i := lastMatch(sentenceEnd, before); i > 0 {
		before = before[i-1:]
	}
	if m := sentenceEnd.FindStringIndex(after); m != nil {
		after = after[:m[0]]
	}
	return before, after
}

// leftOut reports a time of which the words of its sentence right before or behind it say that it
// is no contact time.
func (l *look) leftOut(a at) bool {
	before, after := l.ownSentence(a)
	if m := leftOutWord.FindString(weeklySession.ReplaceAllString(tail(before, 36), "") + " "); m != "" && !beLate.MatchString(m) {
		return true
	}
	if withHome.MatchString(after) || timeToPrepare.MatchString(before) || feeBy.MatchString(before) || l.kind == paper.Instruction && markingAhead.MatchString(before) {
		return true
	}
	behind := " " + head(untilNext(after), 30)
	return leftOutWord.MatchString(weeklySession.ReplaceAllString(behind, "")) || perThing.MatchString(after)
}

var (
	// timeToPrepare begins a sentence about the time that somebody took to prepare.
	timeToPrepare = matching(`(?:^|[.;] ?)\W?(?:the |die |le |la |el |de |her |his |ihre |seine )?(?:temps de |time for |time of |zeit fur die |tiempo de |tijd voor )?(?:preparation|preparing|vorbereitung(?:szeit)?|preparacion|voorbereiding(?:stijd)?|travel(?:ling)?(?: time)?|anreise|reisezeit|trajet|deplacement|viaje|reistijd)\b[^.;]{0,70}$`)
	// perThing follows a time that each of a number of things takes which are none of the event's.
	perThing = matching(`^ ?(?:per|pro|je|par|por|for each|a) (?:dossier|file|case|akte|fall|vorgang|expediente|caso|patient\w*|paciente|client\w*|klient\w*|kunde\w*|report|gutachten|rapport|informe|manuscript|manuskript|document|book|buch|livre|libro|boek)\b`)
	// withHome says behind a time that preparing or travelling is part of it.
	withHome = matching(`^[ ,(]{1,3}(?:(?:includ(?:ing|es)|incl\.?|inclusive of|with|einschliesslich|inklusive|inkl\.?|samt|y compris|avec|incluid[oa]s?|con|inclusief|met)(?: (?:the|his|her|der|die|la|le|el|de|het))? (?:preparation|travel\w*|marking|\S*vorbereitung\S*|anreise|fahrzeit|trajet|deplacement|preparacion|viaje|voorbereiding|reistijd)|(?:preparation|travel\w*|marking|\S*vorbereitung|anreise|fahrzeit|trajet|deplacement|preparacion|viaje|voorbereiding|reistijd) (?:included|eingeschlossen|inbegriffen|inklusive|comprise?s?|inclus\S*|incluid[oa]s?|inbegrepen|meegerekend))\b`)
	// feeBy ends in front of a time for which somebody was paid.
	feeBy = matching(`\b(?:paid|remunerated|a fee|verguetet|vergutet|honoriert|bezahlt|remuneree?s?|payee?s?|facturee?|retribuid[oa]|remunerad[oa]|pagad[oa]|betaald|vergoed|gehonoreerd)(?: \p{L}+(?:ment|ly|weise))?(?: (?:on|the|basis|of|for|at|rate|auf|der|basis|von|mit|fur|sur|la|base|de|pour|a|hauteur|por|sobre|con|op|basis|van|voor|met))+ ?$`)
)

// markingAhead ends in front of the time that who taught spent on the papers of those who were taught.
var markingAhead = matching(`\b(?:marking|grading|correcting|korrektur\w*|corrections?|correccion|nakijken|nakijkwerk|correctie(?:werk)?)\b[^.;\d]{0,40}$`)

// weeklySession is one of several that are held week by week, behind the time of all: no time of
// a week.
var weeklySession = matching(`\b(?:weekly|wochentlichen?|hebdomadaires?|semanales|wekelijkse) ` + sessionNoun + `\b|\b` + sessionNoun + ` (?:hebdomadaires|semanales)\b`)

// beLate says of a time behind which it stands how late somebody was, and nothing of one before which it does.
var beLate = words(`late|verspatet|zu spat|ago|old`)

// ownSentence returns the folded text before and after a in its sentence, as its capitals part it
// from the others.
func (l *look) ownSentence(a at) (before, after string) {
	text := l.passages[a.passage].text
	before, after = tail(text[:a.span.From], 120), head(text[a.span.To:], 80)
	if i := lastMatch(sentenceEnd, before); i > 0 && !shortens(fold(before[:i])) {
		before = before[i-1:]
	}
	if m := sentenceEnd.FindStringIndex(after); m != nil {
		after = after[:m[0]]
	}
	return fold(strings.ToValidUTF8(before, "")), fold(after)
}

// isCredit reports that a is a number of credits, which is no time.
func (l *look) isCredit(a at) bool {
	return slices.ContainsFunc(l.credits, func(c creditHit) bool { return c.at.overlaps(a) })
}

func (l *look) inSeries(a at) bool {
	ci := l.cellAt(a)
	return slices.ContainsFunc(l.series, func(r line) bool { return slices.Contains(r.cells, ci) })
}

// sessionSum adds up the sessions that were attended.
func (l *look) sessionSum() (timed, bool) {
	if l.kind == paper.Transcript {
		return timed{}, false
	}
	var sum credit.Minutes
	var first at
	marked := slices.ContainsFunc(l.series, func(r line) bool { return r.absent })
	for _, r := range l.series {
		if r.total || r.pause || r.absent || r.minutes == 0 {
			continue
		}
		if sum == 0 {
			first = r.at
		}
		sum += r.minutes
	}
	if sum == 0 {
		return timed{}, false
	}
	why := "the sessions add up to it"
	taken := credit.Minutes(0)
	if pause := max(l.pauseOf(first), l.pausesWithin()); pause < sum {
		sum -= pause
		taken = pause
	}
	if each := l.pauseOfEach(); taken == 0 && each > 0 && each < sum {
		sum, taken = sum-each, each
	}
	if marked {
		why = "the sessions attended add up to it"
	}
	return timed{guess: guess{text: strconv.FormatInt(int64(sum), 10), at: first, score: 70, why: why, sure: !l.oddMarks() && l.allTimed() && (taken > 0 || !l.pauseForgotten())}, minutes: sum, level: 3}, true
}

// pausesWithin adds up the breaks that are listed apart and lie within just one of the sessions that were
// attended.
func (l *look) pausesWithin() credit.Minutes {
	var sum credit.Minutes
	for i, p := range l.passages {
		if slices.ContainsFunc(l.clocks, func(c clockHit) bool { return c.at.passage == i && !l.isPause(c) }) {
			continue
		}
		for _, b := range find.Breaks(p.text, l.langs) {
			n := 0
			for _, c := range l.clocks {
				if b.To > b.From && c.clock.From <= b.From && b.To <= c.clock.To && len(c.clock.Breaks) == 0 && !l.isPause(c) && l.ofAttended(c.at) {
					n++
				}
			}
			if n == 1 {
				sum += b.Minutes
			}
		}
	}
	return sum
}

// pauseOfEach is the time of the breaks of which a sentence says how long each was and in how many mornings
// or sessions: "Chacune des trois matinées était coupée par une pause de 15 minutes".
func (l *look) pauseOfEach() credit.Minutes {
	for i, text := range l.folded {
		m := pausedEach.FindStringSubmatch(text)
		if m == nil || numberOf(m[1]) < 2 {
			continue
		}
		for _, b := range find.Breaks(l.passages[i].text, l.langs) {
			if b.To == b.From && b.Count <= 1 {
				return b.Minutes * credit.Minutes(numberOf(m[1]))
			}
		}
	}
	return 0
}

var pausedEach = matching(`\b(?:each|all|every|chacune?|jeder?|an allen|in allen|cada una?|elke?|ieder|alle)(?: (?:of|des?|der|de|van|l[oa]s))?(?: (?:the|les|las|los|de|den))? ` + someCount + ` ` + sessionNoun + `\b[^.;]{0,80}\b(?:breaks?|\p{L}*pausen?|pauses?|pausas?|descansos?|\p{L}*pauzes?)\b`)

// pauseForgotten reports a break of which a sentence says how long it was, apart from all clock times, and
// that was taken from none of them.
func (l *look) pauseForgotten() bool {
	if noBreakWord.MatchString(l.all + " ") {
		return false
	}
	for i, p := range l.passages {
		if len(strings.Fields(p.text)) < 4 || l.inSeries(l.passageAt(i)) || slices.ContainsFunc(l.clocks, func(c clockHit) bool { return c.at.passage == i }) {
			continue
		}
		if slices.ContainsFunc(find.Breaks(p.text, l.langs), func(b find.Break) bool { return b.To == b.From && b.Minutes > 0 }) {
			return true
		}
	}
	return false
}

// ofAttended reports a place in a row of the list for a session that was attended.
func (l *look) ofAttended(a at) bool {
	ci := l.cellAt(a)
	return slices.ContainsFunc(l.series, func(r line) bool { return !r.absent && !r.pause && slices.Contains(r.cells, ci) })
}

// allTimed reports that every session of the list has a time, and that the paper gives no clock times
// besides them: else the sum may lack one.
func (l *look) allTimed() bool {
	if slices.ContainsFunc(l.series, func(r line) bool { return len(r.days) > 0 && r.minutes == 0 && !r.total && !r.pause && !r.absent }) {
		return false
	}
	return !slices.ContainsFunc(l.clocks, func(c clockHit) bool { return !l.inSeries(c.at) && !l.isPause(c) && len(c.clock.Breaks) == 0 })
}

// pauseOf returns the break that stands by itself right behind the only session of a paper.
func (l *look) pauseOf(a at) credit.Minutes {
	i := a.passage
	if len(l.clocks) != 1 || i+2 >= len(l.passages) {
		return 0
	}
	for _, text := range l.folded[i+1 : i+3] {
		if startsPause.MatchString(text) {
			return barePause(text)
		}
	}
	return 0
}

var startsPause = matching(`^\W{0,2}(?:lunch|break|tea|coffee|pause|mittag\w*|kaffee\w*|pausa|pauze|descanso)\b`)

// clockTime returns the clock times less the breaks that are listed, on as many
// days as they hold for.
func (l *look) clockTime() (timed, bool) {
	if t, ok := l.cameAndWent(); ok {
		return t, true
	}
	if t, ok := l.partThere(); ok {
		return t, true
	}
	if t, ok := l.headedTime(); ok {
		return t, true
	}
	if t, ok := l.clocksOfDays(); ok {
		return t, true
	}
	sum, first, sure, seen := l.clocksOnce()
	listed := false
	if c, a, ok := l.outerSpan(); ok && c.Net() > sum {
		sum, first, sure, seen, listed = c.Net(), a, !c.HalfGuessed, nil, len(c.Breaks) > 0
	}
	rows := l.rowsCame()
	if sum <= 0 || len(l.series) > 1 && rows == 0 {
		return timed{}, false
	}
	why := "the clock times give it"
	for _, h := range l.lengths {
		if l.behindTalk(h) {
			sum += h.length.Minutes
			why = "talk and discussion add up to it"
		}
	}
	if pause := l.pausesApart(); pause > 0 && pause < sum && !listed {
		sum -= pause
		why = "the clock times less the breaks give it"
	}
	if l.breaksListed() || listed {
		why = "the clock times less the breaks give it"
	}
	if been := l.cameTo(rows); been > 0 {
		sum *= credit.Minutes(been)
		why = fmt.Sprintf("the clock times of %d sessions attended give it", been)
		sure = sure && (rows == 0 || l.ofEachRow(first))
	} else if n := l.sessionsAhead(first); n > 1 {
		sum *= credit.Minutes(n)
		why = "count times length"
	} else if bothHalves.MatchString(l.all) {
		sum, sure = 2*sum, false
	} else if n := l.timesCounted(); n > 1 && l.overDays() && l.eventDays() == 1 && l.saidOfEach(first) {
		sum *= credit.Minutes(n)
		why = "count times length"
	} else if days := l.eventDays(); days == 1 && l.overDays() && !l.onOneDay(seen) {
		sure = false // of how many days it holds nothing says
	} else if days > 1 && !l.onOneDay(seen) {
		sum *= credit.Minutes(days)
		why = fmt.Sprintf("the clock times on %d days give it", days)
		sure = sure && (dailyWord.MatchString(l.all) || l.listed(days)) && !missed.MatchString(l.all)
	}
	return timed{guess: guess{text: minutesText(sum), at: first, score: 60, why: why, sure: sure && !l.timeWithin(seen)}, minutes: sum, level: 2}, true
}

// cameTo is to how many sessions the person came, by a sentence, the rows of a list or what stands
// behind each of its days.
func (l *look) cameTo(rows int) int {
	if been, _ := l.attendedCount(); been > 0 {
		return been
	}
	if rows > 0 {
		return rows
	}
	return l.daysCame()
}

// ofEachRow reports that clock times are said to be those of every session of a list.
func (l *look) ofEachRow(a at) bool {
	before, after := l.ownSentence(a)
	return ofEach.MatchString(before) || dailyWord.MatchString(before+" ") || dailyWord.MatchString(" "+after+" ")
}

// clocksOnce adds up the clock times of one day, each counted once; seen are those counted.
func (l *look) clocksOnce() (sum credit.Minutes, first at, sure bool, seen []clockHit) {
	sure = true
	for _, c := range l.clocks {
		if l.inSeries(c.at) {
			continue
		}
		if k := slices.IndexFunc(seen, func(o clockHit) bool { return o.clock.From < c.clock.To && c.clock.From < o.clock.To }); k >= 0 {
			sure = sure && (c.within(seen[k].clock) && l.eventDays() < 2 || c.clock.From == seen[k].clock.From && c.clock.To == seen[k].clock.To)
			continue
		}
		if slices.ContainsFunc(l.clocks, func(o clockHit) bool { return c.within(o.clock) && l.isPause(c) }) {
			continue
		}
		if p, ok := l.labelOf(c.at); ok && p.role == isBreak {
			continue
		}
		before, _ := l.around(c.at)
		if doors.MatchString(tail(before, 20)+" ") || c.clock.Minutes <= 0 || l.otherHalf(c.at) {
			continue
		}
		if sum == 0 {
			first = c.at
		}
		seen = append(seen, c)
		sum += c.clock.Net()
		sure = sure && !c.clock.HalfGuessed && !c.clock.PastMidnight
	}
	return sum, first, sure, seen
}

// clocksOfDays adds up clock times that each stand with a day of their own: "Friday 9:00–16:00,
// Saturday 9:00–12:30".
func (l *look) clocksOfDays() (timed, bool) {
	var sum, pause credit.Minutes
	var first at
	n, under, end := 0, 0, at{passage: -1}
	for _, c := range l.clocks {
		if p, ok := l.labelOf(c.at); ok && p.role == isBreak || l.inSeries(c.at) || c.clock.Minutes <= 0 || c.clock.HalfGuessed || c.clock.PastMidnight {
			continue
		}
		if l.boxed && breakSaid.MatchString(l.overColumn(c.at)+" ") {
			pause += c.clock.Minutes
			continue
		}
		from := max(0, c.at.span.From-40)
		if end.passage == c.at.passage {
			from = max(from, end.span.To)
		}
		end = c.at
		between := l.passages[c.at.passage].text[from:c.at.span.From]
		named := fold(strings.ToValidUTF8(between, ""))
		over := l.dayOver(c.at)
		if doors.MatchString(" "+named+" ") || !dayName.MatchString(named) && !dayShort.MatchString(named) && !slices.ContainsFunc(l.days, func(d day) bool {
			return d.single && d.at.passage == c.at.passage && d.at.span.From >= from && d.at.span.To <= c.at.span.From
		}) && len(find.Dates(strings.ToValidUTF8(between, ""), l.langs)) != 1 && !over {
			return timed{}, false
		}
		if over {
			under++
		}
		if n++; n == 1 {
			first = c.at
		}
		sum += c.clock.Net()
	}
	if days := l.eventDays(); n < 2 || days > 1 && n != days || days == 1 && under == n || len(l.series) > 1 || pause == 0 && l.otherBreaks() > 0 && !l.breaksListed() || pause >= sum {
		return timed{}, false
	}
	sum -= pause
	why := fmt.Sprintf("the clock times on %d days give it", n)
	return timed{guess: guess{text: minutesText(sum), at: first, score: 60, why: why, sure: n == l.eventDays() && pause == 0}, minutes: sum, level: 2}, true
}

// dayName is a day of the week in full.
var dayName = words(`(?:mon|tues|wednes|thurs|fri|satur|sun)day|(?:mon|diens|donners|frei|sams|sonn)tag|mittwoch|sonnabend|(?:lun|mar|mercre|jeu|vendre|same)di|dimanche|lunes|martes|miercoles|jueves|viernes|sabado|domingo|(?:maan|dins|woens|donder|vrij|zater|zon)dag|(?:first|second|erster|zweiter|premier|deuxieme|second|primer|segundo|eerste|tweede) (?:day|tag|jour|dia|dag)|(?:day|tag|jour|dia|dag) [12]`)

// dayShort is one in two or three letters right before the clock times.
var dayShort = matching(`(?:^|[\s(,;])(?:mon?|tues?|wed|thurs?|fri|sat|sun|m[oi]|do|di|fr|s[ao]|lun|mar|mer|jeu|ven|sam|dim|mie|jue|vie|sab|dom|ma|wo|vr|z[ao])\.?,? ?$`)

// listed reports that the paper counts the days out, so that the clock times hold for each.
func (l *look) listed(days int) bool {
	return slices.ContainsFunc(l.days, func(d day) bool { return l.listedDays(d.at) == days || days > 1 && l.besideEachOther(d) == days })
}

// besideEachOther counts the single days of the event that stand in one list behind a label.
func (l *look) besideEachOther(d day) int {
	n := 0
	for _, o := range l.days {
		if o.single && o.role == isEvent && o.lack == find.Whole && o.label != "" && o.label == d.label && o.at.passage == d.at.passage {
			n++
		}
	}
	return n
}

// labelledClock reads a beginning and an end that stand with labels of their own.
func (l *look) labelledClock() (find.Clock, at, bool) {
	for _, roles := range [][]role{{isCame, isWent}, {isStart, isEnd, isFinish}} {
		if c, a, ok := l.clockOfRoles(roles); ok {
			return c, a, true
		}
	}
	return find.Clock{}, at{}, false
}

// clockOfRoles reads a beginning at a label of the first role, and an end at one of the others.
func (l *look) clockOfRoles(roles []role) (find.Clock, at, bool) {
	var from, to string
	var a at
	for _, p := range l.withRole(roles...) {
		text := l.text(p.value)
		if !oneClock.MatchString(text) {
			continue
		}
		if p.role == roles[0] {
			from, a = text, p.value
		} else {
			to = text
		}
	}
	if from == "" || to == "" {
		return find.Clock{}, a, false
	}
	c := find.Clocks(from+" - "+to, l.langs)
	if len(c) != 1 {
		return find.Clock{}, a, false
	}
	return c[0], a, true
}

// cameAndWent is the time from the hour at which the person came to that at which they went, less
// the breaks; it goes before that of the event.
func (l *look) cameAndWent() (timed, bool) {
	c, a, ok := l.clockOfRoles([]role{isCame, isWent})
	if !ok {
		c, a, ok = l.saidToCome()
	}
	if !ok || l.eventDays() > 1 || len(l.series) > 1 || c.PastMidnight || c.Minutes <= 0 {
		return timed{}, false
	}
	sum, why := c.Net(), "it is the time attended, by the hours of coming and going"
	if pause := l.pausesApart(); pause > 0 && pause < sum && len(c.Breaks) == 0 {
		sum -= pause
		why += " less the breaks"
	}
	return timed{guess: guess{text: minutesText(sum), at: a, score: 80, why: why, sure: !c.HalfGuessed}, minutes: sum, level: 5}, true
}

var oneClock = matching(`(?i)^\s*\d{1,2}(?:\s?[:.hu]\s?\d\d)?\s*(?:[ap]\.?m\.?|uhr|uur|h)?\s*$`)

// pausesIn adds up the clock times, or else the lengths, in the value of a label for breaks. A bare
// number is of minutes where the label says so.
func (l *look) pausesIn(p pair) credit.Minutes {
	var sum credit.Minutes
	value := p.value
	if n := bareNumber.FindStringSubmatch(l.text(value)); n != nil && minuteLabel.MatchString(p.label) {
		sum, _ = wholeMinutes(amount(n[1]))
		return sum
	}
	for _, c := range l.clocks {
		if c.at.inside(value) {
			sum += c.clock.Minutes
		}
	}
	if sum > 0 {
		return sum
	}
	for _, h := range l.lengths {
		if h.at.inside(value) {
			sum += h.length.Minutes
		}
	}
	if sum > 0 {
		return sum
	}
	for _, c := range find.Clocks(l.text(value), l.langs) {
		sum += c.Minutes
	}
	if sum > 0 {
		return sum
	}
	for _, b := range find.Breaks(l.text(value), l.langs) { // "Mittagessen 12:00 bis 13:00 Uhr"
		sum += b.Minutes * credit.Minutes(max(b.Count, 1))
	}
	return sum
}

// otherBreaks adds up the breaks that stand apart from the clock times.
func (l *look) otherBreaks() credit.Minutes {
	var sum credit.Minutes
	for _, p := range l.withRole(isBreak) {
		sum += l.pausesIn(p)
	}
	for i, p := range l.passages {
		if slices.ContainsFunc(l.withRole(isBreak), func(q pair) bool { return q.value.passage == i }) || l.inSeries(l.passageAt(i)) || slices.ContainsFunc(l.clocks, func(c clockHit) bool { return c.at.passage == i && !doors.MatchString(l.folded[i]) }) {
			continue
		}
		found := find.Breaks(p.text, l.langs)
		var said credit.Minutes
		for _, b := range found {
			said += b.Minutes * credit.Minutes(max(b.Count, 1))
		}
		sum += max(said, barePause(l.folded[i]))
	}
	return sum
}

// barePause adds up the times from the one hour to the other behind words for breaks, where
// nothing else shows that they are hours: "(lunch 12.30 to 1.15)"; 0 if there is none.
func barePause(text string) credit.Minutes {
	sum := 0
	for _, m := range pauseHours.FindAllStringSubmatch(text, -1) {
		var v [4]int
		for k := range v {
			v[k], _ = strconv.Atoi(m[k+1])
		}
		length := (v[2]-v[0])*60 + v[3] - v[1]
		if length <= 0 {
			length += 12 * 60
		}
		if length <= 150 {
			sum += length
		}
	}
	return credit.Minutes(sum)
}

var pauseHours = matching(`\b(?:lunch|break|tea|coffee|pause|mittag\w*|kaffee\w*|pausa|pauze)\b[^.;)\d]{0,16}(\d{1,2})[.:](\d\d)(?: ?uhr)? ?(?:-|–|to|until|till|bis) ?(\d{1,2})[.:](\d\d)`)

var doors = words(`doors|doors open|registration|check-in|office hours|opening hours|telephone|tel\.?|einlass|sprechzeiten|offnungszeiten|accueil|horario de oficina|inloop|break|lunch|pause|pausa|pauze`)

// eventDays counts the days of the event, as far as they are known.
func (l *look) eventDays() int {
	start, end := l.out.Values[paper.FieldStart], l.out.Values[paper.FieldEnd]
	from, err1 := credit.ParseDate(start.Text)
	to, err2 := credit.ParseDate(end.Text)
	if err1 != nil || err2 != nil || to.Before(from) {
		return 1
	}
	return l.dayCount(from, to)
}

// overDays reports an event that ended on another day than it began.
func (l *look) overDays() bool {
	start, end := l.out.Values[paper.FieldStart].Text, l.out.Values[paper.FieldEnd].Text
	return start != "" && end != "" && start != end
}

func minutesText(m credit.Minutes) string { return strconv.FormatInt(int64(m), 10) }

// spoken writes minutes as people say them.
func spoken(m credit.Minutes) string {
	switch {
	case m < 60:
		return fmt.Sprintf("%d minutes", m)
	case m%60 == 0:
		return fmt.Sprintf("%d h", m/60)
	}
	return fmt.Sprintf("%d h %d min", m/60, m%60)
}

// orList joins guesses as "a, b or c".
func orList(list []guess, say func(guess) string) string {
	parts := make([]string, len(list))
	for i, g := range list {
		parts[i] = say(g)
	}
	if len(parts) == 1 {
		return parts[0]
	}
	return strings.Join(parts[:len(parts)-1], ", ") + " or " + parts[len(parts)-1]
}

// behindTalk reports the time of a discussion that followed a talk, of which only the clock times are given: "from
// 17:15 to 18:00, followed by a discussion of 15 minutes".
func (l *look) behindTalk(h lengthHit) bool {
	text := l.passages[h.at.passage].text
	if h.length.Minutes <= 0 || h.length.Minutes > 60 || len(l.clocks) != 1 || !thenDiscussed.MatchString(fold(tail(text[:h.at.span.From], 60))) {
		return false
	}
	c := l.clocks[0]
	return c.at.passage == h.at.passage && c.at.span.To < h.at.span.From && h.at.span.From-c.at.span.To < 80 && l.kind == paper.Instruction
}

// thenDiscussed ends in front of such a time.
var thenDiscussed = matching(`\b(?:followed by|then|and then|plus|seguid[oa] de|y despues|suivie? (?:de|d')|puis|gefolgt von|danach|anschliessend|mit anschliessender|gevolgd door|daarna|met aansluitend) ?(?:the |an? |eine[rnm]? |une? |el |la |een )?(?:\p{L}+ )?(?:discussion|questions|debate|coloquio|debate|turno de preguntas|echange|debat|diskussion|aussprache|fragerunde|discussie|nabespreking|gesprek)(?: (?:of|de|von|van))? ?$`)

var discussWord = words(`discussions?|diskussion|aussprache|fragen|debat|discussie|vragen|debate|discusion|preguntas|questions|q ?& ?a`)

// withDiscussion adds the time for discussion to that of the talk, where a sentence gives both.
func (l *look) withDiscussion(list []timed) []timed {
	if len(list) != 2 || list[0].at.passage != list[1].at.passage || len(list[0].open)+len(list[1].open) > 0 {
		return list
	}
	text := l.passages[list[0].at.passage].text
	between, after := fold(text[list[0].at.span.To:max(list[1].at.span.From, list[0].at.span.To)]), fold(head(text[list[1].at.span.To:], 30))
	if !discussWord.MatchString(between) && !discussWord.MatchString(after) || sentenceEnd.MatchString(between) {
		return list
	}
	both := list[0]
	both.minutes += list[1].minutes
	both.text, both.level, both.why = minutesText(both.minutes), 4, "talk and discussion add up to it"
	return []timed{both}
}
