//go:build linux && !cgo

package confine

import "syscall"

// processNamespace gives a child a numbering of processes of its own.
const processNamespace = syscall.CLONE_NEWPID
