package main

import (
	"context"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/journal"
)

func (a *app) setAsideCommand() *cobra.Command {
	var why string
	c := &cobra.Command{
		Use:     "set-aside PAPER… --why TEXT",
		Short:   "keep papers, but say that they prove nothing",
		Example: `  vaultctl set-aside P5 --why "a flyer"`,
		Args:    a.args(cobra.MinimumNArgs(1)),
		RunE: func(cmd *cobra.Command, ids []string) error {
			if strings.TrimSpace(why) == "" {
				return usagef("--why: say why these prove nothing; an auditor may ask")
			}
			return a.withJournal(cmd.Context(), func(j *journal.Journal) error {
				refs, err := j.SetAside(cmd.Context(), ids, why)
				if err != nil {
					return err
				}
				return a.list(refs, "set aside")
			})
		},
	}
	c.Flags().StringVar(&why, "why", "", "the reason, as you would tell an auditor")
	return c
}

// list prints short numbers with what became of them.
func (a *app) list(ids []string, what string) error {
	if a.json {
		return a.printJSON(ids)
	}
	for _, id := range ids {
		a.printf("%s  %s\n", id, what)
	}
	return nil
}

func (a *app) undoCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "undo ID",
		Short: "take back the last act on a paper, claim or receipt",
		Long: `undo takes back the last act on a paper, claim or receipt by a further act; the
history stays. A confirmed paper waits again, and its claims are withdrawn.`,
		Example: "  vaultctl undo P3\n  vaultctl undo C9",
		Args:    a.args(cobra.ExactArgs(1)),
		RunE: func(cmd *cobra.Command, ids []string) error {
			return a.withJournal(cmd.Context(), func(j *journal.Journal) error {
				r, err := j.Undo(cmd.Context(), ids[0])
				if err != nil {
					return err
				}
				if a.json {
					return a.printJSON(r)
				}
				a.printf("%s  undone: %s; now %s\n", r.ID, safe(r.Undone), r.State)
				if len(r.Withdrawn) > 0 {
					a.printf("withdrawn: %s\n", strings.Join(r.Withdrawn, " "))
				}
				return nil
			})
		},
	}
}

func (a *app) cutCommand() *cobra.Command {
	var pages string
	c := &cobra.Command{
		Use:   "cut PAPER --pages RANGES",
		Short: "cut a paper into several, by pages",
		Long: `cut makes several papers of one, where a file holds several documents. The ranges
must cover each page of the paper once. The new papers are read at once.`,
		Example: `  vaultctl cut P4 --pages 1-2,3`,
		Args:    a.args(cobra.ExactArgs(1)),
		RunE: func(cmd *cobra.Command, ids []string) error {
			if pages == "" {
				return usagef("--pages: say where to cut, as in 1-2,3")
			}
			return a.withJournal(cmd.Context(), func(j *journal.Journal) error {
				made, err := j.Cut(cmd.Context(), ids[0], pages)
				if err != nil {
					return err
				}
				return a.readMade(cmd.Context(), j, made...)
			})
		},
	}
	c.Flags().StringVar(&pages, "pages", "", "page ranges, as in 1-2,3")
	return c
}

// readMade reads the papers that a cut or a join made.
func (a *app) readMade(ctx context.Context, j *journal.Journal, made ...journal.NewPaper) error {
	ids := make([]string, len(made))
	for i, m := range made {
		ids[i] = m.UUID
	}
	return a.readNow(ctx, j, "", ids...)
}

func (a *app) joinCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "join PAPER PAPER",
		Short: "join two neighbouring papers of one file",
		Long: `join makes one paper of two whose pages follow each other in one file. To add a
paper of another file as proof of a claim, use attach.`,
		Example: `  vaultctl join P4 P5`,
		Args:    a.args(cobra.ExactArgs(2)),
		RunE: func(cmd *cobra.Command, ids []string) error {
			return a.withJournal(cmd.Context(), func(j *journal.Journal) error {
				made, err := j.Join(cmd.Context(), ids[0], ids[1])
				if err != nil {
					return err
				}
				return a.readMade(cmd.Context(), j, made)
			})
		},
	}
}

func (a *app) showCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "show ID",
		Short:   "show a paper, activity, claim or receipt with its history",
		Example: "  vaultctl show P3\n  vaultctl show C9 --json",
		Args:    a.args(cobra.ExactArgs(1)),
		RunE: func(cmd *cobra.Command, ids []string) error {
			return a.reading(cmd.Context(), func(j *journal.Journal) error {
				d, err := j.Show(cmd.Context(), ids[0])
				if err != nil {
					return err
				}
				if a.json {
					return a.printJSON(d)
				}
				a.printDetail(d)
				return nil
			})
		},
	}
}

func (a *app) printDetail(d journal.Detail) {
	switch {
	case d.Paper != nil:
		p := d.Paper
		a.printf("%s  %s, %s\n", p.ID, safe(paperName(p.WaitingPaper)), p.State)
		if p.Reason != "" {
			a.printf("  %s\n", safe(p.Reason))
		}
		a.printf("  sha256 %s, %d bytes\n", p.SHA256, p.Size)
		for _, n := range p.Names {
			if n != p.File {
				a.printf("  also came as %s\n", safe(n))
			}
		}
		a.printValues(p.WaitingPaper)
		if len(p.Claims) > 0 {
			a.printf("  claims %s\n", strings.Join(p.Claims, " "))
		}
		if p.Receipt != "" {
			a.printf("  receipt %s\n", p.Receipt)
		}
	case d.Claim != nil:
		a.printClaim(*d.Claim)
	case d.Activity != nil:
		a.printf("%s  claims %s\n", d.Activity.ID, strings.Join(d.Activity.Claims, " "))
		for _, f := range sortedFields(d.Activity.Fields) {
			a.printf("  %-16s %s\n", f, safe(d.Activity.Fields[f]))
		}
		a.printProofs(d.Activity.Proofs)
		for _, s := range d.Activity.Sums {
			a.printf("  cost             %s %s\n", s.Amount, s.Currency)
		}
	case d.Receipt != nil:
		r := d.Receipt
		a.printf("%s  %s  %s  %s, %s\n", r.ID, r.Date, r.Total, safe(r.Provider), r.State)
		a.printf("  from paper %s, %s\n", r.Paper, safe(r.File))
	case d.Letter != nil:
		a.printLetter(*d.Letter)
	}
	if len(d.History) > 0 {
		a.printf("\nHistory\n")
	}
	for _, h := range d.History {
		a.printf("  %6d  %s  %s\n", h.Event, h.Time.UTC().Format("2006-01-02 15:04:05Z"), safe(h.Text))
	}
}

func (a *app) printValues(p journal.WaitingPaper) {
	for _, f := range sortedFields(p.Values) {
		v := p.Values[f]
		if v.Value == nil {
			continue
		}
		a.printValue(f, v)
	}
	for _, q := range p.Questions {
		a.printf("  ? %s: %s\n", q.Field, safe(oneLineLong(q.Text)))
	}
}
