package journal

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// Habit is what earlier confirmations suggest for the next paper of the same provider.
// It is worked out from what stands in the vault, so it goes when its confirmation is
// taken back; it puts one candidate first, and never makes a value certain.
type Habit struct {
	Certification string      `json:"certification,omitempty"` // of a category; "" for the others
	Field         paper.Field `json:"field"`                   // category, or a field that was corrected
	Provider      string      `json:"provider"`                // whose papers it is about
	Kind          string      `json:"kind,omitempty"`          // of a category: the papers' kind
	Read          string      `json:"read,omitempty"`          // of a correction: what the program reads
	Label         string      `json:"label,omitempty"`         // of a corrected value: where it stood in the paper
	At            paper.Place `json:"at,omitzero"`             // of a corrected value without a label: its page, counted from the paper's first, and box
	Value         string      `json:"value,omitempty"`         // that the person chose; "" with a label or place, since the next value is another
	From          []string    `json:"from"`                    // the claims or activities that it comes from
	last          int64       // event or number of the newest of them, for their order
}

// Habits lists what earlier confirmations suggest, by provider.
func (j *Journal) Habits(ctx context.Context) ([]Habit, error) {
	list := []Habit{}
	err := j.cat.Read(ctx, func(v *catalog.View) (err error) {
		list, err = j.habits(ctx, v)
		return err
	})
	return list, err
}

// habits works them out: for each provider, kind and certification the category of the
// last claim for which there was a choice, each provider's name as it was corrected, and
// the labels or places at which corrected values stood.
func (j *Journal) habits(ctx context.Context, v *catalog.View) ([]Habit, error) {
	forgotten, err := forgottenHabits(ctx, v)
	if err != nil {
		return nil, err
	}
	activities, err := v.Activities(ctx)
	if err != nil {
		return nil, err
	}
	byID := make(map[string]catalog.Activity, len(activities))
	for _, a := range activities {
		byID[a.ID] = a
	}
	all, err := j.allCertified(ctx, v, credit.Date{})
	if err != nil {
		return nil, err
	}
	claims, err := v.Claims(ctx, catalog.ClaimFilter{})
	if err != nil {
		return nil, err
	}
	list := []Habit{}
	for _, c := range claims {
		a := byID[c.Activity]
		i := slices.IndexFunc(all, func(k Certified) bool { return k.ID == c.Certification })
		if i < 0 || a.Withdrawn || a.Paper == "" {
			continue
		}
		corrected, err := correctedProvider(ctx, v, c, a)
		if err != nil {
			return nil, err
		}
		labels, err := correctedLabels(ctx, v, c, a)
		if err != nil {
			return nil, err
		}
		for _, h := range append(labels, chosenCategory(all[i], c, a), corrected) {
			if (h.Value != "" || h.ofAPlace()) && h.last > forgotten.since(h) {
				list = learn(list, h)
			}
		}
	}
	slices.SortStableFunc(list, func(a, b Habit) int { return strings.Compare(plain(a.Provider), plain(b.Provider)) })
	return list, nil
}

// chosenCategory is the habit of a claim for whose paper more than one category, or
// none, was there to choose.
func chosenCategory(cert Certified, c catalog.Claim, a catalog.Activity) Habit {
	kind, provider := a.Fields[paper.FieldKind], a.Fields[paper.FieldProvider]
	if kind == "" || plain(provider) == "" {
		return Habit{}
	}
	if open := cert.Scheme.Accepting(kind, splitTags(a.Fields[FieldTags])...); len(open) == 1 && open[0].ID == c.Category {
		return Habit{} // it is what would be proposed anyway
	}
	return Habit{Certification: cert.Name, Field: paper.FieldCategory, Provider: provider, Kind: kind, Value: c.Category, From: []string{c.Ref()}, last: c.Event}
}

// correctedProvider is the habit of a provider's name that was read otherwise.
func correctedProvider(ctx context.Context, v *catalog.View, c catalog.Claim, a catalog.Activity) (Habit, error) {
	set := a.Fields[paper.FieldProvider]
	if a.By[paper.FieldProvider] != paper.ByPerson || plain(set) == "" {
		return Habit{}, nil
	}
	r, err := v.Reading(ctx, a.Paper)
	if errors.Is(err, catalog.ErrUnknown) {
		return Habit{}, nil // never read, or its words were blanked
	}
	if err != nil {
		return Habit{}, err
	}
	read := r.Values[paper.FieldProvider].Text
	if plain(read) == "" || read == set {
		return Habit{}, nil
	}
	return Habit{Field: paper.FieldProvider, Provider: set, Read: read, Value: set, From: []string{c.Ref()}, last: c.Event}, nil
}

// learn adds a habit to those that are there; the newer one of two that disagree stands.
func learn(list []Habit, h Habit) []Habit {
	i := slices.IndexFunc(list, func(o Habit) bool { return o.about() == h.about() })
	switch {
	case i < 0:
		return append(list, h)
	case list[i].Value == h.Value && list[i].Label == h.Label && list[i].At == h.At:
		if !slices.Contains(list[i].From, h.From[0]) {
			list[i].From = append(list[i].From, h.From...)
		}
		list[i].last = max(list[i].last, h.last)
	case h.last > list[i].last:
		list[i] = h
	}
	return list
}

// about is what a habit is about: two of the same cannot both stand.
func (h Habit) about() string {
	of := plain(h.Provider)
	if h.Field == paper.FieldProvider {
		of = plain(h.Read)
	}
	return strings.Join([]string{h.Certification, string(h.Field), of, h.Kind}, "\n")
}

// ofAPlace reports a habit of where on a provider's papers a value stands.
func (h Habit) ofAPlace() bool { return h.Label != "" || h.At.Page > 0 }

// forgetting is up to which event habits were forgotten, by provider; "" is all.
type forgetting map[string]int64

func (f forgetting) since(h Habit) int64 { return max(f[""], f[plain(h.Provider)]) }

func forgottenHabits(ctx context.Context, v *catalog.View) (forgetting, error) {
	events, err := v.History(ctx, catalog.AboutHabits)
	if err != nil {
		return nil, err
	}
	f := forgetting{}
	for _, e := range events {
		if e.Kind != kindHabitForgotten || e.Body == nil {
			continue
		}
		body, err := decode[catalog.HabitForgotten](e)
		if err != nil {
			return nil, err
		}
		f[plain(body.Provider)] = e.Number
	}
	return f, nil
}

// ForgetHabits lets what was learnt of a provider up to now suggest nothing any more; ""
// is every provider. It returns what was forgotten. The error wraps [ErrUnknown] when
// there is nothing of that provider.
func (j *Journal) ForgetHabits(ctx context.Context, provider string) ([]Habit, error) {
	gone := []Habit{}
	err := j.cat.Act(ctx, func(tx *catalog.Tx) error {
		gone = []Habit{}
		list, err := j.habits(ctx, &tx.View)
		if err != nil {
			return err
		}
		for _, h := range list {
			if provider == "" || sameText(h.Provider, provider) {
				gone = append(gone, h)
			}
		}
		if len(gone) == 0 {
			return fmt.Errorf("habits of %q: %w; see vaultctl habits", provider, ErrUnknown)
		}
		if provider != "" {
			provider = gone[0].Provider
		}
		return record(ctx, tx, &catalog.HabitForgotten{Provider: provider})
	})
	return gone, err
}

// suggest puts what the person chose before first among the candidates of the category.
func (k asker) suggest(kind paper.Kind, provider string, candidates []paper.Candidate) []paper.Candidate {
	for _, h := range k.habits {
		if h.Field != paper.FieldCategory || h.Kind != string(kind) || !sameText(h.Provider, k.corrected(provider)) {
			continue
		}
		i := slices.IndexFunc(candidates, func(c paper.Candidate) bool { return c.Text == h.Value })
		if i < 0 {
			continue
		}
		first := candidates[i]
		first.Why = strings.TrimPrefix(first.Why+"; you chose it for "+listOf(h.From)+" of this provider", "; ")
		return slices.Insert(slices.Delete(slices.Clone(candidates), i, i+1), 0, first)
	}
	return candidates
}

// listOf names a few, the newest ones.
func listOf(refs []string) string {
	if n := len(refs); n > 3 {
		return strings.Join(refs[n-3:], " ") + " and others"
	}
	return strings.Join(refs, " ")
}

// corrected is how the person writes a provider that is read so.
func (k asker) corrected(provider string) string {
	for _, h := range k.habits {
		if h.Field == paper.FieldProvider && sameText(h.Read, provider) {
			return h.Value
		}
	}
	return provider
}

// askProvider asks whether a provider that the person wrote otherwise before is meant
// again, unless it is asked already.
func (k asker) askProvider(q *questions) {
	v := q.values[paper.FieldProvider]
	fixed := k.corrected(v.Text)
	if v.Text == "" || v.By == paper.ByPerson || fixed == v.Text {
		return
	}
	candidate := paper.Candidate{Text: fixed, Why: "you corrected it so before", Place: v.Place}
	for i := range q.list {
		if q.list[i].Field == paper.FieldProvider {
			if !slices.ContainsFunc(q.list[i].Candidates, func(c paper.Candidate) bool { return c.Text == fixed }) {
				q.list[i].Candidates = append([]paper.Candidate{candidate}, q.list[i].Candidates...)
			}
			return
		}
	}
	q.open(paper.FieldProvider, fmt.Sprintf("Is the provider %s, as you wrote it before, or %s, as it stands in the paper?", fixed, v.Text),
		[]paper.Candidate{candidate, {Text: v.Text, Why: "it stands in the paper", Place: v.Place}})
}

// habitsFor are those that bear on papers of one certification.
func (j *Journal) habitsFor(ctx context.Context, v *catalog.View, certification string) ([]Habit, error) {
	list, err := j.habits(ctx, v)
	return slices.DeleteFunc(list, func(h Habit) bool { return h.Certification != "" && h.Certification != certification }), err
}
