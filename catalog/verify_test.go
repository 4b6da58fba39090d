package catalog_test

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"evidencevault/catalog"
	"evidencevault/catalog/catalogtest"
)

// Each row that is changed behind the program's back is found, with the old and the
// new value and the claims that hang on it, whatever SQLite's own check says.
func TestChangedRowsAreFound(t *testing.T) {
	tests := []struct {
		name, sql, where, why string
		claim                 bool
	}{
		{"minutes", "UPDATE activity_field SET value='920' WHERE field='duration_minutes'", "activity_field", "value is 920, and the log says 720", true},
		{"category", "UPDATE claim SET category='teaching'", "(C1)", "category is teaching, and the log says course", true},
		{"claim removed", "DELETE FROM claim", "claim", "the row is missing", true},
		{"claim put in", "INSERT INTO claim SELECT 'zz',77,activity,certification,cycle,category,event,made,0,'' FROM claim", "claim zz", "no event makes this row", false},
		{"reading", "UPDATE reading SET body=replace(body,'720','920')", "reading", "and the log says", true},
		{"quote", "UPDATE proof SET quote='900 minutes' WHERE field='duration_minutes'", "proof", "quote is 900 minutes, and the log says “720”", true},
		{"box taken away", "UPDATE proof SET box=NULL WHERE field='title'", "proof", "box is null", true},
		{"proof removed", "DELETE FROM proof WHERE field='duration_minutes'", "proof", "the row is missing", true},
		{"state of a paper", "UPDATE paper SET state='set aside' WHERE number=2", "(P2)", "state is set aside, and the log says unread", false},
		{"file name", "UPDATE evidence_name SET name=x'41' WHERE event=(SELECT min(event) FROM evidence_name)", "evidence_name", "name is A, and the log says splices.txt", true},
		{"cycle's end", "UPDATE cycle SET last='2039-12-31'", "cycle", "last is 2039-12-31, and the log says 2032-12-31", false},
		{"public key", "UPDATE vault SET public='x'", "vault", "public is x", false},
		{"short number", "UPDATE number SET last=1 WHERE letter='P'", "number P", "last is 1, and the log says 2", false},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c, _, _ := full(t)
			sqlite3(t, c, test.sql)
			if got := sqlite3(t, c, "PRAGMA integrity_check"); got != "ok" {
				t.Fatalf("SQLite itself finds it: %s", got)
			}
			found, err := c.Verify(ctx, catalog.VerifyOptions{})
			if err != nil {
				t.Fatal(err)
			}
			i := slices.IndexFunc(found, func(f catalog.Finding) bool {
				return f.What == catalog.WhatRow && strings.Contains(f.Where, test.where) && strings.Contains(f.Why, test.why)
			})
			if i < 0 {
				t.Fatalf("found %+v, want %q: %q", found, test.where, test.why)
			}
			if got := slices.Contains(found[i].Claims, "C1"); got != test.claim {
				t.Errorf("claims touched: %v, want C1 among them: %v", found[i].Claims, test.claim)
			}
		})
	}
}

func TestEvidenceAndSchemesAreJudged(t *testing.T) {
	tests := []struct {
		name   string
		change func(t *testing.T, c *catalog.Catalog, file string) error
		what   string
		why    string
		claims int
	}{
		{"one bit", func(t *testing.T, _ *catalog.Catalog, file string) error {
			if err := os.Chmod(file, 0o600); err != nil {
				return err
			}
			if err := os.WriteFile(file, []byte("Rosalind Achterberg was there for 13 hours"), 0o600); err != nil {
				return err
			}
			return os.Chmod(file, 0o400)
		}, catalog.WhatEvidence, "splices.txt: ", 1},
		{"removed", func(_ *testing.T, _ *catalog.Catalog, file string) error { return os.Remove(file) }, catalog.WhatEvidence, "not in the store", 1},
		{"renamed", func(_ *testing.T, _ *catalog.Catalog, file string) error { return os.Rename(file, file+".bak") }, catalog.WhatEvidence, "it was renamed: want ", 1},
		{"open to others", func(_ *testing.T, _ *catalog.Catalog, file string) error { return os.Chmod(file, 0o444) }, catalog.WhatEvidence, "0444", 1},
		{"a file too many", func(t *testing.T, c *catalog.Catalog, _ string) error {
			_, err := c.Store().Put(ctx, strings.NewReader("never taken in"), -1)
			return err
		}, catalog.WhatEvidence, "no event says", 0},
		{"scheme", func(t *testing.T, c *catalog.Catalog, _ string) error {
			s, err := c.Schemes(ctx)
			if err != nil {
				return err
			}
			return os.Remove(filepath.Join(c.Dir(), "schemes", s[0].SHA256+".toml"))
		}, catalog.WhatScheme, "missing or altered", 1},
		{"folder", func(t *testing.T, c *catalog.Catalog, _ string) error { return os.Chmod(c.Dir(), 0o755) }, catalog.WhatFolder, "0755", 0},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c, _, _ := full(t)
			all, err := c.AllEvidence(ctx)
			if err != nil {
				t.Fatal(err)
			}
			e := all[0]
			if err := test.change(t, c, filepath.Join(c.Dir(), "evidence", e.SHA256[:2], e.SHA256+e.Ext)); err != nil {
				t.Fatal(err)
			}
			found, err := c.Verify(ctx, catalog.VerifyOptions{})
			if err != nil || len(found) != 1 {
				t.Fatalf("found %+v, %v, want one finding", found, err)
			}
			if f := found[0]; f.What != test.what || !strings.Contains(f.Why, test.why) || len(f.Claims) != test.claims || f.Mend == "" {
				t.Errorf("found %+v, want %s with %q and %d claims", f, test.what, test.why, test.claims)
			}
		})
	}
}

// The order of the log is by its numbers; a clock that went back is said.
func TestClockThatWentBackIsAFinding(t *testing.T) {
	now := catalogtest.Noon
	c, err := catalog.Create(ctx, filepath.Join(t.TempDir(), "vault"), catalog.Options{Now: func() time.Time { return now }})
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	now = now.AddDate(-10, 0, 0)
	n := catalogtest.Act(t, c, &catalog.HolderNamed{Name: "Rosalind Achterberg"})
	e, err := c.Event(ctx, n)
	if err != nil || !e.At.Equal(now) || n != 2 {
		t.Errorf("event %d at %v, %v, want 2 at %v", n, e.At, err, now)
	}
	found, err := c.Verify(ctx, catalog.VerifyOptions{})
	if err != nil || len(found) != 1 || found[0].What != catalog.WhatLog || !strings.Contains(found[0].Why, "the clock went back") {
		t.Errorf("found %+v, %v", found, err)
	}
}

func TestHashesOfTheTreeAreMadeAgain(t *testing.T) {
	for name, sql := range map[string]string{
		"altered":  "UPDATE tree SET hash=zeroblob(32) WHERE id=2",
		"removed":  "DELETE FROM tree WHERE id=2",
		"too many": "INSERT INTO tree VALUES (1000, zeroblob(32))",
	} {
		c, _, _ := full(t)
		sqlite3(t, c, sql)
		found, err := c.Verify(ctx, catalog.VerifyOptions{})
		if err != nil || len(found) != 1 || found[0].What != catalog.WhatLog {
			t.Errorf("%s: found %+v, %v, want one finding on the log", name, found, err)
		}
	}
}

func TestVerifyEndsWithItsContext(t *testing.T) {
	c, _, _ := full(t)
	ended, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := c.Verify(ended, catalog.VerifyOptions{}); err == nil {
		t.Error("verified without reading")
	}
}
