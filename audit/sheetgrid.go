package audit

import (
	"fmt"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"

	"evidencevault/credit"
)

// grid writes cells into one sheet after the other and keeps the first error.
type grid struct {
	book                 *excelize.File
	sheet                string
	wordStyle, dateStyle int
	headStyle, payStyle  int
	err                  error
}

// The formats of cells that OOXML numbers: text, and a day as the standard writes it.
const formatText = 49

// begin makes the sheets in their order, and the styles.
func (g *grid) begin(first string, others ...string) error {
	if err := g.book.SetSheetName(g.book.GetSheetName(0), first); err != nil {
		return err
	}
	for _, name := range others {
		if _, err := g.book.NewSheet(name); err != nil {
			return err
		}
	}
	day, money := "yyyy-mm-dd", "0.00##"
	family, err := g.book.GetDefaultFont()
	if err != nil {
		return err
	}
	for _, k := range []struct {
		to    *int
		style excelize.Style
	}{
		{&g.wordStyle, excelize.Style{NumFmt: formatText}},
		{&g.dateStyle, excelize.Style{CustomNumFmt: &day}},
		{&g.headStyle, excelize.Style{NumFmt: formatText, Font: &excelize.Font{Bold: true, Family: family}}},
		{&g.payStyle, excelize.Style{CustomNumFmt: &money}},
	} {
		var err error
		if *k.to, err = g.book.NewStyle(&k.style); err != nil {
			return err
		}
	}
	whole := true
	return g.book.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: &whole})
}

func (g *grid) keep(err error) {
	if g.err == nil {
		g.err = err
	}
}

// open goes on with another sheet, whose columns have these widths in letters. It prints
// on pages of A4 that lie on their side, all columns beside each other.
func (g *grid) open(sheet string, widths ...float64) {
	g.sheet = sheet
	lying, a4, pages := "landscape", 9, 0 // as many pages down as it takes
	g.keep(g.book.SetPageLayout(sheet, &excelize.PageLayoutOptions{Orientation: &lying, Size: &a4, FitToWidth: new(1), FitToHeight: &pages}))
	g.keep(g.book.SetSheetProps(sheet, &excelize.SheetPropsOptions{FitToPage: new(true)}))
	for i, w := range widths {
		name, err := excelize.ColumnNumberToName(i + 1)
		g.keep(err)
		g.keep(g.book.SetColWidth(sheet, name, name, w))
	}
}

func (g *grid) at(row, column int) string {
	name, err := excelize.CoordinatesToCellName(column, row)
	g.keep(err)
	return name
}

func (g *grid) styled(row, column, style int) {
	cell := g.at(row, column)
	g.keep(g.book.SetCellStyle(g.sheet, cell, cell, style))
}

func (g *grid) head(names ...string) {
	for i, name := range names {
		g.title(1, i+1, name)
	}
}

func (g *grid) title(row, column int, text string) {
	g.text(row, column, text)
	g.styled(row, column, g.headStyle)
}

// text writes a cell that is text, and stays text when a person edits it.
func (g *grid) text(row, column int, text string) {
	if text == "" {
		return
	}
	g.keep(g.book.SetCellStr(g.sheet, g.at(row, column), plain(text)))
	g.styled(row, column, g.wordStyle)
}

// day writes a real date; the calendar of workbooks begins in 1900.
func (g *grid) day(row, column int, d credit.Date) {
	if d.IsZero() {
		return
	}
	if d.Before(credit.Day(1900, 3, 1)) {
		g.text(row, column, d.String())
		return
	}
	g.keep(g.book.SetCellInt(g.sheet, g.at(row, column), int64(d.Sub(credit.Day(1899, 12, 30)))))
	g.styled(row, column, g.dateStyle)
}

// sheetDigits is how many decimal digits every program for workbooks keeps.
const sheetDigits = 15

// amount writes a number: as its decimal if that is exact, else as a fraction.
func (g *grid) amount(row, column int, a credit.Amount) {
	if text := a.String(); !strings.Contains(text, "/") && len(strings.Trim(text, "-.")) <= sheetDigits {
		g.keep(g.book.SetCellDefault(g.sheet, g.at(row, column), text))
		return
	}
	g.formula(row, column, "%s", a.Rat().RatString())
}

// money shows the number of a cell as an amount of money.
func (g *grid) money(row int, columns ...int) {
	for _, c := range columns {
		g.styled(row, c, g.payStyle)
	}
}

func (g *grid) formula(row, column int, format string, args ...any) {
	g.keep(g.book.SetCellFormula(g.sheet, g.at(row, column), fmt.Sprintf(format, args...)))
}

// maxArguments is how many arguments a function of a workbook takes.
const maxArguments = 200

// sum writes the sum of the cells of a column of a sheet in these rows; rows that follow
// each other are one range.
func (g *grid) sum(row, column int, sheet, letter string, rows []int) {
	rows = slices.Compact(slices.Sorted(slices.Values(rows)))
	var cells []string
	for i := 0; i < len(rows); {
		k := i
		for k+1 < len(rows) && rows[k+1] == rows[k]+1 {
			k++
		}
		cell := fmt.Sprintf("%s!%s%d", sheet, letter, rows[i])
		if k > i {
			cell += fmt.Sprintf(":%s%d", letter, rows[k])
		}
		cells, i = append(cells, cell), k+1
	}
	var parts []string
	for len(cells) > maxArguments {
		parts, cells = append(parts, "SUM("+strings.Join(cells[:maxArguments], ",")+")"), cells[maxArguments:]
	}
	if len(cells) > 0 {
		parts = append(parts, "SUM("+strings.Join(cells, ",")+")")
	}
	if len(parts) == 0 {
		parts = []string{"0"}
	}
	g.formula(row, column, "%s", strings.Join(parts, "+"))
}
