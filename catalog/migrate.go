package catalog

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// applicationID marks the database as a vault's catalog: "EvVt".
const applicationID = 0x45765674

//go:embed schema/*.sql
var schemaFiles embed.FS

// step is one version of the schema.
type step struct {
	version int
	name    string // of its file
	sql     string
}

// steps reads the numbered files of a folder schema, which must follow each other from 1.
func steps(files fs.FS) ([]step, error) {
	names, err := fs.Glob(files, "schema/*.sql")
	if err != nil {
		return nil, err
	}
	list := make([]step, len(names))
	for i, name := range names {
		number, _, _ := strings.Cut(filepath.Base(name), "_")
		version, err := strconv.Atoi(number)
		if err != nil || version != i+1 {
			return nil, fmt.Errorf("schema file %s: want number %d in its name", name, i+1)
		}
		text, err := fs.ReadFile(files, name)
		if err != nil {
			return nil, err
		}
		list[i] = step{version, name, string(text)}
	}
	return list, nil
}

// versionOf reads the mark and the schema version of an open database.
func versionOf(ctx context.Context, q querier) (id, version int, err error) {
	if err := q.QueryRowContext(ctx, `PRAGMA application_id`).Scan(&id); err != nil {
		return 0, 0, sqlError(err)
	}
	err = q.QueryRowContext(ctx, `PRAGMA user_version`).Scan(&version)
	return id, version, sqlError(err)
}

// refuse returns an error that wraps [ErrSchema] for a database that is not ours or
// of a later version than this program knows.
func refuse(path string, id, version, known int) error {
	switch {
	case id != applicationID:
		return fmt.Errorf("%s: %w: it is marked %#x, a vault's catalog %#x; name another vault, or restore a backup; it was not changed", path, ErrSchema, id, applicationID)
	case version > known:
		return fmt.Errorf("%s: %w: it has schema version %d, this program knows up to %d; use the newer program, or restore a backup made by this one; it was not changed",
			path, ErrSchema, version, known)
	case version < 1:
		return fmt.Errorf("%s: %w: it has schema version %d, want 1 to %d; it was not changed", path, ErrSchema, version, known)
	}
	return nil
}

// look reads the header of the database file before it is opened in earnest, so that
// one that is not ours is left without a changed byte or a new -wal beside it.
//
// Here the -wal is not read. So where there is one, the file alone may be half of what
// a stopped checkpoint was writing, or of a database made just now, and look damaged or
// empty: it is let pass unless it says that it is another's, and judged once it is open.
func look(ctx context.Context, path string, known int) (err error) {
	db, err := sql.Open("sqlite", fileURI(path)+"?mode=ro&immutable=1")
	if err != nil {
		return fmt.Errorf("open %s: %w", path, err)
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	id, version, err := versionOf(ctx, db)
	if err != nil && codeOf(err)&0xff == codeNotADB {
		return fmt.Errorf("%s: %w: it is no database; name another vault, or restore a backup; it was not changed", path, ErrSchema)
	}
	if wal, walErr := os.Lstat(path + "-wal"); walErr == nil && wal.Size() > 0 && (err != nil || id == 0 && version == 0) {
		return nil
	}
	if err != nil {
		return err
	}
	return refuse(path, id, version, known)
}

// migrate brings an open database to the newest version of files, each step in a
// transaction of its own that also records it. Before the first step a copy is made
// beside the database, unless it is new. The caller holds the vault's lock.
func migrate(ctx context.Context, db *sql.DB, path string, files fs.FS) error {
	list, err := steps(files)
	if err != nil {
		return err
	}
	id, version, err := versionOf(ctx, db)
	if err != nil {
		return err
	}
	fresh := id == 0 && version == 0
	if !fresh {
		if err := refuse(path, id, version, len(list)); err != nil || version == len(list) {
			return err
		}
		if err := copyBefore(ctx, db, path, version); err != nil {
			return err
		}
	}
	for _, s := range list[version:] {
		if err := s.run(ctx, db); err != nil {
			return fmt.Errorf("%s: bring it from schema version %d to %d: %w", path, s.version-1, s.version, err)
		}
	}
	return nil
}

func (s step) run(ctx context.Context, db *sql.DB) (err error) {
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return sqlError(err)
	}
	for _, text := range []string{
		s.sql,
		fmt.Sprintf(`PRAGMA application_id = %d`, applicationID),
		fmt.Sprintf(`PRAGMA user_version = %d`, s.version),
	} {
		if _, err := tx.ExecContext(ctx, text); err != nil {
			return errors.Join(fmt.Errorf("%s: %w", s.name, sqlError(err)), tx.Rollback())
		}
	}
	return sqlError(tx.Commit())
}

// copyBefore makes a copy of the database as it was before a migration. A copy that an
// earlier, stopped migration left is made anew.
func copyBefore(ctx context.Context, db *sql.DB, path string, version int) error {
	to := filepath.Join(filepath.Dir(path), fmt.Sprintf("catalog-before-schema-%d.db", version+1))
	if err := os.Remove(to); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("copy the catalog before a migration: %w", err)
	}
	if _, err := db.ExecContext(ctx, `VACUUM INTO ?`, to); err != nil {
		return fmt.Errorf("copy the catalog to %s before a migration: %w", to, sqlError(err))
	}
	return os.Chmod(to, 0o600)
}
