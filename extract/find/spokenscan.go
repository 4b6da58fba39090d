package find

import "strings"

// Hours of the day in words: "half past nine", "Viertel vor fünf", "half tien", "neuf heures et demie",
// "las cinco menos cuarto".

var (
	germanHours = hourWords("eins zwei drei vier funf sechs sieben acht neun zehn elf zwolf")
	dutchHours  = hourWords("een twee drie vier vijf zes zeven acht negen tien elf twaalf")
	latinHours  = hourWords("une deux trois quatre cinq six sept huit neuf dix onze douze", "una dos tres cuatro cinco seis siete ocho nueve diez once doce")
	anyHours    = hourWords("one two three four five six seven eight nine ten eleven twelve", "eins zwei drei vier funf sechs sieben acht neun zehn elf zwolf", "een twee drie vier vijf zes zeven acht negen tien elf twaalf")

	quarterHours = set("quarter viertel kwart")
	pastWords    = set("past after nach over")
	towardsWords = set("to before vor voor")
)

func hourWords(rows ...string) map[string]int {
	m := map[string]int{}
	for _, row := range rows {
		for i, w := range strings.Fields(row) {
			m[w] = i + 1
		}
	}
	return m
}

// spokenAt reads a time of day in words at token i and returns the token after it. Which half of the
// day it lies in is not said.
func (s *scan) spokenAt(i int) (hour, int, bool) {
	if s.at(i).kind != word {
		return hour{}, i, false
	}
	if h, next, ok := s.halfHourAt(i); ok {
		return h, next, true
	}
	if h, next, ok := s.quarterHourAt(i); ok {
		return h, next, true
	}
	h, ok := latinHours[s.at(i).s]
	if !ok {
		return s.wordHourAt(i)
	}
	j := i + 1
	if s.is(j, "heures") || s.is(j, "heure") || s.is(j, "horas") || s.is(j, "hora") {
		j++
	}
	return s.andPart(h, i, j)
}

// halfHourAt reads "half past nine", "halb zehn", "half tien".
func (s *scan) halfHourAt(i int) (hour, int, bool) {
	switch {
	case s.is(i, "half") && s.is(i+1, "past"):
		h, next := s.hourWord(i+2, anyHours)
		return hour{h: h, m: 30, spoken: true}, next, h > 0
	case s.is(i, "half") && dutchHours[s.at(i+1).s] > 0:
		return before(dutchHours[s.at(i+1).s], 30), s.pastUnit(i + 2), true
	case s.is(i, "halb") && germanHours[s.at(i+1).s] > 0:
		return before(germanHours[s.at(i+1).s], 30), s.pastUnit(i + 2), true
	case s.is(i, "dreiviertel") && germanHours[s.at(i+1).s] > 0:
		return before(germanHours[s.at(i+1).s], 15), s.pastUnit(i + 2), true
	}
	return hour{}, i, false
}

// quarterHourAt reads "a quarter past nine", "Viertel vor fünf", "kwart over negen".
func (s *scan) quarterHourAt(i int) (hour, int, bool) {
	j := i
	if s.is(j, "a") || s.is(j, "ein") || s.is(j, "een") {
		j++
	}
	if !s.oneOf(j, quarterHours) {
		return hour{}, i, false
	}
	h, next := s.hourWord(j+2, anyHours)
	switch {
	case h == 0:
	case s.oneOf(j+1, pastWords):
		return hour{h: h, m: 15, spoken: true}, next, true
	case s.oneOf(j+1, towardsWords):
		return before(h, 15), next, true
	}
	return hour{}, i, false
}

// andPart reads what French and Spanish put behind an hour: "et demie", "moins le quart", "y media",
// "menos cuarto".
func (s *scan) andPart(h, i, j int) (hour, int, bool) {
	switch {
	case (s.is(j, "et") || s.is(j, "y")) && (s.is(j+1, "demie") || s.is(j+1, "demi") || s.is(j+1, "media")):
		return hour{h: h, m: 30, spoken: true}, j + 2, true
	case (s.is(j, "et") || s.is(j, "y")) && (s.is(j+1, "quart") || s.is(j+1, "cuarto")) && !s.is(j+2, "d"):
		return hour{h: h, m: 15, spoken: true}, j + 2, true
	case s.is(j, "moins") && s.is(j+1, "le") && s.is(j+2, "quart"):
		return before(h, 15), j + 3, true
	case (s.is(j, "moins") || s.is(j, "menos")) && (s.is(j+1, "quart") || s.is(j+1, "cuarto")):
		return before(h, 15), j + 2, true
	case j == i+1 && s.is(j, "de") && s.is(j+1, "la"):
		if hf, next := s.halfAt(j, h); next > j {
			return hour{h: h, spoken: true, half: hf}, next, true // "cuatro de la tarde"
		}
	case j > i+1 && s.oneOf(i-1, clockLeads) || s.is(i-1, "las"):
		return hour{h: h, spoken: true}, j, true // "de neuf heures", "las nueve"
	}
	return hour{}, i, false
}

// wordHourAt reads "nine o'clock", "neun Uhr", "negen uur" behind a word that leads to hours.
func (s *scan) wordHourAt(i int) (hour, int, bool) {
	h, next := s.hourWord(i, anyHours)
	if h == 0 || next == i+1 {
		return hour{}, i, false
	}
	if s.is(next-1, "uur") && !s.oneOf(i-1, clockLeads) && !s.oneOf(i-1, toWords) {
		return hour{}, i, false // "drie uur" may be how long
	}
	return hour{h: h, spoken: true}, next, true
}

// hourWord reads an hour in words or figures with its unit; 0 if none stands there.
func (s *scan) hourWord(i int, in map[string]int) (h, next int) {
	k := s.at(i)
	h = in[k.s]
	if k.kind == digit && len(k.s) < 3 && k.n > 0 && k.n < 13 {
		h = k.n
	}
	if h == 0 {
		return 0, i
	}
	return h, s.pastUnit(i + 1)
}

// pastUnit passes over "Uhr", "uur" and "o'clock".
func (s *scan) pastUnit(i int) int {
	switch {
	case s.is(i, "uhr") || s.is(i, "uur"):
		return i + 1
	case s.is(i, "o") && s.is(i+1, "'") && s.is(i+2, "clock"):
		return i + 3
	}
	return i
}

// before is so many minutes before a full hour of the clock face.
func before(h, m int) hour {
	if h--; h == 0 {
		h = 12
	}
	return hour{h: h, m: 60 - m, spoken: true}
}
