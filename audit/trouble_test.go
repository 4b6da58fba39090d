package audit_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"evidencevault/audit"
	"evidencevault/extract/page"
	"evidencevault/journal"
)

// writers are the ways in which a dossier is handed over, by the name of what is made.
func writers(ctx context.Context, j *journal.Journal, d audit.Dossier, r *page.Reader, done func(n, of int)) map[string]func(name string) error {
	store := j.Catalog().Store()
	return map[string]func(name string) error{
		"index": func(name string) error { return audit.WriteIndex(ctx, store, d, name) },
		"packet": func(name string) error {
			return audit.WritePacket(ctx, store, d, name, audit.PacketOptions{Done: done})
		},
		"packet.zip": func(name string) error {
			return audit.WritePacket(ctx, store, d, name, audit.PacketOptions{Done: done})
		},
		"binder.pdf": func(name string) error {
			_, err := audit.WriteBinder(ctx, store, d, name, audit.BinderOptions{Pages: r, Done: done})
			return err
		},
	}
}

// nothingIn reports what lies in a folder that must be empty.
func nothingIn(t *testing.T, dir string) string {
	t.Helper()
	left, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	if len(left) == 0 {
		return ""
	}
	return fmt.Sprintf("left behind: %v", left)
}

// An original that was deleted from the store or cannot be read stops whatever is made, with
// its name and nothing left.
func TestMissingOrUnreadableOriginal(t *testing.T) {
	for _, what := range []string{"deleted", "unreadable"} {
		j, r, work := vault(t), reader(t), t.TempDir()
		d := gather(t, j).WithoutUnproven()
		path, err := j.Catalog().Store().Path(d.Originals[0].SHA256)
		if err != nil {
			t.Fatal(err)
		}
		path = filepath.Join(j.Catalog().Dir(), "evidence", path)
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
		if what == "unreadable" {
			if err := os.Mkdir(path, 0o700); err != nil { // gives no bytes, not even to who may read everything
				t.Fatal(err)
			}
		}
		for name, write := range writers(t.Context(), j, d, r, nil) {
			if err := write(filepath.Join(work, name)); err == nil || !strings.Contains(err.Error(), d.Originals[0].Names[0]) {
				t.Errorf("%s, %s: %v, want one that names %s", what, name, err, d.Originals[0].Names[0])
			}
			if left := nothingIn(t, work); left != "" {
				t.Errorf("%s, %s: %s", what, name, left)
			}
		}
	}
}

// Whoever stops half-way is told so, and nothing half-made is left.
func TestStoppedHalfWay(t *testing.T) {
	j, r, work := vault(t), reader(t), t.TempDir()
	d := gather(t, j).WithoutUnproven()
	for _, name := range []string{"packet", "packet.zip", "binder.pdf"} {
		ctx, stop := context.WithCancel(t.Context())
		seen := 0
		write := writers(ctx, j, d, r, func(n, _ int) { seen = n; stop() })[name]
		if err := write(filepath.Join(work, name)); !errors.Is(err, context.Canceled) || seen != 1 {
			t.Errorf("%s: stopped after %d originals: %v", name, seen, err)
		}
		if left := nothingIn(t, work); left != "" {
			t.Errorf("%s: %s", name, left)
		}
		stop()
	}
}

// Names that differ only in case, titles of 10,000 letters and a claim without a category
// are handed over whole, and judged sound.
func TestOddNamesTitlesAndCategories(t *testing.T) {
	j, r, work := vault(t), reader(t), t.TempDir()
	d := gather(t, j).WithoutUnproven()
	d.Originals[0].Names, d.Originals[1].Names = []string{"Scan.PDF"}, []string{"scan.pdf"}
	for i := range d.Claims {
		d.Claims[i].Title = strings.Repeat("Seilbahn ", 1111) + "Z"
		d.Claims[i].Proofs[0].Value = d.Claims[i].Title
	}
	d.Claims[0].Category, d.Claims[0].CategoryTitle = "", ""
	for name, write := range writers(t.Context(), j, d, r, nil) {
		if err := write(filepath.Join(work, name)); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
	}
	check := exec.Command("sha256sum", "--strict", "-c", "manifest-sha256.txt")
	check.Dir = filepath.Join(work, "packet")
	if out, err := check.CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
	for _, file := range []string{filepath.Join(work, "binder.pdf"), filepath.Join(work, "index", "index.pdf")} {
		output(t, "qpdf", "--check", file)
		if text := pdfText(t, file); !strings.Contains(text, "(10000 characters in all") || !strings.Contains(text, "(no category)") {
			t.Errorf("%s does not say that a title is cut short, or that a category is missing", file)
		}
	}
	html := read(t, filepath.Join(work, "index", "index.html"))
	for _, want := range []string{"Scan.PDF", "scan.pdf", d.Claims[0].Title, "(no category)"} {
		if !strings.Contains(html, want) {
			t.Errorf("index.html lacks %.40q", want)
		}
	}
	seen := map[string]bool{}
	for _, o := range d.Originals {
		if low := strings.ToLower(o.Copy); low != o.Copy || seen[low] {
			t.Errorf("%s: a system that does not tell case apart cannot hold it", o.Copy)
		}
		seen[strings.ToLower(o.Copy)] = true
	}
	var csv bytes.Buffer
	if err := d.WriteCSV(&csv); err != nil || !strings.Contains(csv.String(), d.Claims[0].Title) {
		t.Errorf("index.csv cuts a title: %v", err)
	}
}
