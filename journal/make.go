package journal

import (
	"context"
	"fmt"
	"maps"
	"slices"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// record writes the events of a plan.
func (p *plan) record(ctx context.Context, tx *catalog.Tx, got *made) error {
	got.warnings = p.warnings
	if p.receipt != nil {
		return p.recordReceipt(ctx, tx, got)
	}
	for _, u := range p.units {
		if u.row > 0 {
			if err := record(ctx, tx, &catalog.PaperConfirmed{Paper: p.ID, Row: u.row}); err != nil {
				return err
			}
		}
		claim, err := p.recordUnit(ctx, tx, u)
		if err != nil {
			return err
		}
		got.claims = append(got.claims, claim)
	}
	if len(p.skip) > 0 {
		if err := record(ctx, tx, &catalog.RowsSkipped{Paper: p.ID, Rows: p.skip}); err != nil {
			return err
		}
	}
	if !p.final {
		got.waiting = append(got.waiting, p.Ref())
		return nil
	}
	return record(ctx, tx, &catalog.PaperConfirmed{Paper: p.ID})
}

// recordUnit makes one activity with its proofs and its claim, and returns the claim.
func (p *plan) recordUnit(ctx context.Context, tx *catalog.Tx, u unit) (string, error) {
	values := maps.Clone(u.values)
	delete(values, paper.FieldCategory) // a matter of the claim
	activity, err := recordActivity(ctx, tx, catalog.ActivityMade{Paper: p.ID, Row: u.row}, values)
	if err != nil {
		return "", err
	}
	for _, f := range slices.Sorted(maps.Keys(texts(values))) {
		proof := p.proof(activity, f, values[f], u.row)
		if err := record(ctx, tx, &proof); err != nil {
			return "", err
		}
	}
	return recordClaim(ctx, tx, catalog.ClaimMade{Activity: activity, Certification: p.cert.ID, Cycle: u.cycle.ID, Category: p.category.ID})
}

func recordActivity(ctx context.Context, tx *catalog.Tx, a catalog.ActivityMade, values map[paper.Field]paper.Value) (string, error) {
	number, err := tx.Next(ctx, catalog.LetterActivity)
	if err != nil {
		return "", err
	}
	a.ID, a.Number, a.Fields, a.By = catalog.NewID(), number, texts(values), map[paper.Field]string{}
	for f := range a.Fields {
		a.By[f] = by(values[f])
	}
	return a.ID, record(ctx, tx, &a)
}

func recordClaim(ctx context.Context, tx *catalog.Tx, c catalog.ClaimMade) (string, error) {
	number, err := tx.Next(ctx, catalog.LetterClaim)
	if err != nil {
		return "", err
	}
	c.ID, c.Number = catalog.NewID(), number
	return c.ID, record(ctx, tx, &c)
}

// by says who says a value; what was read says the program.
func by(v paper.Value) string {
	if v.By == paper.ByPerson {
		return paper.ByPerson
	}
	return paper.ByProgram
}

// proof links a field of an activity to its place in the paper: where it was read, or
// the first page when a person set it.
func (s seen) proof(activity string, f paper.Field, v paper.Value, row int) catalog.ProofLinked {
	p := catalog.ProofLinked{
		Activity: activity, Field: f, Evidence: s.SHA256, Paper: s.ID, Page: s.firstPage(), Value: v.Text, By: by(v),
	}
	if p.By == paper.ByPerson {
		return p
	}
	p.Reading = s.reading.Event
	if v.Place.Page > 0 {
		p.Page = v.Place.Page
	}
	if row > 0 && rowField(f) {
		p.Row = row
	}
	return p
}

func (s seen) firstPage() int { return max(1, s.From, s.reading.From) }

// warn gathers what a person should know about a confirmation that is done all the
// same. Among the clear ones, a paper whose activity seems to be claimed already is
// not: it would count twice without anybody having looked.
func (j *Journal) warn(ctx context.Context, v *catalog.View, p *plan, o ConfirmOptions) error {
	add := func(text string) { p.warnings = append(p.warnings, Warning{Paper: p.Ref(), Text: text}) }
	if p.receipt != nil {
		return nil
	}
	if text := notAccepted(p.category, string(p.kind)); text != "" {
		add(text)
	}
	if len(p.units) > 0 && len(p.names) > 0 {
		if a := p.units[0].values[paper.FieldAttendee]; a.By == paper.ByPerson && a.Text != "" && !namesOne(a.Text, p.names) {
			add(fmt.Sprintf("%s is not the name of the holder, %s", a.Text, p.names[0]))
		}
	}
	for _, u := range p.units {
		text, err := j.outside(ctx, v, p.cert, u.cycle, p.category.ID, texts(u.values))
		if err != nil {
			return err
		}
		if text != "" {
			add(rowText(u.row) + text)
		}
		twin, err := twinOf(ctx, v, p.cert.ID, texts(u.values))
		if err != nil {
			return err
		}
		if twin != "" && o.clear {
			return &StateError{Paper: p.Ref(), State: "claimed, it seems", Now: []string{twin},
				Want: fmt.Sprintf("use attach %s %s, or confirm %s by itself if it is another activity", twin, p.Ref(), p.Ref())}
		}
		if twin != "" {
			add(rowText(u.row) + "it looks like the activity of " + twin + "; if it is, undo " + p.Ref() + " and use attach")
		}
	}
	return nil
}

func rowText(row int) string {
	if row == 0 {
		return ""
	}
	return fmt.Sprintf("row %d: ", row)
}

// notAccepted says that a category does not accept a kind of paper, or "".
func notAccepted(c credit.Category, kind string) string {
	if len(c.Accepts) == 0 || kind == "" || slices.Contains(c.Accepts, kind) {
		return ""
	}
	return fmt.Sprintf("category %s does not accept a paper of the kind %s; an auditor may refuse it", c.ID, kind)
}

// outside says why an activity counts 0 today whatever else there is, or "".
func (j *Journal) outside(ctx context.Context, v *catalog.View, cert Certified, cycle catalog.Cycle, category string, fields map[paper.Field]string) (string, error) {
	rules, err := j.Scheme(ctx, v, cycle.Scheme)
	if err != nil {
		return "", err
	}
	claim, err := ruleClaim("it", category, fields)
	if err != nil {
		return "", err
	}
	st, err := credit.Calculate(rules, credit.Input{Cycle: credit.Period{Start: cycle.Start, End: cycle.End}, Facts: cert.Facts, Claims: []credit.Claim{claim}})
	if err != nil {
		return "", err
	}
	text := outsideText(st, "it")
	if text != "" {
		if text, err = inClosedCycle(ctx, v, cert, claim.Date(), text); err != nil {
			return "", err
		}
	}
	if today := credit.DateOf(j.now()); text == "" && today.Before(claim.Date()) {
		text = fmt.Sprintf("dated %s, which is still to come: counts 0 until then; is the date right?", claim.Date())
	}
	return text, nil
}

// outsideOf returns why claims of a cycle count nothing, by their numbers, and keeps the
// answer in known: looking through a statement once for each claim takes long.
func outsideOf(known map[string]map[string]string, cycle string, st credit.Statement) map[string]string {
	if list, ok := known[cycle]; ok {
		return list
	}
	list := map[string]string{}
	for _, d := range st.Derivations {
		if d.Step == credit.StepOutside && list[d.Claim] == "" {
			list[d.Claim] = d.Text
		}
	}
	known[cycle] = list
	return list
}

func outsideText(st credit.Statement, claim string) string {
	for _, d := range st.OfClaim(claim) {
		if d.Step == credit.StepOutside {
			return d.Text
		}
	}
	return ""
}

// twinOf returns the claim of this certification whose activity has the same title
// and the same days, or "".
func twinOf(ctx context.Context, v *catalog.View, certification string, fields map[paper.Field]string) (string, error) {
	claims, err := v.Claims(ctx, catalog.ClaimFilter{Certification: certification})
	if err != nil {
		return "", err
	}
	activities, err := v.Activities(ctx)
	if err != nil {
		return "", err
	}
	byID := make(map[string]catalog.Activity, len(activities))
	for _, a := range activities {
		byID[a.ID] = a
	}
	for _, c := range claims {
		a := byID[c.Activity]
		if sameText(a.Fields[paper.FieldTitle], fields[paper.FieldTitle]) && a.Fields[paper.FieldEnd] == fields[paper.FieldEnd] &&
			a.Fields[paper.FieldStart] == fields[paper.FieldStart] {
			return c.Ref(), nil
		}
	}
	return "", nil
}
