package page_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"evidencevault/extract/page"
)

// textPDFs lists papers that are read without recognition, and that the judge reads.
func textPDFs(b *testing.B) []string {
	var out []string
	for _, f := range append(glob(b, "testdata/own/*.pdf"), glob(b, "../testdata/pictures/*/text/files/*.pdf")...) {
		d := read(b, reader(b), f, page.Request{NoOCR: true})
		if d.Trouble == page.None && d.Unread == 0 && len(d.Pages) > 0 && exec.Command("pdftotext", f, os.DevNull).Run() == nil {
			out = append(out, f)
		}
	}
	if len(out) < 30 {
		b.Fatalf("%d PDFs with text, want at least 30", len(out))
	}
	return out
}

// BenchmarkBesidePdftotext reads the same PDFs in a warm pool as `read` uses it, in one warm child,
// there with a second opinion, and with pdftotext, which is started for each file, round by round;
// others may use the machine, so the quickest round of each counts. The ratios are to be at most
// 0.5 without the second opinion and 1.0 with it.
func BenchmarkBesidePdftotext(b *testing.B) {
	files := textPDFs(b)
	pool := page.NewReader(page.Options{Pool: runtime.GOMAXPROCS(0), CacheDir: cache(b)})
	defer pool.Close()
	ways := map[string]func(){
		"pool":  func() { together(files, func(f string) { read(b, pool, f, page.Request{NoOCR: true}) }) },
		"alone": func() { inTurn(files, func(f string) { read(b, reader(b), f, page.Request{NoOCR: true}) }) },
		"second": func() {
			inTurn(files, func(f string) { read(b, reader(b), f, page.Request{NoOCR: true, Second: true}) })
		},
		"judge": func() {
			inTurn(files, func(f string) {
				if err := exec.Command("pdftotext", f, os.DevNull).Run(); err != nil {
					b.Fatalf("%s: %v", f, err)
				}
			})
		},
	}
	took := map[string]time.Duration{} // of the quickest round
	for b.Loop() {
		for name, way := range ways {
			round := clock(way)
			if best, ok := took[name]; !ok || round < best {
				took[name] = round
			}
		}
	}
	for name, d := range took {
		b.ReportMetric(float64(d.Microseconds())/float64(len(files)), name+"-µs/file")
	}
	b.ReportMetric(float64(took["pool"])/float64(took["judge"]), "pool/judge")
	b.ReportMetric(float64(took["alone"])/float64(took["judge"]), "alone/judge")
	b.ReportMetric(float64(took["second"])/float64(took["judge"]), "second/judge")
}

// inTurn does with each file what do says, one after the other.
func inTurn(files []string, do func(f string)) {
	for _, f := range files {
		do(f)
	}
}

// together does it with as many at a time as there are processors.
func together(files []string, do func(f string)) {
	var all sync.WaitGroup
	left := make(chan string, len(files))
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			for f := range left {
				do(f)
			}
		})
	}
	for _, f := range files {
		left <- f
	}
	close(left)
	all.Wait()
}

// BenchmarkColdFile reads one PDF with a reader made for it, whose compiled engine is in the
// cache: at most a second. Beside it stands pdftotext.
func BenchmarkColdFile(b *testing.B) {
	dir, f := cache(b), "testdata/own/Oakhurst_cert_final.pdf"
	for b.Loop() {
		r := page.NewReader(page.Options{CacheDir: dir})
		read(b, r, f, page.Request{})
		if err := r.Close(); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(b.Elapsed().Seconds()/float64(b.N), "s/file")
	b.ReportMetric(clock(func() { _ = exec.Command("pdftotext", f, os.DevNull).Run() }).Seconds(), "judge-s/file")
}

func clock(do func()) time.Duration {
	start := time.Now()
	do()
	return time.Since(start)
}

// BenchmarkRecognition reads scans, faxes and photographs: at most 3 seconds a page. Beside
// it stands tesseract alone, started once a page on the picture as pdftoppm or the file gives it.
func BenchmarkRecognition(b *testing.B) {
	files := []string{"testdata/own/scan0007.pdf", "testdata/own/searchable-scan.pdf", "testdata/own/IMG_2041.jpg", "testdata/own/photo_receipt.jpg", "testdata/own/member-card.png"}
	var ours, judge time.Duration
	pages := 0
	for b.Loop() {
		for _, f := range files {
			start := time.Now()
			pages += len(read(b, reader(b), f, page.Request{}).Pages)
			ours += time.Since(start)
			picture, count := pictures(b, f)
			judge += clock(func() {
				for _, p := range picture {
					cmd := exec.Command("tesseract", p, "stdout", "--psm", "3", "-l", "eng+deu+fra+spa+nld", "tsv")
					cmd.Env = append(os.Environ(), "OMP_THREAD_LIMIT=1")
					if err := cmd.Run(); err != nil {
						b.Fatalf("tesseract %s: %v", p, err)
					}
				}
			})
			if count == 0 {
				b.Fatalf("%s has no page", f)
			}
		}
	}
	b.ReportMetric(ours.Seconds()/float64(pages), "s/page")
	b.ReportMetric(judge.Seconds()/float64(pages), "judge-s/page")
	b.ReportMetric(float64(ours)/float64(judge), "ours/judge")
}

// pictures draws the pages of a PDF for the judge; a picture is its own page.
func pictures(b *testing.B, f string) ([]string, int) {
	b.Helper()
	if !strings.HasSuffix(f, ".pdf") {
		return []string{f}, 1
	}
	dir := b.TempDir()
	if out, err := exec.Command("pdftoppm", "-r", "200", "-gray", f, filepath.Join(dir, "p")).CombinedOutput(); err != nil {
		b.Fatalf("pdftoppm: %v: %s", err, out)
	}
	list := glob(b, filepath.Join(dir, "*"))
	return list, len(list)
}
