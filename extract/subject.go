package extract

import (
	"slices"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

var (
	asPosition    = matching(`(?:(?:(?:^|[\s,(])(?:as|als|en qualité de|en tant que|au poste de|comme|como|de puesto de|in de functie van|in der Funktion|el cargo de|en el puesto de|con (?:la categoría|el cargo) de|en calidad de|las funciones de|le poste de|la fonction de|les fonctions de|(?:de )?functie (?:uit )?van|in the (?:position|role|post|capacity) of|position of|post of)\s+|(?:^|[\s,(])(?:en qualité d|en tant qu|au poste d|le poste d|les? fonctions? d|la fonction d|l['’]emploi d)['’]\s*)(?:an?\s+|our\s+|the\s+|einer?\s+|eine\s+|une?\s+|un\s+|una\s+|een\s+)?)(.{3,80})`)
	endsAs        = matching(`(?:^|\s)(?:as(?: an?)?|als|comme|como|en qualité d[e'’]|en tant qu[e'’]|au poste d[e'’]|in de functie van|in the (?:position|role|post|capacity) of|(?:position|post) of)$`)
	endOfPosition = matching(`(?i)\s+(?:since|from|at|with|in|on|until|and|for|on a|working|full|part|\d|seit|vom|von|bis|bei|im|in|mit|beschäftigt|angestellt|tätig|und|auf|zu|eine?|einen|einem|einer|das|den|unser\p{Ll}*|depuis|du|chez|dans|à|au sein|sous|avec|et|desde|del?sde|con|del \d|a tiempo|y|sinds|bij|without|ohne|sans|sin|zonder|ununterbrochen|continuously|ininterrumpidamente|de forma|de manière|onafgebroken|van \d|met|op|in|werkzaam|en is|voor|te)(?:\s|$)|\s+en\s+(?:nuestr[oa]|el|la|los|las|este|esta|dich[oa]|contrat|cdi|cdd|alternance|apprentissage|jornada|régimen|\d|(?-i:\p{Lu}))|[,.;(]|\s+–\s|$`)
	gradeText     = matching(`(?i)(?:^|[^\p{L}])((?:\p{L}+[- ]){0,2}?(?:member|fellow|associate|ordentliches mitglied|mitglied|membre(?: (?:d['’]honneur|de droit|à vie|\p{L}+))?|adhérente?(?: \p{L}+)?|soci[oa](?: (?:de (?:número|honor|mérito|pleno derecho|derecho)|\p{L}+))?|miembro(?: (?:de (?:número|honor|mérito|pleno derecho|derecho)|\p{L}+))?|colegiad[oa](?: \p{L}+)?|\p{L}{4,}mitglied|lid van verdienste|lid voor het leven|lid))(?:[^\p{L}]|$)`)
	isMember      = matching(`(?i)\b(?:is|are|as|was|been|remains|est|es|ist|zijn|als|como)\s+(?:(?:an?|our|une?|un|una|een|ein|eine|bien|seit \d{4}|in \d{4}|registered as|inscrit[oa] como|als)\s+)*((?:\p{L}+[- ]){0,3}(?:member|fellow|membre|mitglied|adhérente?|socio|socia|miembro|lid)(?: (?:titulaire|actif|active|associée?|individuelle?|bienfaiteur|numerario|numeraria|titular|ordinari[oa]|activ[oa]|de número|protector|d['’]honneur|de pleno derecho|ordinaire|adhérent|fondateur))?)`)
)

// findTitle settles what the paper is about, by its kind.
func (l *look) findTitle() {
	if l.kind == paper.NotEvidence || l.kind == paper.Transcript {
		return
	}
	list := l.titlesOfKind()
	if len(list) == 0 && l.kind == paper.Receipt && l.severalBought() {
		return // no one thing, whatever stands out, and no event that it was bought for
	}
	list = l.viewTitles(list)
	l.settle(paper.FieldTitle, list, func(rivals []guess) string {
		if len(rivals) > 1 {
			return "What is it called: " + orList(rivals, func(g guess) string { return quoted(g.text) }) + "?"
		}
		return "Is " + quoted(rivals[0].text) + " what it is called?"
	})
}

// titlesOfKind returns what signs say of the title of a paper of its kind; none for the kinds that
// have no title.
func (l *look) titlesOfKind() []guess {
	var list []guess
	switch l.kind {
	case paper.NotEvidence, paper.Transcript:
		return nil
	case paper.Employment:
		list = l.positions()
	case paper.Membership:
		list = l.grades()
	case paper.Receipt:
		if list, _ = l.paidFor(); len(list) == 0 {
			list = l.oneThing()
		}
	case paper.Meeting:
		list = slices.DeleteFunc(l.meetings(), func(g guess) bool { return l.inAgenda(g.at) })
	default:
		list = l.titles()
	}
	for i := range list {
		list[i] = withoutHalf(l.goOn(l.wordsBefore(list[i])))
	}
	return list
}

// withoutHalf leaves out what stands behind a bracket that does not close: "Arc Flash (class of".
func withoutHalf(g guess) guess {
	k := strings.LastIndexByte(g.text, '(')
	if k < 0 || strings.ContainsRune(g.text[k:], ')') || len(strings.Fields(g.text[:k])) < 2 {
		return g
	}
	g.text = strings.TrimRight(g.text[:k], " ,;:–-")
	g.at.span.To = min(g.at.span.To, g.at.span.From+len(g.text))
	return g
}

// severalBought reports a bill for several things that holds no day but its own.
func (l *look) severalBought() bool {
	_, several := l.paidFor()
	return several && l.ownDayOnly()
}

// ownDayOnly reports a paper that holds one day, its own, and so none of an event.
func (l *look) ownDayOnly() bool {
	for _, d := range l.days {
		if len(d.spans) == 0 || d.spans[0].Start != l.days[0].spans[0].Start || d.spans[0].End != l.days[0].spans[0].End {
			return false
		}
	}
	return len(l.days) > 0
}

// What stands before a position may say that it was the first or the last of several.
var (
	firstHeld = words(`first|began|started|joined|trat|begann|stieg|debuta|debuto|commenca|entra|entro|ingreso|empezo|comenzo|begon|startte|initially|originally|zunachst|zuerst|anfangs|d'abord|initialement|au debut|primero|primeramente|inicialmente|eerst|aanvankelijk|in eerste instantie|inizialmente|prima`)
	lastHeld  = words(`last|most recently|latterly|then|subsequently|zuletzt|danach|anschliessend|seither|puis|ensuite|en dernier lieu|dernierement|depuis|finalmente|ultimamente|por ultimo|despues|posteriormente|laatst|laatstelijk|daarna|vervolgens|infine|poi`)
)

// positions finds the position held: the last one, if several.
func (l *look) positions() []guess {
	var list []guess
	for _, p := range l.withRole(isPosition) {
		post := l.cleanPost(p.value)
		if len(find.Ranges(l.text(post), l.langs)) > 0 {
			continue // several, with their periods
		}
		score := 90
		if startPost.MatchString(p.label) {
			score = 60 // another label may give the one held now
		}
		list = append(list, guess{text: l.text(post), at: post, score: score, why: "it stands with the label " + quoted(p.label), sure: true})
	}
	for i, p := range l.passages {
		if next := l.nextPassage(i); endsAs.MatchString(p.text) && next >= 0 && capitalised(l.passages[next].text) && !l.isName(l.passages[next].text) && len(strings.Fields(l.passages[next].text)) < 9 {
			if cut := l.cutTitle(l.passages[next].text); cut != "" {
				list = append(list, guess{text: cut, at: l.passageAt(next).within(0, len(cut)), score: 82, why: "the line before announces it", sure: true})
			}
		}
		list = append(list, l.lastOf(i, l.positionsIn(i, p.text), l.careerIn(i, p.text))...)
	}
	return append(list, l.inTurn()...)
}

// positionsIn finds positions behind words such as "as" in one passage.
func (l *look) positionsIn(i int, text string) []guess {
	var list []guess
	for from := 0; ; {
		m := asPosition.FindStringSubmatchIndex(text[from:])
		if m == nil {
			break
		}
		before := fold(tail(text[:from+m[0]], 40)) + " "
		m[2], m[3] = from+m[2], from+m[3]
		from = m[2]
		rest := text[m[2]:m[3]]
		for k := 0; ; {
			e := endOfPosition.FindStringIndex(rest[k:])
			if e == nil {
				break
			}
			if strings.HasSuffix(rest[:k+e[0]], "-") {
				k += e[1]
				continue // "Leiter Dreh- und Frästechnik"
			}
			rest = rest[:k+e[0]]
			break
		}
		rest = strings.TrimSpace(verbAtEnd.ReplaceAllString(strings.TrimSpace(trailSmall.ReplaceAllString(l.undated(rest)+" ", "")), ""))
		rest = andAtEnd.ReplaceAllString(rest, "")
		if len(rest) < 4 || noPostAs.MatchString(fold(rest)) {
			continue
		}
		score := 78 + min(i, 4)
		if heldPost.MatchString(fold(text[:m[2]])) {
			score += 8
		}
		if first, second, _ := strings.Cut(rest, " "); !capitalised(rest) && !(l.lang == find.German && strings.HasSuffix(first, "e") && capitalised(second)) {
			score -= 12
		}
		switch first, last := lastMatch(firstHeld, before), lastMatch(lastHeld, before); {
		case first > last:
			score -= 20
		case last >= 0 || latePost.MatchString(before) || laterPost.MatchString(" "+fold(head(text[m[2]+len(rest):], 14))):
			score += 10
		}
		list = append(list, guess{text: rest, at: l.passageAt(i).within(m[2], len(rest)), score: score, why: sentenceSays, sure: true})
	}
	return list
}

// startPost asks for the position that somebody began in.
var startPost = words(`(?:at|on) (?:hire|entry|appointment|start|joining)|(?:first|initial|starting|former|previous|original) .*|(?:bei|zu) (?:eintritt|beginn)|(?:erste|fruhere|vorherige|bisherige)\S* .*|(?:a|lors de) l'(?:embauche|entree)|(?:premier|precedent|ancien)\S* .*|al (?:ingreso|inicio)|(?:primer|anterior|inicial)\S* .*|.* (?:inicial|anterior|initiale?|precedente?)|bij (?:indiensttreding|aanvang)|(?:eerste|vorige|eerdere) .*`)

// cleanPost leaves out what stands in brackets behind a position: since when it is held.
func (l *look) cleanPost(a at) at {
	if m := sinceBehind.FindStringIndex(l.text(a)); m != nil && m[0] > 3 {
		a.span.To = a.span.From + m[0]
	}
	return a
}

// sinceBehind says behind a position since when, or from when to when, it is held.
var sinceBehind = matching(`(?i)\s*[(,]\s*(?:since|from|as of|seit|ab|vom|depuis|du|desde|del|sinds|vanaf|van)\s[^()]*\d[^()]*\)?$`)

// noPostAs is what stands behind an "as" that leads to no post: "as of the date of this letter".
var noPostAs = matching(`^(?:follow|of |from |at |per |well|soon|long as|stated|described|agreed|required|if |part of )`)

// heldPost ends in front of the post that somebody held to the end, rather than began in.
var heldPost = matching(`\b(?:held|holds|has held) the (?:post|position|office|role) of\s*(?:an? )?$`)

// andAtEnd is left of what is joined to a position.
var andAtEnd = matching(`(?i)(?:\s(?:and|und|et|y|en))+$`)

// latePost stands before the position held last, and laterPost behind it.
var (
	latePost  = words(`took over.{0,40}|assumed|ubernahm.{0,40}|prit|reprit|asumio|nam.{0,40} over|promoted(?: to)?|held the post|later|then|most recently|currently|now|finally|zuletzt|spater|danach|ab dem .{4,24}|seit dem .{4,24}|befordert|puis|ensuite|depuis le .{4,24}|actuellement|despues|desde el .{4,24}|actualmente|laatstelijk|daarna|sinds .{4,24}`)
	laterPost = words(`^ since|^ seit|^ depuis|^ desde|^ sinds`)
)

// grades finds the grade or type of member.
func (l *look) grades() []guess {
	var list []guess
	for _, p := range l.withRole(isGrade, isResult) {
		if p.role == isResult && p.label != "grade" && p.label != "status" {
			continue
		}
		list = append(list, guess{text: l.text(p.value), at: p.value, score: 92, why: "it stands with the label " + quoted(p.label), sure: true})
	}
	for _, t := range l.tables {
		for k, r := range t.roles {
			if r != isTitle || len(t.lines) == 0 || len(t.lines[0][k]) == 0 {
				continue
			}
			a := l.whole(t.lines[0][k][0])
			list = append(list, l.grade(a, 84)...)
		}
	}
	for i, p := range l.passages {
		if next := l.nextPassage(i); next >= 0 && announcesGrade.MatchString(fold(p.text)) && len(strings.Fields(p.text)) > 2 && roleOf(l.passages[next].text) == noRole && capitalised(l.passages[next].text) && len(strings.Fields(l.passages[next].text)) < 7 && !l.aside(next) && len(l.daysIn(l.passages[next].cells)) == 0 {
			list = append(list, guess{text: strings.TrimRight(l.passages[next].text, " ,."), at: l.passageAt(next), score: 84, why: "the line before announces it", sure: true})
		}
		if m := inGrade.FindStringSubmatchIndex(p.text); m != nil && !gradeSought.MatchString(fold(p.text[:m[0]])) {
			from, to := group(m)
			list = append(list, guess{text: p.text[from:to], at: l.passageAt(i).within(from, to-from), score: 86, why: "the sentence names the grade", sure: true})
		}
		if g, ok := l.gradeSaid(i, p.text); ok {
			list = append(list, g)
			continue
		}
		score := 55
		if g := l.grade(l.passageAt(i), score); len(g) > 0 && (bare(g[0].text) == bare(p.text) || memberIs.MatchString(l.folded[i])) {
			score = 80 // nothing else stands there, or the verb stands behind it
		}
		list = append(list, l.grade(l.passageAt(i), score)...)
	}
	l.onlyUsual(list)
	return slices.DeleteFunc(list, func(g guess) bool { return memberNumber.MatchString(fold(g.text)) || len(fold(g.text)) < 5 })
}

// gradeSaid returns the grade that passage i says somebody is of.
func (l *look) gradeSaid(i int, text string) (guess, bool) {
	m := isMember.FindStringSubmatchIndex(text)
	if m == nil {
		return guess{}, false
	}
	m[2] += len(asMember.FindString(text[m[2]:m[3]]))
	grade := text[m[2]:m[3]]
	g := guess{text: grade, at: l.passageAt(i).within(m[2], len(grade)), score: 80, why: sentenceSays, sure: true}
	if len(strings.Fields(grade)) < 2 && !namedGrade.MatchString(fold(grade)) {
		g.score = 50
	}
	if usualGrade.MatchString(fold(grade)) {
		g.why = "the sentence names the grade"
	}
	return g, true
}

// onlyUsual trusts a usual grade that is the only one of which the paper speaks.
func (l *look) onlyUsual(list []guess) {
	all := strings.ReplaceAll(l.all, "\n", " ")
	said := usualGrades.FindAllStringIndex(all, -1)
	for i, g := range list {
		if usualGrade.MatchString(fold(g.text)) && !slices.ContainsFunc(said, func(m []int) bool { return bare(all[m[0]:m[1]]) != bare(fold(g.text)) }) {
			list[i].score, list[i].sure = max(g.score, 80), true
		}
	}
}

// usualGrade is a grade that many bodies have, folded.
var (
	usualGrade  = matching(`^(?:` + grades + `)$`)
	usualGrades = words(grades)
)

const grades = `(?:full|ordinary|corporate|associate|affiliate|student|honorary|life|senior|junior|professional|chartered|graduate|active|retired|individual|regular) (?:member|fellow)|(?:ordentliches|ausserordentliches|aktives|forderndes|personliches|studentisches|korrespondierendes|assoziiertes) mitglied|(?:ehren|voll|einzel|forder|junior|senior)mitglied|membre (?:d'honneur|de droit|bienfait(?:eur|rice)|fondat(?:eur|rice)|titulaire|actif|active|associee?|adherente?|ordinaire|honoraire|stagiaire|correspondante?)|(?:soci[oa]|miembro|colegiad[oa]) (?:numerari[oa]|titular|activ[oa]|ordinari[oa]|(?:no )?ejerciente|de numero|de pleno derecho|de honor|de merito|fundador|fundadora|honorari[oa]|adherid[oa])|lid van verdienste|(?:gewoon|buitengewoon|geassocieerd|persoonlijk|volwaardig|actief) lid|(?:aspirant|ere|junior|senior)-?lid`

// inGrade names the grade of a member: "in the grade of Fellow".
var inGrade = matching(`(?:inscrit[oa]|incorporad[oa]|dad[oa] de alta|figura|consta)(?: \p{L}+){0,3} como ((?i:colegiad[oa]|soci[oa]|miembro|adherid[oa]) \p{Ll}+)|(?:^|\s)(?i:grade|class|rank|category|dignity)(?: (?i:of))? (\p{Lu}[\p{L}-]+(?: \p{Lu}[\p{L}-]+){0,2})`)

// gradeSought ends in front of a grade that somebody may ask for, and does not have.
var gradeSought = matching(`\b(?:apply|applying|application|eligible|qualify|upgrade|transfer|transferring|election|candidates?)(?: to be)?(?: (?:for|to))?(?: the| a)?$`)

var (
	namedGrade = words(`fellow|associate|licentiate|companion|graduate`)
	memberIs   = words(`mitglied\b.{0,90} ist`)
)

// asMember are words between "is" and the grade.
var asMember = matching(`(?i)^(?:(?:is |now |hereby |duly )*(?:enrolled|registered|elected|admitted|listed|entered|recorded|inscrite?|inscrit[oa]|registrad[oa]|eingetragen|geführt|ingeschreven|geregistreerd) (?:as|als|como|comme|en tant que) )?(?:an? |une? |ein |eine |een )?`)

// announcesGrade ends a line that the grade follows.
var announcesGrade = matching(`(?:(?:elected|admitted|enrolled|appointed|made|is|was|become|became)(?: (?:as|to be))? an?|(?:grade|class|rank|category|status|degree|dignity) of|(?:to|in|with) (?:the|our) (?:grade|class|rank|category)|(?:enrolled|registered|elected|admitted|listed|entered|is|remains|member|mitglied|membre|lid|gefuhrt|inscrit[eo]?|como|comme|als|as|en (?:tant que|qualite de)|grad|stand|calidad de|grado de|graad van|hoedanigheid van))(?: as)?:?$`)

var memberNumber = words(`\d{3,}|no|nr|the member|this member|dear member|each member|number`)

// grade finds the words for a grade of member in a part of the text.
func (l *look) grade(a at, score int) []guess {
	text := l.text(a)
	m := gradeText.FindStringSubmatchIndex(text)
	if m == nil {
		return nil
	}
	if k := strings.Index(text[m[2]:m[3]], ": "); k >= 0 {
		m[2] += k + len(": ")
	}
	if k := feeOfGrade.FindStringIndex(text[m[2]:m[3]]); k != nil {
		m[2] += k[1]
	}
	if k := asGrade.FindStringIndex(text[m[2]:m[3]]); k != nil {
		m[2] += k[1]
	}
	found := strings.TrimSpace(text[m[2]:m[3]])
	if len(strings.Fields(found)) < 2 && !gradeWord.MatchString(fold(found)) || l.isName(found) {
		return nil
	}
	return []guess{{text: found, at: a.within(m[2], len(found)), score: score, why: "it names a kind of member", sure: score >= 66}}
}

// gradeWord is a grade in one word.
var gradeWord = matching(`^(?:\p{Ll}{4,}mitglied|\p{Ll}{4,}lid)$`)

// asGrade are words before a grade that are none of it: "damit als Juniormitglied", "anual de Socia Protectora".
var asGrade = matching(`(?i)^(?:(?:damit|hiermit|somit|nun|hereby|now|por tanto|dès lors|voortaan) )?(?:als|as an?|as|comme|en qualité de|como|en calidad de) |^(?:anual|annuelle?|jährlicher?|yearly|annual) (?:de |d['’]|of )`)

// feeOfGrade stands before a grade: what is paid for it, or the word for it.
var feeOfGrade = matching(`(?i)^(?:(?:annual |yearly )?(?:subscription|dues|fee)|\p{L}*(?:beitrag|gebühr)|cotisation|cuota|contributie|calidad|condición|qualité|hoedanigheid|grado|grade)(?: (?:of|for|as|für|als|de|d|van|como|pour))?\s+`)

var (
	paidForText = matching(`(?i)\b(?:payment for|fee for|place on|registration for|enrol+ment (?:in|on|for)|attendance at|participation in|for|für|zur|zum|an der|am|pour|à la|au|por|para|voor|deelname aan)\s+(?:the |die |den |das |der |la |le |l['’]|el |los |de |het |your |Ihre Teilnahme an |)?(?:` + accented(eventWord) + `|Teilnahme an)?\s*(?:an (?:der|dem)|am|à la|au)?\s*:?\s*((?-i:\p{Lu}).{4,140})`)
	chargeLine  = words(`(?:still|left|now) to pay|(?:now|still) due|due now|noch zu zahlen|offener betrag|reste (?:du|a payer)|pendiente(?: de pago)?|nog te (?:betalen|voldoen)|(?:terug )?te ontvangen|(?:annulerings|stornierungs|storno)(?:kosten|gebuhr)|less|minus|disc|reduction|\S*(?:nachlass|ermassigung)|rabais|bonificacion|refund.*|due to you|amount due.*|erstattung.*|remboursement.*|reembolso.*|terugbetaling.*|hst|gst|pst|qst|totaal|te betalen|a payer|a pagar|zu zahlen|betrag|importe|vat|tax|ust|mwst|tva|iva|btw|discount|rabatt|remise|descuento|korting|subtotal|total|shipping|postage|porto|versand|surcharge|handling fee|booking fee|early booking|paid|net|zwischensumme|gesamt|netto|summe|lunch|catering|materials|course materials|book|unterlagen|sous-total|frais de dossier|exam fee|certificate fee|bearbeitungsgebuhr|invoice|rounding|fee`)
)

// bareFee is a row of an invoice that does not say which course its fee is for.
var bareFee = matching(`^(?:(?:seminar|kurs|lehrgangs|teilnahme|teilnehmer|tagungs|schulungs|fortbildungs)(?:gebuhr(?:en)?|beitrag|preis|entgelt|kosten)|(?:course|seminar|workshop|tuition|attendance|delegate|participation|registration|training) (?:fees?|price|charge)|tuition|frais (?:d'inscription|pedagogiques|de formation|de stage)|matricula|(?:cuota|derechos) de (?:inscripcion|matricula)|cursusgeld|cursusprijs|cursuskosten|inschrijf(?:geld|kosten)|deelname(?:prijs|kosten))(?:,? \(?\p{Ll}+(?: \p{Ll}+)?\)?)?\W*$`)

// paidFor finds the one thing that was paid for; several reports that there are more.
func (l *look) paidFor() (list []guess, several bool) {
	items := l.boughtInTables()
	if len(items) == 0 {
		if items, several = l.charges(); several {
			return nil, true
		}
	}
	if len(items) > 1 {
		return nil, true
	}
	for i := range items {
		l.priceProves(&items[i])
	}
	list = slices.DeleteFunc(items, func(g guess) bool {
		return bareFee.MatchString(fold(g.text)) && slices.ContainsFunc(l.titles(), func(t guess) bool { return t.score >= 80 && !bareFee.MatchString(fold(t.text)) })
	})
	if len(list) == 0 {
		list = append(l.titlesPaid(), l.paidByLabels()...)
		for i := range l.passages {
			list = append(list, l.paidInText(i)...)
		}
	}
	return slices.DeleteFunc(list, func(g guess) bool { return seatsOnly.MatchString(fold(g.text)) || ticketKind.MatchString(fold(g.text)) }), false
}

// priceProves trusts the one thing in a list whose price, by itself or with the tax, comes to the total.
func (l *look) priceProves(g *guess) {
	row := l.rows[l.cells[l.cellAt(g.at)].row]
	price := priceOf(l.cells[row[len(row)-1]].text)
	if g.why != onlyThing || price.Sign() <= 0 {
		return
	}
	totals, parts := []credit.Amount{}, []credit.Amount{{}}
	for _, p := range l.withRole(isGrandTotal, isPartSum) {
		switch n := priceOf(l.text(p.value)); {
		case n.Sign() <= 0:
		case p.role == isGrandTotal:
			totals = append(totals, n)
		default:
			parts = append(parts, n)
		}
	}
	for _, part := range parts {
		if slices.ContainsFunc(totals, func(t credit.Amount) bool { return t.Equal(price.Add(part)) }) {
			g.backed, g.score = true, max(g.score, 91)
		}
	}
}

// boughtInTables collects the things in the rows of tables that have a column for them.
func (l *look) boughtInTables() []guess {
	var items []guess
	for _, t := range l.tables {
		k := slices.Index(t.roles, isTitle)
		if k < 0 {
			continue
		}
		var sum credit.Amount
		for n, row := range t.lines {
			if end := row[len(row)-1]; len(row[k]) > 0 && len(end) > 0 {
				price := priceOf(l.cellText(end))
				if n > 0 && l.comesTo(row[k][0], price, sum) {
					continue
				}
				sum = sum.Add(price)
			}
			if end := row[len(row)-1]; len(items) > 0 && len(end) > 0 && l.takenOff(end[len(end)-1]) {
				continue // what is taken off it
			}
			if g, ok := l.boughtInRow(t, row, k, len(items) > 0); ok {
				items = append(items, g)
			}
		}
	}
	return items
}

// boughtInRow takes what stands in column k of a row for a thing bought, unless it is a sum,
// a charge or a number of seats, or where there is an item above, said of it or cancelled.
func (l *look) boughtInRow(t table, row [][]int, k int, above bool) (guess, bool) {
	text := l.cellText(row[k])
	low := fold(text)
	if len(row[k]) == 0 || text == "" || noItem(roleOf(l.cells[row[k][0]].text)) || seatsOnly.MatchString(low) {
		return guess{}, false
	}
	if len(row[len(row)-1]) == 0 && (startsLower(text) || len(find.Dates(text, l.langs)) > 0) && above || strings.Contains(bare(text), "cancelled") && above {
		return guess{}, false
	}
	thing := low
	if len(find.Dates(text, l.langs))+len(find.Ranges(text, l.langs)) > 0 {
		thing, _, _ = strings.Cut(low, ",") // "…, 2 June 2026, with lunch" says what comes with it
	}
	if (chargeLine.MatchString(thing) || extraLine.MatchString(thing)) && !quotesRE.MatchString(text) {
		return guess{}, false
	}
	g := guess{text: text, at: l.whole(row[k][0]), score: 86, why: onlyThing, sure: len(strings.Fields(text)) > 1 || len(t.lines) == 1}
	if last := l.whole(row[k][len(row[k])-1]); last.passage == g.at.passage {
		g.at.span.To = last.span.To
	}
	return l.core(g), true
}

// titlesPaid returns the titles that may be what was paid for: the good ones, else long ones.
func (l *look) titlesPaid() []guess {
	var good, long []guess
	for _, g := range l.titles() {
		switch {
		case chargeLine.MatchString(fold(g.text)):
		case g.score >= 60:
			if k := feeEnds(g.text); k > 0 {
				g.text, g.at = g.text[k:], g.at.within(k, len(g.text)-k)
			}
			good = append(good, g)
		case g.score >= 30 && len(strings.Fields(g.text)) > 3 && !strings.ContainsAny(g.text, "0123456789€£$·"):
			g.sure = false
			long = append(long, g)
		}
	}
	if len(good) > 0 {
		return good
	}
	return long
}

// paidByLabels returns what stands with a label such as "for", and is nobody's name and no sum.
func (l *look) paidByLabels() []guess {
	var list []guess
	for _, p := range l.withRole(isPerson) {
		if m := feePrefix.FindStringIndex(l.text(p.value)); m != nil {
			p.value = p.value.within(m[1], len(l.text(p.value))-m[1])
		}
		text := l.text(p.value)
		if !paidForLabel[p.label] || l.isName(text) && !courseName.MatchString(fold(text)) || !capitalised(text) || len(find.Amounts(text, l.langs)) > 0 {
			continue
		}
		a := p.value.within(0, len(seatsAtEnd.ReplaceAllString(strings.TrimRight(trailSmall.ReplaceAllString(l.undated(text), ""), " ,.("), "")))
		list = append(list, guess{text: l.text(a), at: a, score: 82, why: "it stands with the label " + quoted(p.label), sure: true})
	}
	return list
}

// courseName is what nobody is called but a course.
var courseName = words(`\S*(?:kurs|lehrgang|seminar|schulung|fortbildung|weiterbildung|workshop|webinar|tagung|cursus|opleiding|scholing|training|formation|stage|atelier|curso|taller|seminario|jornada|course|class|conference|congress|symposium)s?`)

// dayLeadAtEnd is the small word that led to a day which was cut off.
var dayLeadAtEnd = matching(`(?i)\s+(?:on|from|am|vom|den|le|les|du|el|los|del|op|van)\s*$`)

// paidInText returns what passage i, unless it stands in a table, says that was paid for.
func (l *look) paidInText(i int) []guess {
	var list []guess
	p := l.passages[i]
	if l.inTable(p.cells[0]) {
		return nil
	}
	if m := leadWord.FindStringIndex(p.text); m != nil && len(strings.Fields(p.text)) < 12 && capitalised(p.text[m[1]:]) && i > 0 {
		cut := l.undated(p.text[m[1]:])
		if len(cut) < len(p.text)-m[1] {
			cut = dayLeadAtEnd.ReplaceAllString(cut, "")
		}
		cut = strings.TrimRight(cut, " ,.;:(")
		list = append(list, guess{text: cut, at: l.passageAt(i).within(m[1], len(cut)), score: 72, why: "it is the one thing named", sure: true})
	}
	m := paidForText.FindStringSubmatchIndex(p.text)
	if m == nil {
		return list
	}
	rest := p.text[m[2]:m[3]]
	if e := stopAt.FindStringIndex(rest); e != nil {
		rest = rest[:e[0]]
	}
	if d := find.Dates(rest, l.langs); len(d) > 0 {
		rest = rest[:d[0].From]
	}
	if rest = strings.TrimRight(rest, " ,.;:"); len(strings.Fields(rest)) > 1 && !strings.Contains(bare(l.out.Values[paper.FieldProvider].Text), bare(rest)) {
		list = append(list, guess{text: rest, at: l.passageAt(i).within(m[2], len(rest)), score: 64, why: sentenceSays, sure: true})
	}
	return list
}

// feePrefix stands before what a fee is for.
var feePrefix = matching(`(?i)^(?:(?:your|a|one) (?:place|seat) (?:on|at|in)|(?:ihre?n?|ein(?:en)?) platz (?:im|in|auf|beim)|(?:votre|une) place (?:au|à|pour|dans)|(?:su|una) plaza en|(?:uw|een) plaats (?:op|bij|in))\s+(?:the |our |dem |der |la |le |el |de |het )?|^(?:(?:kurs|seminar|lehrgangs|teilnahme|schulungs|prüfungs|tagungs)(?:gebühr|beitrag|kosten)|(?:course|seminar|registration|exam(?:ination)?|conference|training|workshop) fees?|frais (?:d['’]inscription|de formation)|cuota|matrícula|(?:cursus|deelname|inschrijf)(?:geld|kosten))(?:\s(?:für|for|pour|para|de|del curso|voor|au|à))?:?\s+`)

// ticketKind is at what rate somebody was admitted, and not to what.
var ticketKind = matching(`^(?:(?:full|standard|regular|reduced|student|early[ -]bird|(?:non-?)?member|one-day|two-day|day|general|normal|voll|mitglieder|plein|reduit|leden|vroegboek)[ -]?(?:registration|ticket|rate|pass|fee|tarif|preis|tarief)|(?:tarif|tarifa|tarief) \S+)$`)

// seatsOnly is how many places were bought and at what price, and nothing of what.
var seatsOnly = matching(`^(?:(?:seminar|kurs|lehrgangs|teilnahme|teilnehmer|schulungs|anmelde|tagungs|prufungs)(?:gebuhr|beitrag|entgelt|preis|kosten)(?:en)?|(?:course|registration|attendance|delegate|participation|training|conference|enrol?ment|tuition) (?:fees?|charges?|costs?)|frais (?:d'inscription|de participation|pedagogiques|de formation)|droits? d'inscription|(?:cuota de )?(?:inscripcion|matricula)(?: al curso)?|derechos de (?:inscripcion|matricula)|(?:cursus|inschrijf|deelname|opleidings)(?:geld|kosten|prijs)|\d{1,2}|one|two) ?[x×]? ?(?:seats?|places?|registrations?|persons?|delegates?|participants?|tickets?|fees?|teilnehmer(?:platz|platze)?|platze?|personen|inscriptions?|plazas?|plaatsen|plaats|deelnemers?)(?: (?:@|at|a|je|zu) .*)?$`)

// noItem reports the label of a sum or a number, which is nothing that was bought.
func noItem(r role) bool { return r == isGrandTotal || r == isPartSum || r == isNumber }

// charges collects what stands before an amount at the end of a row and is no sum, tax,
// discount or extra; several reports that more than one thing was bought.
func (l *look) charges() (items []guess, several bool) {
	n, gaveBack := 0, l.allBack()
	var sum, dearest, extra credit.Amount
	for _, row := range l.rows {
		text, a, price, ok := l.chargeRow(row)
		if !ok {
			continue
		}
		low := fold(text)
		if extraLine.MatchString(low) && !chargeLine.MatchString(low) && !payLine.MatchString(low) && price.Cmp(extra) > 0 {
			extra = price
		}
		if noCharge(text) && !l.dayOf(l.cellAt(a), text) || !gaveBack && l.takenOff(row[len(row)-1]) || n > 0 && l.comesTo(row[0], price, sum) {
			continue
		}
		sum = sum.Add(price)
		if over, ok := l.thingOver(l.cellAt(a), text); ok {
			a, text = over.at, over.text
		}
		if whichPrint.MatchString(low) {
			if above, ok := l.overRow(row[0]); ok {
				a, text = above, l.text(above)
			}
		}
		g := l.core(guess{text: text, at: a.within(0, min(len(text), a.span.To-a.span.From)), score: 86, why: onlyThing, sure: len(strings.Fields(text)) > 1})
		if price.Cmp(dearest) > 0 {
			dearest = price
		}
		if n++; len(strings.Fields(g.text)) > 1 || len(g.text) > 12 {
			items = append(items, g)
		}
	}
	if n == 1 && extra.Cmp(dearest) > 0 {
		return nil, true // a book that costs more is no extra of it
	}
	return items, n > 1
}

// allBack reports a bill of which all prices have a minus sign: they are given back, and no
// deductions.
func (l *look) allBack() bool {
	return !slices.ContainsFunc(l.rows, func(row []int) bool {
		text, _, _, ok := l.chargeRow(row)
		return ok && !noCharge(text) && !l.takenOff(row[len(row)-1])
	})
}

// takenOff reports a cell that holds a price below nothing.
func (l *look) takenOff(ci int) bool { return minusPrice.MatchString(l.cells[ci].text) }

var minusPrice = matching(`(?:^|\s)[-−–] ?(?:[€$£]|EUR|CHF|USD|GBP)? ?\d[\d.,' ]*(?:\s?(?:[€$£]|EUR|CHF|USD|GBP))?$|\d[.,]\d\d ?[-−–]$`)

// chargeRow returns the words of a row that ends with a price, their place, and the price;
// ok is false for other rows.
func (l *look) chargeRow(row []int) (text string, a at, price credit.Amount, ok bool) {
	if len(row) == 0 || len(row) > 5 {
		return
	}
	last := l.cells[row[len(row)-1]].text
	a = l.whole(row[0])
	if beside, straddles := l.besideRow(row); straddles {
		a = beside
	} else if p := l.cells[row[0]].passage; len(row) > 1 && l.passages[p].cells[0] != row[0] && len(l.passages[p].text) < 150 && l.cells[l.passages[p].cells[0]].row >= l.cells[row[0]].row-2 {
		a = l.passageAt(p) // the price stands with its last line
	} else if len(row) > 1 {
		a = l.wholePassage(row[0])
	}
	text = l.text(a)
	if len(row) == 1 {
		m := priceAtEnd.FindStringIndex(text)
		if above, lone := l.overRow(row[0]); m != nil && m[0] == 0 && lone {
			return l.text(above), above, priceOf(last), true // the price has a line of its own
		}
		if m == nil || strings.Contains(text, ": ") && beginsItem(text) && roleOf(text[:strings.Index(text, ":")]) != noRole {
			return
		}
		text = strings.TrimRight(text[:m[0]], " .:")
	} else if !priceAtEnd.MatchString(" " + last) {
		return
	}
	if price = priceOf(last); price.Sign() == 0 {
		price = magnitude(strings.Replace(plainPrice.FindString(last), ",", ".", 1)) // without its currency
	}
	return text, a, price, true
}

// dayOf reports a row of a till slip that holds the day of what stands in the line above it.
func (l *look) dayOf(ci int, text string) bool {
	_, ok := l.thingOver(ci, text)
	return ok
}

// thingOver returns what is bought where its price stands in the line beneath, with the day: the line
// above, with the one before it where only that has the count.
func (l *look) thingOver(ci int, text string) (guess, bool) {
	days := l.daysIn([]int{ci})
	if len(days) == 0 || days[0].at.span.From-l.whole(ci).span.From > 5 || days[0].role == isPaid || days[0].role == isIssue || strings.Contains(text, ":") && beginsItem(text) {
		return guess{}, false
	}
	above, ok := l.overRow(ci)
	if !ok || noCharge(l.text(above)) {
		return guess{}, false
	}
	name := l.text(above)
	if first := l.cellAt(above); !countFirst.MatchString(name) {
		if before, ok := l.overRow(first); ok && countFirst.MatchString(l.text(before)) {
			return guess{text: l.text(before) + " " + name, at: before}, true
		}
	}
	return guess{text: name, at: above}, roleOf(name) == noRole
}

// countFirst is how many of it were bought, before the name.
var countFirst = matching(`(?i)^\d{1,2} ?(?:[x×] ?|seats? |places? |tickets? |plätze? |platz |places? |plazas? |plaats(?:en)? )\p{L}`)

// besideRow returns what is bought in a row that holds nothing but figures: the text on its left that
// has no room in one line, and is set in lines over and under it.
func (l *look) besideRow(row []int) (at, bool) {
	first := &l.cells[row[0]]
	if !l.boxed || slices.ContainsFunc(row, func(ci int) bool {
		return strings.ContainsFunc(l.cells[ci].text, isLetter) && !priceAtEnd.MatchString(l.cells[ci].text)
	}) {
		return at{}, false
	}
	for _, r := range []int{first.row - 1, first.row - 2} {
		if r < 0 || len(l.rows[r]) != 1 {
			continue
		}
		if c := &l.cells[l.rows[r][0]]; c.page == first.page && c.box[0] < first.box[0] && c.box[3] > first.box[1] {
			return l.wholePassage(l.rows[r][0]), true
		}
	}
	return at{}, false
}

// noCharge reports the words of a row that name nothing bought: seats, a rate, a sum, a tax, an
// extra, a label, a day.
func noCharge(text string) bool {
	low := fold(text)
	if r := roleOf(text); r != noRole && r != isTitle {
		return true
	}
	return seatsOnly.MatchString(low) || ticketKind.MatchString(low) || chargeLine.MatchString(low) && !quotesRE.MatchString(text) || extraLine.MatchString(low) ||
		countedPlace.MatchString(low) || strings.HasSuffix(text, ":") || !strings.ContainsFunc(text, isLetter) || len(find.Dates(text, nil)) > 0 && len(text) < 30
}

// whichPrint is which printing of a book, or how many of a thing, and not what.
var whichPrint = matching(`^\d{1,3}(?:e|de|st|nd|rd|th|\.|ª|º|eme)? ?(?:druk|auflage|aufl\.?|edition|ed\.?|edicion|oplage|x|stuck|stuks?|pcs\.?|pieces?|uds?\.?|expl?\.?)$`)

// overRow returns the line right above a row that holds one text without a price.
func (l *look) overRow(ci int) (at, bool) {
	r := l.cells[ci].row - 1
	for r >= 0 && len(l.rows[r]) == 0 {
		r--
	}
	if r < 0 || len(l.rows[r]) != 1 || !capitalised(l.cells[l.rows[r][0]].text) || l.hasSum(l.cells[l.rows[r][0]].text) || reachLine(l.cells[l.rows[r][0]].text) {
		return at{}, false
	}
	return l.whole(l.rows[r][0]), true
}

// comesTo reports a row that adds up the rows above it: its price is their sum, and its
// words are set off or are no name.
func (l *look) comesTo(ci int, price, sum credit.Amount) bool {
	c := &l.cells[ci]
	return price.Equal(sum) && price.Sign() != 0 && (c.bold || strings.ToLower(c.text[1:]) == c.text[1:])
}

// priceOf is the amount at the end of a row, 0 if none can be read.
func priceOf(text string) credit.Amount {
	found := find.Amounts(text, nil)
	if len(found) == 0 {
		return credit.Amount{}
	}
	return amount(found[len(found)-1].Value)
}

var (
	plainPrice = matching(`\d+[.,]\d\d`)
	payLine    = words(`an?zahlung|restbetrag|deposit|balance|net|netto|neto|payment|zuzuglich|zzgl\.?|te voldoen|voorschot|acompte|anticipo|card|karte|carte|tarjeta|pin|cash|bar|voucher|amount (?:payable|due|received)|\S*rabatt|\d+ ?%`)
)

var (
	priceAtEnd   = matching(`(?:^|\s)[-−]?(?:[€$£]|USD|EUR|GBP|CHF|CAD|AUD)?\s?[-−]?\d[\d.,'’ \x{a0}]*[.,]\d\d(?:\s?(?:[€$£]|USD|EUR|GBP|CHF|CAD|AUD))?(?:\s[A-E*])?$`)
	countedPlace = matching(`^\d+ ?x? ?\p{L}+$`) // "1 place"
	extraLine    = words(`(?:consumables|supplies|materials?|workbooks?|handouts?|verbrauchsmaterial\S*|material\S*|fournitures|consommables|supports?|materiales?|fungibles?|verbruiksmateria\S*|lesmateria\S*)(?: \S+){0,5} (?:of|for|zu|fur|de|del|para|pour|van|voor|bij) (?:this|dieses|diesen|ce|cette|este|esta|deze) (?:course|seminar|workshop|event|class|kurs(?:es)?|lehrgangs?|seminars?|stage|formation|cours|curso|taller|cursus|opleiding)|(?:the |dem |du |des |del |de |het )?(?:same|above|said|selben|gleichen|obigen|genannten|meme|mismo|misma|citado|zelfde|genoemde) (?:course|seminar|workshop|event|training|class|kurs(?:es)?|lehrgangs?|seminars?|schulung|formation|stage|cours|curso|taller|seminario|cursus|opleiding)|(?:zum|zu diesem|fur denselben) (?:selben |gleichen |obigen )?(?:kurs|seminar|lehrgang)|(?:assessment|certificate|certification|exam(?:ination)?|test|card|admin(?:istration)?|booking|handling|enrol?ment) (?:fees?|charges?|costs?)|frais (?:d'examen|de certificat|de dossier)|(?:derechos|tasas?) de (?:examen|certificado)|(?:examen|certificaat|administratie)(?:kosten|geld)|(?:prufungs|zertifikats|bearbeitungs)(?:gebuhr|kosten)|(?:\S+ )?(?:dinner|reception|banquet|gala|\S*abend|abendessen|diner|cena|borrel|aperitif)|\S*pauschale|verpflegung\S*|catering|lunch|\S*rabatt|\S*unterlagen|arbeitsheft|\S*heft|werkboek|cursusboek|workbook|course book|handbook|lehrbuch|skript|manual|\S*materia(?:l|als|l[en]*|ux|aal)|manuel|cahier|supports? de cours|cuaderno|libro|amount (?:payable|due|received)|an?zahlung|restbetrag|deposit|balance|net|netto|neto|payment|zzgl\.?|zuzuglich|te voldoen|voorschot|acompte|anticipo|card|karte|carte|tarjeta|pin|cash|bar|voucher|\d+ ?%`)
)

var charged = matching(`(?i)^(?:(?:remboursement|restitutie|reembolso|erstattung|rückerstattung|refund|terugbetaling|devolución|annulation|anulación|annulering)\s+(?:(?:of|de|des|du|der|von|van|del|la|le|les|votre|your|uw|the)\s+)*)?(?:(?:lab|practical|evening|morning|afternoon)?\s*(?:session|part|fee|place|seat|ticket|registration|course fee|seminar fee|kursgebühr|teilnahmegebühr|teilnahme|inscription|frais|matrícula|cuota|deelname|inschrijving)\s+(?:of|for|on|at|an|für|à|pour|de|del|aan|voor)\s+(?:the |la |le |der |die |het |de )?|(?:frais (?:pédagogiques|d['’]inscription|de formation|de participation)|droits d['’]inscription|derechos de (?:inscripción|matrícula)|cursusgeld|lesgeld|inschrijfgeld|deelnamekosten|cursusprijs)\s+(?:(?:pour|de|para|a|voor|aan|:|–|-)\s+(?:la |le |el |het |de )?)?)?`)

// core takes from an item what is not the name of the thing: quotation marks,
// "fee for", and words after it.
func (l *look) core(g guess) guess {
	if m := leadWord.FindStringIndex(g.text); m != nil && len(strings.Fields(g.text[m[1]:])) > 1 && capitalised(g.text[m[1]:]) {
		g.text = g.text[m[1]:]
	}
	if m := quotesRE.FindStringSubmatchIndex(g.text); m != nil {
		from, to := group(m)
		g.text = g.text[from:to]
		return g
	}
	g.text = countedThing.ReplaceAllString(g.text, "")
	g.text = feeFor.ReplaceAllString(g.text, "")
	g.text = rateFirst.ReplaceAllString(g.text, "")
	g.text = g.text[feeEnds(g.text):]
	g.text = charged.ReplaceAllString(g.text, "")
	g.text = howLong.ReplaceAllString(g.text, "")
	g.text = cancelled.ReplaceAllString(g.text, "")
	g.text = trailing.ReplaceAllString(g.text, "")
	g.text = feeAtEnd.ReplaceAllString(g.text, "")
	g.text = startsItem.ReplaceAllString(g.text, "")
	if d := find.Ranges(g.text, l.langs); len(d) > 0 && d[0].From > 5 {
		g.text = dayLeadAtEnd.ReplaceAllString(g.text[:d[0].From], "")
	} else if d := find.Dates(g.text, l.langs); len(d) > 0 && d[0].From > 5 {
		g.text = dayLeadAtEnd.ReplaceAllString(g.text[:d[0].From], "")
	}
	g.text = atPlace.ReplaceAllString(startsAtEnd.ReplaceAllString(strings.Trim(g.text, " ,;:-–("), ""), "")
	return g
}

var (
	countedThing = matching(`(?i)^\d{1,2}\s?(?:[x×]\s?|(?:seats?|places?|tickets?|plätze?|platz|plazas?|plaats(?:en)?)\s(?:(?:on|at|in|for|im|auf|beim?|au|à|pour|dans|en|para|op|bij|voor)\s(?:the |our |der |dem |den |la |le |el |het |de )?)?)`)
	// rateFirst is at what rate somebody was admitted, before to what: "Early-bird ticket: ".
	rateFirst = matching(`(?i)^(?:(?:early[ -]bird|full|standard|regular|reduced|discounted|student|(?:non-?)?members?['’]?|delegate|day|weekend|general|group|frühbucher-?|mitglieder-?|normal|plein|reducida|general|leden-?|vroegboek-?)[ -]?){1,2}(?:ticket|rate|price|registration|admission|pass|place|fee|tarif|preis|inscription|entrada|tarief|kaart(?:je)?)\s*[:–-]\s+`)
	// feeOf is what a fee is called before what it is for, without a mark between: "Matrícula curso ".
	feeOf   = matching(`^(?i:(?:matrícula|inscripción|cuota|inscription|frais d['’]inscription|inschrijving|inschrijfgeld|deelname|registration|enrol+ment|course fee|tuition)\s+(?:del |al |en el |au |à la |voor |for |for the )?(?:curso|taller|seminario|stage|formation|cours|atelier|cursus|training|opleiding|course|seminar|workshop|webinar)\s+|(?:kurs|seminar|lehrgangs|teilnahme|teilnehmer|schulungs|prüfungs|tagungs)-?(?:gebühr(?:en)?|beitrag|kosten|preis)\s+(?:für |zum |zur )?(?:den |die |das |dem |der )?)`)
	feeFor  = matching(`(?i)^(?:(?:full-day |half-day |course |delegate |student )?(?:place|seat|participant)|sign-in(?: sheet)?|registration|course fee|seminar fee|conference fee|fee|tuition(?:\s*,)?|enrol+ment|ticket|teilnahmegebühr|kursgebühr|seminargebühr|anmeldung|inscription|droits d['’]inscription|matrícula|inscripción|inschrijving|cursusgeld)(?:\s*[:–-]|\s*,)\s+`)
	howLong = matching(`\s(?:(?:One|Two|Three|Four|Five|Half|Full)-day (?:course|seminar|workshop|training|class|event)|(?:Ein|Zwei|Drei|Vier|Fünf)tägige[rs]? (?:Kurs|Seminar|Lehrgang|Workshop)|(?:Formation|Stage|Cours) (?:de|d['’]) ?(?:une?|deux|trois|quatre|cinq|\d) jours?|Curso de (?:un|dos|tres|cuatro|cinco|\d) días?|(?:Een|Twee|Drie|Vier|Vijf)daagse (?:cursus|training|opleiding))\b.*$|(?i)\s(?:one|two|three|four|five|\d)-day (?:course|seminar|workshop|training|class|event)(?:\s*,.*)?$|\s(?:ein|zwei|drei|vier|fünf|\d-)tägige[rs]? (?:kurs|seminar|lehrgang|workshop)(?:\s*,.*)?$|\s(?:formation|stage|cours) de (?:deux|trois|quatre|cinq|\d) jours(?:\s*,.*)?$|\s(?:een|twee|drie|vier|vijf)daagse (?:cursus|training|opleiding)(?:\s*,.*)?$|(?i)\s*[,–-]\s*(?:one|two|three|four|five|half|full|\d)[ -]days? (?:course|seminar|workshop|training|class|event)\b|\s*[,–-]\s*(?:ein|zwei|drei|vier|fünf|\d)-?tägige[rs]? (?:kurs|seminar|lehrgang|workshop)\b`)
)

// feeEnds returns where the name of what a fee is for begins, of several words; 0 where none stands before it.
func feeEnds(text string) int {
	if m := feeOf.FindStringIndex(text); m != nil && capitalised(text[m[1]:]) && len(strings.Fields(text[m[1]:])) > 1 {
		return m[1]
	}
	return 0
}

// feeAtEnd says behind a thing that this is what it cost.
var feeAtEnd = matching(`(?i)\s*[,–-]\s*(?:\p{L}*gebühr(?:en)?|\p{L}*kosten|(?:course |registration )?fees?|frais|droits|cuota|matrícula|\p{L}*geld|tarif|price|preis)$`)

var leadWord = matching(`^(?i:seminar|kurs|lehrgang|schulung|workshop|formation|stage|cours|séminaire|atelier|curso|taller|seminario|jornada|cursus|opleiding|training|studiedag|course|webinar)\s+`)

var cancelled = matching(`(?i)\s*,?\s*\(?(?:cancelled|canceled|storniert|abgesagt|annulée?|cancelad[oa]|geannuleerd)\)?\s*$`)

// meetings finds the kind or name of a meeting, rather than the talk held at it.
func (l *look) meetings() []guess {
	list := l.committeeBehind()
	for _, g := range l.titles() {
		list = append(list, meetingOrTalk(g))
	}
	l.lowerTalks(list)
	for i := range l.passages {
		list = append(list, l.meetingsInText(i)...)
	}
	for i := range list {
		if attendanceList.MatchString(fold(list[i].text)) && !meetingName.MatchString(fold(list[i].text)) {
			list[i].score = 10
		}
	}
	return withoutPart(list)
}

// withoutPart drops a committee at the head that the text names within a meeting of it: "the 12th
// meeting of the Working Group on Glazes".
func withoutPart(list []guess) []guess {
	return slices.DeleteFunc(list, func(g guess) bool {
		return g.why == committeeAtHead && slices.ContainsFunc(list, func(o guess) bool {
			return o.score >= 80 && o.text != g.text && meetingName.MatchString(fold(o.text)) && bearsWords(fold(o.text), fold(g.text))
		})
	})
}

// bearsWords reports that each word of a part stands in the whole, perhaps with an ending.
func bearsWords(whole, part string) bool {
	words := strings.Fields(whole)
	return !slices.ContainsFunc(strings.Fields(part), func(w string) bool {
		return !slices.ContainsFunc(words, func(in string) bool { return strings.HasPrefix(in, w) })
	})
}

// committeeAtHead says why a committee is what a paper is about.
const committeeAtHead = "a committee stands at its head"

// extractBehind says behind the name of a meeting that the paper is an extract.
var extractBehind = matching(`(?i),? \(?(?:auszug|extract|extrait|extracto|uittreksel)\)?$`)

// meetingOrTalk weighs a title by whether it is named like a meeting or quoted like a talk.
func meetingOrTalk(g guess) guess {
	if m := startsMins.FindStringIndex(g.text); m != nil && m[1] < len(g.text)-4 {
		g.text, g.at = g.text[m[1]:], g.at.within(m[1], len(g.text)-m[1])
	}
	if m := extractBehind.FindStringIndex(g.text); m != nil && m[0] > 8 {
		g.text, g.at = g.text[:m[0]], g.at.within(0, m[0])
	}
	switch {
	case toReader.MatchString(g.text), officeHeld.MatchString(fold(g.text)):
	case meetingName.MatchString(fold(g.text)):
		g.score = max(g.score, 74) + 8
		g.sure = true
	case strings.HasPrefix(g.why, "it stands in quotation"):
		g.score = min(g.score, 50)
	}
	return g
}

// officeHeld is what somebody is at a meeting: "Committee member".
var officeHeld = words(`(?:committee|board|council|section|group) (?:members?|chair\w*|secretary|treasurer)|(?:ausschuss|vorstands|gremien)mitglied\S*|membre du (?:comite|bureau|conseil)|miembro d\S+ (?:comite|junta|comision|consejo)|(?:bestuurs|commissie)lid|lid van (?:de|het) (?:commissie|bestuur)`)

// lowerTalks takes from what stands with the label of a title, where another such label asks
// for the meeting: it is the talk held there.
func (l *look) lowerTalks(list []guess) {
	asked := l.withRole(isTitle)
	for _, p := range asked {
		for i := range list {
			if talkLabel.MatchString(p.label) && list[i].at.overlaps(p.value) {
				list[i].score = min(list[i].score, 50)
			}
		}
	}
	if !slices.ContainsFunc(asked, func(o pair) bool { return meetingLabel.MatchString(o.label) }) {
		return
	}
	for _, p := range asked {
		for i := range list {
			if list[i].at.overlaps(p.value) && !meetingLabel.MatchString(p.label) {
				list[i].score = min(list[i].score, 50)
			}
		}
	}
}

// talkLabel is a label for a talk that was held at a meeting.
var talkLabel = matching(`^(?:guest |invited |opening )?(?:talk|lecture|speaker|presentation)$|^(?:gast|fach|impuls)?(?:vortrag|referat)$|^(?:conference|expose|charla|ponencia|lezing|voordracht|inleiding)$`)

// meetingsInText finds the meetings that the words of passage i name.
func (l *look) meetingsInText(i int) []guess {
	var list []guess
	text := l.passages[i].text
	add := func(from, to, score int, why string) {
		list = append(list, guess{text: text[from:to], at: l.passageAt(i).within(from, to-from), score: score, why: why, sure: true})
	}
	if m := minutesHead.FindStringSubmatchIndex(text); m != nil && meetingName.MatchString(fold(text[m[2]:m[3]])) {
		add(m[2], m[3], 86, "these are its minutes")
	}
	if m := minutesDe.FindStringSubmatchIndex(text); m != nil {
		add(m[2], m[3], 88, "these are its minutes")
	} else if m := minutesOf.FindStringSubmatchIndex(text); m != nil {
		add(m[2], m[3], 82, "these are its minutes")
	}
	if m := aboutMeeting.FindStringSubmatchIndex(text); m != nil {
		add(m[2], m[3], 82, "the paper is about it")
	}
	if label, _, ok := strings.Cut(text, ":"); ok && len(strings.Fields(label)) < 13 && meetingName.MatchString(fold(label)) && attendanceList.MatchString(fold(text[len(label):])) {
		add(0, len(label), 88, "the heading names it")
	}
	if m := meetingBody.FindStringSubmatchIndex(text); m != nil && len(strings.Fields(text[m[2]:m[3]])) > 1 && capitalised(text[m[2]:m[3]]) {
		if k := strings.LastIndex(text[:m[3]], ", "); k > m[2] && len(find.Dates(head(text[k+2:], 20), l.langs)) > 0 {
			m[3] = k // "Werkgroep Hijsmiddelen, 14 mei 2026", not "…, 14. Sitzung"
		}
		add(m[2], m[3], 84, sentenceNames)
	}
	if m := meetingIn.FindStringSubmatchIndex(text); m != nil {
		if found := strings.TrimRight(text[m[2]:m[3]], " ,.;"); !strings.HasPrefix(found, "this ") {
			score := 76
			if l.bodyAtHead(found) {
				score = 82
			}
			add(m[2], m[2]+len(found), score, sentenceNames)
		}
	}
	return list
}

// bodyAtHead reports that two words or more with which the name of a meeting ends stand among the
// first lines of the paper too: the body that met.
func (l *look) bodyAtHead(name string) bool {
	words := strings.Fields(fold(name))
	if len(words) < 3 {
		return false
	}
	first, last := withoutCase(words[len(words)-2]), words[len(words)-1]
	return slices.ContainsFunc(l.folded[:min(4, len(l.folded))], func(line string) bool {
		return strings.Contains(line, first+" "+last) || strings.Contains(line, words[len(words)-2]+" "+last)
	})
}

// withoutCase takes the ending of a German genitive off a word.
func withoutCase(word string) string {
	if len(word) > 5 {
		return strings.TrimSuffix(strings.TrimSuffix(word, "s"), "e")
	}
	return word
}

// minutesHead is the heading of minutes with the meeting behind it, up to the day or the verb:
// "NOTULEN VOORJAARSVERGADERING gehouden op …", "Protokoll Mitgliederversammlung vom …".
var minutesHead = matching(`^(?i:minutes|protokoll|procès-verbal|compte rendu|acta|notulen|verslag|besluitenlijst|niederschrift)[ :–-]+(\p{Lu}[^\d,.;:()]{5,80}?)\s+(?:held|gehouden|abgehalten|tenue?|celebrada|vom|van|du|del|of|on|am|op|le)\s`)

// minutesDe is the meeting whose minutes they are where its name goes on in small letters: "Compte rendu
// de la réunion de la Commission technique Levage du 14 mai".
var minutesDe = matching(`(?:^|\s)(?i:compte[ -]rendu|procès-verbal|acta|notulen|verslag)(?i:(?: (?:de|del|du|des|van))?(?: (?:la|le|les|el|los|las|de|het)| l['’])?(?: (?:réunion|séance|reunión|sesión|vergadering))?(?: (?:de|del|du|des|van))?(?: (?:la|le|les|el|los|las|het)| l['’])?) ((?:Commission|Comité|Groupe de travail|Comisión|Grupo de trabajo|Assemblée|Asamblea|Conseil|Consejo|Junta|Commissie|Werkgroep)(?: [\p{L}’'-]+){1,7}?)(?:\s*[,.:;(]|\s+(?:du|de|del|le|el|les|van|op|d\. ?d\.)\s+(?:\p{L}+\s+)?\d|\s+(?:tenue?|réunie?|celebrad[oa]|gehouden)\b|$)`)

// aboutMeeting is what an extract is taken from.
var aboutMeeting = matching(`^(?i:über die|zur|of the|from the|sur la|de la|over de) ((?:\d{1,3}\. )?(?:[\p{L}-]*[Ss]itzung|[\p{L}-]*[Vv]ersammlung|[Mm]eeting|[Rr]éunion|[Rr]eunión|[Vv]ergadering)(?: (?:of the|des|der|du|de la|del|van de|van het) \p{Lu}[\p{L}-]+(?: \p{Lu}[\p{L}-]+){0,3})?)`)

var minutesOf = matching(`(?:^|\s)(?i:minutes|protokoll|proceedings|record|notes|procès-verbal|compte rendu|acta|notulen)(?i: of| der| des| de la| du| del?| van)(?i: the| de| het| la)?(?: \d{1,4}\.?(?:st|nd|rd|th|ª|º|e|ste|de|ème)?)?(?i: (?:(?:ordinary|regular|special|ordentliche|ordinaire|ordinaria|gewone) )?(?:meeting|sitzung|réunion|reunión|vergadering)(?: of| der| des| de la| du| del?| van)?(?: the| de| het)?)? (\p{Lu}[\p{L}’'-]+(?: (?:(?:and|of|for|the|on|für|und|der) ){0,2}\p{Lu}[\p{L}’'-]+){0,6})`)

var (
	meetingName    = words(`meeting|sitzung|versammlung|arbeitskreis|arbeitsgruppe|ausschuss|fachgruppe|treffen|reunion|assemblee|comite|commission|groupe de travail|asamblea|comision|grupo de trabajo|vergadering|\S*(?:vergadering|sitzung|versammlung|bijeenkomst|treffen|kreis)|werkgroep|committee|working group|council|board`)
	attendanceList = words(`attendance|sign-?in|sheet|anwesenheitsliste|teilnehmerliste|protokoll|minutes|list|presence|emargement|asistencia|acta|presentielijst|notulen|certificate|confirmation|bescheinigung|bestatigung|attestation|certificado|verklaring`)
	meetingBody    = matching(`(?:^|\s)(?i:present at|attended|took part in|an der sitzung|bei der sitzung|an|bei|à la réunion|au|assisté (?:au|à la)|en la reunión|en el|a la reunión|bij de vergadering|bij|van)\s+(?i:the |our |de la |du |der |des |van (?:de |het )?|del? |la |le |el )?((?:\p{Lu}[\p{L}-]*\s){0,2}(?i:(?:[\p{L}-]+ )?(?:committee|working group)|[\p{L}-]*ausschuss|arbeitskreis|arbeitsgruppe|fachgruppe|comité(?: (?:técnico|technique|local|directeur|ejecutivo))?|commission|groupe de travail|comisión|grupo de trabajo|commissie|werkgroep|assemblée générale(?: annuelle)?|asamblea general(?: anual)?)(?:\s(?:on|for|of|für|sur|de|voor)\s\p{Lu}[\p{L}-]*(?:\s\p{Lu}[\p{L}-]*)?|\s\p{Lu}[\p{L}-]*(?:\s\p{Lu}[\p{L}-]*)?)?(?:, \d+(?:\.|e|ª|º|th|nd|rd|st)? [\p{L}]+)?)`)
	meetingIn      = matching(`(?i)(?:attended|present at|took part in|participated in|an der|am|bei der|an dem|à la|assisté à la|participé à la|a la|asistió a la|en la|aan de|bij de|de)\s+(?:the |our )?((?:[\p{L}\d.,’'-]+\s+){0,5}?(?:meeting|[\p{L}-]*sitzung|[\p{L}-]*versammlung|réunion|assemblée|reunión|asamblea|[\p{L}-]*vergadering|[\p{L}-]*bijeenkomst)(?:\s+(?:of|des|der|du|de la|de l['’]|del?|van (?:de|het)?)\s+(?:the )?[\p{Lu}][\p{L}\d’'-]*(?:\s+[\p{L}\d’'-]+){0,4}?)?)(?:\s+(?:on|held|at|in|from|am|vom|teil|le|du|el|op|van|in|von|celebrada|tenue?|gehouden)\s|[,.(]|$)`)
)
