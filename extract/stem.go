package extract

import (
	"strings"

	"evidencevault/extract/find"
)

// No list has every label. Where the layout shows that a text is one, what it asks for
// is told by the stems of its words and by the value that stands with it.

func stems(list string) *pattern { return matching(`(?:` + list + `)`) }

// datedStems tell what a day is, the first that fits.
var datedStems = []struct {
	role role
	fits *pattern
}{
	{isAccepted, stems(`accept|annahme|angenommen|acept|aanva`)},
	{isOther, stems(`birth|born|geburt|gebore|^geb\b|naiss|nacim|nacid|valid|expir|gultig|ablauf|valable|caduc|vigen|geldig|verval|(?:^|[^r] )print|^print|druck(?:datum|en)|gedruckt|ausdruck|impr[ie]|afdruk|due\b|fallig|echeance|vencim|vervald|next|nachste|prochain|proxim|volgende|receiv|submit|eingeg|eingang|eingeschrieb|geboekt|reservee?\b|eingereich|freigesch|freischalt|unlocked|activated|aktivier|activad|geactiv|debloqu|recib|recue?\b|soumis|enviad|ontvang|ingedi|ingezond|regist|booked|booking|enrol|anmeld|gebucht|aangemeld|inscri|matric|inschrij|renew|version|stand\b|updat`)},
	{isPaid, stems(`\bpaid|payment|bezahlt|zahlung|paiement|regle|pagad|\bpago|betaal|voldaan`)},
	{isExam, stems(`exam|^assess|pruf|bestanden|passed|\bsat\b|reussi|superad|geslaagd|epreuve`)},
	{isPublished, stems(`publi|veroffentl|erschien|verschen|parution`)},
	{isAward, stems(`award|conferr?|verlieh|verleihung|verleend|zuerkannt|attribu|decern|otorg|conced|toegeken`)},
	{isIssue, stems(`issue|ausst|ausfert|emis|emit|expedi(?:d|c|t|$)|delivr|uitg|afgegev|afgift|sign|unterz|firma|made out|dated|fecha del? (?:doc|cert)|certificate|bescheinig|urkund|attestation|opgema|etabli|^fait\b|gefertigt`)},
	{isFinish, stems(`complet|finish|abschluss|abgeschl|beend|achev|finaliz|voltooi|afger|afgesl|gereed|acabad|conclu|\bfini\b|terminad|terminee?\b|fin de (?:parcours|formation|cours)`)},
	{isStart, stems(`start|begin|^from|first|debut|inici|comienz|^von|^ab\b|seit|since|vanaf|depuis|desde|aanvang|entry|eintritt|entree|ingreso|joined|commenc|ouvert|opened|eroffn|empieza|partir|in dienst`)},
	{isEnd, stems(`\bend\b|ende\b|ended|geeindigd|\bslot\b|\bfinal\b|last|until|^bis|letzt|^fin\b|jusqu|hasta|^tot\b|laatst|einde|clos|schluss|cierre|leaving`)},
	{isEvent, stems(`^am$|\bheld|attend|besucht|gevolgd|bijgewoond|assist|asist|celebr|realiz|gehalten|gehouden|stattgef|durchgef|\bdates?\b|datum|fecha|\btage?\b|termine?\b|\bdias?\b|\bjours?\b|\bdag|period|zeitraum`)},
}

var (
	strongPerson = stems(`teilnehm|participant|attend(?:ee|ing|ed by)|identit|arbeitnehm|collaborat|autrice|schrijver|miembro|(?:eingereicht|eingesandt) von|(?:soumis|propose) par|enviado por|ingezonden door|madame|mevrouw|^d\./|factur(?:e|ado) a|rechnung (?:an|fur)|factuur voor|deelnem|cursist|candidat|kandidat|holder|titular|inhaber|alumn|stagiaire|author|autor|auteur|verfass|writer|written by|submitted by|contributor|member of staff|employee|mitarbeit|angestellt|salarie|emplead[oa]$|werknem|learner|student|delegate|benefici|person\b|full name|surname|nachname|vorname|nom et prenom|apellidos|achternaam|bill(?:ed)? to|sold to|customer|client|kunde|klant|mitglied\b|^member\b|adherent|^lid\b|(?:register|beroeps|verenigings|bonds|gilde|kamer|kring)lid$|(?:register|registered|society|guild|association|institute|college|union) member$|colegiad|postulante|aspirant|opositor|examinand|examinee|bewerber|antragstell|aanvrager|aanvraagster|^soci[oa]`)
	weakPerson   = stems(`\bname\b|\bnom\b|nombre|\bnaam\b`)
	titleStem    = stems(`\bfach$|unterrichtsfach|lehrfach|prufungsfach|lehrveranstalt|asignatura|materia (?:impartida|cursada)|matiere enseign|leervak|lesvak|reihe$|reeks$|\bserie\b|\bcycle\b|\bciclo\b|\baction (?:suivie|de formation)|\bactivite (?:suivie|de formation)|accion formativa|titl|titel|titre|titul|course|kurs|lehrgang|cursus|opleiding|formation|curso|thema|theme\b|topic|subject|seminar|workshop|webinar|veranstalt|\bevent|evenement|evento|bezeichn|intitule|denominac|benaming|award|qualif|prufung|\bexam|vortrag|lecture|\btalk\b|ponencia|lezing|article|artikel|articulo|\bpaper|manuscr|manuskr|meeting|sitzung|reunion|vergadering|committee|commission|module?\b|programme?\b|aufsatz|contribution|certificate in|cualific|kwalific|^diplom|besprech|minutes of|overleg|\bsession\b|\bclase impart|conferenc|communication|\bcours\b|presentat|\btext\b|recogni[sz]ed as|certified as|anerkannt als|erkend als|beitrag|jornada|taller|stage\b|journee|studiedag`)
	gradeStem    = stems(`grade|class|clase|condicion|statut|qualite\b|soort|categor|kategorie|type|status|stufe|niveau|level|mitgliedsart`)
	positionStem = stems(`position|\bpost\b|post held|\brole\b|dienststell|capacit|empleo\b|emplead[oa] como|funcion|employee? comme|beroep|werkzaam|function|funktion|fonction|functie|cargo|puesto|\bjob|tatigkeit|beruf|occupation|stelle|emploi|poste`)
	providerStem = stems(`prestataire|uitvoerder|beschaftigt bei|unternehmen|employ(?:ed by|ing)|\bfirm\b|^firma$|entreprise|societe|bedrijf|erscheint in|magazine|proceedings|publicado en|publiee? dans|paraitre|verschijn|provider|organis|organiz|veranstalter|trager|anbieter|institut|school|schule|ecole|escuela|\bhost|held by|issuer|issued by|ausstell(?:er|ende)|emetteur|emisor|employer|arbeitgeber|employeur|werkgever|empleador|empresa|company|journal|zeitschrift|revue|revista|tijdschrift|periodical|publisher|published in|to appear in|centro|centre|akademie|academ`)
	lengthStem   = stems(`hour|stund|heure|hora|uren|dauer|duree|duracion|duur|length|zeit\b|\btime|umfang|volume|omvang|tijd|tiempo|temps|aufwand|carga|dedicac|besteding`)
	companyStem  = stems(`^firma$|company|\bbetrieb\b|unternehm|entrepr|empresa|bedrijf`)
	creditStem   = stems(`credit|point|punkt|punten|punto|ceu|pdh|cpd`)
	signerStem   = stems(`formador|given by|faculty|leidster|leider\b|animat|conferenc(?:ier|iante)|instruct|teacher|dozent|referent|trainer|docent|formateur|formatric|lehr(?:er|kraft)|leitung|leiter|speaker|examiner|chair|signed|unterschrift|signature|firma\b|handtekening|tutor|contact|ansprech`)
	breakStem    = stems(`pause|pausa|pauz|break|interrup|\brepos\b|onderbrek|rest period|interval|descanso|unterbrech|recreo|lunch|\bmittag|dejeuner|almuerzo`)
	awayStem     = stems(`office|sprechzeit|offnung|opening|oficina|bureau|telefon|telephone|phone|door|einlass|accueil|registration|check-?in`)
	placeStem    = stems(`\bcity\b|\bsala\b|\bsalle\b|\bsite$|\bzaal\b|\p{L}ort$|^(?:within|as part of|at the|given at|im rahmen von|anlass|dans le cadre de|lors de|en el marco de|dentro de|onderdeel van|in het kader van)$`)
	deliverStem  = stems(`^formato$|durchfuhrung$`)
	resultStem   = stems(`score|ergebnis|punktzahl|puntuac|result|\bnot[ea]\b|\bmark|cijfer`)
	plannedStem  = stems(`geplant|programm|plan|vorgeseh|previst|prevu|nominal|advertis|schedul|gepland`)
	presentStem  = stems(`attend|besucht|anwesen|asist|aanwezig|presen|suivi|gevolgd|bijgewoond`)
	yearStem     = stems(`period|zeitraum|jahr|annee|\bano\b|jaar|\bterm\b|cover|gultig|valid|vigen|subscri|exercice`)
	numberStem   = stems(`number|nummer|numero|\bn[or]\.?$|code\b|codigo|expedient|\bn\.?º|\bref\b|\brefer?enc|\breferenz|\brefnr|\bid\b|kennung|aktenz|licen|lizenz|zeichen`)
)

// stemRole returns what a label of unknown words asks for, given the value that stands
// with it; noRole if that does not fit. Both are as printed.
func stemRole(label, value string) role {
	low := strings.Trim(fold(label), " :.*")
	if c := find.Clocks(value, nil); len(c) > 0 || len(find.Breaks(value, nil)) > 0 || breakStem.MatchString(low) && len(find.Durations(value, nil)) > 0 {
		switch {
		case breakStem.MatchString(low):
			return isBreak
		case awayStem.MatchString(low):
			return isOther
		case len(c) > 0 && c[0].From < 900 && c[0].Span.From < 12:
			return isTime
		}
		return noRole
	}
	switch {
	case bareYear.MatchString(value) && yearStem.MatchString(low):
		return isEvent
	case covers(find.Amounts(value, nil), value):
		return isGrandTotal
	case covers(find.Credits(value, nil), value):
		return isCredits
	case resultStem.MatchString(low) && hasFigure(value):
		return isResult
	case placeStem.MatchString(low):
		return isPlace
	case covers(find.Durations(value, nil), value) && presentStem.MatchString(low):
		return isAttended
	case deliverStem.MatchString(low):
		return isDelivery
	}
	dates := find.Dates(value, nil)
	if len(dates) > 0 && dates[0].From < 20 && len(value) < 60 {
		for _, d := range datedStems {
			if d.fits.MatchString(low) {
				return d.role
			}
		}
		return noRole
	}
	return namedRole(low, value)
}

// namedRole is what such a label asks for whose value is neither a day nor a number with a unit.
func namedRole(low, value string) role {
	name, _, to, _ := person(value)
	full, _ := nameWords(name)
	named := full > 1 && full < 5 && strings.Trim(value[to:], " .,") == ""
	switch {
	case asksPerson(low) && nameFirst(value):
		return isPerson
	case companyStem.MatchString(low) && capitalised(value) && (!named || legalForm.MatchString(value)):
		return isProvider
	case numberStem.MatchString(low):
		return isNumber
	case signerStem.MatchString(low):
		return isSigner
	case gradeStem.MatchString(low) && strongPerson.MatchString(low):
		return isGrade
	case strongPerson.MatchString(low):
		if named || nameFirst(value) {
			return isPerson
		}
		return noRole
	case creditStem.MatchString(low) && hasFigure(value):
		return isCredits
	case (lengthStem.MatchString(low) || plannedStem.MatchString(low)) && hasFigure(value):
		if plannedStem.MatchString(low) {
			return isScheduled
		}
		return isDuration
	case !capitalised(value) || len(value) < 3:
		return noRole
	case positionStem.MatchString(low):
		return isPosition
	case providerStem.MatchString(low):
		return isProvider
	case titleStem.MatchString(low):
		return isTitle
	case gradeStem.MatchString(low):
		return isGrade
	case weakPerson.MatchString(low) && named:
		return isPerson
	}
	return noRole
}

var bareYear = matching(`^(?:19|20)\d\d$`)

// spanned is what a finder found, with its place.
type spanned interface{ Of(text string) string }

// covers reports that the first thing found is all of the value.
func covers[T spanned](found []T, value string) bool {
	return len(found) > 0 && len(strings.Trim(value, " .")) <= len(found[0].Of(value))+1
}

// findLabels marks cells that the layout shows to be labels: they stand in a column, or
// in a size of type, in which at least two known labels stand with their values, or one in a form of
// many rows of two cells each.
func (s *sheet) findLabels() {
	s.labels = map[int]bool{}
	var left, small []int
	for r, row := range s.rows {
		for k, ci := range row {
			c := &s.cells[ci]
			if !s.boxed && r == 0 && len(s.rows) > 1 && len(s.rows[1]) == 0 && !strings.HasSuffix(c.text, ":") {
				continue // the head of a letter
			}
			if s.inTable(ci) || len(c.text) > 45 || len(find.Dates(c.text, nil)) > 0 || startsFigure(c.text) && !enumerator.MatchString(fold(c.text)) || !strings.ContainsFunc(c.text, isLetter) {
				continue
			}
			if k+1 < len(row) && (k == 0 || s.boxed) && roleOf(s.cells[row[k+1]].text) == noRole {
				left = append(left, ci)
			}
			if under := s.below(r, ci); s.boxed && under >= 0 && s.cells[under].row == r+1 && (c.size*100 < s.cells[under].size*92 || len(row) == 1 && s.bolder(ci, under)) {
				small = append(small, ci)
			}
		}
	}
	s.markAlike(left, func(a, b *cell) bool {
		return a.page == b.page && (!s.boxed || abs(a.box[0]-b.box[0]) < 250 && abs(s.beside(a)-s.beside(b)) < 250 && (a.confidence < 100 || b.confidence < 100 || abs(a.size-b.size)*100 <= 20*a.size))
	})
	s.markAlike(small, func(a, b *cell) bool { return a.page == b.page && a.size == b.size && a.bold == b.bold })
}

// bolder reports a few bold words over a short line that is not bold, in letters of one size, as a
// form has its labels.
func (s *sheet) bolder(ci, under int) bool {
	c, b := &s.cells[ci], &s.cells[under]
	return c.bold && !b.bold && abs(c.size-b.size)*50 <= c.size && len(strings.Fields(c.text)) < 5 && len(b.text) < 80 && !strings.HasSuffix(c.text, ".")
}

// markAlike marks those of a list as labels that are alike with two known ones.
func (s *sheet) markAlike(list []int, alike func(a, b *cell) bool) {
	for _, ci := range list {
		known, pairs := 0, 0
		for _, o := range list {
			if o == ci || !alike(&s.cells[ci], &s.cells[o]) {
				continue
			}
			if roleOf(s.cells[o].text) != noRole {
				known++
			}
			if s.boxed && len(s.rows[s.cells[o].row]) == 2 {
				pairs++
			}
		}
		if known >= 2 || known == 1 && pairs >= leastPairs && len(s.rows[s.cells[ci].row]) == 2 {
			s.labels[ci] = true
		}
	}
}

// leastPairs is how many other rows of two cells, in line with each other, make a form of which one
// known label is enough.
const leastPairs = 4

// beside returns where the next cell of the row begins.
func (s *sheet) beside(c *cell) int {
	least := 1 << 30
	for _, ci := range s.rows[c.row] {
		if x := s.cells[ci].box[0]; x > c.box[0] {
			least = min(least, x)
		}
	}
	return least
}
