package web

import (
	"archive/zip"
	"context"
	"errors"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"sync"

	"evidencevault/audit"
)

// What can be made for an auditor. The words stand in addresses and as made.NAME in the
// words of each language.
const (
	makeIndex  = "index"
	makePacket = "packet"
	makeBinder = "binder"
)

// making is one thing that is made, or was.
type making struct {
	What, Certification string

	mu    sync.Mutex
	n, of int // originals copied
	path  string
	err   error
	done  bool
}

// madePage is how far a thing is.
type madePage struct {
	ID                  int
	What, Certification string
	N, Of               int
	Path                string
	Size                int64
	Done                bool
	Wrong               string
	Unproven            bool // it can be made without the claims that lack a proof
}

// workshop makes things one after the other, and keeps them until the page ends.
type workshop struct {
	mu   sync.Mutex
	list []*making
	busy sync.WaitGroup
	dir  string
}

// start begins to make m with do, and returns its number.
func (k *workshop) start(m *making, do func(dir string, tell func(n, of int)) (string, error)) (int, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.dir == "" {
		dir, err := os.MkdirTemp("", "for-the-auditor-")
		if err != nil {
			return 0, err
		}
		k.dir = dir
	}
	k.list = append(k.list, m)
	id := len(k.list)
	dir := filepath.Join(k.dir, strconv.Itoa(id))
	if err := os.Mkdir(dir, 0o700); err != nil {
		return 0, err
	}
	k.busy.Go(func() {
		path, err := do(dir, func(n, of int) {
			m.mu.Lock()
			defer m.mu.Unlock()
			m.n, m.of = n, of
		})
		m.mu.Lock()
		defer m.mu.Unlock()
		m.path, m.err, m.done = path, err, true
	})
	return id, nil
}

// find returns the making of a number.
func (k *workshop) find(text string) (int, *making) {
	k.mu.Lock()
	defer k.mu.Unlock()
	id, err := strconv.Atoi(text)
	if err != nil || id < 1 || id > len(k.list) {
		return 0, nil
	}
	return id, k.list[id-1]
}

// close waits for what is being made and clears it away.
func (k *workshop) close() error {
	k.busy.Wait()
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.dir == "" {
		return nil
	}
	return os.RemoveAll(k.dir)
}

// make begins to make an index, a packet or a binder.
func (s *Server) make(w http.ResponseWriter, r *http.Request) {
	m := &making{What: r.PostForm.Get("what"), Certification: r.PostForm.Get("certification")}
	if m.What != makeIndex && m.What != makePacket && m.What != makeBinder {
		s.fail(w, r, fmt.Errorf("%q: %w: it cannot be made", m.What, os.ErrNotExist))
		return
	}
	d, err := audit.Gather(r.Context(), s.o.Journal, m.Certification, s.o.Journal.Today())
	if err != nil {
		s.fail(w, r, err)
		return
	}
	if r.PostForm.Get("unproven") != "" {
		d = d.WithoutUnproven()
	}
	language := wordsFor(r).Lang()
	ctx := s.ended // it goes on when the visitor looks at something else
	id, err := s.made.start(m, func(dir string, tell func(n, of int)) (string, error) {
		name := fmt.Sprintf("%s-%s-%s", m.What, d.Certification, d.On)
		if m.What == makePacket {
			at := filepath.Join(dir, name+".zip")
			return at, audit.WritePacket(ctx, s.o.Journal.Catalog().Store(), d, at, audit.PacketOptions{Done: tell, Pages: s.o.Pages})
		}
		if m.What == makeBinder {
			at := filepath.Join(dir, name+".pdf")
			_, err := audit.WriteBinder(ctx, s.o.Journal.Catalog().Store(), d, at, audit.BinderOptions{Language: language, Pages: s.o.Pages, Done: tell})
			return at, err
		}
		return s.index(ctx, d, filepath.Join(dir, name))
	})
	if err != nil {
		s.fail(w, r, err)
		return
	}
	http.Redirect(w, r, "/"+s.secret+"/audit/made/"+strconv.Itoa(id), http.StatusSeeOther)
}

// index writes the index to a folder and puts it into one archive.
func (s *Server) index(ctx context.Context, d audit.Dossier, dir string) (at string, err error) {
	if err := audit.WriteIndex(ctx, s.o.Journal.Catalog().Store(), d, dir); err != nil {
		return "", err
	}
	f, err := os.OpenFile(dir+".zip", os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return "", err
	}
	z := zip.NewWriter(f)
	return f.Name(), errors.Join(z.AddFS(os.DirFS(dir)), z.Close(), f.Close())
}

// madeOf shows how far a thing is; the page looks again by itself until it is done.
func (s *Server) madeOf(w http.ResponseWriter, r *http.Request) {
	id, m := s.made.find(r.PathValue("n"))
	if m == nil {
		s.fail(w, r, fmt.Errorf("%s: %w: nothing of this number was made since the page began", r.PathValue("n"), os.ErrNotExist))
		return
	}
	m.mu.Lock()
	body := madePage{ID: id, What: m.What, Certification: m.Certification, N: m.n, Of: m.of, Path: m.path, Done: m.done}
	err := m.err
	m.mu.Unlock()
	if err != nil {
		body.Wrong, body.Unproven = s.say(r, err), errors.Is(err, audit.ErrUnproven)
	} else if info, err := os.Stat(body.Path); body.Done && err == nil {
		body.Size = info.Size()
	}
	if !body.Done {
		w.Header().Set("Refresh", "1")
	}
	t := wordsFor(r)
	s.show(w, r, http.StatusOK, screenMade, t.T("made."+body.What), body)
}

// madeFile hands out what was made.
func (s *Server) madeFile(w http.ResponseWriter, r *http.Request) {
	_, m := s.made.find(r.PathValue("n"))
	if m == nil {
		s.fail(w, r, fmt.Errorf("%s: %w: nothing of this number was made since the page began", r.PathValue("n"), os.ErrNotExist))
		return
	}
	m.mu.Lock()
	path, ready := m.path, m.done && m.err == nil
	m.mu.Unlock()
	if !ready {
		s.fail(w, r, fmt.Errorf("%s: %w: it is not made yet", r.PathValue("n"), os.ErrNotExist))
		return
	}
	f, err := os.Open(path)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	s.download(w, r, f, filepath.Base(path))
}
