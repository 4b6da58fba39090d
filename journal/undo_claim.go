package journal

import (
	"context"
	"maps"
	"slices"

	"evidencevault/catalog"
	"evidencevault/extract/paper"
)

func (u *undoing) takeClaim(ctx context.Context, e catalog.Event) error {
	switch e.Kind {
	case kindActivityMade:
		body, err := decode[catalog.ActivityMade](e)
		if err != nil {
			return err
		}
		return u.activityMade(ctx, body.ID)
	case kindActivityChanged:
		return u.activityChanged(ctx, e)
	case kindProofLinked:
		body, err := decode[catalog.ProofLinked](e)
		u.again[body.Activity] = u.again[body.Activity] || body.Replace
		return err
	case kindClaimMade:
		body, err := decode[catalog.ClaimMade](e)
		if err != nil {
			return err
		}
		return u.withdraw(ctx, body.ID)
	case kindClaimChanged:
		return u.claimChanged(ctx, e)
	case kindClaimWithdrawn:
		body, err := decode[catalog.ClaimWithdrawn](e)
		if err != nil {
			return err
		}
		u.tell("claim withdrawn")
		return u.touch(ctx, body.ID, false)
	}
	return u.takeReceipt(ctx, e)
}

// activityMade withdraws an activity with every claim that stands on it, and unties
// its costs.
func (u *undoing) activityMade(ctx context.Context, id string) error {
	u.tell("claimed")
	if err := u.noOtherPaper(ctx, id); err != nil {
		return err
	}
	u.undone.Activities = append(u.undone.Activities, catalog.Withdrawal{ID: id, Withdrawn: true, Why: whyUndone})
	claims, err := u.v.Claims(ctx, catalog.ClaimFilter{Activity: id})
	if err != nil {
		return err
	}
	for _, c := range claims {
		if err := u.withdraw(ctx, c.ID); err != nil {
			return err
		}
	}
	receipts, err := u.v.Receipts(ctx)
	if err != nil {
		return err
	}
	for _, r := range receipts {
		if r.Activity == id && !r.Withdrawn {
			u.after = append(u.after, &catalog.ReceiptTied{ID: r.ID})
		}
	}
	return nil
}

// noOtherPaper refuses to withdraw an activity that a further paper proves, since that
// paper would then be confirmed and prove nothing.
func (u *undoing) noOtherPaper(ctx context.Context, activity string) error {
	a, err := u.v.Activity(ctx, activity)
	if err != nil {
		return err
	}
	proofs, err := u.v.Proofs(ctx, activity)
	if err != nil {
		return err
	}
	for _, proof := range proofs {
		if ok, err := stands(ctx, u.v, a, proof); err != nil {
			return err
		} else if !ok || proof.Paper == a.Paper {
			continue
		}
		p, err := u.v.Paper(ctx, proof.Paper)
		if err != nil {
			return err
		}
		return &StateError{Paper: p.Ref(), State: "attached to " + a.Ref(), Want: "take that back first with undo " + p.Ref()}
	}
	return nil
}

const whyUndone = "what made it was taken back"

func (u *undoing) withdraw(ctx context.Context, id string) error {
	u.tell("claimed")
	return u.touch(ctx, id, true)
}

// touch says whether a claim is withdrawn from now on.
func (u *undoing) touch(ctx context.Context, id string, withdrawn bool) error {
	if slices.ContainsFunc(u.undone.Claims, func(w catalog.Withdrawal) bool { return w.ID == id }) {
		return nil
	}
	c, err := u.v.Claim(ctx, id)
	if err != nil {
		return err
	}
	w := catalog.Withdrawal{ID: id, Withdrawn: withdrawn}
	if withdrawn {
		w.Why = whyUndone
		u.gone = append(u.gone, c.Ref())
	}
	u.touched = append(u.touched, c)
	u.undone.Claims = append(u.undone.Claims, w)
	return nil
}

// activityChanged puts back the values that fields had before the event.
func (u *undoing) activityChanged(ctx context.Context, e catalog.Event) error {
	body, err := decode[catalog.ActivityChanged](e)
	if err != nil {
		return err
	}
	u.tell("changed")
	fields, by, err := fieldsBefore(ctx, u.v, body.ID, e.Number)
	if err != nil {
		return err
	}
	old := catalog.ActivityChanged{ID: body.ID, Fields: map[paper.Field]string{}, By: map[paper.Field]string{}}
	for f := range body.Fields {
		if old.Fields[f] = fields[f]; fields[f] != "" {
			old.By[f] = by[f]
		}
	}
	u.after = append(u.after, &old)
	claims, err := u.v.Claims(ctx, catalog.ClaimFilter{Activity: body.ID})
	u.touched = append(u.touched, claims...)
	return err
}

// fieldsBefore replays an activity's fields up to an event, without it.
func fieldsBefore(ctx context.Context, v *catalog.View, activity string, event int64) (fields, by map[paper.Field]string, err error) {
	events, err := v.History(ctx, activity)
	if err != nil {
		return nil, nil, err
	}
	fields, by = map[paper.Field]string{}, map[paper.Field]string{}
	for _, e := range events {
		if e.Number >= event {
			break
		}
		switch e.Kind {
		case kindActivityMade:
			body, err := decode[catalog.ActivityMade](e)
			if err != nil {
				return nil, nil, err
			}
			maps.Copy(fields, body.Fields)
			merge(by, body.Fields, body.By, paper.ByProgram)
		case kindActivityChanged:
			body, err := decode[catalog.ActivityChanged](e)
			if err != nil {
				return nil, nil, err
			}
			maps.Copy(fields, body.Fields)
			merge(by, body.Fields, body.By, paper.ByPerson)
		}
	}
	return fields, by, nil
}

func merge(into map[paper.Field]string, fields, by map[paper.Field]string, usual string) {
	for f := range fields {
		if into[f] = by[f]; into[f] == "" {
			into[f] = usual
		}
	}
}

// claimChanged puts back the cycle and category that a claim had before the event.
func (u *undoing) claimChanged(ctx context.Context, e catalog.Event) error {
	body, err := decode[catalog.ClaimChanged](e)
	if err != nil {
		return err
	}
	u.tell("changed")
	events, err := u.v.History(ctx, body.ID)
	if err != nil {
		return err
	}
	old := catalog.ClaimChanged{ID: body.ID}
	for _, before := range events {
		if before.Number >= e.Number {
			break
		}
		switch before.Kind {
		case kindClaimMade:
			made, err := decode[catalog.ClaimMade](before)
			if err != nil {
				return err
			}
			old.Cycle, old.Category = made.Cycle, made.Category
		case kindClaimChanged:
			changed, err := decode[catalog.ClaimChanged](before)
			if err != nil {
				return err
			}
			if changed.Cycle != "" {
				old.Cycle = changed.Cycle
			}
			if changed.Category != "" {
				old.Category = changed.Category
			}
		}
	}
	u.after = append(u.after, &old)
	c, err := u.v.Claim(ctx, body.ID)
	u.touched = append(u.touched, c)
	return err
}
