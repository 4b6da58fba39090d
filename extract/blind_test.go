package extract_test

import (
	"path/filepath"
	"testing"

	"evidencevault/extract/page"
)

// TestBlindPapers reads the papers in testdata/blind, written by somebody who had seen
// neither the rules nor the other papers. What was measured before anything was mended is
// in its README.md; the half "apart" is never looked at but for its sums.
func TestBlindPapers(t *testing.T) {
	r := page.NewReader(page.Options{Pool: 2})
	t.Cleanup(func() {
		if err := r.Close(); err != nil {
			t.Error(err)
		}
	})
	for half, floor := range map[string]shares{
		"shown": {exact: 970, certain: 990},
		"apart": {exact: 700, certain: 895},
	} {
		t.Run(half, func(t *testing.T) {
			b := readFolder(t, r, filepath.Join("testdata", "blind", half), 20)
			b.holdShares(t, floor)
			if half == "shown" {
				b.log(t, half)
			}
		})
	}
}
