package catalog

import (
	"context"
	"time"

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
	dir   string
	o     Options
	store *evidence.Store
}

// Create makes a vault in the folder dir, which is made if it is absent: the folder
// 0700, the key, the evidence store, the first event and the signed head. A folder in
// which an earlier Create was stopped is finished. The error wraps [ErrExists] or [ErrPlace].
func Create(ctx context.Context, dir string, o Options) (*Catalog, error) { panic("soon") }

// Open opens the vault in dir. The error wraps [ErrNoVault], [ErrSchema], [ErrPlace]
// or [ErrBusy].
//
// A log that does not continue its signed head, and a key that cannot be used, are no
// errors here: the vault opens for reading only, and [Catalog.Trouble] says why.
func Open(ctx context.Context, dir string, o Options) (*Catalog, error) { panic("soon") }

// Close gives everything back. A second call does nothing.
func (c *Catalog) Close() error { panic("soon") }

// Dir returns the vault's folder, absolute.
func (c *Catalog) Dir() string { return c.dir }

// Store returns the vault's evidence store.
func (c *Catalog) Store() *evidence.Store { return c.store }

// Now returns the time of the vault's clock.
func (c *Catalog) Now() time.Time { panic("soon") }

// Trouble says why nothing can be written; nil when it can. It wraps [ErrLog],
// [ErrKey] or [ErrReadOnly].
func (c *Catalog) Trouble() error { panic("soon") }

// Act runs fn in one immediate transaction and signs the new head after the commit.
// What fn looked up through its Tx is still so when its events are written. If fn
// returns an error, that error is returned and nothing is changed; if fn records
// nothing, nothing is written. It waits up to 10 s for another writer; then the
// error wraps [ErrBusy].
func (c *Catalog) Act(ctx context.Context, fn func(*Tx) error) error { panic("soon") }

// Read runs fn on one state of the vault: what others write meanwhile is not seen.
func (c *Catalog) Read(ctx context.Context, fn func(*View) error) error { panic("soon") }

// Tx is one transaction of [Catalog.Act]. It has the queries of [View], which see
// what was recorded so far.
type Tx struct {
	View
}

// Record appends an event, with its leaf and its rows, and returns its number. The
// error wraps [ErrBody], or [ErrUnknown] if the body names something that is not there.
func (tx *Tx) Record(ctx context.Context, body Body) (int64, error) { panic("soon") }

// Next returns the next short number of a letter. A number is never returned twice;
// it counts as used once it is recorded.
func (tx *Tx) Next(ctx context.Context, l Letter) (int, error) { panic("soon") }

// Act returns the number of this act: that of its first event.
func (tx *Tx) Act() int64 { panic("soon") }

// Now returns the time that this transaction's events bear.
func (tx *Tx) Now() time.Time { panic("soon") }

// NewID returns a new UUID, version 7.
func NewID() string { panic("soon") }

// KeepScheme keeps a scheme's bytes in schemes/ and returns their SHA-256. The same
// bytes again are harmless. Record [SchemeKept] afterwards.
func (c *Catalog) KeepScheme(data []byte) (sha256 string, err error) { panic("soon") }

// SchemeBytes returns the bytes of a kept scheme, checked against their hash. The
// error wraps [ErrNoScheme].
func (c *Catalog) SchemeBytes(sha256 string) ([]byte, error) { panic("soon") }

// RenewKey makes a new key, hands over to it in an event, and signs the head with
// both. A key that is missing or not usable leaves a break, which stays in the log.
func (c *Catalog) RenewKey(ctx context.Context) error { panic("soon") }

// VerifyOptions says how much is checked. The zero VerifyOptions checks everything.
type VerifyOptions struct {
	Progress func(done, of int64) // called now and then while evidence is read; nil: nobody asks
}

// Verify checks database, log, head, key, rows, schemes and evidence, and returns
// what is wrong; nothing when all is well. Rows are made again from the events in an
// empty database and compared. An error means that it could not be checked to the end.
func (c *Catalog) Verify(ctx context.Context, o VerifyOptions) ([]Finding, error) { panic("soon") }

// LockDaemon takes the lock that only one daemon has for a vault. It is the kernel's,
// and ends with the process. The error is a [*BusyError] that names the holder.
func LockDaemon(dir string) (release func() error, err error) { panic("soon") }
