package find

import (
	"slices"
	"strings"

	"evidencevault/credit"
)

// abbreviations are units of credit, or the word that makes hours or points one.
var abbreviations = set("lu lus ceu ceus pdh pdhs pdu pdus cpe cpes cme cmes cne cnes ects cpd cpds cpdh ce pe pd cle dpc ceh cehs acpe uec uecs ufc ufcs cfc cfcs")

// alone are abbreviations that need no noun.
var alone = set("lu lus ceu ceus pdh pdhs pdu pdus cpe cpes cme cmes cne cnes ects cpd cpds cpdh ceh cehs uec uecs ufc ufcs cfc cfcs")

// behindNumber are abbreviations that are a unit only behind their number: elsewhere they are a
// postcode's, or letters behind a name.
var behindNumber = set("cp fp pe")

// creditNouns count credits by themselves.
var creditNouns = set("credit credits point points pts punkt punkte punkten fortbildungspunkt fortbildungspunkte fortbildungspunkten weiterbildungspunkt weiterbildungspunkte weiterbildungspunkten " +
	"leistungspunkt leistungspunkte kreditpunkt kreditpunkte bildungspunkt bildungspunkte creditpoints creditos credito punto puntos punt punten studiepunt studiepunten " +
	"lernpunkt lernpunkte accreditatiepunt accreditatiepunten nascholingspunt nascholingspunten opleidingspunt opleidingspunten registratiepunt registratiepunten rezertifizierungspunkte")

// noPoints are compounds that end like points of credit and are none.
var noPoints = set("standpunt standpunten standpunkt standpunkte agendapunt agendapunten aandachtspunt aandachtspunten knooppunt knooppunten actiepunt actiepunten bespreekpunt bespreekpunten uitgangspunt uitgangspunten " +
	"verbeterpunt verbeterpunten meetpunt meetpunten zeitpunkt zeitpunkte zeitpunkten schwerpunkt schwerpunkte schwerpunkten programmpunkt programmpunkte programmpunkten tagesordnungspunkt tagesordnungspunkte " +
	"tagesordnungspunkten messpunkt messpunkte messpunkten treffpunkt treffpunkte eckpunkt eckpunkte kernpunkt kernpunkte prufpunkt prufpunkte kritikpunkt kritikpunkte strafpunt strafpunten strafpunkt strafpunkte kontrollpunkte")

// creditNoun reports a noun for credits, also at the end of a German or Dutch compound:
// "Registerpunten", "Kompetenzpunkte".
func (s *scan) creditNoun(i int) bool {
	if s.oneOf(i, creditNouns) {
		return true
	}
	k := s.at(i)
	if k.kind != word || len(k.s) < 8 || noPoints[k.s] {
		return false
	}
	for _, end := range []string{"punten", "punt", "punkte", "punkten", "punkt", "credits", "creditpoints", "kredite", "kredit"} {
		if strings.HasSuffix(k.s, end) {
			return true
		}
	}
	return false
}

// countNouns count credits only with an abbreviation or a phrase before or behind them.
var countNouns = set("hour hours unit units stunde stunden heure heures hora horas uur uren einheiten einheit unidades unidad unites unite")

// marks of an examination are counted in points too; these words give them away.
var scoreWords = set("score scored mark marks grade note notes ergebnis punktzahl erreichte erreichten achieved result quiz test exam examen prufung question questions fragen nota puntuacion resultaat pass passed maximal maximum max possible")

// fillers may stand between a unit and its number.
var fillers = set("awarded earned granted for this course event activity issued achieved claimed total value of is are session programme program the obtained gained vergeben erworben anerkannt obtenus obtenu otorgados obtenidos behaald toegekend approved requested available worth in all assigned gewahrt angerechnet attribues dieser diese fur kurs number anzahl nombre numero aantal")

var givenWords = set("awarded earned granted issued achieved claimed total vergeben erworben anerkannt obtenus obtenu otorgados obtenidos behaald toegekend approved assigned angerechnet attribues obtained gained value worth otorgada otorgadas asignada asignado reconocida reconocido concedida concedido accordes accordee attribuee toegekende")

// creditUnits are spellings of the same unit, letters only; the first names it.
var creditUnits = func() map[string]string {
	m := make(map[string]string)
	for _, row := range []string{
		"ceu ceus continuingeducationunit continuingeducationunits", "cpdhour cpdhours hourcpd hourscpd hoursofcpd hourofcpd cpdh hoursofcontinuingprofessionaldevelopment continuingprofessionaldevelopmenthours",
		"cpdpoint cpdpoints", "cpdcredit cpdcredits", "cpdunit cpdunits", "pdh pdhs professionaldevelopmenthour professionaldevelopmenthours",
		"pdu pdus professionaldevelopmentunit professionaldevelopmentunits", "cehour cehours continuingeducationhour continuingeducationhours",
		"cecredit cecredits continuingeducationcredit continuingeducationcredits", "cpe cpecredit cpecredits cpehour cpehours", "cme cmecredit cmecredits", "cne cnehour cnehours cnecredit cnecredits",
		"ects ectspoint ectspoints ectscredit ectscredits ectspunkte ectspunkt creditsects creditosects ectspunten", "fortbildungspunkt fortbildungspunkte fortbildungspunkten",
		"uec uecs unitededucationcontinue unitesdeducationcontinue", "ufc ufcs unitedeformationcontinue unitesdeformationcontinue",
		"weiterbildungspunkt weiterbildungspunkte weiterbildungspunkten", "credit credits credito creditos", "point points punkt punkte punkten punt punten punto puntos", "studiepunt studiepunten", "semesterhour semesterhours",
	} {
		words := strings.Fields(row)
		for _, w := range words {
			m[w] = words[0]
		}
	}
	return m
}()

// creditKind folds a unit to one name for all its spellings.
func creditKind(unit string) string {
	var b strings.Builder
	for _, r := range fold(unit) {
		if r >= 'a' && r <= 'z' {
			b.WriteRune(r)
		}
	}
	if k, ok := creditUnits[b.String()]; ok {
		return k
	}
	return b.String()
}

// abbreviation reports whether token i is one: short ones in capitals only, as "ce"
// and "pd" are words.
func (s *scan) abbreviation(i int, in map[string]bool) bool {
	k := s.at(i)
	if k.kind != word || !in[k.s] {
		return false
	}
	return len(k.s) > 2 || k.raw == strings.ToUpper(k.raw)
}

// minutesBehind reports that a number of minutes goes on from token i.
func (s *scan) minutesBehind(i int) bool {
	if s.is(i, "and") || s.is(i, ",") {
		i++
	}
	q, ok := s.quantityAt(i)
	if !ok {
		return false
	}
	u, _, _, ok := s.unitAt(q.next)
	return ok && u == Minute
}

// qualities may stand before a unit of credit and are no part of it.
var qualities = set("verifiable structured unstructured formal informal ethics core elective technical general approved accredited live verified")

var phraseHeads = [][]string{
	{"continuing", "professional", "development"}, {"continuing", "professional", "education"}, {"continuing", "education"}, {"continuing", "medical", "education"}, {"professional", "development"}, {"semester"}, {"continuing", "competence"}, {"learning"}, {"cpd"},
	{"professional", "learning"}, {"recertification"}, {"merit"}, {"competence"}, {"renewal"},
}

// notOwner are words before points that make them none of credit.
var notOwner = set("bullet data key main discussion agenda action talking focal starting check view percentage end turning sore weak strong good decimal several few more other power meeting start exit entry")

// romanceUnits is what units are of in French and Spanish: "unités de valeur".
var romanceUnits = [][]string{
	{"valeur"}, {"credit"}, {"formation", "continue"}, {"developpement", "professionnel"}, {"credito"}, {"formacion", "continua"}, {"formacion", "continuada"}, {"desarrollo", "profesional"}, {"educacion", "continua"},
}

// creditUnitAt reads a unit of credit at token i; owner allows words that say
// whose credits they are before it.
func (s *scan) creditUnitAt(i int, owner bool) (next int, abbr, ok bool) {
	j := i
	if s.is(j, "-") && !s.at(j).spaced {
		j++
	}
	if next, abbr, ok = s.creditCoreAt(j); ok && unitWords[s.at(j).s] == Hour && s.nextLabel(next-1) {
		return i, false, false
	} else if ok || !owner {
		return next, abbr, ok
	}
	for n := 0; n < 5; n++ {
		k := s.at(j)
		named := n == 0 && s.ownedBy(j) || k.s != "-" && s.is(j-1, "-") && !k.spaced && k.kind == word || k.kind == word && (k.raw != strings.ToLower(k.raw) || k.s == "training" || k.s == "learning" || k.s == "member" || k.s == "category" || k.s == "recertification" || k.s == "society" || qualities[k.s]) ||
			k.kind == digit && len(k.s) == 1 && s.is(j-1, "category") || k.s == "-" && !k.spaced
		if !named || unitWords[k.s] != "" && unitWords[k.s] != Lesson {
			return i, false, false
		}
		j++
		if next, abbr, ok = s.creditCoreAt(j); ok {
			return next, abbr, true
		}
	}
	return i, false, false
}

// ownedBy reports a small word before credits or points that says whose or of what sort they are:
// "four study credits".
func (s *scan) ownedBy(i int) bool {
	k := s.at(i)
	return k.kind == word && len(k.s) > 3 && !notOwner[k.s] && unitWords[k.s] == "" && cardinals[k.s] == 0 && !fillers[k.s] &&
		(s.is(i+1, "credits") || s.is(i+1, "points") || s.is(i+1, "credit") || s.is(i+1, "point"))
}

func (s *scan) creditCoreAt(i int) (next int, abbr, ok bool) {
	if s.abbreviation(i, abbreviations) {
		j := i + 1
		if s.is(j, "-") || s.is(j, "approved") || s.is(j, "accredited") {
			j++
		}
		if s.unitNoun(j) && !s.is(j+1, "rate") {
			return j + 1, true, true
		}
		return i + 1, true, s.abbreviation(i, alone) || s.abbreviation(i, behindNumber) && s.at(i-1).kind == digit
	}
	if s.abbreviation(i, behindNumber) && s.at(i-1).kind == digit {
		return i + 1, true, true
	}
	if next, ok = s.creditPhraseAt(i); ok {
		return next, true, true
	}
	if s.unitNoun(i) {
		if next, ok = s.nounOfCreditAt(i); ok {
			return next, true, true
		}
		if s.is(i, "credit") && (s.is(i+1, "hours") || s.is(i+1, "hour") || s.is(i+1, "points") || s.is(i+1, "units")) {
			return i + 2, false, true
		}
	}
	if !s.creditNoun(i) || s.is(i+1, "card") || s.is(i+1, "note") || s.is(i+1, "limit") || s.is(i+1, "memo") || s.is(i+1, "transfer") {
		return i, false, false
	}
	return i + 1, false, true
}

// unitNoun reports a noun for credits, or one for what is counted.
func (s *scan) unitNoun(i int) bool { return s.oneOf(i, creditNouns) || s.oneOf(i, countNouns) }

// creditPhraseAt reads a unit that is written out: "continuing education hours (CEH)".
func (s *scan) creditPhraseAt(i int) (int, bool) {
	for _, head := range phraseHeads {
		if !s.follow(i, head) {
			continue
		}
		if _, counted := s.quantityAt(i - 1); head[0] == "learning" && counted && s.at(i-1).kind == word {
			continue // "six learning units with films" are parts of a course
		}
		if j := i + len(head); s.unitNoun(j) && (head[0] != "learning" || s.oneOf(j, creditNouns) || s.is(j, "units")) {
			if s.is(j+1, "(") && s.abbreviation(j+2, abbreviations) && s.is(j+3, ")") {
				return j + 4, true
			}
			return j + 1, true
		}
	}
	return i, false
}

// nounOfCreditAt reads a noun with what it is of behind it: "hours of CPD".
func (s *scan) nounOfCreditAt(i int) (int, bool) {
	j := i + 1
	if s.is(j, "'") {
		j++
	}
	if s.is(j, "of") || s.is(j, "de") {
		j++
	}
	if s.abbreviation(j, abbreviations) {
		return j + 1, true
	}
	if s.is(i, "unites") || s.is(i, "unite") || s.is(i, "unidades") || s.is(i, "unidad") {
		for _, head := range romanceUnits {
			if j > i+1 && s.follow(j, head) {
				return j + len(head), true
			}
		}
	}
	for _, head := range phraseHeads[:5] {
		if s.follow(j, head) && j > i+1 && (s.is(i, "units") || s.is(j+len(head)-1, "development")) {
			return j + len(head), true
		}
	}
	return i, false
}

// follow reports that words stand one behind the other from token i.
func (s *scan) follow(i int, words []string) bool {
	for n, w := range words {
		if !s.is(i+n, w) {
			return false
		}
	}
	return true
}

// creditAt reads a number of credits at token i.
func (s *scan) creditAt(i int) (Credit, int, bool) {
	if c, next, ok := s.numberFirst(i); ok {
		return c, next, true
	}
	return s.unitFirst(i)
}

func (s *scan) numberFirst(i int) (Credit, int, bool) {
	q, ok := s.quantityAt(i)
	if !ok || !s.cleanBefore(i) || s.at(i).kind == word && q.next == i+1 && (len(s.at(i).s) <= 2 || q.value.Sign() == 0) {
		return Credit{}, i, false
	}
	unit := s.twice(i, q.next)
	next, abbr, ok := s.creditUnitAt(unit, true)
	if !ok || s.isRate(q, i, next) || s.isScore(i, next, abbr) {
		return Credit{}, i, false
	}
	if (s.is(next, ":") || s.is(next, "=")) && s.at(next+1).kind == digit {
		return Credit{}, i, false // "hours: 7.5 CEU: 0.75"
	}
	if (s.oneOf(next, countNouns) || s.oneOf(next, creditNouns)) && (s.is(next+1, ":") || s.is(next+1, "=")) && s.at(next+2).kind == digit {
		return Credit{}, i, false // "hours: 7.5 hours CPD units: 7"
	}
	first := unit
	for s.is(first, "-") || qualities[s.at(first).s] && s.at(first).raw == s.at(first).s {
		first++
	}
	return s.credit(q, first, next, i, next), next, true
}

// credit builds the value; the unit stands in tokens from to.
func (s *scan) credit(q quantity, from, to, first, next int) Credit {
	c := Credit{Value: q.text, Span: s.span(first, next)}
	if c.Value == "" || q.words {
		c.Value = q.value.String()
	}
	unit, _, _ := strings.Cut(s.span(from, to).Of(s.text), "(") // without "(PDH)"
	c.Unit = strings.Join(strings.Fields(unit), " ")
	c.Kind = creditKind(c.Unit)
	for j := first - 1; j >= first-4 && j >= 0; j-- {
		if k := s.at(j); k.s == "." || k.s == ";" {
			break
		} else if k.kind == word && (givenWords[k.s] || k.s == "gesamt" || k.s == "summe") {
			c.Total = true
		}
	}
	return c
}

// isRate reports whether q credits in tokens i to next tell what they are worth: "1 CEU
// per 10 hours", "10 contact hours = 1 CEU"; "6 contact hours = 0.6 CEU" are what was earned.
func (s *scan) isRate(q quantity, i, next int) bool {
	one := q.value.Equal(credit.Whole(1))
	if s.is(i-1, "=") && unitWords[s.at(i-2).s] == Hour {
		j := i - 3
		for j > 0 && s.oneOf(j, adjectives) {
			j--
		}
		return one || s.at(j).kind != digit || s.at(j).s == "1" && !s.is(j-1, ".") && !s.is(j-1, ",")
	}
	switch s.at(next).s {
	case "=", "equals":
		return one || s.at(next+1).kind != digit || s.at(next+1).s == "1"
	case "per", "pro", "par":
		return true
	case "is", "for":
		return s.is(next+1, "equivalent") || s.is(next+1, "every") || s.is(next+1, "each")
	}
	return false
}

// isScore reports whether points in tokens i to next are those of an examination.
func (s *scan) isScore(i, next int, abbr bool) bool {
	switch p := s.at(i - 1); p.s {
	case "of", "von", "sur", "out", "aus", "uit", "over", "/", "de", "van":
		if s.at(i-2).kind == digit || s.is(i-2, "out") {
			return true
		}
	case "-":
		if s.at(i-2).kind == digit && !abbr {
			return true
		}
	}
	switch s.at(next).s {
	case "out", "von", "sur", "/", "of", "uit", "van":
		if _, _, other := s.creditUnitAt(next+2, false); s.at(next+1).kind == digit && !other || s.is(next+1, "of") {
			return true
		}
	case "%":
		return true
	}
	if abbr || strings.HasPrefix(s.at(next-1).s, "credit") || len(s.at(next-1).s) > 8 {
		return false
	}
	for j := i - 1; j >= i-5 && j >= 0; j-- {
		if k := s.at(j); k.s == "." || k.s == ";" {
			break
		} else if k.kind == word && scoreWords[k.s] && !s.oneOf(j+1, givenWords) {
			return true
		}
	}
	return false
}

func (s *scan) unitFirst(i int) (Credit, int, bool) {
	if s.at(i).kind != word {
		return Credit{}, i, false
	}
	to, abbr, ok := s.creditCoreAt(i)
	if !ok {
		return Credit{}, i, false
	}
	j, sign, given := s.untilNumber(to)
	q, ok := s.quantityAt(j)
	given = given || s.oneOf(i-1, givenWords)
	last := j == to && s.at(q.next).kind == end
	if !sign && s.at(i-1).kind == digit {
		return Credit{}, i, false // the number before it counts
	}
	if !ok || q.words || !sign && !given && !last && !(abbr && j == to) && !(j == to && to > i+1) && !(j == to && s.is(i-1, "society")) {
		return Credit{}, i, false
	}
	if u, after, _, ok := s.unitAt(q.next); ok && u == Hour && s.is(to, ":") && to == i+1 && s.abbreviation(i, abbreviations) && j == to+1 {
		if s.minutesBehind(after) {
			return Credit{}, i, false // "CPD: 2 hours 15 minutes" is a length
		}
		c := s.credit(q, i, to, i, after)
		c.Unit += " " + s.span(q.next, after).Of(s.text) // "CPD: 6 hours"
		c.Kind = creditKind(c.Unit)
		return c, after, true
	}
	if s.yearOrMore(j, q) || s.isScore(j, q.next, abbr) {
		return Credit{}, i, false
	}
	from := i
	for n := 0; n < 2 && s.is(from-1, "-") && !s.at(from).spaced && !s.at(from-1).spaced && s.at(from-2).kind == word; n++ {
		from -= 2 // PE-punten
	}
	c := s.credit(q, from, to, i, q.next)
	c.Total = c.Total || given
	return c, q.next, true
}

// untilNumber passes over what stands between a unit and its number: a sign as ":", and a few
// words, of which some say that the credits were given.
func (s *scan) untilNumber(i int) (next int, sign, given bool) {
	if s.is(i, "(") && s.is(i+1, "s") && s.is(i+2, ")") {
		i += 3
	}
	for range 6 {
		k := s.at(i)
		switch {
		case k.s == ":" || k.s == "=":
			sign = true
		case k.s == "(" || k.s == ")" || k.kind == mark && k.s == "-" && k.spaced:
		case k.kind == word && fillers[k.s] && cardinals[k.s] == 0:
			given = given || givenWords[k.s]
		default:
			return i, sign, given
		}
		i++
	}
	return i, sign, given
}

// yearOrMore reports whether the number at token j is a year, a date, a time, money, a length or
// the number of another unit.
func (s *scan) yearOrMore(j int, q quantity) bool {
	k := s.at(q.next)
	if s.fullYear(j) && q.next == j+1 || !k.spaced && k.kind == mark && s.at(q.next+1).kind == digit && !s.at(q.next+1).spaced || k.s == "%" || k.s == "€" {
		return true
	}
	if _, _, ok := s.creditUnitAt(q.next, false); ok {
		return !s.is(q.next+1, ":")
	}
	_, next, _, ok := s.unitAt(q.next)
	if ok && s.is(next, ":") {
		return false
	}
	_, month := s.monthAt(q.next)
	return ok || month > q.next
}

// Credits finds numbers of credits with their unit, in order and without overlap.
// Contact hours are time, and left to [Durations]; marks and scores are none.
func Credits(text string, l Languages) []Credit {
	s := newScan(text, l)
	var found []Credit
	for i := 0; i < len(s.list); {
		c, next, ok := s.creditAt(i)
		if !ok || next <= i {
			i++
			continue
		}
		found = append(found, c)
		i = next
	}
	return slices.Clip(found)
}
