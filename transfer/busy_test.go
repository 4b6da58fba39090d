package transfer_test

import (
	"encoding/hex"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"evidencevault/catalog"
	"evidencevault/catalog/catalogtest"
	"evidencevault/evidence"
	"evidencevault/transfer"
)

// Backups and exports that are made while files pour in are each of one moment: what
// comes of them verifies, and the vault's log continues theirs.
func TestWhileFilesPourIn(t *testing.T) {
	c := full(t)
	base := t.TempDir()
	stop := make(chan struct{})
	var pouring sync.WaitGroup
	pouring.Go(func() {
		for n := 0; ; n++ {
			select {
			case <-stop:
				return
			default:
				catalogtest.Take(t, c, fmt.Sprintf("poured %d.txt", n), fmt.Sprint("poured ", n))
			}
		}
	})
	for n := range 4 {
		out, dir := filepath.Join(base, fmt.Sprint("out", n)), filepath.Join(base, fmt.Sprint("vault", n))
		var was, got transfer.Result
		var err, err2 error
		if n%2 == 0 {
			was, err = transfer.Backup(ctx, c, out, transfer.Options{})
			got, err2 = transfer.Restore(ctx, out, dir, transfer.Secret{}, catalogtest.Options(), nil)
		} else {
			was, err = transfer.Export(ctx, c, out, transfer.Options{})
			got, err2 = transfer.Import(ctx, out, dir, catalogtest.Options(), nil)
		}
		if err := errors.Join(err, err2); err != nil {
			t.Error(err)
			break
		}
		if got.Events != was.Events+1 || got.Evidence != was.Evidence || len(got.Findings) > 0 {
			t.Errorf("round %d: out %+v, in %+v", n, was, got)
		}
		head := headOf(t, out)
		if err := c.Against(ctx, head); err != nil {
			t.Errorf("round %d: the vault does not continue what was taken out of it: %v", n, err)
		}
	}
	close(stop)
	pouring.Wait()
}

// headOf is the head in a backup or an export.
func headOf(t *testing.T, at string) []byte {
	t.Helper()
	if head, err := os.ReadFile(filepath.Join(at, "head")); err == nil {
		return head
	}
	about, _, err := transfer.CheckBackup(ctx, at, transfer.Secret{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return []byte(about.Head)
}

// pathOf is where the first evidence of a vault lies.
func pathOf(t *testing.T, c *catalog.Catalog) (sum, path string) {
	t.Helper()
	all, err := c.AllEvidence(ctx)
	if err != nil {
		t.Fatal(err)
	}
	return all[0].SHA256, filepath.Join(c.Dir(), "evidence", all[0].SHA256[:2], all[0].SHA256+all[0].Ext)
}

// Evidence that is missing or altered stops what is taken out, unless it was asked to go
// on without; then what comes of it says so. It comes back from an earlier backup.
func TestMissingEvidence(t *testing.T) {
	tests := []struct {
		name   string
		change func(path string) error
	}{
		{"removed", os.Remove},
		{"altered", func(path string) error {
			return errors.Join(os.Chmod(path, 0o600), os.WriteFile(path, []byte("13 hours"), 0o600), os.Chmod(path, 0o400))
		}},
		{"a link instead", func(path string) error { return errors.Join(os.Remove(path), os.Symlink("/etc/hostname", path)) }},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c := full(t)
			base := t.TempDir()
			good := filepath.Join(base, "good")
			if _, err := transfer.Backup(ctx, c, good, transfer.Options{}); err != nil {
				t.Fatal(err)
			}
			sum, path := pathOf(t, c)
			if err := test.change(path); err != nil {
				t.Fatal(err)
			}
			for _, err := range []error{
				second(transfer.Backup(ctx, c, filepath.Join(base, "a"), transfer.Options{})),
				second(transfer.Export(ctx, c, filepath.Join(base, "b"), transfer.Options{})),
			} {
				if !errors.Is(err, transfer.ErrMissing) || !strings.Contains(err.Error(), "splices.txt") {
					t.Errorf("%v, want ErrMissing of splices.txt", err)
				}
			}
			part, out := filepath.Join(base, "part"), filepath.Join(base, "open")
			for _, made := range []func() (transfer.Result, error){
				func() (transfer.Result, error) {
					return transfer.Backup(ctx, c, part, transfer.Options{Incomplete: true})
				},
				func() (transfer.Result, error) {
					return transfer.Restore(ctx, part, filepath.Join(base, "c"), transfer.Secret{}, catalogtest.Options(), nil)
				},
				func() (transfer.Result, error) {
					return transfer.Export(ctx, c, out, transfer.Options{Incomplete: true})
				},
				func() (transfer.Result, error) {
					return transfer.Import(ctx, out, filepath.Join(base, "d"), catalogtest.Options(), nil)
				},
			} {
				if res, err := made(); err != nil || len(res.Missing) != 1 || res.Missing[0] != sum || res.Evidence != 1 {
					t.Errorf("%+v, %v, want %s alone missing", res, err, sum)
				}
			}
			if back, err := transfer.RestoreEvidence(ctx, c, good, transfer.Secret{}, nil); err != nil || len(back) != 1 || back[0] != sum {
				t.Errorf("put back %v, %v, want %s", back, err, sum)
			}
			if found, err := c.Verify(ctx, catalog.VerifyOptions{}); err != nil || len(found) > 0 {
				t.Errorf("after it was put back: %v, %v", found, err)
			}
			noLeft(t, base)
		})
	}
}

// A backup of another vault brings nothing back, and a damaged file in a backup never
// takes the place of anything.
func TestWrongEvidenceIsNotPutBack(t *testing.T) {
	c, other := full(t), full(t)
	base := t.TempDir()
	foreign, good := filepath.Join(base, "foreign"), filepath.Join(base, "good")
	if err := errors.Join(second(transfer.Backup(ctx, other, foreign, transfer.Options{})), second(transfer.Backup(ctx, c, good, transfer.Options{}))); err != nil {
		t.Fatal(err)
	}
	sum, path := pathOf(t, c)
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if _, err := transfer.RestoreEvidence(ctx, c, foreign, transfer.Secret{}, nil); !errors.Is(err, transfer.ErrForeign) {
		t.Errorf("a foreign backup: %v", err)
	}
	data, err := os.ReadFile(good)
	if err != nil {
		t.Fatal(err)
	}
	data = []byte(strings.Replace(string(data), "there for 12 hours", "there for 21 hours", 1))
	if err := os.WriteFile(good, data, 0o600); err != nil {
		t.Fatal(err)
	}
	var bad *evidence.DigestError
	if back, err := transfer.RestoreEvidence(ctx, c, good, transfer.Secret{}, nil); !errors.As(err, &bad) || len(back) > 0 || bad.Want != sum {
		t.Errorf("a damaged one: %v, %v, want a DigestError", back, err)
	}
	if _, err := os.Lstat(path); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("something was put at %s", path)
	}
}

// What lies at the target is left alone, to the byte.
func TestTargetsInUse(t *testing.T) {
	c := full(t)
	base := t.TempDir()
	file, folder, link := filepath.Join(base, "file"), filepath.Join(base, "folder"), filepath.Join(base, "link")
	if err := errors.Join(os.WriteFile(file, []byte("mine"), 0o600), os.Mkdir(folder, 0o700),
		os.WriteFile(filepath.Join(folder, "x"), nil, 0o600), os.Symlink(file, link)); err != nil {
		t.Fatal(err)
	}
	good := filepath.Join(base, "good")
	if _, err := transfer.Backup(ctx, c, good, transfer.Options{}); err != nil {
		t.Fatal(err)
	}
	for _, at := range []string{file, folder, link, good} {
		if _, err := transfer.Backup(ctx, c, at, transfer.Options{}); !errors.Is(err, transfer.ErrThere) {
			t.Errorf("backup to %s: %v", at, err)
		}
		if _, err := transfer.Export(ctx, c, at, transfer.Options{}); !errors.Is(err, transfer.ErrThere) {
			t.Errorf("export to %s: %v", at, err)
		}
		if _, err := transfer.Restore(ctx, good, at, transfer.Secret{}, catalogtest.Options(), nil); !errors.Is(err, transfer.ErrThere) {
			t.Errorf("restore to %s: %v", at, err)
		}
	}
	if text, err := os.ReadFile(file); err != nil || hex.EncodeToString(text) != hex.EncodeToString([]byte("mine")) {
		t.Errorf("the file is %q now (%v)", text, err)
	}
	for _, at := range []string{filepath.Join(c.Dir(), "x"), filepath.Join(c.Dir(), "evidence", "x"), c.Dir()} {
		if _, err := transfer.Backup(ctx, c, at, transfer.Options{}); err == nil {
			t.Errorf("a backup within the vault at %s", at)
		}
	}
	noLeft(t, base)
	noLeft(t, c.Dir())
}

// Whoever asks is told of every step, and last that all is done.
func TestProgressEndsWithAll(t *testing.T) {
	c := full(t)
	base := t.TempDir()
	file, open := filepath.Join(base, "vault.backup"), filepath.Join(base, "open")
	for _, test := range []struct {
		name string
		do   func(tell func(done, of int64)) error
	}{
		{"backup", func(tell func(done, of int64)) error {
			_, err := transfer.Backup(ctx, c, file, transfer.Options{Progress: tell})
			return err
		}},
		{"export", func(tell func(done, of int64)) error {
			_, err := transfer.Export(ctx, c, open, transfer.Options{Progress: tell})
			return err
		}},
		{"verify", func(tell func(done, of int64)) error {
			_, _, err := transfer.CheckBackup(ctx, file, transfer.Secret{}, tell)
			return err
		}},
		{"restore", func(tell func(done, of int64)) error {
			_, err := transfer.Restore(ctx, file, filepath.Join(base, "a"), transfer.Secret{}, catalogtest.Options(), tell)
			return err
		}},
		{"import", func(tell func(done, of int64)) error {
			_, err := transfer.Import(ctx, open, filepath.Join(base, "b"), catalogtest.Options(), tell)
			return err
		}},
		{"single files", func(tell func(done, of int64)) error {
			_, err := transfer.RestoreEvidence(ctx, c, file, transfer.Secret{}, tell)
			return err
		}},
	} {
		times, last, whole := 0, int64(0), int64(0)
		err := test.do(func(done, of int64) {
			if times++; done < last || of < done || whole > 0 && of != whole {
				t.Errorf("%s: told %d of %d after %d of %d", test.name, done, of, last, whole)
			}
			last, whole = done, of
		})
		if err != nil || times < 2 || last != whole {
			t.Errorf("%s: told %d times, last %d of %d, %v", test.name, times, last, whole, err)
		}
	}
}
