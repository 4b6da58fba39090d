package extract_test

import (
	"path/filepath"
	"testing"
)

// TestPapersToTheDefinitions reads the papers in testdata/definitions, each written for one
// sentence of what a kind or a field is.
func TestPapersToTheDefinitions(t *testing.T) {
	r := newKept(t)
	b := readFolder(t, r, filepath.Join("testdata", "definitions"), 52)
	b.holdShares(t, shares{exact: 965, certain: 990, silent: 1})
	b.log(t, "definitions")
}
