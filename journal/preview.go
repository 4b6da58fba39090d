package journal

import (
	"context"
	"errors"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// Preview is what confirming a paper would do, worked out and not done.
type Preview struct {
	Open     []paper.Question // that keep it from being confirmed; the rest is then empty
	Row      int              // of a transcript, to which they belong; 0: the whole paper
	For      string           // the further certification that asks them; "": the first
	Claims   []Claim          // as they would be
	Receipts []Receipt
	Warnings []Warning
	Before   []credit.Statement // of each certification, as `standing` shows it
	After    []credit.Statement
}

// errPreview ends the transaction of a preview, so that nothing of it is kept.
var errPreview = errors.New("only looked at")

// Preview works out what [Journal.Confirm] of one paper with these options would do. It
// does it in a transaction that is taken back, so the figures are those of the real act.
// What keeps the paper from being confirmed is no error but Open; other errors are those
// of Confirm.
func (j *Journal) Preview(ctx context.Context, ref string, o ConfirmOptions) (Preview, error) {
	var p Preview
	o = o.several()
	err := j.cat.Act(ctx, func(tx *catalog.Tx) error {
		p = Preview{}
		n, err := resolveOne(ctx, &tx.View, ref, catalog.LetterPaper)
		if err != nil {
			return err
		}
		before, err := j.open(ctx, &tx.View, credit.Date{})
		if err != nil {
			return err
		}
		p.Before = before.standings()
		what, err := j.plan(ctx, &tx.View, n.id, o)
		var open *OpenError
		if errors.As(err, &open) {
			p.Open, p.Row = open.Questions, open.Row
			return errPreview
		}
		if err != nil {
			return err
		}
		var got made
		err = j.recordAll(ctx, tx, &what, o, &got)
		if errors.As(err, &open) {
			p.Open, p.Row, p.For = open.Questions, open.Row, open.For
			return errPreview
		}
		if err != nil {
			return err
		}
		after, err := j.open(ctx, &tx.View, credit.Date{})
		if err != nil {
			return err
		}
		p.After, p.Warnings = after.standings(), append(got.warnings, after.doubles(got.claims...)...)
		for _, id := range got.claims {
			c, err := after.claim(id)
			if err != nil {
				return err
			}
			p.Claims = append(p.Claims, c)
		}
		for _, id := range got.receipts {
			p.Receipts = append(p.Receipts, after.receipt(id))
		}
		return errPreview
	})
	if errors.Is(err, errPreview) {
		err = nil
	}
	return p, err
}

// standings returns the statement of each certification's present cycle, in order.
func (b *book) standings() []credit.Statement {
	list := make([]credit.Statement, len(b.certs))
	for i, cert := range b.certs {
		list[i] = b.statements[cert.Cycle.ID]
	}
	return list
}
