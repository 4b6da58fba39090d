package web_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"evidencevault/audit"
	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/internal/demo"
	"evidencevault/journal"
)

// lettered is a vault with four claims and a paper that is an audit letter, P5.
func lettered(t *testing.T) *served {
	t.Helper()
	v := serve(t)
	course := func(title string) paper.Reading {
		return made(1, map[paper.Field]string{paper.FieldKind: "attendance", paper.FieldTitle: title, paper.FieldProvider: "Vallmere", paper.FieldAttendee: demo.Holder,
			paper.FieldEnd: "2026-03-03", paper.FieldDuration: "240", paper.FieldCategory: "course"})
	}
	v.keep(func(n int) []byte { return fmt.Appendf(nil, "text %d", n) }, course("Grips"), course("Brakes"), course("Ropes"), course("Towers"),
		made(1, map[paper.Field]string{paper.FieldKind: "other", paper.FieldTitle: "Request for proof"}))
	if _, err := v.journal.Confirm(t.Context(), []string{"P1", "P2", "P3", "P4"}, journal.ConfirmOptions{}); err != nil {
		t.Fatal(err)
	}
	return v
}

// packed are the claims in a packet that was made, by its list.
func (v *served) packed(body string) []string {
	v.Helper()
	link := regexp.MustCompile(`audit/made/\d+/file`).FindString(body)
	if link == "" {
		v.Fatalf("no packet: %s", body)
	}
	_, data, _ := v.ask(http.MethodGet, v.address+link, "", "", nil)
	z, err := zip.NewReader(bytes.NewReader([]byte(data)), int64(len(data)))
	if err != nil {
		v.Fatal(err)
	}
	for _, f := range z.File {
		if !strings.HasSuffix(f.Name, "/index.csv") && f.Name != "index.csv" {
			continue
		}
		r, err := f.Open()
		if err != nil {
			v.Fatal(err)
		}
		var b bytes.Buffer
		if _, err := b.ReadFrom(r); err != nil {
			v.Fatal(err)
		}
		ids := regexp.MustCompile(`(?m)^"?(C\d+)"?,`).FindAllStringSubmatch(b.String(), -1)
		var list []string
		for _, m := range ids {
			if !slices.Contains(list, m[1]) {
				list = append(list, m[1])
			}
		}
		return list
	}
	v.Fatal("the packet has no index.csv")
	return nil
}

// A letter is recorded, answered with just what it asks for, and said to be answered, by
// keyboard alone; each is taken back by one key.
func TestAuditLetterByKeyboard(t *testing.T) {
	v := lettered(t)
	ctx := browser(t, 1280, 800, false, true)
	note := func(text string) {
		is(t, ctx, fmt.Sprintf("document.querySelector('.note') && document.querySelector('.note').innerText.includes(%q)", text))
	}
	v.open(ctx, "paper/P5")
	key(t, ctx, "g")
	is(t, ctx, "document.body.dataset.screen === 'letter' && document.querySelector('#f-paper').value === 'P5'")
	run(t, ctx, chromedp.Focus("#f-date"))
	run(t, ctx, chromedp.KeyEvent("2026-11-20"+kb.Tab+"2026-12-20"+kb.Tab+"C2, C4"+kb.Escape))
	key(t, ctx, "c")
	note("L1 is recorded; answer it by 20 December 2026")
	l, err := v.journal.Letters(t.Context())
	if err != nil || len(l) != 1 || fmt.Sprint(l[0].Claims) != "[C2 C4]" || l[0].Due.String() != "2026-12-20" || l[0].Dated.String() != "2026-11-20" {
		t.Fatalf("recorded %+v, %v", l, err)
	}
	is(t, ctx, "document.querySelector('.letters').innerText.includes('in 25 days')")
	if work := v.get(""); !strings.Contains(work, "Answer by 20 December 2026, in 25 days") {
		t.Error("the worklist does not say that a letter is to be answered")
	}
	key(t, ctx, "q")
	is(t, ctx, "document.body.dataset.screen === 'made' && document.querySelector('a[download]')")
	if got := fmt.Sprint(v.packed(v.get("audit/made/1"))); got != "[C2 C4]" {
		t.Errorf("the packet for the letter has %s", got)
	}
	key(t, ctx, "b")
	is(t, ctx, "document.body.dataset.screen === 'audit'")
	key(t, ctx, "h")
	is(t, ctx, "document.activeElement.id === 'f-on-L1'")
	run(t, ctx, chromedp.Evaluate[string]("document.activeElement.value = ''")) // this way of typing gives the key once more, as a letter
	run(t, ctx, chromedp.KeyEvent("2026-11-24"+kb.Tab+"by post"+kb.Enter))
	note("L1 was answered on 24 November 2026")
	is(t, ctx, "document.querySelector('.letters').innerText.includes('by post')")
	key(t, ctx, "u")
	note("L1: taken back")
	is(t, ctx, "document.body.dataset.screen === 'audit' && document.querySelector('.letters .open')")
	if _, body := v.send("undo", url.Values{"id": {"L1"}}); strings.Contains(body, `class="weak letters"`) {
		t.Error("the letter is there after it was taken back")
	}
}

// What cannot be a letter is said, with what was typed kept and nothing recorded.
func TestLetterThatCannotBe(t *testing.T) {
	v := lettered(t)
	before := v.events()
	good := url.Values{"paper": {"P5"}, "certification": {v.certification()}, "date": {"2026-11-20"}, "due": {"2026-12-20"}}
	for name, tt := range map[string]struct {
		change, to, says string
	}{
		"a day that is none":              {"due", "20/12/2026", "not a date"},
		"due before its date":             {"due", "2026-11-01", "before its date"},
		"no date":                         {"date", "", "was not read for certain; give it"},
		"dated tomorrow":                  {"date", "2026-11-26", "still to come"},
		"a claim that is not there":       {"claims", "C99", "C99"},
		"a paper for a claim":             {"claims", "P1", "P1"},
		"a sample without words":          {"sample", "2", "drawn again"},
		"a sample of nothing":             {"sample", "0", "drawn again"},
		"a paper that was decided before": {"paper", "P1", "already confirmed"},
	} {
		form := url.Values{}
		for k := range good {
			form.Set(k, good.Get(k))
		}
		form.Set(tt.change, tt.to)
		status, body := v.send("letter", form)
		if status < 400 || status >= 500 || !strings.Contains(body, `role="alert"`) || !strings.Contains(body, tt.says) || !strings.Contains(body, `name="due" value="`+form.Get("due")+`"`) {
			t.Errorf("%s: %d\n%s", name, status, body)
		}
		if strings.Contains(body, "--") {
			t.Errorf("%s: it names a flag", name)
		}
	}
	if now := v.events(); now != before {
		t.Errorf("%d events were made", now-before)
	}
}

// A sample is drawn on the page as by the command: the same words draw the same claims,
// for a letter and for a packet.
func TestSampleIsDrawnAsByTheCommand(t *testing.T) {
	v := lettered(t)
	cert := v.certification()
	want := fmt.Sprint(audit.Draw([]string{"C1", "C2", "C3", "C4"}, 2, "practice in May"))
	_, body := v.send("audit/make", url.Values{"what": {"packet"}, "certification": {cert}, "sample": {"2"}, "seed": {"practice in May"}})
	if got := fmt.Sprint(v.packed(v.until(body))); got != want {
		t.Errorf("the packet has %s, drawn are %s", got, want)
	}
	_, body = v.send("audit/make", url.Values{"what": {"packet"}, "certification": {cert}, "claims": {"C1,C3-C4"}})
	if got := fmt.Sprint(v.packed(v.until(body))); got != "[C1 C3 C4]" {
		t.Errorf("the packet of three claims has %s", got)
	}
	for _, bad := range []url.Values{{"sample": {"2"}}, {"seed": {"x"}}, {"sample": {"-1"}, "seed": {"x"}}, {"claims": {"P1"}}, {"claims": {"C99"}}, {"claims": {"C1"}, "sample": {"1"}, "seed": {"x"}}, {"letter": {"L9"}}} {
		bad.Set("what", "packet")
		bad.Set("certification", cert)
		if status, _ := v.send("audit/make", bad); status != http.StatusUnprocessableEntity && status != http.StatusNotFound {
			t.Errorf("%v: %d", bad, status)
		}
	}
	v.send("letter", url.Values{"paper": {"P5"}, "certification": {cert}, "date": {"2026-11-20"}, "due": {"2026-12-20"}, "sample": {"2"}, "seed": {"practice in May"}})
	l, err := v.journal.Letters(t.Context())
	if err != nil || len(l) != 1 || fmt.Sprint(l[0].Claims) != want || l[0].Seed != "practice in May" {
		t.Errorf("the letter asks for %+v, %v; drawn are %s", l, err, want)
	}
}

// The next cycle may follow other rules: those that ship or a file, shown first and kept
// byte for byte.
func TestNextCycleUnderOtherRules(t *testing.T) {
	v := confirmed(t, "2028-07-10", "splicing certificate.pdf")
	cert, data := v.certification(), otherRules(t)
	if status, body := v.sendFile("close/look", "bad.toml", []byte("id = 3\n[cycle\n"), map[string]string{"certification": cert}); status != http.StatusUnprocessableEntity || !strings.Contains(body, `role="alert"`) {
		t.Errorf("a file that is no scheme: %d", status)
	}
	status, body := v.sendFile("close/look", "rules-2099.toml", data, map[string]string{"certification": cert})
	if status != http.StatusOK || !strings.Contains(body, "version 2099") {
		t.Fatalf("what would be: %d without the version", status)
	}
	_, body = v.send("close", hidden(body, "close"))
	if body = v.until(body); !strings.Contains(body, "is closed with") {
		t.Fatalf("closing: %s", body)
	}
	c, err := v.journal.Certified(t.Context(), cert, credit.Date{})
	if err != nil || c.Scheme.Version != "2099" {
		t.Errorf("the next cycle counts under %q, %v", c.Scheme.Version, err)
	}
}

// A letter is due whatever the rules: another version of them does not seem to do away
// with its deadline.
func TestLetterStaysUnderOtherRules(t *testing.T) {
	v := lettered(t)
	cert := v.certification()
	v.send("letter", url.Values{"paper": {"P5"}, "certification": {cert}, "date": {"2026-11-20"}, "due": {"2026-12-20"}})
	status, body := v.sendFile("rules", "rules-2099.toml", otherRules(t), map[string]string{"certification": cert})
	if status != http.StatusOK || !strings.Contains(body, "2099 (rules-2099.toml) instead of") || strings.Contains(body, "is gone") {
		t.Errorf("the differences: %d %s", status, body)
	}
}
