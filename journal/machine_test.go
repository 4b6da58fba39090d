package journal_test

import (
	"encoding/json"
	"maps"
	"slices"
	"strings"
	"testing"

	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// keysOf returns the JSON object that v prints as, after checking that it has keys.
func keysOf(t *testing.T, v any, keys string) map[string]any {
	t.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	var object map[string]any
	if err := json.Unmarshal(text, &object); err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	for key := range strings.FieldsSeq(keys) {
		if _, ok := object[key]; !ok {
			t.Errorf("key %s is missing among %v", key, slices.Sorted(maps.Keys(object)))
		}
	}
	return object
}

func TestWaitingPrintsAsTheMachineInterfaceSays(t *testing.T) {
	v := newVault(t)
	r := asking(course("A", "2026-03-03"), paper.FieldDuration, "How long is a unit?", "405", "540")
	r.Values[paper.FieldCredits] = paper.Value{Text: "1.5 CEU", Place: paper.Place{Page: 1, Quote: "1.5 CEU"}, Certain: true}
	v.take("a\x1b[2J.pdf", r)
	list, err := v.Waiting(v.ctx)
	if err != nil || len(list) != 1 {
		t.Fatalf("%v, %v", list, err)
	}
	object := keysOf(t, list[0], "id file sha256 pages rows state reason kind values questions")
	if object["file"] != `a\x1b[2J.pdf` {
		t.Errorf("a control character reaches the terminal: %q", object["file"])
	}
	values := object["values"].(map[string]any)
	title := keysOf(t, values["title"], "value page box quote certain by")
	if box := title["box"].([]any); box[0] != 72.0 || box[2] != 200.5 {
		t.Errorf("a box is in points: %v", box)
	}
	if keysOf(t, values["credits"], "value box")["box"] != nil {
		t.Error("a value without a box prints null")
	}
	category := keysOf(t, values["category"], "value certain")
	if category["value"] != "course" || category["certain"] != true {
		t.Errorf("exactly one category accepts an attendance: %v", category)
	}
	question := object["questions"].([]any)[0].(map[string]any)
	if question["field"] != "duration_minutes" || question["matters"] != true {
		t.Errorf("question %v", question)
	}
	candidate := question["candidates"].([]any)[0].(map[string]any)
	if candidate["value"] != 405.0 {
		t.Errorf("minutes are integers: %v", candidate)
	}
}

func TestQuestionsOfTheVault(t *testing.T) {
	tests := []struct {
		name, why string
		give      paper.Reading
		want      string // field, and ! where it matters
	}{
		{"clear", "nothing is open", course("A", "2026-03-03"), ""},
		{"flyer", "it proves nothing, so nothing is asked", reading(1, map[paper.Field]string{paper.FieldKind: "not-evidence"}), ""},
		{"flyer that names nobody", "whom it names is nobody's concern", asking(reading(1, map[paper.Field]string{paper.FieldKind: "not-evidence"}), paper.FieldAttendee, "It names nobody."), ""},
		{"flyer or not", "the kind is open", asking(course("A", "2026-03-03"), paper.FieldKind, "Is it a certificate?"), "kind!"},
		{"issue date", "no award reads it", asking(course("A", "2026-03-03"), paper.FieldIssue, "Which?"), "issue_date"},
		{"employment that goes on", "its last day is not known", with(without(course("A", "2026-03-03"), paper.FieldEnd), paper.FieldKind, "employment"), "end_date!"},
		{"meeting", "two categories accept it", with(course("A", "2026-03-03"), paper.FieldKind, "meeting"), "category!"},
		{"no category", "the scheme accepts no transcript", with(course("A", "2026-03-03"), paper.FieldKind, "transcript"), "category!"},
		{"receipt's minutes", "nothing reads them", asking(receipt("A", "B", "1.00 EUR", "2026-01-01"), paper.FieldIssue, "Which?"), "issue_date"},
		{"row", "each row is asked by itself", rowless(transcript()), "duration_minutes!"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			v := newVault(t)
			v.take("a.pdf", tt.give)
			list, err := v.Waiting(v.ctx)
			if err != nil {
				t.Fatal(err)
			}
			var words []string
			for _, q := range list[0].Questions {
				word := string(q.Field)
				if q.Text == "" {
					t.Errorf("the question on %s has no sentence", q.Field)
				}
				if q.Matters {
					word += "!"
				}
				words = append(words, word)
			}
			if got := strings.Join(words, " "); got != tt.want {
				t.Errorf("%s: asks %q, want %q", tt.why, got, tt.want)
			}
		})
	}
}

func rowless(r paper.Reading) paper.Reading {
	r.Rows[1].Duration = nil
	return r
}

func TestClaimsAndReceiptsPrintAsTheMachineInterfaceSays(t *testing.T) {
	v := newVault(t)
	v.confirm(journal.ConfirmOptions{}, v.take("a.pdf", without(course("A", "2026-03-03"), paper.FieldStart)))
	v.confirm(journal.ConfirmOptions{}, v.take("bill.pdf", receipt("Z", "B", "1.00 EUR", "2026-01-01")))
	claims, err := v.Claims(v.ctx, journal.ClaimsFilter{})
	if err != nil {
		t.Fatal(err)
	}
	c := keysOf(t, claims[0], "id activity certification category title provider start_date end_date duration_minutes awarded counted proofs")
	if c["start_date"] != nil || c["end_date"] != "2026-03-03" || c["duration_minutes"] != 420.0 || c["awarded"] != "1.75" {
		t.Errorf("claim %v", c)
	}
	keysOf(t, c["proofs"].([]any)[0], "field sha256 file page box quote by")
	list, err := v.Receipts(v.ctx)
	if err != nil {
		t.Fatal(err)
	}
	if r := keysOf(t, list[0], "id paper provider total state days cost_of proposal"); r["start_date"] != nil || r["issue_date"] != "2026-01-01" {
		t.Errorf("receipt %v", r)
	}
	st, err := v.Standing(v.ctx, credit.MustDate("2026-03-02"), "")
	if err != nil || st[0].Counted.Sign() != 0 {
		t.Errorf("a claim of the next day counts on 2 March: %v, %v", st, err)
	}
	for _, ref := range []string{"P1", "A1", "C1", "R1"} {
		d, err := v.Show(v.ctx, ref)
		if err != nil || d.ID != ref || len(d.History) == 0 {
			t.Fatalf("%s: %+v, %v", ref, d, err)
		}
		keysOf(t, d, "id history")
	}
	if _, err := v.Show(v.ctx, "R9"); err == nil || !strings.Contains(err.Error(), "R9") || !strings.Contains(err.Error(), "receipts") {
		t.Errorf("R9: %v", err)
	}
}
