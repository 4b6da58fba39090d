package web_test

import (
	"bytes"
	"fmt"
	"io"
	"mime/multipart"
	"net"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"evidencevault/catalog"
	"evidencevault/web"
)

// ask sends one request with this Host and these headers, and returns status and body.
func (v *served) ask(method, address, host, form string, headers map[string]string) (int, string, http.Header) {
	v.Helper()
	r, err := http.NewRequestWithContext(v.Context(), method, address, strings.NewReader(form))
	if err != nil {
		v.Fatal(err)
	}
	if host != "" {
		r.Host = host
	}
	if form != "" {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	for k, h := range headers {
		r.Header.Set(k, h)
	}
	client := http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	resp, err := client.Do(r)
	if err != nil {
		v.Fatal(err)
	}
	defer resp.Body.Close()
	body, err := io.ReadAll(resp.Body)
	if err != nil {
		v.Fatal(err)
	}
	return resp.StatusCode, string(body), resp.Header
}

func (v *served) token() string {
	u, err := url.Parse(v.address)
	if err != nil {
		v.Fatal(err)
	}
	return strings.Trim(u.Path, "/")
}

func (v *served) events() int {
	n, err := v.journal.Catalog().Length(v.Context())
	if err != nil {
		v.Fatal(err)
	}
	return n
}

// A page of elsewhere whose name was made to point here is refused before anything else.
func TestOnlyItsOwnHostIsAnswered(t *testing.T) {
	v := serve(t)
	u, err := url.Parse(v.address)
	if err != nil {
		t.Fatal(err)
	}
	port := u.Port()
	for host, want := range map[string]int{
		"127.0.0.1:" + port: 200, "localhost:" + port: 200, "[::1]:" + port: 200,
		"evil.example:" + port: 421, "127.0.0.1": 421, "127.0.0.1:1": 421, "127.0.0.1.evil.example:" + port: 421,
		"LOCALHOST:" + port: 421, "localhost.:" + port: 421, "2130706433:" + port: 421, "0.0.0.0:" + port: 421,
	} {
		if got, _, _ := v.ask(http.MethodGet, v.address, host, "", nil); got != want {
			t.Errorf("Host %s: %d, want %d", host, got, want)
		}
	}
	if ip := net.ParseIP(u.Hostname()); ip == nil || !ip.IsLoopback() {
		t.Errorf("listens on %s", u.Host)
	}
}

// Without the secret there is nothing, whatever is asked for.
func TestWithoutTheSecretThereIsNothing(t *testing.T) {
	v := serve(t, "splicing certificate.pdf")
	root := strings.TrimSuffix(v.address, v.token()+"/")
	var first string
	for _, path := range []string{"", "standing", "x/paper/P1", "x/paper/P999", v.token()[:20] + "/paper/P1", "style/page.css", v.token() + "x/"} {
		status, body, _ := v.ask(http.MethodGet, root+path, "", "", nil)
		if first == "" {
			first = body
		}
		if status != http.StatusNotFound || body != first {
			t.Errorf("%q: %d %q", path, status, body)
		}
	}
}

// Requests of other pages are refused, and so is a form without the secret.
func TestForgedRequestsAreRefused(t *testing.T) {
	v := serve(t, "splicing certificate.pdf")
	confirm, before := v.address+"paper/P1/confirm", v.events()
	for _, tt := range []struct {
		why, form string
		headers   map[string]string
	}{
		{"no token", "set.kind=attendance", nil},
		{"a wrong token", "token=" + strings.Repeat("a", 26), nil},
		{"cross-site", "token=" + v.token(), map[string]string{"Sec-Fetch-Site": "cross-site"}},
		{"another port", "token=" + v.token(), map[string]string{"Sec-Fetch-Site": "same-site"}},
		{"a foreign origin", "token=" + v.token(), map[string]string{"Origin": "http://evil.example"}},
		{"origin null", "token=" + v.token(), map[string]string{"Origin": "null"}},
		{"not even a form", "", nil},
	} {
		if status, _, _ := v.ask(http.MethodPost, confirm, "", tt.form, tt.headers); status != http.StatusForbidden {
			t.Errorf("%s: %d, want 403", tt.why, status)
		}
	}
	if now := v.events(); now != before {
		t.Errorf("%d events were made", now-before)
	}
	if status, body, _ := v.ask(http.MethodPost, confirm, "", "token="+v.token(), map[string]string{"Sec-Fetch-Site": "same-origin"}); status != http.StatusSeeOther {
		t.Errorf("the page's own form: %d %s", status, body)
	}
}

// No GET or HEAD changes anything; what changes something answers to POST alone.
func TestGetChangesNothing(t *testing.T) {
	v := serve(t, "splicing certificate.pdf", "guest lecture.pdf")
	before := v.events()
	list, err := v.journal.Waiting(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	fill := strings.NewReplacer("{$}", "", "paper/{id}", "paper/P1", "claim/{id}", "claim/C1", "receipt/{id}", "receipt/R1", "{n}", "1",
		"{sha}", list[0].SHA256, "style/{file}", "style/page.css", "script/{file}", "script/page.js")
	seen := map[string]bool{}
	for _, route := range web.Routes() {
		path := fill.Replace(strings.TrimPrefix(route[1], "/"))
		if path == "events" || path == "claim/C1" || strings.HasPrefix(path, "audit/made/") || strings.HasPrefix(path, "cycle/") { // a stream without end; nothing is claimed, made or closed yet
			continue
		}
		if route[0] == http.MethodGet {
			seen[path] = true
			for _, method := range []string{http.MethodGet, http.MethodHead} {
				if status, _, _ := v.ask(method, v.address+path, "", "", map[string]string{"Sec-Fetch-Site": "cross-site"}); status != http.StatusOK {
					t.Errorf("%s %s: %d", method, path, status)
				}
			}
		} else if status, _, _ := v.ask(http.MethodGet, v.address+path, "", "", nil); !seen[path] && status != http.StatusMethodNotAllowed {
			t.Errorf("GET %s: %d, want 405", path, status)
		}
	}
	if status, _, _ := v.ask(http.MethodDelete, v.address+"paper/P1", "", "token="+v.token(), nil); status != http.StatusForbidden && status != http.StatusMethodNotAllowed {
		t.Errorf("DELETE: %d", status)
	}
	if now := v.events(); now != before {
		t.Errorf("%d events were made", now-before)
	}
	if status, _, _ := v.ask(http.MethodPost, v.address+"paper/P1/preview", "", "token="+v.token(), nil); status != http.StatusOK || v.events() != before {
		t.Error("a preview left something behind")
	}
}

func TestHeadersKeepThePageToItself(t *testing.T) {
	v := serve(t)
	for _, path := range []string{v.address, strings.TrimSuffix(v.address, v.token()+"/") + "nothing"} {
		_, _, h := v.ask(http.MethodGet, path, "", "", nil)
		for name, want := range map[string]string{"X-Frame-Options": "DENY", "Referrer-Policy": "no-referrer", "Cache-Control": "no-store",
			"X-Content-Type-Options": "nosniff", "Cross-Origin-Resource-Policy": "same-origin", "Access-Control-Allow-Origin": ""} {
			if got := h.Get(name); got != want {
				t.Errorf("%s: %s is %q, want %q", path, name, got, want)
			}
		}
		if csp := h.Get("Content-Security-Policy"); !strings.Contains(csp, "default-src 'none'") || !strings.Contains(csp, "frame-ancestors 'none'") || strings.Contains(csp, "unsafe") {
			t.Errorf("policy %q", csp)
		}
	}
}

// Paths from a request reach no file, and originals are downloads.
func TestPathsReachNoFile(t *testing.T) {
	v := serve(t, "splicing certificate.pdf")
	for _, p := range []string{"style/..%2fwords%2fen.txt", "style/%2e%2e/routes.go", "original/..%2f..%2fcatalog.db", "original/" + strings.Repeat("0", 64), "paper/..%2f1", "paper/P1/page/99", "paper/P1/page/-1", "paper/P1/page/x", "script//etc/passwd"} {
		if status, body, _ := v.ask(http.MethodGet, v.address+p, "", "", nil); status == http.StatusOK {
			t.Errorf("%s: 200 %.80s", p, body)
		}
	}
	list, err := v.journal.Waiting(t.Context())
	if err != nil || len(list) == 0 {
		t.Fatal(err)
	}
	status, _, h := v.ask(http.MethodGet, v.address+"original/"+list[0].SHA256, "", "", nil)
	if status != http.StatusOK || !strings.HasPrefix(h.Get("Content-Disposition"), "attachment") || !strings.Contains(h.Get("Content-Security-Policy"), "sandbox") || h.Get("Content-Type") != "application/octet-stream" {
		t.Errorf("original: %d %v", status, h)
	}
}

// upload sends files to be taken in.
func (v *served) upload(files map[string]string) (int, string) {
	v.Helper()
	var b bytes.Buffer
	w := multipart.NewWriter(&b)
	for name, text := range files {
		p, err := w.CreateFormFile("file", name)
		if err != nil {
			v.Fatal(err)
		}
		if _, err := io.WriteString(p, text); err != nil {
			v.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		v.Fatal(err)
	}
	resp, err := http.Post(v.address+"add?token="+v.token(), w.FormDataContentType(), &b)
	if err != nil {
		return 0, err.Error() // the server may close while the rest is still sent
	}
	defer resp.Body.Close()
	body, err := io.ReadAll(resp.Body)
	if err != nil {
		v.Fatal(err)
	}
	return resp.StatusCode, string(body)
}

// What is dropped onto the page is evidence, byte for byte, under the name it came with,
// whatever the name.
func TestUploadTakesIn(t *testing.T) {
	v := serve(t)
	status, body := v.upload(map[string]string{"../../<b>böse</b>.txt": "Certificate of attendance", "b.txt": "other"})
	if status != http.StatusOK || !strings.Contains(body, "2 files taken in") {
		t.Fatalf("%d %s", status, body)
	}
	papers, err := v.journal.Catalog().Papers(t.Context(), catalog.Unread, catalog.Waiting)
	if err != nil || len(papers) != 2 {
		t.Fatalf("papers %v, %v", papers, err)
	}
	if strings.Contains(body, "<b>böse") {
		t.Error("a file name stands in the page as markup")
	}
	if status, _ := v.upload(map[string]string{"big.bin": strings.Repeat("x", 5<<20)}); status != http.StatusRequestEntityTooLarge && status != 0 {
		t.Errorf("too large: %d, want 413", status)
	}
	if status, _ := v.upload(map[string]string{"c.txt": "third"}); status != http.StatusOK {
		t.Errorf("after it: %d", status)
	}
}

// Who comes later is told, and nothing is overwritten.
func TestTheLaterOneIsTold(t *testing.T) {
	v := serve(t, "splicing certificate.pdf")
	form := "token=" + v.token()
	if status, _, _ := v.ask(http.MethodPost, v.address+"paper/P1/confirm", "", form, nil); status != http.StatusSeeOther {
		t.Fatalf("first: %d", status)
	}
	status, body, _ := v.ask(http.MethodPost, v.address+"paper/P1/confirm", "", form, nil)
	if status != http.StatusConflict || !strings.Contains(body, "already confirmed") {
		t.Errorf("second: %d %s", status, body)
	}
	seen := fmt.Sprint(v.events())
	change := func(version string) (int, string) {
		status, body, _ := v.ask(http.MethodPost, v.address+"claim/C1/change", "", form+"&version="+version+"&set.duration_minutes=600&was.duration_minutes=840", nil)
		return status, body
	}
	d, err := v.journal.Show(t.Context(), "C1")
	if err != nil {
		t.Fatal(err)
	}
	version := fmt.Sprint(d.History[len(d.History)-1].Event)
	if status, body := change(version); status != http.StatusSeeOther {
		t.Fatalf("change: %d %s", status, body)
	}
	if status, body := change(version); status != http.StatusConflict || !strings.Contains(body, "changed in the meantime") || !strings.Contains(body, "<strong>600</strong>") {
		t.Errorf("from an old form (%s): %d %s", seen, status, body)
	}
}

// Both languages have every text, with the same places to fill in.
func TestEveryLanguageHasEveryText(t *testing.T) {
	v := serve(t)
	_, en, h := v.ask(http.MethodGet, v.address, "", "", nil)
	_, de, g := v.ask(http.MethodGet, v.address, "", "", map[string]string{"Accept-Language": "de-AT,de;q=0.9"})
	if h.Get("Content-Language") != "en" || g.Get("Content-Language") != "de" || en == de || !strings.Contains(de, `<html lang="de">`) {
		t.Errorf("languages %q and %q", h.Get("Content-Language"), g.Get("Content-Language"))
	}
}
