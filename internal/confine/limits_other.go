//go:build !linux && !darwin

package confine

import (
	"os"
	"syscall"
	"time"
)

const namespaces = false

func attributes(bool) *syscall.SysProcAttr { return nil }

// childEnvironment keeps the one variable without which Windows starts no program.
func childEnvironment() []string {
	if root, ok := os.LookupEnv("SystemRoot"); ok {
		return []string{"SystemRoot=" + root}
	}
	return nil
}

func emptyFolder() string { return os.TempDir() }

func killTree(p *os.Process) {
	// It may be gone already, which is what is wanted.
	_ = p.Kill()
}

func outOfTime(*os.ProcessState) bool { return false }

// restrict has nothing to set here: the parent's clock and the bounds on messages hold.
func restrict(Limits, bool) (InForce, error) { return InForce{}, nil }

func moreTime(time.Duration) error { return nil }
