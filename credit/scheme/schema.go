package scheme

import (
	"bytes"
	_ "embed"
)

//go:embed scheme.schema.json
var schema []byte

// Schema returns the JSON Schema (draft 2020-12) of a scheme file, for editors: every key
// with what it means. It says what may stand where; whether the figures go together is
// for [Check] to say.
func Schema() []byte { return bytes.Clone(schema) }
