package paper_test

import (
	"encoding/json"
	"testing"

	"evidencevault/extract/paper"
)

func TestPointsAreDecimal(t *testing.T) {
	tests := []struct {
		give paper.Points
		want string
	}{
		{paper.Points{7250, 10000, 21025, 11200}, "[72.5,100,210.25,112]"},
		{paper.Points{0, 5, -150, 1}, "[0,0.05,-1.5,0.01]"},
	}
	for _, tt := range tests {
		got, err := json.Marshal(tt.give)
		if err != nil || string(got) != tt.want {
			t.Errorf("%v gave %s, %v; want %s", tt.give, got, err, tt.want)
		}
		var back paper.Points
		if err := json.Unmarshal(got, &back); err != nil || back != tt.give {
			t.Errorf("%s read back as %v, %v; want %v", got, back, err, tt.give)
		}
	}
	var p paper.Points
	if err := json.Unmarshal([]byte(`[1.234,2,3,4]`), &p); err == nil {
		t.Error("three decimals were taken, want an error")
	}
}

func TestLineIsTyped(t *testing.T) {
	r := paper.Reading{Outcome: paper.OutcomeRead, From: 2, To: 3, Values: map[paper.Field]paper.Value{
		paper.FieldDuration: {Text: "420", Certain: true, Place: paper.Place{Page: 2, Box: paper.Box{7250, 10000, 21025, 11200}, Quote: "7 h"}, By: paper.ByProgram},
		paper.FieldCredits:  {Text: "1.5 CEU; 3 points"},
		paper.FieldTotal:    {Text: "518.40 GBP", Candidates: []paper.Candidate{{Text: "518.40 GBP", Why: "it is printed"}}},
	}, Questions: []paper.Question{{Field: paper.FieldTotal, Text: "Is it?"}}}
	got, err := json.Marshal(paper.LineOf("x.pdf", r))
	if err != nil {
		t.Fatal(err)
	}
	want := `{"file":"x.pdf","pages":[2,3],"outcome":"reads anyway","kind":null,"title":null,"provider":null,"attendee":null,` +
		`"start_date":null,"end_date":null,"issue_date":null,"duration_minutes":420,"credits":[{"unit":"CEU","value":"1.5"},{"unit":"points","value":"3"}],` +
		`"total":{"amount":"518.40","currency":"GBP"},"certain":["duration_minutes"],"questions":[{"field":"total","text":"Is it?"}],` +
		`"values":{"credits":{"value":[{"unit":"CEU","value":"1.5"},{"unit":"points","value":"3"}],"box":null,"certain":false},` +
		`"duration_minutes":{"value":420,"page":2,"box":[72.5,100,210.25,112],"quote":"7 h","certain":true,"by":"program"},` +
		`"total":{"value":{"amount":"518.40","currency":"GBP"},"box":null,"certain":false,"candidates":[{"value":{"amount":"518.40","currency":"GBP"},"why":"it is printed"}]}}}`
	if string(got) != want {
		t.Errorf("line\n%s\nwant\n%s", got, want)
	}
}
