package watcher

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"
)

// ErrNoFolder says that [Watch] was given nothing to watch.
var ErrNoFolder = errors.New("no folder to watch")

// Watch hands every settled file in dirs and their folders to take, one after
// another, until ctx ends; then it returns nil, after the last take has returned. A file that take
// refused with an error is handed on again, after growing pauses of at most
// Options.Poll, and at once when it changes. A file that was taken is handed on again
// only when it changes, or when Watch is started anew.
//
// A folder that is missing is said, looked for, and watched when it is there. The
// only error is [ErrNoFolder].
func Watch(ctx context.Context, dirs []string, o Options, take func(context.Context, File) error) error {
	if len(dirs) == 0 {
		return ErrNoFolder
	}
	w := &watch{o: o, tracker: newTracker(o), noted: map[string]bool{}}
	for _, dir := range dirs {
		abs, err := filepath.Abs(dir)
		if err != nil {
			return err
		}
		if !slices.ContainsFunc(w.roots, func(r *root) bool { return r.path == abs }) {
			w.roots = append(w.roots, &root{path: abs})
		}
	}
	w.open()
	defer w.close()
	w.lookAtAll(ctx)
	w.run(ctx, take)
	return nil
}

// root is one watched folder.
type root struct {
	path    string
	info    fs.FileInfo // of the folder that is watched; nil while it is missing
	missing bool        // told as missing
}

// watch is a running [Watch]. Only its own goroutine touches it.
type watch struct {
	o       Options
	tracker *tracker
	roots   []*root
	events  *fsnotify.Watcher // nil: only looking regularly
	noted   map[string]bool   // what was told once for all
}

func (w *watch) open() {
	events, err := fsnotify.NewWatcher()
	if err != nil {
		w.cannotWatch("", err)
		return
	}
	w.events = events
}

func (w *watch) close() {
	if w.events != nil {
		// Nothing is written through it, so there is nothing to lose.
		_ = w.events.Close()
	}
}

// run is the loop: events and ticks come in, settled files go out to one goroutine
// that takes them, so that a long copy does not keep events waiting.
func (w *watch) run(ctx context.Context, take func(context.Context, File) error) {
	type result struct {
		file File
		err  error
	}
	work, results := make(chan File), make(chan result, 1)
	done := make(chan struct{})
	go func() {
		defer close(done)
		for f := range work {
			results <- result{f, take(ctx, f)}
		}
	}()
	defer func() {
		close(work)
		for {
			select {
			case <-results: // nobody waits for it any more, but the goroutine must end
			case <-done:
				return
			}
		}
	}()

	tick, poll := time.NewTicker(w.tracker.tick()), time.NewTicker(w.o.poll())
	defer tick.Stop()
	defer poll.Stop()
	var queue []File
	for {
		var out chan<- File
		var head File
		if len(queue) > 0 {
			out, head = work, queue[0]
		}
		select {
		case <-ctx.Done():
			return
		case out <- head:
			queue = queue[1:]
		case r := <-results:
			w.tracker.taken(r.file, r.err, time.Now())
		case e := <-w.eventChannel():
			w.event(ctx, e)
		case err := <-w.errorChannel():
			w.lost(ctx, err)
		case <-poll.C:
			w.lookAtAll(ctx)
		case <-tick.C:
			w.lookForMissing(ctx)
			queue = append(queue, sorted(w.tracker.due(time.Now()))...)
		}
	}
}

// A nil channel is never ready, which is what the loop wants without events.
func (w *watch) eventChannel() <-chan fsnotify.Event {
	if w.events == nil {
		return nil
	}
	return w.events.Events
}

func (w *watch) errorChannel() <-chan error {
	if w.events == nil {
		return nil
	}
	return w.events.Errors
}

// event looks at what an event names; what the event says happened is not trusted.
func (w *watch) event(ctx context.Context, e fsnotify.Event) {
	r := w.rootOf(e.Name)
	switch {
	case r == nil:
		return
	case r.path == e.Name:
		if e.Has(fsnotify.Remove) || e.Has(fsnotify.Rename) {
			w.lookAt(ctx, r)
		}
		return
	}
	info, err := os.Lstat(e.Name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		w.tracker.forget(e.Name)
	case err == nil && info.IsDir():
		if e.Has(fsnotify.Create) {
			w.walk(ctx, r, e.Name)
		}
	default:
		if f, ok := look(r.path, e.Name, w.o); ok {
			w.tracker.see(f, time.Now())
		}
	}
}

func (w *watch) rootOf(path string) *root {
	for _, r := range w.roots {
		if path == r.path || strings.HasPrefix(path, r.path+string(filepath.Separator)) {
			return r
		}
	}
	return nil
}

// lost answers an error of the events: some may be missing, so everything is looked at.
func (w *watch) lost(ctx context.Context, err error) {
	if err == nil {
		return
	}
	text := "some events were lost, everything is looked at again"
	if !errors.Is(err, fsnotify.ErrEventOverflow) {
		text = fmt.Sprintf("%v; everything is looked at again", err)
	}
	w.o.say(Notice{Overflow, w.roots[0].path, text})
	w.lookAtAll(ctx)
}

func (w *watch) lookAtAll(ctx context.Context) {
	for _, r := range w.roots {
		w.lookAt(ctx, r)
	}
}

// lookForMissing watches a folder again as soon as it is back: somebody who makes it
// anew drops a file into it in the next moment.
func (w *watch) lookForMissing(ctx context.Context) {
	for _, r := range w.roots {
		if !r.missing {
			continue
		}
		if info, err := os.Stat(r.path); err == nil && info.IsDir() {
			w.lookAt(ctx, r)
		}
	}
}

// lookAt walks through one watched folder, after looking whether it is still there
// and still the same. A folder that is missing says nothing about its files.
func (w *watch) lookAt(ctx context.Context, r *root) {
	info, err := os.Stat(r.path)
	if err == nil && !info.IsDir() {
		err = errors.New("it is not a folder")
	}
	if err != nil {
		if !r.missing {
			w.o.say(Notice{FolderMissing, r.path, reason(err)})
		}
		r.missing, r.info = true, nil
		return
	}
	if r.missing || (r.info != nil && !os.SameFile(r.info, info)) {
		w.o.say(Notice{FolderBack, r.path, ""})
		w.unwatch(r)
	}
	r.missing, r.info = false, info
	if kind := silentPlace(r.path); kind != "" {
		w.once(Notice{Polling, r.path, "a file system of type " + kind + " may send no events; looking every " + w.o.poll().String()})
	}
	w.tracker.round++
	if w.walk(ctx, r, r.path) == nil {
		w.tracker.forgetUnseen(func(path string) bool { return w.rootOf(path) == r })
	}
}

// walk sees everything at and below from. Each folder is watched before it is read,
// so that what comes in between is announced.
func (w *watch) walk(ctx context.Context, r *root, from string) error {
	now := time.Now()
	return walk(ctx, r.path, from, w.o, w.watchFolder, func(f Found) { w.tracker.see(f, now) })
}

func (w *watch) watchFolder(path string) {
	if w.events == nil {
		return
	}
	if err := w.events.Add(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		w.cannotWatch(path, err)
	}
}

// unwatch takes the watches of a folder back that is no longer at its path.
func (w *watch) unwatch(r *root) {
	if w.events == nil {
		return
	}
	for _, path := range w.events.WatchList() {
		if w.rootOf(path) == r {
			// A watch that went with its folder is gone already.
			_ = w.events.Remove(path)
		}
	}
}

func (w *watch) cannotWatch(path string, err error) {
	text, ok := noWatches(err)
	if !ok {
		text = reason(err) + "; looking every " + w.o.poll().String() + " instead"
	}
	w.once(Notice{Polling, path, text})
}

// once tells a notice of this text only the first time.
func (w *watch) once(n Notice) {
	if !w.noted[n.Text] {
		w.noted[n.Text] = true
		w.o.say(n)
	}
}
