package web_test

import (
	"archive/zip"
	"bytes"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"evidencevault/journal"
)

// Each finding of the rehearsal leads to the place that mends it, and mended it is gone.
func TestFindingsAreMendedAtOnce(t *testing.T) {
	v := serve(t, "splicing certificate.pdf")
	if _, err := v.journal.ClaimAdd(t.Context(), journal.ClaimOptions{Category: "course", Set: map[string]string{
		"title": "Grips", "kind": "attendance", "end_date": "2026-02-03", "duration_minutes": "240"}}); err != nil {
		t.Fatal(err)
	}
	body := v.get("audit")
	links := regexp.MustCompile(`href="/[^/]*/(claim/C1\?mend=(\w+)#([\w-]+))"`).FindAllStringSubmatch(body, -1)
	if len(links) < 2 {
		t.Fatalf("%d ways to mend in\n%s", len(links), body)
	}
	for _, l := range links {
		there := v.get(strings.Split(l[1], "#")[0])
		if !strings.Contains(there, `id="`+l[3]+`"`) || !strings.Contains(there, "<details class=\"more\" open>") && !strings.Contains(there, `id="`+l[3]+`" open`) {
			t.Errorf("%s leads to no open form", l[1])
		}
	}
	if status, body := v.send("claim/C1/attach", url.Values{"paper": {"P1"}}); status != http.StatusOK || !strings.Contains(body, "P1 is a proof of C1") {
		t.Fatalf("attach: %d %s", status, body)
	}
	if body := v.get("audit"); strings.Contains(body, "no document proves it") {
		t.Error("the finding is there after it was mended")
	}
}

// Index and packet are made from the page: progress while it lasts, then where it lies
// and a download; a packet that cannot be made says why and how it can.
func TestMadeForTheAuditor(t *testing.T) {
	v := serve(t, "splicing certificate.pdf", "guest lecture.pdf")
	if _, err := v.journal.Confirm(t.Context(), []string{"P1"}, journal.ConfirmOptions{}); err != nil {
		t.Fatal(err)
	}
	made := func(form url.Values) string {
		t.Helper()
		status, body := v.send("audit/make", form)
		for end := time.Now().Add(20 * time.Second); strings.Contains(body, "<progress"); {
			if time.Now().After(end) || status != http.StatusOK {
				t.Fatalf("%v: %d %s", form, status, body)
			}
			at := regexp.MustCompile(`audit/made/\d+`).FindString(body)
			body = v.get(at)
		}
		return body
	}
	cert := v.certification()
	for what, want := range map[string]string{"packet": "bagit.txt", "index": "index.html", "binder": "%PDF-"} {
		body := made(url.Values{"what": {what}, "certification": {cert}})
		link := regexp.MustCompile(`audit/made/\d+/file`).FindString(body)
		if link == "" || !strings.Contains(body, "It is made") {
			t.Fatalf("%s: %s", what, body)
		}
		_, data, h := v.ask(http.MethodGet, v.address+link, "", "", nil)
		if what == "binder" {
			if !strings.HasPrefix(data, want) {
				t.Errorf("the binder begins with %.10q", data)
			}
			continue
		}
		z, err := zip.NewReader(bytes.NewReader([]byte(data)), int64(len(data)))
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, f := range z.File {
			found = found || strings.HasSuffix(f.Name, want)
		}
		if !found || !strings.HasPrefix(h.Get("Content-Disposition"), "attachment") {
			t.Errorf("%s: no %s in %d files, %s", what, want, len(z.File), h.Get("Content-Disposition"))
		}
	}
	if _, err := v.journal.ClaimAdd(t.Context(), journal.ClaimOptions{Category: "course", Set: map[string]string{
		"title": "Grips", "kind": "attendance", "end_date": "2026-02-03", "duration_minutes": "240"}}); err != nil {
		t.Fatal(err)
	}
	if body := made(url.Values{"what": {"packet"}, "certification": {cert}}); !strings.Contains(body, `role="alert"`) || !strings.Contains(body, `name="unproven"`) {
		t.Errorf("without a proof: %s", body)
	}
	if body := made(url.Values{"what": {"packet"}, "certification": {cert}, "unproven": {"out"}}); !strings.Contains(body, "It is made") {
		t.Errorf("without the unproven: %s", body)
	}
	for _, bad := range []string{"audit/made/99", "audit/made/x/file", "audit/made/0"} {
		if status, _, _ := v.ask(http.MethodGet, v.address+bad, "", "", nil); status != http.StatusNotFound {
			t.Errorf("%s: %d", bad, status)
		}
	}
}

// certification is the short name of the first one.
func (v *served) certification() string {
	v.Helper()
	about, err := v.journal.About(v.Context())
	if err != nil {
		v.Fatal(err)
	}
	return about.Certifications[0].ID
}
