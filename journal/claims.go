package journal

import (
	"context"
	"fmt"
	"maps"
	"slices"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// ClaimAdd claims what has no document yet, with fields that the person sets, or an
// activity that is there already for a further certification. Nothing that the
// category's award reads may be missing: the error is then an [*OpenError].
func (j *Journal) ClaimAdd(ctx context.Context, o ClaimOptions) (ClaimResult, error) {
	var claim string
	var warnings []Warning
	err := j.cat.Act(ctx, func(tx *catalog.Tx) error {
		warnings = nil
		a, err := j.toClaim(ctx, &tx.View, o)
		if err != nil {
			return err
		}
		if a.ID == "" {
			if a.ID, err = recordActivity(ctx, tx, catalog.ActivityMade{}, a.values); err != nil {
				return err
			}
		}
		claim, err = recordClaim(ctx, tx, catalog.ClaimMade{Activity: a.ID, Certification: a.cert.ID, Cycle: a.cycle.ID, Category: a.category.ID})
		warnings = a.warnings
		return err
	})
	if err != nil {
		return ClaimResult{}, err
	}
	return j.claimResult(ctx, claim, warnings)
}

// toClaim is what a claim without a confirmation is made of.
type toClaim struct {
	ID       string // UUID of the activity; "" for a new one
	values   map[paper.Field]paper.Value
	cert     Certified
	cycle    catalog.Cycle
	category credit.Category
	warnings []Warning
}

func (j *Journal) toClaim(ctx context.Context, v *catalog.View, o ClaimOptions) (toClaim, error) {
	a := toClaim{values: map[paper.Field]paper.Value{}}
	var err error
	if a.cert, err = j.certified(ctx, v, o.Certification, credit.Date{}); err != nil {
		return a, err
	}
	set, err := j.canonical(ctx, v, o.Set)
	if err != nil {
		return a, err
	}
	what := "claim"
	if o.Activity != "" {
		if what, err = a.fromActivity(ctx, v, o, set); err != nil {
			return a, err
		}
	} else {
		a.values = withSet(a.values, set, 1)
	}
	if o.Category != "" {
		a.values[paper.FieldCategory] = paper.Value{Text: o.Category, By: paper.ByPerson}
	}
	return a, j.settle(ctx, v, what, &a)
}

// fromActivity takes over an activity that stands and that this certification does
// not claim yet.
func (a *toClaim) fromActivity(ctx context.Context, v *catalog.View, o ClaimOptions, set map[paper.Field]string) (string, error) {
	delete(set, paper.FieldCategory)
	if len(set) > 0 {
		return "", fmt.Errorf("%s: %w: an activity that is there already keeps its values; change them with claim change", o.Activity, ErrField)
	}
	id, err := activityOf(ctx, v, o.Activity)
	if err != nil {
		return "", err
	}
	claims, err := v.Claims(ctx, catalog.ClaimFilter{Activity: id, Certification: a.cert.ID})
	if err != nil {
		return "", err
	}
	if len(claims) > 0 {
		return "", &StateError{Paper: o.Activity, State: "claimed for " + a.cert.Name, Now: []string{claims[0].Ref()}, Want: "change that claim, or choose another --certification"}
	}
	row, err := v.Activity(ctx, id)
	if err != nil {
		return "", err
	}
	a.ID = id
	for f, text := range row.Fields {
		a.values[f] = paper.Value{Text: text, By: row.By[f]}
	}
	if category := o.Set[string(paper.FieldCategory)]; category != "" {
		a.values[paper.FieldCategory] = paper.Value{Text: category, By: paper.ByPerson}
	}
	return row.Ref(), nil
}

// settle finds category and cycle, and refuses while something that matters is open.
func (j *Journal) settle(ctx context.Context, v *catalog.View, what string, a *toClaim) error {
	if name := a.values[paper.FieldCategory].Text; name != "" {
		if err := knownCategory(a.cert.Scheme, name); err != nil {
			return err
		}
	}
	kind := paper.Kind(a.values[paper.FieldKind].Text)
	if kind == paper.Receipt || kind == paper.NotEvidence {
		return fmt.Errorf("%s: %w: a paper of the kind %s earns nothing", what, ErrField, kind)
	}
	k := asker{scheme: a.cert.Scheme}
	a.values = k.propose(kind, a.values)
	q := questions{values: a.values}
	if kind == "" && a.values[paper.FieldCategory].Text == "" {
		q.open(paper.FieldCategory, "In which category do you claim it?", nil)
	} else {
		k.askCategory(&q, kind)
	}
	k.askFields(&q, false)
	if len(q.list) > 0 {
		e := &OpenError{Paper: what}
		for _, open := range q.list {
			e.Questions = append(e.Questions, open.Question)
		}
		return e
	}
	a.category, _ = a.cert.Scheme.Category(a.values[paper.FieldCategory].Text)
	delete(a.values, paper.FieldCategory)
	fields := texts(a.values)
	claim, err := newRuleClaim(what, a.category.ID, fields)
	if err != nil {
		return err
	}
	if a.cycle, err = cycleFor(ctx, v, a.cert, claim.Date()); err != nil {
		return err
	}
	a.warnings, err = j.claimWarnings(ctx, v, a.cert, a.cycle, a.category, fields)
	return err
}

func (j *Journal) claimWarnings(ctx context.Context, v *catalog.View, cert Certified, cycle catalog.Cycle, category credit.Category, fields map[paper.Field]string) ([]Warning, error) {
	var list []Warning
	out, err := j.outside(ctx, v, cert, cycle, category.ID, fields)
	for _, text := range []string{notAccepted(category, fields[paper.FieldKind]), out} {
		if text != "" {
			list = append(list, Warning{Text: text})
		}
	}
	return list, err
}

func (j *Journal) claimResult(ctx context.Context, id string, warnings []Warning) (ClaimResult, error) {
	r := ClaimResult{Warnings: listed(warnings)}
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		b, err := j.open(ctx, v, credit.Date{})
		if err != nil {
			return err
		}
		if r.Claim, err = b.claim(id); err != nil {
			return err
		}
		for i := range r.Warnings {
			r.Warnings[i].Claim = r.Claim.ID
		}
		r.Warnings = append(r.Warnings, b.doubles(id)...)
		return nil
	})
	return r, err
}

// standing returns the claim that a reference names and its activity. The error wraps
// [ErrNotWaiting] for one that was withdrawn, and [ErrClosed].
func standingClaim(ctx context.Context, v *catalog.View, ref string) (catalog.Claim, catalog.Activity, error) {
	list, err := claimsOf(ctx, v, []string{ref}, false)
	if err != nil {
		return catalog.Claim{}, catalog.Activity{}, err
	}
	if len(list) != 1 {
		return catalog.Claim{}, catalog.Activity{}, fmt.Errorf("%s: %w: want one claim, and it names %d; give C and the number", ref, ErrReference, len(list))
	}
	c := list[0]
	if c.Withdrawn {
		return c, catalog.Activity{}, &StateError{Paper: c.Ref(), State: "withdrawn", Want: "take that back first with undo " + c.Ref()}
	}
	if err := openCycle(ctx, v, c); err != nil {
		return c, catalog.Activity{}, err
	}
	a, err := v.Activity(ctx, c.Activity)
	return c, a, err
}

// ClaimChange corrects a claim: fields of its activity, its category, or both. An
// empty value takes a field away. What was there before stays in the history, and can
// be had back with [Journal.Undo].
func (j *Journal) ClaimChange(ctx context.Context, ref string, set map[string]string, category string) (ClaimResult, error) {
	var id string
	var warnings []Warning
	err := j.cat.Act(ctx, func(tx *catalog.Tx) error {
		v := &tx.View
		c, a, err := standingClaim(ctx, v, ref)
		if err != nil {
			return err
		}
		id = c.ID
		changed, err := j.canonical(ctx, v, set)
		if err != nil {
			return fmt.Errorf("%s: %w", c.Ref(), err)
		}
		to := category
		if to == "" {
			to = changed[paper.FieldCategory]
		}
		delete(changed, paper.FieldCategory)
		if len(changed) == 0 && to == "" {
			return fmt.Errorf("%s: %w: nothing to change; give --set FIELD=VALUE or --category NAME", c.Ref(), ErrField)
		}
		warnings, err = j.changeClaim(ctx, tx, c, a, changed, to)
		return err
	})
	if err != nil {
		return ClaimResult{}, err
	}
	return j.claimResult(ctx, id, warnings)
}

func (j *Journal) changeClaim(ctx context.Context, tx *catalog.Tx, c catalog.Claim, a catalog.Activity, changed map[paper.Field]string, category string) ([]Warning, error) {
	v := &tx.View
	cert, err := j.certified(ctx, v, c.Certification, credit.Date{})
	if err != nil {
		return nil, err
	}
	fields := maps.Clone(a.Fields)
	maps.DeleteFunc(changed, func(f paper.Field, text string) bool { return fields[f] == text })
	for f, text := range changed {
		if fields[f] = text; text == "" {
			delete(fields, f)
		}
	}
	if err := notHandedIn(ctx, v, c, a, changed); err != nil {
		return nil, err
	}
	if category == "" {
		category = c.Category
	}
	if err := knownCategory(cert.Scheme, category); err != nil {
		return nil, fmt.Errorf("%s: %w", c.Ref(), err)
	}
	claim, err := newRuleClaim(c.Ref(), category, fields)
	if err != nil {
		return nil, err
	}
	cycle, err := cycleFor(ctx, v, cert, claim.Date())
	if err != nil {
		return nil, err
	}
	if err := recordChange(ctx, tx, c, a, changed, catalog.ClaimChanged{ID: c.ID, Cycle: cycle.ID, Category: category}); err != nil {
		return nil, err
	}
	rule, _ := cert.Scheme.Category(category)
	return j.claimWarnings(ctx, v, cert, cycle, rule, fields)
}

// recordChange writes what differs. A value that a person sets is proven by the first
// page of the paper that the activity was confirmed from, where there is one.
func recordChange(ctx context.Context, tx *catalog.Tx, c catalog.Claim, a catalog.Activity, changed map[paper.Field]string, to catalog.ClaimChanged) error {
	if to.Category == c.Category {
		to.Category = ""
	}
	if to.Cycle == c.Cycle {
		to.Cycle = ""
	}
	if to.Category != "" || to.Cycle != "" {
		if err := record(ctx, tx, &to); err != nil {
			return err
		}
	}
	if len(changed) == 0 {
		return nil
	}
	by := map[paper.Field]string{}
	for f, text := range changed {
		if text != "" {
			by[f] = paper.ByPerson
		}
	}
	if err := record(ctx, tx, &catalog.ActivityChanged{ID: a.ID, Fields: changed, By: by}); err != nil {
		return err
	}
	if a.Paper == "" {
		return nil
	}
	row, err := tx.Paper(ctx, a.Paper)
	if err != nil {
		return err
	}
	s, err := see(ctx, &tx.View, row)
	if err != nil {
		return err
	}
	for _, f := range slices.Sorted(maps.Keys(by)) {
		proof := s.proof(a.ID, f, paper.Value{Text: changed[f], By: paper.ByPerson}, 0)
		proof.Replace = true
		if err := record(ctx, tx, &proof); err != nil {
			return err
		}
	}
	return nil
}

// ClaimWithdraw takes a claim back, with the reason; its activity and proofs stay, so
// that it can be claimed elsewhere.
func (j *Journal) ClaimWithdraw(ctx context.Context, ref, why string) (Claim, error) {
	var id string
	err := j.cat.Act(ctx, func(tx *catalog.Tx) error {
		c, _, err := standingClaim(ctx, &tx.View, ref)
		if err != nil {
			return err
		}
		id = c.ID
		return record(ctx, tx, &catalog.ClaimWithdrawn{ID: c.ID, Why: why})
	})
	if err != nil {
		return Claim{}, err
	}
	r, err := j.claimResult(ctx, id, nil)
	return r.Claim, err
}

// AddClaimFor claims an activity that is there already for a further certification, in
// a category; "" means the one that is proposed.
func (j *Journal) AddClaimFor(ctx context.Context, activity, certification, category string) (ClaimResult, error) {
	return j.ClaimAdd(ctx, ClaimOptions{Activity: activity, Certification: certification, Category: category})
}
