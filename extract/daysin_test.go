package extract_test

import (
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// TestDaysOutOfPlace: numbers that look like days in boxes or in a section of a year, words that
// are like those for making or viewing a paper, and days of other papers are no days of this one.
func TestDaysOutOfPlace(t *testing.T) {
	const (
		start = paper.FieldStart
		end   = paper.FieldEnd
		issue = paper.FieldIssue
	)
	checkAsked(t, []asked{
		{"a number of membership in boxes", "# FORM T4 – RECORD OF ATTENDANCE\nName of attendee   Merrin Talgarth\nMembership number   2 4 0 3 2 0 2 6\nTitle of course   Kiln Vents\nDate of course   1 8 / 0 5 / 2 0 2 6",
			map[paper.Field]string{start: "2026-05-18", end: "2026-05-18", issue: ""}},
		{"points in a section of a year", "Kammer der Ofenbauer Elbau\n# Fortbildungskonto\nGunhild Vierkant\n2025\n14.03.   Lüftung   4.5 Punkte\n21.11.   Glasuren   8.5 Punkte",
			map[paper.Field]string{start: "2025-03-14", end: "2025-11-21"}},
		{"credits behind a whole day", "Wendle Register of Potters\n# Transcript of Courses\nOrla Fennimore\nKiln Vents, 2025-02-08 — 4.5 points\nSlip Casting, 2025-05-10 — 2.5 points\nGlaze Safety, 2025-09-20 — 6 points",
			map[paper.Field]string{start: "2025-02-08", end: "2025-09-20"}},
		{"a course that was run on a day", "Dunmarrow Trust\n# Certificate of Attendance\nOrla Fennimore attended the workshop Kiln Vents, which was run on 3 March 2026.\nIssued 5 March 2026",
			map[paper.Field]string{start: "2026-03-03", end: "2026-03-03", issue: "2026-03-05"}},
		{"a recording that was watched", "Ovenhuis Ostmeer\n# Certificaat\nWieke Aldershof heeft het e-learningprogramma Veilig stoken afgerond op 3 maart 2026.\nUitgereikt op 4 maart 2026",
			map[paper.Field]string{end: "2026-03-03", issue: "2026-03-04"}},
		{"a bill that is only referred to", "CREDIT NOTE\nGlenmalin Kiln Institute\nCredit note CN-61\nDate: 4 February 2026\nAgainst invoice 2025-744 of 2 December 2025\nFee for the workshop Kiln Vents, returned   £120.00",
			map[paper.Field]string{issue: "2026-02-04"}},
		{"a term beside each course", "Harbour Kiln Trust\n# Training record of Silas Wetherby\nCourse   Completed   Valid until\nKiln Vents   14 May 2024   14 May 2027\nSlip Casting   9 October 2024   9 October 2027\nGlaze Safety   3 June 2025   3 June 2028",
			map[paper.Field]string{start: "2024-05-14", end: "2025-06-03"}},
		{"a student before being employed", "Tarn Kiln Laboratories\n# To whom it may concern\nMr Owen Sellick has been in our employment since 2 September 2019. He joined us as a student on 3 June 2017.\n21 May 2026",
			map[paper.Field]string{start: "?"}},
		{"boxes that somebody stamped are not the day of issue", "# Stempelkarte Lesekreis\nTeilnehmer: Ottokar Wiesend\n16.09.2025   21.10.2025   18.11.2025\nja   ja   nein\nAhrenbrück, 20.11.2025",
			map[paper.Field]string{start: "2025-09-16", end: "2025-11-18", issue: "2025-11-20"}},
		{"a talk within days at the head", "Kiln Week 5 – 7 May 2026\nWendle Forum\n# Speaker confirmation\nSpeaker: Orla Fennimore\nLecture: Kiln Vents\nDelivered on: Wednesday 6 May 2026\nConfirmed by the organiser on: 10 May 2026",
			map[paper.Field]string{start: "2026-05-06", end: "2026-05-06"}},
		{"a course that was given on labelled days", "Wendle Forum\n# Confirmation of teaching\nLecturer: Orla Fennimore\nCourse: Kiln Vents\nDates of course: 5 – 7 May 2026\nDelivered on: 6 May 2026\nIssued on: 10 May 2026",
			map[paper.Field]string{start: "2026-05-05", end: "2026-05-07"}},
		{"a beginning without its year", "Wendle Forum\n# Certificate of Completion\nOrla Fennimore finished the online course Kiln Vents on 14 February 2026, which she had started on 20 November.\nIssued on 16 February 2026",
			map[paper.Field]string{start: "2025-11-20", end: "2026-02-14", issue: "2026-02-16"}},
		{"in German", "Brennhof Akademie\n# Bescheinigung\nFrau Hedda Sorrentz hat den Fernlehrgang Ofenbau, den sie am 3. April begonnen hatte, am 12. Juni 2026 abgeschlossen.\nRingau, 16. Juni 2026",
			map[paper.Field]string{start: "2026-04-03", end: "2026-06-12", issue: "2026-06-16"}},
		{"in French, spoken to", "Institut Vernelle\n# Attestation\nVous avez terminé le 12 juin 2026 la formation en ligne « Cuisson au bois », commencée le 3 avril.\nFait le 16 juin 2026",
			map[paper.Field]string{start: "2026-04-03", end: "2026-06-12", issue: "2026-06-16"}},
		{"another beginning without its year", "Wendle Forum\n# Certificate of Attendance\nOrla Fennimore attended the seminar Kiln Vents on 14 February 2026. Our office hours start at 9.\nThe next series is on 20 March.\nIssued on 16 February 2026",
			map[paper.Field]string{start: "2026-02-14", end: "2026-02-14"}},
		{"the way to a talk", "Wendle Forum\n# Speaker confirmation\nThank you for travelling through to Ostmeer on Tuesday, 3 March 2026, to lecture on kiln vents.\nIssued on 5 March 2026",
			map[paper.Field]string{start: "2026-03-03", end: "2026-03-03", issue: "2026-03-05"}},
		{"a course on a tax", "Fernschule Elbau\n# Abschlussbescheinigung\nAbsolventin   Hedda Sorrentz\nFernlehrgang   Mehrwertsteuer in der Landwirtschaft\nBearbeitet   vom 1. März 2026 bis 27. Juni 2026\nUmfang   60 Stunden\nElbau, 4. Juli 2026",
			map[paper.Field]string{start: "2026-03-01", end: "2026-06-27", issue: "2026-07-04"}},
		{"when a group met", "Wendle Forum\n# Note of presence\nMember: Orla Fennimore\nGroup: Kiln Working Group\nConvened on: Tuesday 3 March 2026\nFrom / to: 18:00 - 19:45\nNext meeting: Tuesday 7 April 2026\nIssued on 5 March 2026",
			map[paper.Field]string{start: "2026-03-03", end: "2026-03-03", issue: "2026-03-05"}},
		{"a letter that is dated itself", "Brennhof Akademie\n# Bestätigung\nFrau Hedda Sorrentz hat am 2. Februar 2026 am Seminar Ofenbau teilgenommen. Dieses Schreiben ist datiert vom 9. Februar 2026.",
			map[paper.Field]string{start: "2026-02-02", end: "2026-02-02", issue: "2026-02-09"}},
		{"an event and its day above the text of a letter", "Kestrel Moor Society of Assayers\n19 May 2026\nMs Perpetua Lindquay\n4 Crane Lane\nDear Ms Lindquay,\nAutumn workshop, 14 May 2026\nThank you for giving the lecture “Reading a Melt” at our workshop on 14 May 2026.\nYours sincerely,\nEdwin Harrowgate",
			map[paper.Field]string{end: "2026-05-14", issue: "2026-05-19"}},
		{"the same in German", "Färberbund Moosau e. V.\n19. Mai 2026\nFrau Henrike Paulsmühl\nGerberweg 4\nSehr geehrte Frau Paulsmühl,\nFrühjahrstagung, 14. Mai 2026\nwir danken Ihnen für den Vortrag „Waid“ auf unserer Tagung am 14. Mai 2026.\nMit freundlichen Grüßen\nGero Falk",
			map[paper.Field]string{end: "2026-05-14", issue: "2026-05-19"}},
		{"a house in which courses are held is a place", "Färberbund Moosau e. V.\n# Teilnahmebescheinigung\nFrau Henrike Paulsmühl hat am 14. Mai 2026 am Seminar Waid teilgenommen.\nSeminarhof Moosau, 19. Mai 2026",
			map[paper.Field]string{end: "2026-05-14", issue: "2026-05-19"}},
		{"a record that was closed, in Spanish", "Colegio de Peritos de Almarza\n# Acta de examen\nAspirante: Itziar Larralde Goñi\nExamen: Perito de hornos, nivel I\nFecha del examen: 14/05/2026\nResultado: aprobado\nEl acta se levantó en Almarza el 19 de mayo de 2026.",
			map[paper.Field]string{end: "2026-05-14", issue: "2026-05-19"}},
		{"the same in French", "Chambre des experts du Gave\n# Procès-verbal d'examen\nCandidate : Apolline Dervieux\nExamen : Experte en fours, niveau I\nDate de l'examen : 14/05/2026\nRésultat : admise\nLe procès-verbal a été clos à Dax le 19 mai 2026.",
			map[paper.Field]string{end: "2026-05-14", issue: "2026-05-19"}},
		{"a list for signing on that closed is no record", "Wendle Potters’ Guild\n# Certificate of Attendance\nOrla Fennimore attended the workshop Kiln Vents on 14 May 2026.\nThe booking list was closed on 1 May 2026.\nSigned 19 May 2026",
			map[paper.Field]string{end: "2026-05-14", issue: "2026-05-19"}},
		{"a note that a clerk wrote out", "WENDLE POTTERS’ CIRCLE\nNote of presence\nMember: Orla Fennimore\nGroup: Kiln Working Group\nMet on: Thursday 14 May 2026\nFrom / to: 18:00 - 19:45\nTyped up 19 May 2026 by the secretary, Tobin Aldgrave",
			map[paper.Field]string{issue: "2026-05-19"}},
		{"an employment that goes on", "Werkgever   Drukkerij De Inktpot\n# Werkgeversverklaring\nWerknemer: Sietske Loman\nFunctie   Van   Tot\nLeerling   01-09-2014   31-08-2016\nDrukker   01-09-2016   heden\nAfgegeven op 19-01-2026",
			map[paper.Field]string{start: "2014-09-01", end: "", issue: "2026-01-19"}},
	})
}

// TestAcceptedToday: a message that accepts a text "today" does so on the day on which it was sent,
// whatever days it names for what came before.
func TestAcceptedToday(t *testing.T) {
	for _, c := range []struct {
		line    string
		certain bool
	}{
		{"I am glad to tell you that your paper was accepted this morning for the Journal of Clay Studies.", true},
		{"Ihr Beitrag für die Zeitschrift für Ofenkunde wurde heute zur Veröffentlichung angenommen.", true},
		{"Your paper was accepted for the Journal of Clay Studies. The printer is closed today.", false},
	} {
		doc := page.Document{Type: "eml", Mail: &page.Mail{From: "The Editors <e@clay.invalid>", To: "Orla Fennimore <o@clay.invalid>", Subject: "Decision", Date: "2026-05-12T08:14:55+02:00"},
			Pages: []page.Page{{Number: 1, Lines: []string{"Title: Draughts in Small Kilns", "Received: 3 February 2026", "", c.line, "", "The Editors"}}}}
		if v := extract.Understand(doc, extract.Hints{})[0].Values[paper.FieldEnd]; v.Text != "2026-05-12" || v.Certain != c.certain {
			t.Errorf("%s: ended on %q, certain %v; want 2026-05-12, certain %v", c.line, v.Text, v.Certain, c.certain)
		}
	}
}
