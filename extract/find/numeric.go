package find

import (
	"time"

	"evidencevault/credit"
)

// numberWords stand before a number that is no date: 2/2026 is an issue after "numéro".
var numberWords = set("no nr n num numero nummer number issue heft ausgabe ref reference referenz rechnung invoice certificate zertifikat id v ver vers version rev release ip section abschnitt kapitel art article page seite p order auftrag code registro reg az aktenzeichen vat ust iban tel phone fax")

// afterNumberWord reports whether a word such as "No." or "Version:" stands before token i.
func (s *scan) afterNumberWord(i int) bool {
	j := i - 1
	for n := 0; n < 3 && j >= 0 && s.at(j).kind == mark && (s.is(j, ".") || s.is(j, ":") || s.is(j, "°") || s.is(j, "#") || s.is(j, "-")); n++ {
		if s.is(j, "#") {
			return true
		}
		j--
	}
	return s.oneOf(j, numberWords)
}

// numericAt reads three numbers, or a month and a year: 3.3.2026, 03/03/26,
// 2026-03-03, 3. 3. 2026, 11/2016, 2016-05.
func (s *scan) numericAt(i int) (Date, int, bool) {
	a := s.at(i)
	if a.kind != digit || len(a.s) > 4 || len(a.s) == 3 || !s.cleanBefore(i) {
		return Date{}, i, false
	}
	sep := s.at(i + 1)
	if sep.s == "," && len(a.s) == 4 || sep.s != "." && sep.s != "/" && sep.s != "-" && sep.kind != digit {
		return Date{}, i, false
	}
	if sep.kind == digit {
		return s.blankAt(i)
	}
	b, c, d := s.at(i+2), s.at(i+3), s.at(i+4)
	if b.kind != digit || len(b.s) > 4 {
		return Date{}, i, false
	}
	if d.kind == digit && c.s == sep.s && s.evenly(i, sep.s) && s.endsClean(i+5) {
		if got, next, ok := s.three(i, i+5, a, b, d); ok && !(s.afterNumberWord(i) && len(d.s) < 4) {
			return got, next, ok
		}
	}
	if c.s == "," && d.kind == digit && len(d.s) == 4 && sep.s != "." && len(a.s) < 3 && len(b.s) < 3 {
		return s.three(i, i+5, a, b, d) // 12-08, 2015
	}
	return s.monthOfYear(i, a, b, sep.s)
}

// evenly reports whether the two signs of a date stand alike: none spaced, or both.
func (s *scan) evenly(i int, sep string) bool {
	one, b, two, c := s.at(i+1), s.at(i+2), s.at(i+3), s.at(i+4)
	if sep == "." {
		return !one.spaced && (!two.spaced || !c.spaced && len(c.s) == 4) && (b.spaced == c.spaced || len(c.s) == 4)
	}
	return one.spaced == two.spaced && b.spaced == c.spaced
}

// endsClean reports whether nothing that makes it a longer number follows at j.
func (s *scan) endsClean(j int) bool {
	k, n := s.at(j), s.at(j+1)
	if k.spaced || k.kind == end {
		return true
	}
	if k.kind == mark && n.kind == digit && !n.spaced {
		switch k.s {
		case ".":
			return len(s.at(j-1).s) == 4 && s.is(j+2, ":")
		case "/", ",":
			return false
		case "-":
			m := s.at(j + 2) // another date, or a time
			return m.kind == mark && !m.spaced && (m.s != "-" || s.at(j+3).kind == digit) || m.s == "h"
		case ":":
			return len(s.at(j-1).s) == 4 // else the figures are a time
		}
	}
	return true
}

// blankAt reads "20 2 2014": only a year of four figures makes it a date.
func (s *scan) blankAt(i int) (Date, int, bool) {
	a, b, c := s.at(i), s.at(i+1), s.at(i+2)
	if p := s.at(i - 1); p.kind == digit || p.kind == mark && p.s != "(" || s.at(i+3).kind == digit {
		return Date{}, i, false
	}
	if s.fullYear(i) && len(b.s) == 2 && len(c.s) == 2 && c.kind == digit && s.endsClean(i+3) && !s.at(i+3).spaced && s.at(i+3).kind == mark && s.oneOf(i-1, leads) {
		return s.three(i, i+3, a, b, c) // "On 2016 10 16,"
	}
	if c.kind != digit || !s.fullYear(i+2) || len(a.s) > 2 || len(b.s) > 2 || !s.l.DayFirst() {
		return Date{}, i, false
	}
	if n := s.at(i + 3); n.kind == mark && !n.spaced && s.at(i+4).kind == digit && !s.at(i+4).spaced {
		return Date{}, i, false
	}
	return s.three(i, i+3, a, b, c)
}

// three gives the readings of three numbers.
func (s *scan) three(i, next int, a, b, c *token) (Date, int, bool) {
	d := Date{Form: Numeric, Span: s.span(i, next)}
	add := func(y, m, day int, o Order) {
		if got, ok := credit.ValidDay(y, m, day); ok {
			for _, r := range d.Readings {
				if r.Day == got {
					return
				}
			}
			d.Readings = append(d.Readings, Reading{Day: got, Year: y, Month: time.Month(m), DayOfMonth: day, Order: o})
		}
	}
	switch {
	case len(a.s) == 4 && len(b.s) <= 2 && len(c.s) <= 2 && s.fullYear(i):
		add(a.n, b.n, c.n, YearFirst)
	case len(a.s) <= 2 && len(b.s) <= 2 && (len(c.s) == 2 || len(c.s) == 4):
		y := c.n
		if len(c.s) == 2 {
			if len(a.s)+len(b.s) < 4 && s.is(i+1, "-") && s.at(i+1).spaced {
				return Date{}, i, false
			}
			y, d.TwoDigitYear = century(c.n), true
		} else if y < firstYear || y > lastYear {
			return Date{}, i, false
		}
		add(y, b.n, a.n, DayFirst)
		if !s.l.DayFirst() || len(d.Readings) == 0 {
			add(y, a.n, b.n, MonthFirst)
		}
		if len(d.Readings) == 0 && len(c.s) == 2 && len(a.s) == 2 && s.is(i+1, "-") {
			add(century(a.n), b.n, c.n, YearFirst)
		}
	}
	if len(d.Readings) == 0 {
		return Date{}, i, false
	}
	return d, next, true
}

// monthOfYear reads 11/2016 and 2016-05.
func (s *scan) monthOfYear(i int, a, b *token, sep string) (Date, int, bool) {
	next := i + 3
	spaced := s.at(i+1).spaced || b.spaced
	if s.afterNumberWord(i) || !s.endsClean(next) || s.is(next, sep) && !s.at(next).spaced && sep != "." && s.at(next+1).kind == digit || sep == "." && spaced {
		return Date{}, i, false
	}
	if n := s.at(next); n.kind == word && !n.spaced || n.s == "%" || s.is(next, "h") {
		return Date{}, i, false
	}
	y, m := a.n, b.n
	switch {
	case len(a.s) == 4 && s.fullYear(i) && len(b.s) <= 2 && !spaced:
		if sep == "." && len(b.s) == 2 && s.l == nil {
			return Date{}, i, false
		}
	case len(b.s) == 4 && s.fullYear(i+2) && len(a.s) <= 2:
		y, m = b.n, a.n
		if spaced && sep == "-" && s.loose {
			return Date{}, i, false
		}
	default:
		return Date{}, i, false
	}
	if m < 1 || m > 12 {
		return Date{}, i, false
	}
	return s.monthOnly(y, time.Month(m), Numeric, false, i, next)
}

// noYearAt reads a day and month without a year. "10.1" is one only where
// something says so: a weekday or lead word before it, the point after it.
func (s *scan) noYearAt(i int, weekday bool) (Date, int, bool) {
	a, sep, b := s.at(i), s.at(i+1), s.at(i+2)
	if a.kind != digit || b.kind != digit || len(a.s) > 2 || len(b.s) > 2 || sep.spaced || sep.s != "." && sep.s != "/" && !(sep.s == "-" && s.loose) {
		return Date{}, i, false
	}
	if sep.s == "/" && b.spaced || !s.cleanBefore(i) || s.afterNumberWord(i) {
		return Date{}, i, false
	}
	next, point := i+3, false
	if c := s.at(next); c.s == "." && !c.spaced && sep.s == "." {
		point = true
		next++
	}
	if n := s.at(next); !n.spaced && n.kind == digit || !n.spaced && (n.s == "/" || n.s == "." || n.s == ":" || n.s == ",") && s.at(next+1).kind == digit && !s.at(next+1).spaced {
		return Date{}, i, false
	}
	if s.hourUnit(next) && !(point && s.is(next, "am")) || s.is(next, "%") || s.is(next, "€") {
		return Date{}, i, false
	}
	lead := weekday || s.oneOf(i-1, leads)
	two := len(a.s) == 2 && len(b.s) == 2
	sure := s.loose || lead || point && sep.s == "." && (s.l.DayFirst() || two) || two && s.l.DayFirst() || two && sep.s == "/" && len(s.l) > 0
	if !sure || b.spaced && !point {
		return Date{}, i, false
	}
	d := Date{Form: Numeric, Lack: NoYear, Span: s.span(i, next)}
	if _, ok := credit.ValidDay(2024, b.n, a.n); ok {
		d.Readings = append(d.Readings, Reading{Month: time.Month(b.n), DayOfMonth: a.n, Order: DayFirst})
	}
	if _, ok := credit.ValidDay(2024, a.n, b.n); ok && a.n != b.n && sep.s != "." && (!s.l.DayFirst() || len(d.Readings) == 0) {
		d.Readings = append(d.Readings, Reading{Month: time.Month(a.n), DayOfMonth: b.n, Order: MonthFirst})
	}
	return d, next, len(d.Readings) > 0
}

// hourUnit reports whether token i makes what stands before it a time of day.
func (s *scan) hourUnit(i int) bool {
	if s.is(i, "am") && s.at(i).raw == "am" && s.at(i).spaced && (halfWords[s.at(i+1).s] != noHalf || dayParts[s.at(i+1).s] != noHalf || weekdayNames[s.at(i+1).s] > 0) {
		return false // "29.5 am Abend"
	}
	switch s.at(i).s {
	case "uhr", "h", "am", "pm", "uur", "u", "hrs", "heures", "horas", "hours", "stunden":
		return true
	}
	return false
}

// compactAt reads 20260303.
func (s *scan) compactAt(i int) (Date, int, bool) {
	k := s.at(i)
	if k.kind != digit || len(k.s) != 8 || !k.spaced && s.at(i-1).kind != mark || s.is(i-1, "-") && !k.spaced || s.afterNumberWord(i) {
		return Date{}, i, false
	}
	if n := s.at(i + 1); !n.spaced && (n.s == "-" || n.s == "/" || n.kind == word && n.s != "t") {
		return Date{}, i, false
	}
	y, m, day := k.n/10000, k.n/100%100, k.n%100
	got, ok := credit.ValidDay(y, m, day)
	if !ok || y < 1950 || y > 2069 {
		return Date{}, i, false
	}
	d := Date{Form: Compact, Span: s.span(i, i+1)}
	d.Readings = []Reading{{Day: got, Year: y, Month: time.Month(m), DayOfMonth: day, Order: YearFirst}}
	return d, i + 1, true
}

// weekDateAt reads 2026-W10-2, the second day of the tenth week (ISO 8601-1, section
// 5.2.3).
func (s *scan) weekDateAt(i int) (Date, int, bool) {
	week, day := s.at(i+3), s.at(i+5)
	if !s.fullYear(i) || !s.is(i+1, "-") || !s.is(i+2, "w") || s.at(i+2).spaced || week.kind != digit || len(week.s) != 2 || week.n < 1 || week.n > 53 ||
		!s.is(i+4, "-") || day.kind != digit || len(day.s) != 1 || day.n < 1 || day.n > 7 || !s.endsClean(i+6) {
		return Date{}, i, false
	}
	r := reading(mondayOf(s.at(i).n, week.n).AddDays(day.n - 1))
	r.Order = YearFirst
	return Date{Form: Numeric, Readings: []Reading{r}, Span: s.span(i, i+6)}, i + 6, true
}

// relatives are days counted from the day of writing, as token sequences.
var relatives = []struct {
	words  []string
	offset int
	only   Lang // the word means something else in another language
}{
	{[]string{"today"}, 0, ""}, {[]string{"yesterday"}, -1, ""}, {[]string{"tomorrow"}, 1, ""},
	{[]string{"the", "day", "after", "tomorrow"}, 2, ""}, {[]string{"day", "after", "tomorrow"}, 2, ""}, {[]string{"day", "before", "yesterday"}, -2, ""},
	{[]string{"heute"}, 0, ""}, {[]string{"gestern"}, -1, ""}, {[]string{"morgen"}, 1, ""}, {[]string{"vorgestern"}, -2, ""}, {[]string{"ubermorgen"}, 2, ""},
	{[]string{"aujourd", "'", "hui"}, 0, ""}, {[]string{"avant", "-", "hier"}, -2, ""}, {[]string{"apres", "-", "demain"}, 2, ""}, {[]string{"hier"}, -1, French}, {[]string{"demain"}, 1, ""},
	{[]string{"hoy"}, 0, ""}, {[]string{"ayer"}, -1, ""}, {[]string{"anteayer"}, -2, ""}, {[]string{"pasado", "manana"}, 2, ""}, {[]string{"manana"}, 1, Spanish},
	{[]string{"vandaag"}, 0, ""}, {[]string{"gisteren"}, -1, ""}, {[]string{"eergisteren"}, -2, ""}, {[]string{"overmorgen"}, 2, ""},
}

// mornings stand before a morning that is not tomorrow.
var mornings = set("heute gestern guten goede jeden am dieser diesem")

func (s *scan) relativeAt(i int) (Date, int, bool) {
	if s.at(i).kind != word {
		return Date{}, i, false
	}
	for _, r := range relatives {
		if r.only != "" && (len(s.l) != 1 || s.l[0] != r.only) {
			continue
		}
		if r.only == Spanish && (s.is(i-1, "la") || s.is(i-1, "por")) || s.is(i, "morgen") && s.oneOf(i-1, mornings) {
			continue // la mañana, heute Morgen
		}
		n := 0
		for n < len(r.words) && s.is(i+n, r.words[n]) {
			n++
		}
		if n == len(r.words) {
			return Date{Form: Relative, Offset: r.offset, Span: s.span(i, i+n)}, i + n, true
		}
	}
	return Date{}, i, false
}
