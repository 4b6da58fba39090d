package extract

import (
	"slices"
	"strings"
	"unicode/utf8"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

var (
	bodyWord  = words(`consorcio|cooperativa|cooperatie|polytechni(?:c|ek|cum|kum|que)|politecnic[oa]|netzwerk|groupement|maatschappij|vakgroep|beroepsgroep|kammerbezirk|\S*kontor|supplies|traders|stationers|outfitters|buchhandlung|librairie|libreria|boekhandel|papeterie|papeleria|directorate|inspectorate|inspectie|\S*behorde|(?:bundes|landes)amt|minist(?:erie|erium|ere|erio)|direccion general|direction (?:generale|regionale|departementale)|gobierno|ayuntamiento|diputacion|consejeria|rectorat|gemeente|county council|ordre (?:des|du|de la|de l.|national|professionnel|provincial)|orde (?:van|der)|orden? der|circle|fellowship|lodge|brotherhood|fraternity|barreau|confrerie|cofradia|hermandad|zunft|\S*innung|orts(?:gruppe|verein)|fachgruppe|regionalgruppe|landesgruppe|sindicato|patronato|mancomunidad|vakbond|beroepsorde|initiative|iniciativa|initiatief|(?:&|et|y|und|en|and) (?:associee?s|asociad[oa]s|partners?|associates|cie|co)|kolleg|portal|kamer|(?:kwaliteits|beroeps|vak|berufs|fach|member|ledens)register|estudio (?:juridico|contable|notarial)|bufete|\S*kanzlei|notaria|kamer voor \S+|agrupacion|alianza|compagnie|compagnons|gilde|guilde|ligue|liga|registre|registro|transactions on|plat(?:t)?form(?:e|a)?|netwerk|reseau|red de|colectivo|cercle|circulo|fabrique|conservatoire|laboratoires?|chorale|haute ecole|ateneo|liceo|lycee|mutuelle|confederacion|confederation|corporacion|academie|universita|istituto|associazione|fondazione|societa|collegio|universidade|associacao|fundacao|sociedade|escola|instituicao|\S*(?:institut|akademie|hochschule|universitat|verband|verein|kammer|gesellschaft|stiftung|zentrum|schule|verlag|werk(?:e|statt)|klinik|krankenhaus|kreis|forum|bund|dienst|instituut|academie|hogeschool|universiteit|vereniging|stichting|genootschap|school|centrum|college|bureau|(?:vermessungs|ingenieur|planungs|architekt\w*|sachverstandigen|konstruktions|steuer)buro|societeit|ziekenhuis|kring|huis)|institutes?|institution|academy|academia|schools?|university|universite|universidad|faculty|colleges?|colegio|board|guild|society|societe|sociedad|association|asociacion|club|trust|foundation|fundacion|fondation|centre|center|centro|federation|federacion|council|conseil|consejo|chamber|chambre|camara|congress|conference|ecole|escuela|atelier|amicale|cahiers|annals|journal|review|revue|revista|zeitschrift|tijdschrift|quarterly|magazine|gazette|bulletin|proceedings|bookstore|bookshop|press|editions|editorial|hospital|clinic|ltd|limited|plc|llp|inc|llc|corp|corporation|company|gmbh|mbh|ag|kg|ohg|ug|e\. ?v\.|eg|sarl|sas|s\.? ?a\.|s\.? ?l\.|sl|b\. ?v\.|n\. ?v\.|bv|nv|vzw|asbl|training|trainers|learning|education|consulting|network|group|committee|commission|ministry|department|agency|authority|union|league|works|services|solutions|systems|laborator(?:y|ies)|fabrications|engineering|lernhof|forum|instituto|institut|organisme|organisation|organization|syndicat|gremio|mutua|collegium|consortium|conservatory|museum|library|studio|workshops?|chapter|section|branch|collective|cooperative|partnership|partners|alliance|office|bureau|house|haus|anlagenbau|registry|register`)
	notBody   = words(`(?:register|till|kasse|caisse|caja|kassa) (?:no\.? ?|nr\.? ?)?#?\d+|notulen|compte rendu|proces-verbal|acta n\S*|acta de(?: la)?|minutes of|protokoll|verslag|certificate of|certificat de|certificado de|bewijs van|attendance|attestation|teilnahme\S*|bescheinigung|(?:learning|training|education|cpd|course|study) (?:summary|overview|report|records?|history|log|ledger|statement|transcript|account|profile|dashboard|portfolio|passport)|my (?:learning|training|courses|account)|(?:meine|ihre) (?:kurse|weiterbildung\S*|fortbildung\S*)|(?:fortbildungs|weiterbildungs|bildungs|schulungs|lern)(?:ubersicht|konto|pass|nachweis|verlauf|stand)|(?:mon|mes|votre|vos) (?:compte|formations?|parcours|cours)|(?:historique|recapitulatif|suivi) (?:de|des) formations?|mis? (?:cuenta|cursos|formacion)|(?:historial|resumen|expediente) (?:de formacion|formativo|academico)|mijn (?:account|cursussen|scholing|leeromgeving)|(?:scholings|nascholings|leer|opleidings)(?:overzicht|dossier|pas|account)|this is|course complete|learning (?:record|history)|record of|statement of|attended|has|have|dear|thank|please|thanks|for the|session|agenda|invoice|receipt|transcript`)
	copyRight = matching(`(?:©|\(c\)|Copyright)\s*(?:\d{4}(?:\s*[-–]\s*\d{4})?)?\s*(?:by )?([^.|·]{3,80})`)
)

const itCertifies = "the sentence says that it certifies"

// isBody reports a text that has a word by which organisations are known.
func (l *look) isBody(text string) bool {
	low := fold(text)
	return bodyWord.MatchString(low) || len(find.Organisations(text)) > 0
}

// findProvider collects who may have held the event or issued the paper.
func (l *look) findProvider() []guess {
	list := l.mastheads()
	add := func(a at, score int, why string) {
		if g, ok := l.bodyGuess(a, score, why); ok {
			list = append(list, g)
		}
	}
	l.bodiesByLabel(add)
	for _, named := range []func() (guess, bool){l.stackedName, l.shopName} {
		if g, ok := named(); ok {
			list = append(list, g)
		}
	}
	for ci := range min(3, len(l.cells)) {
		if g, ok := l.headGoesOn(ci); ok {
			list = append(list, g)
		}
	}
	l.bodiesAtHead(add)
	l.bodiesInFooter(add)
	l.bodiesOfPlaces(add)
	l.periodicals(add)
	l.bodiesOfBoards(add)
	l.bodiesSigning(add)
	for i, p := range l.passages {
		l.bodyInCopyright(i, add)
		l.bodiesInText(i, p.text, add)
	}
	for i, g := range list {
		if g.sure && g.score < 90 && l.mayGoOn(g.at) {
			list[i].sure = false
		}
	}
	l.underUmbrella(list)
	list = l.namedInFull(l.repeated(append(list, l.bodiesOfMail()...)))
	if only := best(list); len(only) > 0 && only[0].score >= 50 && only[0].score < 66 && l.isBody(only[0].text) && (len(only) == 1 || !l.isBody(only[1].text)) {
		only[0].score, only[0].sure = 66, true // the one body that the paper names
		return only
	}
	return list
}

// underUmbrella takes weight from a ministry or a federation at the head where another body stands beneath
// it: the one above seldom made the paper.
func (l *look) underUmbrella(list []guess) {
	for i, g := range list {
		if g.why != "it stands at the head" || !umbrella.MatchString(fold(g.text)) {
			continue
		}
		for _, o := range list {
			if o.at.passage > g.at.passage && o.at.passage < 4 && o.score >= 50 && l.isBody(o.text) && !umbrella.MatchString(fold(o.text)) && !strings.Contains(fold(g.text), fold(o.text)) {
				list[i].score -= 22
				break
			}
		}
	}
}

// umbrella begins the name of what stands above other bodies.
var umbrella = matching(`^(?:the )?(?:ministere|\S*ministerium|ministerio|ministerie|ministry|federation|federacion|federatie|foderation|(?:bundes|landes|dach|spitzen|gesamt)verband|confederation|confederacion|koepel)\b`)

// timeUnit is a unit of time, as it stands over a column.
var timeUnit = matching(`^(?:std|stunden|hrs?|hours?|min|minuten|minutes?|heures?|horas?|uren|ue|h)$`)

// threeLetters is what every name of a body has.
var threeLetters = matching(`\p{L}{3}|\p{L}\.?\s?&\s?\p{L}|\p{Lu}{2}`)

// bodyGuess makes a guess of what stands at a; ok is false where it cannot be the name of a body.
func (l *look) bodyGuess(a at, score int, why string) (g guess, ok bool) {
	a = l.bareBody(l.withoutOffice(l.behindMaker(a)))
	if m := signsFor.FindStringSubmatchIndex(l.text(a)); m != nil {
		a = a.within(m[2], m[3]-m[2])
	}
	text := strings.Trim(l.text(a), " .,;:·|*#-–—")
	if memberOf.MatchString(fold(text)) || timeUnit.MatchString(fold(text)) || !threeLetters.MatchString(text) {
		return guess{}, false // whose member it is, or a number
	}
	if e := fold(text); slices.ContainsFunc(pointedForms, func(form string) bool { return strings.HasSuffix(e, form) }) || pointedEnd.MatchString(text) {
		text += "."
	}
	if !capitalised(text) && !strings.Contains(text, "-") && !(why == "it stands at the head" && smallBody.MatchString(text) && l.isBody(text)) && why != itCertifies || certifyLine.MatchString(fold(text)) {
		return guess{}, false
	}
	if score < 90 && (startsLower(text) && why != itCertifies && !smallBody.MatchString(text) || l.saysElse(text)) || l.aboutPerson(text, score) || score < 90 && l.numberedPart(text) || l.noBody(text) {
		return guess{}, false
	}
	if label, _, parted := strings.Cut(text, ": "); parted && score < 90 && slices.Contains([]role{isTitle, isPerson, isEvent, isSigner, isPlace}, roleOf(label)) {
		return guess{}, false
	}
	if officeLine(text) || outsideDesk.MatchString(fold(text)) || score < 86 && l.firmOfPerson(text) {
		score = min(score, 40) // an office of a body, not the body
	}
	if anyBody.MatchString(fold(text)) && why != itCertifies {
		score = min(score, 20) // "The Board" is one that was named before
	}
	return guess{text: text, at: a, score: score, why: why, sure: score >= 60 && (len(strings.Fields(text)) > 1 || score >= 90)}, true
}

// pointedForms are ends of a name, folded, that have a point behind them.
var pointedForms = []string{"e. v", "e.v", " inc", "s.l", "b.v", "s.a", "n.v", " co", "coop", "s.l.u", "s.a.u", "s.l.l", "e. k", "e.k", "e. g", "e.g", "v.o.f"}

// saysElse reports a text that gives a length, a day, a label, a notice or credits: only a
// label for the body can make it one.
func (l *look) saysElse(text string) bool {
	low := fold(text)
	return len(find.Durations(text, l.langs)) > 0 || len(find.Dates(text, l.langs)) > 0 && !l.isBody(text) || neverBare.MatchString(low) || noticeOf.MatchString(low) || creditStem.MatchString(low) && roleOf(text) != noRole
}

// noBody reports a text that is no name of a body, whatever speaks for it: a sum, a path, a
// person, an address.
func (l *look) noBody(text string) bool {
	if len(find.Amounts(text, l.langs)) > 0 || strings.ContainsAny(text, "›»>@?!€£$") {
		return true
	}
	first, rest, parted := strings.Cut(text, ", ")
	n := utf8.RuneCountInString(text)
	return n < 3 || n > 100 || !lettersRE.MatchString(text) || parted && isPersonal(first) && !l.isBody(first) && !(l.lang == find.Spanish && pointedForm.MatchString(text)) && !formAlone.MatchString(fold(rest)) || reachLine(text) || startsStreet.MatchString(text) && !l.isBody(text)
}

// aboutPerson reports a text that is the attendee with a calling, somebody and what is said
// of them, or a line that quotes something: none is the name of a body.
func (l *look) aboutPerson(text string, score int) bool {
	if v := l.out.Values[paper.FieldAttendee].Text; v != "" && strings.HasPrefix(text, v+" ") && !legalForm.MatchString(text) {
		return true
	}
	name, _, to, _ := person(text)
	return score < 90 && (len(quotesRE.FindString(text)) > 12 || !l.isBody(text) && isPersonal(name) && startsLower(strings.TrimLeft(text[to:], " ")))
}

// yearsAfter are the years for which a copyright is claimed, behind who claims it.
var yearsAfter = matching(`,?\s+(?:19|20)\d\d(?:\s*[-–]\s*(?:19|20)?\d\d)?$`)

// smallBody is a name that a body writes with a small letter at its begin.
var smallBody = matching(`^\p{Ll}{5,}(?: \p{Lu}[\p{L}’'-]+){1,3}$`)

// numberedPart reports the heading of a part of a form: it says that it is one, or another
// line bears the number before or after its own.
func (l *look) numberedPart(text string) bool {
	if partHeading.MatchString(text) {
		return true
	}
	m := partNumber.FindString(text)
	return m != "" && slices.ContainsFunc(l.passages, func(p passage) bool {
		o := partNumber.FindString(p.text)
		return len(o) == len(m) && abs(int(o[0])-int(m[0])) == 1
	})
}

var (
	partNumber  = matching(`^\d\.? \p{Lu}`)
	partHeading = matching(`^(?i:part|section|block|box|step|teil|abschnitt|feld|partie|rubrique|cadre|volet|parte|sección|apartado|bloque|deel|onderdeel|rubriek|vak)\.? (?:\p{Lu}|[IVX]{1,4}|\d{1,2})(?:\s?[.):–—-]|\s|$)`)
)

// wordRE is a word of some length.
var wordRE = matching(`\p{L}{4}`)

// pointedEnd is the end of a legal form whose last point was taken off: ", A.C".
var pointedEnd = matching(`, \p{Lu}\.(?:\p{Lu}\.)*\p{Lu}$`)

// pointedForm is a legal form in capitals with points at the end of a name.
var pointedForm = matching(`, (?:\p{Lu}\.\s?){2,4}$`)

// lettersRE is a word of a name.
var lettersRE = matching(`\p{L}{2}`)

// thisPaper begins a sentence that speaks of the paper or the course.
var thisPaper = matching(`^(?:deze|dit|this|these|diese[rsnm]?|cette|cet|ce|esta?|el presente|la presente|hierbij|hiermee|hiermit|questo|questa) \S+ `)

// masthead is what stands behind the name of a periodical at the head of an article.
var masthead = matching(`(?i)^((?-i:\p{Lu})[^\d]{4,80}?)[\s,.;·–|-]*(?:\d{1,3}\s?\((?:19|20)\d\d\)|\d{1,3}\. (?:jahrgang|jg)|(?:jahrgang|jg\.?|vol(?:ume|umen|\.)?|band|bd\.|heft|nr\.|no\.|issue|number|tome|numéro|número|jaargang|n°|nº|(?:spring|summer|autumn|winter) (?:issue|20))\s?\d?)`)

// mastheads finds the periodical in a line at the head or foot of a published text.
func (l *look) mastheads() []guess {
	var list []guess
	if l.kind != paper.Publication {
		return nil
	}
	for i, p := range l.passages {
		m := masthead.FindStringSubmatchIndex(p.text)
		if m == nil || i > 3 && i < len(l.passages)-3 || len(p.text) > 150 || !hasFigure(p.text) {
			continue
		}
		name := strings.TrimRight(p.text[m[2]:m[3]], " ,.;:·–-|(")
		if len(strings.Fields(name)) > 0 && roleOf(name) == noRole {
			list = append(list, guess{text: name, at: l.passageAt(i).within(m[2], len(name)), score: 90, why: "the number of the issue stands behind it", sure: true})
		}
	}
	return list
}

func (l *look) bodiesByLabel(add func(at, int, string)) {
	for _, p := range l.pairs {
		if p.role != isProvider {
			continue
		}
		if l.kind == paper.Transcript && p.how == beneath && !p.colon {
			continue // the heading of a column: who held one of the courses
		}
		score := 94
		if strings.Contains(p.label, "issue") || strings.Contains(p.label, "ausst") || strings.Contains(p.label, "emis") || strings.Contains(p.label, "afgeg") {
			score = 82
		}
		if ownFirm.MatchString(p.label) && l.kind != paper.Employment && l.kind != paper.Receipt {
			score = 54 // where the person works
		} else if bearer.MatchString(p.label) {
			score = 70 // who bears the school that held it
		}
		if name, _, to, _ := person(l.text(p.value)); name != "" && !l.isBody(l.text(p.value)) && to == len(l.text(p.value)) && !(bodyLabel.MatchString(p.label) && !l.isName(name) && l.out.Values[paper.FieldAttendee].Text != "") {
			score -= 40
		}
		add(l.untilMark(p.value), score, "it stands with the label "+quoted(p.label))
	}
}

// bodyLabel asks for a body and for nobody else, whatever the name looks like.
var bodyLabel = matching(`^(?:(?:training|course|awarding|examining|professional|issuing) (?:body|provider|organi[sz]ation|institution)|provider|organi[sz]ation|institution|body|(?:bildungs|kurs|seminar|schulungs)?(?:anbieter|trager)|bildungseinrichtung|einrichtung|organisme(?: de formation)?|entidad(?: \S+)?|centro|organisatie|instelling|opleidingsinstituut)$`)

// ownFirm asks for the firm of the person; bearer for who bears the body that held it.
var (
	ownFirm = matching(`^(?:(?:your |ihre? |votre |su |uw )?(?:firm|firma|company|betrieb|unternehmen|entreprise|societe|empresa|bedrijf|affiliation|employer|arbeitgeber(?:in)?|employeur|werkgever|empleadora?|dienststelle|lieu de travail))$`)
	bearer  = matching(`^(?:tragerschaft|trager|rechtstrager|parent (?:body|organi[sz]ation))$`)
)

// bodyAtFoot returns the body that stands among the last lines of a message.
func (l *look) bodyAtFoot() (at, bool) {
	for i := len(l.passages) - 1; i >= max(0, len(l.passages)-7); i-- {
		text := l.passages[i].text
		if l.isBody(text) && capitalised(text) && !l.aside(i) && len(strings.Fields(text)) < 10 && !l.labelledItem(text) && !strings.HasSuffix(text, ".") && !officeLine(text) && !heading.MatchString(fold(text)) {
			return l.untilMark(l.passageAt(i)), true
		}
	}
	return at{}, false
}

// untilMark cuts a before an address, a telephone number or the like.
func (l *look) untilMark(a at) at {
	text := l.text(a)
	for _, mark := range []string{" · ", " | ", " • ", " » ", " › ", " > ", " → ", ", PO Box", ", P.O.", " - Tel", " Tel", ", tel", " – ", " — "} {
		if i := strings.Index(text, mark); i > 3 {
			text = text[:i]
		}
	}
	if m := headAfter.FindStringSubmatchIndex(text); m != nil && m[0] > 3 && (heading.MatchString(fold(text[m[2]:])) || provesHead.MatchString(fold(text[m[2]:]))) {
		text = text[:m[0]] // "Vexley Quarries – Safety Briefing Slip"
	}
	text = beforeAddress(text)
	for _, cut := range []*pattern{streetAfter, houseAfter, numberedAs, roomAfter, saidAfter, townAfter} {
		if m := cut.FindStringIndex(text); m != nil && m[0] > 3 {
			text = text[:m[0]]
		}
	}
	return a.within(0, len(text))
}

// noticeOf is what a paper is headed, rather than who made it.
var noticeOf = matching(`^(?:notice|proof|record|statement|confirmation|certificate|letter|decision|extract|minutes|list) (?:of|on|from|and)\b|^(?:given|made|signed|dated|issued) |^continuing education$|^(?:paid|bezahlt|betaald|voldaan|payee?|acquittee?|pagad[oa]|abonad[oa]|storniert|cancelled|geannuleerd|annulee?|anulad[oa])\b.{0,24}$|^(?:sign(?:ed)?[- ]?(?:in|out)|attendance (?:list|register|sheet)|roster|anwesenheitsliste|teilnehmerliste|unterschriftenliste|(?:feuille|liste) (?:de presence|d.emargement)|(?:hoja|lista) de (?:firmas|asistencia|asistentes)|presentielijst|aanwezigheidslijst|tekenlijst)\b|^(?:credit ?(?:note|nota|factuur)|gutschrift|rechnungskorrektur|stornorechnung|avoir|note de credit|nota de (?:credito|abono)|factura rectificativa|honorarnote|quittung|zahlungsbeleg)\b`)

var (
	startsStreet = matching(`^\d{1,4}[a-z]?,? \p{L}|^[cC]/ ?\p{Lu}`)
	outsideDesk  = words(`leden(?:administratie|service|bureau)|membership (?:office|department|services?|secretary|team)|mitglieder(?:verwaltung|service|betreuung|abteilung)|service (?:des )?(?:adherents|membres)|servicio de (?:asociados|socios|colegiados)|(?:forum|school|college|guild|society|association) board|(?:schulungs|opleidings|cursus|seminar|kurs)(?:buro|loket|bureau)(?: .*)?|(?:bureau|service|oficina) de (?:la )?formati?[oc]i?o?n(?: .*)?|(?:bureau|service) (?:de|des) formations?(?: .*)?|(?:oficina|servicio) de formacion(?: .*)?|training (?:office|desk) of .*|inh\.? .*|inhaber(?:in)?:? .*|prop(?:rietor)?\.? .*|redaktion|editorial office|redaction|redaccion|redactie|fortbildungsburo|(?:training|booking|course|certificates?|education|learning|conference) (?:office|desk|bureau|service|department|team)s?|(?:vermittlungs|melde|geschafts|kurs|seminar|bildungs)stelle|vermittlungsstelle .*|(?:service|bureau|secretariat) des (?:formations?|cours|inscriptions?)|(?:oficina|secretaria|servicio) de (?:cursos|formacion|inscripcion\w*)|(?:cursus|opleidings|inschrijf)(?:bureau|loket|administratie|balie)|bureau (?:opleidingen|cursussen)`)
)

var streetAfter = matching(`\s\d{1,5} \p{Lu}[\p{L}'’-]+ (?:Street|St|Road|Rd|Avenue|Ave|Lane|Drive|Boulevard|Blvd|Way|Square|Court|Place)\b|\s(?:Rue|Avenue|Calle|Avda|Boulevard|Chaussée|Quai)\b[^\d]{2,40}\d|,\s+(?:\d|[\p{L}. -]{3,30}\s\d|[A-Z]{2}\s\d|[A-Z]-?\d{4})`)

// numberedAs is as what a body is on some list, with its number there.
var numberedAs = matching(`(?i),\s+(?:an? |the )?(?:(?:approved|accredited|recogni[sz]ed|registered|licensed|authori[sz]ed|anerkannte\p{L}*|zugelassene\p{L}*|agréée?|acreditad[oa]|homologad[oa]|erkende?)\s)?(?:\p{L}+\s)?(?:provider|sponsor|organi[sz]ation|school|träger|organisme|entidad|centro|instelling|aanbieder)?\s?(?:no\.?|nr\.?|n[°º]|id|number|nummer|#)\s?:?\s?\S*\d.*$|(?i),\s+(?:approved|accredited|recogni[sz]ed|registered|licensed)\s.*$`)

// saidAfter is what a body says of itself behind a dash, in small letters; townAfter are its
// town, its county and its country.
var (
	saidAfter = matching(`\s[-–—]\s\p{Ll}[^\d]*$`)
	townAfter = matching(`(?:, \p{Lu}[\p{L}’'-]+(?:\.? \p{Lu}[\p{L}’'-]+)?){2,}$`)
)

// signsFor begins a sentence in which somebody signs for a body: "Ondergetekende, Ann
// Vey, hoofd bij Lasschool Vexel nv".
var signsFor = matching(`(?i)^(?:de |la |le |el |the |der |die |l['’])?(?:ondergetekende|soussignée?|unterzeichne\p{L}+|undersigned|abajo firmante|infrascrit[oa]),? .*\s(?:bij|bei|at|of|chez|en|van|de) ((?-i:\p{Lu}).*)$`)

// headAfter parts the heading of a paper from who made it, in one line.
var headAfter = matching(`\s*(?:\s[-–—|]|:)\s+(\p{L}.*)$`)

// roomAfter is a room of a body behind its name: "…, Personalabteilung".
// houseAfter is the house, the floor or the room of a body behind its name.
var houseAfter = matching(`,?\s+(?:Haus|Gebäude|Geb\.|Building|Bldg\.?|Block|Suite|Unit|Bâtiment|Bât\.|Edificio|Gebouw|Zimmer|Raum|Room|Salle|Sala|Floor|Etage|Étage|Planta|Piso|Verdieping|Kamer) (?:\d|\p{Lu}(?:\d|\s|,|$)).*$`)

var roomAfter = matching(`(?i)(?:,|\s[-–—])\s+(?:the )?(?:personal(?:abteilung|wesen|referat)|ausbildungsabteilung|abteilung\s.*|(?:people|training|education|learning|hr|events?|membership|conference|examinations?|certification)\s(?:team|office|department|desk|services?)|human resources|registry|registrar's office|secretariat|geschäftsstelle|sekretariat|service\s(?:formation|du personnel|des ressources humaines|clients)|ressources humaines|recursos humanos|departamento de .*|secretaría|afdeling\s.*|personeelszaken|ledenadministratie|secretariaat)(?:\s(?:te|in|at|à|en|zu)\s(?-i:\p{Lu})\S*)?$`)

// ownOffice is what a body calls the room from which it writes; it is no other body.
var ownOffice = words(`(?:\S+ )?(?:office|secretariat|registry|sekretariat|geschaftsstelle|secretariaat|secretaria|bureau)`)

// bodiesAtHead weighs the lines at the head and the foot of the first page.
func (l *look) bodiesAtHead(add func(at, int, string)) {
	seen := 0
	for i := range l.cells {
		c := &l.cells[i]
		if c.page != l.cells[0].page && !l.isBody(c.text) {
			continue
		}
		if a, ok := l.overStreet(i); ok {
			seen++
			add(a, l.scoreOverStreet(l.text(a), seen), "its address stands behind it")
			continue
		}
		if !wordRE.MatchString(c.text) || l.roleless(i) || l.listsDay(i) || l.midSentence(i) || l.aside(c.passage) || thisPaper.MatchString(fold(c.text)) {
			continue
		}
		if seen == 0 && i+1 < len(l.cells) && l.cells[i+1].page == c.page && (overName(c.text, l.cells[i+1].text) || l.besideName(c.text, l.cells[i+1].text)) {
			continue
		}
		seen++
		a := l.bodyAmong(l.wholePassage(i), l.untilMark(l.wholePassage(i)))
		if m := officeOf.FindStringSubmatchIndex(l.text(a)); m != nil && m[0] < 8 && l.isBody(l.text(a)[m[2]:m[3]]) {
			a = a.within(m[2], m[3]-m[2]) // "The Rector of the University"
		}
		if score, why := l.bodyLine(i, l.text(a), seen); score > 0 {
			if l.slogan(c.text) {
				score = min(score, 50)
			}
			add(a, score, why)
		}
	}
}

// scoreOverStreet weighs a body with its address behind it, the seen-th of the lines.
func (l *look) scoreOverStreet(text string, seen int) int {
	switch {
	case ownOffice.MatchString(fold(text)):
		return 40
	case seen > 1 && len(strings.Fields(text)) == 1:
		return 62 // a room of the body above it
	case seen == 1 || seen < 4 && l.kind != paper.Receipt:
		return 76
	}
	return 66
}

// formOfProof is a heading of what sort a proof is, whatever else its words are used for:
// "Certificaat e-learning".
var formOfProof = matching(`^(?i:certificate|certificat|certificado|certificaat|zertifikat|bescheinigung|bestätigung|attestation|diploma|nachweis|bewijs|verklaring|constancia) \p{Ll}[\p{L}-]+$`)

// bodyLine weighs a line, the seen-th that may be a body, of which cell ci is the begin, and says
// what speaks for it; 0 where nothing does.
func (l *look) bodyLine(ci int, text string, seen int) (score int, why string) {
	c, low := &l.cells[ci], fold(text)
	body := l.isBody(text) && !notBody.MatchString(low)
	name, _, _, _ := person(text)
	if heading.MatchString(low) && (!body || formOfProof.MatchString(text)) || len(strings.Fields(text)) > 10 || salutation.MatchString(text) || l.standing(text) {
		return 0, ""
	}
	if seen == 1 {
		if score, why, ok := l.firstLine(ci, text, body); ok {
			return score, why
		}
	}
	switch {
	case street.MatchString(text) && !body || l.isMessage() && isPersonal(text) && l.overAddress(c.passage): // an address, and who writes
		return 0, ""
	case !body && l.streetOfBlock(ci), courseCode.MatchString(text):
		return 0, ""
	case l.overAddress(c.passage) && !heading.MatchString(low) && (name == "" || !l.isName(name)):
		return 66, "an address stands beneath it"
	case l.kind == paper.Receipt && body && seen <= 6 && l.streetBeneath(c.passage):
		return 68, "an address stands beneath it"
	case seen <= 4 && body:
		return 66, "it stands near the head and is named like an organisation"
	case body && len(strings.Fields(text)) < 9 && ci >= len(l.cells)-4:
		return 52, "it stands at the foot"
	case body && len(strings.Fields(text)) < 9:
		return 40, "it is named like an organisation"
	}
	return 0, ""
}

// firstLine weighs the first of the lines that may be a body; ok is false where it is to be
// weighed as any other.
func (l *look) firstLine(ci int, text string, body bool) (score int, why string, ok bool) {
	const atHead = "it stands at the head"
	c, low := &l.cells[ci], fold(text)
	name, _, to, _ := person(text)
	another := l.out.Values[paper.FieldAttendee].Text != ""
	switch {
	case body:
		return 78, atHead, true
	case !heading.MatchString(low) && len(l.daysIn([]int{ci})) == 0 && roleOf(text) == noRole && l.entered(ci):
		return 78, "its entry in a register stands beneath it", true
	case l.kind == paper.Receipt && len(l.daysIn([]int{ci})) == 0:
		return 66, atHead, true
	case provesHead.MatchString(low) || eventOnly.MatchString(low) || seasonOf.MatchString(low) || roleOf(text) != noRole || len(l.daysIn(l.passages[c.passage].cells)) > 0:
		return 0, "", true
	case len(find.Dates(text, l.langs)) > 0:
		return 0, "", false
	case name != "" && another && (!l.isName(name) || to < len(text) || !l.boxed || c.size*10 > l.bodySize()*11):
		return 67, atHead, true // it looks like a person's name, but the paper is about another
	case name == "" || to < len(text) || !l.boxed || c.size*10 > l.bodySize()*11:
		return 56, atHead, true
	}
	return 0, "", false
}

// entered reports a line at the head with what the one who made the paper is in law in the same
// line or the next, or, on a bill, in the same block: its capital, or its number in a register.
func (l *look) entered(ci int) bool {
	last := 1
	if l.kind == paper.Receipt {
		last = 4
	}
	for i, k := l.cells[ci].passage, 0; i >= 0 && k <= last; i, k = l.nextPassage(i), k+1 {
		text := l.passages[i].text
		if k > 0 && (heading.MatchString(l.folded[i]) || l.passages[i].cells[0] != ci && roleOf(text) == isPerson || strings.HasSuffix(text, ":")) {
			return false
		}
		if inRegister.MatchString(text) {
			return true
		}
	}
	return false
}

// inRegister is what a firm, an association or a charity has to say of itself on its papers.
var inRegister = matching(`(?i:au capital (?:social )?de \d|\bsiret\b|\bsiren\b|n[°º] de déclaration d['’]activité|association (?:régie par la )?loi (?:de )?1901|registered (?:charity|company|office|in (?:england|scotland|wales|ireland|northern ireland))|charity (?:no|number|reg)|company (?:no|number|reg)|vat (?:no|reg|number)|vat:? (?:gb ?)?\d{3} ?\d{3,4}|tva (?:intracom\p{L}*\s?:?\s?)?\p{L}{2} ?\d|amtsgericht \p{L}|vereinsregister|handelsregister|steuer-?(?:nr|nummer)|ust-?id|registro mercantil|ondernemingsnummer|inscrita en el registro)|\b(?:RCS \p{Lu}|HR[AB] \d|VR \d|KvK|BTW[ -]?(?:nr|nummer)|CIF|NIF|RUT|RUC|CUIT|RFC|ABN \d|EIN \d|GSTIN|BCE \d|KBO)\b`)

// streetBeneath reports a line that has a street beneath it and no person above it.
func (l *look) streetBeneath(i int) bool {
	next := l.nextPassage(i)
	if next >= 0 && startsLower(l.passages[next].text) && len(strings.Fields(l.passages[next].text)) < 8 && len(l.passages[next].cells) == 1 {
		next = l.nextPassage(next) // what the body is, beneath its name
	}
	return next >= 0 && streetLine.MatchString(l.passages[next].text) && (i == 0 || !isPersonal(l.passages[i-1].text))
}

// eventOnly is the word for an event, or how it was held, and nothing else.
var eventOnly = matching(`^(?:the |l'|le |la |el |de |het |der |die |das )?(?:` + eventWord + `|e-?learning|self-paced|signature.*|unterschrift.*|firma|handtekening|stempel.*)$`)

// bodiesInFooter finds bodies among the parts of a line that marks part, as at the foot.
func (l *look) bodiesInFooter(add func(at, int, string)) {
	for i, p := range l.passages {
		if chrome(strings.ReplaceAll(p.text, " · ", " | ")) {
			continue
		}
		from := 0
		for part := range strings.SplitSeq(p.text, " · ") {
			switch plain := len(part) < len(p.text) && !strings.ContainsAny(part, ":0123456789@") && capitalised(part) && !officeWord.MatchString(fold(part)); {
			case plain && l.isBody(part):
				add(l.passageAt(i).within(from, len(part)), 54, "it stands in a line of particulars")
			case plain && len(strings.Fields(part)) > 1 && reachBeside(p.text, part) && roleOf(part) == noRole && !l.isName(part):
				score := 60
				if town := part[strings.LastIndexByte(part, ' ')+1:]; len(town) > 3 && strings.Count(p.text, town) > 1 && !isPersonal(part) {
					score = 66 // its name ends with the town of the address
				}
				add(l.passageAt(i).within(from, len(part)), score, "it stands beside an address")
			}
			from += len(part) + len(" · ")
		}
	}
}

// reachBeside reports that right behind or before the part of a line stands an address or a number.
func reachBeside(line, part string) bool {
	parts := strings.Split(line, " · ")
	k := slices.Index(parts, part)
	return k+1 < len(parts) && reachLine(parts[k+1]) || k > 0 && reachLine(parts[k-1])
}

// withoutOffice takes an office off the begin of a body: "Geschäftsstelle, Lernhof e. V.".
func (l *look) withoutOffice(a at) at {
	text := l.text(a)
	office, body, parted := strings.Cut(text, ", ")
	if !parted || len(strings.Fields(office)) > 4 || !(officeWord.MatchString(fold(office)) || boardWord.MatchString(fold(office)) || outsideDesk.MatchString(fold(office))) || bodyWord.MatchString(fold(office)) && !officeFirst.MatchString(fold(office)) || !capitalised(body) || len(strings.Fields(body)) < 2 {
		return a
	}
	return a.within(len(text)-len(body), len(body))
}

// boardWord is a part of a body that signs for it.
var boardWord = words(`prufungsausschuss|prufungskommission|vorstand|examencommissie|board of examiners|examinations? board|comision examinadora|jury|bestuur`)

// bodiesOfBoards finds the body in the line beneath a board of it: "The Examinations Board
// of the" over "Guild of Thatchers".
func (l *look) bodiesOfBoards(add func(at, int, string)) {
	for i, p := range l.passages {
		next := l.nextPassage(i)
		if next < 0 || !ofEnds.MatchString(l.folded[i]) || len(strings.Fields(p.text)) > 9 || !boardWord.MatchString(l.folded[i]) && !officeWord.MatchString(l.folded[i]) {
			continue
		}
		if text := l.passages[next].text; capitalised(text) && len(strings.Fields(text)) < 10 && !l.isName(text) && !ended(text) {
			add(l.untilMark(l.passageAt(next)), 76, "a board of it stands above it")
		}
	}
}

// ofEnds ends in front of the one whose part something is.
var ofEnds = matching(`\s(?:of(?: the)?|de[rs]|du|de la|de l'|del|de|van(?: de| het)?)$`)

// shopName returns the name at the head of a receipt that goes on, in smaller letters, in the
// lines beneath: "MOORBRIGG" over "Rope Museum" over "Bookshop". How far it goes is asked.
func (l *look) shopName() (guess, bool) {
	if l.kind != paper.Receipt || !l.boxed || len(l.cells) < 3 {
		return guess{}, false
	}
	first, size := &l.cells[0], l.cells[1].size
	if size*5 > first.size*4 || l.isBody(first.text) || !l.partOfName(first) || !capitalised(first.text) {
		return guess{}, false
	}
	name := first.text
	for k := 1; k < min(4, len(l.cells)); k++ {
		a, b := &l.cells[k-1], &l.cells[k]
		height := b.box[3] - b.box[1]
		level := abs(b.box[0]-first.box[0]) <= height/2 || abs(b.box[0]+b.box[2]-first.box[0]-first.box[2]) <= height
		if b.page != a.page || !level || b.box[1]-a.box[3] > height || b.box[1] < a.box[3]-height/2 || 10*abs(b.size-size) > size || len(l.rows[b.row]) > 1 || !l.partOfName(b) {
			break
		}
		name += " " + b.text
	}
	if name == first.text || !l.isBody(name) {
		return guess{}, false
	}
	return guess{text: name, at: l.whole(0), score: 70, why: "it fills the lines at the head"}, true
}

// partOfName reports a cell that can be one of several short lines of the name of a body.
func (l *look) partOfName(c *cell) bool {
	return len(strings.Fields(c.text)) < 5 && !hasFigure(c.text) && !noticeOf.MatchString(fold(c.text)) && roleOf(c.text) == noRole && !heading.MatchString(fold(c.text)) && !reachLine(c.text) && !strings.ContainsAny(c.text, ":@,.!?")
}

// overStreet returns the name of a body that has its address behind it in one line.
func (l *look) overStreet(ci int) (at, bool) {
	a := l.whole(ci)
	text := l.text(a)
	name, rest, parted := strings.Cut(text, ", ")
	for _, mark := range []string{" — ", " – "} {
		if first, behind, ok := strings.Cut(text, mark); ok && len(first) < len(name) && l.isBody(first) {
			name, rest, parted = first, behind, true
		}
	}
	if b := beforeAddress(text); len(b) < len(text) && l.isBody(b) && len(strings.Fields(b)) > 1 && !hasFigure(b) && reachLine(text) && !l.labels[ci] && !strings.Contains(b, ":") {
		return a.within(0, len(b)), true // "Akademie Brennhof Seeweg 14, 7099 Churberg"
	}
	if !parted || !reachLine(text) || hasFigure(name) || !l.isBody(name) || !hasFigure(rest) || l.labels[ci] || strings.Contains(name, ":") {
		return a, false
	}
	return l.untilMark(a.within(0, len(name))), true
}

// overAddress reports that the next line is an address.
func (l *look) overAddress(i int) bool {
	next := l.nextPassage(i)
	text := ""
	if next >= 0 {
		text = l.passages[next].text
	}
	return (streetLine.MatchString(text) || reachLine(text) && (i == 0 || 2*i > len(l.passages))) && l.kind != paper.Receipt && len(find.Dates(l.passages[i].text, l.langs)) == 0
}

// roleless reports a cell that cannot be the name of a body: a label, a value with a
// label, part of a table, or a sentence.
func (l *look) roleless(ci int) bool {
	text := l.cells[ci].text
	if l.labels[ci] {
		return true
	}
	r := roleOf(text)
	named := r == isSigner && len(strings.Fields(text)) > 2 // "Moorbrigg Rescue Trainers"
	if r != noRole && !named && !l.isBody(text) || l.inTable(ci) || strings.HasSuffix(text, ":") {
		return true
	}
	if p, ok := l.labelOf(l.whole(ci)); ok && p.role != noRole && p.role != isProvider {
		return true
	}
	return beginsItem(text) || strings.HasSuffix(strings.TrimSpace(text), ".") && len(strings.Fields(text)) > 4 && !legalForm.MatchString(text) && !formAtEnd.MatchString(text) && !pointedForm.MatchString(text)
}

// wholePassage returns the passage of a cell, where the cell begins it; else the cell.
func (l *look) wholePassage(ci int) at {
	p := l.passages[l.cells[ci].passage]
	if p.cells[0] == ci && len(p.text) < 110 {
		return l.passageAt(l.cells[ci].passage)
	}
	return l.whole(ci)
}

var (
	heldBy    = matching(`(?i)(?:` + madeOut + `|organi[sz]ed by|provided by|delivered by|hosted by|held by|run by|conducted by|offered by|sponsored by|employed (?:by|at|with)|member of|veranstaltet von|durchgeführt von|angeboten von|ausgerichtet von|organisée? par|dispensée? par|assurée? par|proposée? par|organizado por|impartido por|organizada por|organiza|georganiseerd door|verzorgd door|gegeven door|from the office of|mitglied (?:der|des|im|in der|beim)|membre de|socio de|lid van|(?:was )?held (?:for (?:the|our) \p{L}+ )?by|held for us by|given by|gegeven door|impartid[oa] por|celebrad[oa] por|donnée? par|animée? par|ausgeführt von|gehalten von|geleitet von|(?:durchgeführt|veranstaltet|gehalten|ausgerichtet) wurde (?:der|die|das) \p{L}+ (?:von|durch))\s+(?-i:the |der |die |das |dem |den |la |le |l['’]|el |het |de )?`)
	endBody   = matching(`[,.;()“„«"]|\s(?:et (?:a |obtenu|dur[ea]|comprenait|comportait|était|validé|réussi|terminé|passé|suivi)|y (?:ha |obtuvo|superó|duró|tuvo|constó|comprendió|fue )|and (?:obtained|passed|scored|completed|earned|received|took|lasted|ran|comprised|consisted|covered|included|carries|carried|was|were|is|had)|und (?:erreicht|bestand|dauerte|umfasste|hatte|war|wurde|lief)|en (?:heeft|behaalde|is|duurde|omvatte|bestond|was))|\s(?:certif|attest|confirm|déclar|bevestig|verklaar|bescheinig|bestätig|hace |hacen |acredit|otorg)\p{L}*\s|\s(?:on|from|in|am|vom|zum|seit|since|and has|has|hat|as|als|als|le|du|el|op|for|für|pour|para|voor|with|dans)\s|\s[·|]\s|\d`)
	legalForm = matching(`,? (?:Inc|Ltd|LLC|Co|Corp|PLC|LLP|GmbH|AG|KG|e\.\s?V|S\.\s?A|S\.\s?L|B\.\s?V|N\.\s?V|SARL|SAS)\b\.?`)
	certifies = matching(`^(?:(?:[Tt]he|[DdLl]a|[Ll]e|[Ll]es|[Ee]l|[Ll]os|[Dd]e|[Hh]et|[Dd]ie|[Dd]er|[Dd]as)\s+|[Ll]['’]\s*)?((?:\p{L}[\p{L}’'.&-]*,?\s+){1,10}?)(?:\([^()]{2,40}\)\s+)?(?:(?:hereby|hiermit|hierbij|hiermee|por la presente|par la présente)\s+)?(?:certif(?:ies|y|ie|ica|ican)|attest(?:s|e|ent)?|confirm(?:s|e)?|déclare|reconnaît|acredita|otorga|concede|hace(?:n)? constar|verklaart|bevestigt|verleent|bescheinigt|bestätigt|verleiht)\s`)
	boardOf   = matching(`^(?:council|board|committee|faculty|management|direction|comité|conseil(?: d['’]administration)?|présidence|secrétariat|junta(?: directiva)?|comité|dirección|secretaría|bestuur|directie|secretariaat|vorstand|leitung|geschäftsführung)\s+(?:of(?: the)?|de la|de l['’]|du|des|del?|van(?: de| het)?|der|des)\s+`)
	fromThe   = matching(`^(?:From|Von|De|Van|Vom|Du)(?: the)? (?:office of |Büro )?(?:the |der |des )?`)
)

// deskOf is a line of the letterhead that names the periodical of those who write.
var deskOf = matching(`^(?:Redaktion|Schriftleitung|Rédaction|La rédaction|Redacción|Redactie|Editorial office|The editors)(?: (?:of|der|des|von|de|du|del|van))? (\p{Lu}[\p{L}’'.& -]{4,60})$`)

// heldByBody holds the subject of such a clause.
var heldByBody = matching(`^,\s(?:que (?:la|el|los|las)|die (?:der|die|das)|dat (?:de|het)|which(?: the)?|that(?: the)?)\s(\p{Lu}[\p{L}’'.& -]{3,70}?)\s` + heldVerb + `(?:\s|$)`)

// bodiesInText finds who held the event by the words of the sentence.
func (l *look) bodiesInText(i int, text string, add func(at, int, string)) {
	whole := l.passageAt(i)
	for _, m := range heldBy.FindAllStringIndex(text, -1) {
		if m[0] == 0 && l.standing(text) {
			continue
		}
		if rest := heldIn(beforeAddress(text[m[1]:])); capitalised(rest) && len(strings.Fields(rest)) > 1 {
			add(whole.within(m[1], len(rest)), l.scoreHeld(text[m[0]:m[1]], rest, m[0] == 0), sentenceSays)
		}
	}
	if m := heldClause.FindString(text); m != "" {
		if in := heldByBody.FindStringSubmatchIndex(m); in != nil {
			if k := strings.Index(text, m); k >= 0 && len(strings.Fields(m[in[2]:in[3]])) > 1 {
				add(whole.within(k+in[2], in[3]-in[2]), 86, sentenceSays)
			}
		}
	}
	if l.kind == paper.Publication {
		if m := deskOf.FindStringSubmatchIndex(text); m != nil {
			add(whole.within(m[2], m[3]-m[2]), 86, "the sentence says where it appears")
		}
		for _, m := range publishedIn.FindAllStringSubmatchIndex(text, -1) {
			add(whole.within(m[2], m[3]-m[2]), 88, "the sentence says where it appears")
		}
	}
	if m := bodyDid.FindStringSubmatchIndex(text); m != nil && l.isBody(text[m[2]:m[3]]) && !officeWord.MatchString(fold(text[m[2]:m[3]])) {
		add(whole.within(m[2], m[3]-m[2]), 66, "the sentence says what it did")
	}
	if m := certifies.FindStringSubmatchIndex(text); m != nil {
		from := m[2]
		if b := boardOf.FindStringIndex(text[from:m[3]]); b != nil {
			from += b[1]
		}
		if body := text[from:m[3]]; len(strings.Fields(body)) > 1 && l.isBody(body) && !officeWord.MatchString(fold(body)) {
			add(whole.within(from, m[3]-from), 80, itCertifies)
		}
	}
	if m := officeOf.FindStringSubmatchIndex(text); m != nil && undersigned.MatchString(fold(text)) {
		body := text[m[2]:m[3]]
		if e := endOffice.FindStringIndex(body); e != nil {
			body = body[:e[0]]
		}
		if n := len(strings.Fields(body)); n > 2 || n > 1 && l.isBody(body) {
			add(whole.within(m[2], len(body)), 78, "who signs is in office there")
		}
	}
	if m := fromThe.FindStringIndex(text); m != nil && l.isBody(text) && len(text) < 100 && !(strings.HasPrefix(text, "Van ") && formAtEnd.MatchString(text)) {
		add(whole.within(m[1], len(text)-m[1]), 82, "it stands at the head")
	}
}

// heldIn returns the name of a body at the begin of rest: up to its legal form, or to what
// cannot be a part of it.
func heldIn(rest string) string {
	form, e := legalForm.FindStringIndex(rest), endBody.FindStringIndex(rest)
	if e == nil || form != nil && form[0] <= e[0] {
		if form != nil {
			return rest[:form[1]]
		}
		return rest
	}
	one, mark, behind := rest[:e[0]], rest[e[0]:e[1]], rest[e[1]:]
	if len(strings.Fields(one)) != 1 || !bodyWord.MatchString(fold(one)) || strings.TrimSpace(mark) == "" || !capitalised(behind) || strings.ContainsAny(mark, ",.;()") {
		return one
	}
	if next := endBody.FindStringIndex(behind); next != nil { // "Instituut voor Waterbeheer"
		return rest[:e[1]+next[0]]
	}
	return rest
}

// scoreHeld weighs a body behind words such as "held by", which may begin their line.
func (l *look) scoreHeld(words, body string, begins bool) int {
	switch {
	case madeBy.MatchString(words):
		if l.isBody(body) && !officeWord.MatchString(fold(body)) && !clerkTo.MatchString(body) {
			return 70
		}
		return 40
	case l.isBody(body):
		return 86
	case ledBy.MatchString(words) && isPersonal(body):
		return 40 // who led it is not who held it
	case begins || !l.isName(body):
		return 72
	}
	return 60
}

// officeOf stands before the body in which the one who signs has an office, and undersigned
// in the sentence in which somebody does.
var (
	officeOf    = matching(`(?i:rector|recteur|rektor(?:in)?|provost|vice-chancellor|directeur|directrice|présidente?|gérante?|responsable|secrétaire(?: générale?)?|directora?|presidenta?|secretari[oa]|gerente|jef[ea] de estudios|rectora?|decan[oa]|hoofd|voorzitter|secretaris|leiter(?:in)?|geschäftsführer(?:in)?|vorsitzende[r]?|head|director|principal|registrar|secretary|president|chair(?:man|woman|person)?|dean|manager)(?: (?i:général|générale|pédagogique|académico|académica|técnico|of studies|of education|of training))?\s(?i:de l['’]|du |de la |des |del |de |von |der |des |van (?:de |het )?|of (?:the )?)(\p{Lu}.{5,90})`)
	endOffice   = matching(`[,;()]|\s(?:certif|attest|confirm|déclar|bevestig|verkla|bescheinig|bestätig|hace|acredit|hiermit|hierbij|hereby|déclare)\p{L}*(?:\s|$)`)
	undersigned = words(`undersigned|soussignee?|(?:abajo firmante|el que suscribe|la que suscribe|quien suscribe)|ondergetekende|(?:der|die) unterzeichnete|als unterzeichn\w+|i,? .{3,60} (?:certify|confirm|declare|state)|ich,? .{3,60} (?:bestatige|bescheinige)|como (?:director|presidente|secretari)[oa]?`)
)

// publishedIn is the name of what a text is published in, which begins with a capital and
// holds small words only between others.
var publishedIn = matching(`(?i:public(?:ation|ación)|publish(?:ed)?|appear(?:ed|s)?|accept(?:ed|ance)|veröffentlichung|erscheint|erschienen|parution|paraître|publiée?|publicad[oa]|publicatie|verschijnt|printed)(?i: for publication)?(?i: in| by| im| dans| en)(?i: the| der| dem| den| die| la| le| el| de| het| our journal,?)? ((?:\p{Lu}[\p{L}’'-]+)(?: (?:(?:of|for|and|the|in|on|für|und|der|des|de|la|le|du|et|en|y|van|voor|&) ){0,2}\p{Lu}[\p{L}’'-]+)+)`)

// bodyDid is a body that a sentence begins with and says something of.
var bodyDid = matching(`(?:^|[.!?] )((?:The |Der |Die |Das )?\p{Lu}[\p{L}’'-]+(?: (?:(?:of|for|and|the|für|und|der|des) ){0,2}\p{Lu}[\p{L}’'-]+){1,5}) (?:has|have|thanks?|is pleased|is happy|was pleased|records?|wishes|hat|dankt|freut)\b`)

// ledBy are the words for who leads a course, which seldom is who holds it.
var ledBy = matching(`(?i)^(?:given by|led by|taught by|donnée? par|animée? par|dispensée? par|assurée? par|impartid[oa] por|gegeven door|verzorgd door|geleitet von|gehalten von)`)

// madeOut are the words for who made the paper out, who may be in any office.
const madeOut = `verified by|stamped by|issued by|awarded by|certified by|recorded by|confirmed by|` + madeOn + `|ausgestellt von|ausgestellt durch|bescheinigt durch|délivrée? par|émise? par|certifiée? par|expedid[oa] por|emitid[oa] por|otorgad[oa] por|uitgereikt door|afgegeven door|toegekend door`

var madeBy = matching(`(?i)^(?:` + madeOut + `)`)

// clerkTo is somebody's office in a body.
var clerkTo = matching(`^\p{L}+ (?:to|of|at|for) the `)

// isPersonal reports a text that is the name of a person and nothing else.
func isPersonal(text string) bool {
	name, _, to, _ := person(text)
	full, _ := nameWords(name)
	return name != "" && to >= len(strings.TrimRight(text, " .,;")) && full > 1 && full < 4
}

// findText returns the first place at which a text stands.
func (l *look) findText(text string) (at, bool) {
	for i, p := range l.passages {
		if k := strings.Index(p.text, text); k >= 0 {
			return at{i, find.Span{From: k, To: k + len(text)}}, true
		}
	}
	return at{}, false
}

// repeated adds to what stands in several places of the paper, and takes from what
// is a title or a person by other signs.
func (l *look) repeated(list []guess) []guess {
	for i := range list {
		key := fold(list[i].text)
		if n := strings.Count(strings.ReplaceAll(l.all, "\n", " "), key); n > 1 && len(key) > 6 {
			list[i].score += min(12, 6*(n-1))
		}
		if heading.MatchString(key) && !l.isBody(list[i].text) {
			list[i].score -= 40
		}
	}
	return slices.DeleteFunc(list, func(g guess) bool { return l.kind == paper.Employment && g.score < 30 })
}
