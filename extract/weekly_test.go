package extract_test

import (
	"slices"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// The time of a week, as often as the weeks that the paper counts; a span is asked about.
func TestWeeksTimesTheirTime(t *testing.T) {
	tests := []struct {
		line string
		want string   // minutes
		ask  []string // or the candidates of the question
	}{
		{"Durée : 6 semaines, 2 à 3 heures par semaine", "", []string{"720", "1080"}},
		{"Dedicación: 5 semanas, 4 horas por semana", "1200", nil},
		{"Studielast: 3 uur per week gedurende 8 weken", "1440", nil},
		{"Study time: 4 weeks at 90 to 120 minutes a week", "", []string{"360", "480"}},
		{"Durée : 2 heures par semaine", "", nil},
		{"Durée : 6 semaines, 2 heures par jour", "", nil},
	}
	for _, tt := range tests {
		lines := []string{"Attestation de réussite", "Institut Vernelle", "Solène Archambaud a terminé la formation en ligne « Lire un bilan comptable ».", tt.line, "Fait à Nérac, le 12 mars 2026"}
		r := extract.Understand(page.Document{Pages: []page.Page{{Number: 1, Lines: lines}}}, extract.Hints{})[0]
		q, _ := r.Question(paper.FieldDuration)
		var asked []string
		for _, c := range q.Candidates {
			asked = append(asked, c.Text)
		}
		v := r.Values[paper.FieldDuration]
		if v.Text != tt.want || tt.ask != nil && (!slices.Equal(asked, tt.ask) || v.Certain) {
			t.Errorf("%s: %+v, candidates %v; want %q, %v", tt.line, v, asked, tt.want, tt.ask)
		}
	}
}
