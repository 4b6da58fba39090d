//go:build unix

package confine_test

import (
	"strconv"
	"syscall"
)

// kill tries to signal a process; signal 0 harms nobody and tells whether it may.
func kill(pid string) error {
	n, err := strconv.Atoi(pid)
	if err != nil {
		return err
	}
	return syscall.Kill(n, 0)
}
