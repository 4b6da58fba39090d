package extracttest

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// papers returns the papers that the environment asks for: COUNT of SEED, 60 of seed 1
// by default, every SCANS-th PDF as a scan, none by default.
func papers(t *testing.T) []Made {
	t.Helper()
	seed, count := uint64(1), 60
	if v := os.Getenv("SEED"); v != "" {
		n, err := strconv.ParseUint(v, 10, 64)
		if err != nil {
			t.Fatalf("SEED: %v: want a whole number", err)
		}
		seed = n
	}
	if v := os.Getenv("COUNT"); v != "" {
		n, err := strconv.Atoi(v)
		if err != nil || n < 1 {
			t.Fatalf("COUNT %q: want a whole number above 0", v)
		}
		count = n
	}
	list := Make(seed, count)
	if v := os.Getenv("SCANS"); v != "" {
		every, err := strconv.Atoi(v)
		if err != nil || every < 1 {
			t.Fatalf("SCANS %q: want a whole number n above 0, for a scan of every n-th PDF", v)
		}
		list = scanEvery(t, list, every)
	}
	return list
}

// scanEvery puts a scan in the place of every n-th PDF.
func scanEvery(t *testing.T, list []Made, n int) []Made {
	t.Helper()
	seen := 0
	for i, m := range list {
		if m.Truth.Format != "pdf" {
			continue
		}
		if seen++; seen%n != 0 {
			continue
		}
		scan, err := Scan(m, uint64(i))
		if err != nil {
			t.Fatal(err)
		}
		list[i] = scan
	}
	return list
}

// TestScanIsAPictureWithTheSameTruth also holds where no scanner is installed: then the
// error says so.
func TestScanIsAPictureWithTheSameTruth(t *testing.T) {
	list := Make(11, 8)
	at := slices.IndexFunc(list, func(m Made) bool { return m.Truth.Format == "pdf" })
	got, err := Scan(list[at], 5)
	if _, missing := exec.LookPath("pdftoppm"); missing != nil {
		if !errors.Is(err, ErrNoScanner) {
			t.Fatalf("without pdftoppm: got error %v, want %v", err, ErrNoScanner)
		}
		return
	}
	if err != nil {
		t.Fatal(err)
	}
	want := list[at].Truth
	want.File, want.Format = got.Name, got.Truth.Format
	if a, b := fmt.Sprint(want), fmt.Sprint(got.Truth); a != b {
		t.Errorf("truth of the scan: got %s, want %s", b, a)
	}
	if !slices.Contains([]string{"pdf-scan", "jpg", "png"}, got.Truth.Format) || bytes.Contains(got.Data, []byte("/Type1")) {
		t.Errorf("%s, format %s: want a picture without fonts", got.Name, got.Truth.Format)
	}
	again, err := Scan(list[at], 5)
	if err != nil || !bytes.Equal(again.Data, got.Data) {
		t.Errorf("a second scan of the same seed differs (error %v)", err)
	}
}

// TestWrite checks that papers can be made, and writes them with their truths into the
// folder that PAPERS names.
func TestWrite(t *testing.T) {
	list := papers(t)
	dir := os.Getenv("PAPERS")
	if dir == "" {
		dir = t.TempDir()
	}
	for _, sub := range []string{"files", "truth"} {
		if err := os.MkdirAll(filepath.Join(dir, sub), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	for _, m := range list {
		truth, err := json.MarshalIndent(m.Truth, "", " ")
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, "files", m.Name), m.Data, 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, "truth", m.Name+".json"), append(truth, '\n'), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// TestEqualSeedsGiveEqualBytes passes over the bytes of files with a font of their own:
// the library lists its letters in any order.
func TestEqualSeedsGiveEqualBytes(t *testing.T) {
	a, b := Make(7, 30), Make(7, 12)
	for i := range b {
		if a[i].Name != b[i].Name || a[i].Text != b[i].Text || !bytes.Equal(a[i].Data, b[i].Data) && !bytes.Contains(a[i].Data, []byte("/CIDFontType2")) {
			t.Errorf("%s: the same seed gives other bytes", a[i].Name)
		}
	}
}

// TestReprintShowsTheSame has every producer write a drawn PDF: the bytes are others, what
// pdftotext reads of them is the same.
func TestReprintShowsTheSame(t *testing.T) {
	list := Make(11, 8)
	m := list[slices.IndexFunc(list, func(m Made) bool { return m.Truth.Format == "pdf" })]
	words := func(data []byte) []string {
		cmd := exec.Command("pdftotext", "-enc", "UTF-8", "-", "-")
		cmd.Stdin = bytes.NewReader(data)
		out, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		all := strings.Fields(string(out))
		slices.Sort(all)
		return all
	}
	seen := [][]byte{}
	for _, p := range Producers() {
		got, err := Reprint(m, p)
		if err != nil {
			t.Fatal(err)
		}
		if slices.ContainsFunc(seen, func(o []byte) bool { return bytes.Equal(o, got.Data) }) {
			t.Errorf("%s writes the same bytes as another", p)
		}
		seen = append(seen, got.Data)
		if !slices.Equal(words(got.Data), words(m.Data)) || got.Name != m.Name || fmt.Sprint(got.Truth) != fmt.Sprint(m.Truth) {
			t.Errorf("%s: %v, want %v", p, words(got.Data), words(m.Data))
		}
	}
	if len(seen) < 4 {
		t.Errorf("%d producers", len(seen))
	}
	if _, err := Reprint(m, "nobody"); err == nil {
		t.Error("an unknown producer writes a PDF")
	}
}

var (
	fontName = regexp.MustCompile(`/BaseFont /(?:[A-Z]{6}\+)?([A-Za-z]+)`)
	mediaBox = regexp.MustCompile(`/MediaBox ?\[ ?0 0 ([0-9.]+) ([0-9.]+)`)
)

// TestDressVariesIndependently: which language a paper has, how it is laid out, in what
// font and on what paper say nothing of each other. Every two that are common occur
// together about as often as by chance.
func TestDressVariesIndependently(t *testing.T) {
	var rows [][4]string
	for _, m := range Make(3, 900) {
		font, box := fontName.FindSubmatch(m.Data), mediaBox.FindSubmatch(m.Data)
		if m.Truth.Format != "pdf" || font == nil || box == nil || m.facts.layout == "slip" {
			continue
		}
		size := fmt.Sprintf("%.3s by %.3s", min(string(box[1]), string(box[2])), max(string(box[1]), string(box[2])))
		rows = append(rows, [4]string{m.Truth.Language[:2], m.facts.layout, string(font[1]), size})
	}
	what := [4]string{"language", "layout", "font", "size"}
	checked := 0
	for a := range 4 {
		for b := a + 1; b < 4; b++ {
			one, two, both := map[string]int{}, map[string]int{}, map[[2]string]int{}
			for _, r := range rows {
				one[r[a]]++
				two[r[b]]++
				both[[2]string{r[a], r[b]}]++
			}
			if what[b] == "size" && a < 2 {
				continue // a paper from the United States is on its own sizes, and a long one on no small one
			}
			for x, n := range one {
				for y, k := range two {
					expected := float64(n) * float64(k) / float64(len(rows))
					if expected < 15 {
						continue
					}
					checked++
					if got := float64(both[[2]string{x, y}]); got < expected/2.5 || got > expected*2.5 {
						t.Errorf("%s %s with %s %s: %v of %d papers, want about %.0f", what[a], x, what[b], y, got, len(rows), expected)
					}
				}
			}
		}
	}
	if len(rows) < 400 || checked < 30 {
		t.Errorf("%d papers, %d pairs: too few to show anything", len(rows), checked)
	}
}
