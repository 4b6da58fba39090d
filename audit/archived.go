package audit

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/journal"
)

// The records of a closing, below data/ of its archive.
const (
	recordStanding     = "records/standing.json"     // as standing --json printed it
	recordStatement    = "records/statement.json"    // the same with every claim and how each figure came about
	recordClaims       = "records/claims.json"       // as claims --json printed them
	recordExplanations = "records/explanations.json" // by what was asked: see explanations
	recordClosing      = "records/closing.json"
	recordHead         = "records/log-head.txt" // signed, with the closing begun in it
)

// ClosingRecord is what the archive says of the closing itself.
type ClosingRecord struct {
	Certification string            `json:"certification"`
	Title         string            `json:"title"`
	Body          string            `json:"body"`
	Number        string            `json:"number,omitempty"` // that the body gave
	Holder        string            `json:"holder"`
	Cycle         int               `json:"cycle"` // from 1
	Start         credit.Date       `json:"start"`
	End           credit.Date       `json:"end"`
	On            credit.Date       `json:"on"`    // the day for which the figures hold
	Begun         int64             `json:"begun"` // number of the event in the log by which the closing was begun
	Scheme        string            `json:"scheme"`
	Version       string            `json:"version,omitempty"`
	SchemeSHA256  string            `json:"scheme_sha256"`
	Facts         credit.Facts      `json:"facts"`
	CarryOut      credit.Amount     `json:"carry_out"`
	Passing       []PassingRecord   `json:"passing"` // of which claims that is
	NextStart     credit.Date       `json:"next_start,omitzero"`
	NextEnd       credit.Date       `json:"next_end,omitzero"`
	Moves         []string          `json:"moves"`   // claims dated after the cycle, which went to the next
	Waiting       []string          `json:"waiting"` // papers that were not decided
	Unread        []string          `json:"unread"`
	Unproven      []string          `json:"unproven"` // claims that the packet leaves out
	Findings      []Weakness        `json:"findings"` // of the rehearsal
	Evidence      map[string]string `json:"evidence"` // first name by SHA-256
}

// PassingRecord is credit that passes into the next cycle.
type PassingRecord struct {
	Claim    string        `json:"claim,omitempty"`
	Amount   credit.Amount `json:"amount"`
	Category string        `json:"category,omitempty"` // that it becomes
	Tags     []string      `json:"tags"`
	Earned   credit.Date   `json:"earned,omitzero"`
}

// archived gathers everything that the archive of a closing holds.
func archived(ctx context.Context, j *journal.Journal, p ClosePreview, closing catalog.Closing) (Dossier, error) {
	name := p.Plan.Certification.Name
	d, err := Gather(ctx, j, name, closing.On)
	if err != nil {
		return d, err
	}
	d = d.WithoutUnproven()
	d.made = j.Today()
	claims, err := j.Claims(ctx, journal.ClaimsFilter{Certification: name, On: closing.On})
	if err != nil {
		return d, err
	}
	asked, err := explanations(ctx, j, d, claims, closing.On)
	if err != nil {
		return d, err
	}
	for _, r := range []struct {
		name string
		data any
	}{
		{recordStanding, []credit.Statement{d.Statement}},
		{recordStatement, credit.Calc{Statement: d.Statement, Explained: true}},
		{recordClaims, claims},
		{recordExplanations, asked},
		{recordClosing, closingRecord(p, d, closing)},
	} {
		data, err := printed(r.data)
		if err != nil {
			return d, fmt.Errorf("%s: %w", r.name, err)
		}
		d.records = append(d.records, record{r.name, data})
	}
	d.records = append(d.records, record{recordHead, []byte(d.Head)})
	return d, nil
}

// printed is v as the command prints JSON, so that what it prints of an archive are the
// bytes that lie there.
func printed(v any) ([]byte, error) {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	err := enc.Encode(v)
	return out.Bytes(), err
}

// explanations are the answers to everything that explain can be asked: "" is the whole,
// then each claim by its short number, "category NAME" and "minimum NAME".
func explanations(ctx context.Context, j *journal.Journal, d Dossier, claims []journal.Claim, on credit.Date) (map[string][]journal.Explanation, error) {
	asked := map[string]journal.ExplainFilter{"": {}}
	all := journal.ExplainFilter{Certification: d.Certification, On: on}
	for _, c := range claims {
		all.IDs = append(all.IDs, c.ID)
	}
	for _, c := range d.Statement.Categories {
		if c.Awarded.Sign() > 0 {
			asked["category "+c.ID] = journal.ExplainFilter{Category: c.ID}
		}
	}
	for _, m := range d.Statement.Minimums {
		asked["minimum "+m.ID] = journal.ExplainFilter{Minimum: m.ID}
	}
	out := make(map[string][]journal.Explanation, len(asked)+len(claims))
	if len(claims) > 0 {
		list, err := j.Explain(ctx, all)
		if err != nil {
			return nil, err
		}
		for _, e := range list {
			out[e.ID] = []journal.Explanation{e}
		}
	}
	for key, f := range asked {
		f.Certification, f.On = d.Certification, on
		list, err := j.Explain(ctx, f)
		if err != nil {
			return nil, err
		}
		out[key] = list
	}
	return out, nil
}

func closingRecord(p ClosePreview, d Dossier, closing catalog.Closing) ClosingRecord {
	plan := p.Plan
	r := ClosingRecord{
		Certification: d.Certification, Title: d.Title, Body: d.Body, Number: d.Number, Holder: d.Holder, Cycle: plan.Number,
		Start: plan.Certification.Cycle.Start, End: plan.Certification.Cycle.End, On: closing.On, Begun: closing.Event, Scheme: d.Scheme.ID,
		Version: d.Scheme.Version, SchemeSHA256: d.Scheme.SHA256, Facts: plan.Certification.Facts, CarryOut: d.Statement.CarryOut,
		Passing: []PassingRecord{}, Moves: some(plan.Moves), Waiting: some(plan.Waiting), Unread: some(plan.Unread), Unproven: some(d.Asked.LeftOut),
		Findings: p.Rehearsal.Findings, Evidence: map[string]string{},
	}
	if plan.Next == nil {
		r.CarryOut = credit.Amount{}
	} else {
		r.NextStart, r.NextEnd = plan.Next.Start, plan.Next.End
		for _, c := range plan.Passing {
			r.Passing = append(r.Passing, PassingRecord{c.ID, c.Amount, c.Category, some(c.Tags), c.Earned})
		}
	}
	for _, o := range d.Originals {
		r.Evidence[o.SHA256] = firstOf(o.Names)
	}
	return r
}

// some keeps an empty list from printing as null.
func some(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}
