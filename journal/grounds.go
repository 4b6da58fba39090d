package journal

import (
	"context"
	"slices"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// Grounds is what the claims of a certification's present cycle rest on, read once, for
// whoever audits them.
type Grounds struct {
	Names         []string // the holder's, then former ones
	Certification Certified
	Statement     credit.Statement
	Claims        []Ground // in the order of their numbers

	input credit.Input
}

// Ground is a claim with the papers that are its proofs.
type Ground struct {
	Claim
	Papers    []GroundPaper
	Accepting []credit.Category // of the scheme: those that accept the activity's kind by themselves
}

// CategoryQuestion is what a person was asked who chose the category; "" when the scheme
// has one that is the only one to accept the kind, and it is this.
func (g Ground) CategoryQuestion() string {
	if len(g.Accepting) == 1 && g.Accepting[0].ID == g.Category || g.Kind == "" {
		return ""
	}
	return categoryQuestion(g.Kind, len(g.Accepting))
}

// GroundPaper is a paper as it was read, before anyone corrected it.
type GroundPaper struct {
	ID        string // P12
	SHA256    string
	File      string // the first name under which it came
	From, To  int    // pages, counted from 1
	Row       int    // of a transcript; 0 for a whole paper
	Kind      paper.Kind
	Language  string // BCP 47; "" when it could not be told
	Values    map[paper.Field]paper.Value
	Questions []paper.Question // that were open when it was read
	Deleted   bool             // its file was deleted after its time of keeping
}

// Grounds gathers them on a day; the zero Date is today, and "" the only certification.
func (j *Journal) Grounds(ctx context.Context, on credit.Date, certification string) (Grounds, error) {
	var g Grounds
	err := j.cat.Read(ctx, func(v *catalog.View) error {
		cert, err := j.certified(ctx, v, certification, on)
		if err != nil {
			return err
		}
		b, err := j.open(ctx, v, on)
		if err != nil {
			return err
		}
		names, err := holderNames(ctx, v)
		if err != nil {
			return err
		}
		g = Grounds{Names: names, Certification: cert, Statement: b.statements[cert.Cycle.ID], input: b.inputs[cert.Cycle.ID]}
		readings, err := v.Readings(ctx)
		if err != nil {
			return err
		}
		for _, c := range b.claims {
			if c.Cycle != cert.Cycle.ID || c.Withdrawn {
				continue
			}
			g.Claims = append(g.Claims, Ground{b.shown(c), b.groundPapers(readings, c.Activity), b.accepting(c)})
		}
		return nil
	})
	return g, err
}

// accepting returns the categories that accept the kind of a claim's activity.
func (b *book) accepting(c catalog.Claim) []credit.Category {
	fields := b.activities[c.Activity].Fields
	return b.rules[c.Cycle].Accepting(fields[paper.FieldKind], splitTags(fields[FieldTags])...)
}

// groundPapers returns the papers that prove an activity, each once, as they were read.
func (b *book) groundPapers(readings map[string]catalog.Reading, activity string) []GroundPaper {
	var list []GroundPaper
	for _, p := range b.proofs[activity] {
		row := b.papers[p.Paper]
		if slices.ContainsFunc(list, func(g GroundPaper) bool { return g.ID == row.Ref() && g.Row == p.Row }) {
			continue
		}
		g := GroundPaper{ID: row.Ref(), SHA256: p.SHA256, File: firstName(b.evidence[p.SHA256]), From: row.From, To: row.To, Row: p.Row,
			Deleted: b.evidence[p.SHA256].Deleted > 0}
		r := readings[p.Paper] // the zero value of one that was never read
		g.Kind, g.Language, g.Questions, g.Values = r.Kind(), r.Language, r.Questions, r.Values
		if p.Row > 0 && p.Row <= len(r.Rows) {
			g.Values = rowValues(r.Values, r.Reading, p.Row)
		}
		list = append(list, g)
	}
	return list
}

// NamesHolder reports whether a name that a paper gives can be the holder's, now or
// formerly.
func (g Grounds) NamesHolder(given string) bool { return namesOne(given, g.Names) }

// KeepUntil is the day until which the proof of a claim must be kept by this
// certification's scheme; zero if that does not say.
func (g Grounds) KeepUntil(c Ground) credit.Date {
	day := c.End
	if day.IsZero() {
		day = c.Start
	}
	return g.Certification.Scheme.Keeping.Until(day, g.Certification.Cycle.End)
}

// Without returns the statement as it would be if these claims fell.
func (g Grounds) Without(ids []string) (credit.Statement, error) {
	in := g.input
	in.Claims = slices.DeleteFunc(slices.Clone(in.Claims), func(c credit.Claim) bool { return slices.Contains(ids, c.ID) })
	return credit.Calculate(g.Certification.Scheme, in)
}
