package extract_test

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"evidencevault/extract"
	"evidencevault/extract/extracttest"
	"evidencevault/extract/page"
)

// wornAsked is what the environment asks of [TestWornPapers]: WORN papers of SEED, with
// the wears that WEARS lists, parted by commas. KEEP names a folder for the pictures.
func wornAsked(t *testing.T) (count int, seed uint64, wears []string) {
	t.Helper()
	count, seed = 1, 808
	if v := os.Getenv("WORN"); v != "" {
		n, err := strconv.Atoi(v)
		if err != nil || n < 1 {
			t.Fatalf("WORN %q: want a whole number above 0", v)
		}
		count = n
	}
	if v := os.Getenv("SEED"); v != "" {
		n, err := strconv.ParseUint(v, 10, 64)
		if err != nil {
			t.Fatalf("SEED: %v: want a whole number", err)
		}
		seed = n
	}
	if v := os.Getenv("WEARS"); v != "" {
		return count, seed, strings.Split(v, ",")
	}
	if os.Getenv("WORN") == "" { // in a hurry
		return count, seed, []string{"turned left", "photo", "fax"}
	}
	return count, seed, append([]string{"none"}, extracttest.Wears()...)
}

// firstPDFs draws papers until n of them are PDFs.
func firstPDFs(seed uint64, n int) []extracttest.Made {
	all := slices.DeleteFunc(extracttest.Make(seed, 2*n+8), func(m extracttest.Made) bool { return m.Truth.Format != "pdf" })
	return all[:min(n, len(all))]
}

// TestWornPapers wears drawn papers in ways that have nothing in common with the scans
// that the reading was tuned on.
func TestWornPapers(t *testing.T) {
	count, seed, wears := wornAsked(t)
	// How long it takes is judged elsewhere: here a slow machine must not leave pages unread.
	r := page.NewReader(page.Options{Pool: 2, PageTime: 5 * time.Minute, OCRTime: 20 * time.Minute})
	t.Cleanup(func() {
		if err := r.Close(); err != nil {
			t.Error(err)
		}
	})
	all := newBoard()
	for _, wear := range wears {
		b := newBoard()
		var took []time.Duration
		for i, m := range firstPDFs(seed, count) {
			if wear != "none" {
				var err error
				if m, err = extracttest.Worn(m, wear, seed<<8+uint64(i)); err != nil {
					t.Fatal(err)
				}
			}
			keep(t, wear, m)
			start := time.Now()
			papers, err := extract.Read(context.Background(), r, bytes.NewReader(m.Data), extract.Hints{})
			if err != nil {
				t.Fatalf("%s: %v", m.Name, err)
			}
			took = append(took, time.Since(start))
			b.add(truthOf(t, m), papers[len(papers)-1].Reading)
			if wear != "none" {
				all.add(truthOf(t, m), papers[len(papers)-1].Reading)
			}
		}
		slices.Sort(took)
		b.report(t, wear+" | "+took[len(took)/2].Round(10*time.Millisecond).String(), false)
		for _, m := range b.mistakes {
			t.Log(m)
		}
	}
	all.report(t, "worn", len(wears) > 3)
	sum := all.sum()
	if 100*sum.exact < 70*sum.has() || 100*sum.certainExact < 95*sum.certain {
		t.Errorf("%d of %d values are exact and %d of %d certain ones right, want at least 70 %% and 95 %%", sum.exact, sum.has(), sum.certainExact, sum.certain)
	}
}

// keep writes a paper into the folder that KEEP names, if it names one.
func keep(t *testing.T, wear string, m extracttest.Made) {
	t.Helper()
	dir := os.Getenv("KEEP")
	if dir == "" {
		return
	}
	dir = filepath.Join(dir, strings.ReplaceAll(wear, " ", "-"))
	if err := os.MkdirAll(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, m.Name), m.Data, 0o600); err != nil {
		t.Fatal(err)
	}
}
