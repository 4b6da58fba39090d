package find

import (
	"evidencevault/credit"
)

// unitWords name a unit of time by one folded word.
var unitWords = unitTable(map[Unit]string{
	Minute: "min mins minute minutes minuten minuto minutos minuut mn",
	Hour: "h hr hrs hour hours std stdn stunde stunden heure heures hora horas uur uren zeitstunde zeitstunden kontaktstunde kontaktstunden contacturen contactuur " +
		"studienstunden seminarstunden kursstunden clockhours arbeitsstunden schulungsstunden",
	Day:   "day days tag tage tagen jour jours journee journees dia dias dag dagen werktage kurstage seminartage",
	Week:  "week weeks woche wochen semaine semaines semana semanas weken",
	Month: "month months monat monate monaten mois mes meses maand maanden",
	Year:  "year years jahr jahre jahren an ans annee annees ano anos jaar jaren",
	Lesson: "ue ues unterrichtseinheit unterrichtseinheiten unterrichtsstunde unterrichtsstunden lerneinheit lerneinheiten lehreinheit lehreinheiten ustd lesson lessons " +
		"lektion lektionen periode periodes lesuur lesuren leseenheid leseenheden schulstunde schulstunden lesson lecon lecons leccion lecciones",
	Session: "session sessions evening evenings class classes termin termine terminen abend abende abenden seance seances sesion sesiones sessie sessies avond avonden " +
		"sitzung sitzungen webinar webinars tutorial tutorials lecture lectures block blocks blocke bijeenkomst bijeenkomsten vorlesung vorlesungen lessen clase clases cours meetings einheit einheiten module modules modul",
})

func unitTable(words map[Unit]string) map[string]Unit {
	m := make(map[string]Unit)
	for u, list := range words {
		for w := range set(list) {
			m[w] = u
		}
	}
	return m
}

// unitPhrases name a unit by several words.
var unitPhrases = []struct {
	words []string
	unit  Unit
}{
	{[]string{"teaching", "units"}, Lesson}, {[]string{"teaching", "unit"}, Lesson}, {[]string{"academic", "hours"}, Lesson}, {[]string{"academic", "hour"}, Lesson},
	{[]string{"akademische", "stunden"}, Lesson}, {[]string{"akademischen", "stunden"}, Lesson}, {[]string{"lesson", "units"}, Lesson}, {[]string{"teaching", "periods"}, Lesson},
	{[]string{"unites", "d", "'", "enseignement"}, Lesson}, {[]string{"unidades", "lectivas"}, Lesson}, {[]string{"unidades", "didacticas"}, Lesson}, {[]string{"heures", "academiques"}, Lesson},
	{[]string{"periods", "of", "instruction"}, Lesson},
}

// adjectives may stand between a number and its unit of time.
var adjectives = set("contact taught net full live clock training teaching classroom instructional instruction tutorial seat whole attended actual lecture guided learning learner tuition study volle vollen effektive effektiven direct direkte verified supervised theory practical presential online virtual recorded nominal estimated further weitere additional zusatzliche")

// creditWords before or behind hours make them credits.
var creditWords = set("cpd ce pd pdh cpe cme cne ceu cpds ceus pdu cle cpdh continuing professional fortbildungspunkte dpc credit credits")

// durationAt reads a length of time at token i and returns the token after it.
func (s *scan) durationAt(i int) (Duration, int, bool) {
	if d, next, ok := s.isoAt(i); ok {
		return d, next, true
	}
	if !s.cleanBefore(i) {
		return Duration{}, i, false
	}
	for _, read := range []func(int) (Duration, int, bool){s.timesAt, s.sessionsAt, s.spanAt, s.colonAt, s.simpleAt, s.unitFirstAt} {
		if d, next, ok := read(i); ok && (s.at(next).spaced || s.at(next).kind == mark || s.at(next).kind == end) {
			d.Span = s.span(i, next)
			return d, next, true
		}
	}
	return Duration{}, i, false
}

// unitAt reads a unit of time behind a number, with an adjective or hyphen before it.
func (s *scan) unitAt(i int) (u Unit, next int, contact, ok bool) {
	j := i
	if s.is(j, "-") && !s.at(j).spaced {
		j++
	}
	for n := 0; n < 2; n++ {
		if u, next, ok := s.bareUnitAt(j); ok {
			return u, next, contact, true
		}
		if !s.oneOf(j, adjectives) {
			return "", i, false, false
		}
		contact = contact || s.is(j, "contact")
		j++
		if s.is(j, "-") {
			j++
		}
	}
	u, next, ok = s.bareUnitAt(j)
	return u, next, contact, ok
}

func (s *scan) bareUnitAt(i int) (Unit, int, bool) {
	if s.at(i).kind != word {
		return "", i, false
	}
phrases:
	for _, p := range unitPhrases {
		for n, w := range p.words {
			if !s.is(i+n, w) {
				continue phrases
			}
		}
		return p.unit, i + len(p.words), true
	}
	u, ok := unitWords[s.at(i).s]
	if !ok || s.at(i).s == "an" {
		return "", i, false
	}
	next := i + 1
	if len(s.at(i).s) <= 4 && s.is(next, ".") && !s.at(next).spaced && s.at(i).s != "uur" {
		if n := s.at(next + 1); n.kind != end && n.kind != word || n.kind == word && (n.raw == n.s || breakWord(n)) || u == Minute {
			next++ // the point of an abbreviation, not of the sentence
		}
	}
	return u, next, true
}

// minutes returns how long count of unit is; 0 when it is not whole or not defined.
func minutes(count credit.Amount, u Unit) credit.Minutes {
	per := int64(1)
	switch u {
	case Minute:
	case Hour:
		per = 60
	default:
		return 0
	}
	r := count.Mul(credit.Whole(per)).Nearest(credit.Whole(1)).Rat()
	if !r.Num().IsInt64() || r.Num().Int64() > 1e9 {
		return 0
	}
	return credit.Minutes(r.Num().Int64())
}

func times(count credit.Amount, each credit.Minutes) credit.Minutes {
	return minutes(count.Mul(credit.Whole(int64(each))), Minute)
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
	switch u {
	case Hour:
		d, next = s.hoursRest(d, q, next)
	case Lesson:
		d, next = s.lessonLength(d, next)
	case Session:
		return Duration{}, i, false // sessionsAt wants their length
	case Week:
		if add, k := s.joined(next, Day); k > next && add.Rat().IsInt() {
			d.Count, d.Unit, next = d.Count.Mul(credit.Whole(7)).Add(add), Day, k
		}
	}
	d.PerWeek = s.rateAfter(next)
	return d, next, true
}

// twice passes over the bracket behind a number that repeats one in words: "fifteen
// (15) hours".
func (s *scan) twice(i, next int) int {
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

// creditBefore reports whether a unit of credit stands within the four tokens before i.
func (s *scan) creditBefore(i int) bool {
	for j := i - 1; j >= i-4 && j >= 0; j-- {
		if s.abbreviation(j, alone) || s.is(j, "credit") || s.is(j, "point") {
			return true
		}
	}
	return false
}

// creditBehind reports whether "CPD", "of CPD", "of continuing education" follows.
func (s *scan) creditBehind(i int) bool {
	j := i
	if s.is(j, "of") || s.is(j, "de") || s.is(j, "(") || s.is(j, "an") {
		j++
	}
	return s.at(j).kind == word && creditWords[s.at(j).s]
}

// hoursRest reads what follows whole hours: minutes, two bare figures, a half.
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
	if k := s.at(next); k.kind == digit && len(k.s) == 2 && k.n < 60 && q.value.Rat().IsInt() && !s.joint(next) {
		if _, _, _, unit := s.unitAt(next + 1); !unit {
			d.Minutes += credit.Minutes(k.n)
			d.Count = credit.Fraction(int64(d.Minutes), 60)
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

// joined reads a smaller unit behind a larger: "and 40 minutes", ", 15 minutes".
func (s *scan) joined(i int, want Unit) (credit.Amount, int) {
	j := i
	if s.is(j, ",") {
		j++
	}
	if s.oneOf(j, andWords) {
		j++
	}
	q, ok := s.quantityAt(j)
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

// rateAfter reports whether "a week", "per day", "/ month" follows.
func (s *scan) rateAfter(i int) bool {
	switch k := s.at(i); {
	case k.s == "weekly" || k.s == "wochentlich" || k.s == "hebdomadaires" || k.s == "semanales" || k.s == "daily" || k.s == "taglich":
		return true
	case k.s == "per" || k.s == "a" || k.s == "an" || k.s == "each" || k.s == "pro" || k.s == "par" || k.s == "por" || k.s == "/" || k.s == "every" || k.s == "al" || k.s == "je" || k.s == "in" && s.is(i+1, "der"):
		j := i + 1
		if s.is(j, "der") || s.is(j, "la") {
			j++
		}
		u := unitWords[s.at(j).s]
		return u == Week || u == Day || u == Month || u == Year
	}
	return false
}

// parts are words for a part of an hour, or for one with a part, in one piece.
var parts = map[string]credit.Minutes{
	"halfuur": 30, "kwartier": 15, "viertelstunde": 15, "dreiviertelstunde": 45, "halbstunde": 30, "drieekwartier": 45, "driekwartier": 45, "anderthalbstunde": 90,
}

// partAt reads "ein Dreiviertelstunde", "een kwartier", "un quart d'heure".
func (s *scan) partAt(i int) (Duration, int, bool) {
	j := i
	if cardinals[s.at(j).s] == 1 && s.at(j).kind == word {
		j++
	}
	if m, ok := parts[s.at(j).s]; ok && s.at(j).kind == word {
		return Duration{Count: credit.Fraction(int64(m), 60), Unit: Hour, Minutes: m}, j + 1, true
	}
	n := 1
	if v, k := s.cardinalAt(i); k > i && v <= 3 {
		n, j = v, k
	}
	if (s.is(j, "quart") || s.is(j, "quarts")) && s.is(j+1, "d") && s.is(j+2, "'") && (s.is(j+3, "heure") || s.is(j+3, "heures")) {
		m := credit.Minutes(15 * n)
		return Duration{Count: credit.Fraction(int64(m), 60), Unit: Hour, Minutes: m}, j + 4, true
	}
	return Duration{}, i, false
}

// eachAt reads the length of one behind lessons or sessions: "of 45 minutes",
// "zu je 90 Minuten", "à 45 Min.", "(45 min)".
func (s *scan) eachAt(i int) (credit.Minutes, int, bool) {
	j, led := i, false
	for n := 0; n < 4; n++ {
		switch s.at(j).s {
		case "of", "a", "zu", "je", "von", "de", "d", "'", "van", "each", "lasting", "with", "mit", "at", "(", "=", "elk", "cada", "una", "zu-je", "chacune", "chacun", "-", "x", "per":
			led = true
			j++
			continue
		}
		break
	}
	q, ok := s.quantityAt(j)
	if !ok || !led && j == i {
		return 0, i, false
	}
	u, next, _, ok := s.unitAt(q.next)
	if !ok || u != Minute && u != Hour {
		return 0, i, false
	}
	m := minutes(q.value, u)
	if u == Hour {
		d, k := s.hoursRest(Duration{Minutes: m}, q, next)
		m, next = d.Minutes, k
	}
	if s.is(i, "(") && s.is(next, ")") {
		next++
	}
	if s.is(next, "each") || s.is(next, "chacune") || s.is(next, "elk") {
		next++
	}
	return m, next, m > 0
}

// eachSaid reads "2 hours each", which alone tells that a length in brackets or
// behind a comma is not the whole.
func (s *scan) eachSaid(i int) (credit.Minutes, int, bool) {
	j, said := i, false
	if s.is(j, "je") || s.is(j, "jeweils") || s.is(j, "each") || s.is(j, "a") && s.at(j).raw == "à" {
		j, said = j+1, true
	}
	q, ok := s.quantityAt(j)
	if !ok {
		return 0, i, false
	}
	u, next, _, ok := s.unitAt(q.next)
	if !ok || u != Minute && u != Hour {
		return 0, i, false
	}
	switch s.at(next).s {
	case "each", "chacune", "chacun", "elk", "apiece":
		next, said = next+1, true
	}
	m := minutes(q.value, u)
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
		return d, next
	}
	for _, each := range []credit.Minutes{45, 50, 60} {
		if m := times(d.Count, each); m > 0 {
			d.Candidates = append(d.Candidates, m)
		}
	}
	return d, i
}

// timesAt reads "4 × 90 min".
func (s *scan) timesAt(i int) (Duration, int, bool) {
	n, ok := s.quantityAt(i)
	if !ok {
		return Duration{}, i, false
	}
	switch s.at(n.next).s {
	case "x", "*", "mal", "fois", "veces", "keer", "times", "je":
	default:
		return Duration{}, i, false
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
		d, k := s.hoursRest(Duration{Minutes: each}, q, next)
		each, next = d.Minutes, k
	}
	return Duration{Count: n.value, Unit: Session, Each: each, Minutes: times(n.value, each), Contact: contact}, next, each > 0
}

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
	q, ok := s.quantityAt(n.next)
	if !ok || !s.is(q.next, "-") {
		return Duration{}, i, false
	}
	u, next, _, ok := s.unitAt(q.next)
	if !ok || u != Minute && u != Hour {
		return Duration{}, i, false
	}
	if v, k, ok := s.bareUnitAt(next); ok && v == Session {
		each := minutes(q.value, u)
		return Duration{Count: n.value, Unit: Session, Each: each, Minutes: times(n.value, each)}, k, each > 0
	}
	return Duration{}, i, false
}

// spanAt reads "45–60 minutes", "2 to 3 hours", "45 min – 1 h".
func (s *scan) spanAt(i int) (Duration, int, bool) {
	a, ok := s.quantityAt(i)
	if !ok {
		return Duration{}, i, false
	}
	j := a.next
	if d, next, ok := s.partOf(a); ok {
		return d, next, true
	}
	left, k, _, named := s.unitAt(j)
	if named && !s.is(j, "-") {
		j = k
	}
	if !s.is(j, "-") && !s.is(j, "to") && !s.is(j, "bis") && !s.is(j, "a") && !s.is(j, "tot") {
		return Duration{}, i, false
	}
	b, ok := s.quantityAt(j + 1)
	if !ok {
		return Duration{}, i, false
	}
	u, next, contact, ok := s.unitAt(b.next)
	if !ok || u == Session || u == Lesson || b.next < next && u == Hour && s.creditBehind(next) {
		return Duration{}, i, false
	}
	if !named || s.is(a.next, "-") {
		left = u
	}
	x, y := minutes(a.value, left), minutes(b.value, u)
	if u != Minute && u != Hour && a.value.Cmp(b.value) < 0 {
		return Duration{Count: b.value, Unit: u}, next, true
	}
	if x <= 0 || x >= y {
		return Duration{}, i, false
	}
	return Duration{Count: b.value, Unit: u, Candidates: []credit.Minutes{x, y}, Contact: contact, PerWeek: s.rateAfter(next)}, next, true
}

// partOf reads "18 of 21 hours": either may be meant.
func (s *scan) partOf(a quantity) (Duration, int, bool) {
	switch s.at(a.next).s {
	case "of", "von", "sur", "van", "out":
	default:
		return Duration{}, 0, false
	}
	j := a.next + 1
	if s.is(j, "of") {
		j++
	}
	b, ok := s.quantityAt(j)
	if !ok || b.words || a.words {
		return Duration{}, 0, false
	}
	u, next, contact, ok := s.unitAt(b.next)
	x, y := minutes(a.value, u), minutes(b.value, u)
	if !ok || x <= 0 || x >= y || u == Hour && s.creditBehind(next) {
		return Duration{}, 0, false
	}
	return Duration{Count: a.value, Unit: u, Candidates: []credit.Minutes{x, y}, Contact: contact}, next, true
}

var lengthWords = set("dauer duration duree duracion duur total gesamt umfang gesamtdauer length time lasting laenge lange volume")

// colonAt reads "7:30 hours", and "7:30 h" or "7:30" behind a word for length.
func (s *scan) colonAt(i int) (Duration, int, bool) {
	h, m := s.at(i), s.at(i+2)
	if h.kind != digit || len(h.s) > 3 || !s.is(i+1, ":") || s.at(i+1).spaced || m.kind != digit || len(m.s) != 2 || m.n > 59 || m.spaced {
		return Duration{}, i, false
	}
	led := false
	for j := i - 1; j >= i-3 && j >= 0; j-- {
		led = led || s.oneOf(j, lengthWords)
	}
	next := i + 3
	switch s.at(next).s {
	case "hours", "hrs", "stunden", "std", "heures", "horas", "uren":
		next++
	case "h":
		next++
		if !led {
			return Duration{}, i, false
		}
	default:
		if !led || s.is(next, ":") || s.is(next, "-") || s.is(next, "am") || s.is(next, "pm") || s.is(next, "uhr") || s.is(next, "to") || s.is(next, "bis") {
			return Duration{}, i, false
		}
	}
	total := credit.Minutes(h.n*60 + m.n)
	return Duration{Count: credit.Fraction(int64(total), 60), Unit: Hour, Minutes: total}, next, total > 0
}

// unitFirstAt reads "Contact hours: 15", "Stunden: 8", "Minutes = 90".
func (s *scan) unitFirstAt(i int) (Duration, int, bool) {
	u, ok := unitWords[s.at(i).s]
	if !ok || len(s.at(i).s) < 3 || u != Hour && u != Minute && u != Lesson && u != Day || s.oneOf(i-1, creditWords) || s.creditBehind(i+1) || s.at(i-1).kind == digit {
		return Duration{}, i, false
	}
	if s.oneOf(i-1, adjectives) && s.at(i-2).kind == digit && !s.is(i+1, ":") {
		return Duration{}, i, false // "10 contact hours = 1 CEU"
	}
	if s.is(i-1, "education") || s.is(i-1, "development") {
		return Duration{}, i, false
	}
	j := i + 1
	if s.is(j, ")") || s.is(j, "]") {
		j++
	}
	named := s.oneOf(i-1, adjectives) || s.is(i-1, "(") && s.is(i+1, ")")
	if s.is(j, "attended") || s.is(j, "completed") || s.is(j, "awarded") || s.is(j, "earned") {
		j++
		named = true
	}
	if s.is(j, ":") || s.is(j, "=") {
		j++
	} else if !named {
		return Duration{}, i, false
	}
	q, ok := s.quantityAt(j)
	if !ok || q.words || s.is(q.next, ":") || s.is(q.next, "/") {
		return Duration{}, i, false
	}
	if _, _, _, unit := s.unitAt(q.next); unit {
		return Duration{}, i, false
	}
	d := Duration{Count: q.value, Unit: u, Contact: s.is(i-1, "contact"), Minutes: minutes(q.value, u)}
	if u == Lesson {
		d, _ = s.lessonLength(d, q.next)
	}
	return d, q.next, true
}

// isoAt reads PT7H30M (ISO 8601-1, section 5.5.2).
func (s *scan) isoAt(i int) (Duration, int, bool) {
	if s.at(i).raw != "PT" || s.at(i+1).spaced || s.at(i+1).kind != digit {
		return Duration{}, i, false
	}
	var total credit.Minutes
	j := i + 1
	for n := 0; n < 3 && s.at(j).kind == digit && !s.at(j).spaced && s.at(j).n >= 0 && s.at(j).n < 1e6; n++ {
		switch s.at(j + 1).raw {
		case "H":
			total += credit.Minutes(s.at(j).n * 60)
		case "M":
			total += credit.Minutes(s.at(j).n)
		case "S":
		default:
			return Duration{}, i, false
		}
		j += 2
	}
	return Duration{Count: credit.Fraction(int64(total), 60), Unit: Hour, Minutes: total, Span: s.span(i, j)}, j, total > 0
}

// Durations finds lengths of time, in order and without overlap. Hours that are
// credits ("6 CPD hours") are left to [Credits], times of day to [Clocks].
func Durations(text string, l Languages) []Duration {
	s := &scan{tokens: cut(text), l: l}
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
