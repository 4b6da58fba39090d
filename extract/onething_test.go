package extract_test

import (
	"testing"

	"evidencevault/extract/paper"
)

// TestOneThingOnABill: the only name that a bill quotes behind a word for an event, or its only
// row with a day, is what it is for; of two courses neither is.
func TestOneThingOnABill(t *testing.T) {
	title := askedFor(paper.FieldTitle)
	checkAsked(t, []asked{
		title("quoted in the sentence", "Seminarhof Ringau\n# Honorarnote Nr. 118/25\nFrau Ulrike Sandnagel\nRingau, 27. Oktober 2025\nFür Ihre Teilnahme am Seminar „Hanglagen vermessen“ vom 20. bis 22. Oktober 2025 verrechne ich:\nSeminarbeitrag, 3 Tage   EUR 1.050,00\nSeminarunterlagen, gebunden   EUR 48,00\nZwischensumme   EUR 1.098,00\n20 % Umsatzsteuer   EUR 219,60\nGesamtbetrag   EUR 1.317,60", "Hanglagen vermessen"),
		title("quoted in a row", "Quelm Teachers Collective\n# TAX INVOICE\nBill to: Orla Fennimore\nInvoice KV0926, 4 September 2026\nTwo-day workshop \"Reading the Room\", 1 and 2 October 2026   £480.00\nEarly-bird reduction   -£60.00\nVAT 20%   £84.00\nAmount owing   £504.00", "Reading the Room"),
		title("the only row with a day", "Bureau Oostveld\n# CREDITNOTA\nMevrouw S. Brouwhuis\nWij crediteren factuur F2026-0412 van 3 juni 2026:\nOude akten onder de loep, 11 en 12 september 2026   € -690,00\nIngehouden administratiekosten   € 75,00\nSubtotaal   € -615,00\n21% btw   € -129,15\nTerug te betalen   € -744,15", "Oude akten onder de loep"),
		title("a charge for the same course", "Quelm Teachers Collective\n# INVOICE\nBill to: Orla Fennimore\nInvoice KV0926, 4 September 2026\nSash Windows   £480.00\nCertificate fee, same course   £30.00\nTotal   £510.00", "Sash Windows"),
		title("what is taken off", "Quelm Teachers Collective\n# INVOICE\nBill to: Orla Fennimore\nInvoice KV0926, 4 September 2026\nSash Windows   £480.00\nFriends of the college   -£20.00\nTotal   £460.00", "Sash Windows"),
		title("Treuenachlass", "Seminarhof Ringau\n# Rechnung\nFrau Ulrike Sandnagel\nRingau, 27. Oktober 2025\nHanglagen vermessen   EUR 390,00\nTreuenachlass   EUR -39,00\nGesamtbetrag   EUR 351,00", "Hanglagen vermessen"),
		title("a credit note gives one thing back", "Quelm Teachers Collective\n# CREDIT NOTE\nFor: Orla Fennimore\n4 September 2026\nSash Windows   -£480.00\nTotal   -£480.00", "Sash Windows"),
		title("the day and the price beneath the thing", "QUELM COLLEGE\nTill 02\n29/05/26 14:07\nSASH WINDOWS LEVEL 2\nSat 13/06/26 0930-1600   64.00\nSUBTOTAL   64.00\nTOTAL   GBP 64.00\nCASH   70.00\nCHANGE   6.00\nTHANK YOU", "SASH WINDOWS LEVEL 2"),
		title("what is still to be paid", "Quelm Teachers Collective\n# Invoice 12\n9 February 2026\nBilled to:\nOrla Fennimore\nFor: your place on Sash Windows & Doors, Monday 23 February 2026, our workshop.\nItem   Qty   Amount\nCourse fee (one day)   1   £420.00\nTotal   £420.00\nStill to pay   £420.00", "Sash Windows & Doors"),
		title("how long it was, in a line of its own", "Quelm Teachers Collective\n# INVOICE\nBill to: Orla Fennimore\nDescription   Qty   Amount £\nSash Windows in Listed Houses Two-day course, Quelm, 24 and 25 March 2026   1   495.00\nTotal   1   495.00", "Sash Windows in Listed Houses"),
		title("two courses", "Quelm Teachers Collective\n# INVOICE\nBill to: Orla Fennimore\nInvoice KV0926, 4 September 2026\nSash Windows, 1 October 2026   £480.00\nLime Plaster, 9 November 2026   £300.00\nTotal   £780.00", ""),
	})
}
