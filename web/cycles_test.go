package web_test

import (
	"archive/zip"
	"bytes"
	"html"
	"mime/multipart"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"evidencevault/credit/scheme"
	"evidencevault/internal/demo"
	"evidencevault/journal"
)

// until looks at what is being made until it is done.
func (v *served) until(body string) string {
	v.Helper()
	for strings.Contains(body, "<progress") {
		if v.Context().Err() != nil {
			v.Fatal("it is never made")
		}
		body = v.get(regexp.MustCompile(`audit/made/\d+`).FindString(body))
	}
	return body
}

// hidden are the hidden fields of the form that goes to a path.
func hidden(body, action string) url.Values {
	form := url.Values{}
	_, rest, ok := strings.Cut(body, `/`+action+`"`)
	if !ok {
		return form
	}
	rest, _, _ = strings.Cut(rest, "</form>")
	for _, m := range regexp.MustCompile(`<input type="hidden" name="([^"]*)" value="([^"]*)"`).FindAllStringSubmatch(rest, -1) {
		form.Add(m[1], html.UnescapeString(m[2]))
	}
	return form
}

// confirmed is a vault on a day with what is clear of the demo confirmed.
func confirmed(t *testing.T, day string, papers ...string) *served {
	t.Helper()
	v := serveOn(t, day, papers...)
	plan, err := v.journal.ConfirmClear(t.Context(), "")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := v.journal.DoClear(t.Context(), plan, ""); err != nil {
		t.Fatal(err)
	}
	return v
}

// A cycle that has ended is closed from the page: what is handed in and what passes is
// shown first, nothing but what was shown is closed, and afterwards it is read-only, with
// index and packet from its archive, a note, and a way back.
func TestCycleIsClosedFromThePage(t *testing.T) {
	v := confirmed(t, "2028-07-10", "splicing certificate.pdf", "guest lecture.pdf", "visual inspection course.pdf")
	cert := v.certification()
	if body := v.get(""); !strings.Contains(body, "/close?certification="+cert) {
		t.Error("the worklist does not lead to closing a cycle that has ended")
	}
	shown := v.get("close?certification=" + cert)
	for _, want := range []string{"What is handed in", "What is carried over", "1 July 2028 to 30 June 2032", "1 paper is not decided", "P3"} {
		if !strings.Contains(shown, want) {
			t.Errorf("before closing there is no %q", want)
		}
	}
	form := hidden(shown, "close")
	if _, err := v.journal.SetAside(t.Context(), []string{"P3"}, "a double"); err != nil {
		t.Fatal(err)
	}
	if status, body := v.send("close", form); status != http.StatusConflict || !strings.Contains(body, "changed in the meantime") {
		t.Errorf("what was not shown: %d", status)
	}
	form = hidden(v.get("close?certification="+cert), "close")
	status, body := v.send("close", form)
	if body = v.until(body); status != http.StatusOK || !strings.Contains(body, "is closed with") {
		t.Fatalf("closing: %d %s", status, body)
	}
	cycles := v.get("cycles")
	if !strings.Contains(cycles, "Keep its proofs until") || !strings.Contains(cycles, "/cycle/"+cert+"/1") || strings.Count(cycles, "<h3>") != 2 {
		t.Errorf("cycles: %s", cycles)
	}
	past := "cycle/" + cert + "/1"
	for _, want := range []string{"Nothing here is worked out anew", "C1", "award:", "By category"} {
		if !strings.Contains(v.get(past), want) {
			t.Errorf("the closed cycle does not show %q", want)
		}
	}
	for what, inside := range map[string]string{"packet": "bagit.txt", "index": "index.html", "binder": ""} {
		status, body := v.send("audit/make", url.Values{"what": {what}, "certification": {cert}, "cycle": {"1"}})
		link := regexp.MustCompile(`audit/made/\d+/file`).FindString(v.until(body))
		if link == "" {
			t.Fatalf("%s of the archive: %d %s", what, status, body)
		}
		_, data, _ := v.ask(http.MethodGet, v.address+link, "", "", nil)
		if what == "binder" {
			if !strings.HasPrefix(data, "%PDF-") {
				t.Errorf("the binder of the archive begins with %.10q", data)
			}
			continue
		}
		z, err := zip.NewReader(bytes.NewReader([]byte(data)), int64(len(data)))
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, f := range z.File {
			found = found || strings.HasSuffix(f.Name, inside)
		}
		if !found {
			t.Errorf("%s of the archive has no %s", what, inside)
		}
	}
	if status, _ := v.send("claim/C1/withdraw", url.Values{"version": hidden(v.get("claim/C1"), "withdraw")["version"], "why": {"no"}}); status < 400 {
		t.Errorf("a claim of the closed cycle is withdrawn: %d", status)
	}
	if status, body := v.send("close/undo", url.Values{"certification": {cert}, "why": {"a certificate was missing"}}); status != http.StatusOK || !strings.Contains(body, "open again") {
		t.Errorf("taking it back: %d %s", status, body)
	}
	_, body = v.send("close", hidden(v.get("close?certification="+cert), "close"))
	v.until(body)
	if status, body := v.send(past+"/note", url.Values{"note": {"C1 was five hours"}}); status != http.StatusOK || strings.Count(body, "C1 was five hours") != 1 {
		t.Errorf("a note: %d", status)
	}
	if status, body := v.send("close/undo", url.Values{"certification": {cert}, "why": {"too late"}}); status != http.StatusUnprocessableEntity {
		t.Errorf("taken back after a note: %d %s", status, body)
	}
}

// Before its end a cycle is closed only when that is said; claims that an auditor would
// strike are said too, and a date that is doubtful.
func TestClosingAsksBeforeItCloses(t *testing.T) {
	v := confirmed(t, "2026-11-25", "splicing certificate.pdf")
	if _, err := v.journal.ClaimAdd(t.Context(), journal.ClaimOptions{Category: "course", Set: map[string]string{
		"title": "Rope course", "kind": "attendance", "end_date": "2026-02-03", "duration_minutes": "240"}}); err != nil {
		t.Fatal(err)
	}
	cert := v.certification()
	if body := v.get("close?certification=" + cert); strings.Contains(body, "What is handed in") || !strings.Contains(body, "in 584 days") {
		t.Errorf("a cycle that has not ended: %s", body)
	}
	for _, bad := range []string{"early=on&next_end=tomorrow", "early=on&next_start=2026-01-01"} {
		if status, body, _ := v.ask(http.MethodGet, v.address+"close?certification="+cert+"&"+bad, "", "", nil); status != http.StatusUnprocessableEntity || !strings.Contains(body, `role="alert"`) {
			t.Errorf("%s: %d", bad, status)
		}
	}
	form := hidden(v.get("close?certification="+cert+"&early=on&last=on"), "close")
	before := v.events()
	if status, body := v.send("close", form); status != http.StatusUnprocessableEntity || !strings.Contains(body, "Nothing was closed") || v.events() != before {
		t.Errorf("with a claim that would be struck: %d", status)
	}
	form.Set("findings", "on")
	_, body := v.send("close", form)
	if body = v.until(body); !strings.Contains(body, "is closed with") || !strings.Contains(body, "nothing proves them: C2") {
		t.Errorf("closed all the same: %s", body)
	}
	if status, body, _ := v.ask(http.MethodGet, v.address+"close?certification="+cert, "", "", nil); status < 400 {
		t.Errorf("a second closing: %d %s", status, body)
	}
}

// sendFile posts a file of a form.
func (v *served) sendFile(path, name string, data []byte, fields map[string]string) (int, string) {
	v.Helper()
	var b bytes.Buffer
	w := multipart.NewWriter(&b)
	for k, text := range fields {
		if err := w.WriteField(k, text); err != nil {
			v.Fatal(err)
		}
	}
	p, err := w.CreateFormFile("file", name)
	if err != nil {
		v.Fatal(err)
	}
	if _, err := p.Write(data); err != nil {
		v.Fatal(err)
	}
	if err := w.Close(); err != nil {
		v.Fatal(err)
	}
	resp, err := http.Post(v.address+path+"?token="+v.token(), w.FormDataContentType(), &b)
	if err != nil {
		v.Fatal(err)
	}
	defer resp.Body.Close()
	var body bytes.Buffer
	if _, err := body.ReadFrom(resp.Body); err != nil {
		v.Fatal(err)
	}
	return resp.StatusCode, body.String()
}

// otherRules is another version of the demo's rules: a course earns by other minutes, and
// one category has another name.
func otherRules(t *testing.T) []byte {
	t.Helper()
	for _, s := range scheme.List() {
		if s.ID == demo.Scheme {
			text := regexp.MustCompile(`(?m)^version = .*$`).ReplaceAllString(string(s.Data), `version = "2099"`)
			return []byte(strings.ReplaceAll(text, "teaching", "lecturing"))
		}
	}
	t.Fatal("no scheme of the demo")
	return nil
}

// Another version of the rules is looked at first, claim by claim, with the categories that
// it lacks put elsewhere; then it is taken up as it was shown, byte for byte.
func TestAnotherVersionOfTheRules(t *testing.T) {
	v := confirmed(t, "2026-11-25", "splicing certificate.pdf", "guest lecture.pdf")
	cert, data := v.certification(), otherRules(t)
	before := v.events()
	ask := map[string]string{"certification": cert}
	for name, bad := range map[string]string{"no scheme at all": "id = 3\n[cycle\n", "nothing": "", "those in force": string(ownScheme(t))} {
		if status, body := v.sendFile("rules", "bad.toml", []byte(bad), ask); status != http.StatusUnprocessableEntity || !strings.Contains(body, `role="alert"`) {
			t.Errorf("%s: %d", name, status)
		}
	}
	status, body := v.sendFile("rules", "other.toml", data, ask)
	if status != http.StatusOK || !strings.Contains(body, `name="move.teaching"`) || strings.Contains(body, `value="use"`) {
		t.Fatalf("a category that it lacks: %d %s", status, body)
	}
	form := hidden(body, "rules/use")
	form.Set("move.teaching", "course")
	form.Set("act", "look")
	if status, body = v.send("rules/use", form); status != http.StatusOK || !strings.Contains(body, "2099 (other.toml) instead of") || !strings.Contains(body, `class="figures versions"`) {
		t.Fatalf("the differences: %d %s", status, body)
	}
	if v.events() != before {
		t.Error("looking changed something")
	}
	form = hidden(body, "rules/use")
	form.Set("move.teaching", "course")
	form.Set("act", "use")
	stale := url.Values{}
	for k := range form {
		stale.Set(k, form.Get(k))
	}
	stale.Set("version", "1")
	if status, _ := v.send("rules/use", stale); status != http.StatusConflict || v.events() != before {
		t.Errorf("what was not shown: %d", status)
	}
	if status, body = v.send("rules/use", form); status != http.StatusOK || !strings.Contains(body, "counts under version 2099") {
		t.Fatalf("taken up: %d %s", status, body)
	}
	files, err := filepath.Glob(filepath.Join(v.journal.Catalog().Dir(), "schemes", "*.toml"))
	if err != nil {
		t.Fatal(err)
	}
	same := false
	for _, f := range files {
		kept, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		same = same || bytes.Equal(kept, data)
	}
	if !same {
		t.Error("the file that is kept is not the one that was sent")
	}
}
