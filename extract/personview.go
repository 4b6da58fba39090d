package extract

import (
	_ "embed"
	"strings"
	"sync"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

//go:embed weights/attendee.txt
var personWeightsText string

var personWeights = sync.OnceValue(func() map[string]float64 { return readWeights("weights/attendee.txt", personWeightsText) })

// personView looks at every run of words with capitals that may be a name.
var personView = view{
	field: paper.FieldAttendee, spots: (*look).nameSpots, traits: [][]trait{faces, nameShapes, nameSenses, nameSentences, nameNeighbours, places},
	weights: personWeights, group: personGroup,
	sign:  6,
	same:  func(a, b string) bool { return a == b || len(b) > 8 && strings.HasSuffix(a, b) }, // with what somebody is before the name
	ruled: ruledOut,
}

// personGroup returns which weights of its own a kind of paper has for its person.
func personGroup(k paper.Kind) string {
	switch k {
	case paper.Instruction, paper.Publication, paper.Receipt, paper.Membership:
		return string(k)
	}
	return ""
}

// nameSpots returns the parts of a passage that may be the name of a person.
func (l *look) nameSpots(i int) []at {
	text, whole := l.passages[i].text, l.passageAt(i)
	var list []at
	for _, m := range anyName.FindAllStringIndex(text, -1) {
		name, from, to, titled := person(text[m[0]:m[1]])
		if full, initials := nameWords(name); full+initials > 1 && full > 0 || full == 1 && (titled || endsAddress.MatchString(tail(text[:m[0]], 100))) {
			if !hasFigure(name) && strings.HasPrefix(text[m[0]+from:m[0]+to], name) {
				list = append(list, whole.within(m[0]+from, len(name)))
			}
		}
	}
	return list
}

// nameShapes are the words of a name.
var nameShapes = []trait{
	{"one word", wordCount(1, 1)}, {"two words", wordCount(2, 2)}, {"four words", wordCount(4, 4)}, {"more words", wordCount(5, 100)},
	{"all capitals", func(_ *look, t *topic, _ *pageView) bool { return allCaps(t.text) }},
	{"initial", func(_ *look, t *topic, _ *pageView) bool { return pointedLetter.MatchString(t.text) }},
	{"particle", func(_ *look, t *topic, _ *pageView) bool { return withParticle.MatchString(t.text) }},
	{"goes on", func(_ *look, t *topic, _ *pageView) bool { return nameGoesOn(t.after) }},
}

var (
	pointedLetter = matching(`(?:^| )\p{Lu}\.`)
	withParticle  = matching(`(?:^| )` + particle + ` `)
	moreOfName    = matching(`^(?:[-–’']|(?: ` + particle + `){1,3} (?:[dDtT]['’])?\p{Lu}\p{Ll}|(?: (?:DE|DEL|LA|LAS|LOS|VAN|DER|DEN|VON|ZU|LE|DU|DES|Y|I))+ \p{Lu})`)
)

// nameGoesOn reports that what follows a name in its line may be more of it.
func nameGoesOn(after string) bool { return moreOfName.MatchString(after) }

// townBehind is a word that in Dutch stands before a town as well as within a name: "Jan Boelstra te Zuidhorn".
var townBehind = matching(`^\p{Lu}\S+ \p{Lu}\S+ te \p{Lu}`)

// nameCut reports a name whose line goes on as names do, or ends with what may be a town.
func (l *look) nameCut(g guess) bool {
	text := l.passages[g.at.passage].text
	if townBehind.MatchString(g.text) {
		return true
	}
	return strings.HasPrefix(text[g.at.span.From:], g.text) && nameGoesOn(text[g.at.span.From+len(g.text):])
}

// nameSenses are what its words are known to be.
var nameSenses = []trait{
	{"body", func(l *look, t *topic, _ *pageView) bool { return l.isBody(t.text) }},
	{"no name", func(l *look, t *topic, _ *pageView) bool { return l.noName(t.text) }},
	{"office", func(_ *look, t *topic, _ *pageView) bool { return officeWord.MatchString(t.low) }},
	{"heading", func(_ *look, t *topic, _ *pageView) bool { from, _ := headingIn(t.low); return from >= 0 }},
	{"word for an event", func(_ *look, t *topic, _ *pageView) bool { return eventIn.MatchString(t.low) }},
	{"label", func(_ *look, t *topic, _ *pageView) bool { return roleOf(t.text) != noRole }},
	{"month or day", func(l *look, t *topic, _ *pageView) bool { return len(find.Dates("1 "+t.text, l.langs)) > 0 }},
	{"beside the label of a person", func(_ *look, t *topic, _ *pageView) bool { return t.role == isPerson }},
	{"beside the label of who signs", func(_ *look, t *topic, _ *pageView) bool { return t.role == isSigner }},
	{"beside the label of a body", func(_ *look, t *topic, _ *pageView) bool { return t.role == isProvider }},
	{"beside a label of something else", func(_ *look, t *topic, _ *pageView) bool {
		return t.role != noRole && t.role != isPerson && t.role != isSigner && t.role != isProvider
	}},
	{"beside another label", func(_ *look, t *topic, _ *pageView) bool { return t.role == noRole && t.label != "" }},
	{"beside words for a person", func(_ *look, t *topic, _ *pageView) bool {
		return t.label != "" && strongPerson.MatchString(fold(t.label))
	}},
	{"beside words for who leads", func(_ *look, t *topic, _ *pageView) bool {
		return t.label != "" && signerStem.MatchString(fold(t.label))
	}},
	{"again", func(l *look, t *topic, _ *pageView) bool { return strings.Count(l.all, t.low) == 2 }},
	{"often", func(l *look, t *topic, _ *pageView) bool { return strings.Count(l.all, t.low) > 2 }},
	{"receives the message", func(l *look, t *topic, _ *pageView) bool {
		return l.doc.Mail != nil && strings.Contains(fold(l.doc.Mail.To), t.low)
	}},
	{"sends the message", func(l *look, t *topic, _ *pageView) bool {
		return l.doc.Mail != nil && strings.Contains(fold(l.doc.Mail.From), t.low)
	}},
	{"holds no message", func(l *look, _ *topic, _ *pageView) bool { return l.doc.Mail == nil }},
	{"among who signs", func(l *look, t *topic, _ *pageView) bool { return l.closing.signs[t.at.passage] }},
	{"in the column of who signs", func(l *look, t *topic, _ *pageView) bool { return l.inSignerColumn(t.at) }},
}

// endOf gives a trait of what stands before a topic in its passage.
func endOf(fits func(before, low string) bool) func(*look, *topic, *pageView) bool {
	return func(_ *look, t *topic, _ *pageView) bool {
		before := tail(t.before, 60)
		return strings.TrimSpace(before) != "" && fits(before, strings.TrimRight(fold(before), " \"“„«:,"))
	}
}

// nameSentences are what a name does in its sentence.
var nameSentences = []trait{
	{"behind a form of address", endOf(func(before, _ string) bool { return endsAddress.MatchString(before) })},
	{"behind words that give", endOf(func(_, low string) bool {
		return lastMatch(givenTo, low+" ") >= len(low)-3 || givesEnd.MatchString(low)
	})},
	{"behind that", endOf(func(_, low string) bool { return thatEnds.MatchString(low) })},
	{"behind by", endOf(func(_, low string) bool { return byEnds.MatchString(" " + low) })},
	{"behind for", endOf(func(_, low string) bool { return forEnds.MatchString(low) })},
	{"behind from", endOf(func(_, low string) bool { return fromEnds.MatchString(low) })},
	{"behind a greeting", endOf(func(before, _ string) bool { return salutation.MatchString(before + " ") })},
	{"behind words of who signs", endOf(func(_, low string) bool { return lastMatch(signedBefore, low+" ") >= len(low)-3 })},
	{"behind an office", endOf(func(before, _ string) bool { return officeWord.MatchString(fold(tail(before, 30))) })},
	{"behind a comma", endOf(func(before, _ string) bool { return strings.HasSuffix(strings.TrimSpace(before), ",") })},
	{"behind a small word", endOf(func(_, low string) bool { return trailSmall.MatchString(" " + low + " ") })},
	{"in the middle", func(_ *look, t *topic, _ *pageView) bool { return strings.TrimSpace(t.before) != "" }},
	{"begin of a line", func(_ *look, t *topic, _ *pageView) bool { return t.inside && strings.TrimSpace(t.before) == "" }},
	{"all of a line", func(_ *look, t *topic, _ *pageView) bool { return !t.inside }},
	{"before a verb", func(_ *look, t *topic, _ *pageView) bool { return nameVerb.MatchString(fold(head(t.after, 90))) }},
	{"before a number", func(_ *look, t *topic, _ *pageView) bool { return numberAfter.MatchString(fold(head(t.after, 60))) }},
	{"before an office", func(_ *look, t *topic, _ *pageView) bool { return officeWord.MatchString(fold(head(t.after, 34))) }},
	{"before a birth", func(_ *look, t *topic, _ *pageView) bool { return bornAfter.MatchString(fold(head(t.after, 40))) }},
	{"before letters", func(_ *look, t *topic, _ *pageView) bool { return degree.MatchString(head(t.after, 12)) }},
	{"before a body", func(l *look, t *topic, _ *pageView) bool { return len(t.after) > 4 && l.isBody(head(t.after, 60)) }},
	{"before a bracket", func(_ *look, t *topic, _ *pageView) bool { return strings.HasPrefix(strings.TrimSpace(t.after), "(") }},
	{"before a comma", func(_ *look, t *topic, _ *pageView) bool { return strings.HasPrefix(t.after, ",") }},
	{"in brackets", func(_ *look, t *topic, _ *pageView) bool {
		return strings.HasSuffix(t.before, "(") && strings.HasPrefix(t.after, ")")
	}},
	{"in a long passage", func(l *look, t *topic, _ *pageView) bool { return len(l.passages[t.at.passage].text) > 160 }},
	{"in a passage that certifies", func(l *look, t *topic, _ *pageView) bool { return certifyLine.MatchString(l.folded[t.at.passage]) }},
	{"in a passage of deeds", func(l *look, t *topic, _ *pageView) bool { return didIt.MatchString(l.folded[t.at.passage]) }},
}

var (
	thatEnds  = matching(`(?:^|\s)(?:that|dass|que|dat)$`)
	forEnds   = matching(`(?:^|\s)(?:for|to|fur|an|pour|a|para|voor|aan|of|von|de|van)$`)
	fromEnds  = matching(`(?:^|\s)(?:from|with|mit|avec|con|met)$`)
	bornAfter = matching(`^[\s,(]{0,3}(?:born|geb\b|geboren|ne\b|nee\b|nacid|\*|date of birth|dob)`)
)

// nameNeighbours are what stands above and beneath a name.
var nameNeighbours = []trait{
	{"under a verb", above(func(_ *look, _, low string) bool { return certifyLine.MatchString(low) || didIt.MatchString(low) })},
	{"under words that give", above(func(_ *look, _, low string) bool {
		return lastMatch(givenTo, low+" ") >= len(low)-3 || givesEnd.MatchString(strings.TrimRight(low, " :,"))
	})},
	{"under a heading", above(func(_ *look, _, low string) bool { from, _ := headingIn(low); return from == 0 })},
	{"under a colon", above(func(_ *look, text, _ string) bool { return strings.HasSuffix(text, ":") })},
	{"under a greeting at the end", above(func(_ *look, text, low string) bool { return valediction.MatchString(low) })},
	{"under an office", above(func(_ *look, text, _ string) bool { return officeLine(text) })},
	{"under a body", above(bodyLine)}, {"under a person", above(personLine)},
	{"under words for a person", above(func(_ *look, _, low string) bool {
		return len(strings.Fields(low)) < 4 && (strongPerson.MatchString(low) || roleOf(low) == isPerson)
	})},
	{"under words for who leads", above(func(_ *look, _, low string) bool {
		return len(strings.Fields(low)) < 4 && (signerStem.MatchString(low) || roleOf(low) == isSigner)
	})},
	{"over a verb", beneathIt(func(_ *look, _, low string) bool { return didIt.MatchString(low) || nameVerb.MatchString(" "+low) })},
	{"over an office", beneathIt(func(_ *look, _, low string) bool { return officeWord.MatchString(head(low, 40)) })},
	{"over an address", beneathIt(func(_ *look, text, _ string) bool { return street.MatchString(text) || len(find.Addresses(text)) > 0 })},
	{"over a number", beneathIt(func(_ *look, _, low string) bool { return numberAfter.MatchString(low) })},
	{"over a birth", beneathIt(func(_ *look, _, low string) bool { return bornAfter.MatchString(low) })},
	{"over a day", beneathIt(func(l *look, text, _ string) bool { return len(find.Dates(text, l.langs)) > 0 })},
	{"over small letters", beneathIt(func(_ *look, text, _ string) bool { return startsLower(text) })},
	{"over a body", beneathIt(bodyLine)}, {"over a person", beneathIt(personLine)},
	{"over words for a person", beneathIt(func(_ *look, _, low string) bool {
		return len(strings.Fields(low)) < 4 && (strongPerson.MatchString(low) || roleOf(low) == isPerson)
	})},
	{"over words for who leads", beneathIt(func(_ *look, _, low string) bool {
		return len(strings.Fields(low)) < 5 && (signerStem.MatchString(low) || roleOf(low) == isSigner)
	})},
}

// viewAttendee holds what signs say of the person against what can be seen of all names of
// the paper: the share of each is noted, and a name with more to speak for it by both
// together comes first and is asked about.
func (l *look) viewAttendee(signs []guess) []guess {
	list, top := l.seenBy(&personView, signs)
	if top < 0 || len(signs) > 0 && signs[0].why == madeForOne {
		return signs
	}
	l.noteSeen(paper.FieldAttendee, signs, list)
	g := list[top].guess
	if g.score == 0 && (g.share < 50 || l.kind == paper.Receipt || l.kind == paper.Meeting || l.isBody(g.text) || l.noName(g.text) || l.namesThing(g.at)) {
		return signs // seen by nothing but its place: often a street, a thing that was bought, or one of a crowd
	}
	return personView.ahead(signs, g)
}

// thingAhead ends in front of what somebody owns or offers, and thingBehind is what it is then: "our
// Rope Inspection workshop".
var (
	thingAhead  = matching(`(?:^|[\s(])(?:our|the|your|this|a|unser\w*|ihr\w*|das|dem|der|die|notre|votre|le|la|nuestr[oa]|su|el|ons|onze|uw|het|de) $`)
	thingBehind = matching(`^ (?:e-?learning|online|virtual|refresher|introductory)? ?(?:workshop|course|seminar|webinar|training|class|session|lecture|conference|programme?|kurs|lehrgang|schulung|cursus|formation|taller|curso)\b`)
)

// namesThing reports a text in a sentence that speaks of it as of a thing.
func (l *look) namesThing(a at) bool {
	text := l.passages[a.passage].text
	return thingAhead.MatchString(fold(tail(text[:a.span.From], 20))+" ") || thingBehind.MatchString(" "+fold(head(text[a.span.To:], 40)))
}

// seenProven reports a name for which a sign speaks and next to nothing that can be seen
// speaks for another: at papers of which nothing was learned all such names were right.
func (g guess) seenProven(f paper.Field) bool {
	return f == paper.FieldAttendee && g.share >= provenShare && g.score >= 50 && g.why != ownWords && strings.Contains(g.text, " ")
}

// ruledOut reports a name of which signs say that it is another's: who signs, who led it, who
// wrote the course.
func ruledOut(g guess) bool { return g.why != ownWords && g.score <= 33 }
