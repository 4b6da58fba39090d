package extract

import (
	"strings"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// leastScore is the score from which a value may be certain, where a field has one of
// its own: chosen on papers on which nothing was tuned, see docs/reading.md.
var leastScore = map[paper.Field]int{
	paper.FieldTitle:    750,
	paper.FieldProvider: 650,
	paper.FieldAttendee: 700,
	paper.FieldKind:     300,
}

// misread are letters that recognition makes of others: "fiir" for "für".
var misread = matching(`(?i)ii|[a-z][0-9][a-z]`)

// cutOff reports a text that ends with a small word, so that more belongs to it, or that
// recognition seems to have misread; the holder's own name is not doubted.
func (l *look) cutOff(g guess) bool {
	if last := g.text[strings.LastIndexByte(g.text, ' ')+1:]; runsOn(g.text) && strings.Contains(g.text, " ") && last != strings.ToUpper(last) {
		return true
	}
	if before := l.passages[g.at.passage].text[:g.at.span.From]; before != "" && strings.HasPrefix(l.text(g.at), g.text) && midWord.MatchString(before) {
		return true
	}
	_, confidence, _ := l.place(g.at)
	return confidence < 100 && misread.MatchString(g.text) && !(l.hints.Holder != "" && samePerson(l.hints.Holder, g.text))
}

// midWord ends within a word: "M." before "C. Vey".
var midWord = matching(`\p{Lu}\.$|\p{L}$`)

// asLetter is the subject of a letter, or speaks to the reader: no name of anything.
var asLetter = matching(`^(?:your|ihre?|ihren|votre|vos|su|uw|you|we|wir|sie|vous|nous|usted) \p{L}`)

var (
	partTitle  = matching(`^(?:[IVX]{1,4}|\d{1,2})\s?[:.)]|(?i:^(?:hola|hello|hallo|bonjour|dear|dr|herrn?|frau|mrs?|ms|mme|sra?)\b\.?,? \p{Lu})|(?i: (?:el d[ií]a|given on|on the|am tag|le jour)$)`)
	thanksText = words(`wir danken|we thank|thank you for|nous vous remercions|le agradecemos|wij danken|bedankt voor|this paper|dieses schreiben|ce document|este documento|dit document|valid without|ist ohne unterschrift|document valable|documento valido|nous vous remercions|cher (?:monsieur|madame)|bravo|you (?:may|might) also (?:like|enjoy)|vous aimerez (?:aussi|peut-etre)|das konnte (?:sie|dich) .{0,20}interessieren|(?:te|le) puede interesar|misschien ook interessant`)
)

// editionOnly is which edition of a book it is.
var editionOnly = matching(`^\d{1,2}(?:e|th|st|nd|rd|re|a|º|ª|\.)?\.? (?:druk|oplage|edition|auflage|edicion|ed\.?)$`)

// oddTitle reports a title that is hardly all of one, or more than one: a label, a person,
// words of thanks, the number of a module without its word, or one with a day or a stated time in it ("Ten Years of …" is none).
func (l *look) oddTitle(text string) bool {
	if roleOf(text) != noRole || partTitle.MatchString(text) && !(l.kind == paper.Meeting && meetingName.MatchString(fold(text))) || thanksText.MatchString(fold(text)) || lastFirst.MatchString(text) && l.isName(text) {
		return true
	}
	if strings.Contains(text, " · ") || strings.Count(text, `"`)%2 == 1 || strings.HasSuffix(text, "-") || editionOnly.MatchString(fold(text)) || len(find.Ranges(text, l.langs)) > 0 {
		return true
	}
	if strings.Count(text, "‘") != strings.Count(text, "’") && strings.ContainsAny(text, ".:") && strings.Contains(text, "’ ") {
		return true
	}
	if l.hasSum(text) || strings.ContainsAny(text, "@›") || asLetter.MatchString(fold(text)) || strings.Count(text, `"`)%2 == 1 || l.oddTail(text) {
		return true
	}
	return len(find.Dates(text, l.langs)) > 0 && len(strings.Fields(text)) > 4 ||
		strings.ContainsAny(text, "0123456789") && len(find.Durations(text, l.langs)) > 0
}

// oddTail reports a grade, position or thing paid for with something in front of it or behind it that may be
// none of it: the word for dues, a number of places, a word in small letters behind those in capitals.
func (l *look) oddTail(text string) bool {
	switch l.kind {
	case paper.Membership, paper.Receipt, paper.Employment:
	default:
		return false
	}
	words := strings.Fields(text)
	if len(words) < 2 {
		return false
	}
	last, n := words[len(words)-1], 0
	for _, w := range words[:len(words)-1] {
		if capitalised(w) {
			n++
		}
	}
	return l.kind == paper.Membership && duesWords.MatchString(fold(words[0])) ||
		(l.lang == find.English || l.lang == find.German) && n == len(words)-1 && startsLower(last) && len(last) > 3 || placesAtEnd.MatchString(text)
}

// placesAtEnd is a number with the word for what was bought so often.
var placesAtEnd = matching(`, \d{1,2} \p{Ll}+$`)

// strength is the score of a value, 0 to 1000: ten times what speaks for it, less where
// another comes near it, and less where recognition of its letters was not sure.
func (l *look) strength(top guess, others []guess) int {
	score := 10 * min(top.score, 100)
	for _, g := range others {
		if b := bare(g.text); strings.Contains(bare(top.text), b) || strings.Contains(b, bare(top.text)) {
			continue
		}
		if near := 20 - (top.score - g.score); near > 0 {
			score -= 10 * near
		}
		break
	}
	if _, confidence, _ := l.place(top.at); confidence < 100 {
		score -= 5 * (100 - confidence)
	}
	return max(score, 1)
}
