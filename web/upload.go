package web

import (
	"errors"
	"fmt"
	"io"
	"mime/multipart"
	"net/http"
	"os"
	"path"
	"path/filepath"
	"strings"
	"time"
)

// mostFiles is how many files one upload may bring.
const mostFiles = 500

// upload takes in files that were dropped onto the page, as the drop folder would. They
// are written to a folder of their own first, streamed, and removed when they are in.
func (s *Server) upload(w http.ResponseWriter, r *http.Request) {
	control := http.NewResponseController(w)
	until := time.Now().Add(uploadTime)
	if err := errors.Join(control.SetReadDeadline(until), control.SetWriteDeadline(until)); err != nil {
		s.fail(w, r, err)
		return
	}
	dir, err := os.MkdirTemp("", "dropped-")
	if err != nil {
		s.fail(w, r, err)
		return
	}
	defer func() { _ = os.RemoveAll(dir) }() // what was taken in is in the vault
	n, err := s.receive(r, dir)
	t := wordsFor(r)
	var tooLong *http.MaxBytesError
	switch {
	case errors.As(err, &tooLong):
		s.show(w, r, http.StatusRequestEntityTooLarge, screenWrong, t.T("wrong.title"), t.T("add.toolarge", tooLong.Limit>>20))
		return
	case err != nil:
		s.fail(w, r, fmt.Errorf("%s: %w", t.T("add.failed"), err))
		return
	case n == 0:
		s.then(w, r, "/", note{Text: t.T("add.nothing"), Bad: true})
		return
	}
	report, err := s.o.Intake.Add(r.Context(), dir)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	known, left := 0, []string{}
	for _, k := range report.Taken {
		if k.Before() != "" {
			known++
		}
	}
	for _, l := range report.Left {
		left = append(left, filepath.Base(l.File.Path())+": "+l.Err.Error())
	}
	text := t.T("add.done", len(report.Taken), known)
	if len(left) > 0 {
		text += " " + t.T("add.left", strings.Join(left, "; "))
	}
	s.then(w, r, "/", note{Text: text, Bad: len(left) > 0})
}

// receive writes the files of a form to dir, each in a folder of its own, so that two of
// one name do not meet.
func (s *Server) receive(r *http.Request, dir string) (n int, err error) {
	parts, err := r.MultipartReader()
	if err != nil {
		return 0, err
	}
	for {
		p, err := parts.NextPart()
		if errors.Is(err, io.EOF) {
			return n, nil
		}
		if err != nil {
			return n, err
		}
		if p.FileName() == "" {
			continue
		}
		if n++; n > mostFiles {
			return n, fmt.Errorf("more than %d files at once", mostFiles)
		}
		if err := save(p, filepath.Join(dir, fmt.Sprintf("%04d", n))); err != nil {
			return n, err
		}
	}
}

func save(p *multipart.Part, dir string) error {
	name := path.Base(strings.ReplaceAll(p.FileName(), `\`, "/"))
	if name == "." || name == ".." || name == "/" {
		name = "file"
	}
	if err := os.Mkdir(dir, 0o700); err != nil {
		return err
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return err
	}
	f, err := root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return errors.Join(err, root.Close())
	}
	_, err = io.Copy(f, p)
	return errors.Join(err, f.Close(), root.Close())
}
