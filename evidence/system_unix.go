//go:build unix

package evidence

import (
	"errors"
	"os"
	"strings"

	"golang.org/x/sys/unix"

	"evidencevault/internal/lock"
)

func diskFull(err error) bool {
	return errors.Is(err, unix.ENOSPC) || errors.Is(err, unix.EDQUOT)
}

func fileTooLarge(err error) bool { return errors.Is(err, unix.EFBIG) }

// freeBytes returns how many bytes a user who is not root may still write.
func freeBytes(dir string) (uint64, error) {
	var st unix.Statfs_t
	if err := unix.Statfs(dir, &st); err != nil {
		return 0, &os.PathError{Op: "statfs", Path: dir, Err: err}
	}
	return uint64(st.Bavail) * uint64(st.Bsize), nil
}

// tryLock takes the kernel's lock on an open file, which ends when it is closed, and
// reports whether nobody else had it.
func tryLock(f *os.File) (bool, error) { return lock.Try(f, true) }

// removeOpen removes a file and closes it, in this order: while it is open it is locked.
func removeOpen(root *os.Root, name string, f *os.File) error {
	return errors.Join(root.Remove(name), f.Close())
}

// place renames the temporary file to its lasting name. Looking and renaming are one
// step for everybody who takes the folder's lock, so nothing is ever overwritten. It
// returns the path of what was there before, and then renames nothing.
func (s *Store) place(t *temporary, kept Kept) (already string, err error) {
	folder, err := s.root.Open(kept.SHA256[:2])
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, folder.Close()) }()
	if err := lock.Wait(folder); err != nil {
		return "", err
	}
	names, err := folder.Readdirnames(-1)
	if err != nil {
		return "", err
	}
	for _, name := range names {
		if strings.HasPrefix(name, kept.SHA256+".") {
			return kept.SHA256[:2] + "/" + name, nil
		}
	}
	if err := s.root.Rename(t.name, kept.SHA256[:2]+"/"+kept.SHA256+kept.Ext); err != nil {
		return "", err
	}
	t.name = ""
	return "", nil
}
