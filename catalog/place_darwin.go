package catalog

import (
	"os"
	"strings"

	"golang.org/x/sys/unix"
)

// fileSystem returns the name of the file system that dir lies on if no vault may lie
// there, else "".
func fileSystem(dir string) (string, error) {
	var st unix.Statfs_t
	if err := unix.Statfs(dir, &st); err != nil {
		return "", &os.PathError{Op: "statfs", Path: dir, Err: err}
	}
	name := unix.ByteSliceToString(st.Fstypename[:])
	if st.Flags&unix.MNT_LOCAL == 0 {
		return "a network file system (" + name + ")", nil
	}
	if strings.Contains(name, "fuse") {
		return "a FUSE file system (" + name + ")", nil
	}
	return "", nil
}
