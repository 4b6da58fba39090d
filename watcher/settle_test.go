package watcher

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// bench is a tracker with a clock of its own over a real folder.
type bench struct {
	t       *testing.T
	dir     string
	now     time.Time
	state   writing
	err     error
	notices []Notice
	*tracker
}

func newBench(t *testing.T) *bench {
	b := &bench{t: t, dir: t.TempDir(), now: time.Date(2031, 3, 5, 9, 0, 0, 0, time.UTC), state: free}
	b.tracker = newTracker(Options{Settle: 2 * time.Second, Poll: 30 * time.Second, Notice: func(n Notice) { b.notices = append(b.notices, n) }})
	b.writers = func(File) (writing, error) { return b.state, b.err }
	return b
}

func (b *bench) write(name, text string) string {
	b.t.Helper()
	path := filepath.Join(b.dir, name)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		b.t.Fatal(err)
	}
	return path
}

func (b *bench) look(path string) {
	b.t.Helper()
	f, ok := look(b.dir, path, b.o)
	if !ok {
		b.t.Fatalf("%s is not there", path)
	}
	b.see(f, b.now)
}

// after lets time pass and returns how many files have settled.
func (b *bench) after(d time.Duration) int {
	b.now = b.now.Add(d)
	return len(b.due(b.now))
}

func TestSettlesOnlyAfterTheTime(t *testing.T) {
	b := newBench(t)
	b.look(b.write("a.pdf", "a"))
	if n := b.after(1999 * time.Millisecond); n != 0 {
		t.Errorf("handed on before it had settled")
	}
	if n := b.after(time.Millisecond); n != 1 {
		t.Errorf("not handed on after the settling time")
	}
	if n := b.after(time.Hour); n != 0 {
		t.Errorf("handed on again while it is being taken")
	}
}

func TestAChangeBeginsTheTimeAnew(t *testing.T) {
	b := newBench(t)
	path := b.write("a.pdf", "a")
	b.look(path)
	if b.after(1500*time.Millisecond) != 0 {
		t.Fatal("too early")
	}
	b.write("a.pdf", "ab")
	// Nobody announces it, as with a mapped file: the look when it is due finds it.
	if n := b.after(500 * time.Millisecond); n != 0 {
		t.Errorf("handed on although it changed")
	}
	if n := b.after(2 * time.Second); n != 1 {
		t.Errorf("not handed on after the change had settled")
	}
}

// A time set back is a change all the same, for the time of change of the inode is not.
func TestATimeSetBackIsAChange(t *testing.T) {
	b := newBench(t)
	path := b.write("a.pdf", "aaaa")
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	b.look(path)
	before, _, err := lstamp(path)
	if err != nil {
		t.Fatal(err)
	}
	for now := before; now.Changed == before.Changed; { // the clock of a file system is coarse
		b.write("a.pdf", "bbbb")
		if err := os.Chtimes(path, info.ModTime(), info.ModTime()); err != nil {
			t.Fatal(err)
		}
		if now, _, err = lstamp(path); err != nil {
			t.Fatal(err)
		}
	}
	if n := b.after(2 * time.Second); n != 0 {
		t.Errorf("handed on although other bytes lie there under the old time")
	}
}

func TestAWriterHoldsItBack(t *testing.T) {
	b := newBench(t)
	b.state = written
	b.look(b.write("a.pdf", "a"))
	for range 10 {
		if b.after(6*time.Second) != 0 {
			t.Fatal("handed on while another program writes")
		}
	}
	if len(b.notices) != 0 {
		t.Errorf("told too early: %v", b.notices)
	}
	b.after(24 * time.Hour)
	b.after(time.Hour)
	if len(b.notices) != 1 || b.notices[0].What != Unfinished {
		t.Errorf("after a day: %v, want one word that it is unfinished", b.notices)
	}
	b.state = free
	if b.after(2*time.Second) != 1 {
		t.Errorf("not handed on after the writer had closed it")
	}
}

func TestWhereNobodyKnowsTheWriterItWaitsLonger(t *testing.T) {
	b := newBench(t)
	b.state = unknown
	b.look(b.write("a.pdf", "a"))
	if b.after(9*time.Second) != 0 {
		t.Errorf("handed on too early")
	}
	if b.after(time.Second) != 1 {
		t.Errorf("not handed on after five times the settling time")
	}
}

func TestTriesAgainWithGrowingPauses(t *testing.T) {
	b := newBench(t)
	path := b.write("a.pdf", "a")
	b.look(path)
	full := errors.New("no space left on device")
	var pauses []time.Duration
	last := b.now
	for len(pauses) < 6 {
		if b.after(time.Second) == 0 {
			continue
		}
		pauses = append(pauses, b.now.Sub(last))
		last = b.now
		b.taken(b.known[path].file, full, b.now)
	}
	want := []time.Duration{2 * time.Second, 4 * time.Second, 8 * time.Second, 16 * time.Second, 30 * time.Second, 30 * time.Second}
	if diff := cmp.Diff(want, pauses); diff != "" {
		t.Errorf("pauses (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff([]Notice{{Waits, path, full.Error()}}, b.notices); diff != "" {
		t.Errorf("the reason is told once (-want +got):\n%s", diff)
	}
	if b.after(30*time.Second) != 1 {
		t.Fatal("not tried again")
	}
	b.taken(b.known[path].file, nil, b.now)
	if b.after(time.Hour) != 0 {
		t.Errorf("handed on again after it was taken")
	}
}

func TestNotReadableWaitsAndSaysSo(t *testing.T) {
	b := newBench(t)
	path := b.write("a.pdf", "a")
	b.err = &fs.PathError{Op: "open", Path: path, Err: fs.ErrPermission}
	b.look(path)
	b.after(2 * time.Second)
	if diff := cmp.Diff([]Notice{{Unreadable, path, "no permission to read it"}}, b.notices); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	b.err = nil
	if b.after(4*time.Second) != 1 {
		t.Errorf("not handed on after it became readable")
	}
}

func TestChangedWhileTakenIsTakenAgain(t *testing.T) {
	b := newBench(t)
	path := b.write("a.pdf", "a")
	b.look(path)
	b.after(2 * time.Second)
	old := b.known[path].file
	b.write("a.pdf", "longer")
	b.look(path)
	b.taken(old, nil, b.now)
	if b.after(2*time.Second) != 1 {
		t.Errorf("the later content under the same name was not handed on")
	}
}

func TestGoneBeforeItWasTakenIsSaid(t *testing.T) {
	b := newBench(t)
	path := b.write("a.pdf", "a")
	b.look(path)
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	b.after(2 * time.Second)
	if diff := cmp.Diff([]Notice{{Gone, path, ""}}, b.notices); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestAByProductIsToldAndToldAgainAfterADay(t *testing.T) {
	b := newBench(t)
	path := b.write("a.pdf.part", "a")
	for range 30 {
		b.look(path)
		b.after(time.Hour)
	}
	if len(b.notices) != 2 || b.notices[0].What != PassedOver || b.notices[1].What != Unfinished {
		t.Errorf("told %v, want once passed over and once, after a day, unfinished", b.notices)
	}
	finished := filepath.Join(b.dir, "a.pdf")
	if err := os.Rename(path, finished); err != nil {
		t.Fatal(err)
	}
	b.forget(path)
	b.look(finished)
	if b.after(2*time.Second) != 1 {
		t.Errorf("the finished download was not handed on")
	}
}
