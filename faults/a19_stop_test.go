//go:build faultpoints && unix

package faults

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"evidencevault/faults/check"
	"evidencevault/internal/stop"
)

// addRound is a vault beside a folder with three certificates that add is to take in.
func addRound(t *testing.T) (*round, string) {
	t.Helper()
	base := t.TempDir()
	r := newRoundIn(t, filepath.Join(base, "vault"), filepath.Join(base, "drop"))
	in := filepath.Join(base, "in")
	if err := os.Mkdir(in, 0o700); err != nil {
		t.Fatal(err)
	}
	for n := range 3 {
		text := strings.ReplaceAll(certificate, "12 March", fmt.Sprint(20+n, " March"))
		if err := os.WriteFile(filepath.Join(in, fmt.Sprint(n, ".txt")), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return r, in
}

// A19: asked to end while add takes a file in, the file is taken in to its end, no other is
// begun, and how many remain is said. The same command goes on from there.
func TestA19AskedToStopWhileAdding(t *testing.T) {
	program := mover(t)
	for _, sig := range []os.Signal{syscall.SIGINT, syscall.SIGTERM} {
		for _, at := range []string{stop.Opened, stop.Copied, stop.Renamed, stop.Begun, stop.Inserted, stop.Committed} {
			if sig == syscall.SIGTERM && at != stop.Renamed {
				continue // both come to the same
			}
			r, in := addRound(t)
			flag := filepath.Join(t.TempDir(), "waits")
			cmd := exec.Command(program, "--vault", r.Dir, "add", in)
			cmd.Env = append(os.Environ(), "EVIDENCE_VAULT_STOP="+at+":wait", "EVIDENCE_VAULT_STOP_FILE="+flag)
			var said strings.Builder
			cmd.Stdout, cmd.Stderr = &said, &said
			if err := cmd.Start(); err != nil {
				t.Fatal(err)
			}
			appears(t, flag)
			err := errors.Join(cmd.Process.Signal(sig), settled(cmd.Process.Pid), os.Remove(flag))
			if werr := cmd.Wait(); err != nil || cmd.ProcessState.ExitCode() != 1 {
				t.Errorf("%v at %s: %v, %v\n%s", sig, at, err, werr, said.String())
			}
			if !strings.Contains(said.String(), "0.txt: taken in") || !strings.Contains(said.String(), "stopped as asked") ||
				!strings.Contains(said.String(), "; 2 files are not taken in yet, and 1 paper is not read") {
				t.Errorf("%v at %s: said %q", sig, at, said.String())
			}
			r.Restarted = true // not even now is a file without a row
			r.look(fmt.Sprintf("%v at %s", sig, at))
			if code, said := ctl(t, program, r.Dir, "", "add", in); code != 0 || !strings.Contains(said, "2 files taken in, 1 known before; 3 papers read, 0 not") {
				t.Errorf("%v at %s, again: exit %d: %s", sig, at, code, said)
			}
			r.look("again")
		}
	}
}

// A19: killed in add between the store and the log, the next add of whatever takes over
// what lies in the store without a row.
func TestA19AddTakesOverWhatAKillLeft(t *testing.T) {
	program := mover(t)
	for _, at := range []string{stop.TempSynced, stop.Renamed, stop.Inserted} {
		r, in := addRound(t)
		if code, said := ctl(t, program, r.Dir, at+":2:kill", "add", in); code != -1 {
			t.Fatalf("%s: exit %d: %s", at, code, said)
		}
		r.look("killed at " + at)
		if code, said := ctl(t, program, r.Dir, "", "add", filepath.Join(in, "2.txt")); code != 0 {
			t.Errorf("%s: exit %d: %s", at, code, said)
		}
		r.Restarted = true
		r.look("added another after " + at)
		if code, said := ctl(t, program, r.Dir, "", "verify"); code != 0 {
			t.Errorf("%s: verify: exit %d: %s", at, code, said)
		}
		r.Acknowledged = nil
		for n := range 3 {
			data, err := os.ReadFile(filepath.Join(in, fmt.Sprint(n, ".txt")))
			if err != nil {
				t.Fatal(err)
			}
			r.Acknowledged = append(r.Acknowledged, check.Sum(data))
		}
		if code, said := ctl(t, program, r.Dir, "", "add", in); code != 0 {
			t.Errorf("%s, again: exit %d: %s", at, code, said)
		}
		r.look("added again after " + at)
	}
}

// appears waits for a file.
func appears(t *testing.T, file string) {
	t.Helper()
	for end := time.Now().Add(time.Minute); ; time.Sleep(5 * time.Millisecond) {
		if _, err := os.Lstat(file); !errors.Is(err, fs.ErrNotExist) {
			return
		}
		if time.Now().After(end) {
			t.Fatalf("%s never appeared", file)
		}
	}
}

// settled waits until a process has no signal left that was sent to it, so that its
// program has seen it.
func settled(pid int) error {
	for end := time.Now().Add(time.Minute); ; time.Sleep(5 * time.Millisecond) {
		text, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
		if errors.Is(err, fs.ErrNotExist) {
			return nil // no such files here, or it has ended
		}
		if err != nil {
			return err
		}
		if strings.Contains(string(text), "ShdPnd:\t0000000000000000") && strings.Contains(string(text), "SigPnd:\t0000000000000000") {
			time.Sleep(50 * time.Millisecond) // from the signal's thread to the context
			return nil
		}
		if time.Now().After(end) {
			return errors.New("the signal was never taken")
		}
	}
}
