package journal_test

import (
	"cmp"
	"errors"
	"strings"
	"testing"

	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

var verifyAll catalog.VerifyOptions

func byNumber(a, b catalog.Event) int { return cmp.Compare(a.Number, b.Number) }

// transcript is a list of three courses; the demo scheme accepts no transcript by
// itself, so the category is set with the reading's own value.
func transcript() paper.Reading {
	r := reading(2, map[paper.Field]string{paper.FieldKind: "transcript", paper.FieldProvider: "Vallmere Registry", paper.FieldAttendee: holder,
		paper.FieldStart: "2026-01-10", paper.FieldEnd: "2026-03-10"})
	r.Values[paper.FieldCategory] = paper.Value{Text: "course", By: paper.ByProgram}
	for i, title := range []string{"Grips", "Haul Ropes", "Evacuation"} {
		day := credit.MustDate("2026-01-10").AddMonths(i)
		r.Rows = append(r.Rows, paper.Row{Title: title, Start: day, End: day, Duration: new(credit.Minutes(240 * (i + 1))),
			Place: paper.Place{Page: 2, Box: paper.Box{100, 100 * i, 900, 100*i + 90}, Quote: title}})
	}
	return r
}

func TestEachRowBecomesAClaim(t *testing.T) {
	v := newVault(t)
	p := v.take("list.pdf", transcript())
	before := v.state()
	r := v.confirm(journal.ConfirmOptions{}, p)
	if len(r.Claims) != 3 || v.counted() != "6" || len(r.Waiting) != 0 {
		t.Fatalf("%d claims, counted %s", len(r.Claims), v.counted())
	}
	c := r.Claims[1]
	if c.Title != "Haul Ropes" || c.End.String() != "2026-02-10" || c.Awarded.String() != "2" {
		t.Fatalf("claim %+v", c)
	}
	for _, proof := range c.Proofs {
		if proof.Field == paper.FieldTitle && (proof.Page != 2 || proof.Quote != "Haul Ropes") {
			t.Errorf("the title is proven by its row: %+v", proof)
		}
		if proof.Field == paper.FieldProvider && proof.Page != 1 {
			t.Errorf("the provider stands at the head: %+v", proof)
		}
	}
	v.undo(p)
	if v.state() != before {
		t.Fatal("the vault is not as before")
	}
}

func TestTranscriptWaitsForEveryRow(t *testing.T) {
	v := newVault(t)
	p := v.take("list.pdf", transcript())
	r := v.confirm(journal.ConfirmOptions{Row: 2}, p)
	if len(r.Claims) != 1 || r.Claims[0].Title != "Haul Ropes" || strings.Join(r.Waiting, " ") != "P1" {
		t.Fatalf("%+v", r)
	}
	list, err := v.Waiting(v.ctx)
	if err != nil || len(list) != 1 || list[0].Rows[1].State != "confirmed" || list[0].Rows[0].State != "waiting" {
		t.Fatalf("%+v, %v", list, err)
	}
	if _, err := v.Confirm(v.ctx, []string{p}, journal.ConfirmOptions{Row: 2}); !errors.Is(err, journal.ErrNotWaiting) || !strings.Contains(err.Error(), "row 2") {
		t.Fatalf("row 2 again: %v", err)
	}
	if _, err := v.Confirm(v.ctx, []string{p}, journal.ConfirmOptions{Row: 4}); !errors.Is(err, journal.ErrUnknown) {
		t.Fatalf("row 4: %v", err)
	}
	if _, err := v.SetAside(v.ctx, []string{p}, "no"); !errors.Is(err, journal.ErrNotWaiting) {
		t.Fatalf("a paper with a claim was set aside: %v", err)
	}
	if _, err := v.Confirm(v.ctx, []string{p}, journal.ConfirmOptions{Set: map[string]string{"duration_minutes": "60"}}); !errors.Is(err, journal.ErrField) {
		t.Fatalf("one length for two rows: %v", err)
	}
	v.confirm(journal.ConfirmOptions{Row: 1, Set: map[string]string{"duration_minutes": "480"}}, p)
	r = v.confirm(journal.ConfirmOptions{SkipRows: []int{3}}, p)
	if len(r.Claims) != 0 || v.waits() != "" || v.counted() != "4" {
		t.Fatalf("%+v, waiting %q, counted %s", r, v.waits(), v.counted())
	}
	if r := v.undo(p); r.State != "waiting" || !strings.Contains(r.Undone, "left out") {
		t.Fatalf("%+v", r)
	}
	v.undo(p)
	if got := v.counted(); got != "2" {
		t.Fatalf("row 1 was taken back, counted %s", got)
	}
}

func TestRowWithoutItsMinutesIsAsked(t *testing.T) {
	v := newVault(t)
	list := transcript()
	list.Rows[1].Duration = nil
	p := v.take("list.pdf", list)
	_, err := v.Confirm(v.ctx, []string{p}, journal.ConfirmOptions{})
	var open *journal.OpenError
	if !errors.As(err, &open) || open.Row != 2 || open.Questions[0].Field != paper.FieldDuration {
		t.Fatalf("got %v", err)
	}
	v.confirm(journal.ConfirmOptions{Row: 1}, p)
	v.confirm(journal.ConfirmOptions{Row: 2, Set: map[string]string{"duration_minutes": "60"}}, p)
	if got := v.counted(); got != "1.25" {
		t.Fatalf("counted %s", got)
	}
}
