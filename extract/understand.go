package extract

import (
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// Version names the rules by which a reading came about; it changes when they do.
const Version = "1"

// Hints is what the caller knows besides the document. The zero Hints is ready to use.
type Hints struct {
	Holder      string   // whose vault it is; "" means unknown, and then nobody is asked about the name
	FormerNames []string // further names that are the holder's
	Pages       [2]int   // first and last page of the paper within its evidence; zero means all, cut where a new paper begins
	Password    string   // opens an encrypted document; used and forgotten
}

// Understand returns what a document says, one reading per paper, in the order of
// their pages; never none. It is pure: equal documents and hints give equal readings.
func Understand(doc page.Document, h Hints) []paper.Reading {
	return []paper.Reading{{Outcome: paper.OutcomeUnreadable, Reader: Version}}
}
