package page_test

import (
	"bytes"
	"fmt"
	"os"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"evidencevault/extract/page"
)

// BenchmarkManyFiles reads 500 files, texts and pictures, in one pool, and tells how much
// memory the children and this program held at most after 100 of them and after all.
func BenchmarkManyFiles(b *testing.B) {
	files := append(glob(b, "testdata/own/*.pdf"), glob(b, "testdata/hard/*.pdf")...)
	r := page.NewReader(page.Options{CacheDir: cache(b), Pool: 1})
	defer r.Close()
	for b.Loop() {
		early, late, own := manyFiles(b, r, files, 500)
		b.ReportMetric(float64(early)/1024, "child-MiB-at-100")
		b.ReportMetric(float64(late)/1024, "child-MiB-at-500")
		b.ReportMetric(float64(own)/(1<<20), "own-MiB")
	}
}

// manyFiles reads n files with r and returns the most memory, in KiB, that a child had held
// after a fifth of them and after all, and what this program holds, in bytes.
func manyFiles(t testing.TB, r *page.Reader, files []string, n int) (early, late int, own uint64) {
	for i := range n {
		read(t, r, files[i%len(files)], page.Request{NoOCR: true})
		if i+1 == n/5 {
			early = childMemory(t)
		}
	}
	var m runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&m)
	return early, childMemory(t), m.HeapInuse
}

// childMemory returns the most memory that one of this program's children has held so far, in KiB.
func childMemory(t testing.TB) int {
	t.Helper()
	most := 0
	for _, status := range glob(t, "/proc/[0-9]*/status") {
		text, err := os.ReadFile(status)
		if err != nil || !bytes.Contains(text, fmt.Appendf(nil, "\nPPid:\t%d\n", os.Getpid())) {
			continue // it is gone, or another's
		}
		_, after, _ := strings.Cut(string(text), "VmHWM:")
		fields := strings.Fields(after)
		if len(fields) == 0 {
			continue
		}
		if n, err := strconv.Atoi(fields[0]); err == nil {
			most = max(most, n)
		}
	}
	return most
}

// TestMemoryStaysTheSame reads as many files as a child reads before it is replaced, and more.
func TestMemoryStaysTheSame(t *testing.T) {
	r := page.NewReader(page.Options{CacheDir: cache(t), Pool: 1})
	defer r.Close()
	early, late, own := manyFiles(t, r, glob(t, "testdata/own/*.pdf"), 150)
	t.Logf("child: %d MiB after 30 files, %d MiB after 150; this program: %d MiB", early>>10, late>>10, own>>20)
	if early == 0 || late > 640<<10 || late > early*5/4+(32<<10) {
		t.Errorf("the child held %d KiB after 30 files and %d KiB after 150: want at most 640 MiB, and a quarter more", early, late)
	}
	if own > 128<<20 {
		t.Errorf("this program holds %d MiB: want at most 128", own>>20)
	}
}

// TestHardFilesStayWithinTheirMemory reads what was made to swell or to be hard, with a
// second opinion, and looks after each how much a child held.
func TestHardFilesStayWithinTheirMemory(t *testing.T) {
	r := page.NewReader(page.Options{CacheDir: cache(t), Pool: 1})
	defer r.Close()
	most, of := 0, ""
	for _, f := range append(glob(t, "testdata/trouble/*"), glob(t, "testdata/hard/*.pdf")...) {
		read(t, r, f, page.Request{NoOCR: true, Second: true})
		if held := childMemory(t); held > most {
			most, of = held, f
		}
	}
	t.Logf("at most %d MiB, after %s", most>>10, of)
	if most == 0 || most > 640<<10 {
		t.Errorf("a child held %d KiB after %s: want at most 640 MiB", most, of)
	}
}
