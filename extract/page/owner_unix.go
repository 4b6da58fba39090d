//go:build unix

package page

import (
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
)

// ownedByUs says whether a folder is this user's and closed to all others.
func ownedByUs(info fs.FileInfo) bool {
	st, ok := info.Sys().(*syscall.Stat_t)
	return ok && int(st.Uid) == os.Getuid() && info.Mode().Perm() == 0o700
}

// openFolder returns the first folder on the way to a program, links followed, or the
// program itself, that anyone can write to; "" if there is none. A folder in which only
// owners remove their files (the sticky bit) is no danger above, but it is for the
// program itself, since anyone can put one there under a name that is looked for.
func openFolder(program string) string {
	real, err := filepath.EvalSymlinks(program)
	if err != nil {
		return program
	}
	for _, path := range []string{program, real} {
		for at := path; ; at = filepath.Dir(at) {
			info, err := os.Stat(at)
			if err != nil {
				return at
			}
			above := at != path && at != filepath.Dir(path)
			if info.Mode().Perm()&0o002 != 0 && !(above && info.Mode()&fs.ModeSticky != 0) {
				return at
			}
			if at == filepath.Dir(at) {
				break
			}
		}
	}
	return ""
}
