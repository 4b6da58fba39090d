package extract

import (
	"slices"
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
	{paper.Attendance, 30, words(`(?:was|were|is|are|has been|had been) (?:therefore |thus |indeed |duly |always |both |continuously )(?:present|with us|there|in attendance)|came to (?:our|the|all|each|every|both|\w+ of)`), false},
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
