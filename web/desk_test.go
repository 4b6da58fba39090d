package web_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/go-pdf/fpdf"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/internal/demo"
	"evidencevault/journal"
)

// key presses a key where the focus is, once the page's script listens.
func key(t *testing.T, ctx context.Context, k string) {
	t.Helper()
	is(t, ctx, "document.readyState === 'complete' && !document.querySelector('#keys-open').hidden")
	run(t, ctx, chromedp.KeyEvent(k))
}

// The main story: a paper that the daemon takes in appears without reload; it is opened,
// its question answered and confirmed by keyboard alone; what the page foretold is what
// the journal counts.
func TestFromDropToStandingByKeyboard(t *testing.T) {
	v := serve(t, "splicing certificate.pdf")
	ctx := browser(t, 1280, 800, false, true)
	v.open(ctx, "")
	is(t, ctx, "document.querySelectorAll('.line').length === 1")
	run(t, ctx, chromedp.Evaluate[bool]("window.same = true"))
	v.add("visual inspection course.pdf")
	is(t, ctx, "document.querySelectorAll('.line').length === 2 && window.same")

	is(t, ctx, "document.querySelector('#list section:nth-of-type(2) .ask')") // the one with a question
	for range 2 {
		key(t, ctx, "j")
	}
	is(t, ctx, "document.activeElement.querySelector('.ask')")
	is(t, ctx, "document.querySelector('.glance')")
	key(t, ctx, kb.Enter)
	is(t, ctx, "document.body.dataset.screen === 'paper' && document.querySelector('#effect').innerText.includes('cannot be confirmed')")
	question := run(t, ctx, chromedp.Text(".question legend"))
	if !strings.Contains(question, "3rd of April") {
		t.Errorf("the question is %q", question)
	}
	key(t, ctx, "1")
	is(t, ctx, "document.querySelector('#effect table')")
	foretold := run(t, ctx, chromedp.Evaluate[[]string]("[...document.querySelectorAll('#effect td')].map(n => n.innerText)"))
	before, err := v.journal.Standing(t.Context(), credit.Date{}, "")
	if err != nil {
		t.Fatal(err)
	}
	key(t, ctx, "c")
	is(t, ctx, "document.querySelector('.note')")
	after, err := v.journal.Standing(t.Context(), credit.Date{}, "")
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"", before[0].Counted.String(), after[0].Counted.String(), before[0].Missing.String(), after[0].Missing.String()}
	if fmt.Sprint(foretold) != fmt.Sprint(want) || before[0].Counted.Equal(after[0].Counted) {
		t.Errorf("foretold %q, it is %q", foretold, want)
	}
	key(t, ctx, "t")
	is(t, ctx, "document.body.dataset.screen === 'standing'")
	if lead := run(t, ctx, chromedp.Text(".lead")); !strings.HasPrefix(lead, after[0].Counted.String()+" of 40 points counted") {
		t.Errorf("standing says %q", lead)
	}
	run(t, ctx, chromedp.Evaluate[bool]("(history.back(), true)")) // NavigateBack waits for a load that a kept page never has
	is(t, ctx, "document.body.dataset.screen !== 'standing'")
}

// Each value is outlined where the reading says it stands, within a point, on upright and
// on turned and on cropped pages, and there is ink in the picture where it stands.
func TestOutlinesStandWhereTheReadingSays(t *testing.T) {
	v := serve(t, "splicing certificate.pdf", "scan_0398.pdf")
	turned := filepath.Join("..", "extract", "page", "testdata", "hard", "rotate-each-way.pdf")
	if _, err := v.intake.Add(t.Context(), turned); err != nil {
		t.Fatal(err)
	}
	v.put(map[string][]byte{"cropped.pdf": cropped(t)})
	ctx := browser(t, 1280, 800, false, true)
	papers, err := v.journal.Waiting(t.Context())
	if err != nil || len(papers) < 4 {
		t.Fatalf("%d papers, %v", len(papers), err)
	}
	outlined := 0
	for _, p := range papers {
		if p.State != "waiting" {
			continue
		}
		v.open(ctx, "paper/"+p.ID)
		is(t, ctx, "[...document.querySelectorAll('.sheet svg')].length === document.querySelectorAll('.sheet').length")
		run(t, ctx, chromedp.Evaluate[bool]("document.querySelectorAll('img.picture').forEach(i => i.loading = 'eager'), true"))
		is(t, ctx, "[...document.querySelectorAll('img.picture')].every(i => i.complete && i.naturalWidth > 0)")
		type place struct {
			Field  string
			Sheet  int
			X, Y   float64 // of the outline's middle, as a share of the picture
			Width  float64
			Height float64
			Ink    float64 // share of dark points of the picture within the outline
		}
		var got []place
		text := run(t, ctx, chromedp.Evaluate[string](inkOf+`JSON.stringify([...document.querySelectorAll('svg .value')].map(n => {
			const r = n.getBoundingClientRect(), sheet = n.closest('.sheet'), i = sheet.querySelector('img.picture').getBoundingClientRect();
			return { field: n.dataset.field, sheet: [...document.querySelectorAll('.sheet')].indexOf(sheet), x: (r.left + r.right) / 2 - i.left, y: (r.top + r.bottom) / 2 - i.top, width: i.width, height: i.height, ink: ink(sheet.querySelector('img.picture'), r) };
		}))`))
		if err := json.Unmarshal([]byte(text), &got); err != nil {
			t.Fatal(err)
		}
		for _, g := range got {
			value := p.Values[paper.Field(g.Field)]
			size := run(t, ctx, chromedp.Evaluate[[]float64](fmt.Sprintf("document.querySelectorAll('.sheet svg')[%d].getAttribute('viewBox').split(' ').map(Number)", g.Sheet)))
			b := paper.Box(*value.Box)
			x, y := float64(b[0]+b[2])/200, float64(b[1]+b[3])/200
			if dx, dy := math.Abs(g.X/g.Width*size[2]-x), math.Abs(g.Y/g.Height*size[3]-y); dx > 1 || dy > 1 {
				t.Errorf("%s %s: outline %.1f, %.1f points away", p.ID, g.Field, dx, dy)
			}
			if g.Ink < 0.02 {
				t.Errorf("%s %s: %.1f %% of the picture is dark within the outline", p.File, g.Field, 100*g.Ink)
			}
			outlined++
		}
	}
	if outlined < 12 {
		t.Errorf("only %d outlines", outlined)
	}
}

// inkOf is the share of a picture that is dark within a rectangle of the window, without
// its rim.
const inkOf = `var ink = (img, r) => {
	const i = img.getBoundingClientRect(), c = document.createElement("canvas"), k = img.naturalWidth / i.width;
	c.width = img.naturalWidth; c.height = img.naturalHeight;
	const g = c.getContext("2d");
	g.drawImage(img, 0, 0);
	const d = g.getImageData((r.left - i.left + 3) * k, (r.top - i.top + 3) * k, Math.max((r.width - 6) * k, 1), Math.max((r.height - 6) * k, 1)).data;
	let dark = 0;
	for (let p = 0; p < d.length; p += 4) if (d[p] + d[p + 1] + d[p + 2] < 380) dark++;
	return dark / (d.length / 4);
};`

// cropped is a certificate of which a part of the sheet is shown: its crop box begins
// elsewhere than the sheet (ISO 32000-2, section 14.11.2).
func cropped(t *testing.T) []byte {
	t.Helper()
	f := fpdf.New("P", "pt", "A4", "")
	f.SetPageBox("crop", 37, 55, 490, 700)
	f.AddPage()
	f.SetFont("Helvetica", "", 14)
	for i, line := range []string{"Certificate of Attendance", "Grips and Clamps", "This certifies that " + demo.Holder + " attended", "Date: 3 March 2026", "Duration: 4 hours", "Provider: Vallmere Registry"} {
		f.Text(90, float64(120+60*i), line)
	}
	var b bytes.Buffer
	if err := f.Output(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// A file dropped onto the page with the mouse is taken in, and stands in the list.
func TestDroppedOntoThePage(t *testing.T) {
	v := serve(t, "splicing certificate.pdf")
	ctx := browser(t, 1280, 800, false, true)
	v.open(ctx, "")
	is(t, ctx, "!document.querySelector('#keys-open').hidden") // the script is there
	run(t, ctx, chromedp.Evaluate[bool](`(() => {
		const d = new DataTransfer();
		d.items.add(new File(["Certificate of attendance"], "dropped.txt"));
		document.querySelector("main").dispatchEvent(new DragEvent("drop", { dataTransfer: d, bubbles: true, cancelable: true }));
		return true;
	})()`))
	is(t, ctx, "document.querySelector('.note') && document.querySelector('main').innerText.includes('dropped.txt')")
	if papers, err := v.journal.Waiting(t.Context()); err != nil || len(papers) != 2 {
		t.Errorf("%d papers wait, %v", len(papers), err)
	}
}

// Focusing a field shows its place; a click on a word fills the field, a dragged box too.
func TestWordsFillTheField(t *testing.T) {
	v := serve(t, "splicing certificate.pdf")
	ctx := browser(t, 1280, 800, false, true)
	v.open(ctx, "paper/P1")
	is(t, ctx, "document.querySelectorAll('svg .word').length > 20")
	run(t, ctx, chromedp.Click("#f-title"))
	is(t, ctx, "document.querySelector('svg .value.on')?.dataset.field === 'title'")
	run(t, ctx, chromedp.Evaluate[bool](`(() => { const w = [...document.querySelectorAll('svg .word')].pop(); w.dispatchEvent(new MouseEvent('click', { bubbles: true })); return true })()`))
	is(t, ctx, "document.querySelector('#f-title').value && !document.querySelector('#f-title').value.includes('Splicing')")
}

// Without a script one can read, answer, see what it adds, and confirm.
func TestWithoutScript(t *testing.T) {
	v := serve(t, "visual inspection course.pdf")
	ctx := browser(t, 1000, 900, false, false)
	v.open(ctx, "")
	run(t, ctx, chromedp.Click(".line a"))
	run(t, ctx, chromedp.WaitVisible(".question"))
	run(t, ctx, chromedp.WaitVisible("noscript img.marks, img.marks"))
	run(t, ctx, chromedp.Click(".question input[type=radio]"))
	run(t, ctx, chromedp.Click("button[formaction]"))
	run(t, ctx, chromedp.WaitVisible("#effect table"))
	run(t, ctx, chromedp.Click("button.main"))
	run(t, ctx, chromedp.WaitVisible(".note"))
	claims, err := v.journal.Claims(t.Context(), journal.ClaimsFilter{})
	if err != nil || len(claims) != 1 || claims[0].End != credit.MustDate("2026-04-03") {
		t.Errorf("claims %+v, %v", claims, err)
	}
}

// Two tabs: the second one to confirm is told that it came too late.
func TestTwoTabs(t *testing.T) {
	v := serve(t, "splicing certificate.pdf")
	ctx := browser(t, 1280, 800, false, true)
	v.open(ctx, "paper/P1")
	other, cancel := chromedp.NewContext(ctx)
	defer cancel()
	v.open(other, "paper/P1")
	run(t, other, chromedp.Click("#decide button.main"))
	run(t, other, chromedp.WaitVisible(".note"))
	run(t, ctx, chromedp.Click("#decide button.main"))
	is(t, ctx, "document.querySelector('[role=alert]') && document.querySelector('[role=alert]').innerText.includes('already confirmed')")
	if claims, err := v.journal.Claims(t.Context(), journal.ClaimsFilter{}); err != nil || len(claims) != 1 {
		t.Errorf("%d claims, %v", len(claims), err)
	}
}

// Names and texts that are markup are shown as text, and no script of theirs runs.
func TestMarkupInNamesIsText(t *testing.T) {
	v := serve(t)
	nasty := `"><img src=x onerror=document.title='ran'><script>document.title='ran'</script>.txt`
	dir := t.TempDir()
	name := strings.ReplaceAll(nasty, "/", "∕")
	if err := os.WriteFile(filepath.Join(dir, name), []byte("Certificate of Attendance\n<script>document.title='ran'</script>\nThis certifies that Mirela Tannhof attended <b onmouseover=alert(1)>Ropes</b> on 3 March 2026, 4 hours.\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := v.intake.Add(t.Context(), dir); err != nil {
		t.Fatal(err)
	}
	ctx := browser(t, 1280, 800, false, true)
	for _, path := range []string{"", "paper/P1", "ready", "audit"} {
		v.open(ctx, path)
		if run(t, ctx, chromedp.Evaluate[bool]("document.title === 'ran' || !!document.querySelector('main script, main img[onerror], main b')")) {
			t.Errorf("%s: markup of a document is in the page", path)
		}
	}
}

// Each field says why it has its value: the reason, the page, how sure it is and what else
// is possible; the line opens with the field, and without a script by itself.
func TestWhyThisValue(t *testing.T) {
	v := serve(t, "splicing certificate.pdf", "visual inspection course.pdf")
	body := v.get("paper/P1")
	for _, f := range []string{"kind", "title", "provider", "attendee", "end_date", "duration_minutes", "category"} {
		_, rest, ok := strings.Cut(body, `id="q-`+f+`"`)
		line, _, _ := strings.Cut(rest, "</details>")
		if !ok || !strings.Contains(line, "certain") {
			t.Errorf("%s does not say why: %s", f, line)
		}
	}
	for _, want := range []string{"the heading says", "strength ", "it is the one category that takes this kind", "page 1; certain"} {
		if !strings.Contains(body, want) {
			t.Errorf("no reason is %q", want)
		}
	}
	ctx := browser(t, 1280, 800, false, true)
	v.open(ctx, "paper/P1")
	run(t, ctx, chromedp.Click("#f-title"))
	is(t, ctx, "document.querySelector('[data-field=title] details').open")
	run(t, ctx, chromedp.KeyEvent(kb.Tab))
	is(t, ctx, "document.activeElement.id === 'f-provider' && document.querySelector('[data-field=provider] details').open && !document.querySelector('[data-field=title] details').open")
	plain := browser(t, 390, 844, false, false)
	v.open(plain, "paper/P1")
	run(t, plain, chromedp.Click("[data-field=title] summary"))
	run(t, plain, chromedp.WaitVisible("[data-field=title] details[open] span.quote"))
}
