// Package catalogtest gives the tests of other packages a ready vault in a temporary
// folder, with a clock that stands still.
package catalogtest

import (
	"context"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/evidence"
	"evidencevault/extract/paper"
)

// Noon is the time of every vault of this package.
var Noon = time.Date(2031, time.March, 14, 12, 0, 0, 0, time.UTC)

// Options returns options with a clock that stands at [Noon].
func Options() catalog.Options {
	return catalog.Options{Now: func() time.Time { return Noon }}
}

// New returns a vault with nothing but its first event. It is closed when the test ends.
func New(t testing.TB) *catalog.Catalog {
	t.Helper()
	c, err := catalog.Create(context.Background(), filepath.Join(t.TempDir(), "vault"), Options())
	if err != nil {
		t.Fatal(err)
	}
	closeLater(t, c)
	return c
}

// Reopen closes a vault and opens it again.
func Reopen(t testing.TB, c *catalog.Catalog) *catalog.Catalog {
	t.Helper()
	if err := c.Close(); err != nil {
		t.Fatal(err)
	}
	again, err := catalog.Open(context.Background(), c.Dir(), Options())
	if err != nil {
		t.Fatal(err)
	}
	closeLater(t, again)
	return again
}

func closeLater(t testing.TB, c *catalog.Catalog) {
	t.Cleanup(func() {
		if err := c.Close(); err != nil {
			t.Error(err)
		}
	})
}

// Act records bodies in one act and returns the number of the last event.
func Act(t testing.TB, c *catalog.Catalog, bodies ...catalog.Body) int64 {
	t.Helper()
	var last int64
	err := c.Act(context.Background(), func(tx *catalog.Tx) error {
		for _, b := range bodies {
			n, err := tx.Record(context.Background(), b)
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

// Next returns the short number that the next act may use.
func Next(t testing.TB, c *catalog.Catalog, l catalog.Letter) int {
	t.Helper()
	var n int
	err := c.Act(context.Background(), func(tx *catalog.Tx) (err error) {
		n, err = tx.Next(context.Background(), l)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// Certification adds a certification named "demo" under a scheme with these bytes, and
// opens a cycle of four years from 2029-01-01. It returns both ids.
func Certification(t testing.TB, c *catalog.Catalog, scheme string) (certification, cycle string) {
	t.Helper()
	sha, err := c.KeepScheme([]byte(scheme))
	if err != nil {
		t.Fatal(err)
	}
	certification, cycle = catalog.NewID(), catalog.NewID()
	Act(t, c,
		&catalog.HolderNamed{Name: "Rosalind Achterberg"},
		&catalog.SchemeKept{SHA256: sha, ID: "demo", Version: "1", File: "demo.toml"},
		&catalog.CertificationAdded{ID: certification, Name: "demo", Title: "Ropeway Inspector", Scheme: "demo", Number: "RI-0417"},
		&catalog.CycleOpened{ID: cycle, Certification: certification, Start: credit.MustDate("2029-01-01"), End: credit.MustDate("2032-12-31"), Scheme: sha},
	)
	return certification, cycle
}

// Take stores a text as an evidence and records that it was taken in under a name. It
// returns the evidence and the id of its paper, which is unread.
func Take(t testing.TB, c *catalog.Catalog, name, text string) (evidence.Kept, string) {
	t.Helper()
	kept, err := c.Store().Put(context.Background(), strings.NewReader(text), int64(len(text)))
	if err != nil {
		t.Fatal(err)
	}
	id := catalog.NewID()
	Act(t, c, &catalog.EvidenceTaken{SHA256: kept.SHA256, Size: kept.Size, Type: kept.Type, Ext: kept.Ext,
		Name: catalog.FileName(name), Paper: id, Number: Next(t, c, catalog.LetterPaper)})
	return kept, id
}

// Reading returns the reading of a certificate of attendance in which nothing is open.
func Reading() paper.Reading {
	certain := func(text string, top int) paper.Value {
		return paper.Value{Text: text, Certain: true, By: paper.ByProgram, Place: paper.Place{
			Page: 1, Box: paper.Box{7200, top, 30000, top + 1200}, Quote: "“" + text + "”"}}
	}
	return paper.Reading{Outcome: paper.OutcomeRead, From: 1, To: 1, Language: "en-GB", Reader: "test", Values: map[paper.Field]paper.Value{
		paper.FieldKind:     certain(string(paper.Attendance), 7200),
		paper.FieldTitle:    certain("Rope Splices & Sockets", 9000),
		paper.FieldProvider: certain("Kettleburn Cableway School", 11000),
		paper.FieldAttendee: certain("Rosalind Achterberg", 13000),
		paper.FieldStart:    certain("2030-05-06", 15000),
		paper.FieldEnd:      certain("2030-05-07", 17000),
		paper.FieldDuration: certain("720", 19000),
	}}
}

// Confirm records that a paper was read as [Reading] and confirmed: an activity with a
// proof of each field, and a claim. It returns the ids of activity and claim.
func Confirm(t testing.TB, c *catalog.Catalog, paperID, certification, cycle, category string) (activity, claim string) {
	t.Helper()
	ctx := context.Background()
	activity, claim = catalog.NewID(), catalog.NewID()
	err := c.Act(ctx, func(tx *catalog.Tx) error {
		p, err := tx.Paper(ctx, paperID)
		if err != nil {
			return err
		}
		r := Reading()
		event, err := tx.Record(ctx, &catalog.ReadingMade{Paper: paperID, Reading: r})
		if err != nil {
			return err
		}
		a, err := tx.Next(ctx, catalog.LetterActivity)
		if err != nil {
			return err
		}
		n, err := tx.Next(ctx, catalog.LetterClaim)
		if err != nil {
			return err
		}
		fields := map[paper.Field]string{}
		for f, v := range r.Values {
			fields[f] = v.Text
		}
		bodies := []catalog.Body{&catalog.PaperConfirmed{Paper: paperID}, &catalog.ActivityMade{ID: activity, Number: a, Paper: paperID, Fields: fields}}
		for _, f := range paper.Fields() {
			if v, ok := r.Values[f]; ok {
				bodies = append(bodies, &catalog.ProofLinked{Activity: activity, Field: f, Evidence: p.SHA256, Paper: paperID,
					Reading: event, Page: 1, Value: v.Text, By: paper.ByProgram})
			}
		}
		bodies = append(bodies, &catalog.ClaimMade{ID: claim, Number: n, Activity: activity, Certification: certification, Cycle: cycle, Category: category})
		for _, b := range bodies {
			if _, err := tx.Record(ctx, b); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return activity, claim
}
