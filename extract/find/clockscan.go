package find

import "evidencevault/credit"

// clockAt reads a span of the day at token i and returns the token after it.
func (s *scan) clockAt(i int) (Clock, int, bool) {
	if !s.cleanBefore(i) || s.is(i-1, "€") || s.is(i-1, "$") || s.is(i-1, "£") {
		return Clock{}, i, false
	}
	a, j, ok := s.hourAt(i)
	if !ok {
		return Clock{}, i, false
	}
	k, joined := s.clockJoin(i, j)
	if !joined {
		k = j
	}
	b, next, ok := s.hourAt(k)
	if h, n := s.hourWord(k, anyHours); !ok && joined && a.spoken && h > 0 && s.behindHours(n) {
		b, next, ok = hour{h: h, spoken: true}, n, true // "from half past six until nine"
		if hf, after := s.halfAt(n, h); after > n {
			b.half, next = hf, after
		}
	}
	if ok && joined && a.half == noHalf && b.half == noHalf && a.h <= 12 && b.h <= 12 {
		hf := noHalf
		if (a.plain || b.plain) && !a.strong() && !b.unit && (s.oneOf(i-1, clockLeads) || !a.plain || !b.plain) {
			hf = s.partOfDay(i, next)
		} else if a.h < 12 && b.h < 12 && !a.zero && !b.zero {
			hf = s.eveningOf(i, next)
		}
		if hf != noHalf {
			a.half, b.half = hf, hf
		}
	}
	if !ok || !s.isClock(i, next, a, b, joined) {
		return Clock{}, i, false
	}
	from, to, guessed := halves24(a, b)
	c := Clock{From: from, To: to, HalfGuessed: guessed, Span: s.span(i, next)}
	if to%1440 == from%1440 {
		return Clock{}, i, false
	}
	if to < from {
		c.PastMidnight = true
		to += 24 * 60
	}
	c.Minutes = credit.Minutes(to - from)
	return c, next, true
}

var clockLeads = set("from between von zwischen van tussen de entre las morning evening afternoon vormittag abend")

// dayParts are words for a part of the day that stand near bare hours.
var dayParts = map[string]half{"morning": am, "evening": pm, "afternoon": pm, "night": pm, "abend": pm, "vormittag": am, "nachmittag": pm, "soir": pm, "matin": am, "tarde": pm, "noche": pm, "manana": noHalf, "avond": pm, "ochtend": am, "middag": pm}

// partOfDay returns the half of the day that a word within four tokens of the times in
// tokens i to next names.
func (s *scan) partOfDay(i, next int) half {
	for n := range 2 {
		if h, ok := dayParts[s.at(i-1-n).s]; ok {
			return h // right before them: one behind them may be that of others
		}
	}
	for n := range 4 {
		if h, ok := dayParts[s.at(next+n).s]; ok {
			return h
		}
		if h, ok := dayParts[s.at(i-1-n).s]; ok {
			return h
		}
	}
	return noHalf
}

// eveningOf returns pm where the words right before the times, or right behind them, say
// that the whole of them is an evening: "hier soir entre 7 h et 9 h 30". Further off the
// word may belong to other times of the line.
func (s *scan) eveningOf(i, next int) half {
	j := i - 1
	for n := 0; n < 2 && s.oneOf(j, clockLeads) && dayParts[s.at(j).s] == noHalf; n++ {
		j--
	}
	if dayParts[s.at(j).s] == pm && j < i-1 {
		return pm
	}
	if s.oneOf(next, eves) && dayParts[s.at(next+1).s] == pm {
		return pm
	}
	return noHalf
}

// eves are days that a part of the day follows.
var eves = set("hier gestern heute yesterday tomorrow morgen gisteren vandaag ayer hoy demain ce this heute")

var endWords = set("end ende ends finish finishes fin einde eind endet")

// clockJoin reads what parts the two times.
func (s *scan) clockJoin(i, j int) (int, bool) {
	and := s.betweenBefore(i)
	k := j
	if s.oneOf(k+1, endWords) && s.at(k).kind == mark {
		k++
	}
	if s.oneOf(k, endWords) {
		k++
		if s.is(k, ":") {
			k++
		}
		return s.skipDay(i, s.skipAbout(k)), true
	}
	k, ok := s.joinAt(j, and)
	if !ok {
		return j, false
	}
	return s.skipDay(i, s.skipAbout(k)), true
}

// skipDay passes over the day before the second time, at token k, when it is the same as
// before the first, at token i: "3.3.2026 09:00 – 3.3.2026 17:00".
func (s *scan) skipDay(i, k int) int {
	right, next, ok := s.dateAt(k)
	if !ok || right.Lack != Whole || len(right.Readings) == 0 {
		return k
	}
	for from := i - 1; from >= i-10 && from >= 0; from-- {
		left, to, ok := s.dateAt(from)
		if ok && s.skipTo(to) == i && len(left.Readings) > 0 && left.Readings[0].Day == right.Readings[0].Day {
			return s.skipTo(next)
		}
	}
	return k
}

// skipTo passes over what may stand between a day and a time.
func (s *scan) skipTo(i int) int {
	switch s.at(i).s {
	case "t", ",", "at", "um", "om":
		return i + 1
	}
	return i
}

// skipAbout passes over "ca." and the like before a time.
func (s *scan) skipAbout(k int) int {
	for n := 0; n < 4; n++ {
		switch s.at(k).s {
		case "las", "la", "ca", ".", "approx", "etwa", "circa", "gegen", "about", "ungefahr", "um", "om", "env", "environ":
			k++
			continue
		}
		break
	}
	return k
}

// isClock reports whether two times at tokens i to next are a span of the day and
// not dates, decimals or years.
func (s *scan) isClock(i, next int, a, b hour, joined bool) bool {
	if n := s.at(next); !n.spaced && n.kind == digit || s.joint(next-1) && s.at(next-1).kind == digit && !s.is(next, ",") && !s.is(next, "-") {
		return false
	}
	switch s.at(next).s {
	case "%", "€", "$", "£", "eur", "chf", "min", "minutes", "minuten", "days", "tage", "km", "stunden", "hours", "std":
		return false
	}
	if !joined {
		later := b.h*60+b.m > a.h*60+a.m || a.half != noHalf && b.half != noHalf && place(b) > place(a)
		return later && (a.half != noHalf && b.half != noHalf || !a.plain && !b.plain && !a.dotted && !b.dotted && !a.four && !b.four && !a.unit)
	}
	if s.monthFollows(next) {
		return false
	}
	switch {
	case a.four && b.four:
		if s.dayEndsAt(i) && !s.at(i-1).spaced && s.at(i).spaced {
			return a.h < 24
		}
		years := a.h >= 19 && a.h <= 20 && b.h >= 19 && b.h <= 20 && a.h*100+a.m <= b.h*100+b.m
		return !years && a.h < 24 && !s.afterNumberWord(i) || a.half != noHalf || b.half != noHalf
	case a.four || b.four:
		if a.four && s.fullYear(i) && a.half == noHalf {
			return false // "2017 - 06:25": a year before a time
		}
		return (a.strong() || b.strong()) && (a.zero || b.zero || a.half != noHalf || b.half != noHalf)
	case a.plain && b.plain && a.h < b.h && a.h >= 6 && a.half == noHalf && b.half == noHalf && s.unitLater(next, b):
		return true // "9–12 und 13–17 Uhr"
	case a.plain && b.plain && a.h < b.h && a.h >= 6 && s.oneOf(i-1, betweens) && s.dayEndsAt(i-1):
		return true // "3 March between 8 and 9"
	case a.plain && b.plain && s.is(i-1, "las") && (s.is(i-2, "de") || s.oneOf(i-2, betweens) || !s.is(i-2, "a")) && a.half == noHalf && !b.unit:
		return a.h < b.h && b.h <= 24 && s.behindHours(next) // "de las 9 a las 11"
	case a.plain && b.plain && a.h < 7 && b.unit && a.half == noHalf && b.half == noHalf && !s.is(next-1, "uhr") && !s.betweenBefore(i):
		return false // "3-5 h" is a length
	case a.strong() && b.strong():
		return true
	case a.strong() || b.strong():
		return a.strong() || !a.plain || s.at(i).spaced || i == 0 || s.at(i-1).kind == mark
	case (a.plain && b.dotted || a.dotted && b.plain) && s.oneOf(i-1, clockLeads) && s.halfNamed(i-2):
		return a.h < b.h && b.h < 24 // "mañana de 9 a 12.15"
	case a.dotted && b.dotted && s.is(i-1, "(") && breakWord(s.at(i-2)):
		return (b.h*60+b.m-a.h*60-a.m+720)%720 <= longestBreak // "lunch (12.45 to 1.30)"
	case a.dotted && b.dotted:
		return a.m%5 == 0 && b.m%5 == 0 && a.h*60+a.m < b.h*60+b.m && (b.h > 12 || b.m > 12 || a.m > 12 || a.m == 0 || b.m == 0) && a.h > 4
	}
	return false
}

// halfNamed reports that the word at token i names a half of the day.
func (s *scan) halfNamed(i int) bool {
	_, ok := dayParts[s.at(i).s]
	return ok
}

// unitLater reports whether a second span of the day follows the one that ends before
// token i, later than b and with the unit that holds for both.
func (s *scan) unitLater(i int, b hour) bool {
	if !s.oneOf(i, andWords) && !s.is(i, ",") && !s.is(i, "/") {
		return false
	}
	c, j, ok := s.hourAt(i + 1)
	if !ok || !c.plain || c.h < b.h {
		return false
	}
	k, joined := s.joinAt(j, false)
	d, next, ok := s.hourAt(k)
	return ok && joined && d.plain && d.h > c.h && d.unit && (s.is(next-1, "uhr") || s.is(next-1, "h") || s.is(next-1, "uur"))
}

// dayEndsAt reports whether a whole day, or one without its year, ends before token i.
func (s *scan) dayEndsAt(i int) bool {
	for from := max(i-8, 0); from < i; from++ {
		if d, next, ok := s.dateAt(from); ok && next == i && d.Lack <= NoYear && d.Form != Relative {
			return true
		}
	}
	return false
}

// behindHours reports whether nothing that is counted stands at token i, so that the
// figures before it can be hours of the day.
func (s *scan) behindHours(i int) bool {
	k := s.at(i)
	return k.kind != word || s.oneOf(i, ofWords) || s.oneOf(i, andWords) || weekdayNames[k.s] > 0 || k.s == "horas"
}

// monthFollows reports whether the figures before token i are a day of a month.
func (s *scan) monthFollows(i int) bool {
	j := i
	if s.is(j, ".") {
		j++
	}
	if s.oneOf(j, ofWords) {
		j++
	}
	_, k := s.monthAt(j)
	return k > j && s.at(i-1).kind == digit && !s.is(i-2, ":")
}

// placedClock is a span of the day with its tokens.
type placedClock struct {
	Clock
	first, next int
	pause       bool
}

// clocks returns all spans of the day, breaks among them, and for each token
// whether it lies in one.
func (s *scan) clocks() ([]placedClock, []bool) {
	var found []placedClock
	in := make([]bool, len(s.list))
	for i := 0; i < len(s.list); {
		c, next, ok := s.clockAt(i)
		if !ok || next <= i {
			i++
			continue
		}
		found = append(found, placedClock{Clock: c, first: i, next: next})
		for ; i < next; i++ {
			in[i] = true
		}
	}
	for n := range found {
		found[n].pause = s.isPause(found, n)
	}
	return found, in
}
