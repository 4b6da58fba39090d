package web

import (
	"errors"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// filledForm is what the form of a paper held.
type filledForm struct {
	certification, costOf string
	fields                map[paper.Field]string // as typed
	was                   map[paper.Field]string // as read when the form was shown
	answers               map[paper.Field]string // to questions
	others                map[paper.Field]string // typed as an answer of one's own
	row                   int                    // of a transcript, that the form is about; 0: all
	rows                  map[int]string         // what was chosen for each row
	further               map[string]string      // what was chosen for further certifications
}

// otherAnswer is the choice of a question that says "something else".
const otherAnswer = "\x00other"

// readForm takes the form apart. Its names are set.FIELD, was.FIELD, ask.FIELD and
// other.FIELD.
func readForm(r *http.Request) *filledForm {
	f := &filledForm{certification: r.PostForm.Get("certification"), costOf: r.PostForm.Get("cost_of"),
		fields: map[paper.Field]string{}, was: map[paper.Field]string{}, answers: map[paper.Field]string{}, others: map[paper.Field]string{}}
	for key := range r.PostForm {
		kind, name, ok := strings.Cut(key, ".")
		if !ok {
			continue
		}
		v, field := strings.TrimSpace(r.PostForm.Get(key)), paper.Field(name)
		switch kind {
		case "set":
			f.fields[field] = v
		case "was":
			f.was[field] = v
		case "ask":
			f.answers[field] = v
		case "other":
			f.others[field] = v
		}
	}
	for _, pair := range r.PostForm["also"] { // the answer to one question settles another field
		from, to, _ := strings.Cut(pair, " ")
		f.answers[paper.Field(to)], f.others[paper.Field(to)] = f.answers[paper.Field(from)], f.others[paper.Field(from)]
	}
	f.readRows(r)
	f.readFurther(r)
	return f
}

// or is what was typed for a field, or v.
func (f *filledForm) or(name paper.Field, v string) string {
	if typed, ok := f.fields[name]; ok {
		return typed
	}
	if typed := f.answer(name); typed != "" {
		return typed
	}
	return v
}

func (f *filledForm) answer(name paper.Field) string {
	switch a := f.answers[name]; a {
	case "", otherAnswer:
		return f.others[name]
	default:
		return a
	}
}

// options are what the form asks the journal to do: what was changed, and the answers.
func (f *filledForm) options() journal.ConfirmOptions {
	o := journal.ConfirmOptions{Certification: f.certification, CostOf: f.costOf, Also: f.also(), Set: map[string]string{}}
	for name, v := range f.fields {
		if v != f.was[name] {
			o.Set[string(name)] = v
		}
	}
	for name := range f.answers {
		if v := f.answer(name); v != "" {
			o.Set[string(name)] = v
		}
	}
	for name, v := range f.others {
		if v != "" && f.answers[name] == "" {
			o.Set[string(name)] = v
		}
	}
	if c, ok := o.Set[string(paper.FieldCategory)]; ok {
		o.Category = c
		delete(o.Set, string(paper.FieldCategory))
	}
	return o
}

// effect is what confirming would do, in exact figures.
type effect struct {
	Wrong    string
	Open     []string // questions that keep it from being confirmed
	Claims   []effectClaim
	Receipts []journal.Receipt
	Warnings []string
	Changes  []effectChange
}

// effectClaim is a claim as it would be.
type effectClaim struct {
	journal.Claim
	Unit string
	Cuts []credit.Cut
}

// effectChange is one certification before and after.
type effectChange struct {
	Certification                string
	Unit                         string
	Before, After                credit.Amount
	MissingBefore, MissingAfter  credit.Amount
	Target                       credit.Amount
	HasTarget, MeetsNow, MeetsTo bool
}

func effectOf(p journal.Preview) *effect {
	e := &effect{Receipts: p.Receipts}
	for _, q := range p.Open {
		e.Open = append(e.Open, q.Text)
	}
	for _, w := range p.Warnings {
		e.Warnings = append(e.Warnings, w.Text)
	}
	for i, after := range p.After {
		if len(p.Claims) == 0 {
			break // a receipt changes no standing
		}
		before := p.Before[i]
		for _, c := range p.Claims {
			if c.Certification != after.Certification {
				continue
			}
			k := effectClaim{Claim: c, Unit: after.Unit}
			for _, cut := range after.Cuts {
				if cut.Claim == c.ID {
					k.Cuts = append(k.Cuts, cut)
				}
			}
			e.Claims = append(e.Claims, k)
		}
		if before.Counted.Equal(after.Counted) && before.Missing.Equal(after.Missing) && len(p.After) > 1 {
			continue
		}
		e.Changes = append(e.Changes, effectChange{Certification: after.Certification, Unit: after.Unit, Before: before.Counted, After: after.Counted,
			MissingBefore: before.Missing, MissingAfter: after.Missing, Target: after.Target, HasTarget: after.HasTarget, MeetsNow: before.Meets, MeetsTo: after.Meets})
	}
	return e
}

// preview shows what confirming would do: the part of the page alone for the script,
// the whole page without one.
func (s *Server) preview(w http.ResponseWriter, r *http.Request) {
	form := readForm(r)
	p, err := s.o.Journal.Preview(r.Context(), r.PathValue("id"), form.foretold())
	e := effectOf(p)
	if err != nil {
		e = &effect{Wrong: s.say(r, err)}
	}
	if r.PostForm.Get("part") == "" {
		s.showPaper(w, r, http.StatusOK, form, e, "")
		return
	}
	s.part(w, r, "effect", e)
}

func (s *Server) confirm(w http.ResponseWriter, r *http.Request) {
	form, id := readForm(r), r.PathValue("id")
	t := wordsFor(r)
	var made []string
	var waits bool
	to, acts := s.next(r, id), form.acts()
	if len(acts) == 0 {
		s.showPaper(w, r, http.StatusUnprocessableEntity, form, nil, t.T("rows.none"))
		return
	}
	for i, o := range acts {
		done, err := s.o.Journal.Confirm(r.Context(), []string{id}, o)
		if err != nil && i > 0 {
			s.then(w, r, "/paper/"+id, note{Text: t.T("done.partly", strings.Join(made, " "), t.Say(err.Error())), Undo: id, Bad: true})
			return
		}
		if err != nil {
			s.back(w, r, form, err)
			return
		}
		made = append(made, madeBy(t, done)...)
		waits = len(done.Waiting) > 0
	}
	if waits {
		to = "/paper/" + id
		if form.row > 0 {
			to += s.nextRow(r, id, form.row)
		}
	}
	text := t.T("done.confirmed", id) + " " + strings.Join(made, " ")
	s.then(w, r, to, note{Text: strings.TrimSpace(text + " " + s.stands(r, form.certification)), Undo: id})
}

// stands says what is counted now for a certification, "" being the first.
func (s *Server) stands(r *http.Request, certification string) string {
	list, err := s.o.Journal.Standing(r.Context(), credit.Date{}, "")
	if err != nil {
		return "" // the next screen says what is wrong
	}
	t := wordsFor(r)
	for _, st := range list {
		if st.HasTarget && (certification == "" || st.Certification == certification) {
			return t.T("done.stands", st.Counted, t.Units(st.Target, st.Unit))
		}
	}
	return ""
}

// madeBy says what a confirmation made.
func madeBy(t *words, done journal.ConfirmResult) []string {
	var made []string
	for _, c := range done.Claims {
		made = append(made, t.T("done.claim", c.ID, c.Awarded, c.Counted))
	}
	for _, c := range done.Receipts {
		made = append(made, t.T("done.receipt", c.ID, c.Total))
	}
	for _, warning := range done.Warnings {
		made = append(made, t.Say(warning.Text))
	}
	return made
}

// nextRow is the query of the row that waits after row, else of the whole paper.
func (s *Server) nextRow(r *http.Request, id string, row int) string {
	p, err := s.paperBody(r.Context(), id, row, 0, nil)
	if err != nil || p.NextRow == 0 {
		return ""
	}
	return "?row=" + strconv.Itoa(p.NextRow)
}

// back shows the paper again with what was typed, and what is wrong with it. Someone
// who came too late is told what the other did.
func (s *Server) back(w http.ResponseWriter, r *http.Request, form *filledForm, err error) {
	var open *journal.OpenError
	if errors.As(err, &open) {
		e := &effect{}
		for _, q := range open.Questions {
			e.Open = append(e.Open, q.Text)
		}
		s.showPaper(w, r, http.StatusUnprocessableEntity, form, e, wordsFor(r).T("confirm.open"))
		return
	}
	status := statusOf(err)
	if status == http.StatusNotFound {
		s.fail(w, r, err)
		return
	}
	s.showPaper(w, r, status, form, nil, s.say(r, err))
}

// next is the paper that comes after id on the worklist, else the worklist. It is asked
// before id is decided and is there no more.
func (s *Server) next(r *http.Request, id string) string {
	waiting, err := s.waiting(r.Context(), "")
	if err != nil {
		return "/" // the next screen says what is wrong
	}
	i := slices.IndexFunc(waiting, func(p journal.WaitingPaper) bool { return p.ID == id })
	if i < 0 || i+1 == len(waiting) {
		return "/"
	}
	return "/paper/" + waiting[i+1].ID
}

func (s *Server) setAside(w http.ResponseWriter, r *http.Request) {
	id, why := r.PathValue("id"), strings.TrimSpace(r.PostForm.Get("why"))
	t := wordsFor(r)
	if why == "" {
		s.showPaper(w, r, http.StatusUnprocessableEntity, nil, nil, t.T("aside.why"))
		return
	}
	to := s.next(r, id)
	if _, err := s.o.Journal.SetAside(r.Context(), []string{id}, why); err != nil {
		s.back(w, r, nil, err)
		return
	}
	s.then(w, r, to, note{Text: t.T("done.aside", id), Undo: id})
}

func (s *Server) attach(w http.ResponseWriter, r *http.Request) {
	id := r.PathValue("id")
	c, err := s.o.Journal.Attach(r.Context(), r.PostForm.Get("claim"), id, nil)
	if err != nil {
		s.back(w, r, nil, err)
		return
	}
	s.then(w, r, "/claim/"+c.Claim.ID, note{Text: wordsFor(r).T("done.attached", id, c.Claim.ID), Undo: id})
}

func (s *Server) reread(w http.ResponseWriter, r *http.Request) {
	id := r.PathValue("id")
	ids, err := s.o.Journal.PaperIDs(r.Context(), []string{id})
	if err != nil {
		s.back(w, r, nil, err)
		return
	}
	if _, err := s.o.Intake.Reread(r.Context(), r.PostForm.Get("password"), ids...); err != nil {
		s.back(w, r, nil, err)
		return
	}
	s.then(w, r, "/paper/"+id, note{Text: wordsFor(r).T("done.reread", id)})
}

// undo takes back the last act on each thing that the form names.
func (s *Server) undo(w http.ResponseWriter, r *http.Request) {
	var texts []string
	t, to := wordsFor(r), "/"
	ids := strings.Fields(r.PostForm.Get("id"))
	for _, id := range ids {
		done, err := s.o.Journal.Undo(r.Context(), id)
		if err != nil {
			s.fail(w, r, err)
			return
		}
		texts = append(texts, t.T("done.undone", done.ID, t.Say(done.Undone)))
		switch {
		case len(ids) > 1:
		case strings.HasPrefix(done.ID, "P"):
			to = "/paper/" + done.ID
		case strings.HasPrefix(done.ID, "C"):
			to = "/claim/" + done.ID
		case strings.HasPrefix(done.ID, "L"):
			to = "/audit"
		}
	}
	s.then(w, r, to, note{Text: strings.Join(texts, " ")})
}
