package evidence

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
)

// Path returns the place of an evidence below the store's folder, with slashes. The
// error wraps [ErrMissing], [ErrUnreadable] or [ErrDigest].
func (s *Store) Path(sha256 string) (string, error) { return s.find(sha256) }

// Open opens one evidence for reading; its bytes are not checked, see [Store.Check].
// A link is not followed. The error wraps [ErrMissing], [ErrUnreadable] or [ErrDigest].
func (s *Store) Open(sha256 string) (*os.File, error) {
	path, err := s.find(sha256)
	if err != nil {
		return nil, err
	}
	return s.openRegular(path)
}

func (s *Store) openRegular(path string) (*os.File, error) {
	before, err := s.root.Lstat(path)
	if err != nil {
		return nil, onReading(path, err)
	}
	if !before.Mode().IsRegular() {
		return nil, onReading(path, errors.New("it is no ordinary file"))
	}
	f, err := s.root.Open(path)
	if err != nil {
		return nil, onReading(path, err)
	}
	if open, err := f.Stat(); err != nil || !os.SameFile(before, open) {
		return nil, onReading(path, errors.Join(errors.New("it was replaced while it was opened"), err, f.Close()))
	}
	return f, nil
}

// Check reads one evidence and compares its hash. The error is a [*DigestError], or
// wraps [ErrMissing], [ErrUnreadable], [ErrDigest] or ctx's error.
func (s *Store) Check(ctx context.Context, sha256 string) error {
	path, err := s.find(sha256)
	if err != nil {
		return err
	}
	return s.same(ctx, path, sha256)
}

// Describe checks one evidence as [Store.Check] does, and returns what Put returned
// when it was stored, with Already set.
func (s *Store) Describe(ctx context.Context, sha256 string) (Kept, error) {
	if err := s.Check(ctx, sha256); err != nil {
		return Kept{}, err
	}
	f, err := s.Open(sha256)
	if err != nil {
		return Kept{}, err
	}
	info, serr := f.Stat()
	start, rerr := io.ReadAll(io.LimitReader(f, startSize))
	if err := errors.Join(serr, rerr, f.Close()); err != nil {
		return Kept{}, onReading(sha256, err)
	}
	kind, ext := typeOf(start)
	return Kept{SHA256: sha256, Size: info.Size(), Type: kind, Ext: ext, Already: true}, nil
}

// same compares the bytes at a path with a hash.
func (s *Store) same(ctx context.Context, path, want string) error {
	f, err := s.openRegular(path)
	if err != nil {
		return err
	}
	hash := sha256.New()
	_, err = io.CopyBuffer(hash, &untilDone{ctx, f}, make([]byte, 256<<10))
	if cerr := f.Close(); err == nil && cerr != nil {
		err = cerr
	}
	switch {
	case ctx.Err() != nil:
		return fmt.Errorf("%s: not read to its end: %w", path, ctx.Err())
	case err != nil:
		return onReading(path, err)
	}
	if got := hex.EncodeToString(hash.Sum(nil)); got != want {
		return &DigestError{Path: path, Want: want, Got: got}
	}
	return nil
}

// untilDone reads until its context ends.
type untilDone struct {
	ctx context.Context
	r   io.Reader
}

func (u *untilDone) Read(p []byte) (int, error) {
	if err := u.ctx.Err(); err != nil {
		return 0, err
	}
	return u.r.Read(p)
}
