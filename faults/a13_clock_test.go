//go:build faultpoints

package faults

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"evidencevault/catalog"
	"evidencevault/extract/page"
	"evidencevault/faults/check"
	"evidencevault/intake"
	"evidencevault/journal"
)

// A13: the clock jumps between files, and between confirming and looking. Every file is
// taken in, the log goes by its own numbers, each step back is a finding of verify and
// nothing else is, and nothing is closed, deleted or unconfirmed by it.
func TestA13ClockJumps(t *testing.T) {
	start := time.Date(2025, 6, 1, 10, 0, 0, 0, time.UTC)
	jumps := []struct {
		name string
		at   time.Time
		back bool
	}{
		{"in its place", start, false},
		{"back one day", start.AddDate(0, 0, -1), true},
		{"ahead twenty years", start.AddDate(20, 0, 0), false},
		{"back ten years", start.AddDate(-10, 0, 0), true},
		{"1970", time.Unix(0, 0).UTC(), true},
		{"right again", start.Add(time.Hour), false},
	}
	r := newRoundIn(t, filepath.Join(t.TempDir(), "vault"), filepath.Join(t.TempDir(), "drop"))
	if code, said := ctl(t, mover(t), r.Dir, "", "certification", "add", "--scheme", "demo", "--start", "2024-07-01"); code != 0 {
		t.Fatal(said)
	}
	back := 1 // what the programs wrote above has the computer's own date
	for n, jump := range jumps {
		data := []byte(strings.ReplaceAll(certificate, "12 March", fmt.Sprint(10+n, " March")))
		if err := os.WriteFile(filepath.Join(r.Drop, "cert.txt"), data, 0o600); err != nil {
			t.Fatal(err)
		}
		r.Dropped = append(r.Dropped, check.Sum(data))
		now := jump.at
		c, err := catalog.Open(t.Context(), r.Dir, catalog.Options{Now: func() time.Time { return now }})
		if err != nil {
			t.Fatalf("%s: %v", jump.name, err)
		}
		in := intake.New(c, intake.Options{Settle: 10 * time.Millisecond, Pages: page.Options{}, Took: func(taken intake.Taken) {
			r.Acknowledged = append(r.Acknowledged, taken.SHA256)
			now = now.Add(-time.Minute) // also in the middle of it, by less than counts
		}})
		report, err := in.Once(t.Context())
		if err := errors.Join(err, in.Close()); err != nil || len(report.Taken) != 1 || len(report.Read) != 1 {
			t.Errorf("%s: took %d, read %d, %v", jump.name, len(report.Taken), len(report.Read), err)
		}
		findings, err := c.Verify(t.Context(), catalog.VerifyOptions{})
		if jump.back {
			back++
		}
		for _, f := range findings {
			if !strings.Contains(f.Why, "the clock went back") {
				t.Errorf("%s: %+v", jump.name, f)
			}
		}
		if err := errors.Join(err, c.Close()); err != nil || len(findings) < min(back, 1) {
			t.Errorf("%s: %v, %v, want the steps back found", jump.name, findings, err)
		}
	}
	r.Restarted = true
	r.look("after all jumps")
	lookAfterJumps(t, r, len(jumps))
}

// lookAfterJumps confirms everything on a right day, and looks on a day far ahead.
func lookAfterJumps(t *testing.T, r *round, papers int) {
	t.Helper()
	now := time.Date(2025, 6, 1, 12, 0, 0, 0, time.UTC)
	j, err := journal.Open(t.Context(), r.Dir, journal.Options{Now: func() time.Time { return now }})
	if err != nil {
		t.Fatal(err)
	}
	for n := 1; n <= papers; n++ {
		if _, err := j.Confirm(t.Context(), []string{fmt.Sprint("P", n)}, journal.ConfirmOptions{Category: "course"}); err != nil {
			t.Error(err)
		}
	}
	now = now.AddDate(20, 0, 0)
	cycles, err := j.Cycles(t.Context(), "")
	if err != nil || len(cycles) != 1 || cycles[0].State == journal.CycleClosed {
		t.Errorf("twenty years ahead: %+v, %v, want the cycle as it was", cycles, err)
	}
	plan, err := j.DeletePlan(t.Context(), journal.DeleteOptions{IDs: []string{"P1"}})
	if !errors.Is(err, journal.ErrKept) {
		t.Errorf("twenty years ahead, what an open cycle needs may go: %+v, %v", plan, err)
	}
	if err := j.Close(); err != nil {
		t.Error(err)
	}
	r.look("confirmed, and far ahead")
}
