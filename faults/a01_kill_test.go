//go:build faultpoints

package faults

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"evidencevault/catalog"
	"evidencevault/extract/page"
	"evidencevault/faults/check"
	"evidencevault/internal/stop"
)

// program is vaultd, built once with the stop points.
var program string

func TestMain(m *testing.M) {
	page.Main() // a child that reads a document ends here
	dir, err := os.MkdirTemp("", "faults")
	if err == nil {
		program = filepath.Join(dir, "vaultd")
		build := exec.Command("go", "build", "-tags", "faultpoints", "-o", program, "evidencevault/cmd/vaultd")
		build.Stderr = os.Stderr
		err = build.Run()
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "build vaultd with stop points:", err)
		os.Exit(1)
	}
	code := m.Run()
	if err := os.RemoveAll(dir); err != nil {
		fmt.Fprintln(os.Stderr, err)
	}
	os.Exit(code)
}

const certificate = `Certificate of Attendance

This is to certify that Mirela Tannhof
attended the course Rope Terminations in Practice
on 12 March 2025 from 09:00 to 12:00

Vallmere Ropeway Inspection Council
`

// files are dropped in every round: a certificate, and a message with another one
// attached, so that evidence made by reading is killed too.
func files() map[string][]byte {
	attached := strings.ReplaceAll(certificate, "12 March", "13 March")
	return map[string][]byte{
		"cert.txt": []byte(certificate),
		"mail.eml": []byte("From: office@vallmere.example\r\nSubject: papers\r\nMIME-Version: 1.0\r\n" +
			"Content-Type: multipart/mixed; boundary=cut\r\n\r\n--cut\r\nContent-Type: text/plain\r\n\r\nHere they are.\r\n" +
			"--cut\r\nContent-Type: text/plain; name=two.txt\r\nContent-Disposition: attachment; filename=two.txt\r\n\r\n" +
			strings.ReplaceAll(attached, "\n", "\r\n") + "\r\n--cut--\r\n"),
	}
}

// round is one vault that something happens to.
type round struct {
	t *testing.T
	check.Vault
}

// newRound makes a vault whose drop folder holds the files.
func newRound(t *testing.T) *round {
	t.Helper()
	base := t.TempDir()
	r := newRoundIn(t, filepath.Join(base, "vault"), filepath.Join(base, "drop"))
	for name, data := range files() {
		if err := os.WriteFile(filepath.Join(r.Drop, name), data, 0o600); err != nil {
			t.Fatal(err)
		}
		r.Dropped = append(r.Dropped, check.Sum(data))
	}
	return r
}

// newRoundIn makes a vault with an empty drop folder, which it empties.
func newRoundIn(t *testing.T, dir, drop string) *round {
	t.Helper()
	r := &round{t: t, Vault: check.Vault{Dir: dir, Drop: drop}}
	if err := os.Mkdir(r.Drop, 0o700); err != nil {
		t.Fatal(err)
	}
	c, err := catalog.Create(t.Context(), r.Dir, catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	err = c.Act(t.Context(), func(tx *catalog.Tx) error {
		if _, err := tx.Record(t.Context(), &catalog.HolderNamed{Name: "Mirela Tannhof"}); err != nil {
			return err
		}
		_, err := tx.Record(t.Context(), &catalog.DropSet{Dir: r.Drop, Empty: true})
		return err
	})
	if err := errors.Join(err, c.Close()); err != nil {
		t.Fatal(err)
	}
	return r
}

// run runs vaultd --once, notes what it acknowledged, and reports whether it was killed.
func (r *round) run(at string) (killed bool) {
	r.t.Helper()
	cmd := exec.Command(program, "--vault", r.Dir, "--once", "--settle", "10ms")
	cmd.Env = append(os.Environ(), "EVIDENCE_VAULT_STOP="+at)
	var log bytes.Buffer
	cmd.Stderr = &log
	err := cmd.Run()
	r.acknowledge(log.String())
	if cmd.ProcessState.ExitCode() == -1 {
		return true
	}
	if err != nil {
		r.t.Errorf("vaultd stopped at %q: %v\n%s", at, err, log.String())
	}
	return false
}

// acknowledge notes what a log says was taken in.
func (r *round) acknowledge(log string) {
	for line := range strings.Lines(log) {
		var said struct{ Message, SHA256 string }
		if json.Unmarshal([]byte(line), &said) == nil && said.Message == "taken in" {
			r.Acknowledged = append(r.Acknowledged, said.SHA256)
		}
	}
}

// look fails the test for every rule that is broken.
func (r *round) look(when string) {
	r.t.Helper()
	problems, err := r.Problems()
	if err != nil {
		r.t.Fatalf("%s: %v", when, err)
	}
	for _, p := range problems {
		r.t.Errorf("%s: %s", when, p)
	}
}

// verify asks the vault's own check too.
func (r *round) verify() {
	r.t.Helper()
	c, err := catalog.Open(r.t.Context(), r.Dir, catalog.Options{})
	if err != nil {
		r.t.Fatal(err)
	}
	findings, err := c.Verify(r.t.Context(), catalog.VerifyOptions{})
	if err := errors.Join(err, c.Close()); err != nil || len(findings) > 0 {
		r.t.Errorf("verify: %v, %v", findings, err)
	}
}

// Killed at every step of taking in and reading, each time the step is reached, then
// started again by nobody's hand: nothing is lost, nothing is double, the log is sound.
func TestA01KilledAtEveryStep(t *testing.T) {
	twin := newRound(t)
	if twin.run("") {
		t.Fatal("the undisturbed run was killed")
	}
	twin.Restarted = true
	twin.look("undisturbed")
	twin.verify()
	left, err := os.ReadDir(twin.Drop)
	if err != nil || len(left) != 0 {
		t.Fatalf("undisturbed, the drop folder holds %v, %v: want it emptied", left, err)
	}
	if !slices.Equal(stop.Points, slices.Compact(slices.Clone(stop.Points))) || len(stop.Points) < 14 {
		t.Fatalf("the list of stop points is not whole: %v", stop.Points)
	}
	for _, point := range stop.Points {
		t.Run(point, func(t *testing.T) {
			t.Parallel()
			killed := 0
			for n := 1; ; n++ {
				r := newRound(t)
				r.Twin = twin.Dir
				if !r.run(fmt.Sprintf("%s:%d:kill", point, n)) {
					break
				}
				killed++
				r.look(fmt.Sprintf("killed at %s, time %d", point, n))
				if r.run("") {
					t.Fatalf("killed at %s, time %d: the second run was killed too", point, n)
				}
				r.Restarted = true
				r.look(fmt.Sprintf("started again after %s, time %d", point, n))
				r.verify()
				if left, err := os.ReadDir(r.Drop); err != nil || len(left) != 0 {
					t.Errorf("after %s, time %d, the drop folder holds %v, %v", point, n, left, err)
				}
			}
			if killed == 0 {
				t.Errorf("the stop point %s was never reached", point)
			}
			t.Logf("killed %d times", killed)
		})
	}
}
