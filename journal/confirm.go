package journal

import (
	"context"
	"fmt"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// Confirm confirms papers: each becomes a claim, a transcript one for each row, a
// receipt a cost. References are those of [ParseRefs]; a receipt (R3) that has no
// certificate yet is tied to the activity CostOf, as a proposal says.
//
// All papers are looked at first, and nothing is changed while a question that matters
// is open on one of them: the error is then an [*OpenError]. It is a [*StateError] when
// a paper is not waiting. Each paper is one act, so that each can be undone by itself;
// should another program decide one in between, the error names what was done before.
func (j *Journal) Confirm(ctx context.Context, ids []string, o ConfirmOptions) (ConfirmResult, error) {
	o = o.several()
	var papers []named
	err := j.cat.Read(ctx, func(v *catalog.View) (err error) {
		if papers, err = resolve(ctx, v, ids, catalog.LetterPaper, catalog.LetterReceipt); err != nil {
			return err
		}
		if o.Row > 0 && len(papers) > 1 {
			return fmt.Errorf("--row %d: %w: it takes one paper, not %d", o.Row, ErrReference, len(papers))
		}
		for _, p := range papers {
			if err := j.look(ctx, v, p, o); err != nil {
				return err
			}
		}
		return nil
	})
	if err == nil && len(o.Also) > 0 {
		err = j.tryAlso(ctx, papers, o)
	}
	if err != nil {
		return ConfirmResult{}, err
	}
	var done made
	for i, p := range papers {
		if err := j.confirmOne(ctx, p, o, &done); err != nil {
			if i > 0 {
				err = fmt.Errorf("%w; confirmed before that: %v", err, papers[:i])
			}
			return ConfirmResult{}, err
		}
	}
	return j.confirmed(ctx, done)
}

// look finds what keeps a paper from being confirmed, or a receipt from being tied.
func (j *Journal) look(ctx context.Context, v *catalog.View, n named, o ConfirmOptions) error {
	if n.letter == catalog.LetterPaper {
		_, err := j.plan(ctx, v, n.id, o)
		return err
	}
	if o.CostOf == "" {
		return fmt.Errorf("%s: %w: it was confirmed from its paper already; say of which activity it is a cost with --cost-of A7", n, ErrReference)
	}
	if _, err := receiptOf(ctx, v, n.text); err != nil {
		return err
	}
	_, err := activityOf(ctx, v, o.CostOf)
	return err
}

// String prints the reference as it was given.
func (n named) String() string { return n.text }

// made gathers what an act made.
type made struct {
	claims, receipts  []string // UUIDs
	waiting, setAside []string // short numbers of papers
	warnings          []Warning
}

func (j *Journal) confirmOne(ctx context.Context, n named, o ConfirmOptions, done *made) error {
	if n.letter == catalog.LetterReceipt {
		done.receipts = append(done.receipts, n.id)
		_, err := j.Tie(ctx, n.text, o.CostOf)
		return err
	}
	var got made
	err := j.cat.Act(ctx, func(tx *catalog.Tx) error {
		got = made{}
		p, err := j.plan(ctx, &tx.View, n.id, o)
		if err != nil {
			return err
		}
		return j.recordAll(ctx, tx, &p, o, &got)
	})
	if err != nil {
		return err
	}
	done.claims = append(done.claims, got.claims...)
	done.receipts = append(done.receipts, got.receipts...)
	done.waiting = append(done.waiting, got.waiting...)
	done.warnings = append(done.warnings, got.warnings...)
	return nil
}

// confirmed turns what was made into the result that is shown.
func (j *Journal) confirmed(ctx context.Context, done made) (ConfirmResult, error) {
	result := ConfirmResult{Claims: []Claim{}, Receipts: []Receipt{}, SetAside: listed(done.setAside), Waiting: listed(done.waiting), Warnings: listed(done.warnings)}
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		b, err := j.open(ctx, v, credit.Date{})
		if err != nil {
			return err
		}
		for _, id := range done.claims {
			c, err := b.claim(id)
			if err != nil {
				return err
			}
			result.Claims = append(result.Claims, c)
		}
		for _, id := range done.receipts {
			result.Receipts = append(result.Receipts, b.receipt(id))
		}
		result.Warnings = append(result.Warnings, b.doubles(done.claims...)...)
		return nil
	})
	return result, err
}

// ConfirmClear says what confirming every paper without a question would do. Papers
// that certainly prove nothing would be set aside.
func (j *Journal) ConfirmClear(ctx context.Context, certification string) (ClearPlan, error) {
	plan := ClearPlan{Confirm: []WaitingPaper{}, Receipts: []WaitingPaper{}, SetAside: []WaitingPaper{}, Left: []WaitingPaper{}}
	if names := splitCertification(certification); len(names) > 0 {
		certification = names[0] // the categories of the others are seen when they are claimed
	}
	list, err := j.WaitingFor(ctx, certification)
	for _, p := range list {
		switch {
		case !p.Clear():
			plan.Left = append(plan.Left, p)
		case p.Kind == string(paper.NotEvidence):
			if p.Values[paper.FieldKind].Certain {
				plan.SetAside = append(plan.SetAside, p)
			} else {
				plan.Left = append(plan.Left, p)
			}
		case p.Kind == string(paper.Receipt):
			plan.Receipts = append(plan.Receipts, p)
		default:
			plan.Confirm = append(plan.Confirm, p)
		}
	}
	return plan, err
}

// whyClear is why a paper is set aside with the clear ones.
const whyClear = "proves nothing about what the holder did"

// DoClear does what a plan of [Journal.ConfirmClear] lists, and nothing else. A paper
// that was decided in the meantime, or has a question now, or seems to be of an
// activity that is claimed already, is passed over with a warning.
func (j *Journal) DoClear(ctx context.Context, plan ClearPlan, certification string) (ConfirmResult, error) {
	var done made
	o := ConfirmOptions{Certification: certification, clear: true}.several()
	for _, list := range [][]WaitingPaper{plan.Confirm, plan.Receipts, plan.SetAside} {
		for _, p := range list {
			if err := j.clearOne(ctx, p, o, &done); err != nil {
				return ConfirmResult{}, err
			}
		}
	}
	return j.confirmed(ctx, done)
}

func (j *Journal) clearOne(ctx context.Context, p WaitingPaper, o ConfirmOptions, done *made) error {
	n, err := resolveOne(ctx, &j.cat.View, p.ID, catalog.LetterPaper)
	if err != nil {
		return err
	}
	if p.Kind != string(paper.NotEvidence) {
		err = j.confirmOne(ctx, n, o, done)
	} else if err = j.setAside(ctx, n, whyClear); err == nil {
		done.setAside = append(done.setAside, p.ID)
	}
	if passedOver(err) {
		done.warnings = append(done.warnings, Warning{Paper: p.ID, Text: err.Error()})
		return nil
	}
	return err
}
