//go:build faultpoints

package faults

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"evidencevault/faults/check"
)

// B19: odd times of files. Every file is taken in, none twice, and no time of a file ever
// serves as the day of an activity.
func TestB19OddFileTimes(t *testing.T) {
	r := newRoundIn(t, filepath.Join(t.TempDir(), "vault"), filepath.Join(t.TempDir(), "drop"))
	now := time.Now()
	for n, at := range []time.Time{
		time.Date(1901, 12, 14, 0, 0, 0, 0, time.UTC), time.Unix(0, 0), time.Date(2038, 1, 19, 3, 14, 8, 0, time.UTC),
		time.Date(2106, 2, 7, 6, 28, 16, 0, time.UTC), time.Date(2262, 4, 11, 0, 0, 0, 0, time.UTC), time.Date(9999, 12, 31, 0, 0, 0, 0, time.UTC),
		now.AddDate(0, 0, 1), now.Add(-time.Hour), now.Truncate(time.Second), now.Truncate(time.Second),
	} {
		data := []byte(strings.ReplaceAll(strings.ReplaceAll(certificate, "on 12 March 2025 from 09:00 to 12:00", "for 3 hours"), "Practice", fmt.Sprint("Practice ", n)))
		name := filepath.Join(r.Drop, fmt.Sprint(n, ".txt"))
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
		// A file system that cannot hold the time keeps the nearest one.
		run(t, "touch", "-d", at.UTC().Format(time.RFC3339), name)
		r.Dropped = append(r.Dropped, check.Sum(data))
	}
	if code, said := ctl(t, mover(t), r.Dir, "", "certification", "add", "--scheme", "demo", "--start", "2024-07-01"); code != 0 {
		t.Fatal(said)
	}
	log := r.once(0)
	r.Restarted = true
	r.look("odd times")
	r.verify()
	if n := strings.Count(log, `"taken in"`); n != len(r.Dropped) {
		t.Errorf("%d of %d files were taken in:\n%s", n, len(r.Dropped), log)
	}
	if log := r.once(0); strings.Contains(log, `"taken in"`) {
		t.Errorf("taken in again:\n%s", log)
	}
	code, waiting := ctl(t, mover(t), r.Dir, "", "waiting", "--json")
	if code != 0 || strings.Contains(waiting, `"end_date": {`) || strings.Contains(waiting, `"start_date": {`) {
		t.Errorf("exit %d; a paper without a date has one now:\n%s", code, waiting)
	}
}
