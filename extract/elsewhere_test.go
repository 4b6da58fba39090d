package extract_test

import (
	"path/filepath"
	"testing"
)

// TestPapersFromElsewhere reads papers in French, Spanish and Dutch, and in formats other
// than PDF, that were written before any rule was looked at. Only the half "shown" was
// looked at when rules were mended.
func TestPapersFromElsewhere(t *testing.T) {
	r := newReader(t)
	for half, floor := range map[string]shares{
		"shown": {exact: 950, certain: 955, papers: 750},
		"apart": {exact: 895, certain: 965, papers: 600},
	} {
		t.Run(half, func(t *testing.T) {
			b := readFolder(t, r, filepath.Join("testdata", "elsewhere", half), 35)
			b.holdShares(t, floor)
			if half == "shown" {
				b.log(t, half)
			}
		})
	}
}
