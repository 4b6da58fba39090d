package find

import (
	"strings"

	"evidencevault/credit"
)

// durationAt reads a length of time at token i and returns the token after it.
func (s *scan) durationAt(i int) (Duration, int, bool) {
	if d, next, ok := s.isoAt(i); ok {
		return d, next, true
	}
	if !s.cleanBefore(i) || s.timeOfDay(i) {
		return Duration{}, i, false
	}
	for _, read := range []func(int) (Duration, int, bool){s.timesAt, s.sessionsAt, s.shortHoursAt, s.spanAt, s.colonAt, s.simpleAt, s.unitFirstAt} {
		if d, next, ok := read(i); ok && (s.at(next).spaced || s.at(next).kind == mark || s.at(next).kind == end) {
			d.Span = s.span(i, next)
			return d, next, true
		}
	}
	return Duration{}, i, false
}

// atHours stand before a time of day.
var atHours = set("om las la um at vers vanaf gegen siendo ab hacia rond kl in out")

// timeOfDay reports hours and minutes behind a word that makes them a time of day: "a
// las 12:15 horas", "om 10.00 uur".
func (s *scan) timeOfDay(i int) bool {
	h, m := s.at(i), s.at(i+2)
	if h.kind != digit || h.n > 24 || m.kind != digit || len(m.s) != 2 || m.n > 59 || m.spaced || !s.is(i+1, ":") && !s.is(i+1, ".") || s.at(i+1).spaced {
		return false
	}
	return s.oneOf(i-1, atHours) || s.at(i-1).raw == "à"
}

// simpleAt reads "7.5 h", "2 hours 40 minutes", "13 h 30", "two and a half days".
func (s *scan) simpleAt(i int) (Duration, int, bool) {
	if d, next, ok := s.partAt(i); ok {
		return d, next, true
	}
	q, ok := s.quantityAt(i)
	if !ok {
		return Duration{}, i, false
	}
	u, next, contact, ok := s.unitAt(s.twice(i, q.next))
	if !ok || s.badUnit(i, q, u, next) {
		return Duration{}, i, false
	}
	d := Duration{Count: q.value, Unit: u, Contact: contact, Minutes: minutes(q.value, u)}
	if marked := s.thousands(q); marked.Sign() > 0 && u == Minute {
		d.Count, d.Minutes = marked, minutes(marked, u)
	} else if marked.Sign() > 0 && u == Hour {
		d.Candidates, d.Minutes = []credit.Minutes{d.Minutes, minutes(marked, u)}, 0
		return d, next, true
	}
	switch u {
	case Hour:
		d, next = s.hoursRest(d, q, next)
		if each, k, ok := s.eachAt(next); ok && contact && s.is(next, "of") && each >= 40 && each < 60 {
			d.Each, d.Minutes, next = each, times(d.Count, each), k // "6 contact hours of 50 minutes"
		}
	case Lesson:
		d, next = s.lessonLength(d, next)
	case Session:
		return Duration{}, i, false // sessionsAt wants their length
	case Day:
		if half, k := s.andHalf(next); k > next {
			d.Count, next = d.Count.Add(half), k // deux jours et demi
		}
	case Week:
		if add, k := s.joined(next, Day); k > next && add.Rat().IsInt() {
			d.Count, d.Unit, next = d.Count.Mul(credit.Whole(7)).Add(add), Day, k
		}
	}
	d.PerWeek = s.rateAfter(next)
	return d, next, true
}

// thousands returns the whole number that q is if its mark parts thousands, "1.250" or
// "1,250"; 0 when it cannot be one. So many minutes have no decimals; of hours nothing
// tells, and both are candidates.
func (s *scan) thousands(q quantity) credit.Amount {
	whole, frac, ok := strings.Cut(q.text, ".")
	if !ok || len(frac) != 3 || len(whole) > 3 || strings.Trim(whole, "0") == "" || q.words {
		return credit.Amount{}
	}
	v, err := credit.ParseAmount(whole + frac)
	if err != nil {
		return credit.Amount{}
	}
	return v
}

// twice passes over the bracket behind a number that repeats one in words: "fifteen
// (15) hours", and over the words behind figures: "15 (fifteen) hours".
func (s *scan) twice(i, next int) int {
	if s.is(next, "(") && s.at(i).kind == digit {
		for j := next + 1; j < next+8; j++ {
			k := s.at(j)
			if _, number := cardinals[k.s]; k.s == ")" && j > next+1 {
				return j + 1
			} else if !number && k.s != "-" && k.s != "point" && k.s != "and" && k.s != "half" {
				break
			}
		}
	}
	if _, word := cardinals[s.at(i-2).s]; word && s.is(i-1, "(") && s.is(next, ")") {
		return next + 1
	}
	return next
}

// badUnit tells what looks like a length and is none: "in 3 min" aside, a mark of
// credit behind hours, an indefinite article before a year, a time of day.
func (s *scan) badUnit(i int, q quantity, u Unit, next int) bool {
	if u == Hour && s.creditBehind(next) || u != Lesson && (s.is(next, ":") || s.is(next, "=")) && s.at(next+1).kind == digit {
		return true // "1.5 contact hours: 7.5" names the second
	}
	if u == Hour && s.is(i-1, ":") && s.abbreviation(i-2, abbreviations) && !s.minutesBehind(next) {
		return true // "CPD: 6 hours"
	}
	if (s.is(i-1, "=") || s.is(i-1, "per") || s.is(i-1, "to")) && s.creditBefore(i) {
		return true // "1 CEU = 10 contact hours" is a rate
	}
	unit := s.at(next - 1)
	if q.words && (u == Year || u == Month || u == Week || u == Day) && s.at(i).kind == word && cardinals[s.at(i).s] == 1 && q.next == i+1 {
		return true // "a day", "le mois": no count
	}
	if u == Hour && q.next == i+1 && s.at(i).n >= 0 && s.at(i).n <= 24 && (unit.s == "h" || unit.s == "heures" || unit.s == "uur" || unit.s == "horas") {
		p := s.at(i - 1)
		switch p.s {
		case "om", "las", "vers", "um", "vanaf", "tot", "gegen", "la":
			return true
		}
		return p.raw == "à" || p.raw == "À" || p.s == "des" && s.at(i-1).raw != "des"
	}
	if u == Minute && len(unit.s) == 2 && unit.raw != "mn" {
		return true
	}
	return false
}

// andPartOfHour reads a part of an hour behind whole ones, which is no break: "en een kwartier", "und eine
// Viertelstunde", "trois quarts".
func (s *scan) andPartOfHour(i int) (credit.Minutes, int) {
	if s.is(i, "trois") && s.is(i+1, "quarts") && !s.is(i+2, "d") {
		return 45, i + 2
	}
	if !s.is(i, "and") && !s.is(i, "und") && !s.is(i, "et") && !s.is(i, "y") && !s.is(i, "en") {
		return 0, i
	}
	d, next, ok := s.partAt(i + 1)
	if !ok || d.Minutes <= 0 || d.Minutes >= 60 {
		return 0, i
	}
	for j := next; j < next+4; j++ {
		if breakWord(s.at(j)) {
			return 0, i
		}
	}
	return d.Minutes, next
}

// hoursRest reads what follows whole hours: minutes, two bare figures, a half or a quarter.
func (s *scan) hoursRest(d Duration, q quantity, next int) (Duration, int) {
	if add, k := s.joined(next, Minute); k > next && add.Cmp(credit.Whole(60)) < 0 {
		d.Minutes += minutes(add, Minute)
		d.Count = credit.Fraction(int64(d.Minutes), 60)
		return d, k
	}
	if half, k := s.andHalf(next); k > next {
		d.Count = d.Count.Add(half)
		d.Minutes = minutes(d.Count, Hour)
		return d, k
	}
	if part, k := s.andPartOfHour(next); k > next {
		d.Minutes += part
		d.Count = credit.Fraction(int64(d.Minutes), 60)
		return d, k
	}
	if k := s.at(next); k.kind == digit && len(k.s) == 2 && k.n < 60 && q.value.Rat().IsInt() && !s.joint(next) {
		if _, _, _, unit := s.unitAt(next + 1); !unit {
			d.Minutes += credit.Minutes(k.n)
			d.Count = credit.Fraction(int64(d.Minutes), 60)
			if s.is(next+1, "m") {
				next++ // "2 h 30 m"
			}
			return d, next + 1
		}
	}
	j := next
	if s.is(j, "and") || s.is(j, "y") || s.is(j, "et") || s.is(j, "en") || s.is(j, "und") {
		j++
	}
	if n, k := s.cardinalAt(j); k > j && n >= 5 && n < 60 && q.words || k > j && n >= 10 && n < 60 && s.at(j).kind == word {
		if _, _, _, unit := s.unitAt(k); !unit {
			d.Minutes += credit.Minutes(n)
			d.Count = credit.Fraction(int64(d.Minutes), 60)
			return d, k
		}
	}
	return d, next
}

// joint reports whether token i is followed by a sign that makes it part of a
// longer number.
func (s *scan) joint(i int) bool {
	k := s.at(i + 1)
	return k.kind == mark && !k.spaced && s.at(i+2).kind == digit && !s.at(i+2).spaced
}

// skipAnd passes over a comma and a word for and.
func (s *scan) skipAnd(i int) int {
	if s.is(i, ",") {
		i++
	}
	if s.oneOf(i, andWords) {
		i++
	}
	return i
}

// joined reads a smaller unit behind a larger: "and 40 minutes", ", 15 minutes".
func (s *scan) joined(i int, want Unit) (credit.Amount, int) {
	q, ok := s.quantityAt(s.skipAnd(i))
	if !ok {
		return credit.Amount{}, i
	}
	u, next, _, ok := s.unitAt(q.next)
	if !ok && want == Minute && s.is(q.next, "m") && !s.at(q.next).spaced {
		u, next, ok = Minute, q.next+1, true
	}
	if !ok || u != want {
		return credit.Amount{}, i
	}
	return q.value, next
}

// Durations finds lengths of time, in order and without overlap. Hours that are
// credits ("6 CPD hours") are left to [Credits], times of day to [Clocks].
func Durations(text string, l Languages) []Duration {
	s := newScan(text, l)
	_, clock := s.clocks()
	var found []Duration
	for _, d := range defined(s.durations()) {
		if !clock[d.first] {
			d.Duration.Break = s.breakNear(d)
			found = append(found, d.Duration)
		}
	}
	return found
}

// placed is a duration with its tokens.
type placed struct {
	Duration
	first, next int
}

func (s *scan) durations() []placed {
	var found []placed
	for i := 0; i < len(s.list); {
		d, next, ok := s.durationAt(i)
		if !ok || next <= i {
			i++
			continue
		}
		found = append(found, placed{d, i, next})
		i = next
	}
	return found
}
