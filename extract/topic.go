package extract

import (
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"evidencevault/extract/paper"
)

// A topic is a text that may name what a paper is about, whether or not a sign speaks for it.
type topic struct {
	guess         // score 0 where no sign speaks for it
	inside bool   // other words stand with it in its passage
	low    string // folded
	bare   string // without marks, as texts are compared
	words  []string
	before string // what stands before it in its passage, and after it
	after  string
	role   role // that the label beside it gives
	label  string
	cell   *cell
	view   float64 // what its traits weigh together
}

// mostTopics is how many texts of one paper are looked at.
const mostTopics = 240

// ownWords is the reason for a title that no sign gives.
const ownWords = "its place and its words speak for it"

// A view is how a field is seen without any sign of it: in which parts of a passage it may
// stand, which traits such a part may have, and what was learned that they weigh.
type view struct {
	field   paper.Field
	spots   func(l *look, i int) []at
	traits  [][]trait
	weights func() map[string]float64
	group   func(paper.Kind) string
	same    func(a, b string) bool // whether two texts, bare, give one value
	ruled   func(guess) bool       // whether signs say that it is none, whatever can be seen of it; nil for never
	sign    float64                // what a sign of 100 adds to what the traits of a text weigh: chosen so that where both know nothing of a paper they are right most often (docs/reading.md)
}

// titleView looks at every line, part of a wrapped line, quotation, value and bold run.
var titleView = view{
	field: paper.FieldTitle, spots: (*look).spotsIn, traits: [][]trait{faces, shapes, contents, wordSenses, titleSenses, sentences, neighbours, places},
	weights: titleWeights, group: topicGroup,
	same: func(a, b string) bool { return strings.Contains(a, b) },
	sign: 6,
}

// topics returns the texts that may be the value: what signs gave, and the spots of the view.
func (l *look) topics(v *view, signs []guess) []topic {
	var out []topic
	seen := map[string]bool{}
	add := func(g guess) {
		n, b := utf8.RuneCountInString(g.text), bare(g.text)
		if g.score == 0 && (valediction.MatchString(fold(g.text)) || toAnybody.MatchString(fold(g.text))) {
			return // the begin or the end of a letter
		}
		if n < 4 || n > 170 || seen[b] || len(out) >= mostTopics || !strings.ContainsFunc(g.text, isLetter) {
			return
		}
		seen[b] = true
		out = append(out, l.newTopic(g))
	}
	for _, g := range signs {
		add(g)
	}
	for i := range l.passages {
		for _, a := range v.spots(l, i) {
			a = l.clean(a)
			add(guess{text: strings.Join(strings.Fields(l.text(a)), " "), at: a, why: ownWords})
		}
	}
	return out
}

// spotsIn returns the parts of a passage that may be a title.
func (l *look) spotsIn(i int) []at {
	p, whole := l.passages[i], l.passageAt(i)
	list := []at{whole}
	if cut := l.cutTitle(p.text); cut != "" {
		list = append(list, whole.within(0, len(cut)))
	}
	list = append(list, l.runsOfLines(i)...)
	for _, m := range quotesRE.FindAllStringSubmatchIndex(p.text, -1) {
		from, to := group(m)
		list = append(list, whole.within(from, to-from))
	}
	if k := strings.Index(p.text, ": "); k > 0 && k < 60 {
		list = append(list, whole.within(k+2, len(p.text)-k-2))
	}
	for _, span := range l.boldIn(i) {
		list = append(list, whole.within(span.From, span.To-span.From))
	}
	return list
}

// runsOfLines returns up to three lines in a row of a passage that has more.
func (l *look) runsOfLines(i int) []at {
	p := l.passages[i]
	var list []at
	for k := range p.cells {
		for m := k; m < min(len(p.cells), k+3); m++ {
			from, last := l.cells[p.cells[k]].from, &l.cells[p.cells[m]]
			if to := last.from + len(last.text); to <= len(p.text) && from < to && m-k+1 < len(p.cells) {
				list = append(list, l.passageAt(i).within(from, to-from))
			}
		}
	}
	return list
}

func (l *look) newTopic(g guess) topic {
	text := l.passages[g.at.passage].text
	to := min(len(text), g.at.span.To)
	t := topic{guess: g, low: fold(g.text), bare: bare(g.text), words: strings.Fields(g.text), before: text[:g.at.span.From], after: text[to:], cell: &l.cells[l.cellAt(g.at)]}
	t.inside = strings.TrimSpace(t.before) != "" || len(strings.TrimSpace(t.after)) > 3
	if p, ok := l.labelOf(g.at.last()); ok {
		t.role, t.label = p.role, p.label
	}
	return t
}

// topicGroup returns which weights of its own a kind of paper has, besides the common ones.
func topicGroup(k paper.Kind) string {
	switch k {
	case paper.Membership, paper.Meeting, paper.Credential, paper.Receipt, paper.Employment:
		return string(k)
	}
	return ""
}

// strongSign is the score of a sign that knows where a title begins and ends.
const strongSign = 86

// leastShare is the share from which a title may be certain, and provenShare that from which
// its traits prove a sign that is not to be trusted by itself.
const (
	leastShare  = 60
	provenShare = 90
)

// shareFor returns the share from which a title may be certain whose sign has such a score.
func shareFor(score int) int {
	switch {
	case score >= 90:
		return 25
	case score >= 80:
		return 40
	}
	return leastShare
}

// seenBy returns the texts of the paper that may be the value of a view, with the share of
// each, and which of them signs and traits together have most to say for; -1 for none.
func (l *look) seenBy(v *view, signs []guess) ([]topic, int) {
	list := l.topics(v, signs)
	page := l.pageTraits()
	sum, top := 0.0, -1
	together := func(t topic) float64 { return t.view + v.sign*float64(min(t.score, 100))/100 }
	for k := range list {
		list[k].seen = l.traitsOf(v, &list[k], page)
		list[k].view = weighTraits(v.weights(), v.group(l.kind), list[k].seen)
		if v.ruled != nil && v.ruled(list[k].guess) {
			continue
		}
		sum += math.Exp(list[k].view)
		if top < 0 || together(list[k]) > together(list[top]) {
			top = k
		}
	}
	for k := range list {
		if sum > 0 && (v.ruled == nil || !v.ruled(list[k].guess)) {
			list[k].share = min(100, int(100*v.withParts(list, k)/sum+0.5))
		}
	}
	return list, top
}

// viewTitles holds what signs say of the title against what can be seen of all texts of the
// paper, whatever they say: the share of the one is noted, and where another text has more
// to speak for it by both together, it comes first and is asked about.
func (l *look) viewTitles(signs []guess) []guess {
	signs = best(signs)
	list, top := l.seenBy(&titleView, signs)
	if top < 0 {
		return signs
	}
	l.noteSeen(paper.FieldTitle, signs, list)
	if l.kind == paper.Membership && slices.ContainsFunc(signs, func(g guess) bool { return usualGrade.MatchString(fold(g.text)) }) {
		return signs // a grade is one of few words, of which neither place nor type tells
	}
	if g := list[top].guess; len(signs) == 0 && l.isBody(l.passages[g.at.passage].text) && strings.TrimRight(l.passages[g.at.passage].text, ". ") == g.text && g.at.passage > len(l.passages)-3 {
		return nil // a body at the foot: better no title than its name
	}
	return aheadTitle(signs, list[top].guess)
}

// noteSeen gives signs the shares of the same texts, and notes the other texts.
func (l *look) noteSeen(f paper.Field, signs []guess, list []topic) {
	for k := range list {
		if s := slices.IndexFunc(signs, func(g guess) bool { return g.text == list[k].text }); s >= 0 {
			signs[s].share, signs[s].seen = list[k].share, list[k].seen
		} else {
			l.note(f, list[k].guess)
		}
	}
}

// withParts returns the odds of a text together with those of its parts: who sees a part of it
// sees no other value. Where a strong sign says how far it goes, those of the texts that it is
// a part of are its own too.
func (v *view) withParts(list []topic, k int) float64 {
	odds, whole := 0.0, &list[k]
	for i := range list {
		if t := &list[i]; v.same(whole.bare, t.bare) || whole.score >= strongSign && v.same(t.bare, whole.bare) {
			odds += math.Exp(t.view)
		}
	}
	return odds
}

// beginsAsHeading reports a text that says what the paper is, and not what it is about.
func beginsAsHeading(text string) bool {
	from, _ := headingIn(fold(text))
	return from == 0
}

// aheadTitle puts a title before what signs gave, unless it only says what the paper is.
func aheadTitle(signs []guess, g guess) []guess {
	if len(signs) == 0 && (g.share < 50 || beginsAsHeading(g.text)) {
		return nil
	}
	return titleView.ahead(signs, g)
}

// ahead puts a text before what signs gave, to be asked about, unless it is the first of
// them, a part of it or the whole: how far that goes is for signs to say.
func (v *view) ahead(signs []guess, g guess) []guess {
	g.score, g.sure = 50, false
	if len(signs) > 0 {
		if a, b := bare(signs[0].text), bare(g.text); v.same(a, b) || v.same(b, a) {
			return signs
		}
		g.score = max(signs[0].score, 40) + 1
	}
	return append([]guess{g}, slices.DeleteFunc(signs, func(o guess) bool { return o.text == g.text })...)
}
