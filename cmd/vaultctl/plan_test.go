package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"evidencevault/credit"
	"evidencevault/credit/scheme"
	"evidencevault/internal/demo"
	"evidencevault/journal"
)

// TestPlanManual runs the example of docs/plan.md and holds what it prints against what
// the page shows.
func TestPlanManual(t *testing.T) {
	data, err := os.ReadFile("../../docs/plan.md")
	if err != nil {
		t.Fatal(err)
	}
	blocks := regexp.MustCompile("(?ms)^```(\\w+)\n(.*?)^```$").FindAllStringSubmatch(strings.ReplaceAll(string(data), "\r\n", "\n"), -1)
	if len(blocks) != 3 || blocks[1][1] != "text" {
		t.Fatalf("the page has %d examples", len(blocks))
	}
	if _, bad := scheme.ParsePossible("rates", []byte(blocks[2][2])); len(bad) > 0 {
		t.Error(bad)
	}
	start, _ := demo.Cycle()
	dir := t.TempDir()
	now := func() time.Time { return start.Time().Add(12 * time.Hour) }
	j, err := journal.Setup(t.Context(), dir, journal.SetupOptions{Holder: demo.Holder, SchemeID: demo.Scheme, Start: start, Now: now})
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	if err := os.WriteFile(filepath.Join(dir, journal.PossibleFile), []byte(blocks[0][2]), 0o600); err != nil {
		t.Fatal(err)
	}
	r, err := j.Plan(t.Context(), journal.PlanOptions{On: start})
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	a := &app{out: &countingWriter{w: &out}}
	a.printReport(r, false, false)
	if got := out.String(); got != blocks[1][2] {
		t.Errorf("the example prints\n%s\nthe page shows\n%s", got, blocks[1][2])
	}
	if strings.ContainsAny(out.String(), "\x1b\t") {
		t.Error("the output holds signs that steer a terminal")
	}
}

// The demo's own list of possible activities can be used with the demo's scheme.
func TestDemoPossible(t *testing.T) {
	file, bad := scheme.ParsePossible("possible.toml", demo.Possible())
	if len(bad) > 0 || len(file.Activities) < 5 {
		t.Fatal(bad, file.Activities)
	}
}

func TestBarsAndField(t *testing.T) {
	if got := bar(credit.Whole(1), credit.Whole(1000), 10) + bar(credit.Amount{}, credit.Whole(5), 10) + bar(credit.Whole(5), credit.Whole(10), 4); got != "▏██" {
		t.Errorf("bars %q", got)
	}
	points := []journal.PlanPoint{{Way: 1, Hours: credit.Whole(30)}, {Way: 2, Cost: credit.Whole(50), Hours: credit.Whole(20)}, {Way: 12, Cost: credit.Whole(100), Hours: credit.Whole(10)}}
	got := field(points, "EUR")
	lines := strings.Split(got, "\n")
	if !strings.HasPrefix(lines[0], "100 EUR │o") || !strings.Contains(lines[4], "2") || !strings.HasSuffix(lines[8], "1") || strings.Contains(got, " \n") {
		t.Errorf("got\n%s", got)
	}
}
