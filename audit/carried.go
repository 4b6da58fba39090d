package audit

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"

	"evidencevault/catalog"
	"evidencevault/journal"
)

// carried adds the credit that came from the cycle before, with its old proofs.
func (g *gatherer) carried(ctx context.Context, j *journal.Journal, certification string) ([]Entry, error) {
	if len(g.statement.CarriedIn) == 0 {
		return nil, nil
	}
	claims, err := j.CarriedClaims(ctx, certification)
	if err != nil {
		return nil, err
	}
	var list []Entry
	results := g.statement.Results()
	for _, c := range claims {
		r, ok := results[c.ID]
		if !ok {
			continue
		}
		e, err := g.entry(c.Claim, nil)
		if err != nil {
			return nil, err
		}
		e.Category, e.CarriedFrom, e.Why = r.Category, c.From.End, append([]string{}, g.why[c.ID]...)
		if into, ok := g.scheme.Category(r.Category); ok {
			e.CategoryTitle = cmp.Or(into.Title, into.ID)
		}
		e.Awarded, e.Counted = r.Awarded, r.Counted
		if err := g.tongues(ctx, j, e); err != nil {
			return nil, err
		}
		list = append(list, e)
	}
	return list, nil
}

// tongues notes in which languages the papers of an entry's proofs are written.
func (g *gatherer) tongues(ctx context.Context, j *journal.Journal, e Entry) error {
	for _, p := range firsts(e.Proofs) {
		papers, err := j.Catalog().PapersOf(ctx, p.SHA256)
		if err != nil {
			return err
		}
		for _, row := range papers {
			r, err := j.Catalog().Reading(ctx, row.ID)
			if errors.Is(err, catalog.ErrUnknown) {
				continue
			}
			if err != nil {
				return err
			}
			g.copies[p.SHA256].speaks(r.Language)
		}
	}
	return nil
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
	for i, o := range d.Originals {
		d.Originals[i].archived = filepath.Join(a.dir, filepath.FromSlash(payload+o.Copy))
	}
	d.Scheme.bytes, err = a.read(rules)
	return d, err
}
