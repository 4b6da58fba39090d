package audit

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"maps"
	"path"
	"slices"
	"strconv"
	"strings"

	"evidencevault/catalog"
	"evidencevault/catalog/seal"
	"evidencevault/credit"
	"evidencevault/journal"
)

// Gather collects what the index of one certification says, with the figures of the
// day on; "" is the only certification that the vault has.
func Gather(ctx context.Context, j *journal.Journal, certification string, on credit.Date) (Dossier, error) {
	var kept []catalog.Evidence
	var keptErr error
	read := make(chan struct{})
	go func() { // takes a while where there is much, and needs nothing of the rest
		defer close(read)
		kept, keptErr = j.Catalog().AllEvidence(ctx)
	}()
	grounds, err := j.Grounds(ctx, on, certification)
	<-read
	if err := errors.Join(err, keptErr); err != nil {
		return Dossier{}, err
	}
	c := grounds.Certification
	holder, err := j.Catalog().Holder(ctx)
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
		Scheme: ref, Statement: grounds.Statement, Head: string(head), Claims: []Entry{}, Exceptions: []Exception{},
		Asked: Asked{All: true, Of: len(grounds.Claims)}, titles: map[string]string{},
	}
	for _, k := range c.Scheme.Categories {
		d.titles[k.ID] = cmp.Or(k.Title, k.ID)
	}
	g := newGatherer(kept, c.Scheme, d.Statement)
	if g.lacks(grounds.Claims) { // taken in and confirmed meanwhile
		if kept, err = j.Catalog().AllEvidence(ctx); err != nil {
			return Dossier{}, err
		}
		g = newGatherer(kept, c.Scheme, d.Statement)
	}
	x := excepting{holder: d.Holder, unit: d.Statement.Unit, titles: d.titles, cuts: map[string][]credit.Cut{}}
	for _, cut := range d.Statement.Cuts {
		x.cuts[cut.Claim] = append(x.cuts[cut.Claim], cut)
	}
	for _, claim := range grounds.Claims {
		entry, err := g.entry(claim.Claim, claim.Papers)
		if err != nil {
			return Dossier{}, err
		}
		d.Claims = append(d.Claims, entry)
		x.claim(claim)
	}
	d.Exceptions = append(d.Exceptions, x.list...)
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
	scheme    credit.Scheme
	statement credit.Statement
	why       map[string][]string         // by claim: how its figure came about
	evidence  map[string]catalog.Evidence // by SHA-256
	copies    map[string]*Original        // the same, of those that are needed
}

func newGatherer(kept []catalog.Evidence, scheme credit.Scheme, st credit.Statement) *gatherer {
	g := &gatherer{scheme: scheme, statement: st, why: map[string][]string{}, evidence: map[string]catalog.Evidence{}, copies: map[string]*Original{}}
	for _, step := range st.Derivations {
		if step.Claim != "" {
			g.why[step.Claim] = append(g.why[step.Claim], step.String())
		}
	}
	for _, e := range kept {
		g.evidence[e.SHA256] = e
	}
	return g
}

// lacks reports that a proof rests on evidence that is not known.
func (g *gatherer) lacks(claims []journal.Ground) bool {
	return slices.ContainsFunc(claims, func(c journal.Ground) bool {
		return slices.ContainsFunc(c.Proofs, func(p journal.Proof) bool { _, ok := g.evidence[p.SHA256]; return !ok })
	})
}

// entry makes the entry of a claim; papers are those that prove it.
func (g *gatherer) entry(c journal.Claim, papers []journal.GroundPaper) (Entry, error) {
	e := Entry{
		ID: c.ID, Activity: c.Activity, Category: c.Category, CategoryTitle: c.Category, Title: c.Title, Provider: c.Provider,
		Start: c.Start, End: c.End, Minutes: c.Duration, Awarded: c.Awarded, Counted: c.Counted,
		Why: append([]string{}, g.why[c.ID]...), Proofs: []Proof{}, Proven: c.Proven,
	}
	if cat, ok := g.scheme.Category(c.Category); ok {
		e.CategoryTitle = cmp.Or(cat.Title, cat.ID)
		e.Rule = Rule{File: cat.File, Line: cat.Line, Source: cat.Source}
	}
	for _, p := range c.Proofs {
		original, err := g.original(p.SHA256, c)
		if err != nil {
			return Entry{}, err
		}
		proof := Proof{Field: string(p.Field), Value: p.Value, File: original.Names[0], Copy: original.Copy, Link: original.Copy,
			SHA256: p.SHA256, Page: p.Page, Box: p.Box, Quote: p.Quote, By: p.By}
		if path.Ext(original.Copy) == ".pdf" {
			proof.Link = original.Copy + "#page=" + strconv.Itoa(p.Page)
		}
		e.Proofs = append(e.Proofs, proof)
	}
	for _, p := range papers {
		if o, ok := g.copies[p.SHA256]; ok {
			o.speaks(p.Language)
		}
	}
	return e, nil
}

// original returns the copy of an evidence, named after the first claim that needs it.
func (g *gatherer) original(sha256 string, c journal.Claim) (*Original, error) {
	if o, ok := g.copies[sha256]; ok {
		return o, nil
	}
	e, ok := g.evidence[sha256]
	if !ok || len(e.Names) == 0 {
		return nil, fmt.Errorf("claim %s: evidence %s: %w; see vaultctl verify", c.ID, sha256, catalog.ErrUnknown)
	}
	o := &Original{SHA256: sha256, Size: e.Size, Copy: copyName(c.End.String(), c.Title, sha256, e.Ext)}
	for _, n := range e.Names {
		o.Names = append(o.Names, nameOf(n))
		o.Exact = append(o.Exact, n.Name.Exact())
	}
	g.copies[sha256] = o
	return o, nil
}

// speaks notes a language in which the original is written; "" could not be told.
func (o *Original) speaks(tag string) {
	tag = cmp.Or(tag, undetermined)
	if !slices.Contains(o.Languages, tag) {
		o.Languages = append(o.Languages, tag)
	}
}

func (g *gatherer) originals() []Original {
	out := make([]Original, 0, len(g.copies))
	for _, sum := range slices.Sorted(maps.Keys(g.copies)) {
		out = append(out, *g.copies[sum])
	}
	slices.SortStableFunc(out, func(x, y Original) int { return strings.Compare(x.Copy, y.Copy) })
	return out
}
