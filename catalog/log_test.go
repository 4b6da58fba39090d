package catalog_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"evidencevault/catalog"
	"evidencevault/catalog/catalogtest"
)

// copied returns the bytes of a vault's file and a function that puts them back.
func copied(t *testing.T, c *catalog.Catalog, name string) (back func()) {
	t.Helper()
	path := filepath.Join(c.Dir(), name)
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return func() {
		t.Helper()
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
}

// reading checks that a vault answers although nothing may be written.
func reading(t *testing.T, c *catalog.Catalog, name string, want error) {
	t.Helper()
	if err := c.Trouble(); !errors.Is(err, want) || strings.Contains(err.Error(), "\n") {
		t.Errorf("%s: trouble %v, want %v in one line", name, err, want)
	}
	before, err := os.ReadFile(filepath.Join(c.Dir(), "head"))
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	err = c.Act(ctx, func(tx *catalog.Tx) error {
		_, err := tx.Record(ctx, &catalog.HolderNamed{Name: "Nobody"})
		return err
	})
	if !errors.Is(err, want) {
		t.Errorf("%s: an act gives %v, want %v", name, err, want)
	}
	if after, err := os.ReadFile(filepath.Join(c.Dir(), "head")); err == nil && string(after) != string(before) {
		t.Errorf("%s: the head was signed anew", name)
	}
	if h, err := c.Holder(ctx); err != nil || h.Name == "Nobody" {
		t.Errorf("%s: the holder is %q, %v", name, h.Name, err)
	}
	if _, err := c.Claims(ctx, catalog.ClaimFilter{}); err != nil {
		t.Errorf("%s: claims cannot be read: %v", name, err)
	}
	if found, err := c.Verify(ctx, catalog.VerifyOptions{}); err != nil || len(found) == 0 {
		t.Errorf("%s: verify finds nothing (%v)", name, err)
	}
}

func TestAlteredLogIsNoticedAtTheStart(t *testing.T) {
	tests := []struct{ name, sql, said string }{
		{"one removed", "DELETE FROM event WHERE number=4", "event 4 was removed; nothing is proven from event 4 on"},
		{"the newest removed", "DELETE FROM event WHERE number=(SELECT max(number) FROM event)", "the newest are lost"},
		{"the first removed", "DELETE FROM event WHERE number=1", "event 1 was removed"},
		{"a body altered", "UPDATE event SET body=replace(body,'12 hours','19 hours'), body=replace(body,'720','920') WHERE kind='reading made'", "was altered"},
		{"a time altered", "UPDATE event SET at='2030-03-14T12:00:00.000Z' WHERE number=3", "event 3 (scheme kept) was altered"},
		{"a time that is none", "UPDATE event SET at='yesterday' WHERE number=3", "event 3 was altered"},
		{"two swapped", "UPDATE event SET number=1000 WHERE number=2; UPDATE event SET number=2 WHERE number=3; UPDATE event SET number=3, act=2 WHERE number=1000", "put in another place"},
		{"one put in", "INSERT INTO event VALUES ((SELECT max(number)+1 FROM event),(SELECT max(number)+1 FROM event),'2031-03-14T12:00:00.000Z','holder named','{\"name\":\"X\"}')", "was altered"},
		{"a leaf and its event", "UPDATE event SET kind='name added' WHERE number=5; DELETE FROM tree WHERE id=(SELECT max(id) FROM tree)", "event 5 (name added) was altered"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			c, _, _ := full(t)
			sqlite3(t, c, test.sql)
			c = catalogtest.Reopen(t, c)
			reading(t, c, test.name, catalog.ErrLog)
			var bad *catalog.LogError
			if err := c.Trouble(); !errors.As(err, &bad) || !strings.Contains(err.Error(), test.said) || !strings.Contains(err.Error(), "restore a backup") {
				t.Errorf("said %v, want %q and the way out", c.Trouble(), test.said)
			}
		})
	}
}

// A lost -wal looks like nothing to SQLite: its own check says ok.
func TestLostWALIsNoticed(t *testing.T) {
	c := catalogtest.New(t)
	if err := c.Close(); err != nil { // everything so far is in the main file
		t.Fatal(err)
	}
	c, err := catalog.Open(ctx, c.Dir(), catalogtest.Options())
	if err != nil {
		t.Fatal(err)
	}
	kept, _ := catalogtest.Take(t, c, "splices.txt", "twelve hours")
	// What a killed program leaves: the files as they are now, without the -wal.
	dir := filepath.Join(t.TempDir(), "vault")
	if err := os.CopyFS(dir, os.DirFS(c.Dir())); err != nil {
		t.Fatal(err)
	}
	if err := c.Close(); err != nil {
		t.Fatal(err)
	}
	for name, mode := range map[string]os.FileMode{"": 0o700, "key": 0o600} {
		if err := os.Chmod(filepath.Join(dir, name), mode); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range []string{"catalog.db-wal", "catalog.db-shm"} {
		if err := os.Remove(filepath.Join(dir, name)); err != nil {
			t.Fatal(err)
		}
	}
	lost, err := catalog.Open(ctx, dir, catalogtest.Options())
	if err != nil {
		t.Fatal(err)
	}
	defer lost.Close()
	if got := sqlite3(t, lost, "PRAGMA integrity_check; SELECT count(*) FROM event"); got != "ok\n1" {
		t.Fatalf("the -wal was not really lost: %s", got)
	}
	reading(t, lost, "lost -wal", catalog.ErrLog)
	left, err := lost.Orphans(ctx)
	if err != nil || len(left) != 1 || left[0].SHA256 != kept.SHA256 {
		t.Errorf("evidence without a row: %v, %v, want %s", left, err, kept.SHA256)
	}
}

func TestOneUnsignedActIsTakenOver(t *testing.T) {
	c, _, _ := full(t)
	back := copied(t, c, "head")
	p, err := c.Papers(ctx, catalog.Unread)
	if err != nil || len(p) != 1 {
		t.Fatal(p, err)
	}
	last := catalogtest.Act(t, c, &catalog.PaperSetAside{Paper: p[0].ID, Why: "a flyer"}, &catalog.FactSet{Name: "x", Value: "1"})
	back() // as if the program had been stopped between commit and signing
	c = catalogtest.Reopen(t, c)
	if err := c.Trouble(); err != nil {
		t.Fatal(err)
	}
	events, err := c.Events(ctx, last+1, 0)
	if err != nil || len(events) != 1 {
		t.Fatalf("%d events after it, %v, want one that takes it over", len(events), err)
	}
	body, err := events[0].Parse()
	if over, ok := body.(*catalog.HeadTakenOver); err != nil || !ok || over.From != last-1 || over.To != last {
		t.Errorf("taken over: %+v, %v, want events %d to %d", body, err, last-1, last)
	}
	clean(t, c)
}

func TestUnsignedActIsTakenOverByTheNextOneToo(t *testing.T) {
	c, _, _ := full(t)
	back := copied(t, c, "head")
	last := catalogtest.Act(t, c, &catalog.FactSet{Name: "x", Value: "1"})
	back()
	if got := catalogtest.Act(t, c, &catalog.FactSet{Name: "y", Value: "1"}); got != last+2 {
		t.Errorf("the next act is event %d, want %d, after the one that takes over", got, last+2)
	}
	clean(t, c)
}

// Stopped before signing, and stopped there again by the start that takes over.
func TestTakingOverMayBeStoppedToo(t *testing.T) {
	c, _, _ := full(t)
	back := copied(t, c, "head")
	last := catalogtest.Act(t, c, &catalog.FactSet{Name: "x", Value: "1"})
	for stops := int64(1); stops <= 3; stops++ {
		back()
		c = catalogtest.Reopen(t, c)
		if err := c.Trouble(); err != nil {
			t.Fatalf("stopped %d times: %v", stops, err)
		}
		if n, err := c.Length(ctx); err != nil || int64(n) != last+stops {
			t.Errorf("stopped %d times: %d events, %v, want %d", stops, n, err, last+stops)
		}
	}
	catalogtest.Act(t, c, &catalog.FactSet{Name: "y", Value: "1"})
	back()
	reading(t, catalogtest.Reopen(t, c), "an act after them that is not signed", catalog.ErrLog)
}

func TestTwoUnsignedActsAreNotTakenOver(t *testing.T) {
	c, _, _ := full(t)
	back := copied(t, c, "head")
	catalogtest.Act(t, c, &catalog.FactSet{Name: "x", Value: "1"})
	catalogtest.Act(t, c, &catalog.FactSet{Name: "y", Value: "1"})
	back()
	c = catalogtest.Reopen(t, c)
	reading(t, c, "an older head", catalog.ErrLog)
}

func TestHeadMissingOrForged(t *testing.T) {
	other := catalogtest.New(t)
	foreign, err := os.ReadFile(filepath.Join(other.Dir(), "head"))
	if err != nil {
		t.Fatal(err)
	}
	for name, change := range map[string]func(path string) error{
		"missing":         os.Remove,
		"empty":           func(path string) error { return os.Truncate(path, 0) },
		"another vault's": func(path string) error { return os.WriteFile(path, foreign, 0o600) },
	} {
		c, _, _ := full(t)
		if err := change(filepath.Join(c.Dir(), "head")); err != nil {
			t.Fatal(err)
		}
		c = catalogtest.Reopen(t, c)
		reading(t, c, name, catalog.ErrLog)
	}
}

func TestWithoutAUsableKeyNothingIsWritten(t *testing.T) {
	other := catalogtest.New(t)
	foreign, err := os.ReadFile(filepath.Join(other.Dir(), "key"))
	if err != nil {
		t.Fatal(err)
	}
	for name, change := range map[string]func(path string) error{
		"missing":         os.Remove,
		"empty":           func(path string) error { return os.Truncate(path, 0) },
		"another vault's": func(path string) error { return os.WriteFile(path, foreign, 0o600) },
		"open to others":  func(path string) error { return os.Chmod(path, 0o644) },
	} {
		c, _, _ := full(t)
		back := copied(t, c, "key")
		path := filepath.Join(c.Dir(), "key")
		if err := change(path); err != nil {
			t.Fatal(err)
		}
		reading(t, c, name+", while open", catalog.ErrKey)
		c = catalogtest.Reopen(t, c)
		reading(t, c, name, catalog.ErrKey)
		back()
		if err := os.Chmod(path, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := c.Trouble(); err != nil {
			t.Errorf("%s: brought back: %v", name, err)
		}
		catalogtest.Act(t, c, &catalog.FactSet{Name: "x", Value: "1"})
		clean(t, c)
	}
}

func TestRenewedKeyIsTiedToTheOldOne(t *testing.T) {
	c, _, _ := full(t)
	for range 2 {
		if err := c.RenewKey(ctx); err != nil {
			t.Fatal(err)
		}
		catalogtest.Act(t, c, &catalog.FactSet{Name: "x", Value: "1"})
		c = catalogtest.Reopen(t, c)
		if err := c.Trouble(); err != nil {
			t.Fatal(err)
		}
	}
	clean(t, c)
	if _, err := os.Lstat(filepath.Join(c.Dir(), "key.new")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("key.new was left: %v", err)
	}
}

func TestKeyRenewedWithoutTheOldOneIsABreak(t *testing.T) {
	c, _, _ := full(t)
	if err := os.Remove(filepath.Join(c.Dir(), "key")); err != nil {
		t.Fatal(err)
	}
	if err := c.RenewKey(ctx); err != nil {
		t.Fatal(err)
	}
	if err := c.Trouble(); err != nil {
		t.Errorf("after renewing: %v", err)
	}
	found, err := c.Verify(ctx, catalog.VerifyOptions{})
	if err != nil || len(found) != 1 || found[0].What != catalog.WhatKey {
		t.Errorf("found %+v, %v, want the break alone", found, err)
	}
}

// A vault that was set back to an earlier day is consistent in itself: only a head that
// was kept elsewhere tells.
func TestVaultSetBackIsSeenAgainstANewerHead(t *testing.T) {
	c, _, _ := full(t)
	older, err := os.ReadFile(filepath.Join(c.Dir(), "head"))
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Close(); err != nil {
		t.Fatal(err)
	}
	dir := filepath.Join(t.TempDir(), "vault")
	if err := os.CopyFS(dir, os.DirFS(c.Dir())); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(filepath.Join(dir, "key"), 0o600); err != nil {
		t.Fatal(err)
	}
	c, err = catalog.Open(ctx, c.Dir(), catalogtest.Options())
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	catalogtest.Act(t, c, &catalog.FactSet{Name: "x", Value: "1"})
	newer, err := os.ReadFile(filepath.Join(c.Dir(), "head"))
	if err != nil {
		t.Fatal(err)
	}
	for name, head := range map[string][]byte{"older": older, "present": newer} {
		if err := c.Against(ctx, head); err != nil {
			t.Errorf("against its %s head: %v", name, err)
		}
	}
	back, err := catalog.Open(ctx, dir, catalogtest.Options())
	if err != nil {
		t.Fatal(err)
	}
	defer back.Close()
	if err := back.Trouble(); err != nil {
		t.Errorf("from inside it cannot be seen, but: %v", err)
	}
	if err := back.Against(ctx, newer); !errors.Is(err, catalog.ErrLog) {
		t.Errorf("against the newer head: %v, want ErrLog", err)
	}
	other := catalogtest.New(t)
	if err := other.Against(ctx, older); !errors.Is(err, catalog.ErrLog) {
		t.Errorf("against another vault's head: %v, want ErrLog", err)
	}
}
