package journal

import (
	"context"

	"evidencevault/catalog"
)

func (u *undoing) takeReceipt(ctx context.Context, e catalog.Event) error {
	switch e.Kind {
	case kindReceiptMade:
		body, err := decode[catalog.ReceiptMade](e)
		u.undone.Receipts = append(u.undone.Receipts, catalog.Withdrawal{ID: body.ID, Withdrawn: true, Why: whyUndone})
		u.tell("receipt")
		return err
	case kindReceiptWithdrawn:
		body, err := decode[catalog.ReceiptWithdrawn](e)
		u.undone.Receipts = append(u.undone.Receipts, catalog.Withdrawal{ID: body.ID})
		u.tell("receipt withdrawn")
		return err
	case kindReceiptTied:
		body, err := decode[catalog.ReceiptTied](e)
		if err != nil {
			return err
		}
		u.tell("cost")
		old, err := tiedBefore(ctx, u.v, body.ID, e.Number)
		u.after = append(u.after, &catalog.ReceiptTied{ID: body.ID, Activity: old})
		return err
	}
	return u.takeLetter(e)
}

// tiedBefore returns the activity of which a receipt was the cost before an event.
func tiedBefore(ctx context.Context, v *catalog.View, receipt string, event int64) (string, error) {
	events, err := v.History(ctx, receipt)
	if err != nil {
		return "", err
	}
	old := ""
	for _, e := range events {
		if e.Number >= event {
			break
		}
		switch e.Kind {
		case kindReceiptMade:
			body, err := decode[catalog.ReceiptMade](e)
			if err != nil {
				return "", err
			}
			old = body.Activity
		case kindReceiptTied:
			body, err := decode[catalog.ReceiptTied](e)
			if err != nil {
				return "", err
			}
			old = body.Activity
		}
	}
	return old, nil
}
