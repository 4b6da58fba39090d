package catalog

import (
	"context"
)

// View asks a vault questions. Lists are in the order of the short numbers or of the
// log. A single thing that is not there gives an error that wraps [ErrUnknown].
type View struct{}

// Resolve returns what a reference names: a short number ("P12") or a UUID.
func (v *View) Resolve(ctx context.Context, ref string) (Letter, string, error) { panic("soon") }

// Holder returns the person the vault belongs to.
func (v *View) Holder(ctx context.Context) (Holder, error) { panic("soon") }

// Certifications returns the holder's certifications in the order in which they were added.
func (v *View) Certifications(ctx context.Context) ([]Certification, error) { panic("soon") }

// Certification returns one by its UUID or its short name.
func (v *View) Certification(ctx context.Context, id string) (Certification, error) { panic("soon") }

// Cycles returns the cycles of a certification, earliest first; "" for all.
func (v *View) Cycles(ctx context.Context, certification string) ([]Cycle, error) { panic("soon") }

// Schemes returns every scheme kept, in the order in which they came.
func (v *View) Schemes(ctx context.Context) ([]Scheme, error) { panic("soon") }

// Facts returns every fact, by name and day.
func (v *View) Facts(ctx context.Context) ([]Fact, error) { panic("soon") }

// Drops returns the watched folders.
func (v *View) Drops(ctx context.Context) ([]Drop, error) { panic("soon") }

// Evidence returns one by its SHA-256 (lower-case hex).
func (v *View) Evidence(ctx context.Context, sha256 string) (Evidence, error) { panic("soon") }

// AllEvidence returns every evidence in the order of taking in.
func (v *View) AllEvidence(ctx context.Context) ([]Evidence, error) { panic("soon") }

// Parts returns the SHA-256 of every evidence that came out of this one, in the order of the log.
func (v *View) Parts(ctx context.Context, sha256 string) ([]string, error) { panic("soon") }

// Papers returns the papers in any of the states given; all when none is given.
func (v *View) Papers(ctx context.Context, states ...string) ([]Paper, error) { panic("soon") }

// PapersOf returns the papers of one evidence, retired ones too.
func (v *View) PapersOf(ctx context.Context, sha256 string) ([]Paper, error) { panic("soon") }

// Paper returns one by its UUID.
func (v *View) Paper(ctx context.Context, id string) (Paper, error) { panic("soon") }

// Reading returns the newest reading of a paper. Without one the error wraps [ErrUnknown].
func (v *View) Reading(ctx context.Context, paper string) (Reading, error) { panic("soon") }

// ReadingAt returns the reading that an event made.
func (v *View) ReadingAt(ctx context.Context, event int64) (Reading, error) { panic("soon") }

// Activities returns every activity; withdrawn ones too.
func (v *View) Activities(ctx context.Context) ([]Activity, error) { panic("soon") }

// Activity returns one by its UUID.
func (v *View) Activity(ctx context.Context, id string) (Activity, error) { panic("soon") }

// ActivitiesOf returns the activities that were confirmed from a paper.
func (v *View) ActivitiesOf(ctx context.Context, paper string) ([]Activity, error) { panic("soon") }

// ClaimFilter narrows a list of claims. The zero ClaimFilter is every claim that is not withdrawn.
type ClaimFilter struct {
	Certification string // UUID; "" for any
	Cycle         string // UUID; "" for any
	Activity      string // UUID; "" for any
	Withdrawn     bool   // withdrawn ones too
}

// Claims returns the claims that fit f.
func (v *View) Claims(ctx context.Context, f ClaimFilter) ([]Claim, error) { panic("soon") }

// Claim returns one by its UUID.
func (v *View) Claim(ctx context.Context, id string) (Claim, error) { panic("soon") }

// Proofs returns the proofs of an activity in the order of the log; "" for those of every activity.
func (v *View) Proofs(ctx context.Context, activity string) ([]Proof, error) { panic("soon") }

// Receipts returns every receipt; withdrawn ones too.
func (v *View) Receipts(ctx context.Context) ([]Receipt, error) { panic("soon") }

// Receipt returns one by its UUID.
func (v *View) Receipt(ctx context.Context, id string) (Receipt, error) { panic("soon") }

// Events returns the events from one number to another, both included; a to of 0 is the end.
func (v *View) Events(ctx context.Context, from, to int64) ([]Event, error) { panic("soon") }

// History returns the events about one id: a UUID, or the SHA-256 of an evidence.
func (v *View) History(ctx context.Context, id string) ([]Event, error) { panic("soon") }

// Event returns one by its number.
func (v *View) Event(ctx context.Context, number int64) (Event, error) { panic("soon") }
