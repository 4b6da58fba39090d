package web_test

import (
	"encoding/base64"
	"fmt"
	"html"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"evidencevault/extract/paper"
	"evidencevault/internal/demo"
	"evidencevault/journal"
)

var (
	tags    = regexp.MustCompile(`(?s)<(script|style)\b.*?</(script|style)>|<[^>]*>`)
	english = regexp.MustCompile(`(?i)\b(the|of|and|is|are|were|with|from|this|that|which|what|how|you|your|it|its|not|paper|papers|pages?|claim(s|ed)?|day|days|earns?|taken|confirmed|withdrawn|waiting|answer|says?|counts?|rule|because|proof|by|to)\b`)
	letter  = regexp.MustCompile(`(?s)<pre class="letter".*?</pre>`) // is written to the provider, in the paper's language
	rules   = regexp.MustCompile(`\[[^\]]*\.toml:[^\]]*\]`)          // the place in the scheme, with the rule book's own name
	quoted  = regexp.MustCompile(`"[^"]*"|“[^”]*”|„[^“]*“`)          // the paper's own words
	problem = regexp.MustCompile(`\S+\.toml:\d+:\d+: .*|/tmp/\S+`)   // of a scheme file; a path
	shown   = regexp.MustCompile(`(?:title|alt|aria-label|placeholder)="([^"]*)"`)
)

// walkGerman visits screens in German (a path, or a path and a form to be sent) and returns what is English on it and does not
// come from a document, the scheme or the holder.
func walkGerman(v *served, paths []string) []string {
	v.Helper()
	foreign := v.foreign()
	var found []string
	for _, p := range paths {
		path, form, sent := strings.Cut(p, " ")
		method := http.MethodGet
		if sent {
			method, form = http.MethodPost, "token="+v.token()+"&"+form
		}
		status, body, _ := v.ask(method, v.address+path, "", form, map[string]string{"Accept-Language": "de"})
		if status == http.StatusInternalServerError || status != http.StatusSeeOther && !strings.Contains(body, "<body") {
			v.Errorf("%s: %d %s", p, status, body)
			continue
		}
		if status == http.StatusSeeOther {
			continue // it was done
		}
		body = letter.ReplaceAllString(body[strings.Index(body, "<body"):], "")
		pieces := tags.Split(body, -1)
		for _, m := range shown.FindAllStringSubmatch(body, -1) {
			pieces = append(pieces, m[1])
		}
		for _, piece := range pieces {
			text := strings.TrimSpace(html.UnescapeString(piece))
			text = quoted.ReplaceAllString(problem.ReplaceAllString(text, ""), "")
			text = rules.ReplaceAllString(text, "")
			for _, f := range foreign {
				text = strings.ReplaceAll(text, f, "")
			}
			if m := english.FindString(text); m != "" {
				found = append(found, fmt.Sprintf("%s: %q in %q", p, m, text))
			}
		}
	}
	slices.Sort(found)
	return slices.Compact(found)
}

// foreign is every text of documents and scheme, the longest first.
func (v *served) foreign() []string {
	v.Helper()
	var list []string
	for n := 1; ; n++ {
		d, err := v.journal.Show(v.Context(), fmt.Sprintf("P%d", n))
		if err != nil {
			break
		}
		list = append(list, d.Paper.Names...)
		list = append(list, d.Paper.Part)
		for _, value := range d.Paper.Values {
			list = append(list, fmt.Sprint(value.Value), value.Quote)
			for _, c := range value.Candidates {
				list = append(list, fmt.Sprint(c.Value))
			}
		}
		for _, q := range d.Paper.Questions {
			for _, c := range q.Candidates {
				list = append(list, fmt.Sprint(c.Value))
				if q.Field == paper.FieldCategory {
					list = append(list, c.Why) // the category's title in the scheme
				}
			}
		}
	}
	certs, err := v.journal.AllCertified(v.Context(), v.journal.Today())
	if err != nil {
		v.Fatal(err)
	}
	for _, c := range certs {
		list = append(list, c.Title, c.Scheme.Title, c.Scheme.Unit)
		for _, k := range c.Scheme.Categories {
			list = append(list, k.Title)
			if len(k.ID) > 3 {
				list = append(list, k.ID)
			}
		}
	}
	claims, err := v.journal.Claims(v.Context(), journal.ClaimsFilter{})
	if err != nil {
		v.Fatal(err)
	}
	for _, c := range claims {
		list = append(list, c.Title, c.Provider)
		for _, f := range c.Fields {
			list = append(list, f)
		}
	}
	list = slices.DeleteFunc(list, func(s string) bool { return len(s) < 4 })
	slices.SortFunc(list, func(a, b string) int { return len(b) - len(a) })
	return slices.Compact(list)
}

// The German page is German throughout, the questions of the reading, the history and the
// rehearsal's findings too: a further language is one file.
func TestGermanThroughout(t *testing.T) {
	v := serve(t, "*")
	paths := []string{"", "ready", "standing", "claims", "audit", "paper/P999", "?q=nichts+davon", "standing?on=2027-01-01"}
	waiting, err := v.journal.Waiting(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range waiting {
		paths = append(paths, "paper/"+p.ID)
	}
	paths = append(paths, "paper/P1/cut")
	found := walkGerman(v, paths)
	plan, err := v.journal.ConfirmClear(t.Context(), "")
	if err != nil {
		t.Fatal(err)
	}
	done, err := v.journal.DoClear(t.Context(), plan, "")
	if err != nil {
		t.Fatal(err)
	}
	paths = []string{"", "audit", "claims", "standing", "paper/P1"}
	for _, c := range done.Claims {
		paths = append(paths, "claim/"+c.ID)
	}
	found = append(found, walkGerman(v, paths)...)
	slices.Sort(found)
	for _, f := range slices.Compact(found) {
		t.Error(f)
	}
	v.T = t
	later, closed := closedScreens(t)
	paths = nil
	for _, s := range closed {
		paths = append(paths, s.path)
	}
	for _, f := range walkGerman(later, paths) {
		t.Error(f)
	}
	more := []string{"letter?paper=P3", "audit/make what=binder&cycle=1&certification=" + demo.Scheme, v.makes("packet"), v.makes("binder"), "cycles", "close?certification=" + demo.Scheme, "close?certification=" + demo.Scheme + "&early=on", "rules?certification=" + demo.Scheme,
		"rules/use act=look&version=0&certification=" + demo.Scheme + "&name=rules.toml&move.teaching=course&data=" + url.QueryEscape(base64.StdEncoding.EncodeToString(otherRules(t)))}
	for _, f := range walkGerman(v, more) {
		t.Error(f)
	}
	if len(done.Claims) < 10 {
		t.Errorf("only %d claims", len(done.Claims))
	}
}

// What goes wrong is said in German too.
func TestGermanErrors(t *testing.T) {
	v, paths := wrongRequests(t)
	for _, f := range walkGerman(v, paths) {
		t.Error(f)
	}
	t.Run("and names nothing of the command line, in no language", func(t *testing.T) {
		for _, f := range namesCommands(v, paths) {
			t.Error(f)
		}
	})
}

// commands is what belongs on a command line alone.
var commands = regexp.MustCompile(`\bvaultctl (?:[a-oq-z]|p[a-km-z])| --[a-z]+`) // all but plan, which says more than the page

// namesCommands sends requests in both languages and returns where a flag or a command
// stands in the answer.
func namesCommands(v *served, paths []string) []string {
	v.Helper()
	var found []string
	for _, p := range paths {
		path, form, sent := strings.Cut(p, " ")
		method := http.MethodGet
		if sent {
			method, form = http.MethodPost, "token="+v.token()+"&"+form
		}
		for _, language := range []string{"en", "de"} {
			_, body, _ := v.ask(method, v.address+path, "", form, map[string]string{"Accept-Language": language})
			text := html.UnescapeString(tags.ReplaceAllString(body, "\n"))
			for line := range strings.Lines(text) {
				if commands.MatchString(line) {
					found = append(found, fmt.Sprintf("%s %s: %s", language, p, strings.TrimSpace(line)))
				}
			}
		}
	}
	return found
}

// wrongRequests is a vault and requests that go wrong in it: a path, or a path and a form.
func wrongRequests(t *testing.T) (*served, []string) {
	t.Helper()
	v := serve(t, "*")
	v.put(map[string][]byte{"three.pdf": book(t, 3, 595, 842), "locked.pdf": encrypted(t)})
	waiting, err := v.journal.Waiting(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	open, three, locked := asked(waiting), "", ""
	for _, p := range waiting {
		switch p.File {
		case "three.pdf":
			three = p.ID
		case "locked.pdf":
			locked = p.ID
		}
	}
	if _, err := v.journal.Confirm(t.Context(), []string{"P1"}, journal.ConfirmOptions{}); err != nil {
		t.Fatal(err)
	}
	stale := "version=1&"
	now := "version=" + hidden(v.get("claim/C1"), "change").Get("version") + "&"
	cert := demo.Scheme
	return v, []string{"paper/P999", "paper/C1", "claim/C999", "claim/P1", "cycle/" + cert + "/9", "cycle/" + cert + "/1", "cycle/" + cert + "/x", "close?certification=none", "rules?certification=none",
		"audit/made/99", "audit/made/99/file", "standing?on=3.4.2026", "standing?certification=none", "original/00", "close?certification=" + cert + "&early=on&next_start=2025-01-01",
		"close?certification=" + cert + "&early=on&next_end=2025-01-01", "close?certification=" + cert + "&early=on&next_end=x", "paper/P2?row=7",
		"audit/make what=none", "audit/make what=index&certification=none", "audit/make what=index&certification=" + cert + "&cycle=9",
		"paper/" + open + "/confirm ", "paper/P1/confirm ", "paper/P999/confirm ", "paper/P2/confirm set.end_date=3/4/26", "paper/P2/confirm set.duration_minutes=viel", "paper/P2/confirm set.credits=viel",
		"paper/P2/confirm set.total=viel", "paper/P2/confirm set.kind=viel", "paper/P2/confirm set.category=viel", "paper/P2/confirm set.start_date=2031-01-01&set.end_date=2030-01-01", "paper/P2/confirm certification=none",
		"paper/" + three + "/cut pages=9-1", "paper/" + three + "/cut pages=1", "paper/" + three + "/cut pages=x", "paper/" + three + "/cut pages=1-2,2-3", "paper/" + three + "/cut pages=1-3", "paper/" + three + "/cut ", "paper/P1/cut", "paper/P1/cut pages=1",
		"paper/" + three + "/join with=P2", "paper/" + three + "/join with=P999", "paper/" + three + "/attach claim=C999", "paper/P1/attach claim=C1",
		"paper/P2/set-aside why=", "paper/P1/set-aside why=x", "paper/P999/set-aside why=x", "paper/" + locked + "/reread password=falsch", "paper/P1/reread ", "paper/" + locked,
		"undo id=P999", "undo id=P2", "undo id=x", "receipt/R9/tie cost_of=A1", "receipt/R9/tie cost_of=A99",
		"claim/C1/change " + stale + "set.title=x", "claim/C1/change " + now + "set.end_date=x&was.end_date=y", "claim/C1/change " + now + "set.category=none&was.category=course", "claim/C1/change " + now + "set.end_date=2035-01-01&was.end_date=",
		"claim/C1/withdraw " + now + "why=", "claim/C1/withdraw " + stale + "why=x", "claim/C1/attach paper=P999", "claim/C1/attach paper=P1",
		"close certification=" + cert + "&early=on", "close certification=" + cert + "&version=0&early=on", "close/undo certification=" + cert, "close/undo certification=none",
		"cycle/" + cert + "/1/note note=x", "cycle/" + cert + "/9/note note=x", "rules/use certification=" + cert + "&data=x", "rules/use certification=" + cert + "&act=use&name=x.toml&data=aWQgPSAz",
		"letter certification=" + cert + "&paper=P2", "letter certification=" + cert + "&paper=P2&date=2099-01-01", "letter certification=" + cert + "&paper=P2&date=2026-11-20&due=2026-01-01", "letter certification=" + cert + "&paper=P1&date=2026-11-20",
		"letter certification=" + cert + "&paper=P2&date=x", "letter certification=" + cert + "&paper=P2&claims=C99&date=2026-11-20", "letter certification=" + cert + "&paper=P2&claims=P1&date=2026-11-20", "letter certification=" + cert + "&paper=P2&sample=x",
		"letter/L9/answered ", "letter/L9/answered on=x", "audit/make what=packet&letter=L9", "audit/make what=packet&certification=" + cert + "&claims=C99", "audit/make what=packet&certification=" + cert + "&claims=P1",
		"audit/make what=packet&certification=" + cert + "&claims=C1&sample=1&seed=x", "close certification=" + cert + "&early=on&rules=x&rules_name=x.toml", "close certification=" + cert + "&early=on&next_scheme=none", "audit",
	}
}

// TestEveryReasonInGerman holds the reasons that the reader gives for a value, as they stand in its
// source, against the list of words: which of them a walk meets depends on the papers.
func TestEveryReasonInGerman(t *testing.T) {
	list, err := os.ReadFile("words/de.txt")
	if err != nil {
		t.Fatal(err)
	}
	files, err := filepath.Glob("../extract/*.go")
	if err != nil || len(files) < 50 {
		t.Fatalf("%d files of the reader, %v", len(files), err)
	}
	reason := regexp.MustCompile(`\bwhy(?:: +| :?= )"([^"]*[^" ])"`)
	found := 0
	for _, name := range files {
		source, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		for _, m := range reason.FindAllStringSubmatch(string(source), -1) {
			found++
			if m[1] != "as" && !strings.Contains(string(list), "say: "+m[1]+" => ") {
				t.Errorf("%s: %q has no German", filepath.Base(name), m[1])
			}
		}
	}
	if found < 50 {
		t.Errorf("%d reasons found, want them all", found)
	}
}
