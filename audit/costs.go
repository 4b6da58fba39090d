package audit

import (
	"encoding/csv"
	"fmt"
	"io"
	"strings"

	"github.com/xuri/excelize/v2"

	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// Costs is what receipts come to, as it is handed to a tax adviser or an employer.
type Costs struct {
	Holder string
	On     credit.Date // the day for which the counted credits hold
	journal.CostReport
}

// noCertificate is what the table says of a receipt that no activity belongs to yet.
const noCertificate = "no certificate yet"

var costHead = []string{"receipt", "date", "provider", "title", "paid", "currency", "activity", "claims", "category", "state", "file", "sha256"}

// words returns the texts of one receipt, in the order of costHead; the date as
// YYYY-MM-DD, the amount as a decimal with the digits of the receipt.
func words(r journal.CostReceipt) []string {
	amount, currency := r.Total, ""
	if m, err := paper.ParseMoney(r.Total); err == nil {
		amount, currency = m.Amount, m.Currency
	}
	var claims, categories []string
	for _, c := range r.Claims {
		claims, categories = append(claims, c.ID), append(categories, c.Certification+": "+c.Category)
	}
	state := "cost of an activity"
	switch {
	case r.CostOf == "":
		state = noCertificate
	case strings.HasPrefix(amount, "-"):
		state = "paid back"
	}
	return []string{r.ID, r.Date.String(), r.Provider, r.Title, amount, currency, r.CostOf, strings.Join(claims, " "), strings.Join(categories, "; "), state, r.File, r.SHA256}
}

// WriteCSV writes one line for each receipt, as RFC 4180 says, in UTF-8; what was paid
// back is below 0. No text can be taken for a formula by a spreadsheet program: one that
// begins like a formula gets an apostrophe in front. Amounts are numbers.
func (c Costs) WriteCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	if err := out.Write(costHead); err != nil {
		return err
	}
	for _, r := range c.Receipts {
		row := words(r)
		for i := range row {
			if costHead[i] != "paid" {
				row[i] = noFormula(row[i])
			}
		}
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// The sheets of the workbook of costs, in order.
const (
	sheetSums     = "Sums"
	sheetReceipts = "Receipts"
	sheetPaidFor  = "Claims"
)

// WriteSheet writes a workbook: sums by currency and by category, with the cost of one
// credit, as formulas over the receipts and claims that stand on sheets of their own. An
// activity that is claimed in two categories is a cost in both, and once in the sums by
// currency.
func (c Costs) WriteSheet(w io.Writer) error {
	book := excelize.NewFile()
	defer book.Close()
	g := &grid{book: book}
	if err := g.begin(sheetSums, sheetReceipts, sheetPaidFor); err != nil {
		return err
	}
	receipts := c.receipts(g)
	claims := c.paidFor(g, receipts)
	c.sums(g, receipts, claims)
	if g.err != nil {
		return fmt.Errorf("workbook of costs: %w", g.err)
	}
	return book.Write(w)
}

// receipts fills the sheet of the receipts and returns its last row.
func (c Costs) receipts(g *grid) int {
	g.open(sheetReceipts, 9, 12, 32, 44, 12, 10, 10, 14, 28, 20, 36, 66)
	g.head(costHead...)
	for i, r := range c.Receipts {
		row := i + 2
		for k, text := range words(r) {
			switch costHead[k] {
			case "date":
				g.day(row, k+1, r.Date)
			case "paid":
				if amount, err := credit.ParseAmount(text); err == nil {
					g.amount(row, k+1, amount)
					g.money(row, k+1)
				} else {
					g.text(row, k+1, text)
				}
			default:
				g.text(row, k+1, text)
			}
		}
	}
	return len(c.Receipts) + 1
}

// paidFor fills the sheet of the claims that were paid for, one row for each currency,
// and returns its last row.
func (c Costs) paidFor(g *grid, receipts int) int {
	g.open(sheetPaidFor, 9, 16, 16, 10, 10, 12, 12)
	g.head("claim", "certification", "category", "activity", "currency", "paid", "counted")
	row, seen := 1, map[string]bool{}
	for _, r := range c.Receipts {
		currency := words(r)[5]
		for _, claim := range r.Claims {
			if key := claim.ID + " " + currency; seen[key] {
				continue
			} else {
				seen[key] = true
			}
			row++
			for k, text := range []string{claim.ID, claim.Certification, claim.Category, r.CostOf, currency} {
				g.text(row, k+1, text)
			}
			g.formula(row, 6, "SUMIFS(Receipts!$E$2:$E$%d,Receipts!$G$2:$G$%d,D%d,Receipts!$F$2:$F$%d,E%d)", receipts, receipts, row, receipts, row)
			g.amount(row, 7, claim.Counted)
			g.money(row, 6)
		}
	}
	return row
}

// sums fills the first sheet.
func (c Costs) sums(g *grid, receipts, claims int) {
	g.open(sheetSums, 26, 18, 14, 14, 20, 16, 18)
	g.title(1, 1, "Costs")
	g.text(1, 2, c.Holder)
	g.title(2, 1, "counted credits as of")
	g.day(2, 2, c.On)
	row := 4
	for i, head := range []string{"currency", "paid", "paid back", "in all", noCertificate} {
		g.title(row, i+1, head)
	}
	for _, s := range c.Sums {
		row++
		g.text(row, 1, s.Currency)
		paid := fmt.Sprintf("SUMIFS(Receipts!$E$2:$E$%d,Receipts!$F$2:$F$%d,A%d,Receipts!$E$2:$E$%d,", receipts, receipts, row, receipts)
		g.formula(row, 2, `%s">0")`, paid)
		g.formula(row, 3, `%s"<0")`, paid)
		g.formula(row, 4, "B%d+C%d", row, row)
		g.formula(row, 5, `SUMIFS(Receipts!$E$2:$E$%d,Receipts!$F$2:$F$%d,A%d,Receipts!$J$2:$J$%d,"%s")`, receipts, receipts, row, receipts, noCertificate)
		g.money(row, 2, 3, 4, 5)
	}
	if len(c.Categories) == 0 {
		return
	}
	row += 2
	for i, head := range []string{"certification", "category", "currency", "paid", "counted", "for one credit"} {
		g.title(row, i+1, head)
	}
	of := func(column string) string {
		return fmt.Sprintf("Claims!$%s$2:$%s$%d", column, column, claims)
	}
	for _, k := range c.Categories {
		row++
		g.text(row, 1, k.Certification)
		g.text(row, 2, k.Category)
		g.text(row, 3, k.Currency)
		for column, from := range map[int]string{4: "F", 5: "G"} {
			g.formula(row, column, "SUMIFS(%s,%s,A%d,%s,B%d,%s,C%d)", of(from), of("B"), row, of("C"), row, of("E"), row)
		}
		g.formula(row, 6, `IF(E%d=0,"",D%d/E%d)`, row, row, row)
		g.money(row, 4, 6)
	}
}
