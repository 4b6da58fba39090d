package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// A line is one row of a list: a session of an event, or a course of a transcript.
type line struct {
	cells   []int
	days    []day
	title   string
	minutes credit.Minutes
	length  bool // a length stands in its column, rather than clock times
	credits []paper.Printed
	absent  bool // marked as not attended
	pause   bool // coffee, lunch
	total   bool // the sum of the rows above
	at      at
}

var (
	pauseWord   = words(`coffee|lunch|break|breaks|tea|refreshments|dinner|breakfast|networking|pause|kaffeepause|mittagspause|mittagessen|dejeuner|cafe|pausa|almuerzo|comida|descanso|pauze|lunchpauze|registration|check-in|anmeldung`)
	totalWord   = words(`(?:duree|temps|volume) totale?(?: \S+){0,3}|gesamt(?:dauer|zeit|umfang)|total (?:duration|time|length)|(?:duracion|tiempo) total(?: \S+){0,3}|totale (?:duur|tijd)|total|sum|totals|grand total|summe|gesamt|insgesamt|gesamtsumme|somme|totaal|som|suma|cumul|overall|all courses|all events|alle kurse|alle cursussen|tous les cours|todos los cursos|acumulado|in all`)
	absentMark  = matching(`(?i)^(?:n|no|nein|non|nee|-|–|—|x̶|absent|excused|excusée?|entschuldigt|verhinderd|abwesend|absente?|ausente|afwezig|missed|0|(?:entsch|abw|exc|abs|afw|verh|aus)\.|✗|✘|☐|□|fehlt|entschuldigt|did not (?:attend|come|sign)|no asistió|nicht erschienen|niet verschenen|pas venue?)(?: ?\([\p{L} ]+\))?$`)
	bareNumber  = matching(`^\s*(\d{1,4}(?:[.,]\d{1,3}|[½¼¾])?)\s*(?:h|hrs?|std\.?)?\s*$`)
	hourLabel   = words(`contact(?:uren|uur)|lestijd|horas? (?:lectivas?|reloj)|ore|hours?|hrs\.?|hs\.?|stunden|std\.?|zeitstunden|heures?|horas?|uren|uur|h|contact time|h\.`)
	minuteLabel = words(`minutes?|min\.?|mins|minuten|minutos`)
	unitLabel   = words(`ue|u\.?e\.?|unterrichtseinheiten|unterrichtsstunden|lessons?|lesuren|periodes?|lektionen|teaching units?`)
)

// seriesLines returns the rows of tables, and of lists without a heading, in which
// each row has a day or a time of its own.
func (l *look) seriesLines() []line {
	var out []line
	for _, t := range l.tables {
		var rows []line
		for _, cells := range t.lines {
			rows = append(rows, l.tableLine(t, cells))
		}
		l.markColumns(t, rows)
		dated := 0
		for _, r := range rows {
			if len(r.days) > 0 || r.minutes > 0 && (!r.length || l.dayNamed(r)) {
				dated++
			}
		}
		if dated >= 2 || dated == 1 && len(rows) == 2 && rows[1].total {
			out = append(out, rows...)
		}
	}
	if len(out) == 0 {
		out = l.plainLines()
	}
	if len(out) == 0 {
		out = l.proseLines()
	}
	return markTotal(out)
}

// dayNamed reports a row with a day of the week, or with a day without its year.
func (l *look) dayNamed(r line) bool {
	return slices.ContainsFunc(r.cells, func(ci int) bool {
		text := l.cells[ci].text
		if len(strings.Fields(text)) > 4 {
			return false
		}
		return dayName.MatchString(fold(text)) || slices.ContainsFunc(find.Dates(text, l.langs), func(d find.Date) bool { return d.Lack <= find.NoYear && (d.HasWeekday || d.Form == find.Spelt) })
	})
}

// firstMark is a mark without the remark behind it: "absent – called away".
func firstMark(text string) string {
	text = strings.TrimSpace(text)
	if k := strings.IndexAny(text, "–—,;:"); k > 2 {
		text = strings.TrimSpace(text[:k])
	}
	return text
}

// markTotal marks the last rows without a day as sums where the figures of each are those of all rows
// above them together, or of those that were attended, whatever they are called.
func markTotal(rows []line) []line {
	for k := max(2, len(rows)-3); k < len(rows); k++ {
		foot, sums := rows[k:], sumsOf(rows[:k])
		if slices.ContainsFunc(foot, func(r line) bool {
			return r.total || len(r.days) > 0 || len(foot) > 1 && len(r.cells) >= len(rows[0].cells) || !slices.ContainsFunc(sums, r.gives)
		}) {
			continue
		}
		for i := range foot {
			foot[i].total = true
		}
		break
	}
	return rows
}

// A rowSum is what rows come to together.
type rowSum struct {
	minutes credit.Minutes
	credits map[string]credit.Amount // by unit
}

// sumsOf adds up all rows, and those that were attended.
func sumsOf(rows []line) []rowSum {
	all, attended := rowSum{credits: map[string]credit.Amount{}}, rowSum{credits: map[string]credit.Amount{}}
	for _, r := range rows {
		all.add(r)
		if !r.absent {
			attended.add(r)
		}
	}
	return []rowSum{all, attended}
}

func (s *rowSum) add(r line) {
	s.minutes += r.minutes
	for _, c := range r.credits {
		s.credits[c.Unit] = s.credits[c.Unit].Add(c.Value)
	}
}

// gives reports a row that has figures, all of them those of a sum.
func (r line) gives(s rowSum) bool {
	if r.minutes == 0 && len(r.credits) == 0 || r.minutes != 0 && r.minutes != s.minutes {
		return false
	}
	return !slices.ContainsFunc(r.credits, func(c paper.Printed) bool { return !s.credits[c.Unit].Equal(c.Value) })
}

// oddMarks reports rows of which some have another mark than the rest, in words that are not
// known: perhaps those that the person missed.
func (l *look) oddMarks() bool {
	marks, n := map[string]int{}, 0
	for _, r := range l.series {
		if r.total || r.pause || len(r.cells) == 0 {
			continue
		}
		n++
		if text := l.cells[r.cells[len(r.cells)-1]].text; len(strings.Fields(text)) == 1 && !hasFigure(text) && l.whole(r.cells[len(r.cells)-1]) != r.at {
			marks[fold(text)]++
		}
	}
	total := 0
	for _, k := range marks {
		total += k
	}
	return n > 2 && len(marks) == 2 && total == n && !slices.ContainsFunc(l.series, func(r line) bool { return r.absent })
}

// dayTimes are what columns of a row give apart from one another: when it began and ended, and its
// pause.
type dayTimes struct {
	from, to string
	pause    credit.Minutes
}

// tableLine reads one row by the roles of its columns.
func (l *look) tableLine(t table, columns [][]int) line {
	var r line
	var apart dayTimes
	for k, cells := range columns {
		if len(cells) == 0 {
			continue
		}
		r.cells = append(r.cells, cells...)
		days := slices.DeleteFunc(l.daysIn(cells), func(d day) bool {
			return d.role == isIssue && d.sure && !d.weak && t.roles[k] != isBare || t.roles[k] == isOther
		})
		r.days = append(r.days, days...)
		if text := l.cellText(cells); len(days) == 0 || len(text) >= 45 {
			l.tableCell(&r, &apart, t, k, text, l.whole(cells[0]))
		}
	}
	if !l.ofSeveral(t) {
		l.fromTo(&r, apart.from, apart.to)
	}
	if !r.length && apart.pause < r.minutes {
		r.minutes -= apart.pause
	}
	l.finish(&r)
	return r
}

// ofSeveral reports a list with a person in each row: when somebody else came and went says nothing of
// this one.
func (l *look) ofSeveral(t table) bool {
	k := slices.Index(t.roles, isPerson)
	return k >= 0 && len(t.lines) > 1 && !l.onlyMarks(t, k)
}

// tableCell reads the text of column k of a row, which begins at a.
func (l *look) tableCell(r *line, apart *dayTimes, t table, k int, text string, a at) {
	head := l.cells[t.head[k]].text
	label := fold(head)
	r.absent = r.absent || notHeld.MatchString(withoutBrackets(fold(firstMark(text))))
	switch role := t.roles[k]; {
	case role == isCredits:
		if n := bareNumber.FindStringSubmatch(text); n != nil {
			r.credits = append(r.credits, paper.Printed{Unit: unitOf(head), Value: amount(n[1])})
		}
	case role == isPresent || role == isResult || role == isAttended && !strings.ContainsAny(text, "0123456789"):
		r.absent = r.absent || absentMark.MatchString(firstMark(text))
	case role == isAttended && r.length && bareNumber.MatchString(withoutBrackets(text)):
		if m, ok := lengthOf(withoutBrackets(text), "hours", l.langs); ok {
			r.minutes = min(r.minutes, m)
		}
	case role == isBreak:
		apart.pause += l.columnPause(text)
	case role == isDuration || role == isAttended || hourLabel.MatchString(label) || minuteLabel.MatchString(label):
		l.columnTime(r, text, label)
	case role == isStart || role == isCame || cameHead.MatchString(label):
		apart.from = text
		r.absent = r.absent || absentMark.MatchString(firstMark(text))
	case role == isEnd || role == isWent || wentHead.MatchString(label):
		apart.to = text
		r.absent = r.absent || absentMark.MatchString(firstMark(text))
	case role == isTime:
		l.timeOf(r, text)
	case role != isTitle && role != isNumber && !r.length && l.clocksIn(text) > 0 && thereSaid.MatchString(fold(text)+" ") && !breakSaid.MatchString(fold(text)+" "):
		if !notThere.MatchString(fold(text) + " ") { // "13.30–16.30 afwezig"
			r.minutes += l.clocksIn(text)
		}
	case role == isTitle || r.title == "" && strings.ContainsFunc(text, isLetter) && role != isNumber && role != isProvider && role != isPerson:
		if r.title == "" || role == isTitle {
			r.title, r.at = text, a
		}
	}
}

// timeOf reads a cell of a column for the time of day, in which a plain length may stand as well.
func (l *look) timeOf(r *line, text string) {
	if m := l.clocksIn(text); m > 0 && !r.length {
		r.minutes = m
	} else if m, ok := lengthOf(text, "", l.langs); ok && m > 0 && r.minutes == 0 && plainLength.MatchString(fold(text)) && !(hourForm.MatchString(text) && (l.lang == find.French || l.lang == find.Spanish)) {
		r.minutes, r.length = m, true
	}
}

// columnTime reads a cell of a column for time: a length, or else clock times.
func (l *look) columnTime(r *line, text, label string) {
	if n := bareNumber.FindStringSubmatch(text); n != nil && l.lesson > 0 && lessonHead.MatchString(label) {
		if m, ok := wholeMinutes(amount(n[1]).Mul(credit.Whole(int64(l.lesson)))); ok {
			r.minutes, r.length = m, true
		}
	} else if m, ok := lengthOf(text, label, l.langs); ok {
		r.minutes, r.length = m, true
	} else if n := l.lessonsIn(text); n > 0 {
		r.minutes, r.length = n, true
	} else if m := hoursOfSheet.FindStringSubmatch(text); m != nil {
		r.minutes, r.length = credit.Minutes(60*numberOf(m[1])+numberOf(m[2])), true
	} else if m := l.clocksIn(text); m > 0 {
		r.minutes = m
	}
}

// lessonsIn is the time of the lessons that a cell counts, where the paper says how long one is.
func (l *look) lessonsIn(text string) credit.Minutes {
	found := find.Durations(text, l.langs)
	if l.lesson <= 0 || len(found) != 1 || found[0].Unit != find.Lesson {
		return 0
	}
	m, _ := wholeMinutes(found[0].Count.Mul(credit.Whole(int64(l.lesson))))
	return m
}

// hoursOfSheet are hours and minutes in a column for time, which are written as an hour of the day is.
var hoursOfSheet = matching(`^\s*(\d{1,3}):([0-5]\d)\s*(?:h|hrs?|std\.?)?\s*$`)

// What the columns for the hours of coming and going are headed with.
var (
	cameHead = whole(`(?:time |clock |sign )?in|start|begin|from|arrival|arrived|kommen|gekommen|ankunft|anfang|(?:heure d')?(?:arrivee|entree)|(?:hora de )?(?:entrada|llegada)|komst|aankomst|binnenkomst`)
	wentHead = whole(`(?:time |clock |sign )?out|end|departure|left|gehen|gegangen|weggang|schluss|(?:heure de )?(?:depart|sortie)|(?:hora de )?salida|vertrek`)
)

// plainLength is a length that is no hour of the day.
var plainLength = matching(`^\W?(?:\d{1,2} ?(?:h|hrs?|hours?|std|stunden?|heures?|horas?|u|uur)\.? ?(?:(?:and |und |et |y |en )?\d{1,2} ?(?:min|m|mn|'))|\d{1,3} ?min\w*|\d{1,2}(?:[.,]\d)? ?(?:hours?|hrs?|std|stunden?|heures|horas|h))\.?$`)

// fromTo takes the time between two cells with an hour each.
func (l *look) fromTo(r *line, from, to string) {
	if from != "" && to != "" && r.minutes == 0 {
		if c := find.Clocks(from+" - "+to, l.langs); len(c) > 0 {
			r.minutes = c[0].Net()
		}
	}
}

// clocksIn adds up the times of day in a cell, which hold for one day: "09:00–12:30, 13:30–17:00".
func (l *look) clocksIn(text string) credit.Minutes {
	var sum, end credit.Minutes
	for _, c := range find.Clocks(text, l.langs) {
		if credit.Minutes(c.From) < end {
			return sum // the same time once more, or within another
		}
		sum, end = sum+c.Net(), credit.Minutes(c.To)
	}
	return sum
}

// netIn adds up the spans of the day that begin at a place, less the breaks that the rest of its passage
// lists with them.
func (l *look) netIn(a at) credit.Minutes {
	var sum credit.Minutes
	for _, c := range l.clocks {
		if c.at.overlaps(a) && len(c.clock.Breaks) > 0 {
			sum += c.clock.Net()
		}
	}
	return sum
}

// columnPause reads a break in a column for breaks: from and to, or how long; a bare number
// counts minutes.
func (l *look) columnPause(text string) credit.Minutes {
	var sum credit.Minutes
	for _, c := range find.Clocks(text, l.langs) {
		sum += c.Minutes
	}
	if sum == 0 {
		for _, b := range find.Breaks(text, l.langs) {
			sum += b.Minutes // "lunch 12.30–13.15"
		}
	}
	if sum == 0 {
		sum, _ = lengthOf(text, "minutes", l.langs)
	}
	return sum
}

// finish marks pauses and sums, and finds a place for the row.
func (l *look) finish(r *line) {
	all := ""
	for _, ci := range r.cells {
		all += " " + l.cells[ci].text
	}
	low := fold(all)
	r.pause = pauseWord.MatchString(fold(r.title)) && len(strings.Fields(r.title)) < 4
	r.total = len(r.days) == 0 && totalWord.MatchString(low)
	if r.at == (at{}) && len(r.cells) > 0 {
		r.at = l.whole(r.cells[0])
	}
}

// signsHere reports a name with an office behind it.
func signsHere(text string) bool {
	name, office, parted := strings.Cut(text, ", ")
	full, _ := nameWords(name)
	return parted && full > 1 && officeWord.MatchString(fold(office))
}

// plainLines reads rows that begin or end with a day and stand beneath one another,
// where no heading was recognised.
func (l *look) plainLines() []line {
	var out []line
	for _, row := range l.rows {
		if r, ok := l.sessionInOne(row); ok {
			out = append(out, r)
			continue
		}
		if len(row) < 2 || strings.HasSuffix(l.cells[row[0]].text, ":") || l.hasPair(row[0]) && !startsFigure(l.cells[row[0]].text) && !dayAlone(l.cells[row[0]].text) || l.closing.signs[l.cells[row[1]].passage] || signsHere(l.cells[row[len(row)-1]].text) {
			continue // a label with its value, or the foot with who signs
		}
		r, end := line{cells: row}, 0
		for _, ci := range row {
			text := l.cells[ci].text
			days := slices.DeleteFunc(l.daysIn([]int{ci}), func(d day) bool {
				return d.role == isIssue || d.role == isOther || d.role == isPaid || d.role == isBare && d.label != "" && !l.rowOfHours(row)
			})
			clocks, length := find.Clocks(text, l.langs), credit.Minutes(0)
			if r.minutes == 0 && len(clocks) == 0 {
				length = l.lengthAlone(text, ci)
			}
			switch {
			case len(days) > 0 && len(text) < 45:
				r.days = append(r.days, days...)
			case len(clocks) > 0 && notThere.MatchString(fold(text)+" ") && len(row) > 2:
				// "13.30–16.30 afwezig"
			case len(clocks) > 0:
				if c := clocks[0]; r.minutes > 0 && c.From >= end {
					r.minutes, end = r.minutes+c.Net(), c.To
				} else {
					r.minutes, end = c.Net(), c.To
				}
			case length > 0:
				r.minutes, r.length = length, true
			case absentMark.MatchString(firstMark(text)) || notHeld.MatchString(withoutBrackets(fold(firstMark(text)))):
				r.absent = true
			case bareNumber.MatchString(text):
				r.credits = nil
				r.minutes, r.length = 0, true
			case r.title == "" && strings.ContainsFunc(text, isLetter) && roleOf(text) == noRole:
				r.title, r.at = strings.Trim(text, " |"), l.whole(ci)
			}
		}
		l.finish(&r)
		if len(r.days) > 0 && (r.title != "" || r.minutes > 0) {
			out = append(out, r)
		}
	}
	if len(out) < 2 || oneDayOnly(out) {
		return nil
	}
	l.ticked(out)
	return out
}

// oneDayOnly reports rows that all have the same day, and of which one at most has its time: no list of sessions.
func oneDayOnly(rows []line) bool {
	timed := 0
	var first *find.Stretch
	for _, r := range rows {
		if r.minutes > 0 {
			timed++
		}
		for _, d := range r.days {
			if len(d.spans) == 0 {
				return false
			}
			if first == nil {
				first = &d.spans[0]
			}
			if d.spans[0] != *first {
				return false
			}
		}
	}
	return timed < 2
}

// rowOfHours reports a row in which hours of the day stand beside its first cell.
func (l *look) rowOfHours(row []int) bool {
	return slices.ContainsFunc(row[1:], func(ci int) bool { return len(find.Clocks(l.cells[ci].text, l.langs)) > 0 })
}

// ticked takes for absent the rows without the mark at their end that others have, where they lack just
// that: "x" for who came, and a dash that says nothing.
func (l *look) ticked(rows []line) {
	var bare []int
	wide := 0
	for i, r := range rows {
		last := l.cells[r.cells[len(r.cells)-1]].text
		if tickMark.MatchString(fold(strings.TrimSpace(last))) && (wide == 0 || wide == len(r.cells)) {
			wide = len(r.cells)
			continue
		}
		bare = append(bare, i)
	}
	if len(rows)-len(bare) < 2 {
		return
	}
	for _, i := range bare {
		if len(rows[i].cells) == wide-1 {
			rows[i].absent = true
		}
	}
}

// sessionInOne reads a session that stands in one cell: its day, its hours, and perhaps
// whether the person was there.
func (l *look) sessionInOne(row []int) (line, bool) {
	if len(row) != 1 {
		return line{}, false
	}
	text := l.cells[row[0]].text
	days, w := l.daysIn(row), l.whole(row[0])
	if len(days) != 1 || !days[0].single || days[0].at.span.From-w.span.From > 12 || len(text) > 90 {
		return line{}, false
	}
	r := line{cells: row, days: days, minutes: l.clocksIn(text), at: w}
	if net := l.netIn(w); net > 0 && net < r.minutes {
		r.minutes = net // the break stands in the next line
	}
	rest := fold(text[min(days[0].at.span.To-w.span.From, len(text)):]) // a day that a line broke ends in the next
	r.absent = notThere.MatchString(rest)
	return r, r.minutes > 0 && days[0].role != isIssue
}

// notThere says of one session that the person missed it.
var notThere = words(`absent|excused|missed|not present|did not attend|entschuldigt|abwesend|fehlt|gefehlt|unentschuldigt|absente?|excusee?|ausente|falto|afwezig|verhinderd`)

// thereSaid says of a session, in its cell, whether somebody was there.
var thereSaid = words(`present|attended|anwesend|teilgenommen|presente?|asistio|aanwezig|absent|excused|missed|entschuldigt|abwesend|fehlt|gefehlt|absente?|excusee?|ausente|falto|afwezig|verhinderd|✓|✔|x`)

// notHeld is what a list says of a session that nobody held.
var notHeld = whole(`(?:was |were )?(?:not (?:taught|held|given|delivered|run)|cancel?led|called off)|(?:did not|didn't) take place|no (?:class|lesson|session)|(?:ist |sind )?(?:entfallen|ausgefallen|abgesagt|entfallt|entfiel|ausfall)|fiel aus|fallt aus|(?:nicht|kein\w*) (?:gehalten|erteilt|stattgefunden|durchgefuhrt|unterricht)|(?:annule|supprime|reporte)e?s?|n'a pas eu lieu|(?:non|pas) (?:assure|donne|tenu|dispense)e?s?|pas de (?:cours|seance)|(?:cancelad|suspendid|anulad)[oa]s?|no (?:impartid[oa]|celebrad[oa]|dad[oa]|se (?:impartio|celebro|dio)|hubo clase)|(?:is )?(?:uitgevallen|vervallen|geannuleerd|afgelast|niet (?:gegeven|gehouden|doorgegaan))|ging niet door|geen (?:les|bijeenkomst)`)

// daysIn returns the days that stand in cells.
func (l *look) daysIn(cells []int) []day {
	var out []day
	for _, ci := range cells {
		w := l.whole(ci)
		for _, d := range l.days {
			if d.at.overlaps(w) {
				out = append(out, d)
			}
		}
	}
	return out
}

// lengthOf reads a length of time in a column or beside a label that names the unit.
func lengthOf(text, label string, langs find.Languages) (credit.Minutes, bool) {
	if n := bareNumber.FindStringSubmatch(text); n != nil {
		each := int64(60)
		if minuteLabel.MatchString(label) && !hourLabel.MatchString(label) {
			each = 1
		}
		if unitLabel.MatchString(label) {
			return 0, false
		}
		return wholeMinutes(amount(n[1]).Mul(credit.Whole(each)))
	}
	for _, d := range find.Durations(text, langs) {
		if d.Minutes > 0 {
			return d.Minutes, true
		}
	}
	return 0, false
}

func wholeMinutes(a credit.Amount) (credit.Minutes, bool) {
	r := a.Rat()
	if !r.IsInt() || !r.Num().IsInt64() {
		return 0, false
	}
	return credit.Minutes(r.Num().Int64()), true
}

// amount reads a number with a decimal point or comma; 0 if it is none.
func amount(text string) credit.Amount {
	a, err := credit.ParseAmount(strings.NewReplacer(",", ".", "½", ".5", "¼", ".25", "¾", ".75").Replace(text))
	if err != nil {
		return credit.Amount{}
	}
	return a
}

// differentThings reports that the rows name different courses rather than the
// sessions of one event: their titles differ and their days lie apart.
func (l *look) differentThings() bool {
	titles := map[string]bool{}
	var first, last credit.Date
	n := 0
	for _, r := range l.series {
		if r.total || len(r.days) == 0 {
			continue
		}
		n++
		titles[bare(r.title)] = true
		s := r.days[0].spans[0]
		if first.IsZero() || s.Start.Before(first) {
			first = s.Start
		}
		if last.IsZero() || s.Start.After(last) {
			last = s.Start
		}
	}
	hasClock := slices.ContainsFunc(l.series, func(r line) bool { return r.minutes > 0 && !r.length })
	return n >= 2 && len(titles) == n && !first.IsZero() && last.Sub(first) > 10 && !hasClock && !l.weekByWeek()
}

// weekByWeek reports rows of which each was held a week after the one before, or two: the evenings of a
// series, whatever each was about.
func (l *look) weekByWeek() bool {
	var before credit.Date
	n := 0
	for _, r := range l.series {
		if r.total || len(r.days) == 0 {
			continue
		}
		day := r.days[0].spans[0].Start
		if gap := day.Sub(before); n > 0 && gap != 7 && gap != 14 {
			return false
		}
		n, before = n+1, day
	}
	return n > 3
}

// partsOfOne reports a table whose first column counts the parts of one course.
func (l *look) partsOfOne() bool {
	return slices.ContainsFunc(l.tables, func(t table) bool {
		if !partHead.MatchString(strings.Trim(fold(l.cells[t.head[0]].text), " .:")) {
			return false
		}
		n := 0
		for _, columns := range t.lines {
			if len(columns) > 0 && len(columns[0]) == 1 && numberOf(strings.Trim(l.cells[columns[0][0]].text, " .)")) == n+1 {
				n++
			}
		}
		return n > 1
	})
}

// partHead heads a column of the numbers of modules, lessons or evenings.
var partHead = matching(`^(?:modules?|modul|units?|unites?|unidad|lektion|lesson|lecon|leccion|les|kapitel|chapter|chapitre|capitulo|hoofdstuk|part|teil|partie|parte|deel|step|schritt|etape|etapa|stap|session|sitzung|seance|sesion|sessie|evening|abend|soiree|tarde|avond)$`)
