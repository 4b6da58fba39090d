package extract

import (
	"fmt"
	"slices"
	"strings"

	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// An edge is where one page follows another, with what speaks for and against the second
// being the first of a paper of its own.
type edge struct {
	now    leaf
	before []leaf // the pages of the paper so far; never empty
	person string // whom the paper before is about, as far as its pages say so by themselves
	alike  bool   // many of the page's lines stand on a page of the paper before it too
	score  int    // above 0 it begins a paper
	shown  []edgeTrait
}

// An edgeTrait is one thing that an edge may show. weight is how much it speaks for a new
// paper, said how the question goes on that begins "Page 2"; "" if it is not told.
type edgeTrait struct {
	weight int
	said   string
	on     func(e *edge) bool
}

// edgeDoubt is the score on either side of 0 within which the person is asked.
const edgeDoubt = 3

// alikeEnough is the share of lines, in percent, that two papers on the same form have in common.
const alikeEnough = 40

// edgeBase is the score of an edge that shows nothing.
const edgeBase = -5

// edgeTraits are what an edge may show. They were weighed on some two thousand files made of
// papers that were set behind each other, or of one paper on two pages.
var edgeTraits = []edgeTrait{
	{6, "", func(e *edge) bool { return e.now.first }},
	{-10, "calls itself a later page", func(e *edge) bool { return e.now.later }},
	{9, "begins as another message does", func(e *edge) bool { return e.now.sent }},
	{6, "stands behind one that calls itself the last", func(e *edge) bool { return e.last().last && !e.now.later }},
	{5, "names somebody else, {a},", func(e *edge) bool { return e.another() && e.now.sure }},
	{1, "names somebody else, {a},", func(e *edge) bool { return e.another() && !e.now.sure }},
	{3, "", func(e *edge) bool { return e.now.person != "" && !e.another() && e.person != "" }},
	{-2, "names nobody", func(e *edge) bool { return e.now.person == "" }},
	{1, "has a heading of its own", func(e *edge) bool { return e.now.headed || e.now.proves }},
	{-1, "has no heading", func(e *edge) bool { return !e.now.headed && !e.now.proves && !e.now.titled }},
	{1, "", func(e *edge) bool { return e.now.titled }},
	{2, "", func(e *edge) bool { return e.now.proof() && e.now.reading.Values[paper.FieldKind].Certain }},
	{-2, "does not say what it is", func(e *edge) bool { return !e.now.reading.Values[paper.FieldKind].Certain }},
	{-4, "", func(e *edge) bool { return !e.now.proof() }},
	{-4, "", func(e *edge) bool { return e.now.offers }},
	{-7, "", func(e *edge) bool { return e.billed() }},
	{-4, "", func(e *edge) bool {
		return e.now.kind == paper.Transcript && e.before[0].kind == paper.Transcript && e.same(paper.FieldProvider)
	}},
	{2, "names another body", func(e *edge) bool { return e.differs(paper.FieldProvider) }},
	{1, "is about something else", func(e *edge) bool { return e.differs(paper.FieldTitle) }},
	{-2, "is about the same thing", func(e *edge) bool { return e.same(paper.FieldTitle) }},
	{3, "was issued on another day", func(e *edge) bool { return e.differs(paper.FieldIssue) }},
	{-2, "was issued on the same day", func(e *edge) bool { return e.same(paper.FieldIssue) && !(e.alike && e.differs(paper.FieldTitle)) }},
	{-2, "has no day of issue", func(e *edge) bool { return e.now.reading.Values[paper.FieldIssue].Text == "" }},
	{2, "is about another day", func(e *edge) bool { return e.differs(paper.FieldEnd) }},
	{2, "", func(e *edge) bool {
		return e.now.lang != "" && e.last().lang != "" && e.now.lang != e.last().lang
	}},
	{-4, "says the same in another language", func(e *edge) bool {
		return e.now.lang != e.last().lang && e.person != "" && !e.another() && (e.same(paper.FieldIssue) || e.same(paper.FieldEnd))
	}},
	{2, "is of another size", func(e *edge) bool { return !sameSize(e.now.page, e.last().page) }},
	{3, "", func(e *edge) bool { return e.alike && e.now.person != "" }},
	{-2, "is headed like the page before it", func(e *edge) bool { return e.running() && !e.alike }},
	{-3, "goes on with a sentence", func(e *edge) bool { return e.now.goesOn }},
	{1, "", func(e *edge) bool { return e.now.greets }},
}

func newEdge(before []leaf, now leaf) edge {
	e := edge{now: now, before: before, score: edgeBase}
	for _, b := range before {
		if e.person == "" || b.sure && b.person != "" {
			e.person = b.person
		}
		e.alike = e.alike || now.alike(b)
	}
	for _, t := range edgeTraits {
		if t.on(&e) {
			e.shown, e.score = append(e.shown, t), e.score+t.weight
		}
	}
	return e
}

func (e *edge) last() leaf { return e.before[len(e.before)-1] }

// another reports that the page names another person than the paper before it.
func (e *edge) another() bool {
	return another(e.now.person, e.person)
}

// another reports two names that are not those of one person, as far as both are known.
func another(a, b string) bool {
	return a != "" && b != "" && !samePerson(a, b) && distanceOf(fold(a), fold(b)) > 3
}

// proof reports that the page by itself proves something.
func (lf leaf) proof() bool { return lf.kind != paper.NotEvidence }

// billed reports a bill behind a paper of another kind that may be about what it bills:
// nothing on it is another's.
func (e *edge) billed() bool {
	return e.now.kind == paper.Receipt && e.before[0].kind != paper.Receipt && !(e.differs(paper.FieldProvider) && e.differs(paper.FieldTitle))
}

// of returns a value of the page and of the paper before it.
func (e *edge) of(f paper.Field) (now, was string) {
	return e.now.reading.Values[f].Text, e.before[0].reading.Values[f].Text
}

// differs reports that both have a value, each another, and neither names the other's.
func (e *edge) differs(f paper.Field) bool {
	now, was := e.of(f)
	return now != "" && was != "" && now != was && !e.now.names(f, was) && !e.before[0].names(f, now)
}

// names reports that a value stands anywhere on the page.
func (lf leaf) names(f paper.Field, text string) bool {
	if f == paper.FieldIssue || f == paper.FieldEnd {
		return slices.Contains(lf.days, text)
	}
	return strings.Contains(lf.text, fold(text))
}

// same reports that the page has the value of the paper before it.
func (e *edge) same(f paper.Field) bool {
	now, was := e.of(f)
	return was != "" && (now == was || f == paper.FieldTitle && e.now.names(f, was))
}

// sameSize reports that two pages are equally large, to within 2 mm; true where it is not known.
func sameSize(a, b page.Page) bool {
	near := func(x, y int) bool { return max(x, y)-min(x, y) <= 600 }
	return a.Width == 0 || b.Width == 0 || near(a.Width, b.Width) && near(a.Height, b.Height)
}

// alike reports that many of the page's lines stand on another too.
func (lf leaf) alike(o leaf) bool {
	n := 0
	for _, line := range lf.lines {
		if slices.Contains(o.lines, line) {
			n++
		}
	}
	return 100*n >= alikeEnough*max(1, len(lf.lines))
}

// running reports that the first or last line of both pages is the same.
func (e *edge) running() bool {
	a, b := e.last().lines, e.now.lines
	if len(a) == 0 || len(b) == 0 {
		return false
	}
	return a[0] == b[0] || a[len(a)-1] == b[len(b)-1] && strings.ContainsAny(a[len(a)-1], "abcdefghijklmnopqrstuvwxyz")
}

// doubt is the question whether the pages are parted rightly; "" where that is clear.
func (e *edge) doubt() string {
	switch {
	case !e.now.proof(), e.score > edgeDoubt:
		return ""
	case e.score > -edgeDoubt, e.now.sure && e.another() && e.score > -2*edgeDoubt:
	case e.now.later || !e.now.proves || e.now.person != "" || e.now.kind == paper.Receipt || e.now.kind == paper.Transcript:
		return ""
	}
	own, sign := "Is this one paper? Page %d %s and may be another.", 1
	if e.score > 0 {
		own, sign = "Is this a paper of its own? Page %d %s and may belong to the page before it.", -1
	}
	why, most := "is not clearly set apart", 0
	for _, t := range e.shown {
		if t.said != "" && t.weight*sign > most {
			why, most = strings.Replace(t.said, "{a}", e.now.person, 1), t.weight*sign
		}
	}
	return fmt.Sprintf(own, e.now.page.Number, why)
}
