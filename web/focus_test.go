package web_test

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// focused says what has the focus, whether any of it can be seen (WCAG 2.2, 2.4.11), and
// whether the focus shows (2.4.7).
const focused = `(() => {
	const n = document.activeElement;
	if (!n || n === document.body) return "";
	const name = (n.id || n.name || n.innerText || n.outerHTML).trim().slice(0, 40) + " ";
	if (!window.seen) window.seen = new Map();
	if (!window.seen.has(n)) window.seen.set(n, window.seen.size);
	const s = getComputedStyle(n), r = n.getClientRects()[0] ?? n.getBoundingClientRect();
	const faults = [];
	if (s.outlineStyle === "none" && s.boxShadow === "none") faults.push("no outline");
	let free = 0;
	for (const [x, y] of [[.5, .5], [.1, .2], [.9, .2], [.1, .8], [.9, .8]]) {
		const over = document.elementFromPoint(r.left + r.width * x, r.top + r.height * y);
		if (over && (n.contains(over) || over.contains(n) || over.closest("label")?.control === n)) free++;
	}
	if (!free) faults.push("hidden at " + Math.round(r.top) + " of " + innerHeight);
	return window.seen.get(n) + " " + name + (faults.length ? "FAULT " + faults.join(", ") : "");
})()`

// By Tab alone one comes through every screen and out of it at its end: nothing keeps the
// focus, and nothing that has it is hidden under what stays at the edge.
func TestFocusIsSeenAndNothingTraps(t *testing.T) {
	v := lettered(t)
	v.add("visual inspection course.pdf")
	v.send("letter", map[string][]string{"paper": {"P5"}, "certification": {v.certification()}, "date": {"2026-11-20"}, "due": {"2026-12-20"}})
	for name, size := range map[string][2]int{"wide": {1280, 800}, "narrow": {390, 844}, "200 %": {640, 400}} {
		ctx := browser(t, size[0], size[1], false, true)
		for _, path := range []string{"", "paper/P6", "claim/C1", "audit", "letter", "close?early=on", "standing"} {
			t.Run(name+"/"+path, func(t *testing.T) {
				v.T = t
				v.open(ctx, path)
				is(t, ctx, "document.readyState === 'complete'")
				stops := run(t, ctx, chromedp.Evaluate[int](`[...document.querySelectorAll("a[href], button, input:not([type=hidden]), select, summary, [tabindex='0']")].filter((n, i, all) => n.tabIndex >= 0 && n.checkVisibility() && !n.closest("dialog") && !(n.type === "radio" && all.findIndex(o => o.name === n.name) < i)).length`))
				reached := map[string]bool{}
				for range stops + 20 {
					run(t, ctx, chromedp.KeyEvent(kb.Tab))
					at := run(t, ctx, chromedp.Evaluate[string](focused))
					if strings.Contains(at, "FAULT") {
						t.Error(at)
					}
					if at == "" || reached[at] && strings.HasPrefix(at, "0 ") {
						break
					}
					reached[at] = true
				}
				if len(reached) < stops {
					t.Errorf("Tab reaches %d of %d, not: %s", len(reached), stops, run(t, ctx, chromedp.Evaluate[string](`[...document.querySelectorAll("a[href], button, input:not([type=hidden]), select, summary, [tabindex='0']")].filter(n => n.tabIndex >= 0 && n.checkVisibility() && !window.seen.has(n)).map(n => n.outerHTML.slice(0, 90)).join(" | ")`)))
				}
				if len(reached) > stops+15 {
					t.Errorf("the focus does not leave: %d stops, %d there are", len(reached), stops)
				}
			})
		}
	}
}
