package catalog

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"time"

	"evidencevault/catalog/seal"
)

var digestText = regexp.MustCompile(`^[0-9a-f]{64}$`)

// Digest returns the SHA-256 of a scheme's bytes as lower-case hex, the name under which
// they are kept.
func Digest(data []byte) string { return digestOf(data) }

func digestOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// KeepScheme keeps a scheme's bytes in schemes/ and returns their SHA-256. The same
// bytes again are harmless. Record [SchemeKept] afterwards. The error wraps
// [ErrReadOnly] or [ErrNoScheme], if other bytes lie there under this hash.
func (c *Catalog) KeepScheme(data []byte) (sha256 string, err error) {
	if c.o.ReadOnly {
		return "", fmt.Errorf("%s: %w", c.dir, ErrReadOnly)
	}
	sha256 = digestOf(data)
	if _, err := c.SchemeBytes(sha256); err == nil {
		return sha256, nil
	}
	folder := filepath.Join(c.dir, schemeFolder)
	if err := os.Mkdir(folder, 0o700); err != nil && !errors.Is(err, fs.ErrExist) {
		return "", fmt.Errorf("keep a scheme: %w", err)
	}
	temp, err := os.CreateTemp(folder, ".new-*")
	if err != nil {
		return "", fmt.Errorf("keep a scheme: %w", err)
	}
	_, err = temp.Write(data)
	err = errors.Join(err, temp.Chmod(0o400), temp.Sync(), temp.Close())
	if err == nil {
		err = os.Rename(temp.Name(), filepath.Join(folder, sha256+".toml"))
	}
	if err != nil {
		return "", errors.Join(fmt.Errorf("keep a scheme: %w", err), os.Remove(temp.Name()))
	}
	if err := errors.Join(seal.SyncFolder(folder), seal.SyncFolder(c.dir)); err != nil {
		return "", fmt.Errorf("keep a scheme: %w", err)
	}
	return sha256, nil
}

// SchemeBytes returns the bytes of a kept scheme, checked against their hash. The
// error wraps [ErrNoScheme].
func (c *Catalog) SchemeBytes(sha256 string) ([]byte, error) {
	if !digestText.MatchString(sha256) {
		return nil, fmt.Errorf("scheme %.80q: %w: that is no SHA-256", sha256, ErrNoScheme)
	}
	path := filepath.Join(c.dir, schemeFolder, sha256+".toml")
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("%w: %w; bring the file back from a backup", ErrNoScheme, err)
	}
	if got := digestOf(data); got != sha256 {
		return nil, fmt.Errorf("%s: %w: it has sha256 %s; bring the file back from a backup", path, ErrNoScheme, got)
	}
	return data, nil
}

// connectCopy opens a copy of the database in a folder of its own. It serves a disk
// that is read-only or full and on which no -shm was left: SQLite opens nothing without
// one. Nobody writes while the copy is made.
func (c *Catalog) connectCopy(ctx context.Context) (err error) {
	l, err := takeLock(ctx, filepath.Join(c.dir, writingFile), false, busyWait*time.Millisecond)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if l != nil {
		defer func() { err = errors.Join(err, l.release()) }()
	}
	folder, err := os.MkdirTemp("", "evidence-vault-")
	if err != nil {
		return fmt.Errorf("make a folder for a copy of the catalog: %w", err)
	}
	c.spare = folder
	for _, suffix := range []string{"", "-wal"} {
		if err := copyFile(filepath.Join(folder, dbFile+suffix), c.path+suffix); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("copy the catalog from a disk that is read-only or full: %w", err)
		}
	}
	if err := c.db.Close(); err != nil {
		return err
	}
	db, err := openDB(filepath.Join(folder, dbFile), "ro")
	if err != nil {
		return err
	}
	c.db, c.q = db, db
	return sqlError(db.PingContext(ctx))
}

func copyFile(to, from string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return errors.Join(err, in.Close())
	}
	_, err = io.Copy(out, in)
	return errors.Join(err, out.Close(), in.Close())
}
