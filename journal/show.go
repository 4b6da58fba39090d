package journal

import (
	"context"
	"slices"

	"evidencevault/catalog"
	"evidencevault/credit"
)

// Show returns a paper, activity, claim, receipt or audit letter with its history.
func (j *Journal) Show(ctx context.Context, ref string) (Detail, error) {
	var d Detail
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		n, err := resolveOne(ctx, v, ref, catalog.LetterPaper, catalog.LetterActivity, catalog.LetterClaim, catalog.LetterReceipt, catalog.LetterLetter)
		if err != nil {
			return err
		}
		b, err := j.open(ctx, v, credit.Date{})
		if err != nil {
			return err
		}
		ids := []string{n.id}
		switch n.letter {
		case catalog.LetterPaper:
			d.Paper, err = j.paperDetail(ctx, v, b, n.id)
			if err == nil {
				d.ID = d.Paper.ID
			}
		case catalog.LetterActivity:
			d.Activity = new(b.activity(b.activities[n.id]))
			d.ID = d.Activity.ID
		case catalog.LetterClaim:
			var c Claim
			c, err = b.claim(n.id)
			d.ID, d.Claim = c.ID, &c
			for _, row := range b.claims {
				if row.ID == n.id {
					ids = append(ids, row.Activity)
				}
			}
		case catalog.LetterReceipt:
			r := b.receipt(n.id)
			d.ID, d.Receipt = r.ID, &r
		case catalog.LetterLetter:
			var row catalog.AuditLetter
			if row, err = v.Letter(ctx, n.id); err == nil {
				var l AuditLetter
				l, err = j.letter(ctx, v, row)
				d.ID, d.Letter = l.ID, &l
			}
		}
		if err != nil {
			return err
		}
		d.History, err = history(ctx, v, b, ids...)
		return err
	})
	return d, err
}

func (j *Journal) paperDetail(ctx context.Context, v *catalog.View, b *book, id string) (*PaperDetail, error) {
	k, err := j.asker(ctx, v, "")
	if err != nil {
		return nil, err
	}
	s, err := see(ctx, v, b.papers[id])
	if err != nil {
		return nil, err
	}
	d := &PaperDetail{WaitingPaper: s.shown(k), Names: []string{}, Exact: []string{}, Claims: []string{}, Size: s.evidence.Size}
	for _, name := range s.evidence.Names {
		d.Names = append(d.Names, name.Name.String())
		d.Exact = append(d.Exact, name.Name.Exact())
	}
	proved := map[string]bool{}
	for activity, proofs := range b.proofs {
		proved[activity] = slices.ContainsFunc(proofs, func(p catalog.Proof) bool { return p.Paper == id })
	}
	for _, c := range b.claims {
		if !c.Withdrawn && (proved[c.Activity] || b.activities[c.Activity].Paper == id) {
			d.Claims = append(d.Claims, c.Ref())
		}
	}
	for _, r := range b.receipts {
		if r.Paper == id && !r.Withdrawn {
			d.Receipt = r.Ref()
		}
	}
	return d, nil
}

func (b *book) activity(a catalog.Activity) Activity {
	shown := Activity{ID: a.Ref(), Fields: a.Fields, Proofs: b.proofsOf(a), Claims: []string{}, Costs: []Receipt{}}
	for _, c := range b.claims {
		if c.Activity == a.ID && !c.Withdrawn {
			shown.Claims = append(shown.Claims, c.Ref())
		}
	}
	for _, r := range b.receipts {
		if r.Activity == a.ID && !r.Withdrawn {
			shown.Costs = append(shown.Costs, b.receipt(r.ID))
		}
	}
	shown.Sums = Sums(shown.Costs)
	return shown
}

// Activity returns an activity (A7, or a claim of it) with its proofs and costs.
func (j *Journal) Activity(ctx context.Context, ref string) (Activity, error) {
	var shown Activity
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		id, err := activityOf(ctx, v, ref)
		if err != nil {
			return err
		}
		b, err := j.open(ctx, v, credit.Date{})
		if err != nil {
			return err
		}
		shown = b.activity(b.activities[id])
		return nil
	})
	return shown, err
}
