package find

import "evidencevault/credit"

// unitWords name a unit of time by one folded word.
var unitWords = unitTable(map[Unit]string{
	Minute: "min mins minute minutes minuten minuto minutos minuut mn minutige minutiger minutiges minutigen minutigem minutig",
	Hour: "h hr hrs hour hours std stdn stunde stunden heure heures hora horas uur uren zeitstunde zeitstunden kontaktstunde kontaktstunden contacturen contactuur " +
		"studienstunden seminarstunden kursstunden clockhours arbeitsstunden schulungsstunden stundige stundiger stundiges stundigen stundigem stundig",
	Day:   "day days tag tage tagen jour jours journee journees dia dias dag dagen werktage kurstage seminartage",
	Week:  "week weeks woche wochen semaine semaines semana semanas weken",
	Month: "month months monat monate monaten mois mes meses maand maanden",
	Year:  "year years jahr jahre jahren an ans annee annees ano anos jaar jaren",
	Lesson: "ue ues unterrichtseinheit unterrichtseinheiten unterrichtsstunde unterrichtsstunden lerneinheit lerneinheiten lehreinheit lehreinheiten ustd lesson lessons " +
		"lektion lektionen le periode periodes lesuur lesuren leseenheid leseenheden schulstunde schulstunden lesson lecon lecons leccion lecciones",
	Session: "session sessions evening evenings morning mornings afternoon afternoons soiree soirees matinee matinees tarde tardes manana mananas vormittag vormittage vormittagen nachmittag nachmittage nachmittagen middag middagen ochtend ochtenden class classes termin termine terminen abend abende abenden seance seances sesion sesiones sessie sessies avond avonden " +
		"sitzung sitzungen webinar webinars tutorial tutorials lecture lectures block blocks blocke bijeenkomst bijeenkomsten dagdeel dagdelen vorlesung vorlesungen lessen clase clases cours meetings einheit einheiten module modules modul",
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
	{[]string{"units", "of", "instruction"}, Lesson}, {[]string{"units", "of", "teaching"}, Lesson}, {[]string{"unit", "of", "instruction"}, Lesson}, {[]string{"instructional", "units"}, Lesson},
	{[]string{"teaching", "units"}, Lesson}, {[]string{"teaching", "unit"}, Lesson}, {[]string{"academic", "hours"}, Lesson}, {[]string{"academic", "hour"}, Lesson},
	{[]string{"akademische", "stunden"}, Lesson}, {[]string{"akademischen", "stunden"}, Lesson}, {[]string{"lesson", "units"}, Lesson}, {[]string{"teaching", "periods"}, Lesson},
	{[]string{"unites", "d", "'", "enseignement"}, Lesson}, {[]string{"unidades", "lectivas"}, Lesson}, {[]string{"unidades", "didacticas"}, Lesson}, {[]string{"heures", "academiques"}, Lesson},
	{[]string{"horas", "catedra"}, Lesson}, {[]string{"horas", "academicas"}, Lesson}, {[]string{"horas", "pedagogicas"}, Lesson}, {[]string{"heures", "de", "cours"}, Hour}, {[]string{"horas", "didacticas"}, Lesson},
	{[]string{"periods", "of", "instruction"}, Lesson}, {[]string{"u", ".", "-", "std"}, Lesson}, {[]string{"u", "-", "std"}, Lesson},
}

// adjectives may stand between a number and its unit of time.
var adjectives = set("contact taught net full live clock training teaching classroom instructional instruction tutorial seat whole attended actual lecture guided learning learner tuition study volle vollen effektive effektiven direct direkte verified supervised theory practical presential online virtual recorded nominal estimated further weitere additional zusatzliche")

// creditWords before or behind hours make them credits.
var creditWords = set("cpd ce pd pdh cpe cme cne ceu cpds ceus pdu cle cpdh continuing professional fortbildungspunkte dpc credit credits")

// unitAt reads a unit of time behind a number, with an adjective or hyphen before it.
func (s *scan) unitAt(i int) (u Unit, next int, contact, ok bool) {
	j := i
	if s.is(j, "-") && !s.at(j).spaced || s.is(j, "'") && s.is(j-1, "un") { // un'ora
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
		next := i + len(p.words)
		if s.is(next-1, "std") && s.is(next, ".") && !s.at(next).spaced {
			next++
		}
		return p.unit, next, true
	}
	u, ok := unitWords[s.at(i).s]
	if !ok || s.at(i).s == "an" || s.is(i, "le") && s.at(i).raw != "LE" {
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
	if s.is(j, "'") {
		j++
	}
	if s.is(j, "of") || s.is(j, "de") || s.is(j, "(") || s.is(j, "an") {
		j++
	}
	if s.is(j, "continuing") && s.is(j+1, "education") && j > i {
		return false // hours of continuing education are time
	}
	return s.at(j).kind == word && creditWords[s.at(j).s] && !s.nextLabel(j)
}

// nextLabel reports that the word at token i begins a label with a colon and figures behind it: "16.5
// hours CPD units: 15".
func (s *scan) nextLabel(i int) bool {
	switch s.at(i + 1).s {
	case "units", "unit", "points", "credits", "punkte", "puntos", "creditos", "punten", "einheiten":
		return s.is(i+2, ":") && s.at(i+3).kind == digit
	}
	return false
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
