package journal

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"evidencevault/catalog"
	"evidencevault/credit"
)

// ErrKept says that something still needs an evidence, so that it is not deleted.
var ErrKept = errors.New("it must be kept")

// Kept is one evidence and what it must be kept for.
type Kept struct {
	SHA256 string       `json:"sha256"`
	File   string       `json:"file"`   // the first name it came under
	Papers []string     `json:"papers"` // P12
	Size   int64        `json:"size"`   // bytes
	Until  *credit.Date `json:"until"`  // last day of the latest time of keeping; null if none has a day
	Holds  []Hold       `json:"holds"`  // what keeps it today; empty: it may be deleted

	cycles []string // UUIDs of those whose claims it proves
}

// Free reports whether nothing needs the evidence any more.
func (k Kept) Free() bool { return len(k.Holds) == 0 }

// Ever reports whether rules that do not say how long keep the evidence, and so for ever.
func (k Kept) Ever() bool { return slices.ContainsFunc(k.Holds, func(h Hold) bool { return h.Ever }) }

// Hold is one thing that an evidence is kept for.
type Hold struct {
	Why   string       `json:"why"`
	Until *credit.Date `json:"until"`              // last day; null if it has none
	Ever  bool         `json:"for_ever,omitempty"` // the rules do not say how long
}

// String prints "C3, cycle to 2026-12-31: until 2031-12-31".
func (h Hold) String() string {
	if h.Until == nil {
		return h.Why
	}
	return h.Why + ": until " + h.Until.String()
}

// DeleteOptions says what shall be deleted: evidence by its papers, or a closed cycle.
type DeleteOptions struct {
	IDs           []string // papers (P12) whose whole evidence goes, and lists of them
	Cycle         string   // a closed cycle: its archive, and what proves its claims and nothing else
	Certification string   // of that cycle; "" means the only one
}

// DeletePlan is what a deletion would do; it is shown before it is done.
type DeletePlan struct {
	Evidence []Kept  `json:"evidence"` // goes
	Archives []Cycle `json:"archives"` // of these cycles go
	Stays    []Kept  `json:"stays"`    // of the cycle's proofs, what something else needs

	options DeleteOptions
}

// Keeping returns every evidence in the vault with what it must be kept for on a day, in
// the order in which it came; the zero Date is today. Where several rules ask, the
// latest day counts.
func (j *Journal) Keeping(ctx context.Context, on credit.Date) ([]Kept, error) {
	var list []Kept
	err := j.cat.Read(ctx, func(v *catalog.View) (err error) {
		list, err = j.keeping(ctx, v, j.orToday(on))
		return err
	})
	return list, err
}

// keeper works out what evidence must be kept for.
type keeper struct {
	*book
	on      credit.Date
	into    map[string][]catalog.Carried // by the claim that earned it
	held    map[string]string
	letters []catalog.AuditLetter
	byProof map[string][]string // activities by SHA-256
}

func (j *Journal) keeping(ctx context.Context, v *catalog.View, on credit.Date) ([]Kept, error) {
	k, err := j.keeper(ctx, v, on)
	if err != nil {
		return nil, err
	}
	all, err := v.AllEvidence(ctx)
	if err != nil {
		return nil, err
	}
	list := []Kept{}
	at := map[string]int{}
	for _, e := range all {
		if e.Deleted == 0 {
			at[e.SHA256] = len(list)
			list = append(list, k.kept(e))
		}
	}
	// What a part needs, its whole is needed for too. Parts come after their whole.
	for i := len(all) - 1; i >= 0; i-- {
		part, ok := at[all[i].SHA256]
		if !ok || list[part].Free() {
			continue
		}
		for _, n := range all[i].Names {
			if whole, ok := at[n.Parent]; ok {
				list[whole].Holds = append(list[whole].Holds, Hold{Why: "its part " + list[part].File + " is kept", Until: latest(list[part].Holds)})
			}
		}
	}
	return list, nil
}

func (j *Journal) keeper(ctx context.Context, v *catalog.View, on credit.Date) (*keeper, error) {
	b, err := j.open(ctx, v, credit.Date{})
	if err != nil {
		return nil, err
	}
	k := &keeper{book: b, on: on, into: map[string][]catalog.Carried{}, byProof: map[string][]string{}}
	for _, list := range b.carried {
		for _, c := range list {
			k.into[c.Claim] = append(k.into[c.Claim], c)
		}
	}
	if k.held, err = v.Held(ctx); err != nil {
		return nil, err
	}
	if k.letters, err = v.Letters(ctx); err != nil {
		return nil, err
	}
	proofs, err := v.Proofs(ctx, "")
	if err != nil {
		return nil, err
	}
	for _, p := range proofs { // also those that prove a value no more: they were handed in
		k.use(p.SHA256, p.Activity)
	}
	for _, a := range b.activities {
		if a.Paper != "" {
			k.use(b.papers[a.Paper].SHA256, a.ID)
		}
	}
	return k, nil
}

func (k *keeper) use(sha256, activity string) {
	if !slices.Contains(k.byProof[sha256], activity) {
		k.byProof[sha256] = append(k.byProof[sha256], activity)
	}
}

// latest is the last day of holds that have one, and nil if one has none.
func latest(holds []Hold) *credit.Date {
	var last *credit.Date
	for _, h := range holds {
		if h.Until == nil {
			return nil
		}
		if last == nil || h.Until.After(*last) {
			last = h.Until
		}
	}
	return last
}

func (k *keeper) kept(e catalog.Evidence) Kept {
	out := Kept{SHA256: e.SHA256, File: firstName(e), Size: e.Size, Papers: []string{}, Holds: []Hold{}}
	until := func(d credit.Date) {
		if out.Until == nil || d.After(*out.Until) {
			out.Until = &d
		}
	}
	if why, ok := k.held[e.SHA256]; ok {
		out.Holds = append(out.Holds, Hold{Why: "kept by hand: " + why})
	}
	var papers []catalog.Paper
	for _, p := range k.papers {
		if p.SHA256 == e.SHA256 {
			papers = append(papers, p)
		}
	}
	slices.SortFunc(papers, func(a, b catalog.Paper) int { return a.Number - b.Number })
	for _, p := range papers {
		out.Papers = append(out.Papers, p.Ref())
		if p.State == catalog.Waiting || p.State == catalog.Unread {
			out.Holds = append(out.Holds, Hold{Why: p.Ref() + " is not decided yet"})
		}
		for _, r := range k.receipts {
			if r.Paper == p.ID && !r.Withdrawn {
				out.Holds = append(out.Holds, Hold{Why: "receipt " + r.Ref()})
			}
		}
	}
	hold := func(list []Hold) {
		for _, h := range list {
			if h.Until != nil {
				until(*h.Until)
			}
			if h.Until == nil || !k.on.After(*h.Until) {
				out.Holds = append(out.Holds, h)
			}
		}
	}
	for _, activity := range k.byProof[e.SHA256] {
		for _, c := range k.claims {
			if c.Activity != activity {
				continue
			}
			if c.Withdrawn {
				hold(k.asked(c)) // it will be answered that it was withdrawn, and why
				continue
			}
			if !slices.Contains(out.cycles, c.Cycle) {
				out.cycles = append(out.cycles, c.Cycle)
			}
			hold(k.ofClaim(c))
		}
	}
	for _, p := range papers {
		hold(k.ofLetter(p.ID))
		for _, l := range k.letters {
			if slices.Contains(l.Papers, p.ID) && !l.Withdrawn && !slices.Contains(out.cycles, l.Cycle) {
				out.cycles = append(out.cycles, l.Cycle)
			}
		}
	}
	return out
}

// ofLetter says what an audit letter is kept for: its answer, and as long as the proofs of
// the claims that it asked for.
func (k *keeper) ofLetter(paper string) []Hold {
	var holds []Hold
	for _, l := range k.letters {
		if l.Withdrawn || !slices.Contains(l.Papers, paper) {
			continue
		}
		if l.Open() {
			holds = append(holds, Hold{Why: "the audit letter " + l.Ref() + " is open"})
		}
		for _, c := range k.claims {
			if slices.Contains(l.Claims, c.ID) && !c.Withdrawn {
				holds = append(holds, k.ofClaim(c)...)
			}
		}
	}
	return holds
}

// ofClaim says what a claim's proofs are kept for: the cycle that it was claimed in, and
// each into which credit of it passed.
func (k *keeper) ofClaim(c catalog.Claim) []Hold {
	holds := []Hold{k.inCycle(c.Ref(), c, c.Cycle)}
	for _, into := range k.into[c.ID] {
		holds = append(holds, k.inCycle(c.Ref()+", carried", c, into.Cycle))
	}
	return append(holds, k.asked(c)...)
}

// asked says which open audit letters ask for a claim.
func (k *keeper) asked(c catalog.Claim) []Hold {
	var holds []Hold
	for _, l := range k.letters {
		if l.Open() && slices.Contains(l.Claims, c.ID) {
			holds = append(holds, Hold{Why: fmt.Sprintf("%s, asked for by the audit letter %s, which is open", c.Ref(), l.Ref())})
		}
	}
	return holds
}

func (k *keeper) inCycle(what string, c catalog.Claim, id string) Hold {
	cycle := k.cycles[id]
	name := ""
	for _, cert := range k.certs {
		if cert.ID == cycle.Certification {
			name = " of " + cert.Name
		}
	}
	if !cycle.Closed {
		return Hold{Why: fmt.Sprintf("%s in the cycle to %v%s, which is not closed", what, cycle.End, name)}
	}
	claim, err := ruleClaim(c.Ref(), c.Category, k.activities[c.Activity].Fields)
	until := credit.Date{}
	if err == nil {
		until = k.rules[id].Keeping.Until(claim.Date(), cycle.End)
	}
	text := fmt.Sprintf("%s in the cycle to %v%s", what, cycle.End, name)
	if until.IsZero() {
		return Hold{Why: text + ", whose rules do not say how long: for ever", Ever: true}
	}
	return Hold{Why: text, Until: &until}
}

// archive says what the archive of a closed cycle is kept for; empty: it may go.
func (k *keeper) archive(c Cycle) []Hold {
	var holds []Hold
	add := func(h Hold) {
		if h.Until == nil || !k.on.After(*h.Until) {
			holds = append(holds, h)
		}
	}
	if c.KeepUntil == nil {
		add(Hold{Why: "the rules of the cycle do not say how long: for ever", Ever: true})
	} else {
		add(Hold{Why: "the cycle itself", Until: c.KeepUntil})
	}
	for _, l := range k.letters {
		if l.Open() && l.Cycle == c.ID {
			add(Hold{Why: "the audit letter " + l.Ref() + " is open"})
		}
	}
	for _, claim := range k.claims {
		for _, into := range k.into[claim.ID] {
			if into.Origin == c.ID {
				add(k.inCycle(claim.Ref()+", carried", claim, into.Cycle))
			}
		}
	}
	return holds
}

// DeletePlan says what a deletion would do today. Nothing named gives an empty plan. The
// error wraps [ErrKept] when a paper that is named is still needed, or nothing of the
// cycle may go.
func (j *Journal) DeletePlan(ctx context.Context, o DeleteOptions) (DeletePlan, error) {
	cycle := Cycle{}
	if o.Cycle != "" {
		var err error
		if cycle, err = j.Cycle(ctx, o.Certification, o.Cycle); err != nil {
			return DeletePlan{}, err
		}
		if cycle.State != CycleClosed {
			return DeletePlan{}, fmt.Errorf("cycle %d, to %v: %w: it is not closed", cycle.Number, cycle.End, ErrKept)
		}
	}
	var p DeletePlan
	err := j.cat.Read(ctx, func(v *catalog.View) (err error) {
		p, err = j.deletePlan(ctx, v, o, cycle)
		return err
	})
	return p, err
}

func (j *Journal) deletePlan(ctx context.Context, v *catalog.View, o DeleteOptions, cycle Cycle) (DeletePlan, error) {
	p := DeletePlan{Evidence: []Kept{}, Archives: []Cycle{}, Stays: []Kept{}, options: o}
	list, err := j.keeping(ctx, v, j.Today())
	if err != nil {
		return p, err
	}
	wanted := map[string]bool{}
	if len(o.IDs) > 0 {
		names, err := resolve(ctx, v, o.IDs, catalog.LetterPaper)
		if err != nil {
			return p, err
		}
		for _, n := range names {
			row, err := v.Paper(ctx, n.id)
			if err != nil {
				return p, err
			}
			wanted[row.SHA256] = true
		}
	}
	for _, k := range list {
		switch {
		case wanted[k.SHA256] && !k.Free():
			return p, fmt.Errorf("%s (%s): %w: %s", refsText(k.Papers), k.File, ErrKept, k.Holds[0])
		case wanted[k.SHA256]:
			p.Evidence = append(p.Evidence, k)
		case cycle.ID != "" && slices.Contains(k.cycles, cycle.ID) && k.Free():
			p.Evidence = append(p.Evidence, k)
		case cycle.ID != "" && slices.Contains(k.cycles, cycle.ID):
			p.Stays = append(p.Stays, k)
		}
	}
	if cycle.ID == "" {
		return p, nil
	}
	k, err := j.keeper(ctx, v, j.Today())
	if err != nil {
		return p, err
	}
	holds := k.archive(cycle)
	if len(holds) == 0 && !cycle.ArchiveGone {
		p.Archives = append(p.Archives, cycle)
	}
	if len(p.Evidence) == 0 && len(p.Archives) == 0 {
		if len(holds) > 0 {
			return p, fmt.Errorf("cycle %d, to %v: %w: %s", cycle.Number, cycle.End, ErrKept, holds[0])
		}
		return p, fmt.Errorf("cycle %d, to %v: %w: everything of it that may go is gone", cycle.Number, cycle.End, ErrKept)
	}
	return p, nil
}

func refsText(refs []string) string {
	text := ""
	for i, r := range refs {
		if i > 0 {
			text += " "
		}
		text += r
	}
	return text
}

// Delete does what the plan shows, in one act: what else needs an evidence is looked up
// again, and the words that were read in it are blanked. Files and archives go when it
// is committed. The error wraps [ErrKept] or [ErrMoved] when the plan no longer holds.
func (j *Journal) Delete(ctx context.Context, p DeletePlan, why string) error {
	if why == "" {
		why = "the time of keeping is over"
	}
	return j.cat.Act(ctx, func(tx *catalog.Tx) error {
		list, err := j.keeping(ctx, &tx.View, j.Today())
		if err != nil {
			return err
		}
		for _, e := range p.Evidence {
			i := slices.IndexFunc(list, func(k Kept) bool { return k.SHA256 == e.SHA256 })
			if i < 0 {
				return fmt.Errorf("%s: %w: it was deleted", e.File, ErrMoved)
			}
			if !list[i].Free() {
				return fmt.Errorf("%s: %w: %s", e.File, ErrKept, list[i].Holds[0])
			}
			if err := tx.DeleteEvidence(ctx, e.SHA256, why); err != nil {
				return err
			}
		}
		k, err := j.keeper(ctx, &tx.View, j.Today())
		if err != nil {
			return err
		}
		for _, c := range p.Archives {
			if holds := k.archive(c); len(holds) > 0 {
				return fmt.Errorf("archive of cycle %d: %w: %s", c.Number, ErrKept, holds[0])
			}
			if err := record(ctx, tx, &catalog.ArchiveDeleted{Closing: c.Closing.Event, Cycle: c.ID, Why: why}); err != nil {
				return err
			}
		}
		return nil
	})
}

// Hold keeps the evidence of papers whatever the rules say, or no longer.
func (j *Journal) Hold(ctx context.Context, ids []string, why string, release bool) error {
	return j.cat.Act(ctx, func(tx *catalog.Tx) error {
		names, err := resolve(ctx, &tx.View, ids, catalog.LetterPaper)
		if err != nil {
			return err
		}
		held, err := tx.Held(ctx)
		if err != nil {
			return err
		}
		for _, n := range names {
			row, err := tx.Paper(ctx, n.id)
			if err != nil {
				return err
			}
			if _, is := held[row.SHA256]; release && !is {
				return fmt.Errorf("%s: %w: it is not kept by hand", row.Ref(), ErrNothing)
			}
			if err := record(ctx, tx, &catalog.EvidenceHeld{SHA256: row.SHA256, Why: why, Released: release}); err != nil {
				return err
			}
		}
		return nil
	})
}
