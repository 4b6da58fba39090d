package catalog

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"unicode/utf16"
)

// canonical returns v as JSON in the canonical form of RFC 8785: keys in the order of
// their UTF-16 units (section 3.2.3), no white space, one way to write each string
// (section 3.2.2.2). Of numbers only integers below 2^53 are let in, so that no two
// programs can print one differently. A null member of an object is left out. The
// error wraps [ErrBody].
func canonical(v any) ([]byte, error) {
	raw, err := json.Marshal(v)
	if err != nil {
		return nil, fmt.Errorf("%w: %v", ErrBody, err)
	}
	dec := json.NewDecoder(bytes.NewReader(raw))
	dec.UseNumber()
	var tree any
	if err := dec.Decode(&tree); err != nil {
		return nil, fmt.Errorf("%w: %v", ErrBody, err)
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("%w: more than one value", ErrBody)
	}
	return appendCanonical(nil, tree)
}

var integerText = regexp.MustCompile(`^(0|-?[1-9][0-9]{0,15})$`)

func appendCanonical(out []byte, v any) ([]byte, error) {
	switch v := v.(type) {
	case bool:
		return strconv.AppendBool(out, v), nil
	case string:
		return appendString(out, v), nil
	case json.Number:
		n, err := v.Int64()
		if !integerText.MatchString(v.String()) || err != nil || n > 1<<53-1 || n < -(1<<53-1) {
			return nil, fmt.Errorf("%w: number %.40s: want an integer below 2^53; amounts are strings", ErrBody, v)
		}
		return append(out, v.String()...), nil
	case []any:
		return appendList(out, v)
	case map[string]any:
		return appendObject(out, v)
	}
	return nil, fmt.Errorf("%w: a null outside an object", ErrBody)
}

func appendList(out []byte, list []any) (_ []byte, err error) {
	out = append(out, '[')
	for i, v := range list {
		if i > 0 {
			out = append(out, ',')
		}
		if out, err = appendCanonical(out, v); err != nil {
			return nil, err
		}
	}
	return append(out, ']'), nil
}

func appendObject(out []byte, object map[string]any) (_ []byte, err error) {
	keys := make([]string, 0, len(object))
	for key, v := range object {
		if v != nil {
			keys = append(keys, key)
		}
	}
	slices.SortFunc(keys, func(a, b string) int {
		return slices.Compare(utf16.Encode([]rune(a)), utf16.Encode([]rune(b)))
	})
	out = append(out, '{')
	for i, key := range keys {
		if i > 0 {
			out = append(out, ',')
		}
		out = append(appendString(out, key), ':')
		if out, err = appendCanonical(out, object[key]); err != nil {
			return nil, err
		}
	}
	return append(out, '}'), nil
}

// appendString writes a string as RFC 8785, section 3.2.2.2 asks: the two-character
// escapes of JSON where there is one, \u00xx in lower case for the other control
// characters, and everything else as it is.
func appendString(out []byte, s string) []byte {
	const short = "\b\t\n\f\r\"\\"
	const letter = "btnfr\"\\"
	out = append(out, '"')
	for _, r := range s {
		if i := slices.Index([]rune(short), r); i >= 0 {
			out = append(out, '\\', letter[i])
		} else if r < 0x20 {
			out = fmt.Appendf(out, `\u%04x`, r)
		} else {
			out = append(out, string(r)...)
		}
	}
	return append(out, '"')
}
