package find

import (
	"time"

	"evidencevault/credit"
)

// side is one end of a range, as far as it tells.
type side struct {
	readings []Reading
	form     Form
	lack     Lack
	short    bool
	weekday  bool
	bare     bool // only a day of the month, a month, or a year
}

func sideOf(d Date) side {
	return side{readings: d.Readings, form: d.Form, lack: d.Lack, short: d.TwoDigitYear, weekday: d.HasWeekday}
}

// rangeAt reads a range of days at token i and returns the token after it.
func (s *scan) rangeAt(i int) (Range, int, bool) {
	for _, read := range []func(int) (Range, int, bool){s.sinceAt, s.weekAt, s.quarterAt} {
		if r, next, ok := read(i); ok {
			return r, next, true
		}
	}
	s.loose = false
	if !s.cleanBefore(i) {
		return Range{}, i, false
	}
	between := s.betweenBefore(i)
	if left, j, ok := s.looseDate(i); ok && left.Form != Relative && !(left.Lack == MonthOnly && s.at(i-1).kind == digit && len(s.at(i-1).s) <= 2) {
		if r, next, ok := s.rightOf(i, sideOf(left), j, between); ok {
			return r, next, true
		}
	}
	if left, j, ok := s.bareDay(i); ok {
		if r, next, ok := s.rightOf(i, left, j, true); ok {
			return r, next, true
		}
	}
	if m, j := s.monthAt(i); j > i {
		left := side{readings: []Reading{{Month: m}}, form: Spelt, lack: MonthOnly, bare: true}
		if r, next, ok := s.rightOf(i, left, j, true); ok {
			return r, next, true
		}
	}
	return s.yearsAt(i)
}

// looseDate reads a date that may lack its year without other signs.
func (s *scan) looseDate(i int) (Date, int, bool) {
	s.loose = true
	d, j, ok := s.dateAt(i)
	s.loose = false
	return d, j, ok
}

// betweenBefore reports whether "between" or a like word stands before token i.
func (s *scan) betweenBefore(i int) bool {
	for j := i - 1; j >= i-3 && j >= 0; j-- {
		if s.oneOf(j, betweens) {
			return true
		}
	}
	return false
}

// bareDay reads a day of the month alone, or several: "3", "3.", "3, 10".
func (s *scan) bareDay(i int) (side, int, bool) {
	j := i
	if _, after := s.weekdayAt(i); after > i {
		j = s.skipAfterWeekday(after)
	}
	if s.at(j).kind != digit {
		return side{}, i, false
	}
	day, k := s.dayAt(j)
	if k == j {
		return side{}, i, false
	}
	return side{readings: []Reading{{DayOfMonth: day}}, lack: NoYear, bare: true, weekday: j > i}, k, true
}

// joinAt reads what parts the ends of a range.
func (s *scan) joinAt(i int, and bool) (int, bool) {
	j := i
	if s.is(j, ",") || s.is(j, ".") {
		j++
	}
	switch k := s.at(j); {
	case k.s == "-" && k.kind == mark:
		j++
		for n := 0; n < 2 && s.is(j, "-"); n++ {
			j++
		}
	case s.is(j, "t") && s.is(j+1, "/") && s.is(j+2, "m"):
		j += 3
	case s.is(j, "auf"):
		j++
	case s.oneOf(j, toWords):
		for n := 0; n < 3 && (s.oneOf(j, toWords) || s.is(j, "'")); n++ {
			j++
		}
	case and && s.oneOf(j, andWords):
		j++
	default:
		return i, false
	}
	for n := 0; n < 3 && (s.is(j, "the") || s.is(j, "den") || s.is(j, "dem") || s.is(j, "le") || s.is(j, "el") || s.is(j, "de") || s.is(j, "au") || s.is(j, "al") || s.is(j, "to") || s.is(j, "du") || s.is(j, "vom") || s.is(j, "del")); n++ {
		j++
	}
	return j, true
}

// rightOf reads join and right end behind a left end that ends at token j.
func (s *scan) rightOf(i int, left side, j int, and bool) (Range, int, bool) {
	k, ok := s.joinAt(s.skipClock(j), and)
	slash := false
	if !ok && left.bare && (s.is(j, "/") || s.is(j, ",")) && left.readings[0].DayOfMonth > 0 {
		k, ok, slash = j+1, true, true // "3./4. März", "3, 10 and 17 March"
	}
	if !ok && !left.bare && left.lack == NoYear && left.form == Spelt && (s.is(j, ",") || s.oneOf(j, andWords)) {
		return s.monthList(i, left, j+1, s.is(j, ","))
	}
	if !ok {
		return Range{}, i, false
	}
	if right, next, ok := s.looseDate(k); ok && right.Form != Relative && s.endOfRange(left, right, k, next) {
		if r, ok := join(left, sideOf(right)); ok {
			return s.finish(r, i, next), next, true
		}
	}
	if left.bare && left.readings[0].DayOfMonth > 0 {
		return s.listAt(i, left, k, slash)
	}
	if !left.bare && left.lack == NoYear && left.form == Spelt {
		return s.bareRight(i, left, k)
	}
	if left.bare && left.lack == MonthOnly {
		return s.monthsThenYear(i, left, k)
	}
	return Range{}, i, false
}

// skipClock passes over a time of day between a date and the sign of a range.
func (s *scan) skipClock(i int) int {
	j := i
	if s.is(j, ",") || s.is(j, "um") || s.is(j, "at") {
		j++
	}
	if s.at(j).kind == digit && s.at(j).n < 24 && s.is(j+1, ":") && s.at(j+2).kind == digit {
		j += 3
		if s.hourUnit(j) {
			j++
		}
		if n, ok := s.joinAt(j, false); ok && !s.clockFollows(n) {
			return j
		}
	}
	return i
}

// endOfRange reports whether right may end the range: figures without a year on
// both sides could as well be numbers or times.
func (s *scan) endOfRange(left side, right Date, k, next int) bool {
	if left.bare && right.Form == Numeric && s.at(k-1).s == s.at(k+1).s {
		return false // 3/3/15, 3-7-27
	}
	if left.form != Numeric || right.Form != Numeric || right.Lack != NoYear {
		return !(left.bare && right.Lack >= MonthOnly && left.readings[0].DayOfMonth > 0)
	}
	if left.weekday || right.HasWeekday || s.is(next-1, ".") || s.is(next-2, "/") || len(s.l) == 1 && s.l.DayFirst() {
		return true
	}
	return left.lack == Whole
}

// bareRight reads the second day of "March 3-5, 2026".
func (s *scan) bareRight(i int, left side, k int) (Range, int, bool) {
	day, j := s.dayAt(k)
	if j == k || s.clockFollows(k) || s.hourUnit(j) {
		return Range{}, i, false
	}
	year, next, _ := s.yearAfter(j, " ")
	if year == 0 {
		if s.is(j-1, ".") {
			j--
		}
		next = j
		if s.at(next).kind == mark && !s.at(next).spaced && s.at(next+1).kind == digit {
			return Range{}, i, false
		}
	}
	right := side{readings: []Reading{{Year: year, Month: left.readings[0].Month, DayOfMonth: day}}, form: Spelt}
	if year == 0 {
		right.lack = NoYear
	}
	r, ok := join(left, right)
	return s.finish(r, i, next), next, ok
}

// monthList reads "4 and 5, 2026" of "March 3, 4 and 5, 2026"; without the year at
// the end it is no list of days.
func (s *scan) monthList(i int, left side, k int, listed bool) (Range, int, bool) {
	for n := 0; n < 12; n++ {
		day, j := s.dayAt(k)
		if j == k {
			return Range{}, i, false
		}
		if year, next, short := s.yearAfter(j, " "); year > 0 && !short {
			right := side{readings: []Reading{{Year: year, Month: left.readings[0].Month, DayOfMonth: day}}, form: Spelt}
			r, ok := join(left, right)
			r.Listed = listed
			return s.finish(r, i, next), next, ok
		}
		if s.is(j, ",") {
			j++
		}
		if s.oneOf(j, andWords) {
			j++
		}
		k = j
	}
	return Range{}, i, false
}

// listAt reads further days of "3, 10 and 17 March 2026" behind the first; the
// range runs from the first to the last.
func (s *scan) listAt(i int, left side, k int, listed bool) (Range, int, bool) {
	for n := 0; n < 12; n++ {
		_, j, ok := s.bareDay(k)
		if !ok {
			return Range{}, i, false
		}
		next, ok := s.joinAt(j, true)
		if !ok && (s.is(j, ",") || s.is(j, "/")) {
			next, ok = j+1, true
		}
		if !ok {
			return Range{}, i, false
		}
		if right, after, ok := s.looseDate(next); ok && right.Form == Spelt && right.Lack <= NoYear {
			r, ok := join(left, sideOf(right))
			r.Listed = listed
			return s.finish(r, i, after), after, ok
		}
		k = next
	}
	return Range{}, i, false
}

// monthsThenYear reads the second month of "April to June in 2017".
func (s *scan) monthsThenYear(i int, left side, k int) (Range, int, bool) {
	m, j := s.monthAt(k)
	if j == k {
		return Range{}, i, false
	}
	year, next, _ := s.yearAfter(j, " ")
	if year == 0 {
		return Range{}, i, false
	}
	r, ok := join(left, side{readings: []Reading{{Year: year, Month: m}}, form: Spelt, lack: MonthOnly})
	return s.finish(r, i, next), next, ok
}

// yearsAt reads "2019–2021", "2019 to 2021", "2025/26".
func (s *scan) yearsAt(i int) (Range, int, bool) {
	if !s.fullYear(i) || s.afterNumberWord(i) {
		return Range{}, i, false
	}
	if r, next, ok := s.severalYears(i); ok {
		return r, next, true
	}
	if s.oneOf(i-1, yearWords) && s.endsClean(i+1) && !s.is(i+1, "-") && !s.is(i+1, "/") {
		return s.years(i, i+1, s.at(i).n, s.at(i).n)
	}
	return Range{}, i, false
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

func (s *scan) finish(r Range, i, next int) Range {
	r.Span = s.span(i, next)
	return r
}

func stretch(from, to Reading) Stretch {
	o := from.Order
	if to.Order != Unordered {
		o = to.Order
	}
	return Stretch{Start: from.First(), End: to.Last(), From: from, To: to, Order: o}
}

// join pairs the meanings of both ends. An order under which the end would lie
// before the start, or under which an end is no day, falls away.
func join(left, right side) (Range, bool) {
	r := Range{Form: left.form, TwoDigitYear: left.short || right.short, Weekday: left.weekday || right.weekday}
	if left.bare || right.form != Numeric {
		r.Form = right.form
	}
	for _, same := range []bool{true, false} {
		for _, b := range right.readings {
			for _, a := range left.readings {
				if same && a.Order != b.Order && a.Order != Unordered && b.Order != Unordered {
					continue
				}
				if st, ok := pair(a, b, left.weekday, right.weekday); ok {
					r.Readings = append(r.Readings, st)
				}
			}
		}
		if len(r.Readings) > 0 {
			break
		}
	}
	if len(r.Readings) == 0 {
		return Range{}, false
	}
	one := r.Readings[0]
	switch {
	case one.To.Year == 0:
		r.Lack = NoYear
		return r, one.To.DayOfMonth > 0
	case one.To.DayOfMonth == 0 || one.From.DayOfMonth == 0:
		r.Lack = MonthOnly
	}
	return r, true
}

// pair fills in what each end leaves to the other.
func pair(a, b Reading, weekA, weekB bool) (Stretch, bool) {
	if b.Month == 0 {
		return Stretch{}, false
	}
	if a.Month == 0 && (a.DayOfMonth == 0 || b.DayOfMonth == 0) {
		return Stretch{}, false
	}
	if (a.DayOfMonth == 0) != (b.DayOfMonth == 0) && (a.Year == 0 || b.Year == 0) {
		return Stretch{}, false
	}
	if a.Month == 0 {
		a.Month = b.Month
	}
	before := a.Month > b.Month || a.Month == b.Month && a.DayOfMonth > b.DayOfMonth
	switch {
	case a.Year == 0 && b.Year > 0:
		a.Year = b.Year
		if before {
			a.Year--
		}
	case b.Year == 0 && a.Year > 0:
		b.Year = a.Year
		if before {
			b.Year++
		}
	case a.Year == 0 && a.Month == b.Month && before:
		return Stretch{}, false
	}
	if !fill(&a) || !fill(&b) {
		return Stretch{}, false
	}
	st := stretch(a, b)
	if a.Year > 0 && !st.Start.Before(st.End) && st.Start != st.End {
		return Stretch{}, false
	}
	st.Weekday = weekA || weekB
	if weekA && !a.Day.IsZero() && a.Weekday == false || weekB && !b.Weekday {
		st.Weekday = false
	}
	return st, true
}

// fill sets the day of r where year, month and day are known; false when there is
// no such day.
func fill(r *Reading) bool {
	if r.DayOfMonth == 0 {
		return true
	}
	year := r.Year
	if year == 0 {
		year = 2024 // a leap year
	}
	d, ok := credit.ValidDay(year, int(r.Month), r.DayOfMonth)
	if ok && r.Year > 0 {
		r.Day = d
	}
	return ok
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
	if s.oneOf(i, sinces) {
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

var weekWords = set("week woche semaine semana weekcommencing")

// weekAt reads "the week of 6 July 2026", "semaine du 6 juillet".
func (s *scan) weekAt(i int) (Range, int, bool) {
	if !s.oneOf(i, weekWords) && !s.is(i, "kw") && !s.is(i, "cw") {
		return Range{}, i, false
	}
	if r, next, ok := s.weekNumberAt(i); ok {
		return r, next, true
	}
	j := i + 1
	linked := false
	for n := 0; n < 3 && s.at(j).kind == word; n++ {
		switch s.at(j).s {
		case "of", "vom", "du", "del", "van", "commencing", "beginning", "starting", "ab", "from", "de", "ending":
			linked = true
		case "the", "le", "el", "den":
		default:
			n = 3
			continue
		}
		j++
	}
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
		if !a.Day.IsZero() {
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
	n, j := s.at(i+1), i+2
	if s.is(j, "/") || s.is(j, ",") || s.is(j, "of") || s.is(j, "-") {
		j++
	}
	if n.kind != digit || n.n < 1 || n.n > 53 || len(n.s) > 2 || !s.fullYear(j) {
		return Range{}, i, false
	}
	jan4 := credit.Day(s.at(j).n, time.January, 4) // always in week 1
	from := jan4.AddDays(-(int(jan4.Weekday())+6)%7 + 7*(n.n-1))
	r := Range{Form: Numeric, Week: true, Span: s.span(i, j+1)}
	r.Readings = []Stretch{{Start: from, End: from.AddDays(6), From: reading(from), To: reading(from.AddDays(6))}}
	return r, j + 1, true
}

func reading(d credit.Date) Reading {
	y, m, day := d.YMD()
	return Reading{Day: d, Year: y, Month: m, DayOfMonth: day}
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
	}
	if n < 1 || n > 4 {
		return Range{}, i, false
	}
	year, next, short := s.yearAfter(j, " ")
	if year == 0 || short {
		return Range{}, i, false
	}
	first := time.Month(3*n - 2)
	r := Range{Form: Spelt, Lack: MonthOnly, Span: s.span(i, next)}
	r.Readings = []Stretch{stretch(Reading{Year: year, Month: first}, Reading{Year: year, Month: first + 2})}
	return r, next, true
}

var quarterOrdinals = map[string]int{"first": 1, "second": 2, "third": 3, "fourth": 4, "erste": 1, "erstes": 1, "ersten": 1, "zweite": 2, "zweites": 2, "zweiten": 2, "dritte": 3, "drittes": 3, "dritten": 3, "vierte": 4, "viertes": 4, "vierten": 4,
	"premier": 1, "deuxieme": 2, "second_": 2, "troisieme": 3, "quatrieme": 4, "primer": 1, "segundo": 2, "tercer": 3, "cuarto": 4, "eerste": 1, "tweede": 2, "derde": 3, "vierde": 4}

func (s *scan) quarterNumber(i int) (int, int) {
	if n, ok := quarterOrdinals[s.at(i).s]; ok {
		return n, i + 1
	}
	if s.at(i).kind == digit {
		return s.dayAt(i)
	}
	return 0, i
}

// Ranges finds spans of days, in order and without overlap. Ends that share month
// or year are filled in; every reading has its start not after its end. A range of
// months runs from the first to the last day, likewise one of years.
func Ranges(text string, l Languages) []Range {
	s := &scan{tokens: cut(text), l: l}
	found, _ := s.ranges()
	return found
}

// ranges returns the ranges and, for each token, whether it lies in one.
func (s *scan) ranges() ([]Range, []bool) {
	var found []Range
	in := make([]bool, len(s.list))
	for i := 0; i < len(s.list); {
		r, next, ok := s.rangeAt(i)
		if !ok || next <= i {
			i++
			continue
		}
		found = append(found, r)
		for ; i < next; i++ {
			in[i] = true
		}
	}
	return found, in
}

// Dates finds single days, months and years with a month, in order and without
// overlap. What is part of a range is left to [Ranges].
func Dates(text string, l Languages) []Date {
	s := &scan{tokens: cut(text), l: l}
	_, in := s.ranges()
	var found []Date
	for i := 0; i < len(s.list); {
		if in[i] {
			i++
			continue
		}
		d, next, ok := s.dateAt(i)
		if !ok || next <= i || in[next-1] {
			i++
			continue
		}
		found = append(found, d)
		i = next
	}
	return found
}
