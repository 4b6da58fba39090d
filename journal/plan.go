package journal

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// plan is what confirming one paper will do. It is made inside the transaction that
// does it, and once before, to find what is open.
type plan struct {
	seen
	kind     paper.Kind
	cert     Certified
	category credit.Category
	units    []unit       // of anything but a receipt
	skip     []int        // rows that are left out
	final    bool         // the paper is decided after it
	receipt  *receiptPlan // of a receipt
	names    []string     // of the holder
	warnings []Warning
}

// unit is one activity with its claim.
type unit struct {
	row    int // of a transcript, counted from 1; 0 for a whole paper
	values map[paper.Field]paper.Value
	cycle  catalog.Cycle
}

type receiptPlan struct {
	activity string // UUID; "" while there is no certificate
	values   map[paper.Field]paper.Value
}

// plan looks at a paper and says what confirming it will do, or what is open.
func (j *Journal) plan(ctx context.Context, v *catalog.View, id string, o ConfirmOptions) (plan, error) {
	p, err := j.toDecide(ctx, v, id)
	if err != nil {
		return plan{}, err
	}
	set, err := j.checkedSet(ctx, v, o)
	if err != nil {
		return plan{}, fmt.Errorf("%s: %w", p.Ref(), err)
	}
	values := withSet(p.reading.Values, set, p.From)
	p.kind = paper.Kind(values[paper.FieldKind].Text)
	switch {
	case p.kind == paper.NotEvidence:
		return plan{}, fmt.Errorf("%s: %w: it is read as %s, which proves nothing; set it aside, or say what it is with --set kind=KIND", p.Ref(), ErrOpen, p.kind)
	case p.kind == paper.Receipt:
		err = j.planReceipt(ctx, v, &p, values, o)
	case o.CostOf != "":
		err = fmt.Errorf("%s: %w: it is no receipt, so it is no cost of %s; say so with --set kind=receipt if it is one", p.Ref(), ErrReference, o.CostOf)
	default:
		err = j.planClaims(ctx, v, &p, values, set, o)
	}
	return p, err
}

// toDecide returns a paper that is waiting or unread, else a [*StateError] that names
// what became of it.
func (j *Journal) toDecide(ctx context.Context, v *catalog.View, id string) (plan, error) {
	row, err := v.Paper(ctx, id)
	if err != nil {
		return plan{}, err
	}
	s, err := see(ctx, v, row)
	if err != nil {
		return plan{}, err
	}
	if row.State != catalog.Waiting && row.State != catalog.Unread {
		return plan{}, stateError(ctx, v, row)
	}
	return plan{seen: s}, nil
}

func stateError(ctx context.Context, v *catalog.View, p catalog.Paper) error {
	became, err := becameOf(ctx, v, p)
	if err != nil {
		return err
	}
	want := "take that back first with undo " + p.Ref()
	if p.State == catalog.Retired {
		want = "use the papers it was cut or joined into"
	}
	letters, err := v.Letters(ctx)
	if err != nil {
		return err
	}
	for _, l := range letters {
		if !l.Withdrawn && slices.Contains(l.Papers, p.ID) {
			became = append(became, l.Ref())
		}
	}
	return &StateError{Paper: p.Ref(), State: p.State, Now: became, Want: want}
}

// becameOf lists the claims and receipts made from a paper, or the papers it was cut
// or joined into.
func becameOf(ctx context.Context, v *catalog.View, p catalog.Paper) ([]string, error) {
	var list []string
	for _, id := range p.Into {
		into, err := v.Paper(ctx, id)
		if err != nil {
			return nil, err
		}
		list = append(list, into.Ref())
	}
	activities, err := v.ActivitiesOf(ctx, p.ID)
	if err != nil {
		return nil, err
	}
	for _, a := range activities {
		claims, err := v.Claims(ctx, catalog.ClaimFilter{Activity: a.ID})
		if err != nil {
			return nil, err
		}
		for _, c := range claims {
			list = append(list, c.Ref())
		}
	}
	receipts, err := v.ReceiptsOf(ctx, p.ID)
	if err != nil {
		return nil, err
	}
	for _, r := range receipts {
		if !r.Withdrawn {
			list = append(list, r.Ref())
		}
	}
	return list, nil
}

// checkedSet returns what is set, canonical, with the category among it. Names are
// checked against every certification's rules.
func (j *Journal) checkedSet(ctx context.Context, v *catalog.View, o ConfirmOptions) (map[paper.Field]string, error) {
	set, err := j.canonical(ctx, v, o.Set)
	if err != nil {
		return nil, err
	}
	if o.Category != "" {
		set[paper.FieldCategory] = o.Category
	}
	return set, nil
}

func (j *Journal) canonical(ctx context.Context, v *catalog.View, set map[string]string) (map[paper.Field]string, error) {
	all, err := j.allCertified(ctx, v, credit.Date{})
	if err != nil {
		return nil, err
	}
	allowed := settable(credit.Scheme{})
	for _, c := range all {
		for _, f := range settable(c.Scheme) {
			if !slices.Contains(allowed, f) {
				allowed = append(allowed, f)
			}
		}
	}
	return canonicalSet(set, allowed)
}

func (j *Journal) planClaims(ctx context.Context, v *catalog.View, p *plan, values map[paper.Field]paper.Value, set map[paper.Field]string, o ConfirmOptions) error {
	cert, err := j.certified(ctx, v, o.Certification, credit.Date{})
	if err != nil {
		return err
	}
	p.cert = cert
	if name := set[paper.FieldCategory]; name != "" {
		if err := knownCategory(cert.Scheme, name); err != nil {
			return fmt.Errorf("%s: %w", p.Ref(), err)
		}
	}
	rows, err := p.chooseRows(set, o)
	if err != nil {
		return err
	}
	names, err := holderNames(ctx, v)
	if err != nil {
		return err
	}
	habits, err := j.habitsFor(ctx, v, cert.Name)
	if err != nil {
		return err
	}
	k := asker{cert.Scheme, names, habits}
	questions, values := k.ask(p.reading.Reading, values)
	if err := p.refuse(questions, rows); err != nil {
		return err
	}
	p.leaveOpen(questions, values)
	p.category, _ = cert.Scheme.Category(values[paper.FieldCategory].Text)
	for _, row := range rows {
		u := unit{row: row, values: values}
		if row > 0 {
			u.values = rowValues(values, p.reading.Reading, row)
		}
		if err := j.place(ctx, v, p, &u); err != nil {
			return err
		}
		p.units = append(p.units, u)
	}
	p.names = names
	return nil
}

func knownCategory(s credit.Scheme, name string) error {
	if _, ok := s.Category(name); ok {
		return nil
	}
	ids := make([]string, len(s.Categories))
	for i, c := range s.Categories {
		ids[i] = c.ID
	}
	return fmt.Errorf("category %q: %w in scheme %s: want one of %s", name, ErrCategory, s.ID, strings.Join(ids, ", "))
}

// chooseRows returns the rows that are confirmed: [0] for a paper without rows.
func (p *plan) chooseRows(set map[paper.Field]string, o ConfirmOptions) ([]int, error) {
	r := p.reading.Reading
	if p.kind != paper.Transcript || len(r.Rows) == 0 {
		if o.Row > 0 || len(o.SkipRows) > 0 {
			return nil, fmt.Errorf("%s: %w: it has no rows; leave out --row and --skip-row", p.Ref(), ErrReference)
		}
		p.final = true
		return []int{0}, nil
	}
	asked := slices.Clone(o.SkipRows)
	if o.Row != 0 {
		asked = append(asked, o.Row)
	}
	if err := rowsInRange(p.Ref(), r, asked...); err != nil {
		return nil, err
	}
	for _, n := range asked {
		if state := p.Rows[n]; state != "" && state != catalog.Waiting {
			return nil, &StateError{Paper: fmt.Sprintf("%s row %d", p.Ref(), n), State: state, Want: "take that back first with undo " + p.Ref()}
		}
	}
	slices.Sort(o.SkipRows)
	p.skip = slices.Compact(slices.Clone(o.SkipRows))
	var rows, left []int
	for n := 1; n <= len(r.Rows); n++ {
		switch state := p.Rows[n]; {
		case state != "" && state != catalog.Waiting || slices.Contains(p.skip, n):
		case o.Row == 0 || o.Row == n:
			rows = append(rows, n)
		default:
			left = append(left, n)
		}
	}
	if o.Row > 0 && slices.Contains(p.skip, o.Row) {
		return nil, fmt.Errorf("%s row %d: %w: it cannot be both confirmed and left out", p.Ref(), o.Row, ErrReference)
	}
	p.final = len(left) == 0
	for f := range set {
		if rowField(f) && len(rows) > 1 {
			return nil, fmt.Errorf("%s: %w: %s differs from row to row; set it for one with --row N", p.Ref(), ErrField, f)
		}
	}
	return rows, nil
}

// refuse returns an [*OpenError] when a question that matters is open, of the whole
// paper or of one of the rows.
func (p *plan) refuse(questions []WaitingQuestion, rows []int) error {
	e := &OpenError{Paper: p.Ref()}
	for _, q := range questions {
		if !q.Matters || q.Row > 0 && !slices.Contains(rows, q.Row) || q.Row > 0 && len(e.Questions) > 0 && q.Row != e.Row {
			continue
		}
		if e.Row == 0 && len(e.Questions) == 0 {
			e.Row = q.Row
		}
		e.Questions = append(e.Questions, q.question)
	}
	if len(e.Questions) == 0 {
		return nil
	}
	if p.State == catalog.Unread && p.kind == "" {
		e.Questions[0].Text = strings.TrimSpace("it was not read. " + p.Why)
	}
	return e
}

// leaveOpen leaves out what was read but is still in question, so that nothing
// uncertain passes for certain, and says so.
func (p *plan) leaveOpen(questions []WaitingQuestion, values map[paper.Field]paper.Value) {
	byRow := p.kind == paper.Transcript && len(p.reading.Rows) > 0
	for _, q := range questions {
		if q.Row > 0 || values[q.Field].By == paper.ByPerson {
			continue
		}
		delete(values, q.Field)
		if !byRow || !rowField(q.Field) {
			p.warnings = append(p.warnings, Warning{Paper: p.Ref(), Text: fmt.Sprintf("%s stays empty, since a question on it is open: %s", q.Field, q.Text)})
		}
	}
}

// place finds the cycle to which an activity belongs: the open one that holds its
// day, else the present one.
func (j *Journal) place(ctx context.Context, v *catalog.View, p *plan, u *unit) error {
	claim, err := newRuleClaim(p.Ref(), p.category.ID, texts(u.values))
	if err != nil {
		return err
	}
	u.cycle, err = cycleFor(ctx, v, p.cert, claim.Date())
	return err
}

func cycleFor(ctx context.Context, v *catalog.View, cert Certified, day credit.Date) (catalog.Cycle, error) {
	cycles, err := v.Cycles(ctx, cert.ID)
	if err != nil {
		return catalog.Cycle{}, err
	}
	for _, c := range cycles {
		if !c.Frozen() && !day.IsZero() && (credit.Period{Start: c.Start, End: c.End}).Holds(day) {
			return c, nil
		}
	}
	if cert.Cycle.Closed {
		return catalog.Cycle{}, fmt.Errorf("certification %s: %w: %v to %v; open the next one first", cert.Name, ErrClosed, cert.Cycle.Start, cert.Cycle.End)
	}
	if cert.Cycle.Closing {
		return catalog.Cycle{}, closingError(cert.Name, cert.Cycle)
	}
	return cert.Cycle, nil
}

// passedOver reports whether an error only says that a paper is not to be decided.
func passedOver(err error) bool { return errors.Is(err, ErrNotWaiting) || errors.Is(err, ErrOpen) }

// listed keeps an empty list from printing as null.
func listed[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}
