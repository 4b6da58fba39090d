package intake

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"

	"evidencevault/watcher"
)

// A file that grows, shrinks or is replaced while it is copied fails at its end, so
// that the copy never gets a name (B6).
func TestSteadyFailsWhenTheFileChangesUnderIt(t *testing.T) {
	tests := []struct {
		name, why string
		change    func(path string) error
		bad       bool
	}{
		{"nothing", "one state was read", func(string) error { return nil }, false},
		{"appended", "its end was not there when it had settled", func(path string) error {
			f, err := os.OpenFile(path, os.O_APPEND|os.O_WRONLY, 0)
			if err != nil {
				return err
			}
			_, err = f.WriteString("x")
			return errors.Join(err, f.Close())
		}, true},
		{"cut", "what was read is no longer there", func(path string) error { return os.Truncate(path, 10) }, true},
		{"moved", "its name is another one now", func(path string) error { return os.Rename(path, path+".moved") }, true},
		{"replaced", "the old file has lost its name", func(path string) error {
			if err := os.WriteFile(path+".new", []byte("new"), 0o600); err != nil {
				return err
			}
			return os.Rename(path+".new", path)
		}, true},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "a.pdf")
			if err := os.WriteFile(path, make([]byte, 100), 0o600); err != nil {
				t.Fatal(err)
			}
			f, err := watcher.At(path)
			if err != nil {
				t.Fatal(err)
			}
			file, stamp, err := f.Open()
			if err != nil {
				t.Fatal(err)
			}
			defer file.Close()
			r := &steady{file: file, want: stamp, path: path}
			if _, err := io.ReadFull(r, make([]byte, 50)); err != nil {
				t.Fatal(err)
			}
			// The clock of a file system is coarse: change until it shows.
			for i := 0; i == 0 || (test.bad && same(t, file, stamp)); i++ {
				if err := test.change(path); err != nil && i == 0 {
					t.Fatal(err)
				}
				if err := file.Chmod(0o600); err != nil {
					t.Fatal(err)
				}
				if !test.bad {
					break
				}
			}
			if !test.bad {
				if r.want, err = watcher.StampOf(file); err != nil {
					t.Fatal(err)
				}
			}
			_, err = io.ReadAll(r)
			if errors.Is(err, watcher.ErrChanged) != test.bad {
				t.Errorf("reading gave %v, want a change seen %v: %s", err, test.bad, test.why)
			}
		})
	}
}

func same(t *testing.T, file *os.File, stamp watcher.Stamp) bool {
	t.Helper()
	now, err := watcher.StampOf(file)
	if err != nil {
		t.Fatal(err)
	}
	return now == stamp
}
