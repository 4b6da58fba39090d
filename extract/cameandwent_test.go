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

// TestGradeThatWasTicked: of the grades on a form the person has the one that is ticked, on one line or
// under each other.
func TestGradeThatWasTicked(t *testing.T) {
	checkValues(t, paper.FieldTitle, []valueCase{
		{"English", "Wendle Guild of Glaziers\n# Receipt for membership dues\nReceived from Orla Fennimore\nGrade: ☐ honorary member ☒ full member ☐ student member\nfor the year 1 January 2026 to 31 December 2026\nDues paid: £ 60.00\nIssued on 9 January 2026", "full member"},
		{"German", "Fachverband der Ofensetzer e. V.\n# Beitragsquittung\nErhalten von Frau Ulrike Sandnagel\nals [ ] Ehrenmitglied [x] ordentliches Mitglied [ ] Fördermitglied\nfür das Jahr 2026\nMitgliedsbeitrag: 60,00 €\nAusgestellt am 9. Januar 2026", "ordentliches Mitglied"},
		{"French", "Cercle des potiers d'Ambrelle\n# Reçu de cotisation\nReçu de Mme Solène Archambaud\nen qualité de : ☐ membre honoraire ☒ membre actif ☐ étudiante\npour l'exercice du 1er janvier 2026 au 31 décembre 2026\nCotisation annuelle : 60,00 €\nReçu établi le 9 janvier 2026", "membre actif"},
		{"Spanish, under each other", "Asociación de Ceramistas del Sur\n# Recibo de cuota\nRecibido de doña Herminia Zavaleta Poot\n☐ Socia honoraria\n☒ Socia numeraria\n☐ Socia estudiante\ncuota del 1 de enero de 2026 al 31 de diciembre de 2026: 60,00 €\nExpedido el 9 de enero de 2026", "Socia numeraria"},
		{"Dutch", "Vereniging van Ovenbouwers Ostmeer\n# Contributiebewijs\nOntvangen van mevrouw Wieke Aldershof\nals ☐ erelid ☒ gewoon lid ☐ studentlid\nvoor het jaar 2026\nContributie: € 60,00\nAfgegeven op 9 januari 2026", "gewoon lid"},
		{"on a card, beside what its holder can do", "Asociación de Ceramistas del Alto Sur\n# Herminia Zavaleta Poot\nSocia de número · Carné n.º 0418\nEspecialidades: engobes, esmaltes\nVálido del 1 de enero al 31 de diciembre de 2026\nExpedido el 8 de enero de 2026", "Socia de número"},
		{"on a card in French", "Association des potiers d'Ambrelle\n# Solène Archambaud\nMembre d'honneur · Carte n° 418\nSpécialités : engobes, émaux\nValable du 1er janvier au 31 décembre 2026\nDélivrée le 8 janvier 2026", "Membre d'honneur"},
	})
}
