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

	w *wording
}

// In returns the costs with the words of their workbook in a language of [Languages]; ""
// is English. The error wraps [ErrLanguage].
func (c Costs) In(language string) (Costs, error) {
	var err error
	c.w, err = wordsIn(language)
	return c, err
}

// The states of a receipt, as the table says them; keys of the words of a workbook too.
const (
	noCertificate = "no certificate yet"
	paidBack      = "paid back"
	costOf        = "cost of an activity"
)

var costHead = []string{"receipt", "date", "provider", "title", "paid", "currency", "activity", "claims", "category", "state", "file", "sha256"}

// costSays is the word of the workbook for what the table says in English.
func (w *wording) costSays(text string) string { return w.say("cost " + text) }

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
	state := costOf
	switch {
	case r.CostOf == "":
		state = noCertificate
	case strings.HasPrefix(amount, "-"):
		state = paidBack
	}
	return []string{r.ID, r.Date.String(), r.Provider, r.Title, amount, currency, r.CostOf, strings.Join(claims, " "), strings.Join(categories, "; "), state, r.File, r.SHA256}
}

// WriteCSV writes one line for each receipt, as RFC 4180 says, in UTF-8; what was paid
// back is below 0. No text can be taken for a formula by a spreadsheet program: one that
// begins like a formula gets an apostrophe in front. Amounts are numbers. The names of its
// columns and its states are for programs, and the same in every language.
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

// WriteSheet writes a workbook: sums by currency and by category, with the cost of one
// credit, as formulas over the receipts and claims that stand on sheets of their own. An
// activity that is claimed in two categories is a cost in both, and once in the sums by
// currency. Its words are in the language of [Costs.In].
func (c Costs) WriteSheet(w io.Writer) error {
	if c.w == nil {
		var err error
		if c, err = c.In(""); err != nil {
			return err
		}
	}
	book := excelize.NewFile()
	defer book.Close()
	g := &grid{book: book}
	if err := g.begin(c.w.say("sheet sums"), c.w.say("sheet receipts"), c.w.say("sheet claims")); err != nil {
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
	g.open(c.w.say("sheet receipts"), 9, 12, 32, 44, 12, 10, 10, 14, 28, 20, 36, 66)
	g.head(c.says(costHead...)...)
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
			case "state":
				g.text(row, k+1, c.w.costSays(text))
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
	g.open(c.w.say("sheet claims"), 9, 16, 16, 10, 10, 12, 12)
	g.head(c.says("claim", "certification", "category", "activity", "currency", "paid", "counted")...)
	row, seen, of := 1, map[string]bool{}, c.columns("sheet receipts", receipts)
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
			g.formula(row, 6, "SUMIFS(%s,%s,D%d,%s,E%d)", of("E"), of("G"), row, of("F"), row)
			g.amount(row, 7, claim.Counted)
			g.money(row, 6)
		}
	}
	return row
}

// says puts the heads of columns into the language of the workbook.
func (c Costs) says(heads ...string) []string {
	list := make([]string, len(heads))
	for i, head := range heads {
		list[i] = c.w.costSays(head)
	}
	return list
}

// columns names a column of a sheet down to its last row, as a formula on another sheet does.
func (c Costs) columns(sheet string, last int) func(column string) string {
	name := quotedSheet(c.w.say(sheet))
	return func(column string) string { return fmt.Sprintf("%s!$%s$2:$%s$%d", name, column, column, last) }
}

// sums fills the first sheet.
func (c Costs) sums(g *grid, receipts, claims int) {
	g.open(c.w.say("sheet sums"), 26, 18, 14, 14, 20, 16, 18)
	g.title(1, 1, c.w.costSays("title of the sheet"))
	g.text(1, 2, c.Holder)
	g.title(2, 1, c.w.costSays("counted as of"))
	g.day(2, 2, c.On)
	row, from := 4, c.columns("sheet receipts", receipts)
	for i, head := range c.says("currency", "paid", paidBack, "in all", noCertificate) {
		g.title(row, i+1, head)
	}
	for _, s := range c.Sums {
		row++
		g.text(row, 1, s.Currency)
		paid := fmt.Sprintf("SUMIFS(%s,%s,A%d,%s,", from("E"), from("F"), row, from("E"))
		g.formula(row, 2, `%s">0")`, paid)
		g.formula(row, 3, `%s"<0")`, paid)
		g.formula(row, 4, "B%d+C%d", row, row)
		g.formula(row, 5, `SUMIFS(%s,%s,A%d,%s,"%s")`, from("E"), from("F"), row, from("J"), c.w.costSays(noCertificate))
		g.money(row, 2, 3, 4, 5)
	}
	if len(c.Categories) == 0 {
		return
	}
	c.byCategory(g, row+2, claims)
}

// byCategory fills the table of the categories, from a row on.
func (c Costs) byCategory(g *grid, row, claims int) {
	for i, head := range c.says("certification", "category", "currency", "paid", "counted", "for one credit") {
		g.title(row, i+1, head)
	}
	of := c.columns("sheet claims", claims)
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
