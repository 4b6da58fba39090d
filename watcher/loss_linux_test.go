package watcher

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync/atomic"
	"testing"
	"time"

	"github.com/fsnotify/fsnotify"
)

// Events that ran over are made good by looking at everything (B8). The files are
// written while nothing announces them, then the overflow is announced: without the
// second look none of them would be found.
func TestOverflowLosesNothing(t *testing.T) {
	const files = 2000
	dir := t.TempDir()
	var told, taken atomic.Int32
	w := &watch{tracker: nil, roots: []*root{{path: dir}}, noted: map[string]bool{}}
	w.o = Options{Settle: 20 * time.Millisecond, Poll: time.Hour, Notice: func(n Notice) {
		if n.What == Overflow {
			told.Add(1)
		}
	}}
	w.tracker = newTracker(w.o)
	w.open()
	defer w.close()
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	w.lookAtAll(ctx)
	if err := w.events.Remove(dir); err != nil {
		t.Fatal(err)
	}
	for i := range files {
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprint(i, ".pdf")), []byte("x"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	errs := w.events.Errors
	go func() { errs <- fsnotify.ErrEventOverflow }()
	w.run(ctx, func(context.Context, File) error {
		if taken.Add(1) == files {
			cancel()
		}
		return nil
	})
	if told.Load() != 1 || taken.Load() != files {
		t.Errorf("told %d overflows, took %d of %d files", told.Load(), taken.Load(), files)
	}
}

// On a local file system the lease tells of a writer, also of one that has only
// mapped the file, and a reader is no writer.
func TestTheLeaseTellsOfAWriter(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.pdf")
	w, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	f, err := At(path)
	if err != nil {
		t.Fatal(err)
	}
	if state, err := openedBy(f); state != written || err != nil {
		t.Errorf("with a writer: %v, %v, want written", state, err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	r, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if state, err := openedBy(f); state != free || err != nil {
		t.Errorf("with a reader only: %v, %v, want free", state, err)
	}
}

// Without events everything is found by looking, and it is told once (B9, B11).
func TestWithoutEventsItLooksRegularly(t *testing.T) {
	dir := t.TempDir()
	var told, taken atomic.Int32
	w := &watch{roots: []*root{{path: dir}}, noted: map[string]bool{}}
	w.o = Options{Settle: 10 * time.Millisecond, Poll: 30 * time.Millisecond, Notice: func(n Notice) {
		if n.What == Polling {
			told.Add(1)
		}
	}}
	w.tracker = newTracker(w.o)
	for range 3 {
		w.cannotWatch(dir, os.NewSyscallError("inotify_add_watch", fmt.Errorf("no space left on device")))
	}
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	go func() {
		// The test fails below if it cannot be written.
		_ = os.WriteFile(filepath.Join(dir, "a.pdf"), []byte("x"), 0o600)
	}()
	w.run(ctx, func(context.Context, File) error { taken.Add(1); cancel(); return nil })
	if told.Load() != 1 || taken.Load() != 1 {
		t.Errorf("told %d times, took %d files, want 1 and 1", told.Load(), taken.Load())
	}
}

// A limit of one watch in a user namespace of its own: this test runs itself again
// inside it (B9).
func TestNoWatchesLeft(t *testing.T) {
	if dir := os.Getenv("WATCHER_TEST_FEW_WATCHES"); dir != "" {
		fewWatches(t, dir)
		return
	}
	dir := t.TempDir()
	for i := range 5 {
		sub := filepath.Join(dir, fmt.Sprint(i))
		if err := os.Mkdir(sub, 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(sub, "a.pdf"), []byte("x"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	cmd := exec.Command("unshare", "-Ur", "sh", "-c", `echo 1 > /proc/sys/user/max_inotify_watches && exec "$0" -test.run '^TestNoWatchesLeft$'`, os.Args[0])
	cmd.Env = append(os.Environ(), "WATCHER_TEST_FEW_WATCHES="+dir)
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Errorf("with one watch: %v\n%s", err, out)
	}
}

func fewWatches(t *testing.T, dir string) {
	var told, taken atomic.Int32
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Second)
	defer cancel()
	o := Options{Settle: 10 * time.Millisecond, Poll: 50 * time.Millisecond, Notice: func(n Notice) {
		if n.What == Polling && n.Text != "" {
			t.Log(n.Text)
			told.Add(1)
		}
	}}
	err := Watch(ctx, []string{dir}, o, func(context.Context, File) error {
		switch taken.Add(1) {
		case 5:
			// A file in a folder that has no watch.
			return os.WriteFile(filepath.Join(dir, "4", "late.pdf"), []byte("x"), 0o600)
		case 6:
			cancel()
		}
		return nil
	})
	if err != nil || told.Load() == 0 || taken.Load() != 6 {
		t.Errorf("err %v, told %d, took %d of 6", err, told.Load(), taken.Load())
	}
}

// Looking at many unchanged files again must not cost more than a moment (B11).
func BenchmarkLookAgain(b *testing.B) {
	dir := b.TempDir()
	for i := range 20000 {
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprint(i, ".pdf")), nil, 0o600); err != nil {
			b.Fatal(err)
		}
	}
	w := &watch{roots: []*root{{path: dir}}, noted: map[string]bool{}, tracker: newTracker(Options{})}
	w.lookAtAll(b.Context())
	for b.Loop() {
		w.lookAtAll(b.Context())
	}
}
