package credit

import "slices"

// TagElsewhere is on each claim whose activity is claimed for another certification
// too. It is put on by who knows all the claims; a scheme reads it as any other tag. The
// same with a colon and the id of that other certification's scheme names it.
const TagElsewhere = "elsewhere"

// ElsewhereIn is the tag of a claim whose activity is claimed under the scheme id too.
func ElsewhereIn(id string) string { return TagElsewhere + ":" + id }

// Refuses returns the first cap that counts nothing of the claim if it has these tags
// besides its own, and something may count without them; false if there is none. Start
// is the first day of the cycle.
func (s Scheme) Refuses(c Claim, facts Facts, start Date, tags ...string) (Cap, bool) {
	tagged := c
	tagged.Tags = slices.Concat(c.Tags, tags)
	for _, k := range s.Caps {
		if k.counts() || k.Most.Sign() > 0 || !facts.Holds(k.If) || !k.Begun.Holds(start) {
			continue
		}
		if k.Selection.Holds(tagged) && !k.Selection.Holds(c) {
			return k, true
		}
	}
	return Cap{}, false
}
