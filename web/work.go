package web

import (
	"cmp"
	"context"
	"net/http"
	"slices"
	"strings"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// mostLines is how many lines of a group are shown before one asks for more.
const mostLines = 100

// workPage is what is missing: papers and claims, grouped by what each still lacks.
type workPage struct {
	Empty     bool // nothing was ever taken in
	Drops     []journal.AboutDrop
	Dir       string
	Standings []shortStanding
	Letters   []journal.AuditLetter // that are open, the one due first above all
	Groups    []workGroup
	Search    string
	Total     int
}

// shortStanding is one line on a certification.
type shortStanding struct {
	journal.AboutCertification
	Counted, Target, Missing credit.Amount
	HasTarget, Meets         bool
	Unit                     string
	DaysLeft                 int
	HasDays                  bool
}

// workGroup is the things that lack the same.
type workGroup struct {
	Name  string // work.NAME is its heading
	Lines []workLine
	All   int // lines there are
}

// workLine is one paper, claim or receipt.
type workLine struct {
	ID, Link string
	Kind     string
	Title    string
	Provider string
	Start    credit.Date
	End      credit.Date
	Minutes  *credit.Minutes
	Also     string // credits or a sum, as printed
	File     string
	Ask      string // the question, or the reason
	Picture  string // address of its first page; "" when it has none
}

// The groups, in the order in which they are shown.
const (
	lacksAnswer      = "answer"
	lacksCategory    = "category"
	lacksProof       = "proof"
	lacksCertificate = "certificate"
	lacksReading     = "reading"
	lacksNothing     = "nothing"
)

var workOrder = []string{lacksNothing, lacksAnswer, lacksCategory, lacksReading, lacksProof, lacksCertificate}

func (s *Server) work(w http.ResponseWriter, r *http.Request) {
	body, err := s.workBody(r.Context(), r.URL.Query().Get("q"), r.URL.Query().Get("all"))
	if err != nil {
		s.fail(w, r, err)
		return
	}
	s.show(w, r, http.StatusOK, screenWork, wordsFor(r).T("work.title"), body)
}

func (s *Server) workBody(ctx context.Context, search, all string) (workPage, error) {
	j := s.o.Journal
	body := workPage{Search: search}
	about, err := j.About(ctx)
	if err != nil {
		return body, err
	}
	body.Drops, body.Dir = about.Drops, about.Dir
	if body.Standings, err = s.shortStandings(ctx, about); err != nil {
		return body, err
	}
	if body.Letters, err = s.openLetters(ctx); err != nil {
		return body, err
	}
	lines := map[string][]workLine{}
	papers, err := s.waiting(ctx, "")
	if err != nil {
		return body, err
	}
	for _, p := range papers {
		group := lacks(p)
		lines[group] = append(lines[group], s.paperLine(p))
	}
	claims, err := j.Claims(ctx, journal.ClaimsFilter{})
	if err != nil {
		return body, err
	}
	for _, c := range claims {
		if !c.Proven {
			lines[lacksProof] = append(lines[lacksProof], claimLine(c))
		}
	}
	receipts, err := j.Receipts(ctx)
	if err != nil {
		return body, err
	}
	for _, c := range receipts {
		if c.State == journal.ReceiptOpen {
			lines[lacksCertificate] = append(lines[lacksCertificate], receiptLine(c))
		}
	}
	body.Empty = len(papers)+len(claims)+len(receipts) == 0
	for _, name := range workOrder {
		found := slices.DeleteFunc(lines[name], func(l workLine) bool { return !l.matches(search) })
		slices.SortStableFunc(found, workLine.compare)
		g := workGroup{Name: name, Lines: found, All: len(found)}
		if len(found) > mostLines && all != name {
			g.Lines = found[:mostLines]
		}
		if g.All > 0 {
			body.Groups = append(body.Groups, g)
			body.Total += g.All
		}
	}
	return body, nil
}

// lacks says what a paper still lacks.
func lacks(p journal.WaitingPaper) string {
	switch {
	case p.State == catalog.Unread:
		return lacksReading
	case p.Clear():
		return lacksNothing
	case !slices.ContainsFunc(p.Questions, func(q journal.WaitingQuestion) bool { return q.Field != paper.FieldCategory }):
		return lacksCategory
	}
	return lacksAnswer
}

func (s *Server) paperLine(p journal.WaitingPaper) workLine {
	l := workLine{ID: p.ID, Link: "/paper/" + p.ID, Kind: p.Kind, Title: value(p, paper.FieldTitle), Provider: value(p, paper.FieldProvider),
		Start: day(value(p, paper.FieldStart)), End: day(value(p, paper.FieldEnd)), File: nameOf(p), Ask: p.Reason}
	if m, ok := minutes(value(p, paper.FieldDuration)); ok {
		l.Minutes = &m
	}
	var also []string
	for _, f := range []paper.Field{paper.FieldCredits, paper.FieldTotal} {
		if v := value(p, f); v != "" {
			also = append(also, v)
		}
	}
	l.Also = strings.Join(also, ", ")
	if len(p.Questions) > 0 {
		l.Ask = p.Questions[0].Text
	}
	if p.State != catalog.Unread {
		l.Picture = "/paper/" + p.ID + "/page/" + firstPage(p) + "?dpi=40"
	}
	return l
}

func claimLine(c journal.Claim) workLine {
	return workLine{ID: c.ID, Link: "/claim/" + c.ID, Kind: c.Kind, Title: c.Title, Provider: c.Provider, Start: c.Start, End: c.End, Minutes: c.Duration}
}

func receiptLine(r journal.Receipt) workLine {
	l := workLine{ID: r.ID, Link: "/paper/" + r.Paper, Kind: string(paper.Receipt), Title: r.Title, Provider: r.Provider, Start: r.Start, End: r.End, Also: r.Total, File: r.File}
	if l.End.IsZero() {
		l.End = r.Date
	}
	return l
}

// compare puts the earliest activity first: its cycle ends first.
func (l workLine) compare(m workLine) int {
	if l.End.IsZero() != m.End.IsZero() {
		return btoi(l.End.IsZero()) - btoi(m.End.IsZero())
	}
	return cmp.Or(l.End.Compare(m.End), cmp.Compare(len(l.ID), len(m.ID)), cmp.Compare(l.ID, m.ID))
}

// matches reports whether every word of the search is found in the line.
func (l workLine) matches(search string) bool {
	text := strings.ToLower(strings.Join([]string{l.ID, l.Kind, l.Title, l.Provider, l.File, l.Ask, l.Also, l.End.String()}, " "))
	for _, word := range strings.Fields(strings.ToLower(search)) {
		if !strings.Contains(text, word) {
			return false
		}
	}
	return true
}

func (s *Server) shortStandings(ctx context.Context, about journal.About) ([]shortStanding, error) {
	list, err := s.o.Journal.Standing(ctx, credit.Date{}, "")
	if err != nil {
		return nil, err
	}
	var out []shortStanding
	for i, st := range list {
		short := shortStanding{Counted: st.Counted, Target: st.Target, Missing: st.Missing, HasTarget: st.HasTarget, Meets: st.Meets, Unit: st.Unit}
		short.DaysLeft, short.HasDays = st.DaysLeft()
		if i < len(about.Certifications) {
			short.AboutCertification = about.Certifications[i]
		}
		out = append(out, short)
	}
	return out, nil
}
