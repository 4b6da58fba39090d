package find

import (
	"slices"
	"strings"

	"evidencevault/credit"
)

var (
	breakWords = set("break breaks pause pausen pauses lunch coffee tea recess mittagspause mittag kaffeepause pauze pauzes lunchpauze koffiepauze theepauze middagpauze pausa pausas descanso descansos dejeuner almuerzo mittagessen lunchpause lunchbreak koffie thee kaffee collation refrigerio merienda mittagsimbiss imbiss refreshments " +
		"interval intervals intermission interlude elevenses lunchtime mealbreak kaffeetafel teepause brotzeit jause vesper znuni zvieri verpflegungspause mittagstisch repas gouter entracte recreation interruption " +
		"receso recesos intermedio refaccion tentempie colacion bocadillo onderbreking middagmaal")
	lessWords = set("less minus abzuglich moins menos excluding deducting excl exklusive unterbrechung minder")
	// betweenBreak may stand between a word for a break and its time.
	betweenBreak = set("from of von at for a an the de du des une un una von zu van om um and und et y en to le la las per je x each jeweils")
)

const longestBreak = 120

// breakWord reports whether k names a break, alone or at the end of a compound
// (Kaffeepausen, lunchpauze).
func breakWord(k *token) bool {
	return k.kind == word && (breakWords[k.s] || len(k.s) > 6 && (strings.HasSuffix(k.s, "pause") || strings.HasSuffix(k.s, "pausen") || strings.HasSuffix(k.s, "pauze") || strings.HasSuffix(k.s, "pauzes")))
}

// isPause reports whether span n of the day is a break: a word for one before it,
// or behind it with nothing more to say, or another break joined to it.
func (s *scan) isPause(all []placedClock, n int) bool {
	c := all[n]
	if c.Minutes > longestBreak {
		return false
	}
	j := c.first - 1
	for steps := 0; steps < 4 && j >= 0; steps++ {
		k := s.at(j)
		if n > 0 && j == all[n-1].next-1 {
			if all[n-1].pause {
				return true
			}
			break
		}
		if breakWord(k) || k.kind == word && lessWords[k.s] {
			return true
		}
		if k.kind == mark && (k.s == "." || k.s == ")") || k.kind == digit || k.kind == word && !betweenBreak[k.s] {
			break
		}
		j--
	}
	return s.pauseBehind(c.next)
}

// pauseBehind reports whether the label behind a time, at token i, is that of a
// break: "12:30–13:30 Lunch".
func (s *scan) pauseBehind(i int) bool {
	j := i
	if s.is(j, "uhr") {
		j++
	}
	if s.is(j, ":") || s.is(j, "-") || s.is(j, "(") || s.is(j, "|") {
		j++
	}
	if !breakWord(s.at(j)) || s.is(j, "breaks") || s.is(j, "pausen") || s.is(j, "pauses") {
		return false
	}
	for n := 1; n <= 4; n++ {
		if k := s.at(j + n); k.s == ")" || k.s == "," || k.s == ";" || k.kind == end {
			return true
		} else if k.kind == digit || k.s == ":" {
			return false
		}
	}
	return true
}

// breakNear reports whether a word for a break stands with a length of time.
func (s *scan) breakNear(d placed) bool {
	m := d.Each
	if m == 0 {
		m = d.Minutes
	}
	if m == 0 || m > longestBreak {
		return false
	}
	for n, j := 0, d.next; n < 4; n, j = n+1, j+1 {
		k := s.at(j)
		if breakWord(k) {
			after := s.at(j + 1)
			return after.s != ":" && after.kind != digit // else it names the next
		}
		if k.kind == digit || k.kind == end || k.s == "." || k.s == ";" || k.s == ")" || k.s == "," || k.s == ":" {
			break
		}
	}
	for n, j := 0, d.first-1; n < 5; n, j = n+1, j-1 {
		k := s.at(j)
		if breakWord(k) || n < 4 && k.kind == word && lessWords[k.s] {
			return true
		}
		if k.kind == end || k.s == ")" || k.s == ";" || k.s == "." && n > 0 || k.kind == digit && len(k.s) > 1 || k.kind == word && (k.s == "total" || k.s == "gesamt" || unitWords[k.s] != "") {
			break
		}
	}
	return false
}

// breakCount reads "two" of "two 15-minute breaks", "2 breaks of 15 minutes".
func (s *scan) breakCount(d placed) int {
	if d.Unit == Session && d.Each > 0 && d.Count.Rat().IsInt() && d.Count.Rat().Num().IsInt64() {
		return int(min(d.Count.Rat().Num().Int64(), 20))
	}
	for n, j := 0, d.first-1; n < 4; n, j = n+1, j-1 {
		k := s.at(j)
		if k.kind == digit && len(k.s) == 1 && k.n > 1 {
			return k.n
		}
		if v, ok := cardinals[k.s]; ok && k.kind == word && v > 1 && v < 10 {
			return v
		}
		if k.kind != word || !breakWord(k) && !betweenBreak[k.s] {
			break
		}
	}
	return 1
}

// Breaks finds the breaks that text lists, in order: spans of the day, and lengths
// of time.
func Breaks(text string, l Languages) []Break {
	s := newScan(text, l)
	all, in := s.clocks()
	return s.breaks(all, in)
}

func (s *scan) breaks(all []placedClock, in []bool) []Break {
	var found []Break
	for _, c := range all {
		if c.pause {
			found = append(found, Break{Span: c.Span, From: c.From, To: c.To, Minutes: c.Minutes, Count: 1})
		}
	}
	last := -1 // token behind the break before
	for _, d := range s.durations() {
		listed := s.shortBreaks(d)
		if in[d.first] || len(listed) == 0 && !s.breakNear(d) && !(last >= 0 && s.listGoesOn(last, d)) {
			continue
		}
		found, last = append(found, listed...), d.next
		b := Break{Span: d.Span, Minutes: d.Minutes, Count: s.breakCount(d)}
		if d.Each > 0 {
			b.Minutes = d.Each
		}
		if s.sameAgain(d.next) || b.Count == 1 && s.bothHalves(d.next) {
			b.Count++
		}
		found = append(found, b)
	}
	slices.SortFunc(found, func(a, b Break) int { return a.Span.From - b.Span.From })
	return slices.CompactFunc(found, s.sameBreak)
}

// listJoins stand between the lengths of a list of breaks.
var listJoins = set(", + & and und et y en")

// shortBreaks reads the bare numbers before a number of minutes, where all are breaks: "pausas de 15, 45 y
// 15 minutos".
func (s *scan) shortBreaks(d placed) []Break {
	if d.Unit != Minute || d.Minutes <= 0 || d.Minutes > longestBreak {
		return nil
	}
	var found []Break
	j := d.first - 1
	for s.oneOf(j, listJoins) && s.at(j-1).kind == digit && s.at(j-1).n > 0 && s.at(j-1).n <= longestBreak {
		found = append(found, Break{Span: s.span(j-1, j), Minutes: credit.Minutes(s.at(j - 1).n), Count: 1})
		j -= 2
	}
	for n := 0; n < 3; n, j = n+1, j-1 {
		if breakWord(s.at(j)) {
			return found
		}
		if k := s.at(j); k.s != ":" && !betweenBreak[k.s] {
			break
		}
	}
	return nil
}

// listGoesOn reports that a length stands behind a break in a list of them: "pauses : 15 min, 45 min
// (déjeuner), 15 min".
func (s *scan) listGoesOn(last int, d placed) bool {
	if d.Unit != Minute || d.Minutes <= 0 || d.Minutes > longestBreak || d.first-last > 6 || d.first == last {
		return false
	}
	for j := last; j < d.first; j++ {
		if k := s.at(j); k.s != "(" && k.s != ")" && !s.oneOf(j, listJoins) && !breakWord(k) {
			return false
		}
	}
	k := s.at(d.next)
	return k.kind == end || k.kind == mark || s.oneOf(d.next, listJoins)
}

// sameWords say of a break that it was as long as the one before.
var sameWords = set("same likewise ebenso ebensolang ebenfalls autant pareil mismo igual evenveel evenlang idem hetzelfde dito")

// sameAgain reports that behind a break, at token i, another is said to be as long: "coffee took
// 15 minutes and tea the same".
func (s *scan) sameAgain(i int) bool {
	named := false
	for j := i; j < i+12; j++ {
		switch k := s.at(j); {
		case k.kind == end || k.kind == digit || k.s == ";" || k.s == ".":
			return false
		case breakWord(k):
			named = true
		case named && k.kind == word && sameWords[k.s]:
			return true
		}
	}
	return false
}

// The halves of a day, in which there is a break each.
var (
	firstHalves  = set("morning vormittag vormittags vor matin manana ochtend ochtends")
	secondHalves = set("afternoon nachmittag nachmittags midi tarde middag middags")
)

// bothHalves reports that behind a break, at token i, both halves of the day are named: "15 minutes in the
// morning and afternoon".
func (s *scan) bothHalves(i int) bool {
	first := false
	for j := i; j < i+9; j++ {
		k := s.at(j)
		if k.kind == end || k.kind == digit || k.s == ";" || k.s == "." || breakWord(k) {
			return false
		}
		first = first || s.oneOf(j, firstHalves)
		if first && s.oneOf(j, secondHalves) {
			return true
		}
	}
	return false
}

// sameBreak reports that b is a again, in brackets, once as a length and once as a span
// of the day: "half an hour for lunch (12:30 to 13:00)".
func (s *scan) sameBreak(a, b Break) bool {
	if a.Minutes*credit.Minutes(max(a.Count, 1)) != b.Minutes*credit.Minutes(max(b.Count, 1)) || (a.To == 0) == (b.To == 0) {
		return false
	}
	if a.Span.From > b.Span.From {
		a, b = b, a
	}
	if a.Span.To > b.Span.From {
		return false
	}
	between := s.text[a.Span.To:b.Span.From]
	return strings.Contains(between, "(") && !strings.ContainsAny(between, "0123456789;.")
}

// Clocks finds spans of the day, in order and without overlap, each with the
// breaks of the same text that belong to it: those that lie in it, and lengths that
// follow it. Breaks themselves are left out.
func Clocks(text string, l Languages) []Clock {
	s := newScan(text, l)
	all, in := s.clocks()
	var found []Clock
	for _, c := range all {
		if !c.pause {
			found = append(found, c.Clock)
		}
	}
	for _, b := range s.breaks(all, in) {
		n := owner(found, b)
		if later := b; n < 0 && b.To > b.From && b.To <= 720 {
			later.From, later.To = b.From+720, b.To+720 // "9.30 to 4, tea (3.15 to 3.30)"
			if n = owner(found, later); n >= 0 {
				b = later
			}
		}
		if n >= 0 {
			found[n].Breaks = append(found[n].Breaks, b)
		}
	}
	return found
}

// owner returns the span of the day that a break belongs to, −1 if none.
func owner(all []Clock, b Break) int {
	best := -1
	for n, c := range all {
		switch {
		case b.From == 0 && b.To == 0:
			if c.Span.From < b.Span.From && c.Minutes > b.Minutes || best < 0 && len(all) == 1 {
				best = n
			}
		case b.From >= c.From && (b.To <= c.To || c.PastMidnight):
			if best < 0 || c.Span.From < b.Span.From {
				best = n
			}
		}
	}
	return best
}

// net takes the breaks off, those with times counted once where they overlap.
func net(c Clock) credit.Minutes {
	spans := slices.Clone(c.Breaks)
	slices.SortFunc(spans, func(a, b Break) int { return a.From - b.From })
	total, until := c.Minutes, 0
	for _, b := range spans {
		if b.From == 0 && b.To == 0 {
			total -= b.Minutes * credit.Minutes(max(b.Count, 1))
			continue
		}
		from := max(b.From, until)
		if b.To > from {
			total -= credit.Minutes(b.To - from)
			until = b.To
		}
	}
	return max(total, 0)
}
