package catalog

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"time"

	"github.com/google/uuid"

	"evidencevault/catalog/seal"
	"evidencevault/evidence"
)

// Options says how a vault is opened. The zero Options is ready to use.
type Options struct {
	Now      func() time.Time // the clock; nil means time.Now
	ReadOnly bool             // nothing is written, whatever is found
}

// Catalog is an open vault. It may be used by several goroutines. Its queries are
// those of [View].
type Catalog struct {
	View
	o     Options
	path  string // of the database
	store *evidence.Store
	turn  chan struct{} // held by the goroutine that writes

	mu     sync.Mutex // guards what follows
	db     *sql.DB
	broken error  // a [*LogError] that was found
	spare  string // a folder with a copy of the database, removed by Close; "" for none
}

// storeFolder and schemeFolder lie in a vault's folder.
const (
	storeFolder  = "evidence"
	schemeFolder = "schemes"
)

// NewID returns a new UUID, version 7: it begins with the time, so ids sort by age.
func NewID() string { return uuid.Must(uuid.NewV7()).String() }

// Create makes a vault in the folder dir, which is made if it is absent: the folder
// 0700, the key, the evidence store, the first event and the signed head. A folder in
// which an earlier Create was stopped is finished. The error wraps [ErrExists] or [ErrPlace].
func Create(ctx context.Context, dir string, o Options) (*Catalog, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, fmt.Errorf("make a vault in %s: %w", dir, err)
	}
	if err := makePrivate(dir); err != nil {
		return nil, fmt.Errorf("make a vault: %w", err)
	}
	if err := checkPlace(dir); err != nil {
		return nil, err
	}
	if err := makeDB(ctx, dir); err != nil {
		return nil, err
	}
	c, err := open(ctx, dir, o)
	if err != nil {
		return nil, err
	}
	if err := c.found(ctx); err != nil {
		return nil, errors.Join(err, c.Close())
	}
	return c, nil
}

// makePrivate makes a folder that only its owner may enter.
func makePrivate(dir string) error {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	return os.Chmod(dir, 0o700)
}

// makeDB makes the database with its tables.
func makeDB(ctx context.Context, dir string) (err error) {
	l, err := takeLock(ctx, filepath.Join(dir, writingFile), true, busyWait*time.Millisecond)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, l.release()) }()
	path := filepath.Join(dir, dbFile)
	db, err := openDB(path, "rwc")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	return migrate(ctx, db, path, schemaFiles)
}

// found records the first event, with a key that is made unless one is there.
func (c *Catalog) found(ctx context.Context) error {
	if n, err := c.size(ctx, c.q); err != nil || n > 0 {
		return errors.Join(err, fmt.Errorf("%s: %w; choose another folder", c.dir, ErrExists))
	}
	id := NewID()
	if _, err := seal.ReadKey(c.dir); errors.Is(err, seal.ErrNoKey) {
		key, err := seal.NewKey("evidence-vault-" + id)
		if err != nil {
			return err
		}
		if err := seal.WriteKey(c.dir, key); err != nil && !errors.Is(err, seal.ErrKeyExists) {
			return err
		}
	}
	key, err := seal.ReadKey(c.dir)
	if err != nil {
		return fmt.Errorf("%w: %w", ErrKey, err)
	}
	return c.Act(ctx, func(tx *Tx) error {
		if tx.first > 1 {
			return fmt.Errorf("%s: %w; choose another folder", c.dir, ErrExists)
		}
		_, err := tx.Record(ctx, &VaultMade{ID: id, Public: key.Public()})
		return err
	})
}

// Open opens the vault in dir. The error wraps [ErrNoVault], [ErrSchema], [ErrPlace],
// [ErrDamaged] or [ErrBusy].
//
// A log that does not continue its signed head, a key that cannot be used, and a disk
// that is read-only are no errors here: the vault opens for reading only, and
// [Catalog.Trouble] says why. The leaves of the newest 10,000 events are made again and
// compared; [Catalog.Verify] does it for all.
func Open(ctx context.Context, dir string, o Options) (*Catalog, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, fmt.Errorf("open a vault in %s: %w", dir, err)
	}
	path := filepath.Join(dir, dbFile)
	if info, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("%s: %w; vaultctl setup makes one", dir, ErrNoVault)
	} else if err != nil {
		return nil, fmt.Errorf("open a vault: %w", err)
	} else if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s: %w: it is no ordinary file", path, ErrSchema)
	}
	if err := checkPlace(dir); err != nil {
		return nil, err
	}
	list, err := steps(schemaFiles)
	if err != nil {
		return nil, err
	}
	if err := look(ctx, path, len(list)); err != nil {
		return nil, err
	}
	c, err := open(ctx, dir, o)
	if err != nil {
		return nil, err
	}
	if err := c.start(ctx); err != nil {
		return nil, errors.Join(err, c.Close())
	}
	return c, nil
}

// open opens database and store.
func open(ctx context.Context, dir string, o Options) (*Catalog, error) {
	if o.Now == nil {
		o.Now = time.Now
	}
	if f, err := os.OpenFile(filepath.Join(dir, writingFile), os.O_RDWR|os.O_CREATE, 0o600); err != nil {
		o.ReadOnly = true // a disk that is read-only, or another's vault
	} else if err := f.Close(); err != nil {
		return nil, err
	}
	c := &Catalog{o: o, path: filepath.Join(dir, dbFile), turn: make(chan struct{}, 1)}
	c.dir = dir
	if err := c.connect(ctx); err != nil {
		return nil, errors.Join(err, c.Close())
	}
	store, err := evidence.Open(filepath.Join(dir, storeFolder), evidence.Options{})
	if err != nil {
		return nil, errors.Join(err, c.Close())
	}
	c.store = store
	return c, nil
}

func (c *Catalog) connect(ctx context.Context) error {
	mode := "rw"
	if c.o.ReadOnly {
		mode = "ro"
	}
	db, err := openDB(c.path, mode)
	if err != nil {
		return err
	}
	c.db, c.q = db, db
	err = db.PingContext(ctx)
	if code := codeOf(err); c.o.ReadOnly && (code&0xff == codeCantOpen || code == codeShmSize) {
		return c.connectCopy(ctx)
	}
	return sqlError(err)
}

// start brings the schema up to date and compares log and head.
func (c *Catalog) start(ctx context.Context) error {
	if err := c.update(ctx); err != nil {
		return err
	}
	n, err := c.size(ctx, c.q)
	if err != nil {
		return err
	}
	if _, err := seal.ReadHead(c.dir); n == 0 && errors.Is(err, seal.ErrNoHead) {
		return fmt.Errorf("%s: %w: its setup was stopped before the first entry; set it up again", c.dir, ErrNoVault)
	}
	tail, err := c.compare(ctx)
	var bad *LogError
	if errors.As(err, &bad) {
		c.broken = bad
		return nil
	}
	if err != nil || c.o.ReadOnly {
		return err
	}
	if tail > 0 {
		err = c.Act(ctx, func(*Tx) error { return nil }) // takes the tail over
	}
	if err == nil {
		err = c.Sweep(ctx)
	}
	if errors.As(err, &bad) || errors.Is(err, ErrKey) {
		return nil // Trouble tells
	}
	return err
}

// update migrates where it is needed, under the vault's lock.
func (c *Catalog) update(ctx context.Context) (err error) {
	list, err := steps(schemaFiles)
	if err != nil {
		return err
	}
	id, version, err := versionOf(ctx, c.q)
	if err != nil || id == applicationID && version == len(list) {
		return err
	}
	if c.o.ReadOnly {
		return fmt.Errorf("%s: %w: it has schema version %d, want %d; run vaultd --once, which brings it up to date and keeps a copy", c.path, ErrSchema, version, len(list))
	}
	l, err := takeLock(ctx, filepath.Join(c.dir, writingFile), true, busyWait*time.Millisecond)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, l.release()) }()
	return migrate(ctx, c.db, c.path, schemaFiles)
}

// Close gives everything back. A second call does nothing.
func (c *Catalog) Close() error {
	c.mu.Lock()
	defer c.mu.Unlock()
	var err error
	if c.db != nil {
		err = c.db.Close()
	}
	if c.store != nil {
		err = errors.Join(err, c.store.Close())
	}
	if c.spare != "" {
		err = errors.Join(err, os.RemoveAll(c.spare))
	}
	c.db, c.store, c.spare = nil, nil, ""
	return err
}

// Dir returns the vault's folder, absolute.
func (c *Catalog) Dir() string { return c.dir }

// Store returns the vault's evidence store, which is closed with the catalog.
func (c *Catalog) Store() *evidence.Store { return c.store }

// Now returns the time of the vault's clock.
func (c *Catalog) Now() time.Time { return c.o.Now() }

// Trouble says why nothing can be written; nil when it can. It wraps [ErrLog],
// [ErrKey] or [ErrReadOnly]. A key that was brought back counts at once.
func (c *Catalog) Trouble() error {
	c.mu.Lock()
	broken := c.broken
	c.mu.Unlock()
	if broken != nil {
		return broken
	}
	if c.o.ReadOnly {
		return fmt.Errorf("%s: %w", c.dir, ErrReadOnly)
	}
	_, err := c.key(context.Background(), c.q)
	return err
}
