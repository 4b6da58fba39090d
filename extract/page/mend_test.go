package page_test

import (
	"bytes"
	"os"
	"slices"
	"testing"

	"evidencevault/extract/page"
)

// TestBytesPutInBetween: bytes of a PDF that were written twice shift all that follows, and half an object stands
// where none is expected; its text is still whole.
func TestBytesPutInBetween(t *testing.T) {
	whole, err := os.ReadFile("testdata/own/Bescheinigung_Wendelhorst.pdf")
	if err != nil {
		t.Fatal(err)
	}
	want := wordsOf(t, whole)
	at := bytes.LastIndex(whole, []byte("\nxref")) + 1
	for _, from := range []int{0, 8, at - 20, at - 40} {
		shifted := slices.Concat(whole[:at], whole[from:from+40], whole[at:])
		if got := wordsOf(t, shifted); got != want {
			t.Errorf("bytes from %d again: read %q, want %q", from, got, want)
		}
	}
}

func wordsOf(t *testing.T, pdf []byte) string {
	t.Helper()
	d, err := reader(t).Read(t.Context(), bytes.NewReader(pdf), page.Request{})
	if err != nil {
		t.Fatal(err)
	}
	return d.Reason + text(d)
}
