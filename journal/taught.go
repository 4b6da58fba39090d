package journal

import (
	"context"
	"errors"
	"slices"

	"evidencevault/catalog"
	"evidencevault/extract/paper"
)

// learnable are the fields of which a correction teaches the label. A provider's name is
// a habit of its own, and whom a paper is about no paper teaches the next one.
var learnable = []paper.Field{paper.FieldTitle, paper.FieldStart, paper.FieldEnd, paper.FieldIssue, paper.FieldDuration, paper.FieldCredits, paper.FieldTotal}

// correctedLabels are the habits of a claim's corrections: for each value that the person
// set, the label at which just that stood in the paper, if there was one such label.
func correctedLabels(ctx context.Context, v *catalog.View, c catalog.Claim, a catalog.Activity) ([]Habit, error) {
	provider := a.Fields[paper.FieldProvider]
	set := slices.DeleteFunc(slices.Clone(learnable), func(f paper.Field) bool { return a.By[f] != paper.ByPerson || a.Fields[f] == "" })
	if plain(provider) == "" || len(set) == 0 || a.Row > 0 {
		return nil, nil
	}
	r, err := v.Reading(ctx, a.Paper)
	if errors.Is(err, catalog.ErrUnknown) {
		return nil, nil // never read, or its words were blanked
	}
	if err != nil {
		return nil, err
	}
	var list []Habit
	for _, f := range set {
		if label, at := taughtAt(r.Reading, f, a.Fields[f]); label != "" || at.Page > 0 {
			list = append(list, Habit{Field: f, Provider: provider, Label: label, At: at, From: []string{c.Ref()}, last: c.Event})
		}
	}
	return list, nil
}

// taughtAt returns the one label at which a value that the person set stood, or, where it
// stood at none, its one place on the page. Both are empty where several or none show it,
// or where the program took the field from there too and only what it means was open.
func taughtAt(r paper.Reading, f paper.Field, set string) (label string, at paper.Place) {
	read := r.Values[f]
	taken := func(p paper.Place) bool {
		return read.Text != "" && read.Place == p && !slices.ContainsFunc(read.Candidates, func(k paper.Candidate) bool { return k.Place != p })
	}
	places := 0
	for _, l := range r.Labelled {
		switch {
		case !l.Sort.Fits(f) || l.Text != set:
		case taken(l.Place):
			return "", paper.Place{}
		case l.Label == "":
			places++
			at = paper.Place{Page: l.Place.Page - max(r.From, 1) + 1, Box: l.Place.Box}
		case label != "" && label != l.Label:
			return "", paper.Place{}
		default:
			label = l.Label
		}
	}
	if label != "" || places != 1 {
		at = paper.Place{}
	}
	return label, at
}

// Taught returns what the corrections that stand taught of the labels of each provider's
// papers, or of the places on their pages, for those who have papers read. Of two for one field the newer comes later, and
// so to stand first.
func (j *Journal) Taught(ctx context.Context) ([]paper.Habit, error) {
	list, err := j.Habits(ctx)
	if err != nil {
		return nil, err
	}
	slices.SortStableFunc(list, func(a, b Habit) int { return int(a.last - b.last) })
	var out []paper.Habit
	for _, h := range list {
		if !h.ofAPlace() {
			continue
		}
		names := []string{h.Provider}
		for _, o := range list {
			if o.Field == paper.FieldProvider && sameText(o.Value, h.Provider) {
				names = append(names, o.Read)
			}
		}
		out = append(out, paper.Habit{Providers: names, Field: h.Field, Label: h.Label, At: h.At, From: h.From})
	}
	return out, nil
}
