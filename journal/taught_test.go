package journal_test

import (
	"fmt"
	"strings"
	"testing"

	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// A value that the person set teaches the one label at which just that stood in the
// paper, for the field that was set, for as long as the confirmation stands.
func TestCorrectionTeachesALabel(t *testing.T) {
	at := func(label string, sort paper.Sort, text, quote string) paper.Labelled {
		return paper.Labelled{Label: label, Sort: sort, Text: text, Place: paper.Place{Page: 1, Quote: quote}}
	}
	cleared := at("cleared by the desk", paper.SortDay, "2026-03-05", "5 March 2026")
	tests := []struct {
		name, why string
		labelled  []paper.Labelled
		set       string
		want      string // fields and labels that were learnt
	}{
		{"stood at a label", "the next paper will have it there", []paper.Labelled{cleared}, "end_date=2026-03-05", "end_date: cleared by the desk"},
		{"stood nowhere", "the person knew it from elsewhere", []paper.Labelled{cleared}, "end_date=2026-03-06", ""},
		{"stood at two labels", "nothing tells which of them is meant", []paper.Labelled{cleared, at("filed", paper.SortDay, "2026-03-05", "05.03.2026")}, "end_date=2026-03-05", ""},
		{"twice at one label", "it is the same label", []paper.Labelled{cleared, cleared}, "end_date=2026-03-05", "end_date: cleared by the desk"},
		{"last day of a span", "it can be the last day", []paper.Labelled{at("held", paper.SortFirst, "2026-03-05", "5-7 March"), at("held", paper.SortLast, "2026-03-07", "5-7 March")}, "end_date=2026-03-07", "end_date: held"},
		{"first day of a span", "it is no last day", []paper.Labelled{at("held", paper.SortFirst, "2026-03-05", "5-7 March")}, "end_date=2026-03-05", ""},
		{"minutes", "a length is learnt alike", []paper.Labelled{at("app log", paper.SortLength, "90", "90 min")}, "duration_minutes=90", "duration_minutes: app log"},
		{"a person", "whom it is about teaches nothing", []paper.Labelled{at("badge", paper.SortText, "Mara Quillfeather", "Mara Quillfeather")}, "attendee=Mara Quillfeather", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			v := newVault(t)
			r := course("Wire Ropes", "2026-03-03")
			r.Labelled = tt.labelled
			p := v.take("a.pdf", r)
			field, value, _ := strings.Cut(tt.set, "=")
			v.confirm(journal.ConfirmOptions{Set: map[string]string{field: value}}, p)
			list, err := v.Taught(v.ctx)
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, h := range list {
				got = append(got, fmt.Sprintf("%s: %s", h.Field, h.Label))
				if len(h.From) != 1 || h.From[0] != "C1" || len(h.Providers) != 1 {
					t.Errorf("%+v, want the provider and the claim it comes from", h)
				}
			}
			if s := strings.Join(got, ", "); s != tt.want {
				t.Errorf("learnt %q, want %q: %s", s, tt.want, tt.why)
			}
			if _, err := v.Undo(v.ctx, p); err != nil {
				t.Fatal(err)
			}
			if list, err := v.Taught(v.ctx); err != nil || len(list) > 0 {
				t.Errorf("after the confirmation was taken back: %+v %v, want nothing", list, err)
			}
		})
	}
}

// Where the program took the field from the same place, only its meaning was open: of
// day and month nothing is learnt.
func TestOrderOfDayAndMonthIsNeverLearnt(t *testing.T) {
	v := newVault(t)
	r := asking(course("Wire Ropes", "2026-03-03"), paper.FieldEnd, "3 April or 4 March?", "2026-04-03", "2026-03-04")
	place := paper.Place{Page: 1, Quote: "03/04/2026"}
	r.Values[paper.FieldEnd] = paper.Value{Text: "2026-04-03", Place: place, By: paper.ByProgram,
		Candidates: []paper.Candidate{{Text: "2026-04-03", Place: place}, {Text: "2026-03-04", Place: place}}}
	r.Labelled = []paper.Labelled{{Label: "completed on", Sort: paper.SortDay, Text: "2026-04-03", Place: place}, {Label: "completed on", Sort: paper.SortDay, Text: "2026-03-04", Place: place}}
	v.confirm(journal.ConfirmOptions{Set: map[string]string{"end_date": "2026-03-04"}}, v.take("a.pdf", r))
	if list, err := v.Taught(v.ctx); err != nil || len(list) > 0 {
		t.Errorf("%+v %v, want nothing learnt", list, err)
	}
}
