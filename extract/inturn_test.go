package extract_test

import (
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// TestPositionsInTurn: of several positions with their periods the one that began last is
// the position held, however they are set out and in whatever order.
func TestPositionsInTurn(t *testing.T) {
	checkValues(t, paper.FieldTitle, []valueCase{
		{"the period in brackets behind each", "Poterie du Val Ormeau SA\n# CERTIFICAT DE TRAVAIL\nDélivré à : Ysaline Trébuchon\nFonctions successives :\n1. tourneuse (du 01/03/2011 au 31/12/2017)\n2. cheffe du four (du 01/01/2018 au 30/09/2025)\nÉtabli à Vannelle le 06/10/2025", "cheffe du four"},
		{"the period before each, the last one first", "Töpferhof Wendel GmbH\n# Arbeitszeugnis\nFrau Ulrike Sandnagel war bei uns angestellt.\n01.01.2019 – 31.12.2025 Ofenmeisterin\n01.02.2012 – 31.12.2018 Drehgehilfin\nWendel, 5. Januar 2026", "Ofenmeisterin"},
		{"in the rows of a table", "TALLER ALFARERO DE QUELMO S.A.S.\n# CERTIFICA\nQue la señora Herminia Zavaleta Poot laboró con contrato de trabajo en esta empresa.\nCargo   Desde   Hasta\nAyudante de torno   01/02/2015   28/02/2019\nMaestra de hornos   01/03/2019   30/06/2025\nQuelmo, 5 de julio de 2025", "Maestra de hornos"},
	})
}

// TestOnePositionIsNoList: a single period beside a word makes no list of positions.
func TestOnePositionIsNoList(t *testing.T) {
	const page = "Töpferhof Wendel GmbH\n# Arbeitszeugnis\nFrau Ulrike Sandnagel war als Ofenmeisterin bei uns angestellt.\nBeschäftigt vom 01.02.2012 bis 31.12.2018\nWendel, 5. Januar 2019"
	if got := extract.Understand(pagesOf(page), extract.Hints{})[0].Values[paper.FieldTitle].Text; got != "Ofenmeisterin" {
		t.Errorf("the title is %q, want the position that the sentence names", got)
	}
}

// TestLinesThatStandAlone: of lines without a label the one that names the event is its title.
func TestLinesThatStandAlone(t *testing.T) {
	checkValues(t, paper.FieldTitle, []valueCase{
		{"a thing and what became of it is a state", "Töpferportal Wendel Lernwelt\nAbzeichen freigeschaltet\nGlasuren ohne Blei: Grundkurs\nErreicht von: Ulrike Sandnagel\nModus: e-learning, im eigenen Tempo\nAlle Aufgaben bestanden am 17. September 2025\nRichtige Antworten: 14 von 15", "Glasuren ohne Blei: Grundkurs"},
		{"what the attendee is by calling is none", "Töpferschule Wendel\n# Teilnahmebescheinigung\nUlrike Sandnagel, geb. 30.09.1991, Drehgehilfin\nAuffrischungskurs Glasuren\n02.02.2026 bis 04.02.2026\nKrahnert, Kursleiter", "Auffrischungskurs Glasuren"},
		{"what was earned, with its subject", "# Ravensmoor Guild of Potters\nWe hereby make known that\n# Orla Fennimore\nhaving followed the approved programme of study and satisfied the examiners, has been admitted to the award of the\n# Advanced Diploma in Kiln Building\nwith Distinction\n21 November 2025", "Advanced Diploma in Kiln Building"},
		{"how well it was passed is no title", "# Académie vannelloise de la poterie\nVu le résultat de l'examen final du 3 septembre 2025, la direction décerne à\n# Ysaline Trébuchon\nle\n# Brevet de maîtresse émailleuse\nmention « très bien »\nVannelle, le 1 octobre 2025", "Brevet de maîtresse émailleuse"},
		{"a subtitle behind a word for an event", "Potters' Learning of Wendle\nCourse complete\n# Slipware Trailing Refresher: Clean Lines\nLearner   Orla Fennimore\nFormat   Self-paced online\nFinished   11 January 2026", "Slipware Trailing Refresher: Clean Lines"},
		{"a second verb ends the title", "Wendle Community Learning\n# Distance learning: notice of completion\nLearner: Orla Fennimore\nWe are pleased to tell you that Orla Fennimore worked through\nthe distance-learning unit Safe Kilns: Recording a Fault and completed it on 1 March 2026.", "Safe Kilns: Recording a Fault"},
	})
}
