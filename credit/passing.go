package credit

import "slices"

// mostWhole bounds how many activities are looked at for the sum of whole ones.
const mostWhole = 400

// Passing says of which claims the credit is that passes into the next cycle: as much
// as CarryOut says, the latest earned first, since it lives the longest. Where whole
// activities pass, these are the ones whose awards make the sum. ID is the claim's, and
// "" for what no single claim has left, which a rule over sums can ask for. It is worked
// out anew; a Statement that [Calculate] did not make passes nothing. The error is that of [Calculate].
func (s Statement) Passing() ([]Carried, error) {
	if s.given == nil || s.CarryOut.Sign() <= 0 {
		return nil, nil
	}
	c, err := calculate(s.given.scheme, s.given.input)
	if err != nil {
		return nil, err
	}
	p := passing{c: &c}
	p.share(c.st.CarryOut)
	return p.list, nil
}

// passing shares out what passes into the next cycle.
type passing struct {
	c    *calculation
	list []Carried
}

func (p *passing) share(left Amount) {
	c := p.c
	list := c.passable()
	if c.scheme.CarryOver.Whole {
		if whole, ok := wholeOnes(list, left); ok {
			for _, e := range whole {
				p.pass(e, e.awarded)
			}
			return
		}
	}
	used := map[*entry]Amount{}
	part := c.scheme.CarryOver.PartMost
	take := func(most func(*entry) Amount, bounded bool) {
		for _, e := range list {
			amount := left.Min(most(e).Sub(used[e]))
			inPart := bounded && c.scheme.CarryOver.HasPart && c.scheme.CarryOver.Part.Holds(e.Claim)
			if inPart {
				amount = amount.Min(part)
			}
			if amount.Sign() <= 0 {
				continue
			}
			if used[e], left = used[e].Add(amount), left.Sub(amount); inPart {
				part = part.Sub(amount)
			}
		}
	}
	awarded := func(e *entry) Amount { return e.awarded }
	if c.scheme.CarryOver.FromAwarded {
		take(func(e *entry) Amount { return e.awarded.Sub(e.counted) }, true)
	}
	take(func(e *entry) Amount { return e.counted }, true)
	take(awarded, true)
	take(awarded, false)
	for _, e := range list {
		if used[e].Sign() > 0 {
			p.pass(e, used[e])
		}
	}
	if left.Sign() > 0 {
		p.list = append(p.list, Carried{Amount: left, Category: c.scheme.CarryOver.Into})
	}
}

func (p *passing) pass(e *entry, amount Amount) {
	day := e.Date()
	if day.IsZero() {
		day = e.placed
	}
	p.list = append(p.list, Carried{ID: e.ID, Amount: amount, Category: p.c.scheme.CarryOver.Into, Tags: slices.Clone(e.Tags), Earned: day})
}

// passable lists what may pass, the latest first.
func (c *calculation) passable() []*entry {
	k, from := c.scheme.CarryOver, c.carryFrom()
	var list []*entry
	for i := range c.entries {
		e := &c.entries[i]
		if e.carried || e.left || e.awarded.Sign() <= 0 || !k.Selection.Holds(e.Claim) || e.placed.Before(from) {
			continue
		}
		list = append(list, e)
	}
	slices.SortStableFunc(list, func(a, b *entry) int { return b.compare(a.Claim) })
	return list
}

// wholeOnes returns entries whose awards sum up to want, the latest that can be had, and
// false if none were found.
func wholeOnes(list []*entry, want Amount) ([]*entry, bool) {
	if len(list) > mostWhole {
		return nil, false
	}
	var out []*entry
	for i, e := range list {
		rest := want.Sub(e.awarded)
		if rest.Sign() < 0 {
			continue
		}
		var awards []Amount
		for _, other := range list[i+1:] {
			if other.awarded.AtMost(rest) {
				awards = append(awards, other.awarded)
			}
		}
		if rest.Sign() > 0 {
			if sum, _ := largestSum(awards, rest); !sum.Equal(rest) {
				continue
			}
		}
		if out, want = append(out, e), rest; want.Sign() == 0 {
			return out, true
		}
	}
	return nil, false
}
