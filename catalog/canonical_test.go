package catalog_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"evidencevault/catalog"
)

func TestCanonicalAgreesWithRFC8785(t *testing.T) {
	tests := []struct{ name, why, give, want string }{
		{"sorting", "RFC 8785, section 3.2.3: by UTF-16 units, so U+1F600 comes before U+FB33",
			`{"\u20ac":"Euro Sign","\r":"Carriage Return","\ufb33":"Hebrew Letter Dalet With Dagesh","1":"One","\ud83d\ude00":"Emoji: Grinning Face","\u0080":"Control","\u00f6":"Latin Small Letter O With Diaeresis"}`,
			"{\"\\r\":\"Carriage Return\",\"1\":\"One\",\"\u0080\":\"Control\",\"ö\":\"Latin Small Letter O With Diaeresis\",\"€\":\"Euro Sign\",\"😀\":\"Emoji: Grinning Face\",\"\ufb33\":\"Hebrew Letter Dalet With Dagesh\"}"},
		{"strings", "RFC 8785, section 3.2.2.2 and its sample", `{"string":"\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/"}`, `{"string":"€$\u000f\nA'B\"\\\\\"/"}`},
		{"literals", "RFC 8785, section 3.2.2.1, but a null member is left out", `{"literals":[true,false],"none":null}`, `{"literals":[true,false]}`},
		{"signs of HTML", "they are not escaped", `"<a href=\"x\">&"`, `"<a href=\"x\">&"`},
		{"nested", "no white space anywhere", ` { "b" : [ 1 , { "d" : -7 , "c" : 0 } ] , "a" : [ ] } `, `{"a":[],"b":[1,{"c":0,"d":-7}]}`},
		{"largest", "2^53-1 is the last integer that every JSON reader agrees on", `[9007199254740991,-9007199254740991]`, `[9007199254740991,-9007199254740991]`},
	}
	for _, test := range tests {
		got, err := catalog.Canonical(json.RawMessage(test.give))
		if err != nil || string(got) != test.want {
			t.Errorf("%s (%s):\ngot  %q, %v\nwant %q", test.name, test.why, got, err, test.want)
		}
	}
	for _, bad := range []string{`1.5`, `1e3`, `1.0`, `-0`, `9007199254740992`, `[null]`, `null`} {
		if got, err := catalog.Canonical(json.RawMessage(bad)); !errors.Is(err, catalog.ErrBody) {
			t.Errorf("%s became %s, %v, want ErrBody", bad, got, err)
		}
	}
}

func TestCanonicalOfCanonicalIsItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tree := map[string]any{}
		for range rapid.IntRange(0, 6).Draw(t, "members") {
			tree[rapid.String().Draw(t, "key")] = rapid.OneOf(rapid.Map(rapid.String(), func(s string) any { return s }),
				rapid.Map(rapid.Int32(), func(n int32) any { return n }), rapid.Map(rapid.Bool(), func(b bool) any { return b })).Draw(t, "value")
		}
		once, err := catalog.Canonical(tree)
		if err != nil {
			t.Fatal(err)
		}
		twice, err := catalog.Canonical(json.RawMessage(once))
		if err != nil || string(once) != string(twice) {
			t.Fatalf("%q, then %q (%v)", once, twice, err)
		}
	})
}

func TestNamesComeBackByteForByte(t *testing.T) {
	for _, test := range []struct{ name, why, want string }{
		{"plain.pdf", "nothing to escape", "plain.pdf"},
		{"Füße 😀.pdf", "letters stay", "Füße 😀.pdf"},
		{"a\xff.pdf", "no UTF-8", `a\xff.pdf`},
		{"a\nb\tc\x1b[31m", "control characters would drive a terminal", `a\x0ab\x09c\x1b[31m`},
		{"cod\u202efdp.exe", "it would turn the direction of writing", `cod\u202efdp.exe`},
		{`back\slash`, "shown single", `back\slash`},
		{"a\u00a0b", "a blank that is none", `a\u00a0b`},
	} {
		if got := catalog.FileName(test.name).String(); got != test.want {
			t.Errorf("%q (%s): shown as %q, want %q", test.name, test.why, got, test.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		name := catalog.FileName(rapid.SliceOf(rapid.OneOf(rapid.Byte(), rapid.Just(byte('\\')))).Draw(t, "name"))
		shown := name.Exact()
		if !utf8.ValidString(shown) || strings.ContainsAny(shown, "\n\r\t\x1b") {
			t.Fatalf("%q cannot be shown", shown)
		}
		if back, err := catalog.ParseExact(shown); err != nil || back != name {
			t.Fatalf("%q came back as %q from %q (%v)", name, back, shown, err)
		}
		text, err := json.Marshal(name)
		if err != nil {
			t.Fatal(err)
		}
		var again catalog.FileName
		if err := json.Unmarshal(text, &again); err != nil || again != name {
			t.Fatalf("%q came back as %q from %s (%v)", name, again, text, err)
		}
	})
	for _, bad := range []string{`\`, `a\q`, `\x1`, `\u12`} {
		if got, err := catalog.ParseExact(bad); err == nil {
			t.Errorf("%q was read as %q", bad, got)
		}
	}
}

func TestEveryKindIsNamedAsItIsListed(t *testing.T) {
	kinds := catalog.Kinds()
	if len(kinds) != 44 {
		t.Errorf("%d kinds, want 44: a log holds them for ever", len(kinds))
	}
	for name, body := range kinds {
		if body.Kind() != name {
			t.Errorf("listed as %q, calls itself %q", name, body.Kind())
		}
	}
}
