package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// A programme may set each day over its sessions: a line with the day alone, and beneath it lines that
// each begin with from when to when something went on.

// A headedDay is such a day with the spans beneath it, breaks left out.
type headedDay struct {
	day   day
	spans []clockHit
}

// headedDays returns the days of a programme that stand over their sessions, two and more, one later
// than the other, where all clock times of the paper are theirs; nil if there is none.
func (l *look) headedDays() []headedDay {
	if l.headed == nil {
		found := l.findHeaded()
		l.headed = &found
	}
	return *l.headed
}

// findHeaded looks for them.
func (l *look) findHeaded() []headedDay {
	if len(l.clocks) < 2 {
		return nil
	}
	var out []headedDay
	counted := 0
	for _, row := range l.rows {
		if len(row) == 0 {
			continue
		}
		if d, ok := l.headDay(row); ok {
			out = append(out, headedDay{day: d})
			continue
		}
		c, ok := l.opensRow(row[0])
		if !ok || len(out) == 0 {
			continue
		}
		counted++
		if !l.rowPauses(row, c) && !l.rowMissed(row) {
			out[len(out)-1].spans = append(out[len(out)-1].spans, c)
		}
	}
	out = slices.DeleteFunc(out, func(h headedDay) bool { return len(h.spans) == 0 })
	if counted < len(l.clocks) || len(out) < 2 || !slices.IsSortedFunc(out, func(a, b headedDay) int { return a.day.spans[0].Start.Compare(b.day.spans[0].Start) }) {
		return nil
	}
	return out
}

// headDay returns the day that alone fills a row.
func (l *look) headDay(row []int) (day, bool) {
	if len(row) != 1 {
		return day{}, false
	}
	for _, d := range l.daysIn(row) {
		if d.single && d.lack == find.Whole && len(d.spans) == 1 && len(strings.Trim(l.cells[row[0]].text, " :")) <= d.at.span.To-d.at.span.From+2 {
			return d, true
		}
	}
	return day{}, false
}

// opensRow returns the span of the day with which a cell begins.
func (l *look) opensRow(ci int) (clockHit, bool) {
	w := l.whole(ci)
	for _, c := range l.clocks {
		if c.at.overlaps(w) && c.at.span.From-w.span.From < 3 && c.clock.Minutes > 0 && !c.clock.PastMidnight {
			return c, true
		}
	}
	return clockHit{}, false
}

// rowPauses reports a row of a programme in which nothing but a break, or the arrival, stands with its
// hours.
func (l *look) rowPauses(row []int, c clockHit) bool {
	w := l.whole(row[0])
	said := fold(l.passages[w.passage].text[min(c.at.span.To, w.span.To):w.span.To])
	for _, ci := range row[1:] {
		said += " " + fold(l.cells[ci].text)
	}
	said = strings.Trim(said, " –—-:|,")
	return len(strings.Fields(said)) < 5 && (breakSaid.MatchString(said+" ") || arrival.MatchString(said)) && !pauseTalk.MatchString(said+" ")
}

// rowMissed reports a row that says, or shows by a mark, that the person was not there.
func (l *look) rowMissed(row []int) bool {
	return slices.ContainsFunc(row[1:], func(ci int) bool {
		text := l.cells[ci].text
		return absentMark.MatchString(firstMark(text)) || notThere.MatchString(fold(text)+" ")
	})
}

// pauseTalk is something that goes on while others rest.
var pauseTalk = words(`lecture|talk|session|meeting|discussion|vortrag|diskussion|sitzung|conference|discussion|seance|ponencia|charla|sesion|lezing|discussie|sessie`)

// headedTime adds up the sessions beneath such days.
func (l *look) headedTime() (timed, bool) {
	var sum credit.Minutes
	list := l.headedDays()
	if len(list) == 0 || len(l.series) > 1 {
		return timed{}, false
	}
	sure := l.kind != paper.Instruction // who speaks is seldom the speaker of it all
	for _, h := range list {
		for i, c := range h.spans {
			sum += c.clock.Net()
			sure = sure && !c.clock.HalfGuessed && (i == 0 || h.spans[i-1].clock.To <= c.clock.From)
		}
	}
	return timed{guess: guess{text: minutesText(sum), at: list[0].spans[0].at, score: 70, why: "the sessions beneath each day add up to it", sure: sure}, minutes: sum, level: 3}, sum > 0
}

// isHeaded reports a day that stands over its sessions.
func (l *look) isHeaded(d day) bool {
	return slices.ContainsFunc(l.headedDays(), func(h headedDay) bool { return h.day.at == d.at })
}

// headRoles takes such days for those of the event, whatever else is dated by one of them.
func (l *look) headRoles() {
	for i := range l.days {
		if l.isHeaded(l.days[i]) {
			l.days[i].role, l.days[i].alone, l.days[i].weak, l.days[i].label, l.days[i].sure, l.days[i].hangs = isEvent, false, false, "", true, onEvent
		}
	}
}

// headedSpan returns the first and the last of them.
func (l *look) headedSpan() (start, end *pick) {
	list := l.headedDays()
	if len(list) < 2 {
		return nil, nil
	}
	s, e := starts(list[0].day), ends(list[len(list)-1].day)
	s.sure, e.sure = true, true
	return &s, &e
}
