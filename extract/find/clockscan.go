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
	if ok && joined && (a.plain || b.plain) && !a.strong() && b.half == noHalf && !b.unit && a.h <= 12 && b.h <= 12 {
		if hf := s.partOfDay(i, next); hf != noHalf && (s.oneOf(i-1, clockLeads) || !a.plain || !b.plain) {
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
var dayParts = map[string]half{"morning": am, "evening": pm, "afternoon": pm, "night": pm, "abend": pm, "vormittag": am, "nachmittag": pm, "soir": pm, "matin": am, "tarde": pm, "noche": pm, "avond": pm, "ochtend": am, "middag": pm}

// partOfDay returns the half of the day that a word within four tokens of the times in
// tokens i to next names.
func (s *scan) partOfDay(i, next int) half {
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
		years := a.h >= 19 && a.h <= 20 && b.h >= 19 && b.h <= 20 && a.h*100+a.m <= b.h*100+b.m
		return !years && a.h < 24 && !s.afterNumberWord(i) || a.half != noHalf || b.half != noHalf
	case a.four || b.four:
		if a.four && s.fullYear(i) && a.half == noHalf {
			return false // "2017 - 06:25": a year before a time
		}
		return (a.strong() || b.strong()) && (a.zero || b.zero || a.half != noHalf || b.half != noHalf)
	case a.plain && b.plain && a.h < 7 && b.unit && a.half == noHalf && b.half == noHalf && !s.is(next-1, "uhr") && !s.betweenBefore(i):
		return false // "3-5 h" is a length
	case a.strong() && b.strong():
		return true
	case a.strong() || b.strong():
		return a.strong() || !a.plain || s.at(i).spaced || i == 0 || s.at(i-1).kind == mark
	case a.dotted && b.dotted:
		return a.m%5 == 0 && b.m%5 == 0 && a.h*60+a.m < b.h*60+b.m && (b.h > 12 || b.m > 12 || a.m > 12 || a.m == 0 || b.m == 0) && a.h > 4
	}
	return false
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
