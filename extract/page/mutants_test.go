package page_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"sync"
	"testing"
	"time"

	"evidencevault/extract/page"
)

// mutants makes n damaged copies of a document: cut off, bits flipped, parts swapped, and
// objects of another document put in the place of its own.
func mutants(b, other []byte, n int, seed uint64) [][]byte {
	rnd := rand.New(rand.NewPCG(seed, 1))
	var all [][]byte
	for i := range n {
		m := slices.Clone(b)
		switch i % 4 {
		case 0:
			m = m[:rnd.IntN(len(m))]
		case 1:
			for range 1 + rnd.IntN(20) {
				m[rnd.IntN(len(m))] ^= byte(1 << rnd.IntN(8))
			}
		case 2:
			at, to, size := rnd.IntN(len(m)), rnd.IntN(len(m)), rnd.IntN(1+len(m)/8)
			copy(m[at:], slices.Clone(m[to:min(to+size, len(m))]))
		case 3:
			m = spliced(m, other, rnd)
		}
		all = append(all, m)
	}
	return all
}

var objects = regexp.MustCompile(`(?s)\d+ 0 obj.*?endobj`)

// spliced puts an object of another PDF in the place of one of its own; of what is no PDF, a
// piece of the other in the place of a piece.
func spliced(m, other []byte, rnd *rand.Rand) []byte {
	own, theirs := objects.FindAllIndex(m, -1), objects.FindAllIndex(other, -1)
	if len(own) == 0 || len(theirs) == 0 {
		at, from := rnd.IntN(len(m)), rnd.IntN(len(other))
		return slices.Concat(m[:at], other[from:min(from+500, len(other))], m[at:])
	}
	out, in := own[rnd.IntN(len(own))], theirs[rnd.IntN(len(theirs))]
	number, _, _ := bytes.Cut(m[out[0]:out[1]], []byte(" "))
	_, object, _ := bytes.Cut(other[in[0]:in[1]], []byte(" "))
	return slices.Concat(m[:out[0]], number, []byte(" "), object, m[out[1]:])
}

// damaged are the documents to make mutants of, how many of each, and the seed: a small share,
// the same every time, or what MUTATE (a folder), MUTANTS and SEED ask for.
func damaged(t *testing.T) (files []string, each int, seed uint64) {
	t.Helper()
	each, seed = 16, 1
	for _, f := range []string{"own/Oakhurst_cert_final.pdf", "own/completion.pdf", "hard/form-no-appearances-utf8.pdf", "hard/text-ligatures.pdf", "hard/xref-hybrid.pdf",
		"hard/nested-forms-inline-images.pdf", "hard/fuzz-poppler-395.pdf", "hard/enc-aes-256-owner-only.pdf", "own/Arbeitszeugnis.docx", "own/acceptance.eml", "own/member-card.png", "own/two-pages.tiff", "own/calendar.ics"} {
		files = append(files, filepath.Join("testdata", f))
	}
	if dir := os.Getenv("MUTATE"); dir != "" {
		files = glob(t, filepath.Join(dir, "*.*"))
	} else if os.Getenv("MUTANTS") != "" {
		files = slices.Concat(glob(t, "testdata/own/*.*"), glob(t, "testdata/hard/*.pdf"), glob(t, "testdata/trouble/*.*"))
	}
	for name, set := range map[string]func(n int){"MUTANTS": func(n int) { each = n }, "SEED": func(n int) { seed = uint64(n) }} {
		if v := os.Getenv(name); v != "" {
			n, err := strconv.Atoi(v)
			if err != nil || n < 1 {
				t.Fatalf("%s %q: want a whole number above 0", name, v)
			}
			set(n)
		}
	}
	return files, each, seed
}

// TestDamagedCopiesEndInTime reads mutants of documents in one pool: each ends in time, with
// a reading or a reason, and the document after it is read as ever.
func TestDamagedCopiesEndInTime(t *testing.T) {
	files, each, seed := damaged(t)
	t.Logf("seed %d, %d mutants of each of %d documents", seed, each, len(files))
	r := page.NewReader(page.Options{CacheDir: cache(t), Pool: 2})
	defer r.Close()
	var all [][]byte
	for _, f := range files {
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, b)
	}
	type mutant struct {
		name string
		data []byte
	}
	work := make(chan mutant)
	var wg sync.WaitGroup
	var mu sync.Mutex
	ended, slowest, slow := map[page.Trouble]int{}, time.Duration(0), ""
	for range 2 {
		wg.Go(func() {
			for m := range work {
				start := time.Now()
				d, err := r.Read(t.Context(), bytes.NewReader(m.data), page.Request{NoOCR: true, Second: len(m.data)%8 == 0})
				took := time.Since(start)
				mu.Lock()
				ended[d.Trouble]++
				if took > slowest {
					slowest, slow = took, m.name
				}
				if err != nil || took > limit || d.Trouble != page.None && d.Reason == "" {
					t.Errorf("%s: %v, trouble %q, reason %q, error %v", m.name, took, d.Trouble, d.Reason, err)
				}
				mu.Unlock()
			}
		})
	}
	for i, b := range all {
		if len(b) == 0 {
			continue
		}
		other := all[(i+1)%len(all)]
		if len(other) == 0 {
			other = b
		}
		for k, m := range mutants(b, other, each, seed+uint64(i)) {
			work <- mutant{fmt.Sprintf("seed %d, %s, mutant %d", seed, files[i], k), m}
		}
	}
	close(work)
	wg.Wait()
	t.Logf("ended: %v; the slowest took %v: %s", ended, slowest, slow)
	var held runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&held)
	if held.HeapInuse > 256<<20 {
		t.Errorf("this program holds %d MiB after it: want at most 256", held.HeapInuse>>20)
	}
	nextReadsFine(t)
}
