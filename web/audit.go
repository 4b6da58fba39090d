package web

import (
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"

	"evidencevault/audit"
	"evidencevault/credit"
)

// auditPage is the rehearsal of each certification.
type auditPage struct{ Rehearsals []rehearsalPart }

type rehearsalPart struct {
	audit.Rehearsal
	Grave, Doubts []audit.Weakness
}

func (s *Server) audit(w http.ResponseWriter, r *http.Request) {
	s.showAudit(w, r, http.StatusOK, "")
}

func (s *Server) showAudit(w http.ResponseWriter, r *http.Request, status int, wrong string) {
	about, err := s.o.Journal.About(r.Context())
	if err != nil {
		s.fail(w, r, err)
		return
	}
	var body auditPage
	for _, name := range certifications(about) {
		found, err := audit.Rehearse(r.Context(), s.o.Journal, name, credit.Date{})
		if err != nil {
			s.fail(w, r, err)
			return
		}
		p := rehearsalPart{Rehearsal: found}
		for _, f := range found.Findings {
			if f.Weight == audit.Grave {
				p.Grave = append(p.Grave, f)
			} else {
				p.Doubts = append(p.Doubts, f)
			}
		}
		body.Rehearsals = append(body.Rehearsals, p)
	}
	s.showWrong(w, r, status, screenAudit, wordsFor(r).T("audit.title"), wrong, body)
}

// packet makes a packet and hands it out as an archive. It is made whole before the
// first byte goes out.
func (s *Server) packet(w http.ResponseWriter, r *http.Request) {
	d, err := audit.Gather(r.Context(), s.o.Journal, r.PostForm.Get("certification"), s.o.Journal.Today())
	if err != nil {
		s.fail(w, r, err)
		return
	}
	if r.PostForm.Get("unproven") != "" {
		d = d.WithoutUnproven()
	}
	dir, err := os.MkdirTemp("", "packet-")
	if err != nil {
		s.fail(w, r, err)
		return
	}
	defer func() { _ = os.RemoveAll(dir) }() // a copy; what is left of it the system clears away
	name := "packet-" + d.On.String() + ".zip"
	path := filepath.Join(dir, name)
	if err := audit.WritePacket(r.Context(), s.o.Journal.Catalog().Store(), d, path, nil); err != nil {
		s.showAudit(w, r, http.StatusUnprocessableEntity, err.Error())
		return
	}
	f, err := os.Open(path)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	defer func() { _ = f.Close() }() // it was only read
	w.Header().Set("Content-Type", "application/zip")
	w.Header().Set("Content-Disposition", fmt.Sprintf("attachment; filename=%q", strings.ReplaceAll(name, `"`, "")))
	_, _ = io.Copy(w, f) // the visitor is gone if this fails
}
