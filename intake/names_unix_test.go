//go:build !windows

package intake_test

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// Every name comes back byte for byte, and no two become one (B15, B16).
func TestHostileNamesAreKeptByteForByte(t *testing.T) {
	hostile := []string{
		"new\nline.pdf", "tab\t.pdf", "esc\x1b[31m.pdf", "emoji🎓.pdf", "-rf.pdf", " leading.pdf", "trailing.pdf ", "dot.",
		strings.Repeat("a", 251) + ".pdf", "invalid\xff.pdf", "invalid\xfe.pdf", "cod\u202efdp.exe", `quote"'.pdf`, "%s%n.pdf",
		"$(id).pdf", "CON", "a:b.pdf", `back\slash.pdf`, "n\u0303.pdf", "\u00f1.pdf", "Case.pdf", "case.pdf",
		strings.Repeat(strings.Repeat("d", 200)+"/", 15) + "deep.pdf",
	}
	v := newVault(t, true)
	for i, name := range hostile {
		write(t, filepath.Join(v.drop, name), strings.Repeat("x", i+1)) // contents differ
	}
	if r := v.once(); len(r.Left) != 0 {
		t.Errorf("left: %v", r.Left)
	}
	var got []string
	for _, e := range v.evidence() {
		got = append(got, names(e)...)
	}
	slices.Sort(got)
	slices.Sort(hostile)
	if !slices.Equal(got, hostile) {
		t.Errorf("got %q\nwant %q", got, hostile)
	}
	v.sound()
}
