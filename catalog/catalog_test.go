package catalog_test

import (
	"context"
	"testing"

	"evidencevault/catalog"
	"evidencevault/catalog/catalogtest"
)

var ctx = context.Background()

// full returns a vault with one confirmed paper, one unread, and a claim.
func full(t *testing.T) (c *catalog.Catalog, activity, claim string) {
	t.Helper()
	c = catalogtest.New(t)
	certification, cycle := catalogtest.Certification(t, c, "id = \"demo\"\n")
	_, p := catalogtest.Take(t, c, "splices.txt", "Rosalind Achterberg was there for 12 hours")
	activity, claim = catalogtest.Confirm(t, c, p, certification, cycle, "course")
	catalogtest.Take(t, c, "flyer.txt", "Come to the fair")
	return c, activity, claim
}

// clean fails the test if verify finds anything.
func clean(t *testing.T, c *catalog.Catalog) {
	t.Helper()
	found, err := c.Verify(ctx, catalog.VerifyOptions{})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range found {
		t.Errorf("finding: %+v", f)
	}
}

func TestAWholeVaultVerifies(t *testing.T) {
	c, _, _ := full(t)
	clean(t, c)
	c = catalogtest.Reopen(t, c)
	if err := c.Trouble(); err != nil {
		t.Fatal(err)
	}
	clean(t, c)
}
