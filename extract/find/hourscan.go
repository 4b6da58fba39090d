package find

import "slices"

// half says which half of the day a time names.
type half int

const (
	noHalf half = iota
	am
	pm
)

// hour is a time of day as it stands.
type hour struct {
	h, m   int
	half   half
	plain  bool // figures alone, "9"
	dotted bool // "9.30": a point is weaker than a colon
	four   bool // "0930"
	zero   bool // a leading nought: the 24-hour clock
	unit   bool // Uhr, h, uur …
	spoken bool // "half past nine"
}

// strong reports whether x alone shows that it is a time.
func (x hour) strong() bool { return !x.plain && !x.dotted && !x.four || x.unit || x.half != noHalf }

var noons = map[string]int{"noon": 12, "midday": 12, "mittag": 12, "mittags": 12, "midi": 12, "mediodia": 12, "midnight": 24, "mitternacht": 24, "minuit": 24, "medianoche": 24, "middernacht": 24}

// hourAt reads a time of day at token i and returns the token after it.
func (s *scan) hourAt(i int) (hour, int, bool) {
	k := s.at(i)
	if h, ok := noons[k.s]; ok && k.kind == word {
		return hour{h: h, unit: true, zero: true}, i + 1, true
	}
	if k.kind != digit {
		return s.spokenAt(i)
	}
	x, j := hour{h: k.n, zero: k.s[0] == '0'}, i+1
	switch {
	case s.fullYear(i) && s.joint(i) && len(s.at(i+2).s) <= 2:
		return hour{}, i, false
	case len(k.s) == 4 && k.n/100 < 25 && k.n%100 < 60:
		x.h, x.m, x.four = k.n/100, k.n%100, true
	case len(k.s) == 3 && k.n%100 < 60:
		x.h, x.m, x.four = k.n/100, k.n%100, true
		if _, after := s.halfAt(j, x.h); after == j {
			return hour{}, i, false
		}
	case len(k.s) > 2 || k.n > 24:
		return hour{}, i, false
	default:
		x, j = s.minutesAt(x, j)
	}
	x, j = s.hourUnitAt(x, j)
	if hf, after := s.halfAt(j, x.h); after > j {
		x.half, j = hf, after
	}
	if s.is(j, "noon") && x.h == 12 {
		x.half, j = pm, j+1
	}
	if x.h > 24 || x.h == 24 && x.m > 0 || x.half != noHalf && x.h == 0 && x.half == pm {
		return hour{}, i, false
	}
	return x, j, true
}

// minutesAt reads ":30", ".30" or "h30" behind the hour.
func (s *scan) minutesAt(x hour, j int) (hour, int) {
	sep, m := s.at(j), s.at(j+1)
	two := m.kind == digit && len(m.s) == 2 && m.n < 60
	switch {
	case sep.s == ":" && !sep.spaced && two && !m.spaced:
		x.m, j = m.n, j+2
		if s.is(j, ":") && s.at(j+1).kind == digit && len(s.at(j+1).s) == 2 {
			j += 2 // seconds
		}
	case sep.s == ":" && sep.spaced && two && m.spaced && len(s.at(j-1).s) == 2:
		x.m, j = m.n, j+2 // "09 : 00"
	case sep.s == "." && !sep.spaced && two && !m.spaced:
		x.m, x.dotted, j = m.n, true, j+2
	case (sep.s == "h" || sep.s == "u") && two && (!m.spaced || sep.s == "h" && sep.spaced):
		x.m, x.unit, j = m.n, true, j+2
	default:
		x.plain = true
	}
	return x, j
}

// hourUnitAt reads "Uhr", "h", "heures 30", "uur", "o'clock".
func (s *scan) hourUnitAt(x hour, j int) (hour, int) {
	switch s.at(j).s {
	case "uhr", "h", "heures", "heure", "uur", "horas", "hrs", "u":
		x.unit = true
		j++
		if m := s.at(j); x.m == 0 && m.kind == digit && len(m.s) == 2 && m.n < 60 && !s.joint(j) && (s.is(j-1, "uhr") || s.is(j-1, "heures")) {
			x.m, j = m.n, j+1
		}
		if s.is(j, ".") && !s.at(j).spaced && s.is(j-1, "h") && s.is(j+1, "-") {
			j++
		}
	case "o":
		if s.is(j+1, "'") && s.is(j+2, "clock") {
			x.unit = true
			j += 3
		}
	}
	return x, j
}

// halfWords name a part of the day behind a time.
var halfWords = map[string]half{
	"manana": am, "matin": am, "ochtends": am, "morgens": am, "vormittags": am, "vormittag": am, "fruh": am, "morning": am, "madrugada": am,
	"tarde": pm, "noche": pm, "soir": pm, "midi": pm, "avonds": pm, "middags": pm, "nachmittags": pm, "nachmittag": pm, "abends": pm, "afternoon": pm, "evening": pm, "night": pm, "mediodia": pm, "namiddags": pm,
}

// halfAt reads "am", "p.m.", "a. m.", "de la tarde", "'s avonds" behind hour h.
func (s *scan) halfAt(i, h int) (half, int) {
	if s.is(i, "'") && (s.is(i+1, "am") || s.is(i+1, "pm")) {
		i++ // a speck that the scan took for a mark
	}
	if s.is(i, ".") && !s.at(i).spaced && (s.is(i+1, "am") || s.is(i+1, "pm")) && !s.at(i+1).spaced {
		i++ // so is "11.20.am"
	}
	if hf, next, ok := s.lettersAt(i); ok {
		return hf, next
	}
	j := i
	for n := 0; n < 5; n++ {
		switch s.at(j).s {
		case "de", "la", "del", "du", "l", "'", "in", "the", "s", "apres", "-", "por", "am", "at":
			j++
			continue
		}
		break
	}
	hf, ok := halfWords[s.at(j).s]
	if !ok || j-i > 5 || s.is(j-1, "-") && !s.is(j-2, "apres") {
		return noHalf, i
	}
	if j == i && !s.at(j).spaced || s.at(j).s == "midi" && !s.is(j-2, "apres") {
		return noHalf, i
	}
	if s.is(j, "night") {
		if !s.is(j-1, "at") || h < 6 {
			return noHalf, i // 12 and 3 at night lie on different sides of midnight
		}
	}
	if s.is(j, "mediodia") && h == 11 {
		hf = am
	}
	if hf == am && h == 12 {
		hf = pm // "12 uur 's ochtends" is noon
	}
	return hf, j + 1
}

// lettersAt reads "am", "p.m.", "a. m."; noHalf where "am" is a word.
func (s *scan) lettersAt(i int) (half, int, bool) {
	k := s.at(i)
	switch {
	case k.s == "am" || k.s == "pm":
		if k.s == "am" && k.spaced && k.raw == "am" && slices.Contains(s.l, German) {
			return noHalf, i, true // "10:30 am Dienstag"
		}
		return map[string]half{"am": am, "pm": pm}[k.s], i + 1, true
	case (k.s == "a" || k.s == "p") && s.is(i+1, ".") && s.is(i+2, "m"):
		next := i + 3
		if s.is(next, ".") {
			next++
		}
		return map[string]half{"a": am, "p": pm}[k.s], next, true
	}
	return noHalf, i, false
}

// halves24 gives both times in minutes of the day, and whether the half of the
// day was guessed.
func halves24(a, b hour) (from, to int, guessed bool) {
	ah, bh := a.h*60+a.m, b.h*60+b.m
	twelve := func(m int) int { return m % 720 } // 12:30 am is 00:30
	switch {
	case a.half != noHalf && b.half != noHalf:
		return place(a), place(b), false
	case b.half != noHalf && (a.h > 12 || a.zero && a.h > 0 && b.half == am):
		return ah, place(b), false
	case b.half != noHalf:
		to = place(b)
		from = twelve(ah)
		if b.half == pm && from+720 < to && (a.plain && b.plain || from < 7*60 || !a.zero) && from+720 <= to {
			from += 720
		}
		if a.zero && a.h > 0 {
			from = ah
		}
		return from, to, false
	case a.half != noHalf:
		from = place(a)
		if b.h > 12 || b.zero && b.h > 0 {
			return from, bh, false
		}
		to = twelve(bh)
		switch {
		case to > from:
		case to+720 > from:
			to += 720
		}
		return from, to, false
	}
	if ah > 1440 || bh > 1440 {
		return ah, bh, false
	}
	if bh <= ah && b.h <= 12 && a.h <= 12 && a.h > 0 && !a.zero && !b.zero && !b.unit {
		return ah, bh + 720, !(a.spoken && b.spoken && a.h >= 7) // 9–5.30
	}
	known := a.zero || b.zero || a.h > 12 || b.h > 12 || a.unit || b.unit
	return ah, bh, !known && !(a.spoken && ah < bh) && (a.h < 7 || a.h > b.h)
}

// place gives minutes of the day of a time whose half is named.
func place(x hour) int {
	m := x.h*60 + x.m
	switch {
	case x.h > 12:
		return m
	case x.half == pm:
		return m%720 + 720
	}
	return m % 720
}
