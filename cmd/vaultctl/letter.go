package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/audit"
	"evidencevault/credit"
	"evidencevault/journal"
)

// letterFlags are those of the verb letter.
type letterFlags struct {
	due, date, claims, seed, cycle string
	sample                         int
}

func (a *app) letterCommand() *cobra.Command {
	var f letterFlags
	c := &cobra.Command{
		Use:   "letter P…",
		Short: "record an audit letter, the claims it asks for, and by when it must be answered",
		Long: `letter keeps papers as an audit letter: its own date, the last day to answer, and the
claims that it asks for. The date is the paper's own unless --date gives it; the last
day is as many days later as the scheme gives, unless --due names it. Without --claims
the letter asks for every claim of the cycle; it may be one that is closed, and --cycle
names it where --claims does not. --sample 3 --seed WORDS draws three, to
practise, and the same seed draws the same three again.

Until it is answered, the letter stands among the deadlines of the standing and the
calendar, and packet packs just the claims that it asks for, those of a closed cycle from
its archive. Nothing of them can be deleted. undo takes the letter back.`,
		Example: "  vaultctl letter P12 --claims C1,C4-C6 --due 2026-12-20\n  vaultctl letter P12 --sample 3 --seed 'practice in May'\n  vaultctl letter answered L1 --note 'sent by post, registered'\n  vaultctl letters",
		Args:    a.args(cobra.MinimumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error {
			return a.withJournal(cmd.Context(), func(j *journal.Journal) error { return a.recordLetter(cmd, j, args, f) })
		},
	}
	c.Flags().StringVar(&f.due, "due", "", "the last day to answer, YYYY-MM-DD (else as the scheme says)")
	c.Flags().StringVar(&f.date, "date", "", "the letter's own date, YYYY-MM-DD (else as it was read)")
	c.Flags().StringVar(&f.claims, "claims", "", "the claims that it asks for, as in C1,C4-C6 (else all)")
	c.Flags().IntVar(&f.sample, "sample", 0, "draw so many claims, to practise")
	c.Flags().StringVar(&f.seed, "seed", "", "words with which the sample is drawn")
	c.Flags().StringVar(&f.cycle, "cycle", "", "the cycle that it asks about: its number, or a day in it (else that of the claims, or the present one)")
	c.AddCommand(a.letterAnsweredCommand())
	return c
}

func (a *app) recordLetter(cmd *cobra.Command, j *journal.Journal, papers []string, f letterFlags) error {
	o := journal.LetterOptions{Certification: a.certification, Cycle: f.cycle}
	var err error
	for _, d := range []struct {
		flag, text string
		to         *credit.Date
	}{{"--due", f.due, &o.Due}, {"--date", f.date, &o.Dated}} {
		if d.text != "" {
			if *d.to, err = credit.ParseDate(d.text); err != nil {
				return usagef("%s: %w", d.flag, err)
			}
		}
	}
	switch {
	case f.claims != "" && f.sample != 0:
		return usagef("--claims and --sample: give one of the two")
	case f.sample < 0 || f.sample > 0 && f.seed == "" || f.sample == 0 && f.seed != "":
		return usagef("--sample N --seed WORDS: a sample has at least one claim, and a seed with which it can be drawn again")
	case f.claims != "":
		o.Claims = []string{f.claims}
	case f.sample > 0:
		o.Seed = f.seed
		if o.Claims, err = audit.DrawClaims(cmd.Context(), j, a.certification, f.cycle, f.sample, f.seed); err != nil {
			return err
		}
	}
	l, err := j.RecordLetter(cmd.Context(), papers, o)
	if err != nil {
		return err
	}
	if a.json {
		return a.printJSON(l)
	}
	a.printLetter(l)
	if l.State == journal.LetterOpen {
		a.printf("Then: vaultctl packet -o FOLDER packs just these; vaultctl letter answered %s, once it is sent.\n", l.ID)
	}
	return nil
}

func (a *app) letterAnsweredCommand() *cobra.Command {
	var on, note string
	c := &cobra.Command{
		Use:     "answered [L…]",
		Short:   "say that an audit letter was answered",
		Example: "  vaultctl letter answered\n  vaultctl letter answered L1 --on 2026-12-02 --note 'packet of 1 December, sent by post'",
		Args:    a.args(cobra.MaximumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error {
			day, err := a.parseOn(on)
			if err != nil {
				return err
			}
			return a.withJournal(cmd.Context(), func(j *journal.Journal) error {
				l, err := j.AnswerLetter(cmd.Context(), strings.Join(args, ""), day, note)
				if err != nil {
					return err
				}
				if a.json {
					return a.printJSON(l)
				}
				a.printLetter(l)
				return nil
			})
		},
	}
	c.Flags().StringVar(&on, "on", "", "the day on which it was answered, YYYY-MM-DD (else today)")
	c.Flags().StringVar(&note, "note", "", "how: what was sent, to whom, by which way")
	return c
}

func (a *app) lettersCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "letters",
		Short:   "list the audit letters, and which are still open",
		Example: "  vaultctl letters\n  vaultctl letters --json",
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.reading(cmd.Context(), func(j *journal.Journal) error {
				list, err := j.Letters(cmd.Context())
				if err != nil {
					return err
				}
				if a.certification != "" {
					list = slices.DeleteFunc(list, func(l journal.AuditLetter) bool { return l.Certification != a.certification })
				}
				if a.json {
					return a.printJSON(list)
				}
				if len(list) == 0 {
					a.printf("No audit letter was recorded. vaultctl letter P… records one.\n")
				}
				for _, l := range list {
					a.printLetter(l)
				}
				return nil
			})
		},
	}
}

func (a *app) printLetter(l journal.AuditLetter) {
	a.printf("%s  %s, letter of %s (%s: %s)\n", l.ID, safe(l.Certification), l.Dated, strings.Join(l.Papers, " "), safe(strings.Join(l.Files, ", ")))
	what := fmt.Sprintf("%s: %s", count(len(l.Claims), "claim", "claims"), strings.Join(l.Claims, " "))
	if l.All {
		what = "every claim of the cycle, " + what
	}
	if l.Seed != "" {
		what += fmt.Sprintf(", drawn with the seed %q", safe(l.Seed))
	}
	a.say("  asks for " + what)
	switch l.State {
	case journal.LetterOpen:
		a.say(fmt.Sprintf("  open: answer by %s (%s), %s", l.Due, daysLeft(*l.DaysLeft), safe(l.DueFrom)))
	case journal.LetterAnswered:
		late := ""
		if l.Answered.After(l.Due) {
			late = ", after the last day " + l.Due.String()
		}
		a.say(strings.TrimSuffix(fmt.Sprintf("  answered on %s%s: %s", l.Answered, late, safe(l.Note)), ": "))
	default:
		a.say("  " + l.State)
	}
}

func daysLeft(n int) string {
	switch {
	case n < 0:
		return count(-n, "day", "days") + " too late"
	case n == 0:
		return "today"
	}
	return "in " + count(n, "day", "days")
}
