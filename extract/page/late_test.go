package page_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"evidencevault/extract/page"
)

// drawnPages makes a PDF of two pages without letters: a bar on the first, and thousands
// of marks on the second, whose picture is larger by far.
func drawnPages() []byte {
	var marks strings.Builder
	rnd := rand.New(rand.NewPCG(1, 2))
	for range 6000 {
		fmt.Fprintf(&marks, "%d %d %d %d re f\n", rnd.IntN(560), rnd.IntN(800), 1+rnd.IntN(5), 1+rnd.IntN(5))
	}
	return pdf(catalog, "<</Type/Pages/Kids[3 0 R 4 0 R]/Count 2>>",
		"<</Type/Page/Parent 2 0 R/MediaBox[0 0 595 842]/Contents 5 0 R>>",
		"<</Type/Page/Parent 2 0 R/MediaBox[0 0 595 842]/Contents 6 0 R>>", stream("100 700 200 12 re f"), stream(marks.String()))
}

// A document whose letters take too long keeps the pages that were read in time, says of
// the others that they are unread, and ends.
func TestRecognitionIsStopped(t *testing.T) {
	program := fake(t, `n=$(wc -c); if [ "$n" -gt 60000 ]; then while :; do :; done; fi
printf 'level\tpage_num\tblock_num\tpar_num\tline_num\tword_num\tleft\ttop\twidth\theight\tconf\ttext\n'
printf '5\t1\t1\t1\t1\t1\t100\t100\t300\t30\t96\tCertificateOfAttendanceAtTheStudyDayOnLooms\n'`)
	r := page.NewReader(page.Options{CacheDir: cache(t), Tesseract: program, OCRTime: 4 * time.Second})
	defer r.Close()
	d := readBytes(t, r, drawnPages(), page.Request{})
	if d.Trouble != page.None || len(d.Pages) != 1 || d.Pages[0].Number != 1 || d.Unread != 1 {
		t.Fatalf("trouble %q, %d pages, %d unread (%s): want the first page, and one unread", d.Trouble, len(d.Pages), d.Unread, d.Reason)
	}
	if !strings.Contains(text(d), "CertificateOf") || !strings.Contains(d.Reason, "page 2 is unread") || !strings.Contains(d.Reason, "longer than allowed") {
		t.Errorf("it reads %q and says %q", text(d), d.Reason)
	}
}
