package journal

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strconv"
	"sync"
	"time"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// book is one state of the vault, read once: everything that claims and receipts are
// shown from, with the statement of each certification's cycles.
type book struct {
	now        time.Time
	certs      []Certified
	cycles     map[string]catalog.Cycle
	activities map[string]catalog.Activity
	proofs     map[string][]catalog.Proof // by activity
	papers     map[string]catalog.Paper
	evidence   map[string]catalog.Evidence
	claims     []catalog.Claim // withdrawn ones too
	receipts   []catalog.Receipt
	statements map[string]credit.Statement // by cycle, on the day asked for
	whole      map[string]credit.Statement // by cycle, at its end
	rules      map[string]credit.Scheme    // by cycle
	inputs     map[string]credit.Input     // by cycle, on the day asked for
	facts      []catalog.Fact
	elsewhere  map[string]elsewhere                     // by claim: for which other certifications its activity is claimed
	carried    map[string][]catalog.Carried             // by the cycle into which it came
	outside    map[string]map[string]string             // by cycle and claim: why it counts nothing at the cycle's end; see outsideOf
	outsideOn  map[string]map[string]string             // the same on the day asked for
	comesTo    map[string]map[string]credit.ClaimResult // by cycle and claim's number; see results
}

// open reads the vault as it is and works out the statements on a day; the zero Date
// is today.
func (j *Journal) open(ctx context.Context, v *catalog.View, on credit.Date) (*book, error) {
	b := &book{now: j.now(), cycles: map[string]catalog.Cycle{}, activities: map[string]catalog.Activity{}, proofs: map[string][]catalog.Proof{},
		papers: map[string]catalog.Paper{}, evidence: map[string]catalog.Evidence{}, statements: map[string]credit.Statement{},
		whole: map[string]credit.Statement{}, rules: map[string]credit.Scheme{}, inputs: map[string]credit.Input{},
		carried: map[string][]catalog.Carried{}, outside: map[string]map[string]string{}, outsideOn: map[string]map[string]string{},
		comesTo: map[string]map[string]credit.ClaimResult{}}
	if err := b.load(ctx, v); err != nil {
		return nil, err
	}
	var err error
	if b.certs, err = j.allCertified(ctx, v, on); err != nil {
		return nil, err
	}
	cycles, err := v.Cycles(ctx, "")
	if err != nil {
		return nil, err
	}
	for _, cycle := range cycles {
		b.cycles[cycle.ID] = cycle
		if b.rules[cycle.ID], err = j.Scheme(ctx, v, cycle.Scheme); err != nil {
			return nil, err
		}
	}
	b.facts, err = v.Facts(ctx)
	if err != nil {
		return nil, err
	}
	b.findElsewhere()
	for _, cert := range b.certs {
		for _, cycle := range cycles {
			if cycle.Certification != cert.ID {
				continue
			}
			if err := b.work(ctx, j, v, cert, cycle, on); err != nil {
				return nil, err
			}
		}
	}
	return b, b.letterDeadlines(ctx, v)
}

func (b *book) load(ctx context.Context, v *catalog.View) error {
	activities, err := v.Activities(ctx)
	if err != nil {
		return err
	}
	for _, a := range activities {
		b.activities[a.ID] = a
	}
	proofs, err := v.Proofs(ctx, "")
	if err != nil {
		return err
	}
	for _, p := range proofs {
		if ok, err := stands(ctx, v, b.activities[p.Activity], p); err != nil {
			return err
		} else if ok {
			b.proofs[p.Activity] = append(b.proofs[p.Activity], p)
		}
	}
	papers, err := v.Papers(ctx)
	if err != nil {
		return err
	}
	for _, p := range papers {
		b.papers[p.ID] = p
	}
	evidence, err := v.AllEvidence(ctx)
	if err != nil {
		return err
	}
	for _, e := range evidence {
		b.evidence[e.SHA256] = e
	}
	if b.claims, err = v.Claims(ctx, catalog.ClaimFilter{Withdrawn: true}); err != nil {
		return err
	}
	if b.receipts, err = v.Receipts(ctx); err != nil {
		return err
	}
	carried, err := v.Carried(ctx, "")
	for _, c := range carried {
		b.carried[c.Cycle] = append(b.carried[c.Cycle], c)
	}
	return err
}

// claimRef is the short number of the claim of this UUID; "" for none.
func (b *book) claimRef(id string) string {
	for _, c := range b.claims {
		if c.ID == id {
			return c.Ref()
		}
	}
	return ""
}

// carriedIn is the credit that came into a cycle, as the rules see it.
func (b *book) carriedIn(cycle string) []credit.Carried {
	var list []credit.Carried
	for _, c := range b.carried[cycle] {
		one := credit.Carried{Amount: c.Amount, Category: c.Category, Tags: c.Tags, Earned: c.Earned}
		if ref := b.claimRef(c.Claim); ref != "" {
			one.ID = fmt.Sprintf("%s of the cycle to %v", ref, b.cycles[c.Origin].End)
		}
		list = append(list, one)
	}
	return list
}

// work works out one cycle: on the day asked for, and at its end, which tells what
// lies outside it.
func (b *book) work(ctx context.Context, j *Journal, v *catalog.View, cert Certified, cycle catalog.Cycle, on credit.Date) error {
	rules := b.rules[cycle.ID]
	in := credit.Input{Certification: cert.Name, Cycle: credit.Period{Start: cycle.Start, End: cycle.End}, On: j.orToday(on),
		Facts: factsOn(b.facts, j.orToday(on), cert.Certification, cycle)}
	for _, c := range b.claims {
		if c.Cycle != cycle.ID || c.Withdrawn {
			continue
		}
		claim, err := ruleClaim(c.Ref(), c.Category, b.activities[c.Activity].Fields)
		if err != nil {
			return err
		}
		claim.Tags = addTags(claim.Tags, b.elsewhere[c.ID].tags...)
		in.Claims = append(in.Claims, claim)
	}
	earlier, err := b.earlier(cycle)
	if err != nil {
		return err
	}
	in.Carried, in.Earlier = b.carriedIn(cycle.ID), earlier
	b.inputs[cycle.ID] = in
	st, whole, err := calculated(rules, in)
	if err != nil {
		return fmt.Errorf("certification %s: %w", cert.Name, err)
	}
	b.statements[cycle.ID], b.whole[cycle.ID] = st, whole
	if st.Changed, err = b.changed(ctx, j, v, cycle); err != nil {
		return fmt.Errorf("certification %s: %w", cert.Name, err)
	}
	b.statements[cycle.ID] = st
	return nil
}

// calculated returns the statement on the day of in and the one at the cycle's end, which
// are worked out side by side.
func calculated(rules credit.Scheme, in credit.Input) (st, whole credit.Statement, err error) {
	if !in.On.Before(in.Cycle.End) {
		st, err = credit.Calculate(rules, in)
		return st, st, err
	}
	end := in
	end.On = credit.Date{}
	var both sync.WaitGroup
	var endErr error
	both.Go(func() { whole, endErr = credit.Calculate(rules, end) })
	st, err = credit.Calculate(rules, in)
	both.Wait()
	return st, whole, cmp.Or(err, endErr)
}

// claim returns the claim of this UUID as it is shown.
func (b *book) claim(id string) (Claim, error) {
	i := slices.IndexFunc(b.claims, func(c catalog.Claim) bool { return c.ID == id })
	if i < 0 {
		return Claim{}, fmt.Errorf("%s: %w", id, ErrUnknown)
	}
	return b.shown(b.claims[i]), nil
}

// shown returns a claim as it is shown.
func (b *book) shown(c catalog.Claim) Claim {
	a := b.activities[c.Activity]
	shown := Claim{
		ID: c.Ref(), Activity: a.Ref(), Category: c.Category, Title: a.Fields[paper.FieldTitle], Provider: a.Fields[paper.FieldProvider],
		Start: dayOf(a.Fields[paper.FieldStart]), End: dayOf(a.Fields[paper.FieldEnd]), Duration: minutesOf(a.Fields[paper.FieldDuration]),
		Proofs: b.proofsOf(a), Kind: a.Fields[paper.FieldKind], Fields: map[string]string{}, Notes: []string{}, Elsewhere: []string{},
	}
	for _, cert := range b.certs {
		if cert.ID == c.Certification {
			shown.Certification = cert.Name
		}
	}
	for f, text := range a.Fields {
		shown.Fields[string(f)] = text
	}
	if c.Withdrawn {
		shown.State = "withdrawn"
		return shown
	}
	b.judge(c, a, &shown)
	return shown
}

// results returns what the claims of a cycle come to, by their numbers, and keeps the
// answer: looking through a statement once for each claim takes long.
func (b *book) results(cycle string) map[string]credit.ClaimResult {
	if list, ok := b.comesTo[cycle]; ok {
		return list
	}
	list := b.statements[cycle].Results()
	b.comesTo[cycle] = list
	return list
}

// judge fills in what a claim comes to, and what a person should know about it.
func (b *book) judge(c catalog.Claim, a catalog.Activity, shown *Claim) {
	if r, ok := b.results(c.Cycle)[c.Ref()]; ok {
		shown.Awarded, shown.Counted = r.Awarded, r.Counted
	}
	note := outsideOf(b.outside, c.Cycle, b.whole[c.Cycle])[c.Ref()]
	shown.Outside = note != ""
	if note == "" {
		note = outsideOf(b.outsideOn, c.Cycle, b.statements[c.Cycle])[c.Ref()]
	}
	category, _ := b.rules[c.Cycle].Category(c.Category)
	shown.Elsewhere = listed(b.elsewhere[c.ID].claims)
	shown.Proven = proven(category, shown.Proofs)
	for _, text := range []string{note, notAccepted(category, a.Fields[paper.FieldKind]), b.doubleText(c)} {
		if text != "" {
			shown.Notes = append(shown.Notes, text)
		}
	}
	if !shown.Proven {
		shown.Notes = append(shown.Notes, "unproven: no paper of a kind that the category accepts")
	}
}

// proven reports whether one of the proofs is by a paper of a kind that the category
// accepts; a category that names no kind accepts any.
func proven(c credit.Category, proofs []Proof) bool {
	for _, p := range proofs {
		if len(c.Accepts) == 0 || p.Field == paper.FieldKind && slices.Contains(c.Accepts, p.Value) {
			return true
		}
	}
	return false
}

// proofsOf returns the proofs of the fields that an activity has, in the order of the
// fields, then of the log.
func (b *book) proofsOf(a catalog.Activity) []Proof {
	list := []Proof{}
	for _, p := range b.proofs[a.ID] {
		other := p.Paper != a.Paper && p.Field == paper.FieldKind // each paper is of its own kind
		if have := a.Fields[p.Field]; have == "" || !other && !agrees(p.Field, p.Value, have) {
			continue // it proves a value that was changed since
		}
		shown := Proof{Field: p.Field, SHA256: p.SHA256, File: firstName(b.evidence[p.SHA256]), Page: p.Place.Page, Quote: p.Place.Quote,
			By: p.By, Paper: b.papers[p.Paper].Ref(), Value: p.Value}
		if !p.Place.Box.IsZero() {
			shown.Box = new(paper.Points(p.Place.Box))
		}
		list = append(list, shown)
	}
	slices.SortStableFunc(list, func(p, q Proof) int { return fieldRank(p.Field) - fieldRank(q.Field) })
	return list
}

// fieldRank orders the fields of a paper as they are shown, log fields after them.
func fieldRank(f paper.Field) int {
	if i := slices.Index(paper.Fields(), f); i >= 0 {
		return i
	}
	return len(paper.Fields())
}

func minutesOf(text string) *credit.Minutes {
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil {
		return nil
	}
	return new(credit.Minutes(n))
}
