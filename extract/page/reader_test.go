package page_test

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"

	"evidencevault/extract/page"
)

func TestManyAtOnce(t *testing.T) {
	r := page.NewReader(page.Options{CacheDir: cache(t), Pool: 2})
	defer r.Close()
	var wg sync.WaitGroup
	for range 4 {
		for _, f := range []string{"own/Oakhurst_cert_final.pdf", "own/guest-lecture.txt", "trouble/noise.pdf", "own/certificado.pdf"} {
			wg.Go(func() {
				in, err := os.Open("testdata/" + f)
				if err != nil {
					t.Error(err)
					return
				}
				defer in.Close()
				d, err := r.Read(context.Background(), in, page.Request{})
				if err != nil || (d.Trouble == page.None) == strings.HasPrefix(f, "trouble") {
					t.Errorf("%s: trouble %q, error %v", f, d.Trouble, err)
				}
			})
		}
	}
	wg.Wait()
}

// A pipe, or anything that cannot be read twice, is read all the same.
func TestSourceThatCannotBeWoundBack(t *testing.T) {
	b, err := os.ReadFile("testdata/own/Oakhurst_cert_final.pdf")
	if err != nil {
		t.Fatal(err)
	}
	d, err := reader(t).Read(context.Background(), struct{ *bytes.Buffer }{bytes.NewBuffer(b)}, page.Request{Second: true})
	if err != nil || !strings.Contains(text(d), "Oakhurst") || d.Pages[0].Second == "" {
		t.Errorf("it reads %q, error %v", text(d), err)
	}
}

type broken struct{}

func (broken) Read([]byte) (int, error) { return 0, errors.New("the disk is gone") }

// What is no fault of the document must not look like one.
func TestOurOwnFailuresAreErrors(t *testing.T) {
	if _, err := reader(t).Read(context.Background(), broken{}, page.Request{}); err == nil || !strings.Contains(err.Error(), "the disk is gone") {
		t.Errorf("source that fails: error %v", err)
	}
	dir, err := os.Open(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer dir.Close()
	if _, err := reader(t).Read(context.Background(), dir, page.Request{}); err == nil || !strings.Contains(err.Error(), "folder") {
		t.Errorf("folder: error %v", err)
	}
	gone, stop := context.WithCancel(context.Background())
	stop()
	if _, err := reader(t).Read(gone, strings.NewReader("text"), page.Request{}); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: error %v", err)
	}
	r := page.NewReader(page.Options{CacheDir: cache(t)})
	if err := r.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := r.Read(context.Background(), strings.NewReader("text"), page.Request{}); !errors.Is(err, page.ErrClosed) {
		t.Errorf("closed: error %v", err)
	}
}

func TestDocumentBeyondTheSize(t *testing.T) {
	r := page.NewReader(page.Options{CacheDir: cache(t), Bytes: 100})
	defer r.Close()
	for _, n := range []int{100, 101} {
		d := readBytes(t, r, bytes.Repeat([]byte("a "), 51)[:n], page.Request{})
		if (d.Trouble == page.TooLarge) != (n > 100) {
			t.Errorf("%d bytes: trouble %q", n, d.Trouble)
		}
	}
}

func TestConfinementIsSaid(t *testing.T) {
	c, err := reader(t).Confinement(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Join(c.Lines, "\n")
	for _, want := range []string{"memory of a reader is limited to 640 MiB", "processor time", "network"} {
		if runtime.GOOS == "linux" && !strings.Contains(all, want) {
			t.Errorf("of what holds it does not say %q:\n%s", want, all)
		}
	}
	if len(c.Lines) < 5 || c.Tesseract == "" || len(c.Languages) == 0 || !strings.Contains(strings.Join(c.Lines, "\n"), "memory") {
		t.Errorf("%+v", c)
	}
}

// The cache decides what code runs on the documents: it is not used where another
// user could have written to it, and reading goes on without.
func TestCacheOfOthersIsNotUsed(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "open")
	if err := os.Mkdir(dir, 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(dir, 0o777); err != nil {
		t.Fatal(err)
	}
	r := page.NewReader(page.Options{CacheDir: dir})
	defer r.Close()
	if d := readBytes(t, r, []byte("still read"), page.Request{}); text(d) != "still read" {
		t.Errorf("it reads %q (%s)", text(d), d.Reason)
	}
	left, err := os.ReadDir(dir)
	if err != nil || len(left) > 0 {
		t.Errorf("%d files in the folder of others, error %v", len(left), err)
	}
	info, err := os.Stat(cache(t))
	if err != nil || info.Mode().Perm() != 0o700 {
		t.Errorf("our own cache has mode %v, error %v: want 0700", info.Mode(), err)
	}
}

// A damaged cache costs time, not the reading.
func TestDamagedCache(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "cache")
	if err := os.CopyFS(dir, os.DirFS(cache(t))); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	damaged := 0
	err := filepath.WalkDir(dir, func(path string, e os.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		b, err := os.ReadFile(path)
		if err != nil || len(b) < 1000 {
			return err
		}
		for i := range 200 {
			b[i*len(b)/200] ^= 0xff
		}
		damaged++
		return os.WriteFile(path, b, 0o600)
	})
	if err != nil || damaged == 0 {
		t.Fatalf("%d files damaged, error %v", damaged, err)
	}
	r := page.NewReader(page.Options{CacheDir: dir})
	defer r.Close()
	if d := read(t, r, "testdata/own/Oakhurst_cert_final.pdf", page.Request{}); !strings.Contains(text(d), "Oakhurst") {
		t.Errorf("it reads %q: %s", text(d), d.Reason)
	}
}
