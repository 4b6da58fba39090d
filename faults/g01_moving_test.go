//go:build faultpoints

package faults

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"evidencevault/internal/stop"
)

// mover is vaultctl with the stop points, built once beside vaultd.
func mover(t *testing.T) string {
	t.Helper()
	path := filepath.Join(filepath.Dir(program), "vaultctl")
	if _, err := os.Lstat(path); err == nil {
		return path
	}
	build := exec.Command("go", "build", "-tags", "faultpoints", "-o", path, "evidencevault/cmd/vaultctl")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("build vaultctl with stop points: %v\n%s", err, out)
	}
	return path
}

// ctl runs vaultctl on a vault and returns its exit code, -1 when it was killed, and
// what it said.
func ctl(t *testing.T, program, vault, at string, args ...string) (int, string) {
	t.Helper()
	cmd := exec.Command(program, append([]string{"--vault", vault}, args...)...)
	cmd.Env = append(os.Environ(), "EVIDENCE_VAULT_STOP="+at)
	out, err := cmd.CombinedOutput()
	if cmd.ProcessState == nil {
		t.Fatal(err)
	}
	return cmd.ProcessState.ExitCode(), string(out)
}

// G2, G3: killed, or failing, at every step of backup, restore, export and import. What
// has the name of a whole thing is whole, the vault is as it was, and the same command
// works when it is given again.
func TestG01MovingStoppedAtEveryStep(t *testing.T) {
	program := mover(t)
	base := t.TempDir()
	r := newRoundIn(t, filepath.Join(base, "vault"), filepath.Join(base, "drop"))
	for name, data := range files() {
		if err := os.WriteFile(filepath.Join(r.Drop, name), data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	r.once(0)
	good, open := filepath.Join(base, "good.backup"), filepath.Join(base, "open")
	for _, args := range [][]string{{"backup", good}, {"export", open}} {
		if code, said := ctl(t, program, r.Dir, "", args...); code != 0 {
			t.Fatal(said)
		}
	}
	reached := map[string]bool{}
	points := slices.DeleteFunc(slices.Clone(stop.Moving), func(p string) bool { return p == stop.Aside })
	for _, point := range points {
		for _, how := range []string{"kill", "error"} {
			for _, verb := range []string{"backup", "export", "restore", "import"} {
				if how == "error" && point != stop.Packed {
					continue // the ways out are the same; a kill has none
				}
				if movedAt(t, program, r.Dir, verb, point, how, good, open) {
					reached[point] = true
				}
			}
		}
	}
	for _, point := range points {
		if !reached[point] {
			t.Errorf("nothing was ever stopped at %s", point)
		}
	}
}

// movedAt stops one verb at one point and looks at what is there then. It reports
// whether the point was reached.
func movedAt(t *testing.T, program, vault, verb, point, how, good, open string) bool {
	t.Helper()
	room := t.TempDir()
	target := filepath.Join(room, "target")
	takes := verb == "backup" || verb == "export"
	dir, args := vault, []string{verb, target}
	if !takes {
		dir, args = target, []string{verb, map[string]string{"restore": good, "import": open}[verb]}
	}
	code, said := ctl(t, program, dir, point+":"+how, args...)
	what := fmt.Sprintf("%s, %s at %s (exit %d)", verb, how, point, code)
	if code == 0 {
		return false
	}
	_, err := os.Lstat(target)
	if there := err == nil; there != (point == stop.Placed) {
		t.Errorf("%s: the target is there: %v\n%s", what, there, said)
	}
	if left, _ := filepath.Glob(filepath.Join(room, ".*")); how == "error" && len(left) > 0 {
		t.Errorf("%s: left %v", what, left)
	}
	want := 0
	if point == stop.Placed {
		want = 1 // it is there already
	}
	if code, said := ctl(t, program, dir, "", args...); code != want {
		t.Errorf("%s: again: exit %d: %s", what, code, said)
	}
	if how == "error" {
		return true
	}
	check := []string{"verify"}
	if verb == "backup" {
		check = append(check, target)
	}
	if verb != "export" {
		if code, said := ctl(t, program, dir, "", check...); code != 0 {
			t.Errorf("%s: verify: exit %d: %s", what, code, said)
		}
	} else if out, err := exec.Command("sh", "-c", `cd "$1" && sha256sum --strict --quiet -c SHA256SUMS`, "sh", target).CombinedOutput(); err != nil {
		t.Errorf("%s: sha256sum: %v\n%s", what, err, out)
	}
	if left, _ := filepath.Glob(filepath.Join(room, ".*")); len(left) > 0 {
		t.Errorf("%s: %v is left after the same command was given again", what, left)
	}
	return true
}

// An index that was stopped between putting the old one aside and naming the new one:
// the next run puts the old one back first, and leaves nothing beside the new one.
func TestG01IndexStoppedBetweenItsRenames(t *testing.T) {
	program := mover(t)
	base := t.TempDir()
	dir, index := filepath.Join(base, "vault"), filepath.Join(base, "index")
	for _, args := range [][]string{{"setup", "--holder", "Mirela Tannhof", "--scheme", "demo", "--start", "2024-07-01"}, {"index", "-o", index}} {
		if code, said := ctl(t, program, dir, "", args...); code != 0 {
			t.Fatal(said)
		}
	}
	if code, said := ctl(t, program, dir, stop.Aside+":kill", "index", "-o", index); code != -1 {
		t.Fatalf("exit %d: %s", code, said)
	}
	if _, err := os.Lstat(index); err == nil {
		t.Fatal("it was not stopped between the two")
	}
	if code, said := ctl(t, program, dir, "", "index", "-o", index); code != 0 {
		t.Error(said)
	}
	if left, _ := filepath.Glob(filepath.Join(base, ".*")); len(left) > 0 {
		t.Errorf("left %v", left)
	}
	if _, err := os.Lstat(filepath.Join(index, "index.html")); err != nil {
		t.Error(err)
	}
}

// G2: a full disk. The message says so, the vault is as it was, and nothing is left.
func TestG01MovingToAFullDisk(t *testing.T) {
	program := mover(t)
	base := t.TempDir()
	r := newRoundIn(t, filepath.Join(base, "vault"), filepath.Join(base, "drop"))
	big := []byte(strings.Repeat("a page of nothing ", 1<<18)) // 4.5 MiB
	if err := os.WriteFile(filepath.Join(r.Drop, "big.bin"), big, 0o600); err != nil {
		t.Fatal(err)
	}
	r.once(0)
	good, open := filepath.Join(base, "good.backup"), filepath.Join(base, "open")
	for _, args := range [][]string{{"backup", good}, {"export", open}} {
		if code, said := ctl(t, program, r.Dir, "", args...); code != 0 {
			t.Fatal(said)
		}
	}
	small := smallDisk(t)
	for _, c := range []struct {
		dir  string
		args []string
	}{
		{r.Dir, []string{"backup", filepath.Join(small, "x")}}, {r.Dir, []string{"export", filepath.Join(small, "x")}},
		{filepath.Join(small, "x"), []string{"restore", good}}, {filepath.Join(small, "x"), []string{"import", open}},
	} {
		code, said := ctl(t, program, c.dir, "", c.args...)
		if code != 1 || !strings.Contains(said, "no space left on device") && !strings.Contains(said, "disk full") {
			t.Errorf("%v: exit %d: %s", c.args, code, said)
		}
		left, err := os.ReadDir(small)
		if err != nil || len(left) > 0 {
			t.Errorf("%v: left %v, %v", c.args, left, err)
		}
	}
	if code, said := ctl(t, program, r.Dir, "", "verify"); code != 0 {
		t.Errorf("verify: exit %d: %s", code, said)
	}
}
