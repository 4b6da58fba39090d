package watcher

import (
	"errors"
	"io/fs"
	"time"
)

// writing says whether somebody has a file open for writing.
type writing int

const (
	unknown writing = iota // the system does not tell
	written
	free
)

const (
	// patience is how many times as long a file must stay unchanged where the
	// system does not tell who is writing.
	patience = 5

	// lasting is how long a by-product or a file that is being written may lie
	// there before it is told again: nothing dropped is ever forgotten.
	lasting = 24 * time.Hour
)

// entry is one name that was seen.
type entry struct {
	file   File
	since  time.Time // the stamp has been the same since
	first  time.Time // the name has been known since
	next   time.Time // not to be looked at before
	tries  int       // how often it could not be taken
	said   string    // the last reason told
	taking bool
	old    bool // told as lasting
	round  int  // of the last walk that saw it
}

// tracker says when files are settled. It never waits: the time is handed in.
type tracker struct {
	o       Options
	known   map[string]*entry // by path; also what was taken, until it is gone
	pending map[string]*entry // of these, what is to be taken
	asides  map[string]*entry // names passed over
	round   int
	writers func(File) (writing, error)
}

func newTracker(o Options) *tracker {
	return &tracker{o: o, known: map[string]*entry{}, pending: map[string]*entry{}, asides: map[string]*entry{}, writers: openedBy}
}

// openedBy opens the file as it will be opened to be read, and asks for writers.
func openedBy(f File) (writing, error) {
	file, _, err := f.Open()
	if err != nil {
		return unknown, err
	}
	state := writers(file)
	return state, file.Close()
}

// see notes what a walk or an event found at a name.
func (t *tracker) see(f Found, now time.Time) {
	path := f.File.Path()
	if f.What != Ordinary {
		t.aside(path, f, now)
		return
	}
	e := t.known[path]
	if e == nil {
		e = &entry{first: now}
		t.known[path] = e
	}
	e.round = t.round
	if e.file.Stamp == f.File.Stamp && e.file.Name != "" {
		return
	}
	e.file, e.since, e.next, e.tries = f.File, now, now.Add(t.o.settle()), 0
	t.pending[path] = e
}

func (t *tracker) aside(path string, f Found, now time.Time) {
	e := t.asides[path]
	if e == nil {
		e = &entry{first: now}
		t.asides[path] = e
	}
	e.round = t.round
	if e.said != f.Text {
		e.said = f.Text
		t.o.say(Notice{f.What, path, f.Text})
	}
	if f.What == PassedOver && !e.old && now.Sub(e.first) >= lasting {
		e.old = true
		t.o.say(Notice{Unfinished, path, "passed over and there for more than a day: " + f.Text})
	}
}

// forget notes that a name is gone.
func (t *tracker) forget(path string) {
	if e := t.pending[path]; e != nil && !e.taking {
		t.o.say(Notice{Gone, path, ""})
	}
	delete(t.pending, path)
	delete(t.known, path)
	delete(t.asides, path)
}

// forgetUnseen notes that names below dir which the last walk did not see are gone.
func (t *tracker) forgetUnseen(below func(path string) bool) {
	for _, names := range []map[string]*entry{t.known, t.asides} {
		for path, e := range names {
			if e.round != t.round && below(path) {
				t.forget(path)
			}
		}
	}
}

// due returns the files that have settled by now. Each is being taken until it is
// handed to [tracker.taken].
func (t *tracker) due(now time.Time) []File {
	var list []File
	for path, e := range t.pending {
		if e.taking || now.Before(e.next) {
			continue
		}
		if t.settled(path, e, now) {
			e.taking = true
			list = append(list, e.file)
		}
	}
	return list
}

// settled looks at a file once more.
func (t *tracker) settled(path string, e *entry, now time.Time) bool {
	f, ok := look(e.file.Dir, path, t.o)
	if !ok || f.What != Ordinary {
		t.forget(path)
		if ok {
			t.see(f, now)
		}
		return false
	}
	if f.File.Stamp != e.file.Stamp {
		t.see(f, now)
		return false
	}
	state, err := t.writers(e.file)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		t.forget(path)
	case err != nil:
		t.failed(path, e, err, Unreadable, now)
	case state == written:
		e.next = now.Add(t.o.settle())
		if !e.old && now.Sub(e.first) >= lasting {
			e.old = true
			t.o.say(Notice{Unfinished, path, "another program has had it open for writing for more than a day"})
		}
	case state == unknown && now.Sub(e.since) < patience*t.o.settle():
		e.next = e.since.Add(patience * t.o.settle())
	default:
		return true
	}
	return false
}

// failed puts a file off, longer each time, at most until the next look at everything.
func (t *tracker) failed(path string, e *entry, err error, what What, now time.Time) {
	e.tries++
	e.next = now.Add(min(t.o.settle()<<min(e.tries, 16), max(t.o.poll(), t.o.settle())))
	if text := reason(err); e.said != text {
		e.said = text
		t.o.say(Notice{what, path, text})
	}
}

// taken notes how taking a file ended.
func (t *tracker) taken(f File, err error, now time.Time) {
	path := f.Path()
	e := t.pending[path]
	if e == nil {
		return // gone while it was being taken, as it must where the folder is emptied
	}
	e.taking = false
	switch {
	case e.file.Stamp != f.Stamp: // changed meanwhile: it is pending again
	case err != nil:
		t.failed(path, e, err, Waits, now)
	default:
		delete(t.pending, path)
		e.said = ""
	}
}
