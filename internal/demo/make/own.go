package main

import (
	"bytes"
	"fmt"
	"time"

	"codeberg.org/go-pdf/fpdf"
)

// ownPapers returns the papers that this program writes without help: the same
// bytes each time, since they carry fixed dates and no compressed stream.
func ownPapers() ([]paper, error) {
	var papers []paper
	for _, d := range []struct {
		name string
		make func() ([]byte, error)
	}{
		{"splicing certificate.pdf", splicing},
		{"splicing certificate (1).pdf", splicing}, // the same, as a browser names a second download
		{"autumn seminar.pdf", flyer},
		{"tension rope workshop.pdf", workshop},
		{"Your certificate.eml", message},
		{"receipt HW-5530.pdf", func() ([]byte, error) { return textPDF(receiptLines), nil }},
		{"~$raundorn confirmation.docx", func() ([]byte, error) { return lockFile("Mirela"), nil }},
	} {
		data, err := d.make()
		if err != nil {
			return nil, fmt.Errorf("making %s: %w", d.name, err)
		}
		papers = append(papers, paper{d.name, data})
	}
	return papers, nil
}

// newPDF starts a document whose bytes depend on nothing but its content.
func newPDF(orientation, title, made string) (*fpdf.Fpdf, error) {
	day, err := time.Parse("2006-01-02", made)
	if err != nil {
		return nil, err
	}
	p := fpdf.New(orientation, "mm", "A4", "")
	p.SetCompression(false)
	p.SetCatalogSort(true)
	p.SetCreationDate(day)
	p.SetModificationDate(day)
	p.SetTitle(title, true)
	p.SetAutoPageBreak(false, 0)
	p.AddPage()
	return p, nil
}

func output(p *fpdf.Fpdf) ([]byte, error) {
	var b bytes.Buffer
	err := p.Output(&b)
	return b.Bytes(), err
}

// latin1 returns text in the one-byte letters that the standard fonts expect.
func latin1(text string) string {
	b := make([]byte, 0, len(text))
	for _, r := range text {
		b = append(b, byte(r))
	}
	return string(b)
}

// centred writes one line in the middle of a page of the given width.
func centred(p *fpdf.Fpdf, y float64, font, style string, size float64, text string) {
	width, _ := p.GetPageSize()
	p.SetFont(font, style, size)
	p.Text((width-p.GetStringWidth(text))/2, y, text)
}

// rows writes labels and values in two columns, step apart, and returns the next line.
func rows(p *fpdf.Fpdf, font string, size, left, right, y, step float64, pairs ...[2]string) float64 {
	for _, row := range pairs {
		p.SetFont(font, "", size)
		p.Text(left, y, row[0])
		p.SetFont(font, "B", size)
		p.Text(right, y, row[1])
		y += step
	}
	return y
}

func splicing() ([]byte, error) {
	p, err := newPDF("P", "Certificate of Attendance", "2024-09-13")
	if err != nil {
		return nil, err
	}
	p.SetDrawColor(35, 77, 110)
	p.SetLineWidth(1.1)
	p.Rect(12, 12, 186, 273, "D")
	p.SetLineWidth(0.3)
	p.Rect(15, 15, 180, 267, "D")
	p.SetTextColor(35, 77, 110)
	centred(p, 42, "Times", "B", 24, "Corrivane School of Rope Work")
	p.SetTextColor(20, 20, 20)
	centred(p, 50, "Times", "I", 12, "4 Quayside Lane, Corrivane, telephone 01632 960 233")
	p.Line(60, 57, 150, 57)
	centred(p, 82, "Times", "", 30, "Certificate of Attendance")
	y := rows(p, "Times", 14, 34, 82, 112, 14,
		[2]string{"Name:", "Mirela Tannhof"},
		[2]string{"Course:", "Splicing and Inspecting Haul Ropes"},
		[2]string{"Dates:", "10 and 11 September 2024"},
		[2]string{"Times:", "08:30 to 16:30 each day, lunch 12:00 to 13:00"},
		[2]string{"Contact hours:", "14"},
		[2]string{"Place:", "Rope Hall, Corrivane"},
		[2]string{"Certificate no.:", "CS-2024-118"})
	p.SetFont("Times", "", 14)
	p.Text(34, y+10, "Issued: 13 September 2024")
	p.Line(34, 252, 100, 252)
	p.SetFont("Times", "", 12)
	p.Text(34, 258, "Gwillam Stroud, head of the school")
	return output(p)
}

func flyer() ([]byte, error) {
	p, err := newPDF("P", "Autumn seminar", "2026-07-20")
	if err != nil {
		return nil, err
	}
	p.SetFillColor(222, 120, 40)
	p.Rect(0, 0, 210, 78, "F")
	p.SetTextColor(255, 255, 255)
	p.SetFont("Helvetica", "B", 38)
	p.Text(18, 36, "Autumn Seminar")
	p.SetFont("Helvetica", "", 20)
	p.Text(18, 52, "Ropes in winter: be ready before the snow")
	p.SetFont("Helvetica", "B", 14)
	p.Text(18, 67, "Join us on 19 and 20 November 2026 in Corrivane!")
	p.SetTextColor(30, 30, 30)
	p.SetFont("Helvetica", "B", 15)
	p.Text(18, 98, "What awaits you")
	p.SetFont("Helvetica", "", 13)
	for i, line := range []string{
		"-  Ice on ropes and sheaves: what helps, what harms",
		"-  Lubricating in the cold, with samples to try",
		"-  A walk along the line with our splicing masters",
		"-  Evening soup and stories in the Rope Hall",
	} {
		p.Text(22, 110+float64(i)*9, line)
	}
	p.SetFont("Helvetica", "B", 15)
	p.Text(18, 162, "Register now")
	p.SetFont("Helvetica", "", 13)
	p.Text(22, 174, latin1("Early booking until 30 September 2026: £310 per person, later £360."))
	p.Text(22, 183, "Places are limited to twenty. Write to us or call 01632 960 233.")
	p.Text(22, 192, "Members of a guild save 10 %.")
	p.SetFillColor(35, 77, 110)
	p.Rect(0, 262, 210, 35, "F")
	p.SetTextColor(255, 255, 255)
	p.SetFont("Helvetica", "B", 14)
	p.Text(18, 278, "Corrivane School of Rope Work")
	p.SetFont("Helvetica", "", 11)
	p.Text(18, 286, "4 Quayside Lane, Corrivane")
	return output(p)
}

func workshop() ([]byte, error) {
	p, err := newPDF("L", "Attendance certificate", "2025-07-04")
	if err != nil {
		return nil, err
	}
	p.SetFillColor(96, 108, 56)
	p.Rect(0, 0, 297, 26, "F")
	p.SetTextColor(255, 255, 255)
	p.SetFont("Helvetica", "B", 20)
	p.Text(20, 17, "Dunnochmoor Cable Workshop")
	p.SetTextColor(25, 25, 25)
	p.SetFont("Helvetica", "", 32)
	p.Text(20, 56, "Attendance certificate")
	p.SetFont("Helvetica", "", 15)
	p.Text(20, 76, "We confirm that Mirela Tannhof attended the workshop")
	p.SetFont("Helvetica", "B", 19)
	p.Text(20, 91, "Tension Ropes and Counterweights")
	y := rows(p, "Helvetica", 14, 20, 80, 112, 11,
		[2]string{"Date", "Wednesday 2 July 2025"},
		[2]string{"Time", "09:00 to 13:00, without a break"},
		[2]string{"Total training time", "5 hours"},
		[2]string{"Place", "Workshop yard, Dunnochmoor"})
	p.SetFont("Helvetica", "", 14)
	p.Text(20, y+7, "Issued 4 July 2025")
	p.Line(20, 186, 90, 186)
	p.SetFont("Helvetica", "", 11)
	p.Text(20, 192, "Ferris Haldane, workshop leader")
	return output(p)
}

func tension() ([]byte, error) {
	p, err := newPDF("P", "Certificate", "2026-09-17")
	if err != nil {
		return nil, err
	}
	p.SetFillColor(120, 30, 45)
	p.Rect(0, 0, 14, 297, "F")
	p.SetFont("Helvetica", "B", 18)
	p.SetTextColor(120, 30, 45)
	p.Text(30, 34, "Ostlermoor Cableway Academy")
	p.SetTextColor(20, 20, 20)
	p.SetFont("Times", "I", 30)
	p.Text(30, 70, "Certificate of Attendance")
	p.SetFont("Times", "", 14)
	p.Text(30, 96, "This certifies that")
	p.SetFont("Times", "B", 22)
	p.Text(30, 112, "Mirela Tannhof")
	p.SetFont("Times", "", 14)
	p.Text(30, 126, "attended our course")
	p.SetFont("Times", "B", 17)
	p.Text(30, 140, "Rope Tension Systems: Weights and Hydraulics")
	p.SetFont("Times", "", 14)
	p.Text(30, 156, "on Tuesday, 15 September 2026, from 09:00 to 16:00,")
	p.Text(30, 165, "with a break from 12:00 to 13:00. Contact hours: 6.")
	p.Text(30, 186, "Issued on 17 September 2026")
	p.Line(30, 226, 100, 226)
	p.SetFont("Times", "", 12)
	p.Text(30, 232, "Lysbet Tormand, course office")
	return output(p)
}
