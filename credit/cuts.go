package credit

import (
	"fmt"
	"slices"
	"strings"
)

// full is a row that is used up, with what it still has to explain.
type full struct {
	capRow
	excess Amount
}

// explainCuts says of each claim that does not count whole which full cap took how
// much: the narrowest full cap first, until what it had to take is taken.
func (c *calculation) explainCuts() {
	rows := c.fullRows()
	for i := range c.entries {
		e := &c.entries[i]
		left := e.limit
		for r := range rows {
			if left.Cmp(e.counted) <= 0 {
				break
			}
			if !slices.Contains(rows[r].members, i) {
				continue
			}
			cut := left.Sub(e.counted)
			if !lastFor(rows[r+1:], i) {
				cut = cut.Min(rows[r].excess)
			}
			if cut.Sign() <= 0 {
				continue
			}
			rows[r].excess = rows[r].excess.Sub(cut)
			c.cut(e, rows[r].cap.ID, rows[r].cap.Origin, c.fullText(rows[r]), left, left.Sub(cut))
			left = left.Sub(cut)
		}
		if left.Cmp(e.counted) > 0 {
			text, origin := "counting more would leave a minimum unmet", Origin{File: c.scheme.File}
			if e.carried && c.room != nil {
				text, origin = "carried credit only fills up to the target: room for "+fractionText(*c.room), c.scheme.CarryOver.Origin
			}
			c.cut(e, "carry-over", origin, text, left, e.counted)
		}
	}
}

// lastFor reports whether none of the rows holds claim i.
func lastFor(rows []full, i int) bool {
	return !slices.ContainsFunc(rows, func(r full) bool { return slices.Contains(r.members, i) })
}

func (c *calculation) cut(e *entry, rule string, origin Origin, text string, before, after Amount) {
	c.st.Cuts = append(c.st.Cuts, Cut{e.ID, rule, before.Sub(after)})
	c.note(Derivation{Step: StepCut, Claim: e.ID, Category: e.Category, Rule: rule, Origin: origin, Text: text, Before: before, After: after})
}

func (c *calculation) fullRows() []full {
	var total Amount
	for _, e := range c.entries {
		total = total.Add(e.counted)
	}
	var rows []full
	for _, r := range c.rows {
		var counted Amount
		for _, i := range r.members {
			counted = counted.Add(c.entries[i].counted)
		}
		if r.counted {
			r.most = r.cap.Most.Mul(total)
		}
		if counted.Cmp(r.most) >= 0 {
			rows = append(rows, full{r, c.sum(r.members).Sub(r.most)})
		}
	}
	slices.SortStableFunc(rows, func(a, b full) int { return len(a.members) - len(b.members) })
	return rows
}

// fullText says what fills the cap: why not more.
func (c *calculation) fullText(r full) string {
	var parts []string
	for _, i := range r.members {
		if e := c.entries[i]; e.counted.Sign() > 0 {
			parts = append(parts, e.ID+" "+fractionText(e.counted))
		}
	}
	if n := len(parts); n > 6 {
		parts = append(parts[:5], fmt.Sprintf("and %d more", n-5))
	}
	text := r.name() + " allows " + fractionText(r.most)
	if len(parts) > 0 {
		text += ", filled by " + strings.Join(parts, ", ")
	}
	return text
}
