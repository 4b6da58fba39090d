package transfer_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/sys/unix"

	"evidencevault/catalog/catalogtest"
	"evidencevault/transfer"
)

// A pipe, a link to a device and a link that leads nowhere are no place for a backup, an
// export or a vault: they are refused at once, and lie there as before.
func TestTargetsThatAreNoFiles(t *testing.T) {
	c := full(t)
	base := t.TempDir()
	pipe, device, nowhere := filepath.Join(base, "pipe"), filepath.Join(base, "device"), filepath.Join(base, "nowhere")
	if err := errors.Join(unix.Mkfifo(pipe, 0o600), os.Symlink(os.DevNull, device), os.Symlink(filepath.Join(base, "gone"), nowhere)); err != nil {
		t.Fatal(err)
	}
	good := filepath.Join(base, "good")
	if _, err := transfer.Backup(ctx, c, good, transfer.Options{}); err != nil {
		t.Fatal(err)
	}
	for at, want := range map[string]os.FileMode{pipe: os.ModeNamedPipe, device: os.ModeSymlink, nowhere: os.ModeSymlink} {
		_, backup := transfer.Backup(ctx, c, at, transfer.Options{})
		_, export := transfer.Export(ctx, c, at, transfer.Options{})
		_, restore := transfer.Restore(ctx, good, at, transfer.Secret{}, catalogtest.Options(), nil)
		for what, err := range map[string]error{"backup": backup, "export": export, "restore": restore} {
			if !errors.Is(err, transfer.ErrThere) {
				t.Errorf("%s to %s: %v", what, filepath.Base(at), err)
			}
		}
		if info, err := os.Lstat(at); err != nil || info.Mode().Type() != want {
			t.Errorf("%s is %v now, %v", filepath.Base(at), info, err)
		}
	}
	noLeft(t, base)
}
