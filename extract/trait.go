package extract

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// A trait is something that can be seen of a text without knowing what it says. What each
// weighs was learned (weights/title.txt), not set.
type trait struct {
	name string
	has  func(l *look, t *topic, page *pageView) bool
}

// A pageView is what the traits of all texts of a paper are measured by.
type pageView struct {
	usual    int   // size of most letters
	largest  int   // size of the largest letters that are not the heading of the paper
	attendee int   // passage that names the attendee; -1 for none
	days     []int // passages with a day of the event
	sites    []string
}

func (l *look) pageTraits() *pageView {
	v := &pageView{usual: l.bodySize(), attendee: -1, sites: l.sites()}
	for _, c := range l.cells {
		if h := heading.FindStringIndex(fold(c.text)); len(c.text) > 3 && (h == nil || h[0] > 0) {
			v.largest = max(v.largest, c.size)
		}
	}
	if name := bare(l.out.Values[paper.FieldAttendee].Text); name != "" {
		for i, p := range l.passages {
			if strings.Contains(bare(p.text), name) {
				v.attendee = i
				break
			}
		}
	}
	for _, d := range l.days {
		if d.role == isEvent && d.sure {
			v.days = append(v.days, d.at.passage)
		}
	}
	return v
}

// traitsOf returns the names of the traits of a view that a topic has.
func (l *look) traitsOf(v *view, t *topic, page *pageView) []string {
	var out []string
	for _, list := range v.traits {
		for _, one := range list {
			if one.has(l, t, page) {
				out = append(out, one.name)
			}
		}
	}
	return out
}

// larger reports letters of more than percent of the usual size.
func larger(l *look, t *topic, page *pageView, percent int) bool {
	return l.boxed && page.usual > 0 && t.cell.size*100 > page.usual*percent
}

// faces are how it is set.
var faces = []trait{
	{"larger", func(l *look, t *topic, p *pageView) bool { return larger(l, t, p, 108) }},
	{"much larger", func(l *look, t *topic, p *pageView) bool { return larger(l, t, p, 140) }},
	{"smaller", func(l *look, t *topic, p *pageView) bool {
		return l.boxed && p.usual > 0 && t.cell.size*100 < p.usual*93
	}},
	{"largest", func(l *look, t *topic, p *pageView) bool { return larger(l, t, p, 108) && t.cell.size >= p.largest }},
	{"bold", func(_ *look, t *topic, _ *pageView) bool { return t.cell.bold }},
	{"quoted", func(_ *look, t *topic, _ *pageView) bool {
		r, _ := utf8.DecodeLastRuneInString(t.before)
		return t.before != "" && t.after != "" && strings.ContainsRune("“„«\"‘'»", r)
	}},
}

func wordCount(from, to int) func(*look, *topic, *pageView) bool {
	return func(_ *look, t *topic, _ *pageView) bool { return len(t.words) >= from && len(t.words) <= to }
}

// capitals counts the words that begin with a capital.
func (t *topic) capitals() int {
	n := 0
	for _, w := range t.words {
		if r, _ := utf8.DecodeRuneInString(w); unicode.IsUpper(r) {
			n++
		}
	}
	return n
}

// marked reports that a mark stands at the end of it, or right behind it.
func marked(marks string) func(*look, *topic, *pageView) bool {
	return func(_ *look, t *topic, _ *pageView) bool {
		last, _ := utf8.DecodeLastRuneInString(t.text)
		next, _ := utf8.DecodeRuneInString(strings.TrimSpace(t.after))
		return strings.ContainsRune(marks, last) || strings.TrimSpace(t.after) != "" && strings.ContainsRune(marks, next)
	}
}

// shapes are its words and marks.
var shapes = []trait{
	{"one word", wordCount(1, 1)}, {"two words", wordCount(2, 2)}, {"four to ten words", wordCount(4, 10)},
	{"eleven to sixteen words", wordCount(11, 16)}, {"more words", wordCount(17, 1000)},
	{"begins small", func(_ *look, t *topic, _ *pageView) bool { return startsLower(t.text) }},
	{"all capitals", func(_ *look, t *topic, _ *pageView) bool { return allCaps(t.text) }},
	{"most words with a capital", func(_ *look, t *topic, _ *pageView) bool { return len(t.words) > 2 && t.capitals()*3 >= len(t.words)*2 }},
	{"few words with a capital", func(_ *look, t *topic, _ *pageView) bool { return len(t.words) > 3 && t.capitals()*4 <= len(t.words) }},
	{"full stop", marked(".")}, {"colon", marked(":")}, {"comma", marked(",")}, {"call or question", marked("!?")},
	{"subtitle", func(_ *look, t *topic, _ *pageView) bool {
		k := strings.Index(t.text, ": ")
		return k > 0 && len(strings.Fields(t.text[:k])) > 1
	}},
	{"ends with a small word", func(_ *look, t *topic, _ *pageView) bool { return runsOn(t.text) && len(t.words) > 1 }},
	{"half a pair of marks", func(_ *look, t *topic, _ *pageView) bool { return halfOf(t.text) }},
	{"code", func(_ *look, t *topic, _ *pageView) bool { return codeLike.MatchString(t.text) }},
}

// contents are what the finders find in it.
var contents = []trait{
	{"figure", func(_ *look, t *topic, _ *pageView) bool { return hasFigure(t.text) }},
	{"year", func(_ *look, t *topic, _ *pageView) bool { return yearIn.MatchString(t.text) }},
	{"day", func(l *look, t *topic, _ *pageView) bool {
		return hasFigure(t.text) && len(find.Dates(t.text, l.langs))+len(find.Ranges(t.text, l.langs)) > 0
	}},
	{"time", func(l *look, t *topic, _ *pageView) bool {
		return len(find.Clocks(t.text, l.langs))+len(find.Durations(t.text, l.langs)) > 0
	}},
	{"sum", func(l *look, t *topic, _ *pageView) bool { return l.hasSum(t.text) }},
	{"credits", func(l *look, t *topic, _ *pageView) bool { return len(find.Credits(t.text, l.langs)) > 0 }},
	{"address", func(l *look, t *topic, _ *pageView) bool {
		return l.inAddress(t.at.passage) || reachLine(t.text) || len(find.Addresses(t.text)) > 0
	}},
}

var yearIn = matching(`\b(?:19|20)\d\d\b`)

// value returns a value that is already read, bare.
func (l *look) bareValue(f paper.Field) string { return bare(l.out.Values[f].Text) }

// wordSenses are what the words of any text are known to be.
var wordSenses = []trait{
	{"body", func(l *look, t *topic, _ *pageView) bool { return l.isBody(t.text) }},
	{"attendee", func(l *look, t *topic, _ *pageView) bool { return l.isName(t.text) }},
	{"attendee in it", func(l *look, t *topic, _ *pageView) bool { return l.nameEnds(t.text) && !l.isName(t.text) }},
	{"person", func(_ *look, t *topic, _ *pageView) bool { return isPersonal(t.text) }},
	{"office", func(_ *look, t *topic, _ *pageView) bool { return officeWord.MatchString(t.low) }},
	{"heading", func(_ *look, t *topic, _ *pageView) bool {
		from, to := headingIn(t.low)
		return from == 0 && to >= len(t.low)-2
	}},
	{"begins as a heading", func(_ *look, t *topic, _ *pageView) bool {
		from, to := headingIn(t.low)
		return from == 0 && to < len(t.low)-2
	}},
	{"heading in it", func(_ *look, t *topic, _ *pageView) bool { from, _ := headingIn(t.low); return from > 0 }},
	{"word for an event", func(_ *look, t *topic, _ *pageView) bool { return eventIn.MatchString(t.low) }},
	{"label", func(_ *look, t *topic, _ *pageView) bool { return roleOf(t.text) != noRole }},
}

// titleSenses are what else those of a title are.
var titleSenses = []trait{
	{"provider", func(l *look, t *topic, _ *pageView) bool { return t.bare == l.bareValue(paper.FieldProvider) }},
	{"provider in it", func(l *look, t *topic, _ *pageView) bool {
		v := l.bareValue(paper.FieldProvider)
		return v != "" && len(t.words) > 2 && strings.Contains(t.bare, v)
	}},
	{"beside a label of something else", func(_ *look, t *topic, _ *pageView) bool {
		return t.role != noRole && t.role != isTitle && t.role != isExam
	}},
	{"beside the label of a title", func(_ *look, t *topic, _ *pageView) bool { return t.role == isTitle || t.role == isExam }},
	{"beside another label", func(_ *look, t *topic, _ *pageView) bool { return t.role == noRole && t.label != "" }},
	{"again", func(l *look, t *topic, _ *pageView) bool { return strings.Count(l.all, t.low) > 1 }},
}

// headingIn returns where the first heading of a paper stands in folded text; -1 for none.
func headingIn(low string) (from, to int) {
	m := heading.FindStringIndex(low)
	if m == nil {
		return -1, -1
	}
	return m[0], m[1]
}

// sentences are what it does in its sentence.
var sentences = []trait{
	{"certifies", func(_ *look, t *topic, _ *pageView) bool {
		return certifyLine.MatchString(t.low) || didIt.MatchString(t.low)
	}},
	{"thanks", func(_ *look, t *topic, _ *pageView) bool {
		return thanksText.MatchString(t.low) || valediction.MatchString(t.low)
	}},
	{"greets", func(_ *look, t *topic, _ *pageView) bool { return salutation.MatchString(t.text) }},
	{"speaks to the reader", func(_ *look, t *topic, _ *pageView) bool { return asLetter.MatchString(t.low) }},
	{"says what became of it", func(l *look, t *topic, _ *pageView) bool { return l.saysState(t.text) }},
	{"hardly a title", func(l *look, t *topic, _ *pageView) bool { return l.oddTitle(t.text) }},
	{"within a line", func(_ *look, t *topic, _ *pageView) bool { return t.inside && strings.TrimSpace(t.before) != "" }},
	{"begin of a line", func(_ *look, t *topic, _ *pageView) bool { return t.inside && strings.TrimSpace(t.before) == "" }},
	{"behind a word for an event", func(_ *look, t *topic, _ *pageView) bool {
		return t.before != "" && eventAtEnd.MatchString(strings.TrimRight(fold(tail(t.before, 40)), " \"“„«:‘'"))
	}},
	{"behind a small word", func(_ *look, t *topic, _ *pageView) bool {
		return t.before != "" && trailSmall.MatchString(" "+strings.TrimRight(fold(tail(t.before, 40)), " \"“„«")+" ")
	}},
	{"before a day", func(l *look, t *topic, _ *pageView) bool {
		return len(t.after) > 2 && len(find.Dates(head(t.after, 60), l.langs)) > 0
	}},
	{"before a verb", func(_ *look, t *topic, _ *pageView) bool {
		a := fold(head(strings.TrimSpace(strings.TrimLeft(t.after, "”»\"’' ")), 40))
		return a != "" && (didIt.MatchString(a) || endTitle.MatchString(" "+a))
	}},
}

// eventAtEnd ends with a word for what a title names.
var eventAtEnd = matching(`(?:kurs\w*|lehrgangs?|seminars?|schulung|tagung|fortbildung|weiterbildung|workshops?|webinars?|vortrag\w*|course|training|formation|stage|atelier|seminaire|curso|taller|seminario|jornadas?|congreso|cursus|opleiding|bijscholing|nascholing|studiedag|symposium|conference|session|module?|lecture|talk|thema|theme|sujet|tema|onderwerp|titled?|titulado|intitulee?|getiteld|genaamd|lezing|programme?|programa|event|class|veranstaltung|unterweisung)$`)

// above gives a trait of the passage before a topic that begins a line, folded as well.
func above(has func(l *look, text, low string) bool) func(*look, *topic, *pageView) bool {
	return func(l *look, t *topic, _ *pageView) bool {
		i := t.at.passage - 1
		return i >= 0 && strings.TrimSpace(t.before) == "" && has(l, l.passages[i].text, l.folded[i])
	}
}

// beneathIt gives a trait of the passage after a topic that ends a line.
func beneathIt(has func(l *look, text, low string) bool) func(*look, *topic, *pageView) bool {
	return func(l *look, t *topic, _ *pageView) bool {
		i := t.at.passage + 1
		return i < len(l.passages) && len(strings.TrimSpace(t.after)) < 3 && has(l, l.passages[i].text, l.folded[i])
	}
}

func bodyLine(l *look, text, _ string) bool   { return l.isBody(text) }
func personLine(_ *look, text, _ string) bool { return isPersonal(text) }

// neighbours are what stands above and beneath it.
var neighbours = []trait{
	{"under a word for an event", above(func(_ *look, _, low string) bool { return eventAtEnd.MatchString(strings.TrimRight(low, " :")) })},
	{"under a verb", above(func(_ *look, _, low string) bool { return certifyLine.MatchString(low) || didIt.MatchString(low) })},
	{"under the attendee", above(func(l *look, text, _ string) bool { return l.nameEnds(text) })},
	{"under a heading", above(func(_ *look, _, low string) bool { from, _ := headingIn(low); return from == 0 })},
	{"under a colon", above(func(_ *look, text, _ string) bool { return strings.HasSuffix(text, ":") })},
	{"under an open sentence", above(func(_ *look, text, _ string) bool { return startsLower(text) && !ended(text) })},
	{"under a body", above(bodyLine)}, {"under a person", above(personLine)},
	{"over a day", beneathIt(func(l *look, text, _ string) bool { return len(find.Dates(text, l.langs)) > 0 })},
	{"over small letters", beneathIt(func(_ *look, text, _ string) bool { return startsLower(text) })},
	{"over a verb", beneathIt(func(_ *look, _, low string) bool { return didIt.MatchString(low) })},
	{"over a length", beneathIt(func(l *look, text, _ string) bool { return len(find.Durations(text, l.langs)) > 0 })},
	{"over a body", beneathIt(bodyLine)}, {"over a person", beneathIt(personLine)},
}

// beside reports a topic that stands from so many passages after another passage to so many.
func (t *topic) beside(passage, from, to int) bool {
	d := t.at.passage - passage
	return passage >= 0 && d >= from && d <= to
}

// places are where on the paper it stands.
var places = []trait{
	{"in a table", func(l *look, t *topic, _ *pageView) bool { return l.inTable(l.cellAt(t.at)) }},
	{"in a programme", func(l *look, t *topic, _ *pageView) bool { return l.inProgramme(t.at) }},
	{"aside", func(l *look, t *topic, _ *pageView) bool { return l.aside(t.at.passage) }},
	{"first line", func(_ *look, t *topic, _ *pageView) bool { return t.at.passage == 0 }},
	{"top", func(l *look, t *topic, _ *pageView) bool { return t.at.passage*5 < len(l.passages) }},
	{"foot", func(l *look, t *topic, _ *pageView) bool { return t.at.passage*4 > len(l.passages)*3 }},
	{"last line", func(l *look, t *topic, _ *pageView) bool { return t.at.passage == len(l.passages)-1 }},
	{"below the attendee", func(_ *look, t *topic, p *pageView) bool { return t.beside(p.attendee, 1, 3) }},
	{"above the attendee", func(_ *look, t *topic, p *pageView) bool { return t.beside(p.attendee, -3, -1) }},
	{"near the day", func(_ *look, t *topic, p *pageView) bool {
		for _, d := range p.days {
			if t.beside(d, -2, 1) {
				return true
			}
		}
		return false
	}},
}
