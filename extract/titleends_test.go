package extract_test

import (
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// TestWhereTitlesEnd: the day, the hours, a participle behind a comma, a code in brackets and the
// label that follows are none of a title; a standard and a part are.
func TestWhereTitlesEnd(t *testing.T) {
	title := func(name, text, want string) asked {
		return asked{name, text, map[paper.Field]string{paper.FieldTitle: want}}
	}
	form := func(value string) string {
		return "Wickmoor Pottery Institute\n# Certificate of Attendance\nName of participant: Orla Fennimore\nCourse: " + value + "\nIssued: 9 May 2026"
	}
	checkAsked(t, []asked{
		title("a participle behind a comma", "Wickmoor Pottery Institute\nDear Orla Fennimore,\nthank you for joining our spring series Glazes without Lead, streamed from the kiln room.\nThis message is your proof of attendance on 4 May 2026.", "Glazes without Lead"),
		title("ein Partizip hinter dem Komma", "Töpferhof Wendel\n# Teilnahmebestätigung\nFrau Ulrike Sandnagel hat am Seminar Glasuren mischen, veranstaltet vom Hof selbst, am 4. Mai 2026 teilgenommen.", "Glasuren mischen"),
		title("the day and the room", form("Glazes without Lead, on 4 and 5 May 2026, 9 am to 4 pm, Room 2"), "Glazes without Lead"),
		title("les jours", "Conservatoire du Biscuit\n# ATTESTATION DE PRÉSENCE\nParticipante : Ysaline Trébuchon\nCours : Émaux sans plomb les 4 et 5 mai 2026, de 9 h à 16 h, salle B\nFait à Vannelle, le 9 mai 2026", "Émaux sans plomb"),
		title("a code in brackets", form("Glazes without Lead (KLN 118)"), "Glazes without Lead"),
		title("a code within brackets", form("Glazes without Lead (evening group, code KLN-6)"), "Glazes without Lead"),
		title("the number of a manuscript behind it", form("Glazes without Lead WJK-26-0413R1"), "Glazes without Lead"),
		title("a standard behind it", form("Kiln Inspection to ISO-13577"), "Kiln Inspection to ISO-13577"),
		title("a standard in brackets", form("Kiln Inspection (ISO 13577)"), "Kiln Inspection (ISO 13577)"),
		title("a tax is a topic too", "Töpferkammer Ringau\n# Abschlussbescheinigung\nAbsolventin   Ulrike Sandnagel\nFernlehrgang   Mehrwertsteuer für Kleinbetriebe\nBelegt   vom 1. Oktober 2025 bis 27. Februar 2026\nAufgaben   6 von 6 bestanden\nWertung   20 Kammerpunkte\nFreigabe   Nr. 70 4418 c\nRingau, 4. März 2026", "Mehrwertsteuer für Kleinbetriebe"),
		title("a mark with its least", "TRIBUNAL DE CERAMISTAS\n# Acta de examen\nPostulante: Herminia Zavaleta Poot\nExamen: Hornera de primera clase\nFecha del examen: 21/11/2025\nPrueba escrita: 87 de 100 puntos (mínimo 75)\nResultado: aprobada", "Hornera de primera clase"),
		title("het vak", "Leerhuis Oostveld\n# Urenverantwoording\nDocent: Sanne Brouwhuis\nVak: Glazuren zonder lood\nGroep: K-3\nTotaal gegeven lesuren: 8\nOostveld, 22 september 2025", "Glazuren zonder lood"),
		title("the theme under its season", "Wickmoor Pottery Society\nWinter talks, season 2025/26\n# Kilns Gone Cold\nAttendance card of Orla Fennimore\nDay   Talk   Present\n9 October 2025   Clay that crept   yes\n6 November 2025   Ash, again   no\n4 December 2025   Shafts nobody drew   yes", "Kilns Gone Cold"),
		title("a body under a season", "Evening lectures, season 2025/26\nWickmoor Pottery Society\n# Certificate of Attendance\nOrla Fennimore attended the lecture \"Kilns Gone Cold\" on 9 October 2025.", "Kilns Gone Cold"),
		title("the talk, not its session", "Speaker record\nSpeaker: Orla Fennimore\nConference: Wickmoor Kiln Days\nTitle of lecture: Ash for the Nervous\nSession: 3, “Watching the cones”\nConfirmed by the organiser on: 10 June 2026", "Ash for the Nervous"),
		title("an event without a talk", "Wickmoor Pottery Institute\n# Certificate of Attendance\nName: Orla Fennimore\nSession: Watching the Cones\nHeld on: 6 June 2026", "Watching the Cones"),
		title("a part in brackets", form("Glazes without Lead (Part 2)"), "Glazes without Lead (Part 2)"),
		title("the label of the authors", "Journal of Kiln Studies\nDear Dr Fennimore,\nTitle: Salt Glazes at Low Heat\nAuthor(s): Orla Fennimore\nReceived: 9 September 2025\nI am pleased to tell you that your article was accepted for publication on 27 February 2026.", "Salt Glazes at Low Heat"),
		title("a count is no title", "Wickmoor Pottery Institute\n# Certificate of Attendance\nOrla Fennimore attended the Wickmoor Glaze Congress 2026 on 4 and 5 May 2026.\nSessions attended: 5 of 7\nIssued: 9 May 2026", "Wickmoor Glaze Congress 2026"),
		title("the number of a level", "Wickmoor Pottery Institute\n# CREDIT NOTE\nFor: Orla Fennimore\nWhat   $\nKiln Firing Level 2, 20–21 October 2025   £270.00\nRefunded   £270.00\n2 October 2025", "Kiln Firing Level 2"),
	})
}

// TestBoundedNames: a sentence that says where a name begins and ends is trusted, one that leaves it
// open is not; a bill with extras is for the event that a label names.
func TestBoundedNames(t *testing.T) {
	for _, tt := range []struct {
		name, text, want string
		certain          bool
	}{
		{"uw artikel … op", "Tijdschrift De Oven\nOostveld, 14 januari 2026\nBeste mevrouw Brouwhuis,\nMet genoegen laat ik u weten dat uw artikel Scherven in veen op 9 januari 2026 door de redactie is aanvaard.\nMet vriendelijke groet,\nWieke Dorn, hoofdredacteur", "Scherven in veen", true},
		{"a stage with its meals", "Conservatoire du Biscuit\n# FACTURE N° 26-57\nMme Ysaline Trébuchon\nStage : Émaux sans plomb, du 12 au 14 mai 2026\nDésignation   Qté   P.U. HT   Total HT\nFrais pédagogiques du stage   1   690,00   690,00\nDéjeuners du stage   3   18,00   54,00\nTotal TTC   892,80 €\nReste à payer   892,80 €", "Émaux sans plomb", true},
		{"two things and no label", "Wickmoor Pottery Supplies\n# INVOICE 26-57\nBill to: Orla Fennimore\nDescription   Price\nKiln shelf   £69.00\nCone pack   £54.00\nTotal   £123.00\n12 May 2026", "", false},
	} {
		v := extract.Understand(pagesOf(tt.text), extract.Hints{})[0].Values[paper.FieldTitle]
		if v.Text != tt.want || v.Certain != tt.certain {
			t.Errorf("%s: the title is %q, certain %v; want %q, %v", tt.name, v.Text, v.Certain, tt.want, tt.certain)
		}
	}
}

// TestWhatLeadsToTitles: an open sentence leads to the line beneath it in its own column, a label tells
// by its stem that a course stands beside it, and the head of a list leads to none.
func TestWhatLeadsToTitles(t *testing.T) {
	title := func(name, text, want string) asked {
		return asked{name, text, map[paper.Field]string{paper.FieldTitle: want}}
	}
	checkAsked(t, []asked{
		title("may call herself", "BOARD OF KILN INSPECTORS\nhereby certifies that\nOrla Fennimore\nhaving passed the written examination held in Wickmoor\non 9 May 2026, is entitled to call herself a\n# Certified Kiln Inspector, Level 2\nCertificate no. L2-18, granted 30 May 2026", "Certified Kiln Inspector, Level 2"),
		title("darf sich … nennen", "KAMMER DER OFENBAUER\n# Prüfungszeugnis\nUlrike Sandnagel\nhat am 9. Mai 2026 die Prüfung bestanden und darf sich\n# Geprüfte Ofenprüferin, Stufe 2\nnennen.\nRingau, 30. Mai 2026", "Geprüfte Ofenprüferin, Stufe 2"),
		title("a participé aux", "Conservatoire du Biscuit\n# Attestation de participation\nMme Ysaline Trébuchon, potière inscrite sous le n° 12, a participé aux\n# Journées d’hiver de la céramique\ntenues à Vannelle les 16 et 17 octobre 2025.\nVannelle, le 20 octobre 2025", "Journées d’hiver de la céramique"),
		title("ha asistido a las", "Instituto Alfarero de Quelmo\n# CONSTANCIA\nHerminia Zavaleta Poot, alfarera de la localidad, ha asistido a las\n# Jornadas de otoño del barro\ncelebradas en Quelmo los días 16 y 17 de octubre de 2025.", "Jornadas de otoño del barro"),
		title("ein Fach", "Meisterschule Ringau\n# Nachweis der Lehrtätigkeit\nFrau Ulrike Sandnagel war im Wintersemester 2025/26 als Dozentin bei uns tätig.\nUnterrichtsfach   Glasurchemie II\nKlasse   K25-B\nErster Termin   2. Oktober 2025\nLetzter Termin   29. Januar 2026\nTermine gehalten   14\nRingau, 12. Februar 2026", "Glasurchemie II"),
		title("action suivie", "Conservatoire du Biscuit\n# ATTESTATION DE PRÉSENCE\nStagiaire : Ysaline Trébuchon\nAction suivie : Émaux sans plomb\nDate : 4 mai 2026\nFait à Vannelle, le 9 mai 2026", "Émaux sans plomb"),
		title("a label that needs a colon elsewhere", "Leerhuis Oostveld\n# Bewijs van voltooiing\nCursist   Sanne Brouwhuis\nGeboortedatum   07-09-1991\nE-learning   Veilig stoken\nAfgerond op   18-02-2026\nStudielast   6 uur\nBewijs afgegeven op   19-02-2026", "Veilig stoken"),
		title("a known label before one that is guessed", "Töpferverband Ringau\n# KURSAUSWEIS\nName   Ulrike Sandnagel\nKurs   WK Brennofen 3/26\nDatum   26.09.2026\nKursobmann   Obm Wyrsch\nKursgeld   CHF 140.-", "WK Brennofen 3/26"),
		title("the number of a file is no subject", "Revista de Cerámica Aplicada\nAsunto: original 2025-077\nEstimada doctora Zavaleta:\nEl artículo «Engobes salinos» ha sido aceptado para su publicación el 27 de enero de 2026.", "Engobes salinos"),
		title("the number of a meeting", "Kammerbezirk Ringau, Arbeitskreis Glasurrecht\nSITZUNGSBESCHEINIGUNG\nHiermit bescheinigen wir Frau Ulrike Sandnagel die Anwesenheit bei der 12. Sitzung des Arbeitskreises Glasurrecht.\nTag: 5. März 2026\nRingau, 9. März 2026", "12. Sitzung des Arbeitskreises Glasurrecht"),
		title("a headline in two lines", "Instituto Alfarero de Quelmo\n# HACE CONSTAR QUE\n# HERMINIA ZAVALETA POOT\ncursó y aprobó el curso virtual\n## Manejo de hornos de alta temperatura\n## seguros: carga y descarga\nrealizado entre el 2 de febrero y el 27 de marzo de 2026.", "Manejo de hornos de alta temperatura seguros: carga y descarga"),
		title("a headline in two lines with a dash", "Töpferhof Wendel\n# Teilnahmebescheinigung\n# Ulrike Sandnagel\nhat am 17.03.2026 an der innerbetrieblichen Fortbildung\n## Leitfaden Glasurchemie\n## in der Werkstatt – was neu ist\nim Umfang von 8 Stunden teilgenommen.", "Leitfaden Glasurchemie in der Werkstatt – was neu ist"),
		title("a headline, and the sentence that goes on", "Instituto Alfarero de Quelmo\n# HACE CONSTAR QUE\n# HERMINIA ZAVALETA POOT\ncursó y aprobó el curso virtual\n## Manejo de hornos de alta temperatura\nrealizado entre el 2 de febrero y el 27 de marzo de 2026.", "Manejo de hornos de alta temperatura"),
		title("the subtitle in the next line", "Beste Sanne,\nGoed nieuws: de redactie van Klei & Kunst heeft je artikel\nDe warmte van de oven:\nmeten tussen kern en mantel\nvandaag definitief geaccepteerd. Het komt in nummer 4.\nGroet, Wieke Dorn, eindredacteur", "De warmte van de oven: meten tussen kern en mantel"),
		title("the number of the file before it", "Journal of Kiln Studies\nDear Dr Fennimore,\nTitle: JKS-25-0417.R2 Salt Glazes at Low Heat\nI am pleased to tell you that your article was accepted for publication on 27 February 2026.", "Salt Glazes at Low Heat"),
		title("an address leads to nothing", "Wickmoor Pottery Institute\n# Certificate of Attendance\nOrla Fennimore attended the\nWickmoor Pottery Institute\non 4 May 2026 for the course \"Glazes without Lead\".", "Glazes without Lead"),
	})
}
