package catalog

import (
	"slices"

	"evidencevault/credit"
)

// LetterRecorded says that the body asks for the proof of claims. The letter itself is
// evidence: the papers that it consists of.
type LetterRecorded struct {
	ID            string      `json:"id"` // UUID
	Number        int         `json:"number"`
	Papers        []string    `json:"papers"`        // UUIDs
	Certification string      `json:"certification"` // UUID
	Cycle         string      `json:"cycle"`         // UUID of the cycle asked about
	Dated         credit.Date `json:"dated"`         // the letter's own day
	Due           credit.Date `json:"due"`           // last day to answer
	Days          int         `json:"days,omitempty"`
	Claims        []string    `json:"claims"` // UUIDs of those it asks for
	Whole         bool        `json:"whole,omitempty"`
	Seed          string      `json:"seed,omitempty"`
}

// LetterAnswered says on which day an audit letter was answered; the zero day opens it
// again.
type LetterAnswered struct {
	ID   string      `json:"id"`
	On   credit.Date `json:"on,omitzero"`
	Note string      `json:"note,omitempty"` // how, such as what was sent and to whom
}

// Kind returns "letter recorded".
func (*LetterRecorded) Kind() string { return "letter recorded" }

// Kind returns "letter answered".
func (*LetterAnswered) Kind() string { return "letter answered" }

// About returns the letter, its papers and the claims that it asks for.
func (b *LetterRecorded) About() []string {
	return slices.Concat([]string{b.ID}, b.Papers, b.Claims)
}

// About returns the ids of the event.
func (b *LetterAnswered) About() []string { return []string{b.ID} }

func (b *LetterRecorded) apply(r *rows) error {
	steps := []func() error{
		func() error {
			return r.exec(`INSERT INTO letter (id, number, certification, cycle, dated, due, days, whole, seed, answered, note, event, made, withdrawn, why)
				VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, '', '', ?, ?, 0, '')`, b.ID, b.Number, b.Certification, b.Cycle, b.Dated.String(), b.Due.String(),
				b.Days, b.Whole, b.Seed, r.event, r.at)
		},
		func() error { return r.count(LetterLetter, b.Number) },
	}
	for _, p := range b.Papers {
		steps = append(steps, func() error { return r.exec(`INSERT INTO letter_paper (letter, paper) VALUES (?, ?)`, b.ID, p) })
	}
	for _, c := range b.Claims {
		steps = append(steps, func() error { return r.exec(`INSERT INTO letter_claim (letter, claim) VALUES (?, ?)`, b.ID, c) })
	}
	return run(steps...)
}

func (b *LetterAnswered) apply(r *rows) error {
	return r.change("letter", b.ID, `UPDATE letter SET answered = ?, note = ? WHERE id = ?`, b.On.String(), b.Note, b.ID)
}
