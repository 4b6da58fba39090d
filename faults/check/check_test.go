package check_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"evidencevault/faults/check"
)

// made is a vault written by hand: one evidence with its row, one event.
func made(t *testing.T) check.Vault {
	t.Helper()
	base := t.TempDir()
	v := check.Vault{Dir: filepath.Join(base, "vault"), Drop: filepath.Join(base, "drop"), Restarted: true}
	sum := check.Sum([]byte("paper"))
	v.Acknowledged, v.Dropped = []string{sum}, []string{sum}
	for _, dir := range []string{v.Drop, v.Dir, filepath.Join(v.Dir, "evidence"), filepath.Join(v.Dir, "evidence", sum[:2])} {
		if err := os.Mkdir(dir, 0o700); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(stored(v), []byte("paper"), 0o400); err != nil {
		t.Fatal(err)
	}
	sql(t, v, `CREATE TABLE event (number INTEGER PRIMARY KEY); INSERT INTO event VALUES (1);
		CREATE TABLE evidence (sha256 TEXT); INSERT INTO evidence VALUES ('`+sum+`');`)
	if err := os.Chmod(filepath.Join(v.Dir, "catalog.db"), 0o600); err != nil {
		t.Fatal(err)
	}
	return v
}

func stored(v check.Vault) string {
	return filepath.Join(v.Dir, "evidence", v.Dropped[0][:2], v.Dropped[0]+".pdf")
}

func sql(t *testing.T, v check.Vault, text string) {
	t.Helper()
	if out, err := exec.Command("sqlite3", filepath.Join(v.Dir, "catalog.db"), text).CombinedOutput(); err != nil {
		t.Fatalf("sqlite3: %v: %s", err, out)
	}
}

// A check that was never seen to fail proves nothing: each rule is broken once.
func TestEveryRuleIsSeenToBreak(t *testing.T) {
	tests := []struct {
		name, rule string
		harm       func(*testing.T, check.Vault) error
	}{
		{"acknowledged without a row", "K1", func(t *testing.T, v check.Vault) error { sql(t, v, `DELETE FROM evidence`); return nil }},
		{"row without a file", "K2", func(_ *testing.T, v check.Vault) error { return os.Remove(stored(v)) }},
		{"altered file", "K1", func(_ *testing.T, v check.Vault) error {
			if err := os.Chmod(stored(v), 0o600); err != nil {
				return err
			}
			return os.WriteFile(stored(v), []byte("other"), 0o600)
		}},
		{"temporary file left", "K2", func(_ *testing.T, v check.Vault) error {
			return os.WriteFile(filepath.Join(v.Dir, "evidence", ".incoming-abc"), nil, 0o600)
		}},
		{"gap in the log", "K3", func(t *testing.T, v check.Vault) error { sql(t, v, `INSERT INTO event VALUES (3)`); return nil }},
		{"dropped and nowhere", "K4", func(_ *testing.T, v check.Vault) error { return os.Remove(stored(v)) }},
		{"wider than allowed", "K7", func(_ *testing.T, v check.Vault) error { return os.Chmod(v.Dir, 0o755) }},
	}
	if got, err := made(t).Problems(); err != nil || len(got) > 0 {
		t.Fatalf("a vault in order: %q, %v", got, err)
	}
	for _, test := range tests {
		if test.rule == "K7" && runtime.GOOS == "windows" {
			continue // it has no such modes
		}
		v := made(t)
		if err := test.harm(t, v); err != nil {
			t.Fatal(err)
		}
		got, err := v.Problems()
		if err != nil || !strings.Contains(strings.Join(got, "\n"), test.rule+":") {
			t.Errorf("%s: %q, %v, want %s broken", test.name, got, err, test.rule)
		}
	}
}
