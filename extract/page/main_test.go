package page_test

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"go.uber.org/goleak"

	"evidencevault/extract/page"
)

func TestMain(m *testing.M) {
	page.Main()
	code := m.Run()
	if shared.r != nil {
		if err := shared.r.Close(); err != nil {
			panic(err)
		}
		if err := os.RemoveAll(shared.dir); err != nil {
			panic(err)
		}
	}
	if err := goleak.Find(); err != nil && code == 0 {
		panic(err)
	}
	os.Exit(code)
}

// shared is one reader for all tests: its cache costs seconds to fill.
var shared struct {
	once sync.Once
	dir  string
	r    *page.Reader
}

func reader(t testing.TB) *page.Reader {
	t.Helper()
	shared.once.Do(func() {
		dir, err := os.MkdirTemp("", "page")
		if err != nil {
			t.Fatal(err)
		}
		shared.dir, shared.r = dir, page.NewReader(page.Options{CacheDir: cacheIn(dir)})
	})
	return shared.r
}

func cacheIn(dir string) string { return filepath.Join(dir, "cache") }

// cache returns the folder that the shared reader has filled, for readers of a test's own.
func cache(t testing.TB) string {
	t.Helper()
	if _, err := reader(t).Confinement(t.Context()); err != nil {
		t.Fatal(err)
	}
	return cacheIn(shared.dir)
}

// read reads a file; a test that goes on must not get an error.
func read(t testing.TB, r *page.Reader, name string, q page.Request) page.Document {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	d, err := r.Read(context.Background(), f, q)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return d
}

// text joins what is seen on all pages, a space between words.
func text(d page.Document) string {
	var b strings.Builder
	for _, p := range d.Pages {
		for _, w := range p.Words {
			if !w.Hidden {
				b.WriteString(w.Text + " ")
			}
		}
		b.WriteString(strings.Join(p.Lines, "\n"))
	}
	return b.String()
}

// tool runs a judge; it must be installed.
func tool(t testing.TB, name string, args ...string) (string, error) {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Fatalf("the tests need %s: make tools installs it: %v", name, err)
	}
	out, err := exec.Command(path, args...).Output()
	return string(out), err
}

func glob(t testing.TB, pattern string) []string {
	t.Helper()
	files, err := filepath.Glob(pattern)
	if err != nil || len(files) == 0 {
		t.Fatalf("%s: no files (%v)", pattern, err)
	}
	return files
}
