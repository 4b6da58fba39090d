package transfer_test

import (
	"archive/tar"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"filippo.io/age"

	"evidencevault/catalog"
	"evidencevault/catalog/catalogtest"
	"evidencevault/transfer"
)

var ctx = context.Background()

// full returns a vault with a certification, a confirmed paper, one that waits, a file of
// what is possible, a file in a drop folder, and an archive's file that is read-only.
func full(t *testing.T) *catalog.Catalog {
	t.Helper()
	c := catalogtest.New(t)
	certification, cycle := catalogtest.Certification(t, c, "# a scheme\n")
	_, paper := catalogtest.Take(t, c, "splices.txt", "Rosalind Achterberg was there for 12 hours")
	catalogtest.Confirm(t, c, paper, certification, cycle, "course")
	catalogtest.Take(t, c, "odd \xff name.txt", strings.Repeat("another one ", 5000))
	for name, text := range map[string]string{"possible.toml": "# nothing\n", "drop/waits.txt": "later", "cycles/one/index.html": "<p>"} {
		at := filepath.Join(c.Dir(), filepath.FromSlash(name))
		if err := errors.Join(os.MkdirAll(filepath.Dir(at), 0o700), os.WriteFile(at, []byte(text), 0o400)); err != nil {
			t.Fatal(err)
		}
	}
	return c
}

// rows returns every row that is made from the log, as text.
func rows(t *testing.T, c *catalog.Catalog) string {
	t.Helper()
	var out strings.Builder
	if err := c.EachRow(ctx, func(table string, row map[string]any) error {
		if table != "vault" { // its key is new
			fmt.Fprintln(&out, table, row)
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func open(t *testing.T, dir string) *catalog.Catalog {
	t.Helper()
	c, err := catalog.Open(ctx, dir, catalogtest.Options())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := c.Close(); err != nil {
			t.Error(err)
		}
	})
	return c
}

// noLeft fails if anything half-made lies in a folder.
func noLeft(t *testing.T, dir string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if strings.Contains(e.Name(), "making") {
			t.Errorf("%s was left", e.Name())
		}
	}
}

// equal fails unless a vault that was brought in has the rows, schemes, files and log of
// the one it came from, a key of its own, and nothing that verify finds.
func equal(t *testing.T, from *catalog.Catalog, dir string) {
	t.Helper()
	c := open(t, dir)
	if got, want := rows(t, c), rows(t, from); got != want {
		t.Errorf("rows differ:\n%s\nwant\n%s", got, want)
	}
	found, err := c.Verify(ctx, catalog.VerifyOptions{})
	if err != nil || len(found) > 0 {
		t.Errorf("verify finds %v, %v", found, err)
	}
	head, err := os.ReadFile(filepath.Join(from.Dir(), "head"))
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Against(ctx, head); err != nil {
		t.Errorf("its log does not continue the old head: %v", err)
	}
	if again, err := c.Restores(ctx); err != nil || len(again) != 1 {
		t.Errorf("%d restores in the log (%v), want 1", len(again), err)
	}
	for _, name := range []string{"possible.toml", "drop/waits.txt", "cycles/one/index.html"} {
		a, aerr := os.ReadFile(filepath.Join(from.Dir(), name))
		b, berr := os.ReadFile(filepath.Join(dir, name))
		if aerr != nil || berr != nil || !bytes.Equal(a, b) {
			t.Errorf("%s is not the same: %v, %v", name, aerr, berr)
		}
		if info, err := os.Stat(filepath.Join(dir, name)); err != nil || info.Mode().Perm() != 0o400 {
			t.Errorf("%s: mode %v (%v), want 0400", name, info.Mode(), err)
		}
	}
	a, aerr := os.ReadFile(filepath.Join(from.Dir(), "key"))
	b, berr := os.ReadFile(filepath.Join(dir, "key"))
	if aerr != nil || berr != nil || bytes.Equal(a, b) {
		t.Errorf("its key is the old one (%v, %v)", aerr, berr)
	}
	catalogtest.Act(t, c, &catalog.HolderNamed{Name: "Rosalind Oakes"}) // it can be worked with
}

func TestRoundTrips(t *testing.T) {
	pair, err := age.GenerateX25519Identity()
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name       string
		seal, open transfer.Secret
	}{
		{"plain", transfer.Secret{}, transfer.Secret{}},
		{"passphrase", transfer.Secret{Passphrase: "a b"}, transfer.Secret{Ask: func() (string, error) { return "a b", nil }}},
		{"recipient", transfer.Secret{Recipients: pair.Recipient().String()}, transfer.Secret{Identities: pair.String()}},
	}
	c := full(t)
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			base := t.TempDir()
			file, dir := filepath.Join(base, "vault.backup"), filepath.Join(base, "vault")
			was, err := transfer.Backup(ctx, c, file, transfer.Options{Secret: test.seal})
			if err != nil {
				t.Fatal(err)
			}
			if info, err := os.Stat(file); err != nil || info.Mode().Perm() != 0o600 {
				t.Errorf("the file's mode: %v, %v, want 0600", info.Mode(), err)
			}
			about, checked, err := transfer.CheckBackup(ctx, file, test.open, nil)
			if err != nil || about.Events != was.Events || checked.Evidence != 2 || checked.Bytes != was.Bytes {
				t.Errorf("checked: %+v %+v, %v, want what was written: %+v", about, checked, err, was)
			}
			got, err := transfer.Restore(ctx, file, dir, test.open, catalogtest.Options(), nil)
			if err != nil || got.Events != was.Events+1 || got.Evidence != 2 || len(got.Findings) > 0 {
				t.Fatalf("restored %+v, %v, want one event more than %+v", got, err, was)
			}
			equal(t, c, dir)
			noLeft(t, base)
		})
	}
	t.Run("open files", func(t *testing.T) {
		base := t.TempDir()
		out, dir := filepath.Join(base, "open"), filepath.Join(base, "vault")
		if _, err := transfer.Export(ctx, c, out, transfer.Options{}); err != nil {
			t.Fatal(err)
		}
		if _, err := transfer.Import(ctx, out, dir, catalogtest.Options(), nil); err != nil {
			t.Fatal(err)
		}
		equal(t, c, dir)
		noLeft(t, base)
	})
}

// A blanked event has only its leaf left, and comes through all the same.
func TestBlankedEventsComeThrough(t *testing.T) {
	c := full(t)
	all, err := c.AllEvidence(ctx)
	if err != nil {
		t.Fatal(err)
	}
	err = c.Act(ctx, func(tx *catalog.Tx) error { return tx.DeleteEvidence(ctx, all[1].SHA256, "its time is over") })
	if err = errors.Join(err, c.Sweep(ctx)); err != nil {
		t.Fatal(err)
	}
	base := t.TempDir()
	out, file := filepath.Join(base, "open"), filepath.Join(base, "backup")
	for _, err := range []error{
		second(transfer.Export(ctx, c, out, transfer.Options{})),
		second(transfer.Backup(ctx, c, file, transfer.Options{})),
		second(transfer.Import(ctx, out, filepath.Join(base, "a"), catalogtest.Options(), nil)),
		second(transfer.Restore(ctx, file, filepath.Join(base, "b"), transfer.Secret{}, catalogtest.Options(), nil)),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	equal(t, c, filepath.Join(base, "a"))
	equal(t, c, filepath.Join(base, "b"))
}

func second[T any](_ T, err error) error { return err }

// entry is a file of a backup that a test makes by hand.
type entry struct {
	name, text string
	kind       byte
}

// entries reads a backup, so that a test can change it.
func entries(t *testing.T, file string) []entry {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var out []entry
	for r := tar.NewReader(bytes.NewReader(data)); ; {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			return out
		}
		text, rerr := io.ReadAll(r)
		if err != nil || rerr != nil {
			t.Fatal(err, rerr)
		}
		out = append(out, entry{h.Name, string(text), h.Typeflag})
	}
}

// write makes a backup by hand, with a list of hashes that fits.
func write(t *testing.T, file string, all []entry) {
	t.Helper()
	var out bytes.Buffer
	w := tar.NewWriter(&out)
	list := ""
	for _, e := range all {
		if e.name == "manifest-sha256.txt" {
			e.text = list
		}
		h := &tar.Header{Name: e.name, Typeflag: e.kind, Size: int64(len(e.text)), Mode: 0o600}
		if e.kind == tar.TypeSymlink {
			h.Size, h.Linkname = 0, e.text
		}
		if err := w.WriteHeader(h); err != nil {
			t.Fatal(err)
		}
		if e.kind == tar.TypeReg {
			if _, err := w.Write([]byte(e.text)); err != nil {
				t.Fatal(err)
			}
			list += fmt.Sprintf("%x  %s\n", sha256.Sum256([]byte(e.text)), e.name)
		}
	}
	if err := errors.Join(w.Close(), os.WriteFile(file, out.Bytes(), 0o600)); err != nil {
		t.Fatal(err)
	}
}

// Whatever a file says that was not made by this program, or altered by someone who made
// the list of hashes fit: it is named, and nothing is left, inside the target or outside.
func TestHostileBackupsAreRefused(t *testing.T) {
	c := full(t)
	base := t.TempDir()
	good := filepath.Join(base, "good")
	if _, err := transfer.Backup(ctx, c, good, transfer.Options{}); err != nil {
		t.Fatal(err)
	}
	add := func(name, text string, kind byte) func([]entry) []entry {
		return func(all []entry) []entry {
			last := len(all) - 1
			return append(append(append([]entry{}, all[:last]...), entry{name, text, kind}), all[last])
		}
	}
	about := func(change func(map[string]any)) func([]entry) []entry {
		return func(all []entry) []entry {
			var a map[string]any
			if err := json.Unmarshal([]byte(all[0].text), &a); err != nil {
				t.Fatal(err)
			}
			change(a)
			text, err := json.Marshal(a)
			if err != nil {
				t.Fatal(err)
			}
			all[0].text = string(text)
			return all
		}
	}
	text := func(prefix, old, now string) func([]entry) []entry {
		return func(all []entry) []entry {
			for i, e := range all {
				if strings.HasPrefix(e.name, prefix) {
					all[i].text = strings.Replace(e.text, old, now, 1)
				}
			}
			return all
		}
	}
	tests := []struct {
		name   string
		change func([]entry) []entry
		want   error
	}{
		{"unchanged", func(all []entry) []entry { return all }, nil},
		{"escapes upwards", add("files/../../escaped", "x", tar.TypeReg), transfer.ErrName},
		{"escapes by an absolute name", add("/tmp/escaped", "x", tar.TypeReg), transfer.ErrName},
		{"escapes by a backslash", add(`files/..\..\escaped`, "x", tar.TypeReg), transfer.ErrName},
		{"a link", add("files/link", "/etc/passwd", tar.TypeSymlink), transfer.ErrName},
		{"a device", add("files/null", "", tar.TypeChar), transfer.ErrName},
		{"brings a key", add("files/key", "x", tar.TypeReg), transfer.ErrName},
		{"brings a key in other case", add("files/KEY", "x", tar.TypeReg), transfer.ErrName},
		{"brings a -wal", add("files/catalog.db-wal", "x", tar.TypeReg), transfer.ErrName},
		{"evidence by another way", add("files/evidence/aa/x", "x", tar.TypeReg), transfer.ErrName},
		{"a folder over the store", add("files/evidence/", "", tar.TypeDir), transfer.ErrName},
		{"twice", add("head", "x", tar.TypeReg), transfer.ErrName},
		{"a name that nothing has", add("secret", "x", tar.TypeReg), transfer.ErrName},
		{"evidence under another name", add("evidence/aa/"+strings.Repeat("a", 64)+".txt", "x", tar.TypeReg), transfer.ErrChanged},
		{"evidence altered", text("evidence/", "12 hours", "13 hours"), transfer.ErrChanged},
		{"later form", about(func(a map[string]any) { a["version"] = 2 }), transfer.ErrNewer},
		{"later schema", about(func(a map[string]any) { a["schema"] = 99 }), transfer.ErrNewer},
		{"another program's", about(func(a map[string]any) { a["form"] = "shopping list" }), transfer.ErrForeign},
		{"head altered", text("head", "\n", "\nx"), catalog.ErrLog},
		{"database of another", text("catalog.db", "SQLite format 3", "SQLite format 4"), catalog.ErrSchema},
		{"no list", func(all []entry) []entry { return all[:len(all)-1] }, transfer.ErrCut},
		{"no database", func(all []entry) []entry {
			for i, e := range all {
				if e.name == "catalog.db" {
					return append(all[:i:i], all[i+1:]...)
				}
			}
			return nil
		}, catalog.ErrNoVault},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			room := t.TempDir()
			file := filepath.Join(room, "backup")
			write(t, file, test.change(entries(t, good)))
			dir := filepath.Join(room, "new", "vault")
			_, err := transfer.Restore(ctx, file, dir, transfer.Secret{}, catalogtest.Options(), nil)
			if !errors.Is(err, test.want) {
				t.Fatalf("restore: %v, want %v", err, test.want)
			}
			if test.want == nil {
				return
			}
			if left, _ := filepath.Glob(filepath.Join(room, "new", "*")); len(left) > 0 {
				t.Errorf("left: %v", left)
			}
			noLeft(t, filepath.Join(room, "new"))
			for _, at := range []string{filepath.Join(room, "escaped"), filepath.Join(room, "new", "escaped"), "/tmp/escaped"} {
				if _, err := os.Lstat(at); err == nil {
					t.Errorf("%s was written", at)
				}
			}
		})
	}
}

// Every length at which a backup is cut off is noticed, encrypted or not.
func TestCutOffAnywhere(t *testing.T) {
	c := full(t)
	base := t.TempDir()
	for name, secret := range map[string]transfer.Secret{"plain": {}, "sealed": {Passphrase: "x"}} {
		file := filepath.Join(base, name)
		if _, err := transfer.Backup(ctx, c, file, transfer.Options{Secret: secret}); err != nil {
			t.Fatal(err)
		}
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		cuts := []int{0, 1, 511, 512, len(data) / 3, len(data) / 2, len(data) - 1700}
		if name == "sealed" {
			cuts = []int{100, len(data) / 2, len(data) - 1} // each costs a second for the passphrase
		}
		for _, at := range cuts {
			if err := os.WriteFile(file, data[:at], 0o600); err != nil {
				t.Fatal(err)
			}
			_, err := transfer.Restore(ctx, file, filepath.Join(base, "vault"), secret, catalogtest.Options(), nil)
			if !errors.Is(err, transfer.ErrCut) && !errors.Is(err, transfer.ErrChanged) && !errors.Is(err, transfer.ErrForeign) {
				t.Errorf("%s cut at %d of %d: %v", name, at, len(data), err)
			}
		}
		noLeft(t, base)
	}
}
