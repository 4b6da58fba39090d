package scheme_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"evidencevault/credit"
	"evidencevault/credit/scheme"
)

// compiled is the JSON Schema as an independent validator reads it.
func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(scheme.Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("scheme.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("scheme.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// asJSON is a TOML file as the validator takes it: days are texts.
func asJSON(t *testing.T, text string) any {
	t.Helper()
	var v any
	if err := toml.Unmarshal([]byte(text), &v); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	out, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// Every scheme that ships, every shape, and every example of the two manuals is valid.
func TestSchemaAcceptsWhatIsRight(t *testing.T) {
	s := compiled(t)
	files := map[string]string{}
	for _, f := range scheme.List() {
		files[f.File] = string(f.Data)
	}
	for _, f := range scheme.Shapes() {
		files[f.Name] = string(f.Data)
	}
	for _, name := range []string{"testdata/language.toml", "testdata/common-practice.toml"} {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		files[name] = string(data)
	}
	_, blocks := manual(t)
	for i, b := range blocks["toml"] {
		files[fmt.Sprintf("manual %d", i+1)] = completed(b)
	}
	features, err := os.ReadFile("../../docs/features.md")
	if err != nil {
		t.Fatal(err)
	}
	for i, m := range featureBlock.FindAllStringSubmatch(string(features), -1) {
		if m[1] == "toml" {
			files[fmt.Sprintf("features %d", i+1)] = "scheme = 1\nid = \"x\"\nunit = \"u\"\n" + m[2]
		}
	}
	if len(files) < 100 {
		t.Fatalf("only %d files", len(files))
	}
	for name, text := range files {
		if err := s.Validate(asJSON(t, text)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestSchemaRefusesWhatIsWrong(t *testing.T) {
	s := compiled(t)
	for why, text := range map[string]string{
		"an unknown key":          "colour = \"red\"",
		"a float":                 "target = 7.5",
		"an exponent":             "target = \"1e9\"",
		"a text for a flag":       "[carry_over]\nif_met = \"yes\"",
		"an unknown step":         "[category.a]\naward = [{ from = \"hours\" }, { half = \"2\" }]",
		"a step that stands last": "[category.a]\naward = [{ down = \"2\" }]",
		"a cap without an id":     "[[cap]]\nmost = \"3\"",
		"an unknown anchor":       "[cycle]\nanchor = \"moon\"",
		"a float in a table":      "[category.a]\nstated = { CEU = 0.1 }",
	} {
		head := "scheme = 1\nid = \"x\"\nunit = \"u\"\n"
		if err := s.Validate(asJSON(t, head+text)); err == nil {
			t.Errorf("%s passes", why)
		}
		// the parser takes a float by its characters, exactly; an editor asks for the quotes
		if _, problems := scheme.Parse("x.toml", []byte(head+text)); len(problems) == 0 && !strings.Contains(why, "float") {
			t.Errorf("%s passes the parser", why)
		}
	}
	if err := s.Validate(asJSON(t, "id = \"x\"\nunit = \"u\"\n")); err == nil {
		t.Error("a file without its version passes")
	}
}

var knownHere = regexp.MustCompile(`known here: ([^)]*)`)

// The parser and the schema know the same keys: of each table the parser is asked which
// keys it knows, by one that it does not.
func TestSchemaKnowsTheParsersKeys(t *testing.T) {
	var root map[string]any
	if err := json.Unmarshal(scheme.Schema(), &root); err != nil {
		t.Fatal(err)
	}
	under := func(v any, path ...string) any {
		for _, p := range path {
			m, _ := v.(map[string]any)
			v = m[p]
		}
		return v
	}
	keys := func(v any) []string { // of a table, or of the tables of a list
		props, _ := under(v, "properties").(map[string]any)
		if props == nil {
			props, _ = under(v, "items", "properties").(map[string]any)
		}
		return slices.Sorted(maps.Keys(props))
	}
	forms, _ := under(root, "$defs", "award", "oneOf").([]any)
	firsts, _ := under(forms[1], "prefixItems").([]any)
	first := func(n int) any { // the n-th way to begin an award
		ways, _ := under(firsts[0], "oneOf").([]any)
		return ways[n]
	}
	inAward := func(text string) string { return "[category.a]\naward = [" + text + "]" }
	for what, c := range map[string]struct {
		text string
		want []string
	}{
		"the scheme":         {"zzqq = 1", keys(root)},
		"cycle":              {"[cycle]\nzzqq = 1", keys(under(root, "properties", "cycle"))},
		"category":           {"[category.a]\nzzqq = 1", keys(under(root, "$defs", "category"))},
		"cap":                {"[[cap]]\nzzqq = 1", keys(under(root, "properties", "cap"))},
		"minimum":            {"[[minimum]]\nzzqq = 1", keys(under(root, "properties", "minimum"))},
		"exclusive":          {"[[exclusive]]\nzzqq = 1", keys(under(root, "properties", "exclusive"))},
		"instead":            {"[instead]\nzzqq = 1", keys(under(root, "properties", "instead"))},
		"carry_over":         {"[carry_over]\nzzqq = 1", keys(under(root, "properties", "carry_over"))},
		"deadline":           {"[[deadline]]\nzzqq = 1", keys(under(root, "properties", "deadline"))},
		"proof":              {"[proof]\nzzqq = 1", keys(under(root, "properties", "proof"))},
		"repeat":             {"[category.a]\naward = \"1\"\n[category.a.repeat]\nby = \"course\"\nfactors = [\"1\"]\nzzqq = 1", keys(under(root, "$defs", "category", "properties", "repeat"))},
		"part of a minimum":  {"[[minimum]]\nid = \"m\"\nleast = \"2\"\npart = { zzqq = 1 }\npart_most = \"1\"", keys(under(root, "properties", "minimum", "items", "properties", "part"))},
		"part of carry_over": {"[carry_over]\npart = { zzqq = 1 }\npart_most = \"1\"", keys(under(root, "properties", "carry_over", "properties", "part"))},
		"a case":             {inAward(`{ case = "x", of = [{ then = "1", zzqq = 1 }] }`), keys(under(first(3), "properties", "of"))},
		"case":               {inAward(`{ case = "x", of = [{ then = "1" }], zzqq = 1 }`), keys(first(3))},
		"from":               {inAward(`{ from = "hours", zzqq = 1 }`), keys(first(0))},
		"flat":               {inAward(`{ flat = "1", zzqq = 1 }`), keys(first(1))},
		"sum":                {inAward(`{ sum = [[{ flat = "1" }]], zzqq = 1 }`), keys(first(2))},
		"at_most_times":      {inAward(`{ from = "hours" }, { at_most_times = { of = "hours", by = "2", zzqq = 1 } }`), keys(under(steps(root)["at_most_times"]))},
	} {
		_, problems := scheme.Parse("x.toml", []byte("scheme = 1\nid = \"x\"\nunit = \"u\"\n"+c.text))
		var known []string
		for _, p := range problems {
			if m := knownHere.FindStringSubmatch(p.String()); m != nil && strings.Contains(p.String(), "zzqq") {
				known = strings.Split(m[1], ", ")
			}
		}
		slices.Sort(known)
		if !slices.Equal(known, c.want) {
			t.Errorf("%s: the parser knows %v, the schema %v", what, known, c.want)
		}
	}
}

// steps are the further steps of an award as the schema has them, by their key.
func steps(root map[string]any) map[string]any {
	forms := root["$defs"].(map[string]any)["award"].(map[string]any)["oneOf"].([]any)
	list := map[string]any{}
	for _, s := range forms[1].(map[string]any)["items"].(map[string]any)["oneOf"].([]any) {
		maps.Copy(list, s.(map[string]any)["properties"].(map[string]any))
	}
	return list
}

// The parser and the schema know the same steps of an award.
func TestSchemaKnowsEveryStep(t *testing.T) {
	var root map[string]any
	if err := json.Unmarshal(scheme.Schema(), &root); err != nil {
		t.Fatal(err)
	}
	var want []string
	for _, op := range credit.Ops() {
		want = append(want, string(op))
	}
	slices.Sort(want)
	if got := slices.Sorted(maps.Keys(steps(root))); !slices.Equal(got, want) {
		t.Errorf("the schema knows the steps %v, credit has %v", got, want)
	}
}
