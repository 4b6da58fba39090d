package extract

import (
	"slices"

	"evidencevault/credit"
	"evidencevault/extract/find"
)

// A letter leaves the year out of a day that its own date gives: "you spoke to us last
// Tuesday, 18 November".

// addYearless adds days and spans without a year, where the days that the paper gives
// whole say nothing of an event: each is the last such day up to the first of these.
func (l *look) addYearless() {
	l.addBegun()
	l.addSiblings()
	written := slices.IndexFunc(l.days, func(d day) bool { return d.single && d.lack == find.Whole && !d.open && (d.alone || d.role == isIssue) })
	if written < 0 {
		return
	}
	other := slices.ContainsFunc(l.days, func(d day) bool {
		return d.lack == find.Whole && !d.alone && !slices.Contains([]role{isIssue, isOther, isPaid, isPublished, isAccepted}, d.role)
	})
	by := l.days[written].spans[0].Start
	for i, p := range l.passages {
		for _, d := range find.Dates(p.text, l.langs) {
			if d.Lack != find.NoYear || d.Form == find.Relative || len(d.Readings) != 1 || l.hasDay(i, d.Span) || other && !pastBehind.MatchString(fold(head(p.text[d.To:], 30))) || slices.ContainsFunc(find.Ranges(p.text, l.langs), func(r find.Range) bool { return r.Overlaps(d.Span) }) {
				continue
			}
			if s, ok := stretchBy(d.Readings[0], d.Readings[0], by); ok {
				l.addDay(day{at: at{i, d.Span}, single: true, spans: []find.Stretch{s}}, p.text)
			}
		}
		for _, r := range find.Ranges(p.text, l.langs) {
			if m := yearAhead.FindStringSubmatch(p.text[:r.From]); m != nil && r.Lack == find.NoYear && !r.Open && len(r.Readings) == 1 && !l.hasDay(i, r.Span) {
				if s, ok := stretchFrom(r.Readings[0].From, r.Readings[0].To, numberOf(m[1])); ok {
					l.addDay(day{at: at{i, r.Span}, spans: []find.Stretch{s}}, p.text)
				}
				continue
			}
			if other && !pastBehind.MatchString(fold(head(p.text[r.To:], 30))) {
				continue
			}
			if r.Lack != find.NoYear || r.Open || len(r.Readings) != 1 || l.hasDay(i, r.Span) {
				continue
			}
			if s, ok := stretchBy(r.Readings[0].From, r.Readings[0].To, by); ok {
				l.addDay(day{at: at{i, r.Span}, spans: []find.Stretch{s}}, p.text)
			}
		}
	}
}

// addSiblings adds a day without its year that stands with its weekday behind a whole day of the same
// passage, in whose year it has that weekday: "on Tuesday 12 May 2026 … and on Thursday 14 May".
func (l *look) addSiblings() {
	for i, p := range l.passages {
		for _, d := range find.Dates(p.text, l.langs) {
			if d.Lack != find.NoYear || !d.HasWeekday || d.Form == find.Relative || len(d.Readings) != 1 || l.hasDay(i, d.Span) {
				continue
			}
			k := slices.IndexFunc(l.days, func(o day) bool {
				return o.at.passage == i && o.single && o.lack == find.Whole && len(o.spans) == 1 && o.at.span.To <= d.From && d.From-o.at.span.To < 160 && slices.Contains([]role{noRole, isEvent}, o.role)
			})
			if k < 0 {
				continue
			}
			year, _, _ := l.days[k].spans[0].Start.YMD()
			on, ok := d.Readings[0].In(year)
			if gap := on.Sub(l.days[k].spans[0].Start); !ok || on.Weekday() != d.Weekday || gap < 1 || gap > 100 {
				continue
			}
			l.addGiven(at{i, d.Span}, d.Readings[0], d.Readings[0], year)
		}
	}
}

// yearAhead ends in front of a span of which it gives the year: "ejercicio 2026 (1 de enero a 31 de
// diciembre)".
var yearAhead = matching(`\b((?:19|20)\d\d) ?[(:,–-]{1,2} ?$`)

// stretchFrom gives a span without a year the one in which it begins; it ends in that or the next.
func stretchFrom(from, to find.Reading, year int) (find.Stretch, bool) {
	start, ok1 := from.In(year)
	end, ok2 := to.In(year)
	if ok2 && end.Before(start) {
		end, ok2 = to.In(year + 1)
	}
	return find.Stretch{Start: start, End: end, From: from, To: to}, ok1 && ok2
}

// addBegun adds a day without a year on which a sentence says that something was begun, where the next
// day given whole is that on which it ended: "which you had started on 1 August".
func (l *look) addBegun() {
	for i, p := range l.passages {
		for _, d := range find.Dates(p.text, l.langs) {
			if d.Lack != find.NoYear || d.Form == find.Relative || len(d.Readings) != 1 || l.hasDay(i, d.Span) {
				continue
			}
			before, after := fold(tail(p.text[:d.From], 60)), fold(head(p.text[d.To:], 40))
			if !begunBefore.MatchString(before) && !begunBehind.MatchString(after) {
				continue
			}
			ended := l.endedAfter(i)
			if ended.IsZero() {
				continue
			}
			if s, ok := stretchBy(d.Readings[0], d.Readings[0], ended); ok && s.Start.Before(ended) {
				l.addDay(day{at: at{i, d.Span}, single: true, spans: []find.Stretch{s}}, p.text)
				begun := &l.days[len(l.days)-1]
				begun.role, begun.sure, begun.hangs = isStart, true, onEvent
			}
		}
	}
}

// endedAfter is the one day given whole in a passage or, where it has none, right before or behind it;
// zero where there are several.
func (l *look) endedAfter(passage int) credit.Date {
	var out credit.Date
	for _, near := range [][2]int{{passage, passage}, {passage - 1, passage + 1}} {
		for _, d := range l.days {
			if d.at.passage < near[0] || d.at.passage > near[1] || !d.single || d.lack != find.Whole || len(d.spans) != 1 || slices.Contains([]role{isIssue, isOther, isPaid}, d.role) {
				continue
			}
			if !out.IsZero() && out != d.spans[0].Start {
				return credit.Date{}
			}
			out = d.spans[0].Start
		}
		if !out.IsZero() {
			return out
		}
	}
	return out
}

var (
	begunBefore = matching(`\b(?:beg[au]n|started|commenced|embarked|angefangen|begonnen|gestartet|commencee?|debutee?|entamee?|empezado|empezaste|empezo|comenzado|comenzaste|comenzo|iniciad[oa]|iniciaste|inicio|gestart|begon|startte)(?: (?:it|this|the course|den kurs|damit|le cours|el curso|de cursus|ermee))? (?:on(?: the)?|am|le|el(?: dia)?|op)(?: \p{L}+,?)? ?$`)
	begunBehind = matching(`^ ?(?:\p{L}+ ){0,3}?(?:begonnen|angefangen|gestartet|gestart|begon|startte|begannen)\b`)
)

// pastBehind says of a day without its year that it is of this year, or the last such day.
var pastBehind = matching(`^,? ?(?:jl|jongstleden|l\.l|dezes|van dit jaar|d\. ?j|dieses jahres|des laufenden jahres|dernier|de cette annee|de l'annee en cours|pasado|ultimo|del (?:presente|corriente)(?: ano)?|de este ano|this year|last|of this year|inst)\b`)

// stretchBy gives a day or span without a year the latest year in which it lies before by,
// or on it; ok is false where that is half a year and more away.
func stretchBy(from, to find.Reading, by credit.Date) (s find.Stretch, ok bool) {
	year, _, _ := by.YMD()
	for _, y := range []int{year, year - 1} {
		start, ok1 := from.In(y)
		end, ok2 := to.In(y)
		if ok1 && ok2 && !end.After(by) && !end.Before(start) {
			return find.Stretch{Start: start, End: end, From: from, To: to}, by.Sub(end) < 183
		}
	}
	return s, false
}
