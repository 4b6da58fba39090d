package scheme

import (
	"strings"

	"evidencevault/credit"
)

// selection reads the keys that name claims.
func (r *reader) selection(f *fields) credit.Selection {
	s := credit.Selection{Categories: f.texts("categories"), Tags: f.texts("tags"), NotTags: f.texts("not_tags"), Providers: f.texts("providers"),
		From: f.day("from"), Until: f.day("until")}
	if !s.Until.IsZero() && s.Until.Before(s.From) {
		r.add(f.place("until"), "exchange the two", "%s names the days from %v until %v, which are none", f.what, s.From, s.Until)
	}
	return s
}

// begun reads the days between which the cycles under a rule began.
func (r *reader) begun(f *fields) credit.Begun {
	b := credit.Begun{From: f.day("begun_from"), Until: f.day("begun_until")}
	if !b.Until.IsZero() && b.Until.Before(b.From) {
		r.add(f.place("begun_until"), "exchange the two", "%s is for cycles begun from %v until %v, which are none", f.what, b.From, b.Until)
	}
	return b
}

func (r *reader) cap(n *node) {
	f := r.fields(n, "a cap")
	defer f.done()
	id := f.id("id")
	if id != "" {
		f.what = "cap " + id
	}
	c := credit.Cap{ID: id, Origin: f.origin(), Selection: r.selection(f), Per: f.texts("per"), If: f.fact("if"), Begun: r.begun(f), Largest: f.flag("largest"),
		MostClaims: f.whole("most_claims", 1, maxCount), Whole: f.flag("whole")}
	for _, per := range c.Per {
		if hint := windowHint(per); hint != "" {
			r.add(f.place("per"), hint, "%s has no window %q", f.what, shorten(per))
		}
	}
	most, hasMost := f.amount("most")
	share, hasShare := f.amount("share")
	of := f.text("of")
	wants := 0
	for _, has := range []bool{f.values["most"] != nil, f.values["share"] != nil, c.Largest, f.values["most_claims"] != nil} {
		if has {
			wants++
		}
	}
	if wants != 1 {
		r.add(n.position, `write one of most = "10", share = "1/4", largest = true, most_claims = 1`, "%s says %d times how much it allows", f.what, wants)
	}
	switch {
	case hasShare:
		c.Most, c.Share = share, credit.ShareTarget
		if of == string(credit.ShareCounted) {
			c.Share = credit.ShareCounted
		} else if of != "" && of != string(credit.ShareTarget) {
			r.add(f.place("of"), "want target or counted", "%s is a share of %q", f.what, shorten(of))
		}
		if share.Cmp(credit.Whole(1)) > 0 {
			r.add(f.place("share"), "want a fraction such as \"1/4\"", "%s allows a share of %s, more than the whole", f.what, share)
		}
	case hasMost:
		c.Most = most
	}
	if c.Whole && (c.Largest || c.MostClaims > 0) {
		r.add(f.place("whole"), "whole belongs to most and share", "%s bounds how many claims count, which leaves each of them whole", f.what)
	}
	if of != "" && f.values["share"] == nil {
		r.add(f.place("of"), "of belongs to share", "%s has of without share", f.what)
	}
	r.scheme.Caps = append(r.scheme.Caps, c)
	r.caps = append(r.caps, n.position)
}

func (r *reader) minimum(n *node) {
	f := r.fields(n, "a minimum")
	defer f.done()
	id := f.id("id")
	if id != "" {
		f.what = "minimum " + id
	}
	m := credit.Minimum{ID: id, Origin: f.origin(), Selection: r.selection(f), Per: f.text("per"), If: f.fact("if"), Begun: r.begun(f), Carried: f.flag("carried"),
		Distinct: f.whole("distinct", 1, 1000), Fact: f.text("fact"), Windows: f.texts("windows")}
	m.Least, _ = f.amount("least")
	m.Part, m.PartMost, m.HasPart = r.part(f)
	r.windows(f, m)
	if v := f.value("any_of"); v != nil {
		m.AnyOf = r.lists(v, f.what)
	}
	wants := 0
	for _, has := range []bool{f.values["least"] != nil, m.Distinct > 0, m.Fact != "", f.values["any_of"] != nil} {
		if has {
			wants++
		}
	}
	if wants != 1 {
		r.add(n.position, `write one of least = "10", distinct = 3, fact = "…", any_of = [["a"], ["b", "c"]]`, "%s says %d times what it asks", f.what, wants)
	}
	r.scheme.Minimums = append(r.scheme.Minimums, m)
	r.least = append(r.least, n.position)
}

// windows looks at the windows in which a minimum is asked.
func (r *reader) windows(f *fields, m credit.Minimum) {
	switch {
	case !credit.ValidNeedWindow(m.Per):
		hint := spans[m.Per]
		if !strings.HasPrefix(hint, "per = \"year") && !strings.HasPrefix(hint, "per = \"cycle") {
			hint = "want cycle, year, cycle_year, rolling:N or cycle_rolling:N"
		}
		r.add(f.place("per"), hint, "%s has no window %q", f.what, shorten(m.Per))
	case len(m.Windows) > 0 && (m.Per == "" || m.Per == credit.PerCycle):
		r.add(f.place("windows"), "windows belong to per", "%s names windows without a per of year, cycle_year or rolling:N", f.what)
	}
	for _, label := range m.Windows {
		if m.Per != "" && m.Per != credit.PerCycle && credit.ValidNeedWindow(m.Per) && !credit.ValidWindowLabel(m.Per, label) {
			r.add(f.place("windows"), `as in "2025" for year, "year 1" for cycle_year, "2024 to 2026" for rolling:3, "year 1 to 3" for cycle_rolling:3`,
				"%s names the window %q, which per = %q does not have", f.what, shorten(label), m.Per)
		}
	}
}

// part reads a selection with a ceiling of its own within a rule.
func (r *reader) part(f *fields) (credit.Selection, credit.Amount, bool) {
	var s credit.Selection
	most, has := f.amount("part_most")
	if v := f.sub("part"); v != nil {
		k := r.fields(v, "part of "+f.what)
		s = r.selection(k)
		k.done()
	}
	if (f.values["part_most"] != nil) != (f.values["part"] != nil) {
		r.add(f.position, `as in part = { tags = ["self-study"] } and part_most = "5"`, "%s wants part and part_most together", f.what)
	}
	return s, most, has
}

// lists reads [["a"], ["b", "c"]].
func (r *reader) lists(n *node, what string) [][]string {
	const hint = `want lists of minimums such as [["a"], ["b", "c"]]`
	if n.kind != array || len(n.items) == 0 {
		r.add(n.position, hint, "any_of of %s is %s", what, n.describe())
		return nil
	}
	var out [][]string
	for _, list := range n.items {
		if list.kind != array || len(list.items) == 0 {
			r.add(list.position, hint, "a list of any_of of %s is %s", what, list.describe())
			continue
		}
		var ids []string
		for _, item := range list.items {
			if item.kind != text {
				r.add(item.position, hint, "any_of of %s holds %s", what, item.describe())
				continue
			}
			ids = append(ids, item.text)
		}
		out = append(out, ids)
	}
	return out
}

func (r *reader) carry(n *node) {
	f := r.fields(n, "carry_over")
	defer f.done()
	c := credit.CarryOver{Origin: f.origin(), Set: true, Selection: r.selection(f)}
	c.Most, c.HasMost = f.amount("most")
	c.Over, c.HasOver = f.amount("over")
	c.IfOver, c.HasIfOver = f.amount("if_over")
	c.Part, c.PartMost, c.HasPart = r.part(f)
	c.EarnedFrom, c.LastMonths = f.day("earned_from"), f.whole("earned_in_last_months", 1, 1200)
	c.FromAwarded, c.Whole, c.IfMet = f.flag("what_caps_cut_too"), f.flag("whole_activities"), f.flag("if_met")
	c.NoneIfUsed, c.NotFirst, c.Fill = f.flag("none_if_used"), f.flag("not_from_first_cycle"), f.flag("only_fills")
	c.Into = f.text("into")
	r.places["carry_over"] = n.position
	r.scheme.CarryOver = c
}
