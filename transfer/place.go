package transfer

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"evidencevault/catalog/seal"
	"evidencevault/internal/lock"
	"evidencevault/internal/stop"
)

// making is in the name of whatever is not whole yet: ".NAME.making-…", beside NAME.
const making = ".making-"

// free refuses a place where something lies; an empty folder is let pass where a folder
// is to be made.
func free(at string, folder bool) error {
	info, err := os.Lstat(at)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case folder && info.IsDir():
		entries, err := os.ReadDir(at)
		if err != nil || len(entries) == 0 {
			return err
		}
		return fmt.Errorf("%s: %w, and the folder must be empty; name another one", at, ErrThere)
	}
	return fmt.Errorf("%s: %w; name another one", at, ErrThere)
}

// made is a file or folder that is made beside its place, in a folder of its own.
type made struct {
	at, temp string
	in       *lock.Making
}

// begin makes a folder beside at, in which the thing is to be made under a name.
func begin(at, name string, folder bool) (made, error) {
	if _, err := lock.Sweep(at); err != nil {
		return made{}, err
	}
	if err := free(at, folder); err != nil {
		return made{}, err
	}
	in, err := lock.Make(at)
	if err != nil {
		return made{}, err
	}
	m := made{at, filepath.Join(in.Dir, name), in}
	if folder {
		if err := os.Mkdir(m.temp, 0o700); err != nil {
			return made{}, errors.Join(err, in.Discard())
		}
	}
	return m, nil
}

// discard removes what was not put in place.
func (m made) discard() error { return m.in.Discard() }

// place gives it its name, which lasts when place returns.
func (m made) place(folder bool) error {
	if err := stop.At(stop.Packed); err != nil {
		return err
	}
	if err := free(m.at, folder); err != nil {
		return err
	}
	if folder {
		if err := os.Remove(m.at); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	if err := os.Rename(m.temp, m.at); err != nil {
		return fmt.Errorf("put it in place: %w", err)
	}
	if err := seal.SyncFolder(filepath.Dir(m.at)); err != nil {
		return err
	}
	return stop.At(stop.Placed)
}

// intoFolder writes files below a folder, each once, synced.
type intoFolder struct{ root *os.Root }

func (f intoFolder) add(name string, r io.Reader, size int64, mode fs.FileMode) error {
	if err := f.folder(filepath.Dir(name)); err != nil {
		return err
	}
	to, err := f.root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%q: %w: another file has that name here, perhaps in other case", name, ErrName)
	}
	if err != nil {
		return fmt.Errorf("write: %w", err)
	}
	n, err := io.Copy(to, io.LimitReader(r, size))
	if err == nil && n < size {
		err = io.ErrUnexpectedEOF
	}
	if err = errors.Join(err, to.Sync(), to.Close()); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}

func (f intoFolder) folder(name string) error {
	if name == "." {
		return nil
	}
	return f.root.MkdirAll(name, 0o700)
}
