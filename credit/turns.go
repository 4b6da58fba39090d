package credit

import "slices"

// byTurns is what counts when each entry in turn, in the order among equals, takes what
// the caps leave it: no search at all, for when a search ended early. It reports false
// where a cap hangs on what counts in all.
func (h *chooser) byTurns() (counted []Amount, total Amount, ok bool) {
	if slices.ContainsFunc(h.rows, func(r capRow) bool { return r.counted }) {
		return nil, Amount{}, false
	}
	counted = make([]Amount, len(h.entries))
	sums, claims := make([]Amount, len(h.rows)), make([]int, len(h.rows))
	taken := map[int]bool{} // claims that count as one of their alternatives
	var carried Amount
	for _, i := range h.ranking() {
		e := &h.entries[i]
		if h.groupOf[i] < 0 || e.alternative > 0 && taken[e.alternative] {
			continue
		}
		rows := h.groups[h.groupOf[i]].rows
		amount := e.limit
		if e.carried && h.fill != nil {
			amount = amount.Min(h.fill.Sub(carried))
		}
		for _, r := range rows {
			switch row := h.rows[r]; {
			case row.cap.MostClaims == 0:
				amount = amount.Min(row.most.Sub(sums[r]))
			case claims[r] >= row.cap.MostClaims:
				amount = Amount{}
			}
		}
		if amount.Sign() <= 0 || e.whole && !amount.Equal(e.limit) {
			continue
		}
		counted[i], total, taken[e.alternative] = amount, total.Add(amount), true
		for _, r := range rows {
			sums[r] = sums[r].Add(amount)
			claims[r]++
		}
		if e.carried {
			carried = carried.Add(amount)
		}
	}
	return counted, total, true
}

// instead takes what counts by turns where the search ended early with less, and
// nothing is met that it could lose. It reports whether it did.
func (h *chooser) instead(reached frac) bool {
	if h.unproven == nil || h.met {
		return false
	}
	counted, total, ok := h.byTurns()
	gain := total.Sub(amountOf(reached))
	if !ok || gain.Sign() <= 0 {
		return false
	}
	for i := range h.entries {
		h.entries[i].counted = counted[i]
	}
	if h.unproven.What == openTotal {
		h.unproven.Distance = Amount{}.Max(h.unproven.Distance.Sub(gain))
	}
	for n := range h.needs {
		h.needs[n].have = h.servedNow(h.needs[n])
	}
	return true
}

// servedNow is what serves the need as it counts, in the window with the least.
func (h *chooser) servedNow(n need) Amount {
	least := n.have
	for w, window := range n.windows {
		var sum, part Amount
		for k, i := range window.members {
			if window.part[k] {
				part = part.Add(h.entries[i].counted)
			} else {
				sum = sum.Add(h.entries[i].counted)
			}
		}
		if n.HasPart {
			part = part.Min(n.PartMost)
		}
		if sum = sum.Add(part); w == 0 || sum.Cmp(least) < 0 {
			least = sum
		}
	}
	return least
}
