package watcher

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// The errors of this package.
var (
	// ErrNotOrdinary says that a name is a link, a pipe, a socket, a device or a folder.
	ErrNotOrdinary = errors.New("not an ordinary file")

	// ErrChanged says that a file is not the one that was seen before.
	ErrChanged = errors.New("changed in the meantime")

	// ErrBusy says that another program has the file open for writing.
	ErrBusy = errors.New("still open for writing")
)

// Stamp tells one state of a file from another. Two equal stamps are the same
// bytes: the time of change cannot be set back by a program. Times are nanoseconds
// since 1970 by the clock of the file's system, and good only to be compared.
type Stamp struct {
	Size     int64
	Modified int64
	Changed  int64 // of the inode; where a system has no such time, the time of creation
	Inode    uint64
	Device   uint64
}

// File is one file of a watched folder.
type File struct {
	Dir   string // the watched folder
	Name  string // path below Dir, byte for byte as the system has it
	Stamp Stamp  // as it was when it had settled
}

// Path returns where the file lies.
func (f File) Path() string { return filepath.Join(f.Dir, f.Name) }

// At returns the ordinary file at path as it is now, settled or not. The error is
// [fs.ErrNotExist], [ErrNotOrdinary] or the system's.
func At(path string) (File, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return File{}, err
	}
	stamp, mode, err := lstamp(path)
	if err != nil {
		return File{}, err
	}
	if !mode.IsRegular() {
		return File{}, fmt.Errorf("%s: %w: it is %s", path, ErrNotOrdinary, describe(mode))
	}
	return File{Dir: filepath.Dir(path), Name: filepath.Base(path), Stamp: stamp}, nil
}

// Open opens the file for reading, never following a link out of the folder and
// never waiting for a pipe, and returns the stamp of what is open. The error wraps
// [ErrNotOrdinary], [ErrChanged] if a name was swapped while it was opened, or the
// system's.
func (f File) Open() (*os.File, Stamp, error) {
	root, err := os.OpenRoot(f.Dir)
	if err != nil {
		return nil, Stamp{}, err
	}
	defer root.Close()
	named, err := root.Lstat(f.Name)
	if err != nil {
		return nil, Stamp{}, err
	}
	if !named.Mode().IsRegular() {
		return nil, Stamp{}, fmt.Errorf("%s: %w: it is %s", f.Path(), ErrNotOrdinary, describe(named.Mode()))
	}
	file, err := root.OpenFile(f.Name, os.O_RDONLY|openFlags, 0)
	if err != nil {
		return nil, Stamp{}, err
	}
	stamp, err := stampOpen(f, file, named)
	if err != nil {
		return nil, Stamp{}, errors.Join(err, file.Close())
	}
	return file, stamp, nil
}

func stampOpen(f File, file *os.File, named fs.FileInfo) (Stamp, error) {
	opened, err := file.Stat()
	if err != nil {
		return Stamp{}, err
	}
	if !opened.Mode().IsRegular() || !os.SameFile(named, opened) {
		return Stamp{}, fmt.Errorf("%s: %w: another file has taken its name", f.Path(), ErrChanged)
	}
	return StampOf(file)
}

// Remove removes the name if the file behind it is still in the state of f.Stamp.
// The error wraps [ErrChanged] if it is not, or is the system's; a name that is gone
// already is no error. A program that swaps the file in the moment between looking
// and removing is not noticed.
func (f File) Remove() error {
	root, err := os.OpenRoot(f.Dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	defer root.Close()
	now, _, err := lstamp(f.Path())
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	if now != f.Stamp {
		return fmt.Errorf("%s: %w: it is left where it is", f.Path(), ErrChanged)
	}
	return root.Remove(f.Name)
}

// describe says what a name is that is no ordinary file.
func describe(mode fs.FileMode) string {
	switch {
	case mode&fs.ModeSymlink != 0:
		return "a link"
	case mode&fs.ModeNamedPipe != 0:
		return "a pipe"
	case mode&fs.ModeSocket != 0:
		return "a socket"
	case mode&fs.ModeDevice != 0:
		return "a device"
	case mode.IsDir():
		return "a folder"
	}
	return "something else"
}
