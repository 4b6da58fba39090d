package catalog

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"errors"
	"fmt"
	"io"
	"net/url"
	"path/filepath"
	"strings"

	"modernc.org/sqlite"

	"evidencevault/evidence"
)

// dbFile is the database's name in a vault. Nothing but the driver opens it, its -wal
// or its -shm: closing one of them behind SQLite's back would drop its locks.
const dbFile = "catalog.db"

// busyWait is how long one writer waits for another, in milliseconds.
const busyWait = 10_000

// settings are read back on every connection, since the driver passes over a parameter
// that it does not know without a word.
var settings = []struct {
	pragma string
	want   int64
}{
	{"synchronous", 2}, // FULL
	{"busy_timeout", busyWait},
	{"foreign_keys", 1},
	{"trusted_schema", 0},
	{"cell_size_check", 1},
}

// dsn names the database file with every setting that a connection must have. mode is
// rw, rwc or ro.
func dsn(path, mode string) string {
	q := url.Values{
		"mode":          {mode},
		"_txlock":       {"immediate"},
		"_busy_timeout": {fmt.Sprint(busyWait)},
		"_synchronous":  {"FULL"},
		"_foreign_keys": {"1"},
		"_dqs":          {"0"},
		"_defensive":    {"1"},
		"_pragma":       {"trusted_schema(0)", "cell_size_check(1)"},
		"_error_rc":     {"1"},
	}
	if mode == "rwc" {
		// The new file gets the mode of the lock file, 0600.
		q.Set("modeof", filepath.Join(filepath.Dir(path), writingFile))
	}
	if mode != "ro" {
		q.Set("_journal_mode", "WAL")
	}
	// A plus sign is no blank in SQLite's URIs, https://www.sqlite.org/uri.html
	return fileURI(path) + "?" + strings.ReplaceAll(q.Encode(), "+", "%20")
}

// fileURI writes a path as SQLite wants it: a drive letter of Windows comes after a slash.
func fileURI(path string) string {
	path = filepath.ToSlash(path)
	if !strings.HasPrefix(path, "/") {
		path = "/" + path
	}
	return "file:" + (&url.URL{Path: path}).EscapedPath()
}

// openDB opens the database with a pool in which every connection is checked.
func openDB(path, mode string) (*sql.DB, error) {
	base, err := sqlite.NewConnector(dsn(path, mode))
	if err != nil {
		return nil, fmt.Errorf("open %s: %w", path, err)
	}
	db := sql.OpenDB(checked{base, path, mode != "ro"})
	db.SetMaxOpenConns(mostConns)
	db.SetMaxIdleConns(poolSize)
	return db, nil
}

// poolSize connections are kept open. There may be more at once, so that a reader who
// asks a second question while its first transaction is open does not wait for itself.
const (
	poolSize  = 4
	mostConns = 32
)

// checked opens connections and reads their settings back.
type checked struct {
	driver.Connector
	path string
	wal  bool // it must have the journal mode WAL
}

func (c checked) Connect(ctx context.Context) (driver.Conn, error) {
	conn, err := c.Connector.Connect(ctx)
	if err != nil {
		return nil, sqlError(err)
	}
	if err := c.check(ctx, conn); err != nil {
		return nil, errors.Join(fmt.Errorf("%s: %w", c.path, err), conn.Close())
	}
	return conn, nil
}

func (c checked) check(ctx context.Context, conn driver.Conn) error {
	for _, s := range settings {
		got, err := pragma(ctx, conn, s.pragma)
		if err != nil {
			return err
		}
		if got != s.want {
			return fmt.Errorf("setting %s is %v, want %d: this build's SQLite driver does not fit", s.pragma, got, s.want)
		}
	}
	if !c.wal {
		return nil
	}
	mode, err := pragma(ctx, conn, "journal_mode")
	if err == nil && mode != "wal" {
		err = fmt.Errorf("journal mode is %v, want wal", mode)
	}
	return err
}

// pragma returns the one value that a pragma answers.
func pragma(ctx context.Context, conn driver.Conn, name string) (any, error) {
	q, ok := conn.(driver.QueryerContext)
	if !ok {
		return nil, fmt.Errorf("the SQLite driver's connection of type %T answers no query", conn)
	}
	rows, err := q.QueryContext(ctx, "PRAGMA "+name, nil)
	if err != nil {
		return nil, sqlError(err)
	}
	dest := make([]driver.Value, len(rows.Columns()))
	err = rows.Next(dest)
	if errors.Is(err, io.EOF) || err == nil && len(dest) != 1 {
		err = fmt.Errorf("pragma %s answers nothing", name)
	}
	if err = errors.Join(err, rows.Close()); err != nil {
		return nil, sqlError(err)
	}
	return dest[0], nil
}

// Result codes of SQLite, https://www.sqlite.org/rescode.html
const (
	codeBusy       = 5
	codeReadOnly   = 8
	codeIO         = 10
	codeCorrupt    = 11
	codeCantOpen   = 14
	codeFull       = 13
	codeConstraint = 19
	codeNotADB     = 26
	codeForeignKey = 787
	codeShmSize    = 4874 // no room for -shm
)

// codeOf returns the extended result code of an error of SQLite; 0 for any other.
func codeOf(err error) int {
	var e *sqlite.Error
	if errors.As(err, &e) {
		return e.Code()
	}
	return 0
}

// sqlError puts what SQLite says into the words of this package. It keeps err in the
// chain, but for a lock: that another program holds the vault is all there is to say.
func sqlError(err error) error {
	code := codeOf(err)
	switch {
	case code == codeForeignKey:
		return fmt.Errorf("a thing that it names: %w: %w", ErrUnknown, err)
	case code&0xff == codeConstraint:
		return fmt.Errorf("%w: %w", ErrBody, err)
	case code&0xff == codeBusy:
		return fmt.Errorf("%s: %w; try again", dbFile, ErrBusy)
	case code&0xff == codeFull || code == codeShmSize:
		return fmt.Errorf("%s: %w; make room, nothing was changed: %w", dbFile, evidence.ErrDiskFull, err)
	case code&0xff == codeReadOnly:
		return fmt.Errorf("%s: %w: %w", dbFile, ErrReadOnly, err)
	case code&0xff == codeCorrupt || code&0xff == codeNotADB:
		return fmt.Errorf("%s: %w: %w", dbFile, ErrDamaged, err)
	}
	return err
}
