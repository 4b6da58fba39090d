package intake_test

import (
	"archive/zip"
	"bytes"
	"io"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"evidencevault/catalog"
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
