//go:build unix

package audit_test

import (
	"os"
	"runtime"
	"syscall"
	"time"
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

// spent is the processor time that this process has taken.
func spent() time.Duration {
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		panic(err) // it takes no argument that could be wrong
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}
