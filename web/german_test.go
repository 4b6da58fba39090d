package web_test

import (
	"fmt"
	"html"
	"net/http"
	"regexp"
	"slices"
	"strings"
	"testing"

	"evidencevault/extract/paper"
	"evidencevault/journal"
)

var (
	tags    = regexp.MustCompile(`(?s)<(script|style)\b.*?</(script|style)>|<[^>]*>`)
	english = regexp.MustCompile(`(?i)\b(the|of|and|is|are|were|with|from|this|that|which|what|how|you|your|it|its|not|paper|papers|pages?|claim(s|ed)?|day|days|earns?|taken|confirmed|withdrawn|waiting|answer|says?|counts?|rule|because|proof|by|to)\b`)
	letter  = regexp.MustCompile(`(?s)<pre class="letter".*?</pre>`) // is written to the provider, in the paper's language
	rules   = regexp.MustCompile(`\[[^\]]*\.toml:[^\]]*\]`)          // the place in the scheme, with the rule book's own name
	quoted  = regexp.MustCompile(`"[^"]*"|“[^”]*”|„[^“]*“`)          // the paper's own words
	shown   = regexp.MustCompile(`(?:title|alt|aria-label|placeholder)="([^"]*)"`)
)

// walkGerman visits every screen in German and returns what is English on it and does not
// come from a document, the scheme or the holder.
func walkGerman(v *served, paths []string) []string {
	v.Helper()
	foreign := v.foreign()
	var found []string
	for _, p := range paths {
		status, body, _ := v.ask(http.MethodGet, v.address+p, "", "", map[string]string{"Accept-Language": "de"})
		if status != http.StatusOK && status != http.StatusNotFound {
			v.Errorf("%s: %d", p, status)
		}
		body = letter.ReplaceAllString(body[strings.Index(body, "<body"):], "")
		pieces := tags.Split(body, -1)
		for _, m := range shown.FindAllStringSubmatch(body, -1) {
			pieces = append(pieces, m[1])
		}
		for _, piece := range pieces {
			text := strings.TrimSpace(html.UnescapeString(piece))
			text = quoted.ReplaceAllString(text, "")
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
	if len(paths) < 15 {
		t.Errorf("only %d screens", len(paths))
	}
}
