package credit

import "fmt"

// carryOut works out what may pass into the next cycle if this one closed so.
func (c *calculation) carryOut() {
	k := c.scheme.CarryOver
	if !k.Set {
		return
	}
	own := c.st.Counted.Sub(c.st.CarryIn)
	amount, text := c.excess(own)
	if why := c.carryBarred(own); why != "" {
		amount, text = Amount{}, why
	}
	c.st.CarryOut = amount
	c.note(Derivation{Step: StepCarry, Rule: "carry-over", Origin: k.Origin, Text: text, Before: own, After: amount})
}

// carryBarred says why nothing passes, if a condition is not met.
func (c *calculation) carryBarred(own Amount) string {
	k := c.scheme.CarryOver
	switch {
	case k.HasIfOver && c.st.Counted.AtMost(k.IfOver):
		return "nothing passes: the total is not above " + fractionText(k.IfOver)
	case k.IfMet && !c.allMet():
		return "nothing passes before all that is asked is met"
	case k.NotFirst && c.input.Facts.Holds("first_cycle"):
		return "nothing passes out of the first cycle"
	case k.NoneIfUsed && len(c.input.Carried) > 0 && own.Cmp(c.target) < 0:
		return "nothing passes: credit carried in was needed"
	}
	return ""
}

func (c *calculation) excess(own Amount) (Amount, string) {
	k := c.scheme.CarryOver
	over := c.target
	if k.HasOver {
		over = k.Over
	}
	selected, late, part := c.carrySums()
	excess := own.Sub(over)
	text := fmt.Sprintf("own %s less %s", fractionText(own), fractionText(over))
	selects := !k.Selection.Empty()
	switch {
	case k.FromAwarded:
		all := c.awardedAll()
		excess = all.Sub(c.st.Counted.Min(c.target))
		text = fmt.Sprintf("awarded %s less %s used", fractionText(all), fractionText(c.st.Counted.Min(c.target)))
	case selects && k.HasOver:
		excess = selected.Sub(over)
		text = fmt.Sprintf("counted of what may pass %s less %s", fractionText(selected), fractionText(over))
	case selects:
		excess = excess.Min(selected)
		text += ", of what may pass " + fractionText(selected)
	}
	if from := c.carryFrom(); !from.IsZero() {
		excess = excess.Min(late)
		text += fmt.Sprintf(", earned from %v on %s", from, fractionText(late))
	}
	if k.HasPart {
		excess = excess.Min(k.PartMost.Add(own.Sub(part)))
		text += fmt.Sprintf(", of one part at most %s", fractionText(k.PartMost))
	}
	excess = Amount{}.Max(excess)
	if k.HasMost {
		excess = excess.Min(k.Most)
		text += ", at most " + fractionText(k.Most)
	}
	if k.Whole {
		whole, all := c.wholeSum(own)
		excess = whole
		text += ", whole activities only"
		if !all {
			text += " (the best of those tried; there are too many sums to try all)"
		}
	}
	return excess, text + " = " + fractionText(excess)
}

// carryFrom is the first day whose credit may pass; zero: every day.
func (c *calculation) carryFrom() Date {
	k := c.scheme.CarryOver
	if k.LastMonths > 0 && !c.cycle.End.IsZero() {
		return c.cycle.End.AddDays(1).AddMonths(-k.LastMonths)
	}
	return k.EarnedFrom
}

// carrySums returns what is counted of the selection, what the selection was awarded
// late, and what is counted of the part with a ceiling of its own.
func (c *calculation) carrySums() (selected, late, part Amount) {
	k, from := c.scheme.CarryOver, c.carryFrom()
	for _, e := range c.entries {
		if e.carried {
			continue
		}
		if k.Selection.Holds(e.Claim) {
			selected = selected.Add(e.counted)
			if !e.placed.Before(from) {
				late = late.Add(e.awarded)
			}
		}
		if k.HasPart && k.Part.Holds(e.Claim) {
			part = part.Add(e.counted)
		}
	}
	return selected, late, part
}

// awardedAll is every award, also what was brought in: the total that is taken off it
// holds both, so that the credit brought in pays for what it paid in the total.
func (c *calculation) awardedAll() Amount {
	var sum Amount
	for _, e := range c.entries {
		sum = sum.Add(e.awarded)
	}
	return sum
}
