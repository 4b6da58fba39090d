package web

import (
	"context"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// paperPage is one paper on the desk.
type paperPage struct {
	journal.PaperDetail
	Prev, Next     string // papers that wait, before and after this one
	Place, Of      int    // among those that wait
	Questions      []questionPart
	Fields         []fieldPart
	Certifications []journal.AboutCertification
	Certification  string
	Further        []furtherPart // other certifications for which it can be claimed too
	Receipt        bool
	Activities     []choice // that a receipt may be the cost of
	CostOf         string
	RowParts       []rowPart // of a transcript
	Row            int       // the row that the form is about; 0: the whole paper
	NextRow        int       // a row after it that waits; 0: none
	PageList       []pagePart
	PageCount      int
	Parts          []pagesPart      // of a long paper; empty where all pages are shown
	Tie            *journal.Receipt // the receipt that was made of it
	Letter         string           // that asks for the certificate which the receipt lacks
	Effect         *effect
	History        []journal.HistoryItem
	Claims         []choice // to which it can be attached
	Open           bool     // it can be decided
	Refused        bool     // it was to be decided, and could not be: what is open gets the focus
}

// questionPart is one question with its candidates.
type questionPart struct {
	Field      string
	Also       []string // further fields that the same answer settles
	Text       string
	Matters    bool
	Candidates []choice
	Chosen     string
	Other      string
	Row        int
}

// same reports whether two questions ask the same of different fields.
func (q questionPart) same(other questionPart) bool {
	return q.Row == 0 && other.Row == 0 && q.Text == other.Text && slices.Equal(q.Candidates, other.Candidates)
}

// choice is one value that can be chosen.
type choice struct {
	Value, Label, Why string
}

// fieldPart is one field of the form.
type fieldPart struct {
	Name    string
	Value   string
	Was     string // as it was read
	Page    int    // where it stands; 0: nowhere
	Mark    string // the letter that it has on the page
	Quote   string
	Certain bool
	Person  bool
	Because *because // why it has this value; nil where it has none
	Choices []choice // of a field that has only these values
	Logged  bool     // a log field that the scheme asks for
}

// because says why a field has its value.
type because struct {
	Why     string // what speaks for it; "" where its place says enough
	Page    int
	Certain bool
	Person  bool
	Score   int      // 0 to 100; 0 where none was given
	Others  []choice // other values that are possible
}

func becauseOf(v paper.LineValue) *because {
	if text(v.Value) == "" {
		return nil
	}
	b := &because{Why: v.Why, Certain: v.Certain, Person: v.By == paper.ByPerson}
	if b.Person {
		return b
	}
	b.Score = v.Score / 10
	if v.Quote != "" {
		b.Page = v.Page
	}
	for _, c := range v.Candidates {
		if t := text(c.Value); t != text(v.Value) {
			b.Others = append(b.Others, choice{Value: t, Why: c.Why})
		}
	}
	return b
}

// pagePart is one page of the paper.
type pagePart struct {
	Number int
	First  bool // of the paper
	Begins bool // a new paper was said to begin here
}

func (s *Server) paper(w http.ResponseWriter, r *http.Request) {
	s.showPaper(w, r, http.StatusOK, nil, nil, "")
}

// showPaper shows a paper with what a form held, if it comes back from one.
func (s *Server) showPaper(w http.ResponseWriter, r *http.Request, status int, filled *filledForm, e *effect, wrong string) {
	row, _ := strconv.Atoi(r.URL.Query().Get("row")) // 0: the whole paper
	at, _ := strconv.Atoi(r.URL.Query().Get("page")) // 0: from the first
	if filled != nil {
		row = filled.row
	}
	body, err := s.paperBody(r.Context(), r.PathValue("id"), row, at, filled)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	body.Effect, body.Refused = e, wrong != ""
	s.showWrong(w, r, status, screenPaper, body.ID+" "+nameOf(body.WaitingPaper), wrong, body)
}

func (s *Server) paperBody(ctx context.Context, ref string, row, at int, filled *filledForm) (paperPage, error) {
	j := s.o.Journal
	d, err := j.Show(ctx, ref)
	if err != nil {
		return paperPage{}, err
	}
	if d.Paper == nil {
		return paperPage{}, fmt.Errorf("%s: %w: it is no paper", ref, journal.ErrReference)
	}
	p := paperPage{PaperDetail: *d.Paper, History: d.History, Row: row}
	p.Open = p.State == catalog.Waiting || p.State == catalog.Unread
	about, err := j.About(ctx)
	if err != nil {
		return p, err
	}
	p.Certifications = about.Certifications
	if len(about.Certifications) > 0 {
		p.Certification = about.Certifications[0].ID
	}
	if filled != nil && filled.certification != "" {
		p.Certification = filled.certification
	}
	cert, err := j.Certified(ctx, p.Certification, credit.Date{})
	if err != nil {
		return p, err
	}
	if err := s.further(ctx, &p, filled); err != nil {
		return p, err
	}
	waiting, err := s.waiting(ctx, p.Certification)
	if err != nil {
		return p, err
	}
	p.around(waiting)
	if err := p.rows(filled); err != nil {
		return p, err
	}
	p.form(cert.Scheme, filled)
	p.pages(at)
	if err := s.others(ctx, &p); err != nil {
		return p, err
	}
	return p, s.tie(ctx, &p)
}

// around finds the neighbours among the papers that wait.
func (p *paperPage) around(waiting []journal.WaitingPaper) {
	p.Of = len(waiting)
	for i, w := range waiting {
		if w.ID != p.ID {
			continue
		}
		p.WaitingPaper = w // with the questions of the chosen certification
		p.Place = i + 1
		if i > 0 {
			p.Prev = waiting[i-1].ID
		}
		if i+1 < len(waiting) {
			p.Next = waiting[i+1].ID
		}
	}
}

// form makes the questions and the fields, filled with what was read or typed.
func (p *paperPage) form(scheme credit.Scheme, filled *filledForm) {
	kind := value(p.WaitingPaper, paper.FieldKind)
	category := value(p.WaitingPaper, paper.FieldCategory)
	if filled != nil {
		kind, category = filled.or(paper.FieldKind, kind), filled.or(paper.FieldCategory, category)
	}
	p.Receipt = kind == string(paper.Receipt)
	asked := map[paper.Field]bool{}
	for _, q := range p.WaitingPaper.Questions {
		if !p.about(q) {
			continue
		}
		part := questionPart{Field: string(q.Field), Text: q.Text, Matters: q.Matters, Row: q.Row}
		for _, c := range q.Candidates {
			part.Candidates = append(part.Candidates, choice{text(c.Value), text(c.Value), c.Why})
		}
		if filled != nil {
			part.Chosen, part.Other = filled.answers[q.Field], filled.others[q.Field]
		}
		asked[q.Field] = true
		if i := slices.IndexFunc(p.Questions, part.same); i >= 0 { // first and last day, printed once
			p.Questions[i].Also = append(p.Questions[i].Also, part.Field)
			p.Questions[i].Matters = p.Questions[i].Matters || part.Matters
			continue
		}
		p.Questions = append(p.Questions, part)
	}
	for i, name := range p.fieldNames(scheme, category) {
		if asked[name] || p.byRow() && p.Row == 0 && slices.Contains(rowFields, name) {
			continue
		}
		v := p.Values[name]
		f := fieldPart{Name: string(name), Value: text(v.Value), Was: text(v.Value), Quote: v.Quote, Certain: v.Certain,
			Person: v.By == paper.ByPerson, Mark: mark(i), Logged: i >= len(ordinary), Because: becauseOf(v)}
		if v.Box != nil {
			f.Page = v.Page
		}
		if filled != nil {
			f.Value = filled.or(name, f.Value)
		}
		switch name {
		case paper.FieldKind:
			for _, k := range kinds {
				f.Choices = append(f.Choices, choice{Value: string(k)})
			}
		case paper.FieldCategory:
			for _, c := range scheme.Categories {
				f.Choices = append(f.Choices, choice{Value: c.ID, Label: orID(c)})
			}
		}
		p.Fields = append(p.Fields, f)
	}
}

func orID(c credit.Category) string {
	if c.Title == "" {
		return c.ID
	}
	return c.Title
}

// ordinary are the fields of every paper, in the order of the form.
var ordinary = []paper.Field{paper.FieldKind, paper.FieldCategory, paper.FieldTitle, paper.FieldProvider, paper.FieldAttendee,
	paper.FieldStart, paper.FieldEnd, paper.FieldIssue, paper.FieldDuration, paper.FieldCredits, paper.FieldTotal}

// kinds are those that a paper can be of.
var kinds = []paper.Kind{paper.Attendance, paper.Completion, paper.Transcript, paper.Instruction, paper.Employment, paper.Membership,
	paper.Meeting, paper.Publication, paper.Credential, paper.Receipt, paper.NotEvidence}

// fieldNames are the ordinary fields, then the log fields of the category.
func (p *paperPage) fieldNames(scheme credit.Scheme, category string) []paper.Field {
	list := slices.Clone(ordinary)
	if p.Receipt {
		list = slices.DeleteFunc(list, func(f paper.Field) bool { return f == paper.FieldCategory })
	}
	if c, ok := scheme.Category(category); ok && !p.Receipt {
		for _, l := range c.Log {
			for _, n := range l.Names {
				if !slices.Contains(list, paper.Field(n)) {
					list = append(list, paper.Field(n))
				}
			}
		}
	}
	return list
}

// mark is the letter under which a field stands on the page.
func mark(i int) string { return string(rune('A' + i%26)) }

// others lists the activities and claims that the paper may belong to.
func (s *Server) others(ctx context.Context, p *paperPage) error {
	claims, err := s.o.Journal.Claims(ctx, journal.ClaimsFilter{})
	if err != nil {
		return err
	}
	seen := map[string]bool{}
	for _, c := range claims {
		name := strings.TrimSpace(c.End.String() + "  " + c.Title)
		p.Claims = append(p.Claims, choice{Value: c.ID, Label: c.ID + "  " + name})
		if !seen[c.Activity] {
			seen[c.Activity] = true
			p.Activities = append(p.Activities, choice{Value: c.Activity, Label: c.Activity + "  " + name})
		}
	}
	return nil
}
