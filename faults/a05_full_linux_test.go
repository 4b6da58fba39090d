//go:build faultpoints

package faults

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/sys/unix"

	"evidencevault/faults/check"
)

// A full disk: what fits is in, the rest waits in the drop folder with the reason, and
// is taken when there is room again. The sizes let the disk fill in the store, and in
// the middle of writing the database, where a stopped checkpoint leaves half a file that
// is whole only together with its -wal.
func TestA05DiskFull(t *testing.T) {
	for _, c := range []struct {
		name       string
		size, exit int
		left       []string // in the drop folder
	}{
		{"in the store", 7 << 18, 3, []string{"2.bin"}},
		{"in the database", 3 << 19, 1, nil},
	} {
		t.Run(c.name, func(t *testing.T) { fullDisk(t, c.size, c.exit, c.left) })
	}
}

func fullDisk(t *testing.T, size, exit int, stays []string) {
	small := t.TempDir()
	if err := unix.Mount("tmpfs", small, "tmpfs", 0, "size=4m,mode=0700"); err != nil {
		t.Fatalf("mount a small disk: %v", err)
	}
	t.Cleanup(func() {
		if err := unix.Unmount(small, 0); err != nil {
			t.Error(err)
		}
	})
	r := newRoundIn(t, filepath.Join(small, "vault"), filepath.Join(t.TempDir(), "drop"))
	big := map[string][]byte{"1.bin": bytes.Repeat([]byte("a"), size), "2.bin": bytes.Repeat([]byte("b"), size)}
	for name, data := range big {
		if err := os.WriteFile(filepath.Join(r.Drop, name), data, 0o600); err != nil {
			t.Fatal(err)
		}
		r.Dropped = append(r.Dropped, check.Sum(data))
	}
	log := r.once(exit)
	if !strings.Contains(log, "disk full") {
		t.Errorf("the reason was not said:\n%s", log)
	}
	left, err := os.ReadDir(r.Drop)
	if err != nil || len(left) != len(stays) || len(left) > 0 && left[0].Name() != stays[0] {
		t.Errorf("left %v, %v, want %v", left, err, stays)
	}
	r.Restarted = true // nothing half may be left even now
	r.look("while the disk is full")
	if err := unix.Mount("tmpfs", small, "tmpfs", unix.MS_REMOUNT, "size=32m"); err != nil {
		t.Fatal(err)
	}
	r.once(0)
	if left, err := os.ReadDir(r.Drop); err != nil || len(left) != 0 {
		t.Errorf("left %v, %v, want all taken when there is room", left, err)
	}
	r.look("after making room")
	r.verify()
}

// once runs vaultd --once, demands the exit code, and returns what it said.
func (r *round) once(code int) string {
	r.t.Helper()
	cmd := exec.Command(program, "--vault", r.Dir, "--once", "--settle", "10ms")
	var log bytes.Buffer
	cmd.Stderr = &log
	err := cmd.Run()
	if got := cmd.ProcessState.ExitCode(); got != code {
		r.t.Errorf("exit %d (%v), want %d\n%s", got, err, code, log.String())
	}
	r.acknowledge(log.String())
	return log.String()
}
