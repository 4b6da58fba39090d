package journal

import (
	"encoding/json"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// WaitingPaper is a paper that is unread or waiting, as `waiting --json` prints it.
// Lists are empty, never null.
type WaitingPaper struct {
	ID        string                          `json:"id"`         // P12
	File      string                          `json:"file"`       // the first name it came under
	FileExact string                          `json:"file_exact"` // the same with each backslash doubled: the name's bytes can be had back from it
	Part      string                          `json:"part"`       // of the evidence, as the name of an attachment; "" for all of it
	SHA256    string                          `json:"sha256"`
	Pages     [2]int                          `json:"pages"` // first and last page within the evidence; zeros while unread
	Rows      []WaitingRow                    `json:"rows"`  // of a transcript
	State     string                          `json:"state"` // unread or waiting
	Reason    string                          `json:"reason"`
	Kind      string                          `json:"kind"` // "" while it is not known
	Values    map[paper.Field]paper.LineValue `json:"values"`
	Questions []WaitingQuestion               `json:"questions"`
}

// Clear reports whether the paper can be confirmed without an answer. A paper that
// is unread, or has a question, is not clear.
func (p WaitingPaper) Clear() bool { return p.State == catalog.Waiting && len(p.Questions) == 0 }

// WaitingQuestion is an open question with whether it keeps the paper from being
// confirmed.
type WaitingQuestion struct {
	paper.LineQuestion
	Matters bool `json:"matters"`       // confirming is refused while it is open
	Row     int  `json:"row,omitempty"` // of a transcript, counted from 1; 0 for the whole paper

	question paper.Question // as it was asked, with its candidates in canonical form
}

// WaitingRow is one row of a transcript with what was decided about it.
type WaitingRow struct {
	Row      int             `json:"row"` // counted from 1
	Title    string          `json:"title"`
	Start    credit.Date     `json:"start_date"` // prints as null when it is not known; so does End
	End      credit.Date     `json:"end_date"`
	Duration *credit.Minutes `json:"duration_minutes"`
	Credits  []paper.Printed `json:"credits"`
	State    string          `json:"state"` // waiting, confirmed or left out
}

// Claim is a claim as `claims --json` prints it.
type Claim struct {
	ID            string          `json:"id"`
	Activity      string          `json:"activity"`
	Certification string          `json:"certification"`
	Category      string          `json:"category"`
	Title         string          `json:"title"`
	Provider      string          `json:"provider"`
	Start         credit.Date     `json:"start_date"` // prints as null when it is not known; so does End
	End           credit.Date     `json:"end_date"`
	Duration      *credit.Minutes `json:"duration_minutes"`
	Awarded       credit.Amount   `json:"awarded"`
	Counted       credit.Amount   `json:"counted"`
	Proofs        []Proof         `json:"proofs"`

	Kind      string            `json:"kind"`
	Fields    map[string]string `json:"fields"`          // every field of the activity, canonical
	Outside   bool              `json:"outside"`         // dated outside the cycle, and counts 0
	Proven    bool              `json:"proven"`          // false: no proof of a kind that the category accepts
	State     string            `json:"state,omitempty"` // withdrawn, else ""
	Elsewhere []string          `json:"elsewhere"`       // claims of the same activity for other certifications
	Notes     []string          `json:"notes"`           // what a person should know, in sentences
}

// Proof links one field of an activity to the place that shows it.
type Proof struct {
	Field  paper.Field   `json:"field"`
	SHA256 string        `json:"sha256"` // of the evidence, lower-case hex
	File   string        `json:"file"`   // the first name it came under
	Page   int           `json:"page"`
	Box    *paper.Points `json:"box"` // null without a place
	Quote  string        `json:"quote"`
	By     string        `json:"by"` // program or person

	Paper string `json:"paper"` // P12
	Value string `json:"value"` // canonical
}

// A Warning is something a person should know about an act that was done all the
// same.
type Warning struct {
	Paper string `json:"paper,omitempty"`
	Claim string `json:"claim,omitempty"`
	Text  string `json:"text"`
}

// Receipt is money paid or paid back, as `receipts --json` prints it.
type Receipt struct {
	ID       string      `json:"id"`    // R3
	Paper    string      `json:"paper"` // P12
	Provider string      `json:"provider"`
	Title    string      `json:"title"`
	Date     credit.Date `json:"issue_date"` // prints as null when it is not known; so do Start and End
	Start    credit.Date `json:"start_date"`
	End      credit.Date `json:"end_date"`
	Total    string      `json:"total"`    // "518.40 GBP"
	CostOf   string      `json:"cost_of"`  // A7; "" while no certificate is there
	State    string      `json:"state"`    // cost, or "paid, no certificate yet"
	Days     *int        `json:"days"`     // since the receipt's date, or the day it was confirmed; null for a cost
	Proposal []Match     `json:"proposal"` // activities it may belong to, likeliest first
	File     string      `json:"file"`
	SHA256   string      `json:"sha256"`
}

// Match is an activity that a receipt may be the cost of, with what speaks for it.
type Match struct {
	Activity string   `json:"activity"`
	Title    string   `json:"title"`
	Why      []string `json:"why"`
}

// The states of a receipt.
const (
	ReceiptCost = "cost"
	ReceiptOpen = "paid, no certificate yet"
)

// Sum is money in one currency; sums of several currencies stand beside each other.
type Sum struct {
	Currency string `json:"currency"`
	Amount   string `json:"amount"` // exact
}

// MarshalJSON prints r with null for a day that is not known.
func (r WaitingRow) MarshalJSON() ([]byte, error) {
	type plain WaitingRow
	return json.Marshal(struct {
		plain
		Start *credit.Date `json:"start_date"`
		End   *credit.Date `json:"end_date"`
	}{plain(r), dayOrNull(r.Start), dayOrNull(r.End)})
}

// MarshalJSON prints c with null for a day that is not known.
func (c Claim) MarshalJSON() ([]byte, error) {
	type plain Claim
	return json.Marshal(struct {
		plain
		Start *credit.Date `json:"start_date"`
		End   *credit.Date `json:"end_date"`
	}{plain(c), dayOrNull(c.Start), dayOrNull(c.End)})
}

// MarshalJSON prints r with null for a day that is not known.
func (r Receipt) MarshalJSON() ([]byte, error) {
	type plain Receipt
	return json.Marshal(struct {
		plain
		Date  *credit.Date `json:"issue_date"`
		Start *credit.Date `json:"start_date"`
		End   *credit.Date `json:"end_date"`
	}{plain(r), dayOrNull(r.Date), dayOrNull(r.Start), dayOrNull(r.End)})
}

func dayOrNull(d credit.Date) *credit.Date {
	if d.IsZero() {
		return nil
	}
	return &d
}
