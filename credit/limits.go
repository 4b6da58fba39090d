package credit

import (
	"fmt"
	"slices"
	"strconv"
)

// capRow is one cap in one of its windows: these claims may count so much together.
type capRow struct {
	cap     Cap
	label   string // the window in words; "" for the whole cycle
	most    Amount
	members []int
	counted bool // most is of what is counted
}

func (r capRow) name() string {
	if r.label == "" {
		return r.cap.ID
	}
	return r.cap.ID + " (" + r.label + ")"
}

// most is what a cap allows, but for shares of what is counted.
func (c *calculation) most(k Cap) Amount {
	if k.Share == ShareTarget {
		return k.Most.Mul(c.target)
	}
	return k.Most
}

func (c *calculation) inForce() []Cap {
	var list []Cap
	for _, k := range c.scheme.Caps {
		if c.input.Facts.Holds(k.If) && k.Begun.Holds(c.cycle.Start) {
			list = append(list, k)
		}
	}
	return list
}

// single applies the caps that look at one claim alone, and those that let only the
// largest of several count.
func (c *calculation) single() {
	for _, k := range c.inForce() {
		switch {
		case k.Largest:
			c.keepLargest(k)
		case k.perClaim():
			c.lowerEach(k)
		}
	}
	c.markWhole()
}

// perClaim reports whether the cap looks at each claim alone.
func (k Cap) perClaim() bool {
	return slices.Equal(k.Per, []string{PerClaim}) && k.Share != ShareCounted && k.MostClaims == 0
}

func (c *calculation) lowerEach(k Cap) {
	most := c.most(k)
	for i := range c.entries {
		e := &c.entries[i]
		switch {
		case !k.Selection.Holds(e.Claim):
		case k.Whole && e.limit.Cmp(most) > 0:
			c.lower(e, Amount{}, k, "at most "+fractionText(most)+" for one claim, and a claim counts whole or not at all")
		default:
			c.lower(e, most, k, "at most "+fractionText(most)+" for one claim")
		}
	}
}

// lower cuts e to most, and notes it if that takes something away.
func (c *calculation) lower(e *entry, most Amount, k Cap, text string) {
	if e.limit.AtMost(most) {
		return
	}
	cut := e.limit.Sub(most)
	c.note(Derivation{Step: StepCut, Claim: e.ID, Category: e.Category, Rule: k.ID, Origin: k.Origin, Text: text, Before: e.limit, After: most})
	c.st.Cuts = append(c.st.Cuts, Cut{e.ID, k.ID, cut, e.Category})
	e.limit = most
}

func (c *calculation) keepLargest(k Cap) {
	best := map[string]int{}
	for i, e := range c.entries {
		if !k.Selection.Holds(e.Claim) {
			continue
		}
		for _, g := range c.groups(k, e) {
			if b, ok := best[g]; !ok || c.entries[b].limit.Cmp(e.limit) < 0 {
				best[g] = i
			}
		}
	}
	for i := range c.entries {
		e := &c.entries[i]
		if !k.Selection.Holds(e.Claim) {
			continue
		}
		for _, g := range c.groups(k, *e) {
			if b := best[g]; b != i {
				c.lower(e, Amount{}, k, "only the largest counts, which is "+c.entries[b].ID)
			}
		}
	}
}

// gatherRows makes a row of each cap and window that could cut something.
func (c *calculation) gatherRows() {
	for _, k := range c.inForce() {
		if k.Largest || k.perClaim() {
			continue
		}
		at := map[string]int{}
		var rows []capRow
		for i, e := range c.entries {
			if e.limit.Sign() <= 0 || !k.Selection.Holds(e.Claim) {
				continue
			}
			for _, g := range c.groups(k, e) {
				n, ok := at[g]
				if !ok {
					n = len(rows)
					at[g] = n
					rows = append(rows, capRow{cap: k, label: g, most: c.most(k), counted: k.Share == ShareCounted})
				}
				rows[n].members = append(rows[n].members, i)
			}
		}
		for _, r := range rows {
			if c.binds(r) {
				c.rows = append(c.rows, r)
			}
		}
	}
}

// binds reports whether the row could cut something.
func (c *calculation) binds(r capRow) bool {
	if r.cap.MostClaims > 0 {
		return len(r.members) > r.cap.MostClaims
	}
	return r.counted || c.sum(r.members).Cmp(r.most) > 0
}

func (c *calculation) sum(members []int) Amount {
	var sum Amount
	for _, i := range members {
		sum = sum.Add(c.entries[i].limit)
	}
	return sum
}

// groups returns the windows of the cap into which e falls, in words. A claim without
// a date falls into none that is smaller than the cycle.
func (c *calculation) groups(k Cap, e entry) []string {
	names := []string{""}
	for _, per := range k.Per {
		windows := c.windows(per, e)
		if k.MostClaims > 0 && (per == PerProvider || ofField(per)) && e.text(per) == "" {
			windows = nil // nothing says that it belongs together with others
		}
		names = cross(names, windows)
	}
	return names
}

func cross(a, b []string) []string {
	var out []string
	for _, x := range a {
		for _, y := range b {
			if x == "" || y == "" {
				out = append(out, x+y)
			} else {
				out = append(out, x+", "+y)
			}
		}
	}
	return out
}

func (c *calculation) windows(per string, e entry) []string {
	switch per {
	case PerCycle:
		return []string{""}
	case PerClaim:
		return []string{"claim " + e.ID}
	case PerProvider:
		return []string{"provider " + e.Provider}
	case PerDay, PerYear, PerCycleYear:
		if e.placed.IsZero() {
			return nil
		}
		return []string{c.dateWindow(per, e.placed)}
	}
	if n, ok := rolling(per); ok {
		return c.rollingWindows(per, n, e.placed)
	}
	return []string{per + " " + e.text(per)}
}

func (c *calculation) dateWindow(per string, d Date) string {
	switch {
	case per == PerDay:
		return d.String()
	case per == PerCycleYear && !c.cycle.Start.IsZero():
		return fmt.Sprintf("year %d", c.cycle.yearOf(d)+1)
	}
	y, _, _ := d.YMD()
	return strconv.Itoa(y)
}
