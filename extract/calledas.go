package extract

import (
	"strings"
)

// What stands around a name in its line without being part of it: letters behind, a calling
// in small letters or a thing of the person's before it.

var (
	// capitalsEnd is a word in capitals behind a name that is not set in them.
	capitalsEnd = matching(`^((?:\p{Lu}\.[ -]?)+(?:\p{Ll}+ ){0,3}\p{Lu}\p{L}*\p{Ll}[\p{L}’'-]*|\p{Lu}\p{L}*\p{Ll}[\p{L}’'-]*(?: \p{L}[\p{L}.’'-]*)* \p{L}*\p{Lu}\p{Ll}[\p{L}’'-]*)(?:,? \(?\p{Lu}{2,6}\)?)+$`)
	// noLetters are capitals behind a name that are a number, a country or the form of a firm.
	noLetters = matching(`\s(?:II|III|IV|VI|VII|VIII|IX|AG|KG|OHG|UG|EG|SE|SA|SL|SAS|SARL|BV|NV|VZW|ASBL|AS|OY|AB|PLC|LTD|LLC|LLP|INC|USA?|UK|EU|UN)$`)
	// givenCapitals are first names in capitals, which some letter other than a consonant tells
	// from letters behind a name.
	givenCapitals = matching(`^\p{Lu}*[AEIOUYÄÖÜÉÈÁÍÓÚ]\p{Lu}*(?:[ -]\p{Lu}+)*(?: \p{Lu}\.?)*$`)
	// thingOf is a thing of somebody's with the small word behind it: "Weiterbildung von ".
	thingOf = matching(`^\p{L}[\p{L}-]*(?: \p{L}[\p{L}-]*)? (?:von|der|des|vom|de|del|du|van|of|for|für|pour|para|voor) `)
	// smallCalling is what somebody is, in small letters before the name: "el bacteriólogo ".
	smallCalling = matching(`^(?:(?:the|our|der|die|unser|unsere|el|la|nuestr[oa]|le|notre|de|het|onze|l['’])\s?)?(?:\p{Ll}[\p{L}-]{3,}\s){1,3}`)
)

// firstBehind reports that what stands behind a surname and a comma is a first name or its
// initials, though it looks like letters: "VEY, ANN", "Vey, A.B.".
func firstBehind(last, first string) bool {
	if !surnameOnly.MatchString(last) {
		return false
	}
	return onlyInitials.MatchString(first) || allCaps(last) && givenCapitals.MatchString(first)
}

// initialsFrom returns where a name begins whose first initials look like a form of address,
// which has a space behind it: "Mevrouw M.J. Vey".
func initialsFrom(text string, from int) int {
	for from > 1 && initialNext.MatchString(text[from:]) && initialLast.MatchString(text[:from]) {
		from -= 2
	}
	return from
}

var (
	initialNext = matching(`^[A-Z]\.`)
	initialLast = matching(`(?:^|[\s(,.])[A-Z]\.$`)
)

// lettersBehind returns where the letters of somebody's calling begin behind the name: "Ann
// Vey RM"; 0 where there are none, or where they are the form of a firm.
func lettersBehind(text string) int {
	if len(text) > 70 {
		return 0
	}
	m := capitalsEnd.FindStringSubmatchIndex(text)
	if m == nil || noLetters.MatchString(text) || bodyWord.MatchString(fold(text)) || notName.MatchString(fold(text[:m[3]])) {
		return 0
	}
	return m[3]
}

// initialsLast is a surname with the initials behind it: "VEY A.", "van der Vey A.B.".
var initialsLast = matching(`^((?:` + particle + `\s+){0,3}\p{Lu}[\p{L}’'-]{2,}),? ((?:\p{Lu}\.\s?){1,3}|\p{Lu})$`)

// calledByName is a name by its initials with the name by which somebody is called in
// brackets: "mw. J.W. (Jorinde) van der Vey".
var calledByName = matching(`^(?:` + honorific + `\s*)*(?:\p{Lu}\.\s?)+\((\p{Lu}[\p{L}-]+)\)\s+((?:` + particle + `\s+){0,3}(?:[dDtT]['’])?` + nameWord + `(?:[\s-]` + nameWord + `){0,2})`)

// streetName ends the name of a street, which stood behind that of the person in one line.
var streetName = matching(`(?i)^\p{L}+(?:` + streetEnd + `)$|^(?:street|road|lane|avenue|drive|close|court)$`)

// jobWord ends with what somebody is by trade, as it stands behind a name and a comma: "Staff
// Nurse", "Senior Rope Technician", "Diplomkrankenschwester".
var jobWord = matching(`(?:^| )(?:nurse|midwife|matron|engineer|technician|technologist|surveyor|surgeon|physician|practitioner|therapist|hygienist|teacher|lecturer|inspector|supervisor|assistant|consultant|pharmacist|dentist|solicitor|barrister|architect|accountant|auditor|translator|interpreter|welder|diver|pilot|analyst|scientist|librarian|paramedic|radiographer|electrician|plumber|fitter|foreman|warden|adviser|advisor|designer|planner|operator|carer|optician|optometrist|chemist|geologist|biologist|psychologist|counsellor|\p{L}*(?:schwester|pfleger(?:in)?|fachkraft|kaufmann|kauffrau|ingenieur(?:in)?|techniker(?:in)?|meister(?:in)?|assistent(?:in)?|lehrer(?:in)?|beraterin|prufer(?:in)?|hebamme|anwalt|anwaltin)|infirmier|infirmiere|ingenieure?|technicien(?:ne)?|enseignante?|enfermer[oa]|tecnic[oa]|ingenier[oa]|traductora?|verpleegkundige|verloskundige|ingenieur|adviseur|lasser|monteur|tolk|vertaler)$`)

// turned returns the name in text that has the surname first, or the first name in brackets,
// and how many bytes it takes; "" where it has neither.
func turned(cut string) (name string, to int) {
	if m := lastFirst.FindStringSubmatchIndex(cut); m != nil && !isCalling(cut[m[4]:m[5]]) && !degree.MatchString(" "+cut[m[4]:m[5]]) {
		last, first := cut[m[2]:m[3]], cut[m[4]:m[5]]
		if !notName.MatchString(fold(last)) && !notName.MatchString(fold(first)) && !officeWord.MatchString(fold(first)) && !jobWord.MatchString(fold(first)) {
			given := first
			if !onlyInitials.MatchString(first) {
				given = stripTitles(first)
			}
			if i := lastInitial.FindString(first); i != "" && !strings.HasSuffix(given, i) {
				given += strings.TrimSuffix(i, ".") + "."
			}
			return given + " " + last, len(cut)
		}
	}
	if m := initialsLast.FindStringSubmatchIndex(cut); m != nil && !notName.MatchString(fold(cut[m[2]:m[3]])) {
		return strings.TrimRight(cut[m[4]:m[5]], ". ") + ". " + cut[m[2]:m[3]], len(cut)
	}
	if m := calledByName.FindStringSubmatchIndex(cut); m != nil {
		return cut[m[2]:m[3]] + " " + cut[m[4]:m[5]], m[5]
	}
	return "", 0
}

// nameEndsAt returns where a name ends of which what follows was taken for more: a purpose,
// the sign of a number, a day, or what the person has.
func nameEndsAt(cut string, from, to int) int {
	if m := hasSomething.FindStringIndex(cut[from:to]); m != nil && strings.Contains(cut[from:from+m[0]], " ") {
		to = from + m[0] // "Ann Vey’s record"
	}
	if k := strings.LastIndexByte(cut[from:to], ' '); k > 0 && numberSign.MatchString(cut[from+k:]) {
		to = from + k // "Anna Vey N.º 12"
	}
	if k := purpose.FindStringIndex(cut[from:to]); k != nil {
		to = from + k[0] // "Für Herrn Vey zur Vorlage bei der Kammer"
	}
	if k := strings.Index(cut[from:to], " den "); k > 0 && !beforeDen.MatchString(cut[from:from+k]) {
		to = from + k
	}
	return to
}

// beforeStreet returns where a name ends before the street and its number in its line; 0
// where none stands there.
func (l *look) beforeStreet(a at, name string) int {
	text := l.passages[a.passage].text
	if !strings.HasPrefix(l.text(a), name) || !houseNumber.MatchString(text[min(len(text), a.span.From+len(name)):]) {
		return 0
	}
	k := strings.LastIndexByte(name, ' ')
	if k < 0 || !streetName.MatchString(name[k+1:]) {
		return 0
	}
	if full, initials := nameWords(name[:k]); full+initials < 2 {
		return 0
	}
	return k
}

var houseNumber = matching(`^ \d{1,4}\s?[a-z]?(?:[,;.]|\s|$)`)

// nameOfFirm reports that the line of a name goes on with the form of a firm: "Vey Yards S.A."
func (l *look) nameOfFirm(a at) bool {
	text := l.passages[a.passage].text
	return a.span.From == 0 && len(text) < 60 && formAtEnd.MatchString(text) && !strings.Contains(text, ", ")
}

// withoutRest returns a name and its place without a calling or a thing of the person's before
// it, and without the street behind it.
func (l *look) withoutRest(a at, name string) (at, string) {
	for _, k := range []int{l.withoutCalling(name), behindThing(name)} {
		if k > 0 && k < len(name) && strings.HasPrefix(l.text(a), name) {
			return a.within(k, a.span.To-a.span.From-k), name[k:]
		}
	}
	if rest, ok := strings.CutPrefix(name, "C. "); ok && strings.HasPrefix(l.text(a), name) && articleEnds.MatchString(l.passages[a.passage].text[:a.span.From]) {
		return a.within(len(name)-len(rest), a.span.To-a.span.From-len(name)+len(rest)), rest
	}
	if k := l.beforeStreet(a, name); k > 0 {
		return a.within(0, k), name[:k]
	}
	return a, name
}

// articleEnds ends in front of a form of address of one letter: "la" before "C. Ana Vey".
var articleEnds = matching(`(?:^|\s)(?:[Ll]a|[Ee]l|[Aa]l) $`)

// nameWithin returns where a name begins and ends of which initials were taken for a form of
// address, or letters behind it for a part of it.
func nameWithin(text string, from, to int) (int, int) {
	from = initialsFrom(text, from)
	if k := lettersBehind(text[from:to]); k > 0 {
		to = from + k
	}
	return from, to
}

// calledAs returns how many bytes a calling in small letters takes at byte from, behind a
// "that" and before a name of which the sentence goes on: "que el bacteriólogo Evaristo Vey actuó".
func calledAs(text string, from int) int {
	if !thatEnds.MatchString(strings.TrimRight(fold(tail(text[:from], 12)), " ")) {
		return 0
	}
	text = text[from:]
	m := smallCalling.FindStringIndex(text)
	if m == nil {
		return 0
	}
	name, from, to, _ := person(text[m[1]:])
	rest := strings.TrimLeft(text[m[1]+to:], " ,")
	if full, _ := nameWords(name); full < 2 || from > 0 || !startsLower(rest) {
		return 0
	}
	return m[1]
}

// behindThing returns where a name begins behind a thing that is the person's: "Card of Ann
// Vey", "Weiterbildung von Ann Vey"; 0 where it begins with the name.
func behindThing(name string) int {
	m := thingOf.FindStringIndex(name)
	if m == nil {
		return 0
	}
	before, thing := name[:m[1]], fold(name[:m[1]])
	_, from, _, _ := person(name[m[1]:])
	from += m[1]
	if full, _ := nameWords(name[from:]); full < 2 || !eventIn.MatchString(thing) && !heading.MatchString(strings.TrimSpace(thing)) && !ownThing.MatchString(before) {
		return 0
	}
	return from
}
