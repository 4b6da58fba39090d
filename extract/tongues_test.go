package extract_test

import (
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// TestOtherTongues reads papers in French, Spanish and Dutch, each for what its grammar
// or its layout taught.
func TestOtherTongues(t *testing.T) {
	type wanted map[paper.Field]string
	tests := []struct {
		why   string
		lines []string
		want  wanted
	}{
		{"minutes name many, speak of other meetings, and say when it was opened and closed", []string{
			"Cercle des Fondeurs du Morvandel", "Commission Moules", "Compte rendu de la séance du jeudi 5 février 2026",
			"Présents : Mmes Aubrac et Teillet ; MM. Coindre et Vassel", "Excusé : M. Lhomond", "La séance est ouverte à 9 h 40.",
			"Approbation du compte rendu de la séance du 8 janvier 2026.", "La séance est levée à 11 h 10. Prochaine séance : jeudi 5 mars 2026."},
			wanted{"kind": "meeting", "start_date": "2026-02-05", "end_date": "2026-02-05", "attendee": "", "duration_minutes": "90"}},
		{"minutes in Dutch; the word for minutes is no part of the name", []string{
			"Notulen werkgroep Kademuren, 8e vergadering", "Genootschap Waterbouw Zuidhoek", "maandag 2 maart 2026, 14.00 – 16.15 uur",
			"Aanwezig: A. Bolle, R. Terhorst, W. Dijkema", "De voorzitter opent de vergadering om 14.00 uur.", "Verslag vorige vergadering (1 december 2025): vastgesteld.",
			"Het rapport is uiterlijk 1 mei 2026 gereed."},
			wanted{"kind": "meeting", "title": "werkgroep Kademuren, 8e vergadering", "start_date": "2026-03-02", "end_date": "2026-03-02", "attendee": "", "duration_minutes": "135"}},
		{"a list of days that runs over two months", []string{
			"Leergang Zoutwinning", "Hierbij verklaart het Instituut Zoutwerk dat Bram Oldekamp heeft deelgenomen aan de cursus Zieden en drogen op 10, 17 en 24 november en 1 december 2025.",
			"Afgegeven op 3 december 2025"},
			wanted{"start_date": "2025-11-10", "end_date": "2025-12-01", "issue_date": "2025-12-03"}},
		{"two days of the same form in the value of a label", []string{
			"École des métiers du Lac-Brun", "Attestation de présence", "Nom : Réjean Thivierge", "Formation : Calfatage des coques", "Date : 2026-02-11 et 2026-02-12", "Délivrée le 2026-02-20"},
			wanted{"start_date": "2026-02-11", "end_date": "2026-02-12", "issue_date": "2026-02-20"}},
		{"the last of two positions", []string{
			"Filature Desnoyers SARL", "CERTIFICAT DE TRAVAIL",
			"Je soussigné certifie que Madame Aude Lespinasse a été employée du 3 mai 2021 au 30 juin 2025, tout d'abord comme bobineuse, puis en qualité de contremaîtresse en teinturerie.",
			"Fait à Larzeval, le 1er juillet 2025"},
			wanted{"kind": "employment", "title": "contremaîtresse en teinturerie"}},
		{"who gave the course is not who the paper is for", []string{
			"Centro de Estudios del Mimbre", "CONSTANCIA", "se otorga a Jacinta Robledo Carmona por su asistencia al taller Cestería de ribera, impartido por el Mtro. Blas Ureña los días 9 y 10 de marzo de 2026, con una duración de 8 horas."},
			wanted{"kind": "attendance", "attendee": "Jacinta Robledo Carmona"}},
		{"a meeting at which an article was accepted is not what somebody attended", []string{
			"Tijdschrift voor Klokkengieterij", "Geachte mevrouw Ter Steege,",
			"De redactie heeft in haar vergadering van 14 januari 2026 uw bijdrage Barsten in brons aanvaard voor publicatie.", "Namens de redactie,", "Joris Mulder", "19 januari 2026"},
			wanted{"kind": "publication", "end_date": "2026-01-14", "issue_date": "2026-01-19"}},
		{"an acceptance dated in words that elsewhere begin a service", []string{
			"Anales de la Cal", "Valdequema, 9 de febrero de 2026", "Estimada Dra. Otilia Berrocal:",
			"Su artículo «Morteros de cal viva», recibido el 1 de octubre de 2025, fue aceptado para su publicación por el Comité Editorial con fecha 2 de febrero de 2026.", "Atentamente,"},
			wanted{"kind": "publication", "end_date": "2026-02-02"}},
		{"the day of a talk within a congress", []string{
			"Sociedad Mesetaria de Vidrio", "CERTIFICADO DE PONENTE",
			"Se certifica que Nuria Belmonte Sáez ha participado como ponente en el V Congreso de Vidrio Soplado, celebrado en Torrealta del 5 al 7 de marzo de 2026, con la ponencia «Hornos de leña», presentada el 6 de marzo de 2026.", "Torrealta, 7 de marzo de 2026"},
			wanted{"kind": "instruction", "start_date": "2026-03-06", "end_date": "2026-03-06", "title": "Hornos de leña"}},
		{"a course that the paper itself calls one at a distance", []string{
			"Académie du Grain", "ATTESTATION DE SUIVI AVEC SUCCÈS", "décernée à Hippolyte Maraval", "qui a suivi à distance, à son rythme, l'intégralité du cours en ligne", "Meunerie pour débutants", "Terminé le 3 août 2026"},
			wanted{"kind": "completion", "end_date": "2026-08-03", "start_date": ""}},
		{"tax that is within the total", []string{
			"Cursushuis De Vlieger", "Kwitantie", "Cursus Zeilmaken € 289,00", "Totaal betaald (incl. € 50,16 btw) € 289,00", "Ontvangen van: Aleid Roskam", "6 februari 2026"},
			wanted{"kind": "receipt", "total": "289.00 EUR"}},
		{"contact hours and credits in Dutch words", []string{
			"Certificaat van deelname", "Deelnemer: Durk Haitsma", "Scholing: Slootkanten beheren", "Aanbieder: Instituut Laagveen", "Data: 29 t/m 31 oktober 2025", "Contacturen   18", "Zelfstudie   10 uur", "Registerpunten: 21"},
			wanted{"duration_minutes": "1080", "credits": "21 Registerpunten"}},
		{"who certifies is named by the sentence", []string{
			"Attestation de participation", "L’association Vergers de Montbreuil certifie que Eulalie Coubertin a participé à l’atelier « Tailler un poirier » du samedi 14 mars 2026.", "Montbreuil, le 14 mars 2026"},
			wanted{"provider": "association Vergers de Montbreuil", "attendee": "Eulalie Coubertin"}},
		{"a name with an elided particle, and a number sign behind a name", []string{
			"Escuela de Cantería de Peñalba", "Extracto de expediente académico", "Alumno: Baltasar Rovira Chinchón N.º exp.: 118"},
			wanted{"attendee": "Baltasar Rovira Chinchón"}},
		{"the subject of a letter that only says what the letter is", []string{
			"Stichting Examens Lastechniek", "Datum: 2 maart 2026", "Onderwerp: uitslag examen", "Op 17 februari 2026 hebt u, Rein Bouwmeester, met goed gevolg het examen Lasser plaatwerk, niveau 2 afgelegd. U bent geslaagd."},
			wanted{"kind": "credential", "title": "Lasser plaatwerk, niveau 2"}},
	}
	for _, test := range tests {
		t.Run(test.why, func(t *testing.T) {
			r := extract.Understand(text(test.lines...), extract.Hints{})[0]
			for f, want := range test.want {
				if got := r.Values[f].Text; !same(f, want, got) {
					t.Errorf("%s is %q, want %q", f, got, want)
				}
			}
		})
	}
}

// TestMessagePassedOn reads a message that passes another on: the inner one counts.
func TestMessagePassedOn(t *testing.T) {
	inner := []string{"De : Secrétariat <secretariat@herbiers.invalid>", "Date : lun. 11 mai 2026 à 17:02", "Objet : Votre attestation de participation", "À : Hortense Cazal", "",
		"Bonjour Madame Cazal,", "", "Nous attestons que vous avez participé, le samedi 9 mai 2026 de 10h à 16h", "(pause de 12h à 13h30), à l'atelier « Reconnaître les joncs ».", "", "Cordialement,", "Cercle des herbiers"}
	for _, test := range []struct {
		why, subject string
		before       []string
		issue        string
	}{
		{"a mark", "TR: Votre attestation", []string{"Pour mes archives.", "", "---------- Message transféré ----------"}, "2026-05-11"},
		{"three lines of a head", "TR: Votre attestation", []string{"Pour mes archives.", ""}, "2026-05-11"},
		{"an answer quotes the earlier message and is itself what counts", "RE: Votre attestation", []string{"Nous attestons que vous avez participé le 9 mai 2026.", "", "-----Message d'origine-----"}, "2026-05-12"},
	} {
		doc := page.Document{Type: "eml", Mail: &page.Mail{From: "Hortense Cazal <h@exemple.invalid>", To: "archives@exemple.invalid", Subject: test.subject, Date: "2026-05-12T08:14:55+02:00"},
			Pages: []page.Page{{Number: 1, Lines: append(test.before, inner...)}}}
		r := extract.Understand(doc, extract.Hints{})[0]
		if got := r.Values[paper.FieldIssue].Text; got != test.issue {
			t.Errorf("%s: issued %q, want %q", test.why, got, test.issue)
		}
		if test.issue == "2026-05-11" && (r.Values[paper.FieldDuration].Text != "270" || r.Values[paper.FieldProvider].Text != "Cercle des herbiers") {
			t.Errorf("%s: %s minutes by %q, want 270 by Cercle des herbiers", test.why, r.Values[paper.FieldDuration].Text, r.Values[paper.FieldProvider].Text)
		}
	}
}
