package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/audit"
	"evidencevault/journal"
)

func (a *app) costsCommand() *cobra.Command {
	var table, sheet, language string
	c := &cobra.Command{
		Use:   "costs",
		Short: "add up what was paid: by activity, category, currency and credit",
		Long: `costs adds up the confirmed receipts, each currency by itself: what each activity
cost, each category, and a credit that counts; what was paid back; and what was paid
for something that has no certificate yet.

For a tax adviser or an employer, --csv writes a table with a line for each receipt, and
--sheet a workbook whose sums are formulas over the receipts, in the language of
--language. An activity claimed in two
categories is a cost in both, and once in the sums by currency.`,
		Example: "  vaultctl costs\n  vaultctl costs --csv costs.csv --sheet costs.xlsx\n  vaultctl costs --json",
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.reading(cmd.Context(), func(j *journal.Journal) error {
				r, err := j.CostReport(cmd.Context(), a.certification)
				if err != nil {
					return err
				}
				if table+sheet != "" {
					return a.writeCosts(cmd.Context(), j, r, table, sheet, language)
				}
				if a.json {
					return a.printJSON(r)
				}
				a.printCosts(r)
				return nil
			})
		},
	}
	languageFlag(c, &language)
	c.Flags().StringVar(&table, "csv", "", "write a table, one line for each receipt, instead of printing")
	c.Flags().StringVar(&sheet, "sheet", "", "write a workbook (.xlsx) whose sums recompute, instead of printing")
	return c
}

// writeCosts writes the table, the workbook or both. Both are made before the first is
// written.
func (a *app) writeCosts(ctx context.Context, j *journal.Journal, r journal.CostReport, table, sheet, language string) error {
	holder, err := j.Catalog().Holder(ctx)
	if err != nil {
		return err
	}
	c, err := audit.Costs{Holder: holder.Name, On: j.Today(), CostReport: r}.In(language)
	if err != nil {
		return usagef("--language %v", err)
	}
	var lines, book bytes.Buffer
	if err := errors.Join(c.WriteCSV(&lines), c.WriteSheet(&book)); err != nil {
		return err
	}
	written := []string{}
	for _, f := range []struct {
		name string
		data []byte
	}{{table, lines.Bytes()}, {sheet, book.Bytes()}} {
		if f.name == "" {
			continue
		}
		if err := writeNew(f.name, f.data, false); err != nil {
			return err
		}
		written = append(written, f.name)
	}
	if a.json {
		return a.printJSON(map[string]any{"files": written, "receipts": len(r.Receipts)})
	}
	for _, name := range written {
		a.printf("written: %s, %s\n", safe(name), count(len(r.Receipts), "receipt", "receipts"))
	}
	return nil
}

func (a *app) printCosts(r journal.CostReport) {
	if len(r.Activities) == 0 && len(r.Open) == 0 {
		a.printf("No receipt was confirmed yet.\n")
		return
	}
	number := func(head string) column { return column{head: head, number: true} }
	if len(r.Activities) > 0 {
		var rows [][]string
		for _, c := range r.Activities {
			for i, s := range c.Sums {
				row := []string{c.Activity, c.Title, strings.Join(c.Categories, ", "), strings.Join(c.Receipts, " "), c.Counted.String(), s.Amount + " " + s.Currency}
				if i > 0 {
					row = []string{"", "", "", "", "", s.Amount + " " + s.Currency}
				}
				rows = append(rows, row)
			}
		}
		a.table([]column{{head: "activity"}, {head: "", most: 40}, {head: "category", most: 16}, {head: "receipts", most: 16}, number("counted"), number("paid")}, rows)
	}
	if len(r.Categories) > 0 {
		var rows [][]string
		for _, c := range r.Categories {
			rows = append(rows, []string{c.Category, c.Paid.String() + " " + c.Currency, c.Counted.String(), perCredit(c)})
		}
		a.printf("\n")
		a.table([]column{{head: "category"}, number("paid"), number("counted"), number("for one credit")}, rows)
	}
	a.printOpenCosts(r.Open)
	a.printf("\nIn all")
	for i, s := range r.Sums {
		if i > 0 {
			a.printf(" +")
		}
		a.printf(" %s %s", s.Amount, s.Currency)
	}
	for _, s := range r.Refunds {
		a.printf(", after %s %s was paid back", strings.TrimPrefix(s.Amount, "-"), s.Currency)
	}
	a.printf(".\n")
	for _, c := range r.PerCredit {
		if c.PerCredit != nil {
			a.printf("A credit that counts has cost %s %s: %s %s for %s.\n", about(*c.PerCredit), c.Currency, c.Paid, c.Currency, c.Credits)
		}
	}
}

// printOpenCosts prints the receipts that no activity belongs to yet, with what is to be done
// about each.
func (a *app) printOpenCosts(open []journal.Receipt) {
	if len(open) == 0 {
		return
	}
	var rows [][]string
	letter := ""
	for _, o := range open {
		rows = append(rows, []string{o.ID, o.Date.String(), o.Total, o.Provider, o.Title})
		if letter == "" && len(o.Proposal) == 0 {
			letter = fmt.Sprintf(" (vaultctl receipts letter %s writes the letter)", o.ID)
		}
	}
	a.printf("\nPaid, and no certificate yet%s\n", letter)
	a.table([]column{{head: "receipt"}, {head: "date"}, {head: "paid", number: true}, {head: "provider", most: 32}, {head: "for", most: 40}}, rows)
	for _, o := range open {
		a.printCostProposal(o)
	}
}

func perCredit(c journal.CategoryCost) string {
	if c.PerCredit == nil {
		return ""
	}
	return about(*c.PerCredit) + " " + c.Currency
}
