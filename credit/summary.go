package credit

import (
	"fmt"
	"slices"
	"strings"
)

// AsksAnything reports whether there is a target above 0 or a minimum.
func (s Statement) AsksAnything() bool {
	return s.HasTarget && s.Target.Sign() > 0 || len(s.Minimums) > 0
}

// Summary says in one sentence, without a point, whether all that is asked is met or
// what is missing, and by when. It never says that anything is met where nothing was asked.
func (s Statement) Summary() string {
	text := ""
	switch missing := s.missingWords(); {
	case !s.AsksAnything():
		text = "the scheme asks for nothing"
	case s.Meets && len(missing) > 0:
		text = "met: " + s.insteadWords()
	case s.Meets:
		text = "met: all that is asked is there"
	case len(missing) == 0 && s.Unproven != nil:
		text = "not met by the best choice that was found"
	case len(missing) == 0:
		text = "not met: each minimum can be filled, but not all of them by the same credit"
	default:
		text = s.areMissing(missing)
	}
	text += s.byWhen()
	if s.Unproven != nil {
		text += "; " + s.Unproven.String()
	}
	return text
}

// areMissing makes a sentence of the list.
func (s Statement) areMissing(list []string) string {
	last := len(list) - 1
	if last > 0 {
		return strings.Join(list[:last], ", ") + " and " + list[last] + " are missing"
	}
	if strings.HasPrefix(list[0], "1 ") || strings.HasPrefix(list[0], "the minimum ") {
		return list[0] + " is missing"
	}
	return list[0] + " are missing"
}

// missingWords lists what is missing: to the target, then to each minimum.
func (s Statement) missingWords() []string {
	var list []string
	if s.Missing.Sign() > 0 {
		list = append(list, fmt.Sprintf("%v of %s", s.Missing, Quantity(s.Target, s.Unit)))
	}
	for _, m := range s.Minimums {
		if m.Met {
			continue
		}
		text := "the minimum " + m.ID
		if s.inAmounts(m.ID) {
			text = fmt.Sprintf("%s for %s", Quantity(m.Want.Sub(m.Have), s.Unit), m.ID)
		}
		list = append(list, text)
	}
	if s.ExclusiveMissing.Sign() > 0 {
		list = append(list, Quantity(s.ExclusiveMissing, s.Unit)+" for the minimums that may not share a credit")
	}
	return list
}

// inAmounts reports whether the minimum id asks for credit, not for a fact, a number of
// categories or one of several minimums.
func (s Statement) inAmounts(id string) bool {
	if s.given == nil {
		return true
	}
	return !slices.ContainsFunc(s.given.scheme.Minimums, func(m Minimum) bool {
		return m.ID == id && (m.Fact != "" || m.Distinct > 0 || len(m.AnyOf) > 0)
	})
}

func (s Statement) insteadWords() string {
	for _, d := range s.Derivations {
		if d.Step == StepTarget && d.Rule == "instead" {
			return d.Text
		}
	}
	return "all that is asked is there"
}

// byWhen says how far the end of the cycle is, as the end of a sentence.
func (s Statement) byWhen() string {
	left, ok := s.DaysLeft()
	end := s.Cycle.End.Words()
	switch {
	case !ok:
		return ""
	case s.On.Before(s.Cycle.Start):
		n := s.Cycle.Start.Sub(s.On)
		return fmt.Sprintf("; the cycle begins on %s, in %s", s.Cycle.Start.Words(), days(n))
	case left < 0:
		return fmt.Sprintf("; the cycle ended on %s, %s before", end, days(-left))
	case s.Meets || !s.AsksAnything():
		return fmt.Sprintf("; the cycle ends on %s, %s", end, inDays(left))
	}
	return fmt.Sprintf(", to be earned by %s, %s", end, inDays(left))
}

func days(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}

// inDays says when a day is that lies n days ahead: "in 12 days", "today", "3 days ago".
func inDays(n int) string {
	switch {
	case n == 0:
		return "today"
	case n < 0:
		return days(-n) + " ago"
	}
	return "in " + days(n)
}

// InDays says when the day d is, seen from the day of the statement: "in 12 days",
// "today", "3 days ago"; "" if the statement has no day.
func (s Statement) InDays(d Date) string {
	if s.On.IsZero() || d.IsZero() {
		return ""
	}
	return inDays(d.Sub(s.On))
}

// Words prints "5 March 2026", and "" for the zero Date.
func (d Date) Words() string {
	if d.IsZero() {
		return ""
	}
	y, m, day := d.YMD()
	return fmt.Sprintf("%d %s %d", day, m, y)
}

// CutLines says in words what caps took, one line for each claim that does not count
// whole: "C3 counts 3.5 of 5: alone allows 6, filled by C2 2.5, C3 3.5".
func (s Statement) CutLines() []string {
	var lines []string
	seen := map[string]bool{}
	texts := map[string][]string{}
	for _, d := range s.Derivations {
		if d.Step == StepCut {
			text := d.Text
			if !strings.HasPrefix(text, d.Rule) {
				text = d.Rule + ": " + text
			}
			as := d.Claim + " in " + d.Category
			texts[as] = append(texts[as], text)
		}
	}
	results := s.Results()
	for _, c := range s.Cuts {
		if seen[c.Claim] {
			continue
		}
		seen[c.Claim] = true
		r, ok := results[c.Claim]
		if !ok {
			continue
		}
		lines = append(lines, fmt.Sprintf("%s counts %v of %v: %s", c.Claim, r.Counted, r.Awarded, strings.Join(texts[c.Claim+" in "+r.Category], "; ")))
	}
	return lines
}

// InOrder returns the deadlines, earliest first.
func (s Statement) InOrder() []Deadline {
	list := slices.Clone(s.Deadlines)
	slices.SortStableFunc(list, func(a, b Deadline) int { return a.Date.Compare(b.Date) })
	return list
}
