package find

import (
	"strings"
	"time"

	"evidencevault/credit"
)

// yearsAt reads "2019–2021", "2019 to 2021", "2025/26".
func (s *scan) yearsAt(i int) (Range, int, bool) {
	if !s.fullYear(i) || s.afterNumberWord(i) {
		return Range{}, i, false
	}
	if r, next, ok := s.severalYears(i); ok {
		return r, next, true
	}
	if s.oneOf(i-1, yearWords) && !s.monthOf(i-1) && s.endsClean(i+1) && !s.is(i+1, "-") && !s.is(i+1, "/") {
		return s.years(i, i+1, s.at(i).n, s.at(i).n)
	}
	return Range{}, i, false
}

// monthOf reports whether a month stands before the word for a year at token i: "novembre
// de l'année 2016".
func (s *scan) monthOf(i int) bool {
	j := i - 1
	for j >= i-4 && (s.oneOf(j, ofWords) || s.is(j, "'")) {
		j--
	}
	return j < i-1 && s.at(j).kind == word && monthNames[s.at(j).s] > 0
}

// yearWords stand before a year that is a period: "for the year 2026", "Beitrag 2026".
var yearWords = set("year annee jahr kalenderjahr beitragsjahr mitgliedsjahr geschaftsjahr ano jaar kalenderjaar verenigingsjaar dues beitrag jahresbeitrag mitgliedsbeitrag cotisation cuota contributie lidmaatschap membership")

func (s *scan) severalYears(i int) (Range, int, bool) {
	k := s.at(i + 1)
	j := i + 2
	if !k.spaced && (k.s == "/" || k.s == "-") && s.at(j).kind == digit && len(s.at(j).s) == 2 && !s.at(j).spaced {
		if s.at(j).n != (s.at(i).n+1)%100 || !s.endsClean(j+1) || s.at(j).n <= 12 && k.s == "-" {
			return Range{}, i, false
		}
		return s.years(i, j+1, s.at(i).n, s.at(i).n+1)
	}
	if !(k.s == "/" && !k.spaced) {
		var ok bool
		if j, ok = s.joinAt(i+1, s.betweenBefore(i)); !ok {
			return Range{}, i, false
		}
	}
	if !s.fullYear(j) || s.at(j).n < s.at(i).n || !s.endsClean(j+1) || s.clockFollows(j) {
		return Range{}, i, false
	}
	if n := s.at(j + 1); n.s == "-" && !n.spaced || k.s == "/" && s.at(j).n != s.at(i).n+1 || s.hourUnit(j+1) {
		return Range{}, i, false
	}
	return s.years(i, j+1, s.at(i).n, s.at(j).n)
}

func (s *scan) years(i, next, from, to int) (Range, int, bool) {
	r := Range{Form: Numeric, Lack: YearOnly, Span: s.span(i, next)}
	r.Readings = []Stretch{stretch(Reading{Year: from}, Reading{Year: to})}
	return r, next, true
}

// sinceAt reads an open range: "since 4 January 2021", "1 March 2019 to date".
func (s *scan) sinceAt(i int) (Range, int, bool) {
	open := func(d Date, from, next int) (Range, int, bool) {
		r := Range{Form: d.Form, Lack: d.Lack, Open: true, TwoDigitYear: d.TwoDigitYear, Weekday: d.HasWeekday, Span: s.span(from, next)}
		for _, a := range d.Readings {
			r.Readings = append(r.Readings, Stretch{Start: a.First(), From: a, Order: a.Order, Weekday: a.Weekday})
		}
		return r, next, true
	}
	if s.oneOf(i, sinces) && !(s.is(i, "des") && !strings.ContainsAny(s.at(i).raw, "èÈ")) {
		j := i + 1
		for n := 0; n < 3 && (s.is(j, "the") || s.is(j, "dem") || s.is(j, "le") || s.is(j, "el") || s.is(j, "de")); n++ {
			j++
		}
		d, next, ok := s.dateAt(j)
		if !ok || d.Form == Relative {
			return Range{}, i, false
		}
		if _, joined := s.joinAt(next, false); joined {
			return Range{}, i, false // "desde el 1 de marzo hasta …": closed
		}
		return open(d, i, next)
	}
	d, j, ok := s.dateAt(i)
	if !ok || d.Form == Relative || d.Lack == NoYear {
		return Range{}, i, false
	}
	k, ok := s.joinAt(j, false)
	if !ok {
		return Range{}, i, false
	}
	if s.oneOf(k, todays) {
		return open(d, i, k+1)
	}
	if s.is(k, "aujourd") && s.is(k+2, "hui") {
		return open(d, i, k+3)
	}
	return Range{}, i, false
}

var weekWords = set("week woche semaine semana weekcommencing kalenderwoche")

// weekWordAt says whether a word is one for a week: "week", "Kurswoche", "lesweek".
func (s *scan) weekWordAt(i int) bool {
	w := s.at(i)
	return s.oneOf(i, weekWords) || w.kind == word && (strings.HasSuffix(w.s, "woche") || strings.HasSuffix(w.s, "week")) && w.s != "midweek"
}

// weekLinks join a week with a day of it; those of weekEnds with its last one.
var (
	weekLinks = set("of vom des du del van vanaf commencing beginning starting beginnend ab from de comienza empieza inicia commencant debutant commence debute begint start starts begins partir")
	weekEnds  = set("ending ended endend eindigend ends")
)

var weekArticles = set("the le la el den dem que qui die a op")

// weekLead reads "week of", "Woche vom", "w/c" before a day, and whether that day is
// the last of the week.
func (s *scan) weekLead(i int) (next int, ends, ok bool) {
	if s.is(i, "w") && s.is(i+1, "/") && (s.is(i+2, "c") || s.is(i+2, "e") || s.is(i+2, "o")) && !s.at(i+2).spaced {
		return i + 3, s.is(i+2, "e"), true
	}
	j := i + 1
	if s.is(j, ":") {
		return j + 1, false, true
	}
	for n := 0; n < 4 && s.at(j).kind == word; n++ {
		switch {
		case s.oneOf(j, weekEnds):
			ok, ends = true, true
		case s.oneOf(j, weekLinks):
			ok = true
		case s.oneOf(j, weekArticles):
		default:
			return j, ends, ok
		}
		j++
	}
	return j, ends, ok
}

// weekAt reads "the week of 6 July 2026", "semaine du 6 juillet", "week ending 10 July".
func (s *scan) weekAt(i int) (Range, int, bool) {
	if r, next, ok := s.numberedWeekAt(i); ok {
		return r, next, true
	}
	if !s.weekWordAt(i) && !s.is(i, "kw") && !s.is(i, "cw") && !s.is(i, "w") {
		return Range{}, i, false
	}
	if r, next, ok := s.weekNumberAt(i); ok {
		return r, next, true
	}
	j, ends, linked := s.weekLead(i)
	d, next, ok := s.dateAt(j)
	if !ok || !linked || d.Lack > NoYear || d.Form == Relative {
		return Range{}, i, false
	}
	if _, joined := s.joinAt(next, false); joined {
		return Range{}, i, false // "Woche vom 6. bis 10. Juli": the days stand there
	}
	r := Range{Form: d.Form, Lack: d.Lack, Week: true, TwoDigitYear: d.TwoDigitYear, Weekday: d.HasWeekday, Span: s.span(i, next)}
	for _, a := range d.Readings {
		st := Stretch{Start: a.Day, From: a, Order: a.Order, Weekday: a.Weekday}
		switch {
		case a.Day.IsZero():
		case ends:
			st.Start, st.End = a.Day.AddDays(-6), a.Day
			st.From, st.To = reading(st.Start), a
		default:
			st.End = a.Day.AddDays(6)
			st.To = reading(st.End)
		}
		r.Readings = append(r.Readings, st)
	}
	return r, next, true
}

// weekNumberAt reads "KW 28/2026", "week 28, 2026": from Monday to Sunday (ISO 8601-1,
// section 4.3.4).
func (s *scan) weekNumberAt(i int) (Range, int, bool) {
	if !s.oneOf(i, weekWords) && !s.is(i, "kw") && !s.is(i, "cw") {
		return Range{}, i, false // the third week of a course is no week of the year
	}
	return s.weekOfYear(i, i+1, i+2)
}

// numberedWeekAt reads "24. Kalenderwoche 2026", "24th week of 2026".
func (s *scan) numberedWeekAt(i int) (Range, int, bool) {
	j := i + 1
	if s.is(j, ".") || s.oneOf(j, ordinalMarks) && !s.at(j).spaced {
		j++
	}
	if !s.oneOf(j, weekWords) && !s.is(j, "kw") {
		return Range{}, i, false
	}
	return s.weekOfYear(i, i, j+1)
}

// weekOfYear reads a week from i on whose number stands at one place and whose year at or
// behind another.
func (s *scan) weekOfYear(i, number, j int) (Range, int, bool) {
	n := s.at(number)
	if s.is(j, "(") || s.is(j, "/") || s.is(j, ",") || s.is(j, "-") || s.oneOf(j, yearLinks) {
		j++
	}
	if n.kind != digit || n.n < 1 || n.n > 53 || len(n.s) > 2 || !s.fullYear(j) {
		return Range{}, i, false
	}
	from, next := mondayOf(s.at(j).n, n.n), j+1
	if s.is(j-1, "(") && s.is(next, ")") {
		next++
	}
	r := Range{Form: Numeric, Week: true, Span: s.span(i, next)}
	r.Readings = []Stretch{{Start: from, End: from.AddDays(6), From: reading(from), To: reading(from.AddDays(6))}}
	return r, next, true
}

// yearLinks stand between the number of a week and its year.
var yearLinks = set("of in de del van des")

// mondayOf returns the first day of a week, counted from 1; 4 January always lies in the
// first.
func mondayOf(year, week int) credit.Date {
	jan4 := credit.Day(year, time.January, 4)
	return jan4.AddDays(-(int(jan4.Weekday())+6)%7 + 7*(week-1))
}

// isoRange reads 2026-03-03/2026-03-05, 2026-03-03/04-05, 2026-03-03/05 (ISO 8601-1,
// section 5.5.2.4) and the week 2026-W10 (section 5.2.3). A time may stand with each end.
func (s *scan) isoRange(i int) (Range, int, bool) {
	if !s.fullYear(i) || !s.is(i+1, "-") || s.at(i+1).spaced || s.at(i+2).spaced {
		return Range{}, i, false
	}
	if n := s.at(i + 3); s.is(i+2, "w") && n.kind == digit && len(n.s) == 2 && n.n >= 1 && n.n <= 53 && !s.is(i+4, "-") && s.endsClean(i+4) {
		from := mondayOf(s.at(i).n, n.n)
		r := Range{Form: Numeric, Week: true}
		r.Readings = []Stretch{{Start: from, End: from.AddDays(6), From: reading(from), To: reading(from.AddDays(6))}}
		return s.finish(r, i, i+4), i + 4, true
	}
	a, b, c := s.at(i), s.at(i+2), s.at(i+4)
	from, ok := credit.ValidDay(a.n, b.n, c.n)
	j := s.isoTime(i + 5)
	if !ok || !s.is(i+3, "-") || !s.is(j, "/") || s.at(j).spaced || s.at(j+1).spaced || s.at(j+1).kind != digit {
		return Range{}, i, false
	}
	parts := []int{a.n, b.n, c.n}
	given := []int{s.at(j + 1).n}
	next := j + 2
	for len(given) < 3 && s.is(next, "-") && s.at(next+1).kind == digit && !s.at(next+1).spaced {
		given, next = append(given, s.at(next+1).n), next+2
	}
	copy(parts[3-len(given):], given)
	to, ok := credit.ValidDay(parts[0], parts[1], parts[2])
	if len(given) == 1 && len(s.at(j+1).s) != 2 || !ok || to.Before(from) {
		return Range{}, i, false
	}
	next = s.isoTime(next)
	r := Range{Form: Numeric}
	r.Readings = []Stretch{{Start: from, End: to, From: reading(from), To: reading(to), Order: YearFirst}}
	return s.finish(r, i, next), next, s.endsClean(next)
}

// isoTime passes over T09:00, T09:00:00Z and T09:00+01:00.
func (s *scan) isoTime(i int) int {
	if !s.is(i, "t") || s.at(i).spaced || s.at(i+1).kind != digit {
		return i
	}
	j := i + 2
	for s.is(j, ":") && s.at(j+1).kind == digit {
		j += 2
	}
	if s.is(j, "z") && !s.at(j).spaced {
		return j + 1
	}
	if (s.is(j, "+") || s.is(j, "-")) && s.at(j+1).kind == digit && !s.at(j).spaced {
		j += 2
		if s.is(j, ":") && s.at(j+1).kind == digit {
			j += 2
		}
	}
	return j
}

var quarterWords = set("quarter quartal trimestre kwartaal cuatrimestre")

// quarterAt reads "Q3 2019", "third quarter of 2016", "4de kwartaal 2018".
func (s *scan) quarterAt(i int) (Range, int, bool) {
	n, j := 0, i
	if s.is(i, "q") && !s.at(i+1).spaced && s.at(i+1).kind == digit {
		n, j = s.at(i+1).n, i+2
	} else if day, k := s.quarterNumber(i); k > i && s.oneOf(k, quarterWords) {
		n, j = day, k+1
	} else if s.oneOf(i, quarterWords) && s.at(i+1).kind == digit {
		n, j = s.at(i+1).n, i+2
	} else if s.fullYear(i) {
		return s.yearThenQuarter(i)
	}
	if n < 1 || n > 4 {
		return Range{}, i, false
	}
	year, next, short := s.yearAfter(j, " ")
	if year == 0 || short {
		return Range{}, i, false
	}
	return s.quarter(year, n, i, next)
}

// yearThenQuarter reads "2016 das dritte Quartal", "2016, el tercer trimestre".
func (s *scan) yearThenQuarter(i int) (Range, int, bool) {
	j := i + 1
	for k := 0; k < 3 && (s.is(j, ",") || s.oneOf(j, articles)); k++ {
		j++
	}
	n, k := s.quarterNumber(j)
	if k == j || n < 1 || n > 4 || !s.oneOf(k, quarterWords) {
		return Range{}, i, false
	}
	if year, _, _ := s.yearAfter(k+1, " "); year > 0 {
		return Range{}, i, false // the quarter has a year of its own
	}
	return s.quarter(s.at(i).n, n, i, k+1)
}

var articles = set("the das im in el le il o het per por fur pour voor for")

func (s *scan) quarter(year, n, i, next int) (Range, int, bool) {
	first := time.Month(3*n - 2)
	r := Range{Form: Spelt, Lack: MonthOnly, Span: s.span(i, next)}
	r.Readings = []Stretch{stretch(Reading{Year: year, Month: first}, Reading{Year: year, Month: first + 2})}
	return r, next, true
}

const quarterData = `
1 first erste erstes ersten premier primer eerste
2 second zweite zweites zweiten deuxieme segundo tweede
3 third dritte drittes dritten troisieme tercer derde
4 fourth vierte viertes vierten quatrieme cuarto vierde last letzte letztes letzten dernier ultimo laatste
`

var quarterOrdinals = numbered(quarterData)

func (s *scan) quarterNumber(i int) (int, int) {
	if n, ok := quarterOrdinals[s.at(i).s]; ok {
		return n, i + 1
	}
	if s.at(i).kind == digit {
		return s.dayAt(i)
	}
	return 0, i
}
