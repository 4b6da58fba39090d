package catalog_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"evidencevault/catalog"
	"evidencevault/catalog/catalogtest"
	"evidencevault/evidence"
	"evidencevault/extract/paper"
)

// decided takes one evidence in, reads and confirms it, with an activity and a proof.
func decided(t *testing.T, c *catalog.Catalog, text, name string) (sha256, activity string) {
	t.Helper()
	kept, err := c.Store().Put(ctx, strings.NewReader(text), int64(len(text)))
	if err != nil {
		t.Fatal(err)
	}
	p, activity := catalog.NewID(), catalog.NewID()
	act := func(bodies ...catalog.Body) (last int64) {
		err := c.Act(ctx, func(tx *catalog.Tx) error {
			for _, b := range bodies {
				n, err := tx.Record(ctx, b)
				if err != nil {
					return err
				}
				last = n
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		return last
	}
	act(&catalog.EvidenceTaken{SHA256: kept.SHA256, Size: kept.Size, Type: kept.Type, Ext: kept.Ext, Name: catalog.FileName(name), Paper: p, Number: 1})
	act(&catalog.NameAdded{SHA256: kept.SHA256, Name: "second name.txt"})
	place := paper.Place{Page: 2, Box: paper.Box{7200, 19000, 30000, 20200}, Quote: "words that were read"}
	reading := act(&catalog.ReadingMade{Paper: p, Reading: paper.Reading{Outcome: paper.OutcomeRead, From: 1, To: 3,
		Values: map[paper.Field]paper.Value{paper.FieldTitle: {Text: "Knots", By: paper.ByProgram, Certain: true, Place: place}}}})
	act(&catalog.PaperConfirmed{Paper: p},
		&catalog.ActivityMade{ID: activity, Number: 1, Paper: p, Fields: map[paper.Field]string{paper.FieldTitle: "Knots"}},
		&catalog.ProofLinked{Activity: activity, Field: paper.FieldTitle, Evidence: kept.SHA256, Paper: p, Reading: reading, Page: 2, Value: "Knots", By: paper.ByProgram})
	return kept.SHA256, activity
}

func deleteIt(t *testing.T, c *catalog.Catalog, sha256 string) {
	t.Helper()
	if err := c.Act(ctx, func(tx *catalog.Tx) error { return tx.DeleteEvidence(ctx, sha256, "time of keeping over") }); err != nil {
		t.Fatal(err)
	}
	if err := c.Sweep(ctx); err != nil {
		t.Fatal(err)
	}
}

func sound(t *testing.T, c *catalog.Catalog, when string) {
	t.Helper()
	found, err := c.Verify(ctx, catalog.VerifyOptions{})
	if err != nil || len(found) > 0 {
		t.Fatalf("%s: verify found %v, %v", when, found, err)
	}
}

// A deletion takes the file, the names and every word that was read; hash, first name,
// value and page stay, and the rows can still be made again from the log.
func TestDeletionTakesTheWordsAndKeepsTheFigures(t *testing.T) {
	c := catalogtest.New(t)
	sha256, activity := decided(t, c, "a certificate", "first name.txt")
	deleteIt(t, c, sha256)
	sound(t, c, "after the deletion")
	if err := c.Store().Check(ctx, sha256); !errors.Is(err, evidence.ErrMissing) {
		t.Errorf("the file: %v, want it gone", err)
	}
	e, err := c.Evidence(ctx, sha256)
	if err != nil || e.Deleted == 0 || len(e.Names) != 1 || e.Names[0].Name != "first name.txt" {
		t.Errorf("the row: %+v, %v, want it marked, with its first name", e, err)
	}
	proofs, err := c.Proofs(ctx, activity)
	if err != nil || len(proofs) != 1 || proofs[0].Value != "Knots" || proofs[0].Place.Page != 2 || proofs[0].Place.Quote != "" || proofs[0].Reading != 0 {
		t.Errorf("the proof: %+v, %v, want value and page without words", proofs, err)
	}
	events, err := c.Events(ctx, 1, 0)
	if err != nil {
		t.Fatal(err)
	}
	blanked := 0
	for _, e := range events {
		if e.Body == nil {
			blanked++
		}
		if strings.Contains(string(e.Body), "words that were read") || strings.Contains(string(e.Body), "second name") {
			t.Errorf("event %d still says %s", e.Number, e.Body)
		}
	}
	if blanked != 3 {
		t.Errorf("%d bodies blanked, want the taking-in, the name and the reading", blanked)
	}
	if err := c.Act(ctx, func(tx *catalog.Tx) error { return tx.DeleteEvidence(ctx, sha256, "again") }); !errors.Is(err, catalog.ErrUnknown) {
		t.Errorf("deleted twice: %v", err)
	}
	c = catalogtest.Reopen(t, c)
	sound(t, c, "after it was opened again")
	for _, name := range []string{"catalog.db", "catalog.db-wal"} {
		data, err := os.ReadFile(filepath.Join(c.Dir(), name))
		if err != nil && !errors.Is(err, os.ErrNotExist) {
			t.Fatal(err)
		}
		if strings.Contains(string(data), "words that were read") {
			t.Errorf("%s still holds the words", name)
		}
	}
}

// What was deleted and comes again is kept again, since nothing dropped is lost, and
// can be deleted again.
func TestDeletedEvidenceComesAgain(t *testing.T) {
	c := catalogtest.New(t)
	sha256, _ := decided(t, c, "a certificate", "first name.txt")
	deleteIt(t, c, sha256)
	if _, err := c.Store().Put(ctx, strings.NewReader("a certificate"), 13); err != nil {
		t.Fatal(err)
	}
	again := catalog.NewID()
	err := c.Act(ctx, func(tx *catalog.Tx) error {
		if err := tx.InStore(sha256); err != nil {
			return err
		}
		_, err := tx.Record(ctx, &catalog.EvidenceReturned{SHA256: sha256, Name: "third name.txt", Paper: again, Number: 2})
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	sound(t, c, "after it came again")
	if e, err := c.Evidence(ctx, sha256); err != nil || e.Deleted != 0 || len(e.Names) != 2 {
		t.Errorf("%+v, %v: want it there, with the new name", e, err)
	}
	if p, err := c.Paper(ctx, again); err != nil || p.State != catalog.Unread {
		t.Errorf("%+v, %v: want a new paper to be read", p, err)
	}
	if err := c.Act(ctx, func(tx *catalog.Tx) error {
		_, err := tx.Record(ctx, &catalog.PaperSetAside{Paper: again, Why: "twice"})
		return err
	}); err != nil {
		t.Fatal(err)
	}
	deleteIt(t, c, sha256)
	sound(t, c, "after the second deletion")
}

// A file that a stop left behind is removed at the next start, and until then it is a
// finding.
func TestFileLeftByADeletionIsSwept(t *testing.T) {
	c := catalogtest.New(t)
	sha256, _ := decided(t, c, "a certificate", "first name.txt")
	if err := c.Act(ctx, func(tx *catalog.Tx) error { return tx.DeleteEvidence(ctx, sha256, "over") }); err != nil {
		t.Fatal(err)
	}
	found, err := c.Verify(ctx, catalog.VerifyOptions{})
	if err != nil || len(found) != 1 || found[0].What != catalog.WhatEvidence {
		t.Fatalf("before the sweep: %v, %v, want one finding", found, err)
	}
	sound(t, catalogtest.Reopen(t, c), "after the next start")
}

// A body that is gone without a deletion that names it is found.
func TestBodyGoneWithoutDeletionIsFound(t *testing.T) {
	c := catalogtest.New(t)
	decided(t, c, "a certificate", "first name.txt")
	sqlite3(t, c, "UPDATE event SET body = NULL WHERE kind = 'reading made'")
	found, err := c.Verify(ctx, catalog.VerifyOptions{})
	if err != nil || len(found) == 0 {
		t.Fatalf("%v, %v: want a finding", found, err)
	}
	said := false
	for _, f := range found {
		said = said || strings.Contains(f.Why, "no deletion names it")
	}
	if !said {
		t.Errorf("found %v, want one that says that no deletion names the event", found)
	}
}
