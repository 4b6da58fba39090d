package journal

import (
	"context"
	"fmt"
	"maps"
	"slices"

	"evidencevault/catalog"
	"evidencevault/extract/paper"
)

// Attach makes a waiting paper a further proof of a claim's activity. Each value that
// paper and activity share is linked to its place; what the paper says for certain and
// the activity lacks is taken over; where they differ the activity's value stays, and a
// warning says so. An unread paper proves by its first page what the person has set.
// Values in set answer what the paper leaves open, as in [ConfirmOptions].
func (j *Journal) Attach(ctx context.Context, claim, paperRef string, set map[string]string) (ClaimResult, error) {
	var id string
	var warnings []Warning
	err := j.cat.Act(ctx, func(tx *catalog.Tx) error {
		warnings = nil
		v := &tx.View
		c, a, err := standingClaim(ctx, v, claim)
		if err != nil {
			return err
		}
		id = c.ID
		p, values, err := j.toAttach(ctx, v, paperRef, set)
		if err != nil {
			return err
		}
		warnings, err = p.attach(ctx, tx, a, values)
		return err
	})
	if err != nil {
		return ClaimResult{}, err
	}
	return j.claimResult(ctx, id, warnings)
}

// toAttach returns a paper that can prove something, with its values.
func (j *Journal) toAttach(ctx context.Context, v *catalog.View, ref string, set map[string]string) (plan, map[paper.Field]paper.Value, error) {
	n, err := resolveOne(ctx, v, ref, catalog.LetterPaper)
	if err != nil {
		return plan{}, nil, err
	}
	p, err := j.undecided(ctx, v, n.id)
	if err != nil {
		return plan{}, nil, err
	}
	answers, err := j.canonical(ctx, v, set)
	if err != nil {
		return plan{}, nil, fmt.Errorf("%s: %w", p.Ref(), err)
	}
	delete(answers, paper.FieldCategory)
	values := withSet(p.reading.Values, answers, p.From)
	delete(values, paper.FieldCategory)
	switch kind := paper.Kind(values[paper.FieldKind].Text); kind {
	case paper.Receipt:
		return p, nil, fmt.Errorf("%s: %w: it is a receipt; make it a cost with confirm %s --cost-of", p.Ref(), ErrReference, p.Ref())
	case paper.NotEvidence:
		return p, nil, fmt.Errorf("%s: %w: it is read as %s, which proves nothing; say what it is with --set kind=KIND", p.Ref(), ErrOpen, kind)
	}
	return p, values, j.askAttach(ctx, v, p, values)
}

// askAttach refuses while it is open what the paper is or whom it is about.
func (j *Journal) askAttach(ctx context.Context, v *catalog.View, p plan, values map[paper.Field]paper.Value) error {
	if p.State == catalog.Unread {
		return nil
	}
	names, err := holderNames(ctx, v)
	if err != nil {
		return err
	}
	q := questions{reading: p.reading.Reading, values: values}
	q.attendee(names)
	for _, f := range []paper.Field{paper.FieldKind, paper.FieldAttendee} {
		if open, ok := p.reading.Question(f); ok && values[f].By != paper.ByPerson {
			q.open(f, open.Text, nil)
		}
	}
	if len(q.list) == 0 {
		return nil
	}
	e := &OpenError{Paper: p.Ref()}
	for _, open := range q.list {
		e.Questions = append(e.Questions, open.Question)
	}
	return e
}

func (p *plan) attach(ctx context.Context, tx *catalog.Tx, a catalog.Activity, values map[paper.Field]paper.Value) ([]Warning, error) {
	var warnings []Warning
	taken, who := map[paper.Field]string{}, map[paper.Field]string{}
	var proofs []catalog.ProofLinked
	for _, f := range slices.Sorted(maps.Keys(texts(values))) {
		v, have := values[f], a.Fields[f]
		_, open := p.reading.Question(f)
		switch {
		case have == "" && (!open || v.By == paper.ByPerson):
			taken[f], who[f] = v.Text, by(v)
		case f == paper.FieldKind || agrees(f, v.Text, have):
		case have != "" && f != paper.FieldIssue:
			warnings = append(warnings, Warning{Paper: p.Ref(), Text: fmt.Sprintf("it says %s %s, and the claim %s, which stays; if the paper is right, use claim change", f, v.Text, have)})
			continue
		default:
			continue
		}
		proofs = append(proofs, p.proof(a.ID, f, v, 0))
	}
	if p.State == catalog.Unread {
		for _, f := range slices.Sorted(maps.Keys(a.Fields)) {
			if _, said := values[f]; !said && a.By[f] == paper.ByPerson {
				proofs = append(proofs, p.proof(a.ID, f, paper.Value{Text: a.Fields[f], By: paper.ByPerson}, 0))
			}
		}
	}
	if len(proofs) == 0 {
		return nil, fmt.Errorf("%s: %w: nothing in it agrees with %s; correct the claim first, or say what the paper shows with --set", p.Ref(), ErrNothing, a.Ref())
	}
	if err := record(ctx, tx, &catalog.PaperConfirmed{Paper: p.ID}); err != nil {
		return nil, err
	}
	if len(taken) > 0 {
		if err := record(ctx, tx, &catalog.ActivityChanged{ID: a.ID, Fields: taken, By: who}); err != nil {
			return nil, err
		}
	}
	for _, proof := range proofs {
		if err := record(ctx, tx, &proof); err != nil {
			return nil, err
		}
	}
	return warnings, nil
}

// agrees reports whether a paper's value is the activity's; words may differ in case
// and punctuation.
func agrees(f paper.Field, text, have string) bool {
	switch f {
	case paper.FieldTitle, paper.FieldProvider, paper.FieldAttendee:
		return sameText(text, have)
	}
	return text == have
}
