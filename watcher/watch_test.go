package watcher_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"go.uber.org/goleak"

	"evidencevault/watcher"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

const settle = 40 * time.Millisecond

// log gathers what a watch does.
type log struct {
	t *testing.T

	mu      sync.Mutex
	texts   map[string][]string // what was read under a name, in order
	notices []watcher.Notice
	refuse  error
}

func (l *log) take(_ context.Context, f watcher.File) error {
	l.mu.Lock()
	refuse := l.refuse
	l.mu.Unlock()
	if refuse != nil {
		return refuse
	}
	file, _, err := f.Open()
	if err != nil {
		return err
	}
	defer file.Close()
	text := make([]byte, 64)
	n, err := file.Read(text)
	if err != nil && n != 0 {
		return err
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.texts[f.Name] = append(l.texts[f.Name], string(text[:n]))
	return nil
}

func (l *log) notice(n watcher.Notice) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.notices = append(l.notices, n)
}

func (l *log) names() []string {
	l.mu.Lock()
	defer l.mu.Unlock()
	var names []string
	for name := range l.texts {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

func (l *log) told(w watcher.What, part string) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	return slices.ContainsFunc(l.notices, func(n watcher.Notice) bool {
		return n.What == w && strings.Contains(n.Path+" "+n.Text, part)
	})
}

// until waits for a condition, and fails the test if it does not come true.
func (l *log) until(what string, ok func() bool) {
	l.t.Helper()
	end := time.Now().Add(20 * time.Second)
	for !ok() {
		if time.Now().After(end) {
			l.mu.Lock()
			defer l.mu.Unlock()
			l.t.Fatalf("waited in vain: %s; taken %d names, told %v", what, len(l.texts), l.notices)
		}
		<-time.After(2 * time.Millisecond)
	}
}

func (l *log) untilTaken(names ...string) {
	l.t.Helper()
	slices.Sort(names)
	l.until(fmt.Sprintf("%q taken", names), func() bool { return slices.Equal(l.names(), names) })
}

// start watches dirs until the test ends. Looking regularly is left out, unless poll says how often.
func start(t *testing.T, poll time.Duration, dirs ...string) *log {
	t.Helper()
	l := &log{t: t, texts: map[string][]string{}}
	ctx, cancel := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() {
		ended <- watcher.Watch(ctx, dirs, watcher.Options{Settle: settle, Poll: poll, Notice: l.notice}, l.take)
	}()
	t.Cleanup(func() {
		cancel()
		if err := <-ended; err != nil {
			t.Errorf("Watch: %v", err)
		}
	})
	return l
}

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

func TestTakesWhatLiesThereAndWhatComes(t *testing.T) {
	dir := t.TempDir()
	write(t, filepath.Join(dir, "before.pdf"), "b")
	write(t, filepath.Join(dir, "sub", "deep", "before.pdf"), "b")
	l := start(t, time.Hour, dir)
	l.untilTaken("before.pdf", "sub/deep/before.pdf")
	write(t, filepath.Join(dir, "after.pdf"), "a")
	write(t, filepath.Join(dir, "sub", "after.pdf"), "a")
	write(t, filepath.Join(dir, "new", "and", "deep", "after.pdf"), "a")
	l.untilTaken("before.pdf", "sub/deep/before.pdf", "after.pdf", "sub/after.pdf", "new/and/deep/after.pdf")
	for name, texts := range l.texts {
		if len(texts) != 1 {
			t.Errorf("%s was taken %d times", name, len(texts))
		}
	}
}

// A writer that pauses longer than the settling time, with the file open (B1, B2).
func TestAFileIsTakenWholeAfterItsWriter(t *testing.T) {
	dir := t.TempDir()
	l := start(t, time.Hour, dir)
	f, err := os.Create(filepath.Join(dir, "slow.pdf"))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.WriteString("half"); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(dir, "marker.pdf"), "m")
	l.untilTaken("marker.pdf") // at least one settling time has passed
	write(t, filepath.Join(dir, "marker2.pdf"), "m")
	l.untilTaken("marker.pdf", "marker2.pdf")
	if _, err := f.WriteString(" and half"); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	l.untilTaken("marker.pdf", "marker2.pdf", "slow.pdf")
	if got := l.texts["slow.pdf"]; len(got) != 1 || got[0] != "half and half" {
		t.Errorf("taken as %q, want once and whole", got)
	}
	appendTo(t, filepath.Join(dir, "slow.pdf"), ", later")
	l.until("the later content taken too", func() bool {
		l.mu.Lock()
		defer l.mu.Unlock()
		return slices.Equal(l.texts["slow.pdf"], []string{"half and half", "half and half, later"})
	})
}

func appendTo(t *testing.T, path, text string) {
	t.Helper()
	f, err := os.OpenFile(path, os.O_APPEND|os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.WriteString(text); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}

// Renamed into place, alone and as a whole folder of folders (B3).
func TestMovedIn(t *testing.T) {
	base := t.TempDir()
	dir, from := filepath.Join(base, "drop"), filepath.Join(base, "from")
	if err := os.Mkdir(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	want := []string{"one.pdf"}
	write(t, filepath.Join(from, "one.pdf"), "1")
	for i := range 50 {
		name := fmt.Sprintf("many/%d/%d.pdf", i%7, i)
		write(t, filepath.Join(from, name), "x")
		want = append(want, name)
	}
	l := start(t, time.Hour, dir)
	for _, name := range []string{"one.pdf", "many"} {
		if err := os.Rename(filepath.Join(from, name), filepath.Join(dir, name)); err != nil {
			t.Fatal(err)
		}
	}
	l.untilTaken(want...)
}

// Saved by writing a temporary file and renaming it; downloads that grow (B4, B5).
func TestByProductsArePassedOverAndTheFinalFileIsTaken(t *testing.T) {
	dir := t.TempDir()
	l := start(t, time.Hour, dir)
	for _, name := range []string{"~$x.docx", "x.docx~", ".x.swp", "4913", "#x#", ".DS_Store", "Thumbs.db", "desktop.ini",
		".~lock.x#", ".goutputstream-AB12", ".nfs0001", "x.crdownload", "x.download", "x.pdf.tmp", ".x.pdf.aB3"} {
		write(t, filepath.Join(dir, name), "by-product")
		l.until(name+" told", func() bool { return l.told(watcher.PassedOver, name+" ") })
	}
	write(t, filepath.Join(dir, "y.pdf.part"), "gro")
	appendTo(t, filepath.Join(dir, "y.pdf.part"), "wn")
	if err := os.Rename(filepath.Join(dir, "y.pdf.part"), filepath.Join(dir, "y.pdf")); err != nil {
		t.Fatal(err)
	}
	l.untilTaken("y.pdf")
	if got := l.texts["y.pdf"]; len(got) != 1 || got[0] != "grown" {
		t.Errorf("taken as %q, want once and whole", got)
	}
}

// Files dropped while the watch is starting, and with it not running (B10).
func TestNoGapAtTheStart(t *testing.T) {
	dir := t.TempDir()
	for round := range 5 {
		stop, ended := make(chan struct{}), make(chan int)
		go func() {
			n := 0
			for ; ; n++ {
				select {
				case <-stop:
					ended <- n
					return
				default:
				}
				// The test fails below if one is missing.
				_ = os.WriteFile(filepath.Join(dir, fmt.Sprintf("%d-%d.pdf", round, n)), []byte("x"), 0o600)
				<-time.After(time.Millisecond)
			}
		}()
		l := &log{t: t, texts: map[string][]string{}}
		ctx, cancel := context.WithCancel(t.Context())
		done := make(chan error, 1)
		go func() {
			done <- watcher.Watch(ctx, []string{dir}, watcher.Options{Settle: settle, Poll: time.Hour, Notice: l.notice}, l.take)
		}()
		l.until("some taken", func() bool { return len(l.names()) >= 20 })
		close(stop)
		n := <-ended
		l.until("all taken", func() bool {
			count := 0
			for _, name := range l.names() {
				if strings.HasPrefix(name, fmt.Sprint(round, "-")) {
					count++
				}
			}
			return count == n
		})
		cancel()
		if err := <-done; err != nil {
			t.Fatal(err)
		}
	}
}

// The folder is removed and made anew, or moved away (B12).
func TestFolderRemovedAndMadeAnew(t *testing.T) {
	base := t.TempDir()
	dir := filepath.Join(base, "drop")
	l := start(t, 50*time.Millisecond, dir)
	l.until("missing folder told", func() bool { return l.told(watcher.FolderMissing, dir) })
	write(t, filepath.Join(dir, "one.pdf"), "1")
	l.untilTaken("one.pdf")
	if err := os.Rename(dir, dir+".old"); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(dir, "two.pdf"), "2")
	l.untilTaken("one.pdf", "two.pdf")
	if err := os.RemoveAll(dir); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(dir, "sub", "three.pdf"), "3")
	l.untilTaken("one.pdf", "two.pdf", "sub/three.pdf")
	if !l.told(watcher.FolderBack, dir) {
		t.Errorf("that the folder is back was not told: %v", l.notices)
	}
}

// A folder that is made anew is watched at once, not only when everything is looked at
// again: no event tells of it, since what was watched is gone.
func TestFolderMadeAnewIsNoticedSoon(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "drop")
	l := start(t, time.Hour, dir)
	l.until("missing folder told", func() bool { return l.told(watcher.FolderMissing, dir) })
	write(t, filepath.Join(dir, "one.pdf"), "1")
	l.untilTaken("one.pdf")
}

func TestARefusedFileIsHandedOnAgain(t *testing.T) {
	dir := t.TempDir()
	l := &log{t: t, texts: map[string][]string{}, refuse: errors.New("no space left")}
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() {
		done <- watcher.Watch(ctx, []string{dir}, watcher.Options{Settle: settle, Poll: time.Hour, Notice: l.notice}, l.take)
	}()
	write(t, filepath.Join(dir, "a.pdf"), "a")
	l.until("the reason told", func() bool { return l.told(watcher.Waits, "no space left") })
	l.mu.Lock()
	l.refuse = nil
	l.mu.Unlock()
	l.untilTaken("a.pdf")
	cancel()
	if err := <-done; err != nil {
		t.Fatal(err)
	}
}

func TestNothingToWatch(t *testing.T) {
	if err := watcher.Watch(t.Context(), nil, watcher.Options{}, nil); !errors.Is(err, watcher.ErrNoFolder) {
		t.Errorf("got %v, want ErrNoFolder", err)
	}
}
