package main

import (
	"slices"
	"strings"
	"testing"
)

// A table gives up words before figures: on a narrow terminal texts are cut, and what
// was counted is still there.
func TestFit(t *testing.T) {
	columns := []column{{head: "claim"}, {head: "title", most: 44}, {head: "file", most: 40}, {head: "counted", number: true}}
	rows := [][]string{{"C1", strings.Repeat("t", 60), strings.Repeat("f", 20), "0.5"}}
	cases := []struct {
		why   string
		width int
		want  []int
	}{
		{"no terminal: nothing is cut", 0, []int{0, 0, 0, 0}},
		{"wide: only what is wider than its column", 200, []int{0, 44, 20, 0}},
		{"the widest gives way first", 80, []int{0, 42, 20, 0}},
		{"then both", 50, []int{0, 16, 16, 0}},
		{"no text is narrower than it can be read", 20, []int{0, 8, 8, 0}},
	}
	for _, c := range cases {
		if got := fit(columns, rows, c.width); !slices.Equal(got, c.want) {
			t.Errorf("%s: at %d got %v, want %v", c.why, c.width, got, c.want)
		}
	}
}

// What could steer a terminal or turn writing round never reaches it.
func TestSafe(t *testing.T) {
	cases := []struct{ why, text, want string }{
		{"colour", "a\x1b[31mb", "a�[31mb"},
		{"a control of the second set", "a\u009bb", "a�b"},
		{"delete and carriage return", "a\x7fb\rc", "a�b�c"},
		{"right-to-left override", "cod\u202efdp", "cod�fdp"},
		{"an isolate, a mark, an Arabic mark", "\u2066a\u200fb\u061cc", "�a�b�c"},
		{"bytes that are no text", "a\xffb", "a�b"},
		{"ordinary writing", "Überprüfung\nÄ", "Überprüfung\nÄ"},
	}
	for _, c := range cases {
		if got := safe(c.text); got != c.want {
			t.Errorf("%s: got %q, want %q", c.why, got, c.want)
		}
	}
}

// A path can be pasted into a command line as it is printed.
func TestQuoted(t *testing.T) {
	for path, want := range map[string]string{
		"/a/b-c_d.e": "/a/b-c_d.e", "/my vault": "'/my vault'", "it's": `'it'\''s'`, "$(id)": "'$(id)'", "": "''", "~/v": "~/v",
	} {
		if got := quoted(path); got != want {
			t.Errorf("%q: got %s, want %s", path, got, want)
		}
	}
}
