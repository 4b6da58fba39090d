package extract_test

import (
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
)

// Pages that were not read belong to a paper all the same, so that they can be looked at
// and cut off; and nothing is certain of a paper that was not read to its end.
func TestUnreadPagesBelongToAPaper(t *testing.T) {
	word := func(n int) page.Page {
		return page.Page{Number: n, Width: 59500, Height: 84200, Words: []page.Word{{Text: "Certificate", Box: [4]int{100, 100, 900, 200}, Confidence: 100}}}
	}
	doc := page.Document{Type: "pdf", Pages: []page.Page{word(2), word(3)}, Unread: 3} // the first and the last two
	got := extract.Understand(doc, extract.Hints{})
	if first, last := got[0], got[len(got)-1]; first.From != 1 || last.To != 5 || last.Reason == "" {
		t.Errorf("pages %d to %d, %q, want 1 to 5 and why", first.From, last.To, last.Reason)
	}
	got = extract.Understand(doc, extract.Hints{Pages: [2]int{2, 5}})
	if len(got) != 1 || got[0].From != 2 || got[0].To != 5 {
		t.Errorf("of the pages 2 to 5: %+v", got)
	}
}
