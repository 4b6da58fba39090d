package catalog_test

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"

	"go.uber.org/goleak"

	"evidencevault/catalog"
	"evidencevault/catalog/catalogtest"
)

func TestMain(m *testing.M) {
	if dir := os.Getenv("CATALOG_TEST_DAEMON"); dir != "" {
		holdDaemonLock(dir)
		return
	}
	goleak.VerifyTestMain(m)
}

// holdDaemonLock is the second program of TestOneDaemon: it holds the lock until its
// standard input ends.
func holdDaemonLock(dir string) {
	release, err := catalog.LockDaemon(dir)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("held")
	buf := make([]byte, 1)
	if n, err := os.Stdin.Read(buf); n > 0 || err == nil {
		fmt.Println("read something")
	}
	if err := release(); err != nil {
		fmt.Println(err)
	}
}

func TestOneDaemon(t *testing.T) {
	c := catalogtest.New(t)
	other := exec.Command(os.Args[0])
	other.Env = append(os.Environ(), "CATALOG_TEST_DAEMON="+c.Dir())
	in, err := other.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := other.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := other.Start(); err != nil {
		t.Fatal(err)
	}
	said := make([]byte, 200)
	n, err := out.Read(said)
	if err != nil || string(said[:n]) != "held\n" {
		t.Fatalf("the other program says %q, %v", said[:n], err)
	}
	_, err = catalog.LockDaemon(c.Dir())
	var busy *catalog.BusyError
	if !errors.As(err, &busy) || !strings.Contains(busy.Error(), fmt.Sprintf("process %d (", other.Process.Pid)) {
		t.Errorf("while it runs: %v, want a BusyError that names process %d", err, other.Process.Pid)
	}
	catalogtest.Act(t, c, &catalog.FactSet{Name: "x", Value: "a command may write beside a daemon"})
	if err := other.Process.Kill(); err != nil { // as with kill -9: the lock is the kernel's
		t.Fatal(err)
	}
	if err := other.Wait(); err == nil {
		t.Error("the other program was not killed")
	}
	if err := in.Close(); err != nil && !errors.Is(err, os.ErrClosed) {
		t.Error(err)
	}
	release, err := catalog.LockDaemon(c.Dir())
	if err != nil {
		t.Fatalf("after it was killed: %v", err)
	}
	if _, err := catalog.LockDaemon(c.Dir()); !errors.Is(err, catalog.ErrBusy) {
		t.Errorf("twice in one program: %v, want ErrBusy", err)
	}
	if err := release(); err != nil {
		t.Error(err)
	}
	if _, err := catalog.LockDaemon(t.TempDir()); !errors.Is(err, catalog.ErrNoVault) {
		t.Errorf("no vault: %v, want ErrNoVault", err)
	}
}

// Several openers of one vault write at once; every act is there exactly once, and
// nobody sees that the database is locked.
func TestSeveralOpenersWriteAtOnce(t *testing.T) {
	c := catalogtest.New(t)
	const openers, acts = 4, 15
	var group sync.WaitGroup
	for i := range openers {
		group.Go(func() {
			mine, err := catalog.Open(ctx, c.Dir(), catalogtest.Options())
			if err != nil {
				t.Error(err)
				return
			}
			for k := range acts {
				err := mine.Act(ctx, func(tx *catalog.Tx) error {
					_, err := tx.Record(ctx, &catalog.FactSet{Name: fmt.Sprintf("%d-%d", i, k), Value: "1"})
					return err
				})
				if err != nil {
					t.Error(err)
				}
				if _, err := mine.Facts(ctx); err != nil {
					t.Error(err)
				}
			}
			if err := mine.Close(); err != nil {
				t.Error(err)
			}
		})
	}
	group.Wait()
	facts, err := c.Facts(ctx)
	if err != nil || len(facts) != openers*acts {
		t.Errorf("%d facts, %v, want %d", len(facts), err, openers*acts)
	}
	events, err := c.Events(ctx, 1, 0)
	if err != nil || len(events) != openers*acts+1 {
		t.Errorf("%d events, %v, want %d", len(events), err, openers*acts+1)
	}
	clean(t, c)
}

// What one transaction sees does not change while others write.
func TestReadSeesOneState(t *testing.T) {
	c, _, _ := full(t)
	err := c.Read(ctx, func(v *catalog.View) error {
		before, err := v.Events(ctx, 1, 0)
		if err != nil {
			return err
		}
		catalogtest.Act(t, c, &catalog.FactSet{Name: "x", Value: "1"})
		after, err := v.Events(ctx, 1, 0)
		if err == nil && len(after) != len(before) {
			t.Errorf("%d events, then %d", len(before), len(after))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

func TestCreateIsFinishedAfterAStop(t *testing.T) {
	for name, strip := range map[string][]string{
		"before the key":         {"key", "head"},
		"before the first event": {"head"},
	} {
		c := catalogtest.New(t)
		if err := c.Close(); err != nil {
			t.Fatal(err)
		}
		sqlite3(t, c, "DELETE FROM event; DELETE FROM tree; DELETE FROM vault; DELETE FROM about")
		for _, file := range strip {
			if err := os.Remove(filepath.Join(c.Dir(), file)); err != nil {
				t.Fatal(err)
			}
		}
		if again, err := catalog.Open(ctx, c.Dir(), catalogtest.Options()); !errors.Is(err, catalog.ErrNoVault) {
			t.Errorf("%s: opened: %v, %v, want ErrNoVault", name, again, err)
		}
		again, err := catalog.Create(ctx, c.Dir(), catalogtest.Options())
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		clean(t, again)
		if err := again.Close(); err != nil {
			t.Error(err)
		}
	}
	c := catalogtest.New(t)
	if _, err := catalog.Create(ctx, c.Dir(), catalogtest.Options()); !errors.Is(err, catalog.ErrExists) {
		t.Errorf("over a vault: %v, want ErrExists", err)
	}
	clean(t, c)
	if _, err := catalog.Open(ctx, t.TempDir(), catalog.Options{}); !errors.Is(err, catalog.ErrNoVault) {
		t.Errorf("an empty folder: %v, want ErrNoVault", err)
	}
	if _, err := catalog.Open(ctx, filepath.Join(t.TempDir(), "absent"), catalog.Options{}); !errors.Is(err, catalog.ErrNoVault) {
		t.Errorf("no folder: %v, want ErrNoVault", err)
	}
}

func TestNamesWithSignsOfAnAddress(t *testing.T) {
	for _, name := range []string{"my vault", "50% sure?", "a#b&c=d", "Füße", "quote'\"s", "semi;colon"} {
		if runtime.GOOS == "windows" && strings.ContainsAny(name, `?"`) {
			continue
		}
		dir := filepath.Join(t.TempDir(), name)
		c, err := catalog.Create(ctx, dir, catalogtest.Options())
		if err != nil {
			t.Errorf("%q: %v", name, err)
			continue
		}
		if _, err := os.Lstat(filepath.Join(dir, "catalog.db")); err != nil {
			t.Errorf("%q: %v", name, err)
		}
		clean(t, c)
		if err := c.Close(); err != nil {
			t.Error(err)
		}
	}
}

func TestReadOnlyWritesNothing(t *testing.T) {
	c, _, _ := full(t)
	o := catalogtest.Options()
	o.ReadOnly = true
	r, err := catalog.Open(ctx, c.Dir(), o)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	err = r.Act(ctx, func(*catalog.Tx) error { return nil })
	if !errors.Is(err, catalog.ErrReadOnly) || !errors.Is(r.Trouble(), catalog.ErrReadOnly) {
		t.Errorf("act %v, trouble %v, want ErrReadOnly", err, r.Trouble())
	}
	if list, err := r.Claims(ctx, catalog.ClaimFilter{}); err != nil || len(list) != 1 {
		t.Errorf("claims: %v, %v", list, err)
	}
	clean(t, r)
	if err := errors.Join(r.Close(), c.Close()); err != nil {
		t.Fatal(err)
	}
	before := dbSum(t, c.Dir())
	alone, err := catalog.Open(ctx, c.Dir(), o)
	if err != nil {
		t.Fatal(err)
	}
	clean(t, alone)
	if err := alone.Close(); err != nil {
		t.Fatal(err)
	}
	if after := dbSum(t, c.Dir()); after != before {
		t.Errorf("reading changed the database: %s, then %s", before, after)
	}
	entries, err := os.ReadDir(c.Dir())
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), "catalog.db-") {
			info, ierr := e.Info()
			if ierr != nil || info.Mode().Perm()&0o077 != 0 || strings.HasSuffix(e.Name(), "-wal") && info.Size() > 0 {
				t.Errorf("%s was left: %v, %v", e.Name(), info, ierr)
			}
		}
	}
	if err != nil {
		t.Fatal(err)
	}
	clean(t, catalogtest.Reopen(t, c))
}

func TestSchemesAreKeptByTheirBytes(t *testing.T) {
	c := catalogtest.New(t)
	first, err := c.KeepScheme([]byte("id = \"demo\"\n"))
	if err != nil {
		t.Fatal(err)
	}
	if again, err := c.KeepScheme([]byte("id = \"demo\"\n")); err != nil || again != first {
		t.Errorf("again: %s, %v, want %s", again, err, first)
	}
	if data, err := c.SchemeBytes(first); err != nil || string(data) != "id = \"demo\"\n" {
		t.Errorf("read %q, %v", data, err)
	}
	path := filepath.Join(c.Dir(), "schemes", first+".toml")
	if err := errors.Join(os.Chmod(path, 0o600), os.WriteFile(path, []byte("id = \"other\"\n"), 0o600)); err != nil {
		t.Fatal(err)
	}
	for _, bad := range []string{first, strings.Repeat("0", 64), "", "../key"} {
		if data, err := c.SchemeBytes(bad); !errors.Is(err, catalog.ErrNoScheme) {
			t.Errorf("%q: %q, %v, want ErrNoScheme", bad, data, err)
		}
	}
}

// Opening, acting and closing give back every file.
func TestNoFileStaysOpen(t *testing.T) {
	if runtime.GOOS != "linux" {
		return // files are counted in /proc
	}
	c, _, _ := full(t)
	count := func() int {
		names, err := os.ReadDir("/proc/self/fd")
		if err != nil {
			t.Fatal(err)
		}
		return len(names)
	}
	before := count()
	for range 20 {
		again, err := catalog.Open(ctx, c.Dir(), catalogtest.Options())
		if err != nil {
			t.Fatal(err)
		}
		catalogtest.Act(t, again, &catalog.FactSet{Name: "x", Value: "1"})
		if _, err := again.Verify(ctx, catalog.VerifyOptions{}); err != nil {
			t.Fatal(err)
		}
		if err := errors.Join(again.Close(), again.Close()); err != nil {
			t.Fatal(err)
		}
	}
	if after := count(); after > before+3 {
		t.Errorf("%d files open, before %d", after, before)
	}
}

func BenchmarkStart(b *testing.B) {
	c := catalogtest.New(b)
	err := c.Act(ctx, func(tx *catalog.Tx) error {
		for i := range 10_000 {
			if _, err := tx.Record(ctx, &catalog.FactSet{Name: fmt.Sprint(i), Value: strings.Repeat("x", 400)}); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		b.Fatal(err)
	}
	b.Run("open", func(b *testing.B) {
		for b.Loop() {
			again, err := catalog.Open(ctx, c.Dir(), catalogtest.Options())
			if err != nil {
				b.Fatal(err)
			}
			if err := again.Close(); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("verify", func(b *testing.B) {
		for b.Loop() {
			if found, err := c.Verify(ctx, catalog.VerifyOptions{}); err != nil || len(found) > 0 {
				b.Fatal(found, err)
			}
		}
	})
	b.Run("act", func(b *testing.B) {
		for b.Loop() {
			catalogtest.Act(b, c, &catalog.FactSet{Name: "x", Value: "1"})
		}
	})
}
