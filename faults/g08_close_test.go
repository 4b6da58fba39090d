//go:build faultpoints

package faults

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"evidencevault/internal/stop"
)

// trailRules is an invented scheme whose cycles are past, with carry-over.
const trailRules = `scheme = 1
id = "trail"
title = "Trail Surveyor"
body = "Ostrand Trail Board"
unit = "point"
target = "2"
[cycle]
years = 1
[category.course]
accepts = ["attendance"]
award = [{ from = "hours" }]
[carry_over]
most = "5"
[proof]
keep_years = 1
`

// vaultctl is built once with the stop points, beside vaultd.
var vaultctl = sync.OnceValues(func() (string, error) {
	to := filepath.Join(filepath.Dir(program), "vaultctl")
	out, err := exec.Command("go", "build", "-tags", "faultpoints", "-o", to, "evidencevault/cmd/vaultctl").CombinedOutput()
	if err != nil {
		err = fmt.Errorf("build vaultctl with stop points: %w\n%s", err, out)
	}
	return to, err
})

// cycleRound is a vault with a cycle that has ended.
type cycleRound struct {
	t   *testing.T
	dir string
}

// call runs vaultctl, stopped at a point if one is named, and returns its output, its
// error line and exit code, −1 when it was killed.
func (r *cycleRound) call(at string, args ...string) (string, string, int) {
	r.t.Helper()
	path, err := vaultctl()
	if err != nil {
		r.t.Fatal(err)
	}
	cmd := exec.Command(path, append([]string{"--vault", r.dir}, args...)...)
	cmd.Env = append(os.Environ(), "EVIDENCE_VAULT_STOP="+at)
	var out, said bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &said
	if err := cmd.Run(); cmd.ProcessState == nil {
		r.t.Fatal(err)
	}
	return out.String(), said.String(), cmd.ProcessState.ExitCode()
}

// must runs vaultctl and fails the test unless it ends with 0.
func (r *cycleRound) must(args ...string) string {
	r.t.Helper()
	out, said, code := r.call("", args...)
	if code != 0 {
		r.t.Fatalf("vaultctl %s: exit %d: %s%s", strings.Join(args, " "), code, out, said)
	}
	return out
}

// cycleVault makes a vault with one confirmed certificate in a cycle that has ended.
func cycleVault(t *testing.T) *cycleRound {
	t.Helper()
	base := t.TempDir()
	r := &cycleRound{t, filepath.Join(base, "vault")}
	rules, paper := filepath.Join(base, "trail.toml"), filepath.Join(base, "cert.txt")
	for name, text := range map[string]string{rules: trailRules, paper: strings.ReplaceAll(certificate, "2025", "2022")} {
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	r.must("setup", "--holder", "Mirela Tannhof", "--scheme", rules, "--start", "2022-01-01")
	r.must("add", paper)
	r.must("confirm", "P1", "--category", "course")
	return r
}

// copied returns a copy of the vault, with its modes.
func (r *cycleRound) copied(t *testing.T) *cycleRound {
	t.Helper()
	to := filepath.Join(t.TempDir(), "vault")
	err := filepath.WalkDir(r.dir, func(name string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(r.dir, name)
		if err != nil {
			return err
		}
		info, err := e.Info()
		if err != nil {
			return err
		}
		if e.IsDir() {
			return os.Mkdir(filepath.Join(to, rel), info.Mode().Perm())
		}
		data, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		return os.WriteFile(filepath.Join(to, rel), data, info.Mode().Perm())
	})
	if err != nil {
		t.Fatal(err)
	}
	return &cycleRound{t, to}
}

// shown is what is compared between a vault and its twin.
type shown struct {
	Number                     int
	Start, End, State, Counted string
	CarryOut                   string                           `json:"carry_out"`
	CarriedIn                  []struct{ Claim, Amount string } `json:"carried_in"`
	Archive                    string
	Claims                     int
	ArchiveGone                bool `json:"archive_deleted"`
}

func (r *cycleRound) cycles() []shown {
	r.t.Helper()
	var list []shown
	if err := json.Unmarshal([]byte(r.must("cycles", "--json")), &list); err != nil {
		r.t.Fatal(err)
	}
	return list
}

// same prints cycles without what differs from run to run.
func same(list []shown) string {
	for i := range list {
		if list[i].Archive != "" {
			list[i].Archive = "there"
		}
	}
	return fmt.Sprintf("%+v", list)
}

// archives names what lies in the folder of archives.
func (r *cycleRound) archives() []string {
	r.t.Helper()
	entries, err := os.ReadDir(filepath.Join(r.dir, "cycles"))
	if err != nil && !os.IsNotExist(err) {
		r.t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

// inCatalog are the steps of an act: before it is committed, and before it is signed.
var inCatalog = []string{stop.Inserted, stop.Committed}

// Killed at every step of closing, the cycle is closed, or being closed, or not closed,
// and verify finds nothing wrong. Resumed, it is as if nothing had happened, with the
// carry-over once; taken back, nothing of the closing is left.
func TestG08ClosingKilledAtEveryStep(t *testing.T) {
	base := cycleVault(t)
	twin := base.copied(t)
	twin.must("close", "--yes", "--with-findings")
	want := same(twin.cycles())
	if !strings.Contains(want, "Amount:1") || len(twin.archives()) != 1 {
		t.Fatalf("the twin carried nothing over: %s, %v", want, twin.archives())
	}
	for _, point := range slices.Concat(inCatalog, []string{stop.CloseBegun, stop.ArchiveMade, stop.ArchivePlaced, stop.CloseFinished}) {
		t.Run(point, func(t *testing.T) {
			killed := 0
			for n := 1; ; n++ {
				r := base.copied(t)
				if _, said, code := r.call(fmt.Sprintf("%s:%d:kill", point, n), "close", "--yes", "--with-findings"); code == 0 {
					break
				} else if code != -1 {
					t.Fatalf("exit %d: %s", code, said)
				}
				killed++
				when := fmt.Sprintf("killed at %s, time %d", point, n)
				r.must("verify")
				state := r.cycles()[0].State
				if state == "closing" {
					undone := r.copied(t)
					undone.must("close", "--undo")
					if got := undone.cycles(); len(got) != 1 || got[0].State != "ended" || len(undone.archives()) != 0 {
						t.Errorf("%s, taken back: %+v, %v", when, got, undone.archives())
					}
					undone.must("verify")
				}
				switch state {
				case "ended":
					r.must("close", "--yes", "--with-findings")
				case "closing":
					if point == stop.CloseBegun || point == stop.Committed {
						r.stoppedAgain(when)
					}
					r.must("close", "--resume")
				case "closed":
				default:
					t.Errorf("%s: the cycle is %s", when, state)
				}
				if got := same(r.cycles()); got != want {
					t.Errorf("%s, in the state %s, resumed:\n%s\nwant\n%s", when, state, got, want)
				}
				if names := r.archives(); len(names) != 1 || strings.HasPrefix(names[0], ".") {
					t.Errorf("%s: resumed, cycles/ holds %v", when, names)
				}
				r.must("verify")
			}
			if killed == 0 {
				t.Errorf("the stop point %s was never reached", point)
			}
		})
	}
}

// stoppedAgain stops the resuming of a closing too, at each of its steps, killed or by an
// error, on copies; each can be resumed once more.
func (r *cycleRound) stoppedAgain(when string) {
	r.t.Helper()
	for _, at := range []string{stop.ArchiveMade + ":kill", stop.ArchiveMade + ":error", stop.ArchivePlaced + ":kill", stop.ArchivePlaced + ":error", stop.Committed + ":kill"} {
		again := r.copied(r.t)
		if _, said, code := again.call(at, "close", "--resume"); code == 0 {
			r.t.Errorf("%s, resumed to %s: it went through: %s", when, at, said)
		}
		again.must("verify")
		if again.cycles()[0].State == "closing" {
			again.must("close", "--resume")
		}
		if got := again.cycles(); len(got) != 2 || got[0].State != "closed" || len(again.archives()) != 1 {
			r.t.Errorf("%s, resumed to %s, and once more: %+v, %v", when, at, got, again.archives())
		}
		again.must("verify")
	}
}

// While an archive is being made nobody sweeps it away, and verify says what it is.
func TestG08NobodySweepsWhatIsBeingMade(t *testing.T) {
	r := cycleVault(t)
	ended := r.waiting(stop.ArchiveMade, func() {
		if said := r.must("verify"); !strings.Contains(said, "is being made by a closing that goes on now") {
			t.Errorf("verify: %s", said)
		}
		r.call("", "delete", "--cycle", "1", "--yes") // refused, and sweeps
	}, "close", "--yes", "--with-findings")
	if names := r.archives(); ended != "" || len(names) != 1 || strings.HasPrefix(names[0], ".") {
		t.Errorf("%s%v", ended, names)
	}
	r.must("verify")
}

// Killed while a closing is taken back, it is taken back or it is not.
func TestG08TakingBackKilled(t *testing.T) {
	base := cycleVault(t)
	base.must("close", "--yes", "--with-findings")
	for _, point := range slices.Concat(inCatalog, []string{stop.CloseTakenBack}) {
		r := base.copied(t)
		if _, said, code := r.call(point+":kill", "close", "--undo"); code != -1 {
			t.Fatalf("%s: exit %d: %s", point, code, said)
		}
		r.must("verify")
		if r.cycles()[0].State == "ended" {
			r.must("close", "--yes", "--with-findings")
		}
		if got := r.cycles(); len(got) != 2 || got[0].State != "closed" || len(r.archives()) != 1 {
			t.Errorf("killed at %s, closed again: %+v, %v", point, got, r.archives())
		}
		r.must("verify")
	}
}

// Killed at every step of deleting, everything is there or everything is gone after the
// next start, and the log still verifies.
func TestG10DeletingKilledAtEveryStep(t *testing.T) {
	base := cycleVault(t)
	base.must("close", "--yes", "--with-findings")
	base.must("close", "--yes", "--with-findings") // the cycle into which credit passed
	for _, point := range slices.Concat(inCatalog, []string{stop.DeleteCommitted, stop.ArchiveForgotten}) {
		r := base.copied(t)
		if _, said, code := r.call(point+":kill", "delete", "--cycle", "1", "--yes"); code != -1 {
			t.Fatalf("%s: exit %d: %s", point, code, said)
		}
		next := exec.Command(program, "--vault", r.dir, "--once", "--settle", "10ms")
		if out, err := next.CombinedOutput(); err != nil {
			t.Fatalf("killed at %s, the next start: %v\n%s", point, err, out)
		}
		r.must("verify")
		gone := r.cycles()[0].ArchiveGone
		files, err := filepath.Glob(filepath.Join(r.dir, "evidence", "??", "*"))
		if err != nil || gone != (len(files) == 0) {
			t.Errorf("killed at %s: the archive is gone: %v, and the store has %v, %v", point, gone, files, err)
		}
		if !gone {
			r.must("delete", "--cycle", "1", "--yes")
		} else {
			r.call("", "delete", "--cycle", "1", "--yes") // nothing is left to delete; what was left lying goes
		}
		if names := r.archives(); len(names) != 1 {
			t.Errorf("killed at %s: cycles/ holds %v, want the second archive only", point, names)
		}
		r.must("verify")
	}
}
