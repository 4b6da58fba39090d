package journal

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"time"

	"evidencevault/catalog"
	"evidencevault/credit"
)

// ErrMoved says that what a closing was shown from was changed in the meantime.
var ErrMoved = errors.New("changed in the meantime")

// CloseOptions says how a cycle is closed. The zero value closes the earliest open one
// that has ended, and opens the next under the same rules.
type CloseOptions struct {
	Certification string      // "" means the only one
	Early         bool        // also before the cycle has ended
	Last          bool        // no cycle follows
	NextStart     credit.Date // first day of the next cycle; zero: the day after this one, or as the scheme says
	NextEnd       credit.Date // its last day; zero: as the scheme says
	Scheme        SchemeFile  // rules of the next cycle; used if it has bytes
	SchemeID      string      // of rules that ship; "" too: those of this cycle
}

// ClosePlan is what closing a cycle would do; it is shown before it is done.
type ClosePlan struct {
	Certification Certified
	Number        int              // of the cycle, from 1
	On            credit.Date      // the day for which the figures hold
	Statement     credit.Statement // what is handed in
	Passing       []credit.Carried // what passes into the next cycle, by claim
	Next          *NextCycle       // nil if none follows
	Moves         []string         // claims dated after this cycle, which go to the next
	Waiting       []string         // papers that wait for a decision
	Unread        []string         // papers that were not read
	Quiet         time.Duration    // how long ago the log was last written; negative if the clock went back
	Begun         int64            // event of a closing that was begun; 0: none was
}

// NextCycle is the cycle that follows.
type NextCycle struct {
	Start, End credit.Date
	Rules      credit.Scheme
	file       SchemeFile // whose bytes must be kept first; empty: they are
	sha256     string
}

// ClosePlan says what closing the present cycle of a certification would do. The error
// wraps [ErrCycle] when it has not ended and is not to be closed early, when every cycle
// is closed, or when the next one cannot be told.
func (j *Journal) ClosePlan(ctx context.Context, o CloseOptions) (ClosePlan, error) {
	var p ClosePlan
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		cert, err := j.certified(ctx, v, o.Certification, credit.Date{})
		if err != nil {
			return err
		}
		if cert.Cycle.Closed {
			return fmt.Errorf("certification %s: %w: its last cycle, to %v, is closed, and none follows", cert.Name, ErrCycle, cert.Cycle.End)
		}
		if today := j.Today(); !cert.Cycle.Closing && !today.After(cert.Cycle.End) && !o.Early {
			return fmt.Errorf("cycle %v to %v of %s: %w: it ends in %d days; close it before with --early", cert.Cycle.Start, cert.Cycle.End, cert.Name, ErrCycle, cert.Cycle.End.Sub(today)+1)
		}
		if p, err = j.closePlan(ctx, v, cert, credit.Date{}); err != nil {
			return err
		}
		if p.Begun > 0 || o.Last {
			return nil
		}
		p.Next, err = p.next(o)
		return err
	})
	return p, err
}

// closePlan works out the present cycle of a certification as it is closed on a day; the
// zero Date is its end, or today if that comes first.
func (j *Journal) closePlan(ctx context.Context, v *catalog.View, cert Certified, on credit.Date) (ClosePlan, error) {
	p := ClosePlan{Certification: cert, On: on}
	if on.IsZero() {
		if p.On = cert.Cycle.End; j.Today().Before(p.On) {
			p.On = j.Today()
		}
	}
	closings, err := v.Closings(ctx, cert.Cycle.ID)
	if err != nil {
		return p, err
	}
	for _, c := range closings {
		if c.State == catalog.ClosingOpen {
			p.Begun, p.On = c.Event, c.On
		}
	}
	b, err := j.open(ctx, v, p.On)
	if err != nil {
		return p, err
	}
	p.Statement = b.statements[cert.Cycle.ID]
	p.Certification.Facts = b.inputs[cert.Cycle.ID].Facts
	if p.Passing, err = p.Statement.Passing(); err != nil {
		return p, err
	}
	cycles, err := v.Cycles(ctx, cert.ID)
	if err != nil {
		return p, err
	}
	p.Number = 1 + slices.IndexFunc(cycles, func(c catalog.Cycle) bool { return c.ID == cert.Cycle.ID })
	for _, c := range b.late(cert.Cycle) {
		p.Moves = append(p.Moves, c.Ref())
	}
	for _, row := range b.papers {
		switch row.State {
		case catalog.Waiting:
			p.Waiting = append(p.Waiting, row.Ref())
		case catalog.Unread:
			p.Unread = append(p.Unread, row.Ref())
		}
	}
	slices.SortFunc(p.Waiting, compareRefs)
	slices.SortFunc(p.Unread, compareRefs)
	last, err := v.LastAt(ctx)
	p.Quiet = j.now().Sub(last)
	return p, err
}

// late returns the claims of a cycle that are dated after it and count nothing in it.
func (b *book) late(cycle catalog.Cycle) []catalog.Claim {
	var list []catalog.Claim
	for _, c := range b.claims {
		if c.Cycle != cycle.ID || c.Withdrawn || outsideText(b.whole[cycle.ID], c.Ref()) == "" {
			continue
		}
		claim, _ := b.whole[cycle.ID].Claim(c.Ref())
		if claim.Date().After(cycle.End) {
			list = append(list, c)
		}
	}
	return list
}

// next works out the cycle that follows.
func (p ClosePlan) next(o CloseOptions) (*NextCycle, error) {
	n := &NextCycle{Start: o.NextStart, End: o.NextEnd, Rules: p.Certification.Scheme, sha256: p.Certification.Cycle.Scheme}
	if len(o.Scheme.Data) > 0 || o.SchemeID != "" {
		rules, file, err := readScheme(o.Scheme, o.SchemeID)
		if err != nil {
			return nil, err
		}
		n.Rules, n.file = rules, file
	}
	if n.Start.IsZero() {
		n.Start = p.Certification.Cycle.End.AddDays(1)
	}
	if n.Start.Before(p.Certification.Cycle.Start.AddDays(1)) || !n.Start.After(p.Certification.Cycle.End) {
		return nil, fmt.Errorf("next cycle from %v: %w: it must begin after %v", n.Start, ErrCycle, p.Certification.Cycle.End)
	}
	if n.End.IsZero() {
		period, err := n.Rules.Cycle.Starting(n.Start)
		if err != nil {
			return nil, fmt.Errorf("the next cycle: %w; give its last day with --next-end, or --last if none follows", err)
		}
		n.End = period.End
	}
	if n.End.Before(n.Start) {
		return nil, fmt.Errorf("next cycle %v to %v: %w: it ends before it begins", n.Start, n.End, ErrCycle)
	}
	return n, nil
}

// CloseBegin begins the closing that the plan shows: from here on nothing in the cycle
// changes until it is finished or taken back. The error wraps [ErrMoved] when the plan
// no longer shows how things stand.
func (j *Journal) CloseBegin(ctx context.Context, p ClosePlan) (catalog.Closing, error) {
	if p.Next != nil && len(p.Next.file.Data) > 0 {
		sum, err := j.cat.KeepScheme(p.Next.file.Data)
		if err != nil {
			return catalog.Closing{}, err
		}
		p.Next.sha256 = sum
	}
	err := j.cat.Act(ctx, func(tx *catalog.Tx) error {
		if err := j.asPlanned(ctx, &tx.View, p); err != nil {
			return err
		}
		cycle := p.Certification.Cycle
		begun := &catalog.ClosingBegun{Cycle: cycle.ID, On: p.On,
			Archive: fmt.Sprintf("%s_%v_%v_closing-%d", p.Certification.Name, cycle.Start, cycle.End, tx.Number())}
		if p.Next != nil {
			begun.Next = &catalog.CycleOpened{ID: catalog.NewID(), Certification: p.Certification.ID, Start: p.Next.Start, End: p.Next.End, Scheme: p.Next.sha256}
			if len(p.Next.file.Data) > 0 {
				kept := &catalog.SchemeKept{SHA256: p.Next.sha256, ID: p.Next.Rules.ID, Version: p.Next.Rules.Version, File: p.Next.file.Name}
				if err := record(ctx, tx, kept); err != nil {
					return err
				}
			}
		}
		return record(ctx, tx, begun)
	})
	if err != nil {
		return catalog.Closing{}, err
	}
	return j.closingOf(ctx, &j.cat.View, p.Certification.Cycle.ID)
}

// asPlanned compares a plan with how things stand.
func (j *Journal) asPlanned(ctx context.Context, v *catalog.View, p ClosePlan) error {
	cert, err := j.certified(ctx, v, p.Certification.ID, credit.Date{})
	if err != nil {
		return err
	}
	if cert.Cycle.ID != p.Certification.Cycle.ID || cert.Cycle.Frozen() {
		return fmt.Errorf("cycle %v to %v of %s: %w: somebody else closed it, or began to", p.Certification.Cycle.Start, p.Certification.Cycle.End, cert.Name, ErrMoved)
	}
	now, err := j.closePlan(ctx, v, cert, p.On)
	if err != nil {
		return err
	}
	if !sameStatement(now.Statement, p.Statement) || !slices.Equal(now.Moves, p.Moves) {
		return fmt.Errorf("cycle %v to %v of %s: %w: its figures are no longer those that were shown; close it again", cert.Cycle.Start, cert.Cycle.End, cert.Name, ErrMoved)
	}
	return nil
}

// sameStatement reports whether two statements print the same, with all that led to them.
func sameStatement(a, b credit.Statement) bool {
	x, errX := json.Marshal(credit.Calc{Statement: a, Explained: true})
	y, errY := json.Marshal(credit.Calc{Statement: b, Explained: true})
	return errX == nil && errY == nil && bytes.Equal(x, y)
}

// closingOf returns the closing of a cycle that was begun and not finished.
func (j *Journal) closingOf(ctx context.Context, v *catalog.View, cycle string) (catalog.Closing, error) {
	closings, err := v.Closings(ctx, cycle)
	if err != nil {
		return catalog.Closing{}, err
	}
	for _, c := range closings {
		if c.State == catalog.ClosingOpen {
			return c, nil
		}
	}
	return catalog.Closing{}, fmt.Errorf("%w: no closing was begun", ErrCycle)
}

// CloseBegun returns a closing that was begun and not finished, with what it will do.
// The error wraps [ErrCycle] when there is none.
func (j *Journal) CloseBegun(ctx context.Context, certification string) (ClosePlan, catalog.Closing, error) {
	var p ClosePlan
	var c catalog.Closing
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		cert, err := j.certified(ctx, v, certification, credit.Date{})
		if err != nil {
			return err
		}
		if c, err = j.closingOf(ctx, v, cert.Cycle.ID); err != nil {
			return fmt.Errorf("certification %s: %w", cert.Name, err)
		}
		if p, err = j.closePlan(ctx, v, cert, c.On); err != nil {
			return err
		}
		begun, err := begunBody(ctx, v, c)
		if err != nil || begun.Next == nil {
			return err
		}
		p.Next = &NextCycle{Start: begun.Next.Start, End: begun.Next.End, sha256: begun.Next.Scheme}
		p.Next.Rules, err = j.Scheme(ctx, v, begun.Next.Scheme)
		return err
	})
	return p, c, err
}

func begunBody(ctx context.Context, v *catalog.View, c catalog.Closing) (catalog.ClosingBegun, error) {
	e, err := v.Event(ctx, c.Event)
	if err != nil {
		return catalog.ClosingBegun{}, err
	}
	return decode[catalog.ClosingBegun](e)
}

// Sealed is the archive of a closing that is made and not yet in its place.
type Sealed struct {
	Statement credit.Statement       // that it holds
	Claims    int                    // in it
	Place     func() (string, error) // puts it in its place and returns the SHA-256 that stands for it
}

// CloseFinish completes a closing: it puts the archive in its place, closes the cycle,
// opens the next with what is carried over, and moves the claims that belong there, all
// in one act. The error wraps [ErrMoved] when the figures are no longer those of the
// archive, and [ErrCycle] when the closing is not open any more.
func (j *Journal) CloseFinish(ctx context.Context, p ClosePlan, closing catalog.Closing, sealed Sealed) error {
	return j.cat.Act(ctx, func(tx *catalog.Tx) error {
		v := &tx.View
		open, err := j.closingOf(ctx, v, closing.Cycle)
		if err != nil {
			return err
		}
		if open.Event != closing.Event {
			return fmt.Errorf("closing %d: %w: closing %d was begun since", closing.Event, ErrCycle, open.Event)
		}
		now, err := j.closePlan(ctx, v, p.Certification, closing.On)
		if err != nil {
			return err
		}
		if !sameStatement(now.Statement, sealed.Statement) {
			return fmt.Errorf("cycle %v to %v of %s: %w: something that its figures hang on, such as a fact, was changed while the archive was made; run close --resume", p.Certification.Cycle.Start, p.Certification.Cycle.End, p.Certification.Name, ErrMoved)
		}
		begun, err := begunBody(ctx, v, open)
		if err != nil {
			return err
		}
		digest, err := sealed.Place()
		if err != nil {
			return err
		}
		bodies, err := closedBodies(ctx, v, now, open, begun, digest, sealed.Claims)
		if err != nil {
			return err
		}
		return record(ctx, tx, bodies...)
	})
}

func closedBodies(ctx context.Context, v *catalog.View, p ClosePlan, open catalog.Closing, begun catalog.ClosingBegun, digest string, claims int) ([]catalog.Body, error) {
	st := p.Statement
	closed := &catalog.CycleClosed{Closing: open.Event, Cycle: open.Cycle, Digest: digest, Unit: st.Unit, Counted: st.Counted, Meets: st.Meets,
		Kept: keepUntil(st), Claims: claims}
	if st.HasTarget {
		closed.Target = st.Target.String()
	}
	bodies := []catalog.Body{closed}
	if begun.Next == nil {
		return bodies, nil
	}
	closed.Carried = st.CarryOut
	bodies = append(bodies, begun.Next)
	for _, c := range p.Passing {
		one := &catalog.CreditCarried{Cycle: begun.Next.ID, Origin: open.Cycle, Amount: c.Amount, Category: c.Category, Tags: c.Tags, Earned: c.Earned}
		if c.ID != "" {
			_, id, err := v.Resolve(ctx, c.ID)
			if err != nil {
				return nil, err
			}
			one.Claim = id
		}
		bodies = append(bodies, one)
	}
	for _, ref := range p.Moves {
		_, id, err := v.Resolve(ctx, ref)
		if err != nil {
			return nil, err
		}
		bodies = append(bodies, &catalog.ClaimChanged{ID: id, Cycle: begun.Next.ID})
	}
	return bodies, nil
}

// CloseUndo takes a closing back: one that was begun and not finished, or else the last
// one, as long as nobody has done anything in the cycle that follows and no note was
// written. The error wraps [ErrCycle] when there is none, and [ErrClosed] when it stays.
func (j *Journal) CloseUndo(ctx context.Context, certification, why string) (catalog.Closing, error) {
	var c catalog.Closing
	err := j.cat.Act(ctx, func(tx *catalog.Tx) error {
		v := &tx.View
		cert, err := j.certified(ctx, v, certification, credit.Date{})
		if err != nil {
			return err
		}
		if c, err = j.lastClosing(ctx, v, cert); err != nil {
			return err
		}
		if c.State == catalog.ClosingOpen {
			return record(ctx, tx, &catalog.ClosingTakenBack{Closing: c.Event, Cycle: c.Cycle, Why: why})
		}
		back, err := goBack(ctx, v, c)
		if err != nil {
			return fmt.Errorf("certification %s: %w", cert.Name, err)
		}
		return record(ctx, tx, append(back, &catalog.ClosingTakenBack{Closing: c.Event, Cycle: c.Cycle, Why: why})...)
	})
	return c, err
}

// lastClosing is the last closing of a certification that was not taken back.
func (j *Journal) lastClosing(ctx context.Context, v *catalog.View, cert Certified) (catalog.Closing, error) {
	cycles, err := v.Cycles(ctx, cert.ID)
	if err != nil {
		return catalog.Closing{}, err
	}
	for _, cycle := range slices.Backward(cycles) {
		closings, err := v.Closings(ctx, cycle.ID)
		if err != nil {
			return catalog.Closing{}, err
		}
		for _, c := range slices.Backward(closings) {
			if c.State != catalog.ClosingTakenAway {
				return c, nil
			}
		}
	}
	return catalog.Closing{}, fmt.Errorf("certification %s: %w: no closing was begun", cert.Name, ErrCycle)
}

// goBack moves the claims of the cycle that follows a closed one back into that. The
// error wraps [ErrClosed] when something was done there, or the archive is gone.
func goBack(ctx context.Context, v *catalog.View, c catalog.Closing) ([]catalog.Body, error) {
	notes, err := v.CycleNotes(ctx, c.Cycle)
	if err != nil {
		return nil, err
	}
	if len(notes) > 0 || c.Gone > 0 {
		return nil, fmt.Errorf("%w: a note was written to it, or its archive deleted, so it stays; correct it by a note", ErrClosed)
	}
	if c.Next == "" {
		return nil, nil
	}
	claims, err := v.Claims(ctx, catalog.ClaimFilter{Cycle: c.Next, Withdrawn: true})
	if err != nil {
		return nil, err
	}
	var back []catalog.Body
	for _, claim := range claims {
		if !claim.Withdrawn && claim.Event > c.Event {
			return nil, fmt.Errorf("%w: %s was claimed in the cycle that follows, so the closing stays; correct it by a note, with close --note TEXT", ErrClosed, claim.Ref())
		}
		back = append(back, &catalog.ClaimChanged{ID: claim.ID, Cycle: c.Cycle})
	}
	return back, nil
}
