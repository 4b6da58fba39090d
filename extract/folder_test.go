package extract_test

import (
	"path/filepath"
	"testing"

	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// readFolder reads every paper of a folder that has files/ and truth/, and holds the
// readings against the truth.
func readFolder(t *testing.T, r *page.Reader, root string) *board {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(root, "truth", "*.json"))
	if err != nil || len(names) < 12 {
		t.Fatalf("%s: %d truths, want at least 12 (%v)", root, len(names), err)
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

// shares are the least shares that a board must reach, in per mille.
type shares struct {
	exact   int // of the values that the papers have
	certain int // of the values called certain, that are right
	papers  int // of the papers, that have no mistake
}

// holdShares holds the sums over all fields against floors.
func (b *board) holdShares(t *testing.T, floor shares) {
	t.Helper()
	var sum tally
	for _, f := range paper.Fields() {
		c := b.fields[f]
		sum.exact, sum.wrong, sum.missing = sum.exact+c.exact, sum.wrong+c.wrong, sum.missing+c.missing
		sum.certain, sum.certainExact = sum.certain+c.certain, sum.certainExact+c.certainExact
		sum.silent += c.silent
	}
	has := sum.exact + sum.wrong + sum.missing
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
	if sum.silent > 0 {
		t.Errorf("%d fields that must be asked about are called certain", sum.silent)
	}
}
