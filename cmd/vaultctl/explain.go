package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/journal"
)

func (a *app) explainCommand() *cobra.Command {
	var all bool
	var on, cycle string
	var f journal.ExplainFilter
	c := &cobra.Command{
		Use:   "explain [CLAIM…]",
		Short: "show how a figure came about: paper, rule, arithmetic, cuts",
		Long: `explain shows the way to a figure: what the paper says and where, the rule with file
and line, the arithmetic, what each cap took and why, and what leaving the claim out
would change. Without a claim it explains the whole standing.`,
		Example: "  vaultctl explain C9\n  vaultctl explain C9 C12-C14\n  vaultctl explain --category course\n  vaultctl explain --minimum ethics\n  vaultctl explain --all",
		Args:    a.args(cobra.ArbitraryArgs),
		RunE: func(cmd *cobra.Command, ids []string) error {
			asked := 0
			for _, yes := range []bool{all, len(ids) > 0, f.Category != "", f.Minimum != ""} {
				if yes {
					asked++
				}
			}
			if asked > 1 {
				return usagef("name claims, or use one of --category, --minimum and --all")
			}
			var err error
			if f.On, err = a.parseOn(on); err != nil {
				return err
			}
			f.IDs, f.Certification = ids, a.certification
			return a.reading(cmd.Context(), func(j *journal.Journal) error {
				archive, err := a.closedCycle(cmd.Context(), j, cycle, on)
				if err != nil {
					return err
				}
				if archive != nil {
					return a.archivedExplanations(archive, f)
				}
				list, err := j.Explain(cmd.Context(), f)
				if err != nil {
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
	cycleFlag(c, &cycle)
	c.Flags().BoolVar(&all, "all", false, "the whole standing")
	c.Flags().StringVar(&f.Category, "category", "", "one category of the scheme")
	c.Flags().StringVar(&f.Minimum, "minimum", "", "one minimum of the scheme")
	c.Flags().StringVar(&on, "on", "", "the day, YYYY-MM-DD")
	return c
}

func (a *app) printExplanation(e journal.Explanation) {
	head := e.Certification
	if e.ID != e.Certification {
		head = e.ID + "  (" + e.Certification + ")"
	}
	if e.Title != "" {
		head += "  " + e.Title
	}
	a.say(head)
	a.printProvenBy(e.Proofs)
	for i, line := range e.Lines {
		if len(e.Proofs) > 0 && i == 0 {
			line = "Counted " + strings.TrimPrefix(line, e.ID+" ")
		}
		if line != "" {
			line = "  " + line
		}
		a.say(line)
	}
}

// printProvenBy says what each paper says, and where.
func (a *app) printProvenBy(proofs []journal.Proof) {
	said := map[string]bool{}
	for _, first := range proofs {
		if said[first.SHA256] {
			continue
		}
		said[first.SHA256] = true
		a.say("  Proven by " + first.File)
		for _, p := range proofs {
			if p.SHA256 != first.SHA256 {
				continue
			}
			words := "set by a person"
			if p.Quote != "" {
				words = "“" + oneLine(p.Quote) + "”"
			}
			a.say(fmt.Sprintf("    %-16s %s  (page %d: %s)", p.Field, p.Value, p.Page, words))
		}
	}
}

// say prints a line, with the line's own indent, broken at the terminal's width where
// there is one.
func (a *app) say(line string) {
	for _, part := range wrap(safe(line), a.width()) {
		a.printf("%s\n", part)
	}
}
