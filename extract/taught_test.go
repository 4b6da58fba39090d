package extract_test

import (
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

const schoolPaper = `Corrivane School of Rope Work

Certificate of Completion

Name: Mirela Tannhof
Online course: Inspecting Haul Ropes
Completed on: 19 May 2025
Cleared by the desk: 20 May 2025
Duration: 4 hours
Issued: 21 May 2025`

func textPaper(text string) page.Document {
	return page.Document{Type: "txt", Pages: []page.Page{{Number: 1, Lines: strings.Split(text, "\n")}}}
}

// What corrections taught proposes the value at its label, first among the candidates of
// an open question; it never makes a value certain.
func TestTaughtLabels(t *testing.T) {
	school := []string{"Corrivane School of Rope Work"}
	habit := func(f paper.Field, label string, of ...string) []paper.Habit {
		return []paper.Habit{{Providers: of, Field: f, Label: label, From: []string{"C1"}}}
	}
	tests := []struct {
		name, why string
		text      string
		habits    []paper.Habit
		field     paper.Field
		want      []string // the candidates, the first being the value; one alone is certain
	}{
		{"none", "nothing was taught", schoolPaper, nil, paper.FieldEnd, []string{"2025-05-19"}},
		{"another day", "what is read otherwise comes second", schoolPaper, habit(paper.FieldEnd, "cleared by the desk", school...), paper.FieldEnd, []string{"2025-05-20", "2025-05-19"}},
		{"a name as it was read", "the person corrected the provider's name too", schoolPaper, habit(paper.FieldEnd, "cleared by the desk", "Corrivane Rope School", "CORRIVANE SCHOOL OF ROPE WORK"), paper.FieldEnd, []string{"2025-05-20", "2025-05-19"}},
		{"another provider", "a habit is about one provider's papers", schoolPaper, habit(paper.FieldEnd, "cleared by the desk", "Brinefield Institute"), paper.FieldEnd, []string{"2025-05-19"}},
		{"no such label", "the paper has another form", schoolPaper, habit(paper.FieldEnd, "handed in", school...), paper.FieldEnd, []string{"2025-05-19"}},
		{"agreed", "the program reads just that", schoolPaper, habit(paper.FieldEnd, "completed on", school...), paper.FieldEnd, []string{"2025-05-19"}},
		{"another field", "only the field that was corrected is asked", schoolPaper, habit(paper.FieldIssue, "cleared by the desk", school...), paper.FieldEnd, []string{"2025-05-19"}},
		{"day or month", "the label is learnt, the order of day and month never", strings.Replace(schoolPaper, "20 May 2025", "05/06/2025", 1),
			habit(paper.FieldEnd, "cleared by the desk", school...), paper.FieldEnd, []string{"2025-06-05", "2025-05-06", "2025-05-19"}},
		{"a text is no day", "what stands at the label cannot be of the field", strings.Replace(schoolPaper, "20 May 2025", "M. Ostrander", 1),
			habit(paper.FieldEnd, "cleared by the desk", school...), paper.FieldEnd, []string{"2025-05-19"}},
		{"minutes", "a length", schoolPaper + "\nApp log: 250 minutes", habit(paper.FieldDuration, "app log", school...), paper.FieldDuration, []string{"250", "240"}},
		{"a title", "a text", schoolPaper + "\nFiled under: Haul Ropes II", habit(paper.FieldTitle, "filed under", school...), paper.FieldTitle, []string{"Haul Ropes II", "Inspecting Haul Ropes"}},
	}
	for _, tt := range tests {
		r := extract.Understand(textPaper(tt.text), extract.Hints{Holder: "Mirela Tannhof", Habits: tt.habits})[0]
		v := r.Values[tt.field]
		q, asked := r.Question(tt.field)
		got := []string{v.Text}
		if asked {
			got = nil
			for _, c := range q.Candidates {
				got = append(got, c.Text)
			}
		}
		if strings.Join(got, " | ") != strings.Join(tt.want, " | ") || v.Text != tt.want[0] || v.Certain == (len(tt.want) > 1) || asked != (len(tt.want) > 1) {
			t.Errorf("%s (%s): %v of %+v, want %v", tt.name, tt.why, got, v, tt.want)
		}
		if asked && (!strings.Contains(q.Candidates[0].Why, "took it for C1") || !strings.Contains(q.Text, "which stands at") && tt.name != "minutes" || q.Candidates[0].Place.Quote == "") {
			t.Errorf("%s: %+v, want it to say where the proposal comes from", tt.name, q)
		}
	}
}
