package journal

import (
	"context"
	"slices"

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

// Explain returns the derivation of a claim (C9), of each claim of an activity (A7), or
// of everything when ref is "all", on a day; the zero Date is today. Each step names
// the rule's file and line.
func (j *Journal) Explain(ctx context.Context, ref string, on credit.Date) ([]Explanation, error) {
	list := []Explanation{}
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		b, err := j.open(ctx, v, on)
		if err != nil {
			return err
		}
		if ref == "all" {
			list = b.explainAll()
			return nil
		}
		claims, err := claimsOf(ctx, v, []string{ref}, true)
		if err != nil {
			return err
		}
		for _, c := range claims {
			if c.Withdrawn {
				return &StateError{Paper: c.Ref(), State: "withdrawn, so it counts nothing", Want: "take that back first with undo " + c.Ref()}
			}
			shown, err := b.claim(c.ID)
			if err != nil {
				return err
			}
			list = append(list, b.explain(c, shown))
		}
		return nil
	})
	return list, err
}

func (b *book) explain(c catalog.Claim, shown Claim) Explanation {
	st := b.statements[c.Cycle]
	return Explanation{
		ID: shown.ID, Certification: shown.Certification, Title: shown.Title, Category: c.Category, Awarded: shown.Awarded, Counted: shown.Counted,
		Unit: st.Unit, Proofs: shown.Proofs, Steps: listed(st.OfClaim(shown.ID)), Lines: listed(st.Explain(shown.ID)),
	}
}

func (b *book) explainAll() []Explanation {
	list := []Explanation{}
	for _, cert := range b.certs {
		st := b.statements[cert.Cycle.ID]
		e := Explanation{ID: cert.Name, Certification: cert.Name, Title: cert.Title, Counted: st.Counted, Unit: st.Unit,
			Proofs: []Proof{}, Steps: listed(st.Derivations), Lines: listed(st.ExplainAll())}
		for _, c := range st.Categories {
			e.Awarded = e.Awarded.Add(c.Awarded)
		}
		list = append(list, e)
	}
	return list
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
			shown, err := b.claim(c.ID)
			if err != nil {
				return err
			}
			list = append(list, shown)
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
