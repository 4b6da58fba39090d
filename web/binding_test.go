package web_test

import (
	"bytes"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/go-pdf/fpdf"

	"evidencevault/internal/demo"
	"evidencevault/journal"
)

const password = "quarry-lantern-91"

// encrypted is a certificate that opens only with the password.
func encrypted(t *testing.T) []byte {
	t.Helper()
	f := fpdf.New("P", "pt", "A4", "")
	f.SetProtection(0, password, "the owner's")
	f.AddPage()
	f.SetFont("Helvetica", "", 14)
	for i, line := range []string{"Certificate of attendance", "Grips and Clamps", "This certifies that " + demo.Holder + " attended the course", "on 3 March 2026, 4 hours", "Vallmere Registry"} {
		f.Text(60, float64(80+30*i), line)
	}
	var b bytes.Buffer
	if err := f.Output(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The binder asks for the passwords of locked originals. What is given opens them, what is
// not leaves their pages out and says so; a password is in no address, no file and no
// message.
func TestBinderAsksForPasswords(t *testing.T) {
	v := serve(t, "splicing certificate.pdf")
	v.put(map[string][]byte{"locked.pdf": encrypted(t)})
	if status, body := v.send("paper/P2/reread", url.Values{"password": {password}}); status != 200 || strings.Contains(body, password) {
		t.Fatalf("read with its password: %d %s", status, body)
	}
	for _, id := range []string{"P1", "P2"} {
		if _, err := v.journal.Confirm(t.Context(), []string{id}, journal.ConfirmOptions{Set: map[string]string{"title": "Course " + id}}); err != nil {
			t.Fatal(err)
		}
	}
	status, body := v.send("audit/make", url.Values{"what": {"binder"}, "certification": {v.certification()}})
	form := hidden(body, "audit/make")
	if status != 200 || form.Get("asked") == "" || strings.Count(body, `type="password"`) != 1 || !strings.Contains(body, "locked.pdf") {
		t.Fatalf("it does not ask for one password: %d %s", status, body)
	}
	name := "password." + v.evidence("P2")
	for given, open := range map[string]bool{"": false, "wrong": false, password: true} {
		form.Set(name, given)
		status, body := v.send("audit/make", form)
		body = v.until(body)
		if status != 200 || !strings.Contains(body, "It is made") || strings.Contains(body, "the pages are not in it: locked.pdf") == open {
			t.Errorf("with %q: %d %s", given, status, body)
		}
		if given != "" && strings.Contains(body, given+"<") {
			t.Errorf("%q is on the page", given)
		}
	}
	err := filepath.WalkDir(filepath.Dir(v.journal.Catalog().Dir()), func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		if bytes.Contains(data, []byte(password)) {
			t.Errorf("%s holds the password", path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// evidence is the SHA-256 of a paper's file.
func (v *served) evidence(id string) string {
	v.Helper()
	d, err := v.journal.Show(v.Context(), id)
	if err != nil {
		v.Fatal(err)
	}
	return d.Paper.SHA256
}
