package evidence

import "fmt"

// A DigestError names the file that changed. It matches [ErrChanged].
type DigestError struct {
	Path      string // below the store's folder, with slashes
	Want, Got string // SHA-256, lower-case hex
}

func (e *DigestError) Error() string {
	return fmt.Sprintf("%s: %v: want sha256 %s, got %s; bring the file back from a backup", e.Path, ErrChanged, e.Want, e.Got)
}

func (e *DigestError) Unwrap() error { return ErrChanged }
