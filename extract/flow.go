package extract

import (
	"strings"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// eventNoun are words for what a title names, also at the end of a compound, in running
// text; the title follows them.
const eventNoun = `(?:(?i:[\p{L}-]*(?:kurs(?:es)?|lehrgangs?|seminars?|tagung|schulung|fortbildung|weiterbildung|veranstaltung|workshops?|webinars?|vortrag(?:s|es)?|vorlesung|reihe|fachsitzung|unterweisung|übung|symposiums?|kongress(?:es)?|modul[es]?|fortbildungstag|(?:akademische[nrs]? |fach)?(?:grad|titel|bezeichnung)|das fach|studientag|thementag|prüfung(?: zu[mr])?(?: Abschluss)?|beitrag(?:s|es)?|artikels?|manuskripts?|` +
	`cursus|opleiding|training|studiedag|themadag|bijscholing|nascholing|lezing|voordracht|gastcollege|gastles|leergang|congres|avondreeks|reeks|examen|artikel|bijdrage|bijeenkomst)|` +
	`course|seminar|webinar|study day|conference|congress|symposium|masterclass|(?:study|learning|[\p{L}]+-learning) unit|entitled|titled|session|series|lectures?|module|programme|program|class|summer school|bootcamp|tutorial|talk|paper|presentation|article|manuscript|exam(?:ination)?|degree of|diploma|qualification(?: of)?|title of|grade of|certificate in|practical|clinic|refresher|evening|(?:oral |written |practical )?examinations? in|(?:orals|viva|vivas) in|(?:speaker|lecturer|tutor|instructor) on|` +
	`formation|stage|cours|séminaire|atelier|journée(?: d['’]étude)?|journées|colloque|conférence|webinaire|communication|examen(?: d['’]| de)?|grade de|titre de|diplôme(?: de| d['’])?|manuscrit|exposé|cycle|parcours|(?:formateur|formatrice|intervenante?) sur|` +
	`curso|taller|seminario|jornadas?|ponencia|congreso|módulo|charla|conferencia|artículo|manuscrito|título de|grado de|diploma de|simposio|ciclo|sesión|acción formativa)(?: (?:en ligne|à distance|online|on-?line|en línea|a distancia|par correspondance|por correspondencia|virtual|met live lessen|op afstand|entitled|titled|called|titulad[oa]|intitulée?|getiteld|genaamd|mit dem titel|namens|über|about|on the subject of))?)`

// asWhat stands before what somebody has qualified as.
var asWhat = matching(`(?:competent|qualified|certified|registered|recogni[sz]ed|licensed|chartered|geprüft|qualifiziert|anerkannt|compétente?|qualifiée?|certifiée?|competente|cualificad[oa]|acreditad[oa]|bekwaam|gekwalificeerd|erkend)(?: bevonden)? (?:as|als|comme|en tant qu(?:e |['’])|como)(?: an?| eine?| une?| una?| een)? (\p{Lu}.{3,120})`)

// obtains holds what somebody gets by an examination, behind the verb and the word for it.
var obtains = matching(`(?i:obtains?|obtained|acquires?|is (?:hereby )?(?:awarded|granted)|has been (?:awarded|granted)|earns?|gains?|verkrijgt|behaalt|heeft behaald|erwirbt|erlangt|erhält|führt|obtient|acquiert|reçoit|porte|obtiene|adquiere|recibe|ostenta)(?i: \p{L}+){0,2}? (?i:qualification|kwalificatie|vakbekwaamheid|titel|title|titre|título|berufsbezeichnung|bezeichnung|qualifikation|cualificación|acreditación|habilitación|bevoegdheid|bekwaamheid|designation)(?i: (?:of(?: an?)?|de|d['’]|van|als|as|eines?|einer))? [«“„"]?(\p{Lu}.{3,120})`)

// afterVerb holds what somebody attended, behind whatever kind of thing it is called:
// "joined our teacher placement Classrooms Under Canvas".
var afterVerb = matching(`(?:attended|joined|completed|took part in|participated in|was present at|a suivi|a participé à|asistió a|ha asistido a|participó en|ha realizado|volgde|nam deel aan)\s(?:the |our |a |an |this |la |le |l['’]|el |de |het |onze |notre |nuestro |nuestra |un |una |une )?(?:\p{Ll}[\p{L}-]*\s){1,4}(\p{Lu}[^.;:]{6,110})`)

// examOf holds the name of an examination that stands before the word for it.
var examOf = matching(`(?:passed|sat|taken|took|completed) (?:the|our|your) (\p{Lu}[^.;]{4,90}?) (?:examination|exam|test|assessment)\b`)

var (
	afterEvent = matching(`(?:^|[\s'’(])` + eventNoun + `\s*(?::\s*|,\s*)?\s([\p{Lu}\d¿¡].{2,170})`)
	endsEvent  = matching(`(?:^|[\s'’-])` + eventNoun + `\s*:?$`)
	ofAuthor   = matching(`(?i)^\s*(?:by|of|von|de|van|del?|d['’]|par|por|door)\s+`)
	endTitle   = matching(`(?i)` + apposed + `|\s(?:with (?:merit|distinction|honou?rs|commendation)|mit auszeichnung|avec (?:mention|félicitations)|con (?:mención|distinción|matrícula)|met (?:lof|onderscheiding))\b|,\s+(?:held|given|taught|delivered|hosted|streamed|broadcast|conducted|run|led|offered|abgehalten|gehalten|veranstaltet|durchgeführt|übertragen|angeboten|geleitet|diffusée?s?|proposée?s?|réalisée?s?|suivie?s?|dictad[oa]s?|retransmitid[oa]s?|desarrollad[oa]s?|realizad[oa]s?|ofrecid[oa]s?|gehouden|gegeven|uitgezonden|aangeboden|verzorgd)\s|[,;]?\s+(?:(?:and|und|et|y|en)\s(?:completed|finished|passed|obtained|scored|hat|ha|a|heeft|est|is|was|war)|(?:dat|die|wat) (?:u|je|hij|zij|wij)|(?:das|den|die|der) (?:sie|wir|er) .{0,80}(?:haben|hat|hatte)|que (?:vous|nous|ud|usted|le) .{0,80}|qu['’](?:il|elle)|(?:that|which) (?:you|we|he|she) (?:\p{L}+ )?(?:gave|held|led|taught|attended|presented|organi[sz]ed|completed)|(?:donn|anim|ten|assur)(?:ée?|ue?)s?|ran|lasted|which (?:took|was|were|ran)|that (?:took|was|ran)|took place|(?:was|were|has been|have been) (?:accepted|held|published|given|presented)|held (?:at|on|in|from)|accepted|published|organi[sz]ed by|delivered by|run by|given by|(?:presented|taught|led|hosted|chaired|facilitated) by|(?:animée?|dispensée?|présentée?|assurée?|donnée?) par|(?:impartid[oa]|presentad[oa]|dictad[oa]) por|(?:geleitet|gehalten|gegeben) von|(?:verzorgd|gegeven|gepresenteerd|geleid) door|with live|mit live|avec (?:des )?(?:cours|séances)|con clases|met live|as (?:an?|the|our) (?:\p{L}+ )?(?:tutor|lecturer|speaker|instructor|presenter|trainer|teacher)|(?:for|at|with|to) (?:our|us\b)|für (?:uns|unser)\p{Ll}*|(?:pour|dans|chez) (?:notre|nos|nous)|(?:para|en) nuestr[oa]s?|(?:voor|bij) (?:onze|ons)|als (?:dozent|referent|trainer|vortragende|docent|spreker)\S*|en (?:tant que|qualité)|como (?:ponente|docente)|(?:erfolgreich |mit erfolg )?(?:(?-i:teil)|teilgenommen|besucht|bestanden|abgelegt|abgeschlossen|absolviert|gehalten|anwesend|angenommen|gegeben|geleitet|mitgewirkt|referiert|vorgetragen|gesprochen|unterrichtet|gelehrt|erteilt|belegt)|(?:gearbeitet|beschäftigt|angestellt|tätig)(?: hat| ist| war)?|as listed|wie aufgeführt|comme indiqué|como se indica|zoals vermeld|donnée? en direct|impartid[oa] en directo|live gegeven|live gehalten|taught (?:live|in live)|(?:heeft |is )?(?:met goed gevolg |met succes )?(?:gevolgd|bijgewoond|afgerond|afgelegd|voltooid|gehouden|gegeven|verzorgd|deelgenomen|behaald|aanwezig|geaccepteerd|aanvaard)|heeft|hat|hatte|wurde|(?-i:af)|werd|a été|ha sido|fue|qui (?:a|s['’]est)|que (?:se|tuvo)|organisée?|dispensée?|acceptée?|impartid[oa]|celebrad[oa]|aceptad[oa]|organizad[oa])(?:[\s.,]|$)|[.!;]\s|[.!;]$|\s\(|\s[–-]\s(?:\d|held)|”|“|»`)
	trailSmall = matching(`(?i)(?:[\s,]+(?:on|from|at|in|the|between|during|of|dated|am|vom|zum|von|bis|den|der|zwischen|im|ab|le|les|du|des|au|entre|de|del|el|los|desde|en|op|van|tussen|vanaf|te|to|with|y|days?|dates?|period|für|over|mon|tue|wed|thu|fri|sat|sun|(?:mon|tues|wednes|thurs|fri|satur|sun)day|\p{L}+tag|(?:lun|mar|mercre|jeu|vendre|same)di|dimanche|lunes|martes|miércoles|jueves|viernes|sábado|domingo|\p{L}+dag|dates|fecha|data))+[\s,]*$`)
)

// titlesInFlow finds titles by the grammar of the sentence that certifies: behind the
// word for an event, up to the day, the verb or the end of the sentence; and the line
// that stands between the line that ends with such a word and the rest of the sentence.
func (l *look) titlesInFlow(i int, text string, add func(at, int, string)) {
	for k := 0; k < len(text); {
		m := afterEvent.FindStringSubmatchIndex(text[k:])
		if m == nil {
			break
		}
		from := k + m[2]
		l.flowTitle(i, from, k+m[0], add)
		k += m[2]
	}
	if m := afterVerb.FindStringSubmatchIndex(text); m != nil && !l.isBody(text[m[2]:m[3]]) {
		if cut := l.cutTitle(text[m[2]:m[3]]); len(strings.Fields(cut)) > 1 && len(strings.Fields(cut)) < 14 && !isPersonal(cut) {
			add(l.passageAt(i).within(m[2], len(cut)), 72, sentenceNames)
		}
	}
	if l.kind == paper.Credential {
		l.titlesOfExams(i, text, add)
	}
	l.titleAnnounced(i, text, add)
}

// titleAnnounced finds the title in the line beneath one that ends with a word for an event or
// leaves its sentence open.
func (l *look) titleAnnounced(i int, text string, add func(at, int, string)) {
	opens := opensName.MatchString(text)
	if l.answeredBeside(i) {
		return
	}
	if !opens && !endsEvent.MatchString(text) && !l.opensTitle(i) && !l.setWithin(i) {
		return
	}
	next := l.nextPassage(i)
	if opens {
		next = l.nextBelow(i)
	}
	if next < 0 || l.aside(next) || l.isName(l.passages[next].text) || roleOf(text) != noRole && l.hasPair(l.passages[i].cells[0]) {
		return
	}
	title := l.passages[next].text
	if l.labelledItem(title) || signsHere(text) || toAnybody.MatchString(fold(title)) || l.knownItem(text) {
		return // it announces itself, or nothing does
	}
	if !capitalised(title) || runsOn(title) || roleOf(title) != noRole && l.hasPair(l.passages[next].cells[0]) || startsDay(l, title) || len(strings.Fields(title)) > 18 || quotesRE.MatchString(title) || heading.MatchString(fold(title)) && !endsEvent.MatchString(text) {
		return
	}
	cut := l.cutTitle(title)
	if cut == "" {
		return
	}
	score := 74
	if opens || startsLower(text) || didIt.MatchString(fold(text)) || gaveIt.MatchString(fold(text)) {
		score = 84
	}
	if len(find.Clocks(cut, l.langs)) > 0 {
		score -= 30 // a programme
	}
	if l.setWithin(i) {
		score = max(score, 82)
	}
	if after := l.nextPassage(next); after >= 0 && startsLower(l.passages[after].text) {
		score += 4
	}
	add(l.passageAt(next).within(0, len(cut)), score, "the line before announces it")
}

// answeredBeside reports a line of a form whose answer stands next to it in its row: "The member attended"
// with "throughout" beside it announces nothing beneath.
func (l *look) answeredBeside(i int) bool {
	cells := l.passages[i].cells
	row := l.rows[l.cells[cells[0]].row]
	return l.boxed && !l.parted && len(cells) == 1 && len(row) > 1 && row[0] == cells[0] && len(strings.Fields(l.passages[i].text)) < 6
}

// toAnybody opens a letter to whoever reads it.
var toAnybody = matching(`^(?:to whom|to anyone|a qui|a quien|a quienes|an alle|an wen|an die zustandige|aan wie|aan allen|l\.s\.|lectori|dear |sehr geehrte|guten tag|madame|monsieur|chere? |estimad|muy sr|geachte|beste )`)

// knownItem reports a known label with its value: "Subject: guest lecture".
func (l *look) knownItem(text string) bool {
	label, _, ok := itemParts(text)
	return ok && roleOf(label) != noRole
}

// titlesOfExams finds what was passed or earned by the grammar of the sentence.
func (l *look) titlesOfExams(i int, text string, add func(at, int, string)) {
	if m := examOf.FindStringSubmatchIndex(text); m != nil {
		add(l.passageAt(i).within(m[2], m[3]-m[2]), 92, "the sentence names the examination")
	}
	if m := obtains.FindStringSubmatchIndex(text); m != nil {
		if cut := l.cutTitle(text[m[2]:]); len(cut) > 3 && len(strings.Fields(cut)) < 12 && !heading.MatchString(fold(cut)) {
			add(l.passageAt(i).within(m[2], len(cut)), 84, "the sentence says what was earned")
		}
	}
	if m := asWhat.FindStringSubmatchIndex(text); m != nil {
		if cut := l.cutTitle(text[m[2]:]); len(cut) > 3 {
			add(l.passageAt(i).within(m[2], len(cut)), 82, sentenceNames)
		}
	}
}

// gaveIt are words for holding an event oneself.
var gaveIt = words(`delivered|gave|taught|presented|lectured on|unterrichtet\w*|gehalten|erteilt\w*|a (?:donne|anime|enseigne)|impartio|ha impartido|gaf|heeft gegeven`)

// opensTitle reports a line that goes on the sentence behind the person's name and
// leaves it open: what follows in capitals is what was attended, passed or earned.
func (l *look) opensTitle(i int) bool {
	text := l.passages[i].text
	if i == 0 || !startsLower(text) || ended(text) || len(strings.Fields(text)) < 2 || len(strings.Fields(text)) > 12 || strings.HasPrefix(text, "(") {
		return false
	}
	next := l.nextPassage(i)
	if next < 0 || len(l.daysIn(l.passages[i].cells)) > 0 {
		return false
	}
	return l.isName(l.passages[i-1].text) || l.namedWithTitles(l.passages[i-1].text) || didIt.MatchString(l.folded[i]) && l.nameEnds(l.passages[i-1].text)
}

// setWithin reports a line of a sentence that goes on two lines further down, with a larger
// line between: what the sentence is about is set within it.
func (l *look) setWithin(i int) bool {
	text := l.passages[i].text
	next := l.nextPassage(i)
	if !l.boxed || next < 0 || ended(text) || strings.HasSuffix(text, ":") || endsGiving(text) || len(strings.Fields(text)) < 2 {
		return false
	}
	after := l.nextPassage(next)
	title := l.passages[next].text
	if after < 0 || !startsLower(l.passages[after].text) || isPersonal(title) || l.isBody(title) || len(strings.Fields(title)) < 2 {
		return false
	}
	size := func(p int) int { return l.cells[l.passages[p].cells[0]].size }
	return size(next)*10 >= size(i)*11 && size(next)*10 >= size(after)*11
}

// namedWithTitles reports a line that is the attendee's name with titles and letters around it.
func (l *look) namedWithTitles(text string) bool {
	name, _, _, titled := person(text)
	return (titled || nameFirst(text)) && l.isName(name) && len(strings.Fields(text)) < 10
}

// nameEnds reports a line that ends with the attendee's name.
func (l *look) nameEnds(text string) bool {
	v := l.out.Values[paper.FieldAttendee]
	return v.Text != "" && strings.Contains(bare(text), bare(v.Text))
}

// apposed begins, behind a name, what says of it that it is a course, or a clause about it.
const apposed = `,\s+(?:an?|the|our|eine?[rmn]?|une?|una?|een)\s+(?:[\p{L}-]+\s+){0,3}(?:course|seminar|workshop|webinar|training|session|event|lecture|conference|kurs|lehrgang|schulung|tagung|fortbildung|formation|stage|journée|atelier|curso|jornada|taller|cursus|opleiding|studiedag)\b|` +
	`,\s+(?:das|der|die|dat|qui|que|which|that)(?:\s+(?:am|vom|im|in|on|was|is|took|le|se|a|est|op|wij|wir|we|fue|tuvo)\b|\s*$)`

func startsDay(l *look, text string) bool { return strings.TrimSpace(l.undated(text)) == "" }

// theme is the first part of a title that has a subtitle: "Slipware Refresher: ".
var theme = matching(`^(?:\p{Lu}[\p{L}’'-]*\s){2,}\p{Lu}[\p{L}-]*:\s$`)

// flowTitle weighs the title that begins in passage i at byte from, behind the word for an event.
func (l *look) flowTitle(i, from, noun int, add func(at, int, string)) {
	text := l.passages[i].text
	from = withPartWord(text, from)
	rest := text[from:]
	if theme.MatchString(text[:from]) {
		return // a title with a word for an event in it, and its subtitle
	}
	if v := l.out.Values[paper.FieldAttendee].Text; v != "" {
		if a := strings.Index(rest, v); a == 0 && ofAuthor.MatchString(text[noun:]) {
			return
		}
	}
	cut := l.cutTitle(rest)
	if l.beginsMeasured(cut) || len(cut) == len(rest) && headline.MatchString(text) && l.isBody(text) {
		return
	}
	if cut == "" || len(strings.Fields(cut)) > 16 || noun == 0 && len(strings.Fields(text)) < 12 && !didIt.MatchString(l.folded[i]) {
		return
	}
	score := 66
	if bounded := from+len(cut) < len(text); bounded || strings.HasSuffix(text, ".") {
		score = 78
	}
	if l.kind == paper.Credential {
		score += 6
	}
	if len(strings.Fields(cut)) < 2 {
		score -= 20
	}
	if withinWider.MatchString(fold(tail(text[:noun], 60)) + " ") {
		score -= 24 // the module to which the talk belonged
	}
	why := sentenceNames
	if l.bounded(text[:from], cut, text[from+len(cut):]) {
		why = "the sentence says what it was called"
	}
	add(l.passageAt(i).within(from, len(cut)), score, why)
}

// beginsMeasured reports words that begin with a sum, or with a length or credits with a mark behind
// them: what it cost or how long it was.
func (l *look) beginsMeasured(text string) bool {
	if !startsFigure(text) {
		return false
	}
	if a := find.Amounts(text, l.langs); len(a) > 0 && a[0].From == 0 && a[0].Sign != "" {
		return true
	}
	ends := func(to int) bool { return to < len(text) && strings.ContainsAny(text[to:to+1], ",;.(") }
	if d := find.Durations(text, l.langs); len(d) > 0 && d[0].From == 0 && ends(d[0].To) {
		return true
	}
	c := find.Credits(text, l.langs)
	return len(c) > 0 && c[0].From == 0 && ends(c[0].To)
}

// withinWider ends in front of what somebody's talk or course was a part of.
var withinWider = matching(`\b(?:(?:is|was|are|were|formed|forms|being)? ?(?:a |an integral )?part of|within|as part of|in the framework of|in the course of|im rahmen|(?:als |ist |war )?(?:ein )?(?:teil|bestandteil)|dans le cadre|(?:fait|faisait) partie|en el marco|dentro|(?:forma|formo|formaba) parte|in het kader|(?:als )?onderdeel|maakt(?:e)? deel uit)(?: (?:of|de[rsm]?|des|du|del?|van|la|le|el|the|our|its|their|einer?s?|unsere[rs]|une?|una?|het|een|onze|la))*\s*$`)

// ofSeveral says which part of several a title is: "(Part 2)" belongs to it.
var ofSeveral = matching(`^\s\((?i:teil|part|parte|partie|deel|stufe|level|niveau|nivel|modul[eo]?|band|vol\.?)\s(?:[IVX]{1,4}|\d{1,2})\)`)

// cutTitle returns how much of rest is the title: up to the day, to the verb that
// closes the sentence, or to its end.
func (l *look) cutTitle(rest string) string {
	cut := l.undated(rest)
	dated := len(cut) < len(rest)
	for from := 0; from < len(cut); {
		m := endTitle.FindStringIndex(cut[from:])
		if m == nil {
			break
		}
		if part := ofSeveral.FindString(cut[from+m[0]:]); part != "" {
			from += m[0] + len(part)
			continue
		}
		cut, dated = cut[:from+m[0]], false
	}
	if dated {
		cut = trailSmall.ReplaceAllString(cut, "")
	}
	return strings.TrimRight(cut, " ,.;:–-")
}
