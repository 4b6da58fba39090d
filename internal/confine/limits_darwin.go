package confine

import (
	"os"
	"syscall"
	"time"

	"golang.org/x/sys/unix"
)

const namespaces = false

func attributes(bool) *syscall.SysProcAttr { return &syscall.SysProcAttr{Setpgid: true} }

func childEnvironment() []string { return nil }

func emptyFolder() string { return "/" }

func killTree(p *os.Process) {
	// Either may be gone already, which is what is wanted.
	_ = syscall.Kill(-p.Pid, syscall.SIGKILL)
	_ = p.Kill()
}

func outOfTime(s *os.ProcessState) bool {
	w, ok := s.Sys().(syscall.WaitStatus)
	return ok && w.Signaled() && w.Signal() == syscall.SIGXCPU
}

// outOfMemory: this system sets no limit of memory that could be reached.
func outOfMemory(*os.ProcessState, string, int64) bool { return false }

// restrict sets what this system knows: processor time, file size, descriptors. It
// has no limit of private memory that holds.
func restrict(o orders) (InForce, error) {
	l := o.Limits
	total := uint64(l.CPU.Seconds()+1) * uint64(l.Messages+1)
	for _, set := range []struct {
		what int
		most uint64
	}{
		{unix.RLIMIT_CORE, 0},
		{unix.RLIMIT_FSIZE, uint64(l.FileSize)},
		{unix.RLIMIT_NOFILE, uint64(l.Descriptors)},
		{unix.RLIMIT_CPU, total},
	} {
		if err := unix.Setrlimit(set.what, &unix.Rlimit{Cur: set.most, Max: set.most}); err != nil {
			return InForce{}, os.NewSyscallError("setrlimit", err)
		}
	}
	return InForce{CPU: true}, nil
}

// moreTime does nothing here: the total and the parent's clock bound the child.
func moreTime(time.Duration) error { return nil }

// replace makes this process the program, under the limits that this system has.
func replace(c Command) error {
	if _, err := restrict(orders{Limits: c.Limits}); err != nil {
		return err
	}
	return syscall.Exec(c.Path, append([]string{c.Path}, c.Args...), c.Env)
}
