package extract_test

import (
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// TestBodiesOfTheLetterhead: who held the event or issued the paper, by where a name stands
// and what it goes on with.
func TestBodiesOfTheLetterhead(t *testing.T) {
	checkValues(t, paper.FieldProvider, []valueCase{
		{"a name goes on in the line beneath with a small word", "Centre Vannelois\nde céramique appliquée\n# Attestation de participation\nNom   Ysaline Trébuchon\nCours   Émaux sans plomb\nDate   3 mars 2026", "Centre Vannelois de céramique appliquée"},
		{"its legal form stands in the line beneath", "School of Salt Glazing\nWendle Kilns Ltd\n# Certificate of Attendance\nName   Orla Fennimore\nCourse   Glazes without Lead\nDate   3 March 2026", "School of Salt Glazing Wendle Kilns Ltd"},
		{"who runs the portal", "KLEIWEB · Keramiekkring Ostmeer vzw\n# Attest\nDit document bevestigt dat mevrouw Wieke Aldershof de e-learningmodule\n# Glazuren zonder lood\nmet goed gevolg heeft doorlopen.\nModule voltooid: 07/12/2025", "Keramiekkring Ostmeer vzw"},
		{"a bracket between the body and its verb", "# REÇU\nL'Association des potiers du bassin de Vannelle (loi 1901) certifie que Madame Ysaline Trébuchon a suivi le cours Émaux sans plomb le 3 mars 2026.", "Association des potiers du bassin de Vannelle"},
		{"the body before its box and a dash", "WENDLE POTTERS' LEAGUE — P.O. Box 00, Elko, NV 89800\nENTRY STUB – STAMP ON LEAVING\nParticipant: Orla Fennimore\nCourse: Glazes without Lead\nStamped: 01/24/2026\nAttended 3 hours", "WENDLE POTTERS' LEAGUE"},
		{"the list names who held each course, not who keeps it", "# Nascholingsoverzicht\nVakregister Keramisten Noordwest\nIngelogd als: Wieke Aldershof\nDatum   Activiteit   Aanbieder   Punten\n27-11-2025   Glazuren mengen   Kleischool Ostmeer   3\n18-09-2025   Ovens bouwen   Kleischool Ostmeer   12\n03-04-2025   Draaien   Kleischool Ostmeer   2", "Vakregister Keramisten Noordwest"},
		{"a periodical says what it is", "Sehr geehrte Frau Sandnagel,\nIhr Beitrag \"Glasuren mischen ohne Blei\" wurde zur Veröffentlichung angenommen.\nFreundliche Grüße\nAnton Krahnert\nTon im Viertel - Vierteljahresschrift für Töpferei\nVerlag Ofenhof, 39100 Wendel", "Ton im Viertel"},
		{"the head of a till slip goes on in smaller letters", "# MOORBRIGG\nRope Handling Center\nBookstore\n09/15/2026   11:42 AM\nRegister 02\nSling Handbook   89.00\nPencil   1.50\nTOTAL   USD 90.50\nThank you!", "MOORBRIGG Rope Handling Center Bookstore"},
		{"the editors of a periodical decide", "Wendle, 12 February 2026\nDear Ms Fennimore,\nwe are pleased to tell you that your article \"Glazes without Lead\" has been accepted\nfor publication. The Editorial Board of Clay and Kiln Papers decided on 3 February 2026.\nTobias Crake", "Clay and Kiln Papers"},
	})
}

// A firm may be named by the people of it, and by nothing else that bodies are known by.
func TestFirmOfTrainers(t *testing.T) {
	v := extract.Understand(pagesOf("Wendle Rescue Trainers\nPractical courses for kiln crews\n# Attendance Certificate\nParticipant   Orla Fennimore\nCourse   Checking Kiln Doors\nDate   Thursday 21 May 2026\nDuration   3 hours 30 minutes"), extract.Hints{})[0].Values[paper.FieldProvider]
	if v.Text != "Wendle Rescue Trainers" || !v.Certain {
		t.Errorf("the provider is %q, certain %v: want Wendle Rescue Trainers for sure", v.Text, v.Certain)
	}
}
