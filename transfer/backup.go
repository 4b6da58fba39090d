package transfer

import (
	"archive/tar"
	"bufio"
	"context"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"evidencevault/catalog"
	"evidencevault/internal/stop"
)

// Options says how a vault is taken out. The zero Options is ready to use.
type Options struct {
	Secret     Secret               // of a backup; an export is never encrypted
	Incomplete bool                 // goes on without evidence that is missing or altered, and lists it
	Progress   func(done, of int64) // bytes of evidence copied; nil: nobody asks
}

// Backup writes the vault into one new file, while others may go on working with it: the
// database as of one moment, under the lock of the writers, and then the evidence that it
// names. The file is read back before it gets its name. The error wraps [ErrThere],
// [ErrMissing] or [catalog.ErrLog]; then there is no file.
func Backup(ctx context.Context, c *catalog.Catalog, file string, o Options) (res Result, err error) {
	file, err = filepath.Abs(file)
	if err != nil {
		return res, err
	}
	if err := within(c.Dir(), file); err != nil {
		return res, err
	}
	fresh, err := begin(file, "backup", false)
	if err != nil {
		return res, err
	}
	defer func() { err = errors.Join(err, fresh.discard()) }()
	for again := true; again; {
		if again, res, err = backupOnce(ctx, c, fresh, o); err != nil {
			return Result{}, err
		}
	}
	return res, fresh.place(false)
}

// backupOnce makes the file of a backup that has no name yet. again is true when evidence was
// deleted, or a closing finished or taken back, after the copy of the database was made, so
// that the two do not agree.
func backupOnce(ctx context.Context, c *catalog.Catalog, fresh made, o Options) (again bool, res Result, err error) {
	copied, target := filepath.Join(fresh.in.Dir, "snapshot"), fresh.temp
	for _, left := range []string{copied, target} {
		if err := os.RemoveAll(left); err != nil {
			return false, res, err
		}
	}
	snap, err := c.Snapshot(ctx, copied)
	if err != nil {
		return false, res, err
	}
	if err := stop.At(stop.Snapped); err != nil {
		return false, res, err
	}
	res = Result{Events: snap.Size, Missing: []string{}, Findings: []string{}}
	sum, err := writeFile(target, o.Secret, func(w io.Writer) error {
		again, err = backupInto(ctx, c, w, copied, snap, o, &res)
		return err
	})
	if err != nil || again {
		return again, res, err
	}
	return false, res, readBack(ctx, target, sum)
}

func backupInto(ctx context.Context, c *catalog.Catalog, w io.Writer, copied string, snap catalog.Snapshot, o Options, res *Result) (again bool, err error) {
	now := c.Now().UTC().Truncate(time.Second)
	missing, err := missingOf(ctx, c, snap.Size, o)
	if err != nil {
		return false, err
	}
	p := &packer{tar: tar.NewWriter(w), made: now}
	about := About{Form: backupForm, Version: formVersion, Schema: snap.Schema, Vault: vaultName(snap.Head),
		Made: stamp(now), Events: snap.Size, Head: string(snap.Head), Missing: missing}
	text, err := json.MarshalIndent(about, "", " ")
	if err != nil {
		return false, err
	}
	add := func(name string, data []byte) error {
		return p.add(name, strings.NewReader(string(data)), int64(len(data)), 0o600)
	}
	err = errors.Join(add(aboutName, append(text, '\n')), add(headName, snap.Head))
	if err == nil {
		err = addFile(copied, catalog.DatabaseFile, p)
	}
	if err == nil {
		err = addSchemes(ctx, c, &c.View, p)
	}
	if err == nil {
		again, err = addEvidence(ctx, c, &c.View, p, evidenceIn, snap.Size, o, res)
	}
	if err == nil && !again {
		again, err = addFiles(ctx, c, snap.Closings, p)
	}
	if err != nil || again {
		return again, err
	}
	return false, p.close()
}

// missingOf looks beforehand which evidence has no file, so that a backup that is asked
// to go on without can say so in its first lines. What is altered is found when it is
// copied.
func missingOf(ctx context.Context, c *catalog.Catalog, size int64, o Options) ([]string, error) {
	out := []string{}
	if !o.Incomplete {
		return out, nil
	}
	all, err := c.AllEvidence(ctx)
	for _, e := range all {
		if e.Event <= size && e.Deleted == 0 && c.Store().Check(ctx, e.SHA256) != nil {
			out = append(out, e.SHA256)
		}
	}
	return out, err
}

// writeFile has a file written through the encryption, synced, and returns the SHA-256
// of what should lie on the disk.
func writeFile(name string, secret Secret, fill func(io.Writer) error) (sum [sha256.Size]byte, err error) {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return sum, err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	hash := sha256.New()
	buffered := bufio.NewWriterSize(io.MultiWriter(f, hash), 256<<10)
	sealed, err := secret.encrypt(buffered)
	if err != nil {
		return sum, err
	}
	if err := fill(sealed); err != nil {
		return sum, err
	}
	if err := errors.Join(sealed.Close(), buffered.Flush(), f.Sync()); err != nil {
		return sum, fmt.Errorf("write the backup: %w", err)
	}
	return [sha256.Size]byte(hash.Sum(nil)), nil
}

// readBack compares a file with the hash of what was written.
func readBack(ctx context.Context, name string, want [sha256.Size]byte) error {
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	hash := sha256.New()
	_, err = io.Copy(hash, &whileWanted{ctx: ctx, r: f})
	if err = errors.Join(err, f.Close()); err != nil {
		return fmt.Errorf("read the backup back: %w", err)
	}
	if [sha256.Size]byte(hash.Sum(nil)) != want {
		return fmt.Errorf("the backup, read back: %w: the disk does not give back what was written; use another one", ErrChanged)
	}
	return nil
}

// whileWanted reads until its context ends, and tells how far it is.
type whileWanted struct {
	ctx      context.Context
	r        io.Reader
	done, of int64
	tell     func(done, of int64) // nil: nobody asks
}

// telling reads a file from its begin and tells how far it is.
func telling(ctx context.Context, f *os.File, tell func(done, of int64)) (io.Reader, error) {
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	return &whileWanted{ctx: ctx, r: f, of: info.Size(), tell: tell}, nil
}

func (w *whileWanted) Read(p []byte) (int, error) {
	if err := w.ctx.Err(); err != nil {
		return 0, err
	}
	n, err := w.r.Read(p)
	if w.done += int64(n); w.tell != nil && n > 0 {
		w.tell(w.done, w.of)
	}
	return n, err
}

// IsBackup reports whether an ordinary file begins as a backup does, encrypted or not.
func IsBackup(file string) bool {
	f, err := os.Open(file)
	if err != nil {
		return false
	}
	defer f.Close() // it was only read
	begin := make([]byte, 512)
	n, _ := io.ReadFull(f, begin) // a shorter file is no backup, which is seen below
	text := string(begin[:n])
	return strings.HasPrefix(text, beginsEncrypted) || strings.Contains(text[:min(n, 400)], aboutName)
}

// CheckBackup reads a backup to its end, changes nothing, and returns what it says of
// itself. The error is that of [Restore] for a backup that is not whole; progress is told as
// by it.
func CheckBackup(ctx context.Context, file string, secret Secret, progress func(done, of int64)) (about About, res Result, err error) {
	f, err := os.Open(file)
	if err != nil {
		return about, res, err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	from, err := telling(ctx, f, progress)
	if err != nil {
		return about, res, err
	}
	in, err := secret.decrypt(from)
	if err != nil {
		return about, res, fmt.Errorf("%s: %w", file, err)
	}
	count := &counting{res: Result{Missing: []string{}, Findings: []string{}}}
	about, err = unpack(in, count)
	if err != nil {
		return about, res, fmt.Errorf("%s: %w", file, err)
	}
	count.res.Events, count.res.Missing = about.Events, about.Missing
	return about, count.res, nil
}

// counting looks at a backup's files and keeps none.
type counting struct{ res Result }

func (*counting) about(About) error { return nil }

func (*counting) folder(string) error { return nil }

func (c *counting) take(name string, r io.Reader, size int64, _ fs.FileMode) error {
	if under, rest := split(name); under == evidenceIn {
		c.res.Evidence++
		c.res.Bytes += size
		return sameAsNamed(rest, r, io.Discard)
	}
	_, err := io.Copy(io.Discard, r)
	return err
}
