package extract

import (
	"slices"
	"strings"
	"unicode/utf8"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

var (
	heading   = words(`(?:bescheinigung|bestatigung|nachweis) (?:der|uber die|einer) (?:erfolgreichen |regelmassigen |durchgehenden )?(?:teilnahme|anwesenheit)|\S{4,}(?:overzicht|ubersicht)|(?:overzicht|ubersicht|releve|historique|historial|resumen) (?:\S+ )?\S*(?:scholing|bildung|formations?|formacion|cursus|kurse|cours|cursos|opleidingen|punten|punkte|points|puntos)|\S*ausweis|(?:(?:refund|credit|debit|cancellation|payment) (?:notice|advice|note)|\S*pass|score report|\S*(?:bescheinigung|bestatigung|nachweis|zertifikat|zeugnis|abschluss|certificaat|bewijs|verklaring|lidmaatschapskaart)|kursabschluss|to our \S+|hoja de \S+|feuille de \S+|acreditacion profesional|agradecimiento.*|certificates?|certificat|certificado|certificaat|zertifikat|bescheinigung|bestatigung|attestation|diplome?|diploma|urkunde|nachweis|confirmation|statement|proof|record|bewijs|verklaring|constancia|justificante|justificatif|acreditacion|accreditation|invoice|receipt|rechnung|quittung|facture|recu|factura|recibo|factuur|kwitantie|credit note|gutschrift|transcript|agenda|programme|einladung|to whom it may concern|letter|arbeitszeugnis|teilnahme\S*|anwesenheits\S*|participation|attendance|completion|thank you.*|membership card|member card|mitglieds\S+|ausweis|carte|lidmaatschap\S*|getuigschrift|werkgeversverklaring|sehr geehrte.*|protokoll|minutes|dear .*|presented to|awarded to|this is to certify.*|hiermit.*|urkunde|zeugnis|payment received|training history|study days attended.*|exam(?:ination)? result|awarded by|congratulations.*|we confirm.*|attestons.*)`)
	eventWord = `(?:course|seminar|webinar|workshop|e-learning|training|training course|study day|conference|congress|symposium|masterclass|session|series|lecture series|module|programme|program|class|residential school|summer school|school|clinic|bootcamp|tutorial|talk|lecture|guest lecture|paper|presentation|event|evening|article|manuscript|unit|kurs|lehrgang|seminar|schulung|fortbildung|weiterbildung|tagung|fachtagung|fachsitzung|veranstaltung|workshop|online-?kurs|fernlehrgang|vortrag|ubung|vorlesung|webinar|lernmodul|modul|beitrag|artikel|vortragsreihe|abendreihe|unterweisung|formation|stage|cours|seminaire|atelier|journee d'etude|journee|colloque|conference|module|webinaire|article|communication|curso|taller|seminario|jornada|jornadas|ponencia|congreso|modulo|charla|conferencia|articulo|cursus|opleiding|workshop|studiedag|werkplaatsdag|training|bijscholing|nascholing|lezing|gastcollege|gastles|leergang|themadag|congres|symposium|artikel|avondreeks)`
	intro     = matching(`(?i)(?:^|[\s,'’])(?:` + accented(eventWord) + `(?: à distance| en ligne| online| a distancia| en línea| suivante?| intitulée?| titulad[oa]| genaamd| entitled| titled| called| mit dem titel)?|title|examen de|examen|examination (?:in|for)|exam (?:in|for)|qualification(?: as| of)?|competent(?: as)?|prüfung (?:zum|zur|als|in)|title of|degree of|for attending|attending|attended|completed|passed|bestanden|im fach|zum thema|mit dem thema|(?:fach)?aufsatz|aufsatzes|studie|bericht|poster|essay|chapter|kapitel|referat|keynote|lehrveranstaltung|on the (?:subject|topic) of|about|sur le thème|sobre|titulad[oa]|intitulée?|entitled|titled|called|genannt|mit dem titel|met als titel|getiteld|genaamd)\s*(?:[:–-]\s*)?$`)
	quotesRE  = matching(`„([^“”"]{3,140})[“”"]|“([^”"]{3,140})[”"]|«\s*([^»]{3,140}?)\s*»|(?:^|[\s(])"([^"]{3,140})"|‘([^’]{6,140})’(?:[\s,.:;)]|$)|(?:^|[\s(:])'(\p{Lu}[^'"]{5,140})'(?:[\s,.:;)]|$)|(?:^|[\s(])»([^«»]{3,140})«`)
	leadEvent = matching(`(?:^|[\s,(])(?i:attended|completed|finished|attending|completing|participated in|participating in|taking part in|took part in|taken part in|joined|gave|presented|presenting|delivered|teaching|taught|passed|suivi|terminé|achevé|participé|assisté|animé|dispensé|completado|completó|finalizado|finalizó|superado|asistido|asistió|participado|participó|impartido|impartió|terminado|volgde|gaf|bezocht)(?: [\p{L}-]+){0,4}?[ '’]` + accented(eventWord) + `(?: à distance| en ligne| online| a distancia| en línea)?\s*(?:[:–-]\s*|(?:of|on|entitled|called|de|sobre|intitulée?|titulad[oa]|getiteld)\s+)?`)
	lead      = matching(`(?i)(?:^|[\s,('’])(?:sur le (?:thème|sujet)|on the (?:theme|subject|topic)|zum thema|über das thema|sobre el tema|over het (?:thema|onderwerp)|met als (?:thema|onderwerp)|(?:completion of|attendance (?:at|of)|participation in)(?: (?:the|a|an|our))?|use the title(?: of)?|the (?:title|designation|grade) of|prüfung (?:zum|zur|als|in|im fach)|examen (?:de|d['’]|del?|para|voor)|exam(?:ination)? (?:in|for|as)|(?:attended|completed|finished|attending|completing|participated in|participating in|taking part in|took part in|taken part in|joined|gave|presented|presenting|delivered|teaching|taught|passed)(?: (?:the|a|an|our|his|her))?(?: [\p{L}-]+){0,3}?|(?:heeft|hebt|hat|haben|habe) (?:(?:op|am) \d{1,2}\.? \p{L}+ \d{4} )?(?:de|het|een|onze|das|den|die|einen|eine|ein|unseren|unsere|unser) (?:[\p{L}-]+ )?` + accented(eventWord) + `|(?:an|bei|in) (?:der|dem|einer|einem|unserem|unserer)(?: [\p{L}-]+){0,2}|(?:suivi|terminé|animé|donné)(?: (?:la|le|les|une?|notre|l['’]))?|(?:assisté|participé) (?:à la|au|à l['’]|à une?|aux)|(?:asistió|asistido|participado|participó|completado|finalizado|superado|impartido|impartió)(?: (?:al|a la|en el|en la|el|la|un|una))?|(?:aan|bij) (?:de|het|een)(?: [\p{L}-]+)?|(?:for|pour|für|por|para|voor|zu|zum|zur|an|am|in|on|to|at|of) (?:(?:the|your place on|our|la|le|l['’]|el|den|das|die|de|het|der|dem|del) )?(?:[\p{L}-]+ )?` + accented(eventWord) + `)\s*(?:` + accented(eventWord) + `)?\s*(?:[:–-]\s*)?`)
	stopAt    = matching(`(?i)` + apposed + `|\s+(?:presented|given|led|delivered|taught|hosted|chaired) by\s|\s+(?:held|on|at|from|in|which|that|with|by|am|vom|von|bis|in|im|mit|teil|teilgenommen|erfolgreich|besucht|bestanden|abgelegt|le|les|du|au|à|organisée?|dispensée?|d['’]une|pour|el|los|del|celebrad[oa]|impartid[oa]|con|de \d|op|van|te|gehouden|gevolgd|bijgewoond|afgerond|deelgenomen|to our|comprising|lasting|during|and (?:has|is|was))\s+|\s*[(;]|,\s+(?:held|on|le|am|op|el|at|from|with|vom|du|para)\s|[.!](?:\s|$)`)
)

// accented lets the plain letters of a list match their accented forms.
func accented(list string) string {
	return strings.NewReplacer("ubung", "übung", "seminaire", "séminaire", "journee", "journée", "conference", "conf[eé]rence", "modulo", "módulo", "articulo", "artículo").Replace(list)
}

// mannerBehind is what stands behind a title of how it was held or how long, numberOnly the number under
// which a text was sent in.
var (
	mannerBehind = matching(`(?i)\s\((?:hybrid\p{L}*|híbrid[oa]|hybride)(?: \p{L}+)?\)$|, (?:one|two|three|four|five|six|\d|zwei|drei|vier|fünf|deux|trois|quatre|cinq|dos|tres|cuatro|cinco|twee|drie|vijf) (?:days?|evenings?|sessions?|tage|abende|jours|journées|soirées|días|tardes|sesiones|dagen|avonden)$`)
	numberOnly   = matching(`^(?:\p{L}+ )?(?:\p{Lu}{1,4} ?)?\d[\d/.-]*$`)
)

// titles collects the lines and quotes that may name the course or event.
func (l *look) titles() []guess {
	var list []guess
	add := func(a at, score int, why string) {
		a = l.clean(a)
		if m := mannerBehind.FindStringIndex(l.text(a)); m != nil && m[0] > 8 {
			a = a.within(0, m[0])
		}
		if m := didElse.FindStringIndex(l.text(a)); m != nil && m[0] > 8 {
			a = a.within(0, m[0])
		}
		text := l.text(a)
		if strings.HasSuffix(text, ":") || titleShown.MatchString(fold(text)) {
			return
		}
		if l.kind == paper.Publication && (numberOnly.MatchString(text) || decisionOf.MatchString(fold(text))) {
			return
		}
		if ci := l.cellAt(a); l.labels[ci] && l.whole(ci) == a || l.otherItem(text) || score < 86 && thanksText.MatchString(fold(text)) {
			return
		}
		n := utf8.RuneCountInString(text)
		if weekdayOnly.MatchString(fold(text)) || l.speaksTo(text) || clauseOf.MatchString(text) || score < 86 && (gradeBefore.MatchString(fold(tail(l.passages[a.passage].text[:a.span.From], 24))) || l.startsWithName(text)) {
			return
		}
		if toReader.MatchString(text) && score < 94 && !strings.HasPrefix(why, "it stands") {
			score -= 20
		}
		if n < 3 || n > 170 || noTitle.MatchString(text) || certifyLine.MatchString(fold(text)) || l.timeFirst(text) || reachLine(text) || codeLike.MatchString(text) || len(find.Dates(text, l.langs)) > 0 && n < 30 || !strings.ContainsFunc(text, isLetter) {
			return
		}
		if score < 86 && len(strings.Fields(text)) < 2 {
			score -= 20
		}
		list = append(list, guess{text: strings.Join(strings.Fields(text), " "), at: a, score: score, why: why, sure: score >= 66})
	}
	l.titlesByLabel(add)
	l.quotes = 0
	for _, p := range l.passages {
		l.quotes += len(quotesRE.FindAllStringIndex(p.text, -1))
	}
	for i, p := range l.passages {
		if l.closing.signs[i] {
			continue
		}
		l.titlesInText(i, p.text, add)
		l.titlesOfTalks(i, p.text, add)
		l.titlesNamed(i, p.text, add)
		l.titlesInBold(i, add)
		if !l.inTable(p.cells[0]) {
			l.titlesInFlow(i, p.text, add)
		}
	}
	l.titlesAlone(add)
	list = append(list, l.titlesOfSubject()...)
	l.lowerWider(list)
	return l.withoutOthers(list)
}

// clauseOf begins a clause of the sentence that certifies, and gradeBefore ends in front of
// how well somebody passed.
var (
	clauseOf    = matching(`^(?:Que|Dass|That|Dat|que|dass|that|dat)\s`)
	gradeBefore = matching(`(?:mention|note|pradikat|calificacion|nota|mark|graad|onderscheiding|beoordeling|grade|auszeichnung) ?:? ?[«“„"]? ?$`)
)

// startsWithName reports a text that is the attendee with something said of them.
func (l *look) startsWithName(text string) bool {
	v := l.out.Values[paper.FieldAttendee].Text
	return len(strings.Fields(v)) > 1 && strings.HasPrefix(fold(text), fold(v))
}

// speaksTo reports a line that greets a person, or is one with a form of address.
func (l *look) speaksTo(text string) bool {
	rest := strings.Trim(salutation.ReplaceAllString(text, ""), " ,!")
	m := titledName.FindStringIndex(rest)
	return m != nil && m[0] == 0 && m[1] == len(rest)
}

// toReader begins a line that speaks to the one who gets the letter, as its subject does.
var toReader = matching(`^(?:Ihre?|Your|Votre|Vos|Sus?|Uw) `)

// weekdayOnly is the day of a programme.
var weekdayOnly = matching(`^(?:(?:mon|tues|wednes|thurs|fri|satur|sun)day|(?:mon|diens|donners|frei|sams|sonn)tag|mittwoch|lundi|mardi|mercredi|jeudi|vendredi|samedi|dimanche|lunes|martes|miercoles|jueves|viernes|sabado|domingo|(?:maan|dins|woens|donder|vrij|zater|zon)dag|day (?:\d|one|two|three)|tag \d|jour \d|dia \d|dag \d)$`)

// itemParts parts "Label: value" where the line begins as such a one does.
func itemParts(text string) (label, value string, ok bool) {
	label, value, ok = strings.Cut(text, ": ")
	return label, value, ok && beginsItem(text)
}

// labelledItem reports a known label with its value behind it.
func (l *look) labelledItem(text string) bool {
	label, _, ok := itemParts(text)
	r := roleOf(label)
	return ok && r != noRole && (hasFigure(text) || r != isCredits && r != isDuration && r != isAttended && r != isNumber)
}

// otherItem reports a label of something else with its value: "Study time: 2 h".
func (l *look) otherItem(text string) bool {
	label, value, ok := itemParts(text)
	if !ok {
		return false
	}
	r := roleOf(label)
	if r == noRole {
		r = stemRole(label, value)
	}
	return r == isDuration || r == isScheduled || r == isAttended || r == isPerson && !l.isBody(value) || r == isTime || r == isCredits || r == isResult
}

// titlesInBold finds what is set in bold letters within a sentence that is not.
func (l *look) titlesInBold(i int, add func(at, int, string)) {
	text := l.passages[i].text
	if l.inTable(l.passages[i].cells[0]) || len(strings.Fields(text)) < 6 {
		return
	}
	for _, span := range l.boldIn(i) {
		run := strings.Trim(span.Of(text), " ,.:;")
		name, _, to, _ := person(run)
		if span.From == 0 || len(strings.Fields(run)) < 2 && len(run) < 9 || len(strings.Fields(run)) > 16 || !capitalised(run) || l.isName(run) || name != "" && to == len(run) && l.namesAttendee(run) ||
			len(find.Dates(run, l.langs)) > 0 || len(find.Amounts(run, l.langs)) > 0 || len(find.Credits(run, l.langs)) > 0 || len(find.Durations(run, l.langs)) > 0 || roleOf(run) != noRole || l.isBody(run) {
			continue
		}
		add(l.passageAt(i).within(span.From, len(strings.TrimRight(span.Of(text), " ,.:;"))), 82, "it is set in bold letters")
	}
}

// namesAttendee reports a name that shares a part with the attendee's.
func (l *look) namesAttendee(name string) bool {
	v := l.out.Values[paper.FieldAttendee].Text
	return v == "" || samePerson(v, name)
}

// boldIn returns the runs of bold words of a passage that has other words too.
func (l *look) boldIn(i int) []find.Span {
	var out []find.Span
	open, plain := false, false
	for _, ci := range l.passages[i].cells {
		c := &l.cells[ci]
		for _, w := range c.words {
			switch {
			case !w.bold:
				open, plain = false, true
			case open:
				out[len(out)-1].To = c.from + w.to
			default:
				open, out = true, append(out, find.Span{From: c.from + w.from, To: c.from + w.to})
			}
		}
	}
	if !plain {
		return nil
	}
	return out
}

// timeFirst reports a text that begins with a time of day or is a length of time.
func (l *look) timeFirst(text string) bool {
	if c := find.Clocks(text, l.langs); len(c) > 0 && c[0].From == 0 || clockFirst.MatchString(text) {
		return true
	}
	d := find.Durations(text, l.langs)
	return len(d) > 0 && d[0].From == 0 && len(text)-d[0].To < 8
}

var clockFirst = matching(`^\d{1,2}(?:[:.]\d\d|\s?h(?:\s?\d\d)?|\s?[ap]\.?m\.?)(?:[\s–-]|$)`)

// certifyLine is the sentence of a certificate rather than what it names.
var certifyLine = words(`(?:certif\w+|confirm\w*|attest\w*|state|verklar\w+|verklaart|bestatig\w+|bescheinig\w+|constar|acredita\w*|certifica|bevestig\w+) (?:wij |hierbij |wir |hiermit )?(?:that|dat|dass|que)|this is to certify|hierbij verklaren.*|(?:that|dass|dat|que)$|hat am|has attended|we confirm|it is hereby`)

// codeLike is a number of registration, or what recognition makes of a signature.
var codeLike = matching(`^(?:[\p{Lu}\d/.-]*\d[\p{Lu}\d/.-]*|\p{Lu}{1,3}(?: \p{Lu}{1,3})*)$`)

func isLetter(r rune) bool { return r > 64 }

func (l *look) titlesByLabel(add func(at, int, string)) {
	for _, p := range l.withRole(isTitle, isExam) {
		if l.inProgramme(p.value) {
			continue
		}
		score := 90
		if p.guessed && l.askedFor() {
			score = 83 // a known label says so of another
		}
		if p.role == isExam && (l.kind != paper.Credential || len(find.Dates(l.text(p.value), l.langs)) > 0 || !capitalised(l.text(p.value))) {
			continue
		}
		if p.how == beneath {
			score = 86
		}
		if p.how == beneath && l.headsList(p.value) {
			score = 44
		}
		if v := l.text(p.value); p.how == inline && p.value.passage < 4 && allCaps(l.passages[p.value.passage].text) && len(l.withRole(isTitle)) > 1 && allCaps(v) {
			score = 70 // the heading of the form
		}
		if len(strings.Fields(l.text(p.value))) > 22 || p.label == "for" || p.label == "item" && !(l.kind == paper.Receipt && p.how == inline) || p.label == "position" || p.label == "re" {
			score = 60
		}
		p.value = l.boldBegin(p.value)
		text := l.text(p.value)
		if q := quotesRE.FindStringSubmatchIndex(text); q != nil {
			from, to := group(q)
			add(p.value.within(from, to-from), score+3, "it stands with the label "+quoted(p.label))
			continue
		}
		if d := find.Durations(text, l.langs); len(d) > 0 && d[0].From == 0 && d[0].To == len(text) {
			continue
		}
		if roleOf(text) != noRole || l.isName(text) {
			score -= 40
		}
		if aboutPaper.MatchString(fold(text)) || subjectLabel.MatchString(p.label) && fileOnly.MatchString(text) || startsLower(text) && heading.MatchString(fold(text)) || strings.Trim(heading.ReplaceAllString(fold(text), ""), " .:,") == "" {
			score -= 50 // the subject of a letter that only says what the letter is
		}
		add(p.value, score, "it stands with the label "+quoted(p.label))
	}
}

// asksTalk reports a label for the title of a talk that has no time as its value.
func (l *look) asksTalk() bool {
	return slices.ContainsFunc(l.withRole(isTitle), func(p pair) bool {
		return talkTitle.MatchString(p.label) && !l.timeFirst(l.text(p.value))
	})
}

// lowerWider takes from what stands with the label of an event, where another label asks for the talk
// that somebody gave there.
func (l *look) lowerWider(list []guess) {
	if l.kind != paper.Instruction || !l.asksTalk() {
		return
	}
	for _, p := range l.withRole(isTitle) {
		for i := range list {
			if !talkTitle.MatchString(p.label) && list[i].at.overlaps(p.value) {
				list[i].score = min(list[i].score, 50)
			}
		}
	}
}

// talkTitle is a label for what a talk was called, rather than for the event that it was given at.
var talkTitle = words(`talk|lecture|paper|presentation|address|keynote|poster|\S*(?:vortrag|vortrags|vortragstitel|vortragsthema|referat|referats|referatsthema|beitrag|beitrags)|conference donnee|expose|communication|intervention|ponencia|charla|comunicacion|lezing|voordracht|inleiding|gastles|gastcollege`)

// askedFor reports a value beside a known label for a title.
func (l *look) askedFor() bool {
	return slices.ContainsFunc(l.withRole(isTitle), func(p pair) bool { return !p.guessed && p.how != beneath })
}

// boldBegin returns the bold words with which a value begins, where what follows is set in plain ones.
func (l *look) boldBegin(a at) at {
	for _, span := range l.boldIn(a.passage) {
		if span.From == a.span.From && span.To < a.span.To && len(strings.Fields(span.Of(l.passages[a.passage].text))) > 1 {
			return a.within(0, span.To-span.From)
		}
	}
	return a
}

// headsList reports a value that is the first of several beneath one another, each in a row with other
// things: the label above is the head of a list, and what stands there is a part of it.
func (l *look) headsList(a at) bool {
	ci, n := l.cellAt(a), 0
	seen := map[int]bool{}
	for ci >= 0 && len(seen) < 12 {
		if c := &l.cells[ci]; !seen[c.passage] {
			seen[c.passage] = true
			if len(l.rows[c.row]) > 1 || l.boxed && l.rowBeside(ci) {
				n++
			}
		}
		next := l.below(l.cells[ci].row, ci)
		if next < 0 || l.isLabel(next) {
			break
		}
		ci = next
	}
	return n > 2
}

// rowBeside reports that a day or an hour stands beside a cell, in its row or in one that overlaps it.
func (l *look) rowBeside(ci int) bool {
	c := &l.cells[ci]
	for r := max(0, c.row-1); r <= min(len(l.rows)-1, c.row+1); r++ {
		for _, oi := range l.rows[r] {
			o := &l.cells[oi]
			if o.page == c.page && oi != ci && o.box[3] > c.box[1] && o.box[1] < c.box[3] && (len(find.Clocks(o.text, l.langs)) > 0 || len(find.Dates(o.text, l.langs)) > 0) {
				return true
			}
		}
	}
	return false
}

// aboutPaper is a subject that says what a letter is and not what it is about.
var aboutPaper = matching(`^(?:(?:re|tr|fw|fwd|wg|aw|rv|antw|doorst) ?: ?)?(?:your |ihre? |votre |vos |su |tu |uw |je |jouw )?(?:\w+ )?(?:(?:uitslag|resultaat|bewijs|verklaring|certificaat|bevestiging)(?: (?:van )?(?:het |de |uw |je )?(?:examen|deelname|aanwezigheid|toets|inschrijving|betaling))?|(?:resultats?|attestation|certificat|confirmation)(?: (?:de |d'|a )?(?:l'|la |votre )?(?:examen|participation|presence|suivi|formation|inscription|reussite))?|(?:resultados?|certificado|constancia|confirmacion|justificante)(?: del? (?:la |su |tu )?(?:examen|asistencia|participacion|pago|inscripcion|aprovechamiento))?|prufungsergebnis|(?:teilnahme|anwesenheits)(?:bescheinigung|bestatigung|nachweis)|ihr nachweis|(?:exam(?:ination)? results?|results?|certificate|confirmation|proof)(?: of (?:your )?(?:attendance|participation|completion|exam(?:ination)?|payment))?)$`)

// fileOnly is a subject that gives the number of a file, with a small word for what it is at most.
var (
	subjectLabel = matching(`^(?:re|ref|subject|betreff|betrifft|objet|concerne|asunto|betreft|onderwerp|regarding|motivo)$`)
	fileOnly     = matching(`^(?:\p{Ll}[\p{Ll}.-]*\s?){0,2}(?:(?:n[ro°º]?|No|Nr|Nº)\.?\s?[°º]?\s?)?(?:\p{Lu}{1,5}[-/ ]?)?\d[\d./-]{3,}\p{L}?$`)
)

// inProgramme reports a place in a row that begins with a time of day: an item of a programme.
func (l *look) inProgramme(a at) bool {
	row := l.rows[l.cells[l.cellAt(a)].row]
	return len(row) > 0 && clockFirst.MatchString(l.cells[row[0]].text) && oneClock.MatchString(l.cells[row[0]].text)
}

func group(m []int) (from, to int) {
	for k := 2; k+1 < len(m); k += 2 {
		if m[k] >= 0 {
			return m[k], m[k+1]
		}
	}
	return m[0], m[1]
}

func (l *look) isName(text string) bool {
	v, ok := l.out.Values[paper.FieldAttendee]
	return ok && bare(v.Text) == bare(text)
}

// titlesInText finds titles in quotation marks and behind words that announce one.
func (l *look) titlesInText(i int, text string, add func(at, int, string)) {
	l.quotedTitles(i, text, add)
	if next := l.nextPassage(i); i < 6 && next >= 0 && seasonEnd.MatchString(fold(text)) && l.themeLine(next) {
		add(l.passageAt(next), 84, "the line before announces it")
	}
	if roleOf(text) != noRole || l.isBody(text) && len(strings.Fields(text)) < 8 && (i < 2 || headline.MatchString(text)) {
		return
	}
	if intro.MatchString(strings.TrimRight(text, " :")) || strings.HasSuffix(text, ":") && introLine.MatchString(fold(text)) {
		if next := l.nextPassage(i); next >= 0 && !l.labelled(next) && !strings.HasSuffix(l.passages[next].text, ":") && !l.labelledItem(l.passages[next].text) && !l.isName(l.passages[next].text) && roleOf(l.passages[next].text) == noRole && !heading.MatchString(fold(l.passages[next].text)) && !quotesRE.MatchString(l.passages[next].text) {
			add(l.passageAt(next).within(0, len(l.cutTitle(l.passages[next].text))), 84, "the line before announces it")
		}
	}
	l.namedEvents(i, text, add)
	l.ledTitles(i, text, add)
}

// partNumbered ends in front of the number that a part of a course has, which belongs to its name.
var partNumbered = matching(`\b(?:Module|Modul|Part|Teil|Unit|Session|Level|Stufe|Niveau|Módulo|Unidad|Unité|Partie|Deel|Block)\s$`)

// withPartWord returns where a title begins that was found at byte from: before the word for a part where
// only its number stands there, as in "Module 3 – Load Charts".
func withPartWord(text string, from int) int {
	if k := partNumbered.FindStringIndex(text[:from]); k != nil && startsFigure(text[from:]) {
		return k[0]
	}
	return from
}

// quotedTitles finds titles in quotation marks.
func (l *look) quotedTitles(i int, text string, add func(at, int, string)) {
	for _, m := range quotesRE.FindAllStringSubmatchIndex(text, -1) {
		from, to := group(m)
		score := 70
		if startsLower(text[from:to]) {
			score = 50 // words that somebody said
		}
		if intro.MatchString(text[:m[0]]) || lead.MatchString(tail(text[:m[0]], 60)) {
			score = 84
		}
		if widerEvent.MatchString(fold(tail(text[:m[0]], 60))) {
			score = 56 // the series to which the talk belonged
		}
		if bodyCalled.MatchString(tail(text[:m[0]], 60)) || l.sloganAtHead(i, text[m[0]:m[1]]) || i == 0 && m[0] > 0 && m[1] >= len(text)-1 && l.isBody(text) {
			score = 40
		}
		if score == 70 && l.quotes == 1 && len(strings.Fields(text[from:to])) > 1 && capitalised(text[from:to]) {
			score = 78 // the paper quotes nothing else
		}
		add(l.passageAt(i).within(from, to-from), score, "it stands in quotation marks")
	}
}

// bodyCalled ends in front of the name of a body that is set in quotation marks: "the Families' Association «Sugar and Play»".
var bodyCalled = matching(`(?i)(?:^|\s)(?:asociación|association|verein|vereniging|sociedad|société|gesellschaft|stichting|fundación|foundation|stiftung|fondation|club|cooperativa|coopérative|genossenschaft|empresa|firma|restaurant|hotel|hôtel|grupo|groupe|gruppe|initiative|colectivo|collectif)(?:\s(?:(?:de|des|der|für|for|of|van|voor|para|pour|d['’]|y|et|und|en|and) ?)*\p{Lu}[\p{L}’'-]+){0,3}\s$`)

// sloganAtHead reports a quotation that is a line of the letterhead by itself, with nothing above it but
// the name of the body and what belongs to it.
func (l *look) sloganAtHead(i int, quoted string) bool {
	if i == 0 || i > 3 || strings.TrimSpace(quoted) != strings.TrimSpace(l.passages[i].text) || !l.isBody(l.passages[0].text) && !allCaps(l.passages[0].text) {
		return false
	}
	for k := range i {
		if low := l.folded[k]; heading.MatchString(low) || provesHead.MatchString(low) || endsEvent.MatchString(l.passages[k].text) || opensName.MatchString(l.passages[k].text) || strings.HasSuffix(low, ":") {
			return false
		}
	}
	return true
}

// ledTitles finds titles behind words that lead to one within a sentence.
func (l *look) ledTitles(i int, text string, add func(at, int, string)) {
	marks := leadEvent.FindAllStringIndex(text, -1)
	if len(marks) == 0 {
		marks = lead.FindAllStringIndex(text, -1)
	}
	for _, m := range marks {
		m[1] = withPartWord(text, m[1])
		rest := text[m[1]:]
		score := 68
		if e := stopAt.FindStringIndex(rest); e != nil && !ofSeveral.MatchString(rest[e[0]:]) && (strings.ContainsAny(rest[e[0]:], "0123456789.,;()") || !withinTitle.MatchString(rest[e[0]:e[1]])) {
			if inWord.MatchString(rest[e[0]:e[1]]) && capitalised(rest[e[1]:]) {
				score = 62 // "Seals in Depth" or a course in a town
			}
			rest = rest[:e[0]]
		}
		if e := heldClause.FindStringIndex(rest); e != nil {
			rest = rest[:e[0]]
		}
		rest = strings.TrimRight(l.undated(rest), " ,.:;")
		if len(strings.Fields(rest)) < 2 && !allCaps(rest) || !capitalised(rest) || strings.ContainsAny(rest, "“„«") {
			continue
		}
		why := sentenceNames
		if l.bounded(text[:m[1]], rest, text[m[1]+len(rest):]) {
			why = "the sentence says what it was called"
		}
		add(l.passageAt(i).within(m[1], len(rest)), score, why)
	}
}

// bounded reports a name of several words of which the sentence leaves no doubt where it begins and
// ends: right behind the word for what it names, and before the day, a clause about it or the end.
func (l *look) bounded(before, name, after string) bool {
	if n := len(strings.Fields(name)); n < 3 || n > 12 || strings.ContainsAny(name, ",;()0123456789") || !nameWordEnd.MatchString(fold(tail(before, 30))) || l.isBody(name) || isPersonal(name) {
		return false
	}
	if clauseBehind.MatchString(after) {
		return true
	}
	day := head(strings.TrimLeft(after, " ,("), 40)
	d := find.Dates(day, l.langs)
	return len(d) > 0 && dayLead.MatchString(day[:d[0].From])
}

var (
	// nameWordEnd ends with the word for what has a name of its own.
	nameWordEnd = matching(`(?:^|[\s'])(?:` + eventWord + `|fachaufsatz|aufsatz|studie|essay|chapter|kapitel|referat|keynote|bijdrage|onlinecursus)\s?[:–-]?\s*$`)
	// clauseBehind begins the clause that says more of it, or ends the sentence.
	clauseBehind = matching(`^\s?, (?:which|that|held|given|die|der|das|den|welche[rs]?|qui|que|dont|organisée?|que se|celebrad[oa]|impartid[oa]|dat|gehouden|gegeven)\s|^\s?[.](?:\s+\p{Lu}|$)`)
	// heldClause begins the clause that says who held it: ", verzorgd door …", ", que la Asociación … celebró".
	heldClause = matching(`,\s(?:(?:verzorgd|gegeven|georganiseerd|gehouden) door|(?:given|held|organi[sz]ed|run|taught|delivered) by|(?:veranstaltet|durchgeführt|gehalten|geleitet|angeboten) von|(?:organisée?|animée?|dispensée?|assurée?|proposée?|donnée?) par|(?:impartid[oa]|organizad[oa]|celebrad[oa]|dictad[oa]) por|` + whoHeldIt + `)(?:\s|$)`)
	// dayLead is what may stand between a name and the day.
	dayLead = matching(`^(?:held |gehouden |celebrad[oa] |impartid[oa] |tenue? |organisée? |hat |heeft )?(?:(?:on|from|am|vom|le|les|du|el|los|del|op|van|den)(?: \p{L}+(?:tag|day|di|dag|es|o),?)?(?: den| dem| the)? ?)?$`)
)

// whoHeldIt is a clause of which the subject is the body that held something.
const (
	whoHeldIt = `(?:que (?:la|el|los|las|l['’])|qu['’]a organisée?|die (?:der|die|das)|dat (?:de|het)|which(?: the)?|that(?: the)?)\s?\p{Lu}[\p{L}’'.& -]{3,70}?\s` + heldVerb
	heldVerb  = `(?:celebró|organizó|impartió|ofreció|veranstaltete|durchführte|ausrichtete|veranstaltet hat|organiseerde|verzorgde|held|organi[sz]ed|ran)`
)

// seasonEnd is a line that names a series of talks or evenings by its season, and no more.
var seasonEnd = matching(`^(?:[^.,;:]{0,40}\b)?(?:(?:evening|winter|summer|spring|autumn|lecture|talk|seminar|monthly|weekly)s? (?:\S+ )?(?:lectures?|talks?|evenings?|seminars?|series|programme|season|classes|meetings)|\S*(?:vortragsreihe|vortragsabende|abendreihe|ringvorlesung|seminarreihe|winterreihe|sommerreihe)|cycle de (?:conferences|soirees)|saison de conferences|ciclo de (?:conferencias|charlas)|(?:lezingen|avond)(?:reeks|cyclus))[ ,(–-]*(?:season |saison |temporada |seizoen )?(?:19|20)\d\d(?: ?[/–-] ?(?:(?:19|20)?\d\d))?\)?$`)

// themeLine reports a line of a few words that may be the theme of a series: no body, no person, no
// day, no label, and not what the paper is called.
func (l *look) themeLine(i int) bool {
	text := l.passages[i].text
	n := len(strings.Fields(text))
	return n > 1 && n < 12 && capitalised(text) && !ended(text) && roleOf(text) == noRole && !l.isBody(text) && !(isPersonal(text) && l.namesAttendee(text)) && !hasFigure(text) && !beginsItem(text) && !beginsAsHeading(text) && !l.inTable(l.passages[i].cells[0])
}

// widerEvent ends in front of the name of what a talk or a course was a part of.
var widerEvent = matching(`\b(?:as part of|in the framework of|within|im rahmen|innerhalb|dans le cadre|dentro|en el marco|in het kader|onderdeel van)(?: (?:of|de[rsm]?|des|du|del?|van|la|le|el|the|our|einer?s?|unsere[rs]|het|een|onze|l'))*(?: \S+)? ?\S* ?[„“«»"‘']?$`)

// labelled reports a line that begins with a label and goes on with its value.
func (l *look) labelled(i int) bool {
	return slices.ContainsFunc(l.pairs, func(p pair) bool { return p.value.passage == i && p.value.span.From > 0 && p.role != isTitle })
}

// titlesOfTalks finds what a talk was on, however far the word for it stands from it:
// "the talk you gave us last Tuesday, 18 November, on Bats in church roofs".
func (l *look) titlesOfTalks(i int, text string, add func(at, int, string)) {
	for _, m := range talkOn.FindAllStringSubmatchIndex(text, -1) {
		rest := strings.TrimRight(text[m[2]:m[3]], " ,")
		if d := find.Dates(rest, l.langs); len(d) > 0 || len(strings.Fields(rest)) < 2 || len(find.Ranges(rest, l.langs)) > 0 {
			continue
		}
		add(l.passageAt(i).within(m[2], len(rest)), 76, "the sentence says what it was on")
	}
}

var talkOn = matching(`(?:^|\s)(?i:talk|lecture|paper|presentation|address|workshop|session|class|vortrag|referat|seminar)s?\b[^.;:!?“”„"]{6,90}?,? (?i:on|about|entitled|called|über|zum thema) (\p{Lu}[^.;:!?“”„"(]{5,100})(?:[.;!?(]|$)`)

// withinTitle are words that may as well go on a title, as in "Seals in Depth".
var withinTitle = matching(`^\s+(?:in|for|on|at|im|with|mit|de|en|con|van|te)\s+$`)

var inWord = matching(`^\s+(?:in|en|im|à)\s+$`)

// undated cuts text before the first day in it.
func (l *look) undated(text string) string {
	end := len(text)
	for _, r := range find.Ranges(text, l.langs) {
		end = min(end, r.From)
	}
	for _, d := range find.Dates(text, l.langs) {
		end = min(end, d.From)
	}
	return text[:end]
}

var introLine = words(`course|seminar|workshop|training|event|session|lecture|talk|kurs|seminar|schulung|lehrgang|veranstaltung|thema|formation|stage|curso|taller|cursus|opleiding|workshop|studiedag|teilgenommen|following|folgende[nrms]?|suivante?|siguiente|volgende`)

// nextPassage returns the passage that begins in the row after passage i, or -1.
func (l *look) nextPassage(i int) int {
	cells := l.passages[i].cells
	for r := l.cells[cells[len(cells)-1]].row + 1; r < len(l.rows); r++ {
		if len(l.rows[r]) > 0 {
			if ci := l.rows[r][0]; l.passages[l.cells[ci].passage].cells[0] == ci {
				return l.cells[ci].passage
			}
			return -1
		}
	}
	return -1
}

// titlesAlone weighs lines that stand alone and are larger or bolder than the text.
func (l *look) titlesAlone(add func(at, int, string)) {
	size := l.bodySize()
	for i, p := range l.passages {
		ci := p.cells[0]
		c := &l.cells[ci]
		text := p.text
		if l.aside(i) || valediction.MatchString(fold(text)) || l.inAddress(i) || l.inProgramme(l.passageAt(i)) || len(strings.Fields(text)) > 16 || l.inTable(ci) || strings.HasSuffix(text, ":") || strings.HasSuffix(text, ".") || len(strings.Fields(text)) < 2 {
			continue
		}
		if p, labelled := l.labelOf(l.whole(ci)); labelled && p.role != noRole || roleOf(text) != noRole || beginsItem(text) && l.hasPair(ci) || startsLower(text) || endsGiving(text) {
			continue
		}
		if numberedWord.MatchString(text) || l.saysState(text) {
			continue
		}
		if l.kind == paper.Credential && earned.MatchString(text) && !noCredential.MatchString(fold(text)) {
			add(l.passageAt(i), 82, "it is what was earned")
			continue
		}
		score := 30 + titleLike(text)
		if l.boxed && c.size*10 >= size*11 {
			score = 46
		}
		if c.bold {
			score += 6
		}
		if l.isBody(text) && !editionOf.MatchString(text) {
			score -= 14
		}
		cut := strings.TrimRight(l.undated(text), " ,·|-–(")
		if len(strings.Fields(cut)) < 2 || len(cut) < len(text) && trailSmall.MatchString(cut) || i > len(l.passages)-3 && i > 2 && l.isBody(text) && headline.MatchString(text) {
			continue
		}
		add(l.passageAt(i).within(0, len(cut)), score, "it stands out as a line of its own")
	}
}

// numberedWord is the head of a box of a form: "2 Maßnahme".
var numberedWord = matching(`^\d{1,2}[.)]? \p{Lu}\p{L}+$`)

// valediction ends a letter.
var valediction = matching(`^(?:bien |tres |avec mes |mes |nos )?(?:confraternellement|cordialement|respectueusement|sincerement)|^bien a vous|^(?:hartelijke |vriendelijke |beste |met )*groet(?:en|jes)?\b|^(?:un |muchos |atentos |cordiales )?saludos?\b|^atentamente|^viele gruss|^liebe gruss|^gruss|^ka kite|^nga mihi|^(?:with |my |our |and )*(?:all |very |kind |kindest |best |warm |warmest |good )+(?:regards|wishes)|^yours\b|^(?:sincerely|respectfully|cordially|many thanks|with thanks)|^(?:mit |viele |beste |herzliche |freundliche |schone )+.{0,24}gru(?:ss|sse|ssen)\b|^hochachtungsvoll`)

// inAddress reports a line of the address of a letter: it stands right beneath a person's
// name or another such line, and the letter greets somebody further down.
func (l *look) inAddress(i int) bool {
	for k := i - 1; k >= max(0, i-4); k-- {
		text := l.passages[k].text
		if len(strings.Fields(text)) > 6 || salutation.MatchString(text) {
			return false
		}
		if name, _, to, titled := person(text); name != "" && to >= len(strings.TrimRight(text, " .,;")) && (titled || l.namesAttendee(name)) {
			return slices.ContainsFunc(l.passages[i+1:min(i+7, len(l.passages))], func(p passage) bool { return salutation.MatchString(p.text) })
		}
	}
	return false
}

// endsGiving reports words that end in front of a name: "presented to".
func endsGiving(text string) bool {
	low := fold(text)
	return lastMatch(givenTo, low+" ") >= len(low) || givesEnd.MatchString(low)
}

// withoutOthers takes out what is a heading, the attendee or the provider.
func (l *look) withoutOthers(list []guess) []guess {
	provider, attendee := bare(l.out.Values[paper.FieldProvider].Text), bare(l.out.Values[paper.FieldAttendee].Text)
	return slices.DeleteFunc(list, func(g guess) bool {
		b, low := bare(g.text), fold(g.text)
		if b == attendee && b != "" || attendee != "" && strings.HasSuffix(b, attendee) && g.score < 80 {
			return true
		}
		if b == provider && b != "" && g.score < 86 {
			return true
		}
		return g.score < 80 && (len(strings.Fields(low)) < 4 && g.score < 70 || heading.FindStringIndex(low) != nil && heading.FindStringIndex(low)[0] == 0) && heading.MatchString(low) || g.score < 60 && (placeAndDate(g.text) || signature.MatchString(low) || numberLine.MatchString(low))
	})
}

var (
	signature  = afterName
	numberLine = words(`(?:no|nr|tel|telephone|phone|id|code|www|http|https|vat|usd|po box|street|strasse|rue|calle|straat|road|lane)\.?`)
)

func placeAndDate(text string) bool {
	return len(find.Dates(text, nil)) > 0 || len(find.Addresses(text)) > 0 || len(find.Phones(text)) > 0
}

// clean takes labels, codes and marks off a title.
func (l *look) clean(a at) at {
	text := l.text(a)
	trimmed := strings.Trim(text, " ,;:·|*–—-\"„“”«»")
	if strings.HasSuffix(trimmed, ".") && !strings.HasSuffix(trimmed, "..") {
		trimmed = strings.TrimSuffix(trimmed, ".")
	}
	if i := fileFirst.FindStringIndex(trimmed); i != nil {
		trimmed = trimmed[i[1]-len(lastLetters(trimmed[i[0]:i[1]])):]
	}
	if i := startsItem.FindStringIndex(trimmed); i != nil && i[1] < len(trimmed) {
		trimmed = trimmed[i[1]:]
	}
	if i := placeAtEnd.FindStringIndex(trimmed); i != nil && i[0] > 3 && len(find.Dates(trimmed[i[0]:], l.langs))+len(find.Ranges(trimmed[i[0]:], l.langs)) > 0 {
		trimmed = trimmed[:i[0]]
	}
	if i := dayAtEnd.FindStringIndex(trimmed); i != nil && i[0] > 3 && len(find.Dates(trimmed[i[0]:], l.langs)) > 0 {
		trimmed = trimmed[:i[0]]
	}
	trimmed = startsAtEnd.ReplaceAllString(l.withoutEnd(trimmed), "")
	if i := verbAtEnd.FindStringIndex(trimmed); i != nil && i[0] > 3 {
		trimmed = strings.TrimRight(trimmed[:i[0]], " ,;:–-")
	}
	if i := trailing.FindStringIndex(trimmed); i != nil && i[0] > 3 {
		trimmed = strings.TrimRight(trimmed[:i[0]], " ,;:–-")
	}
	k := strings.Index(text, trimmed)
	return a.within(max(k, 0), len(trimmed))
}

// placeAtEnd is the town and the day behind a title, and dayAtEnd the day in brackets.
var (
	placeAtEnd = matching(`, \p{Lu}[\p{L}’'-]+(?: \p{Lu}[\p{L}’'-]+)?, (?:\p{L}+ )?\d.{4,40}$`)
	dayAtEnd   = matching(`\s*\((?:\p{L}+,? ){0,2}\d[^()]{4,40}\)$`)
)

var (
	startsItem = matching(`(?i)^(?:sign-?in(?: sheet)?|attendance (?:list|sheet)|self-paced course|online course|course|seminar|workshop|webinar|training|kurs|lehrgang|seminar|schulung|formation|stage|curso|taller|cursus|opleiding|lecture|talk|module|event|study day)\s*:\s+`)
	verbAtEnd  = matching(`\s+(?:erfolgreich\s+|met goed gevolg\s+|met succes\s+|helemaal\s+|volledig\s+|geheel\s+|vollständig\s+|komplett\s+|ganz\s+)?(?:(?:los|el) días?|les jours|an den tagen|op de dagen|on the days?|realizad[oa]s?|celebrad[oa]s?|impartid[oa]s?|organizad[oa]s?|desarrollad[oa]s?|llevad[oa]s? a cabo|organisée?s?|dispensée?s?|animée?s?|proposée?s?|qui s['’]est (?:déroulée?|tenue?)|que se (?:celebró|realizó|impartió)|georganiseerd|verzorgd|(?:ge)?arbeitet(?: hat)?|tätig(?: ist| war)?|eingesetzt(?: ist| war)?|beschäftigt(?: ist| war)?|angestellt(?: ist| war)?|teilgenommen|bestanden|besucht|abgeschlossen|absolviert|abgelegt|gehalten|doorlopen|durchlaufen|durchgearbeitet|bearbeitet|deelgenomen|bijgewoond|gevolgd|afgerond|afgelegd|behaald)$`)
	trailing   = matching(`(?i)\s*[([](?:wegens|wegen|pour cause|en raison|à cause|por causa|debido|por enfermedad|due to|because|owing to|geannuleerd|annul|cancel|storniert|n°|nº|ref|first|eerste|erster?|premi[eè]re?|primera?|beginning|begint|beginnend|commencing|débutant|débute|empieza|comienza|inicia|à partir|ab dem|desde|a partir|vanaf|met ingang|starts?|begins?|from|held|on|beginnt|ab|vom|début|inicio|start|\d|code|no\.?|nr\.?|online|course code|ref)[^)\]]*[)\]]?\s*$`)
)

// decisionOf is what a letter about a text is about, which is not the text.
var decisionOf = matching(`^(?:editorial |positive |favourable )?(?:decision|acceptation|acceptance|annahme|aceptacion|aanvaarding|avis|entscheidung|besluit|outcome|resultat)(?:$| (?:du|de|of|des|der|van|del|on|uber|sur|over|concernant|regarding|ihres|your|votre)\b)`)

// didElse is what else somebody did, or how long it took, behind the name of what they took part in.
var didElse = matching(`\s(?:et (?:a |ont )?(?:répondu|réussi|obtenu|satisfait|passé|validé)|and (?:has |have )?(?:passed|answered|completed|satisfied|obtained)|y (?:ha )?(?:superado|respondido|aprobado|obtenido)|en (?:heeft|hebt) (?:de|het|alle)|und (?:hat|haben) (?:die|den|das|alle)|(?:mit einem Umfang|im Umfang|mit einer Dauer) von|with a (?:length|duration) of|d[’']une durée de|con una duración de|met een (?:duur|omvang) van)\s.*$`)

// titleShown is what stands in front of a list of positions, and no position.
var titleShown = matching(`^(?:as )?(?:shown|follows|stated|listed|set out)(?: below)?$|^(?:wie )?folgt$|^(?:comme )?suit$|^(?:como )?sigue$|^(?:als )?volgt$`)
