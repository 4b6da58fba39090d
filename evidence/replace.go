package evidence

import (
	"context"
	"errors"
	"io"
)

// Replace puts the bytes of one evidence back, as r gives them from a backup: where its
// file is missing or altered. The hash of r's bytes must be the evidence's, or the error
// is a [*DigestError] and nothing is changed. An altered file gives way in one rename, so
// that a stop leaves the old file or the right one.
func (s *Store) Replace(ctx context.Context, sha256, ext string, r io.Reader, size int64) error {
	err := s.Check(ctx, sha256)
	if err == nil || !errors.Is(err, ErrMissing) && !errors.Is(err, ErrChanged) && !errors.Is(err, ErrUnreadable) {
		return err
	}
	if errors.Is(err, ErrMissing) {
		_, err := s.putAs(ctx, sha256, ext, r, size, s.name)
		return err
	}
	over := func(ctx context.Context, temp *temporary, kept Kept) (Kept, error) {
		path, err := s.find(sha256)
		if err != nil {
			return Kept{}, err
		}
		if err := s.root.Rename(temp.name, path); err != nil {
			return Kept{}, onWriting("put an evidence back", err)
		}
		temp.name = ""
		return kept, onWriting("sync a folder of the evidence store", s.syncFolder(sha256[:2]))
	}
	_, err = s.putAs(ctx, sha256, ext, r, size, over)
	return err
}

// putAs copies r into a temporary file, checks that it has the hash that is wanted, and
// hands it to name.
func (s *Store) putAs(ctx context.Context, want, ext string, r io.Reader, size int64, name func(context.Context, *temporary, Kept) (Kept, error)) (kept Kept, err error) {
	if err := s.room(size); err != nil {
		return Kept{}, err
	}
	temp, err := s.newTemp()
	if err != nil {
		return Kept{}, onWriting("begin a copy into the evidence store", err)
	}
	defer func() { err = errors.Join(err, temp.discard()) }()
	if kept, err = temp.fill(ctx, r, s.o.Largest); err != nil {
		return Kept{}, err
	}
	if kept.SHA256 != want {
		return Kept{}, &DigestError{Path: "what was to be put back", Want: want, Got: kept.SHA256}
	}
	if ext != "" {
		kept.Ext = ext
	}
	if err := errors.Join(temp.file.Chmod(fileMode), temp.file.Sync()); err != nil {
		return Kept{}, onWriting("sync a copy in the evidence store", err)
	}
	if err := s.same(ctx, temp.name, want); err != nil {
		return Kept{}, onReadingBack(err)
	}
	return name(ctx, temp, kept)
}
