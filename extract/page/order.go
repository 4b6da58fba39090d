package page

import (
	"encoding/json"
	"fmt"

	"evidencevault/internal/confine"
)

// The jobs of a child, and what a reading child can be told to do.
const (
	jobRead   = "read"
	jobSecond = "second"

	doRead    = "read"
	doPicture = "picture"
	doFields  = "fields" // of a form
	doFill    = "fill"
)

// setup is what a child is told before its limits hold.
type setup struct{ Cache string }

// order is what is wanted of the document in the body, or, where Held, of the one
// that the child read last.
type order struct {
	Do              string
	Held            bool
	Password        string
	From, To, Pages int
	Page, DPI, Turn int  // Turn: quarters clockwise; DPI 0 means as letters are best recognised
	Turned          bool // not to be turned further, whichever way its lines run
	Values          []FormValue
}

// reply is the child's answer. A picture itself, or the data of all parts one behind
// the other, is the blob beside it.
type reply struct {
	Document           Document
	Sizes              []int      // of the parts' data
	Need               []int      // numbers of the pages whose letters must be recognised
	Width, Height, DPI int        // of the picture, in pixels
	Wide, High         int        // of the page as displayed, in hundredths of a point
	Blank              bool       // the picture has one colour
	Turn               int        // quarters clockwise by which the page was turned for it
	Back               projection // from its dots to shares of the page as displayed
	Marks              marks
	Fields             []FormField
	Problems           []Problem
}

// Main does a child's work and exits, if this process was started as a child; else it
// returns at once. It must be the first call of every main and of every TestMain of a
// program that reads documents.
func Main() {
	confine.Serve(map[string]confine.Job{
		jobRead:   {Prepare: prepareRead},
		jobSecond: {Prepare: prepareSecond},
	})
}

// replyBytes writes a reply; a reply that cannot be written is one that says so.
func replyBytes(a reply) []byte {
	b, err := json.Marshal(a)
	if err != nil {
		b, _ = json.Marshal(reply{Document: Document{Trouble: Unreadable, Reason: "what it says cannot be handed on"}})
	}
	return b
}

// joined gives the parts their data back from the blob.
func (a *reply) joined(blob []byte) error {
	if len(a.Sizes) != len(a.Document.Parts) {
		return fmt.Errorf("%d parts and %d sizes", len(a.Document.Parts), len(a.Sizes))
	}
	for i, n := range a.Sizes {
		if n < 0 || n > len(blob) {
			return fmt.Errorf("a part of %d bytes where %d are left", n, len(blob))
		}
		a.Document.Parts[i].Data, blob = blob[:n:n], blob[n:]
	}
	return nil
}
