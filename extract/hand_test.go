package extract_test

import (
	"path/filepath"
	"testing"

	"evidencevault/extract/page"
)

// TestHandPapers reads the papers in testdata/hand, each written by hand for itself, and
// holds each half against a floor of its own: what was looked at while the rules were
// made, and what was kept apart.
func TestHandPapers(t *testing.T) {
	r := page.NewReader(page.Options{Pool: 2})
	t.Cleanup(func() {
		if err := r.Close(); err != nil {
			t.Error(err)
		}
	})
	for half, least := range map[string]struct{ papers, exact, sure int }{"shown": {41, 970, 980}, "apart": {41, 820, 930}} {
		t.Run(half, func(t *testing.T) {
			root := filepath.Join("testdata", "hand", half)
			names, err := filepath.Glob(filepath.Join(root, "truth", "*.json"))
			if err != nil || len(names) != least.papers {
				t.Fatalf("%s: %d truths, want %d (%v)", root, len(names), least.papers, err)
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
			if half == "shown" {
				b.log(t, half) // the mistakes of the other half are not to be looked at one by one
			}
			sum := b.sum()
			t.Logf("%s: %d of %d values exact; %d certain, %d of them right; %d questions too many; %d silent", half, sum.exact, sum.has(), sum.certain, sum.certainExact, sum.needless, sum.silent)
			if 1000*sum.exact < least.exact*sum.has() {
				t.Errorf("%d of %d values are exact, want at least %d in a thousand", sum.exact, sum.has(), least.exact)
			}
			if 1000*sum.certainExact < least.sure*sum.certain {
				t.Errorf("%d of %d certain values are right, want at least %d in a thousand", sum.certainExact, sum.certain, least.sure)
			}
		})
	}
}
