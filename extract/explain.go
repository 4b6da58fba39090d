package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// What a paper holds and the reading does not explain lowers certainty: a day that nothing
// speaks of may be the one that is wanted, a length that fits nowhere may be a break or a part.

// eventSaid are words that say of a day that something took place on it.
var eventSaid = words(`held|took place|taking place|attend\w*|participa\w*|took part|present(?:ed)?|gave|given|delivered|conducted|joined|completed|live|course|seminar|workshop|webinar|conference|congress|symposium|lecture|talk|meeting|session|training|class|evening|date|dates|durchgefuhrt|stattgefunden|stattfand|teilgenommen|teilnahme|besucht\w*|gehalten|seminar\w*|kurs\w*|lehrgang\w*|schulung\w*|tagung\w*|veranstaltung\w*|sitzung\w*|vortrag\w*|fortbildung\w*|unterweisung|termin|a (?:suivi|participe|assiste|anime|pris part)|formation|journee|stage|seminaire|reunion|conference|atelier|s'est (?:tenue?|deroulee?)|asisti\w*|celebrad[oa]s?|impartid[oa]s?|realizad[oa]s?|curso|jornadas?|taller|sesion|gehouden|deelgenomen|bijgewoond|gevolgd|cursus|studiedag|bijeenkomst|vergadering|opleiding|nascholing|workshop|lezing`)

// explained reports a day of which a label, or a word that is not a small one only, says
// what it is.
func (l *look) explained(d day) bool {
	switch d.role {
	case noRole, isBare:
		return false
	case isEvent:
		if d.label != "" && d.sure {
			return !d.guessed
		}
		return l.tookPlace(d)
	case isIssue:
		return !d.weak
	}
	return d.sure
}

// tookPlace reports that the sentence with a day, which may begin in the lines before, says
// that something took place on it.
func (l *look) tookPlace(d day) bool {
	before, after := l.around(d.at)
	for i := d.at.passage - 1; i >= max(0, d.at.passage-4) && d.at.span.From < 12; i-- {
		before = l.folded[i] + " " + before
	}
	said := eventSaid.MatchString(before) || eventSaid.MatchString(after)
	return said || l.kind == paper.Credential && (examWords.MatchString(before) || examWords.MatchString(after))
}

// strayDays returns whole days that the paper does not explain, and that are none of those
// taken, nor within them.
func (l *look) strayDays(taken ...*pick) []day {
	var from, to credit.Date
	for _, p := range taken[:2] {
		if p == nil || len(p.days) == 0 {
			continue
		}
		if from.IsZero() || p.days[0].Before(from) {
			from = p.days[0]
		}
		if to.IsZero() || p.days[0].After(to) {
			to = p.days[0]
		}
	}
	var out []day
	for _, d := range l.days {
		if d.lack != find.Whole || len(d.spans) == 0 || l.inSeries(d.at) || l.explained(d) {
			continue
		}
		s := d.spans[0]
		if !from.IsZero() && !s.Start.Before(from) && !s.Start.After(to) {
			continue
		}
		if slices.ContainsFunc(taken, func(p *pick) bool { return p != nil && (p.at == d.at || slices.Contains(p.days, s.Start)) }) {
			continue
		}
		out = append(out, d)
	}
	return out
}

// dayAt returns the day of a pick.
func (l *look) dayOfPick(p *pick) (day, bool) {
	k := slices.IndexFunc(l.days, func(d day) bool { return d.at == p.at })
	if k < 0 {
		return day{}, false
	}
	return l.days[k], true
}

// firm reports a day that may be certain though another stands unexplained on the paper: a
// label or a span says what it is.
func (l *look) firm(p *pick) bool {
	d, ok := l.dayOfPick(p)
	return !ok || l.inSeries(d.at) || d.sure && d.hangs == onEvent || d.sure && d.label != "" && !d.guessed && d.role != isBare || d.role != isEvent && d.role != noRole && d.role != isBare && d.sure
}

// saidOnly are the kinds of which a paper has other days as well as that of the activity, so
// that one of which nothing says what it is may be any of them.
var saidOnly = []paper.Kind{paper.Receipt, paper.Employment, paper.Credential}

// doubtDays takes the certainty from days that are only taken because nothing else was.
func (l *look) doubtDays(start, end, issue *pick) {
	stray := l.strayDays(start, end, issue)
	for _, p := range []*pick{start, end} {
		if p == nil {
			continue
		}
		d, ok := l.dayOfPick(p)
		switch {
		case !ok || p.said || l.inSeries(d.at) || l.isHeaded(d):
		case d.hangs == onUnknown && d.role != isOther || d.cut || l.unsaid(d, issue):
			p.sure = false
		case len(stray) > 0 && !l.firm(p):
			p.sure = false
		case d.single && d.label != "" && d.guessed && d.role == isEvent && !l.tookPlace(d):
			p.sure = false // the label is not known
		case slices.Contains(saidOnly, l.kind) && !l.explained(d) && d.single:
			p.sure = false
		}
	}
	if l.kind == paper.Publication && end != nil && !end.said && l.otherDays(end) {
		unsure(end)
	}
	if l.far(start, issue) || l.far(end, issue) || l.unjoined(start, end) {
		unsure(start, end)
	}
	if open := l.openDays(start, end); len(open) > 0 {
		unsure(open...)
	}
	if issue != nil && len(issue.days) > 0 {
		late := l.kind == paper.Membership && (end == nil || len(end.days) == 0 || !issue.days[0].Before(end.days[0]))
		if d, ok := l.dayOfPick(issue); ok && !l.explained(d) && (len(stray) > 0 || late) && !l.signedDay(d) {
			issue.sure = false
		}
	}
}

// unsaid reports a day of a sentence in which no verb or noun says that it is the event's, on a
// paper that has other days besides that of issue: perhaps it is one of those. Days that are said
// to be others are none of them.
func (l *look) unsaid(d day, issue *pick) bool {
	if d.role != isEvent || d.label != "" || d.hangs != onNothing || d.alone {
		return false
	}
	return slices.ContainsFunc(l.days, func(o day) bool {
		if l.inOneList(d, o) || l.inOneList(o, d) {
			return false
		}
		if o.role == isOther && o.sure || issue != nil && issue.sure && o.at == issue.at && len(o.spans) > 0 && len(d.spans) > 0 && !o.spans[0].Start.Before(d.spans[0].End) {
			return false
		}
		return o.at != d.at && o.lack == find.Whole && o.role != isIssue && len(o.spans) > 0 && len(d.spans) > 0 && o.spans[0].Start != d.spans[0].Start && o.spans[0].End != d.spans[0].End
	})
}

// otherDays reports whole days besides one that no label and no word for accepting or
// publishing gives: what was received or decided has a day too.
func (l *look) otherDays(p *pick) bool {
	d, ok := l.dayOfPick(p)
	if ok && slices.Contains([]role{isAccepted, isPublished, isFinish}, d.role) || !ok && slices.ContainsFunc(l.folded, acceptedToday.MatchString) {
		return false
	}
	return slices.ContainsFunc(l.days, func(o day) bool {
		return o.at != d.at && o.lack == find.Whole && len(o.spans) > 0 && !slices.Contains(p.days, o.spans[0].Start) && o.role != isIssue
	})
}

// acceptedToday says of a text that it was accepted on the day of the letter.
var acceptedToday = matching(`\b(?:today|this (?:morning|afternoon)|heute|aujourd'hui|ce jour|hoy|vandaag|heden)\b[^.;:\d]{0,40}\b` + acceptVerbs + `\b|\b` + acceptVerbs + `\b[^.;:\d]{0,40}\b(?:today|this (?:morning|afternoon)|heute|aujourd'hui|ce jour|hoy|vandaag|heden)\b`)

func unsure(picks ...*pick) {
	for _, p := range picks {
		if p != nil {
			p.sure = false
		}
	}
}

// unjoined reports a first and a last day that nothing joins, of which one may be another day.
func (l *look) unjoined(start, end *pick) bool {
	if start == nil || end == nil || start.at.passage == end.at.passage {
		return false
	}
	a, ok1 := l.dayOfPick(start)
	b, ok2 := l.dayOfPick(end)
	loose := func(d day) bool { return d.role == isEvent && !l.explained(d) && !l.inSeries(d.at) && !l.isHeaded(d) }
	return ok1 && ok2 && (loose(a) || loose(b))
}

// openDays returns those of the two days that would be others if the paper were of another
// kind that it may be.
func (l *look) openDays(start, end *pick) []*pick {
	kept, days := l.kind, slices.Clone(l.days)
	defer func() { l.kind, l.days = kept, days }()
	var out []*pick
	for _, k := range l.rivals {
		l.kind, l.days = k, slices.Clone(days)
		s, e := l.eventDates()
		if differ(s, start) {
			out = append(out, start)
		}
		if differ(e, end) && (e != nil || k == paper.NotEvidence) {
			out = append(out, end)
		}
	}
	return out
}

func differ(a, b *pick) bool {
	return (a == nil) != (b == nil) || a != nil && !slices.Equal(a.days, b.days)
}

// far reports a day of something done once that lies years before the paper was made.
func (l *look) far(p, issue *pick) bool {
	if p == nil || issue == nil || len(p.days) == 0 || len(issue.days) == 0 || slices.Contains([]paper.Kind{paper.Employment, paper.Membership, paper.Transcript}, l.kind) {
		return false
	}
	return issue.days[0].Sub(p.days[0]) > 500
}

// signedDay reports a day with a place before it, as papers are signed.
func (l *look) signedDay(d day) bool {
	before := l.passages[d.at.passage].text[:d.at.span.From]
	return strings.TrimSpace(before) != "" && placeGiven(before)
}

// timeWithin reports clock times that lie within those that were counted, and of which
// nothing says what they are: perhaps a break.
func (l *look) timeWithin(counted []clockHit) bool {
	return slices.ContainsFunc(l.clocks, func(c clockHit) bool {
		if p, ok := l.labelOf(c.at); ok && p.role == isBreak || l.inSeries(c.at) {
			return false
		}
		return slices.ContainsFunc(counted, func(o clockHit) bool {
			inside := o.clock.From < c.clock.From && c.clock.To < o.clock.To && len(o.clock.Breaks) == 0
			return inside && c.clock.Minutes*3 < o.clock.Minutes && !breakWord.MatchString(l.folded[c.at.passage])
		})
	})
}

// breakWord says that clock times are those of a break.
var breakWord = words(`breaks?|lunch|tea|coffee|pausen?|mittag\w*|kaffee\w*|pauses?|dejeuner|pausas?|descansos?|almuerzo|pauzes?|lunchpauze`)

// partLength reports a stated length that may be only a part, or one of several: a count
// stands before it, or it is short and nothing says that it is the whole time.
func (l *look) partLength(t timed, others []timed) bool {
	if t.level != 4 || t.why != "it is stated" || slices.ContainsFunc(others, func(o timed) bool { return o.minutes == t.minutes && o.level < t.level }) {
		return false
	}
	if p, ok := l.labelOf(t.at); ok && p.role != noRole && !p.guessed && p.value.span.From == t.at.span.From {
		return false
	}
	before, after := l.around(t.at)
	if countNear.MatchString(before) && !wholeBehind.MatchString(after) || eachAfter.MatchString(after) {
		return true
	}
	return t.minutes < 60 && !eventSaid.MatchString(head(after, 24)) && !itTook.MatchString(before)
}

// itTook ends in front of the time that a talk is said to have taken.
var itTook = matching(`\b(?:talk|lecture|paper|presentation|vortrag|referat|expose|conference|communication|ponencia|charla|conferencia|lezing|voordracht) (?:lasted|took|ran for|dauerte|a dure|duro|duurde)(?: (?:about|exactly|genau|exactement))? ?$`)

// countNear is a count of things, or a length in a unit that is not known, right before a length.
var (
	countNear = matching(`(?:^|[\s(])(?:\d{1,3}|two|three|four|five|six|seven|eight|nine|ten|twelve|zwei|drei|vier|funf|sechs|acht|zehn|zwolf|deux|trois|quatre|cinq|six|huit|dix|dos|tres|cuatro|cinco|seis|ocho|diez|twee|drie|vijf|zes|acht|tien) \p{L}{3,}(?: \p{L}+)?[ ,(]*(?:of|a|de|von|zu|je|van|x|for|mit)? ?$`)
	eachAfter = matching(`^ ?(?:each|apiece|per|jeweils|chacune?s?|cada un[oa]|elk)\b`)
)

// doubtName takes the certainty from a name that only a form of address or its place shows,
// where another person stands on the paper, and from one of three words, of which the first
// may be an office, unless a label gives it.
func (l *look) doubtName(list []guess) {
	if len(list) == 0 || strings.HasPrefix(list[0].why, "it stands with the label") || l.kind == paper.Receipt {
		return
	}
	top := &list[0]
	if top.why == "it stands with a form of address" && top.score < 94 && slices.ContainsFunc(list[1:], func(g guess) bool {
		full, _ := nameWords(g.text)
		return full > 1 && (g.score >= 40 || top.score < 86) && !samePerson(g.text, top.text) && !l.closing.signs[g.at.passage]
	}) {
		top.sure = false
	}
	full, _ := nameWords(top.text)
	again := strings.Count(l.all, fold(top.text)) > 1
	given := top.why == aloneOnLine && top.score >= 88 // the line before gives the paper to it
	if full > 2 && l.lang != find.Spanish && top.why != numberUnder && !given && !again && !strings.Contains(fold(top.text), " de ") {
		top.sure = false
	}
}

// ofSomebody are the kinds of a paper that proves what one person did.
var ofSomebody = []paper.Kind{paper.Attendance, paper.Completion, paper.Instruction, paper.Credential}

// doubtNobody takes the certainty from the kind where the paper names nobody who did it, and
// speaks to nobody: it may announce what it seems to prove.
func (l *look) doubtNobody() {
	v := l.out.Values[paper.FieldKind]
	if _, ok := l.out.Values[paper.FieldAttendee]; ok || !v.Certain || !slices.Contains(ofSomebody, l.kind) || didIt.MatchString(l.all) || provesHead.MatchString(l.headings()) || l.doc.Mail != nil && l.doc.Mail.To != "" {
		return
	}
	first := guess{text: string(l.kind), at: l.passageAt(0), why: l.why}
	rivals := []guess{first, {text: string(paper.NotEvidence), at: first.at, why: "nothing in it says that somebody took part, finished, paid or was certified"}}
	l.rivals = append(l.rivals, paper.NotEvidence)
	l.question(paper.FieldKind, &v, rivals, "What does this paper prove: "+orList(rivals, func(g guess) string { return g.text })+"?")
	l.out.Values[paper.FieldKind] = v
}

// doubtBody takes the certainty from a line that only its place shows to be a body, where it is
// named like an event or a paper, from more than its name, and from all while the paper may prove nothing.
func (l *look) doubtBody(list []guess) []guess {
	if len(list) == 0 {
		return list
	}
	list = best(list)
	top := &list[0]
	placed := strings.HasPrefix(top.why, "it stands at the") || strings.HasPrefix(top.why, "it stands near")
	alone := strings.Count(l.all, fold(top.text)) < 2
	switch {
	case slices.Contains(l.rivals, paper.NotEvidence):
		top.sure = false
	case placed && !l.isBody(top.text) && alone && (hasFigure(top.text) || strings.Contains(top.text, " - ") || eventSaid.MatchString(fold(top.text)) || provesHead.MatchString(fold(top.text))):
		top.sure = false
	case placed && moreThanName.MatchString(top.text), placed && mixedLetters(top.text):
		top.sure = false
	}
	return list
}

// moreThanName is a line in which something stands before a body, or behind its legal form.
var moreThanName = matching(`(?i)^(?:from|by|the (?:team|staff|office) (?:at|of)|on behalf of|von|par|por|door)\s|\s(?:by|that|who|dass|qui|que|die dat)\s|\b(?:ltd|inc|llc|gmbh|kg|ag|b\.?v|e\.\s?v)\.?,\s\p{L}|^(?:working group|committee|section|arbeitskreis|ausschuss|groupe de travail|grupo de trabajo|comit[eé]|werkgroep|commissie)\s.*\s(?:society|association|institute|gesellschaft|verband|verein|association|asociaci[oó]n|instituto|vereniging)\b`)

// mixedLetters reports a long first word in capitals before words that are not: a heading
// that runs into a name.
func mixedLetters(text string) bool {
	words := strings.Fields(text)
	if len(words) < 3 || len(words[0]) < 6 || !allCaps(words[0]) {
		return false
	}
	return !allCaps(words[1]) && !allCaps(words[2])
}
