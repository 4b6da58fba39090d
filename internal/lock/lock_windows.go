package lock

import (
	"errors"
	"os"

	"golang.org/x/sys/windows"
)

// farAway is the byte that is locked: far behind the holder's name, which others must
// be able to read.
const farAway = 1 << 30

// Try locks one byte, shared or for itself alone, and reports whether it could be had at once.
func Try(f *os.File, alone bool) (bool, error) {
	how := uint32(windows.LOCKFILE_FAIL_IMMEDIATELY)
	if alone {
		how |= windows.LOCKFILE_EXCLUSIVE_LOCK
	}
	conn, err := f.SyscallConn()
	if err != nil {
		return false, err
	}
	var lerr error
	if err := conn.Control(func(fd uintptr) {
		lerr = windows.LockFileEx(windows.Handle(fd), how, 0, 1, 0, &windows.Overlapped{Offset: farAway})
	}); err != nil {
		return false, err
	}
	if errors.Is(lerr, windows.ERROR_LOCK_VIOLATION) || errors.Is(lerr, windows.ERROR_IO_PENDING) {
		return false, nil
	}
	return lerr == nil, lerr
}
