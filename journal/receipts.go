package journal

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
)

func (j *Journal) planReceipt(ctx context.Context, v *catalog.View, p *plan, values map[paper.Field]paper.Value, o ConfirmOptions) error {
	if o.Row > 0 || len(o.SkipRows) > 0 {
		return fmt.Errorf("%s: %w: a receipt has no rows; leave out --row and --skip-row", p.Ref(), ErrReference)
	}
	k, err := j.asker(ctx, v, o.Certification)
	if err != nil {
		return err
	}
	questions, values := k.ask(p.reading.Reading, values)
	if err := p.refuse(questions, nil); err != nil {
		return err
	}
	p.leaveOpen(questions, values)
	if values[paper.FieldCategory].Text != "" {
		p.warnings = append(p.warnings, Warning{Paper: p.Ref(), Text: "it is a receipt, so the category is passed over"})
	}
	values = maps.Clone(values)
	delete(values, paper.FieldCategory)
	p.receipt, p.final = &receiptPlan{values: values}, true
	if o.CostOf != "" {
		p.receipt.activity, err = activityOf(ctx, v, o.CostOf)
	}
	return err
}

// activityOf returns the UUID of the activity that a reference means: an activity, or
// the one behind a claim. The error wraps [ErrUnknown] for one that was withdrawn.
func activityOf(ctx context.Context, v *catalog.View, ref string) (string, error) {
	n, err := resolveOne(ctx, v, ref, catalog.LetterActivity, catalog.LetterClaim)
	if err != nil {
		return "", err
	}
	id := n.id
	if n.letter == catalog.LetterClaim {
		c, err := v.Claim(ctx, n.id)
		if err != nil {
			return "", err
		}
		id = c.Activity
	}
	a, err := v.Activity(ctx, id)
	if err == nil && a.Withdrawn {
		return "", fmt.Errorf("%s: %w: the activity %s was withdrawn", ref, ErrUnknown, a.Ref())
	}
	return id, err
}

func (p *plan) recordReceipt(ctx context.Context, tx *catalog.Tx, got *made) error {
	number, err := tx.Next(ctx, catalog.LetterReceipt)
	if err != nil {
		return err
	}
	r := catalog.ReceiptMade{ID: catalog.NewID(), Number: number, Paper: p.ID, Activity: p.receipt.activity, Fields: texts(p.receipt.values)}
	got.receipts = append(got.receipts, r.ID)
	return record(ctx, tx, &r, &catalog.PaperConfirmed{Paper: p.ID})
}

// Receipts returns every receipt that stands, in the order of their numbers: the cost
// of an activity, or paid without a certificate yet, then with the days since and the
// activities it may belong to.
func (j *Journal) Receipts(ctx context.Context) ([]Receipt, error) {
	list := []Receipt{}
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		b, err := j.open(ctx, v, credit.Date{})
		if err != nil {
			return err
		}
		for _, r := range b.receipts {
			if !r.Withdrawn {
				list = append(list, b.receipt(r.ID))
			}
		}
		return nil
	})
	return list, err
}

// Tie makes a receipt (R3, or the paper it was confirmed from) the cost of an activity
// (A7, or a claim of it); an empty activity unties it.
func (j *Journal) Tie(ctx context.Context, receipt, activity string) (Receipt, error) {
	var id string
	err := j.cat.Act(ctx, func(tx *catalog.Tx) error {
		r, err := receiptOf(ctx, &tx.View, receipt)
		if err != nil {
			return err
		}
		id = r.ID
		tied := catalog.ReceiptTied{ID: r.ID}
		if activity != "" {
			if tied.Activity, err = activityOf(ctx, &tx.View, activity); err != nil {
				return err
			}
		}
		if r.Activity == tied.Activity {
			return nil
		}
		return record(ctx, tx, &tied)
	})
	if err != nil {
		return Receipt{}, err
	}
	return j.receiptByID(ctx, id)
}

// Letter returns the short letter, plain text, that asks the provider for the
// certificate that a receipt lacks. The error wraps [ErrNothing] for a receipt that
// is the cost of an activity.
func (j *Journal) Letter(ctx context.Context, receipt string) (string, error) {
	r, err := receiptOf(ctx, &j.cat.View, receipt)
	if err != nil {
		return "", err
	}
	shown, err := j.receiptByID(ctx, r.ID)
	if err != nil {
		return "", err
	}
	if shown.CostOf != "" {
		return "", fmt.Errorf("%s: %w: it is a cost of %s, so no certificate is owed", shown.ID, ErrNothing, shown.CostOf)
	}
	names, err := holderNames(ctx, &j.cat.View)
	if err != nil {
		return "", err
	}
	return letterText(names[0], shown, j.Today()), nil
}

func receiptOf(ctx context.Context, v *catalog.View, ref string) (catalog.Receipt, error) {
	n, err := resolveOne(ctx, v, ref, catalog.LetterReceipt, catalog.LetterPaper)
	if err != nil {
		return catalog.Receipt{}, err
	}
	if n.letter == catalog.LetterReceipt {
		r, err := v.Receipt(ctx, n.id)
		if err == nil && r.Withdrawn {
			return r, fmt.Errorf("%s: %w: it was withdrawn", r.Ref(), ErrUnknown)
		}
		return r, err
	}
	list, err := v.ReceiptsOf(ctx, n.id)
	if err != nil {
		return catalog.Receipt{}, err
	}
	for _, r := range list {
		if !r.Withdrawn {
			return r, nil
		}
	}
	return catalog.Receipt{}, fmt.Errorf("%s: %w: no receipt was confirmed from it; see receipts", ref, ErrUnknown)
}

func (j *Journal) receiptByID(ctx context.Context, id string) (Receipt, error) {
	var shown Receipt
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		b, err := j.open(ctx, v, credit.Date{})
		if err != nil {
			return err
		}
		shown = b.receipt(id)
		return nil
	})
	return shown, err
}

// receipt returns the receipt of this UUID as it is shown.
func (b *book) receipt(id string) Receipt {
	i := slices.IndexFunc(b.receipts, func(r catalog.Receipt) bool { return r.ID == id })
	if i < 0 {
		return Receipt{}
	}
	r := b.receipts[i]
	f := r.Fields
	shown := Receipt{
		ID: r.Ref(), Paper: b.papers[r.Paper].Ref(), Provider: f[paper.FieldProvider], Title: f[paper.FieldTitle],
		Date: dayOf(f[paper.FieldIssue]), Start: dayOf(f[paper.FieldStart]), End: dayOf(f[paper.FieldEnd]), Total: f[paper.FieldTotal],
		State: ReceiptCost, Proposal: []Match{}, SHA256: b.papers[r.Paper].SHA256, File: firstName(b.evidence[b.papers[r.Paper].SHA256]),
	}
	if a, ok := b.activities[r.Activity]; ok {
		shown.CostOf = a.Ref()
		return shown
	}
	since := shown.Date
	if since.IsZero() {
		since = credit.DateOf(r.Made.In(b.now.Location()))
	}
	shown.State, shown.Days = ReceiptOpen, new(credit.DateOf(b.now).Sub(since))
	shown.Proposal = matches(event{title: shown.Title, provider: shown.Provider, start: shown.Start, end: shown.End}, shown.Date, b.events())
	return shown
}

// events returns the activities that stand, as receipts are compared with them.
func (b *book) events() []event {
	var list []event
	for _, a := range b.activities {
		if !a.Withdrawn {
			list = append(list, event{id: a.Ref(), title: a.Fields[paper.FieldTitle], provider: a.Fields[paper.FieldProvider],
				start: dayOf(a.Fields[paper.FieldStart]), end: dayOf(a.Fields[paper.FieldEnd])})
		}
	}
	slices.SortFunc(list, func(a, c event) int { return strings.Compare(a.id, c.id) })
	return list
}

// dayOf reads a canonical date; "" gives the zero Date.
func dayOf(text string) credit.Date {
	d, err := credit.ParseDate(text)
	if err != nil {
		return credit.Date{}
	}
	return d
}

// Sums adds up what receipts cost, exactly, one sum for each currency, in the order of
// the currencies' codes. Money paid back takes away.
func Sums(receipts []Receipt) []Sum {
	type total struct {
		amount   credit.Amount
		decimals int
	}
	by := map[string]total{}
	for _, r := range receipts {
		m, err := paper.ParseMoney(r.Total)
		if err != nil {
			continue
		}
		t := by[m.Currency]
		_, part, _ := strings.Cut(m.Amount, ".")
		by[m.Currency] = total{t.amount.Add(credit.MustAmount(m.Amount)), max(t.decimals, len(part))}
	}
	sums := []Sum{}
	for _, currency := range slices.Sorted(maps.Keys(by)) {
		t := by[currency]
		sums = append(sums, Sum{Currency: currency, Amount: t.amount.Rat().FloatString(t.decimals)})
	}
	return sums
}

// Cost is what one activity cost, as `costs --json` prints it.
type Cost struct {
	Activity string   `json:"activity"`
	Title    string   `json:"title"`
	Receipts []string `json:"receipts"`
	Sums     []Sum    `json:"sums"`
}

// Costs returns what each activity with a receipt cost, in the order of the
// activities' numbers; a last one without an activity holds what has no certificate
// yet.
func (j *Journal) Costs(ctx context.Context) ([]Cost, error) {
	receipts, err := j.Receipts(ctx)
	if err != nil {
		return nil, err
	}
	groups := map[string][]Receipt{}
	for _, r := range receipts {
		groups[r.CostOf] = append(groups[r.CostOf], r)
	}
	costs := []Cost{}
	for _, ref := range slices.SortedFunc(maps.Keys(groups), compareRefs) {
		c := Cost{Activity: ref, Receipts: []string{}, Sums: Sums(groups[ref])}
		for _, r := range groups[ref] {
			c.Receipts = append(c.Receipts, r.ID)
		}
		if ref != "" {
			id, err := activityOf(ctx, &j.cat.View, ref)
			if err != nil {
				return nil, err
			}
			a, err := j.cat.Activity(ctx, id)
			if err != nil {
				return nil, err
			}
			c.Title = a.Fields[paper.FieldTitle]
		}
		costs = append(costs, c)
	}
	return costs, nil
}

// compareRefs orders A2 before A10, and "" last.
func compareRefs(a, b string) int {
	if a == "" || b == "" {
		return len(b) - len(a)
	}
	if len(a) != len(b) {
		return len(a) - len(b)
	}
	return strings.Compare(a, b)
}
