package audit

import (
	"context"

	"evidencevault/credit"
	"evidencevault/journal"
)

// Lettered returns what an audit letter asks for, as of a day; of a closed cycle as its
// archive has it, which is then returned too. The zero day is today.
func Lettered(ctx context.Context, j *journal.Journal, l journal.AuditLetter, on credit.Date) (Dossier, *Archive, error) {
	d, closed, err := letteredCycle(ctx, j, l, on)
	if err != nil {
		return d, closed, err
	}
	if closed == nil || !l.All {
		if d, err = d.Only(l.Claims); err != nil {
			return d, closed, err
		}
	}
	d.Asked.Seed, d.Asked.Letter = l.Seed, "audit letter of "+l.Dated.String()
	return d, closed, nil
}

// letteredCycle is the whole cycle that a letter asks about.
func letteredCycle(ctx context.Context, j *journal.Journal, l journal.AuditLetter, on credit.Date) (Dossier, *Archive, error) {
	c, err := j.Cycle(ctx, l.Certification, l.Cycle.Start.String())
	if err != nil {
		return Dossier{}, nil, err
	}
	if c.State != journal.CycleClosed {
		d, err := Gather(ctx, j, l.Certification, on)
		return d, nil, err
	}
	a, err := OpenArchive(ctx, j, l.Certification, l.Cycle.Start.String())
	if err != nil {
		return Dossier{}, nil, err
	}
	d, err := a.Dossier()
	return d, a, err
}

// DrawClaims draws n claims of a certification's cycle with the seed, as [Draw] does; of a
// closed one, from those of its archive. "" is the present cycle.
func DrawClaims(ctx context.Context, j *journal.Journal, certification, cycle string, n int, seed string) ([]string, error) {
	list, err := claimsOfCycle(ctx, j, certification, cycle)
	if err != nil {
		return nil, err
	}
	ids := make([]string, len(list))
	for i, c := range list {
		ids[i] = c.ID
	}
	return Draw(ids, n, seed), nil
}

func claimsOfCycle(ctx context.Context, j *journal.Journal, certification, cycle string) ([]journal.Claim, error) {
	if cycle != "" {
		c, err := j.Cycle(ctx, certification, cycle)
		if err != nil {
			return nil, err
		}
		if c.State == journal.CycleClosed {
			a, err := OpenArchive(ctx, j, certification, cycle)
			if err != nil {
				return nil, err
			}
			list, _, err := a.Claims()
			return list, err
		}
	}
	return j.Claims(ctx, journal.ClaimsFilter{Certification: certification})
}
