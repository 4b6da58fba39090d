package credit

import (
	"fmt"
	"slices"
	"strings"
)

// where prints the place of a rule: "demo.toml:14, rule book, section 3".
func (o Origin) where() string {
	if o.File == "" && o.Line == 0 {
		return o.Source
	}
	text := o.File
	if o.Line > 0 {
		text += fmt.Sprintf(":%d", o.Line)
	}
	if o.Source != "" {
		text += ", " + o.Source
	}
	return text
}

// String prints one derivation for people: the rule, the arithmetic, the amount before
// and after, and where the rule stands.
func (d Derivation) String() string {
	text := d.sentence()
	if w := d.where(); w != "" {
		text += "  [" + w + "]"
	}
	return text
}

func (d Derivation) sentence() string {
	switch d.Step {
	case StepAward:
		text := "award: " + d.Text
		if !strings.HasSuffix(text, " "+fractionText(d.After)) {
			text += ": " + fractionText(d.After)
		}
		return text
	case StepOutside:
		return "nothing: " + d.Text
	case StepCut:
		text := d.Text
		if !strings.HasPrefix(text, d.Rule) {
			text = d.Rule + ": " + text
		}
		return fmt.Sprintf("cap %s: %v − %v = %v", text, d.Before, d.Before.Sub(d.After), d.After)
	case StepMinimum:
		state := ": met"
		if d.After.Cmp(d.Before) < 0 {
			state = "" // the text says how much is missing
		}
		return "minimum " + d.Rule + " " + d.Text + state
	case StepTarget:
		if d.Rule == "target" {
			return "target: " + d.Text
		}
		return "instead of all that is asked: " + d.Text
	}
	return d.Rule + ": " + d.Text
}

// Explain returns the way from the claim id to what it counts, line by line, or nil if
// there is no such claim. What leaving it out would change is told by [Statement.Without].
func (s Statement) Explain(id string) []string {
	r, ok := s.Result(id)
	if !ok {
		return nil
	}
	return s.explain(r, s.OfClaim(id))
}

func (s Statement) explain(r ClaimResult, way []Derivation) []string {
	lines := []string{s.heading(r)}
	var full []string
	for _, d := range way {
		if d.Step == StepCut {
			if !slices.Contains(full, d.Rule) {
				full = append(full, d.Rule)
			}
			d.Text = s.capText(d)
		}
		lines = append(lines, "  "+d.String())
	}
	end := fmt.Sprintf("  counts %v of %s", r.Counted, Quantity(r.Awarded, s.Unit))
	switch {
	case r.Awarded.Sign() == 0:
		end = "  counts 0"
	case len(full) == 1:
		end += "; not more, because " + full[0] + " allows no more"
	case len(full) > 1:
		end += "; not more, because " + strings.Join(full, " and ") + " allow no more"
	default:
		end += ": no cap takes anything"
	}
	return append(lines, end)
}

// capText is the text of a cut, with the claims that its cap looks at where the cap's
// name does not tell them.
func (s Statement) capText(d Derivation) string {
	rest, named := strings.CutPrefix(d.Text, d.Rule)
	if s.given == nil || !named {
		return d.Text
	}
	for _, k := range s.given.scheme.Caps {
		if k.ID == d.Rule && k.Line == d.Line && !slices.Equal(k.Selection.Categories, []string{k.ID}) {
			return d.Rule + " on " + k.Selection.Words() + rest
		}
	}
	return d.Text
}

// heading names a claim, its category, its day and what rules may ask of it.
func (s Statement) heading(r ClaimResult) string {
	text := r.ID + " in " + r.Category
	if s.given == nil {
		return text
	}
	c, ok := s.given.claims[r.ID]
	if !ok {
		return text
	}
	if d := c.Date(); !d.IsZero() {
		text += ", " + d.String()
	} else {
		text += ", no date"
	}
	if len(c.Tags) > 0 {
		text += ", tagged " + strings.Join(c.Tags, ", ")
	}
	return text
}

// ExplainCategory returns the lines of every claim of the category, and their sum. It
// returns nil if the scheme has no such category.
func (s Statement) ExplainCategory(id string) []string {
	var lines []string
	var awarded, counted []Part
	ways := map[string][]Derivation{}
	for _, d := range s.Derivations {
		if d.Category == id {
			ways[d.Claim] = append(ways[d.Claim], d)
		}
	}
	for _, r := range s.results() {
		if r.Category == id {
			lines = append(lines, s.explain(r, ways[r.ID])...)
			awarded = append(awarded, Part{Claim: r.ID, Amount: r.Awarded})
			counted = append(counted, Part{Claim: r.ID, Amount: r.Counted})
		}
	}
	for _, c := range s.Categories {
		if c.ID != id {
			continue
		}
		if len(lines) == 0 {
			return []string{"nothing is claimed in " + id}
		}
		text := c.ID + " in all: awarded and counted " + added(c.Counted, counted)
		if !c.Counted.Equal(c.Awarded) {
			text = c.ID + " in all: awarded " + added(c.Awarded, awarded) + "; counted " + added(c.Counted, counted)
		}
		if c.Cap != nil {
			text += fmt.Sprintf("; at most %v", *c.Cap)
		}
		lines = append(lines, text)
	}
	return lines
}

// added prints a sum with its parts: "8 (C1) + 5 (C2) + 6 (C4) = 19". Parts of 0 are
// left out.
func added(sum Amount, parts []Part) string {
	var list []string
	for _, p := range parts {
		if p.Amount.Sign() != 0 {
			list = append(list, fmt.Sprintf("%v (%s)", p.Amount, p.Claim))
		}
	}
	if len(list) == 0 {
		return sum.String()
	}
	if len(list) == 1 {
		return list[0]
	}
	return strings.Join(list, " + ") + " = " + sum.String()
}

// ExplainMinimum returns what the minimum id asks, which claims serve it, window by
// window, and how far it is filled. It returns nil if nothing of that name is asked.
func (s Statement) ExplainMinimum(id string) []string {
	var lines []string
	for _, d := range s.Derivations {
		if d.Step != StepMinimum || d.Rule != id {
			continue
		}
		lines = append(lines, d.String())
		if s.given == nil {
			continue
		}
		for _, m := range s.given.scheme.Minimums {
			if m.ID == id {
				lines = append(lines, s.serving(m, d)...)
			}
		}
	}
	return lines
}

// serving says which claims a minimum looks at and what they bring.
func (s Statement) serving(m Minimum, d Derivation) []string {
	if len(m.AnyOf) > 0 {
		var lines []string
		for _, id := range slices.Concat(m.AnyOf...) {
			for _, line := range s.ExplainMinimum(id) {
				lines = append(lines, "  "+line)
			}
		}
		return lines
	}
	if m.Fact != "" || m.Distinct > 0 {
		return nil
	}
	lines := []string{"  it looks at " + m.Selection.Words()}
	var sum Amount
	for i := 0; i < len(d.Parts); {
		window, part := d.Parts[i].Window, Amount{}
		var parts []Part
		for ; i < len(d.Parts) && d.Parts[i].Window == window; i++ {
			part, parts = part.Add(d.Parts[i].Amount), append(parts, d.Parts[i])
		}
		text := "  served by " + added(part, parts)
		if window != "" {
			text = "  in " + window + " served by " + added(part, parts)
		}
		lines, sum = append(lines, text), sum.Add(part)
	}
	if len(d.Parts) == 0 {
		lines = append(lines, "  nothing that counts serves it")
	}
	if m.HasPart {
		lines = append(lines, fmt.Sprintf("  of that, of %s at most %v", m.Part.Words(), m.PartMost))
	} else if m.Per == "" && !sum.Equal(d.After) {
		lines = append(lines, fmt.Sprintf("  the same total can be split so that %v counts for it", d.After))
	}
	return lines
}

// Words says which claims the selection names: "claims in course or online tagged
// ethics".
func (s Selection) Words() string {
	if s.Empty() {
		return "every claim"
	}
	text := "claims"
	say := func(before, between string, list []string) {
		if len(list) > 0 {
			text += before + strings.Join(list, between)
		}
	}
	say(" in ", " or ", s.Categories)
	say(" tagged ", " and ", s.Tags)
	say(" not tagged ", " or ", s.NotTags)
	say(" by ", " or ", s.Providers)
	if !s.From.IsZero() {
		text += " from " + s.From.String() + " on"
	}
	if !s.Until.IsZero() {
		text += " until " + s.Until.String()
	}
	return text
}

// ExplainAll returns the lines of the whole statement: each category, the total against
// the target, the minimums, and what may be carried on. Empty lines part them.
func (s Statement) ExplainAll() []string {
	var lines, empty []string
	var sum []Part
	for _, r := range s.CarriedIn {
		if _, own := s.category(r.Category); !own { // else it comes with its category
			lines = append(lines, append(s.Explain(r.ID), "")...)
			sum = append(sum, Part{Claim: "carried in", Amount: r.Counted})
		}
	}
	for _, c := range s.Categories {
		way := s.ExplainCategory(c.ID)
		if len(way) == 1 {
			empty = append(empty, c.ID)
			continue
		}
		lines = append(lines, append(way, "")...)
		sum = append(sum, Part{Claim: c.ID, Amount: c.Counted})
	}
	if len(empty) > 0 {
		lines = append(lines, "nothing is claimed in "+strings.Join(empty, ", "), "")
	}
	lines = append(lines, strings.TrimSpace("total: "+added(s.Counted, sum)+" "+Units(s.Counted, s.Unit)))
	for _, d := range s.Derivations {
		if d.Step == StepTarget {
			lines = append(lines, d.String())
		}
	}
	if s.HasTarget {
		lines = append(lines, "  "+s.againstTarget())
	}
	for _, m := range s.Minimums {
		lines = append(lines, s.ExplainMinimum(m.ID)...)
	}
	if s.ExclusiveMissing.Sign() > 0 {
		lines = append(lines, fmt.Sprintf("missing to the minimums that may not share a credit: %v", s.ExclusiveMissing))
	}
	for _, d := range s.Derivations {
		if d.Claim == "" && d.Step != StepTarget && d.Step != StepMinimum {
			lines = append(lines, d.String())
		}
	}
	return lines
}

func (s Statement) againstTarget() string {
	if s.Missing.Sign() > 0 {
		return fmt.Sprintf("%v − %v counted = %v missing", s.Target, s.Counted, s.Missing)
	}
	return fmt.Sprintf("%v counted − %v = %v above the target", s.Counted, s.Target, s.Counted.Sub(s.Target))
}

func (s Statement) category(id string) (CategoryTotal, bool) {
	for _, c := range s.Categories {
		if c.ID == id {
			return c, true
		}
	}
	return CategoryTotal{}, false
}

func (s Statement) results() []ClaimResult {
	return append(append([]ClaimResult(nil), s.CarriedIn...), s.Claims...)
}
