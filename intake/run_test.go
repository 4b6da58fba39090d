package intake_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"evidencevault/catalog"
	"evidencevault/intake"
	"evidencevault/watcher"
)

func TestRunTakesReadsAndEnds(t *testing.T) {
	v := newVault(t, true)
	v.put("before.txt", certificate)
	ctx, cancel := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- v.in.Run(ctx) }()
	read := func(n int) func() bool {
		return func() bool {
			v.mu.Lock()
			defer v.mu.Unlock()
			return len(v.read) >= n
		}
	}
	until(t, "the first paper read", read(1))
	v.put("after.txt", strings.ReplaceAll(certificate, "12 March", "13 March"))
	until(t, "the second paper read", read(2))
	start := time.Now()
	cancel()
	if err := <-ended; err != nil {
		t.Fatal(err)
	}
	if took := time.Since(start); took > 5*time.Second {
		t.Errorf("ended after %v, want within 5 s", took)
	}
	if len(v.dropped()) != 0 || len(v.evidence()) != 2 {
		t.Errorf("left %q, %d evidences, want an empty folder and two", v.dropped(), len(v.evidence()))
	}
	v.sound()
}

func TestRunWithoutADropFolder(t *testing.T) {
	c, err := catalog.Create(t.Context(), filepath.Join(t.TempDir(), "vault"), catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	in := intake.New(c, intake.Options{})
	defer in.Close()
	if err := in.Run(t.Context()); !errors.Is(err, intake.ErrNoDrop) {
		t.Errorf("Run gave %v, want ErrNoDrop", err)
	}
}

// Two programs that take in from the same folder at the same time.
func TestTwoAtOnceTakeEachFileOnce(t *testing.T) {
	v := newVault(t, true)
	const files = 30
	for i := range files {
		v.put(fmt.Sprint(i, ".txt"), fmt.Sprint(certificate, i))
	}
	second, err := catalog.Open(t.Context(), v.dir, catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer second.Close()
	other := intake.New(second, intake.Options{Settle: settle})
	defer other.Close()
	var both sync.WaitGroup
	for _, in := range []*intake.Intake{v.in, other} {
		both.Go(func() {
			r, err := in.Once(t.Context())
			if err != nil {
				t.Error(err)
			}
			for _, left := range r.Left { // the other one was quicker
				if !errors.Is(left.Err, os.ErrNotExist) && !errors.Is(left.Err, watcher.ErrChanged) {
					t.Errorf("left %s: %v", left.File.Name, left.Err)
				}
			}
		})
	}
	both.Wait()
	if n := len(v.evidence()); n != files || len(v.papers()) != files || len(v.dropped()) != 0 {
		t.Errorf("%d evidences, %d papers, left %q, want %d of each and nothing left", n, len(v.papers()), v.dropped(), files)
	}
	for _, p := range v.papers() {
		if p.Reading == 0 {
			t.Errorf("%s was not read", p.Ref())
		}
	}
	v.sound()
}

// What a stop leaves in the store without a row is adopted, unless its file still
// lies in the drop folder and comes with its name.
func TestRecoverAdopts(t *testing.T) {
	v := newVault(t, true)
	for _, text := range []string{"without a drop file", "with a drop file"} {
		if _, err := v.c.Store().Put(t.Context(), strings.NewReader(text), int64(len(text))); err != nil {
			t.Fatal(err)
		}
	}
	v.put("named.txt", "with a drop file")
	r := v.once()
	if len(r.Recovered.Adopted) != 1 || len(r.Taken) != 1 {
		t.Fatalf("adopted %v, took %v, want one of each", r.Recovered.Adopted, r.Taken)
	}
	var got []string
	for _, e := range v.evidence() {
		got = append(got, names(e)...)
	}
	slices.Sort(got)
	if want := []string{r.Recovered.Adopted[0].SHA256[:12] + ".txt", "named.txt"}; !slices.Equal(got, want) {
		t.Errorf("names %q, want %q", got, want)
	}
	v.sound()
}

func TestAddAndItsPlan(t *testing.T) {
	v := newVault(t, true)
	folder := filepath.Join(filepath.Dir(v.dir), "old papers")
	write(t, filepath.Join(folder, "2025", "a.txt"), certificate)
	write(t, filepath.Join(folder, "b.txt"), "another one")
	write(t, filepath.Join(folder, "~$c.docx"), "mark")
	single := write(t, filepath.Join(filepath.Dir(v.dir), "single.tmp"), "named by hand")
	before := v.events()
	plan := func() []string {
		list, err := v.in.Plan(t.Context(), folder, single)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, p := range list {
			got = append(got, fmt.Sprintf("%s %s %v", p.File.Name, p.What, p.Known))
		}
		return got
	}
	want := []string{"2025/a.txt ordinary false", "b.txt ordinary false", "~$c.docx passed over false", "single.tmp ordinary false"}
	if got := plan(); !slices.Equal(got, want) {
		t.Errorf("plan %q, want %q", got, want)
	}
	if v.events() != before || len(v.evidence()) != 0 {
		t.Errorf("the plan wrote something")
	}
	r, err := v.in.Add(t.Context(), folder, single)
	if err != nil || len(r.Taken) != 3 || len(r.Read) != 3 {
		t.Errorf("took %d, read %d, %v, want 3 of each", len(r.Taken), len(r.Read), err)
	}
	if _, err := os.Stat(single); err != nil {
		t.Errorf("a file that was added is gone: %v", err)
	}
	for i, line := range plan() {
		if known := i != 2; strings.HasSuffix(line, "true") != known {
			t.Errorf("plan after adding: %s", line)
		}
	}
	v.sound()
}

func TestAddRefusesTheVaultItself(t *testing.T) {
	v := newVault(t, true)
	for _, path := range []string{v.dir, filepath.Join(v.dir, "catalog.db"), filepath.Join(v.dir, "evidence")} {
		if _, err := v.in.Add(t.Context(), path); !errors.Is(err, intake.ErrOwn) {
			t.Errorf("Add(%s) gave %v, want ErrOwn", path, err)
		}
	}
	// A folder around it is taken without it.
	write(t, filepath.Join(filepath.Dir(v.dir), "beside.txt"), "beside")
	r, err := v.in.Add(t.Context(), filepath.Dir(v.dir))
	if err != nil || len(r.Taken) != 1 {
		t.Errorf("took %+v, %v, want only the file beside the vault", r.Taken, err)
	}
	if _, err := v.in.Add(t.Context(), filepath.Join(v.drop, "nowhere.pdf")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a path that is not there: %v, want it said", err)
	}
}
