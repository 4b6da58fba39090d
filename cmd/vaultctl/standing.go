package main

import (
	"context"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

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
	var on string
	c := &cobra.Command{
		Use:   "standing",
		Short: "say what is counted, what is missing, and by when",
		Long: `standing counts the claims under the scheme's rules on a day, today if none is
named. Not meeting a target is no failure: it is said, and the program ends with 0.

The certifying body's current rules decide; this count is an aid.`,
		Example: "  vaultctl standing\n  vaultctl standing --on 2027-12-31 --json",
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			day, err := a.parseOn(on)
			if err != nil {
				return err
			}
			return a.reading(cmd.Context(), func(j *journal.Journal) error {
				list, err := j.Standing(cmd.Context(), day, a.certification)
				if err != nil {
					return err
				}
				if a.json {
					return a.printJSON(list)
				}
				for i, s := range list {
					if i > 0 {
						a.printf("\n")
					}
					a.printStatement(s)
				}
				return a.sayDrops(cmd, j)
			})
		},
	}
	c.Flags().StringVar(&on, "on", "", "the day, YYYY-MM-DD")
	return c
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

func (a *app) printStatement(s credit.Statement) {
	if s.Certification != "" {
		a.printf("%s, scheme %s", safe(s.Certification), safe(s.Scheme))
	} else {
		a.printf("scheme %s", safe(s.Scheme))
	}
	if !s.Cycle.IsZero() {
		a.printf(", cycle %s to %s", s.Cycle.Start, s.Cycle.End)
	}
	a.printf("\n")
	if s.HasTarget {
		a.printf("%s of %s %s counted", s.Counted, s.Target, unitOf(s.Target, s.Unit))
		switch {
		case s.Meets && s.Target.Sign() == 0 && len(s.Minimums) == 0:
			a.printf("; the scheme asks for nothing")
		case s.Meets:
			a.printf("; target and minimums are met")
		case s.Missing.Sign() > 0:
			a.printf("; %s missing", s.Missing)
		default:
			a.printf("; a minimum is missing")
		}
	} else {
		a.printf("%s %s counted", s.Counted, unitOf(s.Counted, s.Unit))
	}
	if left, ok := s.DaysLeft(); ok {
		if left >= 0 {
			a.printf("; %d days left on %s", left, s.On)
		} else {
			a.printf("; the cycle ended %d days before %s", -left, s.On)
		}
	}
	a.printf("\n\n")
	rows := make([][]string, len(s.Categories))
	for i, c := range s.Categories {
		limit := ""
		if c.Cap != nil {
			limit = c.Cap.String()
		}
		rows[i] = []string{c.ID, c.Awarded.String(), c.Counted.String(), limit}
	}
	a.table([]column{{head: "category"}, {head: "awarded", number: true}, {head: "counted", number: true}, {head: "at most", number: true}}, rows)
	if len(s.Minimums) > 0 {
		a.printf("\n")
		rows = nil
		for _, m := range s.Minimums {
			state := "not met"
			if m.Met {
				state = "met"
			}
			rows = append(rows, []string{m.ID, m.Want.String(), m.Have.String(), state})
		}
		a.table([]column{{head: "minimum"}, {head: "wanted", number: true}, {head: "there", number: true}, {head: ""}}, rows)
	}
	if len(s.Cuts) > 0 {
		a.printf("\n")
		rows = nil
		for _, c := range s.Cuts {
			rows = append(rows, []string{c.Claim, c.Amount.String(), c.Rule})
		}
		a.table([]column{{head: "cut from"}, {head: "amount", number: true}, {head: "by", most: 40}}, rows)
	}
	for _, l := range s.Leaving {
		a.printf("%s stops counting on %s\n", l.Amount, l.Date)
	}
	for _, d := range s.Deadlines {
		a.printf("\n%s: %s", d.Date, safe(d.What))
	}
	if len(s.Deadlines) > 0 {
		a.printf("\n")
	}
}

// unitOf prints the unit as it goes with n: 1 point, 2 points, 12 CEU.
func unitOf(n credit.Amount, unit string) string {
	if unit == "" || n.Equal(credit.Whole(1)) || unit[len(unit)-1] == 's' || unit[0] >= 'A' && unit[0] <= 'Z' {
		return unit
	}
	return unit + "s"
}

func (a *app) explainCommand() *cobra.Command {
	var all bool
	var on string
	c := &cobra.Command{
		Use:     "explain CLAIM | explain --all",
		Short:   "show how a figure came about: rule, file and line, arithmetic, cuts",
		Example: "  vaultctl explain C9\n  vaultctl explain --all",
		Args:    a.args(cobra.MaximumNArgs(1)),
		RunE: func(cmd *cobra.Command, ids []string) error {
			if all == (len(ids) == 1) {
				return usagef("name one claim, or use --all")
			}
			day, err := a.parseOn(on)
			if err != nil {
				return err
			}
			id := "all"
			if len(ids) == 1 {
				id = ids[0]
			}
			return a.reading(cmd.Context(), func(j *journal.Journal) error {
				list, err := j.Explain(cmd.Context(), id, day)
				if err != nil {
					return err
				}
				if list, err = a.onlyChosen(cmd.Context(), j, list); err != nil {
					return err
				}
				if a.json {
					return a.printJSON(list)
				}
				for i, e := range list {
					if i > 0 {
						a.printf("\n")
					}
					a.printExplanation(e)
				}
				return nil
			})
		},
	}
	c.Flags().BoolVar(&all, "all", false, "the whole standing")
	c.Flags().StringVar(&on, "on", "", "the day, YYYY-MM-DD")
	return c
}

// onlyChosen leaves out what is about another certification than the one that is
// chosen. The error says that the vault has no such certification.
func (a *app) onlyChosen(ctx context.Context, j *journal.Journal, list []journal.Explanation) ([]journal.Explanation, error) {
	if a.certification == "" {
		return list, nil
	}
	if _, err := j.Certified(ctx, a.certification, credit.DateOf(a.now())); err != nil {
		return nil, err
	}
	return slices.DeleteFunc(list, func(e journal.Explanation) bool { return e.Certification != a.certification }), nil
}

func (a *app) printExplanation(e journal.Explanation) {
	what := e.ID
	if e.Title != "" {
		what += "  " + e.Title
	}
	a.printf("%s\n", safe(what))
	if e.Category != "" {
		a.printf("%s: %s awarded, %s counted (%s)\n", safe(e.Category), e.Awarded, e.Counted, e.Unit)
	}
	for _, line := range e.Lines {
		a.printf("  %s\n", safe(line))
	}
	if len(e.Proofs) > 0 {
		a.printf("Proven by\n")
	}
	for _, p := range e.Proofs {
		words := "set by a person"
		if p.Quote != "" {
			words = "“" + oneLine(p.Quote) + "”"
		}
		a.printf("  %-16s %s  (%s, page %d: %s)\n", p.Field, safe(p.Value), safe(p.File), p.Page, safe(words))
	}
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
		for _, m := range r.Proposal {
			a.printf("\n%s may be the cost of %s (%s): vaultctl confirm %s --cost-of %s\n", r.ID, m.Activity, safe(m.Title), r.ID, m.Activity)
			break
		}
	}
}
