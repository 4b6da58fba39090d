package extract

import (
	"testing"

	"evidencevault/extract/find"
	"evidencevault/extract/paper"
)

// A sign that is not proven makes nothing certain by itself; with another one, from another
// place of the paper, it does.
func TestOneSignThatIsNotProven(t *testing.T) {
	weak := guess{text: "Brake tests on chairlifts", why: "the sentence names it", score: 82, sure: true}
	if !weak.alone(paper.FieldTitle) || weak.alone(paper.FieldAttendee) {
		t.Error("the sign is not proven for titles, and for nothing else")
	}
	same := guess{text: "Brake Tests on Chairlifts", why: "it stands in quotation marks", score: 70, at: at{passage: 3}}
	if list := best([]guess{weak, same}); len(list) != 1 || list[0].alone(paper.FieldTitle) {
		t.Errorf("%+v: two signs at two places", list)
	}
	same.at = weak.at
	if list := best([]guess{weak, same}); len(list) != 1 || list[0].alone(paper.FieldTitle) {
		t.Errorf("%+v: what its words say and how it is set are two signs", list)
	}
	same.why = "the line before announces it"
	if list := best([]guess{weak, same}); len(list) != 1 || !list[0].alone(paper.FieldTitle) {
		t.Errorf("%+v: two signs of words at one place are one", list)
	}
	for text, alone := range map[string]bool{"Incident Handling for Duty Managers": false, "due to you": true, "8e druk": true, "Handling": true} {
		if got := (guess{text: text, why: onlyThing}).alone(paper.FieldTitle); got != alone {
			t.Errorf("%s: alone %v, want %v", text, got, alone)
		}
	}
	for text, alone := range map[string]bool{"Ropeway Inspector": false, "Leiterin der Qualitätsprüfung": false, "Warden a team": true, "membre titulaire": true, "Inspector": true, "Rescue on Rock": false, "What Works: And Not Speaker: Dr": true} {
		if got := (guess{text: text, why: sentenceSays}).alone(paper.FieldTitle); got != alone {
			t.Errorf("%s: alone %v, want %v", text, got, alone)
		}
	}
}

func TestShapesThatAreOdd(t *testing.T) {
	l := &look{sheet: &sheet{langs: find.Languages{find.English, find.German}}}
	for text, odd := range map[string]bool{
		"Vallmere Ropeway Inspection Council": false, "EUR 95,00": true, "30. April 2026": true, "My learning › Completed": true,
		"Centre 2000 for Ropes": false, "office@vallmere.example": true,
	} {
		if got := l.oddBody(text); got != odd {
			t.Errorf("body %q: odd %v, want %v", text, got, odd)
		}
	}
	for text, odd := range map[string]bool{`CP-77 for wards". Start`: true, `The "safe" rope`: false, "Ropes (part 1": true, "Ropes (part 1)": false, "«Cordes» et nœuds": false, "„Seile“ prüfen": false, "Seile” prüfen": true} {
		if got := halfOf(text); got != odd {
			t.Errorf("%q: half %v, want %v", text, got, odd)
		}
	}
	for text, odd := range map[string]bool{"1 registration @ $275.00": true, "Arc Flash Awareness": false, "Rope course, 120.00 EUR": true} {
		if got := l.oddTitle(text); got != odd {
			t.Errorf("title %q: odd %v, want %v", text, got, odd)
		}
	}
}
