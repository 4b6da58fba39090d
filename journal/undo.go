package journal

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"evidencevault/catalog"
)

// Undo takes back the last act on a paper, an activity, a claim, a receipt or an
// audit letter by a further event; what was done before stays in the history. A paper that was confirmed
// waits again and its claims are withdrawn; undoing a claim that a confirmation made
// takes back that confirmation. A second call takes back the act before.
//
// The error wraps [ErrClosed] when a claim of a closed cycle would change, [ErrNothing]
// when no act is left, and [ErrNotWaiting] when papers that a cut or join made were
// decided in the meantime.
func (j *Journal) Undo(ctx context.Context, ref string) (UndoResult, error) {
	var result UndoResult
	err := j.cat.Act(ctx, func(tx *catalog.Tx) error {
		u := undoing{v: &tx.View}
		n, err := resolveOne(ctx, u.v, ref, catalog.LetterPaper, catalog.LetterActivity, catalog.LetterClaim, catalog.LetterReceipt, catalog.LetterLetter)
		if err != nil {
			return err
		}
		act, err := u.lastAct(ctx, n)
		if err != nil {
			return err
		}
		if err := u.gather(ctx, act); err != nil {
			return err
		}
		if err := openCycle(ctx, u.v, u.touched...); err != nil {
			return err
		}
		u.mark(n)
		if err := u.record(ctx, tx); err != nil {
			return err
		}
		result, err = u.result(ctx, n)
		return err
	})
	return result, err
}

// undoing gathers how everything that an act touched stood before it.
type undoing struct {
	v       *catalog.View
	undone  catalog.Undone
	after   []catalog.Body  // events that put old values back
	touched []catalog.Claim // claims that change
	told    []string        // what is taken back, in words
	gone    []string        // claims withdrawn by it
	again   map[string]bool // activities whose proofs are put back
}

// personal are the kinds of event by which a person acts, by the letter of what they
// act on.
var personal = map[catalog.Letter][]string{
	catalog.LetterPaper:    {kindPaperConfirmed, kindRowsSkipped, kindPaperSetAside, kindPaperCut, kindPapersJoined},
	catalog.LetterActivity: {kindActivityMade, kindActivityChanged, kindProofLinked, kindReceiptTied},
	catalog.LetterClaim:    {kindActivityMade, kindActivityChanged, kindProofLinked, kindClaimMade, kindClaimChanged, kindClaimWithdrawn},
	catalog.LetterReceipt:  {kindReceiptMade, kindReceiptTied, kindReceiptWithdrawn},
	catalog.LetterLetter:   {kindLetterRecorded, kindLetterAnswered},
}

// lastAct returns the events of the last act on n that was not taken back and took
// nothing back itself.
func (u *undoing) lastAct(ctx context.Context, n named) ([]catalog.Event, error) {
	events, err := u.eventsOf(ctx, n)
	if err != nil {
		return nil, err
	}
	undos := map[int64]bool{}
	for _, e := range events {
		undos[e.Act] = undos[e.Act] || e.Kind == kindUndone
	}
	for _, e := range slices.Backward(events) {
		if e.Undone == 0 && !undos[e.Act] && slices.Contains(personal[n.letter], e.Kind) {
			return actEvents(ctx, u.v, e.Act)
		}
	}
	return nil, fmt.Errorf("%s: %w: nobody has decided anything about it, or all of that was taken back", n.text, ErrNothing)
}

// eventsOf returns the events about a thing; of a claim those of its activity too, from
// the one on that made the claim, unless that was taken back.
func (u *undoing) eventsOf(ctx context.Context, n named) ([]catalog.Event, error) {
	if n.letter != catalog.LetterClaim {
		return eventsAbout(ctx, u.v, n.id)
	}
	c, err := u.v.Claim(ctx, n.id)
	if err != nil {
		return nil, err
	}
	own, err := u.v.History(ctx, n.id)
	if err != nil || len(own) == 0 || own[0].Undone != 0 {
		return nil, err
	}
	events, err := eventsAbout(ctx, u.v, n.id, c.Activity)
	return slices.DeleteFunc(events, func(e catalog.Event) bool { return e.Act < own[0].Act }), err
}

// actEvents returns the events of one act.
func actEvents(ctx context.Context, v *catalog.View, act int64) ([]catalog.Event, error) {
	var list []catalog.Event
	const step = 200
	for from := act; ; from += step {
		events, err := v.Events(ctx, from, from+step-1)
		if err != nil {
			return nil, err
		}
		for _, e := range events {
			if e.Act != act {
				return list, nil
			}
			list = append(list, e)
		}
		if len(events) < step {
			return list, nil
		}
	}
}

// gather works out what each event of the act must become. Later events first, so that
// what was changed twice gets the oldest value.
func (u *undoing) gather(ctx context.Context, act []catalog.Event) error {
	u.undone.Act = act[0].Act
	u.again = map[string]bool{}
	for _, e := range slices.Backward(act) {
		if e.Body == nil {
			return fmt.Errorf("event %d: %w: its words were blanked when its evidence was deleted", e.Number, ErrNothing)
		}
		if err := u.take(ctx, e); err != nil {
			return err
		}
	}
	return u.proofsAgain(ctx)
}

func (u *undoing) take(ctx context.Context, e catalog.Event) error {
	switch e.Kind {
	case kindPaperConfirmed:
		return u.paperConfirmed(ctx, e)
	case kindRowsSkipped:
		body, err := decode[catalog.RowsSkipped](e)
		for _, row := range body.Rows {
			u.undone.Rows = append(u.undone.Rows, catalog.RowState{Paper: body.Paper, Row: row, State: catalog.Waiting})
		}
		u.tell("rows left out")
		return err
	case kindPaperSetAside:
		body, err := decode[catalog.PaperSetAside](e)
		if err != nil {
			return err
		}
		u.tell("set aside")
		return u.back(ctx, body.Paper)
	case kindPaperCut:
		body, err := decode[catalog.PaperCut](e)
		if err != nil {
			return err
		}
		u.tell("cut")
		return u.unretire(ctx, []string{body.Paper}, body.Into)
	case kindPapersJoined:
		body, err := decode[catalog.PapersJoined](e)
		if err != nil {
			return err
		}
		u.tell("joined")
		return u.unretire(ctx, body.Papers, []catalog.NewPaper{body.Into})
	}
	return u.takeClaim(ctx, e)
}

func (u *undoing) tell(what string) {
	if !slices.Contains(u.told, what) {
		u.told = append(u.told, what)
	}
}

// mark makes the event say that it is about the thing that was named, even when only
// values go back, so that its history shows it.
func (u *undoing) mark(n named) {
	for _, c := range u.touched {
		if !slices.ContainsFunc(u.undone.Claims, func(w catalog.Withdrawal) bool { return w.ID == c.ID }) {
			u.undone.Claims = append(u.undone.Claims, catalog.Withdrawal{ID: c.ID, Withdrawn: c.Withdrawn, Why: c.Why})
		}
		if !slices.ContainsFunc(u.undone.Activities, func(w catalog.Withdrawal) bool { return w.ID == c.Activity }) {
			u.undone.Activities = append(u.undone.Activities, catalog.Withdrawal{ID: c.Activity})
		}
	}
	if n.letter == catalog.LetterLetter && len(u.undone.Letters) == 0 {
		u.undone.Letters = append(u.undone.Letters, catalog.Withdrawal{ID: n.id})
	}
	if n.letter == catalog.LetterReceipt && len(u.undone.Receipts) == 0 {
		u.undone.Receipts = append(u.undone.Receipts, catalog.Withdrawal{ID: n.id})
	}
}

func (u *undoing) record(ctx context.Context, tx *catalog.Tx) error {
	if err := record(ctx, tx, &u.undone); err != nil {
		return err
	}
	return record(ctx, tx, u.after...)
}

func (u *undoing) result(ctx context.Context, n named) (UndoResult, error) {
	r := UndoResult{ID: n.text, Undone: strings.Join(u.told, ", "), Withdrawn: listed(u.gone)}
	switch n.letter {
	case catalog.LetterPaper:
		p, err := u.v.Paper(ctx, n.id)
		if err != nil {
			return r, err
		}
		r.ID, r.State = p.Ref(), p.State
	case catalog.LetterClaim:
		c, err := u.v.Claim(ctx, n.id)
		if err != nil {
			return r, err
		}
		r.ID, r.State = c.Ref(), standsOrNot(c.Withdrawn)
	case catalog.LetterActivity:
		a, err := u.v.Activity(ctx, n.id)
		if err != nil {
			return r, err
		}
		r.ID, r.State = a.Ref(), standsOrNot(a.Withdrawn)
	case catalog.LetterReceipt:
		c, err := u.v.Receipt(ctx, n.id)
		if err != nil {
			return r, err
		}
		r.ID, r.State = c.Ref(), standsOrNot(c.Withdrawn)
	case catalog.LetterLetter:
		l, err := u.v.Letter(ctx, n.id)
		if err != nil {
			return r, err
		}
		r.ID, r.State = l.Ref(), standsOrNot(l.Withdrawn)
	}
	return r, nil
}

func standsOrNot(withdrawn bool) string {
	if withdrawn {
		return "withdrawn"
	}
	return "stands"
}
