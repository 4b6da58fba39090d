package extract

import (
	"strings"
)

const (
	// madeOn is that a paper was made out, with the day between the verb and who did it.
	madeOn = `(?:issued|awarded|certified|recorded|verified|signed|made out|released|generated|ausgestellt|erstellt|bescheinigt|bestätigt|ausgefertigt|délivrée?|émise?|établie?|remise?|expedid[oa]|emitid[oa]|otorgad[oa]|extendid[oa]|uitgereikt|afgegeven|opgemaakt|verstrekt|toegekend)(?:\s(?:digitally|electronically|online|digital|elektronisch|numériquement|électroniquement|digitalmente|digitaal))?(?:,?\s(?:on|at|in|am|den|im|le|à|el|en|op|te)\s[^,;()!?]{3,26}?){1,2}\s(?:by|von|vom|durch|par|por|door)`
	// streetEnd ends the name of a street, and hardly another.
	streetEnd = `straße|strasse|str\.|gasse|weg|platz|allee|ufer|steig|damm|graben|laan|straat|plein|gracht|kade|dijk|singel|dreef|steeg`
	// streetWord ends the name of a street that is one word, or two, where its number stands behind.
	streetWord = `(?:` + streetEnd + `|markt|ring|hof|berg|tal|pad|weide)`
)

var (
	// afterForm is what stands behind the legal form of a body in its line, where that goes on
	// with an address: "B.V. Roggeweg 80".
	afterForm = matching(`(?:^|\s)(?:Inc|Ltd|LLC|LLP|PLC|plc|GmbH|gGmbH|mbH|AG|KG|UG|e\.\s?V|e\.\s?G|S\.\s?A\.\s?S|S\.\s?A|S\.\s?L|B\.\s?V|N\.\s?V|BV|NV|vzw|VZW|ASBL|asbl|SARL|SAS)\.?,?(\s\p{Lu}.*\d.*)$`)
	// smallStreet is a street with its number behind a name, postTown a postcode with its town.
	smallStreet = matching(`[\s,]\s?(?:(?:Am|An der|Im|Zum|Zur|Auf der|Unter den|Aan de|Aan het)\s)?\p{Lu}[\p{L}.-]*` + streetWord + `\s\d{1,3}\s?[a-z]?(?:\b.*)$`)
	postTown    = matching(`,?\s(?:(?:A|B|CH|D|F|L|NL|DE|AT)-)?(\d{4,5})(?:\s[A-Z]{2})?\s\p{Lu}\p{L}{2,}(?:[\s-]\p{L}+){0,3}$`)
	careOf      = matching(`,?\s(?:\p{Ll}[\p{L}-]+\s)?(?i:p/a|c/o|z\.\s?hd\.|t\.a\.v\.|attn\.)\s.*$`)
	aYear       = matching(`^(?:19|20)\d\d$`)
	// anOffice is the plural of an office, or one with its article.
	anOffice = matching(`^(?:the |die |der |das |les? |la |los? |las? |el |de |het )?(?:editors?|editorial (?:board|office|team)|organi[sz]ers|trustees|examiners|secretaries|herausgeber(?:innen)?|organisatoren|redaktion|schriftleitung|veranstalter|redacteurs?|redaction|comite(?: \S+){0,2}|organisateurs|editores?|redaccion|organizadores|redactie|organisatie|inschrijvingen|admissions|registrations|bookings|certificates|membership)$`)
)

// beforeAddress cuts an address off the end of a body: "Werkstatt Rätikon 7099 Churwald".
func beforeAddress(text string) string {
	if m := afterForm.FindStringSubmatchIndex(text); m != nil && !strings.Contains(text[m[2]:m[3]], "& Co") {
		text = text[:m[2]]
	}
	if m := careOf.FindStringIndex(text); m != nil && m[0] > 3 {
		text = text[:m[0]]
	}
	if m := smallStreet.FindStringIndex(text); m != nil && m[0] > 8 {
		text = text[:m[0]]
	}
	if m := postTown.FindStringSubmatchIndex(text); m != nil && m[0] > 8 && !aYear.MatchString(text[m[2]:m[3]]) {
		text = text[:m[0]]
	}
	return strings.TrimRight(text, " ,")
}

// isOffice reports the office of somebody in a body, or of several.
func isOffice(text string) bool {
	low := fold(text)
	return anOffice.MatchString(low) || officeLine(text) || outsideDesk.MatchString(low)
}

var (
	// anyBody is a body that was named before.
	anyBody = matching(`^(?:the|our|die|der|das|unsere?|le|la|les|l'|notre|el|nuestr[oa]|de|het|onze?) ?(?:board|council|committee|registry|register|guild|society|association|institute?|college|school|academy|union|federation|chamber|authority|agency|centre|trust|journal|company|kammer|verband|verein|akademie|schule|gesellschaft|redaktion|ordre|chambre|conseil|ecole|federation|revue|colegio|consejo|instituto|escuela|asociacion|federacion|revista|kamer|vereniging|stichting|bond|gilde|instituut|tijdschrift)$`)
	// portalOf is a site or the like and whose it is.
	portalOf = matching(`^(?i:(?:the |das |die |le |la |el |het )?(?:[\p{L}-]+ ){0,2}[\p{L}-]*(?:portal|platform|plattform|website|portaal|portail|plateforme|plataforma|sitio)(?: [\p{Ll}-]+| (?:de|d'|d’) ?[\p{Ll}-]+){0,2} (?:of(?: the)?|der|des|von|vom|de la|de l['’]|du|des|de|del|van(?: de| het)?)) ?(\p{Lu}.*)$`)
	// madeThing is a thing by its kind and who made it.
	madeThing = matching(`^(?i:an?|eine?|une?|una|un|een) (?:\p{Ll}[\p{L}-]* ){1,4}(?:from|by|of|von|vom|par|de|por|van|door) (?:the |der |la |le |l['’]|el |de |het )?(\p{Lu}.*)$`)
)

// behindMaker returns the part of a line behind the words for who made the paper out.
func (l *look) behindMaker(a at) at {
	text := l.text(a)
	if m := portalOf.FindStringSubmatchIndex(text); m != nil && len(strings.Fields(text[m[2]:])) > 1 && l.isBody(text[m[2]:]) {
		return a.within(m[2], len(text)-m[2])
	}
	if m := madeThing.FindStringSubmatchIndex(text); m != nil && len(strings.Fields(text[m[2]:])) > 1 {
		return a.within(m[2], len(text)-m[2])
	}
	m := heldBy.FindStringIndex(text)
	if m == nil || m[1] < 6 || m[0] > 40 || m[1] >= len(text) || !capitalised(text[m[1]:]) || !madeBy.MatchString(text[m[0]:m[1]]) {
		return a
	}
	return a.within(m[1], len(beforeAddress(text[m[1]:])))
}
