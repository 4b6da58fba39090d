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

// ErrLetter says that an audit letter cannot be recorded or answered so.
var ErrLetter = errors.New("not an audit letter as it can be kept")

// LetterOptions says what an audit letter asks for. The zero value asks for every claim
// of the only certification's present cycle, dated as the paper was read.
type LetterOptions struct {
	Certification string      // "" means the only one
	Dated         credit.Date // the letter's own day; zero: the paper's date of issue
	Due           credit.Date // last day to answer; zero: as many days after Dated as the scheme gives
	Claims        []string    // that it asks for (C9, lists, ranges); none means all
	Seed          string      // with which Claims were drawn; "" if the letter names them
	Cycle         string      // asked about: its number, or a day in it; "": that of the claims, else the present one
}

// AuditLetter is a letter by which the body asks for the proof of claims, as `letters
// --json` prints it.
type AuditLetter struct {
	ID            string      `json:"id"` // L2
	Certification string      `json:"certification"`
	Cycle         Span        `json:"cycle"` // that it asks about
	Papers        []string    `json:"papers"`
	Files         []string    `json:"files"` // the first name of each paper's evidence
	Dated         credit.Date `json:"date"`
	Due           credit.Date `json:"due"`
	DueFrom       string      `json:"due_from"`  // where the day comes from, in words
	DaysLeft      *int        `json:"days_left"` // from today; null once it was answered
	All           bool        `json:"all"`       // it asks for every claim of the cycle
	Claims        []string    `json:"claims"`
	Seed          string      `json:"seed,omitempty"`
	State         string      `json:"state"` // open, answered or withdrawn
	Answered      credit.Date `json:"answered,omitzero"`
	Note          string      `json:"note,omitempty"` // how it was answered
}

// Span is a time from one day to another, both within it.
type Span struct {
	Start credit.Date `json:"start"`
	End   credit.Date `json:"end"`
}

// The states of an audit letter.
const (
	LetterOpen      = "open"
	LetterAnswered  = "answered"
	LetterWithdrawn = "withdrawn"
)

// RecordLetter records that papers are an audit letter, and which claims it asks for.
// The papers must be unread or waiting; they are then confirmed. The error wraps
// [ErrLetter] when a day is missing or impossible or a claim is not of the cycle, and
// matches [ErrNotWaiting] when a paper was decided.
func (j *Journal) RecordLetter(ctx context.Context, papers []string, o LetterOptions) (AuditLetter, error) {
	var id string
	err := j.cat.Act(ctx, func(tx *catalog.Tx) error {
		cert, err := j.certified(ctx, &tx.View, o.Certification, credit.Date{})
		if err != nil {
			return err
		}
		if cert.Cycle, err = j.cycleAsked(ctx, &tx.View, cert, o); err != nil {
			return err
		}
		body := &catalog.LetterRecorded{ID: catalog.NewID(), Certification: cert.ID, Cycle: cert.Cycle.ID, Dated: o.Dated, Due: o.Due,
			Whole: len(o.Claims) == 0, Seed: o.Seed}
		var confirmed []catalog.Body
		names, err := resolve(ctx, &tx.View, papers, catalog.LetterPaper)
		if err != nil {
			return err
		}
		for _, n := range names {
			p, err := j.undecided(ctx, &tx.View, n.id)
			if err != nil {
				return err
			}
			if issued := p.reading.Values[paper.FieldIssue]; body.Dated.IsZero() && issued.Certain {
				body.Dated = dayOf(issued.Text)
			}
			body.Papers = append(body.Papers, p.ID)
			confirmed = append(confirmed, &catalog.PaperConfirmed{Paper: p.ID})
		}
		if err := j.letterDays(body, cert, strings.Join(papers, " ")); err != nil {
			return err
		}
		if body.Claims, err = askedFor(ctx, &tx.View, cert, o.Claims); err != nil {
			return err
		}
		if body.Number, err = tx.Next(ctx, catalog.LetterLetter); err != nil {
			return err
		}
		id = body.ID
		return record(ctx, tx, append([]catalog.Body{body}, confirmed...)...)
	})
	if err != nil {
		return AuditLetter{}, err
	}
	return j.letterByID(ctx, id)
}

// letterDays fills in the last day to answer, and refuses days that cannot be.
func (j *Journal) letterDays(body *catalog.LetterRecorded, cert Certified, papers string) error {
	if body.Dated.IsZero() {
		return fmt.Errorf("%s: %w: its date was not read for certain; give it with --date YYYY-MM-DD", papers, ErrLetter)
	}
	if body.Dated.After(j.Today()) {
		return fmt.Errorf("%s: %w: its date %s is still to come; today is %s", papers, ErrLetter, body.Dated, j.Today())
	}
	if body.Due.IsZero() {
		days := cert.Scheme.Keeping.AnswerDays
		if days == 0 {
			return fmt.Errorf("%s: %w: the scheme %s does not say how soon a letter must be answered; give the day with --due YYYY-MM-DD", papers, ErrLetter, cert.Scheme.ID)
		}
		body.Due, body.Days = body.Dated.AddDays(days), days
	}
	if body.Due.Before(body.Dated) {
		return fmt.Errorf("%s: %w: due on %s, before its date %s", papers, ErrLetter, body.Due, body.Dated)
	}
	return nil
}

// askedFor returns the UUIDs of the claims that a letter asks for, each once; of all
// when none is named.
func askedFor(ctx context.Context, v *catalog.View, cert Certified, refs []string) ([]string, error) {
	all, err := v.Claims(ctx, catalog.ClaimFilter{Cycle: cert.Cycle.ID})
	if err != nil {
		return nil, err
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("certification %s: %w: the cycle has no claim yet that a letter could ask for", cert.Name, ErrLetter)
	}
	chosen := all
	if len(refs) > 0 {
		if chosen, err = claimsOf(ctx, v, refs, true); err != nil {
			return nil, err
		}
	}
	var ids []string
	for _, c := range chosen {
		if !slices.ContainsFunc(all, func(x catalog.Claim) bool { return x.ID == c.ID }) {
			why := "is not of this certification's cycle"
			if c.Certification == cert.ID {
				why = "is of another cycle than the one asked about; record the letter once for each cycle"
			}
			if c.Withdrawn {
				why = "was withdrawn"
			}
			return nil, fmt.Errorf("%s: %w: the claim %s; see vaultctl claims", c.Ref(), ErrLetter, why)
		}
		if !slices.Contains(ids, c.ID) {
			ids = append(ids, c.ID)
		}
	}
	return ids, nil
}

// AnswerLetter says that an audit letter (L2; "" is the only open one) was answered on
// a day, and how; the zero day is today. The error wraps [ErrLetter] when it is not
// open, or when the day lies before the letter's.
func (j *Journal) AnswerLetter(ctx context.Context, ref string, on credit.Date, note string) (AuditLetter, error) {
	var id string
	err := j.cat.Act(ctx, func(tx *catalog.Tx) error {
		l, err := openLetter(ctx, &tx.View, ref)
		if err != nil {
			return err
		}
		day := j.orToday(on)
		switch {
		case !l.Answered.IsZero():
			return fmt.Errorf("%s: %w: it was answered on %s; take that back with undo %s", l.Ref(), ErrLetter, l.Answered, l.Ref())
		case day.Before(l.Dated):
			return fmt.Errorf("%s: %w: answered on %s, before its date %s", l.Ref(), ErrLetter, day, l.Dated)
		case day.After(j.Today()):
			return fmt.Errorf("%s: %w: the day %s is still to come; today is %s", l.Ref(), ErrLetter, day, j.Today())
		}
		id = l.ID
		return record(ctx, tx, &catalog.LetterAnswered{ID: l.ID, On: day, Note: strings.Join(strings.Fields(note), " ")})
	})
	if err != nil {
		return AuditLetter{}, err
	}
	return j.letterByID(ctx, id)
}

// openLetter returns the letter that a reference names; "" is the only open one.
func openLetter(ctx context.Context, v *catalog.View, ref string) (catalog.AuditLetter, error) {
	if ref != "" {
		n, err := resolveOne(ctx, v, ref, catalog.LetterLetter)
		if err != nil {
			return catalog.AuditLetter{}, err
		}
		l, err := v.Letter(ctx, n.id)
		if err == nil && l.Withdrawn {
			return l, fmt.Errorf("%s: %w: it was withdrawn", l.Ref(), ErrUnknown)
		}
		return l, err
	}
	list, err := v.Letters(ctx)
	if err != nil {
		return catalog.AuditLetter{}, err
	}
	list = slices.DeleteFunc(list, func(l catalog.AuditLetter) bool { return !l.Open() })
	if len(list) == 0 {
		return catalog.AuditLetter{}, fmt.Errorf("%w: no letter is open; see vaultctl letters", ErrLetter)
	}
	if len(list) != 1 {
		return catalog.AuditLetter{}, fmt.Errorf("%w: %d letters are open; name one, as in L1 (vaultctl letters lists them)", ErrReference, len(list))
	}
	return list[0], nil
}

// Letters returns every audit letter that was not withdrawn, in the order of their
// numbers.
func (j *Journal) Letters(ctx context.Context) ([]AuditLetter, error) {
	out := []AuditLetter{}
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		list, err := v.Letters(ctx)
		if err != nil {
			return err
		}
		for _, l := range list {
			if l.Withdrawn {
				continue
			}
			shown, err := j.letter(ctx, v, l)
			if err != nil {
				return err
			}
			out = append(out, shown)
		}
		return nil
	})
	return out, err
}

func (j *Journal) letterByID(ctx context.Context, id string) (AuditLetter, error) {
	var shown AuditLetter
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		l, err := v.Letter(ctx, id)
		if err != nil {
			return err
		}
		shown, err = j.letter(ctx, v, l)
		return err
	})
	return shown, err
}

// letter is an audit letter as it is shown.
func (j *Journal) letter(ctx context.Context, v *catalog.View, l catalog.AuditLetter) (AuditLetter, error) {
	shown := AuditLetter{ID: l.Ref(), Papers: []string{}, Files: []string{}, Dated: l.Dated, Due: l.Due, DueFrom: "the letter", All: l.Whole,
		Claims: []string{}, Seed: l.Seed, State: LetterOpen, Answered: l.Answered, Note: l.Note}
	certs, err := v.Certifications(ctx)
	if err != nil {
		return shown, err
	}
	for _, c := range certs {
		if c.ID == l.Certification {
			shown.Certification = c.Name
			if l.Days > 0 {
				shown.DueFrom = fmt.Sprintf("the scheme %s: %d days to answer", c.Scheme, l.Days)
			}
		}
	}
	cycles, err := v.Cycles(ctx, l.Certification)
	if err != nil {
		return shown, err
	}
	for _, c := range cycles {
		if c.ID == l.Cycle {
			shown.Cycle = Span{c.Start, c.End}
		}
	}
	for _, id := range l.Papers {
		p, err := v.Paper(ctx, id)
		if err != nil {
			return shown, err
		}
		e, err := v.Evidence(ctx, p.SHA256)
		if err != nil {
			return shown, err
		}
		shown.Papers, shown.Files = append(shown.Papers, p.Ref()), append(shown.Files, firstName(e))
	}
	for _, id := range l.Claims {
		c, err := v.Claim(ctx, id)
		if err != nil {
			return shown, err
		}
		shown.Claims = append(shown.Claims, c.Ref())
	}
	switch {
	case l.Withdrawn:
		shown.State = LetterWithdrawn
	case !l.Answered.IsZero():
		shown.State = LetterAnswered
	default:
		shown.DaysLeft = new(l.Due.Sub(j.Today()))
	}
	return shown, nil
}

// letterDeadlines adds the open letters to the deadlines of the certification's
// present cycle. A letter about an earlier cycle is shown there too.
func (b *book) letterDeadlines(ctx context.Context, v *catalog.View) error {
	letters, err := v.Letters(ctx)
	if err != nil {
		return err
	}
	for _, l := range letters {
		if !l.Open() {
			continue
		}
		for _, cert := range b.certs {
			st, ok := b.statements[cert.Cycle.ID]
			if cert.ID != l.Certification || !ok {
				continue
			}
			st.Deadlines = append(slices.Clip(st.Deadlines), credit.Deadline{What: b.letterText(l), Date: l.Due})
			b.statements[cert.Cycle.ID] = st
		}
	}
	return nil
}

// mostNamed is how many claims a deadline names.
const mostNamed = 5

func (b *book) letterText(l catalog.AuditLetter) string {
	what := fmt.Sprintf("%d claims", len(l.Claims))
	if len(l.Claims) <= mostNamed {
		var refs []string
		for _, c := range b.claims {
			if slices.Contains(l.Claims, c.ID) {
				refs = append(refs, c.Ref())
			}
		}
		what = strings.Join(refs, " ")
	}
	return fmt.Sprintf("answer the audit letter %s: %s", l.Ref(), what)
}
