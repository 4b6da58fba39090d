package catalog

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"path/filepath"
	"time"

	"evidencevault/catalog/seal"
	"evidencevault/evidence"
	"evidencevault/internal/stop"
)

// Act runs fn in one immediate transaction and signs the new head after the commit.
// What fn looked up through its [Tx] is still so when its events are written. If fn
// returns an error, that error is returned and nothing is changed; if fn records
// nothing, nothing is written. It waits up to 10 s for another writer; then the error
// wraps [ErrBusy]. It wraps [ErrLog], [ErrKey] or [ErrReadOnly] when nothing may be
// written.
//
// fn must ask through its Tx and must not call Act again, which would wait for itself.
//
// When the head could not be signed the error says so: the act is in the log, and the
// next one, or the next start, takes it over.
func (c *Catalog) Act(ctx context.Context, fn func(*Tx) error) error { return c.act(ctx, false, fn) }

// act is [Catalog.Act]; keyless lets it go on without the key in force, when fn brings
// another.
func (c *Catalog) act(ctx context.Context, keyless bool, fn func(*Tx) error) (err error) {
	if c.o.ReadOnly {
		return fmt.Errorf("%s: %w", c.dir, ErrReadOnly)
	}
	select {
	case c.turn <- struct{}{}:
	case <-ctx.Done():
		return ctx.Err()
	}
	defer func() { <-c.turn }()
	if c.broken != nil {
		return c.broken
	}
	l, err := takeLock(ctx, filepath.Join(c.dir, writingFile), true, busyWait*time.Millisecond)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, l.release()) }()
	if err := l.sign(); err != nil {
		return fmt.Errorf("write who holds the vault: %w", err)
	}
	for again := true; again; {
		if again, err = c.attempt(ctx, keyless, fn); err != nil {
			return c.noteError(err)
		}
	}
	return nil
}

// noteError remembers a broken log, and drops the connections after an error of the
// disk: what they hold may not be what the disk holds.
func (c *Catalog) noteError(err error) error {
	c.mu.Lock()
	defer c.mu.Unlock()
	var bad *LogError
	if errors.As(err, &bad) {
		c.broken = bad
	}
	if codeOf(err)&0xff == codeIO && c.db != nil {
		c.db.SetMaxIdleConns(0)
		c.db.SetMaxIdleConns(poolSize)
	}
	return err
}

// attempt runs one transaction. When it found one that was not signed, it took that
// over instead of running fn, and again is true.
func (c *Catalog) attempt(ctx context.Context, keyless bool, fn func(*Tx) error) (again bool, err error) {
	sqlTx, err := c.db.BeginTx(ctx, nil)
	if err != nil {
		return false, sqlError(err)
	}
	committed := false
	defer func() {
		if !committed {
			if rerr := sqlTx.Rollback(); rerr != nil && !errors.Is(rerr, sql.ErrTxDone) {
				err = errors.Join(err, sqlError(rerr))
			}
		}
	}()
	found, err := c.judge(ctx, sqlTx, false)
	if err != nil {
		return false, err
	}
	key, err := c.key(ctx, sqlTx)
	if err != nil && found.size > 0 && !(keyless && errors.Is(err, ErrKey)) {
		return false, err
	}
	tx := &Tx{View: View{sqlTx, c.dir}, first: found.size + 1, size: found.size, at: c.o.Now(), handed: map[Letter]int{}, store: c.store}
	if again = found.tail > 0; again {
		fn = func(tx *Tx) error {
			_, err := tx.Record(ctx, &HeadTakenOver{From: found.size - found.tail + 1, To: found.size})
			return err
		}
	}
	if err := stop.At(stop.Begun); err != nil {
		return false, err
	}
	if err = fn(tx); err == nil {
		err = tx.failed
	}
	if err != nil || tx.size == found.size {
		return false, err
	}
	root, err := seal.Root(tx.size, treeReader(ctx, sqlTx))
	if err != nil {
		return false, err
	}
	if err := stop.At(stop.Inserted); err != nil {
		return false, err
	}
	committed = true // or in doubt: the next act looks
	if err := sqlTx.Commit(); err != nil {
		return false, fmt.Errorf("commit: %w", sqlError(err))
	}
	return again, c.sign(tx.size, root, key, tx.keys)
}

// sign puts the signed head in place after a commit.
func (c *Catalog) sign(size int64, root seal.Hash, key *seal.Key, more []*seal.Key) error {
	if err := stop.At(stop.Committed); err != nil {
		return err
	}
	if key != nil {
		more = append(more, key)
	} else if len(more) == 0 {
		read, err := seal.ReadKey(c.dir) // of the first event
		if err != nil {
			return err
		}
		more = []*seal.Key{read}
	}
	signed, err := seal.Sign(seal.Head{Origin: more[0].Name(), Size: size, Hash: root}, more...)
	if err == nil {
		err = seal.WriteHead(c.dir, signed)
	}
	if err != nil {
		return fmt.Errorf("the act is in the log as event %d, but the head could not be signed; it is taken over by the next one: %w", size, err)
	}
	return stop.At(stop.Signed)
}

// Read runs fn on one state of the vault: what others write meanwhile is not seen.
func (c *Catalog) Read(ctx context.Context, fn func(*View) error) (err error) {
	tx, err := c.db.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return sqlError(err)
	}
	defer func() {
		if rerr := tx.Rollback(); rerr != nil && !errors.Is(rerr, sql.ErrTxDone) {
			err = errors.Join(err, sqlError(rerr))
		}
	}()
	return fn(&View{tx, c.dir})
}

// Tx is one transaction of [Catalog.Act]. It has the queries of [View], which see
// what was recorded so far.
type Tx struct {
	View
	first  int64 // number of the act
	size   int64 // of the log, with what was recorded
	at     time.Time
	handed map[Letter]int // the last short number handed out
	store  *evidence.Store
	failed error       // of Record; the transaction cannot be committed
	keys   []*seal.Key // that sign the head besides the one in force at the beginning
}

// Record appends an event, with its leaf and its rows, and returns its number. The
// error wraps [ErrBody], or [ErrUnknown] if the body names something that is not
// there; after an error the act cannot go on.
func (tx *Tx) Record(ctx context.Context, body Body) (int64, error) {
	if tx.failed != nil {
		return 0, tx.failed
	}
	n, err := tx.record(ctx, body)
	if err != nil {
		tx.failed = err
	}
	return n, err
}

func (tx *Tx) record(ctx context.Context, body Body) (int64, error) {
	if d, ok := body.(*DropSet); ok {
		within := d.relative(tx.dir)
		body = &within
	}
	text, err := canonical(body)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", body.Kind(), err)
	}
	same, err := parseBody(body.Kind(), text) // rows are made of what the log holds
	if err != nil {
		return 0, err
	}
	e := Event{Number: tx.size + 1, Act: tx.first, At: tx.at, Kind: body.Kind(), Body: text}
	at := timeText(e.At)
	if _, err := tx.q.ExecContext(ctx, `INSERT INTO event (number, act, at, kind, body) VALUES (?, ?, ?, ?, ?)`,
		e.Number, e.Act, at, e.Kind, string(text)); err != nil {
		return 0, sqlError(err)
	}
	hashes, err := seal.Append(tx.size, e.leaf(), treeReader(ctx, tx.q))
	if err != nil {
		return 0, err
	}
	if err := storeHashes(ctx, tx.q, seal.Stored(tx.size), hashes); err != nil {
		return 0, err
	}
	tx.size++
	return e.Number, (&rows{ctx: ctx, tx: tx.q, event: e.Number, at: at}).apply(same)
}

// Next returns the next short number of a letter. A number is never returned twice in
// an act, and once recorded never again.
func (tx *Tx) Next(ctx context.Context, l Letter) (int, error) {
	var last int
	err := tx.q.QueryRowContext(ctx, `SELECT coalesce(max(last), 0) FROM number WHERE letter = ?`, string(l)).Scan(&last)
	if err != nil {
		return 0, sqlError(err)
	}
	n := max(last, tx.handed[l]) + 1
	tx.handed[l] = n
	return n, nil
}

// Number returns the number of this act: that of its first event.
func (tx *Tx) Number() int64 { return tx.first }

// Now returns the time that this act's events bear.
func (tx *Tx) Now() time.Time { return tx.at }

// InStore looks whether the store has an evidence. While an act lasts nothing that the
// vault wants is removed from there. The error wraps [evidence.ErrMissing].
func (tx *Tx) InStore(sha256 string) error {
	_, err := tx.store.Path(sha256)
	return err
}
