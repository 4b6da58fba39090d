//go:build unix

package lock

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// Try takes a flock, which belongs to this opening of the file and not to the process,
// shared or for itself alone, and reports whether it could be had at once.
func Try(f *os.File, alone bool) (bool, error) {
	if alone {
		return flock(f, unix.LOCK_EX|unix.LOCK_NB)
	}
	return flock(f, unix.LOCK_SH|unix.LOCK_NB)
}

// Wait takes a flock for itself alone, and waits for it without end. It serves a folder too.
func Wait(f *os.File) error {
	_, err := flock(f, unix.LOCK_EX)
	return err
}

func flock(f *os.File, how int) (bool, error) {
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
