package extract_test

import (
	"path/filepath"
	"testing"
)

// TestHandPapers reads the papers in testdata/hand, each written by hand for itself, and
// holds each half against a floor of its own: what was looked at while the rules were
// made, and what was kept apart.
func TestHandPapers(t *testing.T) {
	r := newKept(t)
	for half, floor := range map[string]shares{
		"shown": {exact: 985, certain: 985},
		"apart": {exact: 920, certain: 975, silent: 1},
	} {
		papers := map[string]int{"shown": 64, "apart": 41}[half]
		t.Run(half, func(t *testing.T) {
			b := readFolder(t, r, filepath.Join("testdata", "hand", half), papers)
			b.holdShares(t, floor)
			if half == "shown" {
				b.log(t, half) // the mistakes of the other half are not to be looked at one by one
			}
		})
	}
}
