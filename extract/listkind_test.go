package extract_test

import (
	"testing"

	"evidencevault/extract/paper"
)

// TestListOfSessions: a list that numbers sessions, counts them in its text or says which of them the
// person missed is of one thing; one of courses is a transcript, and one with prices a bill. What
// stands in such a list speaks of no meeting.
func TestListOfSessions(t *testing.T) {
	kind := func(name, text, want string) asked {
		return asked{name, text, map[paper.Field]string{paper.FieldKind: want}}
	}
	checkAsked(t, []asked{
		kind("one missed", "Töpferhof Wendel\n# Nachweis über die Winterreihe\n# Glasuren mischen\nTeilnehmerin: Ulrike Sandnagel\nNr.   Datum   Thema   Minuten   Vermerk\n1   14.01.2026   Rohstoffe   90   anwesend\n2   28.01.2026   Brennkurven   90   gefehlt\n3   11.02.2026   Salzglasuren   90   anwesend\nRingau, 18.02.2026", "attendance"),
		kind("lessen, genummerd", "Keramiekkring Ostmeer vzw\n# ATTEST VAN AANWEZIGHEID\nLessenreeks: Glazuren zonder lood\nCursist: Wieke Aldershof\nLes   Datum   Onderwerp   Lesgever   Aanwezig\n1   6 januari 2026   Grondstoffen   P. Maes   X\n2   13 januari 2026   Stookcurven   P. Maes   X\n3   27 januari 2026   Het verslag   K. Dorn   afwezig\nOpgemaakt te Ostmeer op 2 februari 2026", "attendance"),
		kind("counted in the text", "Wickmoor Pottery Institute\n# Record\nOrla Fennimore attended our course of three Wednesday evenings:\nDate   Subject   Hours\n4 February 2026   Raw materials   2\n18 February 2026   Firing curves   2\n4 March 2026   Salt glazes   2\nWickmoor, 9 March 2026", "attendance"),
		kind("courses of a year", "Wickmoor Pottery Institute\n# Training record\nOrla Fennimore\nNo.   Date   Course   Hours\n1   4 February 2025   Raw Materials   6\n2   18 June 2025   Firing Curves   12\n3   4 November 2025   Salt Glazes   6\nWickmoor, 9 December 2025", "transcript"),
		kind("rows with prices", "Töpferhof Wendel\n# RECHNUNG Nr. 12\nFrau Ulrike Sandnagel\nRechnungsdatum: 02.02.2026\nPos.   Bezeichnung   Einzel €   Gesamt €\n1   Glasuren mischen, 24. März 2026   590,00   590,00\n2   Brennöfen warten, 14. April 2026   390,00   390,00\nRechnungsbetrag   980,00 €\nEinen Nachweis erhalten Sie nach dem Besuch.", "receipt"),
		kind("prices under one currency", "Wickmoor Pottery Institute\n# TAX INVOICE\nBilled to:\nOrla Fennimore\nInvoice date: 27 April 2026\nItem   Qty   NZ$\nGlazes without Lead, 11 June 2026   1   980.00\nSubtotal   980.00\nGST 15 %   147.00\nTotal   1,127.00\nPlease bring an apron.", "receipt"),
	})
}
