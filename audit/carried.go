package audit

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"fmt"

	"evidencevault/journal"
)

// carried adds the credit that came from the cycle before, with its old proofs.
func (g *gatherer) carried(ctx context.Context, j *journal.Journal, certification string) ([]Entry, error) {
	claims, err := j.CarriedClaims(ctx, certification)
	if err != nil {
		return nil, err
	}
	var list []Entry
	for _, c := range claims {
		r, ok := g.statement.Result(c.ID)
		if !ok {
			continue
		}
		e, err := g.entry(ctx, c.Claim)
		if err != nil {
			return nil, err
		}
		e.Category, e.CategoryTitle = r.Category, fmt.Sprintf("Carried in from the cycle to %v (%s)", c.From.End, e.CategoryTitle)
		if into, ok := g.scheme.Category(r.Category); ok {
			e.CategoryTitle = fmt.Sprintf("%s, carried in from the cycle to %v", cmp.Or(into.Title, into.ID), c.From.End)
		}
		e.Awarded, e.Counted = r.Awarded, r.Counted
		list = append(list, e)
	}
	return list, nil
}

// Dossier returns what the index of the closing said, so that single claims of it can be
// packed. Nothing is worked out anew.
func (a *Archive) Dossier() (Dossier, error) {
	data, err := a.read("index.json")
	if err != nil {
		return Dossier{}, err
	}
	var parts map[string]json.RawMessage
	if err := json.NewDecoder(bytes.NewReader(data)).Decode(&parts); err != nil {
		return Dossier{}, fmt.Errorf("%s/%sindex.json: %w", a.where, payload, err)
	}
	delete(parts, "standing")
	rest, err := json.Marshal(parts)
	if err != nil {
		return Dossier{}, err
	}
	d := Dossier{titles: map[string]string{}, made: a.Cycle.On}
	if err := json.Unmarshal(rest, &d); err != nil {
		return Dossier{}, fmt.Errorf("%s/%sindex.json: %w", a.where, payload, err)
	}
	st, _, err := a.Standing()
	if err != nil {
		return Dossier{}, err
	}
	d.Statement = st.Statement
	for _, e := range d.Claims {
		d.titles[e.Category] = e.CategoryTitle
	}
	d.Scheme.bytes, err = a.read(rules)
	return d, err
}
