//go:build faultpoints && linux

package faults

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"evidencevault/catalog"
	"evidencevault/faults/check"
)

// B2: a writer who pauses for several settling times with the file open is waited for, so
// that one whole evidence results. One who closes the file and goes on later gives two,
// both kept under the one name; what was decided about the first stays.
func TestB02WriterWhoPauses(t *testing.T) {
	const settle = 200 * time.Millisecond
	r := newRoundIn(t, filepath.Join(t.TempDir(), "vault"), filepath.Join(t.TempDir(), "drop"))
	c, err := catalog.Open(t.Context(), r.Dir, catalog.Options{})
	if err != nil {
		t.Fatal(err)
	}
	err = c.Act(t.Context(), func(tx *catalog.Tx) error {
		_, err := tx.Record(t.Context(), &catalog.DropSet{Dir: r.Drop}) // it is left as it is
		return err
	})
	if err := errors.Join(err, c.Close()); err != nil {
		t.Fatal(err)
	}
	if code, said := ctl(t, mover(t), r.Dir, "", "certification", "add", "--scheme", "demo", "--start", "2024-07-01"); code != 0 {
		t.Fatal(said)
	}
	var log lines
	cmd := exec.Command(program, "--vault", r.Dir, "--settle", settle.String())
	cmd.Stderr = &log
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	first, rest := []byte(certificate), []byte("\nChecked and found in order by the council's office.\n")
	whole := append(append([]byte{}, first...), rest...)

	open, err := os.Create(filepath.Join(r.Drop, "open.txt"))
	if err != nil {
		t.Fatal(err)
	}
	write := func(f *os.File, data []byte) {
		t.Helper()
		if _, err := f.Write(data); err != nil {
			t.Fatal(err)
		}
	}
	write(open, first)
	time.Sleep(5 * settle) // the pause that is tested
	if n := strings.Count(log.String(), `"taken in"`); n != 0 {
		t.Errorf("%d files were taken in while their writer had them open:\n%s", n, log.String())
	}
	write(open, rest)
	if err := open.Close(); err != nil {
		t.Fatal(err)
	}
	says(t, &log, `"taken in"`, 1)

	other := []byte(strings.ReplaceAll(string(first), "12 March", "14 March"))
	name := filepath.Join(r.Drop, "later.txt")
	if err := os.WriteFile(name, other, 0o600); err != nil {
		t.Fatal(err)
	}
	says(t, &log, `"message":"read"`, 2)
	if code, said := ctl(t, mover(t), r.Dir, "", "confirm", "P2", "--category", "course"); code != 0 {
		t.Fatal(said)
	}
	again, err := os.OpenFile(name, os.O_WRONLY|os.O_APPEND, 0)
	if err != nil {
		t.Fatal(err)
	}
	write(again, rest)
	if err := again.Close(); err != nil {
		t.Fatal(err)
	}
	says(t, &log, `"message":"read"`, 3)
	if err := errors.Join(cmd.Process.Signal(os.Interrupt), cmd.Wait()); err != nil {
		t.Error(err)
	}
	r.acknowledge(log.String())
	want := []string{check.Sum(whole), check.Sum(other), check.Sum(append(append([]byte{}, other...), rest...))}
	if fmt.Sprint(r.Acknowledged) != fmt.Sprint(want) {
		t.Errorf("acknowledged %v, want %v", r.Acknowledged, want)
	}
	r.Restarted = true
	r.look("after both writers")
	r.verify()
	names, err := check.Vault{Dir: r.Dir}.Names()
	if err != nil || fmt.Sprint(names) != "[later.txt later.txt open.txt]" {
		t.Errorf("names %v, %v", names, err)
	}
	if code, said := ctl(t, mover(t), r.Dir, "", "claims", "--json"); code != 0 || strings.Count(said, `"id": "C`) != 1 {
		t.Errorf("exit %d: what was decided about the first did not stay: %s", code, said)
	}
}

// says waits until a program has logged something so often.
func says(t *testing.T, log *lines, what string, times int) {
	t.Helper()
	for end := time.Now().Add(time.Minute); strings.Count(log.String(), what) < times; time.Sleep(10 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("never said %s %d times:\n%s", what, times, log.String())
		}
	}
}
