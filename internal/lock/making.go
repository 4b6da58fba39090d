package lock

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// making is in the name of whatever is not whole yet: ".NAME.making-…", beside NAME.
const making = ".making-"

// Making is a folder in which something is made before it gets its name. It is locked
// as long as it is open, so that a later run can tell it from what a stopped one left.
type Making struct {
	Dir  string
	Back bool     // a stopped run had taken away what lies at the target, and it was put back
	file *os.File // nil where a folder cannot be locked
}

// Old is the name, within the folder, under which a run may put what the target held
// before, on the way to putting the new thing in its place.
const Old = "old"

// Make makes a folder beside target, of mode 0700, after [Sweep].
func Make(target string) (*Making, error) {
	parent, base := filepath.Dir(target), filepath.Base(target)
	if err := os.MkdirAll(parent, 0o700); err != nil {
		return nil, err
	}
	back, err := Sweep(target)
	if err != nil {
		return nil, err
	}
	dir, err := os.MkdirTemp(parent, "."+base+making)
	if err != nil {
		return nil, err
	}
	m := &Making{Dir: dir, Back: back}
	if runtime.GOOS == "windows" {
		return m, nil
	}
	if m.file, err = os.Open(dir); err != nil {
		return nil, errors.Join(err, os.RemoveAll(dir))
	}
	if _, err := Try(m.file, true); err != nil {
		return nil, errors.Join(err, m.Discard())
	}
	return m, nil
}

// Discard removes the folder, unless it was renamed to its place, and ends the lock.
func (m *Making) Discard() error {
	err := os.RemoveAll(m.Dir)
	if m.file != nil {
		err = errors.Join(err, m.file.Close())
		m.file = nil
	}
	return err
}

// Sweep removes what stopped programs left beside a target; a folder that somebody works
// in is left alone. Where one was stopped after it had put the target aside as [Old] and
// before the new thing had its place, the old one is put back, and back is true. On
// Windows, where a folder cannot be locked, all stays, and its name tells what it is.
func Sweep(target string) (back bool, err error) {
	if runtime.GOOS == "windows" {
		return false, nil
	}
	left, err := lefts(target)
	if err != nil {
		return false, err
	}
	for _, dir := range left {
		was, err := sweepOne(dir, target)
		if err != nil {
			return back, err
		}
		back = back || was
	}
	return back, nil
}

// lefts lists the folders that are or were made for a target. The names are compared as
// they are, since a target's name may hold the signs of a pattern.
func lefts(target string) ([]string, error) {
	entries, err := os.ReadDir(filepath.Dir(target))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var out []string
	for _, e := range entries {
		if e.IsDir() && IsMaking(e.Name(), target) {
			out = append(out, filepath.Join(filepath.Dir(target), e.Name()))
		}
	}
	return out, nil
}

// IsMaking reports whether name is that of a folder in which target was or is being made.
func IsMaking(name, target string) bool {
	return strings.HasPrefix(name, "."+filepath.Base(target)+making)
}

// Held reports whether somebody works in a folder that [Make] made. On Windows, where a
// folder cannot be locked, nobody is seen.
func Held(dir string) (held bool, err error) {
	f, err := os.Open(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if err != nil || runtime.GOOS == "windows" {
		return false, errors.Join(err, closed(f))
	}
	free, err := Try(f, false)
	return !free, errors.Join(err, closed(f))
}

func closed(f *os.File) error {
	if f == nil {
		return nil
	}
	return f.Close()
}

func sweepOne(dir, target string) (back bool, err error) {
	f, err := os.Open(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	free, err := Try(f, true)
	if err != nil || !free {
		return false, err
	}
	if _, err := os.Lstat(target); errors.Is(err, fs.ErrNotExist) {
		back = os.Rename(filepath.Join(dir, Old), target) == nil // most hold no such thing
	}
	return back, os.RemoveAll(dir)
}
