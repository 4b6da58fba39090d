package web

import (
	"encoding/base64"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"evidencevault/audit"
	"evidencevault/credit"
	"evidencevault/credit/scheme"
	"evidencevault/journal"
)

// cyclesPage is every cycle of every certification.
type cyclesPage struct{ Certs []cyclesOf }

type cyclesOf struct {
	Name   string
	Cycles []cycleLine
}

// cycleLine is one cycle with what can be done about it.
type cycleLine struct {
	journal.Cycle
	Brought   credit.Amount // that came from the cycle before
	Reopening bool          // it is the last that was closed, so that its closing may be taken back
}

func (s *Server) cycles(w http.ResponseWriter, r *http.Request) {
	list, err := s.o.Journal.Cycles(r.Context(), "")
	if err != nil {
		s.fail(w, r, err)
		return
	}
	var body cyclesPage
	for _, c := range list {
		if n := len(body.Certs); n == 0 || body.Certs[n-1].Name != c.Certification {
			body.Certs = append(body.Certs, cyclesOf{Name: c.Certification})
		}
		of := &body.Certs[len(body.Certs)-1]
		line := cycleLine{Cycle: c}
		for _, in := range c.CarriedIn {
			line.Brought = line.Brought.Add(in.Amount)
		}
		of.Cycles = append(of.Cycles, line)
	}
	for _, of := range body.Certs {
		for i, c := range slices.Backward(of.Cycles) {
			if c.State == journal.CycleClosed {
				of.Cycles[i].Reopening = true
				break
			}
		}
		slices.Reverse(of.Cycles) // the present one first
	}
	s.show(w, r, http.StatusOK, screenCycles, wordsFor(r).T("cycles.title"), body)
}

// cyclePage is a closed cycle as its archive has it.
type cyclePage struct {
	journal.Cycle
	Standing standingCert
	Claims   []archivedClaim
	Record   audit.ClosingRecord
}

// archivedClaim is a claim of a closed cycle with its derivation.
type archivedClaim struct {
	journal.Claim
	Lines []string
}

// cycle shows a closed cycle; nothing of it is worked out anew.
func (s *Server) cycle(w http.ResponseWriter, r *http.Request) {
	a, err := audit.OpenArchive(r.Context(), s.o.Journal, r.PathValue("certification"), r.PathValue("n"))
	if err != nil {
		s.fail(w, r, err)
		return
	}
	body := cyclePage{Cycle: a.Cycle}
	if body.Record, err = a.Record(); err != nil {
		s.fail(w, r, err)
		return
	}
	st, _, err := a.Standing()
	if err != nil {
		s.fail(w, r, err)
		return
	}
	claims, _, err := a.Claims()
	if err != nil {
		s.fail(w, r, err)
		return
	}
	body.Standing = standingOf(journal.Certified{}, st.Statement, claims)
	for i, b := range body.Standing.Bars {
		body.Standing.Bars[i].Title = s.titlesOf(r.Context())().categories[a.Cycle.Certification+" "+b.ID]
		if body.Standing.Bars[i].Title == "" {
			body.Standing.Bars[i].Title = b.ID // the rules were changed since
		}
	}
	for _, c := range claims {
		k := archivedClaim{Claim: c}
		explained, err := a.Explain(journal.ExplainFilter{IDs: []string{c.ID}})
		if err != nil {
			s.fail(w, r, err)
			return
		}
		for _, e := range explained {
			k.Lines = append(k.Lines, e.Lines...)
		}
		body.Claims = append(body.Claims, k)
	}
	title := fmt.Sprintf("%s %d", wordsFor(r).T("cycle.title"), a.Cycle.Number)
	s.show(w, r, http.StatusOK, screenCycle, title, body)
}

// noteCycle writes a note to a closed cycle.
func (s *Server) noteCycle(w http.ResponseWriter, r *http.Request) {
	certification, n := r.PathValue("certification"), r.PathValue("n")
	if _, err := s.o.Journal.NoteCycle(r.Context(), certification, n, strings.TrimSpace(r.PostForm.Get("note"))); err != nil {
		s.fail(w, r, err)
		return
	}
	s.then(w, r, "/cycle/"+certification+"/"+n, note{Text: wordsFor(r).T("done.noted")})
}

// reopen takes back the last closing, or one that was begun.
func (s *Server) reopen(w http.ResponseWriter, r *http.Request) {
	certification := r.PostForm.Get("certification")
	if _, err := audit.UndoClose(r.Context(), s.o.Journal, certification, strings.TrimSpace(r.PostForm.Get("why"))); err != nil {
		s.fail(w, r, err)
		return
	}
	s.then(w, r, "/cycles", note{Text: wordsFor(r).T("done.reopened")})
}

// closePage is what closing a cycle would do, before it is done.
type closePage struct {
	Certification      string
	Ends               credit.Date // of a cycle that has not ended
	Days               int         // until then
	Early, Last        bool
	NextStart, NextEnd string
	NextScheme         string // id of the rules of the next cycle; "": those of this one
	RulesName, Rules   string // or a file of them, in base 64
	Shipped            []scheme.Shipped
	Preview            *audit.ClosePreview
	Carry              []string // how what passes came about
	Waiting            []string // papers that are not decided
	Doubt              string   // why the computer's date may be wrong
	Version            string   // what was shown; nothing else is closed
	Ready              bool     // it can be confirmed
}

// closing shows what closing the present cycle would do.
func (s *Server) closing(w http.ResponseWriter, r *http.Request) {
	s.showClosing(w, r, http.StatusOK, r.URL.Query().Get, "")
}

// lookAtClosing shows what closing would do with what was filled in, a file of rules for
// the next cycle among it. The file goes with the form, so that nothing is kept.
func (s *Server) lookAtClosing(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseMultipartForm(mostRules); err != nil {
		http.Error(w, "413 the form cannot be read, or is too long", http.StatusRequestEntityTooLarge)
		return
	}
	file, err := ownScheme(r)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	wrong := ""
	if len(file.Data) > mostRules {
		file, wrong = journal.SchemeFile{}, wordsFor(r).T("add.toolarge", 0)
	}
	if len(file.Data) > 0 {
		r.PostForm.Set("rules_name", file.Name)
		r.PostForm.Set("rules", base64.StdEncoding.EncodeToString(file.Data))
	}
	status := http.StatusOK
	if wrong != "" {
		status = http.StatusUnprocessableEntity
	}
	s.showClosing(w, r, status, r.PostForm.Get, wrong)
}

// nextRules are the rules of the next cycle that a form names.
func (b closePage) nextRules(o *journal.CloseOptions) error {
	o.SchemeID = b.NextScheme
	if b.Rules == "" {
		return nil
	}
	data, err := base64.StdEncoding.DecodeString(b.Rules)
	if err != nil {
		return fmt.Errorf("%s: %w: it is not the file that was sent", b.RulesName, journal.ErrScheme)
	}
	o.SchemeID, o.Scheme = "", journal.SchemeFile{Name: b.RulesName, Data: data}
	return nil
}

func (s *Server) showClosing(w http.ResponseWriter, r *http.Request, status int, get func(string) string, wrong string) {
	body, err := s.closeBody(r, get)
	if err != nil {
		if body.Certification == "" {
			s.fail(w, r, err)
			return
		}
		status, wrong = max(status, http.StatusUnprocessableEntity), s.say(r, err)
	}
	s.showWrong(w, r, status, screenClose, wordsFor(r).T("close.title"), wrong, body)
}

// closeBody works out what would be closed. With an error the body has what was typed, if
// the cycle is one that can be closed at all.
func (s *Server) closeBody(r *http.Request, get func(string) string) (closePage, error) {
	t := wordsFor(r)
	cert, err := s.o.Journal.Certified(r.Context(), get("certification"), credit.Date{})
	if err != nil {
		return closePage{}, err
	}
	if cert.Cycle.Closed { // the journal says so too, but shown as a page there would be a form
		return closePage{}, fmt.Errorf("%s: %w", cert.Name, journal.ErrClosed)
	}
	version, err := s.o.Journal.Catalog().Length(r.Context())
	if err != nil {
		return closePage{}, err
	}
	body := closePage{Certification: cert.Name, Early: get("early") != "", Last: get("last") != "", NextStart: strings.TrimSpace(get("next_start")), NextEnd: strings.TrimSpace(get("next_end")),
		NextScheme: get("next_scheme"), RulesName: get("rules_name"), Rules: get("rules"), Shipped: scheme.List(), Version: strconv.Itoa(version)}
	if today := s.o.Journal.Today(); !today.After(cert.Cycle.End) {
		if body.Ends, body.Days = cert.Cycle.End, cert.Cycle.End.Sub(today)+1; !body.Early {
			return body, nil
		}
	}
	o := journal.CloseOptions{Certification: cert.Name, Early: body.Early, Last: body.Last}
	for _, d := range []struct {
		text string
		into *credit.Date
	}{{body.NextStart, &o.NextStart}, {body.NextEnd, &o.NextEnd}} {
		if d.text == "" {
			continue
		}
		if *d.into, err = credit.ParseDate(d.text); err != nil {
			return body, fmt.Errorf("%s", t.T("standing.baddate", d.text))
		}
	}
	if err := body.nextRules(&o); err != nil {
		return body, err
	}
	p, err := audit.PreviewClose(r.Context(), s.o.Journal, o)
	if err != nil {
		return body, err
	}
	body.Preview, body.Ready = &p, p.Plan.Begun == 0
	body.Waiting = slices.Concat(p.Plan.Waiting, p.Plan.Unread)
	for _, d := range p.Plan.Statement.Derivations {
		if d.Step == credit.StepCarry && p.Plan.Next != nil {
			body.Carry = append(body.Carry, d.Text)
		}
	}
	switch journal.DoubtDate(p.Plan.Quiet) {
	case journal.DateBefore:
		body.Doubt = t.T("close.clockback")
	case journal.DateLong:
		body.Doubt = t.T("close.quiet", int(p.Plan.Quiet.Hours()/24))
	}
	return body, nil
}

// close closes the cycle that was shown. It goes on when the visitor looks at something
// else; one that is interrupted is finished or taken back later.
func (s *Server) close(w http.ResponseWriter, r *http.Request) {
	t := wordsFor(r)
	body, err := s.closeBody(r, r.PostForm.Get)
	switch {
	case err != nil || !body.Ready:
		s.showClosing(w, r, http.StatusUnprocessableEntity, r.PostForm.Get, "")
		return
	case body.Version != r.PostForm.Get("version"):
		s.showClosing(w, r, http.StatusConflict, r.PostForm.Get, t.T("close.stale"))
		return
	case body.Doubt != "" && r.PostForm.Get("date") == "":
		s.showClosing(w, r, http.StatusUnprocessableEntity, r.PostForm.Get, t.T("close.sayday"))
		return
	case len(body.Preview.Rehearsal.Weak) > 0 && r.PostForm.Get("findings") == "":
		s.showClosing(w, r, http.StatusUnprocessableEntity, r.PostForm.Get, t.T("close.sayweak"))
		return
	}
	ctx, preview := s.ended, *body.Preview
	s.undertake(w, r, &making{What: makeClosing, Certification: body.Certification}, func(m *making, _ string, tell func(n, of int)) (string, error) {
		if err := audit.SweepArchives(ctx, s.o.Journal); err != nil {
			return "", err
		}
		done, err := audit.Close(ctx, s.o.Journal, preview, true, tell)
		m.closedAs(done)
		return "", err
	})
}

// resume finishes a closing that was begun and interrupted.
func (s *Server) resume(w http.ResponseWriter, r *http.Request) {
	certification := r.PostForm.Get("certification")
	s.undertake(w, r, &making{What: makeClosing, Certification: certification}, func(m *making, _ string, tell func(n, of int)) (string, error) {
		done, err := audit.ResumeClose(s.ended, s.o.Journal, certification, tell)
		m.closedAs(done)
		return "", err
	})
}
