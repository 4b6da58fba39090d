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
		title("a standard in brackets", form("Kiln Inspection (ISO 13577)"), "Kiln Inspection (ISO 13577)"),
		title("a part in brackets", form("Glazes without Lead (Part 2)"), "Glazes without Lead (Part 2)"),
		title("the label of the authors", "Journal of Kiln Studies\nDear Dr Fennimore,\nTitle: Salt Glazes at Low Heat\nAuthor(s): Orla Fennimore\nReceived: 9 September 2025\nI am pleased to tell you that your article was accepted for publication on 27 February 2026.", "Salt Glazes at Low Heat"),
		title("a count is no title", "Wickmoor Pottery Institute\n# Certificate of Attendance\nOrla Fennimore attended the Wickmoor Glaze Congress 2026 on 4 and 5 May 2026.\nSessions attended: 5 of 7\nIssued: 9 May 2026", "Wickmoor Glaze Congress 2026"),
		title("the number of a level", "Wickmoor Pottery Institute\n# CREDIT NOTE\nFor: Orla Fennimore\nWhat   $\nKiln Firing Level 2, 20–21 October 2025   £270.00\nRefunded   £270.00\n2 October 2025", "Kiln Firing Level 2"),
	})
}
