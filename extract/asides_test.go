package extract_test

import (
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// An asked is a field of a short paper with what is wanted of it: its text, or that it is not
// certain whatever it is.
type asked struct {
	name, text string
	want       map[paper.Field]string // "?" is any text that is not certain
}

// askedFor returns what makes an asked of one field.
func askedFor(f paper.Field) func(name, text, want string) asked {
	return func(name, text, want string) asked { return asked{name, text, map[paper.Field]string{f: want}} }
}

func checkAsked(t *testing.T, list []asked) {
	t.Helper()
	for _, tt := range list {
		r := extract.Understand(pagesOf(tt.text), extract.Hints{})[0]
		for f, want := range tt.want {
			v := r.Values[f]
			switch {
			case want == "?" && v.Certain:
				t.Errorf("%s: %s is %q for certain, want a question", tt.name, f, v.Text)
			case want != "?" && v.Text != want:
				t.Errorf("%s: %s is %q, want %q", tt.name, f, v.Text, want)
			}
		}
	}
}

// TestDaysAside: days until which something holds, of birth, of printing and of papers that are
// only referred to are taken neither for the event's nor for that of issue.
func TestDaysAside(t *testing.T) {
	const (
		start = paper.FieldStart
		end   = paper.FieldEnd
		issue = paper.FieldIssue
	)
	checkAsked(t, []asked{
		{"a term three years later", "Wickmoor Learning Hub\n# Certificate of Completion\nOrla Fennimore has completed the online course\n# Bench Grinder Checks\n14 May 2025\nHours: 2\n14 May 2028",
			map[paper.Field]string{end: "2025-05-14", issue: ""}},
		{"a term a day short of four years", "# Teilnahmebescheinigung\nUlrike Sandnagel hat am 9. Juni 2025 am Kurs \"Ofensetzen\" teilgenommen.\nRingau, 10. Juni 2025\n9. Juni 2029",
			map[paper.Field]string{start: "2025-06-09", end: "2025-06-09", issue: "2025-06-10"}},
		{"printed later from a portal", "CENTRE DE FORMATION VANNELLE\n# ATTESTATION DE PRÉSENCE\nStagiaire : Ysaline Trébuchon\nFormation : Émaux sans plomb\nDate de début : 03/03/2025\nDate de fin : 14/03/2025\nDélivré le : 20/03/2025\nImprimé depuis le portail le 22/09/2025 à 10:12",
			map[paper.Field]string{start: "2025-03-03", end: "2025-03-14", issue: "2025-03-20"}},
		{"the end under its Spanish label", "INSTITUTO ALFARERO DE QUELMO\n# CERTIFICADO DE ASISTENCIA\nParticipante: Herminia Zavaleta Poot\nCurso: Tornos y seguridad\nInicio: 17-02-2025\nTérmino: 28-02-2025\nEmitido: 05-03-2025\nVigencia: 05-03-2029\nImpreso desde el portal el 11-06-2025",
			map[paper.Field]string{start: "2025-02-17", end: "2025-02-28", issue: "2025-03-05"}},
		{"how long it can be kept", "Leerhuis Oostveld\n# Certificaat\nSanne Brouwhuis rondde de e-learning Veilig stoken af.\nAfgerond: 6 maart 2025\nHoudbaar tot: 6 maart 2027",
			map[paper.Field]string{end: "2025-03-06", issue: ""}},
		{"an order that is only referred to", "Directorate of Kiln Safety\n# CERTIFICATE\nDate: 20/03/2026\nCertified that Mr Orrin Fennimore has attended the refresher course on Kiln Inspection from 09/03/2026 to 13/03/2026 under the scheme sanctioned vide Office Order No. K-12 dated 17/11/2024.",
			map[paper.Field]string{start: "2026-03-09", end: "2026-03-13"}},
		{"an identity card, and a day in words", "ALFARERÍA DEL SUR S.A.S.\n# CERTIFICA\nQue la señora Herminia Zavaleta Poot, identificada con cédula de ciudadanía expedida en Quelmo el 4 de agosto de 2003, laboró en esta empresa del 01/02/2015 al 30/06/2025.\nLa presente se expide a solicitud de la interesada en Quelmo, a los cuatro (4) días del mes de julio de 2025.",
			map[paper.Field]string{start: "2015-02-01", end: "2025-06-30", issue: "2025-07-04"}},
		{"born", "# Fortbildungsnachweis\nHerr Jost Wendel, geb. 11.02.1979, besuchte am 5. Mai 2025 das Seminar \"Glasuren\".\nGültig bis 5. Mai 2027\nRingau, 6. Mai 2025",
			map[paper.Field]string{start: "2025-05-05", end: "2025-05-05", issue: "2025-05-06"}},
	})
}

// TestAcceptedAndLeft: the day of acceptance is that of the clause that speaks of it, and an
// employment ended when somebody left, not when a permit runs out.
func TestAcceptedAndLeft(t *testing.T) {
	const end = paper.FieldEnd
	checkAsked(t, []asked{
		{"accepted between two other days", "Revista de Cerámica Aplicada\n# CERTIFICADO DE PUBLICACIÓN\nEl director certifica que el artículo «Engobes salinos», recibido el 3 de marzo de 2025 y aceptado tras revisión por pares el 20 de mayo de 2025, fue publicado el 15 de agosto de 2025. Autora: Herminia Zavaleta Poot.",
			map[paper.Field]string{end: "2025-05-20"}},
		{"the board resolved to accept it", "Cahiers de la poterie\nMadame Trébuchon,\nEn date du 7 avril 2025, le comité de lecture a décidé d'accepter votre article « Engobes salins » pour publication. Vous recevrez les épreuves en juin.",
			map[paper.Field]string{end: "2025-04-07"}},
		{"accepted behind the day", "Zeitschrift für Keramik\nSehr geehrte Frau Sandnagel, Ihr Beitrag \"Salzglasuren\", eingegangen am 2. Januar 2025, wurde am 11. April 2025 zur Veröffentlichung angenommen.",
			map[paper.Field]string{end: "2025-04-11"}},
		{"retired", "To whom it may concern\nMrs Orla Fennimore worked at this pottery as kiln hand from 5 September 1994 and retired on 19 December 2025. Her lifting ticket runs until 30 November 2026.\nWickmoor Pottery, 14 January 2026",
			map[paper.Field]string{end: "2025-12-19"}},
		{"left within a list", "Aardewerkfabriek Oostveld\nHierbij verklaren wij dat mevrouw Sanne Brouwhuis van 1 april 2019 tot 31 maart 2025 als draaister bij ons in dienst was. Haar heftruckbewijs is geldig tot 30 november 2026.\nOostveld, 4 april 2025",
			map[paper.Field]string{end: "2025-03-31"}},
	})
}

// TestTimesThatDisagree: where a paper gives two whole times it is asked which holds, and what is
// a break or preparation within one is taken from it.
func TestTimesThatDisagree(t *testing.T) {
	const minutes = paper.FieldDuration
	checkAsked(t, []asked{
		{"as attended in the sentence", "CERTIFICADO DE ASISTENCIA\nParticipante: Herminia Zavaleta Poot\nCurso: Tornos y seguridad\nFecha: 17-02-2025\nHoras: 16\nLa participante asistió a las 12 horas que comprende el curso.",
			map[paper.Field]string{minutes: "?"}},
		{"three breaks in one line", "# Certificate of Attendance\nOrla Fennimore spent Tuesday 17 February 2026 with us for the study day\n# Slip Casting\n9.00 am to 4.00 pm\n(coffee 10.30–10.45, lunch 12.30–1.15, tea 2.30–2.45)",
			map[paper.Field]string{minutes: "345"}},
		{"the break under the hours", "Keramiekkring Oostveld\n# Presentiebon\nOnderwerp: Zoutglazuur\nWanneer: wo 11 februari 2026, 19.30 – 22.00 uur\npauze 20.30 – 20.45 uur\nBijgewoond door: Sanne Brouwhuis",
			map[paper.Field]string{minutes: "135"}},
		{"of which preparation", "# Attestation\nJe certifie que Mme Ysaline Trébuchon a donné le cours « Émaux » le 6 mars 2025. Dix heures lui ont été comptées, dont deux de préparation.",
			map[paper.Field]string{minutes: "480"}},
		{"of which preparation, in German", "# Bescheinigung\nFrau Ulrike Sandnagel hat am 6. März 2025 den Kurs \"Glasuren\" gehalten. Vergütet wurden 9 Stunden, davon 3 Stunden Vorbereitung.",
			map[paper.Field]string{minutes: "360"}},
	})
}
