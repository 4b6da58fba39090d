package extract

import (
	"slices"
	"strings"
	"time"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// pick is a day that a field may have: when its order is open, several.
type pick struct {
	days []credit.Date
	at   at
	sure bool
	why  string
	week bool

	said bool // the sentence says of this day alone what happened on it

	clash   bool         // a weekday stands with it that is another day's
	single  bool         // of one day: weekday is known
	weekday time.Weekday // see clash

	score int // of 100; 0 means what is usual for a day
}

// findDates settles the first and last day of the activity and the day of issue.
func (l *look) findDates() {
	start, end := l.eventDates()
	issue := l.issueDate(start, end)
	l.doubtDays(start, end, issue)
	l.putDay(paper.FieldStart, start, "When did it begin")
	l.putDay(paper.FieldEnd, end, "When did it end")
	l.putDay(paper.FieldIssue, issue, "When was the paper issued")
	l.checkSequence()
}

// days with one of the roles, in order of the document.
func (l *look) daysOf(roles ...role) []day {
	var out []day
	for _, d := range l.days {
		if slices.Contains(roles, d.role) {
			out = append(out, d)
		}
	}
	return out
}

func starts(d day) pick { return picked(d, func(s find.Stretch) credit.Date { return s.Start }) }
func ends(d day) pick   { return picked(d, func(s find.Stretch) credit.Date { return s.End }) }

func picked(d day, of func(find.Stretch) credit.Date) pick {
	p := pick{at: d.at, sure: d.sure, week: d.week, score: d.score(), clash: d.clash, single: d.single, weekday: d.weekday}
	for _, s := range d.spans {
		if day := of(s); !day.IsZero() && !slices.Contains(p.days, day) {
			p.days = append(p.days, day)
		}
	}
	return p
}

// score weighs how the paper says what a day is: a label of its own before a word near
// it, that before a word farther off, and a day that nothing speaks of last; more for
// what a weekday or a month in words confirms, less for a line with two days.
func (d day) score() int {
	score := 58
	switch {
	case d.label != "" && d.sure:
		score = 88
	case d.sure && !d.weak:
		score = 82
	case d.role != noRole && d.role != isBare:
		score = 68
	}
	if s := d.spans[0]; len(d.spans) == 1 && s.Weekday {
		score += 6
	}
	if !d.numeric {
		score += 4
	}
	if d.lone {
		score -= 10
	}
	return score
}

// eventDates returns the first and the last day of the activity, nil where unknown; neither is sure where a day of
// the list was not read.
func (l *look) eventDates() (start, end *pick) {
	start, end = l.daysOfKind()
	if l.kind == paper.Completion && start != nil && end != nil && !slices.Equal(start.days, end.days) && slices.ContainsFunc(l.days, func(d day) bool { return d.at == start.at && d.single && d.label != "" && d.role == isFinish && d.sure }) {
		start, end = nil, start // the day of finishing begins nothing
	}
	if l.unreadDay() {
		for _, p := range []*pick{start, end} {
			if p != nil {
				p.sure = false
			}
		}
	}
	return start, end
}

// daysOfKind returns them by what the paper proves.
func (l *look) daysOfKind() (start, end *pick) {
	switch l.kind {
	case paper.NotEvidence:
		return nil, nil
	case paper.Transcript:
		if s, e := l.seriesDates(); s != nil {
			return s, e
		}
		return l.spreadDays()
	case paper.Publication:
		if p := l.firstOf(isAccepted); p != nil {
			return nil, p
		}
		if p := l.acceptedDay(); p != nil {
			return nil, p
		}
		if p := l.firstOf(isPublished, isFinish); p != nil {
			return nil, p
		}
		if p := l.saidDay(publishedWord); p != nil {
			return nil, p
		}
		return nil, l.issueDate(nil, nil) // the day of acceptance is the letter's
	case paper.Credential:
		l.awardDays()
		return l.credentialDates()
	case paper.Membership:
		return l.membershipDates()
	case paper.Employment:
		return l.employmentDates()
	case paper.Receipt:
		return l.receiptDates()
	}
	if s, e := l.headedSpan(); s != nil {
		return s, e
	}
	if s, e := l.spreadDays(); s != nil {
		return s, e
	}
	if len(l.series) >= 2 {
		if s, e := l.seriesDates(); s != nil {
			return s, e
		}
	}
	return l.activityDates()
}

// saidDay returns the first day in a sentence that has such a word, if it is no other day.
func (l *look) saidDay(said *pattern) *pick {
	for _, d := range l.daysOf(noRole, isEvent, isBare, isTitle, isExam) {
		if d.lack == find.Whole && d.single && said.MatchString(l.folded[d.at.passage]) {
			p := ends(d)
			return &p
		}
	}
	return nil
}

// publishedWord says of a text what became of it.
var publishedWord = words(`accept\w*|acept\w+|angenommen|geaccepteerd|aanvaard|publish\w*|publicad[oa]|veroffentlicht|gepubliceerd|publiee?|parue?`)

// acceptedDay returns the day in whose clause something is said to be accepted: the word before
// it counts, up to another day or another verb, and else the word behind it.
func (l *look) acceptedDay() *pick {
	var first *pick
	for _, d := range l.days {
		if d.lack != find.Whole || !d.single || d.label != "" && !d.guessed && d.role == isIssue {
			continue
		}
		text := l.passages[d.at.passage].text
		before := fold(tail(quotation.ReplaceAllString(text[max(0, l.lastDayBefore(d.at)):d.at.span.From], " "), 110))
		after := fold(head(text[d.at.span.To:], 110))
		if next := find.Dates(after, l.langs); len(next) > 0 {
			after = after[:next[0].From]
		}
		if acceptBefore.MatchString(before) || !processWord.MatchString(before+" ") && acceptBehind.MatchString(after) {
			p := ends(d)
			if first == nil {
				first, p.said = &p, p.sure && !d.cut
			} else if !slices.Equal(p.days, first.days) {
				first.said = false
			}
		}
	}
	return first
}

// What says that a text was accepted on a day, and what else happens to it before.
var (
	acceptVerbs  = `(?:accept(?:ed|ance|ing)?|accepter|acceptee?|acceptation|acept(?:ad[oa]|ar|o|acion)|angenommen|annahme|annehmen|anzunehmen|geaccepteerd|aanvaard(?:en)?|accepteren|acceptatie)`
	quotation    = matching(`["“«„][^"”»“]{2,160}["”»“]`)
	acceptBefore = matching(`\b` + acceptVerbs + `\b(?: [^.;:]{0,90})?\W*$`)
	acceptBehind = matching(`^[^.;:]{0,70}\b` + acceptVerbs + `\b`)
	processWord  = words(`received?|receipt|submitted|submission|revised|reviewed|sent|requested|recue?|soumise?|envoyee?|demandee?|revisee?|recibid[oa]|enviad[oa]|presentad[oa]|revisad[oa]|solicitad[oa]|eingegangen|eingang|eingereicht|einreichung|uberarbeitet|gesandt|ontvangen|ontvangst|ingediend|herzien|verstuurd|printed|issued|signed`)
)

// firstOf returns where the first whole day of the first of some roles ends that has one.
func (l *look) firstOf(roles ...role) *pick { return l.firstBy(ends, roles) }

// firstDay returns where it starts.
func (l *look) firstDay(roles ...role) *pick { return l.firstBy(starts, roles) }

func (l *look) firstBy(of func(day) pick, roles []role) *pick {
	for _, r := range roles {
		for _, d := range l.daysOf(r) {
			if d.lack == find.Whole {
				p := of(d)
				return &p
			}
		}
	}
	return nil
}

// seriesDates returns the earliest and the latest day in the rows.
func (l *look) seriesDates() (start, end *pick) {
	lost := l.lostRows()
	sure := len(lost) == 0
	for _, r := range append(slices.Clone(l.series), line{days: lost}) {
		for _, d := range r.days {
			s, e := starts(d), ends(d)
			s.sure, e.sure = sure, sure
			if len(s.days) == 0 || len(e.days) == 0 || d.lack != find.Whole || d.role == isOther && !l.inColumn(d, r) {
				continue
			}
			if start == nil || s.days[0].Before(start.days[0]) {
				start = &s
			}
			if end == nil || e.days[0].After(end.days[0]) {
				end = &e
			}
		}
	}
	return start, end
}

// inColumn reports that a day of a row stands by itself in its cell.
func (l *look) inColumn(d day, r line) bool {
	if holdsLabel.MatchString(d.label) || holdsLabel.MatchString(l.headOver(d.at)) {
		return false
	}
	return len(r.cells) > 1 && len(strings.TrimSpace(l.cells[l.cellAt(d.at)].text)) <= d.at.span.To-d.at.span.From+4
}

// lostRows returns days that stand in the column of those of the list, above or beneath them, in rows
// that were not taken for rows of it: cells that run over two lines can part a list.
func (l *look) lostRows() []day {
	if l.lost == nil {
		l.lost = new(l.findLost())
	}
	return *l.lost
}

// findLost looks for them.
func (l *look) findLost() []day {
	if !l.boxed || l.kind != paper.Transcript {
		return nil
	}
	var out []day
	for _, d := range l.days {
		c := &l.cells[l.cellAt(d.at)]
		if d.lack != find.Whole || d.role != noRole && d.role != isEvent && !(d.role == isIssue && d.label == "") || l.inSeries(d.at) || d.at.span.From > 4 {
			continue
		}
		if l.inDayColumn(c) {
			out = append(out, d)
		}
	}
	return out
}

// inDayColumn reports a cell in line with the days of the list; on another page, one that begins a row of as many cells.
func (l *look) inDayColumn(c *cell) bool {
	return slices.ContainsFunc(l.series, func(r line) bool {
		if len(r.days) == 0 || len(r.cells) < 2 {
			return false
		}
		o := &l.cells[l.cellAt(r.days[0].at)]
		if o.page == c.page {
			return abs(o.box[0]-c.box[0]) < 40 || c.confidence < 100 && abs(o.box[0]-c.box[0]) < o.box[3]-o.box[1]
		}
		return len(r.cells) > 2 && len(l.rows[c.row]) >= len(r.cells) && &l.cells[l.rows[c.row][0]] == c
	})
}

// unreadDay reports figures in the column of the days of the list, on a picture, that recognition made no day of.
func (l *look) unreadDay() bool {
	for ci := range l.cells {
		c := &l.cells[ci]
		if c.confidence < 100 && dayFigures.MatchString(c.text) && !l.holdsWholeDay(c.text) && len(find.Clocks(c.text, l.langs)) == 0 && l.underDays(c) {
			return true
		}
	}
	return false
}

// holdsWholeDay reports a text with a day behind which nothing goes on.
func (l *look) holdsWholeDay(text string) bool {
	return slices.ContainsFunc(find.Dates(text, l.langs), func(d find.Date) bool {
		return d.To == len(text) || strings.ContainsAny(text[d.To:d.To+1], " ,;:)-.") || text[d.To] > 127
	})
}

// underDays reports a cell in line with two others at least that begin with a day.
func (l *look) underDays(c *cell) bool {
	n := 0
	for _, d := range l.days {
		if o := &l.cells[l.cellAt(d.at)]; o.page == c.page && d.at.span.From-o.from < 5 && abs(o.box[0]-c.box[0]) < o.box[3]-o.box[1] && (d.role == noRole || d.role == isEvent) {
			n++
		}
	}
	return n > 1
}

// dayFigures look like a day, though they are none.
var dayFigures = matching(`\d[^\s\d]{0,2}\d?[./-]\S{0,4}\d{3}|\d{1,2}[./-]\S{1,3}[./-]\S{2,5}$|\d[/.-]\S*\s?\S{0,3}[/.-]\d{2}`)

// activityDates is for what is done once: a course, a meeting, a talk.
func (l *look) activityDates() (start, end *pick) {
	if p := l.talkDay(); p != nil {
		return p, p
	}
	if s, e := l.heldSpan(false); s != nil {
		return s, e
	}
	if s, e := l.firstDay(isStart), l.firstOf(isEnd, isFinish); l.kind == paper.Meeting && l.labelledDay(isStart) == nil {
		// "matters arising from 20 January" begins nothing
	} else if s != nil && e == nil && l.kind == paper.Completion {
		return s, l.doneAfter(s)
	} else if s != nil && e != nil {
		return s, e
	} else if s != nil {
		if ev := l.firstDay(isEvent); ev == nil {
			return s, l.sameDay(s)
		}
	}
	done := l.lastFinish()
	if last := l.firstOf(isEnd); done == nil && last != nil && l.kind == paper.Completion && len(l.daysOf(isEvent)) == 0 {
		return nil, last
	}
	if ev := l.manyDays(); ev != nil && !(l.kind == paper.Completion && done != nil) {
		if l.kind == paper.Completion && len(l.clocks) == 0 && ev[0].at == ev[1].at {
			return nil, &ev[1]
		}
		return &ev[0], &ev[1]
	}
	if done != nil {
		if l.kind != paper.Completion && len(l.clocks) > 0 {
			return done, done
		}
		return nil, done
	}
	if s, e := l.heldSpan(true); s != nil {
		return s, e
	}
	return l.fallbackDay()
}

// doneAfter returns the one day after a beginning in whose clause something was done, or that stands in
// one sentence or paragraph with it: "finished it on".
func (l *look) doneAfter(start *pick) *pick {
	var out *pick
	for _, d := range l.daysOf(isEvent) {
		p := ends(d)
		if !d.single || d.lack != find.Whole || d.hangs != onEvent && d.at.passage != start.at.passage || l.behindIssue(d) || len(p.days) != 1 || len(start.days) != 1 || !start.days[0].Before(p.days[0]) {
			continue
		}
		if out != nil && out.days[0] != p.days[0] {
			return nil
		}
		out = &p
	}
	return out
}

// lastFinish returns the last of the days on which something was finished, of which the others
// are those of its parts.
func (l *look) lastFinish() *pick {
	var last *pick
	several := false
	for _, d := range l.daysOf(isFinish) {
		p := ends(d)
		if d.lack != find.Whole || len(p.days) == 0 {
			continue
		}
		several = several || last != nil && !slices.Contains(last.days, p.days[0])
		if last == nil || len(last.days) == 1 && len(p.days) == 1 && last.days[0].Before(p.days[0]) {
			last = &p
		}
	}
	if several {
		last.sure = false
	}
	return last
}

// heldSpan returns the first and the last day of the first span that may be the event's, or
// of one that has only a beginning: "member since" is seldom a course.
func (l *look) heldSpan(open bool) (start, end *pick) {
	roles := []role{isEvent, isBare, isTitle, noRole, isStart, isEnd, isFinish, isTime, isDuration, isPlace, isAttended}
	for _, d := range l.days {
		if d.lack != find.Whole || d.single || d.open != open || !slices.Contains(roles, d.role) || l.behindIssue(d) || l.kind == paper.Completion && d.hangs == onNothing && d.role == isEvent && d.label == "" && len(l.daysOf(isFinish)) > 0 {
			continue
		}
		s, e := starts(d), ends(d)
		s.sure, e.sure = true, true
		if open {
			return &s, nil
		}
		return &s, &e
	}
	return nil, nil
}

// behindIssue reports a day that no label explains, after the one on which the paper was made:
// what it certifies was over by then.
func (l *look) behindIssue(d day) bool {
	if l.kind == paper.Receipt || d.label != "" && !d.guessed || len(d.spans) != 1 {
		return false
	}
	var made credit.Date
	for _, o := range l.daysOf(isIssue) {
		if o.single && o.lack == find.Whole && !o.weak && len(o.spans) == 1 && made.Before(o.spans[0].Start) {
			made = o.spans[0].Start
		}
	}
	return !made.IsZero() && made.Before(d.spans[0].Start)
}

// talkDay returns the one day on which a talk was given within an event of several days: a sentence
// says so, or a label gives that day and none the days of the event.
func (l *look) talkDay() *pick {
	if l.kind != paper.Instruction {
		return nil
	}
	for _, d := range l.daysOf(isEvent, noRole, isBare) {
		before := fold(tail(l.passages[d.at.passage].text[:d.at.span.From], 60)) + " "
		after := fold(head(l.passages[d.at.passage].text[d.at.span.To:], 90))
		labelled := d.role == isEvent && !d.guessed && d.sure && gaveLabel.MatchString(d.label+" ")
		if !d.single || d.lack != find.Whole || lastMatch(gaveOn, before) < len(before)-1 && !(d.hangs == onEvent && gaveBehind.MatchString(after)) && !labelled && !l.talkThen(d) {
			continue
		}
		if slices.ContainsFunc(l.days, func(o day) bool {
			return d.within(o) && (!labelled || o.label == "" || o.guessed)
		}) {
			p := starts(d)
			return &p
		}
	}
	return nil
}

// talkThen reports that the sentence of a day speaks of a talk, or gives its hours right behind, and that no
// other day without a role of its own lies within the event.
func (l *look) talkThen(d day) bool {
	if slices.ContainsFunc(l.days, func(o day) bool {
		return o.single && o.at != d.at && slices.Contains([]role{isEvent, noRole, isBare}, o.role) && len(o.spans) > 0 && len(d.spans) > 0 && o.spans[0].Start != d.spans[0].Start && slices.ContainsFunc(l.days, o.within)
	}) {
		return false
	}
	before, after := l.ownSentence(d.at)
	return talkWord.MatchString(before) || clockBehind.MatchString(after)
}

// within reports a day that lies within the span of days o.
func (d day) within(o day) bool {
	return !o.single && len(o.spans) > 0 && len(d.spans) > 0 && !d.spans[0].Start.Before(o.spans[0].Start) && !d.spans[0].End.After(o.spans[0].End)
}

// clockBehind are the hours right behind a day.
var clockBehind = matching(`^[,;]? ?\(?(?:(?:from|at|between|von|um|ab|de|a|à|desde|van|om|tussen|entre|zwischen) )?(?:las? )?\d{1,2} ?[:.h]\d{2}`)

// gaveBehind ends the sentence of a talk behind its day.
var gaveBehind = matching(`^[^.;(]{0,70}\b(?:vortrag|referat|lezing|voordracht|ponencia|conferencia|conference|expose|communication|paper|lecture|talk)\b[^.;(]{0,70}(?:gehalten|vorgetragen|gegeben|gehouden|gegeven|verzorgd|hield|gaf)?\b`)

// gaveOn stands right before the day of a talk.
var gaveOn = words(`(?:presented|given|delivered|gave .{3,40}|spoke|talk|lecture) on(?: the)?|(?:presente|prononce|donne|expose)e?s? le|(?:presentad|impartid|expuest|pronunciad|dictad)[oa]s? el(?: dia)?|(?:impartio|dicto|pronuncio|expuso|presento) el(?: dia)?|(?:gaf|hield|verzorgde|gaven|hielden|sprak|spraken) (?:\w+ )?op|(?:gehouden|gegeven|verzorgd|gepresenteerd) op|(?:vortrag|referat|gehalten|vorgetragen) am`)

// gaveLabel is a word in the label of the day on which a talk was given.
var gaveLabel = words(`given|delivered|presented|spoken|talk|lecture|paper|slot|gehalten|vorgetragen|vortrag\w*|referat\w*|presentee?|prononcee?|donnee?|exposee?|intervention|communication|impartid[oa]|presentad[oa]|dictad[oa]|expuest[oa]|pronunciad[oa]|ponencia|charla|gegeven|gehouden|gepresenteerd|lezing|voordracht`)

func (l *look) sameDay(p *pick) *pick {
	if l.kind == paper.Completion || l.kind == paper.Receipt {
		return nil
	}
	return p
}

// manyDays returns the first and last of the days on which the event was held.
func (l *look) manyDays() []pick {
	var first, last *day
	said := slices.ContainsFunc(l.days, func(d day) bool {
		return d.role == isEvent && d.lack == find.Whole && l.saidOfEvent(d) && !l.behindIssue(d)
	})
	for _, d := range l.daysOf(isEvent, isBare, isExam, isTime, isTitle, isPlace) {
		if said && (d.hangs == onUnknown || d.role == isTitle) && !l.saidOfEvent(d) {
			continue // another day is said to be the event's
		}
		if d.lack != find.Whole || d.role == isBare && first != nil && !l.inOneList(*last, d) || d.open || l.behindIssue(d) {
			continue
		}
		if first != nil && d.at.passage != first.at.passage && (!d.sure || first.label != "" && !first.guessed && !l.explained(d)) {
			continue
		}
		if first != nil && d.label == "" && d.hangs != onEvent && !l.inOneList(*last, d) && !l.inSentence(*last, d) {
			continue // another sentence, of which nothing says that it speaks of the event
		}
		if first == nil || d.spans[0].Start.Before(first.spans[0].Start) {
			first = &d
		}
		if last == nil || d.spans[0].End.After(last.spans[0].End) {
			last = &d
		}
	}
	if first == nil {
		return nil
	}
	s, e := starts(*first), ends(*last)
	return []pick{s, e}
}

// saidOfEvent reports a day that a label or a verb makes the event's.
func (l *look) saidOfEvent(d day) bool {
	return d.hangs == onEvent || d.label != "" && !d.guessed && d.sure
}

// inSentence reports that two days stand in one sentence.
func (l *look) inSentence(a, b day) bool {
	text, ok := l.between(a, b)
	return ok && !sentenceEnd.MatchString(fold(text))
}

// inOneList reports that two days stand in one list: "11/02/2026 et 12/02/2026".
func (l *look) inOneList(a, b day) bool {
	text, ok := l.between(a, b)
	return ok && listJoins.MatchString(remark.ReplaceAllString(text, ""))
}

// remark stands in brackets behind one day of a list: "11 May (all day) and 12 May".
var remark = matching(`^(?: ?\([^()]{2,40}\)|,? (?:de |von |from |van )?\d{1,2}[.:h]\d\d ?(?:-|–|bis|to|à|a|tot) ?\d{1,2}[.:h]\d\d(?: ?(?:Uhr|uur|h|pm|am))?)`)

// fallbackDay takes a day that nothing speaks of, where there is one besides the
// day of issue.
func (l *look) fallbackDay() (start, end *pick) {
	var free []day
	for _, d := range l.days {
		if (d.role == noRole || d.role == isBare || d.role == isNumber || d.role == isPerson || d.role == isAttended) && d.lack == find.Whole && !d.open {
			free = append(free, d)
		}
	}
	if len(free) == 0 {
		if a := l.firstOf(isAward); a != nil && l.kind == paper.Completion {
			return nil, a
		}
		return nil, nil
	}
	if len(l.daysOf(isIssue)) == 0 && len(free) > 1 && free[0].alone && !free[1].alone {
		free = free[1:]
	}
	s, e := starts(free[0]), ends(free[0])
	s.sure = free[0].role == isBare || len(free) == 1 && (!free[0].alone || l.besideIssue(free[0]) || l.kind == paper.Meeting && len(l.days) == 1)
	e.sure = s.sure
	if l.kind == paper.Completion {
		return nil, &e
	}
	return &s, &e
}

// besideIssue reports a day on a line of its own, not after one that is called that of issue, on a paper
// about one event: there is nothing else that it could be.
func (l *look) besideIssue(d day) bool {
	return slices.Contains([]paper.Kind{paper.Attendance, paper.Completion, paper.Instruction}, l.kind) && d.role == noRole && d.single &&
		slices.ContainsFunc(l.days, func(o day) bool {
			return o.role == isIssue && o.sure && !o.weak && o.single && len(o.spans) == 1 && len(d.spans) == 1 && !o.spans[0].Start.Before(d.spans[0].Start)
		})
}

// issueDate returns the day on which the paper says it was made or handed over.
func (l *look) issueDate(start, end *pick) *pick {
	if l.kind == paper.NotEvidence {
		return nil
	}
	if d, ok := l.sentOn(); ok && len(l.passages) > 0 {
		return &pick{days: []credit.Date{d}, at: at{0, find.Span{}}, sure: true, why: "the message was sent that day"}
	}
	var found []pick
	for _, d := range l.daysOf(isIssue) {
		if ci := l.cellAt(d.at); d.lack == find.Whole && d.single && (!l.inSeries(d.at) || beginsDated(l.cells[ci].text) || placeAndDay(l.cells[ci].text)) {
			found = append(found, starts(d))
		}
	}
	if len(found) == 0 {
		found = l.otherIssue(start, end)
	}
	if len(found) == 0 {
		return nil
	}
	p := found[0]
	for _, o := range found[1:] {
		if len(o.days) == 1 && !slices.Contains(p.days, o.days[0]) && o.sure && p.sure {
			p.days, p.why = append(slices.Clone(p.days), o.days...), "several days of issue are given"
		}
	}
	return &p
}

// otherIssue returns the day of issue where no word says which it is.
func (l *look) otherIssue(start, end *pick) (found []pick) {
	if bill := l.billDay(); l.kind == paper.Receipt && bill != nil {
		return []pick{*bill}
	}
	if l.kind == paper.Receipt {
		for _, d := range l.daysOf(isBare) {
			found = append(found, starts(d))
		}
	}
	if l.kind == paper.Employment { // a form about somebody's service is what was completed
		for _, d := range l.daysOf(isFinish) {
			if d.label != "" && d.single && d.lack == find.Whole && (end == nil || end.at != d.at) {
				found = append(found, starts(d))
			}
		}
	}
	free := l.freeDay(start, end)
	if len(found) == 0 && free != nil && free.sure {
		return []pick{*free}
	}
	for _, d := range l.daysOf(isAward) {
		if len(found) == 0 && d.lack == find.Whole {
			p := starts(d)
			p.sure = p.sure && (l.kind != paper.Credential || end != nil && end.at != d.at && len(end.days) == 1 && end.days[0].Before(p.days[0]))
			return []pick{p}
		}
	}
	if len(found) == 0 && free != nil {
		return []pick{*free}
	}
	return found
}

// sentOn returns the day on which a message was sent, where it is the paper itself.
func (l *look) sentOn() (credit.Date, bool) {
	if l.doc.Mail == nil || !l.isMessage() {
		return credit.Date{}, false
	}
	d, err := credit.ParseDate(head(l.doc.Mail.Date, 10))
	if f := find.Dates(l.doc.Mail.Date, l.langs); err != nil && len(f) == 1 && len(f[0].Days()) == 1 {
		return f[0].Days()[0], true // as somebody typed it
	}
	return d, err == nil
}

// freeDay takes a day on a line of its own, or a bare "Date:", that is not the event's.
func (l *look) freeDay(start, end *pick) *pick {
	used := func(d day) bool {
		return l.kind != paper.Publication && (start != nil && start.at == d.at || end != nil && end.at == d.at)
	}
	for i := len(l.days) - 1; i >= 0; i-- {
		d := l.days[i]
		bareLabel := d.role == isBare || d.role == isEvent && d.label == "date"
		if used(d) || d.lack != find.Whole || !d.single || l.inSeries(d.at) || !(d.alone && (d.role == noRole || d.role == isEvent) || bareLabel) {
			continue
		}
		p := starts(d)
		p.sure = d.alone || bareLabel
		return &p
	}
	if l.kind == paper.Receipt && len(l.days) > 0 {
		for _, d := range l.days {
			if !used(d) && (d.role == noRole || d.role == isEvent) && d.single && d.lack == find.Whole {
				p := starts(d)
				p.sure = p.sure || len(l.days) == 1
				return &p
			}
		}
	}
	return nil
}
