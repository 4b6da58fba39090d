package web

import (
	"errors"
	"io/fs"
	"mime"
	"net/http"
	"os"
	"path"
	"time"

	"evidencevault/audit"
	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// route is one address of the page. Those that change something are POST, so that no
// link and no picture can reach them.
type route struct {
	method, path string
	serve        http.HandlerFunc
}

// routes lists every address, below the secret.
func (s *Server) routes() []route {
	get, post := http.MethodGet, http.MethodPost
	return []route{
		{get, "/{$}", s.work},
		{get, "/ready", s.ready},
		{get, "/paper/{id}", s.paper},
		{get, "/paper/{id}/page/{n}", s.picture},
		{get, "/paper/{id}/page/{n}/marks.svg", s.marks},
		{get, "/paper/{id}/page/{n}/words", s.wordsOf},
		{get, "/paper/{id}/cut", s.cutting},
		{get, "/standing", s.standing},
		{get, "/claims", s.claims},
		{get, "/claim/{id}", s.claim},
		{get, "/audit", s.audit},
		{get, "/audit/made/{n}", s.madeOf},
		{get, "/audit/made/{n}/file", s.madeFile},
		{get, "/letter", s.letterForm},
		{get, "/cycles", s.cycles},
		{get, "/cycle/{certification}/{n}", s.cycle},
		{get, "/close", s.closing},
		{get, "/rules", s.rules},
		{get, "/original/{sha}", s.original},
		{get, "/events", s.events},
		{get, "/style/{file}", s.asset("style", "text/css; charset=utf-8")},
		{get, "/script/{file}", s.asset("script", "text/javascript; charset=utf-8")},

		{post, "/ready", s.confirmReady},
		{post, "/paper/{id}/preview", s.preview},
		{post, "/paper/{id}/confirm", s.confirm},
		{post, "/paper/{id}/set-aside", s.setAside},
		{post, "/paper/{id}/cut", s.cut},
		{post, "/paper/{id}/join", s.join},
		{post, "/paper/{id}/attach", s.attach},
		{post, "/paper/{id}/reread", s.reread},
		{post, "/receipt/{id}/tie", s.tieReceipt},
		{post, "/claim/{id}/change", s.changeClaim},
		{post, "/claim/{id}/attach", s.attachTo},
		{post, "/claim/{id}/withdraw", s.withdrawClaim},
		{post, "/undo", s.undo},
		{post, "/add", s.upload},
		{post, "/audit/make", s.make},
		{post, "/letter", s.recordLetter},
		{post, "/letter/{id}/answered", s.answerLetter},
		{post, "/close", s.close},
		{post, "/close/look", s.lookAtClosing},
		{post, "/close/resume", s.resume},
		{post, "/close/undo", s.reopen},
		{post, "/cycle/{certification}/{n}/note", s.noteCycle},
		{post, "/rules", s.lookAtRules},
		{post, "/rules/use", s.useRules},
	}
}

// Handler answers every request: the guard, then the routes.
func (s *Server) Handler() http.Handler {
	mux := http.NewServeMux()
	for _, r := range s.routes() {
		mux.HandleFunc(r.method+" "+r.path, r.serve)
	}
	return s.guard(s.first(mux))
}

// asset serves one of the files that are built in.
func (s *Server) asset(dir, kind string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		data, err := assets.ReadFile(path.Join(dir, path.Base(r.PathValue("file"))))
		if err != nil {
			http.NotFound(w, r)
			return
		}
		h := w.Header()
		if h.Set("Content-Type", kind); path.Ext(r.PathValue("file")) == ".svg" {
			h.Set("Content-Type", "image/svg+xml")
		}
		w.Header().Set("Cache-Control", "private, max-age=3600") // the secret is in its address
		_, _ = w.Write(data)                                     // the visitor is gone if this fails
	}
}

// statusOf says which kind of answer an error is.
func statusOf(err error) int {
	var open *journal.OpenError
	var state *journal.StateError
	switch {
	case errors.Is(err, journal.ErrUnknown), errors.Is(err, catalog.ErrUnknown), errors.Is(err, journal.ErrReference), errors.Is(err, journal.ErrCertification), errors.Is(err, fs.ErrNotExist), errors.Is(err, errNotMade):
		return http.StatusNotFound
	case errors.As(err, &state):
		return http.StatusConflict
	case errors.As(err, &open), errors.Is(err, journal.ErrField), errors.Is(err, journal.ErrOpen), errors.Is(err, page.ErrNoPicture),
		errors.Is(err, errSome), errors.Is(err, audit.ErrNoClaim), errors.Is(err, journal.ErrLetter), errors.Is(err, journal.ErrCycle), errors.Is(err, journal.ErrMoved), errors.Is(err, journal.ErrClosed), errors.Is(err, audit.ErrAltered),
		errors.Is(err, journal.ErrCategory), errors.Is(err, journal.ErrPages), errors.Is(err, journal.ErrNothing), errors.Is(err, journal.ErrScheme), errors.Is(err, journal.ErrVersion),
		errors.Is(err, paper.ErrValue), errors.Is(err, credit.ErrDate), errors.Is(err, credit.ErrAmount):
		return http.StatusUnprocessableEntity
	}
	return http.StatusInternalServerError
}

// original hands out an evidence as it came, as a download and never for display.
func (s *Server) original(w http.ResponseWriter, r *http.Request) {
	ev, err := s.o.Journal.Catalog().Evidence(r.Context(), r.PathValue("sha"))
	if err != nil {
		s.fail(w, r, err)
		return
	}
	f, err := s.o.Journal.Catalog().Store().Open(ev.SHA256)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	name := ev.SHA256[:12] + ev.Ext
	if len(ev.Names) > 0 {
		name = path.Base(ev.Names[0].Name.String())
	}
	s.download(w, r, f, name)
}

// download sends an open file under a name, never for display, and closes it.
func (s *Server) download(w http.ResponseWriter, r *http.Request, f *os.File, name string) {
	defer func() { _ = f.Close() }() // it was only read
	info, err := f.Stat()
	if err != nil {
		s.fail(w, r, err)
		return
	}
	if err := http.NewResponseController(w).SetWriteDeadline(time.Now().Add(uploadTime)); err != nil {
		s.fail(w, r, err)
		return
	}
	h := w.Header()
	h.Set("Content-Security-Policy", "sandbox; default-src 'none'")
	h.Set("Content-Type", "application/octet-stream")
	h.Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": name}))
	http.ServeContent(w, r, "", info.ModTime(), f)
}
