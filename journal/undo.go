package journal

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"

	"evidencevault/catalog"
	"evidencevault/extract/paper"
)

// Undo takes back the last act on a paper, an activity, a claim or a receipt by a
// further event; what was done before stays in the history. A paper that was confirmed
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
		n, err := resolveOne(ctx, u.v, ref, catalog.LetterPaper, catalog.LetterActivity, catalog.LetterClaim, catalog.LetterReceipt)
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
	return nil
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
	}
	return r, nil
}

func standsOrNot(withdrawn bool) string {
	if withdrawn {
		return "withdrawn"
	}
	return "stands"
}
