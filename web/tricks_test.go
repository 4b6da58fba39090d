package web_test

import (
	"bufio"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"evidencevault/extract/paper"
	"evidencevault/internal/demo"
	"evidencevault/journal"
	"evidencevault/web"
)

// raw sends bytes as they are and returns the status of the answer.
func (v *served) raw(request string) int {
	v.Helper()
	u, err := url.Parse(v.address)
	if err != nil {
		v.Fatal(err)
	}
	c, err := net.Dial("tcp", u.Host)
	if err != nil {
		v.Fatal(err)
	}
	defer func() { _ = c.Close() }() // it was only asked
	if _, err := io.WriteString(c, strings.NewReplacer("PATH", u.Path, "HOST", u.Host, "PORT", u.Port(), "TOKEN", v.token()).Replace(request)); err != nil {
		v.Fatal(err)
	}
	resp, err := http.ReadResponse(bufio.NewReader(c), nil)
	if err != nil {
		v.Fatal(err)
	}
	_ = resp.Body.Close()
	return resp.StatusCode
}

// Requests that a client library would not send are refused, and change nothing.
func TestRequestsThatNoBrowserSends(t *testing.T) {
	v := serve(t, "splicing certificate.pdf")
	before := v.events()
	form := "Content-Type: application/x-www-form-urlencoded\r\nContent-Length: 32\r\n"
	for name, request := range map[string]string{
		"no host":             "GET PATH HTTP/1.0\r\n\r\n",
		"an empty host":       "GET PATH HTTP/1.1\r\nHost:\r\n\r\n",
		"two hosts":           "GET PATH HTTP/1.1\r\nHost: HOST\r\nHost: evil.example\r\n\r\n",
		"a name that points":  "POST PATHpaper/P1/confirm HTTP/1.1\r\nHost: evil.example:PORT\r\nOrigin: http://evil.example:PORT\r\nSec-Fetch-Site: same-origin\r\n" + form + "\r\ntoken=TOKEN",
		"a whole address":     "GET http://evil.example/ HTTP/1.1\r\nHost: evil.example\r\n\r\n",
		"another method":      "TRACE PATH HTTP/1.1\r\nHost: HOST\r\n\r\n",
		"a method that hides": "POST PATHpaper/P1/confirm?_method=GET HTTP/1.1\r\nHost: HOST\r\nX-HTTP-Method-Override: GET\r\nContent-Length: 0\r\n\r\n",
		"plain text as form":  "POST PATHpaper/P1/confirm HTTP/1.1\r\nHost: HOST\r\nSec-Fetch-Site: none\r\nContent-Type: text/plain\r\nContent-Length: 32\r\n\r\ntoken=TOKEN",
	} {
		if got := v.raw(request); got < 400 || got >= 500 {
			t.Errorf("%s: %d", name, got)
		}
	}
	if now := v.events(); now != before {
		t.Errorf("%d events were made", now-before)
	}
}

// On every address that holds a number or a name, tricks with paths find nothing and
// break nothing.
func TestTricksOnEveryAddress(t *testing.T) {
	v := serve(t, "splicing certificate.pdf")
	before, tried := v.events(), 0
	for _, route := range web.Routes() {
		if !strings.Contains(strings.ReplaceAll(route[1], "{$}", ""), "{") {
			continue
		}
		for _, trick := range []string{"..", "..%2f..%2fcatalog.db", "%252e%252e%252f", "..%5c..", "P1%00", "%2fetc%2fpasswd", "P1;x", strings.Repeat("9", 5000), "-1", "P1%20or%201=1", "%ff", "%e2%80%ae"} {
			path := v.address
			for _, part := range strings.Split(strings.TrimPrefix(route[1], "/"), "/") {
				if strings.HasPrefix(part, "{") {
					part = trick
				}
				path += part + "/"
			}
			form := ""
			if route[0] == http.MethodPost {
				form = "token=" + v.token()
			}
			tried++
			if status, body, _ := v.ask(route[0], strings.TrimSuffix(path, "/"), "", form, nil); status == http.StatusOK && !strings.Contains(body, "There is no picture") || status >= 500 || strings.Contains(body, "root:") {
				t.Errorf("%s %s with %.40q: %d %.80s", route[0], route[1], trick, status, body)
			}
		}
	}
	if now := v.events(); now != before || tried < 100 {
		t.Errorf("%d events were made in %d tries", now-before, tried)
	}
}

// Values of a document that are markup, an address that runs, a template or a mark that
// turns the direction are text on every screen, and reach no header.
func TestMarkupInValuesIsText(t *testing.T) {
	v := serve(t)
	nasty := "\"><script>document.title='ran'</script>{{7*7}} javascript:alert(1) \u2028</title>--> gpj.\u202eexe"
	v.keep(func(n int) []byte { return fmt.Appendf(nil, "text %d", n) }, made(1, map[paper.Field]string{paper.FieldKind: "attendance", paper.FieldTitle: nasty,
		paper.FieldProvider: nasty, paper.FieldAttendee: demo.Holder, paper.FieldEnd: "2026-03-03", paper.FieldDuration: "240", paper.FieldCategory: "course"}),
		made(1, map[paper.Field]string{paper.FieldKind: "attendance", paper.FieldTitle: nasty, paper.FieldAttendee: nasty, paper.FieldEnd: "2026-03-03"}))
	if _, err := v.journal.Confirm(t.Context(), []string{"P1"}, journal.ConfirmOptions{}); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{"", "paper/P1", "paper/P2", "paper/P2/cut", "claims", "claim/C1", "claim/C1?mend=title", "audit", "ready", "letter", "standing", "close?early=on", "paper/" + url.PathEscape(nasty)} {
		_, body, _ := v.ask(http.MethodGet, v.address+path, "", "", nil)
		for _, bad := range []string{"<script>document", "</title>-->", "49 javascript", "\u202e", "href=\"javascript"} {
			if strings.Contains(body, bad) {
				t.Errorf("/%s: %q stands in the page", path, bad)
			}
		}
	}
}
