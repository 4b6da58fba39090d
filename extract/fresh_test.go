package extract_test

import (
	"path/filepath"
	"testing"
)

// TestFreshPapers reads the papers in testdata/fresh, the last that were written without a
// look at the rules; what was measured at the first reading is in their README.md.
func TestFreshPapers(t *testing.T) {
	r := newKept(t)
	b := readFolder(t, r, filepath.Join("testdata", "fresh"), 24)
	b.holdShares(t, shares{exact: 910, certain: 970})
	b.log(t, "fresh")
}
