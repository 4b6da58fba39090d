//go:build unix

package catalog

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// tryLock takes a flock, which belongs to this opening of the file and not to the
// process, and reports whether it could be had at once.
func tryLock(f *os.File, alone bool) (bool, error) {
	how := unix.LOCK_SH | unix.LOCK_NB
	if alone {
		how = unix.LOCK_EX | unix.LOCK_NB
	}
	conn, err := f.SyscallConn()
	if err != nil {
		return false, err
	}
	var lerr error
	if err := conn.Control(func(fd uintptr) {
		for {
			if lerr = unix.Flock(int(fd), how); lerr != unix.EINTR {
				return
			}
		}
	}); err != nil {
		return false, err
	}
	if errors.Is(lerr, unix.EWOULDBLOCK) {
		return false, nil
	}
	return lerr == nil, lerr
}
