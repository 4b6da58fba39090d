package credit

import (
	"cmp"
	"fmt"
	"slices"
)

// StepChoice is the kind of derivation that says as what a claim counts, of several
// things that it could count as.
const StepChoice = "choice"

// asEntries are what one claim may count as: itself, and the same activity in each
// category that its own one names.
func (c *calculation) asEntries(claim Claim) []entry {
	list := []entry{{Claim: claim}}
	for _, id := range c.scheme.Categories[c.byID[claim.Category]].Or {
		if _, ok := c.byID[id]; ok && id != claim.Category {
			other := claim
			other.Category = id
			list = append(list, entry{Claim: other})
		}
	}
	return list
}

// alternatives numbers the claims that can count as several things. Where only one of
// them is worth anything nothing is left to choose.
func (c *calculation) alternatives() {
	number := 0
	for i := 0; i < len(c.entries); {
		k, worth, best := i, 0, i
		for ; k < len(c.entries) && !c.entries[k].carried && c.entries[k].ID == c.entries[i].ID; k++ {
			if c.entries[k].limit.Sign() > 0 {
				worth, best = worth+1, k
			}
		}
		switch {
		case k <= i+1:
			k = i + 1
		case worth > 1:
			number++
			for a := i; a < k; a++ {
				c.entries[a].alternative = number
			}
		default:
			for a := i; a < k; a++ {
				if a != best {
					c.leave(a, best)
				}
			}
		}
		i = k
	}
}

// leave says that the claim of entry i counts as entry as.
func (c *calculation) leave(i, as int) {
	e := &c.entries[i]
	if e.awarded.Sign() > 0 || e.limit.Sign() > 0 {
		to := &c.entries[as]
		own := c.category(e)
		if !slices.Contains(own.Or, to.Category) {
			own = c.category(to)
		}
		c.note(Derivation{Step: StepChoice, Claim: e.ID, Category: to.Category, Rule: "choice", Origin: own.Origin,
			Text:   fmt.Sprintf("counts in %s, not in %s, where its award is %s: all together serves best so", to.Category, e.Category, fractionText(e.awarded)),
			Before: e.awarded, After: to.awarded})
	}
	e.left, e.awarded, e.limit, e.counted = true, Amount{}, Amount{}, Amount{}
}

// dropOthers leaves of each claim with alternatives the one that was chosen.
func (c *calculation) dropOthers() {
	chosen := map[int]int{}
	for i, e := range c.entries {
		if e.alternative == 0 || e.left {
			continue
		}
		if best, ok := chosen[e.alternative]; !ok || c.entries[best].counted.Cmp(e.counted) < 0 {
			chosen[e.alternative] = i
		}
	}
	for i, e := range c.entries {
		if best, ok := chosen[e.alternative]; ok && e.alternative > 0 && best != i && !e.left {
			c.leave(i, best)
		}
	}
	left := map[[2]string]bool{}
	for _, e := range c.entries {
		if e.left {
			left[[2]string{e.ID, e.Category}] = true
		}
	}
	c.st.Cuts = slices.DeleteFunc(c.st.Cuts, func(k Cut) bool { return left[[2]string{k.Claim, k.category}] })
}

// markWhole marks the claims that count whole or not at all.
func (c *calculation) markWhole() {
	for _, k := range c.inForce() {
		if !k.Whole {
			continue
		}
		for i := range c.entries {
			if e := &c.entries[i]; !e.carried && k.Selection.Holds(e.Claim) {
				e.whole = true
			}
		}
	}
}

// dominated takes out of the rows that let only so many claims count those claims in
// whose stead enough others of the row can do all that they can, earlier and larger. It
// changes no result and spares the search many choices that are none.
func (c *calculation) dominated() {
	rank := c.ranks()
	in := map[int][]int{}
	for r, row := range c.rows {
		for _, i := range row.members {
			in[i] = append(in[i], r)
		}
	}
	windows := c.servedBy()
	for r := range c.rows {
		row := &c.rows[r]
		if row.cap.MostClaims == 0 {
			continue
		}
		alike := map[string][]int{}
		for _, i := range row.members {
			if e := &c.entries[i]; !e.whole && e.alternative == 0 {
				key := fmt.Sprint(in[i], windows[i])
				alike[key] = append(alike[key], i)
			}
		}
		for _, list := range alike {
			c.keepBest(row, r, list, rank)
		}
		row.members = slices.DeleteFunc(row.members, func(i int) bool { return c.entries[i].without == r+1 })
	}
	for r := range c.rows {
		row := &c.rows[r]
		row.members = slices.DeleteFunc(row.members, func(i int) bool { return c.entries[i].without > 0 })
	}
}

// keepBest leaves out those claims of list, all alike but for their award, that come
// after as many as the row allows of which none is smaller.
func (c *calculation) keepBest(row *capRow, r int, list []int, rank []int) {
	slices.SortFunc(list, func(a, b int) int { return cmp.Compare(rank[a], rank[b]) })
	var largest []Amount // of those before, falling, as many as the row allows
	for _, i := range list {
		e := &c.entries[i]
		n := row.cap.MostClaims
		if len(largest) >= n && e.limit.AtMost(largest[n-1]) {
			e.without = r + 1
			continue
		}
		at, _ := slices.BinarySearchFunc(largest, e.limit, func(a, b Amount) int { return b.Cmp(a) })
		largest = slices.Insert(largest, at, e.limit)
		largest = largest[:min(len(largest), n)]
	}
}

// servedBy says per entry which selections of minimums hold it.
func (c *calculation) servedBy() [][]service {
	windows := make([][]service, len(c.entries))
	if !slices.ContainsFunc(c.rows, func(r capRow) bool { return r.cap.MostClaims > 0 }) {
		return windows
	}
	for n, need := range c.needs() {
		for w, window := range need.windows {
			for k, i := range window.members {
				windows[i] = append(windows[i], service{n, w, window.part[k]})
			}
		}
	}
	return windows
}
