package web_test

import (
	"bytes"
	"context"
	"errors"
	"mime/multipart"
	"net/http"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"evidencevault/credit/scheme"
	"evidencevault/extract/page"
	"evidencevault/intake"
	"evidencevault/internal/demo"
	"evidencevault/journal"
	"evidencevault/web"
)

// serveNothing serves the page of a folder that is no vault yet.
func serveNothing(t *testing.T) (v *served, dir string) {
	t.Helper()
	v, dir = &served{T: t}, filepath.Join(t.TempDir(), "vault")
	pages := page.NewReader(page.Options{})
	s, err := web.New(web.Options{Pages: pages, Dir: dir, Failed: func(err error) { t.Log("failed:", err) },
		Begin: func(ctx context.Context, o journal.SetupOptions) (*journal.Journal, *intake.Intake, error) {
			j, err := journal.Setup(ctx, dir, o)
			if err != nil {
				return nil, nil, err
			}
			v.journal, v.intake = j, intake.New(j.Catalog(), intake.Options{Settle: time.Millisecond})
			return v.journal, v.intake, nil
		}})
	if err != nil {
		t.Fatal(err)
	}
	serving, stop := context.WithCancel(context.WithoutCancel(t.Context()))
	done := make(chan error, 1)
	go func() { done <- s.Serve(serving) }()
	t.Cleanup(func() {
		stop()
		err := errors.Join(<-done, pages.Close())
		if v.journal != nil {
			err = errors.Join(err, v.intake.Close(), v.journal.Close())
		}
		if err != nil {
			t.Error(err)
		}
	})
	v.address = s.Address()
	return v, dir
}

// The first steps make a vault by a form, without a script too, and the page goes on with
// it.
func TestFirstSteps(t *testing.T) {
	v, dir := serveNothing(t)
	ctx := browser(t, 1000, 900, false, false)
	v.open(ctx, "")
	for _, path := range []string{"standing", "claims", "paper/P1", "events"} {
		if status, _, _ := v.ask(http.MethodGet, v.address+path, "", "", nil); status != http.StatusNotFound {
			t.Errorf("%s before there is a vault: %d", path, status)
		}
	}
	run(t, ctx, chromedp.SendKeys("#f-holder", demo.Holder))
	run(t, ctx, chromedp.Click(`input[value="`+demo.Scheme+`"]`))
	run(t, ctx, chromedp.SendKeys("#f-start", "3/4/2024"))
	run(t, ctx, chromedp.Click("button.main"))
	run(t, ctx, chromedp.WaitVisible(`[role=alert]`))
	if got := run(t, ctx, chromedp.Value("#f-holder")); got != demo.Holder || v.journal != nil {
		t.Errorf("an ambiguous day: the name is now %q, vault made: %v", got, v.journal != nil)
	}
	run(t, ctx, chromedp.Clear("#f-start"))
	run(t, ctx, chromedp.SendKeys("#f-start", demo.CycleStart))
	run(t, ctx, chromedp.Click("button.main"))
	run(t, ctx, chromedp.WaitVisible(`nav a[data-key="t"]`)) // the whole page is there
	if text := run(t, ctx, chromedp.Text("main")); !strings.Contains(text, filepath.Join(dir, "drop")) || !strings.Contains(text, "is made") {
		t.Errorf("after the first steps: %s", text)
	}
	about, err := v.journal.About(t.Context())
	if err != nil || about.Holder != demo.Holder || len(about.Certifications) != 1 {
		t.Errorf("made %+v, %v", about, err)
	}
}

// A scheme file of one's own is taken; one with mistakes is said line by line, and nothing
// is made.
func TestFirstStepsWithOwnScheme(t *testing.T) {
	v, _ := serveNothing(t)
	send := func(text string) (int, string) {
		var b bytes.Buffer
		w := multipart.NewWriter(&b)
		for name, value := range map[string]string{"holder": demo.Holder, "start": "2024-07-01", "drop": "", "scheme": ""} {
			if err := w.WriteField(name, value); err != nil {
				t.Fatal(err)
			}
		}
		p, err := w.CreateFormFile("file", "own.toml")
		if err != nil {
			t.Fatal(err)
		}
		if _, err := p.Write([]byte(text)); err != nil {
			t.Fatal(err)
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
		resp, err := http.Post(v.address+"begin?token="+v.token(), w.FormDataContentType(), &b)
		if err != nil {
			t.Fatal(err)
		}
		defer resp.Body.Close()
		var body bytes.Buffer
		if _, err := body.ReadFrom(resp.Body); err != nil {
			t.Fatal(err)
		}
		return resp.StatusCode, body.String()
	}
	if status, body := send("id = 3\n[cycle\n"); status != http.StatusUnprocessableEntity || !strings.Contains(body, "own.toml:") || v.journal != nil {
		t.Errorf("a scheme with mistakes: %d %s", status, body)
	}
	if status, body := send(ownScheme(t)); status != http.StatusOK || v.journal == nil {
		t.Errorf("a scheme of one's own: %d %s", status, body)
	}
}

func ownScheme(t *testing.T) string {
	t.Helper()
	for _, s := range scheme.List() {
		if s.ID == demo.Scheme {
			return string(s.Data)
		}
	}
	t.Fatal("no scheme of the demo")
	return ""
}
