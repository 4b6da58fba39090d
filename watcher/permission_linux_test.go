package watcher

import (
	"context"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

const nobody = 65534

// A file that may not be read waits, says so once, and is taken when it may be read (B17).
// Root may read everything, so the watch runs on a thread of another user.
func TestNotAllowedToReadThenAllowed(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.pdf")
	if err := os.WriteFile(path, []byte("x"), 0o000); err != nil {
		t.Fatal(err)
	}
	if os.Geteuid() == 0 {
		for _, p := range []string{filepath.Dir(dir), dir, path} {
			if err := os.Chown(p, nobody, nobody); err != nil {
				t.Fatal(err)
			}
		}
	}
	var once sync.Once
	told, taken := make(chan string, 1), 0
	o := Options{Settle: 10 * time.Millisecond, Poll: time.Hour, Notice: func(n Notice) {
		if n.What == Unreadable {
			once.Do(func() { told <- n.Text })
		}
	}}
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Second)
	defer cancel()
	ended := make(chan error, 1)
	go func() {
		runtime.LockOSThread() // never unlocked: the thread ends with the goroutine
		if os.Geteuid() == 0 {
			if err := unix.Setfsuid(nobody); err != nil {
				ended <- err
				return
			}
		}
		ended <- Watch(ctx, []string{dir}, o, func(context.Context, File) error { taken++; cancel(); return nil })
	}()
	select {
	case text := <-told:
		if !strings.Contains(text, "permission") {
			t.Errorf("told %q, want the permission named", text)
		}
	case <-ctx.Done():
		t.Fatal("nothing was told about a file that may not be read")
	}
	if err := os.Chmod(path, 0o400); err != nil {
		t.Fatal(err)
	}
	if err := <-ended; err != nil || taken != 1 {
		t.Errorf("err %v, taken %d times after it may be read, want once", err, taken)
	}
}
