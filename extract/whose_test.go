package extract_test

import (
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// TestWhose: whose paper it is and who made it, on short papers in five languages.
func TestWhose(t *testing.T) {
	tests := []struct {
		why, page string
		field     paper.Field
		want      string
		certain   bool
	}{
		{"the street beneath a person is no body", "beroepsvereniging Klankwerf\nMevrouw Saar Tollebeek\nWilgenhof 12\n9711 ZZ Groningen\n# CONTRIBUTIENOTA 2026\nLidsoort: Gewoon lid\nTotaal: € 90,00", paper.FieldProvider, "beroepsvereniging Klankwerf", false},
		{"initials behind a surname are no degree", "Stichting De Veerpont\n# Bewijs van deelname\nNaam en voorletters: van Hoogwoud, T.B.\nCursus: Veilig tillen\nDatum: 4 maart 2025", paper.FieldAttendee, "T.B. van Hoogwoud", false},
		{"what a form of address follows is not the word before it", "VIVEROS DE ALMARZA, S.L.\nCERTIFICA:\nQue D. Fermín Olavide Sanz, nacido el 2 de mayo de 1980, ha formado parte de la plantilla desde el 3 de marzo de 2019.\nSoria, 5 de julio de 2024", paper.FieldAttendee, "Fermín Olavide Sanz", true},
		{"two spellings that disagree are asked about", "Prüfstelle für Hebezeuge\n# Urkunde\nFrau Kathrin Olbersreut hat die Prüfung am 12. Juni 2025 bestanden.\nMagdeburg, den 30. Juni 2025\nEintrag im Register: Olbersreut, Katrin / Bl. 7", paper.FieldAttendee, "Kathrin Olbersreut", false},
		{"a line that gives to the one beneath it", "Wendle Institute of Tree Care\n# Confirmation of Presentation\nWe thank\nOrla Fennimore\nfor giving the lecture\nReading Bark\non 12 March 2025.", paper.FieldAttendee, "Orla Fennimore", true},
		{"a label that asks for a body", "# Completion Certificate\nName: Orla Fennimore\nSubject: Reading Bark\nCompletion date: 12 March 2025\nTraining body: Royal Wendle Riggers", paper.FieldProvider, "Royal Wendle Riggers", true},
		{"a firm of somebody and others", "# Certificado de asistencia\nNombre: Itziar Lamuela Roca\nCurso: Poda en altura\nFecha: 4 de marzo de 2025\nOrganiza: Montesinos y Asociados", paper.FieldProvider, "Montesinos y Asociados", true},
		{"rows of figures are no labels again, though the first is set larger", "Wendle Potters' Guild, Section 4\nMonthly section meeting: attendance sheet\nDate: Thursday, October 8, 2026\nMember   No.   In\n# Edithvarn—s—i TTC   20330   5:48\nOrla Fennimore   20331   6:00\nSy Tollbeck   18840   6:02\nCertified for Orla Fennimore by the secretary, October 9, 2026", paper.FieldAttendee, "Orla Fennimore", false},
		{"an initiative is a body", "# Attestation de présence\nParticipant : Ghislaine Aubervoix\nFormation : Taille douce\nDate : 4 mars 2025\nOrganisme : Initiative Vergers", paper.FieldProvider, "Initiative Vergers", true},
		{"what praises is no first name", "Plateforme Sève ASBL\nBravo Ghislaine Aubervoix, ton module est terminé !\n# Taille douce : gestes et outils\nModule terminé le 19 novembre 2024", paper.FieldAttendee, "Ghislaine Aubervoix", true},
		{"the years of a copyright are no part of the name", "# Certificate of Completion\nCourse: Reading Bark\nCompleted by Orla Fennimore on 17 November 2025\n© Wendle Academy 2018–2026", paper.FieldProvider, "Wendle Academy", false},
		{"to whom it is given, by what they are", "Baumschule Lindau e. V.\n# An unsere Referentin\nHilke Sandnagel\nVortrag: Rinde lesen\nTermin: 4. März 2025", paper.FieldAttendee, "Hilke Sandnagel", true},
		{"whose card it is", "Töpferbund Wendel e. V.\n# Mitgliedskarte\nvon Hilke Sandnagel\nMitglied seit 2019\nGültig vom 1. Januar 2026 bis 31. Dezember 2026", paper.FieldAttendee, "Hilke Sandnagel", false},
		{"the street beneath a person is no body, in German", "berufsverband Klangwerk\nFrau Silke Torhaus\nWeidenhof 12\n04103 Leipzig\n# BEITRAGSRECHNUNG 2026\nMitgliedsart: Vollmitglied\nGesamtbetrag: 90,00 €", paper.FieldProvider, "berufsverband Klangwerk", false},
		{"initials behind a surname, in English", "Wendle Institute of Tree Care\n# Certificate of Attendance\nName: Fennimore-Oddy, K.L.\nCourse: Reading Bark\nDate: 4 March 2025", paper.FieldAttendee, "K.L. Fennimore-Oddy", false},
		{"that somebody did it, in French", "PÉPINIÈRES DU VALOIR SARL\nCERTIFIE :\nQue M. Fulbert Aubervoix, né le 2 mai 1980, a travaillé dans notre entreprise depuis le 3 mars 2019.\nLoches, le 5 juillet 2024", paper.FieldAttendee, "Fulbert Aubervoix", true},
		{"two spellings that disagree, in Spanish", "Colegio de Podadores de Soria\n# Diploma\nDoña Cristina Olavide Sanz ha superado el examen el 12 de junio de 2025.\nSoria, 30 de junio de 2025\nRegistro: Olavide Sanz, Christina / folio 7", paper.FieldAttendee, "Cristina Olavide Sanz", false},
		{"a line that thanks the one beneath it, in Dutch", "Stichting De Veerpont\n# Bevestiging van een lezing\nWij danken\nSaar Tollebeek\nvoor het geven van de lezing\nSchors lezen\nop 12 maart 2025.", paper.FieldAttendee, "Saar Tollebeek", true},
		{"a label that asks for a body, in German", "# Teilnahmebescheinigung\nName: Hilke Sandnagel\nKurs: Rinde lesen\nDatum: 12. März 2025\nBildungsanbieter: Wendel Baumpfleger", paper.FieldProvider, "Wendel Baumpfleger", true},
		{"a firm of somebody and others, in French", "# Attestation de présence\nParticipant : Ghislaine Aubervoix\nFormation : Taille douce\nDate : 4 mars 2025\nOrganisé par : Maubert et Associés", paper.FieldProvider, "Maubert et Associés", true},
		{"an initiative is a body, in Dutch", "# Bewijs van deelname\nNaam: Saar Tollebeek\nCursus: Schors lezen\nDatum: 4 maart 2025\nOrganisatie: Initiatief Boomgaarden", paper.FieldProvider, "Initiatief Boomgaarden", true},
		{"what praises is no first name, in Spanish", "Plataforma Savia, S.L.\n¡Enhorabuena Itziar Lamuela, has terminado el módulo!\n# Poda suave: gestos y herramientas\nMódulo terminado el 19 de noviembre de 2024", paper.FieldAttendee, "Itziar Lamuela", true},
		{"the years of a copyright, in German", "# Rinde lesen\nAbgeschlossen von Hilke Sandnagel am 17. November 2025\n© Baumschule Lindau 2018–2026", paper.FieldProvider, "Baumschule Lindau", false},
		{"to whom it is given, by what they are, in French", "Institut Arboricole de Loches\n# À notre intervenante\nGhislaine Aubervoix\nConférence : Lire les écorces\nDate : 4 mars 2025", paper.FieldAttendee, "Ghislaine Aubervoix", true},
		{"a street over a town is no body, in English", "Wendle Potters' Guild\nMs Orla Fennimore\nKiln Lane 8\nWendle ZZ1 1ZZ\n# MEMBERSHIP RECEIPT 2026\nGrade: Full member\nTotal: £90.00", paper.FieldProvider, "Wendle Potters' Guild", false},
		{"letters without a point of other alphabets are no small words", "Lernhof Medina\n# Zertifikat 7F3A\nOğuz Işıklı-Krahn\nhat den Online-Kurs „Bleisatz lesen“ vollständig bearbeitet.\nAbgeschlossen   11.02.2026\nAusgestellt   12.02.2026", paper.FieldAttendee, "Oğuz Işıklı-Krahn", true},
		{"a number of registration beneath the name, in German", "Fachverein Setzmaschine e. V.\n# Teilnahmebestätigung\nHenrike Paulsmühl\nMitgliedsnummer 20-114\nTageskurs Bleisatz lesen\nam 14. Mai 2026 im Druckhaus Wiesau\nWiesau, 19. Mai 2026\nOrtrud Kammler, Vorsitzende", paper.FieldAttendee, "Henrike Paulsmühl", true},
		{"who led a session rules nobody in", "Institut Guède\n# Attestation de suivi\nMadame Apolline Dervieux, relieuse, a suivi et terminé le cours en ligne\nDos cassés\nTerminé le 14.02.2026\nAttestation délivrée le 16.02.2026\nAutrice du cours : Prof. Line Moreuil", paper.FieldAttendee, "Apolline Dervieux", true},
	}
	for _, tt := range tests {
		v := extract.Understand(pagesOf(tt.page), extract.Hints{})[0].Values[tt.field]
		if v.Text != tt.want || tt.certain && !v.Certain {
			t.Errorf("%s: the %s is %q (certain %v), want %q (certain %v)", tt.why, tt.field, v.Text, v.Certain, tt.want, tt.certain)
		}
		if tt.field == paper.FieldAttendee && tt.want == "Kathrin Olbersreut" && v.Certain {
			t.Errorf("%s: %q is certain", tt.why, v.Text)
		}
	}
}
