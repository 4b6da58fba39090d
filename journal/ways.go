package journal

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/credit/scheme"
	"evidencevault/extract/paper"
)

// PossibleFile is the name of the file of possible activities in a vault's folder.
const PossibleFile = "possible.toml"

// ErrPossible says that a file of possible activities cannot be used.
var ErrPossible = errors.New("the possible activities cannot be read")

// PlanOptions says how a plan is made. The zero value plans from today with the file
// in the vault's folder, the cheapest way first.
type PlanOptions struct {
	Certification string
	On            credit.Date
	File          string   // of possible activities; "" means [PossibleFile] in the vault
	Activities    []string // further ones, each as "title=Course; category=course; hours=6"
	ByHours       bool     // every category with an hourly rate besides
	HoursPerWeek  credit.Amount
	ByTime        bool
	Steps         int // of the search; 0 means [credit.PlanSteps]
	Stop          func() bool
}

// possibles are the activities that a plan is made of, and where each came from.
type possibles struct {
	scheme.Possible
	path string // of the file; "" if there is none
	data []byte
}

// Plan says what is missing and how it can be closed. The error wraps [ErrPossible]
// when the file of possible activities is not in order; it names line and column.
func (j *Journal) Plan(ctx context.Context, o PlanOptions) (PlanReport, error) {
	report, _, err := j.planWays(ctx, o)
	return report, err
}

func (j *Journal) planWays(ctx context.Context, o PlanOptions) (PlanReport, possibles, error) {
	var report PlanReport
	var from possibles
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		cert, err := j.certified(ctx, v, o.Certification, o.On)
		if err != nil {
			return err
		}
		b, err := j.open(ctx, v, o.On)
		if err != nil {
			return err
		}
		if from, err = j.possibles(b, cert, o); err != nil {
			return err
		}
		report, err = b.plan(cert, from, o)
		return err
	})
	return report, from, err
}

// plan makes the plan of a certification.
func (b *book) plan(cert Certified, from possibles, o PlanOptions) (PlanReport, error) {
	in := b.inputs[cert.Cycle.ID]
	b.done(cert, from.Activities)
	plan, err := credit.MakePlan(cert.Scheme, credit.PlanInput{Input: in, Possible: from.Activities, Budget: from.Budget, ByTime: o.ByTime, Steps: o.Steps, Stop: o.Stop})
	if err != nil {
		return PlanReport{}, fmt.Errorf("certification %s: %w", cert.Name, err)
	}
	r := newPlanReport(cert.Name, cert.Scheme, in.On, from.Activities, from.Budget, plan, o.ByTime)
	r.File = from.path
	r.CostPerCredit = listed(b.costPerCredit(cert))
	if len(from.Activities) == 0 && !plan.Ahead.Meets && !plan.Nothing && !plan.Over {
		r.Notes = append(r.Notes, "no possible activity is known; list some in "+PossibleFile+", or name them with --activity")
	}
	return r, nil
}

// possibles gathers what could still be done.
func (j *Journal) possibles(b *book, cert Certified, o PlanOptions) (possibles, error) {
	from := possibles{path: o.File}
	var problems []scheme.Problem
	if from.path == "" {
		from.path = filepath.Join(j.cat.Dir(), PossibleFile)
	}
	data, err := os.ReadFile(from.path)
	switch {
	case err == nil:
		from.data = data
		if from.Possible, problems = scheme.ParsePossible(filepath.Base(from.path), data); len(problems) == 0 {
			problems = from.Unknown(b.categories())
		}
	case o.File != "" || !errors.Is(err, fs.ErrNotExist):
		return from, fmt.Errorf("possible activities: %w", err)
	default:
		from.path = ""
	}
	if len(problems) > 0 {
		return from, problemsError(problems)
	}
	for i, text := range o.Activities {
		a, err := scheme.ParseActivity(text)
		if err == nil && !slices.Contains(b.categories(), a.Category) {
			err = knownCategory(cert.Scheme, a.Category)
		}
		if err != nil {
			return from, fmt.Errorf("activity %d: %w: %w", i+1, ErrPossible, err)
		}
		from.Activities = append(from.Activities, a)
	}
	if o.ByHours || len(from.Activities) == 0 {
		for _, c := range cert.Scheme.Categories {
			if p, ok := c.ByHours(); ok {
				from.Activities = append(from.Activities, p)
			}
		}
	}
	from.Activities = slices.DeleteFunc(from.Activities, func(a credit.Possible) bool {
		_, ok := cert.Scheme.Category(a.Category)
		return !ok // it belongs to another certification
	})
	if o.HoursPerWeek.Sign() > 0 {
		from.Budget.HoursPerWeek = o.HoursPerWeek
	}
	return from, nil
}

// problemsError puts every problem into one line.
func problemsError(list []scheme.Problem) error {
	text := make([]string, min(len(list), 5))
	for i := range text {
		text[i] = list[i].String()
	}
	if n := len(list) - len(text); n > 0 {
		text = append(text, fmt.Sprintf("and %d more", n))
	}
	return fmt.Errorf("%w: %s", ErrPossible, strings.Join(text, "; "))
}

// categories lists the categories of every certification.
func (b *book) categories() []string {
	var ids []string
	for _, c := range b.certs {
		for _, k := range c.Scheme.Categories {
			ids = append(ids, k.ID)
		}
	}
	return ids
}

// done finds the claims that possible activities have become: in the same category,
// with the same title and, where both say so, provider, on one of the days. An activity
// without days counts as done only from the day on which it was settled on.
func (b *book) done(cert Certified, list []credit.Possible) {
	taken := map[string]bool{}
	for i := range list {
		p := &list[i]
		if p.Rate {
			continue
		}
		for _, c := range b.claims {
			if !c.Withdrawn && c.Cycle == cert.Cycle.ID && !taken[c.Ref()] && c.Category == p.Category && b.became(*p, b.activities[c.Activity]) {
				taken[c.Ref()] = true
				p.Done = append(p.Done, c.Ref())
			}
		}
	}
}

func (b *book) became(p credit.Possible, a catalog.Activity) bool {
	e := event{provider: a.Fields[paper.FieldProvider], start: dayOf(a.Fields[paper.FieldStart]), end: dayOf(a.Fields[paper.FieldEnd])}
	if !sameText(p.Title, a.Fields[paper.FieldTitle]) || p.Provider != "" && e.provider != "" && !sameText(p.Provider, e.provider) {
		return false
	}
	first, last := span(e)
	within := func(d credit.Date) bool { return !d.Before(first) && !d.After(last) }
	switch {
	case first.IsZero():
		return false
	case len(p.Dates) > 0:
		return slices.ContainsFunc(p.Dates, within)
	case !p.From.IsZero() && !p.Since.IsZero():
		return !last.Before(p.From) && (p.Until.IsZero() || !first.After(p.Until)) && !last.Before(p.Since)
	case !p.From.IsZero():
		return !last.Before(p.From) && (p.Until.IsZero() || !first.After(p.Until))
	}
	return !p.Since.IsZero() && !last.Before(p.Since) && (p.Until.IsZero() || !first.After(p.Until))
}

// KeepWay writes the activities of the way with this number (counted from 1, as Plan
// lists them) into the file of possible activities as settled on, and returns their
// titles. What was settled on and is not in the way is let go. The error wraps
// [ErrReference] for a way that there is not.
func (j *Journal) KeepWay(ctx context.Context, o PlanOptions, number int) ([]string, error) {
	report, from, err := j.planWays(ctx, o)
	if err != nil {
		return nil, err
	}
	if number < 1 || number > len(report.Ways) {
		return nil, fmt.Errorf("way %d: %w: the plan has %d", number, ErrReference, len(report.Ways))
	}
	chosen := map[int]credit.Amount{} // by the line of the file
	for _, a := range from.Activities {
		if a.File == filepath.Base(from.path) && from.path != "" {
			chosen[a.Line] = credit.Amount{}
		}
	}
	var titles []string
	for _, a := range report.Ways[number-1].Activities {
		p := from.Activities[a.possible]
		if _, ok := chosen[p.Line]; !ok || p.File != filepath.Base(from.path) {
			return nil, fmt.Errorf("activity %q: %w: it stands in no file; write it into %s first", a.Title, ErrReference, PossibleFile)
		}
		n := credit.Whole(a.Times + int64(len(p.Done)))
		if p.Rate {
			n = a.Hours
		}
		chosen[p.Line] = n
		titles = append(titles, a.Title)
	}
	return titles, j.settleOn(o, from, chosen)
}

// LetGo takes what was settled on out of the file of possible activities again, and
// returns the titles.
func (j *Journal) LetGo(ctx context.Context, o PlanOptions) ([]string, error) {
	_, from, err := j.planWays(ctx, o)
	if err != nil {
		return nil, err
	}
	chosen := map[int]credit.Amount{}
	var titles []string
	for _, a := range from.Activities {
		if a.Chosen.Sign() > 0 && a.File == filepath.Base(from.path) {
			chosen[a.Line] = credit.Amount{}
			titles = append(titles, a.Title)
		}
	}
	if len(titles) == 0 {
		return nil, fmt.Errorf("plan: %w: no activity is settled on", ErrNothing)
	}
	return titles, j.settleOn(o, from, chosen)
}

// settleOn writes the file anew: whole under another name, then renamed.
func (j *Journal) settleOn(o PlanOptions, from possibles, chosen map[int]credit.Amount) error {
	since := j.orToday(o.On)
	data, err := scheme.SetChosen(filepath.Base(from.path), from.data, chosen, since)
	if err != nil {
		return fmt.Errorf("%w: %w", ErrPossible, err)
	}
	temp, err := os.CreateTemp(filepath.Dir(from.path), PossibleFile+".*")
	if err != nil {
		return fmt.Errorf("writing %s: %w", from.path, err)
	}
	_, err = temp.Write(data)
	err = errors.Join(err, temp.Sync(), temp.Close())
	if err == nil {
		err = os.Rename(temp.Name(), from.path)
	}
	if err != nil {
		os.Remove(temp.Name()) // the first error is the one to tell
		return fmt.Errorf("writing %s: %w", from.path, err)
	}
	return nil
}

// costPerCredit says, for each currency, what the receipts of activities claimed here
// come to, and what a credit of theirs has cost.
func (b *book) costPerCredit(cert Certified) []CreditCost {
	counted, results := map[string]credit.Amount{}, b.results(cert.Cycle.ID)
	for _, c := range b.claims {
		if !c.Withdrawn && c.Cycle == cert.Cycle.ID {
			if r, ok := results[c.Ref()]; ok {
				ref := b.activities[c.Activity].Ref()
				counted[ref] = counted[ref].Add(r.Counted)
			}
		}
	}
	var list []CreditCost
	at := map[string]int{}
	seen := map[string]bool{}
	for _, row := range b.receipts {
		if row.Withdrawn || row.Activity == "" {
			continue
		}
		r := b.receipt(row.ID)
		credits, ok := counted[r.CostOf]
		m, err := paper.ParseMoney(r.Total)
		if !ok || err != nil {
			continue
		}
		i, known := at[m.Currency]
		if !known {
			i = len(list)
			at[m.Currency] = i
			list = append(list, CreditCost{Currency: m.Currency})
		}
		list[i].Paid = list[i].Paid.Add(credit.MustAmount(m.Amount))
		if key := m.Currency + r.CostOf; !seen[key] {
			seen[key] = true
			list[i].Credits = list[i].Credits.Add(credits)
		}
	}
	for i := range list {
		if list[i].Credits.Sign() > 0 {
			per := list[i].Paid.Div(list[i].Credits)
			list[i].PerCredit = &per
		}
	}
	slices.SortFunc(list, func(a, c CreditCost) int { return strings.Compare(a.Currency, c.Currency) })
	return list
}
