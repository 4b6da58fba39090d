package confine_test

import (
	"bufio"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// A vault that is killed must leave no reader behind.
func TestChildEndsWithItsParent(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	parent := exec.Command(self)
	parent.Env = append(os.Environ(), parentMark+"=1")
	out, err := parent.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := parent.Start(); err != nil {
		t.Fatal(err)
	}
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil || line != "ready\n" {
		t.Fatalf("the parent said %q, error %v", line, err)
	}
	children := childrenOf(t, parent.Process.Pid)
	if len(children) != 1 {
		t.Fatalf("children %v: want one", children)
	}
	if err := parent.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	// That it was killed is what was wanted.
	_ = parent.Wait()
	tick := time.NewTicker(10 * time.Millisecond)
	defer tick.Stop()
	for late := time.After(2 * time.Second); ; {
		if _, err := os.Stat("/proc/" + children[0] + "/exe"); errors.Is(err, fs.ErrNotExist) {
			return
		}
		select {
		case <-tick.C:
		case <-late:
			t.Fatalf("process %s is still there 2 s after its parent", children[0])
		}
	}
}

func childrenOf(t *testing.T, pid int) []string {
	t.Helper()
	tasks, err := filepath.Glob(fmt.Sprintf("/proc/%d/task/*/children", pid))
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, f := range tasks {
		b, err := os.ReadFile(f)
		if err != nil {
			continue // a thread that has ended meanwhile
		}
		all = append(all, strings.Fields(string(b))...)
	}
	return all
}
