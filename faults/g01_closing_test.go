//go:build faultpoints

package faults

import (
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"evidencevault/internal/stop"
)

// G1: a cycle is closed, a closing taken back, or an archive deleted, between the copy of
// the database and the copying of files. What comes of the backup or the export has the
// archives that its own log names, and no others.
func TestG01TakenOutWhileClosing(t *testing.T) {
	base := cycleVault(t)
	closed := base.copied(t)
	closed.must("close", "--yes", "--with-findings")
	twice := closed.copied(t)
	twice.must("close", "--yes", "--with-findings") // the cycle into which credit passed
	begun := base.copied(t)
	if _, said, code := begun.call(stop.CloseBegun+":kill", "close", "--yes", "--with-findings"); code != -1 {
		t.Fatal(said)
	}
	for _, c := range []struct {
		name  string
		from  *cycleRound
		does  []string
		state string // of the first cycle in what was taken out
	}{
		{"closed meanwhile", base, []string{"close", "--yes", "--with-findings"}, "closed"}, // taken out once more, with the closing
		{"finished meanwhile", begun, []string{"close", "--resume"}, "closing"},
		{"taken back meanwhile", closed, []string{"close", "--undo"}, "ended"},
		{"deleted meanwhile", twice, []string{"delete", "--cycle", "1", "--yes"}, "closed"},
	} {
		for _, how := range [][2]string{{"backup", "restore"}, {"export", "import"}} {
			t.Run(c.name+", "+how[0], func(t *testing.T) {
				r := c.from.copied(t)
				out := filepath.Join(t.TempDir(), "out")
				ended := r.waiting(stop.Snapped, func() { r.must(c.does...) }, how[0], out)
				if ended != "" {
					t.Fatal(ended)
				}
				got := &cycleRound{t, filepath.Join(t.TempDir(), "vault")}
				got.must(how[1], out)
				if said := got.must("verify"); strings.Contains(said, "finding") {
					t.Error(said)
				}
				if state := got.cycles()[0].State; state != c.state {
					t.Errorf("the first cycle is %s, want %s", state, c.state)
				}
				r.must("verify")
			})
		}
	}
}

// waiting starts vaultctl, does what is to be done while it waits at a point, and lets it
// go on. It returns what was wrong with its end, "" if nothing.
func (r *cycleRound) waiting(at string, meanwhile func(), args ...string) string {
	r.t.Helper()
	path, err := vaultctl()
	if err != nil {
		r.t.Fatal(err)
	}
	flag := filepath.Join(r.t.TempDir(), "waits")
	cmd := exec.Command(path, append([]string{"--vault", r.dir}, args...)...)
	cmd.Env = append(os.Environ(), "EVIDENCE_VAULT_STOP="+at+":wait", "EVIDENCE_VAULT_STOP_FILE="+flag)
	var said strings.Builder
	cmd.Stdout, cmd.Stderr = &said, &said
	if err := cmd.Start(); err != nil {
		r.t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- cmd.Wait() }()
	for {
		select {
		case err := <-ended:
			r.t.Fatalf("it never waited at %s: %v\n%s", at, err, said.String())
		case <-time.After(5 * time.Millisecond):
		}
		if _, err := os.Lstat(flag); !errors.Is(err, fs.ErrNotExist) {
			break
		}
	}
	meanwhile()
	if err := os.Remove(flag); err != nil {
		r.t.Fatal(err)
	}
	if err := <-ended; err != nil {
		return err.Error() + "\n" + said.String()
	}
	return ""
}
