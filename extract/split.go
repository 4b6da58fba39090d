package extract

import (
	"fmt"
	"slices"
	"strings"

	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// A leaf is one page of several, looked at by itself.
type leaf struct {
	page   page.Page
	kind   paper.Kind
	score  int    // of the kind
	headed bool   // its heading says what kind of paper it is
	proves bool   // that heading is one of a paper about a person: "Certificate of"
	says   bool   // it says of a person what they did
	later  bool   // it calls itself a later page: "page 2 of 3"
	person string // the one who stands out; "" if nobody does
	sure   bool   // the name has a label, or the sentence is about it
	titled bool   // its first line is set as a heading
	offers bool   // that heading is one of a programme or another paper about the event
}

// A part is the pages of one paper.
type part struct {
	pages []page.Page
	doubt string // why it may be cut wrongly, as the end of a question; "" if nothing speaks for that
}

// papersIn parts the pages of a document where a new paper begins: a page with a
// heading of its own and a person or title of its own. A programme or an invoice of the
// same person behind a certificate begins none. Where it may be otherwise the part says so.
func papersIn(doc page.Document, h Hints) []part {
	if len(doc.Pages) < 2 || doc.Type == "eml" {
		return []part{{pages: doc.Pages}}
	}
	var out []part
	last := leaf{}
	for _, p := range doc.Pages {
		lf := leafOf(doc, p, h)
		begins := len(out) == 0 || lf.begins(last)
		doubt := ""
		if len(out) > 0 {
			doubt = lf.doubt(last, begins)
		}
		if begins {
			out, last = append(out, part{}), leaf{}
		}
		now := &out[len(out)-1]
		now.pages = append(now.pages, p)
		if doubt != "" && now.doubt == "" {
			now.doubt = doubt
		}
		if last.person == "" || lf.sure {
			last.person = lf.person
		}
		last.page = p
	}
	return out
}

// doubt says why a page may begin a paper though it was taken for part of the one before,
// or the other way round.
func (lf leaf) doubt(last leaf, begins bool) string {
	another := lf.another(last)
	switch {
	case begins && !lf.proves && !lf.titled && !another:
		return fmt.Sprintf("Is this a paper of its own? Page %d has no heading and may belong to the page before it.", lf.page.Number)
	case begins || lf.later || lf.offers:
		return ""
	case another && lf.kind != paper.NotEvidence:
		return fmt.Sprintf("Is this one paper? Page %d names somebody else, %s, and may be another.", lf.page.Number, lf.person)
	case (lf.proves || lf.headed && lf.titled) && lf.person == "" && !slices.Contains([]paper.Kind{paper.Receipt, paper.Transcript, paper.NotEvidence}, lf.kind):
		return fmt.Sprintf("Is this one paper? Page %d has a heading of its own and may be another.", lf.page.Number)
	}
	return ""
}

// another reports that a page names another person than the pages before it.
func (lf leaf) another(last leaf) bool {
	return lf.person != "" && last.person != "" && !samePerson(lf.person, last.person) && distanceOf(fold(lf.person), fold(last.person)) > 3
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

// laterPage is how a page says that it goes on with what the page before began.
var laterPage = matching(`(?:page|seite|pagina|blatt|feuille|hoja|blad|p\.|s\.)\s*(?:[2-9]|[1-9][0-9])\s*(?:of|/|von|de|sur|van|-)\s*[0-9]|(?:continued|fortsetzung|suite|continuacion|vervolg)(?: |$)`)

func leafOf(doc page.Document, p page.Page, h Hints) leaf {
	l := newLook(doc, []page.Page{p}, h)
	if len(l.passages) == 0 {
		return leaf{page: p}
	}
	top := l.decideKind()[0]
	l.kind = top.kind
	lf := leaf{page: p, kind: top.kind, score: top.score, says: l.certifies(), later: laterPage.MatchString(l.all),
		headed: provesHead.MatchString(l.headings()) || top.title && top.score >= 60}
	head := &l.cells[0]
	lf.proves = provesHead.MatchString(l.headings())
	lf.titled = l.boxed && (10*head.size >= 12*l.bodySize() || head.bold)
	lf.offers = top.kind == paper.NotEvidence && top.title ||
		!lf.proves && enclosure.MatchString(fold(head.text)) && len(strings.Fields(head.text)) < 9
	if names := best(l.findAttendee()); len(names) > 0 && names[0].score >= 50 {
		lf.person, lf.sure = names[0].text, names[0].score >= 60
	}
	return lf
}

// begins reports that a page begins a paper of its own, where last is what went before.
func (lf leaf) begins(last leaf) bool {
	another := lf.another(last)
	if lf.person == "" || lf.later && !another || lf.kind == paper.NotEvidence {
		return false
	}
	if slices.Contains([]paper.Kind{paper.Receipt, paper.Transcript}, lf.kind) {
		return another && lf.sure && lf.headed
	}
	if another && lf.sure && (lf.headed || lf.says) && lf.score >= 30 {
		return true
	}
	return lf.score >= 60 && (lf.headed || lf.says)
}

// enclosure is how a page is headed that tells of the event and not of the person.
var enclosure = matching(`^(?:(?:the |our |das |le |el |het )?(?:\S+ ){0,3})(?:programmes?|program|agenda|time ?table|schedule|running order|syllabus|directions|programm|tagesprogramm|seminarprogramm|kursprogramm|tagungsprogramm|tagesordnung|ablauf(?:plan)?|zeitplan|stundenplan|lehrplan|anfahrt|deroule\w*|ordre du jour|emploi du temps|programa|orden del dia|horario|temario|rooster|dagindeling|programmaoverzicht|programma|lesrooster)(?:$|[ :.–-])`)

// front returns the pages of a paper that prove something, without what is stapled behind
// them: an invoice or a receipt, whose days and names are not said of the event, and a
// programme, whose times are not said of the person. rest says that among those behind are
// others that name nobody: what only they say is asked about.
func front(doc page.Document, pages []page.Page, h Hints) (proof []page.Page, rest bool) {
	if len(pages) < 2 || len(pages) > 12 || doc.Type == "eml" {
		return pages, false
	}
	first := leafOf(doc, pages[0], h)
	if first.kind == paper.Receipt || first.kind == paper.NotEvidence || first.kind == paper.Transcript || first.score < 60 || first.person == "" {
		return pages, false
	}
	for i, p := range pages[1:] {
		lf := leafOf(doc, p, h)
		switch {
		case lf.later:
		case lf.kind == paper.Receipt && lf.score >= 60 && lf.headed, lf.offers:
			return pages[:i+1], false
		case lf.person == "" && lf.titled && !lf.headed, lf.another(first):
			return pages[:i+1], true
		}
	}
	return pages, false
}

// certifies reports words by which a page says of a person what they did.
func (l *look) certifies() bool { return didIt.MatchString(l.all) }
