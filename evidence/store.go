package evidence

import (
	"context"
	"errors"
	"io"
	"os"
)

// Options says how a store is used. The zero Options is ready to use.
type Options struct {
	Largest int64 // bytes of the largest file that is taken in; 0 means 1 GiB
	Reserve int64 // bytes that stay free on the disk; 0 means 256 KiB, below 0 none
}

// Store is the folder of the evidences. It may be used by several goroutines and by
// several processes at once.
type Store struct{}

// The errors that a caller may test for.
var (
	ErrChanged    = errors.New("changed since it was stored")
	ErrMissing    = errors.New("not in the store")
	ErrUnreadable = errors.New("the disk does not give it back")
	ErrDiskFull   = errors.New("the disk is full")
	ErrTooLarge   = errors.New("larger than the store takes")
	ErrSource     = errors.New("the file cannot be read")
	ErrDigest     = errors.New("not a SHA-256")
)

// Kept is an evidence in the store.
type Kept struct {
	SHA256  string // lower-case hex
	Size    int64  // bytes
	Type    string // media type by content, without parameters
	Ext     string // by content, with the point
	Already bool   // it was there before, with the same bytes
}

// Open opens the store in the folder dir, which is made with mode 0700 if it is absent.
func Open(dir string, o Options) (*Store, error) { panic("soon") }

// Close gives the folder back.
func (s *Store) Close() error { panic("soon") }

// Put copies what r gives into the store. size is how many bytes are expected, so that
// a file that cannot fit is refused before its first byte; below 0 when nobody knows.
// The error wraps ErrDiskFull, ErrTooLarge, ErrSource (r failed), or ErrChanged.
func (s *Store) Put(ctx context.Context, r io.Reader, size int64) (Kept, error) { panic("soon") }

// Open opens one evidence for reading; its bytes are not checked, see Check. The
// error wraps ErrMissing, ErrUnreadable or ErrDigest.
func (s *Store) Open(sha256 string) (*os.File, error) { panic("soon") }

// Check reads one evidence and compares its hash. The error is a [*DigestError], or
// wraps ErrMissing, ErrUnreadable or ErrDigest.
func (s *Store) Check(ctx context.Context, sha256 string) error { panic("soon") }

// Path returns the place of an evidence below the store's folder, with slashes.
func (s *Store) Path(sha256 string) (string, error) { panic("soon") }

// Clean removes what stopped copies left behind, and returns how many there were.
// A copy that is under way, in this or another process, is left alone.
func (s *Store) Clean() (int, error) { panic("soon") }

// Entry is one thing that lies in the store.
type Entry struct {
	Path   string // below the store's folder, with slashes
	SHA256 string // as its name says; "" for what is no evidence
	Size   int64
	Wrong  string // what is wrong with it, as a clause; "" for an evidence
}

// Walk calls fn for everything in the store, in the order of the names.
func (s *Store) Walk(ctx context.Context, fn func(Entry) error) error { panic("soon") }
