package audit_test

import (
	"fmt"
	"io"
	"path/filepath"
	"testing"
	"time"

	"evidencevault/audit"
)

// TestIndexGrowsWithItsClaims holds the processor time of an index without its originals to
// the number of claims, and to that of its JSON form, which is made in the same run: so the
// bound holds on any machine, however busy. [BenchmarkIndex] gives the figures.
func TestIndexGrowsWithItsClaims(t *testing.T) {
	const few, many = 250, 1000
	short, _ := indexed(t, few)
	long, json := indexed(t, many)
	t.Logf("%d claims %v, %d claims %v, JSON alone %v", few, short, many, long, json)
	if long > 2*short*many/few {
		t.Errorf("%d claims took %v, %d took %v: more than twice as long for each", few, short, many, long)
	}
	if most := 25 * json; long > most {
		t.Errorf("the index of %d claims took %v, 25 times its JSON form is %v", many, long, most)
	}
}

// indexed returns the processor time that an index of n claims took from the vault to the
// folder, and its JSON form alone: the least of three.
func indexed(t *testing.T, n int) (whole, alone time.Duration) {
	j := largeVault(t, n, func(i int) []byte { return fmt.Appendf(nil, "%%PDF-1.4 certificate %d", i) })
	least := func(had, began time.Duration) time.Duration {
		took := spent() - began
		if had > 0 {
			return min(had, took)
		}
		return took
	}
	for range 3 {
		began := spent()
		d, err := audit.Gather(t.Context(), j, "", on)
		if err != nil {
			t.Fatal(err)
		}
		d.Originals = nil
		if err := audit.WriteIndex(t.Context(), j.Catalog().Store(), d, filepath.Join(t.TempDir(), "index")); err != nil {
			t.Fatal(err)
		}
		whole = least(whole, began)
		began = spent()
		if err := d.WriteJSON(io.Discard); err != nil {
			t.Fatal(err)
		}
		alone = least(alone, began)
	}
	return whole, alone
}
