package credit

import (
	"cmp"
	"maps"
	"slices"
)

// ranking lists the entries in the order in which they are to count among equals: credit
// carried in, then what expires first, then the earliest.
func (c *calculation) ranking() []int {
	list := make([]int, len(c.entries))
	expires := make([]Date, len(c.entries))
	for i := range list {
		list[i] = i
		expires[i] = c.expiry(&c.entries[i])
	}
	slices.SortStableFunc(list, func(a, b int) int {
		x, y := &c.entries[a], &c.entries[b]
		switch {
		case x.carried || y.carried:
			return 0 // they stand first already, in their own order
		case expires[a].IsZero() != expires[b].IsZero():
			if expires[a].IsZero() {
				return 1
			}
			return -1
		}
		return cmp.Or(expires[a].Compare(expires[b]), cmp.Compare(a, b))
	})
	return list
}

// ranks is the place of each entry in [calculation.ranking].
func (c *calculation) ranks() []int {
	ranks := make([]int, len(c.entries))
	for at, i := range c.ranking() {
		ranks[i] = at
	}
	return ranks
}

// filler fills the groups entry by entry: each counts as much as it can without taking
// anything from one before it.
type filler struct {
	*chooser
	*search
	order  []int        // entries still to come, in their order
	filled []Amount     // per group, what its entries so far count
	full   []bool       // per group: nothing more can count
	moved  map[int]bool // groups of which the tableau was not told how much is filled
	stale  bool         // the tableau holds no solution any more
}

// inOrder settles what counts of each entry.
func (h *chooser) inOrder(s *search) {
	f := filler{chooser: h, search: s, filled: make([]Amount, len(h.groups)), full: make([]bool, len(h.groups)), moved: map[int]bool{}}
	for _, i := range h.ranking() {
		if h.groupOf[i] >= 0 {
			f.order = append(f.order, i)
		}
	}
	run := 0 // entries in a row that could count whole only after a change
	for f.pass(); len(f.order) > 0; f.pass() {
		if s.budget.over {
			f.asTheyStand()
			return
		}
		if !f.next() {
			run = 0
			continue
		}
		run++
		f.leap(run)
	}
}

// amountNow is what the solution at hand gives the group: that of the tableau, or the
// best that was found where whole numbers are asked.
func (f *filler) amountNow(g int) Amount {
	t := f.groups[g].amount
	if len(f.search.whole) > 0 || f.stale {
		return amountOf(f.best[t.variable].mul(fracOf(t.factor)))
	}
	return amountOf(f.at(t.variable).mul(fracOf(t.factor)))
}

// pass goes over the entries that count whole in the solution at hand, and those of
// groups that are full.
func (f *filler) pass() {
	now := map[int]Amount{}
	for len(f.order) > 0 {
		i := f.order[0]
		g := f.groupOf[i]
		if !f.full[g] {
			room, ok := now[g]
			if !ok {
				room = f.amountNow(g)
				now[g] = room
			}
			want := f.filled[g].Add(f.entries[i].limit)
			if room.Cmp(want) < 0 {
				return
			}
			f.count(i, f.entries[i].limit)
		}
		f.order = f.order[1:]
	}
}

func (f *filler) count(i int, amount Amount) {
	g := f.groupOf[i]
	f.entries[i].counted = amount
	f.filled[g] = f.filled[g].Add(amount)
	f.moved[g] = true
}

// tell raises the lower bounds of the groups to what is filled.
func (f *filler) tell() {
	for _, g := range slices.Sorted(maps.Keys(f.moved)) {
		f.atLeastOf(g, f.filled[g])
	}
	clear(f.moved)
}

func (f *filler) atLeastOf(g int, amount Amount) {
	t := f.groups[g].amount
	f.within(t.variable, fracOf(amount.value()).quo(fracOf(t.factor)), f.upper[t.variable])
}

// next settles the first entry of the order, and reports whether it counts whole.
func (f *filler) next() bool {
	i := f.order[0]
	g := f.groupOf[i]
	f.tell()
	if f.restore(nil) != holds {
		f.stale = true
		return false
	}
	t := f.groups[g].amount
	want := f.filled[g].Add(f.entries[i].limit)
	enough := fracOf(want.value())
	f.enough = &enough
	value, bound := f.raise([]term{t})
	f.enough = nil
	got := amountOf(value).Min(want)
	whole := got.Equal(want)
	if !whole {
		f.judge("which of equal claims count", value, bound)
		f.full[g] = true
		x := fracOf(got.value()).quo(fracOf(t.factor))
		f.within(t.variable, x, x)
	}
	f.count(i, got.Sub(f.filled[g]))
	if !whole {
		delete(f.moved, g)
	}
	f.order = f.order[1:]
	return whole
}

// leap tries to let many entries at once count whole, twice as many each time it goes
// well: where the entries of several groups take turns, one by one would take long.
func (f *filler) leap(run int) {
	if run < 4 || len(f.search.whole) > 0 {
		return
	}
	for many := 8; len(f.order) > 0; many *= 2 {
		f.tell()
		tried := map[int]Amount{}
		for _, i := range f.order[:min(many, len(f.order))] {
			g := f.groupOf[i]
			if f.full[g] {
				continue
			}
			if _, ok := tried[g]; !ok {
				tried[g] = f.filled[g]
			}
			tried[g] = tried[g].Add(f.entries[i].limit)
		}
		f.take()
		f.aim(nil)
		groups := slices.Sorted(maps.Keys(tried))
		for _, g := range groups {
			f.atLeastOf(g, tried[g])
		}
		if f.restore(nil) == holds {
			f.pass()
			continue
		}
		for _, g := range groups {
			f.atLeastOf(g, f.filled[g])
		}
		f.stale = f.restore(nil) != holds
		return
	}
}

// asTheyStand lets the entries count what the solution at hand gives their group.
func (f *filler) asTheyStand() {
	for _, i := range f.order {
		g := f.groupOf[i]
		if !f.full[g] {
			f.count(i, f.entries[i].limit.Min(Amount{}.Max(f.amountNow(g).Sub(f.filled[g]))))
		}
	}
	f.open("which of equal claims count", frac{}, frac{})
}
