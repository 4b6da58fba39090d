package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// sortedFields returns the names of fields in the order of the schema, log fields
// after them by name.
func sortedFields[V any](m map[paper.Field]V) []paper.Field {
	order := append(paper.Fields(), paper.FieldCategory)
	rank := func(f paper.Field) int {
		if i := slices.Index(order, f); i >= 0 {
			return i
		}
		return len(order)
	}
	return slices.SortedFunc(maps.Keys(m), func(x, y paper.Field) int {
		if d := rank(x) - rank(y); d != 0 {
			return d
		}
		return strings.Compare(string(x), string(y))
	})
}

func (a *app) claimsCommand() *cobra.Command {
	var withdrawn bool
	var cycle string
	c := &cobra.Command{
		Use:     "claims",
		Short:   "list the claims of the cycle with what each earns",
		Example: "  vaultctl claims\n  vaultctl claims --json",
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.reading(cmd.Context(), func(j *journal.Journal) error {
				archive, err := a.closedCycle(cmd.Context(), j, cycle, "")
				if err != nil {
					return err
				}
				if archive != nil {
					return a.archivedClaims(archive)
				}
				list, err := j.Claims(cmd.Context(), journal.ClaimsFilter{Certification: a.certification, Withdrawn: withdrawn})
				if err != nil {
					return err
				}
				if a.json {
					return a.printJSON(list)
				}
				a.printClaims(list)
				return nil
			})
		},
	}
	cycleFlag(c, &cycle)
	c.Flags().BoolVar(&withdrawn, "withdrawn", false, "also those that were withdrawn")
	return c
}

func (a *app) printClaims(list []journal.Claim) {
	if len(list) == 0 {
		a.printf("No claim yet. vaultctl waiting lists what can be confirmed.\n")
		return
	}
	rows, when := make([][]string, len(list)), "date"
	if a.narrow() {
		when = "last day"
	}
	for i, c := range list {
		note := c.State
		switch {
		case note != "":
		case c.Outside:
			note = "outside the cycle"
		case !c.Proven:
			note = "unproven"
		}
		date := days(c.Start.String(), c.End.String())
		if a.narrow() {
			date = c.End.String()
		}
		rows[i] = []string{c.ID, date, c.Category, c.Title, minutes(c.Duration), c.Awarded.String(), c.Counted.String(), note}
	}
	columns := []column{{head: "claim"}, {head: when}, {head: "category", most: 24}, {head: "title", most: 44}, {head: "time", number: true},
		{head: "awarded", number: true}, {head: "counted", number: true}, {head: "", most: 20}}
	if of := func(c journal.Claim) bool { return c.Certification != list[0].Certification }; slices.ContainsFunc(list, of) {
		columns = slices.Insert(columns, 1, column{head: "certification"})
		for i, c := range list {
			rows[i] = slices.Insert(rows[i], 1, c.Certification)
		}
	} else if w := a.width(); w > 0 && w < 72 { // no room for how long it was
		columns = slices.Delete(columns, 4, 5)
		for i := range rows {
			rows[i] = slices.Delete(rows[i], 4, 5)
		}
	}
	a.table(columns, rows)
}

// minutes prints a length of time as hours and minutes.
func minutes(m *credit.Minutes) string {
	if m == nil {
		return ""
	}
	return fmt.Sprintf("%d:%02d h", *m/60, *m%60)
}

func (a *app) printClaim(c journal.Claim) {
	a.printf("%s  activity %s, %s: %s awarded, %s counted\n", c.ID, c.Activity, c.Category, c.Awarded, c.Counted)
	if c.State != "" {
		a.printf("  %s\n", c.State)
	}
	for _, f := range slices.Sorted(maps.Keys(c.Fields)) {
		a.printf("  %-16s %s\n", f, safe(c.Fields[f]))
	}
	for _, n := range c.Notes {
		a.printf("  %s\n", safe(n))
	}
	a.printProofs(c.Proofs)
}

func (a *app) printProofs(list []journal.Proof) {
	if len(list) == 0 {
		a.printf("  no proof: attach one with vaultctl attach CLAIM PAPER\n")
		return
	}
	a.printf("  proofs\n")
	for _, p := range list {
		words := "set by a person"
		if p.By != paper.ByPerson {
			words = "“" + oneLine(p.Quote) + "”"
		}
		if p.By != paper.ByPerson && p.Quote == "" {
			words = "its words are not kept any more"
		}
		a.printf("    %-16s %s, page %d: %s\n", p.Field, safe(p.File), p.Page, safe(words))
	}
}

func (a *app) claimCommand() *cobra.Command {
	return a.group("claim", "add, change or withdraw a claim", a.claimAddCommand(), a.claimChangeCommand(), a.claimWithdrawCommand())
}

func (a *app) claimAddCommand() *cobra.Command {
	var o journal.ClaimOptions
	var set []string
	c := &cobra.Command{
		Use:   "add",
		Short: "claim what has no document yet, or an activity for a further certification",
		Long: `add claims an activity that no document proves yet. It shows as unproven until a
paper is attached. With --activity it claims an activity that is there already for
another certification.`,
		Example: `  vaultctl claim add --category meeting --set title="Section evening" --set end_date=2026-05-12
  vaultctl claim add --activity A7 --certification rescue --category course`,
		Args: a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) (err error) {
			o.Certification = a.certification
			if o.Set, err = parseSet(set); err != nil {
				return err
			}
			return a.withJournal(cmd.Context(), func(j *journal.Journal) error {
				r, err := j.ClaimAdd(cmd.Context(), o)
				return a.sayClaim(r, err)
			})
		},
	}
	f := c.Flags()
	f.StringVar(&o.Category, "category", "", "the category of the claim")
	f.StringVar(&o.Activity, "activity", "", "an activity that is there already, as in A7")
	f.StringArrayVar(&set, "set", nil, "FIELD=VALUE (again for each)")
	return c
}

func (a *app) sayClaim(r journal.ClaimResult, err error) error {
	if err != nil {
		return err
	}
	return a.sayConfirmed(journal.ConfirmResult{Claims: []journal.Claim{r.Claim}, Warnings: r.Warnings})
}

func (a *app) claimChangeCommand() *cobra.Command {
	var set []string
	var category string
	c := &cobra.Command{
		Use:     "change CLAIM",
		Short:   "correct a claim; the history stays",
		Example: `  vaultctl claim change C9 --set duration_minutes=420 --category teaching`,
		Args:    a.args(cobra.ExactArgs(1)),
		RunE: func(cmd *cobra.Command, ids []string) error {
			values, err := parseSet(set)
			if err != nil {
				return err
			}
			if len(values) == 0 && category == "" {
				return usagef("say what changes, with --set FIELD=VALUE or --category NAME")
			}
			return a.withJournal(cmd.Context(), func(j *journal.Journal) error {
				r, err := j.ClaimChange(cmd.Context(), ids[0], values, category)
				return a.sayClaim(r, err)
			})
		},
	}
	c.Flags().StringArrayVar(&set, "set", nil, "FIELD=VALUE (again for each)")
	c.Flags().StringVar(&category, "category", "", "another category")
	return c
}

func (a *app) claimWithdrawCommand() *cobra.Command {
	var why string
	c := &cobra.Command{
		Use:     "withdraw CLAIM",
		Short:   "take a claim out of the count; the history stays",
		Example: `  vaultctl claim withdraw C9 --why "claimed by the employer's group"`,
		Args:    a.args(cobra.ExactArgs(1)),
		RunE: func(cmd *cobra.Command, ids []string) error {
			return a.withJournal(cmd.Context(), func(j *journal.Journal) error {
				r, err := j.ClaimWithdraw(cmd.Context(), ids[0], why)
				if err != nil {
					return err
				}
				if a.json {
					return a.printJSON(r)
				}
				a.printf("%s  withdrawn\n", r.ID)
				return nil
			})
		},
	}
	c.Flags().StringVar(&why, "why", "", "the reason")
	return c
}

func (a *app) attachCommand() *cobra.Command {
	var set []string
	c := &cobra.Command{
		Use:     "attach CLAIM PAPER",
		Short:   "make a paper a proof of a claim",
		Example: `  vaultctl attach C9 P12`,
		Args:    a.args(cobra.ExactArgs(2)),
		RunE: func(cmd *cobra.Command, ids []string) error {
			values, err := parseSet(set)
			if err != nil {
				return err
			}
			return a.withJournal(cmd.Context(), func(j *journal.Journal) error {
				r, err := j.Attach(cmd.Context(), ids[0], ids[1], values)
				return a.sayClaim(r, err)
			})
		},
	}
	c.Flags().StringArrayVar(&set, "set", nil, "FIELD=VALUE: what the paper proves, where it was not read (again for each)")
	return c
}
