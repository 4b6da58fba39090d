package web_test

import (
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/sys/unix"

	"evidencevault/journal"
)

// A vault that cannot be written to says so on the page while confirming; what was typed
// is still in the form, and nothing is confirmed.
//
// It runs in a process of its own: go test writes a log of its own beside the tests, which
// could not grow either.
func TestDiskFullWhileConfirming(t *testing.T) {
	const own = "EVIDENCE_VAULT_TEST_FULL_DISK"
	if os.Getenv(own) == "" {
		cmd := exec.CommandContext(t.Context(), os.Args[0], "-test.run=^TestDiskFullWhileConfirming$", "-test.v")
		cmd.Env = append(os.Environ(), own+"=yes")
		out, err := cmd.CombinedOutput()
		if err != nil || !strings.Contains(string(out), "--- PASS: TestDiskFullWhileConfirming") {
			t.Errorf("%v\n%s", err, out)
		}
		return
	}
	v := serve(t, "splicing certificate.pdf")
	var was unix.Rlimit
	if err := unix.Getrlimit(unix.RLIMIT_FSIZE, &was); err != nil {
		t.Fatal(err)
	}
	limit := func(most uint64) {
		if err := unix.Setrlimit(unix.RLIMIT_FSIZE, &unix.Rlimit{Cur: most, Max: was.Max}); err != nil {
			t.Fatal(err)
		}
	}
	wal, err := os.Stat(filepath.Join(v.journal.Catalog().Dir(), "catalog.db-wal"))
	if err != nil || wal.Size() < 32<<10 { // the index of the log has that size
		t.Fatalf("the write-ahead log: %v, %v", wal, err)
	}
	limit(uint64(wal.Size())) // no file of this program can grow beyond it, as on a full disk
	status, body := v.send("paper/P1/confirm", url.Values{"set.title": {"typed by hand"}, "was.title": {"x"}})
	limit(was.Cur)
	if status < 400 || !strings.Contains(body, `value="typed by hand"`) || !strings.Contains(body, `role="alert"`) {
		t.Errorf("%d %s", status, body)
	}
	if claims, err := v.journal.Claims(t.Context(), journal.ClaimsFilter{}); err != nil || len(claims) != 0 {
		t.Errorf("%d claims, %v", len(claims), err)
	}
	if status, body := v.send("paper/P1/confirm", url.Values{}); status != 200 || !strings.Contains(body, "P1 is confirmed") {
		t.Errorf("with room again: %d %s", status, body)
	}
}
