package audit

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"path"
	"slices"
	"strings"

	"evidencevault/catalog"
	"evidencevault/catalog/seal"
	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// Gather collects what the index of one certification says, with the figures of the
// day on; "" is the only certification that the vault has.
func Gather(ctx context.Context, j *journal.Journal, certification string, on credit.Date) (Dossier, error) {
	c, err := j.Certified(ctx, certification, on)
	if err != nil {
		return Dossier{}, err
	}
	holder, err := j.Catalog().Holder(ctx)
	if err != nil {
		return Dossier{}, err
	}
	standing, err := j.Standing(ctx, on, c.Name)
	if err != nil {
		return Dossier{}, err
	}
	if len(standing) != 1 {
		return Dossier{}, fmt.Errorf("certification %s: %d standings, want 1", c.Name, len(standing))
	}
	claims, err := j.Claims(ctx, journal.ClaimsFilter{Certification: c.Name, On: on})
	if err != nil {
		return Dossier{}, err
	}
	head, err := seal.ReadHead(j.Catalog().Dir())
	if err != nil {
		return Dossier{}, err
	}
	ref, err := schemeRef(ctx, j.Catalog(), c)
	if err != nil {
		return Dossier{}, err
	}
	d := Dossier{
		Holder: holder.Name, Certification: c.Name, Title: c.Title, Body: c.Scheme.Body, Number: c.Number, On: on,
		Scheme: ref, Statement: standing[0], Head: string(head), Claims: []Entry{}, Exceptions: []Exception{},
		Asked: Asked{All: true, Of: len(claims)}, titles: map[string]string{},
	}
	for _, k := range c.Scheme.Categories {
		d.titles[k.ID] = cmp.Or(k.Title, k.ID)
	}
	g := gatherer{cat: j.Catalog(), scheme: c.Scheme, statement: standing[0], copies: map[string]*Original{}}
	for _, claim := range claims {
		entry, err := g.entry(ctx, claim)
		if err != nil {
			return Dossier{}, err
		}
		d.Claims = append(d.Claims, entry)
		d.Exceptions = append(d.Exceptions, exceptions(claim, standing[0])...)
	}
	carried, err := g.carried(ctx, j, c.Name)
	if err != nil {
		return Dossier{}, err
	}
	d.Claims, d.Asked.Of = append(d.Claims, carried...), d.Asked.Of+len(carried)
	slices.SortStableFunc(d.Claims, func(x, y Entry) int { return x.End.Compare(y.End) })
	d.Originals = g.originals()
	return d, nil
}

func schemeRef(ctx context.Context, cat *catalog.Catalog, c journal.Certified) (SchemeRef, error) {
	ref := SchemeRef{ID: c.Scheme.ID, Version: c.Scheme.Version, File: rules, Copy: rules, SHA256: c.Cycle.Scheme, Source: c.Scheme.Source}
	kept, err := cat.Schemes(ctx)
	if err != nil {
		return ref, err
	}
	for _, k := range kept {
		if k.SHA256 == ref.SHA256 {
			ref.File = k.File
		}
	}
	ref.bytes, err = cat.SchemeBytes(ref.SHA256)
	return ref, err
}

// nameOf is the name under which an evidence came; of a part of another one, the
// whole's name and its own.
func nameOf(n catalog.Name) string {
	if n.Parent == "" || n.Part == "" {
		return n.Name.String()
	}
	return n.Name.String() + ": " + n.Part.String()
}

// gatherer turns claims into entries and collects the originals they need.
type gatherer struct {
	cat       *catalog.Catalog
	scheme    credit.Scheme
	statement credit.Statement
	copies    map[string]*Original // by SHA-256
}

func (g *gatherer) entry(ctx context.Context, c journal.Claim) (Entry, error) {
	e := Entry{
		ID: c.ID, Activity: c.Activity, Category: c.Category, CategoryTitle: c.Category, Title: c.Title, Provider: c.Provider,
		Start: c.Start, End: c.End, Minutes: c.Duration, Awarded: c.Awarded, Counted: c.Counted,
		Why: []string{}, Proofs: []Proof{}, Proven: c.Proven,
	}
	if cat, ok := g.scheme.Category(c.Category); ok {
		e.CategoryTitle = cmp.Or(cat.Title, cat.ID)
		e.Rule = Rule{File: cat.File, Line: cat.Line, Source: cat.Source}
	}
	for _, step := range g.statement.OfClaim(c.ID) {
		e.Why = append(e.Why, step.String())
	}
	for _, p := range c.Proofs {
		original, err := g.original(ctx, p.SHA256, c)
		if err != nil {
			return Entry{}, err
		}
		proof := Proof{Field: string(p.Field), Value: p.Value, File: original.Names[0], Copy: original.Copy, Link: original.Copy,
			SHA256: p.SHA256, Page: p.Page, Box: p.Box, Quote: p.Quote, By: p.By}
		if path.Ext(original.Copy) == ".pdf" {
			proof.Link = fmt.Sprintf("%s#page=%d", original.Copy, p.Page)
		}
		e.Proofs = append(e.Proofs, proof)
	}
	return e, nil
}

// original returns the copy of an evidence, named after the first claim that needs it.
func (g *gatherer) original(ctx context.Context, sha256 string, c journal.Claim) (*Original, error) {
	if o, ok := g.copies[sha256]; ok {
		return o, nil
	}
	e, err := g.cat.Evidence(ctx, sha256)
	if err != nil {
		return nil, err
	}
	o := &Original{SHA256: sha256, Size: e.Size, Copy: copyName(c.End.String(), c.Title, sha256, e.Ext)}
	for _, n := range e.Names {
		o.Names = append(o.Names, nameOf(n))
		o.Exact = append(o.Exact, n.Name.Exact())
	}
	g.copies[sha256] = o
	return o, nil
}

func (g *gatherer) originals() []Original {
	out := make([]Original, 0, len(g.copies))
	for _, sum := range slices.Sorted(maps.Keys(g.copies)) {
		out = append(out, *g.copies[sum])
	}
	slices.SortStableFunc(out, func(x, y Original) int { return strings.Compare(x.Copy, y.Copy) })
	return out
}

// exceptions says in plain words what an auditor would ask about a claim.
func exceptions(c journal.Claim, s credit.Statement) []Exception {
	var out []Exception
	say := func(key string, args []any, format string, shown ...any) {
		out = append(out, Exception{Claim: c.ID, Text: fmt.Sprintf(format, shown...), key: key, args: args})
	}
	if !c.Proven {
		say("x unproven", nil, "no document of a kind that the category accepts proves it.")
	}
	if c.Outside {
		say("x outside", nil, "its date lies outside the cycle, so it counts nothing.")
	}
	var set, fields []string
	for _, p := range c.Proofs {
		name := strings.ReplaceAll(string(p.Field), "_", " ")
		if p.By == paper.ByPerson && !slices.Contains(set, name) {
			set, fields = append(set, name), append(fields, string(p.Field))
		}
	}
	if len(set) > 0 {
		say("x set", []any{fields}, "set by the holder, not read in the document: %s.", strings.Join(set, ", "))
	}
	for _, cut := range s.Cuts {
		if cut.Claim == c.ID {
			say("x cut", []any{credit.Quantity(cut.Amount, s.Unit), cut.Rule}, "%s %s awarded and not counted: the rule %s allows no more.", cut.Amount, unitsWere(cut.Amount, s.Unit), cut.Rule)
		}
	}
	return out
}
