package page

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

func sortedEdits(list []edit) []edit {
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b edit) int { return cmp.Compare(a.from, b.from) })
	return list
}

// Limits of a workbook that is opened.
const (
	sheetBytes   = 64 << 20 // unpacked
	mostListed   = 2000     // cells with text
	mostCellText = 32767    // ECMA-376 leaves it open; what the common programs take
)

// formSheet lists the cells with text of a workbook, or writes into cells: real numbers
// and days, and text that is never a formula. Sums are worked out when it is opened.
func formSheet(b []byte, o order) (reply, []byte) {
	book, err := excelize.OpenReader(bytes.NewReader(b), excelize.Options{UnzipSizeLimit: sheetBytes, UnzipXMLSizeLimit: sheetBytes / 4})
	if err != nil {
		return noForm("the workbook cannot be opened: " + plain(err.Error(), 200)), nil
	}
	defer book.Close()
	var a reply
	if o.Do == doFields {
		a.Fields = textCells(book)
		return a, nil
	}
	for _, v := range o.Values {
		if p := writeCell(book, v); p.What != "" {
			a.Problems = append(a.Problems, p)
		}
	}
	whole := true
	if err := book.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: &whole}); err != nil {
		return noForm("the workbook cannot be changed: " + plain(err.Error(), 200)), nil
	}
	var out bytes.Buffer
	if err := book.Write(&out); err != nil {
		return noForm("the workbook cannot be written: " + plain(err.Error(), 200)), nil
	}
	return a, out.Bytes()
}

func textCells(book *excelize.File) []FormField {
	var list []FormField
	for i, sheet := range book.GetSheetList() {
		rows, err := book.GetRows(sheet)
		if err != nil {
			continue
		}
		for r, row := range rows {
			for c, text := range row {
				cell, err := excelize.CoordinatesToCellName(c+1, r+1)
				if text == "" || err != nil {
					continue
				}
				if len(list) == mostListed {
					return list
				}
				list = append(list, FormField{Name: sheet + "!" + cell, Kind: FieldCell, Page: i + 1, Value: plain(text, 200)})
			}
		}
	}
	return list
}

// writeCell writes one value. The zero Problem is none.
func writeCell(book *excelize.File, v FormValue) Problem {
	sheet, cell := book.GetSheetName(0), v.Name
	if at := strings.LastIndexByte(v.Name, '!'); at >= 0 {
		sheet, cell = strings.Trim(v.Name[:at], "'"), v.Name[at+1:]
	}
	column, row, err := excelize.CellNameToCoordinates(cell)
	if index, ierr := book.GetSheetIndex(sheet); err != nil || ierr != nil || index < 0 {
		return Problem{v.Name, ProblemUnknown, "the workbook has no such sheet or cell; want B3 or Sheet!B3"}
	}
	if formula, err := book.GetCellFormula(sheet, cell); err != nil || formula != "" {
		return Problem{v.Name, ProblemFormula, fmt.Sprintf("the cell works out its own value (=%s), and is left so", plain(formula, 100))}
	}
	switch {
	case v.Text == "" && v.Raw == "":
		err = book.SetCellValue(sheet, cell, nil)
	case v.Kind == ValueNumber:
		if strings.Contains(v.Raw, "/") { // 31/3 has no finite decimal
			err = book.SetCellFormula(sheet, cell, v.Raw)
		} else {
			err = book.SetCellDefault(sheet, cell, v.Raw)
		}
	case v.Kind == ValueDay:
		err = writeDay(book, sheet, cell, v)
	case len([]rune(v.Text)) > mostCellText:
		return Problem{v.Name, ProblemLong, fmt.Sprintf("%d letters, and a cell takes %d", len([]rune(v.Text)), mostCellText)}
	default:
		err = book.SetCellStr(sheet, cell, plainLines(v.Text))
	}
	if err != nil {
		return Problem{v.Name, ProblemUnknown, plain(err.Error(), 200)}
	}
	if wide := widthOf(book, sheet, column, row); v.Kind == ValueText && wide > 0 && len([]rune(v.Text)) > wide {
		return Problem{v.Name, ProblemLong, fmt.Sprintf("%q is wider than the column, so part of it may not show", v.Text)}
	}
	return Problem{}
}

// writeDay writes a real day; a cell without a format of its own shows it as
// YYYY-MM-DD.
func writeDay(book *excelize.File, sheet, cell string, v FormValue) error {
	day, err := time.Parse(time.DateOnly, v.Raw)
	if err != nil || day.Year() < 1901 {
		return book.SetCellStr(sheet, cell, v.Text)
	}
	id, err := book.GetCellStyle(sheet, cell)
	if err != nil {
		return err
	}
	style, err := book.GetStyle(id)
	if err != nil {
		return err
	}
	serial := int64(day.Sub(time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)).Hours() / 24)
	if err := book.SetCellInt(sheet, cell, serial); err != nil {
		return err
	}
	if style.NumFmt != 0 || style.CustomNumFmt != nil && *style.CustomNumFmt != "" {
		return nil
	}
	format := "yyyy-mm-dd"
	style.CustomNumFmt = &format
	if id, err = book.NewStyle(style); err != nil {
		return err
	}
	return book.SetCellStyle(sheet, cell, cell, id)
}

// widthOf is how many letters a cell shows; 0 when it breaks its lines or is merged
// with others.
func widthOf(book *excelize.File, sheet string, column, row int) int {
	name, err := excelize.ColumnNumberToName(column)
	if err != nil {
		return 0
	}
	cell := name + strconv.Itoa(row)
	if id, err := book.GetCellStyle(sheet, cell); err == nil {
		if style, err := book.GetStyle(id); err == nil && style.Alignment != nil && (style.Alignment.WrapText || style.Alignment.ShrinkToFit) {
			return 0
		}
	}
	merged, err := book.GetMergeCells(sheet)
	if err != nil || len(merged) > 0 {
		return 0
	}
	wide, err := book.GetColWidth(sheet, name)
	if err != nil {
		return 0
	}
	return int(wide * 1.25) // small letters are narrower than digits
}
