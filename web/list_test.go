package web_test

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"evidencevault/credit"
	"evidencevault/internal/demo"
	"evidencevault/journal"
)

// All that is ready is listed, confirmed together and taken back together, by three keys.
func TestReadyTogether(t *testing.T) {
	v := serve(t, "splicing certificate.pdf", "guest lecture.pdf", "visual inspection course.pdf")
	ctx := browser(t, 1280, 800, false, true)
	v.open(ctx, "")
	key(t, ctx, "y")
	is(t, ctx, "document.body.dataset.screen === 'ready'")
	listed := run(t, ctx, chromedp.Evaluate[[]string]("[...document.querySelectorAll('input[name=paper]')].map(n => n.value)"))
	if len(listed) != 2 || slices.Contains(listed, "P3") {
		t.Errorf("ready are %v; P3 asks something", listed)
	}
	key(t, ctx, "c")
	is(t, ctx, "document.querySelector('.note') && document.querySelector('.note').innerText.includes('2 claims')")
	claims := func() int {
		list, err := v.journal.Claims(t.Context(), journal.ClaimsFilter{})
		if err != nil {
			t.Fatal(err)
		}
		return len(list)
	}
	if n := claims(); n != 2 {
		t.Errorf("%d claims, want 2", n)
	}
	key(t, ctx, "u")
	is(t, ctx, "document.querySelector('.note') && document.querySelector('.note').innerText.includes('taken back')")
	if n := claims(); n != 0 {
		t.Errorf("%d claims are left", n)
	}
}

// No line has a picture but the one with the focus.
func TestOnlyTheFocusedLineHasItsPicture(t *testing.T) {
	v := serve(t, "splicing certificate.pdf", "guest lecture.pdf")
	ctx := browser(t, 1280, 800, false, true)
	v.open(ctx, "")
	if n := run(t, ctx, chromedp.Evaluate[int]("document.querySelectorAll('.line').length * 10 + document.querySelectorAll('main img').length")); n != 20 {
		t.Errorf("two lines and no picture are %d, want 20", n)
	}
	for _, line := range []string{"0", "1"} {
		key(t, ctx, "j")
		is(t, ctx, "(i => i && i.complete && i.naturalWidth > 0 && i.closest('.line') === document.querySelectorAll('.line')["+line+"])(document.querySelector('.glance'))")
		if n := run(t, ctx, chromedp.Evaluate[int]("document.querySelectorAll('main img').length")); n != 1 {
			t.Errorf("line %s: %d pictures", line, n)
		}
	}
}

// A page is drawn for the screen first, sharper when it is enlarged, and turned with its
// outlines.
func TestSharperWhenEnlargedAndTurned(t *testing.T) {
	v := serve(t, "splicing certificate.pdf")
	ctx := browser(t, 1280, 800, false, true)
	v.open(ctx, "paper/P1")
	is(t, ctx, "document.querySelector('.sheet svg') && document.querySelector('img.picture').naturalWidth > 0")
	at := run(t, ctx, chromedp.Evaluate[int]("document.querySelector('img.picture').naturalWidth"))
	for range 4 {
		key(t, ctx, "+")
	}
	is(t, ctx, "(i => i.complete && i.naturalWidth > 1.5 * "+strconv.Itoa(at)+")(document.querySelector('img.picture'))")
	for range 4 {
		key(t, ctx, "-")
	}
	key(t, ctx, "r")
	is(t, ctx, `(() => {
		const i = document.querySelector("img.picture").getBoundingClientRect(), s = document.querySelector(".sheet svg").getBoundingClientRect();
		return i.width > i.height && Math.abs(i.left - s.left) < 2 && Math.abs(i.top - s.top) < 2 && Math.abs(i.width - s.width) < 2;
	})()`)
}

// Claims are found by a word and put in order.
func TestClaimsAreSearchedAndSorted(t *testing.T) {
	v := lettered(t)
	order := func(path string) string {
		return strings.Join(regexp.MustCompile(`\b(Grips|Brakes|Ropes|Towers)\b`).FindAllString(v.get(path), -1), " ")
	}
	if got := order("claims?q=brak"); !strings.Contains(got, "Brakes") || strings.Contains(got, "Ropes") {
		t.Errorf("found %s", got)
	}
	if got := order("claims?sort=title"); strings.Index(got, "Brakes") > strings.Index(got, "Grips") || strings.Index(got, "Grips") > strings.Index(got, "Ropes") {
		t.Errorf("by title: %s", got)
	}
}

// The standing of any day is that of the journal.
func TestStandingOfAnyDay(t *testing.T) {
	v := confirmed(t, "2026-11-25", "splicing certificate.pdf", "guest lecture.pdf")
	seen := map[string]bool{}
	for _, day := range []string{"2024-07-02", "2025-01-01", "2026-11-25"} {
		want, err := v.journal.Standing(t.Context(), credit.MustDate(day), demo.Scheme)
		if err != nil || len(want) != 1 {
			t.Fatal(want, err)
		}
		counted := want[0].Counted.String()
		seen[counted] = true
		if body := v.get("standing?on=" + day); !strings.Contains(body, counted+" of 40 points counted") || !strings.Contains(body, "<svg") {
			t.Errorf("on %s it does not say %s", day, counted)
		}
	}
	if len(seen) < 3 {
		t.Errorf("the days do not differ: %v", seen)
	}
}
