package catalog

import (
	"encoding/json"
	"slices"

	"evidencevault/credit"
)

// ClosingBegun says that a cycle is being closed: from here on nothing in it changes
// until the closing is completed or taken back.
type ClosingBegun struct {
	Cycle   string       `json:"cycle"`          // UUID
	On      credit.Date  `json:"on"`             // the day for which its figures hold
	Archive string       `json:"archive"`        // the folder within cycles/
	Next    *CycleOpened `json:"next,omitempty"` // the cycle that will follow; nil if none will
}

// CycleClosed says that a cycle is closed, and what it came to. Write its archive first.
type CycleClosed struct {
	Closing int64         `json:"closing"` // number of the event that began it
	Cycle   string        `json:"cycle"`
	Digest  string        `json:"digest"` // SHA-256 of the archive's tagmanifest-sha256.txt
	Unit    string        `json:"unit"`
	Counted credit.Amount `json:"counted"`
	Target  string        `json:"target,omitempty"` // exact; "" if the scheme sets none
	Meets   bool          `json:"meets,omitempty"`
	Carried credit.Amount `json:"carried"`
	Kept    credit.Date   `json:"kept,omitzero"` // last day of keeping; zero if the scheme does not say
	Claims  int           `json:"claims"`        // in the archive
}

// CreditCarried says that credit passes into the next cycle.
type CreditCarried struct {
	Cycle    string        `json:"cycle"`           // UUID of the cycle into which it comes
	Origin   string        `json:"origin"`          // of the cycle from which it comes
	Claim    string        `json:"claim,omitempty"` // of the claim that earned it; "" if no single one did
	Amount   credit.Amount `json:"amount"`
	Category string        `json:"category,omitempty"` // that it becomes
	Tags     []string      `json:"tags,omitempty"`
	Earned   credit.Date   `json:"earned,omitzero"`
}

// ClosingTakenBack says that a closing does not count: the cycle is open again, the one
// that followed is gone. Move the claims out of that one first.
type ClosingTakenBack struct {
	Closing int64  `json:"closing"`
	Cycle   string `json:"cycle"`
	Why     string `json:"why,omitempty"`
}

// CycleNoted adds a note to a closed cycle.
type CycleNoted struct {
	Cycle string `json:"cycle"`
	Text  string `json:"text"`
}

// ArchiveDeleted says that the archive of a closed cycle was deleted after its time of
// keeping. Its figures stay in the log.
type ArchiveDeleted struct {
	Closing int64  `json:"closing"`
	Cycle   string `json:"cycle"`
	Why     string `json:"why,omitempty"`
}

// EvidenceHeld says that a person wants an evidence kept whatever the rules say, or no
// longer.
type EvidenceHeld struct {
	SHA256   string `json:"sha256"`
	Why      string `json:"why,omitempty"`
	Released bool   `json:"released,omitempty"`
}

// Kind returns "closing begun".
func (*ClosingBegun) Kind() string { return "closing begun" }

// Kind returns "cycle closed".
func (*CycleClosed) Kind() string { return "cycle closed" }

// Kind returns "credit carried".
func (*CreditCarried) Kind() string { return "credit carried" }

// Kind returns "closing taken back".
func (*ClosingTakenBack) Kind() string { return "closing taken back" }

// Kind returns "cycle noted".
func (*CycleNoted) Kind() string { return "cycle noted" }

// Kind returns "archive deleted".
func (*ArchiveDeleted) Kind() string { return "archive deleted" }

// Kind returns "evidence held".
func (*EvidenceHeld) Kind() string { return "evidence held" }

// About returns the ids of the event.
func (b *ClosingBegun) About() []string { return []string{b.Cycle} }

// About returns the ids of the event.
func (b *CycleClosed) About() []string { return []string{b.Cycle} }

// About returns the ids of the event.
func (b *CreditCarried) About() []string { return some(b.Cycle, b.Origin, b.Claim) }

// About returns the ids of the event.
func (b *ClosingTakenBack) About() []string { return []string{b.Cycle} }

// About returns the ids of the event.
func (b *CycleNoted) About() []string { return []string{b.Cycle} }

// About returns the ids of the event.
func (b *ArchiveDeleted) About() []string { return []string{b.Cycle} }

// About returns the ids of the event.
func (b *EvidenceHeld) About() []string { return []string{b.SHA256} }

func (b *ClosingBegun) apply(r *rows) error {
	next := ""
	if b.Next != nil {
		next = b.Next.ID
	}
	return r.exec(`INSERT INTO closing (event, cycle, day, state, why, archive, digest, next, unit, counted, target, meets, carried, kept, claims, closed, gone)
		VALUES (?, ?, ?, 'begun', '', ?, '', ?, '', '', '', 0, '', '', 0, '', 0)`, r.event, b.Cycle, b.On.String(), b.Archive, next)
}

func (b *CycleClosed) apply(r *rows) error {
	err := r.change("closing", b.Cycle, `UPDATE closing SET state = 'closed', digest = ?, unit = ?, counted = ?, target = ?, meets = ?,
		carried = ?, kept = ?, claims = ?, closed = ? WHERE event = ? AND state = 'begun'`, b.Digest, b.Unit, b.Counted.String(), b.Target,
		b.Meets, b.Carried.String(), b.Kept.String(), b.Claims, r.at, b.Closing)
	if err != nil {
		return err
	}
	return r.change("cycle", b.Cycle, `UPDATE cycle SET closed = 1 WHERE id = ?`, b.Cycle)
}

func (b *CreditCarried) apply(r *rows) error {
	tags := b.Tags
	if tags == nil {
		tags = []string{}
	}
	text, err := json.Marshal(tags)
	if err != nil {
		return err
	}
	return r.exec(`INSERT INTO carried (event, cycle, origin, claim, amount, category, tags, earned) VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
		r.event, b.Cycle, b.Origin, orNull(b.Claim), b.Amount.String(), b.Category, string(text), b.Earned.String())
}

func (b *ClosingTakenBack) apply(r *rows) error {
	var state, next string
	err := r.tx.QueryRowContext(r.ctx, `SELECT state, next FROM closing WHERE event = ?`, b.Closing).Scan(&state, &next)
	if err != nil {
		return notThere("closing", b.Cycle, err)
	}
	steps := []func() error{func() error {
		return r.exec(`UPDATE closing SET state = 'taken back', why = ? WHERE event = ?`, b.Why, b.Closing)
	}}
	if state == ClosingClosed {
		steps = append(steps,
			func() error { return r.exec(`DELETE FROM carried WHERE cycle = ?`, next) },
			func() error { return r.exec(`DELETE FROM cycle WHERE id = ?`, next) },
			func() error { return r.change("cycle", b.Cycle, `UPDATE cycle SET closed = 0 WHERE id = ?`, b.Cycle) })
	}
	return run(steps...)
}

func (b *CycleNoted) apply(r *rows) error {
	return r.exec(`INSERT INTO cycle_note (event, cycle, text, made) VALUES (?, ?, ?, ?)`, r.event, b.Cycle, b.Text, r.at)
}

func (b *ArchiveDeleted) apply(r *rows) error {
	return r.change("closing", b.Cycle, `UPDATE closing SET gone = ?, why = ? WHERE event = ?`, r.event, b.Why, b.Closing)
}

func (b *EvidenceHeld) apply(r *rows) error {
	if b.Released {
		return r.change("evidence held", b.SHA256, `DELETE FROM held WHERE sha256 = ?`, b.SHA256)
	}
	return r.exec(`INSERT INTO held (sha256, why, event) VALUES (?, ?, ?)
		ON CONFLICT (sha256) DO UPDATE SET why = excluded.why, event = excluded.event`, b.SHA256, b.Why, r.event)
}

// blankable lists the kinds of event whose bodies a deletion may blank: those of taking an
// evidence in and of reading it.
var blankable = []string{(*EvidenceTaken)(nil).Kind(), (*EvidenceReturned)(nil).Kind(), (*NameAdded)(nil).Kind(), (*ReadingMade)(nil).Kind()}

// mayBlank reports whether a deletion may blank the bodies of events of this kind.
func mayBlank(kind string) bool { return slices.Contains(blankable, kind) }
