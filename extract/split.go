package extract

import (
	"slices"

	"evidencevault/extract/page"
)

// papersIn parts the pages of a document where a new paper begins: a page with a
// heading of its own and a person or title of its own. A programme or an invoice
// behind a certificate begins none.
func papersIn(doc page.Document, h Hints) [][]page.Page {
	if len(doc.Pages) < 2 || doc.Type == "eml" {
		return [][]page.Page{doc.Pages}
	}
	var out [][]page.Page
	for _, p := range doc.Pages {
		if len(out) == 0 || begins(doc, p, h) {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], p)
	}
	return out
}

// begins reports that a page begins a paper of its own that proves something.
func begins(doc page.Document, p page.Page, h Hints) bool {
	l := newLook(doc, []page.Page{p}, h)
	if len(l.passages) == 0 || !heading.MatchString(l.headings()) && !l.certifies() {
		return false
	}
	list := l.decideKind()
	if list[0].score < 60 || slices.Contains([]string{"receipt", "not-evidence", "transcript"}, string(list[0].kind)) {
		return false
	}
	l.kind = list[0].kind
	if !l.certifies() && !provesHead.MatchString(l.headings()) {
		return false
	}
	names := best(l.findAttendee())
	return len(names) > 0 && names[0].score >= 50
}

// certifies reports words by which a page says of a person what they did.
func (l *look) certifies() bool { return didIt.MatchString(l.all) }
