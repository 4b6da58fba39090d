package audit

import "strings"

// cell is one field of a printed table. Link is a place in the document, target a file
// outside it; at most one is set.
type cell struct {
	text   string
	bold   bool
	mono   bool
	link   int
	target string
}

// column is one column of a printed table.
type column struct {
	head  string
	share float64 // of the width
	right bool    // figures stand at the right
}

const cellSize, cellGap = 8.5, 4.0

// table prints rows under a head that is repeated on each page. A row that fits no page
// goes on on the next.
func (p *press) table(columns []column, rows [][]cell) {
	widths := make([]float64, len(columns))
	for i, c := range columns {
		widths[i] = c.share * p.inner()
	}
	p.room(4 * cellSize * lineFactor)
	p.tableHead(columns, widths)
	for _, row := range rows {
		p.tableRow(columns, widths, row)
	}
	p.SetDrawColor(0, 0, 0)
	p.SetY(p.GetY() + 8)
}

// tableHead prints the headings, over as many lines as the longest takes.
func (p *press) tableHead(columns []column, widths []float64) {
	const height = cellSize * lineFactor
	p.headFont(columns, widths)
	heads, most := make([][]string, len(columns)), 1
	for i, c := range columns {
		heads[i] = p.SplitText(p.clean(c.head), widths[i]-cellGap)
		most = max(most, len(heads[i]))
	}
	x, y := float64(pageMargin), p.GetY()
	for i, c := range columns {
		for k, line := range heads[i] {
			p.SetXY(x, y+float64(most-len(heads[i])+k)*height)
			p.CellFormat(widths[i]-cellGap, height, p.fitted(strings.TrimRight(line, " "), widths[i]-cellGap), "", 0, align(c), false, 0, "")
		}
		x += widths[i]
	}
	p.SetLineWidth(0.8)
	y += float64(most)*height + 1
	p.SetDrawColor(0, 0, 0)
	p.Line(pageMargin, y, pageMargin+p.inner(), y)
	p.SetDrawColor(150, 150, 150) // of the lines between rows
	p.SetXY(pageMargin, y+2)
}

// headFont sets the font of the headings: so small that the longest word of each fits.
func (p *press) headFont(columns []column, widths []float64) {
	for size := cellSize; ; size -= 0.5 {
		p.SetFont("text", "B", size)
		fits := true
		for i, c := range columns {
			for _, word := range strings.Fields(p.clean(c.head)) {
				fits = fits && p.GetStringWidth(word) <= widths[i]-cellGap-2*p.GetCellMargin()
			}
		}
		if fits || size <= 6 {
			return
		}
	}
}

func align(c column) string {
	if c.right {
		return "R"
	}
	return "L"
}

func (p *press) cellFont(c cell) {
	switch {
	case c.mono:
		p.SetFont("mono", "", cellSize-1.5)
	case c.bold:
		p.SetFont("text", "B", cellSize)
	default:
		p.SetFont("text", "", cellSize)
	}
}

func (p *press) tableRow(columns []column, widths []float64, row []cell) {
	const height = cellSize * lineFactor
	left := make([][]string, len(row))
	most := 0
	for i, c := range row {
		p.cellFont(c)
		left[i] = p.SplitText(p.shown(c.text), widths[i]-cellGap)
		most = max(most, len(left[i]))
	}
	_, page := p.GetPageSize()
	whole := page - pageMargin - pageFoot - 3*height
	if need := float64(most) * height; need <= whole && p.GetY()+need > page-pageFoot {
		p.AddPage()
		p.tableHead(columns, widths)
	}
	for most > 0 {
		fit := int((page - pageFoot - p.GetY()) / height)
		if fit < 1 {
			p.AddPage()
			p.tableHead(columns, widths)
			continue
		}
		n := min(fit, most)
		p.rowPart(columns, widths, row, left, n)
		most -= n
	}
	p.SetLineWidth(0.25)
	p.Line(pageMargin, p.GetY()+1, pageMargin+p.inner(), p.GetY()+1)
	p.SetXY(pageMargin, p.GetY()+3)
}

// rowPart prints the next n lines of a row.
func (p *press) rowPart(columns []column, widths []float64, row []cell, left [][]string, n int) {
	const height = cellSize * lineFactor
	x, y := float64(pageMargin), p.GetY()
	for i, c := range row {
		p.cellFont(c)
		linked := c.link > 0 || c.target != ""
		if linked {
			p.SetTextColor(20, 60, 120)
		}
		for k := range min(n, len(left[i])) {
			if left[i][k] == "" {
				continue
			}
			p.SetXY(x, y+float64(k)*height)
			p.CellFormat(widths[i]-cellGap, height, strings.TrimRight(left[i][k], " "), "", 0, align(columns[i]), false, c.link, c.target)
		}
		if linked {
			p.SetTextColor(0, 0, 0)
		}
		left[i] = left[i][min(n, len(left[i])):]
		x += widths[i]
	}
	p.SetXY(pageMargin, y+float64(n)*height)
}
