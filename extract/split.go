package extract

import (
	"slices"
	"strconv"
	"strings"

	"evidencevault/extract/find"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// A leaf is one page of several, looked at by itself.
type leaf struct {
	page    page.Page // its beginning
	kind    paper.Kind
	score   int           // of the kind
	reading paper.Reading // of the page alone; of a page that may begin a paper
	text    string        // folded, and so are lines
	lines   []string
	days    []string // all that it names
	lang    find.Lang
	headed  bool   // its heading says what kind of paper it is
	proves  bool   // that heading is one of a paper about a person: "Certificate of"
	first   bool   // it calls itself the first page: "page 1 of 3"
	later   bool   // it calls itself a later one: "page 2 of 3"
	last    bool   // it calls itself the last one: "page 3 of 3"
	sent    bool   // it begins with the head of a message, as one is printed
	person  string // the one who stands out; "" if nobody does
	sure    bool   // the name has a label, or the sentence is about it
	titled  bool   // its first line is set as a heading
	offers  bool   // that heading is one of a programme or another paper about the event
	greets  bool   // it begins as a letter does
	goesOn  bool   // it begins within a sentence
}

// A part is the pages of one paper.
type part struct {
	pages  []page.Page
	leaves []leaf // each of its pages by itself, as far as they were looked at to part the document
	doubt  string // why it may be cut wrongly, as the end of a question; "" if nothing speaks for that
}

// papersIn parts the pages of a document where a new paper begins, by what speaks for and
// against it at each edge between two pages. A programme or an invoice of the same person
// behind a certificate begins none. Where it may be otherwise the part says so.
func papersIn(doc page.Document, h Hints) []part {
	if len(doc.Pages) < 2 || doc.Type == "eml" {
		return []part{{pages: doc.Pages}}
	}
	var out []part
	var before []leaf
	alone := h // a page by itself is not told to the trace, and teaches nothing
	alone.trace, alone.Habits = nil, nil
	for _, p := range doc.Pages {
		now, doubt := leafOf(doc, p, h), ""
		now.reading = understandPages(doc, []page.Page{now.page}, alone)
		if len(before) > 0 {
			e := newEdge(before, now)
			doubt = e.doubt()
			if e.score > 0 {
				before = nil
			}
		}
		if len(before) == 0 {
			out = append(out, part{})
		}
		before = append(before, now)
		part := &out[len(out)-1]
		part.pages, part.leaves = append(part.pages, p), append(part.leaves, now)
		if part.doubt == "" {
			part.doubt = doubt
		}
	}
	return out
}

// askCut puts the question whether a paper was cut rightly into its reading. Whoever
// answers it by its kind says that it was.
func askCut(r *paper.Reading, doubt string) {
	kind, ok := r.Values[paper.FieldKind]
	if doubt == "" || !ok {
		return
	}
	q, open := r.Question(paper.FieldKind)
	if !open {
		q = paper.Question{Field: paper.FieldKind, Candidates: []paper.Candidate{{Text: kind.Text, Why: kind.Why, Place: kind.Place}}}
		kind.Candidates = q.Candidates
	}
	q.Text = doubt
	kind.Certain = false
	r.Values[paper.FieldKind] = kind
	r.Questions = append(slices.DeleteFunc(r.Questions, func(o paper.Question) bool { return o.Field == paper.FieldKind }), q)
}

// pageMark is how a page says which of how many it is.
var pageMark = matching(`(?:^|[^\pL])(?:page|seite|pagina|blatt|feuille|hoja|blad|p\.|s\.)\s*([0-9]{1,3})\s*(?:of|/|von|de|sur|van|out of)\s*([0-9]{1,3})(?:[^0-9]|$)`)

// wentOn is how a page says that it goes on with what the page before it began.
var wentOn = matching(`^\W*(?:continued|continuation|fortsetzung|suite|continuacion|vervolg)(?:$|[ :.,])|\((?:continued|cont\.?|fortsetzung|forts\.|suite|continuacion|cont\.|vervolg)\)`)

// laterOf is how a page says of what it is a later one: "page 2 of the reference for …".
var laterOf = matching(`^\W*(?:page|seite|pagina|blatt|feuille|hoja|blad) (?:[2-9]|two|three|zwei|drei|deux|trois|dos|tres|twee|drie) (?:of|to|des|der|zum|zur|von|du|de|del|van)\b`)

// printedMessage reports a page that begins with the head of a message: at least three of its fields near the
// top, an address among them.
func (l *look) printedMessage() bool {
	fields, address := 0, false
	for i, text := range l.folded[:min(12, len(l.folded))] {
		if forwardHead.MatchString(strings.TrimSpace(text)) {
			fields++
			address = address || strings.Contains(l.passages[i].text, "@")
		}
	}
	return fields > 2 && address
}

// startsSmall is how a page begins that goes on with a sentence.
var startsSmall = matching(`^\p{Ll}`)

// marks says whether a page calls itself the first or a later one. Only what stands at its head
// or foot does; "pages 12 to 18" elsewhere are those of an article.
func (l *look) marks() (first, later, last bool) {
	for i, text := range l.folded {
		if i >= 4 && i < len(l.folded)-4 {
			continue
		}
		if m := pageMark.FindStringSubmatch(text); m != nil && len(strings.Fields(text)) < 16 {
			n, _ := strconv.Atoi(m[1])
			all, _ := strconv.Atoi(m[2])
			first, later, last = first || n == 1 && all > 0, later || n > 1 && n <= all, last || n > 0 && n == all
		}
		later = later || len(strings.Fields(text)) < 7 && wentOn.MatchString(text) || len(strings.Fields(text)) < 12 && laterOf.MatchString(text)
	}
	return first, later, last
}

// leafOf looks at the beginning of one page as if there were no other.
func leafOf(doc page.Document, p page.Page, h Hints) leaf {
	some, _ := within([]page.Page{p}, mostOfLeaf)
	p = some[0]
	l := newLook(doc, some, h)
	if len(l.passages) == 0 {
		return leaf{page: p, kind: paper.NotEvidence}
	}
	top := l.decideKind()[0]
	l.kind = top.kind
	lf := leaf{page: p, kind: top.kind, score: top.score, text: l.all, lines: l.folded, lang: l.lang,
		headed: len(l.passages) > 1 && (provesHead.MatchString(l.headings()) || top.title && top.score >= 60)}
	lf.first, lf.later, lf.last = l.marks()
	lf.sent = l.printedMessage()
	head := &l.cells[0]
	lf.proves = provesHead.MatchString(l.headings())
	lf.titled = l.boxed && (10*head.size >= 12*l.bodySize() || head.bold)
	lf.offers = top.kind == paper.NotEvidence && top.title ||
		!lf.proves && enclosure.MatchString(fold(head.text)) && len(strings.Fields(head.text)) < 9
	lf.goesOn = startsSmall.MatchString(head.text)
	lf.greets = slices.ContainsFunc(l.passages[:min(12, len(l.passages))], func(p passage) bool { return salutation.MatchString(p.text) })
	if names := best(l.findAttendee()); len(names) > 0 && names[0].score >= 50 {
		lf.person, lf.sure = names[0].text, names[0].score >= 60
	}
	for _, d := range l.days {
		for _, span := range d.spans {
			lf.days = append(lf.days, span.Start.String(), span.End.String())
		}
	}
	return lf
}

// enclosure is how a page is headed that tells of the event and not of the person.
var enclosure = matching(`^(?:(?:the |our |das |le |el |het )?(?:\S+ ){0,3})(?:programmes?|program|agenda|time ?table|schedule|running order|syllabus|directions|programm|tagesprogramm|seminarprogramm|kursprogramm|tagungsprogramm|tagesordnung|ablauf(?:plan)?|zeitplan|stundenplan|lehrplan|anfahrt|deroule\w*|ordre du jour|emploi du temps|programa|orden del dia|horario|temario|rooster|dagindeling|programmaoverzicht|programma|lesrooster)(?:$|[ :.–-])`)

// front returns the pages of a paper that prove something, without what is stapled behind
// them: an invoice or a receipt, whose days and names are not said of the event, and a
// programme, whose times are not said of the person. rest says that among those behind are
// others that name nobody: what only they say is asked about. Pages that were looked at when
// the document was parted are not looked at again.
func front(doc page.Document, part part, h Hints) (proof []page.Page, rest bool) {
	pages := part.pages
	if len(pages) < 2 || len(pages) > 12 || doc.Type == "eml" {
		return pages, false
	}
	first := part.leaf(doc, 0, h)
	if first.kind == paper.Receipt || first.kind == paper.NotEvidence || first.kind == paper.Transcript || first.score < 60 || first.person == "" {
		return pages, false
	}
	for i := 1; i < len(pages); i++ {
		lf := part.leaf(doc, i, h)
		switch {
		case lf.later:
		case lf.kind == paper.Receipt && lf.score >= 60 && lf.headed, lf.offers:
			return pages[:i], false
		case lf.person == "" && lf.titled && !lf.headed, another(lf.person, first.person):
			return pages[:i], true
		}
	}
	return pages, false
}

// leaf returns one page of the part, looked at by itself.
func (p part) leaf(doc page.Document, i int, h Hints) leaf {
	if i < len(p.leaves) {
		return p.leaves[i]
	}
	return leafOf(doc, p.pages[i], h)
}

// certifies reports words by which a page says of a person what they did.
func (l *look) certifies() bool { return didIt.MatchString(l.all) }
