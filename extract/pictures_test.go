package extract_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"evidencevault/extract/page"
)

// scansBelow is how much less, in per mille, may be read exactly of a paper that was
// scanned or photographed than of the same paper as text.
const scansBelow = 80

// TestPictures reads papers twice, as text and as a worn picture of the same page, and
// holds both halves against floors and the pictures against the text. The half "apart" was
// parted by lot before anything was read; only its sums are looked at, and it is read with WHOLE only,
// as "make report" does.
func TestPictures(t *testing.T) {
	// How long it takes is judged elsewhere: here a slow machine must not leave pages unread.
	r := page.NewReader(page.Options{Pool: 2, Timeout: 5 * time.Minute, PageTime: 5 * time.Minute, OCRTime: 20 * time.Minute})
	t.Cleanup(func() {
		if err := r.Close(); err != nil {
			t.Error(err)
		}
	})
	for half, floor := range map[string]shares{
		"shown": {exact: 970, certain: 985},
		"apart": {exact: 870, certain: 925},
	} {
		if half == "apart" && os.Getenv("WHOLE") == "" {
			continue
		}
		t.Run(half, func(t *testing.T) {
			text := readFolder(t, r, filepath.Join("testdata", "pictures", half, "text"), 14)
			worn := readFolder(t, r, filepath.Join("testdata", "pictures", half, "worn"), 14)
			worn.holdShares(t, floor)
			text.report(t, half+", as text", false)
			worn.report(t, half+", as pictures", true)
			if half == "shown" {
				text.log(t, "text")
				worn.log(t, "worn")
			}
			a, b := text.sum(), worn.sum()
			if 1000*b.exact < 1000*a.exact-scansBelow*a.has() {
				t.Errorf("%d of %d values are exact in pictures and %d in text, want at most %d ‰ less", b.exact, b.has(), a.exact, scansBelow)
			}
		})
	}
}
