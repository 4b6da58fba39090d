package catalog_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"evidencevault/catalog"
	"evidencevault/catalog/catalogtest"
)

// A page that is overwritten is noticed by opening or by verify, or it held nothing:
// then everything that can be asked is as before. There is never a panic.
func TestOverwrittenPagesAreNoticed(t *testing.T) {
	const page = 4096
	c, _, _ := full(t)
	whole := sqlite3(t, c, ".dump")
	if err := c.Close(); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(c.Dir(), "catalog.db")
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	noticed, last := 0, len(data)/page-1
	for _, at := range []int{0, 1, 2, 3, 5, 8, last / 2, last - 1, last} {
		bent := bytes.Clone(data)
		for i := range 200 {
			bent[at*page+page-300+i] ^= byte(0x55 + i)
		}
		if err := os.WriteFile(path, bent, 0o600); err != nil {
			t.Fatal(err)
		}
		if noticedBy(t, c.Dir()) {
			noticed++
		} else if got := sqlite3(t, c, ".dump"); got != whole {
			t.Errorf("page %d: the database says something else, and nobody noticed", at+1)
		}
	}
	for name, cut := range map[string][]byte{"cut at a page": data[:page*(last/2)], "cut within a page": data[:page*2+77], "zeros": make([]byte, len(data))} {
		if err := os.WriteFile(path, cut, 0o600); err != nil {
			t.Fatal(err)
		}
		if !noticedBy(t, c.Dir()) {
			t.Errorf("%s: nobody noticed", name)
		}
	}
	if noticed < 3 {
		t.Errorf("only %d of 9 overwritten pages were noticed: the test provokes nothing", noticed)
	}
}

func noticedBy(t *testing.T, dir string) bool {
	t.Helper()
	o := catalogtest.Options()
	o.ReadOnly = true // so that a test leaves the file as it is
	c, err := catalog.Open(ctx, dir, o)
	if err != nil {
		return true
	}
	defer c.Close()
	found, err := c.Verify(ctx, catalog.VerifyOptions{})
	return err != nil || len(found) > 0 || errors.Is(c.Trouble(), catalog.ErrLog)
}
