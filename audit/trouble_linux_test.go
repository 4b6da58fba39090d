package audit_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/sys/unix"

	"evidencevault/audit"
)

// A disk that is full while index, packet, archive or binder is made is named in the error,
// and nothing half-made is left.
//
// It runs in a process of its own: go test writes a log of its own beside the tests, which
// could not grow either.
func TestDiskFullWhileHandingOver(t *testing.T) {
	const own = "EVIDENCE_VAULT_TEST_FULL_DISK"
	if os.Getenv(own) == "" {
		cmd := exec.CommandContext(t.Context(), os.Args[0], "-test.run=^TestDiskFullWhileHandingOver$", "-test.v")
		cmd.Env = append(os.Environ(), own+"=yes")
		out, err := cmd.CombinedOutput()
		if err != nil || !strings.Contains(string(out), "--- PASS: TestDiskFullWhileHandingOver") {
			t.Errorf("%v\n%s", err, out)
		}
		return
	}
	j, r, work := vault(t), reader(t), t.TempDir()
	d, store := gather(t, j).WithoutUnproven(), j.Catalog().Store()
	var was unix.Rlimit
	if err := unix.Getrlimit(unix.RLIMIT_FSIZE, &was); err != nil {
		t.Fatal(err)
	}
	makers := map[string]func(name string) error{
		"index":      func(name string) error { return audit.WriteIndex(t.Context(), store, d, name) },
		"packet":     func(name string) error { return audit.WritePacket(t.Context(), store, d, name, audit.PacketOptions{}) },
		"packet.zip": func(name string) error { return audit.WritePacket(t.Context(), store, d, name, audit.PacketOptions{}) },
		"binder.pdf": func(name string) error {
			_, err := audit.WriteBinder(t.Context(), store, d, name, audit.BinderOptions{Pages: r})
			return err
		},
	}
	for name, write := range makers {
		for _, room := range []uint64{0, 1 << 10, 12 << 10} { // no file can grow beyond it, as on a full disk
			if err := unix.Setrlimit(unix.RLIMIT_FSIZE, &unix.Rlimit{Cur: room, Max: was.Max}); err != nil {
				t.Fatal(err)
			}
			err := write(filepath.Join(work, name))
			if e := unix.Setrlimit(unix.RLIMIT_FSIZE, &was); e != nil {
				t.Fatal(e)
			}
			left, rerr := os.ReadDir(work)
			if err == nil || !strings.Contains(err.Error(), "file too large") || rerr != nil || len(left) != 0 {
				t.Errorf("%s with %d bytes: %v; left %v, %v", name, room, err, left, rerr)
			}
		}
		if err := write(filepath.Join(work, name)); err != nil {
			t.Errorf("%s with room again: %v", name, err)
		}
		if err := os.RemoveAll(filepath.Join(work, name)); err != nil {
			t.Fatal(err)
		}
	}
}
