package find

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
	if r, next, ok := s.isoRange(i); ok {
		return r, next, true
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
	name, after := s.weekdayAt(i)
	if after > i {
		j = s.skipAfterWeekday(after)
	}
	if n, k := s.ordinalAt(j); s.at(j).kind == word && k > j && n > 0 && n < 32 && s.oneOf(k, andWords) {
		return side{readings: []Reading{{DayOfMonth: n}}, lack: NoYear, bare: true, weekday: j > i, day: name}, k, true // "the eleventh and twelfth of March"
	}
	if s.at(j).kind != digit || j == i && s.oneOf(i-1, beforeNumber) && s.is(i+1, ",") {
		return side{}, i, false // "Level 1, 20–21 October"
	}
	day, k := s.dayAt(j)
	if k == j {
		return side{}, i, false
	}
	return side{readings: []Reading{{DayOfMonth: day}}, lack: NoYear, bare: true, weekday: j > i, day: name}, k, true
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
	case s.is(j, "up") && s.is(j+1, "to"):
		return s.joinAt(j+1, and)
	case s.is(j, "auf"):
		j++
	case s.oneOf(j, toWords):
		for n := 0; n < 3 && (s.oneOf(j, toWords) || s.is(j, "'")); n++ {
			j++
		}
		if s.is(j, "en") && s.is(j+1, "met") || s.is(j, "and") && s.is(j+1, "including") {
			j += 2
		} else if s.is(j, "einschliesslich") {
			j++
		}
	case and && s.oneOf(j, andWords):
		j++
	case and && s.is(j, "u") && s.at(j).spaced && s.is(j+1, ".") && !s.at(j+1).spaced: // 3. u. 4. März
		j += 2
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
	if !ok && left.bare && (s.is(j, "/") || s.is(j, ",") && !s.oneOf(i-1, numberedNouns)) && left.readings[0].DayOfMonth > 0 {
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

// numberedNouns are things that a number behind them tells apart: "Level 1, 20–21 October".
var numberedNouns = set("level part module room stage step unit class grade block hall group series volume phase category type stufe teil modul raum saal block gruppe band kategorie klasse niveau partie salle etage groupe tome categorie nivel parte sala modulo grupo fase deel zaal lokaal groep reeks")

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
	if left.form == Numeric && left.lack == Whole && left.readings[0].Order == YearFirst && right.Form == Numeric && right.Lack == NoYear {
		return false // "2025-02-08 — 4.5 credits"
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
		k = s.skipAnd(j)
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

// Ranges finds spans of days, in order and without overlap. Ends that share month
// or year are filled in; every reading has its start not after its end. A range of
// months runs from the first to the last day, likewise one of years.
func Ranges(text string, l Languages) []Range { return again(&keptRanges, text, l, ranges) }

func ranges(text string, l Languages) []Range {
	s := newScan(text, l)
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
func Dates(text string, l Languages) []Date { return again(&keptDates, text, l, dates) }

func dates(text string, l Languages) []Date {
	s := newScan(text, l)
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
