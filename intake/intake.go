// Package intake takes settled files into a vault, each exactly once, and has them read.
//
// It never loses a file that was dropped: the drop file is removed only after the
// evidence, its row and the signed head are on the disk, and only if it is still the
// file that was read. State on disk decides, not memory, so that a stop at any line is
// made good by starting again: what was copied but not recorded is recorded, what was
// recorded but not read is read. Reading never delays taking in.
//
// It never decides what a paper proves: a reading is kept as it came, with its open
// questions. It logs nothing; what happens is handed to the functions of [Options].
package intake

import (
	"context"
	"sync"
	"time"

	"evidencevault/catalog"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
	"evidencevault/watcher"
)

// Options says how files are taken in. The zero Options is ready to use. The
// functions that tell are called one at a time and must not wait; nil means nobody asks.
type Options struct {
	Settle time.Duration // how long a file must stay unchanged; 0 means 2 s
	Poll   time.Duration // how often everything is looked at again; 0 means 30 s
	All    bool          // take by-products of editors and downloads too
	Pages  page.Options  // how documents are read

	// Habits gives what corrections taught so far; nil is nothing. It is called before each
	// reading, and its error ends the reading.
	Habits func(context.Context) ([]paper.Habit, error)

	Took   func(Taken)          // a file is in: this is the acknowledgement, and comes after the commit
	Read   func(Read)           // a paper was read, or could not be
	Notice func(watcher.Notice) // a file waits or was passed over, a folder is missing …
}

// Intake takes files into one vault. It may be used by several goroutines, and beside
// other processes that take into the same vault.
type Intake struct {
	c     *catalog.Catalog
	o     Options
	pages *page.Reader

	tell     sync.Mutex        // one function of Options at a time
	problems map[string]string // by paper: what was told last of why it cannot be tried
}

// New returns an Intake for an open vault. The caller must Close it before the vault.
func New(c *catalog.Catalog, o Options) *Intake {
	return &Intake{c: c, o: o, pages: page.NewReader(o.Pages), problems: map[string]string{}}
}

// Close ends the children that read. What is being read is finished first.
func (in *Intake) Close() error { return in.pages.Close() }

func (in *Intake) took(t Taken) {
	in.tell.Lock()
	defer in.tell.Unlock()
	if in.o.Took != nil {
		in.o.Took(t)
	}
}

// hasRead tells of r, but of a problem that lasts only once.
func (in *Intake) hasRead(r Read) {
	in.tell.Lock()
	defer in.tell.Unlock()
	text := ""
	if r.Problem != nil {
		text = r.Problem.Error()
	}
	before := in.problems[r.Paper.ID]
	in.problems[r.Paper.ID] = text
	if text != "" && text == before {
		return
	}
	if in.o.Read != nil {
		in.o.Read(r)
	}
}

func (in *Intake) notice(n watcher.Notice) {
	in.tell.Lock()
	defer in.tell.Unlock()
	if in.o.Notice != nil {
		in.o.Notice(n)
	}
}

// watching returns the options of the watcher. A vault within a watched folder is not
// entered; a drop folder within the vault is, for it is where watching begins.
func (in *Intake) watching() watcher.Options {
	return watcher.Options{Settle: in.o.Settle, Poll: in.o.Poll, All: in.o.All, Except: []string{in.c.Dir()}, Notice: in.notice}
}
