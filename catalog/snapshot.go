package catalog

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"evidencevault/catalog/seal"
)

// Snapshot says which state of a vault a copy of its database holds.
type Snapshot struct {
	Head   []byte // the signed head, which the copy's log agrees with
	Size   int64  // number of the last event
	Schema int    // version of the database's schema

	Closings []Closing // that the copy knows
}

// Snapshot copies the database to the file to, which must not be there, and returns the
// head that belongs to it. Nobody writes meanwhile, so log, rows and head are of one
// moment; the evidence that they name is in the store by then. The error wraps [ErrLog]
// when the log does not continue its head: such a vault is not copied as a good one.
func (c *Catalog) Snapshot(ctx context.Context, to string) (out Snapshot, err error) {
	for range 3 {
		var tail int64
		if out, tail, err = c.snapshot(ctx, to); err != nil || tail == 0 {
			return out, err
		}
		// A program was stopped between commit and signing; the next act takes that over.
		if err := c.Act(ctx, func(*Tx) error { return nil }); err != nil {
			return Snapshot{}, err
		}
	}
	return Snapshot{}, fmt.Errorf("%s: %w: programs are stopped before they sign, again and again; try again", c.dir, ErrBusy)
}

func (c *Catalog) snapshot(ctx context.Context, to string) (out Snapshot, tail int64, err error) {
	l, err := takeLock(ctx, filepath.Join(c.dir, writingFile), false, busyWait*time.Millisecond)
	if err != nil {
		return out, 0, err
	}
	defer func() { err = errors.Join(err, l.release()) }()
	found, err := c.judge(ctx, c.q, true)
	if err != nil || found.tail > 0 {
		return out, found.tail, err
	}
	if out.Head, err = seal.ReadHead(c.dir); err != nil {
		return out, 0, err
	}
	if _, out.Schema, err = versionOf(ctx, c.q); err != nil {
		return out, 0, err
	}
	out.Size = found.size
	if out.Closings, err = c.Closings(ctx, ""); err != nil {
		return out, 0, err
	}
	if _, err := c.db.ExecContext(ctx, `VACUUM INTO ?`, to); err != nil {
		return out, 0, fmt.Errorf("copy the catalog to %s: %w", to, sqlError(err))
	}
	return out, 0, os.Chmod(to, 0o600)
}

// DatabaseFile is the name of the database in a vault. While a vault is in use nothing
// but [Open] opens it.
const DatabaseFile = dbFile

// SchemeFolder and StoreFolder are the names of the folders in a vault with the schemes
// and with the evidence.
const (
	SchemeFolder = schemeFolder
	StoreFolder  = storeFolder
)

// ArchiveFolder is the folder of a vault in which the archives of closed cycles lie.
const ArchiveFolder = "cycles"

// SchemaVersion returns the newest version of the schema that this program knows.
func SchemaVersion() (int, error) {
	list, err := steps(schemaFiles)
	return len(list), err
}
