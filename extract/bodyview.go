package extract

import (
	_ "embed"
	"slices"
	"strings"
	"sync"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

//go:embed weights/provider.txt
var bodyWeightsText string

var bodyWeights = sync.OnceValue(func() map[string]float64 { return readWeights("weights/provider.txt", bodyWeightsText) })

// bodyView looks at every line, part of a line, value and organisation.
var bodyView = view{
	field: paper.FieldProvider, spots: (*look).bodySpots, traits: [][]trait{faces, shapes, contents, wordSenses, bodySenses, bodySentences, bodyNeighbours, places},
	weights: bodyWeights, group: bodyGroup,
	sign: 9,
	same: func(a, b string) bool { return strings.Contains(a, b) },
}

// bodyGroup returns which weights of its own a kind of paper has for its body.
func bodyGroup(k paper.Kind) string {
	switch k {
	case paper.Employment, paper.Publication, paper.Receipt, paper.Transcript, paper.Meeting:
		return string(k)
	}
	return ""
}

// bodySpots returns the parts of a passage that may be the name of a body.
func (l *look) bodySpots(i int) []at {
	p, whole := l.passages[i], l.passageAt(i)
	if l.standing(p.text) || i == 0 && len(l.passages) > 1 && overName(p.text, l.passages[1].text) {
		return nil
	}
	list := []at{l.untilMark(whole)}
	for _, mark := range []string{" · ", " | ", " – ", ", ", " - "} {
		from := 0
		for part := range strings.SplitSeq(p.text, mark) {
			if len(part) < len(p.text) && len(part) > 3 && capitalised(part) {
				list = append(list, whole.within(from, len(part)))
			}
			from += len(part) + len(mark)
		}
	}
	if k := strings.Index(p.text, ": "); k > 0 && k < 60 {
		list = append(list, l.untilMark(whole.within(k+2, len(p.text)-k-2)))
	}
	list = append(list, l.runsOfLines(i)...)
	for _, m := range capitalRun.FindAllStringIndex(p.text, 12) {
		list = append(list, whole.within(m[0], m[1]-m[0]))
	}
	return slices.DeleteFunc(list, func(a at) bool {
		if label, _, parted := strings.Cut(l.text(a), ": "); parted && bearer.MatchString(fold(label)) {
			return true // who bears the body that held it
		}
		return len(strings.Fields(l.text(a))) > 14 || hasFigure(l.text(a)) && !l.isBody(l.text(a))
	})
}

// capitalRun is a run of words with capitals, with small words between.
var capitalRun = matching(`\p{Lu}[\p{L}’'&.-]+(?: (?:(?:of|for|and|the|in|on|at|für|und|der|des|die|den|im|am|bei|de|la|le|les|du|del|los|las|d['’]|et|en|y|e|van|voor|het|&|–) ){0,3}\p{Lu}[\p{L}’'&.-]*){1,9}`)

// bodySenses are what its words are known to be.
var bodySenses = []trait{
	{"organisation", func(_ *look, t *topic, _ *pageView) bool { return len(find.Organisations(t.text)) > 0 }},
	{"legal form", func(_ *look, t *topic, _ *pageView) bool { return formAtEnd.MatchString(t.text) }},
	{"desk", func(_ *look, t *topic, _ *pageView) bool { return outsideDesk.MatchString(t.low) }},
	{"not a body", func(_ *look, t *topic, _ *pageView) bool { return notBody.MatchString(t.low) }},
	{"beside the label of a body", func(_ *look, t *topic, _ *pageView) bool { return t.role == isProvider }},
	{"beside the label of who signs", func(_ *look, t *topic, _ *pageView) bool { return t.role == isSigner }},
	{"beside the label of a person", func(_ *look, t *topic, _ *pageView) bool { return t.role == isPerson }},
	{"beside the label of a title", func(_ *look, t *topic, _ *pageView) bool { return t.role == isTitle || t.role == isExam }},
	{"beside a label of something else", func(_ *look, t *topic, _ *pageView) bool {
		return t.role != noRole && t.role != isPerson && t.role != isSigner && t.role != isProvider && t.role != isTitle && t.role != isExam
	}},
	{"beside another label", func(_ *look, t *topic, _ *pageView) bool { return t.role == noRole && t.label != "" }},
	{"beside the firm of the person", func(_ *look, t *topic, _ *pageView) bool { return t.label != "" && ownFirm.MatchString(fold(t.label)) }},
	{"again", func(l *look, t *topic, _ *pageView) bool { return strings.Count(l.all, t.low) == 2 }},
	{"often", func(l *look, t *topic, _ *pageView) bool { return strings.Count(l.all, t.low) > 2 }},
	{"named like the site", func(_ *look, t *topic, page *pageView) bool { return namedLike(page.sites, t.low) }},
	{"sends the message", func(l *look, t *topic, _ *pageView) bool {
		return l.doc.Mail != nil && len(t.low) > 4 && strings.Contains(fold(l.doc.Mail.From), t.low)
	}},
	{"in the copyright", func(l *look, t *topic, _ *pageView) bool { return copyRight.MatchString(l.passages[t.at.passage].text) }},
	{"among who signs", func(l *look, t *topic, _ *pageView) bool { return l.closing.signs[t.at.passage] }},
	{"somebody signs for it", func(l *look, t *topic, _ *pageView) bool {
		return slices.ContainsFunc(l.closing.bodies, func(a at) bool { return bare(l.text(a)) == t.bare })
	}},
}

// siteName is the name of a site within an address of it or of mail to it.
var siteName = matching(`(?:@|www\.|https?://)(?:[a-z0-9-]+\.)*?([a-z0-9-]{3,})\.(?:example|test|invalid|[a-z]{2,6})(?:\.[a-z]{2})?\b`)

// sites returns the names of the first sites that the paper or the message mentions.
func (l *look) sites() []string {
	text := l.all
	if l.doc.Mail != nil {
		text += " " + strings.ToLower(l.doc.Mail.From)
	}
	var out []string
	for _, m := range siteName.FindAllStringSubmatchIndex(text, 6) {
		out = append(out, strings.ReplaceAll(text[m[2]:m[3]], "-", ""))
	}
	return out
}

// namedLike reports a name, folded, of which most letters, or whose first letters, are the
// name of one of the sites.
func namedLike(sites []string, low string) bool {
	letters, first := "", ""
	for _, w := range strings.Fields(low) {
		letters += strings.Trim(w, ".,'’-&")
		if len(w) > 3 {
			first += w[:1]
		}
	}
	return slices.ContainsFunc(sites, func(site string) bool {
		return strings.HasPrefix(letters, site) || len(site) > 5 && strings.Contains(letters, site) || len(letters) > 5 && strings.HasPrefix(site, letters) || len(first) > 2 && first == site
	})
}

// bodySentences are what a body does in its sentence.
var bodySentences = []trait{
	{"behind by", endOf(func(_, low string) bool { return byEnds.MatchString(" " + low) })},
	{"behind for", endOf(func(_, low string) bool { return behalfEnds.MatchString(low) })},
	{"behind at", endOf(func(_, low string) bool { return atEnds.MatchString(low) })},
	{"behind of", endOf(func(_, low string) bool { return belongEnds.MatchString(low) })},
	{"behind from", endOf(func(_, low string) bool { return fromEnds.MatchString(low) })},
	{"behind an office", endOf(func(before, _ string) bool { return officeWord.MatchString(fold(tail(before, 30))) })},
	{"behind a name", endOf(func(before, _ string) bool { return isPersonal(strings.TrimRight(before, " ,–-")) })},
	{"behind a comma", endOf(func(before, _ string) bool { return strings.HasSuffix(strings.TrimSpace(before), ",") })},
	{"behind an event", endOf(func(_, low string) bool { return eventAtEnd.MatchString(low) })},
	{"in the middle", func(_ *look, t *topic, _ *pageView) bool { return strings.TrimSpace(t.before) != "" }},
	{"begin of a line", func(_ *look, t *topic, _ *pageView) bool { return t.inside && strings.TrimSpace(t.before) == "" }},
	{"before a verb", func(_ *look, t *topic, _ *pageView) bool {
		a := fold(head(t.after, 80))
		return a != "" && (bodyVerb.MatchString(a) || certifyLine.MatchString(a))
	}},
	{"before an address", func(_ *look, t *topic, _ *pageView) bool {
		return len(t.after) > 8 && (streetAfter.MatchString(t.after) || len(find.Addresses(t.after)) > 0)
	}},
	{"before reach", func(_ *look, t *topic, _ *pageView) bool {
		return len(t.after) > 6 && reachLine(strings.Trim(t.after, " ,·|–-"))
	}},
	{"in a long passage", func(l *look, t *topic, _ *pageView) bool { return len(l.passages[t.at.passage].text) > 160 }},
	{"in a passage that certifies", func(l *look, t *topic, _ *pageView) bool { return certifyLine.MatchString(l.folded[t.at.passage]) }},
	{"in a passage of deeds", func(l *look, t *topic, _ *pageView) bool { return didIt.MatchString(l.folded[t.at.passage]) }},
}

var (
	behalfEnds = matching(`(?:^|\s)(?:for|on behalf of|fur|pour|por|voor|namens|im auftrag(?: der| des)?|au nom de|en nombre de|i\.a\.)(?: the| die| das| den| la| le| el| het| de)?$`)
	atEnds     = matching(`(?:^|\s)(?:at|with|bei|beim|chez|a|en|in|bij|to|join(?:ed|s)?)(?: the| der| dem| la| le| el| het| de)?$`)
	belongEnds = matching(`(?:^|\s)(?:of|der|des|von|vom|de|du|del|van)(?: the| la| le| el| het| de)?$`)
	bodyVerb   = matching(`^[\s,"”]{0,3}(?:hereby |hiermit |hierbij |por la presente )?(?:certif|confirm|attest|bescheinig|bestatig|verklaa|bevestig|certific|hace constar|acredita|has |have |hat |haben |a le |thanks|thank|dankt|remerc|agradec|award|verleiht|decerne|otorg|held|organi[sz]|veranstalt)`)
)

// bodyNeighbours are what stands above and beneath a body.
var bodyNeighbours = []trait{
	{"under a heading", above(func(_ *look, _, low string) bool { from, _ := headingIn(low); return from == 0 })},
	{"under a person", above(personLine)}, {"under a body", above(bodyLine)},
	{"under an office", above(func(_ *look, _, low string) bool { return officeWord.MatchString(low) && len(strings.Fields(low)) < 7 })},
	{"under a greeting at the end", above(func(_ *look, _, low string) bool { return valediction.MatchString(low) })},
	{"under a colon", above(func(_ *look, text, _ string) bool { return strings.HasSuffix(text, ":") })},
	{"under by", above(func(_ *look, _, low string) bool { return byEnds.MatchString(" " + strings.TrimRight(low, " :")) })},
	{"under a word for an event", above(func(_ *look, _, low string) bool { return eventAtEnd.MatchString(strings.TrimRight(low, " :")) })},
	{"over an address", beneathIt(func(_ *look, text, _ string) bool {
		return streetLine.MatchString(text) || street.MatchString(text) || len(find.Addresses(text)) > 0
	})},
	{"over reach", beneathIt(func(_ *look, text, _ string) bool { return reachLine(text) })},
	{"over a heading", beneathIt(func(_ *look, _, low string) bool { from, _ := headingIn(low); return from == 0 })},
	{"over a verb", beneathIt(func(_ *look, _, low string) bool {
		return certifyLine.MatchString(low) || didIt.MatchString(low) || bodyVerb.MatchString(low)
	})},
	{"over a person", beneathIt(personLine)}, {"over a body", beneathIt(bodyLine)},
	{"over a day", beneathIt(func(l *look, text, _ string) bool { return len(find.Dates(text, l.langs)) > 0 })},
	{"over small letters", beneathIt(func(_ *look, text, _ string) bool { return startsLower(text) })},
}

// viewProvider holds what signs say of the body against what can be seen of all texts of the
// paper, as [look.viewTitles] does for titles.
func (l *look) viewProvider(signs []guess) []guess {
	signs = best(signs)
	list, top := l.seenBy(&bodyView, signs)
	if top < 0 {
		return signs
	}
	l.noteSeen(paper.FieldProvider, signs, list)
	if len(signs) > 0 && l.firmOfPerson(list[top].text) {
		return signs // where the person works
	}
	return aheadBody(signs, list[top].guess)
}

// aheadBody puts a body before what signs gave, unless too little speaks for it, or so much
// for the first of them that it is asked about and not put back.
func aheadBody(signs []guess, g guess) []guess {
	switch {
	case g.score == 0 && (len(signs) == 0 && g.share < 60 || g.share < 40),
		len(signs) > 0 && signs[0].sure && signs[0].score >= 84 && g.score < signs[0].score:
		return signs
	}
	return bodyView.ahead(signs, g)
}
