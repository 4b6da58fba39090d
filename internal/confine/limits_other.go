//go:build !linux && !darwin

package confine

import (
	"os"
	"os/exec"
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

func outOfMemory(*os.ProcessState, string, int64) bool { return false }

// restrict has nothing to set here: the parent's clock and the bounds on messages hold.
func restrict(orders) (InForce, error) { return InForce{}, nil }

func moreTime(time.Duration) error { return nil }

// replace runs the program and ends with it: this system cannot change a process into
// another.
func replace(c Command) error {
	cmd := exec.Command(c.Path, c.Args...)
	cmd.Env, cmd.Stdin, cmd.Stdout, cmd.Stderr = c.Env, os.Stdin, os.Stdout, os.Stderr
	if err := cmd.Run(); err != nil {
		return err
	}
	os.Exit(0)
	return nil
}
