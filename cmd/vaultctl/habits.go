package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/extract/paper"
	"evidencevault/journal"
)

func (a *app) habitsCommand() *cobra.Command {
	var provider string
	var all bool
	forget := &cobra.Command{
		Use:   "forget --provider NAME | --all",
		Short: "let what was learnt of a provider suggest nothing any more",
		Example: `  vaultctl habits forget --provider 'Corrivane School of Rope Work'
  vaultctl habits forget --all`,
		Args: a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if (strings.TrimSpace(provider) == "") == !all {
				return usagef("name one provider with --provider, or give --all")
			}
			return a.withJournal(cmd.Context(), func(j *journal.Journal) error {
				gone, err := j.ForgetHabits(cmd.Context(), provider)
				if err != nil {
					return err
				}
				if a.json {
					return a.printJSON(gone)
				}
				a.printf("Forgotten: %s\n", count(len(gone), "habit", "habits"))
				return nil
			})
		},
	}
	forget.Flags().StringVar(&provider, "provider", "", "the provider, as the list names it")
	forget.Flags().BoolVar(&all, "all", false, "every provider")
	c := &cobra.Command{
		Use:   "habits",
		Short: "list what earlier confirmations suggest for the next paper of a provider",
		Long: `habits lists what the vault learnt from your confirmations: in which category you claim
the papers of a provider, where several accept them, how you write a provider whose name
is read otherwise, and at which label in a provider's papers, or without one in which place
on the page, a value stood that you set otherwise than it was read. A habit puts one candidate first in what is read after it;
the question stays a question.
Undoing a confirmation takes its habit back.`,
		Example: "  vaultctl habits\n  vaultctl habits forget --all",
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.reading(cmd.Context(), func(j *journal.Journal) error {
				list, err := j.Habits(cmd.Context())
				if err != nil {
					return err
				}
				if a.json {
					return a.printJSON(list)
				}
				a.printHabits(list)
				return nil
			})
		},
	}
	c.AddCommand(forget)
	return c
}

// millimetres turns hundredths of a point.
func millimetres(n int) int { return n * 254 / 72_000 }

func (a *app) printHabits(list []journal.Habit) {
	if len(list) == 0 {
		a.printf("No habit yet: they come from what you choose when you confirm papers.\n")
		return
	}
	rows := make([][]string, len(list))
	for i, h := range list {
		when, first := "papers of the kind "+h.Kind, h.Value
		switch {
		case h.Label != "":
			when, first = "its papers have the label", "what stands at “"+h.Label+"”"
		case h.At.Page > 0:
			when, first = "its papers have the same layout", fmt.Sprintf("what stands on page %d, %d mm from the left, %d mm down", h.At.Page, millimetres(h.At.Box[0]), millimetres(h.At.Box[1]))
		case h.Field == paper.FieldProvider:
			when = "read as " + h.Read
		}
		rows[i] = []string{h.Provider, when, string(h.Field), first, strings.Join(h.From, " ")}
	}
	a.table([]column{{head: "provider", most: 36}, {head: "when", most: 36}, {head: "field"}, {head: "first comes", most: 40}, {head: "from", most: 20}}, rows)
}
