//go:build faultpoints

package faults

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/sys/unix"

	"evidencevault/catalog"
	"evidencevault/faults/check"
)

// A full disk: what fits is in, the rest waits in the drop folder with the reason, and
// is taken when there is room again. The sizes let the disk fill in the store, and in
// the middle of writing the database, where a stopped checkpoint leaves half a file that
// is whole only together with its -wal.
func TestA05DiskFull(t *testing.T) {
	for _, c := range []struct {
		name              string
		files, size, exit int
		left              []string // in the drop folder
	}{
		{"in the store", 2, 7 << 18, 3, []string{"2.bin"}},
		{"in the database", 50, 1 << 10, 1, nil},
	} {
		t.Run(c.name, func(t *testing.T) { fullDisk(t, c.files, c.size, c.exit, c.left) })
	}
}

func fullDisk(t *testing.T, files, size, exit int, stays []string) {
	small := smallDisk(t)
	r := newRoundIn(t, filepath.Join(small, "vault"), filepath.Join(t.TempDir(), "drop"))
	for n := 1; n <= files; n++ {
		data := fmt.Appendf(bytes.Repeat([]byte("a"), size), " %d", n)
		if err := os.WriteFile(filepath.Join(r.Drop, fmt.Sprintf("%d.bin", n)), data, 0o600); err != nil {
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

// smallDisk mounts a disk of 4 MiB for the test.
func smallDisk(t *testing.T) string {
	t.Helper()
	small := t.TempDir()
	if err := unix.Mount("tmpfs", small, "tmpfs", 0, "size=4m,mode=0700"); err != nil {
		t.Fatalf("mount a small disk: %v", err)
	}
	t.Cleanup(func() {
		if err := unix.Unmount(small, 0); err != nil {
			t.Error(err)
		}
	})
	return small
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

// What is there can be read while not one byte more fits on the disk, also when SQLite
// finds no room for its -shm.
func TestA05ReadWhileFull(t *testing.T) {
	small := smallDisk(t)
	r := newRoundIn(t, filepath.Join(small, "vault"), filepath.Join(t.TempDir(), "drop"))
	if err := os.WriteFile(filepath.Join(r.Drop, "1.txt"), []byte("Certificate of Attendance"), 0o600); err != nil {
		t.Fatal(err)
	}
	r.once(0)
	fill, err := os.Create(filepath.Join(small, "fill"))
	if err != nil {
		t.Fatal(err)
	}
	for err == nil {
		_, err = fill.Write(make([]byte, 4096))
	}
	if err = errors.Join(err, fill.Close()); !errors.Is(err, unix.ENOSPC) {
		t.Fatalf("the disk was not filled: %v", err)
	}
	c, err := catalog.Open(t.Context(), r.Dir, catalog.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	papers, err := c.Papers(t.Context())
	if err := errors.Join(err, c.Close()); err != nil || len(papers) != 1 {
		t.Errorf("%d papers, %v, want 1", len(papers), err)
	}
	if log := r.once(1); !strings.Contains(log, "disk full") {
		t.Errorf("the reason was not said: %s", log)
	}
}
