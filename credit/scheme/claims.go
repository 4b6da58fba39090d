package scheme

import (
	"slices"
	"strconv"
	"strings"

	"evidencevault/credit"
)

// Bounds of what one claim can be.
const (
	maxMinutes = 10_000_000 // some 19 years without a break
	maxCount   = 1_000_000
	dayMinutes = 24 * 60
	maxYears   = 100 // of a cycle
)

// ParseClaims reads the claims file of a calculation without a vault. The name is used
// in problems. If there is any problem the input is not to be used.
//
// The file is a JSON object {cycle, on, facts, carried, earlier, claims}; docs/scheme.md gives
// its keys. A key of a claim that is not known is a log field.
func ParseClaims(name string, data []byte) (credit.Input, []Problem) {
	p := &problems{file: name}
	var in credit.Input
	root := readJSON(p, data)
	if root == nil {
		return in, p.sorted()
	}
	f := p.fields(root, "the claims file")
	if n := f.sub("cycle"); n != nil {
		k := p.fields(n, "cycle")
		in.Cycle = credit.Period{Start: k.day("start"), End: k.day("end")}
		if !in.Cycle.End.IsZero() && in.Cycle.End.Before(in.Cycle.Start) {
			p.add(k.place("end"), "exchange the two", "the cycle ends on %v, before it begins on %v", in.Cycle.End, in.Cycle.Start)
		}
		if y := in.Cycle.Start.AddYears(maxYears); !in.Cycle.Start.IsZero() && (y.IsZero() || in.Cycle.End.After(y)) {
			p.add(k.place("end"), "mend the year", "the cycle from %v to %v is longer than %d years", in.Cycle.Start, in.Cycle.End, maxYears)
		}
		k.done()
	}
	in.On = f.day("on")
	if n := f.sub("facts"); n != nil {
		in.Facts = p.facts(n)
	}
	for _, n := range f.objects("carried") {
		in.Carried = append(in.Carried, p.carried(n))
	}
	for _, n := range f.objects("earlier") {
		in.Earlier = append(in.Earlier, p.claim(n))
	}
	seen := map[string]position{}
	if f.values["claims"] == nil {
		p.add(root.position, `as in {"claims": []}`, "the file has no claims")
	}
	for _, n := range f.objects("claims") {
		c := p.claim(n)
		if before, ok := seen[c.ID]; ok && c.ID != "" {
			p.add(n.places["id"], "give each claim an id of its own", "claim %s stands here a second time, first on line %d", shorten(c.ID), before.line)
		}
		seen[c.ID] = n.position
		in.Claims = append(in.Claims, c)
	}
	f.done()
	return in, p.sorted()
}

// UnknownCategories returns a problem for each claim of a claims file that [ParseClaims]
// takes whose category the scheme s does not have.
func UnknownCategories(name string, data []byte, s credit.Scheme) []Problem {
	p := &problems{file: name}
	root := readJSON(p, data)
	if root == nil {
		return p.sorted()
	}
	var known []string
	for _, c := range s.Categories {
		known = append(known, c.ID)
	}
	claims := (&fields{problems: p, node: root, what: "the claims file"}).objects("claims")
	for _, n := range claims {
		v := n.values["category"]
		if v == nil || v.kind != text || slices.Contains(known, v.text) {
			continue
		}
		hint := "want one of " + strings.Join(known, ", ")
		if near := nearest(v.text, known); near != "" {
			hint = "did you mean " + near + "?"
		} else if len(known) == 0 {
			hint = "write a [category.NAME] into the scheme"
		} else if len(known) > maxNamed {
			hint = "want one of " + strings.Join(known[:maxNamed], ", ") + " and " + strconv.Itoa(len(known)-maxNamed) + " more"
		}
		what := "a claim"
		if id := n.values["id"]; id != nil {
			what = "claim " + shorten(id.text)
		}
		p.add(v.position, hint, "%s stands in category %q, which scheme %s does not have", what, shorten(v.text), s.ID)
	}
	return p.sorted()
}

// maxNamed is how many names a hint lists.
const maxNamed = 20

// objects returns the objects of the list key.
func (f *fields) objects(key string) []*node {
	n := f.value(key)
	if n == nil {
		return nil
	}
	if n.kind != array {
		f.wrong(n, key, "a list of objects")
		return nil
	}
	return slices.DeleteFunc(slices.Clone(n.items), func(item *node) bool {
		if item.kind != table {
			f.wrong(item, key, "an object")
		}
		return item.kind != table
	})
}

func (p *problems) facts(n *node) credit.Facts {
	facts := credit.Facts{}
	for _, name := range n.keys {
		v := n.values[name]
		switch v.kind {
		case boolean, text, integer:
			facts[name] = v.text
		default:
			p.add(v.position, "want true or a text", "fact %s is %s", shorten(name), v.describe())
		}
	}
	return facts
}

func (p *problems) carried(n *node) credit.Carried {
	f := p.fields(n, "carried credit")
	defer f.done()
	c := credit.Carried{ID: f.text("id"), Category: f.text("category"), Tags: f.texts("tags"), Earned: f.day("earned")}
	if f.value("amount") == nil {
		p.add(n.position, `as in "amount": "4"`, "carried credit has no amount")
	}
	c.Amount, _ = f.amount("amount")
	return c
}

var claimKeys = []string{"id", "category", "start_date", "end_date", "duration_minutes", "credits", "count", "tags", "provider"}

func (p *problems) claim(n *node) credit.Claim {
	f := p.fields(n, "a claim")
	c := credit.Claim{ID: f.must("id", "give it a short name")}
	if c.ID != "" {
		f.what = "claim " + shorten(c.ID)
	}
	if strings.ContainsAny(c.ID, "\n\t") {
		p.add(f.place("id"), "keep it on one line", "the id %q breaks the line", shorten(c.ID))
	}
	c.Category = f.must("category", "name a category of the scheme")
	c.Start, c.End = f.day("start_date"), f.day("end_date")
	c.Tags, c.Provider = f.texts("tags"), f.text("provider")
	if !c.Start.IsZero() && !c.End.IsZero() && c.End.Before(c.Start) {
		p.add(f.place("end_date"), "exchange the two", "%s ends on %v, before it begins on %v", f.what, c.End, c.Start)
	}
	if f.value("duration_minutes") != nil {
		c.Minutes = f.minutes(c)
	}
	if f.value("count") != nil {
		count := int64(f.whole("count", 0, maxCount))
		c.Count = &count
	}
	for _, item := range f.objects("credits") {
		k := p.fields(item, "credits of "+f.what)
		unit := k.must("unit", `as in {"unit": "CEU", "value": "1.5"}`)
		value, ok := k.amount("value")
		if !ok && item.values["value"] == nil {
			p.add(item.position, `as in {"unit": "CEU", "value": "1.5"}`, "%s has no value", k.what)
		}
		k.done()
		c.Credits = append(c.Credits, credit.Credit{Unit: unit, Value: value})
	}
	c.Fields = f.logFields()
	return c
}

// minutes reads the contact time, and holds it against the days of the claim.
func (f *fields) minutes(c credit.Claim) *credit.Minutes {
	n := f.values["duration_minutes"]
	v, err := strconv.ParseInt(n.text, 10, 64)
	switch {
	case n.kind != integer || err != nil:
		f.wrong(n, "duration_minutes", "whole minutes as a number, such as 90")
		return nil
	case v < 0:
		f.add(n.position, "want 0 or more", "%s lasts %d minutes, below 0", f.what, v)
		return nil
	case v > maxMinutes:
		f.add(n.position, "want minutes, not seconds", "%s lasts %d minutes, more than %d", f.what, v, maxMinutes)
		return nil
	}
	if !c.Start.IsZero() && !c.End.IsZero() && !c.End.Before(c.Start) {
		if days := int64(c.End.Sub(c.Start) + 1); v > days*dayMinutes {
			f.add(n.position, "mend the time or the days", "%s lasts %d minutes, more than its %d day(s) have", f.what, v, days)
		}
	}
	m := credit.Minutes(v)
	return &m
}

// logFields are the keys of a claim that have no meaning of their own.
func (f *fields) logFields() map[string]string {
	var list map[string]string
	for _, key := range f.keys {
		if slices.Contains(claimKeys, key) {
			continue
		}
		v := f.values[key]
		if near := nearest(key, claimKeys); near != "" && len(key) > 5 && distance(key, near) <= 2 {
			f.add(f.places[key], "did you mean "+near+"?", "%s has the log field %q", f.what, shorten(key))
			continue
		}
		if v.kind != text && v.kind != integer {
			f.add(v.position, "want a text or a whole number; other numbers as a text", "%s of %s is %s", shorten(key), f.what, v.describe())
			continue
		}
		if a, err := credit.ParseAmount(v.text); err == nil && a.Sign() < 0 {
			f.add(v.position, "want 0 or more", "%s of %s is %s, below 0", shorten(key), f.what, a)
			continue
		}
		if list == nil {
			list = map[string]string{}
		}
		list[key] = v.text
	}
	return list
}
