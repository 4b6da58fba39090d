package catalog

import (
	"encoding/hex"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// FileName is the name of a dropped file, byte for byte: it may hold control
// characters, and bytes that are no UTF-8. In JSON a name that is UTF-8 is a string,
// any other {"bytes": "the bytes in hex"}, so that no two names become one.
type FileName string

// String returns the name as it may be shown: what is not printable, or turns the
// direction of writing, stands as an escape such as \x1b or \u202e, and so do bytes
// that are no UTF-8. A backslash stays single; see [FileName.Exact] for the form that
// can be turned back.
func (n FileName) String() string { return n.escape(false) }

// Exact returns the name in a form from which its bytes can be had back with
// [ParseExact]: as String, with each backslash doubled.
func (n FileName) Exact() string { return n.escape(true) }

func (n FileName) escape(double bool) string {
	var b strings.Builder
	for i := 0; i < len(n); {
		r, size := utf8.DecodeRuneInString(string(n[i:]))
		switch {
		case r == utf8.RuneError && size == 1:
			fmt.Fprintf(&b, `\x%02x`, n[i])
		case r == '\\' && double:
			b.WriteString(`\\`)
		case unicode.IsPrint(r):
			b.WriteRune(r)
		case r < 0x80:
			fmt.Fprintf(&b, `\x%02x`, r)
		default:
			quoted := strconv.QuoteToASCII(string(r))
			b.WriteString(quoted[1 : len(quoted)-1])
		}
		i += size
	}
	return b.String()
}

// ParseExact reads what [FileName.Exact] prints. The error says at which byte it is
// no such form.
func ParseExact(text string) (FileName, error) {
	var out []byte
	for rest := text; rest != ""; {
		if rest[0] != '\\' {
			out = append(out, rest[0])
			rest = rest[1:]
			continue
		}
		value, multi, tail, err := strconv.UnquoteChar(rest, 0)
		if err != nil {
			return "", fmt.Errorf("name %q: no escape of a file name at byte %d", text, len(text)-len(rest))
		}
		if multi {
			out = utf8.AppendRune(out, value)
		} else {
			out = append(out, byte(value))
		}
		rest = tail
	}
	return FileName(out), nil
}

// MarshalJSON writes n as the type's comment says. It never fails.
func (n FileName) MarshalJSON() ([]byte, error) {
	if utf8.ValidString(string(n)) {
		return json.Marshal(string(n))
	}
	return json.Marshal(map[string]string{"bytes": hex.EncodeToString([]byte(n))})
}

// UnmarshalJSON reads what [FileName.MarshalJSON] writes.
func (n *FileName) UnmarshalJSON(text []byte) error {
	if len(text) > 0 && text[0] == '"' {
		return json.Unmarshal(text, (*string)(n))
	}
	var raw struct {
		Bytes string `json:"bytes"`
	}
	if err := json.Unmarshal(text, &raw); err != nil {
		return fmt.Errorf("file name: want a string or its bytes in hex: %w", err)
	}
	b, err := hex.DecodeString(raw.Bytes)
	if err != nil {
		return fmt.Errorf("file name: want its bytes in hex: %w", err)
	}
	*n = FileName(b)
	return nil
}
