package journal

import (
	"context"
	"slices"

	"evidencevault/catalog"
)

// cycleAsked is the cycle that a letter asks about: the one named, that of the first
// claim named, or the present one. Bodies ask when a cycle is long closed.
func (j *Journal) cycleAsked(ctx context.Context, v *catalog.View, cert Certified, o LetterOptions) (catalog.Cycle, error) {
	cycles, err := v.Cycles(ctx, cert.ID)
	if err != nil {
		return cert.Cycle, err
	}
	want := cert.Cycle.ID
	switch {
	case o.Cycle != "":
		i, err := cycleNamed(cert.Name, cycles, o.Cycle)
		return cycles[max(i, 0)], err
	case len(o.Claims) > 0:
		claims, err := claimsOf(ctx, v, o.Claims, true)
		if err != nil {
			return cert.Cycle, err
		}
		if len(claims) > 0 && claims[0].Certification == cert.ID {
			want = claims[0].Cycle
		}
	}
	i := slices.IndexFunc(cycles, func(c catalog.Cycle) bool { return c.ID == want })
	return cycles[i], nil
}
