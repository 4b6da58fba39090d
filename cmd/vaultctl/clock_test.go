package main

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// at runs one call on a day and returns its error line, "" if all is well.
func at(t *testing.T, vault string, now time.Time, args ...string) string {
	t.Helper()
	in, err := os.Open(os.DevNull)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close() // nothing was written to it
	a := &app{in: in, out: &countingWriter{w: io.Discard}, err: io.Discard, now: func() time.Time { return now }}
	root := a.root()
	root.SetArgs(append([]string{"--vault", vault}, args...))
	root.SetOut(io.Discard)
	root.SetErr(io.Discard)
	if err := root.ExecuteContext(t.Context()); err != nil {
		return a.errorLine(err)
	}
	return ""
}

// A clock that jumped twenty years ahead, or a week back, closes and deletes nothing,
// although --yes was given; whoever says that the date is right gets what was asked for.
func TestAClockThatJumpedClosesAndDeletesNothing(t *testing.T) {
	rules := filepath.Join(t.TempDir(), "trail.toml")
	if err := os.WriteFile(rules, []byte(`scheme = 1
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
[proof]
keep_years = 1
`), 0o600); err != nil {
		t.Fatal(err)
	}
	vault := filepath.Join(t.TempDir(), "vault")
	right := time.Date(2023, 1, 10, 12, 0, 0, 0, time.UTC)
	if said := at(t, vault, right, "setup", "--holder", "Mara Quillfeather", "--scheme", rules, "--start", "2022-01-01"); said != "" {
		t.Fatal(said)
	}
	ahead, back := right.AddDate(20, 0, 0), right.AddDate(0, 0, -7)
	for _, now := range []time.Time{ahead, back} {
		if said := at(t, vault, now, "close", "--early", "--yes"); !strings.Contains(said, "nothing was closed: ") || !strings.Contains(said, "--date-is-right") {
			t.Errorf("close on %v: %q", now, said)
		}
	}
	if said := at(t, vault, right, "close", "--yes"); said != "" {
		t.Fatal(said)
	}
	if said := at(t, vault, ahead, "delete", "--cycle", "1", "--yes"); !strings.Contains(said, "nothing was deleted: ") || !strings.Contains(said, "--date-is-right") {
		t.Errorf("delete twenty years ahead: %q", said)
	}
	if said := at(t, vault, ahead, "delete", "--cycle", "1", "--yes", "--date-is-right"); said != "" {
		t.Errorf("delete, and the date is right: %q", said)
	}
}
