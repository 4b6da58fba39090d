package journal_test

import (
	"errors"
	"os"
	"testing"

	"evidencevault/credit"
	"evidencevault/journal"
)

func TestAboutSaysWhatTheVaultIsFor(t *testing.T) {
	v := newVault(t)
	if err := v.SetFact(v.ctx, journal.FormerName, "Mara  Oldname", credit.Date{}); err != nil {
		t.Fatal(err)
	}
	about, err := v.About(v.ctx)
	if err != nil || about.Holder != holder || len(about.Former) != 1 || about.Former[0] != "Mara Oldname" {
		t.Fatalf("%+v, %v", about, err)
	}
	if c := about.Certifications[0]; c.ID != "demo" || c.Start.String() != "2025-01-01" || about.Drops[0].Missing {
		t.Fatalf("%+v", about)
	}
	if err := os.Remove(about.Drops[0].Dir); err != nil {
		t.Fatal(err)
	}
	if about, err = v.About(v.ctx); err != nil || !about.Drops[0].Missing {
		t.Fatalf("a drop folder that is gone is not said: %+v, %v", about, err)
	}
}

func TestPaperIDsAreUUIDsOfPapers(t *testing.T) {
	v := newVault(t)
	v.take("a.pdf", course("A", "2026-03-03"))
	v.take("b.pdf", course("B", "2026-03-04"))
	ids, err := v.PaperIDs(v.ctx, []string{"P1-P2"})
	if err != nil || len(ids) != 2 {
		t.Fatalf("%v, %v", ids, err)
	}
	r := v.confirm(journal.ConfirmOptions{}, ids[1]) // a UUID does as well as P2
	if r.Claims[0].Title != "B" {
		t.Fatalf("%+v", r)
	}
	if _, err := v.PaperIDs(v.ctx, []string{"C1"}); !errors.Is(err, journal.ErrReference) {
		t.Fatalf("a claim: %v", err)
	}
}
