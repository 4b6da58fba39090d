package extract_test

import (
	"context"
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// holdValues holds a reading to values that are right and certain.
func holdValues(t *testing.T, name string, r paper.Reading, values map[paper.Field]string) {
	t.Helper()
	for f, want := range values {
		if v := r.Values[f]; v.Text != want || !v.Certain {
			t.Errorf("%s: %s is %q, certain %v; want %q", name, f, v.Text, v.Certain, want)
		}
	}
}

// TestOrdinaryPapers reads short papers of every kind as bodies write them; each value is one that a
// careful reader writes down without asking.
func TestOrdinaryPapers(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       map[paper.Field]string
	}{
		{"a grade that ends in an accent", "Cercle des potiers du Val Ormeau\n# Reçu de cotisation\nReçu de M. Gaspard Aubertin la somme de 45,00 €\nau titre de sa cotisation de membre associé\npour la saison du 01/09/2025 au 31/08/2026.\nOrmeau, le 22 septembre 2025",
			map[paper.Field]string{paper.FieldTitle: "membre associé", paper.FieldTotal: "45.00 EUR"}},
		{"a certificate in a subject is what was earned", "Examining Board for Kiln Work\nThis certificate is awarded to\n# Kenneth Aldous Fennimore\nwho has satisfied the examiners and has been awarded the\n# Level 3 Certificate in Kiln Inspection\nwith Merit\nExamination held   27 June 2025\nDate of award   21 July 2025",
			map[paper.Field]string{paper.FieldTitle: "Level 3 Certificate in Kiln Inspection", paper.FieldAttendee: "Kenneth Aldous Fennimore"}},
		{"the minutes of a numbered meeting", "Institute of Kiln Surveyors\nNorthern Branch\n# Minutes of the 118th meeting of the Northern Branch Committee\nheld on Tuesday 20 January 2026 in the Potters' Hall.\nThe chair opened the meeting at 17.30.\nPresent   Office\nR. Appleton   Chair\nP. Sand   Committee member\n1 Minutes of the 117th meeting (18 November 2025) were agreed.\nThe meeting closed at 19.15.\nThis copy is supplied to Orla Fennimore as evidence of her attendance.\nSigned as a true record: R. Appleton, 17 February 2026",
			map[paper.Field]string{paper.FieldTitle: "Northern Branch Committee", paper.FieldStart: "2026-01-20", paper.FieldDuration: "105"}},
		{"the minutes of a numbered sitting", "Verband der Ofenbauer\n# Protokoll der 12. Sitzung des Fachausschusses Glasuren\nam 20. Januar 2026, 14:00 bis 16:30 Uhr\nAnwesend: Greta Lindqvist, Paul Sand, Rita Moor\nOstmark, 2. Februar 2026",
			map[paper.Field]string{paper.FieldKind: "meeting", paper.FieldStart: "2026-01-20", paper.FieldDuration: "150"}},
		{"the position at first and the one held now", "Ostmark Kilns Ltd\n# Verification of Employment\nEmployee: Desmond Fairley\nDate of hire: June 14, 2021\nPosition at hire: Kiln Technician\nCurrent position: Kiln Planner (since February 1, 2024)\nTermination date: none\nOctober 5, 2026",
			map[paper.Field]string{paper.FieldTitle: "Kiln Planner", paper.FieldStart: "2021-06-14"}},
		{"the position at first and the one held now, in German", "Ofenbau Ostmark GmbH\n# Arbeitsbescheinigung\nMitarbeiter: Paul Sand\nEintritt: 1. März 2019\nPosition bei Eintritt: Ofensetzer\nJetzige Position: Brennmeister (seit 1. Juni 2023)\nOstmark, 5. Oktober 2026",
			map[paper.Field]string{paper.FieldTitle: "Brennmeister"}},
		{"what was paid for is not what was taught", "École des potiers de Montclair\n# Attestation d’intervention\nNous attestons que Mme Noémie Castel a animé l’atelier\nÉmaux : cendres, sables, sels\nle jeudi 12 mars 2026, de 9 h à 12 h 30, avec une pause de 10 h 30 à 10 h 45.\nL’intervenante a été rémunérée sur la base de cinq heures, préparation comprise.\nMontclair, le 20 mars 2026",
			map[paper.Field]string{paper.FieldDuration: "195"}},
		{"a fee for hours in English", "Ostmark Pottery School\nThis is to certify that Orla Fennimore taught the workshop “Raku in a Day” on 14 May 2026 from 10:00 to 13:00. She was paid for five hours, including preparation.\nIssued 20 May 2026",
			map[paper.Field]string{paper.FieldDuration: "180"}},
		{"for whom somebody taught", "Lake Tannvale College\n20 March 2026\nThis letter verifies that Bettina Lockwood taught the noncredit class Glazes for Very Small Kilns for our division as an adjunct instructor.\nThe class met on eight Tuesdays, January 13 through March 3, 2026, from 6:00 PM to 8:30 PM, for a total of 20 hours of instruction.",
			map[paper.Field]string{paper.FieldTitle: "Glazes for Very Small Kilns", paper.FieldDuration: "1200"}},
		{"the times hold for both afternoons", "Tannvale Kiln Centre\n# CERTIFICATE OF ATTENDANCE\nFenella Oakham\nattended the two-part workshop\nFiring by Ear\non 11 November 2025 and 18 November 2025\n13:00 to 16:30 on both afternoons, with a tea break from 14:40 to 15:00\nIssued 24 November 2025",
			map[paper.Field]string{paper.FieldDuration: "380"}},
		{"the times hold for both evenings, in Dutch", "Ovenhuis Ostmeer\n# Certificaat\nWieke Aldershof heeft op 3 en 10 maart 2026 de cursus Veilig stoken gevolgd,\nbeide avonden van 19:00 tot 21:00 uur.\nOstmeer, 12 maart 2026",
			map[paper.Field]string{paper.FieldDuration: "240"}},
		{"accepted by the board in its session", "Revista Cántara de Cerámica\nCántara, 9 de febrero de 2026\nSr. D. Saturnino Vega Marín\nEstimado señor Vega:\nNos complace comunicarle que su artículo «Cocción en hornos de leña», recibido el 30 de septiembre de 2025, fue aceptado por el Consejo de Redacción en su sesión del 5 de febrero de 2026.",
			map[paper.Field]string{paper.FieldEnd: "2026-02-05", paper.FieldIssue: "2026-02-09"}},
		{"a title for examinations that were passed", "INSTITUTO SUPERIOR DE CERÁMICA VALDORADO\notorgan a\nDOÑA LEOCADIA MIRANDA ANTÓN\nel título de\nCeramista Diplomada, Grado Superior\npor haber superado las pruebas celebradas el 12 de junio de 2026\nValdorado, 30 de junio de 2026",
			map[paper.Field]string{paper.FieldKind: "credential", paper.FieldStart: "2026-06-12"}},
		{"an invitation in a letter", "Freundeskreis der Ofensetzer Auental\nRundbrief 2/2026\nLiebe Kolleginnen und Kollegen,\nam Samstag, dem 9. Mai 2026, laden wir von 10 bis 16 Uhr herzlich zum Werkstatttag „Kalk und Asche“ ein.\nDie Teilnahme kostet 45 Euro. Bitte meldet euch bis zum 24. April an.",
			map[paper.Field]string{paper.FieldKind: "not-evidence"}},
		{"what is charged besides the course", "Ostmark College of Glazing\n# INVOICE\nBill to: Mr Idris Pole\nInvoice date: 3 April 2026\nItem   Quantity   Unit price   Amount\nAsh Glazes: Finding Fault   1   £345.00   £345.00\nConsumables for the practical session of this course   1   £28.00   £28.00\nSubtotal   £373.00\nVAT at 20%   £74.60\nInvoice total   £447.60",
			map[paper.Field]string{paper.FieldTitle: "Ash Glazes: Finding Fault", paper.FieldTotal: "447.60 GBP"}},
		{"a remark in brackets over two lines", "Tannvale Kiln School\nRutland, VT 05701\n# REFUND CONFIRMATION\nDate: February 19, 2026\nPaid to: Hollis Brand\nDescription   Amount\nHull Glazes: What They Mean (class of March 23-25, 2026, canceled   $640.00\nCancellation fee   -$75.00\nTotal refunded   $565.00",
			map[paper.Field]string{paper.FieldTitle: "Hull Glazes: What They Mean", paper.FieldTotal: "-565.00 USD"}},
		{"the theme of a term", "Kolleg für Ofenbau Erlbach\n# Anwesenheitsnachweis zur Ringvorlesung\nWintersemester 2025/26: Feuer im Freien\nHörer: Herr Valentin Rauten\nMittwoch   Uhrzeit   Vorlesung   anwesend\n15.10.2025   18:15–19:45   Was Tone aushalten   ja\n22.10.2025   18:15–19:45   Asche und Salz   ja\n29.10.2025   18:15–19:45   Scherben lesen   nein\nErlbach, 26.11.2025\nDr. Notburga Seiff\nStudiensekretariat",
			map[paper.Field]string{paper.FieldTitle: "Feuer im Freien", paper.FieldAttendee: "Valentin Rauten", paper.FieldDuration: "180"}},
		{"a grade that may be asked for", "THE KILN TRANSLATORS' CIRCLE\n2 April 2026\nMiss Honor Castle\nDear Miss Castle\nReceipt for your subscription\nYour subscription is now paid for the membership year running from 1 April 2026 to 31 March 2027.\nGrade   Associate\nSubscription   £118.00\nLess concession   -£22.00\nAmount paid   £96.00\nIf you wish to apply for the grade of Fellow, the next closing date is 30 September 2026.",
			map[paper.Field]string{paper.FieldTitle: "Associate", paper.FieldTotal: "96.00 GBP"}},
		{"sessions of an hour and a half, and hours that are paid", "Conservatoire des Potiers de Malvern\n# ATTESTATION D’ENSEIGNEMENT\nJe soussignée, directrice des études, atteste que\n# Monsieur Thibault Maure\na assuré l’atelier\n# « Dorure des grès »\nL’atelier a compté 12 séances d’une heure et demie, du 30 septembre au 16 décembre 2025. La préparation, rémunérée forfaitairement à hauteur de 10 heures, n’est pas comprise dans ce décompte.\nFait à Malvern, le 19 décembre 2025",
			map[paper.Field]string{paper.FieldDuration: "1080"}},
		{"parts of a day of so long each", "Nascholing Ostmeer\n# Bewijs van deelname\n# Hanneke Wolders\nheeft deelgenomen aan de cursus\n# Glazuur stap voor stap\ngegeven in twee dagdelen van ieder 3 uur, op 12 en 19 november 2025, in Zaal De Sluis te Ostmeer.\nOstmeer, 24 november 2025",
			map[paper.Field]string{paper.FieldDuration: "360", paper.FieldStart: "2025-11-12", paper.FieldEnd: "2025-11-19"}},
		{"a commission that examined", "CONSEJO DE CERAMISTAS DE LA RIBERA\nComisión de Exámenes y Acreditación\n# Título acreditativo\nLa Comisión hace constar que\n# D. Íñigo Valde Cifuentes\nsuperó el 21/03/2025 las pruebas teórica y práctica y obtiene la acreditación de\n# Perito Ceramista, Categoría B\nExpedido en Valdehondo el 02/05/2025",
			map[paper.Field]string{paper.FieldKind: "credential"}},
		{"an announcement that promises a proof", "Ofenkreis Unstruttal\n# Werkstatt Glasuren: vom Ton zur Schale\nZwei Tage, zwölf Plätze!\nAm 5. und 6. Juni 2026 zeigt Almut Federk, wie eine Schale entsteht.\nTeilnahmegebühr 240 €, für Mitglieder 190 €\nJede und jeder erhält am Ende eine Teilnahmebescheinigung.\nJetzt anmelden bis 15. Mai.",
			map[paper.Field]string{paper.FieldKind: "not-evidence"}},
	} {
		holdValues(t, c.name, extract.Understand(pagesOf(c.text), extract.Hints{})[0], c.want)
	}
}

// TestPapersOfLines reads papers that have no places: a message whose cell holds a remark beneath what it
// names, from a body with a name like a person's that its domain tells; a bill for a place; and rows whose
// sums leave out the column of names.
func TestPapersOfLines(t *testing.T) {
	message := "From: Open Kiln Roundtable <talk@openkiln.example>\r\nTo: Cormac Villar <cormac@villar.example>\r\nSubject: Receipt 88213\r\nDate: Tue, 08 Sep 2026 21:40:12 -0700\r\nContent-Type: text/html; charset=utf-8\r\n\r\n" +
		"<p>Receipt no. 88213</p><p>Hi Cormac Villar, thanks for your payment. Here is what you bought:</p>" +
		"<table><tr><th>Description</th><th>Amount</th></tr><tr><td>Glazes That Hold Up<br>Class meets October 5 and 6, 2026, Flagstaff</td><td>$295.00</td></tr>" +
		"<tr><td>Early bird</td><td>-$30.00</td></tr><tr><td>Arizona sales tax on printed workbook</td><td>$2.19</td></tr><tr><td><b>Total charged</b></td><td>$267.19</td></tr></table>" +
		"<p>Card ending in 7730.</p><p>Open Kiln Roundtable</p><p>3 Mesa Loop, Flagstaff, AZ 86001</p>"
	courses := "Northern Institute of Kiln Practice\nStatement of continuing professional development\n\nMember: Mr Alastair Vennor\nMembership number: SR 118 206\n\n" +
		"Date\tCourse\tHours\tCPD points\n05/11/2025\tDamp Clay\t5.5\t5\n12/01/2026\tKiln Law\t3.0\t3\n26/02/2026\tTalking about Ash\t2.5\t2\nTotal\t11.0\t10\n\nRecord closed on 31 March 2026.\n"
	place := "Tannvale Kiln Surveys\n\nTAX INVOICE 2088\nTo: Ms Wren Holl\nInvoice date: 14 November 2025\n\nQty\tItem\tAmount\n1\tFull-day place: Ash in Old Kilns\t£310.00\nTotal\t\t£310.00\n\nCourse date: 6 December 2025\n"
	for _, c := range []struct {
		text string
		want map[paper.Field]string
	}{
		{message, map[paper.Field]string{paper.FieldTitle: "Glazes That Hold Up", paper.FieldStart: "2026-10-05", paper.FieldEnd: "2026-10-06", paper.FieldTotal: "267.19 USD", paper.FieldProvider: "Open Kiln Roundtable"}},
		{place, map[paper.Field]string{paper.FieldTitle: "Ash in Old Kilns", paper.FieldStart: "2025-12-06", paper.FieldTotal: "310.00 GBP"}},
		{courses, map[paper.Field]string{paper.FieldKind: "transcript", paper.FieldDuration: "660", paper.FieldCredits: "10 CPD points", paper.FieldIssue: "2026-03-31"}},
	} {
		papers, err := extract.ReadBy(context.Background(), newKept(t), strings.NewReader(c.text), extract.Hints{})
		if err != nil || len(papers) != 1 {
			t.Fatalf("%d papers, %v", len(papers), err)
		}
		holdValues(t, c.text[:20], papers[0].Reading, c.want)
	}
}

// TestSumsThatMayLackASession: sessions of which one has no time, or beside which another clock time
// stands, come to a sum that is asked about.
func TestSumsThatMayLackASession(t *testing.T) {
	const head = "Tannvale Kiln Centre\n# Certificate of Attendance\nThis certifies that Orla Fennimore attended the evening series Firing by Ear.\nDate            Topic             Time\n"
	for _, c := range []struct {
		name, rows string
		certain    bool
	}{
		{"all have one", "3 March 2026    Ash and Salt      18:00-19:30\n10 March 2026   Reading Shards    18:00-19:30\n17 March 2026   Cones             18:00-19:30\n", true},
		{"one has none", "3 March 2026    Ash and Salt      18:00-19:30\n10 March 2026   Reading Shards    see below\n17 March 2026   Cones             18:00-19:30\n", false},
		{"another time beside them", "3 March 2026    Ash and Salt      18:00-19:30\n10 March 2026   Reading Shards    18:00-19:30\n17 March 2026   Cones             18:00-19:30\n\nThose who wished walked through the yard, 20:00 to 20:45.\n", false},
	} {
		r := extract.Understand(pagesOf(head+c.rows+"Issued 24 March 2026"), extract.Hints{})[0]
		if v := r.Values[paper.FieldDuration]; v.Text == "" || v.Certain != c.certain {
			t.Errorf("%s: %q, certain %v; want certain %v", c.name, v.Text, v.Certain, c.certain)
		}
	}
}
