package scheme

import (
	"slices"
	"strings"

	"evidencevault/credit"
)

// check looks for rules that are each well written and do not go together.
func (r *reader) check() {
	s := r.scheme
	if len(s.Categories) == 0 && !s.Target.Set && s.Cycle.Anchor == "" && len(s.Deadlines) == 0 {
		r.add(position{1, 1}, "write at least one [category.NAME]", "the scheme has no category")
	}
	r.duplicates()
	for i, c := range s.Caps {
		r.names(c.Selection, r.caps[i], "cap "+c.ID)
	}
	for i, m := range s.Minimums {
		r.names(m.Selection, r.least[i], "minimum "+m.ID)
	}
	r.otherCategories()
	r.anyOf()
	r.exclusive()
	r.carryCheck()
}

func (r *reader) duplicates() {
	type named struct {
		id string
		at position
	}
	see := func(what string, list []named) {
		first := map[string]position{}
		for _, n := range list {
			if before, ok := first[n.id]; ok && n.id != "" {
				r.add(n.at, "give each a name of its own", "%s %s stands here a second time, first on line %d", what, n.id, before.line)
				continue
			}
			first[n.id] = n.at
		}
	}
	var caps, least []named
	for i, c := range r.scheme.Caps {
		caps = append(caps, named{c.ID, r.caps[i]})
	}
	for i, m := range r.scheme.Minimums {
		least = append(least, named{m.ID, r.least[i]})
	}
	see("cap", caps)
	see("minimum", least)
}

// names reports categories that the scheme does not have.
func (r *reader) names(s credit.Selection, at position, what string) {
	for _, id := range s.Categories {
		if _, ok := r.places["category "+id]; ok || id == credit.CategoryCarried {
			continue
		}
		hint := "write a [category." + shorten(id) + "], or take the name out"
		if near := nearest(id, r.categoryIDs()); near != "" {
			hint = "did you mean " + near + "?"
		}
		r.add(at, hint, "%s names the category %q, which is not there", what, shorten(id))
	}
	for _, t := range s.Tags {
		if slices.Contains(s.NotTags, t) {
			r.add(at, "take one of the two out", "%s asks for the tag %q and for its absence, so it names nothing", what, shorten(t))
		}
	}
}

func (r *reader) categoryIDs() []string {
	var ids []string
	for _, c := range r.scheme.Categories {
		ids = append(ids, c.ID)
	}
	return ids
}

// otherCategories reports categories in which no claim can count instead of another.
func (r *reader) otherCategories() {
	for _, c := range r.scheme.Categories {
		at := r.places["category "+c.ID]
		r.names(credit.Selection{Categories: c.Or}, at, "or of category "+c.ID)
		for _, id := range c.Or {
			if id == c.ID || id == credit.CategoryCarried {
				r.add(at, "name another category of the scheme", "or of category %s names %s", c.ID, id)
			}
		}
	}
}

// anyOf reports lists that name no minimum, and lists that lead back to themselves.
func (r *reader) anyOf() {
	lists := map[string][]string{}
	at := map[string]position{}
	for i, m := range r.scheme.Minimums {
		at[m.ID] = r.least[i]
		for _, ids := range m.AnyOf {
			lists[m.ID] = append(lists[m.ID], ids...)
		}
	}
	for _, m := range r.scheme.Minimums {
		for _, id := range lists[m.ID] {
			if _, ok := at[id]; !ok {
				r.add(at[m.ID], "name the id of a [[minimum]]", "minimum %s names %q, which is not there", m.ID, shorten(id))
			} else if len(lists[id]) > 0 {
				r.add(at[m.ID], "write its lists here instead", "minimum %s names %s, which is itself an any_of%s", m.ID, id, circle(lists, m.ID))
			}
		}
	}
}

// circle prints the way from id back to itself, or "".
func circle(lists map[string][]string, id string) string {
	way := []string{id}
	for at := id; len(way) <= len(lists); {
		i := slices.IndexFunc(lists[at], func(n string) bool { return n == id || len(lists[n]) > 0 })
		if i < 0 {
			return ""
		}
		at = lists[at][i]
		way = append(way, at)
		if at == id {
			return ": a circle, " + strings.Join(way, " → ")
		}
	}
	return ""
}

func (r *reader) exclusive() {
	for i, x := range r.scheme.Exclusive {
		if len(x.Minimums) < 2 {
			r.add(r.groups[i], `as in minimums = ["a", "b"]`, "exclusive names %d minimums where two or more are wanted", len(x.Minimums))
		}
		for _, id := range x.Minimums {
			n := slices.IndexFunc(r.scheme.Minimums, func(m credit.Minimum) bool { return m.ID == id })
			if n < 0 {
				r.add(r.groups[i], "name the id of a [[minimum]]", "exclusive names the minimum %q, which is not there", shorten(id))
				continue
			}
			if m := r.scheme.Minimums[n]; m.Least.Sign() <= 0 || m.Per != "" && m.Per != credit.PerCycle {
				r.add(r.groups[i], "only minimums with least over the whole cycle can be exclusive", "exclusive names the minimum %s, which asks for something else", id)
			}
		}
	}
}

func (r *reader) carryCheck() {
	c := r.scheme.CarryOver
	if !c.Set {
		return
	}
	at := r.places["carry_over"]
	r.names(c.Selection, at, "carry_over")
	r.names(c.Part, at, "part of carry_over")
	if _, ok := r.places["category "+c.Into]; c.Into != "" && !ok {
		r.add(at, "name one of "+strings.Join(r.categoryIDs(), ", "), "carry_over goes into %q, which is not there", shorten(c.Into))
	}
}
