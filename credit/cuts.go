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
	text   string // what fills it, once that was said; it is the same for every claim
}

// explainCuts says of each claim that does not count whole which full cap took how
// much: the narrowest full cap first, until what it had to take is taken.
func (c *calculation) explainCuts() {
	rows := c.fullRows()
	holding := make([][]int32, len(c.entries)) // per claim, the full rows that hold it
	for r := range rows {
		for _, i := range rows[r].members {
			if e := &c.entries[i]; e.counted.Cmp(e.limit) < 0 {
				holding[i] = append(holding[i], int32(r))
			}
		}
	}
	for i := range c.entries {
		e := &c.entries[i]
		left := e.limit
		for k, r := range holding[i] {
			if left.Cmp(e.counted) <= 0 {
				break
			}
			row := &rows[r]
			cut := left.Sub(e.counted)
			if k < len(holding[i])-1 {
				cut = cut.Min(row.excess)
			}
			if cut.Sign() <= 0 {
				continue
			}
			row.excess = row.excess.Sub(cut)
			if row.text == "" {
				row.text = c.fullText(row.capRow)
			}
			c.cut(e, row.cap.ID, row.cap.Origin, row.text, left, left.Sub(cut))
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
			rows = append(rows, full{capRow: r, excess: c.sum(r.members).Sub(r.most)})
		}
	}
	slices.SortStableFunc(rows, func(a, b full) int { return len(a.members) - len(b.members) })
	return rows
}

// fullText says what fills the cap: why not more. Of more than six claims it names five.
func (c *calculation) fullText(r capRow) string {
	var parts []string
	n := 0
	for _, i := range r.members {
		if e := c.entries[i]; e.counted.Sign() > 0 {
			if n++; n <= 6 {
				parts = append(parts, e.ID+" "+e.counted.String())
			}
		}
	}
	if n > 6 {
		parts = append(parts[:5], fmt.Sprintf("and %d more", n-5))
	}
	text := r.name() + " allows " + r.most.String()
	if len(parts) > 0 {
		text += ", filled by " + strings.Join(parts, ", ")
	}
	return text
}
