package journal

import (
	"context"
	"errors"

	"evidencevault/catalog"
)

// recordAll records a confirmation, with the claims of its activities for further
// certifications, which is one act with it.
func (j *Journal) recordAll(ctx context.Context, tx *catalog.Tx, p *plan, o ConfirmOptions, got *made) error {
	if err := j.warn(ctx, &tx.View, p, o); err != nil {
		return err
	}
	if err := p.record(ctx, tx, got); err != nil {
		return err
	}
	first := got.claims
	for _, also := range o.Also {
		for i, id := range first {
			claim, warnings, err := j.claimAlso(ctx, tx, id, also)
			var open *OpenError
			if errors.As(err, &open) {
				open.Paper, open.For = p.Ref(), also.Certification
				if len(p.units) > i {
					open.Row = p.units[i].row
				}
			}
			if err != nil {
				return err
			}
			got.claims = append(got.claims, claim)
			for _, w := range warnings {
				got.warnings = append(got.warnings, Warning{Paper: p.Ref(), Text: also.Certification + ": " + w.Text})
			}
		}
	}
	return nil
}

// claimAlso claims the activity of a claim for a further certification.
func (j *Journal) claimAlso(ctx context.Context, tx *catalog.Tx, id string, also ClaimFor) (string, []Warning, error) {
	first, err := tx.Claim(ctx, id)
	if err != nil {
		return "", nil, err
	}
	activity, err := tx.Activity(ctx, first.Activity)
	if err != nil {
		return "", nil, err
	}
	a, err := j.toClaim(ctx, &tx.View, ClaimOptions{Activity: activity.Ref(), Certification: also.Certification, Category: also.Category})
	if err != nil {
		return "", nil, err
	}
	claim, err := recordClaim(ctx, tx, catalog.ClaimMade{Activity: a.ID, Certification: a.cert.ID, Cycle: a.cycle.ID, Category: a.category.ID})
	return claim, a.warnings, err
}

// tryAlso finds what would keep one of the papers from being claimed for each
// certification, before any is confirmed.
func (j *Journal) tryAlso(ctx context.Context, papers []named, o ConfirmOptions) error {
	err := j.cat.Act(ctx, func(tx *catalog.Tx) error {
		for _, n := range papers {
			if n.letter != catalog.LetterPaper {
				continue
			}
			p, err := j.plan(ctx, &tx.View, n.id, o)
			if err != nil {
				return err
			}
			if err := j.recordAll(ctx, tx, &p, o, new(made)); err != nil {
				return err
			}
		}
		return errPreview
	})
	if errors.Is(err, errPreview) {
		return nil
	}
	return err
}
