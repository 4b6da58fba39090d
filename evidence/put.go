package evidence

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"mime"
	"os"

	"github.com/gabriel-vasile/mimetype"

	"evidencevault/internal/stop"
)

// Kept is an evidence in the store.
type Kept struct {
	SHA256  string // lower-case hex
	Size    int64  // bytes
	Type    string // media type by content, without parameters
	Ext     string // by content, with the point; ".bin" when the content tells nothing
	Already bool   // it was there before, with the same bytes
}

// startSize is how many bytes from the start of a file its type is told by.
const startSize = 64 << 10

// Put copies what r gives into the store. size is how many bytes are expected, so that
// a file that cannot fit is refused before its first byte; below 0 when nobody knows.
//
// When it returns without an error, the bytes and the name are on the disk; the file
// has its name only then. The same bytes again change nothing, and Already is true.
// The error wraps [ErrDiskFull], [ErrTooLarge], [ErrSource] when r failed, or
// [ErrChanged] when the store holds an altered file under this hash, which is never
// overwritten.
func (s *Store) Put(ctx context.Context, r io.Reader, size int64) (kept Kept, err error) {
	if err := s.room(size); err != nil {
		return Kept{}, err
	}
	temp, err := s.newTemp()
	if err != nil {
		return Kept{}, onWriting("begin a copy into the evidence store", err)
	}
	defer func() { err = errors.Join(err, temp.discard()) }()
	if err := stop.At(stop.TempMade); err != nil {
		return Kept{}, err
	}
	kept, err = temp.fill(ctx, r, s.o.Largest)
	if err != nil {
		return Kept{}, err
	}
	if err := stop.At(stop.Copied); err != nil {
		return Kept{}, err
	}
	if err := errors.Join(temp.file.Chmod(fileMode), temp.file.Sync()); err != nil {
		return Kept{}, onWriting("sync a copy in the evidence store", err)
	}
	if err := stop.At(stop.TempSynced); err != nil {
		return Kept{}, err
	}
	if err := s.same(ctx, temp.name, kept.SHA256); err != nil {
		return Kept{}, onReadingBack(err)
	}
	if err := stop.At(stop.ReadBack); err != nil {
		return Kept{}, err
	}
	return s.name(ctx, temp, kept)
}

// room refuses a file that cannot fit.
func (s *Store) room(size int64) error {
	if size > s.o.Largest {
		return fmt.Errorf("a file of %d bytes: %w: the store takes at most %d", size, ErrTooLarge, s.o.Largest)
	}
	free, err := freeBytes(s.dir)
	if err != nil {
		return fmt.Errorf("ask how much room the evidence store has: %w", err)
	}
	if need := max(size, 0) + max(s.o.Reserve, 0); free < uint64(need) {
		return fmt.Errorf("a file of %d bytes: %w: %d bytes are free and %d must stay so; make room, nothing was changed",
			max(size, 0), ErrDiskFull, free, max(s.o.Reserve, 0))
	}
	return nil
}

// name gives the temporary file its name, unless the bytes are there already.
func (s *Store) name(ctx context.Context, temp *temporary, kept Kept) (Kept, error) {
	folder := kept.SHA256[:2]
	switch err := s.root.Mkdir(folder, folderMode); {
	case err == nil:
		if err := s.syncFolder("."); err != nil {
			return Kept{}, onWriting("sync the evidence store", err)
		}
	case !errors.Is(err, os.ErrExist):
		return Kept{}, onWriting("make a folder in the evidence store", err)
	}
	already, err := s.place(temp, kept)
	if err != nil {
		return Kept{}, onWriting("name a copy in the evidence store", err)
	}
	if already != "" {
		if err := s.same(ctx, already, kept.SHA256); err != nil {
			return Kept{}, fmt.Errorf("the same content is stored already: %w", err)
		}
		kept.Already = true
	}
	if err := stop.At(stop.Renamed); err != nil {
		return Kept{}, err
	}
	if err := s.syncFolder(folder); err != nil {
		return Kept{}, onWriting("sync a folder of the evidence store", err)
	}
	return kept, stop.At(stop.FolderSynced)
}

// fill copies r into the temporary file while hashing.
func (t *temporary) fill(ctx context.Context, r io.Reader, largest int64) (Kept, error) {
	hash := sha256.New()
	var start []byte
	var size int64
	buf := make([]byte, 256<<10)
	for {
		if err := ctx.Err(); err != nil {
			return Kept{}, err
		}
		n, rerr := r.Read(buf)
		if size += int64(n); size > largest {
			return Kept{}, fmt.Errorf("a file of more than %d bytes: %w: that is the most the store takes", largest, ErrTooLarge)
		}
		if len(start) < startSize {
			start = append(start, buf[:min(n, startSize-len(start))]...)
		}
		hash.Write(buf[:n]) // a hash never fails, see hash.Hash
		if _, err := t.file.Write(buf[:n]); err != nil {
			return Kept{}, onWriting("copy into the evidence store", err)
		}
		if rerr == io.EOF {
			break
		}
		if rerr != nil {
			return Kept{}, fmt.Errorf("%w: %w", ErrSource, rerr)
		}
	}
	kind, ext := typeOf(start)
	return Kept{SHA256: hex.EncodeToString(hash.Sum(nil)), Size: size, Type: kind, Ext: ext}, nil
}

// typeOf returns media type and extension by content, never by a name.
func typeOf(start []byte) (kind, ext string) {
	if len(start) == 0 {
		return "application/x-empty", ".bin"
	}
	m := mimetype.Detect(start)
	kind, _, err := mime.ParseMediaType(m.String())
	if err != nil {
		kind = m.String()
	}
	if ext = m.Extension(); ext == "" {
		ext = ".bin"
	}
	return kind, ext
}
