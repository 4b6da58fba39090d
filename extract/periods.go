package extract

import (
	"slices"
	"strconv"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// awardDays marks the days of a paper that says what was awarded and nothing of having
// passed: they are no days of an examination.
func (l *look) awardDays() {
	if !awardWord.MatchString(l.all) || passWord.MatchString(l.all) || len(l.daysOf(isExam)) > 0 && len(l.withRole(isExam)) > 0 {
		return
	}
	for i := range l.days {
		if d := &l.days[i]; (d.role == isEvent || d.role == isExam || d.hangs == onAward || d.role == noRole && !d.alone) && d.single {
			d.role = isAward
		}
	}
}

// givenAt begins the sentence by which a degree is given.
var givenAt = matching(`\b(?:given|done|dated|gegeben|fait|dado|gegeven)\b.{0,60}\b(?:this|on|am|le|el|op|a|den)\b`)

var (
	awardWord = words(`admitted to the (?:degree|grade|rank|status)|in den grad|admis au grade|admitid[oa] al grado|toegelaten tot de graad|conferr?ed|awarded|bestow\w*|received|verliehen|verleiht|decerne\w*|confere\w*|otorga\w*|concedi\w*|recibio|toegekend|verleend|ontving|recu`)
	passWord  = words(`calificacion de apto|apt[oa]|pass(?:ed|ing)|examined|bestanden\w*|bestand|gepruft|superad[oa]|supero|aprobad[oa]|aprobo|reussi|passe|geslaagd|slaagde|behaald|abgelegt\w*|afgelegd`)
)

func (l *look) credentialDates() (start, end *pick) {
	if s, e := l.examDays(); s != nil {
		return s, e
	}
	if d := l.firstOf(isAward, isFinish); d != nil {
		return nil, d
	}
	if d := l.firstOf(isIssue); d != nil && awardWord.MatchString(l.all) && !passWord.MatchString(l.all) && givenAt.MatchString(l.folded[d.at.passage]) {
		return nil, d // "Given at Salida this sixteenth day of May"
	}
	for _, d := range l.days {
		if (d.role == noRole || d.role == isBare) && d.lack == find.Whole && d.single {
			e := ends(d)
			return nil, &e
		}
	}
	if d := l.firstOf(isIssue); d != nil {
		d.sure = false
		return nil, d // a diploma is awarded on the day that it bears
	}
	return nil, nil
}

// validity is the period for which the card of a member holds, by labels for both ends.
func (l *look) validity() (start, end *pick) {
	for _, d := range l.days {
		switch {
		case !d.single || d.lack != find.Whole || d.label == "":
		case validFrom.MatchString(d.label):
			p := starts(d)
			start = &p
		case validTill.MatchString(d.label):
			p := ends(d)
			end = &p
		}
	}
	if start == nil || end == nil {
		return nil, nil
	}
	start.sure, end.sure = true, true
	return start, end
}

var (
	validFrom = matching(`^(?:card |membership |mitgliedschaft |carte |carne )?(?:valid|gultig|valable|valid[oa]|vigente|geldig) (?:from|ab|von|vom|a partir du|du|des|desde(?: el)?|vanaf|van)$`)
	validTill = matching(`^(?:card |membership |mitgliedschaft |carte |carne )?(?:valid|gultig|valable|valid[oa]|vigente|geldig) (?:to|until|till|through|thru|bis|jusqu'au|au|hasta(?: el)?|tot(?: en met)?)$`)
)

func (l *look) membershipDates() (start, end *pick) {
	for _, d := range l.days {
		if !d.single && d.lack == find.Whole && !d.open {
			s, e := starts(d), ends(d)
			s.sure, e.sure = true, true
			return &s, &e
		}
	}
	for _, d := range l.days {
		if d.lack == find.YearOnly && len(d.spans) > 0 || !d.single && !d.open {
			s, e := starts(d), ends(d)
			if yearNear.MatchString(fold(tail(l.passages[d.at.passage].text[:d.at.span.From], 40))+" ") || d.role == isEvent || d.label != "" {
				s.sure, e.sure = true, true
				return &s, &e
			}
		}
	}
	for _, p := range l.withRole(isEvent, isBare, isOther, isTime) {
		if year, err := strconv.Atoi(l.text(p.value)); err == nil && year > 1950 && year < 2100 && !strings.Contains(p.label, "since") {
			return &pick{days: []credit.Date{credit.Day(year, 1, 1)}, at: p.value, sure: true}, &pick{days: []credit.Date{credit.Day(year, 12, 31)}, at: p.value, sure: true}
		}
	}
	for i, p := range l.passages {
		if m := forYear.FindStringSubmatchIndex(p.text); m != nil {
			year, err := strconv.Atoi(p.text[m[2]:m[3]])
			if err == nil {
				a := l.passageAt(i).within(m[2], 4)
				return &pick{days: []credit.Date{credit.Day(year, 1, 1)}, at: a, sure: true}, &pick{days: []credit.Date{credit.Day(year, 12, 31)}, at: a, sure: true}
			}
		}
	}
	if start, end := l.loneYear(); start != nil {
		return start, end
	}
	if start, end := l.validity(); start != nil {
		return start, end
	}
	s, e := l.firstDay(isStart), l.firstOf(isEnd)
	if e == nil && s != nil {
		for _, d := range l.days {
			if d.role == isOther && validWord.MatchString(d.label+" "+fold(tail(l.passages[d.at.passage].text[:d.at.span.From], 40))+" ") {
				p := ends(d)
				e = &p
			}
		}
	}
	return s, e
}

// loneYear is the year of a membership that is "for 2024" at the end of its sentence.
func (l *look) loneYear() (start, end *pick) {
	for i, p := range l.passages {
		m := yearAlone.FindStringSubmatchIndex(p.text)
		if m == nil {
			continue
		}
		year, err := strconv.Atoi(p.text[m[2]:m[3]])
		if err != nil {
			continue
		}
		a := l.passageAt(i).within(m[2], 4)
		return &pick{days: []credit.Date{credit.Day(year, 1, 1)}, at: a, sure: true}, &pick{days: []credit.Date{credit.Day(year, 12, 31)}, at: a, sure: true}
	}
	return nil, nil
}

var yearAlone = matching(`(?:^|\s)(?i:for|voor|für|pour|para|por)\s((?:19|20)\d\d)\s?(?:\.|$)`)

// forYear reports that the paper is for a calendar year.
func (l *look) forYear() bool {
	return slices.ContainsFunc(l.passages, func(p passage) bool { return forYear.MatchString(p.text) })
}

var (
	forYear   = matching(`(?i)(?:year|\p{L}*jahr|année|exercice|año|anualidad|jaar|cotisation|contributie|dues|membership|\p{L}*beitrag|cuota(?: anual)?|lidmaatschap\p{L}*|adhésion|mitgliedschaft|subscription)(?:\s+(?:for|de|du|pour|del?|para|voor|für|in|fees?|year|l['’]année|année|civile|natural|das|the|calendar|membre|titulaire|\p{Ll}+ pour))*\s*:?\s+((?:19|20)\d\d)(?:[^\d/.-]|\.?$|\.\s)`)
	yearNear  = words(`year|jahr|beitragsjahr|kalenderjahr|annee|exercice|ano|jaar|kalenderjaar|for|fur|pour|para|voor|period|membership|\d{4} ?[-/]?|mitgliedschaft|cotisation|dues|contributie|cuota`)
	validWord = words(`valid|until|expir\w+|gultig|bis|valable|jusqu'au|hasta|geldig|tot|through|paid (?:to|up to|until|through)`)
)

// hireDay returns the first day on which somebody was taken into service.
func (l *look) hireDay() *pick {
	for i, d := range l.days {
		if d.single && d.lack == find.Whole && (d.hangs == onHire || l.enteredOn(d)) {
			l.days[i].role, l.days[i].sure = isStart, true
			p := starts(d)
			return &p
		}
	}
	return nil
}

// postDay returns the first day on which somebody was given a post, where nothing else says
// when an employment began.
func (l *look) postDay() *pick {
	for _, d := range l.days {
		if d.hangs == onPost && d.single && d.lack == find.Whole {
			p := starts(d)
			p.sure = false
			return &p
		}
	}
	return nil
}

// labelledDay returns a day with a label that is known.
func (l *look) labelledDay(r role) *pick {
	for _, d := range l.daysOf(r) {
		if d.single && d.lack == find.Whole && d.label != "" && d.sure && !d.guessed {
			p := starts(d)
			return &p
		}
	}
	return nil
}

// serviceSpans returns the first and the last day of the spans of an employment: of several
// posts the earliest beginning and the latest end. A span without an end goes on, unless it began
// within another: "until 31 March, since July as …".
func (l *look) serviceSpans() (start, end *pick) {
	var open credit.Date // when the last span without an end began
	for _, d := range l.days {
		if d.single || d.lack != find.Whole || d.role == isOther && d.hangs != onPost || len(d.spans) == 0 {
			continue
		}
		s, e := starts(d), ends(d)
		s.sure, e.sure = true, true
		if start == nil || s.days[0].Before(start.days[0]) {
			start = &s
		}
		switch {
		case d.open && open.Before(s.days[0]):
			open = s.days[0]
		case !d.open && len(e.days) > 0 && (end == nil || end.days[0].Before(e.days[0])):
			end = &e
		}
	}
	if end != nil && end.days[0].Before(open) {
		end = nil
	}
	return start, end
}

// leftDay returns the day on which a sentence says that somebody left.
func (l *look) leftDay() *pick {
	for i, d := range l.days {
		if !d.single || d.lack != find.Whole {
			continue
		}
		text := l.passages[d.at.passage].text
		before, after := fold(tail(text[max(0, l.lastDayBefore(d.at)):d.at.span.From], 60)), fold(head(text[d.at.span.To:], 60))
		if leftBefore.MatchString(before) || leftBehind.MatchString(after) {
			l.days[i].role, l.days[i].sure = isEnd, true
			p := ends(d)
			p.sure = true
			return &p
		}
	}
	return nil
}

// What says that somebody left, before and behind the day.
var (
	leftBefore = matching(`\b(?:` + lastWorkday + `|retired|resigned|departed|left(?: us| our (?:employ\w*|service|company|staff|house))?|(?:employment|service|contract) (?:ended|ends|terminated|ceased)|parti(?:e)?(?: en retraite| a la retraite)?|quitte(?: .{3,30})?|se jubilo|ceso|causo baja|baja(?: voluntaria)?|dejo (?:la empresa|el cargo)|ging met pensioen|verliet (?:ons|het|de)(?: \w+)?|uit dienst(?: getreden)?)(?: with effect)?(?: on| from| le| el| op| per| con fecha| en date du)?(?: the| dia)?\s*$`)
	leftBehind = matching(`^[^.;,]{0,30}\b(?:aus|ausgeschieden|in den ruhestand|pensioniert|verlassen|uit dienst getreden|met pensioen)\b`)
)

func (l *look) employmentDates() (start, end *pick) {
	if start, end = l.postColumns(); start != nil {
		return start, end
	}
	start, end = l.serviceSpans()
	from, to := l.labelledDay(isStart), l.labelledDay(isEnd)
	if from != nil && (to != nil || start == nil) {
		return from, to
	}
	labelled := from != nil
	if from == nil {
		from = l.hireDay()
	}
	if from != nil && (start == nil || len(start.days) > 0 && from.days[0].Before(start.days[0])) {
		from.sure = from.sure && (start == nil || labelled) // "in our employment since 2019; first joined us as a student in 2017"
		start = from
	}
	if start == nil {
		for _, d := range l.daysOf(isStart, isEvent) {
			if d.lack == find.Whole && d.single {
				s := starts(d)
				start = &s
				break
			}
		}
	}
	if start == nil {
		start = l.postDay()
	}
	if start != nil && end == nil {
		for _, d := range l.daysOf(isEnd) {
			if d.at.passage == start.at.passage && d.at.span.From > start.at.span.To && d.at.span.From-start.at.span.To < 30 {
				p := ends(d)
				end = &p
			}
		}
	}
	if gone := l.leftDay(); gone != nil && start != nil && (end == nil || !end.sure) {
		end = gone
	}
	if start != nil && end == nil && goneWord.MatchString(l.all) && !stillWord.MatchString(l.all) {
		end = l.firstOf(isEnd)
	}
	return start, end
}

var (
	goneWord  = words(`(?:arbeits|beschaftigungs|dienst)verhaltnis .{0,60}(?:endet\w*|beendet)|endete|ended on|employment ended|was (?:employed|in our|working)|worked (?:for|with|here)|left (?:us|the|our|on)|war .{0,160}(?:beschaftigt|angestellt|tatig)|scheidet|ausgeschieden|a ete|a travaille|a quitte|trabajo|presto|ha trabajado|was .{0,160}(?:in dienst|werkzaam)|heeft .{0,60}gewerkt|until|bis|jusqu'au|hasta|tot`)
	stillWord = words(`(?:is|has been|he is|she is) (?:still |currently |presently )?employed|to date|to the present|present|seit|bis heute|est (?:employee?|salariee?)|a ce jour|actualmente|en la actualidad|sinds|tot op heden|heden|is .{0,80}(?:in dienst|werkzaam)|since`)
)

func (l *look) receiptDates() (start, end *pick) {
	for _, d := range l.days {
		if !d.single && d.lack == find.Whole && (l.calledOff(d) || d.role == isEvent || d.role == noRole || d.role == isTitle || d.role == isBare || d.role == isStart) {
			s, e := starts(d), ends(d)
			s.sure, e.sure = true, true
			if d.open {
				return &s, nil
			}
			return &s, &e
		}
	}
	s, e := l.firstDay(isStart), l.firstOf(isEnd)
	if s != nil {
		return s, e
	}
	if p := l.bookedDay(); p != nil {
		return p, p
	}
	if v, ok := l.out.Values[paper.FieldTitle]; ok && v.Text != "" {
		for _, d := range l.daysOf(noRole, isPerson) { // "Registration: Arc Flash (March 17, 2026)", "For: Arc Flash, 17 March 2026"
			if text := l.passages[d.at.passage].text; d.lack == find.Whole && d.single && strings.Contains(text[:d.at.span.From], v.Text) {
				s, e := starts(d), ends(d)
				s.sure, e.sure = true, true
				return &s, &e
			}
		}
	}
	for _, d := range l.daysOf(isEvent) {
		if d.lack == find.Whole && (!d.alone || d.label != "" && d.label != "date") {
			s, e := starts(d), ends(d)
			return &s, &e
		}
	}
	if s, e := l.paidEvent(); s != nil {
		return s, e
	}
	if s, e := l.beneathTitle(); s != nil {
		return s, e
	}
	return l.weekdayAfter()
}

// bookedDay returns the single day that stands with its hours at the label of what is paid for.
func (l *look) bookedDay() *pick {
	for _, d := range l.daysOf(isTitle) {
		text := l.passages[d.at.passage].text
		if d.single && d.lack == find.Whole && len(d.spans) > 0 && slices.ContainsFunc(l.clocks, func(c clockHit) bool {
			return c.at.passage == d.at.passage && c.at.span.From >= d.at.span.To && len(strings.Trim(text[d.at.span.To:c.at.span.From], " ,;(")) < 6
		}) {
			p := starts(d)
			return &p
		}
	}
	return nil
}

// calledOff reports the days of what was cancelled, for which money is paid back.
func (l *look) calledOff(d day) bool {
	if d.role != isOther || d.label != "" && !d.guessed {
		return false
	}
	_, after := l.ownSentence(d.at)
	return calledOffBehind.MatchString(after)
}

var calledOffBehind = matching(`^[^.;\d]{0,36}\b(?:cancel(?:led|ed)|called off|did not take place|abgesagt\w*|ausgefallen\w*|entfallen\w*|annulee?s?|cancelad[oa]s?|suspendid[oa]s?|geannuleerde?|vervallen|afgelast)\b`)

// weekdayAfter returns the one day of a bill that stands with its day of the week and lies behind all
// others of which nothing says what they are: the day of what was booked.
func (l *look) weekdayAfter() (start, end *pick) {
	var found *day
	for _, d := range l.daysOf(noRole, isIssue) {
		if d.lack != find.Whole || !d.single || len(d.spans) == 0 {
			continue
		}
		if found == nil || found.spans[0].Start.Before(d.spans[0].Start) {
			found = &d
		}
	}
	if found == nil || found.role != noRole || !strings.ContainsFunc(head(strings.TrimSpace(l.text(found.at)), 1), isLetter) || len(l.daysOf(noRole, isIssue)) < 2 {
		return nil, nil
	}
	s, e := starts(*found), ends(*found)
	s.sure, e.sure = false, false
	return &s, &e
}
