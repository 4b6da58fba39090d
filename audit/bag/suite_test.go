package bag_test

import (
	"os"
	"path/filepath"
	"testing"

	"evidencevault/audit/bag"
)

// TestConformanceSuite judges the 58 bags of the Library of Congress's conformance
// suite (testdata/bagit/SOURCE.md): the folder's name is the verdict. Those of
// windows-only and linux-only try to leave the bag; they are refused on every system.
func TestConformanceSuite(t *testing.T) {
	bags, err := filepath.Glob("testdata/bagit/v*/*/*")
	if err != nil {
		t.Fatal(err)
	}
	if len(bags) != 58 {
		t.Fatalf("the suite has %d bags here, wanted 58", len(bags))
	}
	for _, dir := range bags {
		verdict := filepath.Base(filepath.Dir(dir))
		version := filepath.Base(filepath.Dir(filepath.Dir(dir)))
		t.Run(version+"/"+verdict+"/"+filepath.Base(dir), func(t *testing.T) {
			r, err := bag.Check(dir)
			if err != nil {
				t.Fatal(err)
			}
			accept := verdict == "valid" || verdict == "warning"
			if r.Valid() != accept {
				t.Errorf("valid: %v, want %v: %v", r.Valid(), accept, r.Findings)
			}
			if verdict == "warning" && len(r.Notes) == 0 {
				t.Error("no note, want one")
			}
		})
	}
}

// bags that the suite has not, because their paths cannot be stored: a manifest and a
// fetch list that name an absolute path.
func TestAbsolutePath(t *testing.T) {
	for _, list := range []string{"manifest-md5.txt", "fetch.txt"} {
		dir := t.TempDir()
		write := func(name, text string) {
			if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.Mkdir(filepath.Join(dir, "data"), 0o700); err != nil {
			t.Fatal(err)
		}
		write("bagit.txt", "BagIt-Version: 0.97\nTag-File-Character-Encoding: UTF-8\n")
		write("data/a", "")
		write("manifest-md5.txt", "d41d8cd98f00b204e9800998ecf8427e  data/a\n")
		if r, err := bag.Check(dir); err != nil || !r.Valid() {
			t.Fatalf("before: %v %v", r.Findings, err)
		}
		if list == "fetch.txt" {
			write(list, "https://example.org/a - /etc/hostname\n")
		} else {
			write(list, "d41d8cd98f00b204e9800998ecf8427e  data/a\nd41d8cd98f00b204e9800998ecf8427e  /etc/hostname\n")
		}
		if r, err := bag.Check(dir); err != nil || r.Valid() {
			t.Errorf("%s: valid: %v, want refused (%v)", list, r.Valid(), err)
		}
	}
}
