package extract_test

import (
	"testing"

	"evidencevault/extract/paper"
)

// gainedCredits are short papers on which credits are written in other ways than a number and a
// known unit, and some on which they are none of the person's.
var gainedCredits = []valueCase{
	{"a list without a table", "Kammer der Töpfer Seetal\n# Bildungskonto\nWeiterbildung von Beat Fankhauser\nIhre absolvierten Veranstaltungen:\nOfenbau\n14. März 2025, Hochdorf – 3 Weiterbildungspunkte\nGlasuren\n3. Juli 2025, per Video – 1,5 Weiterbildungspunkte\nEngoben\n16. Oktober 2025, Lenzbergwil – 9 Weiterbildungspunkte", "13.5 Weiterbildungspunkte"},
	{"two kinds and their sum in words", "Ovenhuis Ostmeer\n# Certificaat\nWieke Aldershof rondde op 3 maart 2026 de e-learning Veilig stoken af.\nRegistreerbaar: 2 studiepunten (inhoud) en 0,5 studiepunt (toetsing) – samen 2,5 studiepunten.", "2.5 studiepunten"},
	{"two kinds and their sum in English", "Wendle Forum\n# Certificate of Completion\nOrla Fennimore completed the online course Kiln Vents on 3 March 2026.\nIt carries 3 CPD points for content and 1 CPD point for the test, 4 CPD points in all.", "4 CPD points"},
	{"hours that were recognised", "Brennhof Akademie\n# Teilnahmebescheinigung\nFrau Ulrike Sandnagel hat am 3. März 2026 am Seminar \"Ofenbau\" teilgenommen; anerkannt mit 14 Fortbildungsstunden nach § 7 der Ordnung.", "14 Fortbildungsstunden"},
	{"hours beside letters", "Wendle Forum\n# Certificate of Completion\nName: Orla Fennimore\nCourse: Kiln Vents\nFinished: 29 March 2026\nTime logged: 1 h 52 min\nVerifiable CPD: 2 hours", "2 CPD hours"},
	{"units of a scheme", "Wendle Forum\n# Certificate of Attendance\nThis certifies that Orla Fennimore attended the seminar Kiln Vents on 3 March 2026.\nMembers may claim 5 structured units under the scheme.", "5 structured units"},
	{"letters that a legend explains", "Ofenregister Ostmeer\n# Fortbildungskonto\nMitglied: Wieke Aldershof\nDatum   Kurs   Anbieter   FP\n2. Februar 2025   Lüftung   Brennhof   4\n14. Mai 2025   Glasuren   Brennhof   3\n9. Oktober 2025   Ofenbau   Tonhaus   2\nFP = Fortbildungspunkte", "9 Fortbildungspunkte"},
	{"what a card says is due", "Badger County Board of Kilns\n# LICENSED KILN INSPECTOR\nName: Orla Fennimore\nExam: 07/22/2025 (PASS)\nIssued: 08/05/2025\n12 CE hours due each renewal", ""},
	{"what members must earn", "Sagebrush Registry of Potters\n# Activity report\nLicensee: Orla Fennimore\nDate   Activity   Sponsor   PDH\n02/27/2024   Kiln Vents   Lone Cedar   6.0\n06/13/2024   Ethics   Lone Cedar   1.5\n10/08/2024   Glazes   Big Muddy   2.5\nLicensees must earn 15 PDH in each two-year cycle.", "10 PDH"},
	{"another course that is praised", "Lernwelt Ton\n# Teilnahmebescheinigung\nFrau Ulrike Sandnagel hat am 3. März 2026 das E-Learning \"Ofenbau\" abgeschlossen.\nFortbildungspunkte: 2\nDas könnte Sie auch interessieren: Glasuren sicher mischen (Präsenz, 20.06.2026, 8 Fortbildungspunkte).", "2 Fortbildungspunkte"},
	{"what somebody is bound to do in French", "Atelier Sud\n# Attestation de présence\nSolène Archambaud a suivi le stage « Cuisson » le 3 mars 2026, pour 4 points.\nLes membres doivent acquérir 20 points par an.", "4 points"},
	{"what the whole is worth and what this person got", "Moorby Dyers' Circle\n# Certificate of Attendance\nPerpetua Lindquay attended the congress on 17 April 2026.\nThe full congress carries 9 CPD points (decision of 12 January 2026). The participant earned 7 CPD points.", "7 CPD points"},
	{"the same in German", "Färberbund Moosau e. V.\n# Teilnahmebescheinigung\nFrau Henrike Paulsmühl hat am 17. April 2026 am Kongress teilgenommen.\nDer Kongress ist insgesamt mit 9 Fortbildungspunkten bewertet. Für die besuchten Teile werden der Teilnehmerin 7 Fortbildungspunkte angerechnet.", "7 Fortbildungspunkte"},
	{"the same in French", "Cercle des teinturiers\n# Attestation\nMme Apolline Dervieux a participé au congrès le 17 avril 2026.\nLe congrès complet donne droit à 9 points. La participante se voit attribuer 7 points.", "7 points"},
	{"the same in Spanish", "Gremio de Tintoreros\n# Certificado\nDoña Itziar Larralde asistió al congreso el 17 de abril de 2026.\nEl congreso completo está acreditado con 9 créditos. A la asistente se le reconocen 7 créditos.", "7 créditos"},
	{"the same in Dutch", "Gilde van Ververs\n# Bewijs van deelname\nMevrouw Fenna Oldersma nam op 17 april 2026 deel aan het congres.\nHet volledige congres is goed voor 9 punten. Aan deze deelnemer worden 7 punten toegekend.", "7 punten"},
	{"what is recommended next, with its price", "Moorby Dyers Academy\n# Certificate of Completion\nPerpetua Lindquay has completed the self-paced online course\nWoad for Beginners\nCompleted   October 8, 2025\nCE hours   4\nContinue with: Madder Basics (3 CE hours, $45).", "4 CE hours"},
	{"the same in French", "Institut de teinture\n# Attestation\nApolline Dervieux a terminé le cours en ligne Guède le 8 octobre 2025. Points obtenus : 4 points\nNous vous recommandons aussi : Garance (3 points, 45 €)", "4 points"},
	{"parts of one without a nought", "MOORLAND REGISTRY FOR DYERS\n# EXTRACT\nName: Perpetua Lindquay\nRow   Date done   Course   Contact h   CEU   Status\n1   03/14/2025   Attics   4.0   .40   posted\n2   05/22/2025   Decks   3.0   .30   posted\n3   06/05/2025   Gas   0.0   .00   withdrawn\n4   10/09/2025   Meters   5.5   .55   posted\nTotals credited   12.5   1.25\nCertified this 2nd day of March, 2026.", "1.25 CEU"},
	{"hours before a label of units", "Lodge of Dyers\n# Certificate of Attendance\nPerpetua Lindquay attended the course Woad from 13 to 15 May 2026.\nLearning hours: 14.5 hours CPD units: 12 Approval: DY/2026/071\nGiven at Moorby this 15th day of May 2026.", "12 CPD units"},
}

var gainedSums = []valueCase{
	{"less what was paid before", "Seminarhof Murauen\n# Honorarnote Nr. 118\nMurauen, 27. Oktober 2025\nFrau Ulrike Sandnagel\nSeminarbeitrag   EUR 1.050,00\nUnterlagen   EUR 48,00\nZwischensumme   EUR 1.098,00\n20 % Umsatzsteuer   EUR 219,60\nGesamtbetrag   EUR 1.317,60\nabzüglich Ihrer Anzahlung   EUR 300,00\nnoch offen   EUR 1.017,60", "1317.60 EUR"},
	{"what is still to pay in French", "Atelier Sud\n# FACTURE\nDate : 30/03/2026\nClient : Solène Archambaud\nStage Fours   400,00 €\nMatériel   20,00 €\nTotal TTC   420,00 €\nAcompte versé   -100,00 €\nReste dû   320,00 €", "420.00 EUR"},
	{"francs without a point", "# QUITTUNG\nBetrag Fr 240.– in Worten zweihundertvierzig\nvon Ursina Gadient\nfür Lehrgang \"Trockenmauern\"\nChur, 28. Mai 2026\nWerkstatt Steinwerk, 7099 Churwald", "240 CHF"},
	{"dollars by the country", "# TAX INVOICE\nKauri Valley Potters\nPO Box 61, Whakarua 4640, New Zealand\nBill to: Orla Fennimore\nInvoice date: 4 September 2026\nCourse Kiln Vents   $480.00\nEarly-bird reduction   -$60.00\nGST 15%   $63.00\nAmount owing   $483.00", "483.00 NZD"},
	{"the sign beneath the sum", "Ordre des potiers du Bas-Outarde\n88, rue des Éboulis, Baie-Corbeau (Québec) G5C 0Z0\n# Reçu officiel de cotisation\nÉmis le 2026-04-08\nReçu de Mme Solène Archambaud\nCotisation annuelle, exercice du 1er avril 2026 au 31 mars 2027   412,00 $\nContribution au fonds   35,00 $\nTPS 5 %   22,35 $\nTVQ 9,975 %   44,59 $\nTotal acquitté par virement   513,94", "513.94 CAD"},
	{"the sign over the column, with words before the sums", "Moorland Dye Training\n9 Haven Quay, Nelby 7010, New Zealand\n# CREDIT NOTE\nNo. CN-0217\n2 October 2025\nFor\nPerpetua Lindquay\n31 Collins Rise\nRichby 7020\nWhat   NZ$\nWoad, 20–21 October 2025   260.00\nGST 15 %   39.00\nPaid back to you   299.00", "-299.00 NZD"},
	{"the same on an invoice", "Moorland Dye School Ltd\n22 Haven Road, Perth WA 6000\n# TAX INVOICE\nInvoice date: 27 April 2026\nBilled to: Ms Perpetua Lindquay\nItem   Qty   A$\nWoad Refresher, 11 June 2026   1   900.00\nAssessment charge   1   150.00\nEarly booking reduction   −90.00\nSubtotal before GST   960.00\nGST 10 %   96.00\nTotal incl. GST   1,056.00\nDeposit received 15 April 2026   300.00\nBalance payable   756.00", "1056.00 AUD"},
}

// TestWhatWasGained: credits are found in whatever way they are written, and what is only asked
// for is none; the whole sum is the one before what was paid of it.
func TestWhatWasGained(t *testing.T) {
	checkValues(t, paper.FieldCredits, gainedCredits)
	checkValues(t, paper.FieldTotal, gainedSums)
}
