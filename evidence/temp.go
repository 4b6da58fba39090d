package evidence

import (
	"crypto/rand"
	"errors"
	"io/fs"
	"os"
	"strings"
)

// tempPrefix begins the name of every temporary file.
const tempPrefix = ".incoming-"

// temporary is a copy under way. Its file is locked as long as it is open, so that
// Clean can tell it from one that a stopped program left.
type temporary struct {
	store *Store
	file  *os.File
	name  string // "" once it has its lasting name
}

func (s *Store) newTemp() (*temporary, error) {
	for {
		name := tempPrefix + strings.ToLower(rand.Text())
		f, err := s.root.OpenFile(name, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
		if err != nil {
			return nil, err
		}
		free, err := tryLock(f)
		if err == nil && free && s.isStill(name, f) {
			return &temporary{store: s, file: f, name: name}, nil
		}
		// Clean was quicker: it took the file for a left one and removes it.
		if err := errors.Join(err, f.Close()); err != nil {
			return nil, err
		}
	}
}

func (s *Store) isStill(name string, f *os.File) bool {
	there, err := s.root.Lstat(name)
	if err != nil {
		return false
	}
	open, err := f.Stat()
	return err == nil && os.SameFile(there, open)
}

// discard closes the file, and removes it if it has no lasting name.
func (t *temporary) discard() error {
	err := t.file.Close()
	if t.name == "" {
		return err
	}
	if gone := t.store.root.Remove(t.name); gone != nil && !errors.Is(gone, fs.ErrNotExist) {
		return errors.Join(err, gone)
	}
	return err
}

// Clean removes what stopped copies left behind, and returns how many there were. A
// copy that is under way, in this or another process, is left alone.
func (s *Store) Clean() (int, error) {
	names, err := s.names(".")
	if err != nil {
		return 0, onReading(".", err)
	}
	count := 0
	for _, name := range names {
		if !strings.HasPrefix(name, tempPrefix) {
			continue
		}
		left, err := s.isLeft(name)
		if err != nil {
			return count, onWriting("look at a temporary file in the evidence store", err)
		}
		if !left {
			continue
		}
		count++
	}
	return count, nil
}

// isLeft removes a temporary file that nobody holds, and reports whether it did.
func (s *Store) isLeft(name string) (bool, error) {
	f, err := s.root.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	free, err := tryLock(f)
	if err == nil && free && s.isStill(name, f) {
		err = errors.Join(removeOpen(s.root, name, f))
		return err == nil, err
	}
	return false, errors.Join(err, f.Close())
}

func (s *Store) names(path string) ([]string, error) {
	d, err := s.root.Open(path)
	if err != nil {
		return nil, err
	}
	names, err := d.Readdirnames(-1)
	return names, errors.Join(err, d.Close())
}
