package audit

import (
	"context"
	"slices"

	"evidencevault/credit"
	"evidencevault/evidence"
	"evidencevault/journal"
)

// Weights of a weakness. A claim with a grave one is taken to fall; a doubt is what an
// auditor asks about, and may let stand.
const (
	Grave = "grave"
	Doubt = "doubt"
)

// What a weakness is about; part of the machine interface.
const (
	WeakUnproven  = "unproven"        // no document
	WeakKind      = "wrong-kind"      // of a kind that the category does not accept
	WeakName      = "other-name"      // the document names somebody else
	WeakOutside   = "outside-cycle"   // dated outside the cycle
	WeakAbove     = "above-proof"     // more claimed than the document shows
	WeakOther     = "other-than-read" // another value than the document shows
	WeakPerson    = "set-by-person"   // no document shows the value
	WeakTwice     = "claimed-twice"   // the same activity in two claims
	WeakShared    = "proof-used-twice"
	WeakLongDay   = "long-day"  // too many hours in a day
	WeakFigures   = "figures"   // the document left something open
	WeakEvidence  = "evidence"  // altered or missing in the store
	WeakLog       = "log-field" // the body's journal asks for it
	WeakNothing   = "earns-nothing"
	WeakTagged    = "tag"       // a condition that only the holder asserts
	WeakLanguage  = "language"  // may need a translation
	WeakHoldsMore = "not-given" // a date or title is not known
	WeakHour      = "same-hour" // two activities at the same hour
	WeakScan      = "scanned-twice"
	WeakProvider  = "provider"  // not one that the body accepts
	WeakSignature = "signature" // the paper must bear one
	WeakKeeping   = "kept-too-short"
)

// Weakness is one thing that a strict auditor would object to.
type Weakness struct {
	Claim   string        `json:"claim"`
	Others  []string      `json:"others,omitempty"` // further claims that it touches
	What    string        `json:"what"`
	Weight  string        `json:"weight"`
	Why     string        `json:"why"`
	Mend    string        `json:"mend"`
	AtStake credit.Amount `json:"at_stake"` // counted now for the claim
}

// Rehearsal is an audit carried out on oneself.
type Rehearsal struct {
	Certification string           `json:"certification"`
	On            credit.Date      `json:"on"`
	Unit          string           `json:"unit"`
	Claims        int              `json:"claims"`
	Findings      []Weakness       `json:"findings"` // grave ones first, then by what is at stake
	Weak          []string         `json:"weak"`     // claims with a grave finding
	Now           Outcome          `json:"now"`
	IfWeakFall    Outcome          `json:"if_weak_fall"`
	Odds          []SampleOdds     `json:"odds"`
	Mends         []Mend           `json:"mends"` // the weak claims, what is most at stake first
	Statement     credit.Statement `json:"-"`
}

// Outcome is a standing in short.
type Outcome struct {
	Counted credit.Amount `json:"counted"`
	Missing credit.Amount `json:"missing"`
	Meets   bool          `json:"meets"`
}

// Rehearse audits the claims of a certification's present cycle as they stand on a
// day; the zero Date is today, "" the only certification. Every proof is hashed.
//
// It judges what the vault knows: what a person must look at in the paper itself, such
// as a signature, is not guessed but asked; the answer is the log field "signature" of
// the activity, "yes" or "no".
func Rehearse(ctx context.Context, j *journal.Journal, certification string, on credit.Date) (Rehearsal, error) {
	g, err := j.Grounds(ctx, on, certification)
	if err != nil {
		return Rehearsal{}, err
	}
	r := rehearsing{grounds: g, counted: map[string]credit.Amount{}, paired: map[[2]string]bool{}}
	r.languages, r.most = languages(g)
	for _, c := range g.Claims {
		r.counted[c.ID] = c.Counted
		r.proofs(c)
		r.values(c)
		r.rules(c)
		r.asked(c)
	}
	r.twice()
	r.scans()
	r.hours()
	r.longDays()
	if err := r.store(ctx, j.Catalog().Store()); err != nil {
		return Rehearsal{}, err
	}
	return r.result()
}

// rehearsing is one run of [Rehearse].
type rehearsing struct {
	grounds journal.Grounds
	counted map[string]credit.Amount
	found   []Weakness
	paired  map[[2]string]bool // pairs of claims, later first, of which something was said

	languages map[string]int // papers in each
	most      string         // the language of most
}

func (r *rehearsing) find(w Weakness) {
	w.AtStake = r.counted[w.Claim]
	r.found = append(r.found, w)
}

func (r *rehearsing) result() (Rehearsal, error) {
	g := r.grounds
	out := Rehearsal{Certification: g.Certification.Name, On: g.Statement.On, Unit: g.Statement.Unit, Claims: len(g.Claims),
		Findings: r.found, Weak: []string{}, Statement: g.Statement, Now: outcome(g.Statement)}
	if out.Findings == nil {
		out.Findings = []Weakness{}
	}
	for _, c := range g.Claims {
		if slices.ContainsFunc(r.found, func(w Weakness) bool {
			return w.Weight == Grave && (w.Claim == c.ID || slices.Contains(w.Others, c.ID))
		}) {
			out.Weak = append(out.Weak, c.ID)
		}
	}
	slices.SortStableFunc(out.Findings, func(a, b Weakness) int {
		if (a.Weight == Grave) != (b.Weight == Grave) {
			if a.Weight == Grave {
				return -1
			}
			return 1
		}
		return b.AtStake.Cmp(a.AtStake)
	})
	fallen, err := g.Without(out.Weak)
	if err != nil {
		return out, err
	}
	out.IfWeakFall = outcome(fallen)
	out.Odds = odds(len(g.Claims), len(out.Weak))
	out.Mends, err = r.mends(out.Weak)
	return out, err
}

func outcome(s credit.Statement) Outcome { return Outcome{s.Counted, s.Missing, s.Meets} }

// store hashes every proof.
func (r *rehearsing) store(ctx context.Context, store *evidence.Store) error {
	judged := map[string]error{}
	for _, c := range r.grounds.Claims {
		for _, p := range c.Papers {
			err, ok := judged[p.SHA256]
			if !ok {
				err = store.Check(ctx, p.SHA256)
				judged[p.SHA256] = err
			}
			if ctx.Err() != nil {
				return ctx.Err()
			}
			if p.Deleted {
				continue // said as such
			}
			if err != nil {
				r.find(Weakness{Claim: c.ID, What: WeakEvidence, Weight: Grave, Why: p.File + " is not as it was taken in: " + err.Error(),
					Mend: "put the file back from a backup, or ask the provider for another copy; vaultctl verify says more"})
			}
		}
	}
	return nil
}
