package web_test

import (
	"context"
	"encoding/json"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"evidencevault/credit"
	"evidencevault/internal/demo"
	"evidencevault/journal"
)

// shot is one screen to look at.
type shot struct {
	name, path string
	act        string // what is done there first, in script
	until      string // what is there then; "" for what is there at once
}

// everyScreen is a vault that has something for every screen, and the screens.
func everyScreen(t *testing.T) (*served, []shot) {
	t.Helper()
	v := serve(t, "*")
	v.put(map[string][]byte{"three.pdf": book(t, 3, 595, 842), "letter of the council.pdf": book(t, 1, 595, 842)})
	plan, err := v.journal.ConfirmClear(t.Context(), "")
	if err != nil {
		t.Fatal(err)
	}
	ready := len(plan.Confirm) + len(plan.Receipts)
	if ready < 5 {
		t.Fatalf("only %d papers are ready", ready)
	}
	late := plan.Confirm[len(plan.Confirm)-1]
	plan.Confirm = plan.Confirm[:len(plan.Confirm)-1] // something stays ready
	done, err := v.journal.DoClear(t.Context(), plan, "")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := v.journal.ClaimAdd(t.Context(), journal.ClaimOptions{Category: "course", Set: map[string]string{
		"title": "Rope course", "kind": "attendance", "end_date": "2026-02-03", "duration_minutes": "240"}}); err != nil {
		t.Fatal(err)
	}
	waiting, err := v.journal.Waiting(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	v.hasLetter(waiting)
	receipt := ""
	for _, r := range done.Receipts {
		if r.State == journal.ReceiptOpen {
			receipt = r.Paper
		}
	}
	three := ""
	for _, p := range waiting {
		if p.File == "three.pdf" {
			three = p.ID
		}
	}
	if receipt == "" || three == "" {
		t.Fatalf("receipt %q, paper of three pages %q", receipt, three)
	}
	return v, []shot{
		{name: "work"}, {name: "work-nothing-found", path: "?q=nothing+at+all"},
		{name: "paper", path: "paper/" + asked(waiting), until: "document.querySelector('svg .value') && document.querySelector('#effect').children.length"},
		{name: "paper-ready", path: "paper/" + late.ID, until: "document.querySelector('#effect table')"},
		{name: "paper-decided", path: "paper/P1"}, {name: "paper-receipt", path: "paper/" + receipt},
		{name: "cut", path: "paper/" + three + "/cut", until: "document.querySelectorAll('.strip img').length === 3"},
		{name: "cut-nothing", path: "paper/" + three + "/cut", act: "document.querySelector('button.main').click()", until: "document.querySelector('[role=alert]')"},
		{name: "ready", path: "ready"}, {name: "standing", path: "standing"}, {name: "claims", path: "claims"},
		{name: "claim", path: "claim/C1"}, {name: "claim-mend-field", path: "claim/C1?mend=end_date"}, {name: "claim-mend-proof", path: "claim/" + unproven(v) + "?mend=proof"},
		{name: "audit", path: "audit"}, {name: "audit-open", path: "audit", act: "document.querySelectorAll('details').forEach(d => { d.open = true })"},
		{name: "letter", path: "letter?paper=" + three},
		{name: "letter-wrong", path: "letter?paper=" + three, act: "document.querySelector('button.main').click()", until: "document.querySelector('[role=alert]')"},
		{name: "made-packet-wrong", path: "audit", act: "document.querySelector('button.main[value=packet]').click()", until: "document.querySelector('[role=alert]')"},
		{name: "made-packet", path: v.makes("packet")}, {name: "made-index", path: v.makes("index")}, {name: "made-binder", path: v.makes("binder")},
		{name: "cycles", path: "cycles"}, {name: "close", path: "close?certification=" + demo.Scheme},
		{name: "close-early", path: "close?certification=" + demo.Scheme + "&early=on"},
		{name: "close-wrong", path: "close?certification=" + demo.Scheme + "&early=on&next_end=3/4/2029", until: "document.querySelector('[role=alert]')"},
		{name: "rules", path: "rules?certification=" + demo.Scheme},
		{name: "rules-move", path: "rules?certification=" + demo.Scheme, act: sendsRules(t), until: "document.querySelector('select')"},
		{name: "rules-change", path: "rules?certification=" + demo.Scheme, act: sendsRules(t), until: "document.querySelector('table.versions') || (s => s && !s.value && (s.value = 'course', document.querySelector('button[value=look]').click()))(document.querySelector('select'))"},
		{name: "wrong", path: "paper/P999"},
	}
}

// hasLetter records an audit letter that is open.
func (v *served) hasLetter(waiting []journal.WaitingPaper) {
	v.Helper()
	for _, p := range waiting {
		if p.File == "letter of the council.pdf" {
			_, err := v.journal.RecordLetter(v.Context(), []string{p.ID}, journal.LetterOptions{Dated: credit.MustDate("2026-11-20"), Due: credit.MustDate("2026-12-20"), Claims: []string{"C1-C3"}})
			if err != nil {
				v.Fatal(err)
			}
			return
		}
	}
	v.Fatal("no letter waits")
}

// sendsRules chooses a scheme file on the screen of rules, and sends it.
func sendsRules(t *testing.T) string {
	text, err := json.Marshal(string(otherRules(t)))
	if err != nil {
		t.Fatal(err)
	}
	return "(d => { d.items.add(new File([" + string(text) + "], 'rules-2099.toml')); document.querySelector('#f-file').files = d.files; document.querySelector('main form button').click() })(new DataTransfer())"
}

// closedScreens are those of a vault with a cycle that is closed, of which one original
// opens only with a password, and another whose closing was begun.
func closedScreens(t *testing.T) (*served, []shot) {
	t.Helper()
	v := confirmed(t, "2028-07-10", "splicing certificate.pdf", "guest lecture.pdf", "visual inspection course.pdf")
	for _, p := range v.put(map[string][]byte{"locked.pdf": encrypted(t)}) {
		if p.File != "locked.pdf" {
			continue
		}
		v.send("paper/"+p.ID+"/reread", url.Values{"password": {password}})
		if _, err := v.journal.Confirm(t.Context(), []string{p.ID}, journal.ConfirmOptions{Set: map[string]string{"title": "Grips and Clamps"}}); err != nil {
			t.Fatal(err)
		}
	}
	form := hidden(v.get("close?certification="+demo.Scheme), "close")
	_, body := v.send("close", form)
	at := regexp.MustCompile(`audit/made/\d+`).FindString(body)
	v.until(body)
	plan, err := v.journal.ClosePlan(t.Context(), journal.CloseOptions{Certification: demo.Scheme, Early: true})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := v.journal.CloseBegin(t.Context(), plan); err != nil {
		t.Fatal(err)
	}
	return v, []shot{{name: "made-closing", path: at}, {name: "cycles-closed", path: "cycles"}, {name: "cycles-open", path: "cycles", act: "document.querySelectorAll('details').forEach(d => { d.open = true })"},
		{name: "close-begun", path: "close?certification=" + demo.Scheme + "&early=on"}, {name: "cycle", path: "cycle/" + demo.Scheme + "/1"},
		{name: "bind", path: "cycle/" + demo.Scheme + "/1", act: "document.querySelector('button[value=binder]').click()", until: "document.body.dataset.screen === 'bind'"},
		{name: "cycle-note", path: "cycle/" + demo.Scheme + "/1", act: "document.querySelectorAll('details').forEach(d => { d.open = true })"}}
}

// unproven is a claim without a proof.
func unproven(v *served) string {
	v.Helper()
	claims, err := v.journal.Claims(v.Context(), journal.ClaimsFilter{})
	if err != nil {
		v.Fatal(err)
	}
	for _, c := range claims {
		if !c.Proven {
			return c.ID
		}
	}
	v.Fatal("every claim is proven")
	return ""
}

// makes has something made for the auditor and returns its path.
func (v *served) makes(what string) string {
	v.Helper()
	status, body := v.send("audit/make", url.Values{"what": {what}, "certification": {v.certification()}, "unproven": {"out"}})
	at := regexp.MustCompile(`audit/made/\d+`).FindString(body)
	if at == "" {
		v.Fatalf("%s: %d %s", what, status, body)
	}
	for strings.Contains(body, "<progress") {
		if v.Context().Err() != nil {
			v.Fatal("it is never made")
		}
		body = v.get(at)
	}
	return at
}

// firstScreens are those of a folder that is no vault yet.
func firstScreens() []shot {
	wrong := "(f => { f.noValidate = true; f.querySelector('#f-holder').value = '" + demo.Holder + "'; f.querySelector('#f-start').value = '3/4/2024'; f.querySelector('button.main').click() })(document.querySelector('main form'))"
	return []shot{{name: "first"}, {name: "first-wrong", act: wrong, until: "document.querySelector('[role=alert]')"}}
}

// visit goes to a screen and waits until it is all there.
func (v *served) visit(ctx context.Context, s shot) {
	v.Helper()
	v.open(ctx, s.path)
	if s.act != "" {
		run(v.T, ctx, chromedp.Evaluate[bool]("("+s.act+", true)"))
	}
	if s.until != "" {
		is(v.T, ctx, s.until)
	}
	is(v.T, ctx, "document.readyState === 'complete'")
	is(v.T, ctx, "([...document.images].forEach(i => { i.loading = 'eager' }), [...document.images].every(i => i.complete))")
}

// window is a size of window in which the screens are looked at.
type window struct {
	name          string
	width, height int
	dark          bool
}

// eachScreen visits every screen in each of these windows.
func eachScreen(t *testing.T, windows []window, look func(t *testing.T, ctx context.Context, w window, s shot)) {
	t.Helper()
	full, screens := everyScreen(t)
	empty, _ := serveNothing(t)
	later, closed := closedScreens(t)
	for _, w := range windows {
		ctx := browser(t, w.width, w.height, w.dark, true)
		for _, of := range []struct {
			*served
			list []shot
		}{{full, screens}, {empty, firstScreens()}, {later, closed}} {
			for _, s := range of.list {
				t.Run(w.name+"/"+s.name, func(t *testing.T) {
					of.T = t
					of.visit(ctx, s)
					look(t, ctx, w, s)
				})
			}
		}
	}
}

// On every screen axe-core finds nothing, in light and dark, wide and narrow; nothing
// sticks out of a narrow window or one of 200 %, no word of a table is broken, and a picture of
// it can be taken. SCREENS keeps the pictures, of more windows, for people: make screens.
func TestEveryScreen(t *testing.T) {
	axe, err := os.ReadFile(filepath.Join("testdata", "axe.min.js"))
	if err != nil {
		t.Fatal(err)
	}
	dir, windows := os.Getenv("SCREENS"), []window{{"1280", 1280, 800, false}, {"390-dark", 390, 844, true}}
	if dir == "" {
		dir = t.TempDir()
	} else { // 640 points are 1280 at 200 % zoom
		windows = append(windows, window{"768", 768, 1024, false}, window{"390", 390, 844, false}, window{"zoomed", 640, 400, false}, window{"dark", 1280, 800, true})
	}
	eachScreen(t, windows, func(t *testing.T, ctx context.Context, w window, s shot) {
		picture := run(t, ctx, chromedp.FullScreenshot(90))
		if len(picture) < 5000 {
			t.Errorf("a picture of %d bytes", len(picture))
		}
		if err := os.WriteFile(filepath.Join(dir, s.name+"-"+w.name+".png"), picture, 0o600); err != nil {
			t.Fatal(err)
		}
		run(t, ctx, chromedp.Evaluate[bool]("("+"() => {"+string(axe)+"; return true}"+")()"))
		found := run(t, ctx, chromedp.Evaluate[string](`axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] }).then(r => r.passes.length + " " + JSON.stringify(r.violations.map(v => v.id + ": " + v.nodes.map(n => n.html).join(" | "))))`, chromedp.EvalAwaitPromise))
		passes, violations, _ := strings.Cut(found, " ")
		if n, err := strconv.Atoi(passes); err != nil || n < 10 {
			t.Errorf("axe-core looked at %s rules only", passes)
		}
		if violations != "[]" {
			t.Errorf("axe-core: %s", violations)
		}
		if run(t, ctx, chromedp.Evaluate[bool]("document.documentElement.scrollWidth > innerWidth + 1")) {
			t.Errorf("sticks out: %s", run(t, ctx, chromedp.Evaluate[string]("[...document.querySelectorAll('main *')].filter(n => n.getBoundingClientRect().right > innerWidth + 1 && !n.closest('.wide')).slice(0, 3).map(n => n.outerHTML.slice(0, 120)).join(' | ')")))
		}
		if bare := run(t, ctx, chromedp.Evaluate[string](withoutKey)); bare != "" {
			t.Errorf("no key reaches, or no list names: %s", bare)
		}
		if words := run(t, ctx, chromedp.Evaluate[string](brokenWords)); words != "" {
			t.Errorf("broken words: %s", words)
		}
	})
}

// withoutKey lists the acts of a screen that have no key, neither of their own nor of the
// form or fold they are in, and keys that the list of keys does not name.
const withoutKey = `(() => {
	const named = new Set([...document.querySelectorAll("#keys dt")].flatMap(n => n.textContent.split(/\s+/)));
	const bare = [...document.querySelectorAll("main button:not([type=button])")].filter(b => {
		const fold = b.closest("details");
		return !b.form.querySelector("[data-key]:not(a), #search") && !(fold && fold.querySelector("summary[data-key]"));
	}).map(b => b.innerText.trim());
	const unnamed = [...document.querySelectorAll("[data-key]")].map(n => n.dataset.key).filter(k => !named.has(k));
	return [...bare, ...unnamed].join(", ");
})()`

// brokenWords lists the words of tables that stand on two lines, which no word does that
// has no hyphen. Long ones, as names of files, may.
const brokenWords = `(() => {
	const broken = [];
	for (const cell of document.querySelectorAll("td, th")) {
		const walk = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT);
		for (let n = walk.nextNode(); n; n = walk.nextNode()) {
			for (const m of n.data.matchAll(/[\p{L}\p{N}]{2,20}/gu)) {
				const r = document.createRange();
				r.setStart(n, m.index); r.setEnd(n, m.index + m[0].length);
				if (new Set([...r.getClientRects()].map(b => Math.round(b.top))).size > 1) broken.push(m[0]);
			}
		}
	}
	return broken.join(", ");
})()`

// asked is the first paper that has a question with candidates.
func asked(list []journal.WaitingPaper) string {
	for _, p := range list {
		if len(p.Questions) > 0 && len(p.Questions[0].Candidates) > 1 {
			return p.ID
		}
	}
	return list[0].ID
}
