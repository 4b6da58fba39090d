package catalog

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"

	"path/filepath"
	"runtime"
	"sync"
	"time"

	"evidencevault/catalog/seal"
	"evidencevault/evidence"
)

// Finding is something that is wrong with a vault, as [Catalog.Verify] reports it.
type Finding struct {
	What   string   `json:"what"`   // one of the words below
	Where  string   `json:"where"`  // file, event, or table and id
	Why    string   `json:"why"`    // what was found and what was wanted
	Mend   string   `json:"mend"`   // the way out
	Claims []string `json:"claims"` // short numbers of the claims it touches; empty, never nil
}

// What a finding is about.
const (
	WhatDatabase = "database" // what SQLite itself finds wrong
	WhatLog      = "log"      // events and their tree
	WhatHead     = "head"     // the signed head
	WhatKey      = "key"      // the private key
	WhatRow      = "row"      // a row that the log does not say so
	WhatEvidence = "evidence" // a file in the store, or one that is missing
	WhatScheme   = "scheme"   // the bytes of a scheme
	WhatFolder   = "folder"   // modes of files and folders
)

// VerifyOptions says how much is checked. The zero VerifyOptions checks everything.
type VerifyOptions struct {
	Progress func(done, of int64) // bytes of evidence read, now and then; nil: nobody asks
}

// mostRows bounds how many findings one table gives.
const mostRows = 100

// verifier gathers findings about one state of the vault.
type verifier struct {
	c     *Catalog
	v     *View
	o     VerifyOptions
	found []Finding
	touch *touched
}

// Verify checks database, log, head, key, rows, schemes and evidence, and returns what
// is wrong; nothing when all is well. Rows are made again from the events in an empty
// database and compared. Nothing is changed and nothing is repaired. An error means that it
// could not be checked to the end.
func (c *Catalog) Verify(ctx context.Context, o VerifyOptions) ([]Finding, error) {
	f := &verifier{c: c, o: o, found: []Finding{}}
	l, err := takeLock(ctx, filepath.Join(c.dir, writingFile), false, busyWait*time.Millisecond)
	if err != nil {
		return nil, err
	}
	release := sync.OnceValue(l.release)
	err = c.Read(ctx, func(v *View) error {
		f.v = v
		_, jerr := c.judge(ctx, v.q, false) // fixes the state that is read, while nobody writes
		if err := release(); err != nil {
			return err
		}
		if f.touch, err = touchedBy(ctx, v); err != nil {
			return err
		}
		if err := f.noteLog(WhatHead, seal.HeadFile, jerr); err != nil {
			return err
		}
		return run(
			func() error { return f.database(ctx) },
			func() error { return f.log(ctx) },
			func() error { return f.key(ctx) },
			func() error { return f.rows(ctx) },
			func() error { return f.schemes(ctx) },
			func() error { return f.evidence(ctx) },
			f.modes,
		)
	})
	if err = errors.Join(err, release()); err != nil {
		return nil, err
	}
	return f.found, nil
}

func (f *verifier) add(what, where, why, mend string, claims ...string) {
	if claims == nil {
		claims = []string{}
	}
	f.found = append(f.found, Finding{what, where, why, mend, claims})
}

// noteLog turns a [*LogError] into a finding; any other error is returned.
func (f *verifier) noteLog(what, where string, err error) error {
	var bad *LogError
	if !errors.As(err, &bad) {
		return err
	}
	why := bad.Why
	if bad.From > 0 {
		where = fmt.Sprintf("event %d", bad.From)
		why += fmt.Sprintf("; nothing is proven from event %d on", bad.From)
	}
	f.add(what, where, why, bad.Mend, f.touch.ofEvent(bad.From)...)
	return nil
}

// database asks SQLite for what it finds itself.
func (f *verifier) database(ctx context.Context) error {
	said, err := list(ctx, f.v, scanText, `PRAGMA integrity_check`)
	if err != nil {
		if !errors.Is(err, ErrDamaged) {
			return err
		}
		said = []string{err.Error()}
	}
	for _, s := range said {
		if s != "ok" {
			f.add(WhatDatabase, dbFile, s, "restore a backup")
		}
	}
	broken, err := list(ctx, f.v, func(r *sql.Rows) (string, error) {
		var from, to string
		var id sql.NullInt64
		var key int
		err := r.Scan(&from, &id, &to, &key)
		return fmt.Sprintf("a row of table %s names one of %s that is not there", from, to), err
	}, `PRAGMA foreign_key_check`)
	for _, s := range broken {
		f.add(WhatDatabase, dbFile, s, "restore a backup")
	}
	return err
}

// log makes every leaf and the whole tree again.
func (f *verifier) log(ctx context.Context) error {
	var tree seal.Tree
	var before time.Time
	err := eachBatch(ctx, f.v.q, 1, func(events []Event, stored map[int64]seal.Hash) error {
		for _, e := range events {
			if e.Number != tree.Size()+1 {
				return &LogError{From: tree.Size() + 1, Why: fmt.Sprintf("event %d was removed", tree.Size()+1), Mend: wayBack}
			}
			if e.At.Before(before) {
				f.add(WhatLog, fmt.Sprintf("event %d", e.Number), fmt.Sprintf("its time %s lies before that of the event before it, %s; the clock went back",
					timeText(e.At), timeText(before)), "look at the computer's clock; the order of the log is by its numbers and stands")
			}
			before = e.At
			if err := sameHashes(&tree, e, stored); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil || tree.Size() == 0 {
		return f.noteLog(WhatLog, dbFile, err)
	}
	return f.extra(ctx, tree.Size())
}

// sameHashes adds an event's leaf to the tree and compares all hashes that are stored for it.
func sameHashes(tree *seal.Tree, e Event, stored map[int64]seal.Hash) error {
	n := tree.Size()
	leaf, ok := stored[seal.LeafIndex(n)]
	if !ok {
		return &LogError{From: e.Number, Why: fmt.Sprintf("the leaf of event %d is missing", e.Number), Mend: wayBack}
	}
	if e.Body != nil && e.leaf() != leaf { // the leaf of a blanked event is all that is left of it
		return altered(e)
	}
	hashes, err := tree.Add(leaf)
	if err != nil {
		return err
	}
	for i, h := range hashes {
		if stored[seal.Stored(n)+int64(i)] != h {
			return &LogError{From: e.Number, Why: fmt.Sprintf("the tree's hashes for event %d were altered", e.Number), Mend: wayBack}
		}
	}
	return nil
}

// extra looks for hashes of events that are not there.
func (f *verifier) extra(ctx context.Context, size int64) error {
	var n int64
	if err := f.v.q.QueryRowContext(ctx, `SELECT count(*) FROM tree WHERE id >= ?`, seal.Stored(size)).Scan(&n); err != nil {
		return sqlError(err)
	}
	if n > 0 {
		return f.noteLog(WhatLog, dbFile, &LogError{From: size + 1, Why: "the tree has hashes of events that are not in the log", Mend: wayBack})
	}
	return nil
}

func (f *verifier) key(ctx context.Context) error {
	_, err := f.c.key(ctx, f.v.q)
	switch {
	case err == nil:
	case errors.Is(err, ErrKey):
		f.add(WhatKey, seal.KeyFile, err.Error(), "bring the key back, or renew it; earlier events stay signed by the old one")
	case !errors.Is(err, ErrLog): // that was found before
		return err
	}
	renewed, err := list(ctx, f.v, scanEvent, eventQuery+` WHERE kind = ? ORDER BY number`, (*KeyRenewed)(nil).Kind())
	if err != nil {
		return found(err)
	}
	for _, e := range renewed {
		body, err := e.Parse()
		b, ok := body.(*KeyRenewed)
		if err != nil || !ok {
			continue // found with the rows
		}
		if b.Head != "" && continued(ctx, f.v.q, e.Number, b) {
			continue // a restore, which [Catalog.Restores] tells of
		}
		if err := seal.CheckHandOver(b.Handed, b.Old, b.New); err != nil {
			f.add(WhatKey, fmt.Sprintf("event %d", e.Number), "the key was renewed without the old one, so what came before is not tied to what came after",
				"nothing heals this; keep a backup or packet whose head was signed by the old key")
		}
	}
	return nil
}

// found passes over what the check of the log has found already.
func found(err error) error {
	if errors.Is(err, ErrLog) {
		return nil
	}
	return err
}

// rows makes the rows again and compares.
func (f *verifier) rows(ctx context.Context) error {
	err := rebuild(ctx, f.v.q, func(fresh *sql.Conn) error {
		tables, err := tablesOf(ctx, fresh)
		if err != nil {
			return err
		}
		for _, t := range tables {
			if err := f.table(ctx, t, fresh); err != nil {
				return err
			}
		}
		return nil
	})
	return f.noteLog(WhatRow, dbFile, err)
}

func (f *verifier) table(ctx context.Context, t table, fresh querier) error {
	n := 0
	err := t.difference(ctx, f.v.q, fresh, func(d differs) error {
		if n++; n <= mostRows {
			f.add(WhatRow, f.touch.name(d), d.why, "restore a backup", f.touch.claims(d)...)
		}
		return nil
	})
	if n > mostRows {
		f.add(WhatRow, t.name, fmt.Sprintf("%d more rows differ", n-mostRows), "restore a backup")
	}
	return err
}

// modes looks whether others may read what is private.
func (f *verifier) modes() error {
	if runtime.GOOS == "windows" {
		return nil
	}
	for _, name := range []string{".", storeFolder, schemeFolder, dbFile, dbFile + "-wal", seal.HeadFile, writingFile} {
		info, err := os.Lstat(filepath.Join(f.c.dir, name))
		if errors.Is(err, os.ErrNotExist) {
			continue
		}
		if err != nil {
			return fmt.Errorf("look at the vault's folder: %w", err)
		}
		if info.Mode().Perm()&0o077 != 0 {
			f.add(WhatFolder, name, fmt.Sprintf("others may enter or read it: its mode is %04o", info.Mode().Perm()), "type chmod go= on it")
		}
	}
	return nil
}

// Orphans returns the files of the store that no event says were taken in, as a stop
// between store and log leaves them, or a lost -wal.
func (c *Catalog) Orphans(ctx context.Context) ([]evidence.Entry, error) {
	known, err := list(ctx, &c.View, scanText, `SELECT sha256 FROM evidence`)
	if err != nil {
		return nil, err
	}
	has := make(map[string]bool, len(known))
	for _, k := range known {
		has[k] = true
	}
	var out []evidence.Entry
	err = c.store.Walk(ctx, func(e evidence.Entry) error {
		if e.SHA256 != "" && !has[e.SHA256] {
			out = append(out, e)
		}
		return nil
	})
	return out, err
}
