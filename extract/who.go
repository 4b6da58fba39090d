package extract

import (
	"strings"

	"evidencevault/extract/paper"
)

var (
	// greets is a line that greets somebody by the first name alone.
	greets = matching(`^(?:Dear|Hi|Hello|Liebe[rs]?|Hallo|Cher|Chère|Bonjour|Beste|Dag|Estimad[oa]|Querid[oa]|Hola)\s(\p{Lu}[\p{L}-]+)\s?[,:!]?$`)
	// paidBy is a line that names who paid and nothing else.
	paidBy = matching(`^(?i:(?:paid|received|settled|bezahlt|gezahlt|eingezahlt|erhalten|überwiesen|payée?|réglée?|versée?|reçue?|pagad[oa]|abonad[oa]|recibid[oa]|betaald|voldaan|ontvangen)(?: (?:in cash|in bar|bar|comptant|en efectivo|contant))?\s)?(?i:von|from|van|de|by|durch|par|por|door)\s?:?\s+(?:(?:Herrn?|Frau|Mr|Mrs|Ms|Mme|M\.|Monsieur|Madame|D\.|Dña\.?|de heer|mevrouw)\.?\s+)?(\p{Lu}.*)$`)
	// guildNumber is the number by which some body knows the one whose name stands before it.
	guildNumber = matching(`^(?:\p{Lu}[\p{L}’'-]+,?\s){2,4}?(\p{Lu}[\p{L}-]{2,}(?:\s\p{L}+)?\s(?i:no|nr|nos|n[°º]|number|nummer|numéro|número)\.?º?:?\s?\S{0,4}\d)`)
	// wordNumber is a word with its number behind a name: "Ann Vey Registrant 118".
	wordNumber = matching(`^(?:\p{Lu}[\p{L}’'-]+\s){2,4}?(\p{Lu}\p{L}{2,}\.?\s[\p{L}-]{0,4}\d)`)
)

// namesByPlace finds who is meant by where a name stands: beneath the word for a person, by
// the first name with which a letter greets, or on a bill behind the word for who paid.
func (l *look) namesByPlace(add func(at, string, int, string)) {
	for i, p := range l.passages {
		name, from, to, _ := person(p.text)
		if ci := p.cells[0]; len(p.cells) == 1 && isPersonal(p.text) && to-from > 0 && l.beneathPersonWord(ci) {
			add(l.whole(ci).within(from, to-from), name, 84, "it stands beneath the word for the person")
		}
		if m := greets.FindStringSubmatch(p.text); m != nil {
			l.fullNameOf(m[1], add)
		}
		if m := paidBy.FindStringSubmatchIndex(p.text); m != nil && l.kind == paper.Receipt && isPersonal(p.text[m[2]:m[3]]) && !l.isBody(p.text) {
			who, a, b, _ := person(p.text[m[2]:m[3]])
			add(l.passageAt(i).within(m[2]+a, b-a), who, 86, "the line says who paid")
		}
	}
}

// beneathPersonWord reports that the cell above in the same column asks for a person by its
// stem and holds nothing else: "Cliente" over "Ann Vey".
func (l *look) beneathPersonWord(ci int) bool {
	c := &l.cells[ci]
	for r := c.row - 1; r >= 0 && r >= c.row-2; r-- {
		for _, above := range l.rows[r] {
			a := &l.cells[above]
			low := strings.Trim(fold(a.text), " :")
			if a.page != c.page || l.boxed && min(a.box[2], c.box[2]) <= max(a.box[0], c.box[0]) {
				continue
			}
			return len(strings.Fields(low)) < 3 && strongPerson.MatchString(low) && !signerStem.MatchString(low) && !numberStem.MatchString(low) && !hasFigure(low)
		}
	}
	return false
}

// fullNameOf adds the full names in the paper that begin with a first name.
func (l *look) fullNameOf(first string, add func(at, string, int, string)) {
	for i, p := range l.passages {
		for _, m := range anyName.FindAllStringIndex(p.text, -1) {
			text := p.text[m[0]:m[1]]
			if name, from, to, _ := person(text); strings.HasPrefix(name, first+" ") && isPersonal(name) && !greets.MatchString(p.text) {
				add(l.passageAt(i).within(m[0]+from, to-from), name, 80, "the letter greets the first name")
			}
		}
	}
}

// withFirstName completes a form of address with two surnames by the name that the paper gives in full: "Estimada Sra.
// Garrigós Montull" by "Nuria Garrigós Montull".
func (l *look) withFirstName(g guess) guess {
	if m := initialFirst.FindStringSubmatch(g.text); m != nil {
		return l.inFull(g, m[1], m[2])
	}
	if l.lang != "es" || len(strings.Fields(g.text)) != 2 || !politeBefore.MatchString(fold(tail(l.passages[g.at.passage].text[:g.at.span.To], 24+len(g.text)))) {
		return g
	}
	for i, p := range l.passages {
		for _, m := range anyName.FindAllStringIndex(p.text, -1) {
			name, from, to, _ := person(p.text[m[0]:m[1]])
			if first, ok := strings.CutSuffix(name, " "+g.text); ok && len(strings.Fields(first)) < 3 && isPersonal(name) {
				g.text, g.at = name, l.passageAt(i).within(m[0]+from, to-from)
				return g
			}
		}
	}
	return g
}

// politeBefore is a form of address in front of two surnames at the end of a text.
var politeBefore = matching(`\b(?:sra?|srta|senora?|senorita)\.? \S+ \S+$`)

// initialFirst is a name of which only the first letters of the first names are given, and their first letter.
var initialFirst = matching(`^(\p{Lu})\.(?:[ -]?\p{Lu}\.)* ?(\p{Lu}[\p{L}’'-]+(?: \p{Lu}[\p{L}’'-]+)?)$`)

// inFull completes a name that begins with a letter only by the one name that the paper gives in full with the same
// surname and the same first letter.
func (l *look) inFull(g guess, letter, surname string) guess {
	full := g
	for i, p := range l.passages {
		for _, m := range anyName.FindAllStringIndex(p.text, -1) {
			name, from, to, _ := person(p.text[m[0]:m[1]])
			first, ok := strings.CutSuffix(name, " "+surname)
			if !ok || !strings.HasPrefix(first, letter) || strings.Contains(first, ".") || len(strings.Fields(first)) > 2 || !isPersonal(name) {
				continue
			}
			if full.text != g.text && full.text != name {
				return g // two of them
			}
			full.text, full.at = name, l.passageAt(i).within(m[0]+from, to-from)
		}
	}
	return full
}
