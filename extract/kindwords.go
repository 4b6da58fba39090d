package extract

import (
	"slices"
	"strconv"
	"strings"

	"evidencevault/extract/paper"
)

// partly ends a denial that is none of the whole: the paper is no certificate for each of
// the courses it lists, and proves what it lists all the same.
var partly = words(`for (?:each|every|any (?:one|single)|(?:the )?individual|single)|pour (?:chaque|chacune?|une seule)|(?:fur|uber) (?:jede[nrsm]?|(?:die )?einzelne[nr]?)|(?:der|des) einzelnen|einzelner|(?:de|para|por) cada|(?:voor|van) (?:elke?|iedere?|(?:de )?afzonderlijke)`)

// deniesAll reports that the text says of the paper that it is no proof, and means all of it.
func deniesAll(flat string) bool {
	for at := 0; at < len(flat); {
		m := deniesItself.FindStringIndex(flat[at:])
		if m == nil {
			return false
		}
		if at += m[1]; !partly.MatchString(" " + head(flat[at:], 30)) {
			return true
		}
	}
	return false
}

// broadSigns may run over a line break.
var broadSigns = slices.Concat(broad, furtherSigns)

// furtherSigns are signs of the kinds in words that tell it indirectly.
var furtherSigns = []sign{
	{paper.Attendance, 60, words(`spent (?:all (?:of )?|the (?:whole |entire )?(?:of )?|a (?:whole |full )?)(?:\w+ ){0,4}(?:with us|in our|at our|here)|(?:was|were) in (?:her|his|their|your) (?:seat|place|chair)|sat (?:with us|through|in with us)|verbrachte .{0,40}(?:bei uns|in unserem|mit uns)|a passe .{0,40}(?:avec nous|chez nous|dans nos|parmi nous)|paso .{0,40}(?:con nosotros|con nosotras|en nuestr\w+)|bracht .{0,40}(?:bij ons|met ons) door|was .{0,30}(?:bij|met) ons`), false},
	{paper.Attendance, 20, words(`attendance card of|anwesenheitskarte (?:von|fur)|carte de presence de|tarjeta de asistencia de|presentiekaart van`), false},
	{paper.Attendance, 30, words(`(?:was|were|is|are|has been|had been) (?:therefore |thus |indeed |duly |always |both |continuously )(?:present|with us|there|in attendance)|came to (?:our|the|all|each|every|both|\w+ of)`), false},
	{paper.Attendance, 40, words(`(?:attest|getuigschrift|bewijs|verklaring|bevestiging) van (?:aanwezigheid|deelname|bijwoning|deelneming)|(?:aanwezigheids|deelname|bijwonings)(?:attest|getuigschrift|formulier|verklaring)`), false},
	{paper.Credential, 34, words(`(?:tras|despues de|luego de|por) (?:haber )?(?:supera[rd]o?|aproba[rd]o?)(?: [^\s.]+){0,3} examen|apres (?:avoir )?(?:passe|reussi|reussite)(?: [^\s.]+){0,2} l'examen|nach (?:bestandener|erfolgreich abgelegter|abgelegter) \S*prufung|na (?:het )?(?:behalen|afleggen|slagen)(?: [^\s.]+){0,3} \S*examen`), false},
	{paper.Transcript, 60, words(`releve (?:individuel|nominatif|annuel|personnel|detaille|recapitulatif) (?:de|des|d')\s?(?:\w+ )?(?:formations?|stages|cours|activites|actions)|(?:individual|personal|annual) (?:training|learning|education|study|course) (?:record|statement|account|summary)|(?:personliche[rs]?|individuelle[rs]?) (?:bildungs|fortbildungs|weiterbildungs|schulungs)(?:nachweis|ubersicht|auszug|konto|bilanz)|(?:relacion|extracto|resumen|historial) (?:individual|personal|anual) de (?:formacion|cursos|actividades)|(?:persoonlijk|individueel) (?:scholings|opleidings|nascholings)(?:overzicht|register|dossier)`), false},
}

// evenings names the sessions of one series with a count: "our six winter evenings".
var evenings = words(`(?:our|the|these|those|all|of the|of our|on) (?:two|three|four|five|six|seven|eight|nine|ten|twelve|\d{1,2}) (?:\w+ ){0,2}(?:evenings|sessions|lectures|talks|walks|mornings|afternoons|classes|lunchtimes|tutorials)|(?:unsere[rn]?|die|der|den|diese[rn]?|alle[rn]?|an) (?:zwei|drei|vier|funf|sechs|sieben|acht|neun|zehn|zwolf|\d{1,2}) (?:\w+ )?(?:\w*abende[n]?|sitzungen|vortrage[n]?|termine[n]?|\w*nachmittage[n]?|treffen)|(?:nos|des|les|aux|ces) (?:deux|trois|quatre|cinq|six|sept|huit|neuf|dix|douze|\d{1,2}) (?:\w+ )?(?:soirees|seances|conferences|rencontres|matinees|causeries)|(?:nuestras|nuestros|las|los|estas|a) (?:dos|tres|cuatro|cinco|seis|siete|ocho|nueve|diez|doce|\d{1,2}) (?:\w+ )?(?:veladas|sesiones|charlas|tardes|clases|noches|encuentros)|(?:onze|de|deze|alle|op) (?:twee|drie|vier|vijf|zes|zeven|acht|negen|tien|twaalf|\d{1,2}) (?:\w+ )?(?:\w*avonden|bijeenkomsten|lezingen|lessen|sessies|middagen|ochtenden)`)

// oneSeries reports that a sentence outside the list counts the sessions of one series.
func (w *scales) oneSeries() bool {
	for i, p := range w.passages {
		if !w.inTable(p.cells[0]) && len(strings.Fields(p.text)) > 5 && evenings.MatchString(w.folded[i]) {
			return true
		}
	}
	return false
}

// sittingCount counts the sessions of one series, whatever their days are called: "fünf
// Mittwochabende", "en cinco encuentros".
var sittingCount = matching(`(?:^|[\s(])(\d{1,2}|three|four|five|six|seven|eight|nine|ten|twelve|drei|vier|funf|sechs|sieben|acht|neun|zehn|zwolf|trois|quatre|cinq|sept|huit|neuf|dix|douze|tres|cuatro|cinco|seis|siete|ocho|nueve|diez|doce|drie|vijf|zes|zeven|negen|tien|twaalf) (?:\S+ )?(?:\S*(?:evenings?|sessions?|lectures?|talks?|walks?|mornings?|afternoons?|lunchtimes?|tutorials?|sittings?|classes|gatherings|abende[n]?|sitzungen|vortrage[n]?|termine[n]?|nachmittage[n]?|vormittage[n]?|treffen|seancen|soirees?|seances?|conferences?|rencontres?|matinees?|causeries?|veladas?|sesiones|charlas?|tardes?|clases|noches|encuentros|avonden|bijeenkomsten|lezingen|lessen|sessies|middagen|ochtenden))\b`)

// countsSittings reports that the text outside the list counts as many sessions as it lists.
func (l *look) countsSittings() bool {
	n := 0
	for _, r := range l.series {
		if !r.total && !r.pause && len(r.days) > 0 {
			n++
		}
	}
	return n > 2 && slices.ContainsFunc(l.passages, func(p passage) bool {
		text := l.folded[l.cells[p.cells[0]].passage]
		return !l.inTable(p.cells[0]) && slices.ContainsFunc(sittingCount.FindAllStringSubmatchIndex(text, -1), func(m []int) bool { return numberOf(text[m[2]:m[3]]) == n })
	})
}

// sittingHead is the head of a column that numbers the sessions of one series: what it counts are no
// courses.
var sittingHead = matching(`^(?:\S*(?:evening|session|lesson|lecture|class|day|week|part|unit|module|meeting|morning|abend|termin|sitzung|lektion|einheit|tag|woche|teil|modul|treffen|seance|soiree|cours|jour|journee|semaine|partie|sesion|clase|velada|dia|semana|encuentro|parte|modulo|les|avond|bijeenkomst|dag|sessie|deel))(?: ?(?:no|nr|n°|nº|#))?\.?$`)

// numbersSittings reports a list whose first column counts from one under such a head.
func (l *look) numbersSittings() bool {
	return slices.ContainsFunc(l.tables, func(t table) bool {
		n := 0
		for _, line := range t.lines {
			if len(line[0]) == 0 || l.cellText(line[0]) != strconv.Itoa(n+1) {
				break
			}
			n++
		}
		return n > 2 && sittingHead.MatchString(fold(l.cells[t.head[0]].text))
	})
}

// missedOne reports a list that says of a day that the person was not there, which no list of
// courses does.
func (l *look) missedOne() bool {
	came, missed := 0, 0
	for _, r := range l.series {
		switch {
		case len(r.days) == 0 || r.total:
		case slices.ContainsFunc(r.cells, func(ci int) bool { return stayedOut.MatchString(fold(l.cells[ci].text)) }):
			missed++
		default:
			came++
		}
	}
	return came > 0 && missed > 0
}

// ofOneSeries reports that what is listed are the sessions of one thing rather than several.
func (w *scales) ofOneSeries() bool {
	return seasonOf.MatchString(w.head) || w.oneSeries() || w.partsOfOne() || w.sittings()
}

// sittings reports a list of sessions: numbered, counted in the text, or one of them missed.
func (l *look) sittings() bool { return l.numbersSittings() || l.countsSittings() || l.missedOne() }

// priced reports that what is listed was bought.
func (w *scales) priced() bool {
	return w.money && slices.ContainsFunc(w.tables, func(t table) bool { return t.priced() })
}

// anyMoney is a currency, wherever it stands.
var anyMoney = matching(`[€£$]|\b(?:eur|euro|usd|gbp|chf|cad|aud|nzd|franken|francs|pesos)\b`)

// plainPrices reports rows that end with prices beneath one currency that stands at their head, on a
// bill.
func (l *look) plainPrices() bool {
	n := 0
	for _, row := range l.rows {
		if len(row) > 0 && priceAtEnd.MatchString(" "+l.cells[row[len(row)-1]].text) {
			n++
		}
	}
	return n > 2 && anyMoney.MatchString(l.all) && billWords.MatchString(l.headings())
}

var (
	// committeeHead is a committee that a paper is headed with, by itself or behind its body.
	committeeHead = matching(`(?:^|[–—:|,·-] ?|\b(?:of the|der|du|de la|del|de|van de) )(?:\S+ ){0,4}?(?:(?:sub-?)?committee|working (?:group|party)|task force|board meeting|council meeting|\S*ausschuss\S*|\S*arbeitskreis\S*|arbeitsgruppe\S*|\S*beirat\S*|comite|commission|groupe de travail|comision|grupo de trabajo|\S*commissie|\S*werkgroep|junta)\b[^.:;]{0,40}$`)
	// sheetOf are the words of a list that those who are at a meeting sign.
	sheetOf = words(`sign(?:ing)?-? ?in(?: sheet)?|sign(?:ing)?-? ?out|attendance sheet|roll call|those present|called (?:for|to order)|quorum|the chair|chairman|chairwoman|chairperson|anwesenheitsliste|teilnehmerliste|unterschriftenliste|sitzungsbeginn|vorsitz\w*|feuille d'emargement|liste (?:de presence|d'emargement)|seance|president\w*|lista de (?:asistencia|asistentes|firmas)|hoja de firmas|sesion|presidenta?|presentielijst|aanwezigheidslijst|voorzitter`)
)

// committeeSheet reports the list of a meeting: a committee at its head and a word of such
// lists, and nothing of a course.
func (w *scales) committeeSheet() bool {
	if !sheetOf.MatchString(w.whole) || courseWords.MatchString(w.said(0)) {
		return false
	}
	return slices.ContainsFunc(w.folded[:min(5, len(w.folded))], func(t string) bool { return len(t) < 100 && committeeHead.MatchString(t) })
}

// sheetOfCourse reports a sheet that shows when one person came, with a label that asks for the course and
// one for whoever took part in it.
func (w *scales) sheetOfCourse() bool {
	course := slices.ContainsFunc(w.withRole(isTitle), func(p pair) bool { return courseWords.MatchString(p.label+" ") && !meetingLabel.MatchString(p.label) })
	return course && signingSheet.MatchString(w.head) && !w.severalPresent() &&
		slices.ContainsFunc(w.withRole(isPerson), func(p pair) bool { return learnerLabel.MatchString(p.label) })
}

var (
	signingSheet = words(`(?:sign(?:ing)?-?in|attendance) (?:sheet|list|register|record)|time ?sheets?|anwesenheitsliste|anwesenheitsnachweis|teilnehmerliste|stundenzettel|(?:feuille|liste) (?:de presence|d'emargement)|hoja de (?:firmas|asistencia)|lista de (?:asistencia|firmas)|control de asistencia|presentielijst|urenstaat|tekenlijst`)
	learnerLabel = whole(`(?:name of )?(?:the )?(?:participant|attendee|learner|student|trainee|delegate)(?:'s name)?|teilnehm(?:er|erin|ende)|kursteilnehm(?:er|erin)|stagiaire|participante?|apprenante?|beneficiaire|alumn[oa]|asistente|cursillista|cursist|deelnem(?:er|ster)`)
)
