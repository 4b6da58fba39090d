package credit

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// need is one minimum that is asked of this holder, with the claims that serve it.
type need struct {
	Minimum
	windows []needWindow // of a minimum on amounts; none for the others
	listed  bool         // asked only as part of an any-of list
	// Of a number of different categories: how many have an award whatever is chosen, and
	// those that may have one by choice.
	sure       int
	categories []string
	met        bool
	have       Amount
}

type needWindow struct {
	label   string
	members []int
	part    []bool // per member, whether it belongs to the part with a ceiling of its own
}

// amounts reports whether the need asks for an amount, so that the choice of what
// counts bears on it.
func (n need) amounts() bool { return n.Distinct == 0 && n.Fact == "" && len(n.AnyOf) == 0 }

// needs gathers the minimums in force, and settles those that no choice can change.
func (c *calculation) needs() []need {
	var list []need
	inLists := map[string]bool{}
	for _, m := range c.scheme.Minimums {
		if !c.input.Facts.Holds(m.If) || !m.Begun.Holds(c.cycle.Start) {
			continue
		}
		n := need{Minimum: m}
		switch {
		case m.Fact != "":
			n.met = c.input.Facts.Holds(m.Fact)
			n.have = oneIf(n.met)
		case m.Distinct > 0:
			n.sure, n.categories = c.distinct(m)
			n.have = Whole(int64(n.sure))
			n.met = Whole(int64(m.Distinct)).AtMost(n.have)
		case len(m.AnyOf) > 0:
			for _, ids := range m.AnyOf {
				for _, id := range ids {
					inLists[id] = true
				}
			}
		default:
			n.windows = c.needWindows(m)
		}
		list = append(list, n)
	}
	for i := range list {
		list[i].listed = inLists[list[i].ID]
	}
	return list
}

func oneIf(yes bool) Amount {
	if yes {
		return Whole(1)
	}
	return Amount{}
}

// distinct counts the categories with an award, and lists those that would have one
// only if a claim that may count elsewhere counts there.
func (c *calculation) distinct(m Minimum) (sure int, open []string) {
	seen := map[string]bool{}
	for _, e := range c.entries {
		if e.carried || e.awarded.Sign() <= 0 || !m.Selection.Holds(e.Claim) {
			continue
		}
		if e.alternative > 0 {
			if before, ok := seen[e.Category]; !ok || !before {
				seen[e.Category] = false
			}
			continue
		}
		seen[e.Category] = true
	}
	for id, always := range seen {
		if always {
			sure++
		} else {
			open = append(open, id)
		}
	}
	slices.Sort(open)
	return sure, open
}

// perYears reports whether the minimum is asked in windows of years.
func (m Minimum) perYears() bool { return m.Per != "" && m.Per != PerCycle }

func (c *calculation) needWindows(m Minimum) []needWindow {
	list := []needWindow{{}}
	if m.perYears() {
		list = nil
		labels := m.Windows
		if len(labels) == 0 {
			labels = c.labels(m.Per)
		}
		for _, label := range labels {
			list = append(list, needWindow{label: label})
		}
	}
	at := map[string][]int{}
	for w := range list {
		at[list[w].label] = append(at[list[w].label], w)
	}
	for i, e := range c.entries {
		if e.limit.Sign() <= 0 || e.carried && !m.Carried || !m.Selection.Holds(e.Claim) {
			continue
		}
		for _, label := range c.needLabels(m, e) {
			for _, w := range at[label] {
				list[w].members = append(list[w].members, i)
				list[w].part = append(list[w].part, m.HasPart && m.Part.Holds(e.Claim))
			}
		}
	}
	return list
}

// needLabels names the windows of the minimum in which e lies.
func (c *calculation) needLabels(m Minimum, e entry) []string {
	if !m.perYears() {
		return []string{""}
	}
	return c.windows(m.Per, e)
}

// labels names every year of the cycle; without a cycle, every year that has a claim.
func (c *calculation) labels(per string) []string {
	if n, ok := rolling(per); ok {
		return c.testedWindows(per, n)
	}
	var list []string
	if c.cycle.Start.IsZero() || c.cycle.End.IsZero() {
		for _, e := range c.entries {
			if l := c.dateWindow(PerYear, e.placed); !e.placed.IsZero() && !slices.Contains(list, l) {
				list = append(list, l)
			}
		}
		slices.Sort(list)
		return list
	}
	if per == PerCycleYear {
		for n := range c.cycle.yearOf(c.cycle.End) + 1 {
			list = append(list, fmt.Sprintf("year %d", n+1))
		}
		return list
	}
	from, _, _ := c.cycle.Start.YMD()
	to, _, _ := c.cycle.End.YMD()
	for y := from; y <= to; y++ {
		list = append(list, strconv.Itoa(y))
	}
	return list
}

// settleNeeds says how far each need is filled.
func (c *calculation) settleNeeds(needs []need) {
	met := map[string]bool{}
	for i := range needs {
		n := &needs[i]
		if n.amounts() {
			n.met = n.Least.AtMost(n.have)
		}
		met[n.ID] = n.met
	}
	for i := range needs {
		n := &needs[i]
		for _, ids := range n.AnyOf {
			all := true
			for _, id := range ids {
				asked := slices.ContainsFunc(needs, func(o need) bool { return o.ID == id })
				all = all && (met[id] || !asked)
			}
			n.met = n.met || all
		}
		if len(n.AnyOf) > 0 {
			n.have = oneIf(n.met)
		}
		c.state(*n)
	}
}

func (c *calculation) state(n need) {
	want, text := n.Least, ""
	switch {
	case n.Fact != "":
		want, text = Whole(1), "asks that "+n.Fact+" stands"
	case n.Distinct > 0:
		want = Whole(int64(n.Distinct))
		text = fmt.Sprintf("asks %d different categories, %s have an award", n.Distinct, n.have)
	case len(n.AnyOf) > 0:
		var lists []string
		for _, ids := range n.AnyOf {
			lists = append(lists, strings.Join(ids, " and "))
		}
		want, text = Whole(1), "asks one of: "+strings.Join(lists, "; or ")
	default:
		text = fmt.Sprintf("asks at least %s, %s can count for it", fractionText(want), fractionText(n.have))
		if _, ok := rolling(n.Per); ok {
			text += " in the years with the least"
		} else if n.perYears() {
			text += " in the year with the least"
		}
	}
	if !n.met {
		text += ": not met"
		if n.amounts() {
			text += ", " + fractionText(want.Sub(n.have)) + " missing"
		}
	}
	c.st.Minimums = append(c.st.Minimums, MinimumState{n.ID, n.have, want, n.met})
	c.note(Derivation{Step: StepMinimum, Rule: n.ID, Origin: n.Origin, Text: text, Before: want, After: n.have, Parts: c.parts(n)})
}
