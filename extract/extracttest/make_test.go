package extracttest

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// papers returns the papers that the environment asks for, 60 of seed 1 by default.
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
	return Make(seed, count)
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

func TestEqualSeedsGiveEqualBytes(t *testing.T) {
	a, b := Make(7, 30), Make(7, 12)
	for i := range b {
		if a[i].Name != b[i].Name || !bytes.Equal(a[i].Data, b[i].Data) {
			t.Errorf("%s: the same seed gives other bytes", a[i].Name)
		}
	}
}
