package web_test

import (
	"bufio"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

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

// A form that was opened before something else happened to the paper is told so when it is
// sent, what was typed stands in the answer, and nothing is changed by it.
func TestFormsSentTooLate(t *testing.T) {
	for name, happened := range map[string]func(v *served) error{
		"confirmed by the command": func(v *served) error {
			_, err := v.journal.Confirm(v.Context(), []string{"P1"}, journal.ConfirmOptions{})
			return err
		},
		"set aside": func(v *served) error {
			_, err := v.journal.SetAside(v.Context(), []string{"P1"}, "a double")
			return err
		},
	} {
		t.Run(name, func(t *testing.T) {
			v := serve(t, "splicing certificate.pdf")
			if err := happened(v); err != nil {
				t.Fatal(err)
			}
			before := v.events()
			for range 2 { // twice, as by a double click
				status, body := v.send("paper/P1/confirm", url.Values{"set.title": {"Typed by hand"}, "was.title": {"x"}})
				if status != http.StatusConflict || !strings.Contains(body, "already") || !strings.Contains(body, "Typed by hand") {
					t.Errorf("%d, typed is kept: %v", status, strings.Contains(body, "Typed by hand"))
				}
			}
			if now := v.events(); now != before {
				t.Errorf("%d events were made", now-before)
			}
		})
	}
}

// A body without an end is cut off at the limit, and one who never reads the answer keeps
// nobody else from the page.
func TestBodiesWithoutEndAndReadersThatDoNotRead(t *testing.T) {
	v := serve(t, "splicing certificate.pdf")
	r, w := io.Pipe()
	go func() {
		block := []byte(strings.Repeat("a=1&", 4096))
		for {
			if _, err := w.Write(block); err != nil {
				return // it was cut off
			}
		}
	}()
	resp, err := http.Post(v.address+"paper/P1/confirm", "application/x-www-form-urlencoded", r)
	_ = r.Close()
	if err == nil {
		_ = resp.Body.Close()
		if resp.StatusCode < 400 || resp.StatusCode >= 500 {
			t.Errorf("a body without an end: %d", resp.StatusCode)
		}
	}
	u, err := url.Parse(v.address)
	if err != nil {
		t.Fatal(err)
	}
	for range 20 {
		c, err := net.Dial("tcp", u.Host)
		if err != nil {
			t.Fatal(err)
		}
		defer func() { _ = c.Close() }() // it never reads
		if _, err := fmt.Fprintf(c, "GET %spaper/P1/page/1?dpi=200 HTTP/1.1\r\nHost: %s\r\n\r\n", u.Path, u.Host); err != nil {
			t.Fatal(err)
		}
	}
	within(t, "a page beside readers that do not read", 2*time.Second, func() { v.get("") })
}

// The secret of a start stands in the address and on the page alone: in no file of the
// vault, in nothing that is handed over, and in no answer to one who does not have it.
func TestSecretStaysInTheAddress(t *testing.T) {
	v := confirmed(t, "2026-11-25", "splicing certificate.pdf")
	v.upload(map[string]string{"a.txt": "Certificate of attendance"})
	path := v.makes("packet")
	_, packet, _ := v.ask(http.MethodGet, v.address+path+"/file", "", "", nil)
	root := strings.TrimSuffix(v.address, v.token()+"/")
	_, refused, h := v.ask(http.MethodGet, root+"paper/P1", "", "", nil)
	if strings.Contains(packet, v.token()) || strings.Contains(refused+fmt.Sprint(h), v.token()) {
		t.Error("the secret is in the packet, or in the answer to one without it")
	}
	err := filepath.WalkDir(v.journal.Catalog().Dir(), func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		if strings.Contains(string(data), v.token()) {
			t.Errorf("%s holds the secret", path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}
