package extracttest

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
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
