package catalog_test

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"evidencevault/catalog"
	"evidencevault/catalog/catalogtest"
)

// The driver passes over a parameter that it does not know without a word, so the
// settings are read back on four connections held at once.
func TestSettingsAreInForceOnEveryConnection(t *testing.T) {
	c := catalogtest.New(t)
	for i := range 4 {
		conn, err := c.DB().Conn(ctx)
		if err != nil {
			t.Fatal(err)
		}
		defer conn.Close()
		for pragma, want := range map[string]string{"journal_mode": "wal", "synchronous": "2", "busy_timeout": "10000",
			"foreign_keys": "1", "trusted_schema": "0", "cell_size_check": "1"} {
			var got string
			if err := conn.QueryRowContext(ctx, "PRAGMA "+pragma).Scan(&got); err != nil || got != want {
				t.Errorf("connection %d: %s is %q, want %q (%v)", i, pragma, got, want, err)
			}
		}
		if _, err := conn.ExecContext(ctx, "PRAGMA writable_schema=ON"); err != nil {
			t.Fatal(err)
		}
		var writable int
		if err := conn.QueryRowContext(ctx, "PRAGMA writable_schema").Scan(&writable); err != nil || writable != 0 {
			t.Errorf("connection %d: writable_schema %d, want 0 (%v)", i, writable, err)
		}
		if _, err := conn.ExecContext(ctx, `SELECT "nope"`); err == nil {
			t.Errorf("connection %d: a name in double quotes passes for a text", i)
		}
		if _, err := conn.ExecContext(ctx, `INSERT INTO paper_row (paper, row, state) VALUES ('nobody', 1, 'confirmed')`); err == nil {
			t.Errorf("connection %d: a broken foreign key was let in", i)
		}
	}
}

func TestSecondTransactionWaitsAtItsBegin(t *testing.T) {
	c := catalogtest.New(t)
	first, err := c.DB().BeginTx(ctx, nil)
	if err != nil {
		t.Fatal(err)
	}
	short, cancel := context.WithTimeout(ctx, 50*time.Millisecond)
	defer cancel()
	if second, err := c.DB().BeginTx(short, nil); err == nil {
		t.Error("two write transactions at once", second.Rollback())
	}
	if err := first.Rollback(); err != nil {
		t.Fatal(err)
	}
	reader, err := c.DB().BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	writer, err := c.DB().BeginTx(ctx, nil)
	if err != nil {
		t.Errorf("a reader holds off a writer: %v", err)
	} else if err := writer.Rollback(); err != nil {
		t.Error(err)
	}
	if err := reader.Rollback(); err != nil {
		t.Fatal(err)
	}
}

// sqlite3 runs the sqlite3 program on a vault's database.
func sqlite3(t *testing.T, c *catalog.Catalog, text string) string {
	t.Helper()
	out, err := exec.Command("sqlite3", filepath.Join(c.Dir(), "catalog.db"), text).CombinedOutput()
	if err != nil {
		t.Fatalf("sqlite3 %q: %v: %s", text, err, out)
	}
	return strings.TrimSpace(string(out))
}

func TestTheSqlite3ProgramReadsTheCatalog(t *testing.T) {
	c, _, _ := full(t)
	for _, test := range []struct{ why, query, want string }{
		{"SQLite's own check", "PRAGMA integrity_check", "ok"},
		{"nothing hangs in the air", "PRAGMA foreign_key_check", ""},
		{"marked as ours", "PRAGMA application_id", "1165383284"},
		{"every table is strict", "SELECT name FROM pragma_table_list WHERE schema='main' AND NOT strict AND name NOT LIKE 'sqlite%'", ""},
		{"the word of the design", "SELECT 'P'||number, state FROM paper ORDER BY number", "P1|confirmed\nP2|unread"},
		{"days and minutes as text", "SELECT field, value FROM activity_field WHERE field IN ('duration_minutes','start_date') ORDER BY field",
			"duration_minutes|720\nstart_date|2030-05-06"},
		{"box in hundredths of a point, from the reading", "SELECT page, box, quote FROM proof WHERE field='duration_minutes'", "1|[7200,19000,30000,20200]|“720”"},
		{"names byte for byte", "SELECT typeof(name), readable FROM evidence_name ORDER BY event LIMIT 1", "blob|splices.txt"},
		{"gapless", "SELECT count(*)=max(number) FROM event", "1"},
	} {
		if got := sqlite3(t, c, test.query); got != test.want {
			t.Errorf("%s (%s): got\n%s\nwant\n%s", test.query, test.why, got, test.want)
		}
	}
}

func TestForeignDatabasesAreLeftAlone(t *testing.T) {
	tests := []struct{ name, why, sql, said string }{
		{"later schema", "an older program would harm it", "PRAGMA user_version=99;", "schema version 99, this program knows up to " + strconv.Itoa(len(schemas(t)))},
		{"another program's", "it is not ours", "PRAGMA application_id=7;", "marked 0x7"},
		{"no version", "nobody knows what it holds", "PRAGMA user_version=0;", "schema version 0"},
	}
	for _, test := range tests {
		c := catalogtest.New(t)
		if err := c.Close(); err != nil {
			t.Fatal(err)
		}
		sqlite3(t, c, test.sql)
		refused(t, test.name+" ("+test.why+")", c.Dir(), test.said)
	}
	for name, text := range map[string]string{"empty": "", "text": "this is no database at all, " + strings.Repeat("only text. ", 200)} {
		c := catalogtest.New(t)
		if err := c.Close(); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(c.Dir(), "catalog.db"), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		refused(t, name, c.Dir(), "not changed")
	}
}

// refused opens a vault and wants ErrSchema, one line, and no changed or new file.
func refused(t *testing.T, name, dir, said string) {
	t.Helper()
	before := snapshot(t, dir)
	c, err := catalog.Open(ctx, dir, catalogtest.Options())
	if err == nil {
		t.Errorf("%s: opened %v", name, c.Close())
	} else if !errors.Is(err, catalog.ErrSchema) || !strings.Contains(err.Error(), said) || strings.Contains(err.Error(), "\n") {
		t.Errorf("%s: %v, want ErrSchema in one line that says %q", name, err, said)
	}
	if after := snapshot(t, dir); after != before {
		t.Errorf("%s: the folder changed\nbefore %s\nafter  %s", name, before, after)
	}
}

// snapshot names every file of a vault's folder with its size, and the database's bytes.
func snapshot(t *testing.T, dir string) string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for _, e := range entries {
		info, err := e.Info()
		if err != nil {
			t.Fatal(err)
		}
		b.WriteString(e.Name() + " ")
		if !e.IsDir() {
			b.WriteString(info.ModTime().String() + " ")
		}
	}
	return b.String() + dbSum(t, dir)
}

// dbSum is what sha256sum prints for the database, which is closed.
func dbSum(t *testing.T, dir string) string {
	t.Helper()
	out, err := exec.Command("sha256sum", filepath.Join(dir, "catalog.db")).Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// schemas returns the files of the present schema.
func schemas(t *testing.T) fstest.MapFS {
	t.Helper()
	names, err := filepath.Glob("schema/*.sql")
	if err != nil || len(names) == 0 {
		t.Fatalf("%d schema files, %v", len(names), err)
	}
	files := fstest.MapFS{}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		files[filepath.ToSlash(name)] = &fstest.MapFile{Data: data}
	}
	return files
}

func TestMigrationCopiesFirstAndIsAllOrNothing(t *testing.T) {
	c, _, _ := full(t)
	before := sqlite3(t, c, "SELECT count(*) FROM event")
	files := schemas(t)
	now, next := len(files), len(files)+1
	bad := fmt.Sprintf("schema/%04d_bad.sql", next)
	files[bad] = &fstest.MapFile{Data: []byte("CREATE TABLE more (a INTEGER) STRICT; CREATE TABLE more (a INTEGER) STRICT;")}
	if err := c.MigrateWith(ctx, files); err == nil {
		t.Error("a migration that fails said nothing")
	}
	if got := sqlite3(t, c, "PRAGMA user_version; SELECT count(*) FROM sqlite_schema WHERE name='more'"); got != fmt.Sprintf("%d\n0", now) {
		t.Errorf("after a failed migration: %s, want version %d and no table", got, now)
	}
	files[bad].Data = []byte("CREATE TABLE more (a INTEGER) STRICT;")
	if err := c.MigrateWith(ctx, files); err != nil {
		t.Fatal(err)
	}
	if got := sqlite3(t, c, "PRAGMA user_version; SELECT count(*) FROM sqlite_schema WHERE name='more'"); got != fmt.Sprintf("%d\n1", next) {
		t.Errorf("after the migration: %s, want version %d and a table", got, next)
	}
	copied := filepath.Join(c.Dir(), fmt.Sprintf("catalog-before-schema-%d.db", next))
	out, err := exec.Command("sqlite3", copied, "PRAGMA user_version; SELECT count(*) FROM event").Output()
	if err != nil || strings.TrimSpace(string(out)) != fmt.Sprintf("%d\n%s", now, before) {
		t.Errorf("the copy: %s, %v, want version %d and %s events", out, err, now, before)
	}
	if info, err := os.Stat(copied); err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
		t.Errorf("the copy's mode: %v, %v", info.Mode(), err)
	}
}

func TestOrdinaryPlacesAreAllowed(t *testing.T) {
	if name, err := catalog.FileSystem(t.TempDir()); err != nil || name != "" {
		t.Errorf("a temporary folder: %q, %v", name, err)
	}
}

func TestFilesArePrivate(t *testing.T) {
	if runtime.GOOS == "windows" {
		return // access lists stand for modes there
	}
	c, _, _ := full(t)
	err := filepath.WalkDir(c.Dir(), func(path string, d os.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := d.Info()
		if err == nil && info.Mode().Perm()&0o077 != 0 {
			t.Errorf("%s: mode %04o, want nothing for others", path, info.Mode().Perm())
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}
