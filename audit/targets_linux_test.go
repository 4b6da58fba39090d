package audit_test

import (
	"errors"
	"net"
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/sys/unix"
)

// A pipe, a socket, a link to a device and a link that leads nowhere are no place for what
// is handed over: they are refused at once, and lie there as before.
func TestTargetsThatAreNoFiles(t *testing.T) {
	j, work := vault(t), t.TempDir()
	d := gather(t, j).WithoutUnproven()
	make := map[string]func(name string) error{
		"pipe": func(name string) error { return unix.Mkfifo(name, 0o600) },
		"socket": func(name string) error {
			l, err := net.ListenUnix("unix", &net.UnixAddr{Name: name, Net: "unix"})
			if err != nil {
				return err
			}
			l.SetUnlinkOnClose(false)
			return l.Close()
		},
		"device":  func(name string) error { return os.Symlink(os.DevNull, name) },
		"nowhere": func(name string) error { return os.Symlink(filepath.Join(work, "gone"), name) },
	}
	for what, write := range writers(t.Context(), j, d, reader(t), nil) {
		for kind, lay := range make {
			name := filepath.Join(work, kind+"-"+what)
			if err := lay(name); err != nil {
				t.Fatal(err)
			}
			was, err := os.Lstat(name)
			if err != nil {
				t.Fatal(err)
			}
			if err := write(name); err == nil {
				t.Errorf("%s: a %s was written over", what, kind)
			}
			now, err := os.Lstat(name)
			if err != nil || !os.SameFile(was, now) {
				t.Errorf("%s: the %s is %v now, %v", what, kind, now, err)
			}
			if err := errors.Join(err, os.Remove(name)); err != nil {
				t.Fatal(err)
			}
		}
	}
	if left := nothingIn(t, work); left != "" {
		t.Errorf("left: %s", left)
	}
}
