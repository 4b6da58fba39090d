package extract_test

import (
	"strconv"
	"strings"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// drawnForm sets lines on a page: the size of the letters, then cells parted by " / ", each with where it
// begins, in points. An empty line is a gap.
func drawnForm(text string) page.Document {
	pg := page.Page{Number: 1, Width: 59500, Height: 84200}
	y := 5000
	for line := range strings.SplitSeq(strings.Trim(text, "\n"), "\n") {
		points, cells, ok := strings.Cut(line, " ")
		if !ok {
			y += 1200
			continue
		}
		size, _ := strconv.Atoi(points)
		size *= 100
		for cell := range strings.SplitSeq(cells, " / ") {
			at, words, _ := strings.Cut(cell, " ")
			x, _ := strconv.Atoi(at)
			x *= 100
			for w := range strings.FieldsSeq(words) {
				width := len([]rune(w)) * size / 2
				pg.Words = append(pg.Words, page.Word{Text: w, Box: [4]int{x, y, x + width, y + size}, Size: size, Confidence: 100})
				x += width + size/4
			}
		}
		y += size * 5 / 4
	}
	return page.Document{Type: "pdf", Pages: []page.Page{pg}}
}

// A formCase is a filled form with what is certain to who reads it; "" where a field has no value.
type formCase struct {
	why, form string
	want      map[paper.Field]string
}

func checkForms(t *testing.T, cases []formCase, as func(string) page.Document) {
	t.Helper()
	for _, c := range cases {
		r := extract.Understand(as(c.form), extract.Hints{})[0]
		for f, want := range c.want {
			if v := r.Values[f]; v.Text != want || want != "" && !v.Certain {
				t.Errorf("%s: %s is %q, certain %v; want %q", c.why, f, v.Text, v.Certain, want)
			}
		}
	}
}

// TestDrawnForms reads forms by where labels and values stand: beneath each other in letters of two sizes,
// the label above or beneath, and numbered.
func TestDrawnForms(t *testing.T) {
	checkForms(t, []formCase{
		{"labels beneath in capitals, with a row of values that looks like a list", `
18 50 Tannvale Joinery School
9 50 12 Mill Street, Tannvale, KS 67999

12 50 VERIFICATION OF TEACHING

11 50 Mona Arkell / 400 FD 3319
7 50 NAME / 400 LICENSE (IF ANY)
9 50 This person took part as (mark one only):
9 50 ☐ Participant / 150 ☒ Instructor / 250 ☐ Proctor

11 50 Dovetails by Hand
7 50 PROGRAM

11 50 03/09/2026 / 200 03/11/2026 / 330 10.5 / 450 4
7 50 FIRST DAY / 200 LAST DAY / 330 HOURS TAUGHT / 450 HOURS PREPARING

11 50 22 / 200 Workshop B, Walnut Hall
7 50 STUDENTS / 200 ROOM

11 50 Jolene Vandeveer / 400 03/20/2026
7 50 REGISTRAR / 400 DATE SIGNED`,
			map[paper.Field]string{paper.FieldKind: "instruction", paper.FieldAttendee: "Mona Arkell", paper.FieldTitle: "Dovetails by Hand",
				paper.FieldStart: "2026-03-09", paper.FieldEnd: "2026-03-11", paper.FieldIssue: "2026-03-20", paper.FieldDuration: "630"}},
		{"hours over their labels, with the breaks as a number of minutes", `
18 50 Tannvale Ringers' Fellowship

14 50 Record of attendance

11 50 Arkell / 300 Mona
7 50 Family name / 300 First name

11 50 Inspecting Bell Frames
7 50 Training day

11 50 27/03/2026 / 180 10:00 / 290 15:45 / 400 45
7 50 Date of training day / 180 Started / 290 Ended / 400 Breaks, in minutes (all together)

9 50 The member attended / 180 ☒ throughout / 290 ☐ in part (give minutes missed overleaf)

11 50 Cuthbert Mossop / 400 29/03/2026
7 50 Signed for the Fellowship / 400 Date signed`,
			map[paper.Field]string{paper.FieldAttendee: "Mona Arkell",
				paper.FieldStart: "2026-03-27", paper.FieldEnd: "2026-03-27", paper.FieldIssue: "2026-03-29", paper.FieldDuration: "300"}},
		{"numbered evenings under labels, with hours for each", `
18 50 Brandschutzakademie Tannau
9 50 Deichstraße 9, 99991 Tannau

14 50 Lehrgangsbescheinigung

7 50 Name, Vorname / 350 geboren am
11 50 Arkell, Mona / 350 17.08.1994

7 50 Lehrgang
11 50 Auffrischung mit Löschübung

9 50 Form: / 120 ☐ Tageslehrgang / 240 ☒ Abendlehrgang / 360 ☐ Fernlehrgang

7 50 1. Abend / 200 2. Abend / 350 3. Abend
11 50 05.05.2026 / 200 12.05.2026 / 350 19.05.2026

7 50 Uhrzeit, jeweils von / 200 bis / 350 Pausen
11 50 18:00 / 200 20:15 / 350 keine

7 50 besuchte Abende / 200 Ausbilder
11 50 3 von 3 / 200 Ubbo Carstens

11 50 Tannau, 19.05.2026
7 50 Ort, Datum`,
			map[paper.Field]string{paper.FieldKind: "attendance", paper.FieldAttendee: "Mona Arkell",
				paper.FieldStart: "2026-05-05", paper.FieldEnd: "2026-05-19", paper.FieldIssue: "2026-05-19", paper.FieldDuration: "405"}},
		{"the same in Spanish, with two of three evenings", `
18 50 Escuela Tanval de Extinción

14 50 Certificado de asistencia

7 50 Nombre y apellidos
11 50 Mona Arkell

7 50 Curso
11 50 Extintores portátiles

7 50 Tarde 1 / 200 Tarde 2 / 350 Tarde 3
11 50 05/05/2026 / 200 12/05/2026 / 350 19/05/2026

7 50 Horario, cada tarde, desde / 200 hasta / 350 Tardes asistidas
11 50 18:00 / 200 20:00 / 350 2 de 3

11 50 Tanval, 21/05/2026
7 50 Lugar y fecha`,
			map[paper.Field]string{paper.FieldStart: "2026-05-05", paper.FieldEnd: "2026-05-19", paper.FieldIssue: "2026-05-21", paper.FieldDuration: "240"}},
		{"numbered lines, home study, and the day of the paper by its own name", `
14 50 TANNVALE CORRESPONDENCE SCHOOL

12 50 COURSE COMPLETION AFFIDAVIT

9 50 1. Student / 250 Mona Arkell

9 50 2. License number / 250 CR-00418-UT

9 50 3. Course / 250 Valuing Mobile Homes

9 50 4. How the course was taken / 250 ☐ Classroom / 350 ☐ Live webinar / 450 ☒ Home study

9 50 5. Materials received on / 250 01/12/2026

9 50 6. Final exam passed on / 250 02/20/2026

9 50 7. Listed study time, hours / 250 7.0

9 50 8. CE hours earned / 250 7

9 50 ☒ I did the reading and the exam by myself.
9 50 ☐ I want this affidavit mailed to the Division as well.

11 50 /s/ Lavonne Tippett / 400 02/23/2026
7 50 Signature of school official / 400 Date of affidavit`,
			map[paper.Field]string{paper.FieldKind: "completion", paper.FieldStart: "", paper.FieldEnd: "2026-02-20", paper.FieldIssue: "2026-02-23",
				paper.FieldDuration: "420", paper.FieldCredits: "7 CE hours"}},
	}, drawnForm)
}

// TestChosenOfOffered: what stands with an empty box says nothing where other boxes are ticked.
func TestChosenOfOffered(t *testing.T) {
	checkForms(t, []formCase{
		{"brackets in English", "Attendance record\nName: Mona Arkell\nCourse: Wire Rope Inspection\nDate: 14 May 2026\nTime: 13:00 to 17:00\nAttended: [x] throughout [ ] partly, absent from 15:00 to 17:00\nIssued 20 May 2026\nTannvale Training Trust",
			map[paper.Field]string{paper.FieldKind: "attendance", paper.FieldDuration: "240"}},
		{"boxes behind their words in German", "Teilnahmebescheinigung\nName: Mona Arkell\nSeminar: Seilprüfung\nDatum: 14. Mai 2026\nZeit: 13:00 – 17:00 Uhr\nVollständig anwesend: ja ☒ zeitweise abwesend ☐\nAusgestellt am 20. Mai 2026\nBildungswerk Tannau e. V.",
			map[paper.Field]string{paper.FieldKind: "attendance", paper.FieldDuration: "240"}},
		{"who took part as what in French", "Institut Tannval\nAttestation\nNom et prénom : Mona Arkell\nA participé en tant que : ☐ stagiaire ☒ formatrice\nFormation : Contrôle des câbles\nDate : 14 mai 2026\nDurée : 4 heures\nFait à Tannval, le 20 mai 2026",
			map[paper.Field]string{paper.FieldKind: "instruction", paper.FieldDuration: "240"}},
		{"the other way round in Dutch", "Instituut Tanveld\nBewijs van deelname\nNaam: Mona Arkell\nDeelgenomen als: ☒ cursist ☐ docent\nCursus: Kabelinspectie\nDatum: 14 mei 2026\nDuur: 4 uur\nAfgegeven op 20 mei 2026",
			map[paper.Field]string{paper.FieldKind: "attendance", paper.FieldDuration: "240"}},
	}, func(text string) page.Document { return pagesOf(text) })
}

// TestSheetsOfHours reads lists of coming and going, and forms that give the time in parts.
func TestSheetsOfHours(t *testing.T) {
	checkForms(t, []formCase{
		{"a column of minutes for breaks is no column of time, and 7:00 under Hours is a length", "Tannvale Training Trust\n# Time sheet of a course participant\nName: Mona Arkell\nCourse: Warping and Beaming\nDate   In   Out   Break (min)   Hours\nMon 6 July 2026   09:00   17:00   60   7:00\nTue 7 July 2026   08:45   15:30   45   6:00\nThu 9 July 2026   09:00   16:15   60   6:15\nIssued 10 July 2026",
			map[paper.Field]string{paper.FieldDuration: "1155"}},
		{"the same without a column of hours, in German", "Bildungswerk Tannau e. V.\n# Anwesenheitsnachweis\nTeilnehmerin: Mona Arkell\nSeminar: Schären\nDatum   Kommen   Gehen   Pause\n02.03.2026   08:00   16:30   45 min\n03.03.2026   08:00   15:30   45 min\nAusgestellt am 6. März 2026",
			map[paper.Field]string{paper.FieldKind: "attendance", paper.FieldDuration: "870"}},
		{"a session to which somebody did not come denies that session alone, in Spanish", "Instituto Tanval\n# Control de asistencia\nParticipante: Mona Arkell\nTaller: Urdido manual\nSesión   Fecha   Entrada   Salida   Firma\n1   13/04/2026   16:00   19:00   Firmado\n2   14/04/2026   16:00   19:00   No asistió\n3   15/04/2026   16:00   19:00   Firmado\nExpedido el 20 de abril de 2026",
			map[paper.Field]string{paper.FieldKind: "attendance", paper.FieldStart: "2026-04-13", paper.FieldEnd: "2026-04-15", paper.FieldDuration: "360"}},
		{"signed in over an hour is when somebody came", "Tannvale Training Trust\n# Certificate of attendance\nParticipant: Mona Arkell\nStudy day: Draft Notation\nDate: 21 May 2026\nScheduled: 09:00 – 16:30\nSigned in: 09:40\nSigned out: 16:30\nLunch: 12:30 – 13:15 (not counted)\nIssued 28 May 2026",
			map[paper.Field]string{paper.FieldDuration: "365"}},
		{"the whole day, in German", "Bildungswerk Tannau e. V.\n# Teilnahmebestätigung\nName: Mona Arkell\nVeranstaltung: Naturfarben\nDatum: 16.05.2026\nVormittag: 09:00 – 12:15 Uhr\nNachmittag: 13:15 – 16:30 Uhr\nTeilgenommen: ☒ ganztägig ☐ nur vormittags ☐ nur nachmittags\nBestätigt am: 18.05.2026",
			map[paper.Field]string{paper.FieldDuration: "390"}},
		{"the morning only, in German", "Bildungswerk Tannau e. V.\n# Teilnahmebestätigung\nName: Mona Arkell\nVeranstaltung: Naturfarben\nDatum: 16.05.2026\nVormittag: 09:00 – 12:15 Uhr\nNachmittag: 13:15 – 16:00 Uhr\nTeilgenommen: ☐ ganztägig ☒ nur vormittags ☐ nur nachmittags\nBestätigt am: 18.05.2026",
			map[paper.Field]string{paper.FieldDuration: "195"}},
		{"the afternoon only, in Dutch", "Instituut Tanveld\n# Bewijs van deelname\nNaam: Mona Arkell\nStudiedag: Verven\nDatum: 16 mei 2026\nOchtend: 09.00 – 12.15 uur\nMiddag: 13.15 – 16.00 uur\nAanwezig: ☐ hele dag ☐ alleen ochtend ☒ alleen middag\nAfgegeven op 18 mei 2026",
			map[paper.Field]string{paper.FieldDuration: "165"}},
		{"private study within the whole, in French", "Institut Tannval\n# Attestation de formation\nStagiaire : Mona Arkell\nFormation : Dessin\nDu : 14/09/2026\nAu : 17/09/2026\nDurée totale (heures) : 24\nDont travail personnel (heures) : 6\nFait le 21/09/2026",
			map[paper.Field]string{paper.FieldDuration: "1080"}},
		{"days that were ticked, and a time of each, in Dutch", "Instituut Tanveld\n# Deelnameformulier\nNaam: Mona Arkell\nCursus: Tapijtknopen\nAanwezig op: ☒ 3 juni 2026 ☒ 4 juni 2026 ☐ 5 juni 2026\nLestijd per dag, in uren: 6\nDatum ondertekening: 8 juni 2026",
			map[paper.Field]string{paper.FieldStart: "2026-06-03", paper.FieldEnd: "2026-06-04", paper.FieldDuration: "720"}},
		{"mornings that were ticked, and hours of each", "Tannvale Training Trust\n# Confirmation of attendance\nParticipant: Mona Arkell\nCourse: Band Weaving\nMornings attended: ☒ Mon 4 May 2026 ☒ Tue 5 May 2026 ☐ Wed 6 May 2026 ☒ Thu 7 May 2026\nEach morning from: 09:30\nTo: 12:30\nDate signed: 11 May 2026",
			map[paper.Field]string{paper.FieldStart: "2026-05-04", paper.FieldEnd: "2026-05-07", paper.FieldDuration: "540"}},
		{"a list of who signed for a course with one name is that one's, in Dutch", "Instituut Tanveld\n# Presentielijst\nCursist: Mona Arkell\nCursus: Scheren en bomen\nDatum   Van   Tot   Pauze   Aanwezig\n07-04-2026   13.30   16.30   15 min   ja\n14-04-2026   13.30   16.30   15 min   nee\n21-04-2026   13.30   16.30   15 min   ja\nGetekend op 30 april 2026",
			map[paper.Field]string{paper.FieldDuration: "330"}},
		{"what was not taught does not count, nor the marking of papers", "Tannvale School of Upholstery\n# Record of teaching\nTutor: Mona Arkell\nCourse taught: Buttoning\nDay   Time   Group   Remarks\nTue 3 February 2026   1.30 – 4.00 pm   B2   taught\nTue 10 February 2026   1.30 – 4.00 pm   B2   not taught: school closed\nTue 17 February 2026   1.30 – 4.00 pm   B2   taught\nHours taught: 5. Marking of the sample boards: 3 hours, paid at the lower rate.\nIssued 12 March 2026",
			map[paper.Field]string{paper.FieldKind: "instruction", paper.FieldDuration: "300"}},
		{"the same in German, in units whose hours are told", "Bildungswerk Tannau e. V.\n# Nachweis über erteilten Unterricht\nDozentin: Mona Arkell\nKurs: Bildweberei\nTermin   Zeit   UE   Bemerkung\nMi 08.04.2026   17:30 – 20:45   4   gehalten\nMi 15.04.2026   17:30 – 20:45   4   gehalten\nMi 22.04.2026   17:30 – 20:45   0   entfallen (Krankheit)\nInsgesamt 8 UE zu je 45 Minuten, das sind 6 Zeitstunden.\nAusgestellt am 4. Mai 2026",
			map[paper.Field]string{paper.FieldDuration: "360"}},
		{"hours given and hours of preparation, in Spanish", "Instituto Tanval\n# Parte de horas del docente\nDocente: Mona Arkell\nCurso impartido: Tintes\nFechas: 11 y 12 de mayo de 2026\nHoras impartidas: 8\nHoras de preparación: 3\nFecha de firma: 14/05/2026",
			map[paper.Field]string{paper.FieldDuration: "480"}},
	}, func(text string) page.Document { return pagesOf(text) })
	checkValues(t, paper.FieldKind, []valueCase{
		{"a list of who signed is no meeting's where it asks for the course and its learner", "Instituut Tanveld\n# Presentielijst\nCursist: Mona Arkell\nCursus: Scheren en bomen\nDatum   Van   Tot   Pauze   Aanwezig\n07-04-2026   13.30   16.30   15 min   ja\n14-04-2026   13.30   16.30   15 min   nee\n21-04-2026   13.30   16.30   15 min   ja\nGetekend op 30 april 2026", "attendance"},
	})
	checkValues(t, paper.FieldDuration, []valueCase{
		{"when others came and went is not added up", "Guild of Tannvale Gaugers, Section 12\n# Monthly section meeting: attendance sheet\nDate: Thursday, October 8, 2026\nProgram: 6:00 PM - 7:30 PM\nMember   No.   In   Out\nEdith Varnum   20330   5:48   7:30\nMona Arkell   20331   6:00   7:30\nSy Tollefsen   18840   6:02   7:10\nCertified for Mona Arkell by the secretary, October 9, 2026", "90"},
	})
}

// TestDaysOfLettersAndForms tells the day of the paper from those of what led to it.
func TestDaysOfLettersAndForms(t *testing.T) {
	const exam = "Western Board of Court Interpreters\n418 Justice Way, Fort Larkin, WY 82999\n\nMay 22, 2026\n\nMs. Mona Arkell\n1101 Sagehen Loop\n\nDear Ms. Arkell:\nCongratulations! You passed the oral examination given in Fort Larkin on April 18, 2026, and completed the requirements for\nCertified Court Interpreter, Advanced Level\nSincerely,\nDelbert Yancey\nExecutive Secretary"
	const ruling = "Landesprüfamt Altwiesen\nHerrn\nFolkert Niehues\nGeschäftszeichen   PA III 4417/25\nAntrag eingegangen   01.08.2025\nBescheid vom   27.10.2025\n# Prüfungsbescheid\nSehr geehrter Herr Niehues,\nSie haben die Prüfung zum Spielplatzprüfer am 9. Oktober 2025 abgelegt und bestanden.\nIm Auftrag\nGudula Reichen"
	checkValues(t, paper.FieldIssue, []valueCase{
		{"a letter's own day, and not that behind its greeting", exam, "2026-05-22"},
		{"by the name that the paper gives itself", ruling, "2025-10-27"},
		{"the same in Dutch", "Examenbureau Tanveld\nMevrouw\nMona Arkell\nAanvraag ontvangen op   1 augustus 2025\nDatum van besluit   27 oktober 2025\n# Examenbesluit\nGeachte mevrouw Arkell,\nU bent op 9 oktober 2025 geslaagd voor het examen Speelplaatsinspecteur.", "2025-10-27"},
	})
	checkValues(t, paper.FieldEnd, []valueCase{
		{"an examination that was given somewhere", exam, "2026-04-18"},
		{"an examination, and no day of applying for it", ruling, "2025-10-09"},
		{"a course that was held somewhere, in French", "Institut Tannval\nAttestation\nNous attestons que Mme Mona Arkell a suivi le cours donné à Tannval le 14 mai 2026.\nFait à Tannval, le 20 mai 2026", "2026-05-14"},
	})
}

// TestWhatBillsAndHeadsSay: a day behind what was bought is its own, one word for the body at the head is
// that body, and the number of a firm makes nobody a person.
func TestWhatBillsAndHeadsSay(t *testing.T) {
	const bill = "Tannvale Diving Collective\n# Invoice\nInvoice date: 2026-03-19\nBilled to: Mona Arkell\nItem   Amount\nDry Suit Evening, 2026-04-02   $120.00\nSeal kit   $15.00\nTotal   $135.00"
	checkValues(t, paper.FieldIssue, []valueCase{{"no second day of issue", bill, "2026-03-19"}})
	checkValues(t, paper.FieldStart, []valueCase{
		{"the day of what was bought", bill, "2026-04-02"},
		{"the same in French", "Collectif Tannval\n# Facture\nDate de facture : 19/03/2026\nFacturé à : Mona Arkell\nDésignation   Montant\nSoirée Combinaisons, 02/04/2026   120,00 EUR\nKit de joints   15,00 EUR\nTotal   135,00 EUR", "2026-04-02"},
	})
	checkValues(t, paper.FieldProvider, []valueCase{
		{"who signs for the academy", "Brandschutzakademie Tannau\n# Lehrgangsbescheinigung\nName: Mona Arkell\nLehrgang: Löschübung\nDatum: 05.05.2026\nTannau, 09.05.2026\ngez. Carstens\nfür die Akademie", "Brandschutzakademie Tannau"},
	})
	checkValues(t, paper.FieldAttendee, []valueCase{
		{"the number of a partnership", "Tolbooth\nConservation Architects LLP\nPartnership no. OC000417\n\n21 April 2026\n\nDear Sir or Madam\nHannah Inverarity, application for the register\nMiss Inverarity joined this practice on 7 September 2016 and holds the post of Senior Architect.\nYours faithfully\nMurdo Fenwick\nPartner", "Hannah Inverarity"},
	})
}
