package find

import (
	"slices"

	"evidencevault/credit"
)

// eachAt reads the length of one behind lessons or sessions: "of 45 minutes",
// "zu je 90 Minuten", "à 45 Min.", "(45 min)".
func (s *scan) eachAt(i int) (credit.Minutes, int, bool) {
	j, led := i, false
	for n := 0; n < 4; n++ {
		switch s.at(j).s {
		case "of", "a", "zu", "je", "von", "de", "d", "'", "van", "each", "lasting", "with", "mit", "at", "(", "=", "elk", "cada", "una", "ieder", "iedere", "elke", "jeweils", "chaque", "zu-je", "chacune", "chacun", "-", "x", "per":
			led = true
			j++
			continue
		}
		break
	}
	if !led {
		return 0, i, false
	}
	m, next, ok := s.oneLengthAt(j)
	if !ok {
		return 0, i, false
	}
	if s.is(i, "(") && s.is(next, ")") {
		next++
	}
	if s.is(next, "each") || s.is(next, "chacune") || s.is(next, "elk") {
		next++
	}
	return m, next, m > 0
}

// oneLengthAt reads the length of one lesson or session, in figures or words: "90 minutes", "une heure
// et demie", "tres cuartos de hora".
func (s *scan) oneLengthAt(i int) (credit.Minutes, int, bool) {
	q, ok := s.quantityAt(i)
	u, next, _, unit := s.unitAt(q.next)
	if !ok || !unit || u != Minute && u != Hour {
		d, next, ok := s.partAt(i)
		return d.Minutes, next, ok && d.Minutes > 0 && d.Minutes < 24*60
	}
	d := Duration{Count: q.value, Minutes: minutes(q.value, u)}
	if u == Hour {
		d, next = s.hoursRest(d, q, next)
	}
	return d.Minutes, next, true
}

// eachSaid reads "2 hours each", which alone tells that a length in brackets or
// behind a comma is not the whole.
func (s *scan) eachSaid(i int) (credit.Minutes, int, bool) {
	j, said := i, false
	if s.is(j, "je") || s.is(j, "jeweils") || s.is(j, "each") || s.is(j, "a") && s.at(j).raw == "à" {
		j, said = j+1, true
	}
	m, next, ok := s.oneLengthAt(j)
	if !ok {
		return 0, i, false
	}
	switch s.at(next).s {
	case "each", "chacune", "chacun", "elk", "apiece":
		next, said = next+1, true
	case "cada":
		if s.is(next+1, "una") || s.is(next+1, "uno") {
			next, said = next+2, true
		}
	}
	if s.is(i-1, "(") && s.is(next, ")") {
		next++
	}
	return m, next, said && m > 0
}

// lessonLength completes lessons: with their length, else with the lengths they
// usually have.
func (s *scan) lessonLength(d Duration, i int) (Duration, int) {
	if each, next, ok := s.eachAt(i); ok {
		d.Each, d.Minutes = each, times(d.Count, each)
		if s.is(i, "=") && each >= 120 && d.Count.Cmp(credit.Whole(1)) > 0 {
			d.Each, d.Minutes = 0, each // "8 UE = 6 Stunden" is the whole
		}
		return d, next
	}
	for _, each := range []credit.Minutes{45, 50, 60} {
		if m := times(d.Count, each); m > 0 && !slices.Contains(d.Candidates, m) { // of a part of a lesson two may be one
			d.Candidates = append(d.Candidates, m)
		}
	}
	return d, i
}

// timesAt reads "4 × 90 min".
func (s *scan) timesAt(i int) (Duration, int, bool) {
	if n, ok := multiples[s.at(i).s]; ok {
		return s.partsAt(i+1, n)
	}
	n, ok := s.quantityAt(i)
	if !ok {
		return Duration{}, i, false
	}
	switch s.at(n.next).s {
	case "x", "*", "mal", "fois", "veces", "keer", "times", "je":
	default:
		return Duration{}, i, false
	}
	if v := n.value.Rat(); v.IsInt() && v.Num().IsInt64() {
		if d, next, ok := s.partsAt(n.next+1, int(v.Num().Int64())); ok {
			return d, next, true
		}
	}
	q, ok := s.quantityAt(n.next + 1)
	if !ok {
		return Duration{}, i, false
	}
	u, next, contact, ok := s.unitAt(q.next)
	if !ok || u != Minute && u != Hour && u != Lesson {
		return Duration{}, i, false
	}
	if u == Lesson {
		d, k := s.lessonLength(Duration{Count: n.value.Mul(q.value), Unit: Lesson}, next)
		return d, k, true
	}
	each := minutes(q.value, u)
	if u == Hour {
		d, k := s.hoursRest(Duration{Count: q.value, Minutes: each}, q, next)
		each, next = d.Minutes, k
	}
	return Duration{Count: n.value, Unit: Session, Each: each, Minutes: times(n.value, each), Contact: contact}, next, each > 0
}

// multiples say in one word how often.
var multiples = map[string]int{"twice": 2, "thrice": 3, "zweimal": 2, "dreimal": 3, "viermal": 4, "tweemaal": 2, "driemaal": 3, "viermaal": 4}

// partsAt reads a length behind what says how often it was: "twee keer een kwartier", "zweimal 20
// Minuten".
func (s *scan) partsAt(i, n int) (Duration, int, bool) {
	one, next, ok := s.partAt(i)
	if !ok {
		q, found := s.quantityAt(i)
		u, after, _, unit := s.unitAt(q.next)
		if !found || !unit || u != Minute && u != Hour || multiples[s.at(i-1).s] == 0 {
			return Duration{}, i, false
		}
		one, next = Duration{Minutes: minutes(q.value, u)}, after
	}
	if one.Minutes <= 0 || n <= 0 || n > 60 {
		return Duration{}, i, false
	}
	return Duration{Count: credit.Whole(int64(n)), Unit: Session, Each: one.Minutes, Minutes: one.Minutes * credit.Minutes(n)}, next, true
}

// vagueUnits count time only where their length stands with them; else they may be credits.
var vagueUnits = set("unit units unite unites unidad unidades eenheid eenheden")

// sessionsAt reads "4 sessions of 90 minutes", "four 90-minute classes", "15 Termine
// zu je 90 Minuten".
func (s *scan) sessionsAt(i int) (Duration, int, bool) {
	n, ok := s.quantityAt(i)
	if !ok {
		return Duration{}, i, false
	}
	if u, next, _, ok := s.unitAt(n.next); ok && (u == Session || u == Day && n.next < next) {
		each, after, ok := s.eachAt(next)
		if s.is(next, "(") || s.is(next, ",") {
			each, after, ok = s.eachSaid(next + 1)
		}
		if !ok {
			return Duration{}, i, false
		}
		return Duration{Count: n.value, Unit: Session, Each: each, Minutes: times(n.value, each)}, after, true
	}
	if s.oneOf(n.next, vagueUnits) {
		each, after, ok := s.eachAt(n.next + 1)
		return Duration{Count: n.value, Unit: Session, Each: each, Minutes: times(n.value, each)}, after, ok
	}
	q, ok := s.quantityAt(n.next)
	if !ok || !s.is(q.next, "-") {
		return Duration{}, i, false
	}
	u, next, _, ok := s.unitAt(q.next)
	if !ok || u != Minute && u != Hour {
		return Duration{}, i, false
	}
	v, k, ok := s.bareUnitAt(next)
	if s.is(next, "periods") || s.is(next, "slots") {
		v, k, ok = Session, next+1, true
	}
	if ok && (v == Session || v == Lesson) {
		each := minutes(q.value, u)
		return Duration{Count: n.value, Unit: Session, Each: each, Minutes: times(n.value, each)}, k, each > 0
	}
	return Duration{}, i, false
}

// defined gives lessons without length the one that the same text defines: "8 UE (1
// UE = 45 Minuten)".
func defined(all []placed) []placed {
	var each credit.Minutes
	for n, d := range all {
		if d.Unit == Lesson && d.Each > 0 && d.Count.Equal(credit.Whole(1)) {
			each = d.Each
			all[n].Defines = true
		}
	}
	for n := range all {
		if d := &all[n]; each > 0 && d.Unit == Lesson && d.Each == 0 {
			d.Each, d.Minutes, d.Candidates = each, times(d.Count, each), nil
		}
	}
	return all
}
