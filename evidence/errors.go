package evidence

import (
	"errors"
	"fmt"
	"io/fs"
)

// The errors that a caller may test for.
var (
	// ErrChanged says that a stored file is no longer what was stored; see [DigestError].
	ErrChanged = errors.New("changed since it was stored")
	// ErrMissing says that the store has no such evidence.
	ErrMissing = errors.New("not in the store")
	// ErrUnreadable says that the file is there but the disk or its rights do not give it back.
	ErrUnreadable = errors.New("cannot be read back")
	// ErrDiskFull says that disk or quota have no room, or not enough above what stays free.
	ErrDiskFull = errors.New("disk full")
	// ErrTooLarge says that a file is larger than the store or the file system takes.
	ErrTooLarge = errors.New("too large")
	// ErrSource says that the file that was to be stored could not be read.
	ErrSource = errors.New("cannot be read")
	// ErrDigest says that a text is no SHA-256 in lower-case hex.
	ErrDigest = errors.New("not a SHA-256")
)

// A DigestError names the file that changed. It matches [ErrChanged].
type DigestError struct {
	Path      string // below the store's folder, with slashes
	Want, Got string // SHA-256, lower-case hex
}

func (e *DigestError) Error() string {
	return fmt.Sprintf("%s: %v: want sha256 %s, got %s; bring the file back from a backup", e.Path, ErrChanged, e.Want, e.Got)
}

func (e *DigestError) Unwrap() error { return ErrChanged }

// notAsWritten is a [*DigestError] about a copy that was just written.
type notAsWritten struct{ *DigestError }

func (e notAsWritten) Error() string {
	return fmt.Sprintf("the copy in the evidence store, read back, has sha256 %s and not %s: the disk does not give back what was written to it, so nothing was kept; look at the disk", e.Got, e.Want)
}

func (e notAsWritten) Unwrap() error { return e.DigestError }

// onReadingBack says what an error on reading a copy back means.
func onReadingBack(err error) error {
	var other *DigestError
	if errors.As(err, &other) {
		return notAsWritten{other}
	}
	return fmt.Errorf("the copy in the evidence store: %w", err)
}

// onReading says what an error on reading a stored file means.
func onReading(path string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s: %w; bring the file back from a backup", path, ErrMissing)
	}
	return fmt.Errorf("%s: %w: %v; look at the disk, then bring the file back from a backup", path, ErrUnreadable, err)
}

// onWriting says what an error on writing to the store means.
func onWriting(what string, err error) error {
	switch {
	case err == nil:
		return nil
	case diskFull(err):
		return fmt.Errorf("%s: %w; make room, nothing was changed: %v", what, ErrDiskFull, err)
	case fileTooLarge(err):
		return fmt.Errorf("%s: %w for this file system or the process's limit: %v", what, ErrTooLarge, err)
	}
	return fmt.Errorf("%s: %w", what, err)
}
