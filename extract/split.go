package extract

import (
	"slices"

	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// A leaf is one page of several, looked at by itself.
type leaf struct {
	page   page.Page
	kind   paper.Kind
	score  int    // of the kind
	headed bool   // its heading says what kind of paper it is
	says   bool   // it says of a person what they did
	later  bool   // it calls itself a later page: "page 2 of 3"
	person string // the one who stands out; "" if nobody does
	sure   bool   // the name has a label, or the sentence is about it
}

// papersIn parts the pages of a document where a new paper begins: a page with a
// heading of its own and a person or title of its own. A programme or an invoice of the
// same person behind a certificate begins none.
func papersIn(doc page.Document, h Hints) [][]page.Page {
	if len(doc.Pages) < 2 || doc.Type == "eml" {
		return [][]page.Page{doc.Pages}
	}
	var out [][]page.Page
	last := leaf{}
	for _, p := range doc.Pages {
		lf := leafOf(doc, p, h)
		if len(out) == 0 || lf.begins(last) {
			out, last = append(out, nil), leaf{}
		}
		out[len(out)-1] = append(out[len(out)-1], p)
		if last.person == "" || lf.sure {
			last.person = lf.person
		}
		last.page = p
	}
	return out
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
	if names := best(l.findAttendee()); len(names) > 0 && names[0].score >= 50 {
		lf.person, lf.sure = names[0].text, names[0].score >= 60
	}
	return lf
}

// begins reports that a page begins a paper of its own, where last is what went before.
func (lf leaf) begins(last leaf) bool {
	another := lf.person != "" && last.person != "" && !samePerson(lf.person, last.person) && distanceOf(fold(lf.person), fold(last.person)) > 3
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

// front returns the pages of a paper that prove something, without an invoice or a receipt
// that is stapled behind them: what that says of days and names is not said of the event.
func front(doc page.Document, pages []page.Page, h Hints) []page.Page {
	if len(pages) < 2 || len(pages) > 12 || doc.Type == "eml" {
		return pages
	}
	first := leafOf(doc, pages[0], h)
	if first.kind == paper.Receipt || first.kind == paper.NotEvidence || first.score < 60 || first.person == "" {
		return pages
	}
	for i, p := range pages[1:] {
		if lf := leafOf(doc, p, h); lf.kind == paper.Receipt && lf.score >= 60 && lf.headed {
			return pages[:i+1]
		}
	}
	return pages
}

// certifies reports words by which a page says of a person what they did.
func (l *look) certifies() bool { return didIt.MatchString(l.all) }
