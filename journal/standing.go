package journal

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"evidencevault/catalog"
	"evidencevault/credit"
)

// Standing returns the statement of each certification's present cycle on a day, in
// the order in which they were added; the zero Date is today. A name narrows it to one
// certification. It counts what is known now, dated up to that day.
func (j *Journal) Standing(ctx context.Context, on credit.Date, certification string) ([]credit.Statement, error) {
	list := []credit.Statement{}
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		if certification != "" {
			if _, err := j.certified(ctx, v, certification, on); err != nil {
				return err
			}
		}
		b, err := j.open(ctx, v, on)
		if err != nil {
			return err
		}
		for _, cert := range b.certs {
			if certification == "" || certification == cert.Name || certification == cert.ID {
				list = append(list, b.statements[cert.Cycle.ID])
			}
		}
		return nil
	})
	return list, err
}

// ExplainFilter says what is to be explained: claims, one category, or one minimum. The
// zero ExplainFilter is the whole standing of every certification.
type ExplainFilter struct {
	IDs           []string // claims (C9), activities (A7), and lists of them
	Category      string
	Minimum       string
	Certification string      // "" is every one
	On            credit.Date // zero: today
}

// ErrNotAsked says that a scheme has no category or minimum of that name.
var ErrNotAsked = errors.New("no scheme in force here has it")

// Explain returns the derivation of each claim that is named, of a category, of a
// minimum, or of everything. Each step names the rule's file and line. The error wraps
// [ErrUnknown], [ErrNotAsked], or says that a claim was withdrawn.
func (j *Journal) Explain(ctx context.Context, f ExplainFilter) ([]Explanation, error) {
	list := []Explanation{}
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		if f.Certification != "" {
			if _, err := j.certified(ctx, v, f.Certification, f.On); err != nil {
				return err
			}
		}
		b, err := j.open(ctx, v, f.On)
		if err != nil {
			return err
		}
		if len(f.IDs) == 0 {
			list, err = b.explainWhole(f)
			return err
		}
		claims, err := claimsOf(ctx, v, f.IDs, true)
		if err != nil {
			return err
		}
		for _, c := range claims {
			if c.Withdrawn {
				return &StateError{Paper: c.Ref(), State: "withdrawn, so it counts nothing", Want: "take that back first with undo " + c.Ref()}
			}
			e, err := b.explain(c)
			if err != nil {
				return err
			}
			if f.Certification == "" || f.Certification == e.Certification {
				list = append(list, e)
			}
		}
		return nil
	})
	return list, err
}

func (b *book) explain(c catalog.Claim) (Explanation, error) {
	shown, err := b.claim(c.ID)
	if err != nil {
		return Explanation{}, err
	}
	st := b.statements[c.Cycle]
	without, err := st.Without(shown.ID)
	if err != nil {
		return Explanation{}, err
	}
	return Explanation{
		ID: shown.ID, Certification: shown.Certification, Title: shown.Title, Category: c.Category, Awarded: shown.Awarded, Counted: shown.Counted,
		Unit: st.Unit, Proofs: shown.Proofs, Steps: listed(st.OfClaim(shown.ID)), Lines: slices.Concat(st.Explain(shown.ID), without.Lines()),
		Without: &without,
	}, nil
}

// explainWhole explains each certification as a whole, or its category or minimum.
func (b *book) explainWhole(f ExplainFilter) ([]Explanation, error) {
	list := []Explanation{}
	for _, cert := range b.certs {
		if f.Certification != "" && f.Certification != cert.Name && f.Certification != cert.ID {
			continue
		}
		st := b.statements[cert.Cycle.ID]
		e := Explanation{ID: cert.Name, Certification: cert.Name, Title: cert.Title, Counted: st.Counted, Unit: st.Unit, Proofs: []Proof{}}
		switch {
		case f.Category != "":
			e.ID, e.Category = f.Category, f.Category
			e.Steps, e.Lines = st.OfCategory(f.Category), st.ExplainCategory(f.Category)
			e.Counted = credit.Amount{}
		case f.Minimum != "":
			e.ID, e.Steps, e.Lines = f.Minimum, st.OfMinimum(f.Minimum), st.ExplainMinimum(f.Minimum)
		default:
			e.Steps, e.Lines = st.Derivations, st.ExplainAll()
		}
		for _, c := range st.Categories {
			if f.Category == "" || f.Category == c.ID {
				e.Awarded = e.Awarded.Add(c.Awarded)
			}
			if f.Category == c.ID {
				e.Counted = c.Counted
			}
		}
		if e.Steps = listed(e.Steps); len(e.Lines) > 0 {
			list = append(list, e)
		}
	}
	if len(list) == 0 && f.Category+f.Minimum != "" {
		return nil, fmt.Errorf("%q: %w: want %s", f.Category+f.Minimum, ErrNotAsked, b.askable(f))
	}
	return list, nil
}

// askable names the categories or minimums that can be explained.
func (b *book) askable(f ExplainFilter) string {
	var names []string
	for _, cert := range b.certs {
		st := b.statements[cert.Cycle.ID]
		for _, c := range st.Categories {
			if f.Category != "" && !slices.Contains(names, c.ID) {
				names = append(names, c.ID)
			}
		}
		for _, m := range st.Minimums {
			if f.Minimum != "" && !slices.Contains(names, m.ID) {
				names = append(names, m.ID)
			}
		}
	}
	if len(names) == 0 {
		return "none, since the scheme has no minimum"
	}
	return "one of " + strings.Join(names, ", ")
}

// Claims returns the claims that fit the filter, in the order of their numbers, with
// what each comes to.
func (j *Journal) Claims(ctx context.Context, f ClaimsFilter) ([]Claim, error) {
	list := []Claim{}
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		b, err := j.open(ctx, v, f.On)
		if err != nil {
			return err
		}
		keep, err := j.filter(ctx, v, f)
		if err != nil {
			return err
		}
		for _, c := range b.claims {
			if !keep(c) {
				continue
			}
			list = append(list, b.shown(c))
		}
		return nil
	})
	return list, err
}

func (j *Journal) filter(ctx context.Context, v *catalog.View, f ClaimsFilter) (func(catalog.Claim) bool, error) {
	var ids []string
	if len(f.IDs) > 0 {
		claims, err := claimsOf(ctx, v, f.IDs, f.Withdrawn)
		if err != nil {
			return nil, err
		}
		for _, c := range claims {
			ids = append(ids, c.ID)
		}
	}
	all, err := j.allCertified(ctx, v, f.On)
	if err != nil {
		return nil, err
	}
	if f.Certification != "" {
		one, err := j.certified(ctx, v, f.Certification, f.On)
		if err != nil {
			return nil, err
		}
		all = []Certified{one}
	}
	present := map[string]bool{}
	for _, c := range all {
		present[c.Cycle.ID] = true
	}
	return func(c catalog.Claim) bool {
		if c.Withdrawn && !f.Withdrawn || len(f.IDs) > 0 && !slices.Contains(ids, c.ID) {
			return false
		}
		return len(f.IDs) > 0 && f.Certification == "" || present[c.Cycle]
	}, nil
}

// claimsOf returns the claims that references name, those of an activity in order.
func claimsOf(ctx context.Context, v *catalog.View, refs []string, withdrawn bool) ([]catalog.Claim, error) {
	names, err := resolve(ctx, v, refs, catalog.LetterClaim, catalog.LetterActivity)
	if err != nil {
		return nil, err
	}
	var list []catalog.Claim
	for _, n := range names {
		if n.letter == catalog.LetterClaim {
			c, err := v.Claim(ctx, n.id)
			if err != nil {
				return nil, err
			}
			list = append(list, c)
			continue
		}
		claims, err := v.Claims(ctx, catalog.ClaimFilter{Activity: n.id, Withdrawn: withdrawn})
		if err != nil {
			return nil, err
		}
		list = append(list, claims...)
	}
	return list, nil
}
