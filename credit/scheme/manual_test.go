package scheme_test

import (
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"evidencevault/credit"
	"evidencevault/credit/scheme"
)

var (
	manualBlock = regexp.MustCompile("(?ms)^```(\\w+)\n(.*?)^```$")
	manualStep  = regexp.MustCompile("`(\\{ .*? \\})`[ ,|]")
	manualKey   = regexp.MustCompile("`(\\w+ = .*?)`")
	manualAward = regexp.MustCompile("`(award = .*?)`")
)

// manual is docs/scheme.md, with its blocks by language.
func manual(t *testing.T) (text string, blocks map[string][]string) {
	t.Helper()
	data, err := os.ReadFile("../../docs/scheme.md")
	if err != nil {
		t.Fatal(err)
	}
	text = strings.ReplaceAll(string(data), "\r\n", "\n")
	blocks = map[string][]string{}
	for _, m := range manualBlock.FindAllStringSubmatch(text, -1) {
		blocks[m[1]] = append(blocks[m[1]], m[2])
	}
	return text, blocks
}

// completed is a fragment of a scheme with as much around it as a scheme needs: the
// head, and the categories that the manual speaks of.
func completed(fragment string) string {
	var top, tables strings.Builder
	for _, key := range []string{"scheme = 1", `id = "x"`, `unit = "point"`} {
		name, _, _ := strings.Cut(key, " ")
		if !regexp.MustCompile(`(?m)^` + name + ` =`).MatchString(beforeTables(fragment)) {
			top.WriteString(key + "\n")
		}
	}
	for _, id := range []string{"course", "online", "study"} {
		if !strings.Contains(fragment, "[category."+id+"]") {
			fmt.Fprintf(&tables, "[category.%s]\naward = [{ from = \"hours\" }]\n", id)
		}
	}
	return top.String() + fragment + tables.String()
}

// beforeTables is the head of a scheme, where keys belong to no table.
func beforeTables(text string) string {
	head, _, _ := strings.Cut("\n"+text, "\n[")
	return strings.TrimPrefix(head, "\n")
}

// TestManualExamplesParse reads every fragment of the manual inside a scheme that has
// nothing else. The whole example needs no completion and has no finding at all.
func TestManualExamplesParse(t *testing.T) {
	text, blocks := manual(t)
	fragments := blocks["toml"]
	if len(fragments) < 8 {
		t.Fatalf("the manual has only %d blocks of TOML", len(fragments))
	}
	for _, p := range scheme.Check("the whole example", []byte(fragments[0])) {
		t.Error(p)
	}
	for _, m := range manualStep.FindAllStringSubmatch(text, -1) {
		award := m[1]
		if !regexp.MustCompile(`^\{ (from|flat|sum|case) =`).MatchString(award) {
			award = `{ from = "hours" }, ` + award
		}
		fragments = append(fragments, "[category.course]\naward = ["+award+"]\n")
	}
	for _, m := range manualAward.FindAllStringSubmatch(text, -1) {
		fragments = append(fragments, "[category.course]\n"+m[1]+"\n")
	}
	_, keys, _ := strings.Cut(text, "| further key | does |")
	keys, _, _ = strings.Cut(keys, "\n\n")
	for _, m := range manualKey.FindAllStringSubmatch(keys, -1) {
		if !strings.HasPrefix(m[1], "part") { // its two keys go together
			fragments = append(fragments, "[carry_over]\n"+m[1]+"\n")
		}
	}
	if len(fragments) < 39 {
		t.Errorf("only %d examples are found", len(fragments))
	}
	for _, f := range fragments {
		whole := completed(f)
		if _, bad := scheme.Parse("manual", []byte(whole)); len(bad) > 0 {
			t.Errorf("%v in\n%s", bad, whole)
		}
	}
}

// TestManualExampleCounts runs the whole example as calc does, and holds what it gives
// against what the manual shows.
func TestManualExampleCounts(t *testing.T) {
	_, blocks := manual(t)
	if len(blocks["json"]) < 3 || len(blocks["text"]) != 2 {
		t.Fatalf("the manual has %d claims files and %d results", len(blocks["json"]), len(blocks["text"]))
	}
	for i, text := range blocks["json"] {
		if _, bad := scheme.ParseClaims(fmt.Sprintf("claims file %d", i+1), []byte(text)); len(bad) > 0 {
			t.Error(bad)
		}
	}
	choices := slices.IndexFunc(blocks["toml"], func(b string) bool { return strings.Contains(b, `id = "weavers"`) })
	for i, example := range []struct{ file, rules string }{{"guides.toml", blocks["toml"][0]}, {"weavers.toml", blocks["toml"][choices]}} {
		s, bad := scheme.Parse(example.file, []byte(example.rules))
		in, bad2 := scheme.ParseClaims("claims.json", []byte(blocks["json"][i]))
		if len(bad)+len(bad2) > 0 {
			t.Fatal(bad, bad2)
		}
		st, err := credit.Calculate(s, in)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Join(st.ExplainAll(), "\n") + "\n"; got != blocks["text"][i] || !st.Meets {
			t.Errorf("%s gives\n%s\nthe manual shows\n%s", example.file, got, blocks["text"][i])
		}
	}
}

// TestManualNamesEverything looks for every anchor, step, measure and window.
func TestManualNamesEverything(t *testing.T) {
	text, _ := manual(t)
	var names []string
	for _, a := range credit.Anchors() {
		names = append(names, "`"+string(a)+"`")
	}
	for _, o := range credit.Ops() {
		names = append(names, "{ "+string(o)+" = ")
	}
	for _, m := range append(credit.Measures(), credit.Windows()...) {
		names = append(names, "`"+m+"`")
	}
	for _, n := range names {
		if !strings.Contains(text, n) {
			t.Errorf("the manual does not name %s", n)
		}
	}
}
