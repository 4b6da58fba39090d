package web

import (
	"context"
	"errors"
	"io"
	"net/http"
	"path/filepath"
	"strings"

	"evidencevault/credit"
	"evidencevault/credit/scheme"
	"evidencevault/intake"
	"evidencevault/journal"
)

// Begin makes the vault that the first steps describe, and says who takes files in.
type Begin func(ctx context.Context, o journal.SetupOptions) (*journal.Journal, *intake.Intake, error)

// mostScheme bounds a scheme file, in bytes.
const mostScheme = 1 << 20

// firstSteps is the form of the first steps, filled with what was typed.
type firstSteps struct {
	Dir     string
	Shipped []scheme.Shipped

	Holder, Number, Scheme, Start, End, Drop string
	Dropped                                  string // keep or empty; "" as the program does by itself
	Wrong                                    []string
}

// first answers while the folder is no vault yet: the form, and nothing else of the page.
func (s *Server) first(next http.Handler) http.Handler {
	begin := http.NewServeMux()
	begin.HandleFunc("GET /{$}", func(w http.ResponseWriter, r *http.Request) {
		s.showFirst(w, r, http.StatusOK, firstSteps{Drop: ""})
	})
	begin.HandleFunc("POST /begin", s.begin)
	begin.HandleFunc("GET /style/{file}", s.asset("style", "text/css; charset=utf-8"))
	begin.HandleFunc("GET /script/{file}", s.asset("script", "text/javascript; charset=utf-8"))
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if s.begun.Load() {
			next.ServeHTTP(w, r)
			return
		}
		begin.ServeHTTP(w, r)
	})
}

func (s *Server) showFirst(w http.ResponseWriter, r *http.Request, status int, body firstSteps) {
	body.Dir, body.Shipped = s.o.Dir, scheme.List()
	s.show(w, r, status, screenFirst, wordsFor(r).T("first.title"), body)
}

// begin makes the vault. What was typed stays in the form when something is wrong with it.
func (s *Server) begin(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseMultipartForm(mostScheme); err != nil {
		http.Error(w, "413 the form cannot be read, or is too long", http.StatusRequestEntityTooLarge)
		return
	}
	body, t := firstSteps{}, wordsFor(r)
	for name, into := range map[string]*string{"holder": &body.Holder, "number": &body.Number, "scheme": &body.Scheme,
		"start": &body.Start, "end": &body.End, "drop": &body.Drop, "dropped": &body.Dropped} {
		*into = strings.TrimSpace(r.PostFormValue(name))
	}
	o := journal.SetupOptions{Holder: body.Holder, Number: body.Number, SchemeID: body.Scheme, Drop: body.Drop,
		EmptyDrop: body.Dropped == "empty", KeepDropped: body.Dropped == "keep"}
	for _, d := range []struct {
		name, text string
		into       *credit.Date
		must       bool
	}{{"first.start", body.Start, &o.Start, true}, {"first.end", body.End, &o.End, false}} {
		if day, err := credit.ParseDate(d.text); err == nil {
			*d.into = day
		} else if d.must || d.text != "" {
			body.Wrong = append(body.Wrong, t.T(d.name)+": "+t.T("standing.baddate", d.text))
		}
	}
	if o.Holder == "" {
		body.Wrong = append(body.Wrong, t.T("first.noholder"))
	}
	file, err := ownScheme(r)
	switch {
	case err != nil:
		body.Wrong = append(body.Wrong, s.say(r, err))
	case len(file.Data) > 0:
		o.Scheme = file
	case o.SchemeID == "":
		body.Wrong = append(body.Wrong, t.T("first.noscheme"))
	}
	if o.Drop != "" && !filepath.IsAbs(o.Drop) {
		body.Wrong = append(body.Wrong, t.T("first.absolute", o.Drop))
	}
	if len(body.Wrong) > 0 {
		s.showFirst(w, r, http.StatusUnprocessableEntity, body)
		return
	}
	if err := s.setUp(r.Context(), o); err != nil {
		body.Wrong = s.problems(r, err)
		s.showFirst(w, r, http.StatusUnprocessableEntity, body)
		return
	}
	s.then(w, r, "/", note{Text: t.T("first.done", o.Holder)})
}

// ownScheme is the scheme file that was sent along, if one was.
func ownScheme(r *http.Request) (journal.SchemeFile, error) {
	f, head, err := r.FormFile("file")
	if errors.Is(err, http.ErrMissingFile) {
		return journal.SchemeFile{}, nil
	}
	if err != nil {
		return journal.SchemeFile{}, err
	}
	defer func() { _ = f.Close() }() // it was only read
	data, err := io.ReadAll(io.LimitReader(f, mostScheme+1))
	return journal.SchemeFile{Name: filepath.Base(head.Filename), Data: data}, err
}

// setUp makes the vault once, and opens the rest of the page.
func (s *Server) setUp(ctx context.Context, o journal.SetupOptions) error {
	s.beginLock.Lock()
	defer s.beginLock.Unlock()
	if s.begun.Load() {
		return nil // another tab was faster
	}
	j, in, err := s.o.Begin(context.WithoutCancel(ctx), o)
	if err != nil {
		return err
	}
	s.o.Journal, s.o.Intake = j, in
	s.pictures = newPictures(s.o.Pages, j.Catalog().Store())
	s.begun.Store(true)
	return nil
}
