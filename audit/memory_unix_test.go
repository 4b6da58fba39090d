//go:build unix

package audit_test

import (
	"os"
	"runtime"
	"syscall"
)

// mostMemory is the most memory, in bytes, that a process that ended or one that it waited
// for had at a time.
func mostMemory(p *os.ProcessState) int64 {
	usage, ok := p.SysUsage().(*syscall.Rusage)
	if !ok {
		return 0
	}
	if runtime.GOOS == "darwin" {
		return int64(usage.Maxrss)
	}
	return int64(usage.Maxrss) << 10
}
