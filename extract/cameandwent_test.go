package extract_test

import (
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// TestHoursOfComing: the hours at which somebody came and went are those attended, whatever the event's
// are, less the breaks of the form.
func TestHoursOfComing(t *testing.T) {
	checkValues(t, paper.FieldDuration, []valueCase{
		{"under labels, with breaks", "Wendle Forum\n# Record of Attendance\nName: Orla Fennimore\nCourse: Kiln Vents\nDate of course: 3 March 2026\nTime in: 10:00\nTime out: 15:30\nLunch: 30 minutes", "300"},
		{"within the hours of the event", "Brennhof Akademie\n# Teilnahmebescheinigung\nName: Ulrike Sandnagel\nSeminar: Ofenbau\nDatum: 3. März 2026\nZeit: 9:00–17:00 Uhr\nGekommen: 9:30 Uhr\nGegangen: 16:00 Uhr", "390"},
		{"in French", "Atelier Sud\n# Feuille de présence\nNom : Solène Archambaud\nStage : Cuisson au bois\nDate : 3 mars 2026\nHeure d'arrivée : 9h15\nHeure de départ : 12h45", "210"},
		{"in Spanish", "Taller Sur\n# Certificado de asistencia\nNombre: Herminia Zavaleta Poot\nCurso: Esmaltes\nFecha: 3 de marzo de 2026\nHora de entrada: 16:00\nHora de salida: 20:00", "240"},
		{"in Dutch", "Ovenhuis Ostmeer\n# Presentiekaart\nNaam: Wieke Aldershof\nCursus: Veilig stoken\nDatum: 3 maart 2026\nAankomsttijd: 13.00 uur\nVertrektijd: 16.30 uur\nPauze: 15 minuten", "195"},
		{"where somebody left from", "Wendle Forum\n# Certificate of Attendance\nName: Orla Fennimore\nStudy tour: Kiln Sites\nDate of tour: 3 March 2026\nDeparture: Market Square\nTime: 9:00–12:00", "180"},
	})
}

// TestChoicesOnForms: what nobody ticked says nothing of the person, and what is ticked does.
func TestChoicesOnForms(t *testing.T) {
	form := "Wendle Forum\n# Attendance slip\nName: Orla Fennimore\nEvent: Kiln Vents\nDate: 3 March 2026\nTime: 13:00 to 17:00\n"
	for _, c := range []struct {
		ticks   string
		certain bool
	}{
		{"Attended: ☒ throughout ☐ in part", true},
		{"Attended: [x] throughout [ ] left early", true},
		{"Attended: ☐ throughout ☒ in part", false},
		{"Attended: ☐ throughout ☐ in part", false}, // nobody chose
	} {
		v := extract.Understand(pagesOf(form+c.ticks), extract.Hints{})[0].Values[paper.FieldDuration]
		if v.Text != "240" || v.Certain != c.certain {
			t.Errorf("%s: %q, certain %v; want 240, certain %v", c.ticks, v.Text, v.Certain, c.certain)
		}
	}
}
