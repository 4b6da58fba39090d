package audit_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"evidencevault/audit"
	"evidencevault/extract/page"
)

func binder(t *testing.T, write func(file string) (audit.Binder, error)) (string, audit.Binder) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "binder.pdf")
	made, err := write(file)
	if err != nil {
		t.Fatal(err)
	}
	return file, made
}

func reader(t *testing.T) *page.Reader {
	t.Helper()
	r := page.NewReader(page.Options{})
	t.Cleanup(func() {
		if err := r.Close(); err != nil {
			t.Error(err)
		}
	})
	return r
}

func output(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s %v: %v\n%s", name, args, err, out)
	}
	return string(out)
}

// The binder is a sound PDF for qpdf and poppler; its words are found by search, and the
// originals come out of it byte for byte.
func TestBinder(t *testing.T) {
	j, r := vault(t), reader(t)
	d := gather(t, j).WithoutUnproven()
	file, made := binder(t, func(file string) (audit.Binder, error) {
		return audit.WriteBinder(t.Context(), j.Catalog().Store(), d, file, audit.BinderOptions{Pages: r})
	})
	if out := output(t, "qpdf", "--check", file); strings.Contains(out, "WARNING") {
		t.Errorf("qpdf: %s", out)
	}
	if made.Exhibits != len(d.Originals) || !strings.Contains(output(t, "pdfinfo", file), "Pages:           ") {
		t.Errorf("made %+v", made)
	}
	text := strings.Join(strings.Fields(output(t, "pdftotext", file, "-")), " ")
	for _, want := range []string{d.Holder, d.Title, "What an auditor would ask", "Statement of truth", "Exhibit 1 · page 1 of"} {
		if !strings.Contains(text, want) {
			t.Errorf("the binder does not say %q", want)
		}
	}
	for _, e := range d.Claims { // the words of the proofs stand on the exhibits' pages, beneath their pictures
		for _, p := range e.Proofs {
			if p.Box != nil && p.Field == "title" && strings.Count(text, p.Value) < 3 {
				t.Errorf("%s: %q stands %d times", e.ID, p.Value, strings.Count(text, p.Value))
			}
		}
	}
	dir := t.TempDir()
	output(t, "pdfdetach", "-saveall", "-o", dir, file)
	for _, o := range d.Originals {
		data, err := os.ReadFile(filepath.Join(dir, filepath.Base(o.Copy)))
		if sum := sha256.Sum256(data); err != nil || hex.EncodeToString(sum[:]) != o.SHA256 {
			t.Errorf("%s did not come out as it went in: %v", o.Copy, err)
		}
	}
	again, _ := binder(t, func(file string) (audit.Binder, error) {
		return audit.WriteBinder(t.Context(), j.Catalog().Store(), d, file, audit.BinderOptions{Pages: r})
	})
	if output(t, "sha256sum", file)[:64] != output(t, "sha256sum", again)[:64] {
		t.Errorf("the same dossier gave other bytes: %s", differs(file, again))
	}
}

// Each exhibit has a bookmark, and every link of the index leads to a page that is there.
func TestBinderLinksAndBookmarks(t *testing.T) {
	j, r := vault(t), reader(t)
	d := gather(t, j).WithoutUnproven()
	file, made := binder(t, func(file string) (audit.Binder, error) {
		return audit.WriteBinder(t.Context(), j.Catalog().Store(), d, file, audit.BinderOptions{Pages: r})
	})
	open := file + ".open"
	output(t, "qpdf", "--qdf", "--object-streams=disable", file, open)
	data, err := os.ReadFile(open)
	if err != nil {
		t.Fatal(err)
	}
	plain := string(data)
	pages := map[string]bool{}
	for _, m := range regexp.MustCompile(`"object": "(\d+) 0 R",\s+"outlines"`).FindAllStringSubmatch(output(t, "qpdf", "--json=2", "--json-key=pages", open), -1) {
		pages[m[1]] = true
	}
	if info := output(t, "pdfinfo", file); !regexp.MustCompile(fmt.Sprintf(`Pages: +%d\n`, made.Pages)).MatchString(info) {
		t.Errorf("it should have %d pages: %s", made.Pages, info)
	}
	links := regexp.MustCompile(`/Dest \[\s*(\d+) 0 R`).FindAllStringSubmatch(plain, -1)
	if least := 2*len(d.Originals) + len(d.Claims); len(links) < least {
		t.Errorf("%d places are led to, want %d at least", len(links), least)
	}
	for _, m := range links {
		if !pages[m[1]] {
			t.Errorf("a link leads to object %s, which is no page", m[1])
		}
	}
}

// Nothing is written over, and nothing half-made is left.
func TestBinderLeavesNothingHalfMade(t *testing.T) {
	j, r, dir := vault(t), reader(t), t.TempDir()
	d := gather(t, j)
	store := j.Catalog().Store()
	there := filepath.Join(dir, "there.pdf")
	if err := os.WriteFile(there, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	stopped, stop := context.WithCancel(t.Context())
	stop()
	for _, c := range []struct {
		name string
		ctx  context.Context
		d    audit.Dossier
		file string
		o    audit.BinderOptions
		want error
	}{
		{"unproven", t.Context(), d, "a.pdf", audit.BinderOptions{Pages: r}, audit.ErrUnproven},
		{"there", t.Context(), d.WithoutUnproven(), "there.pdf", audit.BinderOptions{Pages: r}, audit.ErrThere},
		{"language", t.Context(), d.WithoutUnproven(), "b.pdf", audit.BinderOptions{Pages: r, Language: "tlh"}, audit.ErrLanguage},
		{"stopped", stopped, d.WithoutUnproven(), "c.pdf", audit.BinderOptions{Pages: r}, context.Canceled},
	} {
		if _, err := audit.WriteBinder(c.ctx, store, c.d, filepath.Join(dir, c.file), c.o); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", c.name, err, c.want)
		}
	}
	left, err := os.ReadDir(dir)
	if data, rerr := os.ReadFile(there); err != nil || len(left) != 1 || rerr != nil || string(data) != "mine" {
		t.Errorf("left behind: %v %v", left, err)
	}
}

// What comes from a document can be as long and as odd as it likes: the pages hold it,
// no character is lost unseen, and the direction of writing is not turned.
func TestIndexAsPDFHoldsOddText(t *testing.T) {
	j := vault(t)
	d := gather(t, j)
	d.Claims[0].Title = strings.Repeat("Seilbahn ", 1200) + "end"
	d.Claims[1].Title = "鋼索 \u202eabc\u202c Ω"
	d.Claims[2].Why = []string{strings.Repeat("x", 5000)}
	for _, language := range audit.Languages() {
		var pdf bytes.Buffer
		if err := d.WritePDF(&pdf, language); err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(t.TempDir(), "index.pdf")
		if err := os.WriteFile(file, pdf.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		output(t, "qpdf", "--check", file)
		text := output(t, "pdftotext", "-layout", file, "-")
		if !strings.Contains(text, "U+92FC") || !strings.Contains(text, "Ω") || strings.Contains(text, "\u202e") {
			t.Errorf("%s: odd characters are lost", language)
		}
		if !regexp.MustCompile(`\(\d{5} characters|im Ganzen \d{5} Zeichen`).MatchString(strings.Join(strings.Fields(text), " ")) {
			t.Errorf("%s: it does not say that a title was cut short", language)
		}
	}
}

// Every language has every text, with the same values in it.
func TestLanguagesSayTheSame(t *testing.T) {
	read := func(tag string) map[string]string {
		data, err := os.ReadFile("words/" + tag + ".txt")
		if err != nil {
			t.Fatal(err)
		}
		texts := map[string]string{}
		for line := range strings.Lines(string(data)) {
			if key, text, ok := strings.Cut(strings.TrimSpace(line), ": "); ok && !strings.HasPrefix(key, "#") && key != "say" {
				texts[key] = text
			}
		}
		return texts
	}
	english := read("en")
	verbs := regexp.MustCompile(`%[sd]`)
	for _, tag := range audit.Languages() {
		other := read(tag)
		for key, text := range english {
			got, ok := other[key]
			if !ok {
				t.Errorf("%s lacks %q", tag, key)
			} else if w, g := verbs.FindAllString(text, -1), verbs.FindAllString(got, -1); strings.Join(w, "") != strings.Join(g, "") {
				t.Errorf("%s, %q: values %v, want %v", tag, key, g, w)
			}
		}
		for key := range other {
			if _, ok := english[key]; !ok {
				t.Errorf("%s has %q, which English lacks", tag, key)
			}
		}
	}
	if len(english) < 200 {
		t.Errorf("only %d texts", len(english))
	}
}

func differs(a, b string) string {
	for _, f := range []string{a, b} {
		if out, err := exec.Command("qpdf", "--qdf", "--object-streams=disable", f, f+".open").CombinedOutput(); err != nil {
			return string(out)
		}
	}
	out, _ := exec.Command("diff", "-a", a+".open", b+".open").CombinedOutput() // it ends with 1 where they differ
	return string(out[:min(len(out), 600)])
}
