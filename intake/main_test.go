package intake_test

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"go.uber.org/goleak"

	"evidencevault/catalog"
	"evidencevault/extract/page"
	"evidencevault/intake"
	"evidencevault/watcher"
)

func TestMain(m *testing.M) {
	page.Main() // the children that read are this program started again
	goleak.VerifyTestMain(m)
}

// settle is short, since nothing writes slowly here.
const settle = 10 * time.Millisecond

const holder = "Mirela Tannhof"

// certificate is a paper whose every word is invented.
const certificate = `Certificate of Attendance

This is to certify that Mirela Tannhof
attended the course Rope Terminations in Practice
on 12 March 2025 from 09:00 to 12:00
Duration: 3 hours

Vallmere Ropeway Inspection Council
Issued on 14 March 2025
`

// vault is a vault with its drop folder, and what was told about it.
type vault struct {
	t    *testing.T
	c    *catalog.Catalog
	in   *intake.Intake
	dir  string
	drop string

	mu      sync.Mutex
	took    []intake.Taken
	read    []intake.Read
	notices []watcher.Notice
	onTook  func(intake.Taken)
}

// newVault makes a vault; empty says whether its drop folder is emptied.
func newVault(t *testing.T, empty bool) *vault {
	t.Helper()
	base := t.TempDir()
	v := &vault{t: t, dir: filepath.Join(base, "vault"), drop: filepath.Join(base, "drop")}
	if err := os.Mkdir(v.drop, 0o700); err != nil {
		t.Fatal(err)
	}
	c, err := catalog.Create(t.Context(), v.dir, catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	v.c = c
	err = c.Act(t.Context(), func(tx *catalog.Tx) error {
		if _, err := tx.Record(t.Context(), &catalog.HolderNamed{Name: holder}); err != nil {
			return err
		}
		_, err := tx.Record(t.Context(), &catalog.DropSet{Dir: v.drop, Empty: empty})
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	v.in = v.intake(intake.Options{})
	t.Cleanup(func() {
		if err := v.c.Close(); err != nil {
			t.Error(err)
		}
	})
	return v
}

// intake returns an Intake that ends with the test.
func (v *vault) intake(o intake.Options) *intake.Intake {
	o.Settle = settle
	o.Took = func(t intake.Taken) {
		v.mu.Lock()
		defer v.mu.Unlock()
		v.took = append(v.took, t)
		if v.onTook != nil {
			v.onTook(t)
		}
	}
	o.Read = func(r intake.Read) {
		v.mu.Lock()
		defer v.mu.Unlock()
		v.read = append(v.read, r)
	}
	o.Notice = func(n watcher.Notice) {
		v.mu.Lock()
		defer v.mu.Unlock()
		v.notices = append(v.notices, n)
	}
	in := intake.New(v.c, o)
	v.t.Cleanup(func() {
		if err := in.Close(); err != nil {
			v.t.Error(err)
		}
	})
	return in
}

func (v *vault) put(name, text string) string {
	v.t.Helper()
	return write(v.t, filepath.Join(v.drop, name), text)
}

func write(t *testing.T, path, text string) string {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func (v *vault) once() intake.Report {
	v.t.Helper()
	r, err := v.in.Once(v.t.Context())
	if err != nil {
		v.t.Fatal(err)
	}
	return r
}

func (v *vault) evidence() []catalog.Evidence {
	v.t.Helper()
	list, err := v.c.AllEvidence(v.t.Context())
	if err != nil {
		v.t.Fatal(err)
	}
	return list
}

func (v *vault) papers() []catalog.Paper {
	v.t.Helper()
	list, err := v.c.Papers(v.t.Context())
	if err != nil {
		v.t.Fatal(err)
	}
	return list
}

// events counts the log, to see that nothing was written.
func (v *vault) events() int {
	v.t.Helper()
	list, err := v.c.Events(v.t.Context(), 1, 0)
	if err != nil {
		v.t.Fatal(err)
	}
	return len(list)
}

// dropped lists what lies in the drop folder.
func (v *vault) dropped() []string {
	v.t.Helper()
	list, err := watcher.Scan(v.t.Context(), v.drop, watcher.Options{All: true})
	if err != nil {
		v.t.Fatal(err)
	}
	var names []string
	for _, f := range list {
		names = append(names, f.File.Name)
	}
	return names
}

// sound fails the test if the vault is not in order.
func (v *vault) sound() {
	v.t.Helper()
	findings, err := v.c.Verify(v.t.Context(), catalog.VerifyOptions{})
	if err != nil || len(findings) > 0 {
		v.t.Errorf("the vault is not sound: %v, %v", findings, err)
	}
}

func names(e catalog.Evidence) []string {
	var list []string
	for _, n := range e.Names {
		list = append(list, string(n.Name))
	}
	slices.Sort(list)
	return list
}

// until waits for a condition, and fails the test if it does not come true.
func until(t *testing.T, what string, ok func() bool) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), 30*time.Second)
	defer cancel()
	for !ok() {
		select {
		case <-ctx.Done():
			t.Fatalf("waited in vain: %s", what)
		case <-time.After(2 * time.Millisecond):
		}
	}
}
