package scheme

import (
	"fmt"
	"slices"

	"evidencevault/credit"
)

// version is one of several rules that differ only in their days and figures.
type version struct {
	what      string // the rule, in words
	selection credit.Selection
	begun     credit.Begun
	at        position
}

// versions reports caps, and minimums, that say the same of the same claims on the same
// days. A rule without any day of its own is no version: it holds beside the others.
func (r *reader) versions() {
	caps := map[string][]version{}
	for i, c := range r.scheme.Caps {
		rule := c
		rule.Origin, rule.ID, rule.Most, rule.MostClaims = credit.Origin{}, "", credit.Amount{}, min(c.MostClaims, 1)
		rule.Selection, rule.Begun = undated(c.Selection), credit.Begun{}
		addVersion(caps, fmt.Sprintf("%#v", rule), version{"cap " + c.ID, c.Selection, c.Begun, r.caps[i]})
	}
	least := map[string][]version{}
	for i, m := range r.scheme.Minimums {
		if m.Least.Sign() == 0 && m.Distinct == 0 {
			continue // it looks at no claims
		}
		rule := m
		rule.Origin, rule.ID, rule.Least, rule.Distinct = credit.Origin{}, "", credit.Amount{}, min(m.Distinct, 1)
		rule.PartMost = credit.Amount{}
		rule.Selection, rule.Begun = undated(m.Selection), credit.Begun{}
		addVersion(least, fmt.Sprintf("%#v", rule), version{"minimum " + m.ID, m.Selection, m.Begun, r.least[i]})
	}
	for _, group := range caps {
		r.apart(group)
	}
	for _, group := range least {
		r.apart(group)
	}
}

// undated is the selection without its days.
func undated(s credit.Selection) credit.Selection {
	s.From, s.Until = credit.Date{}, credit.Date{}
	for _, list := range []*[]string{&s.Categories, &s.Tags, &s.NotTags, &s.Providers} {
		*list = slices.Sorted(slices.Values(*list)) // the order of names says nothing
	}
	return s
}

func addVersion(to map[string][]version, rule string, v version) {
	if v.begun != (credit.Begun{}) || !v.selection.From.IsZero() || !v.selection.Until.IsZero() {
		to[rule] = append(to[rule], v)
	}
}

// apart reports each version that holds on days of one before it.
func (r *reader) apart(group []version) {
	for i, v := range group {
		for _, before := range group[:i] {
			if together(v.selection.From, v.selection.Until, before.selection.From, before.selection.Until) &&
				together(v.begun.From, v.begun.Until, before.begun.From, before.begun.Until) {
				r.add(v.at, "let one begin the day after the other ends", "%s and %s (line %d) are two versions of one rule and hold on the same days", v.what, before.what, before.at.line)
				break
			}
		}
	}
}

// together reports whether two spans of days have one in common; zero is no bound.
func together(from, until, otherFrom, otherUntil credit.Date) bool {
	return (until.IsZero() || !until.Before(otherFrom)) && (otherUntil.IsZero() || !otherUntil.Before(from))
}
