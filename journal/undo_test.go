package journal_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"evidencevault/extract/paper"
	"evidencevault/journal"
)

func TestUndoOfAConfirmation(t *testing.T) {
	v := newVault(t)
	p := v.take("a.pdf", course("A", "2026-03-03"))
	before := v.state()
	v.confirm(journal.ConfirmOptions{}, p)
	r := v.undo(p)
	if r.State != "waiting" || strings.Join(r.Withdrawn, " ") != "C1" || !strings.Contains(r.Undone, "confirmed") {
		t.Fatalf("%+v", r)
	}
	if v.state() != before {
		t.Fatal("the vault is not as before")
	}
	if _, err := v.Undo(v.ctx, p); !errors.Is(err, journal.ErrNothing) {
		t.Fatalf("nothing is left to undo, got %v", err)
	}
	again := v.confirm(journal.ConfirmOptions{}, p)
	if again.Claims[0].ID != "C2" {
		t.Fatalf("a number was used twice: %s", again.Claims[0].ID)
	}
	v.undo("C2")
	if v.state() != before {
		t.Fatal("undoing the claim did not take back its confirmation")
	}
	d, err := v.Show(v.ctx, p)
	if err != nil || len(d.History) < 6 || d.Paper.State != "waiting" {
		t.Fatalf("the history is short: %+v, %v", d.History, err)
	}
	if _, err := v.Undo(v.ctx, "C2"); !errors.Is(err, journal.ErrNothing) {
		t.Fatalf("a withdrawn claim has nothing to undo, got %v", err)
	}
}

func TestOnePaperOfManyIsUndone(t *testing.T) {
	v := newVault(t)
	v.take("a.pdf", course("A", "2026-03-03"))
	v.take("b.pdf", course("B", "2026-03-04"))
	v.confirm(journal.ConfirmOptions{}, "P1-P2")
	v.undo("P1")
	if got := v.waits(); got != "P1 waiting" || v.counted() != "1.75" {
		t.Fatalf("waiting %s, counted %s", got, v.counted())
	}
}

func TestUndoOfSettingAside(t *testing.T) {
	v := newVault(t)
	v.take("a.pdf", course("A", "2026-03-03"))
	v.take("b.pdf", paper.Reading{Outcome: paper.OutcomeUnreadable, Reason: "damaged"})
	before := v.state()
	if _, err := v.SetAside(v.ctx, []string{"P1 P2"}, "my brother's"); err != nil {
		t.Fatal(err)
	}
	if v.waits() != "" {
		t.Fatal("they still wait")
	}
	if _, err := v.SetAside(v.ctx, []string{"P1"}, " "); !errors.Is(err, journal.ErrField) {
		t.Fatalf("without a reason: %v", err)
	}
	if r := v.undo("P1"); r.State != "waiting" {
		t.Fatalf("%+v", r)
	}
	if r := v.undo("P2"); r.State != "unread" {
		t.Fatalf("%+v", r)
	}
	if v.state() != before {
		t.Fatal("the vault is not as before")
	}
}

func TestUndoOfAClaimChange(t *testing.T) {
	v := newVault(t)
	v.confirm(journal.ConfirmOptions{}, v.take("a.pdf", course("A", "2026-03-03")))
	before := v.state()
	for range 2 { // the second round meets what the first one left in the log
		r, err := v.ClaimChange(v.ctx, "C1", map[string]string{"duration_minutes": "600", "place": "Vallmere", "provider": ""}, "online")
		if err != nil {
			t.Fatal(err)
		}
		if c := r.Claim; c.Category != "online" || c.Counted.String() != "2" || c.Fields["place"] != "Vallmere" || c.Provider != "" {
			t.Fatalf("claim %+v", c)
		}
		for _, proof := range r.Claim.Proofs {
			if proof.Field == paper.FieldDuration && (proof.By != paper.ByPerson || proof.Value != "600" || proof.Quote != "") {
				t.Fatalf("the old place stays as proof of another value: %+v", proof)
			}
		}
		if r := v.undo("C1"); r.Undone != "changed" || r.State != "stands" || len(r.Withdrawn) != 0 {
			t.Fatalf("%+v", r)
		}
		if got := v.state(); got != before {
			t.Fatalf("the vault is not as before:\n%s\nwant\n%s", got, before)
		}
	}
}

func TestUndoOfAWithdrawal(t *testing.T) {
	v := newVault(t)
	v.confirm(journal.ConfirmOptions{}, v.take("a.pdf", course("A", "2026-03-03")))
	before := v.state()
	if _, err := v.ClaimWithdraw(v.ctx, "C1", "not mine"); err != nil {
		t.Fatal(err)
	}
	if v.counted() != "0" {
		t.Fatal("a withdrawn claim counts")
	}
	if _, err := v.ClaimChange(v.ctx, "C1", nil, "online"); !errors.Is(err, journal.ErrNotWaiting) {
		t.Fatalf("a withdrawn claim was changed: %v", err)
	}
	v.undo("C1")
	if v.state() != before {
		t.Fatal("the vault is not as before")
	}
}

func TestAttachAndItsUndo(t *testing.T) {
	v := newVault(t)
	r, err := v.ClaimAdd(v.ctx, journal.ClaimOptions{Category: "course", Set: map[string]string{
		"kind": "attendance", "title": "Wire Ropes", "end_date": "2026-03-03", "duration_minutes": "420"}})
	if err != nil {
		t.Fatal(err)
	}
	if c := r.Claim; c.Counted.String() != "1.75" || c.Proven || len(c.Proofs) != 0 {
		t.Fatalf("without a document it counts, unproven: %+v", c)
	}
	p := v.take("late.pdf", course("WIRE ROPES", "2026-03-03"))
	before := v.state()
	for range 2 {
		got, err := v.Attach(v.ctx, "C1", p, nil)
		if err != nil {
			t.Fatal(err)
		}
		c := got.Claim
		if !c.Proven || c.Provider != "Ostrava Cableway School" || len(c.Proofs) != 7 || c.Title != "Wire Ropes" || len(got.Warnings) != 0 {
			t.Fatalf("claim %+v, warnings %v", c, got.Warnings)
		}
		if v.waits() != "" {
			t.Fatal("an attached paper waits")
		}
		v.undo(p)
		if got := v.state(); got != before {
			t.Fatalf("the vault is not as before:\n%s\nwant\n%s", got, before)
		}
	}
}

func TestAttachedPaperHoldsItsClaim(t *testing.T) {
	v := newVault(t)
	v.confirm(journal.ConfirmOptions{}, v.take("a.pdf", course("A", "2026-03-03")))
	second := with(course("A", "2026-03-03"), paper.FieldDuration, "400")
	p2 := v.take("letter.pdf", second)
	r, err := v.Attach(v.ctx, "C1", p2, nil)
	if err != nil || len(r.Warnings) != 1 || !strings.Contains(r.Warnings[0].Text, "duration_minutes 400") || r.Claim.Counted.String() != "1.75" {
		t.Fatalf("a difference is said and the claim stays: %+v, %v", r, err)
	}
	if _, err := v.Undo(v.ctx, "P1"); !errors.Is(err, journal.ErrNotWaiting) || !strings.Contains(err.Error(), "undo P2") {
		t.Fatalf("P2 would prove nothing: %v", err)
	}
	v.undo("P2")
	v.undo("P1")
	if got := v.waits(); got != "P1 waiting, P2 waiting" {
		t.Fatal(got)
	}
	bill := v.take("bill.pdf", receipt("A", "X", "1.00 EUR", "2026-03-03"))
	v.confirm(journal.ConfirmOptions{}, "P1")
	if _, err := v.Attach(v.ctx, "C2", bill, nil); !errors.Is(err, journal.ErrReference) {
		t.Fatalf("a receipt proves nothing: %v", err)
	}
}

func TestCutAndJoin(t *testing.T) {
	v := newVault(t)
	scan := course("A", "2026-03-03")
	scan.To = 3
	v.take("scan.pdf", scan)
	for _, bad := range []string{"1-2", "1,3", "1-2,2-3", "1-2,3-4", "2-1,3", "a,b", "0-1,2-3", "1,2"} {
		if _, err := v.Cut(v.ctx, "P1", bad); !errors.Is(err, journal.ErrPages) {
			t.Errorf("%q gave %v", bad, err)
		}
	}
	made, err := v.Cut(v.ctx, "P1", "3,1-2")
	if err != nil || len(made) != 2 || made[0].ID != "P2" || made[0].Pages != [2]int{1, 2} || made[1].Pages != [2]int{3, 3} || made[0].UUID == "" {
		t.Fatalf("%+v, %v", made, err)
	}
	if got := v.waits(); got != "P2 unread, P3 unread" {
		t.Fatal(got)
	}
	_, err = v.Confirm(v.ctx, []string{"P1"}, journal.ConfirmOptions{})
	if !errors.Is(err, journal.ErrNotWaiting) || !strings.Contains(err.Error(), "P2 P3") {
		t.Fatalf("a retired paper: %v", err)
	}
	joined, err := v.Join(v.ctx, "P3", "P2")
	if err != nil || joined.ID != "P4" || joined.Pages != [2]int{1, 3} {
		t.Fatalf("%+v, %v", joined, err)
	}
	v.take("other.pdf", course("B", "2026-03-04"))
	if _, err := v.Join(v.ctx, "P4", "P5"); !errors.Is(err, journal.ErrPages) || !strings.Contains(err.Error(), "attach") {
		t.Fatalf("papers of two files: %v", err)
	}
	v.undo("P4")
	if got := v.waits(); got != "P2 unread, P3 unread, P5 waiting" {
		t.Fatal(got)
	}
	if _, err := v.SetAside(v.ctx, []string{"P3"}, "an empty page"); err != nil {
		t.Fatal(err)
	}
	if _, err := v.Undo(v.ctx, "P1"); !errors.Is(err, journal.ErrNotWaiting) || !strings.Contains(err.Error(), "undo P3") {
		t.Fatalf("P3 was decided: %v", err)
	}
	v.undo("P3")
	v.undo("P1")
	if got := v.waits(); got != "P1 waiting, P5 waiting" {
		t.Fatal(got)
	}
}

// TestUndoLeavesNoTrace does acts at random and takes each back at once; but for the
// history, the vault is as before, and its rows agree with its log.
func TestUndoLeavesNoTrace(t *testing.T) {
	v := newVault(t)
	v.take("a.pdf", course("A", "2026-03-03"))
	v.take("b.pdf", course("B", "2024-03-03"))
	v.take("bill.pdf", receipt("A", "Ostrava Cableway School", "120.00 EUR", "2026-02-01"))
	v.take("list.pdf", transcript())
	v.confirm(journal.ConfirmOptions{}, v.take("c.pdf", course("C", "2026-05-05")))
	rapid.Check(t, func(r *rapid.T) {
		before := v.state()
		ref := ""
		switch act := rapid.SampledFrom([]string{"confirm", "set", "row", "aside", "change", "withdraw", "attach"}).Draw(r, "act"); act {
		case "confirm":
			ref = rapid.SampledFrom([]string{"P1", "P2", "P3", "P4"}).Draw(r, "paper")
			v.confirm(journal.ConfirmOptions{}, ref)
		case "set":
			ref = "P1"
			v.confirm(journal.ConfirmOptions{Category: rapid.SampledFrom([]string{"online", "teaching", "study"}).Draw(r, "category"), Set: map[string]string{"place": "Vallmere"}}, ref)
		case "row":
			ref = "P4"
			v.confirm(journal.ConfirmOptions{Row: rapid.IntRange(1, 3).Draw(r, "row")}, ref)
		case "aside":
			ref = rapid.SampledFrom([]string{"P1", "P2", "P3", "P4"}).Draw(r, "paper")
			if _, err := v.SetAside(v.ctx, []string{ref}, "not mine"); err != nil {
				r.Fatal(err)
			}
		case "change":
			ref = "C1"
			field := rapid.SampledFrom([]string{"title", "duration_minutes", "place", "provider"}).Draw(r, "field")
			value := rapid.SampledFrom([]string{"30", "90", ""}).Draw(r, "value")
			if field == "duration_minutes" && value == "" || field == "place" && value == "" {
				value = "45"
			}
			if _, err := v.ClaimChange(v.ctx, "C1", map[string]string{field: value}, ""); err != nil {
				r.Fatal(err)
			}
		case "withdraw":
			ref = "C1"
			if _, err := v.ClaimWithdraw(v.ctx, "C1", "not mine"); err != nil {
				r.Fatal(err)
			}
		case "attach":
			ref = "P1"
			if _, err := v.Attach(v.ctx, "C1", "P1", map[string]string{"kind": "attendance"}); err != nil {
				r.Fatal(err)
			}
		}
		v.undo(ref)
		if got := v.state(); got != before {
			r.Fatalf("the vault is not as before:\n%s\nwant\n%s", got, before)
		}
	})
	found, err := v.Catalog().Verify(v.ctx, verifyAll)
	if err != nil || len(found) != 0 {
		t.Fatalf("rows and log disagree: %v, %v", found, err)
	}
	events, err := v.Catalog().Events(v.ctx, 1, 0)
	if err != nil || !slices.IsSortedFunc(events, byNumber) {
		t.Fatalf("%v", err)
	}
}
