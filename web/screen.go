package web

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"net/http"
	"strings"
	"sync"

	"evidencevault/credit"
	"evidencevault/journal"
)

//go:embed page/*.html style/* script/*.js
var assets embed.FS

// names of the screens, each with its template page/NAME.html.
const (
	screenWork     = "work"
	screenPaper    = "paper"
	screenCut      = "cut"
	screenReady    = "ready"
	screenStanding = "standing"
	screenClaims   = "claims"
	screenClaim    = "claim"
	screenAudit    = "audit"
	screenLetter   = "letter"
	screenMade     = "made"
	screenFirst    = "first"
	screenCycles   = "cycles"
	screenCycle    = "cycle"
	screenClose    = "close"
	screenRules    = "rules"
	screenBind     = "bind"
	screenWrong    = "wrong"
)

// screen is what every template is handed.
type screen struct {
	*words
	Base   string // the address's path up to its last slash
	Token  string
	Name   string // of the screen
	Holder string
	Title  string
	Note   *note // what was just done
	Wrong  string
	Typed  []typed // in a form that came too late, so that nothing typed is lost
	Body   any

	titles func() titles
}

// With is the screen with another body, for the parts of a page.
func (sc screen) With(body any) screen {
	sc.Body = body
	return sc
}

// note says what was done, and how it is taken back.
type note struct {
	Text string
	Undo string // reference; "" when there is nothing to undo
	Bad  bool
}

var screens = sync.OnceValue(func() map[string]*template.Template {
	funcs := template.FuncMap{
		"amount": func(a credit.Amount) string { return a.String() },
		"lines":  func(s string) []string { return strings.Split(s, "\n") },
		"dict":   dict,
		"size":   size,
	}
	set := map[string]*template.Template{}
	for _, name := range []string{screenWork, screenPaper, screenCut, screenReady, screenStanding, screenClaims, screenClaim, screenAudit, screenLetter, screenMade, screenFirst, screenCycles, screenCycle, screenClose, screenRules, screenBind, screenWrong} {
		set[name] = template.Must(template.New("layout.html").Funcs(funcs).ParseFS(assets, "page/layout.html", "page/parts.html", "page/"+name+".html"))
	}
	return set
})

// size prints a number of bytes as people do.
func size(n int64) string {
	switch {
	case n >= 1_000_000:
		return fmt.Sprintf("%d.%d\u00a0MB", n/1_000_000, n/100_000%10)
	case n >= 1_000:
		return fmt.Sprintf("%d\u00a0kB", n/1_000)
	}
	return fmt.Sprintf("%d\u00a0B", n)
}

// dict makes a map of pairs, for a template that is handed several things.
func dict(pairs ...any) (map[string]any, error) {
	m := map[string]any{}
	if len(pairs)%2 != 0 {
		return nil, fmt.Errorf("dict: %d values, want pairs", len(pairs))
	}
	for i := 0; i < len(pairs); i += 2 {
		key, ok := pairs[i].(string)
		if !ok {
			return nil, fmt.Errorf("dict: key %v is no text", pairs[i])
		}
		m[key] = pairs[i+1]
	}
	return m, nil
}

// show renders a screen. It is rendered whole before the first byte goes out, so that
// a mistake in it is an error and not half a page.
func (s *Server) show(w http.ResponseWriter, r *http.Request, status int, name, title string, body any) {
	s.showWrong(w, r, status, name, title, "", body)
}

// showWrong is show with what went wrong above the screen.
func (s *Server) showWrong(w http.ResponseWriter, r *http.Request, status int, name, title, wrong string, body any) {
	words := wordsFor(r)
	sc := screen{words: words, Base: "/" + s.secret, Token: s.secret, Name: name, Title: title, Body: body, Wrong: wrong, Note: s.taken(r.URL.Query().Get("note")), titles: s.titlesOf(r.Context())}
	if status == http.StatusConflict {
		sc.Typed = typedIn(r)
	}
	if name != screenFirst {
		if about, err := s.o.Journal.Catalog().Holder(r.Context()); err == nil {
			sc.Holder = about.Name
		}
	}
	var page bytes.Buffer
	if err := screens()[name].Execute(&page, sc); err != nil {
		s.failed(r, err)
		http.Error(w, "500 "+words.T("wrong.server"), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Content-Language", words.Lang())
	w.WriteHeader(status)
	_, _ = turning.WriteString(w, page.String()) // the visitor is gone if this fails
}

// turning shows the marks that turn the direction of what follows (Unicode Standard Annex
// 9, section 2) as what they are: in a name or a text of a paper they make it look like
// another. The page itself has none.
var turning = func() *strings.Replacer {
	var pairs []string
	for _, r := range "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069" {
		pairs = append(pairs, string(r), fmt.Sprintf(`\u%04x`, r))
	}
	return strings.NewReplacer(pairs...)
}()

// part renders one part of a screen alone.
func (s *Server) part(w http.ResponseWriter, r *http.Request, name string, body any) {
	sc := screen{words: wordsFor(r), Base: "/" + s.secret, Token: s.secret, Body: body, titles: s.titlesOf(r.Context())}
	var out bytes.Buffer
	if err := screens()[screenPaper].ExecuteTemplate(&out, name, sc); err != nil {
		s.failed(r, err)
		http.Error(w, sc.T("wrong.server"), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	_, _ = turning.WriteString(w, out.String()) // the visitor is gone if this fails
}

// fail shows an error: what a person did wrong or came too late for as it is, all else
// as itself too, since there is only the person in front of the machine.
func (s *Server) fail(w http.ResponseWriter, r *http.Request, err error) {
	status := statusOf(err)
	if status == http.StatusInternalServerError {
		s.failed(r, err)
	}
	s.show(w, r, status, screenWrong, wordsFor(r).T("wrong.title"), s.say(r, err))
}

// failed tells of an error, unless the visitor only went away.
func (s *Server) failed(r *http.Request, err error) {
	if s.o.Failed != nil && r.Context().Err() == nil {
		s.o.Failed(err)
	}
}

// noted keeps a note for the next screen and returns its number.
func (s *Server) noted(n note) string {
	s.notesLock.Lock()
	defer s.notesLock.Unlock()
	s.noteCount++
	if len(s.notes) > 100 {
		clear(s.notes)
	}
	id := fmt.Sprint(s.noteCount)
	s.notes[id] = n
	return id
}

// taken returns a note once.
func (s *Server) taken(id string) *note {
	s.notesLock.Lock()
	defer s.notesLock.Unlock()
	n, ok := s.notes[id]
	if !ok {
		return nil
	}
	delete(s.notes, id)
	return &n
}

// then sends the visitor on to a screen, with a note.
func (s *Server) then(w http.ResponseWriter, r *http.Request, path string, n note) {
	sep := "?"
	if strings.Contains(path, "?") {
		sep = "&"
	}
	http.Redirect(w, r, "/"+s.secret+path+sep+"note="+s.noted(n), http.StatusSeeOther)
}

// certifications returns the names of the vault's certifications.
func certifications(about journal.About) []string {
	var names []string
	for _, c := range about.Certifications {
		names = append(names, c.ID)
	}
	return names
}
