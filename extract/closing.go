package extract

import (
	"strings"

	"evidencevault/extract/find"
)

var (
	// officeWord are words for what people are in a body, by which they sign.
	officeWord = words(`(?:vice-?|deputy |co-?|assistant |first |general |honorary |programme |program |course |training |education |academic |technical |managing |executive |branch |section )*(?:directors?|directress|secretar(?:y|iat)|principal|president|chair(?:man|woman|person)?|registrar|manager|head|dean|coordinator|treasurer|instructor|tutor|trainer|facilitator|editor|examiner|officer|administrator|convenor|rector|provost)|dekan(?:in)?|rektor(?:in)?|\S*leit(?:er|erin|ung)|geschafts(?:fuhrer(?:in)?|fuhrung|stelle)|vorsitz(?:ende[rn]?)?|schriftfuhrer(?:in)?|dozent(?:in)?|referat\s?\S*|referent(?:in)?|sekretariat|prufer(?:in)?|kassenwart(?:in)?|schatzmeister(?:in)?|ausbilder(?:in)?|direct(?:eur|rice)|presidente?s?|secretaire(?: generale?)?|secretariat|responsable|formateur|formatrice|tresorier|tresoriere|coordinat(?:eur|rice)|directora?|secretari[oa]|secretaria|presidenta?|coordinadora?|profesora?|docente|instructora?|decan[oa]|gerente|jef[ea]|tesorer[oa]|voorzitter|secretaris|penningmeester|\S*coordinator|\S*coordinatrice|hoofd|directeur|directrice|cursusleid(?:er|ster)|docent|\S*redact(?:eur|rice)|\S*redakteur(?:in)?|redacteur en chef|redactrice en chef|examinator|opleidingshoofd|service des \S+|geschaftsstelle|office|certificates? (?:office|desk)`)
	forBody    = matching(`^(?:[Oo]n behalf of|[Ff]or(?: and on behalf of)?|p\.?\s?p\.?|[Ii]\.\s?[AV]\.|[Ii]m Auftrag(?: (?:der|des|von))?|[Ff]ür|[Nn]amens|[Vv]oor|[Pp]our(?: le compte de)?|[Pp]/[Oo]|[Aa]u nom de|[Pp]or|[Ee]n nombre de|[Pp]\.\s?[AO]\.|[Pp]\.\s?[Oo]\.\s?(?:de )?|[Nn]amens|[Bb]ij volmacht van)\s+(?:die |den |das |het |de |la |le |l['’]|el |the )?(\p{Lu}.{3,90})$`)
	phoneLine  = matching(`(?i)^(?:(?:call|ring|tel(?:ephone|efon|éfono|éphone|efoon)?|phone|fax|mobile?)\b.{0,4}\s*[:.]?\s*)?[+(]?\d[\d ()/.-]{6,}$`)
	streetLine = matching(`^(?:Carrera|Cra\.?|Calle|Cl\.?|Avenida|Av\.?|Jirón|Jr\.?|Paseo|Plaza|Pza\.?|C/) ?\p{Lu}?[\p{L}.' -]*[#,]? ?\d+\b[^:]{0,60}$|(?:^|,\s)(?:\p{Lu}{1,2}\d{1,2}\s?\d\p{Lu}{2}|\p{Lu}{2}\s\d{5}(?:-\d{4})?|\d{5}\s\p{Lu}\p{L}+|\d{4}\s?\p{Lu}{2}\s\p{Lu}?\p{L}*|\p{Lu}[\p{L} ]+ \p{Lu}{2,3}\d{1,3}\s\d\p{Lu}{2})\s*$|^\d{1,4}[a-z]?,? (?:\p{Lu}[\p{L}’'.-]+|rue|quai|allée|avenue|place|chemin|calle|impasse|cours|boulevard)(?: \p{L}[\p{L}’'.-]+){0,4},? .*\d{4,5}|^\p{Lu}[\p{L}.' -]+ \d{1,4}\s?[a-z]?, (?:\d{4,5}|[A-Z]{1,2}\d)|^\p{Lu}[\p{L}.'’ -]{3,30} \d{1,4}\s?[a-z]?, \p{Lu}\p{L}+(?:[ -]\p{L}+){0,2}$|^(?:(?:Am|An der|Im|Zum|Zur|Auf der|Unter den|Rue|Calle|Avenida|Plaza|Quai|Aan de|Aan het) )?\p{Lu}[\p{L}.'’ -]*(?:str\.|straße|strasse|weg|platz|gasse|allee|ufer|steig|turm|damm|markt|graben|kade|laan|straat|plein|gracht|dijk|singel|Street|Road|Lane|Avenue|Close|Drive|Walk|Row|Way|Court) \d{1,4}\s?[a-z]?$|^(?:Am|An der|Im|Zum|Zur|Auf der|Unter den|Aan de) \p{Lu}\p{L}+ \d{1,4}\s?[a-z]?$`)
)

// A closing is what stands at the end of a paper: who signs, as what, and for whom.
type closing struct {
	signs  map[int]bool // passages that are a name of somebody who signs, or an office
	bodies []at         // bodies for which somebody signs
}

// findClosing marks who signs: a name with an office beside it or beneath it, or with
// the words "on behalf of" a body beneath it.
func (l *look) findClosing() {
	l.closing = closing{signs: map[int]bool{}}
	for i, p := range l.passages {
		if l.named(i) {
			continue
		}
		name, _, to, _ := person(p.text)
		if full, initials := nameWords(name); name == "" || full+initials < 2 || bodyOnly(name) {
			if l.officeAt(i, 0) {
				l.closing.signs[i] = true
			}
			continue
		}
		rest := strings.TrimLeft(p.text[to:], " ,")
		if m := forBody.FindStringSubmatchIndex(rest); m != nil && i > 1 && strings.HasPrefix(strings.TrimLeft(p.text[to:], " "), ",") {
			l.closing.signs[i] = true // "Ann Vey, for the Lathe Circle"
			from := len(p.text) - len(rest)
			l.closing.bodies = append(l.closing.bodies, l.passageAt(i).within(from+m[2], m[3]-m[2]))
			continue
		}
		if rest == "" && (l.beneathOffice(i) || i > 1 && closesLetter(l.passages[i-1].text) && !l.isBody(name)) {
			l.closing.signs[i] = true
			continue
		}
		skip := len(p.text) - len(rest)
		if body := strings.Trim(rest, " ."); isPersonal(p.text[:to]) && strings.HasPrefix(strings.TrimLeft(p.text[to:], " "), ",") && i >= len(l.passages)-4 && i > 1 && l.isBody(body) && len(strings.Fields(body)) > 1 && !hasFigure(body) && !officeFirst.MatchString(fold(body)) && !clerkTo.MatchString(body) {
			l.closing.signs[i] = true // "Ann Vey, Society of …" at the foot
			l.closing.bodies = append(l.closing.bodies, l.passageAt(i).within(skip, len(rest)))
			continue
		}
		switch {
		case rest != "" && len(p.text) < 110 && strings.HasPrefix(strings.TrimLeft(p.text[to:], " "), ",") && l.officeAt(i, skip):
			l.closing.signs[i] = true
		case rest == "" || degree.MatchString(" "+rest):
			l.closeBelow(i)
		}
	}
}

// named reports that passage i is the value of a label for the person or the title.
func (l *look) named(i int) bool {
	p, ok := l.labelOf(l.passageAt(i))
	return ok && (p.role == isPerson || p.role == isTitle || p.role == isGrade || p.role == isPosition)
}

// closeBelow marks the name in passage i when an office or a body stands beneath it.
func (l *look) closeBelow(i int) {
	last := l.cells[l.passages[i].cells[len(l.passages[i].cells)-1]].row
	for _, ci := range l.rows[last] {
		mate := l.cells[ci].passage
		if m := forBody.FindStringSubmatchIndex(l.passages[mate].text); m != nil && mate != i {
			l.closing.signs[i], l.closing.signs[mate] = true, true
			l.closing.bodies = append(l.closing.bodies, l.passageAt(mate).within(m[2], m[3]-m[2]))
			return
		}
	}
	next := l.nextPassage(i)
	if next >= 0 && i > 1 && len(l.passages[i].cells) == 1 && l.forBodyAt(i, next, l.isBody) {
		return
	}
	if next < 0 || 2*i < len(l.passages) && len(l.passages) > 6 || i > 0 && endsGiving(l.passages[i-1].text) {
		return
	}
	if l.forBodyAt(i, next, func(string) bool { return true }) {
		return
	}
	if l.officeAt(next, 0) || i > 1 && forSome.MatchString(l.folded[next]) {
		l.closing.signs[i], l.closing.signs[next] = true, true
	}
}

// forBodyAt marks the name in passage i and the body for which it signs in the next, if
// that begins with the words for it and the body is fit.
func (l *look) forBodyAt(i, next int, fit func(string) bool) bool {
	text := l.passages[next].text
	m := forBody.FindStringSubmatchIndex(text)
	if m == nil || len(find.Dates(text, nil)) > 0 || startsArticle(text[m[2]:m[3]]) || !fit(text[m[2]:m[3]]) {
		return false
	}
	l.closing.signs[i], l.closing.signs[next] = true, true
	l.closing.bodies = append(l.closing.bodies, l.passageAt(next).within(m[2], m[3]-m[2]))
	return true
}

var startsEvent = matching(`(?i)^(?:` + eventWord + `|attending|completing|taking part|participation)\b`)

func startsArticle(text string) bool { return startsEvent.MatchString(text) }

// officeAt reports that passage i, from byte skip on, is an office, alone or with a body
// behind it: "Chair", "Head of Education", "Leitung, Akademie Ahrenkamp".
func (l *look) officeAt(i, skip int) bool {
	text := strings.Trim(l.passages[i].text[skip:], " .,")
	if len(text) > 100 || reachLine(text) || text == "" || strings.HasSuffix(l.passages[i].text, ":") || len(find.Dates(text, nil)) > 0 {
		return false
	}
	office, body, parted := strings.Cut(text, ", ")
	if n := len(strings.Fields(office)); n > 4 || !officeWord.MatchString(fold(office)) || l.isBody(office) && !officeFirst.MatchString(fold(office)) {
		return false
	}
	if parted && (l.isBody(body) || (skip > 0 || l.nameStands(i-1)) && capitalised(body) && len(strings.Fields(body)) > 1 && len(strings.Fields(body)) < 9 && !reachLine(body) && !officeWord.MatchString(fold(body)) && 2*i > len(l.passages)) {
		k := skip + strings.Index(l.passages[i].text[skip:], body)
		l.closing.bodies = append(l.closing.bodies, l.passageAt(i).within(k, len(body)))
	}
	return true
}

// nameStands reports a passage that is a person's name and nothing else: what follows
// the office beneath it is no second name.
func (l *look) nameStands(i int) bool {
	if i < 0 {
		return false
	}
	name, _, to, _ := person(l.passages[i].text)
	full, _ := nameWords(name)
	return full > 1 && strings.Trim(l.passages[i].text[to:], " .,") == ""
}

var (
	officeFirst = words(`head of|director of|manager|office|secretary|referat|leitung|chair|coordinator|service|dean|registrar|president\w*|directeur|directora?`)
)

// officeLine reports a line that is an office and nothing else.
func officeLine(text string) bool {
	return len(strings.Fields(text)) < 4 && officeWord.MatchString(fold(text)) && !bodyWord.MatchString(fold(text))
}

func bodyOnly(name string) bool {
	return bodyWord.MatchString(fold(name)) && officeWord.MatchString(fold(name))
}

// aside reports a passage that names neither the person, nor the title, nor a body: an
// address, a telephone number, an office, or who signs.
func (l *look) aside(i int) bool {
	return l.closing.signs[i] || reachLine(l.passages[i].text) || signHere.MatchString(fold(l.passages[i].text)) || chrome(l.passages[i].text)
}

// signHere is what stands beneath a line to sign on.
var signHere = matching(`^\(?(?:(?:place|ort|lieu|lugar|plaats)(?:,| and| und| et| y| en|/)? ?(?:date|datum|fecha)|(?:signature|unterschrift|firma|handtekening|stempel|stamp|cachet|sello|seal|siegel)(?:s|en)?(?: (?:and|und|et|y|en|/|,|of|der|de|des|del|du|van)? ?(?:the |de |la |le )?\S+){0,3}|signed for .{0,40}|authori[sz]ed signat\w+)\)?:?$`)

// chrome reports what a program writes around a page: the way to it, a row of buttons,
// or the foot.
func chrome(text string) bool {
	for _, mark := range []string{" > ", " › ", " » ", " | ", " / "} {
		if strings.Count(text, mark) >= 2 && len(text) < 120 && !hasFigure(text) {
			return true
		}
	}
	return chromeLine.MatchString(fold(text)) || leavesPage.MatchString(fold(text)) && !strings.HasSuffix(text, ".") || strings.HasPrefix(text, "-----") || strings.HasPrefix(text, ">")
}

// leavesPage is a row of buttons with the one to leave.
var leavesPage = words(`log ?out|log off|sign out|abmelden|ausloggen|uitloggen|afmelden|se deconnecter|deconnexion|cerrar sesion`)

var chromeLine = matching(`^(?:(?:privacy|datenschutz|mentions legales|aviso legal|imprint|impressum)(?:$| ?[·|,/&]| (?:policy|notice|statement|und|and))|questions\?|fragen\?|des questions|dudas|vragen\?|log ?out|abmelden|home|print this page|this (?:message|e-?mail) is |diese (?:nachricht|e-?mail) |ce (?:message|courriel) |este (?:mensaje|correo) |dit bericht |original message|mensaje original|ursprungliche nachricht|message d'origine|oorspronkelijk bericht|please (?:do not|think|consider)|unsubscribe)`)

// reachLine reports an address or a telephone number.
func reachLine(text string) bool {
	return streetLine.MatchString(text) || phoneLine.MatchString(text) || len(text) < 60 && (len(find.Phones(text)) > 0 || strings.Contains(text, "@"))
}
