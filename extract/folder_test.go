package extract_test

import (
	"errors"
	"path/filepath"
	"sync"
	"testing"

	"evidencevault/extract/paper"
)

// readFolder reads the papers of a folder that has files/ and truth/, n of each, and
// holds the readings against the truth. Two are read at a time.
func readFolder(t *testing.T, r pages, root string, n int) *board {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(root, "truth", "*.json"))
	if err != nil || len(names) != n {
		t.Fatalf("%s: %d truths, want %d (%v)", root, len(names), n, err)
	}
	readings := make([]paper.Reading, n)
	truths := make([]truth, n)
	failed := make([]error, n)
	for i, name := range names {
		truths[i], _ = readTruth(t, name)
	}
	var wg sync.WaitGroup
	next := make(chan int)
	for range 2 {
		wg.Go(func() {
			for i := range next {
				papers, err := readFile(r, filepath.Join(root, "files", truths[i].name))
				if failed[i] = err; err == nil {
					readings[i] = papers[len(papers)-1].Reading
				}
			}
		})
	}
	for i := range names {
		next <- i
	}
	close(next)
	wg.Wait()
	b := newBoard()
	for i := range names {
		if errors.Is(failed[i], errPicture) {
			continue
		}
		if failed[i] != nil {
			t.Errorf("%s: %v", truths[i].name, failed[i])
			continue
		}
		b.add(truths[i], readings[i])
	}
	if 5*b.n < 2*n {
		t.Errorf("%s: %d of %d papers were read", root, b.n, n)
	}
	return b
}

// shares are what a board must reach: the least shares, in per mille.
type shares struct {
	exact   int // of the values that the papers have
	certain int // of the values called certain, that are right
	papers  int // of the papers, that have no mistake
	silent  int // how many fields may be called certain that must be asked about
}

// holdShares holds the sums over all fields against floors.
func (b *board) holdShares(t *testing.T, floor shares) {
	t.Helper()
	sum := b.sum()
	has := sum.has()
	t.Logf("%d of %d values exact (%d ‰), %d of %d certain values right (%d ‰), %d of %d papers without a mistake, %d silent",
		sum.exact, has, 1000*sum.exact/max(has, 1), sum.certainExact, sum.certain, 1000*sum.certainExact/max(sum.certain, 1), b.right, b.n, sum.silent)
	if 1000*sum.exact < floor.exact*has {
		t.Errorf("%d of %d values are exact, want at least %d ‰", sum.exact, has, floor.exact)
	}
	if 1000*sum.certainExact < floor.certain*sum.certain {
		t.Errorf("%d of %d certain values are right, want at least %d ‰", sum.certainExact, sum.certain, floor.certain)
	}
	if 1000*b.right < floor.papers*b.n {
		t.Errorf("%d of %d papers have no mistake, want at least %d ‰", b.right, b.n, floor.papers)
	}
	if sum.silent > floor.silent {
		t.Errorf("%d fields that must be asked about are called certain, want at most %d", sum.silent, floor.silent)
	}
}
