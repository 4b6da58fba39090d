package watcher_test

import (
	"testing"

	"evidencevault/watcher"
)

func TestByProduct(t *testing.T) {
	tests := []struct {
		name string
		want bool
		why  string
	}{
		{"~$letter.docx", true, "an office program has it open"},
		{"letter.docx~", true, "backup copy"},
		{".letter.txt.swp", true, "swap file"},
		{".letter.txt.swo", true, "second swap file"},
		{"4913", true, "test of the folder"},
		{"#letter.txt#", true, "rescue copy"},
		{".DS_Store", true, "file manager"},
		{"Thumbs.db", true, "file manager"},
		{"THUMBS.DB", true, "written by a system that does not tell case apart"},
		{"desktop.ini", true, "file manager"},
		{".~lock.letter.odt#", true, "lock"},
		{".goutputstream-AB12", true, "being saved"},
		{".nfs0001", true, "removed but open"},
		{"cert.pdf.part", true, "download"},
		{"cert.crdownload", true, "download"},
		{"cert.download", true, "download"},
		{"cert.pdf.tmp", true, "download"},
		{".cert.pdf.aB3", true, "being copied"},
		{".cert.pdf.X4f9aQ", true, "being copied"},
		{"cert.pdf", false, "a document"},
		{"CERT.PDF", false, "a document"},
		{".hidden.pdf", false, "hidden, but a document"},
		{".2031.invoice.pdf", false, "the last extension is a document's"},
		{".html.invoice.pdf", false, "the last extension is a document's"},
		{"part", false, "the word alone is no extension"},
		{"my.part.pdf", false, "not at the end"},
		{"491", false, "another number"},
		{"#1 certificate.pdf", false, "does not end with #"},
		{"a~b.pdf", false, "does not end with ~"},
		{"cert\xff.pdf", false, "a name that is not UTF-8"},
		{"[x.pdf", false, "a name that looks like a pattern"},
	}
	for _, test := range tests {
		rule, got := watcher.ByProduct(test.name)
		if got != test.want {
			t.Errorf("ByProduct(%q) = %v by %v, want %v: %s", test.name, got, rule, test.want, test.why)
		}
		if got && (rule.Pattern == "" || rule.Why == "") {
			t.Errorf("ByProduct(%q) gives no reason", test.name)
		}
	}
}

func FuzzByProductNeverPanics(f *testing.F) {
	for _, seed := range []string{"", ".", "..", ".x.pdf.aB3", "[", "\\", "~$", "\xff\xfe"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, name string) {
		if rule, ok := watcher.ByProduct(name); ok == (rule == watcher.Rule{}) {
			t.Errorf("ByProduct(%q) = %v, %v: a rule if and only if it is one", name, rule, ok)
		}
	})
}
