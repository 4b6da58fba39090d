package extract_test

import (
	"path/filepath"
	"testing"

	"evidencevault/extract/page"
)

// TestPapersToTheDefinitions reads the papers in testdata/definitions, each written for one
// sentence of what a kind or a field is.
func TestPapersToTheDefinitions(t *testing.T) {
	r := page.NewReader(page.Options{Pool: 2})
	t.Cleanup(func() {
		if err := r.Close(); err != nil {
			t.Error(err)
		}
	})
	b := readFolder(t, r, filepath.Join("testdata", "definitions"), 52)
	b.holdShares(t, shares{exact: 965, certain: 990, silent: 1})
	b.log(t, "definitions")
}
