package evidence

import (
	"errors"
	"io/fs"
)

// Remove deletes one evidence for good, and its name is off the disk when it returns.
// Whether it may go is for the caller to judge. One that is not there is no error. The
// error wraps [ErrUnreadable] or [ErrDigest].
func (s *Store) Remove(sha256 string) error {
	path, err := s.find(sha256)
	if errors.Is(err, ErrMissing) {
		return nil
	}
	if err != nil {
		return err
	}
	if err := s.root.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return onReading(path, err)
	}
	if err := s.syncFolder(sha256[:2]); err != nil {
		return onReading(sha256[:2], err)
	}
	return nil
}
