package extract

import (
	"slices"
	"strconv"
	"strings"

	"evidencevault/extract/find"
)

// What is said of one day of a list holds for the others, and a day without its year has that of
// the words around it: "in the year 2026 (1 January to 31 December)", "from 20 to 22 August 2026;
// given on Friday 21 August".

// carryLists gives the role of a day to one that is listed behind it.
func (l *look) carryLists() {
	for i := 1; i < len(l.days); i++ {
		a, b := &l.days[i-1], &l.days[i]
		if text, _ := l.between(*a, *b); strings.TrimSpace(text) == "" {
			continue
		}
		if b.role != noRole || a.role == noRole || a.open || b.open || a.lack != b.lack || !l.inOneList(*a, *b) {
			continue
		}
		b.role, b.sure, b.label, b.guessed, b.hangs = a.role, a.sure, a.label, a.guessed, a.hangs
	}
}

// between returns the text between two days of one passage; false where b does not stand behind a.
func (l *look) between(a, b day) (string, bool) {
	if a.at.passage != b.at.passage || a.at.span.To > b.at.span.From {
		return "", false
	}
	return l.passages[a.at.passage].text[a.at.span.To:b.at.span.From], true
}

// hasDay reports that a day was found where a span lies.
func (l *look) hasDay(passage int, s find.Span) bool {
	return slices.ContainsFunc(l.days, func(d day) bool { return d.at.overlaps(at{passage, s}) })
}

// addByYear adds days and spans without a year of which a year right beside them in the same
// sentence tells it.
func (l *look) addByYear() {
	years := slices.Clone(l.days)
	for _, y := range years {
		if y.lack != find.YearOnly || !y.single && len(y.spans) != 1 || len(y.spans) == 0 {
			continue
		}
		year, _, _ := y.spans[0].Start.YMD()
		if last, _, _ := y.spans[0].End.YMD(); last != year {
			continue
		}
		text := l.passages[y.at.passage].text
		for _, r := range find.Ranges(text, l.langs) {
			if r.Lack == find.NoYear && !r.Open && len(r.Readings) == 1 && !l.hasDay(y.at.passage, r.Span) && besideYear(text, y.at.span, r.Span) {
				l.addGiven(at{y.at.passage, r.Span}, r.Readings[0].From, r.Readings[0].To, year)
			}
		}
		for _, d := range find.Dates(text, l.langs) {
			if d.Lack == find.NoYear && d.Form != find.Relative && len(d.Readings) == 1 && !asNumber(text, d) && !l.hasDay(y.at.passage, d.Span) && besideYear(text, y.at.span, d.Span) {
				l.addGiven(at{y.at.passage, d.Span}, d.Readings[0], d.Readings[0], year)
			}
		}
	}
}

// onlyYear is the one year that a paper without any whole day names; 0 where it names none or several.
func (l *look) onlyYear() int {
	if slices.ContainsFunc(l.days, func(d day) bool { return d.lack == find.Whole }) {
		return 0
	}
	year := ""
	for _, p := range l.passages {
		for _, m := range anyYear.FindAllStringSubmatch(p.text, -1) {
			if year != "" && m[1] != year {
				return 0
			}
			year = m[1]
		}
	}
	n, _ := strconv.Atoi(year)
	return n
}

// anyYear is a year.
var anyYear = matching(`(?:^|[^\d.,/-])((?:19|20)\d\d)(?:$|[^\d/-])`)

// yearLine is a line of a year, with a word before it at most.
var yearLine = matching(`^\W*(?:\p{L}+ )?((?:19|20)\d\d)\W*$`)

// asNumber reports a day in figures that may be a number as well: "4.5", but not "14.03." nor "14/03".
func asNumber(text string, d find.Date) bool {
	return d.Form == find.Numeric && !plainlyDay.MatchString(strings.TrimSpace(d.Of(text)+head(text[d.To:], 1)))
}

// plainlyDay is a day without its year in figures that are no number.
var plainlyDay = matching(`^\d{1,2}\.\s?\d{1,2}\.|^\d\d[/-]\d\d`)

// besideYear reports that only a bracket or a few small words part a day from a year.
func besideYear(text string, year, s find.Span) bool {
	from, to := year.To, s.From
	if s.To <= year.From {
		from, to = s.To, year.From
	}
	return from <= to && yearJoins.MatchString(fold(text[from:to]))
}

// yearJoins parts a day from the year that holds for it.
var yearJoins = matching(`^[\s,:(\[–-]*(?:(?:d\. ?h\.|i\. ?e\.|that is|das ist|c'est-a-dire|soit|es decir|dat is|running|laufend|from|vom|von|du|del?|van|on|am|le|el|op|in|im|en|the|year|jahr|jahres|annee|l'annee|ano|jaar|civile|of|des|de|l'|het)[\s,:(]*){0,5}$`)

// addGiven adds a day or span in a given year.
func (l *look) addGiven(a at, from, to find.Reading, year int) {
	start, ok1 := from.In(year)
	end, ok2 := to.In(year)
	if !ok1 || !ok2 || end.Before(start) {
		return
	}
	l.addDay(day{at: a, single: from == to, spans: []find.Stretch{{Start: start, End: end, From: from, To: to}}}, l.passages[a.passage].text)
}

// addWithin adds a day without a year on which a talk was given, where it lies within a span that
// the paper gives whole.
func (l *look) addWithin() {
	spans := slices.DeleteFunc(slices.Clone(l.days), func(d day) bool {
		return d.single || d.open || d.lack != find.Whole || len(d.spans) != 1 || d.spans[0].End.Sub(d.spans[0].Start) > 31
	})
	if len(spans) == 0 {
		return
	}
	for i, p := range l.passages {
		here := talkWord.MatchString(l.folded[i])
		if !here && !slices.ContainsFunc(l.folded[max(0, i-3):i], func(t string) bool { return talkWord.MatchString(t) }) {
			continue
		}
		for _, d := range find.Dates(p.text, l.langs) {
			if d.Lack != find.NoYear || d.Form == find.Relative || len(d.Readings) != 1 || l.hasDay(i, d.Span) {
				continue
			}
			before := fold(tail(p.text[:d.From], 60)) + " "
			year, ok := yearWithin(spans, d.Readings[0])
			if on, _ := d.Readings[0].In(year); ok && d.HasWeekday && on.Weekday() == d.Weekday && len(l.clocks) == 1 && l.clocks[0].at.passage == i {
				l.addGiven(at{i, d.Span}, d.Readings[0], d.Readings[0], year) // with its weekday and its hours
				continue
			}
			if !here {
				continue
			}
			if spoken, _ := l.ownSentence(at{i, d.Span}); lastMatch(gaveOn, before) < len(before)-1 && !talkWord.MatchString(spoken) && !gaveBehind.MatchString(fold(head(p.text[d.To:], 90))) {
				continue
			}
			if ok {
				l.addGiven(at{i, d.Span}, d.Readings[0], d.Readings[0], year)
			}
		}
	}
}

// talkWord speaks of a talk, or of giving one.
var talkWord = matching(`present|deliver|given|gave|spoke|talk|lecture|paper|prononc|donne|expos|conferenc|communication|impart|pronunci|dict|expuso|ponencia|gaf|hield|gehouden|gegeven|verzorg|sprak|lezing|voordracht|vortrag|referat|gehalten`)

// yearWithin returns the year in which a day lies within one of the spans.
func yearWithin(spans []day, r find.Reading) (int, bool) {
	for _, s := range spans {
		year, _, _ := s.spans[0].End.YMD()
		if on, ok := r.In(year); ok && !on.Before(s.spans[0].Start) && !on.After(s.spans[0].End) {
			return year, true
		}
	}
	return 0, false
}

// addBySection adds days without a year that begin or end the lines beneath a line that is a year:
// "2025", "Jahr 2025", "Année 2025".
func (l *look) addBySection() {
	year := 0
	heads := map[int]int{}
	for i, p := range l.passages {
		if m := yearLine.FindStringSubmatch(p.text); len(p.text) < 30 && m != nil {
			heads[i], _ = strconv.Atoi(m[1])
		}
	}
	if len(heads) == 0 {
		year = l.onlyYear()
	}
	if len(heads) == 0 && year == 0 {
		return
	}
	for i, p := range l.passages {
		if y, ok := heads[i]; ok {
			year = y
			continue
		}
		if year == 0 {
			continue
		}
		for _, d := range find.Dates(p.text, l.langs) {
			ends := strings.Trim(p.text[d.To:], " .") == ""
			if d.Lack == find.NoYear && d.Form != find.Relative && len(d.Readings) == 1 && (d.From < 4 || ends) && !asNumber(p.text, d) && !l.hasDay(i, d.Span) {
				l.addGiven(at{i, d.Span}, d.Readings[0], d.Readings[0], year)
			}
		}
	}
}
