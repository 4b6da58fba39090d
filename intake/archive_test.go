package intake_test

import (
	"archive/zip"
	"bytes"
	"io"
	"path"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"evidencevault/catalog"
	"evidencevault/extract/page"
	"evidencevault/watcher"
)

// The files of an archive are papers of their own, each linked to the archive; so are
// those of an archive within it. The archive itself is kept and proves nothing.
func TestArchivesAreTakenApart(t *testing.T) {
	v := newVault(t, true)
	inner := archive(t, "third.txt", strings.ReplaceAll(certificate, "12 March", "14 March"))
	v.put("papers.zip", archive(t, "2025/one.txt", certificate, "two.txt", strings.ReplaceAll(certificate, "12 March", "13 March"), "inner.zip", inner))
	kinds := map[string]int{}
	for _, r := range v.once().Read {
		kinds[string(r.Kind)]++
	}
	if kinds["not-evidence"] != 2 || kinds["attendance"] != 3 {
		t.Errorf("read as %v, want two archives and three certificates", kinds)
	}
	papers := v.papers()
	if len(papers) != 5 {
		t.Fatalf("%d papers, want the two archives and three certificates", len(papers))
	}
	parts := map[string]string{}
	for _, p := range papers {
		e, err := v.c.Evidence(t.Context(), p.SHA256)
		if err != nil {
			t.Fatal(err)
		}
		w, err := v.c.Paper(t.Context(), p.ID)
		if err != nil {
			t.Fatal(err)
		}
		parts[e.Names[0].Name.String()+": "+e.Names[0].Part.String()] = w.State
	}
	want := map[string]string{"papers.zip: ": catalog.Waiting, "papers.zip: inner.zip": catalog.Waiting, "papers.zip: 2025/one.txt": catalog.Waiting,
		"papers.zip: two.txt": catalog.Waiting, "papers.zip: third.txt": catalog.Waiting}
	if diff := cmp.Diff(want, parts); diff != "" {
		t.Error(diff)
	}
	v.sound()
}

// Which names are by-products stands twice, for a folder and for an archive, since the
// two rooms know nothing of each other. What an archive leaves out a folder leaves out
// too; what only a folder does is there because somebody packed it.
func TestByProductsOfFoldersAndArchivesAgree(t *testing.T) {
	pages := page.NewReader(page.Options{})
	defer func() {
		if err := pages.Close(); err != nil {
			t.Error(err)
		}
	}()
	for _, test := range []struct {
		name            string
		folder, archive bool // whether it is a by-product there
		why             string
	}{
		{"._cert.pdf", true, true, "attributes of a file"},
		{"__MACOSX/._cert.pdf", true, true, "the same, where a packer puts them"},
		{"~$letter.docx", true, true, "an office program has it open"},
		{".DS_Store", true, true, "file manager"},
		{"Thumbs.db", true, true, "file manager"},
		{"THUMBS.DB", true, true, "file manager, in other case"},
		{"Desktop.ini", true, true, "file manager, in other case"},
		{"a/desktop.ini", true, true, "file manager, in a folder"},
		{"cert.pdf.part", true, false, "packed by somebody, so it grows no more"},
		{"cert.pdf~", true, false, "packed by somebody"},
		{"cert.pdf.tmp", true, false, "packed by somebody"},
		{"cert.pdf", false, false, "a document"},
		{".hidden.txt", false, false, "hidden, but a document"},
		{"Thumbs.db.pdf", false, false, "the extension is a document's"},
		{"desktop.ini.txt", false, false, "the extension is a document's"},
	} {
		_, folder := watcher.ByProduct(path.Base(test.name))
		d, err := pages.Read(t.Context(), strings.NewReader(archive(t, test.name, "something", "real.txt", certificate)), page.Request{})
		if err != nil {
			t.Fatal(err)
		}
		left := !slices.ContainsFunc(d.Parts, func(p page.Part) bool { return p.Name == test.name })
		if folder != test.folder || left != test.archive {
			t.Errorf("%s: a by-product in a folder: %v, in an archive: %v; want %v, %v: %s", test.name, folder, left, test.folder, test.archive, test.why)
		}
		if left && !folder {
			t.Errorf("%s: an archive leaves it out and a folder does not", test.name)
		}
	}
}

func archive(t *testing.T, files ...string) string {
	t.Helper()
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for i := 0; i < len(files); i += 2 {
		w, err := z.Create(files[i])
		if err == nil {
			_, err = io.WriteString(w, files[i+1])
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return out.String()
}
