package web

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"evidencevault/audit"
	"evidencevault/credit"
	"evidencevault/journal"
)

// errSome says that it is not clear which claims are asked for.
var errSome = errors.New("not clear which claims are asked for")

// someClaims is which claims are asked for, as it was typed: named, or drawn. The zero
// value is all of them.
type someClaims struct {
	claims       string // C1, C4-C6
	sample, seed string
	n            int // of the sample
}

// someOf reads which claims a form asks for. The error wraps errSome.
func someOf(r *http.Request) (someClaims, error) {
	get := func(name string) string { return strings.TrimSpace(r.PostForm.Get(name)) }
	some := someClaims{claims: get("claims"), sample: get("sample"), seed: get("seed")}
	if some.sample == "" && some.seed == "" {
		return some, nil
	}
	var err error
	if some.n, err = strconv.Atoi(some.sample); err != nil || some.n < 1 || some.seed == "" {
		return some, fmt.Errorf("%w: a sample has a number of claims, and words with which it can be drawn again", errSome)
	}
	if some.claims != "" {
		return some, fmt.Errorf("%w: name claims, or have some drawn, not both", errSome)
	}
	return some, nil
}

// ids are the claims named.
func (c someClaims) ids() ([]string, error) {
	refs, err := journal.ParseRefs(c.claims)
	if err != nil {
		return nil, err
	}
	ids := make([]string, len(refs))
	for i, ref := range refs {
		if ref.Kind != journal.ClaimRef {
			return nil, fmt.Errorf("%w: %s is no claim", errSome, ref)
		}
		ids[i] = ref.String()
	}
	return ids, nil
}

// letter is the audit letter of a name. The error wraps [journal.ErrUnknown].
func (s *Server) letter(ctx context.Context, ref string) (journal.AuditLetter, error) {
	list, err := s.o.Journal.Letters(ctx)
	if err != nil {
		return journal.AuditLetter{}, err
	}
	for _, l := range list {
		if strings.EqualFold(l.ID, ref) {
			return l, nil
		}
	}
	return journal.AuditLetter{}, fmt.Errorf("audit letter %s: %w", ref, journal.ErrUnknown)
}

// lettersOf are the letters of a certification, those that are open first and the one that
// is due first above all.
func lettersOf(list []journal.AuditLetter, certification string) []journal.AuditLetter {
	var out []journal.AuditLetter
	for _, l := range list {
		if l.Certification == certification {
			out = append(out, l)
		}
	}
	slices.SortStableFunc(out, func(a, b journal.AuditLetter) int {
		if c := btoi(a.State != journal.LetterOpen) - btoi(b.State != journal.LetterOpen); c != 0 {
			return c
		}
		return a.Due.Sub(b.Due)
	})
	return out
}

// openLetters are the letters that are not answered, the one due first above all.
func (s *Server) openLetters(ctx context.Context) ([]journal.AuditLetter, error) {
	list, err := s.o.Journal.Letters(ctx)
	if err != nil {
		return nil, err
	}
	list = slices.DeleteFunc(list, func(l journal.AuditLetter) bool { return l.State != journal.LetterOpen })
	slices.SortStableFunc(list, func(a, b journal.AuditLetter) int { return a.Due.Sub(b.Due) })
	return list, nil
}

// letterPage asks for what is recorded of an audit letter.
type letterPage struct {
	Certifications, Papers, Cycles []choice

	Paper, Certification, Cycle, Dated, Due, Claims, Sample, Seed string // as typed
}

// letterForm shows the form.
func (s *Server) letterForm(w http.ResponseWriter, r *http.Request) {
	s.showLetter(w, r, http.StatusOK, r.URL.Query().Get, "")
}

func (s *Server) showLetter(w http.ResponseWriter, r *http.Request, status int, get func(string) string, wrong string) {
	body := letterPage{Paper: get("paper"), Certification: get("certification"), Cycle: get("cycle"), Dated: get("date"), Due: get("due"),
		Claims: get("claims"), Sample: get("sample"), Seed: get("seed")}
	about, err := s.o.Journal.About(r.Context())
	if err != nil {
		s.fail(w, r, err)
		return
	}
	for _, name := range certifications(about) {
		body.Certifications = append(body.Certifications, choice{Value: name})
	}
	if body.Certification == "" && len(body.Certifications) > 0 {
		body.Certification = body.Certifications[0].Value
	}
	waiting, err := s.waiting(r.Context(), "")
	if err != nil {
		s.fail(w, r, err)
		return
	}
	for _, p := range waiting {
		body.Papers = append(body.Papers, choice{Value: p.ID, Label: p.ID + " " + nameOf(p)})
	}
	cycles, err := s.o.Journal.Cycles(r.Context(), body.Certification)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	t := wordsFor(r)
	for _, c := range cycles {
		body.Cycles = append(body.Cycles, choice{Value: strconv.Itoa(c.Number), Label: fmt.Sprintf("%d: %s", c.Number, t.Span(c.Start, c.End))})
	}
	s.showWrong(w, r, status, screenLetter, t.T("letter.title"), wrong, body)
}

// recordLetter keeps a paper as an audit letter.
func (s *Server) recordLetter(w http.ResponseWriter, r *http.Request) {
	o, err := s.letterOptions(r)
	var l journal.AuditLetter
	if err == nil {
		l, err = s.o.Journal.RecordLetter(r.Context(), []string{r.PostForm.Get("paper")}, o)
	}
	if err != nil {
		status := statusOf(err)
		if status == http.StatusInternalServerError {
			s.failed(r, err)
		}
		s.showLetter(w, r, status, r.PostForm.Get, s.say(r, err))
		return
	}
	t := wordsFor(r)
	s.then(w, r, "/audit", note{Text: t.T("done.letter", l.ID, t.Day(l.Due)), Undo: l.ID})
}

// letterOptions reads the form of a letter.
func (s *Server) letterOptions(r *http.Request) (journal.LetterOptions, error) {
	o := journal.LetterOptions{Certification: r.PostForm.Get("certification"), Cycle: r.PostForm.Get("cycle")}
	some, err := someOf(r)
	if err != nil {
		return o, err
	}
	for name, into := range map[string]*credit.Date{"date": &o.Dated, "due": &o.Due} {
		if text := strings.TrimSpace(r.PostForm.Get(name)); text != "" {
			if *into, err = credit.ParseDate(text); err != nil {
				return o, err
			}
		}
	}
	switch {
	case some.n > 0:
		o.Seed = some.seed
		o.Claims, err = audit.DrawClaims(r.Context(), s.o.Journal, o.Certification, o.Cycle, some.n, some.seed)
	case some.claims != "":
		o.Claims = []string{some.claims}
	}
	return o, err
}

// answerLetter records that a letter was answered.
func (s *Server) answerLetter(w http.ResponseWriter, r *http.Request) {
	var on credit.Date
	if text := strings.TrimSpace(r.PostForm.Get("on")); text != "" {
		var err error
		if on, err = credit.ParseDate(text); err != nil {
			s.fail(w, r, err)
			return
		}
	}
	l, err := s.o.Journal.AnswerLetter(r.Context(), r.PathValue("id"), on, r.PostForm.Get("note"))
	if err != nil {
		s.fail(w, r, err)
		return
	}
	t := wordsFor(r)
	s.then(w, r, "/audit", note{Text: t.T("done.answered", l.ID, t.Day(l.Answered)), Undo: l.ID})
}
