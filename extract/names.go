package extract

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
	"evidencevault/internal/memo"
)

const (
	honorific = `(?:(?:Mr|Mrs|Ms|Miss|Mx|Dr|Shri|Smt|Engr|Barr|Alhaji|Encik|Puan|Datuk|Prof|Professor|Sir|MR|MRS|MS|DR|Docteur|Docteure|Pr|Mtre|Me|Dra|Profa|Univ|Dipl|M\.A|B\.A|M\.Sc|B\.Sc|Dr\.\s?(?:med|jur|phil|rer\.\s?nat|h\.\s?c)|\(FH\)|\(TU\)|ing|ir|dr|drs|mr|prof|Herrn?|Frau|Hr|Fr|M\.|Mme|MME|Mlle|Madame|Monsieur|Mademoiselle|[Dd]e heer|[Dd]hr|DHR|[Mm]evrouw|[Mm]evr|[Mm]w|Sr|Sra|Srta|Señora?|señora?|Señorita|señorita|[Cc]iudadan[oa]|D\.|Dña|Don|Doña|Ing|Ir|Drs|Mag|Dipl\.-?\s?Ing|Assessor(?:in)?|Advocate|Rechtsanwalt|Rechtsanwältin|Notar(?:in)?|Apotheker(?:in)?|Studienr(?:at|ätin)|Ober(?:arzt|ärztin)|Capt(?:ain)?|Sgt|Sergeant|Cllr|Councillor|Nurse|Sister|Architekt(?:in)?|Dipl\.-?\s?\p{Lu}\p{L}+|Dr\.-Ing|Eng|Rev|HERRN?|FRAU|SRA?|SRTA|D[ÑN]A|DON|DOÑA|DHR|MEVR|MEVROUW|MLLE|MONSIEUR|MADAME|MISS|PROF|ING|Fräulein|profesora?|ingenier[oa]|doctora?|arquitect[oa]|abogad[oa]|licenciad[oa]|Lic|Arq|Abg|Mtr[oa]|apr|lic|arq|arch|dott|cand|stud|abg|psic|enf|tierarzt|dra|Kamerad(?:in)?|Kolleg(?:e|in)|Genoss(?:e|in)|Compañer[oa]|Collega|Confrère|Consœur|Comrade|Colleague|Bro|Doktor(?:in)?|Professorin|Magist(?:er|ra)|Hofr(?:at|ätin)|Doctora?|Docteure?|Maître|Maestr[oa]|Licenciad[oa]|Ingenier[oa]|Meester|Reverend|Father|Pastor(?:in)?|Pfarrer(?:in)?|Major|Colonel|Mag[ae]?|DI|DDI|DDr|MMag|RA(?:in)?)(?:\.|\b)|(?:D\.\s?ª|Dª|D\.a|M\.|D\.|\(FH\)|\(TU\)|don |doña )\.?)`
	nameWord  = `(?:(?:\p{Lu}\.){2,4}|\p{Lu}(?:[\p{L}\x{300}-\x{36f}]|['’]\p{L}|-\p{L})+|\p{Lu}\.(?:-\p{Lu}\.)?)`
	particle  = `(?:ap|ferch|della|degli|dalla|DE(?: LAS?| LOS)?|DEL|LA|VAN(?: DE[RN]?)?|VON(?: DER)?|ZU|DU|LE|TEN|TER|van|der|den|de|von|vom|zu|zum|zur|la|le|di|da|do|dos|du|del|los|las|ten|ter|te|y|i|af|af|el|bin|ibn|’t|'t|d'|op|auf)`
	wholeName = nameWord + `(?:\s+(?:` + particle + `\s+){0,3}(?:[dDtTlL]['’])?` + nameWord + `){0,5}`
)

var (
	titledName = matching(`(?:^|[\s(,])((?:` + honorific + `\s*)+)\s*((?:` + particle + `\s+){0,3}` + wholeName + `)`)
	plainName  = matching(`^((?:` + honorific + `\s*)*)((?:` + particle + `\s+){0,3}` + wholeName + `)`)
	lastFirst  = matching(`^((?:` + particle + `\s+){0,3}` + nameWord + `(?:[\s-]` + nameWord + `)?),\s+(` + wholeName + `(?:\s+` + particle + `){0,2}(?:\s\p{Lu}\.?)?)\s*$`)
	anyName    = matching(wholeName)
	isParticle = matching(`^` + particle + `$`)
	bracketed  = matching(`\((` + wholeName + `)\)`)
	degree     = matching(`(?:,?\s+\(?(?:RN|PhD|Ph\.D\.?|MSc|M\.Sc\.?|BSc|B\.Sc\.?|B\.Eng\.?|M\.Eng\.?|BA|MA|M\.A\.?|B\.A\.?|MBA|CPA|PE|P\.E\.|P\.Eng\.|PEng|MD|M\.D\.|LLM|LL\.M\.|CEng|Esq\.?|Jr\.?|FRCS|BSN|MSN|DNP|LPN|CISSP|ing\.|ir\.)\)?)+$`)
	notName    = words(`\S{3,}(?:prufung|kunde|technik|wesen|schutz|sicherheit|messung|planung)|\S+(?:kurs|lehrgang|seminar|schulung|fortbildung|weiterbildung|workshop|tagung|unterweisung|cursus|opleiding|scholing)|luck|thanks?|welcome|goodbye|certificate|certificat|certificado|certificaat|zertifikat|bescheinigung|bestatigung|attestation|attendance|completion|course|seminar|workshop|training|institute|institut|academy|akademie|school|college|university|society|association|board|center|centre|invoice|receipt|rechnung|facture|factura|factuur|record|transcript|member|membership|street|road|lane|total|january|february|march|april|may|june|july|august|september|october|november|december|januar|februar|marz|mai|juni|juli|oktober|dezember|monday|tuesday|wednesday|thursday|friday|gmbh|ltd|inc|llc|e\. ?v\.|verein|verband|stiftung|stichting|guild|trust|council|department|office|director|secretary|manager|registrar|this|that|the|we|date|name|hours|credit|credits|unit|units|level|module|introduction|advanced|basic|safety|management|department|program|programme|participation|statement|proof|diploma|exam|examination|letter|dear|hello|sincerely|faithfully|regards|congress|conference|congres|kongress|page|seite|hiermit|nous|vous|confirmation|verification|card|carte|lehrgang|schulung|kurs|teilnahme\S*|anwesenheit\S*|prasenz\S*|teilnehmer\S*|learning|study|day|education|professional|development|services|systems|group|team|bewijs|verklaring|cursus|deelname|formation|escuela|colegio|universidad|curso|asistencia|diplome|ecole|technical|national|international|federal|public|health|united|states|kingdom|note|credit|payment|sitzung|protokoll|agenda|employment|workshop|webinar|online|dues|grade|valid|session|lecture|talk|article|die|veranstaltung|fortbildung\S*|urkunde|ubersicht|annals|anales|annales|annahme|beitrags?|montant|betrag|summe|bedrag|importe|ttc|preis|price|prix|ticket|beleg|kasse|signature|unterschrift|programm|vorlaufiges|provisional|preliminary|topic|present|presents|therapy|revista|review|cuadernos|notes on|asbestos|sehr|vielen|wir|unser\w*|nuestr\w*|notre|votre|onze|jaar\S*|sitzung\S*|besprechung|dieses|schreiben|document|documento|brief|copy|certified|original|duplicate|abschrift|kopie|zweitschrift|duplikat|copie|copia|years?|reporting|periods?|number|annee|ano|jahr|parque|poligono|edificio|barrio|colonia|proces-verbal|deliberatie|deliberation|status`)
	afterName  = words(`director|directress|secretary|principal|president|chair\w*|registrar|manager|head|dean|dekan(?:in)?|leit(?:er|erin|ung)|geschafts\w*|vorsitzende\w*|instructor|trainer|facilitator|editor|coordinator|treasurer|personnel|dozent(?:in)?|directeur|directrice|president\w*|secretaire|directora?|secretari[oa]|presidente|voorzitter|secretaris|hoofd|opleidings\w*|redact\w*|responsable|officer|professor|examiner|prufer(?:in)?|administrator|ceo|cpo`)
)

// person reads a name at the begin of text: the name without titles, first name
// first, how many bytes it takes with its titles, and whether a title stood there.
func person(text string) (name string, from, to int, titled bool) {
	n := persons.Of(text, func(text string) named {
		skip := 0
		if m := salutation.FindStringIndex(text); m != nil {
			skip = m[1]
		}
		name, from, to, titled := bareName(text[skip:])
		return named{name, from + skip, to + skip, titled}
	})
	return n.name, n.from, n.to, n.titled
}

// named is what [person] returns.
type named struct {
	name     string
	from, to int
	titled   bool
}

var persons memo.Memo[string, named]

var salutation = matching(`^[\s¡]*(?:(?:Dear|Cher|Chère|Sehr geehrte[rs]?|Liebe[rs]?|Geachte|Beste|Estimad[oa]|Querid[oa]|Hola|Hello|Hi|Hallo|Bonjour|Guten Tag|Congratulations|Bravo|Félicitations|Enhorabuena|Glückwunsch|Gefeliciteerd|Thank you|An|To|Aan|For)[ ,]+)+`)

// addressBehind is a form of address in brackets behind a name: "BRANDT, Olu (Ms)".
var addressBehind = matching(`\s*\((?:Mr|Mrs|Ms|Miss|Mx|Dr|Herr|Frau|M|Mme|Mlle|Sr|Sra|Srta|D|D\.?ª|dhr|mevr|mw)\.?\)$`)

func bareName(text string) (name string, from, to int, titled bool) {
	cut := strings.TrimRight(text, " .,;")
	if initialsEnd.MatchString(cut) && strings.HasPrefix(text[len(cut):], ".") {
		cut += "." // "Vey, A.B."
	}
	if m := addressBehind.FindStringIndex(cut); m != nil && m[0] > 3 {
		cut, titled = cut[:m[0]], true
	}
	for _, after := range []*pattern{degree, lettersAfter} {
		if d := after.FindStringIndex(cut); d != nil && d[0] > 3 && !firstBehind(cut[:d[0]], strings.TrimLeft(cut[d[0]:], ", ")) {
			cut, titled = cut[:d[0]], true
		}
	}
	if k := lettersBehind(cut); k > 0 {
		cut, titled = cut[:k], true
	}
	if name, to := turned(cut); name != "" {
		return name, 0, to, titled
	}
	m := plainName.FindStringSubmatchIndex(cut)
	if m == nil {
		return "", 0, 0, false
	}
	from, to = initialsFrom(cut, m[4]), m[5]
	if rest, ok := strings.CutPrefix(cut[from:to], "Von "); ok && len(strings.Fields(rest)) > 1 {
		from += len("Von ") // "Von Anna Vey haben wir … erhalten"
	}
	if rest, ok := strings.CutPrefix(cut[from:to], "von "); ok && capitalised(rest) && len(strings.Fields(rest)) > 1 && !strings.Contains(rest, ".") {
		from += len("von ") // "von Anna Vey", whose it is
	}
	if k := len(citizen.FindString(cut[from:to])); k > 0 {
		from, titled = from+k, true // "la C. Ana Vey"
	}
	to = nameEndsAt(cut, from, to)
	return cut[from:to], from, to, titled && to == len(cut) || m[3] > m[2] // letters stand right behind the name
}

// lettersAfter are the letters of a body behind the name of its member, which no name
// spells: "Ann Vey MRCVS", "Ann Vey FRICS".
var lettersAfter = matching(`(?:, ?(?:\p{Lu}[\p{L}.]*\p{Lu}[\p{L}.]*))+$|(?:,? (?:[AFLM](?:Inst|Soc|Coll)[A-Z][A-Za-z]{0,3}|[AFLMR]{0,2}[B-DF-HJ-NP-TV-Z]{3,6}|(?:M|F|A)(?:RC|R|C)I?[A-Z][B-DF-HJ-NP-TV-Z]{1,2}))+$`)

// initialsEnd are initials at the end whose last point was taken off; onlyInitials is what
// is nothing else, though a form of address may be spelt like the first of them.
var (
	initialsEnd  = matching(`, (?:\p{Lu}\. ?)+\p{Lu}$`)
	onlyInitials = matching(`^(?:\p{Lu}\. ?)+$`)
	surnameOnly  = matching(`^(?:` + particle + `\s+){0,3}` + nameWord + `$`)
)

// lastInitial is the initial behind a first name.
var lastInitial = matching(` \p{Lu}\.?$`)

// hasSomething is the ending of a name whose bearer has something.
var hasSomething = matching(`['’]s(?: |$)`)

// numberSign is "N.º" and the like, of which a name took the letter for an initial.
var numberSign = matching(`^ \p{Lu}\.? ?[º°ª]`)

// purpose stands behind a name and is no part of it.
var purpose = matching(` zu[rm] (?:Vorlage|Kenntnis|Bestätigung|Verwendung|Weiterleitung|Teilnahme|Aufnahme|Prüfung|Nachweis|Zweck)`)

// citizen is a form of address, with its article, that looks like a particle and an initial.
var citizen = matching(`^(?:la|el) C\.\s+`)

var beforeDen = matching(`(?i)\b(?:van|von|op|in|auf|uit)$`)

func stripTitles(name string) string {
	if m := plainName.FindStringSubmatchIndex(name); m != nil {
		return name[m[4]:m[5]]
	}
	return name
}

// nameWords counts the parts of a name that are more than an initial or a particle.
func nameWords(name string) (full, initials int) {
	for _, w := range strings.Fields(name) {
		switch r := []rune(w); {
		case len(r) <= 2 && strings.HasSuffix(w, "."):
			initials++
		case isParticle.MatchString(w):
		case unicode.IsUpper(r[0]), len(r) > 2 && strings.ContainsRune("dlt", r[0]) && strings.ContainsRune("'’", r[1]) && unicode.IsUpper(r[2]): // "d'Aubert"
			full++
		}
	}
	return full, initials
}

var (
	givenTo     = words(`(?:afgerond|voltooid|behaald|gevolgd|completed|achieved|earned|absolviert|abgeschlossen|realise|suivi|realizado|completado) (?:door|by|von|par|por)|(?:(?:member(?:ship)?|attendance|season|record|study|log) ?)?(?:card|record|sheet|log(?:book)?|passport|account|statement) (?:of|for)|(?:karte|heft|blatt|pass|konto|carte|carnet|livret|fiche|ficha|carne|cartilla|kaart|boekje) (?:von|der|des|de|del|van|fur|pour|para|voor)|(?:the )?(?:attendance|participation|presence) of|die (?:teilnahme|anwesenheit) von|la (?:participation|presence) de|la (?:asistencia|participacion) de|de (?:deelname|aanwezigheid) van|(?:certified|confirmed|recorded|noted) that|conferr?ed (?:up)?on|(?:the )?(?:attendance|participation|presence|completion) (?:of|by)|(?:is |we |to |do )?(?:hereby )?(?:certif\w+|confirm\w*|attest\w*|state\w*|declare\w*)(?: to you)?(?: that)?|certifies that|(?:awarded|presented|issued|granted|given|conferred)(?: up| proudly)?(?:on)? (?:to|upon)|this is to certify that|be it known that|proudly presents? .{0,30} to|received from|payment from|bestatig\w+(?: wir)?(?: hiermit)?,? dass|bescheinig\w+(?: wir)?,? dass|hiermit wird (?:bestatigt|bescheinigt),? dass|wird bestatigt,? dass|verliehen an|ausgestellt fur|uberreicht an|(?:attest\w+|certifi\w+|confirm\w+|soussigne\w*)(?: par la presente)? que|delivree? a|decernee? a|remise? a|recu de|certifica(?:mos)?(?: por la presente)? que|hace(?:mos)? constar que|acredita que|otorgad[oa] a|concedid[oa] a|expedid[oa] a(?: favor de)?|se otorga (?:el presente \w+ )?a|entregad[oa] a|recib\w+ de|verklaart(?: hierbij)?(?: dat)?|verklaren(?: wij)?(?: hierbij)?(?: dat)?|hierbij (?:verklaren wij|wordt verklaard) dat|bevestig\w+(?: wij)?(?: hierbij)?(?: dat)?|uitgereikt aan|toegekend aan|ontvangen van|certified for|signed for|blatt fur|sheet for|congratulations|well done|bravo|you did it|we thank|wir danken|nous remercions|(?:le )?agradecemos a|wij danken|gefeliciteerd|gluckwunsch|felicitations|enhorabuena|thank you|dear|hello|hi|sehr geehrte[rs]?|liebe[rs]?|guten tag|hallo|bonjour|cher|chere|estimad[oa]|hola|querid[oa]|geachte|beste`)
	nameVerb    = words(`^(?:,? (?:rn|ph\.?d\.?|m\.? ?sc\.?|b\.? ?sc\.?|b\.? ?a\.?|m\.? ?a\.?|mba|b\.? ?eng\.?|m\.? ?eng\.?))?(?:,? ?\(?(?:[a-z]+\.? ?(?:no\.?|nr\.?)? ?)?[a-z]{0,4}[-/ ]?\d[\w/.-]*\b\)?,?)?(?:,? (?:born|geboren|geb\.|nee?|nacid[oa]|geboren op)[^,]{0,50},?)? ?(?:has|have|attended|participated|was|is|took|completed|passed|gave|presented|delivered|joined|taught|hat|war|ist|nahm|besuchte|hielt|a suivi|a participe|a assiste|a|est|asistio|ha|es|participo|impartio|heeft|is|was|gaf|nam|volgde|satisf\w+|successfully|of .{3,40} (?:attended|has)|wurde|wird|trabaja|presta|travaille|travaillait|arbeitet|werkt|rondde|came|spent|served|vint|kwam|acudio|acude|stayed|beendete|absolvierte|schloss|supero|aprobo|completo|finalizo|reussit|finished|worked|followed|led|forma parte|fait partie|works?|sat|works for|assure|intervient|erhielt|recibio|ontving|received|haben wir)`)
	numberAfter = words(`^ ?[,(·–-]? ?(?:staff|member|membership|employee|licen[cs]e|student|id|reg\w*|candidate|badge|no|nr|matr\w*|mitglied\w*|personal\w*|lid\w*|socio|n°|born|geb|dni|nif|rn)`)
)

// noName reports a text that is not the name of a person, whatever it looks like.
func (l *look) noName(name string) bool {
	low := fold(name)
	first, _, more := strings.Cut(low, " ")
	return onlyPointed.MatchString(name) || saysSo.MatchString(low) || more && noFirst.MatchString(first) || utf8.RuneCountInString(name) < 3 ||
		notName.MatchString(strings.ReplaceAll(low, "-", "")) || l.isBody(name) && !surnameOfHouse(name) || outsideDesk.MatchString(low) // "Haldane-Price" is a name, though a price is none
}

// sentTo says that a name is that of the message's receiver.
const sentTo = "the message was sent to this name"

// sentToGreeted says that its first line greets that name besides.
const sentToGreeted = "the message was sent to this name and greets it"

// greeted returns where a message greets somebody by the surname or the first name of a name.
func (l *look) greeted(name string) (at, bool) {
	words := strings.Fields(fold(name))
	for i := range min(6, len(l.passages)) {
		text := l.passages[i].text
		m := salutation.FindStringIndex(text)
		if m == nil {
			continue
		}
		greeting := strings.TrimRight(strings.TrimSpace(text), ",:;!. ")
		if end := greetingEnd.FindStringIndex(text[m[1]:]); end != nil {
			greeting = text[:m[1]+end[0]]
		}
		spoken := strings.Fields(fold(greeting))
		last := strings.Trim(spoken[len(spoken)-1], ",")
		if len(spoken) < 7 && (last == words[0] || last == words[len(words)-1] || slices.Contains(strings.Split(words[len(words)-1], "-"), last)) && len(last) > 2 {
			return l.passageAt(i).within(0, len(greeting)), true
		}
	}
	return at{}, false
}

// greetingEnd ends a greeting.
var greetingEnd = matching(`[,:;!]|\s[–-]\s`)

// findAttendee collects who the paper may be about.
func (l *look) findAttendee() []guess {
	var list []guess
	add := func(a at, name string, score int, why string) {
		if g, ok := l.nameGuess(a, name, score, why); ok {
			list = append(list, g)
		}
	}
	l.namesByLabel(add)
	if len(l.withRole(isPerson)) == 0 {
		l.namedAsWhat(add)
	}
	for i, p := range l.passages {
		l.namesInText(i, p.text, add)
	}
	l.namesAlone(add)
	l.namesByPlace(add)
	l.namesOfThings(add)
	if l.kind == paper.Publication {
		l.authors(add)
	}
	if m := l.doc.Mail; m != nil && l.isMessage() {
		if name, _, _, _ := person(strings.Trim(strings.Split(m.To, "<")[0], ` "'`)); name != "" && len(l.passages) > 0 {
			g := guess{text: name, at: at{0, l.passageAt(0).span}, score: 45, why: sentTo, sure: false}
			if a, ok := l.greeted(name); ok && isPersonal(name) && !slices.ContainsFunc(list, func(o guess) bool { return o.score >= 76 && !samePerson(o.text, name) }) {
				g = guess{text: name, at: a, score: 86, why: sentToGreeted, sure: true}
			}
			list = append(list, g)
		}
	}
	if l.kind == paper.Receipt {
		list = slices.DeleteFunc(list, func(g guess) bool { return g.score < 58 })
	}
	return l.withoutCrowd(oneOfSeveral(preferFull(list)))
}

// nameGuess makes a guess of a name at a, with less to speak for it where it is not all of a
// name or that of who signs; ok is false where it is no name.
func (l *look) nameGuess(a at, name string, score int, why string) (g guess, ok bool) {
	a, name = l.withoutRest(a, name)
	full, initials := nameWords(name)
	if full == 0 || l.noName(name) || l.nameOfFirm(a) || a.passage < 2 && score < 60 && allCaps(name) && why == aloneOnLine && len(l.passages) > 6 {
		return guess{}, false // or the head of the paper
	}
	switch {
	case full == 1 && initials > 0 && endsAddress.MatchString(l.passages[a.passage].text[:a.span.From]):
		score -= 8 // "Dhr. W. Terpsma": in some countries that is how one is written to
	case full == 1 && initials > 0 && strings.HasPrefix(why, "it stands with the label"):
	case full == 1 && initials > 0:
		score -= 40
	case full == 1:
		score -= 15
	}
	if l.closing.signs[a.passage] && score < 90 && !l.taughtAtHead(a) {
		score -= 60
	}
	if p, ok := l.labelOf(a); ok && (p.role == isSigner && l.kind != paper.Instruction || l.wroteCourse(p)) || l.inSignerColumn(a) {
		score = min(score, 30)
	}
	if l.withWhom(a) || l.callingOf(a.passage) {
		score = min(score, 30)
	}
	after := fold(head(l.passages[a.passage].text[a.span.To:], 50))
	if afterName.MatchString(head(after, 32)) && score < 80 {
		score -= 40
	}
	runsOver := full > 2 && strings.HasPrefix(why, "the sentence") && after != "" && !nameVerb.MatchString(after) && after[0] == ' '
	return guess{text: name, at: a, score: score, why: why, sure: score >= 65 && full > 1 && full < 5 && !runsOver}, true
}

// taughtAtHead reports the value of a label for who taught, in the upper part of a paper that proves
// that somebody did: it looks like the line of who signs.
func (l *look) taughtAtHead(a at) bool {
	p, ok := l.labelOf(a)
	return ok && p.role == isSigner && l.kind == paper.Instruction && teachWords.MatchString(p.label) && 2*a.passage < len(l.passages)
}

// authors finds the name right beneath the heading of a published text, alone or with a
// place or a body behind it.
func (l *look) authors(add func(at, string, int, string)) {
	size := 0
	for i := range l.cells {
		size = max(size, l.cells[i].size)
	}
	for i := range l.cells {
		if !l.boxed || l.cells[i].size < size || l.cells[i].size*10 < l.usual*11 || l.cells[i].page != l.cells[0].page {
			continue
		}
		for next := l.cells[i].passage + 1; next < min(l.cells[i].passage+4, len(l.passages)); next++ {
			text := l.passages[next].text
			first, _, _ := strings.Cut(text, ",")
			name, from, to, _ := person(first)
			rest := strings.TrimLeft(text[to:], " *†¹1")
			if full, _ := nameWords(name); full > 1 && !strings.HasSuffix(text, ".") && len(text) < 90 && (rest == "" || strings.HasPrefix(rest, ",") || strings.HasPrefix(rest, "(")) {
				add(l.passageAt(next).within(from, to-from), name, 78, "it stands beneath the heading")
				return
			}
		}
	}
}

// inSignerColumn reports a name in the column of a list that is headed as that of teachers.
func (l *look) inSignerColumn(a at) bool {
	ci := l.cellAt(a)
	return slices.ContainsFunc(l.tables, func(t table) bool {
		k := slices.Index(t.roles, isSigner)
		return k >= 0 && slices.ContainsFunc(t.lines, func(line [][]int) bool { return slices.Contains(line[k], ci) })
	}) || l.beneathLeader(ci)
}

// namedAsWhat takes "Firefighter: Ann Vey" for the person where no label that is known
// stands with one.
func (l *look) namedAsWhat(add func(at, string, int, string)) {
	var found []pair
	for _, p := range l.pairs {
		if p.role != noRole || len(strings.Fields(p.label)) > 2 || l.closing.signs[p.value.passage] || awayStem.MatchString(p.label) || otherPerson.MatchString(p.label) {
			continue
		}
		text := l.nameText(p)
		name, _, to, _ := person(text)
		full, _ := nameWords(name)
		if rest := strings.Trim(text[to:], " ."); full > 1 && (rest == "" || strings.HasPrefix(rest, ",")) {
			found = append(found, p)
		}
	}
	for _, p := range found {
		name, from, to, _ := person(l.nameText(p))
		score := 68
		if len(found) == 1 && 2*p.value.passage < len(l.passages) && (jobWord.MatchString(p.label) || l.numberGoesWith(p)) {
			score = 76
		}
		add(p.value.within(from, to-from), name, score, "it stands with the label "+quoted(p.label))
	}
}

// numberGoesWith reports that the number by which somebody is registered stands right behind or
// beneath the value of a label: the label is for whose paper it is.
func (l *look) numberGoesWith(p pair) bool {
	i := p.value.passage
	rest := l.text(p.value)[len(l.nameText(p)):]
	if low := fold(strings.TrimLeft(rest, " ,;·|")); registered.MatchString(low) && !otherNumber.MatchString(head(low, 24)) {
		return true
	}
	next := l.nextPassage(l.lastOfRow(i))
	return next >= 0 && registered.MatchString(head(l.rowFolded(next), 60)) && !otherNumber.MatchString(head(l.rowFolded(next), 24))
}

// lastOfRow returns the passage with which the row of passage i ends.
func (l *look) lastOfRow(i int) int {
	cells := l.passages[i].cells
	row := l.rows[l.cells[cells[len(cells)-1]].row]
	return max(i, l.cells[row[len(row)-1]].passage)
}

// rowFolded returns passage i with what stands behind it in its row, folded.
func (l *look) rowFolded(i int) string {
	return fold(l.rowText(l.passages[i].cells[0]))
}

// noFirst are words that begin a sentence rather than a name.
var noFirst = matching(`^(?:que|dass|dat|that|qu'|bravo|der|die|das|dem|den|des|ein|eine|dies(?:e[rsmn]?)?|cett?e|cet|est[ae]|deze|dit|these|those|in|im|am|zu|zur|zum|fur|vom|bei|mit|nach|unser|unsere|ihre?|the|this|an|on|at|by|for|from|with|your|our|some|all)$`)

// secondLabel is a label without a colon behind a name.
var secondLabel = matching(`\s+(?i:(?:member(?:ship)?|licen[cs]e|staff|student|employee|registration|reg\.?|candidate|payroll|id|mitglieds?|personal|matrikel|kunden)[\s-]?(?:no\.?|nr\.?|number|nummer|id|#)|n[°º]|nr\.|no\.|dni|born|geb\.)\s?:?\s?\S*\d.*$`)

// nextLabel is a label of one word with its value behind a name, and restOfLabel the second
// word of one.
var (
	nextLabel   = matching(`\s+\p{Lu}[\p{L}-]+:(?:\s.*)?$`)
	restOfLabel = matching(`^\s*\p{Ll}+\.?:`)
)

// paidForLabel are labels that on a receipt stand before what was paid for as often as before who did.
var paidForLabel = map[string]bool{"for": true, "fur": true, "pour": true, "por": true, "para": true, "voor": true}

// holdsName reports a label whose value begins with a name of two parts.
func (l *look) holdsName(p pair) bool {
	name, _, _, _ := person(l.text(p.value))
	full, _ := nameWords(name)
	return full > 1
}

// otherPerson is a label for somebody whom the paper is not about.
var otherPerson = stems(`apolog|absent|entschuld|excus|witness|zeug|betreu|superv|mentor|kontakt|guest|chair|vorsitz|gez|inh|owner|manager|leit|unterweis|ausbild|assess|pruf|approv|check|audit|verant|akkoord|gezien|goedgek|toezicht|agreed|authori[sz]|sanction|verif|valid|seen by|counter|einverst|genehm|freigeg|gesehen|visto|conform|autoriz|aprob|accord|approuv|\bvisa\b|vise par|\bvocal|jury|jurad|juror|tribunal|beisitz|assesseur|bijzitt|panel|presid|secret|direct|dekan|decan|doyen|\bdean\b|respons|coordin|koordin|leader|\bhost|compiled|prepared by|issued by|recorded by|clerk|erstellt|ausgestellt von|etabli par|elabor|opgesteld|opgemaakt|served|bedient|servi par|atendid|bediend|cashier|kassier|caissi|cajer|copy|\bcc\b`)

// nameText returns the value of a label for a person up to the next label in its line.
func (l *look) nameText(p pair) string {
	text := l.text(p.value)
	if m := guildNumber.FindStringSubmatchIndex(text); m != nil {
		text = strings.TrimRight(text[:m[2]], " ,") // "Member: Ann Vey Guild no. 118"
	}
	if m := secondLabel.FindStringIndex(text); m != nil && m[0] > 3 {
		text = text[:m[0]] // "Name: Ann Vey Membership no. 77120"
	}
	if m := nextLabel.FindStringIndex(text); m != nil && m[0] > 3 {
		text = text[:m[0]] // "Name: Vey, Ann Station: Lathe 3"
	}
	if m := wordNumber.FindStringSubmatchIndex(text); m != nil {
		text = strings.TrimRight(text[:m[2]], " ") // "Nurse: Ann Vey Registrant 118"
	}
	if k := strings.LastIndexByte(text, ' '); k > 0 && restOfLabel.MatchString(l.passages[p.value.passage].text[p.value.span.To:]) && len(strings.Fields(text)) > 2 {
		text = text[:k] // "Holder: Ann Vey Guild number: 20"
	}
	return text
}

func (l *look) namesByLabel(add func(at, string, int, string)) {
	for _, p := range l.pairs {
		score := 92
		switch {
		case p.role == isPerson:
		case p.role == isStart && l.kind == paper.Receipt && isPersonal(l.text(p.value)):
			score = 90 // "von: Anna Vey" on a receipt
		case p.role == isSigner && l.kind == paper.Instruction && teachWords.MatchString(p.label) && len(l.withRole(isPerson)) == 0:
			score = 88
		case p.role == isPresent && !strings.ContainsAny(l.text(p.value), ",;"):
			score = 80
		case p.role == isEnd && p.label == "to" || p.role == isTitle && p.label == "for" || p.role == isAward || p.role == isIssue && strings.HasSuffix(p.label, "to"):
			score = 80
		default:
			continue
		}
		text := l.nameText(p)
		name, from, to, titled := person(strings.TrimLeft(text, " "))
		if first := l.restOfName(p); first != "" {
			name = first + " " + name
			if second := l.partByLabel(secondSurname); surnameOnly.MatchString(second) {
				name += " " + second
			}
		}
		switch {
		case l.listBeneath(p), secondSurname.MatchString(p.label) && len(l.withRole(isPerson)) > 1:
			continue
		case onlyFirst.MatchString(p.label) && l.surnameKnown(p):
			continue
		case onlyFirst.MatchString(p.label):
			score = 48 // the surname stands somewhere else
		}
		if full, _ := nameWords(name); full < 2 && !titled && score > 80 {
			score = 72
		}
		if p.how == beneath && !titled {
			score -= 6
		}
		if l.kind == paper.Receipt && (p.label == "name" || p.label == "an" || p.label == "for") {
			score -= 5
			if paidForLabel[p.label] && slices.ContainsFunc(l.withRole(isPerson, isStart), func(o pair) bool { return !paidForLabel[o.label] && l.holdsName(o) }) {
				continue // what was paid for: somebody else is named as who paid
			}
		}
		add(p.value.within(from, to-from), name, score, "it stands with the label "+quoted(p.label))
	}
	l.namesInLists(add)
}

// namesInLists takes the only name in the column of a list that asks for persons.
func (l *look) namesInLists(add func(at, string, int, string)) {
	for _, t := range l.tables {
		for k, r := range t.roles {
			if r != isPerson || len(t.lines) != 1 || len(t.lines[0][k]) == 0 {
				continue
			}
			a := l.whole(t.lines[0][k][0])
			name, _, _, _ := person(l.text(a))
			add(a, name, 75, "it is the only name in the list")
		}
	}
}

// namesInText finds names by the words before and after them.
func (l *look) namesInText(i int, text string, add func(at, string, int, string)) {
	whole := l.passageAt(i)
	l.namesWithTitles(whole, text, add)
	l.namesGiven(whole, text, add)
	for _, m := range bracketed.FindAllStringSubmatchIndex(text, -1) {
		if full, _ := nameWords(text[m[2]:m[3]]); full > 1 {
			add(whole.within(m[2], m[3]-m[2]), text[m[2]:m[3]], 50, "the name stands in brackets")
		}
	}
	for _, m := range anyName.FindAllStringIndex(text, -1) {
		name, from, to, _ := person(text[m[0]:m[1]])
		if full, _ := nameWords(name); m[0] > 0 && full > 1 && (didBehind(text[m[1]:]) || m[1] == len(text) && l.didNext(i)) {
			add(whole.within(m[0]+from, to-from), name, 76, "the sentence says what this person did")
		}
	}
	if name, a, b, _ := person(text); name != "" {
		after := fold(head(text[b:], 90))
		full, _ := nameWords(name)
		switch {
		case full > 1 && nameVerb.MatchString(after):
			add(whole.within(a, b-a), name, 84, "the sentence says what this person did")
		case full > 1 && callingNumber.MatchString(after):
			add(whole.within(a, b-a), name, 90, "a number of registration stands with it")
		case full > 1 && numberAfter.MatchString(after):
			add(whole.within(a, b-a), name, 74, "a number of registration stands with it")
		}
	}
}

// namesWithTitles finds names with a form of address before them.
func (l *look) namesWithTitles(whole at, text string, add func(at, string, int, string)) {
	for _, m := range titledName.FindAllStringSubmatchIndex(text, -1) {
		if address := strings.TrimSpace(text[m[2]:m[3]]); (address == "M." || address == "D.") && (l.lang == find.English || l.lang == find.German || l.lang == find.Dutch) {
			continue // an initial
		}
		m[4], m[5] = nameWithin(text, m[4], m[5])
		before := fold(tail(text[:m[2]], 80))
		score := 62
		switch {
		case lastMatch(givenTo, before+" ") >= len(before)-3:
			score = 86
		case didBehind(text[m[5]:]):
			score = 84
		case strings.TrimSpace(before) == "" || l.kind == paper.Receipt:
			score = 66
		}
		if signedBefore.MatchString(before + " ") {
			score -= 45
		}
		if k := purpose.FindStringIndex(text[m[4]:m[5]]); k != nil {
			m[5] = m[4] + k[0]
			if copyFor.MatchString(before) {
				score = 96 // a surname alone, but the paper was made for this person
			}
		}
		add(whole.within(m[4], m[5]-m[4]), text[m[4]:m[5]], score, "it stands with a form of address")
	}
}

// namesGiven finds the names behind words that give the paper to somebody.
func (l *look) namesGiven(whole at, text string, add func(at, string, int, string)) {
	for k := 0; k < len(text); {
		m := givenPhrase.FindStringIndex(text[k:])
		if m == nil {
			break
		}
		from := k + m[1]
		if k := len(citizen.FindString(text[from:])); k > 0 {
			from += k
		} else {
			from += calledAs(text, from)
		}
		name, a, b, titled := person(text[from:])
		if full, _ := nameWords(name); full > 1 || titled {
			add(whole.within(from+a, b-a), trimVerb(name), 88, "the sentence names this person")
		}
		k += m[0] + 1
	}
	for _, m := range certificateFor.FindAllStringIndex(text, -1) {
		if name, a, b, titled := person(text[m[1]:]); len(strings.Fields(name)) > 1 || titled {
			add(whole.within(m[1]+a, b-a), name, 88, "the paper is made out for this person")
		}
	}
}

// didNext reports that the line after passage i goes on with what somebody did.
func (l *look) didNext(i int) bool {
	next := l.nextPassage(i)
	return next >= 0 && startsLower(l.passages[next].text) && nameVerb.MatchString(" "+fold(head(l.passages[next].text, 80)))
}

// certificateFor stands before the one for whom a paper was made out.
var certificateFor = matching(`(?i)(?:^|\s)(?:certificate|record|statement|confirmation|extract|copy|proof|zertifikat|bescheinigung|nachweis|bestätigung|certificat|attestation|certificado|constancia|certificaat|bewijs|verklaring)(?: (?:of|der) \p{L}+)? (?:for|für|pour|para|voor)(?: the (?:author|member|holder|participant))?\s+`)

// copyFor stands before the one for whom a copy was made.
var copyFor = matching(`(?:^|\s)(?:fur|for|pour|para|voor)\s*$`)

var (
	signedBefore = words(`signed(?: by)?|by|gez\.|gezeichnet|signe par|firmado por|getekend door|instructor|trainer|lecturer|facilitator|sincerely|regards|faithfully|grussen|referent(?:in)?|dozent(?:in)?|leitung|formateur|ponente|docente|docent|contact`)
	givenPhrase  = matching(`(?i)(?:^|[\s(,.;:¡„“"'’«])(?:(?:wir haben|ich habe|haben wir|habe ich)(?: heute| am \S+)? von|(?:wij hebben|ik heb|hebben wij)(?: heden)? van|(?:attended|completed|earned|achieved|passed) by|(?:besucht|absolviert|abgeschlossen|bestanden|erworben) von|(?:suivie?|terminée?|réussie?|obtenue?) par|(?:cursad|superad|realizad|completad|aprobad)[oa] por|(?:gevolgd|afgerond|behaald|voltooid) door|op naam van|ten name van|ten behoeve van|a nombre de|auf den namen(?: von)?|in the name of|(?:établie?|émise?|attestation|certificat) au nom de|de autoría de|aus der feder von|(?:received|erhielten|erhalten|ontvingen|ontvangen|reçu|recibimos|recibido|recibió|recibí)(?:,? (?:with (?:many |our )?thanks|gratefully|today|this day|dankend|heute|ce jour|avec (?:nos )?remerciements|con agradecimiento|hoy|en efectivo|in cash|by card|in bar|en espèces|contant|per pin|in dank|met dank|heden),?)?(?: (?:the sum of|den betrag von|la somme de|la cantidad de|het bedrag van))?(?: \S*\d\S*(?: (?:EUR|GBP|USD|€|\d\S*))*)? (?:from|von|van|de)|(?:certified|confirmed|recorded|noted) that|wir bestätigen|wij danken|we thank|nous remercions|made (?:out )?for|prepared for|(?:state|states|declare|declares|verify|verifies|record|acknowledge) that|attendance by|presence of|certif(?:y|ies) that|confirm(?:s)? that|attest(?:s)? that|certified for|attendance of|participation of|Teilnahme von|Anwesenheit von|présence de|participation de|asistencia de|participación de|deelname van|aanwezigheid van|awarded to|presented to|issued to|supplied to|handed to|ausgehändigt an|verstrekt aan|facilitad[oa] a|granted to|conferred (?:up)?on|received from|payment from|certify|you did it,|well done,|congratulations,?|bravo,?|enhorabuena,?|felicidades,?|félicitations,?|gefeliciteerd,?|thank you,|hello,?|hi|dear|,? dass|attestons que|certifions que|certifie que|atteste que|délivrée? à|décernée? à|reçu de|que|overwegende dat|considérant que|considerando que|otorgad[oa] a|otorga(?:n|mos)?(?: (?:la|el) presente \p{L}+)? a(?:l| la| el)?|concedid[oa] a|concede(?:n)?(?: (?:la|el) presente \p{L}+)? a|confiere(?:n)?(?: (?:la|el) presente \p{L}+)? a|se (?:expide|extiende|entrega) a(?: favor de)?|remis à|délivrons à|verleend aan|verleent aan|toegekend aan|overhandigd aan|expedid[oa] a(?: favor de)?|entregad[oa] a|recibí de|recibido de|verklaart dat|verklaren dat|verklaren wij dat|verklaard dat|uitgereikt aan|bevestigen dat|bevestigen wij dat|ontvangen van|hallo|liebe[r]?|guten tag|estimad[oa](?:/[ao])?|cher(?:/chère)?|chère|bonjour|sehr geehrte[rs]?|geachte|beste|(?:extract|copy|sheet) for|(?:auszug|kopie|abschrift|blatt) für|(?:extrait|copie|exemplaire) (?:pour|de)|(?:copia|extracto|ejemplar) (?:para|de)|(?:afschrift|kopie|uittreksel|exemplaar) voor|damen und herren,|madame, monsieur,|sir or madam,|señores?,|heer, mevrouw,|heer/mevrouw|quittieren|bestätigt:|certified:|hola|querid[oa]|(?:manuscript|article|paper|manuskript|beitrag|artikel|artikels|manuscrit|artículo|manuscrito|bijdrage)s? (?:of|by|von|de|van|del?|par|por|door)|blatt für:?|ausgestellt für|verliehen an|überreicht an)\s+`)
)

// trimVerb is for names that run into a capitalised word; they seldom do.
func trimVerb(name string) string { return strings.TrimRight(name, " ,.") }

// namesAlone finds names that fill a line, the more so when it is large or follows
// words that give the paper to somebody.
func (l *look) namesAlone(add func(at, string, int, string)) {
	size := l.bodySize()
	for i := range l.cells {
		c := &l.cells[i]
		name, from, to, titled := person(c.text)
		rest := strings.Trim(c.text[to:], " .,;")
		if name == "" || rest != "" && !degree.MatchString(" "+rest) && !titled && !nameFirst(c.text) {
			continue
		}
		full, initials := nameWords(name)
		if full < 2 && !titled || full > 4 || l.inTable(i) || l.labels[i] {
			continue
		}
		score := 38
		if initials > 0 && full < 2 && !titled || officeLine(name) || l.amongCapitals(i) {
			continue
		}
		if p, ok := l.labelOf(l.whole(i)); ok && (p.role == isTitle || p.role == isEvent) && p.label != "for" {
			continue // the line is what another label asks for
		}
		if l.boxed && c.size*10 >= size*12 {
			score += 16
		}
		if l.kind == paper.Receipt && l.addressed(i) {
			score = 66
			if full > 1 && l.soleAddress(i) {
				score = 74
			}
			if before := l.before(i); full > 1 && before >= 0 && billedTo.MatchString(fold(l.cells[before].text)) {
				score = 86
			}
		}
		score, why := l.scoreByNeighbours(i, full, score), aloneOnLine
		if score < 88 && full > 1 && l.numberBeneath(i) {
			score, why = 90, numberUnder
		}
		add(l.whole(i).within(from, to-from), name, score, why)
	}
}

// aloneOnLine says of a name that the paper shows it by itself.
const aloneOnLine = "the name stands on a line of its own"

// scoreByNeighbours weighs a name that fills a line, of so many words, by the lines before and
// after it; score is what it has without them.
func (l *look) scoreByNeighbours(ci, full, score int) int {
	if before := l.before(ci); before >= 0 && closesLetter(l.cells[before].text) {
		score = 20
	} else if before >= 0 {
		text := fold(l.cells[before].text)
		if onlyTitles.MatchString(l.cells[before].text) {
			score = 84
		}
		if provesHead.MatchString(text) && len(strings.Fields(text)) < 5 && full > 1 && l.boxed && l.kind != paper.Receipt {
			score = max(score, 76) // right beneath the heading
		}
		if lastMatch(givenTo, text+" ") >= max(1, len(text)-2) || toOur.MatchString(text) || thatEnds.MatchString(text) || givesEnd.MatchString(text) {
			score = 88
		}
	}
	if next := l.after(ci); next >= 0 && score < 80 && (nameVerb.MatchString(" "+fold(l.cells[next].text)) || l.saidBeneath(next)) {
		score = 78
	}
	return score
}

// toOur is a line that gives the paper to the one beneath it by what they are to the body.
var toOur = matching(`^(?:to|an|a|aan) (?:our|unser\w*|notre|nos|nuestr\w+|onze?) \S+(?: \S+)?$`)

// amongCapitals reports one of several texts in small capitals above what they ask for, as
// the fields of a form have them: whatever it looks like, it is one of these.
func (l *look) amongCapitals(ci int) bool {
	c := &l.cells[ci]
	if !l.boxed || !allCaps(c.text) || c.size > l.bodySize() {
		return false
	}
	n := 0
	for i := range l.cells {
		o := &l.cells[i]
		below := l.below(o.row, i)
		if i != ci && o.page == c.page && o.size == c.size && allCaps(o.text) && below >= 0 && l.cells[below].size > c.size {
			n++
		}
	}
	return n >= 3
}

// onlyTitles is a line that holds nothing but a form of address or degrees.
var onlyTitles = matching(`^(?:` + honorific + `\s*)+$`)

// addressed reports that an address stands beneath a name.
func (l *look) addressed(ci int) bool {
	below := l.below(l.cells[ci].row, ci)
	if below < 0 || !l.boxed {
		below = l.after(ci)
	}
	return below >= 0 && street.MatchString(l.cells[below].text) && len(find.Dates(l.cells[below].text, nil)) == 0 && len(find.Amounts(l.cells[below].text, nil)) == 0
}

// soleAddress reports that of all lines of the paper ci alone has an address beneath it,
// so that a bill can have gone to nobody else.
func (l *look) soleAddress(ci int) bool {
	for i := range l.cells {
		if i != ci && l.addressed(i) {
			return false
		}
	}
	return true
}

// street is a street with its number and nothing else, or begins like one.
var street = matching(`^\p{Lu}[\p{L}.'’ -]+ \d{1,4}\s?[a-z]?$|^\d{1,4}[a-z]?,? \p{Lu}[\p{L}.'’ -]+$|^(?:rue|calle|avenue) `)

// before returns the cell of the row above that is nearest, or -1.
func (s *sheet) before(ci int) int {
	for r := s.cells[ci].row - 1; r >= 0; r-- {
		if len(s.rows[r]) > 0 {
			return s.rows[r][len(s.rows[r])-1]
		}
	}
	return -1
}

// after returns the first cell of the next row, or -1.
func (s *sheet) after(ci int) int {
	for r := s.cells[ci].row + 1; r < len(s.rows); r++ {
		if len(s.rows[r]) > 0 {
			return s.rows[r][0]
		}
	}
	return -1
}

// preferFull takes a surname alone, or with an initial, for the full name that has it.
func preferFull(list []guess) []guess {
	for i, g := range list {
		full, _ := nameWords(g.text)
		for _, o := range list {
			if full > 1 && o.score < 60 && o.why != sentTo {
				continue // a place with a comma before it is no first name
			}
			if o.score > 20 && len(o.text) > len(g.text) && (strings.HasSuffix(" "+fold(o.text), " "+fold(g.text)) || partOfDouble(g.text, o.text) || abbreviated(g.text, o.text)) {
				list[i].text, list[i].at = o.text, o.at
				list[i].score = max(list[i].score, o.score)
			}
		}
	}
	return list
}

// partOfDouble reports that a is one of the two surnames of b, which a hyphen joins.
func partOfDouble(a, b string) bool {
	last := b[strings.LastIndexByte(b, ' ')+1:]
	x, y, double := strings.Cut(fold(last), "-")
	return double && last != b && (fold(a) == x || fold(a) == y)
}

// abbreviated reports that a is b with an initial for the first name: "F. Hendriks".
func abbreviated(a, b string) bool {
	pa, pb := strings.Fields(fold(a)), strings.Fields(fold(b))
	return len(pa) > 1 && len(pb) > 1 && strings.HasSuffix(pa[0], ".") && strings.HasPrefix(pb[0], pa[0][:1]) && pa[len(pa)-1] == pb[len(pb)-1]
}

func quoted(text string) string { return "“" + text + "”" }
