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
