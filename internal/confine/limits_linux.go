package confine

import (
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"time"

	"github.com/landlock-lsm/go-landlock/landlock"
	ll "github.com/landlock-lsm/go-landlock/landlock/syscall"
	"golang.org/x/sys/unix"
)

// namespaces says that this system has them.
const namespaces = true

func attributes(own bool) *syscall.SysProcAttr {
	a := &syscall.SysProcAttr{Setpgid: true, Pdeathsig: syscall.SIGKILL}
	if own {
		a.Cloneflags = syscall.CLONE_NEWUSER | syscall.CLONE_NEWNET | syscall.CLONE_NEWIPC | processNamespace
		a.UidMappings = []syscall.SysProcIDMap{{ContainerID: os.Getuid(), HostID: os.Getuid(), Size: 1}}
		a.GidMappings = []syscall.SysProcIDMap{{ContainerID: os.Getgid(), HostID: os.Getgid(), Size: 1}}
	}
	return a
}

func childEnvironment() []string { return nil }

func emptyFolder() string { return "/" }

// killTree kills the child and its process group; in a namespace of its own all
// that it started ends with it.
func killTree(p *os.Process) {
	// Either may be gone already, which is what is wanted.
	_ = syscall.Kill(-p.Pid, syscall.SIGKILL)
	_ = p.Kill()
}

func outOfTime(s *os.ProcessState) bool {
	w, ok := s.Sys().(syscall.WaitStatus)
	return ok && w.Signaled() && w.Signal() == syscall.SIGXCPU
}

// outOfMemory reports a child whose last page the kernel refused where its runtime could not
// say so: on a signal for a bad address, near its limit. At times the runtime still gets to name
// the signal, and nothing else.
func outOfMemory(s *os.ProcessState, said string, allowed int64) bool {
	w, ok := s.Sys().(syscall.WaitStatus)
	use, known := s.SysUsage().(*syscall.Rusage)
	return ok && known && refusedPage(w, said, use.Maxrss<<10, allowed)
}

// refusedPage judges by the most memory that was resident, bytes.
func refusedPage(w syscall.WaitStatus, said string, most, allowed int64) bool {
	bad := said == "" && w.Signaled() && (w.Signal() == syscall.SIGSEGV || w.Signal() == syscall.SIGBUS)
	named := strings.HasPrefix(said, "SIGSEGV: ") || strings.HasPrefix(said, "SIGBUS: ")
	return (bad || named) && most >= allowed/2
}

// restrict gives up what the child no longer needs. What the kernel does not offer
// is left out and missing from the answer.
func restrict(o orders) (InForce, error) {
	in := InForce{Memory: o.Limits.Memory, CPU: true}
	if err := setLimits(o.Limits); err != nil {
		return in, err
	}
	if o.Own {
		if err := unix.Setrlimit(unix.RLIMIT_NPROC, &unix.Rlimit{Cur: processes, Max: processes}); err != nil {
			return in, os.NewSyscallError("setrlimit", err)
		}
	}
	watchTime()
	if o.Open {
		return in, nil
	}
	if v, err := ll.LandlockGetABIVersion(); err == nil {
		in.Landlock = v
	}
	if err := landlock.V7.BestEffort().Restrict(); err != nil {
		return in, err
	}
	return in, nil
}

func setLimits(l Limits) error {
	total := uint64(l.CPU.Seconds()+1) * uint64(l.Messages+1)
	for _, set := range []struct {
		what       int
		soft, hard uint64
	}{
		{unix.RLIMIT_CORE, 0, 0},
		{unix.RLIMIT_DATA, uint64(l.Memory), uint64(l.Memory)},
		{unix.RLIMIT_FSIZE, uint64(l.FileSize), uint64(l.FileSize)},
		{unix.RLIMIT_NOFILE, uint64(l.Descriptors), uint64(l.Descriptors)},
		{unix.RLIMIT_CPU, total, total},
	} {
		if err := unix.Setrlimit(set.what, &unix.Rlimit{Cur: set.soft, Max: set.hard}); err != nil {
			return os.NewSyscallError("setrlimit", err)
		}
	}
	return nil
}

// watchTime ends the child when the soft limit of processor time is reached: the Go
// runtime does not by itself. The hard limit stands behind it.
func watchTime() {
	spent := make(chan os.Signal, 1)
	signal.Notify(spent, syscall.SIGXCPU)
	go func() {
		<-spent
		os.Exit(exitLimit)
	}()
}

// moreTime allows the next message so much processor time from now.
func moreTime(d time.Duration) error {
	var used unix.Rusage
	if err := unix.Getrusage(unix.RUSAGE_SELF, &used); err != nil {
		return os.NewSyscallError("getrusage", err)
	}
	var now unix.Rlimit
	if err := unix.Getrlimit(unix.RLIMIT_CPU, &now); err != nil {
		return os.NewSyscallError("getrlimit", err)
	}
	now.Cur = min(now.Max, uint64(used.Utime.Sec+used.Stime.Sec)+2+uint64(d.Seconds()))
	if err := unix.Setrlimit(unix.RLIMIT_CPU, &now); err != nil {
		return os.NewSyscallError("setrlimit", err)
	}
	return nil
}

// replace makes this process the program, which may read and run what the system has
// installed and write nothing.
func replace(c Command) error {
	own := filepath.Dir(c.Path)
	reads := []string{"/usr", "/lib", "/lib64", "/bin", "/opt", "/nix", "/etc/ld.so.conf.d",
		own, filepath.Join(own, "..", "lib"), filepath.Join(own, "..", "share")}
	for _, dir := range c.Reads {
		if dir != "" {
			reads = append(reads, dir)
		}
	}
	if err := setLimits(c.Limits); err != nil {
		return err
	}
	err := landlock.V7.BestEffort().Restrict(
		landlock.RODirs(reads...).IgnoreIfMissing(),
		landlock.ROFiles("/etc/ld.so.cache", "/dev/null", "/dev/urandom", c.Path).IgnoreIfMissing(),
	)
	if err != nil {
		return err
	}
	return syscall.Exec(c.Path, append([]string{c.Path}, c.Args...), c.Env)
}
