package catalog

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"sync"
	"time"

	"evidencevault/catalog/seal"
)

// Logged is an event with the hash of its leaf, which alone is left of a blanked one.
type Logged struct {
	Event
	Leaf seal.Hash
}

// Sealed runs fn on one state of the vault with the signed head that belongs to it.
// Others may write meanwhile; fn does not see it. The error wraps [ErrLog] when the log
// does not continue its head.
func (c *Catalog) Sealed(ctx context.Context, fn func(v *View, head []byte, size int64) error) error {
	l, err := takeLock(ctx, filepath.Join(c.dir, writingFile), false, busyWait*time.Millisecond)
	if err != nil {
		return err
	}
	release := sync.OnceValue(l.release)
	err = c.Read(ctx, func(v *View) error {
		found, err := c.judge(ctx, v.q, true) // fixes the state that is read
		if err != nil {
			return err
		}
		if found.tail > 0 {
			return fmt.Errorf("%s: %w: a program was stopped before it signed; run vaultctl waiting, which takes that over, and try again", c.dir, ErrBusy)
		}
		head, err := seal.ReadHead(c.dir)
		if err = errors.Join(err, release()); err != nil {
			return err
		}
		return fn(v, head, found.size)
	})
	return errors.Join(err, release())
}

// EachLogged calls fn for every event of the log, in its order.
func (v *View) EachLogged(ctx context.Context, fn func(Logged) error) error {
	return eachBatch(ctx, v.q, 1, func(events []Event, stored map[int64]seal.Hash) error {
		for _, e := range events {
			if err := fn(Logged{e, stored[seal.LeafIndex(e.Number-1)]}); err != nil {
				return err
			}
		}
		return nil
	})
}

// EachRow calls fn for every row that is made from the log: its table, and its values
// by column: string, int64, []byte or nil.
func (v *View) EachRow(ctx context.Context, fn func(table string, row map[string]any) error) error {
	tables, err := tablesOf(ctx, v.q)
	if err != nil {
		return err
	}
	for _, t := range tables {
		if err := t.each(ctx, v.q, fn); err != nil {
			return err
		}
	}
	return nil
}

func (t table) each(ctx context.Context, q querier, fn func(string, map[string]any) error) (err error) {
	at, err := openCursor(ctx, q, t)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, at.rows.Close()) }()
	for at.now != nil {
		row := make(map[string]any, len(t.columns))
		for i, column := range t.columns {
			row[column] = at.now[i]
		}
		if err := fn(t.name, row); err != nil {
			return err
		}
		if err := at.next(); err != nil {
			return err
		}
	}
	return nil
}

// Refill makes the database of a vault in the folder dir from the events of a log, which
// next returns one by one and ends with [io.EOF]. The folder must have no database yet.
// Every leaf is made again and compared, and the rows are made from the events; whether
// the log is the one that was signed, [Open] finds when head is in place. The error
// wraps [ErrLog] or [ErrBody].
func Refill(ctx context.Context, dir string, next func() (Logged, error)) (err error) {
	if err := makeDB(ctx, dir); err != nil {
		return err
	}
	path := filepath.Join(dir, dbFile)
	db, err := openDB(path, "rw")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	conn, err := db.Conn(ctx)
	if err != nil {
		return sqlError(err)
	}
	defer func() { err = errors.Join(err, conn.Close()) }()
	if err := refillLog(ctx, conn, next); err != nil {
		return err
	}
	return replay(ctx, conn, conn)
}

// refillLog writes events and tree in one transaction.
func refillLog(ctx context.Context, conn *sql.Conn, next func() (Logged, error)) error {
	tx, err := conn.BeginTx(ctx, nil)
	if err != nil {
		return sqlError(err)
	}
	var tree seal.Tree
	for err == nil {
		var e Logged
		if e, err = next(); err == nil {
			err = addLogged(ctx, tx, &tree, e)
		}
	}
	if !errors.Is(err, io.EOF) {
		return errors.Join(err, tx.Rollback())
	}
	return sqlError(tx.Commit())
}

func addLogged(ctx context.Context, tx *sql.Tx, tree *seal.Tree, e Logged) error {
	n := tree.Size()
	if e.Number != n+1 {
		return &LogError{From: n + 1, Why: fmt.Sprintf("event %d stands where event %d is wanted", e.Number, n+1), Mend: "export the vault again"}
	}
	if e.Body != nil && e.leaf() != e.Leaf {
		return &LogError{From: e.Number, Why: fmt.Sprintf("event %d (%s) was altered", e.Number, e.Kind), Mend: "export the vault again"}
	}
	var body any
	if e.Body != nil {
		body = string(e.Body)
	}
	if _, err := tx.ExecContext(ctx, `INSERT INTO event (number, act, at, kind, body) VALUES (?, ?, ?, ?, ?)`,
		e.Number, e.Act, timeText(e.At), e.Kind, body); err != nil {
		return sqlError(err)
	}
	hashes, err := tree.Add(e.Leaf)
	if err != nil {
		return err
	}
	return storeHashes(ctx, tx, seal.Stored(n), hashes)
}
