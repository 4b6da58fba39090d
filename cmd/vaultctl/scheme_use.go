package main

import (
	"context"
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/journal"
)

func (a *app) schemeUseCommand() *cobra.Command {
	var yes bool
	var move []string
	c := &cobra.Command{
		Use:   "use FILE",
		Short: "let the present cycle run under another version of its scheme",
		Long: `use shows first what another version of the rules makes of each claim, and then asks.
A cycle keeps the version it began under until this is done. A file that was changed
under a version which the vault has already is refused: give it a version of its own.
Claims of a category that the version does not have go where --move says. Where nobody can be asked, nothing is changed without --yes.

The version before stays in the vault, and standing says from then on what differs and
why. Ask the body whether the new rules hold for a cycle that is under way.`,
		Example: `  vaultctl scheme use rules-2027.toml
  vaultctl scheme use rules-2027.toml --certification electrical --yes`,
		Args: a.args(cobra.ExactArgs(1)),
		RunE: func(cmd *cobra.Command, files []string) error {
			data, err := os.ReadFile(files[0])
			if err != nil {
				return err
			}
			o := journal.SchemeUse{File: journal.SchemeFile{Name: files[0], Data: data}, Certification: a.certification, Move: map[string]string{}}
			for _, text := range move {
				old, fresh, ok := strings.Cut(text, "=")
				if !ok || old == "" || fresh == "" {
					return usagef("--move %q: want OLD=NEW, two categories", text)
				}
				o.Move[old] = fresh
			}
			return a.withJournal(cmd.Context(), func(j *journal.Journal) error { return a.useScheme(cmd.Context(), j, o, yes) })
		},
	}
	c.Flags().StringArrayVar(&move, "move", nil, "OLD=NEW: where claims go whose category the version does not have (again for each)")
	c.Flags().BoolVar(&yes, "yes", false, "do not ask first")
	return c
}

func (a *app) useScheme(ctx context.Context, j *journal.Journal, o journal.SchemeUse, yes bool) error {
	change, err := j.PreviewScheme(ctx, o)
	if err != nil {
		return err
	}
	if !a.json || !yes {
		a.printChange(change)
	}
	if !yes {
		if !a.interactive() || a.json {
			return fmt.Errorf("%s: nothing was changed; look at the differences, then say it again with --yes", change.To.File)
		}
		ok, err := a.prompter().yes(ctx, "Count the cycle under this version from now on")
		if err != nil {
			return err
		}
		if !ok {
			a.printf("Nothing was changed.\n")
			return nil
		}
	}
	if change, err = j.UseScheme(ctx, o); err != nil {
		return err
	}
	if a.json {
		return a.printJSON(change)
	}
	a.printf("\nThe cycle from %s to %s counts under version %s now.\n", change.Cycle.Start.Words(), change.Cycle.End.Words(), safe(change.To.String()))
	return nil
}

// printChange shows on standard output what differs; with --json it is left to the
// error, so that output holds nothing but JSON.
func (a *app) printChange(c journal.VersionChange) {
	out := func(line string) {
		if a.json {
			fmt.Fprintln(a.err, safe(line))
			return
		}
		a.say(line)
	}
	out(fmt.Sprintf("%s, cycle from %s to %s: version %s instead of %s", c.Certification, c.Cycle.Start.Words(), c.Cycle.End.Words(), c.To, c.From))
	for _, line := range c.Lines {
		out("  " + line)
	}
	if len(c.Moved) > 0 {
		out("  into another category: " + strings.Join(c.Moved, " "))
	}
	if c.Older {
		a.warn("version %s is older than %s, which is in force", c.To, c.From)
	}
}
