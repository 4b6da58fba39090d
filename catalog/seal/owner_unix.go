//go:build unix

package seal

import (
	"io/fs"
	"os"
	"syscall"
)

// foreign reports whether a file belongs to another user than the one running.
func foreign(info fs.FileInfo) bool {
	stat, ok := info.Sys().(*syscall.Stat_t)
	return ok && int(stat.Uid) != os.Geteuid()
}
