package evidence

import (
	"errors"
	"fmt"
	"os"
	"regexp"
	"runtime"
	"strings"
)

// Options says how a store is used. The zero Options is ready to use.
type Options struct {
	Largest int64 // bytes of the largest file that is taken in; 0 means 4 GiB
	Reserve int64 // bytes that stay free on the disk; 0 means 256 KiB, below 0 none
}

// Store is the folder of the evidences. It may be used by several goroutines and by
// several processes at once.
type Store struct {
	dir  string
	root *os.Root
	o    Options
}

// The modes of what lies in a store.
const (
	folderMode = 0o700
	fileMode   = 0o400
)

// Open opens the store in the folder dir, which is made with mode 0700 if it is absent.
func Open(dir string, o Options) (*Store, error) {
	if o.Largest == 0 {
		o.Largest = 4 << 30
	}
	if o.Reserve == 0 {
		o.Reserve = 256 << 10
	}
	if err := os.Mkdir(dir, folderMode); err != nil && !errors.Is(err, os.ErrExist) {
		return nil, fmt.Errorf("make the evidence store: %w", err)
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("open the evidence store: %w", err)
	}
	return &Store{dir: dir, root: root, o: o}, nil
}

// Close gives the folder back.
func (s *Store) Close() error { return s.root.Close() }

var digestText = regexp.MustCompile(`^[0-9a-f]{64}$`)

func checkDigest(sha256 string) error {
	if !digestText.MatchString(sha256) {
		return fmt.Errorf("%.80q: %w: want 64 digits of lower-case hex", sha256, ErrDigest)
	}
	return nil
}

// find returns the path of an evidence, whatever its extension. The error wraps
// [ErrMissing] or [ErrUnreadable].
func (s *Store) find(sha256 string) (string, error) {
	if err := checkDigest(sha256); err != nil {
		return "", err
	}
	folder, err := s.root.Open(sha256[:2])
	if err != nil {
		return "", onReading(sha256[:2]+"/"+sha256, err)
	}
	names, err := folder.Readdirnames(-1)
	if err = errors.Join(err, folder.Close()); err != nil {
		return "", onReading(sha256[:2]+"/"+sha256, err)
	}
	found := ""
	for _, name := range names {
		if strings.HasPrefix(name, sha256+".") && (found == "" || name < found) {
			found = name
		}
	}
	if found == "" {
		return "", onReading(sha256[:2]+"/"+sha256, os.ErrNotExist)
	}
	return sha256[:2] + "/" + found, nil
}

// syncFolder makes the names in a folder of the store last. Windows has no such call
// and keeps names in its own journal.
func (s *Store) syncFolder(path string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := s.root.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}
