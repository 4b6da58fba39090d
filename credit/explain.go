package credit

import (
	"fmt"
	"strings"
)

// where prints the place of a rule: "demo.toml:14 (rule book, section 3)".
func (d Derivation) where() string {
	if d.File == "" && d.Line == 0 {
		return d.Source
	}
	text := d.File
	if d.Line > 0 {
		text += fmt.Sprintf(":%d", d.Line)
	}
	if d.Source != "" {
		text += " (" + d.Source + ")"
	}
	return text
}

// String prints one derivation for people: the rule, where it stands, the arithmetic,
// and the amount before and after.
func (d Derivation) String() string {
	var text string
	switch d.Step {
	case StepAward:
		text = fmt.Sprintf("award by %s: %s → %s", d.Rule, d.Text, fractionText(d.After))
	case StepCut:
		text = fmt.Sprintf("cut by %s: %s → from %s to %s", d.Rule, d.Text, fractionText(d.Before), fractionText(d.After))
	case StepMinimum:
		text = fmt.Sprintf("minimum %s %s", d.Rule, d.Text)
	default:
		text = fmt.Sprintf("%s: %s", d.Rule, d.Text)
	}
	if w := d.where(); w != "" {
		text += "  [" + w + "]"
	}
	return text
}

// Explain returns the way from the claim id to what it counts, line by line, or nil if
// there is no such claim.
func (s Statement) Explain(id string) []string {
	r, ok := s.Result(id)
	if !ok {
		return nil
	}
	return r.explain(s.OfClaim(id))
}

func (r ClaimResult) explain(way []Derivation) []string {
	lines := []string{fmt.Sprintf("%s in %s", r.ID, r.Category)}
	cut := false
	for _, d := range way {
		lines = append(lines, "  "+d.String())
		cut = cut || d.Step == StepCut
	}
	end := fmt.Sprintf("  counts %s of %s awarded", fractionText(r.Counted), fractionText(r.Awarded))
	switch {
	case cut:
		end += "; no more, because the caps above are full"
	case r.Awarded.Sign() > 0:
		end += "; no cap takes anything"
	}
	return append(lines, end)
}

// ExplainCategory returns the lines of every claim of the category, and their sum.
func (s Statement) ExplainCategory(id string) []string {
	var lines, sum []string
	ways := map[string][]Derivation{}
	for _, d := range s.Derivations {
		if d.Category == id {
			ways[d.Claim] = append(ways[d.Claim], d)
		}
	}
	for _, r := range s.results() {
		if r.Category == id {
			lines = append(lines, r.explain(ways[r.ID])...)
			sum = append(sum, fractionText(r.Counted))
		}
	}
	for _, c := range s.Categories {
		if c.ID != id {
			continue
		}
		text := fmt.Sprintf("%s: awarded %s, counted %s", c.ID, fractionText(c.Awarded), fractionText(c.Counted))
		if len(sum) > 1 {
			text += " = " + strings.Join(sum, " + ")
		}
		if c.Cap != nil {
			text += ", at most " + fractionText(*c.Cap)
		}
		lines = append(lines, text)
	}
	return lines
}

// ExplainAll returns the lines of the whole statement: each category, the minimums,
// the total against the target, and what may be carried on.
func (s Statement) ExplainAll() []string {
	var lines, sum []string
	for _, r := range s.CarriedIn {
		lines = append(lines, s.Explain(r.ID)...)
		sum = append(sum, fractionText(r.Counted)+" carried in")
	}
	for _, c := range s.Categories {
		lines = append(lines, s.ExplainCategory(c.ID)...)
		if c.Counted.Sign() > 0 {
			sum = append(sum, fractionText(c.Counted)+" "+c.ID)
		}
	}
	for _, d := range s.Derivations {
		if d.Claim == "" && d.Step != StepCarry {
			lines = append(lines, d.String())
		}
	}
	text := "counted " + fractionText(s.Counted) + " " + s.Unit
	if len(sum) > 1 {
		text += " = " + strings.Join(sum, " + ")
	}
	if s.HasTarget {
		text += fmt.Sprintf("; asked %s, missing %s", fractionText(s.Target), fractionText(s.Missing))
	}
	lines = append(lines, text)
	if s.ExclusiveMissing.Sign() > 0 {
		lines = append(lines, "missing to the minimums that may not share a credit: "+fractionText(s.ExclusiveMissing))
	}
	for _, d := range s.Derivations {
		if d.Step == StepCarry {
			lines = append(lines, d.String())
		}
	}
	return lines
}

func (s Statement) results() []ClaimResult {
	return append(append([]ClaimResult(nil), s.CarriedIn...), s.Claims...)
}
