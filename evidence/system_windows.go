package evidence

import (
	"errors"
	"io/fs"
	"os"

	"golang.org/x/sys/windows"
)

func diskFull(err error) bool {
	return errors.Is(err, windows.ERROR_DISK_FULL) || errors.Is(err, windows.ERROR_HANDLE_DISK_FULL) ||
		errors.Is(err, windows.ERROR_DISK_QUOTA_EXCEEDED)
}

func fileTooLarge(err error) bool { return errors.Is(err, windows.ERROR_FILE_TOO_LARGE) }

// freeBytes returns how many bytes this user may still write.
func freeBytes(dir string) (uint64, error) {
	path, err := windows.UTF16PtrFromString(dir)
	if err != nil {
		return 0, err
	}
	var free uint64
	if err := windows.GetDiskFreeSpaceEx(path, &free, nil, nil); err != nil {
		return 0, &os.PathError{Op: "GetDiskFreeSpaceEx", Path: dir, Err: err}
	}
	return free, nil
}

// tryLock reports true: Windows does not let an open file be removed, which is all
// that the lock is for.
func tryLock(*os.File) (bool, error) { return true, nil }

// removeOpen closes a file and removes it. One that another process has open stays,
// and that is no error.
func removeOpen(root *os.Root, name string, f *os.File) error {
	if err := f.Close(); err != nil {
		return err
	}
	if err := root.Remove(name); err != nil && !errors.Is(err, windows.ERROR_SHARING_VIOLATION) {
		return err
	}
	return nil
}

// place gives the file its lasting name by a hard link, which fails when the name is
// taken, so that nothing is ever overwritten. It returns the path of what was there
// before, and then names nothing; the temporary name is removed by discard.
func (s *Store) place(t *temporary, kept Kept) (already string, err error) {
	switch path, err := s.find(kept.SHA256); {
	case err == nil:
		return path, nil
	case !errors.Is(err, ErrMissing):
		return "", err
	}
	path := kept.SHA256[:2] + "/" + kept.SHA256 + kept.Ext
	if err := s.root.Link(t.name, path); errors.Is(err, fs.ErrExist) {
		return path, nil
	} else if err != nil {
		return "", err
	}
	return "", nil
}
