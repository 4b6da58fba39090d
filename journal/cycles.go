package journal

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"time"

	"evidencevault/catalog"
	"evidencevault/credit"
)

// ErrCycle says that a certification has no such cycle, or that it is not in the state
// that the act needs.
var ErrCycle = errors.New("not a cycle for this")

// The states of a cycle.
const (
	CycleOpen    = "open"    // it has not ended
	CycleEnded   = "ended"   // it has ended, and is not closed
	CycleClosing = "closing" // its closing was begun, and not finished
	CycleClosed  = "closed"
)

// Cycle is one cycle as `cycles` lists it. Of an open one the figures are those of today.
type Cycle struct {
	Certification string         `json:"certification"`
	Number        int            `json:"number"` // within the certification, from 1
	Start         credit.Date    `json:"start"`
	End           credit.Date    `json:"end"`
	State         string         `json:"state"`  // CycleOpen … CycleClosed
	Scheme        string         `json:"scheme"` // id
	Version       string         `json:"version,omitempty"`
	SchemeSHA256  string         `json:"scheme_sha256"`
	Unit          string         `json:"unit"`
	On            credit.Date    `json:"on"` // the day for which the figures hold
	Target        *credit.Amount `json:"target"`
	Counted       credit.Amount  `json:"counted"`
	Meets         bool           `json:"meets"`
	CarriedIn     []CarriedIn    `json:"carried_in"` // credit that came from the cycle before
	CarryOut      credit.Amount  `json:"carry_out"`  // that passed into the next, or may
	Claims        int            `json:"claims"`
	ClosedAt      *time.Time     `json:"closed_at"`       // UTC; null until it is closed
	Archive       string         `json:"archive"`         // folder within the vault, with slashes; "" without one
	ArchiveSHA256 string         `json:"archive_sha256"`  // of its tagmanifest-sha256.txt
	ArchiveGone   bool           `json:"archive_deleted"` // after the time of keeping
	KeepUntil     *credit.Date   `json:"keep_until"`      // last day on which its proofs must be kept; null if the scheme does not say
	Notes         []Note         `json:"notes"`

	ID      string          `json:"-"` // UUID
	Closing catalog.Closing `json:"-"` // the one that counts; zero without one
}

// CarriedIn is credit that came from the cycle before.
type CarriedIn struct {
	Claim    string        `json:"claim,omitempty"` // C9; "" if no single claim earned it
	Amount   credit.Amount `json:"amount"`
	Category string        `json:"category,omitempty"` // that it became
	Tags     []string      `json:"tags"`
	Earned   *credit.Date  `json:"earned"`
}

// Note is what a person wrote to a closed cycle.
type Note struct {
	At   time.Time `json:"at"` // UTC
	Text string    `json:"text"`
}

// ArchiveFolder is the folder of a vault in which the archives of closed cycles lie.
const ArchiveFolder = catalog.ArchiveFolder

// Cycles returns the cycles of a certification, earliest first, or of every one in the
// order in which they were added when the name is "".
func (j *Journal) Cycles(ctx context.Context, certification string) ([]Cycle, error) {
	list := []Cycle{}
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		if certification != "" {
			if _, err := j.certified(ctx, v, certification, credit.Date{}); err != nil {
				return err
			}
		}
		b, err := j.open(ctx, v, credit.Date{})
		if err != nil {
			return err
		}
		for _, cert := range b.certs {
			if certification != "" && certification != cert.Name && certification != cert.ID {
				continue
			}
			found, err := j.cyclesOf(ctx, v, b, cert)
			if err != nil {
				return err
			}
			list = append(list, found...)
		}
		return nil
	})
	return list, err
}

func (j *Journal) cyclesOf(ctx context.Context, v *catalog.View, b *book, cert Certified) ([]Cycle, error) {
	cycles, err := v.Cycles(ctx, cert.ID)
	if err != nil {
		return nil, err
	}
	list := make([]Cycle, 0, len(cycles))
	for i, c := range cycles {
		shown, err := j.cycleRow(ctx, v, cert.Name, i+1, c)
		if err != nil {
			return nil, err
		}
		if !c.Closed {
			shown.live(b, c)
		}
		list = append(list, shown)
	}
	return list, nil
}

// cycleRow is a cycle as its rows say it, without what one that is not closed comes to.
func (j *Journal) cycleRow(ctx context.Context, v *catalog.View, cert string, number int, c catalog.Cycle) (Cycle, error) {
	shown := Cycle{ID: c.ID, Certification: cert, Number: number, Start: c.Start, End: c.End, State: CycleOpen, SchemeSHA256: c.Scheme,
		CarriedIn: []CarriedIn{}, Notes: []Note{}}
	switch {
	case c.Closing:
		shown.State = CycleClosing
	case j.Today().After(c.End):
		shown.State = CycleEnded
	}
	kept, err := v.Schemes(ctx)
	if err != nil {
		return shown, err
	}
	for _, k := range kept {
		if k.SHA256 == c.Scheme {
			shown.Scheme, shown.Version = k.ID, k.Version
		}
	}
	carried, err := v.Carried(ctx, c.ID)
	if err != nil {
		return shown, err
	}
	for _, in := range carried {
		one := CarriedIn{Amount: in.Amount, Category: in.Category, Tags: listed(in.Tags)}
		if in.Claim != "" {
			claim, err := v.Claim(ctx, in.Claim)
			if err != nil {
				return shown, err
			}
			one.Claim = claim.Ref()
		}
		if !in.Earned.IsZero() {
			one.Earned = &in.Earned
		}
		shown.CarriedIn = append(shown.CarriedIn, one)
	}
	notes, err := v.CycleNotes(ctx, c.ID)
	if err != nil {
		return shown, err
	}
	for _, n := range notes {
		shown.Notes = append(shown.Notes, Note{n.Made, n.Text})
	}
	return shown, shown.closing(ctx, v, c)
}

// closing fills in what the closing that counts says.
func (s *Cycle) closing(ctx context.Context, v *catalog.View, c catalog.Cycle) error {
	closings, err := v.Closings(ctx, c.ID)
	if err != nil {
		return err
	}
	for _, k := range closings {
		if k.State != catalog.ClosingTakenAway {
			s.Closing = k
		}
	}
	k := s.Closing
	if k.State != catalog.ClosingClosed {
		return nil
	}
	s.State, s.On, s.Unit, s.Target, s.Counted, s.Meets, s.CarryOut, s.Claims = CycleClosed, k.On, k.Unit, k.Target, k.Counted, k.Meets, k.Carried, k.Claims
	s.ClosedAt, s.ArchiveSHA256, s.ArchiveGone = &k.Closed, k.Digest, k.Gone > 0
	if !s.ArchiveGone {
		s.Archive = ArchiveFolder + "/" + k.Archive
	}
	if !k.Kept.IsZero() {
		s.KeepUntil = &k.Kept
	}
	return nil
}

// live fills in what an open cycle comes to today.
func (s *Cycle) live(b *book, c catalog.Cycle) {
	st := b.statements[c.ID]
	s.On, s.Unit, s.Counted, s.Meets, s.CarryOut = st.On, st.Unit, st.Counted, st.Meets, st.CarryOut
	if st.HasTarget {
		s.Target = &st.Target
	}
	for _, claim := range b.claims {
		if claim.Cycle == c.ID && !claim.Withdrawn {
			s.Claims++
		}
	}
	if until := keepUntil(st); !until.IsZero() {
		s.KeepUntil = &until
	}
}

// keepUntil is the last day on which the proofs of a statement's claims must be kept, in
// a statement with its rules; zero if the scheme does not say.
func keepUntil(st credit.Statement) credit.Date {
	keeping := st.Rules().Keeping
	last := keeping.Until(credit.Date{}, st.Cycle.End)
	for _, r := range st.Claims {
		claim, _ := st.Claim(r.ID)
		if d := keeping.Until(claim.Date(), st.Cycle.End); d.After(last) {
			last = d
		}
	}
	return last
}

// Cycle returns the cycle of a certification that a text names: its number, or a day in
// it. Of one that is not closed the figures are left out. No rules are read, so a closed
// cycle can be shown whatever has become of them. The error wraps [ErrCycle],
// [ErrCertification] or [ErrUnknown].
func (j *Journal) Cycle(ctx context.Context, certification, name string) (Cycle, error) {
	var c Cycle
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		cert, err := certificationNamed(ctx, v, certification)
		if err != nil {
			return err
		}
		rows, err := v.Cycles(ctx, cert.ID)
		if err != nil {
			return err
		}
		i, err := cycleNamed(cert.Name, rows, name)
		if err != nil {
			return err
		}
		c, err = j.cycleRow(ctx, v, cert.Name, i+1, rows[i])
		return err
	})
	return c, err
}

// certificationNamed returns the certification of this short name or UUID; "" is the
// only one. The error wraps [ErrCertification] or [ErrUnknown].
func certificationNamed(ctx context.Context, v *catalog.View, name string) (catalog.Certification, error) {
	if name != "" {
		return v.Certification(ctx, name)
	}
	all, err := v.Certifications(ctx)
	if err != nil {
		return catalog.Certification{}, err
	}
	if len(all) != 1 {
		return catalog.Certification{}, fmt.Errorf("%w: the vault has %d; choose one with --certification", ErrCertification, len(all))
	}
	return all[0], nil
}

// cycleNamed is the place among a certification's cycles of the one that a text names: its
// number from 1, or a day in it. The error wraps [ErrCycle].
func cycleNamed(cert string, cycles []catalog.Cycle, name string) (int, error) {
	n, nerr := strconv.Atoi(name)
	day, derr := credit.ParseDate(name)
	if nerr != nil && derr != nil {
		return -1, fmt.Errorf("cycle %q: %w: want its number, as cycles lists it, or a day in it", name, ErrCycle)
	}
	for i, c := range cycles {
		if nerr == nil && i+1 == n || derr == nil && (credit.Period{Start: c.Start, End: c.End}).Holds(day) {
			return i, nil
		}
	}
	return -1, fmt.Errorf("cycle %s of %s: %w: it has %d; see vaultctl cycles", name, cert, ErrCycle, len(cycles))
}

// NoteCycle adds a note to a closed cycle, the only way to correct one. The error wraps
// [ErrCycle] when it is not closed or the text is empty.
func (j *Journal) NoteCycle(ctx context.Context, certification, name, text string) (Cycle, error) {
	c, err := j.Cycle(ctx, certification, name)
	if err != nil {
		return c, err
	}
	if c.State != CycleClosed {
		return c, fmt.Errorf("cycle %d: %w: it is not closed, so change its claims themselves", c.Number, ErrCycle)
	}
	if text == "" {
		return c, fmt.Errorf("cycle %d: %w: the note has no words", c.Number, ErrCycle)
	}
	err = j.cat.Act(ctx, func(tx *catalog.Tx) error {
		return record(ctx, tx, &catalog.CycleNoted{Cycle: c.ID, Text: text})
	})
	if err != nil {
		return c, err
	}
	return j.Cycle(ctx, c.Certification, strconv.Itoa(c.Number))
}

// CarriedClaim is credit that came from the cycle before, with the claim that earned it
// and its old proofs, which an auditor asks for again.
type CarriedClaim struct {
	Claim        // as in the cycle that it was claimed in, but ID is that of the credit in the statement
	From  Cycle  // that cycle
	Of    string // C9
}

// CarriedClaims returns the credit that came into a certification's present cycle, as far
// as single claims earned it.
func (j *Journal) CarriedClaims(ctx context.Context, certification string) ([]CarriedClaim, error) {
	list := []CarriedClaim{}
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		cert, err := j.certified(ctx, v, certification, credit.Date{})
		if err != nil {
			return err
		}
		b, err := j.open(ctx, v, credit.Date{})
		if err != nil {
			return err
		}
		for i, in := range b.carriedIn(cert.Cycle.ID) {
			row := b.carried[cert.Cycle.ID][i]
			if row.Claim == "" {
				continue
			}
			claim, err := b.claim(row.Claim)
			if err != nil {
				return err
			}
			origin := b.cycles[row.Origin]
			one := CarriedClaim{Claim: claim, Of: claim.ID, From: Cycle{ID: origin.ID, Certification: cert.Name, Start: origin.Start, End: origin.End}}
			one.ID = in.ID
			list = append(list, one)
		}
		return nil
	})
	return list, err
}
