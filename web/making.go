package web

import (
	"archive/zip"
	"errors"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
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

	makeClosing = "closing" // which takes its time too
)

// errNotMade says that there is no such thing.
var errNotMade = errors.New("nothing of this name was made")

// making is one thing that is made, or was.
type making struct {
	What, Certification string
	Cycle               string // of a closed one, from its archive; "" is the present one

	Letter, Claims, Sample, Seed string // which claims are asked for, as it was said; "" are all

	mu     sync.Mutex
	n, of  int // originals copied
	path   string
	locked []string // originals that the binder could not open
	closed audit.Closed
	err    error
	done   bool
}

// closedAs keeps what a closing came to.
func (m *making) closedAs(done audit.Closed) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.closed = done
}

// leaves keeps which originals stayed locked.
func (m *making) leaves(locked []string) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.locked = locked
}

// madePage is how far a thing is.
type madePage struct {
	ID                  int
	What, Certification string
	Asked               map[string]string // which claims, so that it can be made anew without some
	N, Of               int
	Path                string
	Size                int64
	Done                bool
	Wrong               string
	Unproven            string        // a claim that lacks a proof; it can be made without those
	Locked              []string      // originals whose pages are not in the binder
	Closed              *audit.Closed // of a closing that is done
}

// workshop makes things one after the other, and keeps them until the page ends.
type workshop struct {
	mu   sync.Mutex
	list []*making
	busy sync.WaitGroup
	dir  string
}

// undertaking makes something in a folder of its own and returns where it lies.
type undertaking func(m *making, dir string, tell func(n, of int)) (string, error)

// start begins to make m with do, and returns its number.
func (k *workshop) start(m *making, do undertaking) (int, error) {
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
		path, err := do(m, dir, func(n, of int) {
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

// undertake begins to make m, and sends the visitor to where one sees how far it is.
func (s *Server) undertake(w http.ResponseWriter, r *http.Request, m *making, do undertaking) {
	id, err := s.made.start(m, do)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	http.Redirect(w, r, "/"+s.secret+"/audit/made/"+strconv.Itoa(id), http.StatusSeeOther)
}

// make begins to make an index, a packet or a binder, of the present cycle or of one that
// is closed.
func (s *Server) make(w http.ResponseWriter, r *http.Request) {
	m := &making{What: r.PostForm.Get("what"), Certification: r.PostForm.Get("certification"), Cycle: r.PostForm.Get("cycle")}
	if m.What != makeIndex && m.What != makePacket && m.What != makeBinder {
		s.fail(w, r, fmt.Errorf("%q: %w: it is none of index, packet and binder", m.What, errNotMade))
		return
	}
	if m.Cycle != "" {
		s.makeOfArchive(w, r, m)
		return
	}
	d, err := s.asked(r, m)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	if m.What == makeBinder {
		s.makeBinder(w, r, m, d)
		return
	}
	ctx := s.ended // it goes on when the visitor looks at something else
	s.undertake(w, r, m, func(m *making, dir string, tell func(n, of int)) (string, error) {
		at := filepath.Join(dir, nameOfMade(m, d))
		if m.What == makePacket {
			return at + ".zip", audit.WritePacket(ctx, s.o.Journal.Catalog().Store(), d, at+".zip", audit.PacketOptions{Done: tell, Pages: s.o.Pages})
		}
		return zipped(at, func() error { return audit.WriteIndex(ctx, s.o.Journal.Catalog().Store(), d, at) })
	})
}

// asked gathers what is to be made: what an audit letter asks for, a sample, the claims
// named, or all of the present cycle. It is in the visitor's language.
func (s *Server) asked(r *http.Request, m *making) (audit.Dossier, error) {
	d, err := s.askedWhole(r, m)
	if err != nil {
		return d, err
	}
	if r.PostForm.Get("unproven") != "" {
		d = d.WithoutUnproven()
	}
	if len(d.Claims) == 0 {
		return d, fmt.Errorf("%s: %w: there is no claim to hand over", m.What, errNotMade)
	}
	return d.In(wordsFor(r).Lang())
}

func (s *Server) askedWhole(r *http.Request, m *making) (audit.Dossier, error) {
	if ref := r.PostForm.Get("letter"); ref != "" {
		l, err := s.letter(r.Context(), ref)
		if err != nil {
			return audit.Dossier{}, err
		}
		m.Letter, m.Certification = l.ID, l.Certification
		d, _, err := audit.Lettered(r.Context(), s.o.Journal, l, s.o.Journal.Today())
		return d, err
	}
	some, err := someOf(r)
	if err != nil {
		return audit.Dossier{}, err
	}
	m.Claims, m.Sample, m.Seed = some.claims, some.sample, some.seed
	d, err := audit.Gather(r.Context(), s.o.Journal, m.Certification, s.o.Journal.Today())
	switch {
	case err != nil:
		return d, err
	case some.n > 0:
		return d.Sample(some.n, some.seed)
	case some.claims != "":
		ids, err := some.ids()
		if err != nil {
			return d, err
		}
		return d.Only(ids)
	}
	return d, nil
}

// makeOfArchive copies index or packet out of the archive of a closed cycle, byte for
// byte, or binds what lies there.
func (s *Server) makeOfArchive(w http.ResponseWriter, r *http.Request, m *making) {
	a, err := audit.OpenArchive(r.Context(), s.o.Journal, m.Certification, m.Cycle)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	d, err := a.Dossier()
	if err != nil {
		s.fail(w, r, err)
		return
	}
	if m.What == makeBinder {
		s.makeBinder(w, r, m, d)
		return
	}
	ctx := s.ended
	s.undertake(w, r, m, func(m *making, dir string, _ func(n, of int)) (string, error) {
		at := filepath.Join(dir, nameOfMade(m, d))
		if m.What == makePacket {
			return at + ".zip", a.CopyPacket(ctx, at+".zip")
		}
		return zipped(at, func() error { return a.CopyIndex(ctx, at) })
	})
}

func nameOfMade(m *making, d audit.Dossier) string {
	return fmt.Sprintf("%s-%s-%s", m.What, d.Certification, d.On)
}

// zipped has a folder written and puts it into one archive.
func zipped(dir string, write func() error) (at string, err error) {
	if err := write(); err != nil {
		return "", err
	}
	f, err := os.OpenFile(dir+".zip", os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return "", err
	}
	z := zip.NewWriter(f)
	return f.Name(), errors.Join(z.AddFS(os.DirFS(dir)), z.Close(), f.Close())
}

// askedClaim is the claim that an error names.
var askedClaim = regexp.MustCompile(`\bC[0-9]+\b`)

// madeOf shows how far a thing is; the page looks again by itself until it is done.
func (s *Server) madeOf(w http.ResponseWriter, r *http.Request) {
	id, m := s.made.find(r.PathValue("n"))
	if m == nil {
		s.fail(w, r, fmt.Errorf("%s: %w since the page began", r.PathValue("n"), errNotMade))
		return
	}
	m.mu.Lock()
	body := madePage{ID: id, What: m.What, Certification: m.Certification, N: m.n, Of: m.of, Path: m.path, Done: m.done, Locked: m.locked,
		Asked: map[string]string{"letter": m.Letter, "claims": m.Claims, "sample": m.Sample, "seed": m.Seed}}
	err := m.err
	if m.done && err == nil && m.What == makeClosing {
		body.Closed = &m.closed
	}
	m.mu.Unlock()
	if err != nil {
		body.Wrong = s.say(r, err)
		if errors.Is(err, audit.ErrUnproven) {
			body.Unproven = askedClaim.FindString(err.Error())
		}
	} else if info, err := os.Stat(body.Path); body.Done && err == nil {
		body.Size = info.Size()
	}
	if !body.Done {
		w.Header().Set("Refresh", "1")
	}
	t := wordsFor(r)
	s.show(w, r, http.StatusOK, screenMade, t.T("made.head."+body.What), body)
}

// madeFile hands out what was made.
func (s *Server) madeFile(w http.ResponseWriter, r *http.Request) {
	_, m := s.made.find(r.PathValue("n"))
	if m == nil {
		s.fail(w, r, fmt.Errorf("%s: %w since the page began", r.PathValue("n"), errNotMade))
		return
	}
	m.mu.Lock()
	path, ready := m.path, m.done && m.err == nil
	m.mu.Unlock()
	if !ready {
		s.fail(w, r, fmt.Errorf("%s: %w yet", r.PathValue("n"), errNotMade))
		return
	}
	f, err := os.Open(path)
	if err != nil {
		s.fail(w, r, err)
		return
	}
	s.download(w, r, f, filepath.Base(path))
}
