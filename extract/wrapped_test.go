package extract_test

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"codeberg.org/go-pdf/fpdf"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// paperOf draws a page and returns the one paper that is read from it, with its trace.
func paperOf(t *testing.T, r *kept, draw func(s *drawnSheet)) extract.Paper {
	t.Helper()
	s := &drawnSheet{fpdf.New("P", "pt", "A4", ""), 80}
	s.AddPage()
	draw(s)
	var b bytes.Buffer
	if err := s.Output(&b); err != nil {
		t.Fatal(err)
	}
	papers, err := extract.ReadBy(context.Background(), r, bytes.NewReader(b.Bytes()), extract.Hints{Trace: true})
	if err != nil || len(papers) != 1 {
		t.Fatalf("%d papers, %v", len(papers), err)
	}
	return papers[0]
}

// passagesOf draws a page and returns the passages that are read from it, a line each.
func passagesOf(t *testing.T, r *kept, draw func(s *drawnSheet)) string {
	t.Helper()
	var text strings.Builder
	for _, p := range paperOf(t, r, draw).Trace.Text {
		text.WriteString(p.Text + "\n")
	}
	return text.String()
}

// row sets texts side by side, each at its place.
func (s *drawnSheet) row(size float64, at []float64, texts ...string) {
	s.SetFont("Helvetica", "", size)
	for k, text := range texts {
		s.Text(at[k], s.y, text)
	}
	s.y += size * 1.4
}

// TestWhatGoesOn: a line goes on where it had no room, and stands by itself where it is another thing.
func TestWhatGoesOn(t *testing.T) {
	at := []float64{60, 120}
	tests := []struct {
		name string
		draw func(s *drawnSheet)
		says []string // whole passages
	}{
		{"a value beside its label", func(s *drawnSheet) {
			s.line(60, 16, "RECEIPT")
			s.line(60, 11, "Quelm Level Guild")
			s.line(60, 11, "Treasurer: Jost Wendel")
			s.row(11, at, "From:", "Winifred Sorrel")
			s.row(11, at, "For:", "evening workshop Reading the Old Joiners'")
			s.line(120, 11, "Marks, on two evenings of February 2026")
		}, []string{"evening workshop Reading the Old Joiners' Marks, on two evenings of February 2026"}},
		{"plain quotation marks over two lines", func(s *drawnSheet) {
			s.row(11, at, "For:", `workshop "Reading Settlement`)
			s.line(120, 11, `Cracks", held 28 February 2026`)
		}, []string{`workshop "Reading Settlement Cracks", held 28 February 2026`}},
		{"an address is no value that goes on", func(s *drawnSheet) {
			s.row(11, at, "Bill to:", "Quelm Joinery and Turning Works")
			s.line(120, 11, "Winifred Sorrel")
			s.line(120, 11, "12 Tallow Steps")
		}, []string{"Quelm Joinery and Turning Works", "Winifred Sorrel", "12 Tallow Steps"}},
		{"a body in two lines", func(s *drawnSheet) {
			s.row(14, []float64{60, 400}, "Union of Stained Glass", "2026")
			s.line(60, 14, "Conservators in Quelm")
			s.y += 30
			s.line(60, 18, "Orla Fennimore")
			s.line(60, 10, "Associate (Retired)")
		}, []string{"Union of Stained Glass Conservators in Quelm", "Orla Fennimore"}},
		{"a body that goes on with a small word", func(s *drawnSheet) {
			s.line(60, 14, "Chambre des tourneurs")
			s.line(60, 14, "du Bas-Quelm")
			s.y += 30
			s.line(60, 10, "Attestation de participation")
		}, []string{"Chambre des tourneurs du Bas-Quelm"}},
		{"a body and its heading", func(s *drawnSheet) {
			s.line(60, 14, "Institute for Turners")
			s.line(60, 14, "Certificate of Attendance")
			s.line(60, 10, "Orla Fennimore was present on 3 March 2026.")
		}, []string{"Institute for Turners", "Certificate of Attendance"}},
		{"rows of a list", func(s *drawnSheet) {
			s.line(60, 11, "Sash windows and how they are hung, 14 April 2026, 6 hours of 6")
			s.line(60, 11, "Lime plaster on laths, 3 June 2026, 4 hours of 6")
		}, []string{"Sash windows and how they are hung, 14 April 2026, 6 hours of 6", "Lime plaster on laths, 3 June 2026, 4 hours of 6"}},
		{"an empty cell", func(s *drawnSheet) {
			cols := []float64{60, 260, 330}
			s.row(11, cols, "Wed 5 November 2025", "signed", "What the ear can tell")
			s.row(11, cols, "Wed 3 December 2025", "-", "Cages")
			s.row(11, cols, "Wed 7 January 2026", "signed", "Shaft currents")
		}, []string{"Wed 3 December 2025", "Cages", "Wed 7 January 2026"}},
		{"a cell whose neighbours stand level with its middle", func(s *drawnSheet) {
			s.row(11, []float64{60, 300, 420}, "What", "When", "Amount")
			s.line(60, 11, "Motions, Toasts and Bad News: a Two-Evening")
			s.y -= 8
			s.row(11, []float64{300, 420}, "15 and 22 June", "265.00")
			s.y -= 8
			s.line(60, 11, "Course")
		}, []string{"Motions, Toasts and Bad News: a Two-Evening Course"}},
		{"a title of three lines behind a colon", func(s *drawnSheet) {
			s.line(60, 10, "asistió al taller")
			s.line(150, 17, "Cartas, facturas y recetas:")
			s.line(162, 17, "encuadernar los papeles")
			s.line(215, 17, "de una casa")
			s.y += 12
			s.line(60, 10, "impartido en Quelm el sábado 10 de enero de 2026, durante seis horas en total, con")
			s.line(60, 10, "aprovechamiento.")
		}, []string{"encuadernar los papeles de una casa"}},
		{"a body in capitals with its place beneath, much smaller", func(s *drawnSheet) {
			s.line(60, 22, "ASOCIACION DE CANTEROS")
			s.line(60, 13, "DE VALDUERNA")
			s.y += 20
			s.line(60, 10, "Factura simplificada S-0338")
		}, []string{"ASOCIACION DE CANTEROS DE VALDUERNA"}},
		{"a value up to the right edge", func(s *drawnSheet) {
			s.SetFont("Helvetica", "", 10)
			long := "Prevention du risque en restauration"
			s.Text(60, s.y, "Parcours")
			s.Text(520-s.GetStringWidth(long), s.y, long)
			s.y += 13
			s.Text(520-s.GetStringWidth("collective"), s.y, "collective")
			s.y += 30
			s.row(10, []float64{60, 470}, "Inscription", "12 janvier")
		}, []string{"Prevention du risque en restauration collective"}},
		{"a justified line", func(s *drawnSheet) {
			s.row(11, []float64{60, 120}, "Duur:", "5 uur")
			s.SetFont("Helvetica", "", 11)
			x := 60.0
			for _, w := range strings.Fields("Ondergetekende bevestigt dat deze persoon aanwezig was en") {
				s.Text(x, s.y, w)
				x += s.GetStringWidth(w) + 15
			}
			s.y += 15
			s.line(60, 11, "bleef.")
		}, []string{"Ondergetekende bevestigt dat deze persoon aanwezig was en bleef."}},
		{"a mark across the page", func(s *drawnSheet) {
			s.SetFont("Helvetica", "", 60)
			s.TransformBegin()
			s.TransformRotate(45, 100, 300)
			s.Text(100, 300, "GALWEN")
			s.TransformEnd()
			for range 8 {
				s.line(60, 11, "Orla Fennimore attended the course Sash Windows in Quelm on 3 March 2026.")
				s.y += 12
			}
		}, []string{"Orla Fennimore attended the course Sash Windows in Quelm on 3 March 2026.", "GALWEN"}},
		{"a title that looks like a name, broken by a narrow column", func(s *drawnSheet) {
			s.row(10, at, "Participant:", "Kermit Vandersloot")
			s.y += 4
			s.row(10, at, "Course:", "Rigging Around")
			s.y -= 4
			s.line(120, 10, "Hydraulic Excavators")
			s.y += 8
			s.row(10, at, "Site:", "Yard 2, Ironwood")
		}, []string{"Rigging Around Hydraulic Excavators", "Kermit Vandersloot"}},
		{"a name in three lines", func(s *drawnSheet) {
			s.row(10, at, "Fecha:", "14/09/2026")
			s.y += 8
			s.row(10, at, "Cliente:", "Sra. Begona")
			s.y -= 4
			s.line(120, 10, "Larrinaga")
			s.y -= 4
			s.line(120, 10, "Saez")
			s.y += 8
			s.row(10, at, "NIF:", "00000000-X")
		}, []string{"Sra. Begona Larrinaga Saez"}},
		{"a body of which the first line ends open, beside other things", func(s *drawnSheet) {
			s.row(9, []float64{60, 400}, "GESELLSCHAFT ZUR", "GGS")
			s.line(60, 13, "GLOCKEN- UND SCHALLKUNDE")
			s.y += 20
			s.line(60, 10, "Wir bestaetigen die Mitgliedschaft von Balthasar Nordwig im Jahr 2026.")
		}, []string{"GESELLSCHAFT ZUR GLOCKEN- UND SCHALLKUNDE"}},
		{"headings that stand near each other", func(s *drawnSheet) {
			cols := []float64{60, 160, 330, 420}
			s.row(10, cols[:3], "Date", "Activity", "Hours Points")
			for _, row := range [][]string{{"2026-02-07", "Remote Hearings", "4.5", "4"}, {"2026-03-14", "Confidentiality in the Booth", "3.0", "3"}, {"2026-05-08", "Listening in Turn", "2.0", "2"}, {"2026-06-09", "Note-taking at Speed", "6.0", "5"}} {
				s.row(10, []float64{60, 160, 332, 366}, row...)
			}
		}, []string{"Hours", "Points"}},
		{"labels set up to one edge", func(s *drawnSheet) {
			s.line(60, 14, "VERIFICATION OF EMPLOYMENT")
			for _, row := range [][2]string{{"Employee name", "Desmond Achterby"}, {"Employee no.", "30-2214"}, {"Original hire date", "08/16/2021"}, {"Current job title", "Water Quality Analyst"}, {"Status", "Active"}} {
				s.SetFont("Helvetica", "", 10)
				s.Text(180-s.GetStringWidth(row[0]), s.y, row[0])
				s.Text(188, s.y, row[1])
				s.y += 16
			}
		}, []string{"Employee name", "Desmond Achterby", "Current job title", "Water Quality Analyst", "Status"}},
		{"an item of a list beside a label", func(s *drawnSheet) {
			s.line(60, 14, "Lehrgangsbescheinigung")
			s.row(10, []float64{60, 300, 308}, "Lehrgang", "-", "Messen der Restfeuchte")
			s.line(60, 10, "Estrich im Altbau")
		}, []string{"Lehrgang", "Estrich im Altbau"}},
		{"cells that wrap above their row", func(s *drawnSheet) {
			cols := []float64{60, 140, 240, 340}
			s.row(10, cols, "Date", "Organisme", "Intitule", "Duree")
			s.y += 6
			for _, row := range [][4]string{{"14/01/2026", "Orlane Topo", "cas pratiques", "7 h 00"}, {"05/03/2026", "Cadastre", "de passage", "3 h 30"}} {
				s.row(10, []float64{240}, "Bornage amiable et")
				s.y -= 3
				s.row(10, cols, row[:]...)
				s.y += 6
			}
		}, []string{"14/01/2026", "05/03/2026"}},
		{"a span with much white", func(s *drawnSheet) {
			s.row(11, []float64{60, 84, 100}, "9:00", "-", "12:30")
		}, []string{"9:00 - 12:30"}},
	}
	r := newKept(t)
	for _, tt := range tests {
		text := passagesOf(t, r, tt.draw)
		for _, want := range tt.says {
			if !strings.Contains("\n"+text, "\n"+want+"\n") {
				t.Errorf("%s: no passage is %q in\n%s", tt.name, want, text)
			}
		}
	}
}

// TestRaisedLetters: small raised letters belong to the word they stand at.
func TestRaisedLetters(t *testing.T) {
	text := passagesOf(t, newKept(t), func(s *drawnSheet) {
		s.SetFont("Helvetica", "", 12)
		s.Text(60, s.y, "Exercice du 1")
		x := 61 + s.GetStringWidth("Exercice du 1")
		s.SetFont("Helvetica", "", 7)
		s.Text(x, s.y-5, "er")
		x += s.GetStringWidth("er") + 3
		s.SetFont("Helvetica", "", 12)
		s.Text(x, s.y, "avril 2026 N")
		x += 1 + s.GetStringWidth("avril 2026 N")
		s.SetFont("Helvetica", "", 7)
		s.Text(x, s.y-5, "o")
		x += s.GetStringWidth("o") + 4
		s.SetFont("Helvetica", "", 12)
		s.Text(x, s.y, "2026-04")
	})
	if !strings.Contains(text, "du 1er avril 2026 No 2026-04") {
		t.Errorf("read as\n%s", text)
	}
}

// TestSmallLabels: labels in small print stand over their values, whatever stands beside them in the next column.
func TestSmallLabels(t *testing.T) {
	read := paperOf(t, newKept(t), func(s *drawnSheet) {
		s.line(60, 15, "STATEMENT OF COMPLETION")
		notes := []string{"The program has three parts and a post-test.", "Readers may stop at any time.", "Written by Lionel Pruitt.", "Records are kept for four years.", "A copy is $10.00."}
		for k, pair := range [][2]string{{"LEARNER", "Araminta Dellorso"}, {"LICENSE", "MFT 99120"}, {"PROGRAM", "Grief Without a Funeral"}, {"FINISHED", "July 22, 2026"}, {"CREDIT", "1.5 CE hours"}} {
			s.SetFont("Helvetica", "", 9)
			s.Text(260, s.y, notes[k])
			s.line(60, 7, pair[0])
			s.line(60, 10, pair[1])
			s.y += 6
		}
	})
	if got := read.Reading.Values[paper.FieldTitle].Text; got != "Grief Without a Funeral" {
		t.Errorf("the title is %q", got)
	}
}

// TestCellsAboveTheirRow: rows of which a cell begins above the others are whole rows of the list.
func TestCellsAboveTheirRow(t *testing.T) {
	read := paperOf(t, newKept(t), func(s *drawnSheet) {
		cols := []float64{60, 140, 240, 340}
		s.line(60, 15, "Chambre des geometres d'Orlane")
		s.line(60, 12, "Releve individuel de formation")
		s.line(60, 10, "Titulaire : Mme Capucine Haudrechy")
		s.y += 8
		s.row(10, cols, "Date", "Organisme", "Intitule", "Duree")
		s.y += 6
		for _, row := range [][4]string{{"14/01/2026", "Orlane Topo", "cas pratiques", "7 h 00"}, {"05/03/2026", "Cadastre", "de passage", "3 h 30"}, {"10/09/2026", "La Chambre", "du metier", "2 h 00"}} {
			s.row(10, []float64{140, 240}, "Universite du", "Bornage amiable et")
			s.y -= 3
			s.row(10, cols, row[:]...)
			s.y += 8
		}
	})
	for field, want := range map[paper.Field]string{paper.FieldStart: "2026-01-14", paper.FieldEnd: "2026-09-10", paper.FieldDuration: "750"} {
		if got := read.Reading.Values[field].Text; got != want {
			t.Errorf("%s is %q, want %s", field, got, want)
		}
	}
}
