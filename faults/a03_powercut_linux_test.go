//go:build faultpoints

package faults

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"golang.org/x/sys/unix"

	"evidencevault/faults/check"
)

// disk is a file system in an image, on a loop device, whose power can be cut.
type disk struct {
	t         *testing.T
	image, at string
}

// newDisk makes one, with ext4, and mounts it.
func newDisk(t *testing.T) *disk {
	t.Helper()
	d := &disk{t, filepath.Join(t.TempDir(), "image"), t.TempDir()}
	run(t, "truncate", "-s", "64M", d.image)
	run(t, "mkfs.ext4", "-q", "-F", d.image)
	d.mount()
	t.Cleanup(func() { _ = unix.Unmount(d.at, unix.MNT_DETACH) }) // it is unmounted already when all went well
	return d
}

func (d *disk) mount() { d.t.Helper(); run(d.t, "mount", "-o", "loop", d.image, d.at) }

// cut takes the power away: nothing that was not synced reaches the image.
func (d *disk) cut() { d.t.Helper(); run(d.t, "xfs_io", "-x", "-c", "shutdown", d.at) }

func (d *disk) unmount() { d.t.Helper(); run(d.t, "umount", d.at) }

func run(t *testing.T, name string, args ...string) {
	t.Helper()
	if out, err := exec.Command(name, args...).CombinedOutput(); err != nil {
		t.Fatalf("%s %v: %v\n%s", name, args, err, out)
	}
}

// lines gathers what a program logs while others look.
type lines struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (l *lines) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.Write(p)
}

func (l *lines) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.String()
}

// A3: the power goes while files pour in. What was said to be taken in is there, with its
// row, and no name has half a content; what was not is still in the drop folder, on
// another disk. A file that was never synced is gone: so the cut is a real one.
func TestA03PowerCut(t *testing.T) {
	rounds := 2
	if text := os.Getenv("EVIDENCE_VAULT_POWER_CUTS"); text != "" { // as many as a sweep has time for
		var err error
		if rounds, err = strconv.Atoi(text); err != nil {
			t.Fatal(err)
		}
	}
	for n := range rounds {
		d := newDisk(t)
		r := newRoundIn(t, filepath.Join(d.at, "vault"), filepath.Join(t.TempDir(), "drop"))
		run(t, "sync", "-f", d.at)
		var log lines
		cmd := exec.Command(program, "--vault", r.Dir, "--settle", "10ms")
		cmd.Stderr = &log
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		pour(t, r, &log, 15+10*(n%4))
		// It stands still wherever it was, so that no sync of its own saves the control.
		if err := cmd.Process.Signal(unix.SIGSTOP); err != nil {
			t.Fatal(err)
		}
		time.Sleep(100 * time.Millisecond)
		if err := os.WriteFile(filepath.Join(d.at, "never synced"), []byte("x"), 0o600); err != nil {
			t.Fatal(err)
		}
		d.cut()
		if err := cmd.Process.Kill(); err != nil {
			t.Error(err)
		}
		_ = cmd.Wait() // killed
		r.acknowledge(log.String())
		d.unmount()
		d.mount()
		if _, err := os.Lstat(filepath.Join(d.at, "never synced")); err == nil {
			t.Error("what was never synced is there: the power was not cut")
		}
		if len(r.Acknowledged) < 15 {
			t.Errorf("only %d files were acknowledged before the cut", len(r.Acknowledged))
		}
		r.look(fmt.Sprintf("round %d, after the cut of %d", n, len(r.Acknowledged)))
		r.once(0)
		r.Restarted = true
		r.look(fmt.Sprintf("round %d, started again", n))
		r.verify()
		if left, err := os.ReadDir(r.Drop); err != nil || len(left) > 0 {
			t.Errorf("round %d: the drop folder holds %d files, %v", n, len(left), err)
		}
		d.unmount()
	}
}

// pour drops files until so many were acknowledged.
func pour(t *testing.T, r *round, log *lines, enough int) {
	t.Helper()
	end := time.Now().Add(2 * time.Minute)
	for n := 0; strings.Count(log.String(), `"taken in"`) < enough; n++ {
		data := fmt.Appendf(bytes.Repeat([]byte("a"), 200*(n%50)), " %d", n)
		if err := os.WriteFile(filepath.Join(r.Drop, fmt.Sprint(n, ".bin")), data, 0o600); err != nil {
			t.Fatal(err)
		}
		r.Dropped = append(r.Dropped, check.Sum(data))
		if time.Now().After(end) {
			t.Fatalf("too slow:\n%s", log)
		}
		time.Sleep(10 * time.Millisecond) // a stream of files, not one heap
	}
}

// B18: a file system that does not tell case apart, under the drop folder, a packet and a
// backup. Two names in other case are one there, and a vault may not lie on it.
func TestB18CaseInsensitive(t *testing.T) {
	image, at := filepath.Join(t.TempDir(), "image"), t.TempDir()
	run(t, "truncate", "-s", "32M", image)
	run(t, "mkfs.ntfs", "-q", "-F", "-f", image)
	run(t, "lowntfs-3g", "-o", "ignore_case", image, at)
	t.Cleanup(func() { run(t, "umount", at) })
	drop := filepath.Join(at, "drop")
	r := newRoundIn(t, filepath.Join(t.TempDir(), "vault"), drop)
	put := func(name string, data []byte) {
		t.Helper()
		if err := os.WriteFile(filepath.Join(drop, name), data, 0o600); err != nil {
			t.Fatal(err)
		}
		r.Dropped = append(r.Dropped, check.Sum(data))
	}
	put("Beleg.TXT", []byte(certificate))
	r.once(0)
	put("BELEG.txt", []byte(certificate)) // the same in other case
	r.once(0)
	put("Beleg.TXT", []byte(strings.ReplaceAll(certificate, "2025", "2024")))
	r.once(0)
	r.Restarted = true
	r.look("two names in other case")
	r.verify()
	if names, err := r.evidence(); err != nil || names != 2 {
		t.Errorf("%d evidences, %v, want 2: other case alone is no new one", names, err)
	}
	program := mover(t)
	backup := filepath.Join(at, "vault.backup")
	for _, args := range [][]string{{"backup", backup}, {"verify", backup}, {"export", filepath.Join(at, "open")}} {
		if code, said := ctl(t, program, r.Dir, "", args...); code != 0 {
			t.Errorf("%v: exit %d: %s", args, code, said)
		}
	}
	closed := cycleVault(t)
	packet := filepath.Join(at, "Packet")
	closed.must("packet", "-o", packet)
	closed.must("verify", packet)
	code, said := ctl(t, program, filepath.Join(at, "vault"), "", "setup", "--holder", "Mirela Tannhof", "--scheme", "demo", "--start", "2024-07-01")
	if code != 1 || !strings.Contains(said, "vaultctl: setup: ") {
		t.Errorf("a vault there: exit %d: %s", code, said)
	}
	if _, err := os.Lstat(filepath.Join(at, "vault", "catalog.db")); err == nil {
		t.Error("a vault was made where locks do not hold")
	}
}

// evidence counts the rows.
func (r *round) evidence() (n int, err error) {
	cmd := exec.Command("sqlite3", "-readonly", filepath.Join(r.Dir, "catalog.db"), "SELECT count(*) FROM evidence")
	out, err := cmd.Output()
	if err == nil {
		_, err = fmt.Fscan(bytes.NewReader(out), &n)
	}
	if err == io.EOF {
		err = fmt.Errorf("sqlite3 said nothing")
	}
	return n, err
}
