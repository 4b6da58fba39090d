package journal

import (
	"evidencevault/catalog"
	"evidencevault/credit"
)

// earlier are the claims of the same certification's earlier cycles, which rules that
// look across cycles see: a course not again within nine years.
func (b *book) earlier(cycle catalog.Cycle) ([]credit.Claim, error) {
	var list []credit.Claim
	for _, c := range b.claims {
		before, known := b.cycles[c.Cycle]
		if c.Withdrawn || !known || c.Certification != cycle.Certification || !before.End.Before(cycle.Start) {
			continue
		}
		claim, err := ruleClaim(c.Ref(), c.Category, b.activities[c.Activity].Fields)
		if err != nil {
			return nil, err
		}
		list = append(list, claim)
	}
	return list, nil
}
