package audit_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"evidencevault/audit"
)

// On the index axe-core finds nothing, light and dark, wide and narrow, in each language.
func TestIndexIsAccessible(t *testing.T) {
	axe, err := os.ReadFile("../web/testdata/axe.min.js")
	if err != nil {
		t.Fatal(err)
	}
	j := asked(t)
	for _, tt := range []struct {
		language string
		width    int
		scheme   string
		drawn    bool
	}{{"en", 1200, "0", false}, {"de", 1200, "1", true}, {"de", 360, "0", true}, {"en", 360, "1", false}} {
		d := dossier(t, j, tt.language)
		if tt.drawn {
			if d, err = d.Only([]string{"C1", "C5"}); err != nil {
				t.Fatal(err)
			}
		}
		dir := filepath.Join(t.TempDir(), "index")
		if err := audit.WriteIndex(t.Context(), j.Catalog().Store(), d, dir); err != nil {
			t.Fatal(err)
		}
		o := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.NoSandbox, chromedp.WindowSize(max(tt.width, 500), 900), chromedp.Flag("disable-quic", true),
			chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND , EXCLUDE 127.0.0.1"), chromedp.Flag("blink-settings", "preferredColorScheme="+tt.scheme))
		ctx, cancel := context.WithTimeout(t.Context(), 90*time.Second)
		defer cancel()
		ctx, cancel = chromedp.NewExecAllocator(ctx, o...)
		defer cancel()
		ctx, cancel = chromedp.NewContext(ctx)
		defer cancel()
		see(t, ctx, chromedp.EmulateViewport(int64(tt.width), 900))
		see(t, ctx, chromedp.Navigate("file://"+filepath.ToSlash(filepath.Join(dir, "index.html"))))
		see(t, ctx, chromedp.Evaluate[bool]("(() => {"+string(axe)+"; return true})()"))
		passes, found, _ := strings.Cut(see(t, ctx, chromedp.Evaluate[string](`axe.run(document).then(r => r.passes.length + " " + JSON.stringify(r.violations.map(v => v.id + ": " + v.nodes.map(n => n.html).join(" | "))))`, chromedp.EvalAwaitPromise)), " ")
		if found != "[]" {
			t.Errorf("%+v: %s", tt, found)
		}
		if n, err := strconv.Atoi(passes); err != nil || n < 10 {
			t.Errorf("axe-core looked at %s rules only", passes)
		}
		if wide := see(t, ctx, chromedp.Evaluate[int](`document.documentElement.scrollWidth`)); wide > tt.width {
			t.Errorf("%+v: the page is %d wide: %s", tt, wide, see(t, ctx, chromedp.Evaluate[string](`[...document.querySelectorAll("body *")].filter(n => n.getBoundingClientRect().right > innerWidth + 1).slice(0, 3).map(n => n.outerHTML.slice(0, 120)).join(" | ")`)))
		}
	}
}

// see does one action in the browser and returns what it gives.
func see[T any](t *testing.T, ctx context.Context, a chromedp.Action[T]) T {
	t.Helper()
	v, err := chromedp.Run(ctx, a)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Each link to a proof names its file and page, leads to nothing outside the folder, and
// can be followed on paper: it shows the exhibit's number, and the list shows the file of
// each exhibit.
func TestLinksWorkOfflineAndOnPaper(t *testing.T) {
	j, dir := asked(t), filepath.Join(t.TempDir(), "index")
	d := dossier(t, j, "")
	if err := audit.WriteIndex(t.Context(), j.Catalog().Store(), d, dir); err != nil {
		t.Fatal(err)
	}
	page := read(t, filepath.Join(dir, "index.html"))
	if m := regexp.MustCompile(`(?i)(href|src)="(\w+:|//)[^"]*"|url\(`).FindString(page); m != "" {
		t.Errorf("it leads outside: %s", m)
	}
	pdf := filepath.Join(t.TempDir(), "printed.pdf")
	output(t, "chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer", "--print-to-pdf="+pdf, "file://"+filepath.Join(dir, "index.html"))
	printed := spaced(output(t, "pdftotext", "-raw", pdf, "-")) // cell by cell
	number := map[string]int{}
	for i, o := range d.Originals {
		number[o.Copy] = i + 1
		if whole := strings.ReplaceAll(printed, " ", ""); !strings.Contains(whole, fmt.Sprintf("Exhibit%d:%s", i+1, o.Copy)) {
			t.Errorf("on paper the file of exhibit %d is not named", i+1)
		}
	}
	for _, e := range d.Claims {
		for _, p := range e.Proofs {
			link := p.Copy
			if strings.HasSuffix(p.Copy, ".pdf") {
				link = fmt.Sprintf("%s#page=%d", p.Copy, p.Page)
			}
			where := fmt.Sprintf("Exhibit %d, page %d", number[p.Copy], p.Page)
			if !strings.Contains(page, `<a href="`+link+`">`+where+`</a>`) || !strings.Contains(printed, where) {
				t.Errorf("%s %s: no link to %s as %s", e.ID, p.Field, link, where)
			}
		}
	}
}
