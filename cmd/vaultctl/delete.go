package main

import (
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/audit"
	"evidencevault/journal"
)

// deleteFlags are those of the verb delete.
type deleteFlags struct {
	cycle, why                      string
	yes, keep, release, dateIsRight bool
}

func (a *app) deleteCommand() *cobra.Command {
	var f deleteFlags
	c := &cobra.Command{
		Use:   "delete [PAPER…]",
		Short: "say what must be kept until when, and delete what need not be kept any more",
		Long: `delete alone changes nothing: it lists every file with what it is kept for and until when.
Where the scheme does not say how long proofs are kept, they are kept for ever.

With --cycle N it deletes the archive of a closed cycle and what proves its claims, as far
as nothing else needs it: another certification, a cycle into which credit passed, a
receipt, a paper that waits. The latest day of all rules counts. With papers it deletes the
files they are in. It shows the list and asks first.

What is deleted is gone: file, names and the words that were read. The log keeps hash,
size, first name, reason, and the claims with their figures; it still verifies. --keep
keeps papers whatever the rules say, until --release.`,
		Example: "  vaultctl delete\n  vaultctl delete --cycle 1\n  vaultctl delete P12 --why \"not mine\" --yes\n  vaultctl delete P3 --keep --why \"the appeal is open\"",
		Args:    a.args(cobra.ArbitraryArgs),
		RunE: func(cmd *cobra.Command, ids []string) error {
			if (f.keep || f.release) && (f.keep && f.release || len(ids) == 0 || f.cycle != "") {
				return usagef("--keep and --release: name papers, and give one of the two")
			}
			ctx := cmd.Context()
			if len(ids) == 0 && f.cycle == "" {
				return a.reading(ctx, func(j *journal.Journal) error { return a.keepingList(ctx, j) })
			}
			return a.withJournal(ctx, func(j *journal.Journal) error {
				if f.keep || f.release {
					return a.hold(ctx, j, ids, f)
				}
				return a.delete(ctx, j, ids, f)
			})
		},
	}
	s := c.Flags()
	s.StringVar(&f.cycle, "cycle", "", "a closed cycle: its number, or a day in it")
	s.StringVar(&f.why, "why", "", "the reason, which the log keeps")
	s.BoolVar(&f.yes, "yes", false, "do not ask first")
	s.BoolVar(&f.keep, "keep", false, "keep these papers whatever the rules say")
	s.BoolVar(&f.release, "release", false, "no longer keep them by hand")
	s.BoolVar(&f.dateIsRight, "date-is-right", false, "the computer's date is right although long past the last entry, or before it")
	return c
}

func (a *app) keepingList(ctx context.Context, j *journal.Journal) error {
	list, err := j.Keeping(ctx, j.Today())
	if err != nil {
		return err
	}
	if a.json {
		return a.printJSON(list)
	}
	if len(list) == 0 {
		a.printf("The vault has no file.\n")
		return nil
	}
	a.printKept(list)
	return nil
}

// printKept prints a row for each file, with the first thing that it is kept for.
func (a *app) printKept(list []journal.Kept) {
	rows := make([][]string, len(list))
	for i, k := range list {
		until, why := "", "nothing needs it"
		if k.Until != nil {
			until = k.Until.String()
		}
		if k.Ever() {
			until = "for ever"
		}
		if len(k.Holds) > 0 {
			why = k.Holds[0].Why
		}
		if n := len(k.Holds); n > 1 {
			why += fmt.Sprintf(", and %d more", n-1)
		}
		rows[i] = []string{strings.Join(k.Papers, " "), k.File, until, why}
	}
	a.table([]column{{head: "papers", most: 20}, {head: "file", most: 36}, {head: "until"}, {head: "kept for", most: 70}}, rows)
}

func (a *app) hold(ctx context.Context, j *journal.Journal, ids []string, f deleteFlags) error {
	if err := j.Hold(ctx, ids, f.why, f.release); err != nil {
		return err
	}
	what := "kept by hand"
	if f.release {
		what = "no longer kept by hand"
	}
	if a.json {
		return a.printJSON(map[string]any{"papers": ids, "held": f.keep})
	}
	a.printf("%s: %s\n", strings.Join(ids, " "), what)
	return nil
}

func (a *app) delete(ctx context.Context, j *journal.Journal, ids []string, f deleteFlags) error {
	if err := audit.SweepArchives(ctx, j); err != nil {
		return err
	}
	p, err := j.DeletePlan(ctx, journal.DeleteOptions{IDs: ids, Cycle: f.cycle, Certification: a.certification})
	if err != nil {
		return err
	}
	if !a.json {
		a.printDeletion(p)
	}
	ok, err := a.mayDelete(ctx, j, f)
	if err != nil || !ok {
		return err
	}
	if err := audit.Delete(ctx, j, p, f.why); err != nil {
		return err
	}
	if a.json {
		return a.printJSON(p)
	}
	a.printf("Deleted: %s, %s. The log keeps hash, name and reason.\n", count(len(p.Evidence), "file", "files"), count(len(p.Archives), "archive", "archives"))
	return a.sayDropped(ctx, j)
}

func (a *app) printDeletion(p journal.DeletePlan) {
	a.printf("Goes for good\n")
	for _, c := range p.Archives {
		a.say(fmt.Sprintf("  the archive of cycle %d of %s, %s to %s", c.Number, c.Certification, c.Start, c.End))
	}
	for _, k := range p.Evidence {
		text := "  " + strings.Join(k.Papers, " ") + "  " + k.File
		if k.Until != nil {
			text += ", to be kept until " + k.Until.String()
		}
		a.say(text)
	}
	if len(p.Stays) > 0 {
		a.printf("Stays\n")
	}
	for _, k := range p.Stays {
		a.say("  " + strings.Join(k.Papers, " ") + "  " + k.File + ": " + k.Holds[0].String())
	}
	a.printf("\n")
}

func (a *app) mayDelete(ctx context.Context, j *journal.Journal, f deleteFlags) (bool, error) {
	last, err := j.Catalog().LastAt(ctx)
	if err != nil {
		return false, err
	}
	doubt := doubtDate(a.now().Sub(last))
	if f.yes {
		if doubt != "" && !f.dateIsRight {
			return false, fmt.Errorf("nothing was deleted: %s; say so with --date-is-right", doubt)
		}
		return true, nil
	}
	if !a.interactive() || a.json {
		return false, fmt.Errorf("nothing was deleted; look at the list, then say it again with --yes")
	}
	if doubt != "" {
		a.warn("%s", doubt)
	}
	ok, err := a.prompter().yes(ctx, "Delete this for good")
	if err == nil && !ok {
		a.printf("Nothing was deleted.\n")
	}
	return ok, err
}

// sayDropped warns that a drop folder that is not emptied brings a file back.
func (a *app) sayDropped(ctx context.Context, j *journal.Journal) error {
	about, err := j.About(ctx)
	if err != nil {
		return err
	}
	for _, d := range about.Drops {
		if !d.Empty {
			a.warn("the drop folder %s is left as it is: remove the files from there too, or they are taken in again", d.Dir)
		}
	}
	return nil
}
