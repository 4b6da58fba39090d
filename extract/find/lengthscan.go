package find

import (
	"strings"

	"evidencevault/credit"
)

// parts are words for a part of an hour, or for one with a part, in one piece.
var parts = map[string]credit.Minutes{
	"halfuur": 30, "kwartier": 15, "viertelstunde": 15, "dreiviertelstunde": 45, "halbstunde": 30, "drieekwartier": 45, "driekwartier": 45, "anderthalbstunde": 90,
}

// quarters are quarters of an hour, of which there may be several: "vijf kwartier".
var quarters = set("kwartier kwartieren viertelstunde viertelstunden")

// inOneWord reads "dreistündige", "neunzigminütiges", "zweieinhalbstündige".
func (s *scan) inOneWord(i int) (Duration, bool) {
	w := s.at(i)
	if w.kind != word {
		return Duration{}, false
	}
	unit, each := Hour, credit.Minutes(60)
	k := strings.Index(w.s, "stundig")
	if k < 0 {
		unit, each = Minute, 1
		k = strings.Index(w.s, "minutig")
	}
	if k < 2 || len(w.s) > k+len("stundig")+2 {
		return Duration{}, false
	}
	number := [2]int64{int64(cardinals[w.s[:k]]), 1}
	if f, ok := halves[w.s[:k]]; ok {
		number = f
	}
	if number[0] < 1 {
		return Duration{}, false
	}
	d := Duration{Count: credit.Fraction(number[0], number[1]), Unit: unit, Minutes: each * credit.Minutes(number[0]) / credit.Minutes(number[1])}
	return d, true
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
	if d, ok := s.inOneWord(i); ok {
		return d, i + 1, true
	}
	n := 1
	if v, k := s.cardinalAt(i); k > i && v <= 9 {
		n, j = v, k
	}
	if s.oneOf(j, quarters) {
		m := credit.Minutes(15 * n)
		return Duration{Count: credit.Fraction(int64(m), 60), Unit: Hour, Minutes: m}, j + 1, true
	}
	if s.is(i, "hora") && s.is(i+1, "y") && s.is(i+2, "media") {
		return Duration{Count: credit.Fraction(3, 2), Unit: Hour, Minutes: 90}, i + 3, true
	}
	if (s.is(j, "quart") || s.is(j, "quarts")) && s.is(j+1, "d") && s.is(j+2, "'") && (s.is(j+3, "heure") || s.is(j+3, "heures")) {
		m := credit.Minutes(15 * n)
		return Duration{Count: credit.Fraction(int64(m), 60), Unit: Hour, Minutes: m}, j + 4, true
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

// partOf reads "18 of 21 hours": either may be meant. Numbers in words, which may be articles, have
// to be more than one: "five of the seven and a half hours".
func (s *scan) partOf(a quantity) (Duration, int, bool) {
	switch s.at(a.next).s {
	case "of", "von", "sur", "van", "out", "de", "der", "des":
	default:
		return Duration{}, 0, false
	}
	j := a.next + 1
	if s.is(j, "of") {
		j++
	}
	if s.oneOf(j, wholeArticles) {
		j++
	}
	b, ok := s.quantityAt(j)
	if !ok || (b.words || a.words) && a.value.Cmp(credit.Whole(2)) < 0 {
		return Duration{}, 0, false
	}
	u, next, contact, ok := s.unitAt(b.next)
	x, y := minutes(a.value, u), minutes(b.value, u)
	if !ok || x <= 0 || x >= y || u == Hour && s.creditBehind(next) {
		return Duration{}, 0, false
	}
	if u == Minute || u == Hour {
		switch s.at(next).s {
		case "each", "apiece", "jeweils", "chacun", "chacune", "elk", "every", "respectively":
			return Duration{Count: a.value, Unit: Session, Each: y, Minutes: times(a.value, y), Contact: contact}, next + 1, true
		}
	}
	return Duration{Count: a.value, Unit: u, Candidates: []credit.Minutes{x, y}, Contact: contact}, next, true
}

// wholeArticles stand before the whole of which a part is counted.
var wholeArticles = set("the den der die les las los de het")

// shortHoursAt reads hours in the Dutch short form with their minutes: "2 u 15 min", "1 u. 45 min.".
func (s *scan) shortHoursAt(i int) (Duration, int, bool) {
	h := s.at(i)
	if h.kind != digit || len(h.s) > 3 || !s.is(i+1, "u") {
		return Duration{}, i, false
	}
	j := i + 2
	if s.is(j, ".") {
		j++
	}
	add, next := s.joined(j, Minute)
	if next == j || add.Cmp(credit.Whole(60)) >= 0 {
		return Duration{}, i, false
	}
	m := credit.Minutes(h.n*60) + minutes(add, Minute)
	return Duration{Count: credit.Fraction(int64(m), 60), Unit: Hour, Minutes: m}, next, m > 0
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
	if s.is(next, ":") && s.at(next+1).kind == digit && len(s.at(next+1).s) == 2 && s.at(next+1).n < 60 && !s.joint(next+1) && s.connected(i) {
		total := credit.Minutes(h.n*60 + m.n) // whole minutes: "Temps de connexion : 02:31:00"
		return Duration{Count: credit.Fraction(int64(total), 60), Unit: Hour, Minutes: total}, next + 2, total > 0
	}
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

// connectWords say how long somebody was in a meeting that was held over a line.
var connectWords = set("connexion connection connected online verbindung verbindungsdauer verbindungszeit verbunden conexion conectado conectada verbinding verbonden viewing watched duration dauer duree duracion duur session")

// connected reports that one of the four words before token i says so.
func (s *scan) connected(i int) bool {
	for j := i - 1; j >= i-4 && j >= 0; j-- {
		if s.oneOf(j, connectWords) {
			return true
		}
	}
	return false
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

// isoAt reads PT7H30M, PT0.5H, P2D, P7W (ISO 8601-1, section 5.5.2). Days have no length,
// so P1DT2H is one day; years and months are left alone.
func (s *scan) isoAt(i int) (Duration, int, bool) {
	if head := s.at(i).raw; head != "PT" && head != "P" || s.at(i+1).spaced || s.at(i+1).kind != digit || !s.at(i).spaced && s.at(i-1).kind != mark {
		return Duration{}, i, false
	}
	timed := s.is(i, "pt")
	var total, days, weeks credit.Amount
	j := i + 1
	for n := 0; n < 5 && s.at(j).kind == digit && !s.at(j).spaced; n++ {
		q, ok := s.figuresAt(j)
		if !ok || s.at(q.next).spaced {
			return Duration{}, i, false
		}
		sixty := credit.Whole(60)
		switch unit := s.at(q.next).raw; {
		case unit == "W":
			weeks = q.value
		case unit == "D" || unit == "DT":
			days, timed = q.value, unit == "DT"
		case unit == "H" && timed:
			total = total.Add(q.value.Mul(sixty))
		case unit == "M" && timed:
			total = total.Add(q.value)
		case unit == "S" && timed:
			total = total.Add(q.value.Div(sixty))
		default:
			return Duration{}, i, false
		}
		j = q.next + 1
	}
	d := Duration{Span: s.span(i, j)}
	switch {
	case weeks.Sign() > 0:
		d.Count, d.Unit = weeks, Week
	case days.Sign() > 0:
		d.Count, d.Unit = days, Day
	default:
		d.Count, d.Unit, d.Minutes = total.Div(credit.Whole(60)), Hour, minutes(total, Minute)
		return d, j, d.Minutes > 0
	}
	return d, j, true
}
