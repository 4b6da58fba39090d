package catalog

import (
	"context"
	"database/sql"
	"time"

	"evidencevault/credit"
)

// AuditLetter is a letter by which a body asks for the proof of claims.
type AuditLetter struct {
	ID            string
	Number        int      // 2 is shown as L2
	Papers        []string // UUIDs, in the order of their numbers
	Certification string
	Cycle         string // asked about
	Dated, Due    credit.Date
	Days          int         // to answer, by the scheme; 0: the letter itself names the day
	Claims        []string    // UUIDs, in the order of their numbers
	Whole         bool        // it asks for every claim that the cycle had then
	Seed          string      // with which the claims were drawn; "" if the letter names them
	Answered      credit.Date // zero while it is open
	Note          string
	Made          time.Time
	Withdrawn     bool
	Why           string // why it was withdrawn
}

// Ref returns the short number, as "L2".
func (l AuditLetter) Ref() string { return ref(LetterLetter, l.Number) }

// Open reports whether the letter waits for an answer.
func (l AuditLetter) Open() bool { return !l.Withdrawn && l.Answered.IsZero() }

func (v *View) letters(ctx context.Context, where string, args ...any) ([]AuditLetter, error) {
	found, err := list(ctx, v, func(r *sql.Rows) (l AuditLetter, err error) {
		return l, r.Scan(&l.ID, &l.Number, &l.Certification, &l.Cycle, (*dayText)(&l.Dated), (*dayText)(&l.Due), &l.Days, &l.Whole, &l.Seed,
			(*dayText)(&l.Answered), &l.Note, (*timeValue)(&l.Made), &l.Withdrawn, &l.Why)
	}, `SELECT id, number, certification, cycle, dated, due, days, whole, seed, answered, note, made, withdrawn, why FROM letter `+where+` ORDER BY number`, args...)
	if err != nil {
		return nil, err
	}
	for i := range found {
		l := &found[i]
		if l.Papers, err = list(ctx, v, scanText, `SELECT p.id FROM letter_paper JOIN paper p ON p.id = paper WHERE letter = ? ORDER BY p.number`, l.ID); err != nil {
			return nil, err
		}
		if l.Claims, err = list(ctx, v, scanText, `SELECT c.id FROM letter_claim JOIN claim c ON c.id = claim WHERE letter = ? ORDER BY c.number`, l.ID); err != nil {
			return nil, err
		}
	}
	return found, nil
}

// Letters returns every audit letter in the order of their numbers; withdrawn ones too.
func (v *View) Letters(ctx context.Context) ([]AuditLetter, error) { return v.letters(ctx, ``) }

// Letter returns one by its UUID.
func (v *View) Letter(ctx context.Context, id string) (AuditLetter, error) {
	found, err := v.letters(ctx, `WHERE id = ?`, id)
	return one("letter", id, found, err)
}
