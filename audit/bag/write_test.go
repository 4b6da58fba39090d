package bag_test

import (
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"evidencevault/audit/bag"
)

// make writes a bag with two payload files and one further tag file.
func makeBag(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	w, err := bag.NewWriter(root)
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"data/a b.txt": "one", "data/sub/größe.txt": "", "README.txt": "read me"} {
		if _, err := w.Add(name, strings.NewReader(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(bag.Label{Name: "Bagging-Date", Value: "2026-11-25"}); err != nil {
		t.Fatal(err)
	}
	return dir
}

func TestWrittenBagIsValid(t *testing.T) {
	dir := makeBag(t)
	r, err := bag.Check(dir)
	if err != nil || !r.Valid() || len(r.Notes) != 0 || r.Files != 2 || r.Bytes != 3 || r.Version != "1.0" {
		t.Fatalf("report %+v, %v", r, err)
	}
}

// sha256sum and sha512sum of the system read the lists as they are.
func TestSumProgramsReadTheLists(t *testing.T) {
	dir := makeBag(t)
	for program, lists := range map[string][]string{
		"sha256sum": {"manifest-sha256.txt", "tagmanifest-sha256.txt"},
		"sha512sum": {"manifest-sha512.txt", "tagmanifest-sha512.txt"},
	} {
		for _, list := range lists {
			cmd := exec.Command(program, "--check", "--strict", list)
			cmd.Dir = dir
			if out, err := cmd.CombinedOutput(); err != nil {
				t.Errorf("%s %s: %v\n%s", program, list, err, out)
			}
		}
	}
}

// Every file of a bag, changed by one byte, removed, or joined by another, is found.
func TestEveryChangeIsFound(t *testing.T) {
	var names []string
	first := makeBag(t)
	err := filepath.WalkDir(first, func(p string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			rel, _ := filepath.Rel(first, p)
			names = append(names, rel)
		}
		return err
	})
	if err != nil || len(names) != 9 {
		t.Fatalf("files %q, %v", names, err)
	}
	change := map[string]func(p string) error{
		"removed":  os.Remove,
		"appended": func(p string) error { return appendTo(p, "x") },
		"joined":   func(p string) error { return os.WriteFile(p+".other", nil, 0o600) },
	}
	for what, do := range change {
		for _, name := range names {
			if what == "joined" && !strings.HasPrefix(name, "data") || what != "joined" && strings.HasPrefix(name, "tagmanifest") {
				continue // a bag may have further tag files, and none lists the lists of tag files
			}
			dir := makeBag(t)
			if err := do(filepath.Join(dir, name)); err != nil {
				t.Fatal(err)
			}
			if r, err := bag.Check(dir); err != nil || r.Valid() {
				t.Errorf("%s %s: not found (%v)", name, what, err)
			}
		}
	}
}

func appendTo(p, text string) error {
	f, err := os.OpenFile(p, os.O_APPEND|os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	_, err = f.WriteString(text)
	return errors.Join(err, f.Close())
}

func TestNamesThatListsCannotHold(t *testing.T) {
	root, err := os.OpenRoot(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	w, err := bag.NewWriter(root)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"", "data/100%.pdf", "data/a\\b", "data/a\nb", "data/../x", "/data/x", "../x", "~x"} {
		if _, err := w.Add(name, strings.NewReader("x"), 0o600); !errors.Is(err, bag.ErrName) {
			t.Errorf("%q: %v, want ErrName", name, err)
		}
	}
}

// A link in a bag could lead out of it.
func TestLinkIsFound(t *testing.T) {
	dir := makeBag(t)
	if err := os.Symlink("/etc/hostname", filepath.Join(dir, "data", "link")); err != nil {
		t.Fatal(err)
	}
	if r, err := bag.Check(dir); err != nil || r.Valid() {
		t.Errorf("not found (%v)", err)
	}
}
