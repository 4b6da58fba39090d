package extract_test

import (
	"testing"

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
		title("a part in brackets", form("Glazes without Lead (Part 2)"), "Glazes without Lead (Part 2)"),
		title("the label of the authors", "Journal of Kiln Studies\nDear Dr Fennimore,\nTitle: Salt Glazes at Low Heat\nAuthor(s): Orla Fennimore\nReceived: 9 September 2025\nI am pleased to tell you that your article was accepted for publication on 27 February 2026.", "Salt Glazes at Low Heat"),
		title("a count is no title", "Wickmoor Pottery Institute\n# Certificate of Attendance\nOrla Fennimore attended the Wickmoor Glaze Congress 2026 on 4 and 5 May 2026.\nSessions attended: 5 of 7\nIssued: 9 May 2026", "Wickmoor Glaze Congress 2026"),
		title("the number of a level", "Wickmoor Pottery Institute\n# CREDIT NOTE\nFor: Orla Fennimore\nWhat   $\nKiln Firing Level 2, 20–21 October 2025   £270.00\nRefunded   £270.00\n2 October 2025", "Kiln Firing Level 2"),
	})
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
