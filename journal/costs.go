package journal

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// CostReport is what receipts add up to, as `costs --json` prints it. Each currency
// stands by itself; money paid back takes away.
type CostReport struct {
	Activities []ActivityCost `json:"activities"` // that have a receipt, in the order of their numbers
	Categories []CategoryCost `json:"categories"` // in the order of their names, then currencies
	PerCredit  []CreditCost   `json:"per_credit"` // of what counts and has a receipt
	Open       []Receipt      `json:"open"`       // paid, no certificate yet
	Sums       []Sum          `json:"sums"`       // of every receipt
	Refunds    []Sum          `json:"refunds"`    // of what was paid back, below 0
	Receipts   []CostReceipt  `json:"receipts"`   // every one that stands, in the order of their numbers
}

// CostReceipt is one receipt with the claims whose activity it paid for.
type CostReceipt struct {
	Receipt
	Claims []CostClaim `json:"claims"`
}

// CostClaim is a claim of an activity that was paid for.
type CostClaim struct {
	ID            string        `json:"id"`
	Certification string        `json:"certification"`
	Category      string        `json:"category"`
	Counted       credit.Amount `json:"counted"`
}

// ActivityCost is what one activity cost.
type ActivityCost struct {
	Cost
	Categories []string      `json:"categories"` // of its claims
	Counted    credit.Amount `json:"counted"`
}

// CategoryCost is what the activities claimed in one category cost, in one currency.
type CategoryCost struct {
	Certification string         `json:"certification"`
	Category      string         `json:"category"`
	Currency      string         `json:"currency"`
	Paid          credit.Amount  `json:"paid"`
	Counted       credit.Amount  `json:"counted"` // of the activities that were paid for
	PerCredit     *credit.Amount `json:"per_credit"`
}

// CostReport adds up the receipts that stand, with the credits that the activities
// count today for the certification; "" is every one.
func (j *Journal) CostReport(ctx context.Context, certification string) (CostReport, error) {
	r := CostReport{Activities: []ActivityCost{}, Categories: []CategoryCost{}, PerCredit: []CreditCost{}, Open: []Receipt{}, Receipts: []CostReceipt{}}
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		b, err := j.open(ctx, v, credit.Date{})
		if err != nil {
			return err
		}
		certs := b.certs
		if certification != "" {
			one, err := j.certified(ctx, v, certification, credit.Date{})
			if err != nil {
				return err
			}
			certs = []Certified{one}
		}
		b.addCosts(&r, certs)
		return nil
	})
	return r, err
}

func (b *book) addCosts(r *CostReport, certs []Certified) {
	var all, back []Receipt
	groups := map[string][]Receipt{}
	for _, row := range b.receipts {
		if row.Withdrawn {
			continue
		}
		shown := b.receipt(row.ID)
		all = append(all, shown)
		r.Receipts = append(r.Receipts, CostReceipt{shown, b.paidFor(row.Activity, certs)})
		if strings.HasPrefix(shown.Total, "-") {
			back = append(back, shown)
		}
		if shown.CostOf == "" {
			r.Open = append(r.Open, shown)
		} else {
			groups[shown.CostOf] = append(groups[shown.CostOf], shown)
		}
	}
	r.Sums, r.Refunds = Sums(all), Sums(back)
	for _, a := range b.activities {
		list := groups[a.Ref()]
		if len(list) == 0 {
			continue
		}
		c := ActivityCost{Cost: Cost{Activity: a.Ref(), Title: a.Fields[paper.FieldTitle], Sums: Sums(list)}, Categories: []string{}}
		for _, x := range list {
			c.Receipts = append(c.Receipts, x.ID)
		}
		b.claimCosts(r, &c, a.ID, certs)
		r.Activities = append(r.Activities, c)
	}
	slices.SortFunc(r.Activities, func(a, c ActivityCost) int { return compareRefs(a.Activity, c.Activity) })
	for i := range r.Categories {
		if c := &r.Categories[i]; c.Counted.Sign() > 0 {
			c.PerCredit = new(c.Paid.Div(c.Counted))
		}
	}
	slices.SortFunc(r.Categories, func(a, c CategoryCost) int {
		return cmp.Or(strings.Compare(a.Certification, c.Certification), strings.Compare(a.Category, c.Category), strings.Compare(a.Currency, c.Currency))
	})
	for _, cert := range certs {
		r.PerCredit = append(r.PerCredit, b.costPerCredit(cert)...)
	}
}

// paidFor returns the claims of an activity.
func (b *book) paidFor(activity string, certs []Certified) []CostClaim {
	list := []CostClaim{}
	for _, c := range b.claims {
		k := slices.IndexFunc(certs, func(x Certified) bool { return x.ID == c.Certification })
		if activity == "" || c.Withdrawn || c.Activity != activity || k < 0 {
			continue
		}
		result := b.results(c.Cycle)[c.Ref()]
		list = append(list, CostClaim{c.Ref(), certs[k].Name, c.Category, result.Counted})
	}
	return list
}

// claimCosts adds the cost of an activity to the categories in which it is claimed.
func (b *book) claimCosts(r *CostReport, cost *ActivityCost, activity string, certs []Certified) {
	for _, c := range b.claims {
		k := slices.IndexFunc(certs, func(x Certified) bool { return x.ID == c.Certification })
		if c.Withdrawn || c.Activity != activity || k < 0 {
			continue
		}
		result := b.results(c.Cycle)[c.Ref()]
		cost.Categories, cost.Counted = append(cost.Categories, c.Category), cost.Counted.Add(result.Counted)
		for _, s := range cost.Sums {
			i := slices.IndexFunc(r.Categories, func(x CategoryCost) bool {
				return x.Certification == certs[k].Name && x.Category == c.Category && x.Currency == s.Currency
			})
			if i < 0 {
				i = len(r.Categories)
				r.Categories = append(r.Categories, CategoryCost{Certification: certs[k].Name, Category: c.Category, Currency: s.Currency})
			}
			x := &r.Categories[i]
			x.Paid, x.Counted = x.Paid.Add(credit.MustAmount(s.Amount)), x.Counted.Add(result.Counted)
		}
	}
}
