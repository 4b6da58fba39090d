package web

import (
	"bytes"
	"context"
	"errors"
	"io"
	"net/http"
	"path/filepath"
	"strings"

	"evidencevault/audit"
	"evidencevault/extract/page"
)

// bindPage asks for the passwords of the originals that open only with one.
type bindPage struct {
	Certification, Cycle string
	Unproven             string            // as it was chosen before
	Asked                map[string]string // which claims, likewise
	Locked               []lockedPart
}

// lockedPart is an original that opens only with its password.
type lockedPart struct{ SHA256, Name string }

// makeBinder begins to bind. Where originals are locked, it asks for their passwords
// first; one that is not given leaves its pages out. A password comes in the body of the
// form, is handed to the child that draws the pages, and is forgotten with it.
func (s *Server) makeBinder(w http.ResponseWriter, r *http.Request, m *making, d audit.Dossier) {
	if r.PostForm.Get("asked") == "" {
		locked, err := s.locked(r.Context(), d)
		if err != nil {
			s.fail(w, r, err)
			return
		}
		if len(locked) > 0 {
			s.show(w, r, http.StatusOK, screenBind, wordsFor(r).T("bind.title"), bindPage{m.Certification, m.Cycle, r.PostForm.Get("unproven"),
				map[string]string{"letter": m.Letter, "claims": m.Claims, "sample": m.Sample, "seed": m.Seed}, locked})
			return
		}
	}
	given := map[string]string{}
	for key := range r.PostForm {
		if sha, ok := strings.CutPrefix(key, "password."); ok {
			given[sha] = r.PostForm.Get(key)
		}
	}
	language, ctx := wordsFor(r).Lang(), s.ended
	s.undertake(w, r, m, func(m *making, dir string, tell func(n, of int)) (string, error) {
		at := filepath.Join(dir, nameOfMade(m, d)+".pdf")
		made, err := audit.WriteBinder(ctx, s.o.Journal.Catalog().Store(), d, at, audit.BinderOptions{Language: language, Pages: s.o.Pages, Done: tell,
			Password: func(_ context.Context, o audit.Original) (string, error) { return given[o.SHA256], nil }})
		m.leaves(made.Locked)
		return at, err
	})
}

// locked are the originals of a dossier that open only with a password.
func (s *Server) locked(ctx context.Context, d audit.Dossier) ([]lockedPart, error) {
	var list []lockedPart
	for _, o := range d.Originals {
		if sealed, err := s.mayBeLocked(o.SHA256); err != nil || !sealed {
			if err != nil {
				return nil, err
			}
			continue
		}
		f, err := s.o.Journal.Catalog().Store().Open(o.SHA256)
		if err != nil {
			return nil, err
		}
		doc, err := s.o.Pages.Read(ctx, f, page.Request{NoOCR: true, From: 1, To: 1})
		_ = f.Close() // it was only read
		if err != nil {
			return nil, err
		}
		if doc.Trouble == page.Password {
			list = append(list, lockedPart{o.SHA256, firstOf(o.Names)})
		}
	}
	return list, nil
}

// mayBeLocked reports whether a file can ask for a password at all: a PDF names its
// encryption in plain letters (ISO 32000-2, section 7.6.1). Others are few, and asked.
func (s *Server) mayBeLocked(sha256 string) (bool, error) {
	f, err := s.o.Journal.Catalog().Store().Open(sha256)
	if err != nil {
		return false, err
	}
	defer func() { _ = f.Close() }() // it was only read
	mark, block, kept := []byte("/Encrypt"), make([]byte, 64<<10), 0
	pdf := false
	for first := true; ; first = false {
		n, err := io.ReadFull(f, block[kept:])
		seen := block[:kept+n]
		if first {
			pdf = bytes.Contains(seen[:min(len(seen), 1024)], []byte("%PDF-"))
		}
		if !pdf || bytes.Contains(seen, mark) {
			return true, nil
		}
		if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
			return false, nil
		}
		if err != nil {
			return false, err
		}
		kept = copy(block, seen[len(seen)-len(mark):])
	}
}

func firstOf(names []string) string {
	if len(names) == 0 {
		return ""
	}
	return names[0]
}
