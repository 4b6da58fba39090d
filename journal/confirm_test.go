package journal_test

import (
	"errors"
	"strings"
	"testing"

	"evidencevault/extract/paper"
	"evidencevault/journal"
)

func TestConfirmMakesAClaimThatCounts(t *testing.T) {
	v := newVault(t)
	p := v.take("wire ropes.pdf", course("Wire Ropes", "2026-03-03"))
	if got := v.counted(); got != "0" {
		t.Fatalf("counted %s before anything was confirmed", got)
	}
	r := v.confirm(journal.ConfirmOptions{}, p)
	if len(r.Claims) != 1 || len(r.Warnings) != 0 {
		t.Fatalf("claims %d, warnings %v", len(r.Claims), r.Warnings)
	}
	c := r.Claims[0]
	if c.ID != "C1" || c.Activity != "A1" || c.Category != "course" || c.Awarded.String() != "1.75" || c.Counted.String() != "1.75" || !c.Proven {
		t.Fatalf("claim %+v", c)
	}
	if got := v.counted(); got != "1.75" {
		t.Fatalf("counted %s, want 7 h ÷ 4 = 1.75", got)
	}
	for _, proof := range c.Proofs {
		if proof.Page != 1 || proof.Box == nil || proof.Quote == "" || proof.By != paper.ByProgram || proof.File != "wire ropes.pdf" || len(proof.SHA256) != 64 {
			t.Errorf("proof of %s has no place: %+v", proof.Field, proof)
		}
	}
	if len(c.Proofs) != 7 || c.Proofs[0].Field != paper.FieldKind {
		t.Errorf("want a proof for each of 7 fields, got %d", len(c.Proofs))
	}
	if got := v.waits(); got != "" {
		t.Errorf("still waiting: %s", got)
	}
}

func TestOpenQuestionRefuses(t *testing.T) {
	tests := []struct {
		name, why string
		give      paper.Reading
		options   journal.ConfirmOptions
		open      string // fields, parted by blanks; "" when it is confirmed
	}{
		{"day and month", "the end places the claim", asking(course("A", "2026-03-03"), paper.FieldEnd, "3 April or 4 March?", "2026-04-03", "2026-03-04"), journal.ConfirmOptions{}, "end_date"},
		{"answered", "what a person sets answers the question", asking(course("A", "2026-03-03"), paper.FieldEnd, "3 April or 4 March?"),
			journal.ConfirmOptions{Set: map[string]string{"end_date": "2026-03-04"}}, ""},
		{"minutes", "the rate of a course reads them", asking(course("A", "2026-03-03"), paper.FieldDuration, "45 or 60 minutes a unit?"), journal.ConfirmOptions{}, "duration_minutes"},
		{"issue date", "no rate reads it", asking(course("A", "2026-03-03"), paper.FieldIssue, "which?"), journal.ConfirmOptions{}, ""},
		{"no minutes", "a field that the award reads is a question when it is missing", without(course("A", "2026-03-03"), paper.FieldDuration), journal.ConfirmOptions{}, "duration_minutes"},
		{"other person", "it may be a colleague's", with(course("A", "2026-03-03"), paper.FieldAttendee, "Joris Blankaart"), journal.ConfirmOptions{}, "attendee"},
		{"nobody", "it may be anybody's", without(course("A", "2026-03-03"), paper.FieldAttendee), journal.ConfirmOptions{}, "attendee"},
		{"name turned round", "the same person", with(course("A", "2026-03-03"), paper.FieldAttendee, "Dr. QUILLFEATHER, Mara"), journal.ConfirmOptions{}, ""},
		{"two categories", "a meeting may be of a section or of a committee", with(course("A", "2026-03-03"), paper.FieldKind, "meeting"), journal.ConfirmOptions{}, "category"},
		{"chosen", "the person chose", with(course("A", "2026-03-03"), paper.FieldKind, "meeting"), journal.ConfirmOptions{Category: "meeting"}, ""},
		{"other category's field", "a committee counts by years, so it needs its first day",
			without(with(course("A", "2026-03-03"), paper.FieldKind, "meeting"), paper.FieldStart), journal.ConfirmOptions{Category: "committee"}, "start_date"},
		{"no kind", "nothing is known", without(course("A", "2026-03-03"), paper.FieldKind), journal.ConfirmOptions{}, "kind"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			v := newVault(t)
			p := v.take("a.pdf", tt.give)
			before := v.state()
			_, err := v.Confirm(v.ctx, []string{p}, tt.options)
			if tt.open == "" {
				if err != nil {
					t.Fatalf("%s: %v", tt.why, err)
				}
				return
			}
			var open *journal.OpenError
			if !errors.As(err, &open) || !errors.Is(err, journal.ErrOpen) {
				t.Fatalf("%s: want an open question, got %v", tt.why, err)
			}
			var names []string
			for _, q := range open.Questions {
				names = append(names, string(q.Field))
			}
			if got := strings.Join(names, " "); got != tt.open || open.Paper != "P1" {
				t.Errorf("%s: open %q of %s, want %q", tt.why, got, open.Paper, tt.open)
			}
			if !strings.Contains(err.Error(), "P1: ") || !strings.Contains(err.Error(), "nswer with --") {
				t.Errorf("the message names no paper or no way out: %v", err)
			}
			if v.state() != before {
				t.Error("a refused confirmation changed something")
			}
		})
	}
}

func with(r paper.Reading, f paper.Field, text string) paper.Reading {
	v := r.Values[f]
	v.Text = text
	r.Values[f] = v
	return r
}

func without(r paper.Reading, f paper.Field) paper.Reading {
	delete(r.Values, f)
	return r
}

func TestWhatIsInQuestionStaysEmpty(t *testing.T) {
	v := newVault(t)
	r := course("Wire Robes", "2026-03-03")
	title := r.Values[paper.FieldTitle]
	title.Certain = false
	r = asking(r, paper.FieldTitle, "Is it Wire Robes or Wire Ropes?", "Wire Robes", "Wire Ropes")
	r.Values[paper.FieldTitle] = title // the likelier one is proposed
	v.take("a.pdf", r)
	v.take("b.pdf", r)
	got := v.confirm(journal.ConfirmOptions{}, "P1")
	if c := got.Claims[0]; c.Title != "" || len(got.Warnings) != 1 || !strings.Contains(got.Warnings[0].Text, "title stays empty") {
		t.Fatalf("a guess became a fact: %+v, %v", c, got.Warnings)
	}
	got = v.confirm(journal.ConfirmOptions{Set: map[string]string{"title": "Wire Ropes"}}, "P2")
	if c := got.Claims[0]; c.Title != "Wire Ropes" || len(got.Warnings) != 0 {
		t.Fatalf("%+v, %v", c, got.Warnings)
	}
}

func TestListWithOneOpenChangesNothing(t *testing.T) {
	v := newVault(t)
	v.take("a.pdf", course("A", "2026-03-03"))
	v.take("b.pdf", asking(course("B", "2026-03-04"), paper.FieldEnd, "which?"))
	before := v.state()
	if _, err := v.Confirm(v.ctx, []string{"P1-P2"}, journal.ConfirmOptions{}); !errors.Is(err, journal.ErrOpen) {
		t.Fatalf("got %v", err)
	}
	if v.state() != before {
		t.Error("the clear paper of the list was confirmed all the same")
	}
}

func TestSetIsCheckedAndCanonical(t *testing.T) {
	v := newVault(t)
	p := v.take("a.pdf", course("A", "2026-03-03"))
	tests := []struct{ name, field, value, want string }{
		{"unknown field", "colour", "red", "want one of kind, title"},
		{"no such day", "end_date", "2026-02-30", "YYYY-MM-DD"},
		{"words for minutes", "duration_minutes", "seven hours", "whole minutes"},
		{"no such category", "category", "yachting", "want one of course"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := v.Confirm(v.ctx, []string{p}, journal.ConfirmOptions{Set: map[string]string{tt.field: tt.value}})
			if err == nil || !strings.Contains(err.Error(), tt.want) || !strings.Contains(err.Error(), "P1") {
				t.Fatalf("got %v, want a message with %q", err, tt.want)
			}
		})
	}
	r := v.confirm(journal.ConfirmOptions{Set: map[string]string{"credits": " 1.50 CEU;3 points ", "place": "Vallmere", "duration_minutes": "480"}}, p)
	c := r.Claims[0]
	if c.Fields["credits"] != "1.5 CEU; 3 points" || c.Fields["place"] != "Vallmere" || c.Awarded.String() != "2" {
		t.Fatalf("claim %+v", c)
	}
	for _, proof := range c.Proofs {
		switch proof.Field {
		case paper.FieldCredits, "place", paper.FieldDuration:
			if proof.By != paper.ByPerson || proof.Page != 1 || proof.Box != nil || proof.Quote != "" {
				t.Errorf("what a person set is proven by the first page alone, got %+v", proof)
			}
		}
	}
}

func TestOutsideTheCycleCountsNothing(t *testing.T) {
	v := newVault(t)
	p := v.take("old.pdf", course("Old", "2024-12-31"))
	r := v.confirm(journal.ConfirmOptions{}, p)
	if len(r.Warnings) != 1 || !strings.Contains(r.Warnings[0].Text, "outside the cycle 2025-01-01 to 2028-12-31") || r.Warnings[0].Paper != "P1" {
		t.Fatalf("warnings %v", r.Warnings)
	}
	c := r.Claims[0]
	if !c.Outside || c.Counted.Sign() != 0 || c.Awarded.Sign() != 0 || v.counted() != "0" {
		t.Fatalf("claim %+v", c)
	}
	claims, err := v.Claims(v.ctx, journal.ClaimsFilter{})
	if err != nil || len(claims) != 1 || !claims[0].Outside || len(claims[0].Notes) == 0 {
		t.Fatalf("it does not show in claims: %v, %v", claims, err)
	}
}

func TestKindThatTheCategoryDoesNotAccept(t *testing.T) {
	v := newVault(t)
	p := v.take("a.pdf", course("A", "2026-03-03"))
	r := v.confirm(journal.ConfirmOptions{Category: "online"}, p)
	if len(r.Warnings) != 1 || !strings.Contains(r.Warnings[0].Text, "does not accept a paper of the kind attendance") {
		t.Fatalf("warnings %v", r.Warnings)
	}
	if c := r.Claims[0]; c.Category != "online" || c.Counted.String() != "1.4" || c.Proven {
		t.Fatalf("the person's choice stands, and is unproven: %+v", c)
	}
}

func TestPaperIsConfirmedOnce(t *testing.T) {
	v := newVault(t)
	p := v.take("a.pdf", course("A", "2026-03-03"))
	v.confirm(journal.ConfirmOptions{}, p)
	_, err := v.Confirm(v.ctx, []string{p}, journal.ConfirmOptions{})
	var state *journal.StateError
	if !errors.As(err, &state) || state.State != "confirmed" || strings.Join(state.Now, " ") != "C1" {
		t.Fatalf("got %v", err)
	}
	if _, err := v.SetAside(v.ctx, []string{p}, "no"); !errors.Is(err, journal.ErrNotWaiting) {
		t.Fatalf("set aside gave %v", err)
	}
	if _, err := v.Confirm(v.ctx, []string{"P9"}, journal.ConfirmOptions{}); !errors.Is(err, journal.ErrUnknown) || !strings.Contains(err.Error(), "P9") {
		t.Fatalf("an unknown paper gave %v", err)
	}
	if _, err := v.Confirm(v.ctx, []string{"C1"}, journal.ConfirmOptions{}); !errors.Is(err, journal.ErrReference) {
		t.Fatalf("a claim gave %v", err)
	}
}

func TestUnreadPaperIsConfirmedByWhatThePersonSays(t *testing.T) {
	v := newVault(t)
	p := v.take("photo.heic", paper.Reading{Outcome: paper.OutcomeUnreadable, Reason: "save it as PDF and drop it again; the original is kept"})
	_, err := v.Confirm(v.ctx, []string{p}, journal.ConfirmOptions{})
	if !errors.Is(err, journal.ErrOpen) || !strings.Contains(err.Error(), "save it as PDF") {
		t.Fatalf("got %v", err)
	}
	r := v.confirm(journal.ConfirmOptions{Set: map[string]string{"kind": "attendance", "title": "Splicing", "attendee": holder, "end_date": "2026-02-02", "duration_minutes": "240"}}, p)
	if c := r.Claims[0]; c.Counted.String() != "1" || len(c.Proofs) != 5 || c.Proofs[0].By != paper.ByPerson {
		t.Fatalf("claim %+v", c)
	}
	v.undo(p)
	if got := v.waits(); got != "P1 unread" {
		t.Fatalf("after undo: %s", got)
	}
}

func TestSameActivityTwiceIsSaid(t *testing.T) {
	v := newVault(t)
	v.take("a.pdf", course("Wire Ropes", "2026-03-03"))
	v.take("scan of a.pdf", course("WIRE ROPES", "2026-03-03"))
	v.confirm(journal.ConfirmOptions{}, "P1")
	r := v.confirm(journal.ConfirmOptions{}, "P2")
	if len(r.Warnings) != 1 || !strings.Contains(r.Warnings[0].Text, "C1") {
		t.Fatalf("warnings %v", r.Warnings)
	}
}

func TestClear(t *testing.T) {
	v := newVault(t)
	v.take("a.pdf", course("A", "2026-03-03"))
	v.take("b.pdf", asking(course("B", "2026-03-04"), paper.FieldEnd, "which?"))
	v.take("flyer.pdf", reading(1, map[paper.Field]string{paper.FieldKind: "not-evidence"}))
	v.take("bill.pdf", receipt("A", "Ostrava Cableway School", "120.00 EUR", "2026-02-01"))
	v.take("broken.pdf", paper.Reading{Outcome: paper.OutcomeUnreadable, Reason: "damaged"})
	unsure := reading(1, map[paper.Field]string{paper.FieldKind: "not-evidence"})
	kind := unsure.Values[paper.FieldKind]
	kind.Certain = false
	unsure.Values[paper.FieldKind] = kind
	v.take("unsure.pdf", unsure)
	plan, err := v.ConfirmClear(v.ctx, "")
	if err != nil {
		t.Fatal(err)
	}
	got := refs(plan.Confirm) + " | " + refs(plan.Receipts) + " | " + refs(plan.SetAside) + " | " + refs(plan.Left)
	if got != "P1 | P4 | P3 | P2 P5 P6" {
		t.Fatalf("plan %s", got)
	}
	if v.waits() != "P1 waiting, P2 waiting, P3 waiting, P4 waiting, P5 unread, P6 waiting" {
		t.Fatal("listing changed something")
	}
	r, err := v.DoClear(v.ctx, plan, "")
	if err != nil || len(r.Claims) != 1 || len(r.Receipts) != 1 || strings.Join(r.SetAside, " ") != "P3" {
		t.Fatalf("%+v, %v", r, err)
	}
	if got := v.waits(); got != "P2 waiting, P5 unread, P6 waiting" {
		t.Fatalf("left %s", got)
	}
	again, err := v.DoClear(v.ctx, plan, "")
	if err != nil || len(again.Claims) != 0 || len(again.Warnings) != 3 {
		t.Fatalf("a plan that was done already makes warnings and nothing else: %+v, %v", again, err)
	}
	if v.counted() != "1.75" {
		t.Fatalf("counted %s", v.counted())
	}
}

func TestClearDoesNotCountTwice(t *testing.T) {
	v := newVault(t)
	v.take("a.pdf", course("Wire Ropes", "2026-03-03"))
	v.take("scan of a.pdf", course("wire ropes", "2026-03-03"))
	plan, err := v.ConfirmClear(v.ctx, "")
	if err != nil {
		t.Fatal(err)
	}
	r, err := v.DoClear(v.ctx, plan, "")
	if err != nil || len(r.Claims) != 1 || len(r.Warnings) != 1 || !strings.Contains(r.Warnings[0].Text, "attach C1 P2") {
		t.Fatalf("%+v, %v", r, err)
	}
	if got := v.waits(); got != "P2 waiting" || v.counted() != "1.75" {
		t.Fatalf("%s, counted %s", got, v.counted())
	}
}

func refs(list []journal.WaitingPaper) string {
	words := make([]string, len(list))
	for i, p := range list {
		words[i] = p.ID
	}
	return strings.Join(words, " ")
}

func TestTwoWritersConfirmOnce(t *testing.T) {
	v := newVault(t)
	p := v.take("a.pdf", course("A", "2026-03-03"))
	other, err := journal.Open(v.ctx, v.dir, journal.Options{Now: noon("2026-06-01")})
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if err := other.Close(); err != nil {
			t.Error(err)
		}
	}()
	errs := make(chan error, 2)
	for _, j := range []*journal.Journal{v.Journal, other} {
		go func() {
			_, err := j.Confirm(v.ctx, []string{p}, journal.ConfirmOptions{})
			errs <- err
		}()
	}
	first, second := <-errs, <-errs
	if first != nil {
		first, second = second, first
	}
	if first != nil || !errors.Is(second, journal.ErrNotWaiting) || !strings.Contains(second.Error(), "see C1") {
		t.Fatalf("want one done and one that sees it: %v, %v", first, second)
	}
	claims, err := other.Claims(v.ctx, journal.ClaimsFilter{})
	if err != nil || len(claims) != 1 {
		t.Fatalf("%d claims, %v", len(claims), err)
	}
}

func TestExplainNamesTheRule(t *testing.T) {
	v := newVault(t)
	v.confirm(journal.ConfirmOptions{}, v.take("a.pdf", course("A", "2026-03-03")))
	list, err := v.Explain(v.ctx, journal.ExplainFilter{IDs: []string{"C1"}})
	if err != nil || len(list) != 1 {
		t.Fatalf("%v, %v", list, err)
	}
	step := list[0].Steps[0]
	if step.File != "demo.toml" || step.Line == 0 || step.After.String() != "1.75" || !strings.Contains(strings.Join(list[0].Lines, "\n"), "demo.toml:") {
		t.Fatalf("step %+v\n%s", step, strings.Join(list[0].Lines, "\n"))
	}
	all, err := v.Explain(v.ctx, journal.ExplainFilter{})
	if err != nil || len(all) != 1 || all[0].Counted.String() != "1.75" || len(all[0].Steps) == 0 {
		t.Fatalf("%v, %v", all, err)
	}
}

// A day that is still to come is no mistake that the rules can see, and mostly one of
// the person.
func TestADayStillToComeIsSaid(t *testing.T) {
	v := newVault(t)
	r, err := v.ClaimAdd(v.ctx, journal.ClaimOptions{Category: "publication", Set: map[string]string{"title": "Ropes", "end_date": "2028-06-30"}})
	if err != nil || len(r.Warnings) != 1 || !strings.Contains(r.Warnings[0].Text, "still to come") {
		t.Errorf("warnings %+v, %v, want one that the day is still to come", r.Warnings, err)
	}
	if _, err := v.ClaimWithdraw(v.ctx, r.Claim.ID, ""); err != nil {
		t.Fatal(err)
	}
	if _, err := v.Explain(v.ctx, journal.ExplainFilter{IDs: []string{r.Claim.ID}}); !errors.Is(err, journal.ErrNotWaiting) || !strings.Contains(err.Error(), "already withdrawn, so it counts nothing; take that back first with undo "+r.Claim.ID) {
		t.Errorf("explaining a claim that was withdrawn: %v", err)
	}
}
