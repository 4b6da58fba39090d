package transfer_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"evidencevault/transfer"
)

// The published schema describes what export writes, judged by an independent validator.
func TestExportFollowsItsSchema(t *testing.T) {
	out := filepath.Join(t.TempDir(), "open")
	if _, err := transfer.Export(ctx, full(t), out, transfer.Options{}); err != nil {
		t.Fatal(err)
	}
	compiler := jsonschema.NewCompiler()
	for _, test := range []struct{ def, file string }{{"about", "about.json"}, {"event", "log.jsonl"}, {"rows", "vault.json"}} {
		schema, err := compiler.Compile("../docs/export.schema.json#/$defs/" + test.def)
		if err != nil {
			t.Fatal(err)
		}
		data, err := os.ReadFile(filepath.Join(out, test.file))
		if err != nil {
			t.Fatal(err)
		}
		texts := [][]byte{data}
		if test.def == "event" {
			texts = bytes.Split(bytes.TrimSuffix(data, []byte("\n")), []byte("\n"))
		}
		for n, text := range texts {
			value, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
			if err != nil {
				t.Fatalf("%s, line %d: %v", test.file, n+1, err)
			}
			if err := schema.Validate(value); err != nil {
				t.Errorf("%s, line %d: %v", test.file, n+1, err)
			}
		}
		if schema.Validate(map[string]any{"x": "y"}) == nil {
			t.Errorf("%s: anything passes", test.def)
		}
	}
}
