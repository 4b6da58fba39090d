package extract_test

import (
	"slices"
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

// TestTaughtPlaces: what stands at no label is proposed where it stood when a person took
// it, on the same page and nearly in the same place.
func TestTaughtPlaces(t *testing.T) {
	const school = "Corrivane School of Rope Work"
	lines := func(title string) []string {
		return []string{school, "# Certificate of Completion", "", "Name: Mirela Tannhof", "Online course: Inspecting Haul Ropes", "Completed on: 19 May 2025", "", "", "# " + title}
	}
	first := extract.Understand(invented{lines: lines("Module Three Sockets")}.asPage(), extract.Hints{})[0]
	i := slices.IndexFunc(first.Labelled, func(l paper.Labelled) bool { return l.Text == "Module Three Sockets" })
	if i < 0 || first.Labelled[i].Label != "" {
		t.Fatalf("%+v: want the module without a label", first.Labelled)
	}
	at := paper.Place{Page: 1, Box: first.Labelled[i].Place.Box}
	moved, below := at, at
	moved.Box[0], moved.Box[2] = at.Box[0]+4000, at.Box[2]+6000
	below.Box[1], below.Box[3] = at.Box[1]+2000, at.Box[3]+2000
	tests := []struct {
		name, want string // the candidates; one with a mark is certain
		habit      paper.Habit
	}{
		{"the same place", "Module Four Clamps | Inspecting Haul Ropes", paper.Habit{Providers: []string{school}, Field: paper.FieldTitle, At: at, From: []string{"C1"}}},
		{"further right", "Inspecting Haul Ropes!", paper.Habit{Providers: []string{school}, Field: paper.FieldTitle, At: moved, From: []string{"C1"}}},
		{"further down", "Inspecting Haul Ropes!", paper.Habit{Providers: []string{school}, Field: paper.FieldTitle, At: below, From: []string{"C1"}}},
		{"another page", "Inspecting Haul Ropes!", paper.Habit{Providers: []string{school}, Field: paper.FieldTitle, At: paper.Place{Page: 2, Box: at.Box}, From: []string{"C1"}}},
		{"another provider", "Inspecting Haul Ropes!", paper.Habit{Providers: []string{"Brinefield Institute"}, Field: paper.FieldTitle, At: at, From: []string{"C1"}}},
		{"no text is a day", "Inspecting Haul Ropes!", paper.Habit{Providers: []string{school}, Field: paper.FieldEnd, At: at, From: []string{"C1"}}},
	}
	for _, tt := range tests {
		r := extract.Understand(invented{lines: lines("Module Four Clamps")}.asPage(), extract.Hints{Habits: []paper.Habit{tt.habit}})[0]
		got := shownDays(r, paper.FieldTitle)
		if q, asked := r.Question(paper.FieldTitle); asked {
			got = q.Candidates[0].Text + " | " + q.Candidates[1].Text
			if !strings.Contains(q.Text, "in its place on the page") || !strings.Contains(q.Candidates[0].Why, "took it for C1") {
				t.Errorf("%s: %+v, want it to say where the proposal comes from", tt.name, q)
			}
		}
		if got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}
