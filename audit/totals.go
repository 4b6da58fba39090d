package audit

import (
	"cmp"

	"evidencevault/credit"
)

// Totals part what is handed over from the whole cycle. The two differ when only some of
// the claims are handed over; what counts is always worked out over the whole cycle.
type Totals struct {
	Unit       string `json:"unit"`
	HandedOver Total  `json:"handed_over"` // of the claims that are handed over
	WholeCycle Total  `json:"whole_cycle"` // of all claims of the cycle
}

// Total is what some claims come to.
type Total struct {
	Claims     int              `json:"claims"`
	Awarded    credit.Amount    `json:"awarded"`
	Counted    credit.Amount    `json:"counted"`
	Categories []CategoryAmount `json:"categories"` // those with a claim, in the scheme's order
}

// CategoryAmount is what some claims come to in one category.
type CategoryAmount struct {
	ID      string         `json:"id"`
	Title   string         `json:"title"`
	Claims  int            `json:"claims"`
	Awarded credit.Amount  `json:"awarded"`
	Counted credit.Amount  `json:"counted"`
	Cap     *credit.Amount `json:"cap"` // over this category and the whole cycle; null: none
}

// some reports whether anything of the cycle is not handed over.
func (d Dossier) some() bool { return !d.Asked.All || len(d.Asked.LeftOut) > 0 }

// counting is the category in which each claim counts, by the claim.
func (d Dossier) counting() map[string]string {
	in := map[string]string{}
	for _, step := range d.Statement.Derivations {
		if step.Claim != "" && step.Category != "" {
			in[step.Claim] = step.Category
		}
	}
	for _, list := range [][]credit.ClaimResult{d.Statement.Claims, d.Statement.CarriedIn} {
		for _, r := range list {
			in[r.ID] = cmp.Or(r.Category, r.CountsAs, in[r.ID])
		}
	}
	return in
}

// totals works out both.
func (d Dossier) totals() Totals {
	in, claims := d.counting(), map[string]int{}
	for _, r := range d.Statement.Claims {
		claims[in[r.ID]]++
	}
	for _, r := range d.Statement.CarriedIn {
		claims[in[r.ID]]++
	}
	handed := map[string]CategoryAmount{}
	t := Totals{Unit: d.Statement.Unit, WholeCycle: Total{Claims: d.Asked.Of, Counted: d.Statement.Counted, Categories: []CategoryAmount{}},
		HandedOver: Total{Claims: len(d.Claims), Categories: []CategoryAmount{}}}
	for _, e := range d.Claims {
		of := handed[cmp.Or(in[e.ID], e.Category)]
		of.Claims, of.Awarded, of.Counted = of.Claims+1, of.Awarded.Add(e.Awarded), of.Counted.Add(e.Counted)
		handed[cmp.Or(in[e.ID], e.Category)] = of
		t.HandedOver.Awarded, t.HandedOver.Counted = t.HandedOver.Awarded.Add(e.Awarded), t.HandedOver.Counted.Add(e.Counted)
	}
	for _, c := range d.Statement.Categories {
		t.WholeCycle.Awarded = t.WholeCycle.Awarded.Add(c.Awarded)
		title := cmp.Or(d.titles[c.ID], c.ID)
		if claims[c.ID] > 0 || c.Awarded.Sign() > 0 {
			t.WholeCycle.Categories = append(t.WholeCycle.Categories, CategoryAmount{c.ID, title, claims[c.ID], c.Awarded, c.Counted, c.Cap})
		}
		if of, ok := handed[c.ID]; ok {
			t.HandedOver.Categories = append(t.HandedOver.Categories, CategoryAmount{c.ID, title, of.Claims, of.Awarded, of.Counted, c.Cap})
		}
	}
	return t
}
