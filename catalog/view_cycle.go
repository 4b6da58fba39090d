package catalog

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"time"

	"evidencevault/credit"
)

// The states of a closing.
const (
	ClosingOpen      = "begun"      // begun, and neither completed nor taken back
	ClosingClosed    = "closed"     // completed: the cycle is closed
	ClosingTakenAway = "taken back" // it does not count
)

// Closing is one closing of a cycle.
type Closing struct {
	Event   int64       // that began it
	Cycle   string      // UUID
	On      credit.Date // the day for which its figures hold
	State   string      // ClosingOpen, ClosingClosed or ClosingTakenAway
	Why     string      // why it was taken back, or why the archive was deleted
	Archive string      // its folder within cycles/
	Digest  string      // SHA-256 of the archive's tagmanifest-sha256.txt; "" until it is closed, as all that follows
	Next    string      // UUID of the cycle that follows; "" if none does
	Unit    string      // what one credit is called
	Counted credit.Amount
	Target  *credit.Amount // nil if the scheme sets none
	Meets   bool
	Carried credit.Amount // that passed into the next cycle
	Kept    credit.Date   // last day on which its proofs must be kept; zero if the scheme does not say
	Claims  int           // in the archive
	Closed  time.Time     // zero until it is closed
	Gone    int64         // event by which the archive was deleted; 0: it is there
}

// Closings returns the closings of a cycle (its UUID), earliest first; "" for all.
func (v *View) Closings(ctx context.Context, cycle string) ([]Closing, error) {
	return list(ctx, v, func(r *sql.Rows) (c Closing, err error) {
		var counted, target, carried, closed string
		if err = r.Scan(&c.Event, &c.Cycle, (*dayText)(&c.On), &c.State, &c.Why, &c.Archive, &c.Digest, &c.Next, &c.Unit, &counted, &target,
			&c.Meets, &carried, (*dayText)(&c.Kept), &c.Claims, &closed, &c.Gone); err != nil || closed == "" {
			return c, err
		}
		if c.Counted, err = credit.ParseAmount(counted); err != nil {
			return c, err
		}
		if c.Carried, err = credit.ParseAmount(carried); err != nil {
			return c, err
		}
		if target != "" {
			amount, err := credit.ParseAmount(target)
			if err != nil {
				return c, err
			}
			c.Target = &amount
		}
		c.Closed, err = time.Parse(timeForm, closed)
		return c, err
	}, `SELECT event, cycle, day, state, why, archive, digest, next, unit, counted, target, meets, carried, kept, claims, closed, gone
		FROM closing WHERE ? IN ('', cycle) ORDER BY event`, cycle)
}

// Carried is credit that passed into a cycle from the one before.
type Carried struct {
	Event    int64
	Cycle    string // UUID of the cycle into which it came
	Origin   string // of the cycle from which it came
	Claim    string // UUID of the claim that earned it; "" if no single one did
	Amount   credit.Amount
	Category string // that it became; "" if the scheme names none
	Tags     []string
	Earned   credit.Date // zero: not known
}

// Carried returns the credit that passed into a cycle (its UUID), in the order of the
// log; "" for every cycle.
func (v *View) Carried(ctx context.Context, cycle string) ([]Carried, error) {
	return list(ctx, v, func(r *sql.Rows) (c Carried, err error) {
		var claim sql.NullString
		var amount, tags string
		if err = r.Scan(&c.Event, &c.Cycle, &c.Origin, &claim, &amount, &c.Category, &tags, (*dayText)(&c.Earned)); err != nil {
			return c, err
		}
		c.Claim = claim.String
		if c.Amount, err = credit.ParseAmount(amount); err != nil {
			return c, err
		}
		if err := json.Unmarshal([]byte(tags), &c.Tags); err != nil {
			return c, fmt.Errorf("carried credit of event %d: tags %.60q: %w", c.Event, tags, err)
		}
		return c, nil
	}, `SELECT event, cycle, origin, claim, amount, category, tags, earned FROM carried WHERE ? IN ('', cycle) ORDER BY event`, cycle)
}

// CycleNote is a note to a closed cycle.
type CycleNote struct {
	Event int64
	Cycle string // UUID
	Text  string
	Made  time.Time
}

// CycleNotes returns the notes to a cycle (its UUID) in the order of the log; "" for
// those of all.
func (v *View) CycleNotes(ctx context.Context, cycle string) ([]CycleNote, error) {
	return list(ctx, v, func(r *sql.Rows) (n CycleNote, err error) {
		return n, r.Scan(&n.Event, &n.Cycle, &n.Text, (*timeValue)(&n.Made))
	}, `SELECT event, cycle, text, made FROM cycle_note WHERE ? IN ('', cycle) ORDER BY event`, cycle)
}

// Held returns why a person wants evidence kept, by its SHA-256.
func (v *View) Held(ctx context.Context) (map[string]string, error) {
	out := map[string]string{}
	_, err := list(ctx, v, func(r *sql.Rows) (none struct{}, err error) {
		var sha256, why string
		err = r.Scan(&sha256, &why)
		out[sha256] = why
		return none, err
	}, `SELECT sha256, why FROM held`)
	return out, err
}

// LastAt returns the time of the newest event; the zero time when there is none.
func (v *View) LastAt(ctx context.Context) (time.Time, error) {
	found, err := list(ctx, v, scanEvent, eventQuery+` ORDER BY number DESC LIMIT 1`)
	if err != nil || len(found) == 0 {
		return time.Time{}, err
	}
	return found[0].At, nil
}
