package extract_test

import (
	"testing"

	"evidencevault/extract/paper"
)

// TestTitlesOfOtherPapers: what was paid for, met about or earned, told by the row, the
// heading or the sentence.
func TestTitlesOfOtherPapers(t *testing.T) {
	checkValues(t, paper.FieldTitle, []valueCase{
		{"a kind of ticket and a dinner are no things bought", "WENDLE FORUM FOR POTTERS\nPAID RECEIPT   No. 26-10934\nReceipt date   03/02/2026\nBill to   Orla Fennimore\nMidlands Kiln Building Summit\nApril 23-24, 2026\nFull registration   $395.00\nEarly bird discount   -$59.25\nSummit dinner   $25.50\nTOTAL CHARGED   $361.25", "Midlands Kiln Building Summit"},
		{"which printing of a book is not the book", "BOEKHANDEL OSTMEER\nHandboek Veilig stoken\n8e druk   64,90\nTOTAAL   EUR 64,90\nPIN   EUR 64,90\n14-03-2026", "Handboek Veilig stoken"},
		{"several things on one day are no event, whatever stands out", "# MOORBRIGG\nOffice & Drawing Supplies\nMarch 5, 2026\nScale ruler   12.50\nClay knife   9.00\nTOTAL   USD 21.50", ""},
		{"what minutes are of", "VERENIGING VAN KERAMISTEN OSTMEER\nNOTULEN NAJAARSVERGADERING SECTIE DRAAIERS gehouden op woensdag 15 april 2026\nAfschrift voor: mevr. Wieke Aldershof (aanwezig)\n4. Inleiding door mr. E. Vonk: \"De kunst van het stoken\".\nOstmeer, 22 april 2026", "NAJAARSVERGADERING SECTIE DRAAIERS"},
		{"what somebody gets by an examination", "OSTMEERSE KLEIKAMER VZW\nExamencommissie vakbekwaamheid\nPROCES-VERBAAL VAN DELIBERATIE\nOverwegende dat Wieke Aldershof het examen van 12 juni 2026 heeft afgelegd;\nArtikel 1. De kandidate wordt geslaagd verklaard en verkrijgt de kwalificatie Ovenmeester niveau 2.\nAldus gedaan te Ostmeer, 19 juni 2026.", "Ovenmeester niveau 2"},
	})
}
