//go:build faultpoints

package faults

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"evidencevault/internal/stop"
)

// injection is one system call that fails, by strace.
type injection struct {
	call, error string
	file        string // in the vault, whose calls fail; "" for any file
}

// stuck is when a run is killed. strace answers for a call that it fails and does not make
// it, so a pipe stays open whose closing fails. Linux lets go of it even then (close(2),
// notes); here whoever waits for the other end of it, as the start of a process does,
// waits for ever.
const stuck = 30 * time.Second

// under runs vaultd --once with the n-th such call of each thread failing. It reports
// whether any failed: a test that provoked nothing proves nothing. The code is -1 of a run
// that was stuck and killed.
func (r *round) under(i injection, n int) (injected bool, code int, log string) {
	r.t.Helper()
	trace := filepath.Join(r.t.TempDir(), "trace")
	args := []string{"-f", "-qq", "-o", trace, "-e", "trace=" + i.call, "-e", fmt.Sprintf("inject=%s:error=%s:when=%d", i.call, i.error, n)}
	if i.file != "" {
		args = append(args, "-P", filepath.Join(r.Dir, i.file))
	}
	cmd := exec.Command("strace", append(args, program, "--vault", r.Dir, "--once", "--settle", "10ms")...)
	var said bytes.Buffer
	cmd.Stdout, cmd.Stderr = &said, &said
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	cmd.WaitDelay = stuck
	if err := cmd.Start(); err != nil {
		r.t.Fatal(err)
	}
	end := time.AfterFunc(stuck, func() {
		if err := syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL); err != nil {
			r.t.Errorf("kill what is stuck: %v", err)
		}
	})
	_ = cmd.Wait() // its exit code tells
	if !end.Stop() {
		r.t.Logf("%s call %d failed with %s, and after %v the run had not ended:\n%s", i.call, n, i.error, stuck, said.String())
		if i.call != "close" {
			r.t.Fail()
		}
	}
	r.acknowledge(said.String())
	text, err := os.ReadFile(trace)
	if err != nil {
		r.t.Fatalf("%v\n%s", err, said.String())
	}
	return bytes.Contains(text, []byte("(INJECTED)")), cmd.ProcessState.ExitCode(), said.String()
}

// A6, A8: a write to the database, a sync, a closing or a renaming fails, each time that it is reached. What was said
// to be taken in is there, nothing is half there, the failure is said, and the next run
// makes good what is missing, by itself.
func TestA06A08CallsThatFail(t *testing.T) {
	twin := newRound(t)
	twin.once(0)
	for _, i := range []injection{
		{"pwrite64", "ENOSPC", "catalog.db-wal"},
		{"pwrite64", "ENOSPC", "catalog.db"}, // a checkpoint
		{"pwrite64", "EIO", "catalog.db-wal"},
		{"fsync", "EIO", "catalog.db-wal"},
		{"fsync", "EIO", ""}, // also those of the store, of the head and of folders
		{"renameat", "EIO", ""},
		{"close", "EIO", ""},
	} {
		t.Run(i.call+" "+i.error+" "+i.file, func(t *testing.T) {
			provoked := 0
			for _, n := range []int{1, 2, 3, 4, 6, 9, 12} {
				r := newRound(t)
				r.Twin = twin.Dir
				injected, code, log := r.under(i, n)
				when := fmt.Sprintf("call %d failed (exit %d)", n, code)
				if !injected {
					break
				}
				provoked++
				if code == 0 && len(r.Acknowledged) < len(r.Dropped) {
					t.Errorf("%s: it was not said:\n%s", when, log)
				}
				r.look(when)
				r.once(0)
				r.Restarted = true
				r.look(when + ", run again")
				r.verify()
				if left, err := os.ReadDir(r.Drop); err != nil || len(left) != 0 {
					t.Errorf("%s, run again: the drop folder holds %v, %v", when, left, err)
				}
			}
			if provoked == 0 {
				t.Error("nothing was provoked")
			}
			t.Logf("%d failures provoked", provoked)
		})
	}
}

// A8: each write to the temporary file fails. The drop file stays, nothing of it is kept, the
// failure is said, and the next run takes it in.
func TestA08WritesThatFail(t *testing.T) {
	r := newRound(t)
	flag, trace := filepath.Join(t.TempDir(), "waits"), filepath.Join(t.TempDir(), "trace")
	cmd := exec.Command(program, "--vault", r.Dir, "--once", "--settle", "10ms")
	cmd.Env = append(os.Environ(), "EVIDENCE_VAULT_STOP="+stop.TempMade+":wait", "EVIDENCE_VAULT_STOP_FILE="+flag)
	var log bytes.Buffer
	cmd.Stderr = &log
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	appears(t, flag)
	temporary, err := filepath.Glob(filepath.Join(r.Dir, "evidence", ".incoming-*"))
	if err != nil || len(temporary) != 1 {
		t.Fatal(temporary, err)
	}
	tracer := exec.Command("strace", "-f", "-o", trace, "-p", fmt.Sprint(cmd.Process.Pid), "-P", temporary[0],
		"-e", "trace=write,pwrite64,copy_file_range,sendfile,splice", "-e", "inject=write,pwrite64,copy_file_range,sendfile,splice:error=EIO")
	var attached lines
	tracer.Stderr = &attached
	if err := tracer.Start(); err != nil {
		t.Fatal(err)
	}
	says(t, &attached, "attached", 1)
	if err := os.Remove(flag); err != nil {
		t.Fatal(err)
	}
	err = cmd.Wait()
	if err := tracer.Wait(); err != nil {
		t.Log("strace:", err) // it ends as the program did
	}
	if text, err := os.ReadFile(trace); err != nil || !bytes.Contains(text, []byte("(INJECTED)")) {
		t.Fatalf("nothing was provoked: %v\n%s", err, text)
	}
	r.acknowledge(log.String())
	if cmd.ProcessState.ExitCode() != 3 || !strings.Contains(log.String(), "input/output error") {
		t.Errorf("exit %d, %v, want 3 and the reason\n%s", cmd.ProcessState.ExitCode(), err, log.String())
	}
	r.Restarted = true
	r.look("the writes failed")
	if left, err := os.ReadDir(r.Drop); err != nil || len(left) == 0 {
		t.Errorf("the drop folder holds %v, %v, want the file that could not be written", left, err)
	}
	if left, err := filepath.Glob(filepath.Join(r.Dir, "evidence", ".incoming-*")); err != nil || len(left) != 0 {
		t.Errorf("left behind: %v, %v", left, err)
	}
	r.once(0)
	r.look("the writes failed, and did not again")
	r.verify()
}

// A8: a disk that gives back something else than was written to it. The temporary file is
// read back before it gets its name, so the drop file stays until it is right.
func TestA08ADiskThatLies(t *testing.T) {
	r := newRound(t)
	flag := filepath.Join(t.TempDir(), "waits")
	cmd := exec.Command(program, "--vault", r.Dir, "--once", "--settle", "10ms")
	cmd.Env = append(os.Environ(), "EVIDENCE_VAULT_STOP="+stop.TempSynced+":wait", "EVIDENCE_VAULT_STOP_FILE="+flag)
	var log bytes.Buffer
	cmd.Stderr = &log
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	appears(t, flag)
	temporary, err := filepath.Glob(filepath.Join(r.Dir, "evidence", ".incoming-*"))
	if err != nil || len(temporary) != 1 {
		t.Fatal(temporary, err)
	}
	f, err := os.OpenFile(temporary[0], os.O_WRONLY, 0)
	if err == nil {
		_, err = f.WriteAt([]byte{'X'}, 3)
	}
	if err != nil || f.Close() != nil || os.Remove(flag) != nil {
		t.Fatal(err)
	}
	err = cmd.Wait()
	r.acknowledge(log.String())
	if cmd.ProcessState.ExitCode() != 3 || !strings.Contains(log.String(), "read back, has sha256") || !strings.Contains(log.String(), "look at the disk") {
		t.Errorf("exit %d, %v, want 3 and the reason\n%s", cmd.ProcessState.ExitCode(), err, log.String())
	}
	r.Restarted = true
	r.look("the disk lied")
	if left, err := os.ReadDir(r.Drop); err != nil || len(left) != 1 {
		t.Errorf("the drop folder holds %v, %v, want the file that was not written right", left, err)
	}
	r.once(0)
	r.look("the disk lied, and did not again")
	r.verify()
}
