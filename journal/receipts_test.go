package journal_test

import (
	"errors"
	"strings"
	"testing"

	"evidencevault/extract/paper"
	"evidencevault/journal"
)

func TestReceiptWaitsForItsCertificate(t *testing.T) {
	v := newVault(t)
	bill := v.take("bill.pdf", receipt("Wire Ropes", "Ostrava Cableway School", "518.40 GBP", "2026-02-20"))
	r := v.confirm(journal.ConfirmOptions{Category: "course"}, bill)
	if len(r.Claims) != 0 || len(r.Receipts) != 1 || len(r.Warnings) != 1 || !strings.Contains(r.Warnings[0].Text, "category is passed over") {
		t.Fatalf("%+v", r)
	}
	got := r.Receipts[0]
	if got.ID != "R1" || got.State != journal.ReceiptOpen || got.Days == nil || *got.Days != 101 || len(got.Proposal) != 0 || got.File != "bill.pdf" {
		t.Fatalf("20 February to 1 June 2026 are 101 days: %+v", got)
	}
	letter, err := v.Letter(v.ctx, "R1")
	if err != nil {
		t.Fatal(err)
	}
	for _, part := range []string{"1 June 2026", "Dear Ostrava Cableway School", "20 February 2026", "518.40 GBP", "Wire Ropes", holder} {
		if !strings.Contains(letter, part) {
			t.Errorf("the letter lacks %q:\n%s", part, letter)
		}
	}
	v.confirm(journal.ConfirmOptions{}, v.take("late.pdf", course("Wire Ropes", "2026-03-03")))
	list, err := v.Receipts(v.ctx)
	if err != nil || len(list) != 1 || len(list[0].Proposal) != 1 || list[0].CostOf != "" {
		t.Fatalf("a match is proposed and never made: %+v, %v", list, err)
	}
	if m := list[0].Proposal[0]; m.Activity != "A1" || len(m.Why) != 3 {
		t.Fatalf("%+v", m)
	}
	if r := v.confirm(journal.ConfirmOptions{CostOf: "A1"}, "R1"); len(r.Receipts) != 1 || r.Receipts[0].CostOf != "A1" {
		t.Fatalf("confirming the proposal: %+v", r)
	}
	v.undo("R1")
	if _, err := v.Confirm(v.ctx, []string{"R1"}, journal.ConfirmOptions{}); !errors.Is(err, journal.ErrReference) || !strings.Contains(err.Error(), "--cost-of") {
		t.Fatalf("a receipt without an activity: %v", err)
	}
	tied, err := v.Tie(v.ctx, "R1", "C1")
	if err != nil || tied.CostOf != "A1" || tied.State != journal.ReceiptCost || tied.Days != nil {
		t.Fatalf("%+v, %v", tied, err)
	}
	if _, err := v.Letter(v.ctx, "R1"); !errors.Is(err, journal.ErrNothing) {
		t.Fatalf("no certificate is owed: %v", err)
	}
	v.undo("R1")
	if list, err := v.Receipts(v.ctx); err != nil || list[0].CostOf != "" {
		t.Fatalf("%+v, %v", list, err)
	}
	v.undo(bill)
	if got := v.waits(); got != "P1 waiting" {
		t.Fatal(got)
	}
}

func TestLetterWithoutATitle(t *testing.T) {
	v := newVault(t)
	r := without(receipt("A", "", "5.00 EUR", "2026-02-20"), paper.FieldTitle)
	r.Values[paper.FieldEnd] = paper.Value{Text: "2026-03-03", Certain: true}
	v.confirm(journal.ConfirmOptions{}, v.take("slip.pdf", r))
	letter, err := v.Letter(v.ctx, "R1")
	want := "I have your receipt of 20 February 2026 over 5.00 EUR for a course held on 3\nMarch 2026, but no certificate."
	if err != nil || !strings.Contains(letter, want) || !strings.Contains(letter, "Dear Sir or Madam") {
		t.Fatalf("%v\n%s", err, letter)
	}
}

func TestReceiptBecomesACost(t *testing.T) {
	v := newVault(t)
	v.confirm(journal.ConfirmOptions{}, v.take("a.pdf", course("Wire Ropes", "2026-03-03")))
	for _, total := range []string{"120.00 EUR", "0.1 EUR", "0.20 EUR", "99.95 GBP", "-20.00 EUR"} {
		p := v.take("bill.pdf", receipt("Wire Ropes", "Ostrava Cableway School", total, "2026-02-20"))
		v.confirm(journal.ConfirmOptions{CostOf: "A1"}, p)
	}
	a, err := v.Activity(v.ctx, "C1")
	if err != nil || len(a.Costs) != 5 {
		t.Fatalf("%+v, %v", a, err)
	}
	want := []journal.Sum{{Currency: "EUR", Amount: "100.30"}, {Currency: "GBP", Amount: "99.95"}}
	if len(a.Sums) != 2 || a.Sums[0] != want[0] || a.Sums[1] != want[1] {
		t.Fatalf("sums %v, want %v: exact, each currency by itself", a.Sums, want)
	}
	costs, err := v.Costs(v.ctx)
	if err != nil || len(costs) != 1 || costs[0].Title != "Wire Ropes" || costs[0].Sums[0] != want[0] || len(costs[0].Receipts) != 5 {
		t.Fatalf("%+v, %v", costs, err)
	}
	v.undo("P1")
	list, err := v.Receipts(v.ctx)
	if err != nil || list[0].CostOf != "" || list[0].State != journal.ReceiptOpen {
		t.Fatalf("the activity is gone, so the certificate is owed again: %+v, %v", list, err)
	}
}

func TestReceiptIsRefused(t *testing.T) {
	v := newVault(t)
	v.take("bill.pdf", without(receipt("A", "B", "1.00 EUR", "2026-02-20"), paper.FieldTotal))
	v.take("a.pdf", course("A", "2026-03-03"))
	v.take("b.pdf", without(receipt("A", "B", "1.00 EUR", "2026-02-20"), paper.FieldAttendee))
	tests := []struct {
		name, why string
		paper     string
		options   journal.ConfirmOptions
		want      error
	}{
		{"no total", "a cost without a sum is none", "P1", journal.ConfirmOptions{}, journal.ErrOpen},
		{"row", "a receipt has no rows", "P1", journal.ConfirmOptions{Row: 1, Set: map[string]string{"total": "1.00 EUR"}}, journal.ErrReference},
		{"cost of nothing", "there is no such activity", "P1", journal.ConfirmOptions{CostOf: "A9", Set: map[string]string{"total": "1.00 EUR"}}, journal.ErrUnknown},
		{"certificate", "a certificate is no cost", "P2", journal.ConfirmOptions{CostOf: "A1"}, journal.ErrReference},
		{"nobody billed", "it may be somebody else's", "P3", journal.ConfirmOptions{}, journal.ErrOpen},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if _, err := v.Confirm(v.ctx, []string{tt.paper}, tt.options); !errors.Is(err, tt.want) {
				t.Fatalf("%s: got %v, want %v", tt.why, err, tt.want)
			}
		})
	}
}
