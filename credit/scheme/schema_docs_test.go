package scheme_test

import (
	"bytes"
	"os"
	"testing"

	"evidencevault/credit/scheme"
)

// The copy beside the manual, which editors can be pointed at, is what the program prints.
func TestSchemaBesideTheManual(t *testing.T) {
	data, err := os.ReadFile("../../docs/scheme.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n")), scheme.Schema()) {
		t.Error("docs/scheme.schema.json is another one: vaultctl scheme schema > docs/scheme.schema.json")
	}
}
