package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"github.com/spf13/cobra"

	"evidencevault/audit"
	"evidencevault/credit"
	"evidencevault/journal"
)

// parseOn reads a flag that names a day; "" means today.
func (a *app) parseOn(text string) (credit.Date, error) {
	if text == "" {
		return credit.DateOf(a.now()), nil
	}
	d, err := credit.ParseDate(text)
	if err != nil {
		return d, usagef("--on: %w", err)
	}
	return d, nil
}

func (a *app) standingCommand() *cobra.Command {
	var on, sheet, cycle string
	c := &cobra.Command{
		Use:   "standing",
		Short: "say what is counted, what is missing, and by when",
		Long: `standing counts the claims under the scheme's rules on a day, today if none is
named. Not meeting a target is no failure: it is said, and the program ends with 0.

The certifying body's current rules decide; this count is an aid.`,
		Example: "  vaultctl standing\n  vaultctl standing --on 2027-12-31 --json\n  vaultctl standing --sheet standing.xlsx",
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			day, err := a.parseOn(on)
			if err != nil {
				return err
			}
			return a.reading(cmd.Context(), func(j *journal.Journal) error {
				archive, err := a.closedCycle(cmd.Context(), j, cycle, on)
				if err != nil {
					return err
				}
				if archive != nil && sheet != "" {
					return usagef("--sheet: a closed cycle has none; its index.csv is in its packet")
				}
				if archive != nil {
					return a.archivedStanding(archive)
				}
				if sheet != "" {
					return a.writeSheet(cmd.Context(), j, day, sheet)
				}
				list, err := j.Standing(cmd.Context(), day, a.certification)
				if err != nil {
					return err
				}
				if a.json {
					return a.printJSON(list)
				}
				if len(list) > 1 {
					a.printStandings(list)
				}
				for i, s := range list {
					if i > 0 || len(list) > 1 {
						a.printf("\n")
					}
					a.printStatement(s)
				}
				if err := a.printNext(cmd.Context(), j, list); err != nil {
					return err
				}
				return a.sayDrops(cmd, j)
			})
		},
	}
	c.Flags().StringVar(&on, "on", "", "the day, YYYY-MM-DD")
	cycleFlag(c, &cycle)
	c.Flags().StringVar(&sheet, "sheet", "", "write a workbook (.xlsx) whose sums recompute, instead of printing")
	return c
}

// printStandings prints a row for each certification, before each is told by itself.
func (a *app) printStandings(list []credit.Statement) {
	rows := make([][]string, len(list))
	for i, s := range list {
		target, missing := "", ""
		if s.HasTarget {
			target, missing = s.Target.String(), s.Missing.String()
		}
		open, state := 0, "met"
		for _, m := range s.Minimums {
			if !m.Met {
				open++
			}
		}
		switch {
		case !s.AsksAnything():
			state = "asks nothing"
		case open > 0:
			state = count(open, "minimum open", "minimums open")
		case !s.Meets:
			state = "not met"
		}
		end, left := "", ""
		if !s.Cycle.End.IsZero() {
			end, left = s.Cycle.End.String(), s.InDays(s.Cycle.End)
		}
		rows[i] = []string{s.Certification, s.Unit, s.Counted.String(), target, missing, state, end, left}
	}
	a.table([]column{{head: "certification", most: 30}, {head: "unit"}, {head: "counted", number: true}, {head: "of", number: true}, {head: "missing", number: true},
		{head: ""}, {head: "to"}, {head: ""}}, rows)
}

// writeSheet writes the standing of one certification as a workbook. A file that is
// there already is left as it is, since a person may have worked in it.
func (a *app) writeSheet(ctx context.Context, j *journal.Journal, day credit.Date, name string) (err error) {
	d, err := audit.Gather(ctx, j, a.certification, day)
	if err != nil {
		return err
	}
	var book bytes.Buffer
	if err := audit.SheetOf(d).Write(&book); err != nil {
		return err
	}
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s: is there already; name another file", name)
	}
	if err != nil {
		return err
	}
	defer closeInto(&err, f)
	if _, err := f.Write(book.Bytes()); err != nil {
		return err
	}
	a.printf("written: %s\n", safe(name))
	return nil
}

// sayDrops warns of a drop folder that is not there.
func (a *app) sayDrops(cmd *cobra.Command, j *journal.Journal) error {
	about, err := j.About(cmd.Context())
	if err != nil {
		return err
	}
	for _, d := range about.Drops {
		if d.Missing {
			a.warn("the drop folder %s is not there; nothing can be taken in from it", d.Dir)
		}
	}
	return nil
}

func (a *app) versionCommand() *cobra.Command {
	return &cobra.Command{
		Use: "version", Short: "print what was built", Example: "  vaultctl version", Args: a.args(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error {
			info := buildInfo()
			if a.json {
				return a.printJSON(info)
			}
			a.printf("vaultctl %s, %s, %s\n", info.Version, info.Go, info.System)
			return nil
		},
	}
}

func (a *app) receiptsCommand() *cobra.Command {
	letter := &cobra.Command{
		Use: "letter RECEIPT", Short: "write the short letter that asks a provider for the certificate",
		Example: "  vaultctl receipts letter R3",
		Args:    a.args(cobra.ExactArgs(1)),
		RunE: func(cmd *cobra.Command, ids []string) error {
			return a.reading(cmd.Context(), func(j *journal.Journal) error {
				text, err := j.Letter(cmd.Context(), ids[0])
				if err != nil {
					return err
				}
				a.printf("%s", text)
				return nil
			})
		},
	}
	c := &cobra.Command{
		Use: "receipts", Short: "list what was paid, for what, and who still owes a certificate",
		Example: "  vaultctl receipts\n  vaultctl receipts letter R3",
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.reading(cmd.Context(), func(j *journal.Journal) error {
				list, err := j.Receipts(cmd.Context())
				if err != nil {
					return err
				}
				if a.json {
					return a.printJSON(list)
				}
				a.printReceipts(list)
				return nil
			})
		},
	}
	c.AddCommand(letter)
	return c
}

func (a *app) printReceipts(list []journal.Receipt) {
	if len(list) == 0 {
		a.printf("No receipt was confirmed yet.\n")
		return
	}
	rows := make([][]string, len(list))
	for i, r := range list {
		state := r.State
		switch {
		case r.CostOf != "":
			state = "cost of " + r.CostOf
		case r.Days != nil:
			state += fmt.Sprintf(" (%d days)", *r.Days)
		}
		rows[i] = []string{r.ID, r.Date.String(), r.Total, r.Provider, r.Title, state}
	}
	a.table([]column{{head: "receipt"}, {head: "date"}, {head: "total", number: true}, {head: "provider", most: 32}, {head: "for", most: 36}, {head: "", most: 48}}, rows)
	for _, r := range list {
		a.printCostProposal(r)
	}
}

// printCostProposal names the activity that a receipt most likely is the cost of.
func (a *app) printCostProposal(r journal.Receipt) {
	if len(r.Proposal) > 0 {
		m := r.Proposal[0]
		a.printf("\n%s may be the cost of %s (%s): vaultctl confirm %s --cost-of %s\n", r.ID, m.Activity, safe(m.Title), r.ID, m.Activity)
	}
}
