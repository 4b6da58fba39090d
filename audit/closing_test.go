package audit_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"evidencevault/audit"
	"evidencevault/audit/bag"
	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/journal"
)

// trailRules is an invented scheme with carry-over, whose proofs are kept for a year.
const trailRules = `scheme = 1
id = "trail"
version = "1"
title = "Trail Surveyor"
body = "Ostrand Trail Board"
unit = "point"
target = "10"
[cycle]
years = 1
report_days = 30
[category.course]
accepts = ["attendance"]
award = [{ from = "hours" }]
[category.study]
choose = true
award = [{ from = "hours" }]
most = "3"
[[cap]]
id = "alone"
categories = ["study"]
most = "3"
[[minimum]]
id = "safety"
tags = ["safety"]
least = "2"
carried = true
[carry_over]
most = "5"
categories = ["course"]
[proof]
keep_years = 1
`

// clock is a clock that a test sets.
type clock struct{ at time.Time }

func (c *clock) now() time.Time { return c.at }

func (c *clock) set(day string) { c.at = credit.MustDate(day).Time().Add(12 * time.Hour) }

// trail makes a vault under trailRules, 2031, on a day after the cycle, with claims.
func trail(t *testing.T, claims ...map[string]string) (*journal.Journal, *clock) {
	t.Helper()
	c := &clock{}
	c.set("2032-01-10")
	j, err := journal.Setup(t.Context(), filepath.Join(t.TempDir(), "vault"), journal.SetupOptions{Holder: "Mara Quillfeather",
		Scheme: journal.SchemeFile{Name: "trail.toml", Data: []byte(trailRules)}, Start: credit.MustDate("2031-01-01"), Now: c.now})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { j.Close() }) // closed a second time by tests that need it closed
	for _, set := range claims {
		claim(t, j, set)
	}
	return j, c
}

func claim(t *testing.T, j *journal.Journal, set map[string]string) string {
	t.Helper()
	r, err := j.ClaimAdd(t.Context(), journal.ClaimOptions{Category: "course", Set: set})
	if err != nil {
		t.Fatal(err)
	}
	return r.Claim.ID
}

func course(title, day, minutes, tags string) map[string]string {
	return map[string]string{"kind": "attendance", "title": title, "end_date": day, "duration_minutes": minutes, "tags": tags}
}

func closeIt(t *testing.T, j *journal.Journal) audit.Closed {
	t.Helper()
	p, err := audit.PreviewClose(t.Context(), j, journal.CloseOptions{})
	if err != nil {
		t.Fatal(err)
	}
	done, err := audit.Close(t.Context(), j, p, true, nil)
	if err != nil {
		t.Fatal(err)
	}
	return done
}

func verified(t *testing.T, j *journal.Journal, when string) audit.Report {
	t.Helper()
	report, err := audit.Verify(t.Context(), j.Catalog().Dir(), nil)
	if err != nil || len(report.Findings) > 0 {
		t.Fatalf("%s: %v, %v", when, report.Findings, err)
	}
	return report
}

// Closing seals what was handed in, opens the next cycle with what passes, moves what is
// dated later, and the log can make all of it again.
func TestCloseCarriesOverAndMoves(t *testing.T) {
	j, _ := trail(t, course("Slopes", "2031-03-01", "360", ""), course("Rescue", "2031-11-01", "480", "safety"), course("New year", "2032-01-05", "120", ""))
	done := closeIt(t, j)
	if done.Cycle.State != journal.CycleClosed || done.Cycle.Counted.String() != "14" || !done.Cycle.Meets || done.Cycle.CarryOut.String() != "4" {
		t.Errorf("closed: %+v", done.Cycle)
	}
	if got := done.Cycle.KeepUntil.String(); got != "2032-12-31" {
		t.Errorf("kept until %s", got)
	}
	if done.Next == nil || done.Next.Start.String() != "2032-01-01" || done.Next.End.String() != "2032-12-31" {
		t.Fatalf("next: %+v", done.Next)
	}
	if len(done.Next.CarriedIn) != 1 || done.Next.CarriedIn[0].Claim != "C2" || done.Next.CarriedIn[0].Amount.String() != "4" ||
		done.Next.CarriedIn[0].Earned.String() != "2031-11-01" || strings.Join(done.Next.CarriedIn[0].Tags, " ") != "safety" {
		t.Errorf("carried in: %+v", done.Next.CarriedIn)
	}
	if strings.Join(done.Moved, " ") != "C3" {
		t.Errorf("moved %v", done.Moved)
	}
	standing, err := j.Standing(t.Context(), credit.Date{}, "")
	if err != nil || len(standing) != 1 {
		t.Fatal(standing, err)
	}
	if s := standing[0]; s.Counted.String() != "6" || s.CarryIn.String() != "4" || !s.Minimums[0].Met {
		t.Errorf("the next cycle begins with %v, %v carried in, %+v; want 2 of its own and 4, with their tag", s.Counted, s.CarryIn, s.Minimums)
	}
	verified(t, j, "after closing")
	report, err := bag.Check(filepath.Join(j.Catalog().Dir(), done.Cycle.Archive))
	if err != nil || !report.Valid() {
		t.Errorf("the archive is no sound bag: %v, %v", report.Findings, err)
	}
}

// A closed cycle stays as it is: nothing in it changes, and what is shown of it are the
// bytes of its closing, whatever happens afterwards.
func TestClosedCycleIsReadOnly(t *testing.T) {
	j, c := trail(t, course("Slopes", "2031-03-01", "360", ""), course("Rescue", "2031-11-01", "480", "safety"))
	before, err := j.Claims(t.Context(), journal.ClaimsFilter{On: credit.MustDate("2031-12-31")})
	if err != nil {
		t.Fatal(err)
	}
	done := closeIt(t, j)
	c.set("2032-05-01")
	for name, act := range map[string]func() error{
		"change": func() error {
			_, err := j.ClaimChange(t.Context(), "C1", map[string]string{"duration_minutes": "600"}, "")
			return err
		},
		"withdraw": func() error { _, err := j.ClaimWithdraw(t.Context(), "C1", ""); return err },
		"undo":     func() error { _, err := j.Undo(t.Context(), "C2"); return err },
	} {
		if err := act(); !errors.Is(err, journal.ErrClosed) || !strings.Contains(err.Error(), "--note") {
			t.Errorf("%s: %v, want ErrClosed with the way out", name, err)
		}
	}
	claim(t, j, course("Later", "2032-02-01", "300", ""))
	if err := j.SetFact(t.Context(), "part_time", "true", credit.Date{}); err != nil {
		t.Fatal(err)
	}
	a, err := audit.OpenArchive(t.Context(), j, "", "1")
	if err != nil {
		t.Fatal(err)
	}
	st, text, err := a.Standing()
	if err != nil || st.Counted.String() != "14" || !bytes.Contains(text, []byte(`"counted": "14"`)) || len(st.Lines) == 0 {
		t.Errorf("the standing: %v of %s, %v", st.Counted, text, err)
	}
	claims, _, err := a.Claims()
	was, _ := json.Marshal(before)
	is, _ := json.Marshal(claims)
	if err != nil || !bytes.Equal(was, is) {
		t.Errorf("the claims: %v\n%s\nwant\n%s", err, is, was)
	}
	for _, f := range []journal.ExplainFilter{{}, {IDs: []string{"C2"}}, {Category: "course"}, {Minimum: "safety"}} {
		if list, err := a.Explain(f); err != nil || len(list) != 1 || len(list[0].Lines) == 0 {
			t.Errorf("explain %+v: %v, %v", f, list, err)
		}
	}
	if _, err := a.Explain(journal.ExplainFilter{IDs: []string{"C3"}}); !errors.Is(err, audit.ErrNoClaim) {
		t.Errorf("a claim of another cycle: %v", err)
	}
	out := filepath.Join(t.TempDir(), "packet")
	if err := a.CopyPacket(t.Context(), out); err != nil {
		t.Fatal(err)
	}
	sameTree(t, out, filepath.Join(j.Catalog().Dir(), done.Cycle.Archive))
	if _, err := j.NoteCycle(t.Context(), "", "1", "C1 was five hours, not six"); err != nil {
		t.Fatal(err)
	}
	schemes := filepath.Join(j.Catalog().Dir(), "schemes")
	if err := os.Rename(schemes, schemes+" away"); err != nil {
		t.Fatal(err)
	}
	other, err := journal.Open(t.Context(), j.Catalog().Dir(), journal.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	if a, err := audit.OpenArchive(t.Context(), other, "", "1"); err != nil {
		t.Errorf("without its rules in the vault: %v", err)
	} else if _, again, err := a.Standing(); err != nil || !bytes.Equal(again, text) {
		t.Errorf("without its rules in the vault: %s, %v", again, err)
	}
	if err := errors.Join(other.Close(), os.Rename(schemes+" away", schemes)); err != nil {
		t.Fatal(err)
	}
	list, err := j.Cycles(t.Context(), "")
	if err != nil || len(list[0].Notes) != 1 {
		t.Errorf("the note: %+v, %v", list[0].Notes, err)
	}
	if _, err := audit.UndoClose(t.Context(), j, "", ""); !errors.Is(err, journal.ErrClosed) {
		t.Errorf("taken back although the next cycle is under way: %v", err)
	}
	verified(t, j, "at the end")
}

func sameTree(t *testing.T, a, b string) {
	t.Helper()
	n := 0
	err := filepath.WalkDir(b, func(name string, e os.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		n++
		rel, err := filepath.Rel(b, name)
		if err != nil {
			return err
		}
		want, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		got, err := os.ReadFile(filepath.Join(a, rel))
		if err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s differs: %v", rel, err)
		}
		return nil
	})
	if err != nil || n < 10 {
		t.Errorf("%d files, %v", n, err)
	}
}

// A closing just made can be taken back, and everything is as it was before; then it
// can be made again.
func TestUndoCloseOpensTheCycleAgain(t *testing.T) {
	j, _ := trail(t, course("Slopes", "2031-03-01", "720", "safety"), course("New year", "2032-01-05", "120", ""))
	before, err := j.Standing(t.Context(), credit.Date{}, "")
	if err != nil {
		t.Fatal(err)
	}
	done := closeIt(t, j)
	if _, err := audit.UndoClose(t.Context(), j, "", "a certificate was missing"); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(j.Catalog().Dir(), done.Cycle.Archive)); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("its archive still lies there: %v", err)
	}
	after, err := j.Standing(t.Context(), credit.Date{}, "")
	was, _ := json.Marshal(before)
	is, _ := json.Marshal(after)
	if err != nil || !bytes.Equal(was, is) {
		t.Errorf("%v\n%s\nwant\n%s", err, is, was)
	}
	claim(t, j, course("Forgotten", "2031-05-01", "60", ""))
	verified(t, j, "after taking back")
	if again := closeIt(t, j); again.Cycle.Counted.String() != "13" || strings.Join(again.Moved, " ") != "C2" {
		t.Errorf("closed again: %+v", again)
	}
	verified(t, j, "after closing again")
}

// What keeps a cycle from being closed, and what it says.
func TestCloseRefusals(t *testing.T) {
	j, c := trail(t, course("Slopes", "2031-03-01", "720", "safety"))
	p, err := audit.PreviewClose(t.Context(), j, journal.CloseOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := audit.Close(t.Context(), j, p, false, nil); !errors.Is(err, audit.ErrWeak) {
		t.Errorf("with a claim without proof: %v", err)
	}
	claim(t, j, course("Meanwhile", "2031-04-01", "60", ""))
	if _, err := audit.Close(t.Context(), j, p, true, nil); !errors.Is(err, journal.ErrMoved) {
		t.Errorf("with a claim made since: %v", err)
	}
	c.set("2031-06-01")
	if _, err := audit.PreviewClose(t.Context(), j, journal.CloseOptions{}); !errors.Is(err, journal.ErrCycle) || !strings.Contains(err.Error(), "--early") {
		t.Errorf("before the end: %v", err)
	}
	if _, err := audit.PreviewClose(t.Context(), j, journal.CloseOptions{Early: true}); err != nil {
		t.Errorf("early: %v", err)
	}
	c.set("2032-01-10")
	if _, err := audit.ResumeClose(t.Context(), j, "", nil); !errors.Is(err, journal.ErrCycle) {
		t.Errorf("resumed without a begin: %v", err)
	}
	if _, err := audit.UndoClose(t.Context(), j, "", ""); !errors.Is(err, journal.ErrCycle) {
		t.Errorf("taken back without a begin: %v", err)
	}
	if p, err = audit.PreviewClose(t.Context(), j, journal.CloseOptions{Last: true}); err != nil {
		t.Fatal(err)
	}
	done, err := audit.Close(t.Context(), j, p, true, nil)
	if err != nil || done.Next != nil || done.Cycle.CarryOut.Sign() != 0 {
		t.Errorf("the last cycle: %+v, %v: want nothing to follow", done, err)
	}
	if _, err := audit.PreviewClose(t.Context(), j, journal.CloseOptions{}); !errors.Is(err, journal.ErrCycle) {
		t.Errorf("after the last: %v", err)
	}
	verified(t, j, "at the end")
}

// While a closing is begun nothing in the cycle changes; it can be resumed or taken back.
func TestClosingBegunFreezesTheCycle(t *testing.T) {
	j, _ := trail(t, course("Slopes", "2031-03-01", "720", "safety"))
	plan, err := j.ClosePlan(t.Context(), journal.CloseOptions{})
	if err != nil {
		t.Fatal(err)
	}
	begin := func() catalog.Closing {
		closing, err := j.CloseBegin(t.Context(), plan)
		if err != nil {
			t.Fatal(err)
		}
		return closing
	}
	begin()
	if _, err := j.ClaimAdd(t.Context(), journal.ClaimOptions{Category: "course", Set: course("Late", "2031-05-01", "60", "")}); !errors.Is(err, journal.ErrClosed) {
		t.Errorf("a claim while it is being closed: %v", err)
	}
	if report := verified(t, j, "begun"); len(report.Notes) == 0 {
		t.Error("verify says nothing of the closing that was begun")
	}
	if _, err := audit.UndoClose(t.Context(), j, "", ""); err != nil {
		t.Fatal(err)
	}
	claim(t, j, course("In time", "2031-05-01", "60", ""))
	if plan, err = j.ClosePlan(t.Context(), journal.CloseOptions{}); err != nil {
		t.Fatal(err)
	}
	begin()
	if done, err := audit.ResumeClose(t.Context(), j, "", nil); err != nil || done.Cycle.Counted.String() != "13" {
		t.Errorf("resumed: %+v, %v", done.Cycle, err)
	}
	verified(t, j, "resumed")
}

// One changed byte in an archive, a file too many, and an archive that is gone are found.
func TestVerifyFindsAlteredArchives(t *testing.T) {
	j, _ := trail(t, course("Slopes", "2031-03-01", "720", "safety"))
	done := closeIt(t, j)
	dir := filepath.Join(j.Catalog().Dir(), done.Cycle.Archive)
	name := filepath.Join(dir, "data", "records", "standing.json")
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	harm := func(what string, file string, data []byte) {
		t.Helper()
		if err := os.WriteFile(file, data, 0o600); err != nil {
			t.Fatal(err)
		}
		report, err := audit.Verify(t.Context(), j.Catalog().Dir(), nil)
		if err != nil || len(report.Findings) == 0 || report.Findings[0].What != audit.WhatArchive {
			t.Errorf("%s: %v, %v, want a finding on the archive", what, report.Findings, err)
		}
	}
	harm("a byte", name, bytes.Replace(data, []byte("12"), []byte("13"), 1))
	if a, err := audit.OpenArchive(t.Context(), j, "", "1"); err != nil {
		t.Error(err)
	} else if _, _, err := a.Standing(); !errors.Is(err, audit.ErrArchive) {
		t.Errorf("shown although it was altered: %v", err)
	}
	if err := os.WriteFile(name, data, 0o600); err != nil {
		t.Fatal(err)
	}
	verified(t, j, "put right")
	harm("a file too many", filepath.Join(dir, "data", "more.txt"), []byte("x"))
	if err := os.RemoveAll(dir); err != nil {
		t.Fatal(err)
	}
	harm("gone, and a stranger", filepath.Join(j.Catalog().Dir(), journal.ArchiveFolder, "stranger"), []byte("x"))
}
