package catalog

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"evidencevault/internal/lock"
)

// The lock files. They are never removed: a lock on a removed file holds nobody off.
const (
	writingFile = "writing" // held while somebody writes, shared while a log is compared with its head
	daemonFile  = "daemon"  // held as long as a daemon runs
)

// fileLock is a lock of the kernel on an open file. It ends with the process at the latest.
type fileLock struct{ file *os.File }

// openLock opens a lock file, and makes it if it is absent and may be made.
func openLock(path string) (*os.File, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if err == nil || errors.Is(err, fs.ErrNotExist) {
		return f, err
	}
	if r, rerr := os.Open(path); rerr == nil {
		return r, nil // on a disk that is read-only
	}
	return nil, err
}

// takeLock takes the lock on a file, shared or for itself alone, and waits for it. The
// error is a [*BusyError] when wait is over.
func takeLock(ctx context.Context, path string, alone bool, wait time.Duration) (*fileLock, error) {
	f, err := openLock(path)
	if err != nil {
		return nil, fmt.Errorf("open the lock: %w", err)
	}
	l := &fileLock{f}
	over := time.NewTimer(wait)
	defer over.Stop()
	for pause := time.Millisecond; ; pause = min(2*pause, 50*time.Millisecond) {
		got, err := lock.Try(f, alone)
		if err != nil {
			return nil, errors.Join(fmt.Errorf("lock %s: %w", path, err), f.Close())
		}
		if got {
			return l, nil
		}
		next := time.NewTimer(pause)
		select {
		case <-ctx.Done():
			next.Stop()
			return nil, errors.Join(fmt.Errorf("wait for %s: %w", path, ctx.Err()), f.Close())
		case <-over.C:
			next.Stop()
			return nil, errors.Join(&BusyError{Path: path, Who: l.holder()}, f.Close())
		case <-next.C:
		}
	}
}

// sign writes who holds the lock into its file, for the message of whom it holds off.
// Nothing else is ever decided by it.
func (l *fileLock) sign() error {
	text := []byte(fmt.Sprintf("process %d (%s)\n", os.Getpid(), filepath.Base(os.Args[0])))
	if _, err := l.file.WriteAt(text, 0); err != nil {
		return err
	}
	return l.file.Truncate(int64(len(text)))
}

// holder reads who holds the lock; "" when that cannot be told.
func (l *fileLock) holder() string {
	buf := make([]byte, 200)
	n, _ := l.file.ReadAt(buf, 0) // an error leaves n 0 or less than the buffer, and the name out
	line, _, _ := strings.Cut(string(buf[:max(n, 0)]), "\n")
	return line
}

// release gives the lock back.
func (l *fileLock) release() error { return l.file.Close() }

// LockDaemon takes the lock that only one daemon has for the vault in dir. It is the
// kernel's, and ends with the process. The error is a [*BusyError] that names the
// holder, or wraps [ErrNoVault].
func LockDaemon(dir string) (release func() error, err error) {
	if _, err := os.Lstat(filepath.Join(dir, writingFile)); errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("%s: %w; vaultctl setup makes one", dir, ErrNoVault)
	}
	l, err := takeLock(context.Background(), filepath.Join(dir, daemonFile), true, 0)
	if err != nil {
		return nil, err
	}
	if err := l.sign(); err != nil {
		return nil, errors.Join(fmt.Errorf("write who holds the vault: %w", err), l.release())
	}
	return l.release, nil
}
