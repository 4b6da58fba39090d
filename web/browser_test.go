package web_test

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"evidencevault/credit"
	"evidencevault/extract/page"
	"evidencevault/intake"
	"evidencevault/internal/demo"
	"evidencevault/journal"
	"evidencevault/web"
)

func TestMain(m *testing.M) {
	page.Main() // a child that reads a document ends here
	os.Exit(m.Run())
}

// served is a vault whose page is served for one test.
type served struct {
	*testing.T
	journal *journal.Journal
	intake  *intake.Intake
	address string // with the secret and a last slash
}

// serve makes a vault with these papers of the demo and serves its page.
func serve(t *testing.T, papers ...string) *served {
	t.Helper()
	return serveOn(t, "2026-11-25", papers...)
}

// serveOn is serve on a day.
func serveOn(t *testing.T, day string, papers ...string) *served {
	t.Helper()
	ctx := t.Context()
	now, err := time.Parse(time.DateTime, day+" 09:00:00")
	if err != nil {
		t.Fatal(err)
	}
	j, err := journal.Setup(ctx, filepath.Join(t.TempDir(), "vault"), journal.SetupOptions{Holder: demo.Holder, Number: demo.Number,
		SchemeID: demo.Scheme, Start: credit.MustDate(demo.CycleStart), Now: func() time.Time { return now }})
	if err != nil {
		t.Fatal(err)
	}
	pages := page.NewReader(page.Options{})
	in := intake.New(j.Catalog(), intake.Options{Settle: time.Millisecond})
	s, err := web.New(web.Options{Journal: j, Intake: in, Pages: pages, Upload: 4 << 20, Failed: func(err error) { t.Log("failed:", err) }})
	if err != nil {
		t.Fatal(err)
	}
	serving, stop := context.WithCancel(context.WithoutCancel(ctx))
	done := make(chan error, 1)
	go func() { done <- s.Serve(serving) }()
	t.Cleanup(func() {
		stop()
		if err := errors.Join(<-done, in.Close(), pages.Close(), j.Close()); err != nil {
			t.Error(err)
		}
	})
	v := &served{t, j, in, s.Address()}
	v.add(papers...)
	return v
}

// add takes in papers of the demo; "*" names all of them.
func (v *served) add(names ...string) {
	v.Helper()
	if len(names) == 0 {
		return
	}
	dir := v.TempDir()
	for _, p := range demo.Papers() {
		for _, name := range names {
			if name == "*" || p.Name == name {
				if err := os.WriteFile(filepath.Join(dir, filepath.Base(p.Name)), p.Data, 0o600); err != nil {
					v.Fatal(err)
				}
			}
		}
	}
	if _, err := v.intake.Add(v.Context(), dir); err != nil {
		v.Fatal(err)
	}
}

// browser starts Debian's chromium on loopback addresses alone; script false switches
// scripts off.
func browser(t *testing.T, width, height int, dark bool, script bool) context.Context {
	t.Helper()
	o := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.NoSandbox, chromedp.WindowSize(max(width, 500), height),
		chromedp.Flag("disable-quic", true), chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND , EXCLUDE 127.0.0.1"))
	if dark {
		o = append(o, chromedp.Flag("blink-settings", "preferredColorScheme=0"))
	}
	ctx, cancel := context.WithTimeout(t.Context(), 5*time.Minute)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewExecAllocator(ctx, o...)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	run(t, ctx, chromedp.EmulateViewport(int64(width), int64(height)))
	if !script {
		run(t, ctx, chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
			_, err := cdp.Call(ctx, target, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
			return err
		}))
	}
	return ctx
}

// run does one action in the browser and returns what it gives.
func run[T any](t *testing.T, ctx context.Context, a chromedp.Action[T]) T {
	t.Helper()
	v, err := chromedp.Run(ctx, a)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// open goes to a path below the secret and waits until its heading is there.
func (v *served) open(ctx context.Context, path string) {
	v.Helper()
	run(v.T, ctx, chromedp.Navigate(v.address+strings.TrimPrefix(path, "/")))
	run(v.T, ctx, chromedp.WaitVisible("main h1"))
}

// is waits until an expression of the page is true. While the page changes to another
// there is nothing that could be asked, which is no failure.
func is(t *testing.T, ctx context.Context, expression string) {
	t.Helper()
	for end := time.Now().Add(20 * time.Second); ; {
		yes, err := chromedp.Run(ctx, chromedp.Evaluate[bool]("(() => { try { return !!("+expression+") } catch { return false } })()"))
		if err == nil && yes {
			return
		}
		if ctx.Err() != nil || time.Now().After(end) {
			t.Fatalf("never true: %s (%v)", expression, err)
		}
	}
}
