package journal

import (
	"context"
	"maps"
	"slices"

	"evidencevault/catalog"
	"evidencevault/extract/paper"
)

// proofsAgain links anew the proofs that the act had replaced. Those that the act
// linked itself go with it.
func (u *undoing) proofsAgain(ctx context.Context) error {
	for _, activity := range slices.Sorted(maps.Keys(u.again)) {
		if !u.again[activity] || slices.ContainsFunc(u.undone.Activities, func(w catalog.Withdrawal) bool { return w.ID == activity && w.Withdrawn }) {
			continue
		}
		if err := u.linkAgain(ctx, activity); err != nil {
			return err
		}
	}
	return nil
}

func (u *undoing) linkAgain(ctx context.Context, activity string) error {
	events, err := u.v.History(ctx, activity)
	if err != nil {
		return err
	}
	before := map[paper.Field][]catalog.ProofLinked{}
	replaced := map[paper.Field]bool{}
	for _, e := range events {
		if e.Kind != kindProofLinked || e.Undone != 0 {
			continue
		}
		body, err := decode[catalog.ProofLinked](e)
		if err != nil {
			return err
		}
		switch {
		case e.Act == u.undone.Act:
			replaced[body.Field] = replaced[body.Field] || body.Replace
		case e.Act < u.undone.Act:
			if body.Replace {
				before[body.Field] = nil
			}
			body.Replace = false
			before[body.Field] = append(before[body.Field], body)
		}
	}
	for _, f := range slices.Sorted(maps.Keys(replaced)) {
		if !replaced[f] {
			continue
		}
		for i, body := range before[f] {
			body.Replace = i == 0 // takes the place of what the act linked
			u.after = append(u.after, &body)
		}
	}
	return nil
}

// stands reports whether a proof of an activity still stands: it is by the paper that
// the activity was confirmed from, or by one that was attached and not taken away.
func stands(ctx context.Context, v *catalog.View, a catalog.Activity, p catalog.Proof) (bool, error) {
	if p.Paper == a.Paper {
		return true, nil
	}
	e, err := v.Event(ctx, p.Event)
	return e.Undone == 0, err
}
