package journal

import (
	"context"

	"evidencevault/catalog"
)

func (u *undoing) paperConfirmed(ctx context.Context, e catalog.Event) error {
	body, err := decode[catalog.PaperConfirmed](e)
	if err != nil {
		return err
	}
	u.tell("confirmed")
	if body.Row > 0 {
		u.undone.Rows = append(u.undone.Rows, catalog.RowState{Paper: body.Paper, Row: body.Row, State: catalog.Waiting})
		return nil
	}
	return u.back(ctx, body.Paper)
}

// back gives a paper the state it had before it was decided.
func (u *undoing) back(ctx context.Context, id string) error {
	p, err := u.v.Paper(ctx, id)
	if err != nil {
		return err
	}
	s, err := see(ctx, u.v, p)
	if err != nil {
		return err
	}
	state := catalog.PaperState{ID: id, State: s.before()}
	if state.State == catalog.Unread {
		state.Why = s.reading.Reason
	}
	u.undone.Papers = append(u.undone.Papers, state)
	return nil
}

// unretire brings papers back that were cut or joined, and retires those that came
// out of it, which nobody may have decided yet.
func (u *undoing) unretire(ctx context.Context, old []string, fresh []catalog.NewPaper) error {
	for _, f := range fresh {
		p, err := u.v.Paper(ctx, f.ID)
		if err != nil {
			return err
		}
		state := p.State
		if len(p.Rows) > 0 && state == catalog.Waiting {
			state = "confirmed in part"
		}
		if state != catalog.Unread && state != catalog.Waiting {
			return &StateError{Paper: p.Ref(), State: state, Want: "take that back first with undo " + p.Ref()}
		}
		u.undone.Papers = append(u.undone.Papers, catalog.PaperState{ID: f.ID, State: catalog.Retired})
	}
	for _, id := range old {
		if err := u.back(ctx, id); err != nil {
			return err
		}
	}
	return nil
}
