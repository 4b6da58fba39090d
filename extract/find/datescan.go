package find

import (
	"time"

	"evidencevault/credit"
)

// scan reads dates in the tokens of one text.
type scan struct {
	*tokens
	l     Languages
	loose bool // the end of a range: a day without year needs no other sign
}

// dateAt reads a date with its weekday at token i and returns the token after it.
func (s *scan) dateAt(i int) (Date, int, bool) {
	day, j := s.weekdayAt(i)
	has := j > i
	if has {
		j = s.skipAfterWeekday(j)
	}
	d, next, ok := s.coreAt(j, has)
	if !ok && has { // "Mar 3, 2026": a Tuesday in Spanish, and March
		has, day = false, 0
		d, next, ok = s.coreAt(i, false)
	}
	if !ok {
		return Date{}, i, false
	}
	if !has && d.Lack <= NoYear {
		if w, after := s.weekdayAfter(next); after > next {
			day, has, next = w, true, after
		}
	}
	d.Span = s.span(i, next)
	d.HasWeekday, d.Weekday = has, day
	for k := range d.Readings {
		r := &d.Readings[k]
		r.Weekday = has && !r.Day.IsZero() && r.Day.Weekday() == day
	}
	return d, next, true
}

func (s *scan) skipAfterWeekday(i int) int {
	for n := 0; n < 3 && (s.is(i, ".") || s.is(i, ",") || s.is(i, "the") || s.is(i, "den") || s.is(i, "dem") || s.is(i, "le") || s.is(i, "el") || s.is(i, "de")); n++ {
		i++
	}
	return i
}

// weekdayAfter reads ", Friday" or "(Fri)" behind a date, unless another date
// begins with it.
func (s *scan) weekdayAfter(i int) (time.Weekday, int) {
	j := i
	if s.is(j, ",") || s.is(j, "(") {
		j++
	}
	w, next := s.weekdayAt(j)
	if next == j {
		return 0, i
	}
	after := s.skipAfterWeekday(next)
	if s.at(after).kind == digit || s.at(after).kind == word && monthNames[s.at(after).s] > 0 {
		return 0, i
	}
	if s.is(i, "(") && s.is(next, ")") {
		next++
	}
	return w, next
}

func (s *scan) coreAt(i int, weekday bool) (Date, int, bool) {
	for _, read := range []func(int) (Date, int, bool){s.dayMonthAt, s.monthDayAt, s.yearMonthAt, s.compactAt, s.weekDateAt} {
		if d, next, ok := read(i); ok {
			return d, next, true
		}
	}
	if d, next, ok := s.numericAt(i); ok {
		return d, next, true
	}
	if d, next, ok := s.monthYearAt(i); ok {
		return d, next, true
	}
	if d, next, ok := s.noYearAt(i, weekday); ok {
		return d, next, true
	}
	return s.relativeAt(i)
}

// dayAt reads a day of the month: "3", "3.", "3rd", "1er", "twenty-fourth".
func (s *scan) dayAt(i int) (int, int) {
	k := s.at(i)
	if k.kind == word {
		n, j := s.ordinalAt(i)
		if j == i {
			n, j = s.namedDay(i)
		}
		return n, s.inFigures(n, i, j)
	}
	if k.kind != digit || len(k.s) > 2 || k.n < 1 || k.n > 31 {
		return 0, i
	}
	j := i + 1
	if s.is(j, ".") && !s.at(j).spaced && s.oneOf(j+1, ordinalMarks) && !s.at(j+1).spaced {
		return k.n, j + 2 // 1.º
	}
	if s.oneOf(j, ordinalMarks) && !s.at(j).spaced {
		j++
		if s.at(j).s == "." && s.at(j-1).s == "o" {
			j++
		}
		return k.n, j
	}
	if s.is(j, ".") && !s.at(j).spaced {
		j++
	}
	if s.is(j, "°") && !s.at(j).spaced {
		j++
	}
	return k.n, j
}

// inFigures passes over a number in words that stands once more in figures behind it:
// "treinta (30) de junio", "primero (1.º) de febrero".
func (s *scan) inFigures(n, i, j int) int {
	if j == i || !s.is(j, "(") || s.at(j+1).kind != digit || s.at(j+1).n != n {
		return j
	}
	for k := j + 2; k < j+5; k++ {
		if s.is(k, ")") {
			return k + 1
		}
	}
	return j
}

// dayMonthAt reads "3 March 2026", "3rd of March", "3. März 2026", "1er mars",
// "el 3 de marzo de 2026", "3-Mar-26".
func (s *scan) dayMonthAt(i int) (Date, int, bool) {
	day, j := s.dayAt(i)
	if j == i || !s.cleanBefore(i) {
		return Date{}, i, false
	}
	if d, next, ok := s.dayYearMonth(i, day, j); ok {
		return d, next, true
	}
	if d, next, ok := s.numberedMonth(i, day, j); ok {
		return d, next, true
	}
	sep, j := s.untilMonth(j)
	month, k := s.monthAt(j)
	if k == j {
		month, k = s.romanAt(j)
	}
	mended := k == j
	if mended {
		month, k = s.mendedAt(j)
	}
	if k == j {
		return Date{}, i, false
	}
	year, next, short := s.yearAfter(k, sep)
	if mended && (year == 0 || short) {
		return Date{}, i, false
	}
	d, next, ok := s.spelt(year, month, day, short, next, i)
	d.Mended = mended
	return d, next, ok
}

// untilMonth passes over what parts a day from its month behind it, and returns the mark that may
// part it from the year as well.
func (s *scan) untilMonth(j int) (sep string, next int) {
	sep = " "
	if s.oneOf(j, dayWords) && s.oneOf(j+1, ofWords) {
		j++ // the third day of March
		if m := j + 1; s.oneOf(m, monthWords) && s.oneOf(m+1, ofWords) {
			j = m + 1 // a los 10 días del mes de noviembre
		} else if s.is(m, "the") && s.oneOf(m+1, monthWords) && s.oneOf(m+2, ofWords) {
			j = m + 2
		}
	}
	switch {
	case s.oneOf(j, ofWords):
		for n := 0; n < 2 && s.oneOf(j, ofWords); n++ {
			j++
		}
	case s.is(j, "-") || s.is(j, "/"):
		sep = s.at(j).s
		j++
	case s.is(j, ".") || s.is(j, ","):
		j++
	case s.is(j-1, ".") && !s.at(j).spaced:
		sep = "."
	}
	return sep, j
}

// numberedMonth reads "9 de 8 de 1971": twice de leaves no doubt.
func (s *scan) numberedMonth(i, day, j int) (Date, int, bool) {
	m := s.at(j + 1)
	if !s.is(j, "de") || m.kind != digit || len(m.s) > 2 || m.n < 1 || m.n > 12 || !s.is(j+2, "de") || !s.fullYear(j+3) {
		return Date{}, i, false
	}
	return s.spelt(s.at(j+3).n, time.Month(m.n), day, false, j+4, i)
}

// monthDayAt reads "March 3, 2026", "Mar. 3rd", "August/10, 2012", "Sep-23-2020".
func (s *scan) monthDayAt(i int) (Date, int, bool) {
	month, j := s.monthAt(i)
	if !s.cleanBefore(i) {
		return Date{}, i, false
	}
	if j == i {
		return s.mendedMonthDay(i)
	}
	sep := " "
	switch {
	case s.is(j, "-") && !s.at(j).spaced || s.is(j, "/"):
		sep = s.at(j).s
		j++
	case s.is(j, "the") || s.is(j, ",") || s.is(j, "de"):
		j++
	}
	if y := s.at(j); sep == "-" && s.fullYear(j) && s.is(j+1, "-") { // septiembre-2020-23
		if day, next := s.dayAt(j + 2); next > j+2 {
			return s.spelt(y.n, month, day, false, next, i)
		}
	}
	day, k := s.dayAt(j)
	if year := k + 5; s.clockFollows(k) && s.is(k+3, ":") && s.fullYear(year) { // Oct 26 11:00:09 2023
		return s.spelt(s.at(year).n, month, day, false, year+1, i)
	}
	if k == j || s.clockFollows(j) || s.at(i).raw == "may" && s.at(j).kind == word {
		return Date{}, i, false
	}
	if s.is(k-1, ".") && s.at(k-2).kind == digit && s.at(k).kind == digit && !s.at(k).spaced {
		return Date{}, i, false // a decimal
	}
	year, next, short := s.yearAfter(k, sep)
	if year == 0 {
		var ok bool
		if next, ok = s.withoutYear(i, k); !ok {
			return Date{}, i, false
		}
	}
	return s.spelt(year, month, day, short, next, i)
}

// withoutYear returns the token behind the month at i and its day, before k, where no year follows;
// false where they are no day.
func (s *scan) withoutYear(i, k int) (int, bool) {
	if m, after := s.monthAt(k); after > k && m > 0 && !s.is(k, "-") {
		return i, false // "March 3 April": the day belongs to the second
	}
	if s.at(i).raw == "may" && s.at(k).kind == word {
		return i, false // "may 10 people"
	}
	if s.is(k-1, ".") {
		k-- // the full stop of the sentence
	}
	return k, true
}

// mendedMonthDay reads "Marcn 3, 2026".
func (s *scan) mendedMonthDay(i int) (Date, int, bool) {
	if s.at(i+1).kind != digit || len(s.at(i+1).s) > 2 {
		return Date{}, i, false
	}
	month, j := s.mendedAt(i)
	day, k := s.dayAt(j)
	year, next, short := s.yearAfter(k, " ")
	if j == i || k == j || year == 0 || short {
		return Date{}, i, false
	}
	d, next, ok := s.spelt(year, month, day, false, next, i)
	d.Mended = true
	return d, next, ok
}

// clockFollows reports whether figures at j are the hour of a time.
func (s *scan) clockFollows(j int) bool {
	c := s.at(j + 1)
	return c.s == ":" && !c.spaced && s.at(j+2).kind == digit
}

// yearMonthAt reads "2020/Sep/23", "2020 September 23".
func (s *scan) yearMonthAt(i int) (Date, int, bool) {
	if !s.fullYear(i) || !s.cleanBefore(i) {
		return Date{}, i, false
	}
	j := i + 1
	sep := s.is(j, "-") || s.is(j, "/") || s.is(j, ".") || s.is(j, ",")
	if sep {
		j++
	}
	if d, next, ok := s.yearDayMonth(i, j); ok {
		return d, next, true
	}
	month, k := s.monthAt(j)
	if k == j {
		return Date{}, i, false
	}
	year := s.at(i).n
	m := k
	if s.is(m, "-") || s.is(m, "/") {
		m++
	}
	day, next := s.dayAt(m)
	if loose := sep && s.at(j).spaced; loose && next > m {
		return Date{}, i, false // "in 2014. July 13th"
	}
	if next > m && !s.clockFollows(m) {
		if y, _, _ := s.yearAfter(next, " "); y == 0 {
			return s.spelt(year, month, day, false, next, i)
		}
		return Date{}, i, false
	}
	if y, _, _ := s.yearAfter(k, " "); y > 0 {
		return Date{}, i, false // "in 2025 March 2026"
	}
	return s.monthOnly(year, month, Spelt, false, i, k)
}

// yearDayMonth reads "2020/23/Sep": the month in words leaves no doubt.
func (s *scan) yearDayMonth(i, j int) (Date, int, bool) {
	if !s.is(j-1, "/") && !s.is(j-1, "-") || s.at(j).kind != digit || len(s.at(j).s) > 2 || !s.is(j+1, s.at(j-1).s) {
		return Date{}, i, false
	}
	month, next := s.monthAt(j + 2)
	if next == j+2 {
		return Date{}, i, false
	}
	return s.spelt(s.at(i).n, month, s.at(j).n, false, next, i)
}

// dayYearMonth reads "23-2020-September", with the sign at token j.
func (s *scan) dayYearMonth(i, day, j int) (Date, int, bool) {
	if !s.is(j, "-") && !s.is(j, "/") || s.at(j).spaced || !s.fullYear(j+1) || !s.is(j+2, s.at(j).s) {
		return Date{}, i, false
	}
	month, next := s.monthAt(j + 3)
	if next == j+3 {
		return Date{}, i, false
	}
	return s.spelt(s.at(j+1).n, month, day, false, next, i)
}

// monthYearAt reads "March 2026", "sept. de 2025", "Dec/2018", "Mar '26".
func (s *scan) monthYearAt(i int) (Date, int, bool) {
	month, j := s.monthAt(i)
	if j == i || !s.cleanBefore(i) {
		return Date{}, i, false
	}
	sep := " "
	if s.is(j, "-") && !s.at(j).spaced || s.is(j, "/") {
		sep = s.at(j).s
	}
	year, next, short := s.yearAfter(j, sep)
	if year == 0 || short && s.at(next-2).s != "'" {
		return Date{}, i, false
	}
	return s.monthOnly(year, month, Spelt, short, i, next)
}

func (s *scan) monthOnly(year int, month time.Month, f Form, short bool, i, next int) (Date, int, bool) {
	d := Date{Form: f, Lack: MonthOnly, TwoDigitYear: short, Span: s.span(i, next)}
	d.Readings = []Reading{{Year: year, Month: month}}
	return d, next, true
}

func (s *scan) spelt(year int, month time.Month, day int, short bool, next, i int) (Date, int, bool) {
	d := Date{Form: Spelt, TwoDigitYear: short, Span: s.span(i, next)}
	r := Reading{Year: year, Month: month, DayOfMonth: day}
	check := year
	if year == 0 {
		d.Lack, check = NoYear, 2024 // a leap year
	}
	got, ok := credit.ValidDay(check, int(month), day)
	if !ok {
		return Date{}, i, false
	}
	if year > 0 {
		r.Day = got
	}
	d.Readings = []Reading{r}
	return d, next, true
}

// cleanBefore reports whether token i begins something: not the tail of a
// number, a code or a word.
func (s *scan) cleanBefore(i int) bool {
	k, p, q := s.at(i), s.at(i-1), s.at(i-2)
	if k.spaced || i == 0 || s.loose {
		return true
	}
	switch {
	case p.kind == digit:
		return k.kind == word
	case p.kind == word:
		return p.s == "t" || len(p.s) >= 2 && k.kind == digit && monthNames[p.s] == 0
	case p.s == ":" || p.s == "," || p.s == "'":
		return k.kind != digit || q.kind != digit || p.spaced // the minutes of a time, decimals
	case p.s == "-" || p.s == "/" || p.s == ".":
		if p.s == "." && q.kind == word {
			return true
		}
		return p.spaced || q.kind == mark && q.s != ")" || q.kind == end
	}
	return true
}
