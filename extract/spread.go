package extract

import (
	"slices"
	"strings"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// The days of a list do not always stand in a table: each ends a sentence of its own, or they fill
// the boxes of a card.

// spreadDays returns the earliest and the latest of the days of such a list: on a record of several
// courses those that nothing makes another day, on other papers those that fill boxes.
func (l *look) spreadDays() (start, end *pick) {
	var list []day
	switch l.kind {
	case paper.Transcript:
		list = l.listedInText()
	case paper.Attendance, paper.Instruction, paper.Completion, paper.Meeting:
		if list = l.boxDays(); len(list) == 0 && len(l.series) < 2 {
			if list = l.numberedDays(); len(list) == 0 {
				list = l.itemDays()
			}
			if len(list) == 0 {
				list = l.lineDays()
			}
		}
	}
	if len(list) < 2 {
		return nil, nil
	}
	for _, d := range list {
		s, e := starts(d), ends(d)
		if start == nil || s.days[0].Before(start.days[0]) {
			start = &s
		}
		if end == nil || e.days[0].After(end.days[0]) {
			end = &e
		}
	}
	sure := l.alike(list)
	start.sure, end.sure = sure, sure
	return start, end
}

// listedInText returns the days of a record in sentences or lines that say of none of them what
// else it is.
func (l *look) listedInText() []day {
	var out []day
	for _, d := range l.days {
		plain := slices.Contains([]role{noRole, isEvent, isFinish, isExam, isTitle, isPlace, isNumber}, d.role) || d.role == isStart && d.label == ""
		if d.lack != find.Whole || d.open || len(d.spans) == 0 || !plain || d.hangs == onUnknown && d.role != noRole || d.alone && placeGiven(l.passages[d.at.passage].text[:d.at.span.From]) {
			continue
		}
		out = append(out, d)
	}
	return out
}

// boxDays returns days that stand alone in their cells, two and more in a row; the last of them may
// be alone in its own.
func (l *look) boxDays() []day {
	var out []day
	last := -1
	for r, row := range l.rows {
		var found []day
		for _, ci := range row {
			found = append(found, l.boxDay(ci)...)
		}
		if len(found) > 1 || len(found) == 1 && last >= 0 && r-last < 5 && sameWeekday(append(found, out...)) {
			out, last = append(out, found...), r
		}
	}
	if len(out) == 2 && out[0].spans[0].Start.Before(out[1].spans[0].Start) && out[1].spans[0].Start.Sub(out[0].spans[0].Start) < 8 {
		return out
	}
	if len(out) < 3 {
		return nil
	}
	return out
}

// boxDay returns the day that fills a cell, if nothing says what it is.
func (l *look) boxDay(ci int) []day {
	var found []day
	for _, d := range l.daysIn([]int{ci}) {
		covered := len(strings.TrimSpace(l.cells[ci].text)) <= d.at.span.To-d.at.span.From+2
		mark := l.isMark(d.label)
		plain := mark || (d.label == "" || d.guessed) && (d.role == noRole || d.role == isEvent || d.role == isIssue && d.weak)
		if covered && plain && d.single && d.lack == find.Whole && len(d.spans) > 0 {
			found = append(found, d)
		}
	}
	return found
}

// sameWeekday reports days that are beyond doubt and all of one day of the week.
func sameWeekday(list []day) bool {
	return !slices.ContainsFunc(list, func(d day) bool {
		return len(d.spans) != 1 || d.spans[0].Start.Weekday() != list[0].spans[0].Start.Weekday()
	})
}

// isMark reports a text that fills several cells, so that it is a mark rather than a label.
func (l *look) isMark(label string) bool {
	n := 0
	for _, c := range l.cells {
		if label != "" && strings.Trim(fold(c.text), " :") == label {
			n++
		}
	}
	return n > 1
}

// itemCount is a number with a word or letter behind it, as credits and hours have it.
var itemCount = matching(`^[^.;\n]{0,40}?\b\d{1,3}(?:[.,]\d{1,2})? ?\p{L}`)

// itemDays returns three and more days with a number of something behind each: a list of courses
// or sessions.
func (l *look) itemDays() []day {
	var out []day
	for _, d := range l.listedInText() {
		text := head(l.passages[d.at.passage].text[d.at.span.To:], 60)
		for _, next := range l.days {
			if next.at.passage == d.at.passage && next.at.span.From >= d.at.span.To {
				text = head(text, next.at.span.From-d.at.span.To)
			}
		}
		if itemCount.MatchString(fold(text)) {
			out = append(out, d)
		}
	}
	if len(out) == 2 && l.opensWithHours(out[0]) && l.opensWithHours(out[1]) {
		return out
	}
	if len(out) < 3 {
		return nil
	}
	return out
}

// opensWithHours reports a day that begins its line, with clock times behind it.
func (l *look) opensWithHours(d day) bool {
	return d.single && d.at.span.From < 6 && slices.ContainsFunc(l.clocks, func(c clockHit) bool { return c.at.passage == d.at.passage && c.at.span.From >= d.at.span.To })
}

// numberedDays returns the days of lines that are numbered as sessions are: "Session 2: 5 May 2026".
func (l *look) numberedDays() []day {
	var out []day
	stem := ""
	for _, d := range l.days {
		text := l.passages[d.at.passage].text
		m := sessionNumber.FindStringSubmatch(fold(text[max(0, l.lastDayBefore(d.at)):d.at.span.From]))
		if m == nil || d.lack != find.Whole || len(d.spans) == 0 || d.open || stem != "" && m[1] != stem {
			continue
		}
		stem = m[1]
		out = append(out, d)
	}
	if len(out) < 2 {
		return nil
	}
	return out
}

// itemOf is what a list says behind a day that begins an item of it, up to the next day.
func (l *look) itemOf(d day) (said string, begins bool) {
	text := l.passages[d.at.passage].text
	before := strings.TrimSpace(text[:d.at.span.From])
	to := len(text)
	for _, o := range l.days {
		if o.at.passage == d.at.passage && o.at.span.From >= d.at.span.To {
			to = min(to, o.at.span.From)
		}
	}
	return text[d.at.span.To:to], before == "" || numberedDay.MatchString(before+" ") || strings.ContainsAny(before[len(before)-1:], ").!?;") && l.lastDayBefore(d.at) >= 0
}

// lineDays returns days that begin lines beneath one another, one later than the other, with what was
// done on each behind it: three and more, or two where it is said on which the person was there.
func (l *look) lineDays() []day {
	least := 3
	if l.daysCame() > 0 {
		least = 2
	}
	var run []day
	for _, d := range l.days {
		said, begins := l.itemOf(d)
		plain := d.single && d.lack == find.Whole && len(d.spans) == 1 && slices.Contains([]role{noRole, isEvent}, d.role)
		said = strings.TrimLeft(said, " –—-:|,")
		if !plain || !begins || len(said) < 4 || len(said) > 90 || hasFigure(head(said, 1)) {
			continue
		}
		if n := len(run); n > 0 && (d.at.passage > run[n-1].at.passage+1 || !run[n-1].spans[0].Start.Before(d.spans[0].Start)) {
			if n >= least {
				break
			}
			run = nil
		}
		run = append(run, d)
	}
	if len(run) < least {
		return nil
	}
	return run
}

// sessionNumber stands before the day of a session.
var sessionNumber = matching(`^\W*(session|day|part|evening|module?|meeting|class|lesson|lecture|termin|tag|teil|abend|sitzung|modul|seance|jour|jour|journee|partie|soiree|reunion|cours|sesion|dia|parte|clase|jornada|modulo|sessie|dag|deel|avond|les|bijeenkomst|dagdeel)e?s? ?(?:n[o°º]\.? ?|nr\.? ?)?(?:\d{1,2}|[ivx]{1,4}|one|two|three|four)[.)]?[^0-9.;]{0,60}$`)

// presentMarks takes days with "present" behind them, on a paper where somebody was absent too, for
// what they are: "12 January – present" is no span that goes on.
func (l *look) presentMarks(found []day, text string) {
	for i, d := range found {
		if !d.open || !presentMark.MatchString(fold(d.at.span.Of(text))) || !slices.ContainsFunc(l.passages, func(p passage) bool { return absentWord.MatchString(fold(p.text)) }) {
			continue
		}
		whole := d.at.span.Of(text)
		if f := find.Dates(whole[:max(0, strings.LastIndexAny(whole, "-–—"))], l.langs); len(f) == 1 && f[0].Lack == find.Whole {
			found[i].open, found[i].single, found[i].at.span.To = false, true, d.at.span.From+f[0].To
			for k := range found[i].spans {
				found[i].spans[k].End, found[i].spans[k].To = found[i].spans[k].Start, found[i].spans[k].From
			}
		}
	}
}

var (
	presentMark = matching(`presente?s?$`)
	absentWord  = words(`absente?s?|absent|excused|missed|ausente|falto|excusee?`)
)

// boxRoles takes days that fill boxes for those of the event, and for none by which a paper is dated.
func (l *look) boxRoles() {
	for _, b := range l.boxDays() {
		for i := range l.days {
			if l.days[i].at == b.at {
				l.days[i].role, l.days[i].alone, l.days[i].weak, l.days[i].label = isEvent, false, false, ""
			}
		}
	}
}

// alike reports days of a list beyond doubt: three and more, each with a figure besides, or all of
// the same day of the week.
func (l *look) alike(list []day) bool {
	figures := true
	for _, d := range list {
		text := l.passages[d.at.passage].text
		figures = figures && hasFigure(text[:d.at.span.From]+text[d.at.span.To:])
	}
	other := slices.ContainsFunc(l.days, func(d day) bool {
		return d.alone && d.single && d.lack == find.Whole && d.label == "" && !placeGiven(l.passages[d.at.passage].text[:d.at.span.From]) && !slices.ContainsFunc(list, func(o day) bool { return o.at == d.at })
	})
	return len(list) > 2 && (figures && l.kind == paper.Transcript || sameWeekday(list) && !other)
}
