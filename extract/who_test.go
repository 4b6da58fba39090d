package extract_test

import (
	"testing"

	"evidencevault/extract/paper"
)

// TestWhoByPlace: who is meant, by where the name stands.
func TestWhoByPlace(t *testing.T) {
	checkValues(t, paper.FieldAttendee, []valueCase{
		{"beneath the word for the person", "Taller Alfarero de Quelmo, S.L.\n# FACTURA\nNº 2026/0093\nFecha: 02/03/2026\nCliente\nHerminia Zavaleta Poot\nNIF 00000000T\nCurso Esmaltes de baja temperatura   290,00 €\nTOTAL FACTURA   290,00 €", "Herminia Zavaleta Poot"},
		{"the letter greets the first name", "# TON IM VIERTEL\nZeitschrift für Töpferei\nWendel, 20. März 2026\nLiebe Ulrike,\nanbei zwei Belege. Ihr Beitrag „Glasuren mischen ohne Blei“ ist am 13. März 2026 erschienen.\nAls Verfasserin steht dort: Ulrike Sandnagel.\nHerzliche Grüße\nAnton Krahnert", "Ulrike Sandnagel"},
		{"who paid", "QUITTUNG Nr. 0212\nTöpferbund Wendel e. V.\nvon Ulrike Sandnagel\nEuro 96,00 (in Worten: sechsundneunzig)\nfür den Kurs Glasuren mischen\ndankend erhalten.\nWendel, den 12.02.2026", "Ulrike Sandnagel"},
		{"a word with its number is no surname", "Register of Wendle Potters\nMaker: Orla Fennimore Registrant 118-40-7\nDate   Activity   Points\n14 Jul 2025   Kiln safety   10\n2 Sep 2025   Slip casting   12\nTotal   22", "Orla Fennimore"},
		{"the colons stand beneath each other", "WENDLE SOCIETY OF POTTERS\nOFFICIAL CPE TRANSCRIPT\nMEMBER        : FENNIMORE, ORLA J.\nMEMBER ID     : 0045482\nSTATUS        : IN COMPLIANCE\nDATE   COURSE   CREDITS\n01/22/2025   KILN SAFETY   4.0\n03/18/2025   SLIP CASTING   2.0\nTOTAL CPE CREDITS   6.0", "ORLA J. FENNIMORE"},
	})
}
