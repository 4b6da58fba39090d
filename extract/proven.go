package extract

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// onlyThing is the sign of a title that stands alone in a list of what is paid for, and
// sentenceSays and sentenceNames are those of what a sentence says that somebody is, or
// attended.
const (
	onlyThing    = "it is the one thing in the list"
	sentenceSays = "the sentence says so"

	sentenceNames = "the sentence names it"
)

// lastListed is the sign of a position that is the last of several.
const lastListed = "it is the last of the positions listed"

// unproven are the signs that were wrong on more than one of ten papers at the first
// reading, before anybody had looked at them (docs/reading.md), and those that no such
// paper has tried yet: by itself none makes a value certain.
var unproven = map[paper.Field][]string{
	paper.FieldTitle:    {onlyThing, sentenceSays, sentenceNames, lastListed, lastMade, "it is what was earned", "the sentence says what was earned"},
	paper.FieldProvider: {"the message came from it", "it goes on in the line beneath", "it says that it is a periodical", "its editors decided"},
	paper.FieldAttendee: {"the letter greets the first name"},
	paper.FieldDuration: {"the clock times give it", "it is the planned time"},
}

// seconded is the share from which what can be seen of a title stands for another sign.
const seconded = 85

// alone reports a guess that rests on one sign that is not proven: nothing at another place
// of the paper says the same. Of the only thing in a list of what is paid for, and of what a
// sentence says that somebody is or attended, the sign is proven where it looks like a name.
func (g guess) alone(f paper.Field) bool {
	if g.backed || g.share >= provenShare || f == paper.FieldTitle && g.share >= seconded || !slices.Contains(unproven[f], g.why) {
		return false
	}
	first, _ := utf8.DecodeRuneInString(g.text)
	switch g.why {
	case onlyThing:
		return !unicode.IsUpper(first) || len(strings.Fields(g.text)) < 3
	case sentenceSays, sentenceNames:
		return !headline.MatchString(g.text) || strings.Count(g.text, ":") > 1
	}
	return true
}

// headline is a name in capitals with small words between: "Head of Rope Testing".
var headline = matching(`^(?:\d{1,3}(?:\.|st|nd|rd|th|e|ème|ª|º) )?\p{Lu}\S*(?:(?: (?:of|for|and|or|the|in|on|at|to|with|from|by|an?|und|für|der|des|die|den|im|am|bei|mit|von|zur?|zum|de|du|la|les?|et|en|y|el|del|los|las|van|voor|het|met|bij|&|–|-)){0,3} \p{Lu}\S*){1,9}$`)

// backs notes that another sign gives the same value, from another place or by how it is set.
func (g *guess) backs(o guess) {
	g.backed = g.backed || o.backed || o.why != g.why && (o.at.passage != g.at.passage || setApart[o.why] != setApart[g.why])
}

// setApart are the signs of how a text is set: what the words around it say does not depend on them,
// though it stands at the same place.
var setApart = map[string]bool{"it is set in bold letters": true, "it stands in quotation marks": true}

// oddBody reports what is hardly the name of a body: a sum, a day, a path through pages.
func (l *look) oddBody(text string) bool {
	if strings.ContainsAny(text, "›»→|@") || len(find.Dates(text, l.langs)) > 0 && len(strings.Fields(text)) < 5 {
		return true
	}
	return l.hasSum(text)
}

// hasSum reports an amount of money with its currency.
func (l *look) hasSum(text string) bool {
	return slices.ContainsFunc(find.Amounts(text, l.langs), func(a find.Amount) bool { return a.Sign != "" })
}

// halfOf reports a text in which a bracket or a quotation mark has no second half.
func halfOf(text string) bool {
	return strings.Count(text, "(") != strings.Count(text, ")") || strings.Count(text, "[") != strings.Count(text, "]") ||
		strings.Count(text, `"`)%2 == 1 || strings.Count(text, "«") != strings.Count(text, "»") ||
		strings.Contains(text, "”") && !strings.ContainsAny(text, "“„") || strings.Contains(text, "„") && !strings.ContainsAny(text, "“”\"")
}
