package web

import (
	"cmp"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// claimsPage is the table of claims.
type claimsPage struct {
	Claims  []journal.Claim
	Search  string
	Sort    string
	All     int
	Certs   int // certifications
	Counted credit.Amount
}

func (s *Server) claims(w http.ResponseWriter, r *http.Request) {
	list, err := s.o.Journal.Claims(r.Context(), journal.ClaimsFilter{})
	if err != nil {
		s.fail(w, r, err)
		return
	}
	about, err := s.o.Journal.About(r.Context())
	if err != nil {
		s.fail(w, r, err)
		return
	}
	body := claimsPage{Search: r.URL.Query().Get("q"), Sort: r.URL.Query().Get("sort"), All: len(list), Certs: len(about.Certifications)}
	for _, c := range list {
		line := claimLine(c)
		line.Also = c.Category
		if line.matches(body.Search) {
			body.Claims = append(body.Claims, c)
			body.Counted = body.Counted.Add(c.Counted)
		}
	}
	slices.SortStableFunc(body.Claims, sortClaims(body.Sort))
	s.show(w, r, http.StatusOK, screenClaims, wordsFor(r).T("claims.title"), body)
}

func sortClaims(by string) func(a, b journal.Claim) int {
	switch by {
	case "title":
		return func(a, b journal.Claim) int {
			return cmp.Compare(strings.ToLower(a.Title), strings.ToLower(b.Title))
		}
	case "category":
		return func(a, b journal.Claim) int { return cmp.Compare(a.Category, b.Category) }
	case "counted":
		return func(a, b journal.Claim) int { return b.Counted.Cmp(a.Counted) }
	case "id":
		return func(a, b journal.Claim) int {
			return cmp.Or(cmp.Compare(len(a.ID), len(b.ID)), cmp.Compare(a.ID, b.ID))
		}
	}
	return func(a, b journal.Claim) int { return b.End.Compare(a.End) }
}

// provenBy is what one paper proves of a claim.
type provenBy struct {
	Paper, File string
	Proofs      []journal.Proof
}

// byPaper puts proofs of the same paper together, in the order of their first.
func byPaper(list []journal.Proof) []provenBy {
	var out []provenBy
	for _, p := range list {
		i := slices.IndexFunc(out, func(b provenBy) bool { return b.Paper == p.Paper })
		if i < 0 {
			i, out = len(out), append(out, provenBy{Paper: p.Paper, File: p.File})
		}
		out[i].Proofs = append(out[i].Proofs, p)
	}
	return out
}

// claimPage is one claim with its derivation, proofs and history.
type claimPage struct {
	journal.Claim
	Shown      []provenBy // its proofs, paper by paper
	Unit       string
	Lines      []string
	History    []journal.HistoryItem
	Fields     []fieldPart
	Categories []choice
	Papers     []choice // that wait, and can be a further proof
	Mend       string   // what the visitor came to mend: a field, proof or withdraw
	Version    string   // number of the last event about it: what is changed must be what was seen
}

func (s *Server) claim(w http.ResponseWriter, r *http.Request) {
	s.showClaim(w, r, http.StatusOK, "")
}

func (s *Server) showClaim(w http.ResponseWriter, r *http.Request, status int, wrong string) {
	body, err := s.claimBody(r, r.PathValue("id"))
	if err != nil {
		s.fail(w, r, err)
		return
	}
	if wrong != "" {
		body.Notes = append(body.Notes, wrong)
	}
	s.show(w, r, status, screenClaim, body.ID+" "+body.Title, body)
}

func (s *Server) claimBody(r *http.Request, ref string) (claimPage, error) {
	j := s.o.Journal
	d, err := j.Show(r.Context(), ref)
	if err != nil {
		return claimPage{}, err
	}
	if d.Claim == nil {
		return claimPage{}, &journal.StateError{Paper: ref, State: "something else than a claim", Want: "name a claim, as in C9"}
	}
	body := claimPage{Claim: *d.Claim, Shown: byPaper(d.Claim.Proofs), History: d.History, Version: lastEvent(d.History)}
	cert, err := j.Certified(r.Context(), d.Claim.Certification, credit.Date{})
	if err != nil {
		return body, err
	}
	body.Unit, body.Mend = cert.Scheme.Unit, r.URL.Query().Get("mend")
	waiting, err := s.waiting(r.Context(), "")
	if err != nil {
		return body, err
	}
	for _, p := range waiting {
		body.Papers = append(body.Papers, choice{Value: p.ID, Label: strings.TrimSpace(p.ID + "  " + cmp.Or(value(p, paper.FieldTitle), nameOf(p)))})
	}
	if d.Claim.State == "" {
		explained, err := j.Explain(r.Context(), journal.ExplainFilter{IDs: []string{d.Claim.ID}})
		if err != nil {
			return body, err
		}
		for _, e := range explained {
			body.Lines = append(body.Lines, e.Lines...)
		}
	}
	for _, c := range cert.Scheme.Categories {
		body.Categories = append(body.Categories, choice{Value: c.ID, Label: orID(c)})
	}
	p := paperPage{}
	for _, name := range p.fieldNames(cert.Scheme, d.Claim.Category) {
		if name == paper.FieldCategory || name == paper.FieldTotal {
			continue
		}
		body.Fields = append(body.Fields, fieldPart{Name: string(name), Value: d.Claim.Fields[string(name)], Was: d.Claim.Fields[string(name)]})
	}
	if asked := paper.Field(body.Mend); mendable[asked] && !slices.ContainsFunc(body.Fields, func(f fieldPart) bool { return f.Name == body.Mend }) {
		text := d.Claim.Fields[body.Mend]
		body.Fields = append(body.Fields, fieldPart{Name: body.Mend, Value: text, Was: text})
	}
	return body, nil
}

// mendable are fields that only a finding asks for, and no form has otherwise.
var mendable = map[paper.Field]bool{journal.FieldSignature: true}

func lastEvent(h []journal.HistoryItem) string {
	if len(h) == 0 {
		return ""
	}
	return strconv.FormatInt(h[len(h)-1].Event, 10)
}

// unchanged reports whether the claim is still as the form showed it.
func (s *Server) unchanged(w http.ResponseWriter, r *http.Request, id string) bool {
	d, err := s.o.Journal.Show(r.Context(), id)
	if err != nil {
		s.fail(w, r, err)
		return false
	}
	if lastEvent(d.History) != r.PostForm.Get("version") {
		s.showClaim(w, r, http.StatusConflict, wordsFor(r).T("wrong.stale"))
		return false
	}
	return true
}

func (s *Server) changeClaim(w http.ResponseWriter, r *http.Request) {
	id := r.PathValue("id")
	if !s.unchanged(w, r, id) {
		return
	}
	form := readForm(r)
	o := form.options()
	c, err := s.o.Journal.ClaimChange(r.Context(), id, o.Set, o.Category)
	if err != nil {
		s.showClaim(w, r, statusOf(err), s.say(r, err))
		return
	}
	t := wordsFor(r)
	s.then(w, r, "/claim/"+id, note{Text: t.T("done.changed", id, c.Claim.Awarded, c.Claim.Counted), Undo: id})
}

func (s *Server) withdrawClaim(w http.ResponseWriter, r *http.Request) {
	id, why := r.PathValue("id"), strings.TrimSpace(r.PostForm.Get("why"))
	if !s.unchanged(w, r, id) {
		return
	}
	t := wordsFor(r)
	if why == "" {
		s.showClaim(w, r, http.StatusUnprocessableEntity, t.T("aside.why"))
		return
	}
	if _, err := s.o.Journal.ClaimWithdraw(r.Context(), id, why); err != nil {
		s.showClaim(w, r, statusOf(err), s.say(r, err))
		return
	}
	s.then(w, r, "/claims", note{Text: t.T("done.withdrawn", id), Undo: id})
}

// attachTo makes a paper that waits a further proof of a claim.
func (s *Server) attachTo(w http.ResponseWriter, r *http.Request) {
	id, with := r.PathValue("id"), r.PostForm.Get("paper")
	c, err := s.o.Journal.Attach(r.Context(), id, with, nil)
	if err != nil {
		s.showClaim(w, r, statusOf(err), s.say(r, err))
		return
	}
	t := wordsFor(r)
	text := t.T("done.attached", with, id)
	for _, warning := range c.Warnings {
		text += " " + t.Say(warning.Text)
	}
	s.then(w, r, "/claim/"+id, note{Text: text, Undo: with})
}
