package extract_test

import (
	"path/filepath"
	"testing"
)

// TestBlindPapers reads the papers in testdata/blind, written by somebody who had seen
// neither the rules nor the other papers. What was measured before anything was mended is
// in its README.md; the half "apart" is never looked at but for its sums.
func TestBlindPapers(t *testing.T) {
	r := newReader(t)
	for half, floor := range map[string]shares{
		"shown": {exact: 965, certain: 985},
		"apart": {exact: 850, certain: 945, silent: 1},
	} {
		t.Run(half, func(t *testing.T) {
			b := readFolder(t, r, filepath.Join("testdata", "blind", half), 28)
			b.holdShares(t, floor)
			if half == "shown" {
				b.log(t, half)
			}
		})
	}
}
