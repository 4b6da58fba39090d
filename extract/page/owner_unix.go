//go:build unix

package page

import (
	"io/fs"
	"os"
	"syscall"
)

// ownedByUs says whether a folder is this user's and closed to all others.
func ownedByUs(info fs.FileInfo) bool {
	st, ok := info.Sys().(*syscall.Stat_t)
	return ok && int(st.Uid) == os.Getuid() && info.Mode().Perm() == 0o700
}
