package extracttest

import (
	"bytes"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"
)

// made is the date inside the files, so that equal seeds give equal bytes.
var made = time.Date(2026, 1, 2, 3, 4, 5, 0, time.UTC)

// page draws blocks as a PDF.
type page struct {
	*fpdf.Fpdf
	draw
	cp    func(string) string
	font  string
	size  float64
	left  float64
	width float64
	gap   float64
}

// pdf writes the blocks in one of the core fonts.
func (s *sheet) pdf(list []block) ([]byte, error) {
	orientation := "P"
	if s.layout == "landscape" {
		orientation = "L"
	}
	paper := oneOf(s.draw, "A4", "A4", "Letter", "A5")
	if s.loc == "en-US" {
		paper = oneOf(s.draw, "Letter", "Letter", "Legal", "A4")
	}
	if s.layout == "sidebar" || s.layout == "panel" || len(list) > 12 || s.c.grid != nil || s.labelled && s.layout != "pairs" {
		paper = strings.Replace(paper, "A5", "A4", 1)
	}
	doc := fpdf.New(orientation, "mm", paper, "")
	if s.layout == "slip" {
		doc = fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: fpdf.SizeType{Wd: 80, Ht: 150}})
	}
	doc.SetCreationDate(made)
	doc.SetModificationDate(made)
	doc.SetCatalogSort(true)
	doc.SetCompression(s.chance(70))
	p := &page{Fpdf: doc, draw: s.draw, cp: doc.UnicodeTranslatorFromDescriptor(""), font: oneOf(s.draw, "Helvetica", "Times", "Helvetica", "Times", "Courier"),
		size: float64(oneOf(s.draw, 9, 10, 11, 11, 12))}
	p.embed()
	margin := float64(oneOf(s.draw, 15, 20, 25))
	if s.layout == "slip" {
		margin, p.size, p.font = 5, 8, "Courier"
	}
	doc.SetMargins(margin, margin, margin)
	doc.SetAutoPageBreak(true, margin)
	doc.AddPage()
	w, h := doc.GetPageSize()
	p.left, p.width = margin, w-2*margin
	switch s.layout {
	case "sidebar":
		p.sidebar(append([]string{s.provider}, s.c.foot...), h)
	case "panel":
		p.panel(s.margin())
	}
	if s.layout == "landscape" || s.layout == "centred" && s.chance(40) {
		doc.Rect(margin/2, margin/2, w-margin, h-margin, "D")
	}
	p.gap = float64(oneOf(s.draw, 2, 3, 4))
	if s.layout == "centred" && len(list) < 16 && paper != "A5" {
		p.gap = float64(oneOf(s.draw, 3, 5, 7))
		doc.SetY(doc.GetY() + float64(oneOf(s.draw, 0, 10, 20)))
	}
	for _, b := range list {
		p.block(b)
	}
	var out bytes.Buffer
	err := doc.Output(&out)
	return out.Bytes(), err
}

// sidebar draws a coloured bar at the left with the provider in it.
func (p *page) sidebar(lines []string, height float64) {
	p.SetFillColor(225, 230, 240)
	p.Rect(0, 0, 52, height, "F")
	p.SetXY(5, 20)
	for i, line := range lines {
		p.set("body", i == 0)
		p.SetX(5)
		p.MultiCell(42, p.size*0.5, p.cp(line), "", "L", false)
		p.Ln(2)
	}
	p.left, p.width = 60, p.width-(60-p.left)
	p.SetLeftMargin(60)
	p.SetXY(60, 20)
}

// set chooses the font of a role.
func (p *page) set(role string, bold bool) float64 {
	size := p.size
	switch role {
	case "org":
		size += 4
	case "heading":
		size += 9
	case "name":
		size, bold = size+7, true
	case "title":
		size, bold = size+4, true
	case "small":
		size -= 2
	}
	style := ""
	if bold {
		style = "B"
	}
	p.SetFont(p.font, style, size)
	return size * 0.5
}

func (p *page) block(b block) {
	switch {
	case b.newPage:
		p.AddPage()
	case len(b.items) > 0:
		p.items(b)
	case len(b.grid) > 0:
		p.grid(b)
	case b.right != "":
		line := p.set("body", false)
		p.SetX(p.left)
		if p.GetStringWidth(p.cp(b.text)) > p.width/2-3 || p.GetStringWidth(p.cp(b.right)) > p.width/2-3 {
			p.MultiCell(p.width, line, p.cp(b.text+"\n"+b.right), "", "L", false)
			break
		}
		p.CellFormat(p.width/2, line, p.cp(b.text), "", 0, "L", false, 0, "")
		p.CellFormat(p.width/2, line, p.cp(b.right), "", 1, "R", false, 0, "")
	case b.text != "":
		line := p.set(b.role, b.role == "heading" && p.size > 9)
		if b.rule {
			p.Line(p.left, p.GetY()-0.5, p.left+p.width/3, p.GetY()-0.5)
		}
		p.SetX(p.left)
		p.MultiCell(p.width, line, p.cp(b.text), "", b.align, false)
	}
	p.Ln(p.gap)
}

func (p *page) items(b block) {
	switch b.style {
	case "columns":
		p.columns(b.items)
	case "above", "beneath":
		p.stacked(b)
	case "boxes":
		p.boxes(b.items)
	case "centred":
		for _, it := range b.items {
			line := p.set("body", false)
			p.SetX(p.left)
			p.MultiCell(p.width, line, p.cp(it.label+": "+it.value), "", "C", false)
		}
	default:
		p.pairs(b.items)
	}
}

// pairs writes "label: value", in a run or with the values in a column.
func (p *page) pairs(items []item) {
	aligned := p.chance(50)
	if !aligned && p.chance(25) {
		p.twoPerLine(items)
		return
	}
	p.set("body", false)
	column := p.width * 0.3
	for _, it := range items {
		column = max(column, p.GetStringWidth(p.cp(it.label+":"))+4)
	}
	for _, it := range items {
		line := p.set("body", false)
		p.SetX(p.left)
		if !aligned {
			p.MultiCell(p.width, line, p.cp(it.label+": "+it.value), "", "L", false)
			continue
		}
		p.CellFormat(column, line, p.cp(it.label+":"), "", 0, "L", false, 0, "")
		p.MultiCell(p.width-column, line, p.cp(it.value), "", "L", false)
	}
}

// twoPerLine sets two labels with their values on a line where they fit.
func (p *page) twoPerLine(items []item) {
	line := p.set("body", false)
	half := p.width / 2
	for i := 0; i < len(items); i++ {
		text := p.cp(items[i].label + ": " + items[i].value)
		p.SetX(p.left)
		if i+1 < len(items) {
			next := p.cp(items[i+1].label + ": " + items[i+1].value)
			if p.GetStringWidth(text) < half-6 && p.GetStringWidth(next) < half-4 {
				p.CellFormat(half, line, text, "", 0, "L", false, 0, "")
				p.CellFormat(half, line, next, "", 1, "L", false, 0, "")
				i++
				continue
			}
		}
		p.MultiCell(p.width, line, text, "", "L", false)
	}
}

// columns is a table of two columns with lines.
func (p *page) columns(items []item) {
	border := oneOf(p.draw, "1", "B", "")
	for _, it := range items {
		line := p.set("body", false) + 2
		lines := p.SplitText(p.cp(it.value), p.width*0.6-2)
		p.SetX(p.left)
		p.CellFormat(p.width*0.4, line*float64(max(1, len(lines))), p.cp(it.label), border, 0, "L", false, 0, "")
		p.MultiCell(p.width*0.6, line, p.cp(it.value), border, "L", false)
	}
}

// stacked sets labels in small type above or beneath their values, in one column or two.
func (p *page) stacked(b block) {
	columns := oneOf(p.draw, 1, 2)
	if b.align == "C" {
		columns = 1
	}
	width := p.width / float64(columns)
	y, low := p.GetY(), p.GetY()
	for i, it := range b.items {
		if i%columns == 0 {
			y = low
			if _, h := p.GetPageSize(); y > h-45 {
				p.AddPage()
				y = p.GetY()
			}
		}
		x := p.left + width*float64(i%columns)
		p.SetXY(x, y)
		put := func(role, text string) {
			line := p.set(role, false)
			p.SetX(x)
			p.MultiCell(width-4, line, p.cp(text), "", b.align, false)
		}
		if b.style == "above" {
			put("small", it.label)
			put("body", it.value)
		} else {
			put("body", it.value)
			p.Line(x, p.GetY()+0.5, x+width-8, p.GetY()+0.5)
			p.SetY(p.GetY() + 1)
			put("small", it.label)
		}
		low = max(low, p.GetY()+3)
	}
	p.SetY(low)
}

// boxes is a form: the label small in the corner of a box, the value in it.
func (p *page) boxes(items []item) {
	for i := 0; i < len(items); i += 2 {
		if _, h := p.GetPageSize(); p.GetY() > h-45 {
			p.AddPage()
		}
		y := p.GetY()
		row := items[i:min(i+2, len(items))]
		width := p.width / float64(len(row))
		high := 13.0
		for j, it := range row {
			x := p.left + width*float64(j)
			line := p.set("small", false)
			p.SetXY(x+1, y+0.5)
			p.CellFormat(width-2, line, p.cp(it.label), "", 2, "L", false, 0, "")
			line = p.set("body", false)
			p.SetX(x + 2)
			p.MultiCell(width-4, line, p.cp(it.value), "", "L", false)
			high = max(high, p.GetY()-y+1)
		}
		for j := range row {
			p.Rect(p.left+width*float64(j), y, width, high, "D")
		}
		p.SetXY(p.left, y+high)
	}
	p.Ln(2)
}

// grid is a table with a head and sums beneath.
func (p *page) grid(b block) {
	p.SetFont(p.font, "", p.size)
	widths := p.widths(b.grid)
	border := oneOf(p.draw, "1", "B", "")
	for i, row := range b.grid {
		line := p.set("body", i == 0) + 1
		high := 1
		for j, cell := range row {
			high = max(high, len(p.SplitText(p.cp(cell), widths[j]-3)))
		}
		if _, h := p.GetPageSize(); p.GetY()+line*float64(high) > h-20 {
			p.AddPage()
		}
		x, y := p.left, p.GetY()
		for j, cell := range row {
			p.SetXY(x, y)
			align := "L"
			if j == len(row)-1 && len(b.foot) > 0 {
				align = "R"
			}
			if border == "1" {
				p.Rect(x, y, widths[j], line*float64(high), "D")
			}
			p.MultiCell(widths[j], line, p.cp(cell), "", align, false)
			x += widths[j]
		}
		if border == "B" {
			p.Line(p.left, y+line*float64(high), x, y+line*float64(high))
		}
		p.SetXY(p.left, y+line*float64(high))
	}
	for i, it := range b.foot {
		line := p.set("body", i == len(b.foot)-1) + 1
		p.SetX(p.left)
		p.CellFormat(p.width*0.7, line, p.cp(it.label), "", 0, oneOf(p.draw, "R", "L"), false, 0, "")
		p.CellFormat(p.width*0.3, line, p.cp(it.value), "", 1, "R", false, 0, "")
	}
}

// widths shares the width among the columns by their longest cell.
func (p *page) widths(grid [][]string) []float64 {
	want := make([]float64, len(grid[0]))
	sum := 0.0
	for _, row := range grid {
		for j, cell := range row {
			want[j] = max(want[j], min(p.GetStringWidth(p.cp(cell))*1.15+5, p.width*0.45))
		}
	}
	for _, w := range want {
		sum += w
	}
	for j := range want {
		want[j] *= p.width / sum
	}
	return want
}
