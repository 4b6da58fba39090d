package scheme

import (
	"slices"
	"strings"

	"evidencevault/credit"
)

// maxPairs bounds how many pairs of a minimum and a cap are held against each other;
// no rule book comes near it.
const maxPairs = 100_000

// contradictions looks for figures that do not go together.
func (r *reader) contradictions() {
	few := len(r.scheme.Minimums)*len(r.scheme.Caps) <= maxPairs
	for i, m := range r.scheme.Minimums {
		if few {
			r.reachable(m, r.least[i])
		}
		if t := r.scheme.Target; t.Set && t.Formula == nil && m.Least.Cmp(t.Amount) > 0 {
			r.add(r.least[i], "one of the two figures is wrong", "minimum %s asks %s, more than the target, %s", m.ID, m.Least, t.Amount)
		}
	}
	r.versions()
	r.totalReachable()
	c := r.scheme.CarryOver
	if t := r.scheme.Target; c.HasMost && t.Set && t.Formula == nil && c.Most.Cmp(t.Amount) > 0 {
		r.add(r.places["carry_over"], "one of the two figures is wrong", "carry_over allows %s, more than the target of a whole cycle, %s", c.Most, t.Amount)
	}
	for _, c := range r.scheme.Categories {
		if most, ok := r.lowest()[c.ID]; ok && most.Sign() == 0 {
			r.add(r.places["category "+c.ID], "take the category out, or mend its cap", "category %s can never count anything", c.ID)
		}
	}
	r.unused()
}

// unused reports categories that no paper is proposed for, where others name kinds.
func (r *reader) unused() {
	accepts := func(c credit.Category) bool { return len(c.Accepts) > 0 }
	if !slices.ContainsFunc(r.scheme.Categories, accepts) {
		return // papers are left aside, as in a trial of figures alone
	}
	for _, c := range r.scheme.Categories {
		instead := slices.ContainsFunc(r.scheme.Categories, func(o credit.Category) bool { return slices.Contains(o.Or, c.ID) })
		if !accepts(c) && !c.Choose && !instead {
			r.add(r.places["category "+c.ID], `write accepts = ["attendance"], or choose = true if the person always picks it`, "category %s is never used: it accepts no kind of paper", c.ID)
		}
	}
}

// reachable reports a minimum above what the caps leave of all that may serve it.
func (r *reader) reachable(m credit.Minimum, at position) {
	if m.Distinct > len(r.scheme.Categories) {
		r.add(at, "ask for fewer, or write the categories", "minimum %s asks %d different categories, and the scheme has %d", m.ID, m.Distinct, len(r.scheme.Categories))
	}
	sel := m.Selection
	if len(sel.Categories) == 0 && !m.Carried {
		sel.Categories = r.categoryIDs() // credit carried in does not serve it
	}
	for i, c := range r.scheme.Caps {
		most, ok := r.allows(c)
		least := r.asked(m, c)
		if !ok || !within(sel, c.Selection) || least.AtMost(most) {
			continue
		}
		r.add(at, "one of the two figures is wrong", "minimum %s asks %s, but cap %s (line %d) allows only %s of the same credit", m.ID, least, c.ID, r.caps[i].line, most)
		return
	}
	if most, ok := r.sumOfCaps(sel.Categories); ok && r.asked(m, credit.Cap{}).Cmp(most) > 0 {
		r.add(at, "one of the figures is wrong", "minimum %s asks %s, but the caps of its categories allow only %s in all", m.ID, r.asked(m, credit.Cap{}), most)
	}
}

// asked is what m asks in one window of the cap c; 0 where the two cannot be compared.
func (r *reader) asked(m credit.Minimum, c credit.Cap) credit.Amount {
	per := m.Per
	if per == credit.PerCycle {
		per = ""
	}
	switch {
	case wholeCycle(c) && (per == "" || strings.Contains(per, ":")): // windows of several years overlap
		return m.Least
	case len(c.Per) == 1 && c.Per[0] == per:
		return m.Least
	case wholeCycle(c) && len(m.Windows) > 0:
		return m.Least.Mul(credit.Whole(int64(len(m.Windows))))
	case wholeCycle(c):
		return m.Least.Mul(credit.Whole(int64(max(r.scheme.Cycle.Months/12, 1))))
	}
	return credit.Amount{}
}

func wholeCycle(c credit.Cap) bool {
	return len(c.Per) == 0 || slices.Equal(c.Per, []string{credit.PerCycle})
}

// allows is the figure of a cap, and false if it hangs on facts or on what is counted.
func (r *reader) allows(c credit.Cap) (credit.Amount, bool) {
	t := r.scheme.Target
	switch {
	case c.Largest || c.MostClaims > 0 || c.If != "" || c.Begun != (credit.Begun{}) || c.Share == credit.ShareCounted:
		return credit.Amount{}, false
	case c.Share == credit.ShareTarget:
		return c.Most.Mul(t.Amount), t.Set && t.Formula == nil
	}
	return c.Most, true
}

// sumOfCaps adds up the caps over single categories, and tells whether each has one.
func (r *reader) sumOfCaps(ids []string) (credit.Amount, bool) {
	var sum credit.Amount
	lowest := r.lowest()
	for _, id := range ids {
		most, ok := lowest[id]
		if !ok {
			return sum, false
		}
		sum = sum.Add(most)
	}
	return sum, len(ids) > 0
}

// lowest is the lowest cap over each category alone and the whole cycle.
func (r *reader) lowest() map[string]credit.Amount {
	if r.lowestCaps != nil {
		return r.lowestCaps
	}
	r.lowestCaps = map[string]credit.Amount{}
	for _, c := range r.scheme.Caps {
		ids := c.Selection.Categories
		most, ok := r.allows(c)
		if !ok || len(ids) != 1 || !wholeCycle(c) || !within(credit.Selection{Categories: ids}, c.Selection) {
			continue
		}
		if before, ok := r.lowestCaps[ids[0]]; !ok || most.Cmp(before) < 0 {
			r.lowestCaps[ids[0]] = most
		}
	}
	return r.lowestCaps
}

// within reports whether every claim that a names is also named by b.
func within(a, b credit.Selection) bool {
	sub := func(part, whole []string) bool {
		if len(part) == 0 || len(whole) == 0 || !slices.Contains(whole, part[0]) {
			return len(part) == 0
		}
		in := make(map[string]bool, len(whole))
		for _, w := range whole {
			in[w] = true
		}
		return !slices.ContainsFunc(part, func(s string) bool { return !in[s] })
	}
	oneOf := func(part, whole []string) bool { return len(whole) == 0 || len(part) > 0 && sub(part, whole) }
	dates := (b.From.IsZero() || !a.From.Before(b.From)) && (b.Until.IsZero() || !a.Until.IsZero() && !a.Until.After(b.Until))
	return dates && oneOf(a.Categories, b.Categories) && oneOf(a.Providers, b.Providers) && sub(b.Tags, a.Tags) && sub(b.NotTags, a.NotTags)
}

// totalReachable reports a target that the caps do not allow.
func (r *reader) totalReachable() {
	s := r.scheme
	if !s.Target.Set || s.Target.Formula != nil || len(s.Categories) == 0 {
		return
	}
	every := credit.Selection{}
	if !s.CarryOver.Set {
		every.Categories = r.categoryIDs() // else carried credit may count beside them
	}
	for i, c := range s.Caps {
		if most, ok := r.allows(c); ok && wholeCycle(c) && within(every, c.Selection) && s.Target.Amount.Cmp(most) > 0 {
			r.add(r.places["target"], "one of the two figures is wrong", "the target is %s, but cap %s (line %d) allows only %s of all credit", s.Target.Amount, c.ID, r.caps[i].line, most)
			return
		}
	}
	if most, ok := r.sumOfCaps(r.categoryIDs()); ok && s.Target.Amount.Cmp(most) > 0 {
		r.add(r.places["target"], "one of the figures is wrong", "the target is %s, but the caps allow only %s in all", s.Target.Amount, most)
	}
}
