package credit

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// full is a row that is used up, with what it still has to explain.
type full struct {
	capRow
	number int // its place among the rows
	excess Amount
	sum    Amount // that counts
	claims int    // that count
	whole  bool   // some of its claims count whole or not at all
	text   string // what fills it, once that was said; it is the same for every claim
}

// explainCuts says of each claim that does not count whole which full cap took how
// much: first those that let only so many claims count, then the narrowest full cap
// first, until what it had to take is taken.
func (c *calculation) explainCuts() {
	rows := c.fullRows()
	at := make(map[int]*full, len(rows))
	holding := make([][]int32, len(c.entries)) // per claim, the full rows that hold it
	for r := range rows {
		at[rows[r].number] = &rows[r]
		for _, i := range rows[r].members {
			if e := &c.entries[i]; e.counted.Cmp(e.limit) < 0 && c.keepsOut(&rows[r], e) {
				holding[i] = append(holding[i], int32(r))
			}
		}
	}
	for i := range c.entries {
		e := &c.entries[i]
		left := e.limit
		if row := at[e.without-1]; row != nil {
			c.cut(e, row.cap.ID, row.cap.Origin, c.textOf(row), left, e.counted)
			continue
		}
		for k, r := range holding[i] {
			if left.Cmp(e.counted) <= 0 {
				break
			}
			row := &rows[r]
			cut := left.Sub(e.counted)
			if k < len(holding[i])-1 && !e.whole && row.cap.MostClaims == 0 {
				cut = cut.Min(row.excess)
			}
			if cut.Sign() <= 0 {
				continue
			}
			row.excess = row.excess.Sub(cut)
			text := c.textOf(row)
			if e.whole && row.cap.MostClaims == 0 {
				text += "; " + e.ID + " counts whole or not at all"
			}
			c.cut(e, row.cap.ID, row.cap.Origin, text, left, left.Sub(cut))
			left = left.Sub(cut)
		}
		if left.Cmp(e.counted) > 0 {
			c.cutElse(e, left)
		}
	}
}

// cutElse says why a claim is cut that no full cap holds.
func (c *calculation) cutElse(e *entry, left Amount) {
	text, origin := "counting more would leave a minimum unmet", Origin{File: c.scheme.File}
	switch {
	case e.carried && c.room != nil:
		text, origin = "carried credit only fills up to the target: room for "+fractionText(*c.room), c.scheme.CarryOver.Origin
	case c.st.Unproven != nil:
		text = "the search ended before it was found whether more can count"
	}
	c.cut(e, "carry-over", origin, text, left, e.counted)
}

// keepsOut reports whether a row may be why e does not count whole.
func (c *calculation) keepsOut(r *full, e *entry) bool {
	switch {
	case r.cap.MostClaims > 0:
		return e.counted.Sign() == 0 && r.claims >= r.cap.MostClaims
	case e.whole:
		return e.limit.Add(r.sum).Cmp(r.most) > 0
	}
	return r.sum.Cmp(r.most) >= 0
}

func (c *calculation) textOf(row *full) string {
	if row.text == "" {
		row.text = c.fullText(row.capRow)
	}
	return row.text
}

func (c *calculation) cut(e *entry, rule string, origin Origin, text string, before, after Amount) {
	c.st.Cuts = append(c.st.Cuts, Cut{e.ID, rule, before.Sub(after), e.Category})
	c.note(Derivation{Step: StepCut, Claim: e.ID, Category: e.Category, Rule: rule, Origin: origin, Text: text, Before: before, After: after})
}

// fullRows are the rows that hold more than they let count, the narrowest first.
func (c *calculation) fullRows() []full {
	var total Amount
	for _, e := range c.entries {
		total = total.Add(e.counted)
	}
	var rows []full
	for number, r := range c.rows {
		f := full{capRow: r, number: number}
		for _, i := range r.members {
			f.sum = f.sum.Add(c.entries[i].counted)
			f.whole = f.whole || c.entries[i].whole
			f.claims += c.entries[i].counted.Sign()
		}
		if r.counted {
			f.most = r.cap.Most.Mul(total)
		}
		if r.cap.MostClaims > 0 || f.whole || f.sum.Cmp(f.most) >= 0 {
			f.excess = c.sum(r.members).Sub(f.most)
			rows = append(rows, f)
		}
	}
	slices.SortStableFunc(rows, func(a, b full) int {
		return cmp.Or(-cmp.Compare(min(a.cap.MostClaims, 1), min(b.cap.MostClaims, 1)), len(a.members)-len(b.members))
	})
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
	if r.cap.MostClaims > 0 {
		return fmt.Sprintf("%s lets %d count, here %s", r.name(), r.cap.MostClaims, strings.Join(parts, ", "))
	}
	text := r.name() + " allows " + r.most.String()
	if len(parts) > 0 {
		text += ", filled by " + strings.Join(parts, ", ")
	}
	return text
}
