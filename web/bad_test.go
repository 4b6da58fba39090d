package web_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"mime/multipart"
	"net"
	"net/http"
	"net/http/httptest"
	"net/url"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"evidencevault/extract/page"
	"evidencevault/web"
)

// elsewhere serves a page of another origin: another port of the same machine.
func elsewhere(t *testing.T, html string) string {
	t.Helper()
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		_, _ = io.WriteString(w, html)
	}))
	t.Cleanup(s.Close)
	return s.URL
}

// A page on another port reads nothing of this one, cannot frame it, and its forms change
// nothing, even if it knows the address.
func TestPageOfAnotherPort(t *testing.T) {
	v := serve(t, "splicing certificate.pdf")
	before := v.events()
	other := elsewhere(t, fmt.Sprintf(`<!DOCTYPE html><body><iframe id="frame" src="%[1]s"></iframe><img id="img" src="%[1]spaper/P1/page/1">
<form id="f" method="post" target="_blank" action="%[1]spaper/P1/confirm"><input name="token" value="%[2]s"></form>
<script>
const seen = [];
const ask = async (what, run) => { try { const got = await run(); if (got) seen.push(what + ": " + got); } catch {} };
const img = document.querySelector("#img");
Promise.all([
	ask("fetch", async () => (await fetch("%[1]s")).text()),
	ask("no-cors", async () => (await (await fetch("%[1]s", { mode: "no-cors" })).text())),
	ask("post", async () => (await fetch("%[1]spaper/P1/confirm", { method: "POST", mode: "no-cors", body: new URLSearchParams({ token: "%[2]s" }) })).status || ""),
	ask("stream", () => new Promise(done => { const s = new EventSource("%[1]sevents"); s.onmessage = e => done(e.data); s.addEventListener("log", e => done(e.data)); s.onerror = () => { s.close(); done("") }; })),
	ask("socket", () => new Promise(done => { const s = new WebSocket("%[3]sevents"); s.onopen = () => done("open"); s.onerror = () => done(""); })),
	ask("picture", () => new Promise(done => { if (img.complete) return done(img.naturalWidth || ""); img.onload = () => done(img.naturalWidth); img.onerror = () => done(""); })),
	ask("frame", () => new Promise(done => { const f = document.querySelector("#frame"); const look = () => { try { done(f.contentDocument && f.contentDocument.body.innerText.includes("missing") ? "read" : "") } catch { done("") } }; f.onload = look; setTimeout(look, 2000); })),
]).then(() => { window.seen = seen.join("; "); document.querySelector("#f").submit(); });
</script>`, v.address, v.token(), strings.Replace(v.address, "http", "ws", 1)))
	ctx := browser(t, 800, 600, false, true)
	run(t, ctx, chromedp.Navigate(other))
	is(t, ctx, "window.seen !== undefined")
	if got := run(t, ctx, chromedp.Evaluate[string]("window.seen")); got != "" {
		t.Errorf("another origin got %s", got)
	}
	if now := v.events(); now != before {
		t.Errorf("another origin made %d events", now-before)
	}
	status, _, h := v.ask(http.MethodGet, v.address+"paper/P999", "", "", nil)
	if status != http.StatusNotFound || h.Get("X-Frame-Options") != "DENY" || !strings.Contains(h.Get("Content-Security-Policy"), "frame-ancestors 'none'") || h.Get("Access-Control-Allow-Origin") != "" {
		t.Errorf("an error page: %d %v", status, h)
	}
}

// Fifty senders that give one byte and stop keep nobody from the page, and too much is
// refused.
func TestSlowSendersAndTooMuch(t *testing.T) {
	v := serve(t, "splicing certificate.pdf")
	u, err := url.Parse(v.address)
	if err != nil {
		t.Fatal(err)
	}
	for range 50 {
		c, err := net.Dial("tcp", u.Host)
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { _ = c.Close() })
		if _, err := io.WriteString(c, "POST "+u.Path+"undo HTTP/1.1\r\nHost: "+u.Host+"\r\nX"); err != nil {
			t.Fatal(err)
		}
	}
	within(t, "a page beside fifty slow senders", time.Second, func() { v.get("") })
	for name, tt := range map[string]struct {
		form    string
		headers map[string]string
		want    []int
	}{
		"a form of 2 MiB":     {"token=" + v.token() + "&set.title=" + strings.Repeat("x", 2<<20), nil, []int{413}},
		"a head of 1 MiB":     {"", map[string]string{"X-Long": strings.Repeat("x", 1<<20)}, []int{431}},
		"a packed body":       {"token=" + v.token(), map[string]string{"Content-Encoding": "gzip"}, []int{200, 303, 400, 403, 404}},
		"100,000 form fields": {"token=" + v.token() + strings.Repeat("&a=1", 100000), nil, []int{404, 413, 422}},
	} {
		r, err := http.NewRequest(http.MethodPost, v.address+"paper/P999/confirm", strings.NewReader(tt.form))
		if err != nil {
			t.Fatal(err)
		}
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		for k, h := range tt.headers {
			r.Header.Set(k, h)
		}
		resp, err := http.DefaultClient.Do(r)
		if err != nil {
			continue // it hung up while the rest was still sent
		}
		_ = resp.Body.Close()
		ok := false
		for _, w := range tt.want {
			ok = ok || resp.StatusCode == w
		}
		if !ok {
			t.Errorf("%s: %d, want one of %v", name, resp.StatusCode, tt.want)
		}
	}
}

// A port that is taken is said with the way out; listening is on loopback alone, and the
// secret of one start is worth nothing at the next.
func TestPortTakenAndTakenOver(t *testing.T) {
	v := serve(t, "splicing certificate.pdf")
	u, err := url.Parse(v.address)
	if err != nil {
		t.Fatal(err)
	}
	var port int
	if _, err := fmt.Sscan(u.Port(), &port); err != nil {
		t.Fatal(err)
	}
	pages := page.NewReader(page.Options{})
	defer func() { _ = pages.Close() }()
	if _, err := web.New(web.Options{Journal: v.journal, Intake: v.intake, Pages: pages, Port: port}); err == nil || !strings.Contains(err.Error(), "--port") {
		t.Errorf("port %d twice: %v", port, err)
	}
	again, err := web.New(web.Options{Journal: v.journal, Intake: v.intake, Pages: pages})
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		ctx, cancel := context.WithCancel(t.Context())
		cancel()
		if err := again.Serve(ctx); err != nil {
			t.Error(err)
		}
	}()
	if strings.Contains(again.Address(), v.token()) {
		t.Error("two starts have the same secret")
	}
	if _, _, h := v.ask(http.MethodGet, v.address, "", "", nil); h.Get("Set-Cookie") != "" {
		t.Error("a cookie goes to every port of this machine")
	}
	addresses, err := net.InterfaceAddrs()
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range addresses {
		ip, ok := a.(*net.IPNet)
		if !ok || ip.IP.IsLoopback() {
			continue
		}
		if c, err := net.DialTimeout("tcp", net.JoinHostPort(ip.IP.String(), u.Port()), time.Second); err == nil {
			_ = c.Close()
			t.Errorf("it answers at %s", ip.IP)
		}
	}
}

// Pages that are huge, or cannot be drawn, are shown or said; nothing is lost.
func TestPagesThatAreHardToDraw(t *testing.T) {
	v := serve(t)
	broken := strings.Replace(string(book(t, 1, 595, 842)), "/Contents", "/Kontents", 1)
	list := v.put(map[string][]byte{"huge.pdf": book(t, 1, 14400, 14400), "broken.pdf": []byte(broken[:len(broken)/2]), "empty.pdf": {}})
	if len(list) != 3 {
		t.Fatalf("%d papers, want 3", len(list))
	}
	for _, p := range list {
		t.Run(p.File, func(t *testing.T) {
			v.T = t
			if body := v.get("paper/" + p.ID); !strings.Contains(body, p.SHA256) {
				t.Error("the original cannot be had")
			}
			status, picture, h := v.ask(http.MethodGet, v.address+"paper/"+p.ID+"/page/1?dpi=300", "", "", nil)
			if status != http.StatusOK || !strings.HasPrefix(h.Get("Content-Type"), "image/") || len(picture) > 64<<20 {
				t.Errorf("its picture: %d %s, %d bytes", status, h.Get("Content-Type"), len(picture))
			}
			if p.File == "huge.pdf" && h.Get("Content-Type") != "image/png" {
				t.Errorf("a page of 14,400 points is %s", h.Get("Content-Type"))
			}
			if p.File != "huge.pdf" && !strings.Contains(picture, "There is no picture") {
				t.Errorf("it does not say that there is no picture: %.200s", picture)
			}
		})
	}
}

// A drop of 100 MB is streamed: taken in whole, or said to be too large, with little memory.
func TestDropOf100MB(t *testing.T) {
	v := serve(t) // which takes 4 MiB at most
	send := func(size int64) (int, string) {
		r, w := io.Pipe()
		m := multipart.NewWriter(w)
		go func() {
			p, err := m.CreateFormFile("file", "large.bin")
			if err == nil {
				_, err = io.CopyN(p, zeros{}, size)
			}
			_ = w.CloseWithError(errors.Join(err, m.Close()))
		}()
		resp, err := http.Post(v.address+"add?token="+v.token(), m.FormDataContentType(), r)
		if err != nil {
			return 0, err.Error() // it hung up while the rest was still sent
		}
		defer resp.Body.Close()
		body, err := io.ReadAll(resp.Body)
		if err != nil {
			t.Fatal(err)
		}
		return resp.StatusCode, string(body)
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	events := v.events()
	if status, body := send(100 << 20); status != http.StatusRequestEntityTooLarge && status != 0 || status != 0 && !strings.Contains(body, "drop folder") {
		t.Errorf("100 MiB: %d %s", status, body)
	}
	runtime.ReadMemStats(&after)
	if grown := int64(after.HeapAlloc) - int64(before.HeapAlloc); grown > 64<<20 {
		t.Errorf("memory grew by %d MiB", grown>>20)
	}
	if v.events() != events {
		t.Error("a part of it was taken in")
	}
	if status, body := send(3 << 20); status != http.StatusOK || !strings.Contains(body, "1 files taken in") {
		t.Errorf("3 MiB after it: %d %s", status, body)
	}
}

type zeros struct{}

func (zeros) Read(b []byte) (int, error) { clear(b); return len(b), nil }

// An upload whose connection is lost leaves nothing half taken in; what was typed is still
// there when a confirmation could not be sent.
func TestLostConnection(t *testing.T) {
	v := serve(t, "splicing certificate.pdf")
	before := v.events()
	u, err := url.Parse(v.address)
	if err != nil {
		t.Fatal(err)
	}
	c, err := net.Dial("tcp", u.Host)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := fmt.Fprintf(c, "POST %sadd?token=%s HTTP/1.1\r\nHost: %s\r\nContent-Type: multipart/form-data; boundary=b\r\nContent-Length: 100000\r\n\r\n--b\r\nContent-Disposition: form-data; name=\"file\"; filename=\"half.txt\"\r\n\r\nhalf a fi", u.Path, v.token(), u.Host); err != nil {
		t.Fatal(err)
	}
	if err := c.Close(); err != nil {
		t.Fatal(err)
	}
	v.get("") // the server is there
	if now := v.events(); now != before {
		t.Errorf("%d events of half a file", now-before)
	}
	ctx := browser(t, 1000, 900, false, true)
	v.open(ctx, "paper/P1")
	is(t, ctx, "document.querySelector('#effect').children.length")
	run(t, ctx, chromedp.Evaluate[bool](`(window.fetch = () => Promise.reject(new TypeError("lost")), document.querySelector("#f-title").value = "typed", document.querySelector("#f-title").dispatchEvent(new Event("input", { bubbles: true })))`))
	is(t, ctx, "document.querySelector('#effect').innerText.includes('does not answer')")
	if got := run(t, ctx, chromedp.Value("#f-title")); got != "typed" {
		t.Errorf("typed %q is lost", got)
	}
}

// Bidirectional marks and control characters of a name are shown as what they are.
func TestBidiInNamesIsShown(t *testing.T) {
	v := serve(t)
	v.put(map[string][]byte{"invoice\u202efdp.exe.txt": []byte("Certificate of attendance"), "tab\tnew\nline.txt": []byte("Certificate")})
	for _, path := range []string{"", "paper/P1", "paper/P2"} {
		if body := v.get(path); strings.ContainsAny(body, "\u202e\u202d\u2066\u2067\u2068") {
			t.Errorf("%s: a mark that turns the direction stands in the page", path)
		}
	}
}
