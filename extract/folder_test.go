package extract_test

import (
	"path/filepath"
	"testing"

	"evidencevault/extract/page"
)

// readFolder reads the papers of a folder that has files/ and truth/, n of each, and
// holds the readings against the truth.
func readFolder(t *testing.T, r *page.Reader, root string, n int) *board {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(root, "truth", "*.json"))
	if err != nil || len(names) != n {
		t.Fatalf("%s: %d truths, want %d (%v)", root, len(names), n, err)
	}
	b := newBoard()
	for _, name := range names {
		want, file := readTruth(t, name)
		papers, err := readFile(r, filepath.Join(root, "files", file))
		if err != nil {
			t.Errorf("%s: %v", file, err)
			continue
		}
		b.add(want, papers[len(papers)-1].Reading)
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
