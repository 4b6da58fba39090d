package main

import (
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"evidencevault/catalog"
	"evidencevault/intake"
	"evidencevault/journal"
	"evidencevault/watcher"
)

// withIntake opens the vault and what takes files into it. Progress goes to standard
// error, a line for each file and paper, and holds no text of a document.
func (a *app) withIntake(ctx context.Context, o intake.Options, work func(*intake.Intake) error) (err error) {
	return a.withJournal(ctx, func(j *journal.Journal) error {
		o.Habits = j.Taught
		in := intake.New(j.Catalog(), o)
		return errors.Join(work(in), in.Close())
	})
}

func (a *app) addCommand() *cobra.Command {
	var dry, all bool
	c := &cobra.Command{
		Use:   "add PATH…",
		Short: "take in files or whole folders, as the drop folder would",
		Long: `add takes in files, or what lies in folders, and reads them. The files stay where they
are; the vault keeps copies. What the vault has already is not taken in again.
With --dry-run it only says what it would do. By-products of editors and downloads
are passed over and listed; --all takes them in too.

It ends with 3 when files were left untaken or papers could not be read.`,
		Example: "  vaultctl add ~/certificates --dry-run\n  vaultctl add ~/certificates\n  vaultctl confirm --clear",
		Args:    a.args(cobra.MinimumNArgs(1)),
		RunE: func(cmd *cobra.Command, paths []string) error {
			o := intake.Options{All: all, Notice: a.sayNotice, Took: a.sayTaken, Read: a.sayRead}
			if a.json {
				o.Took, o.Read = nil, nil
			}
			return a.withIntake(cmd.Context(), o, func(in *intake.Intake) error {
				if dry {
					return a.planAdd(cmd.Context(), in, paths)
				}
				report, err := in.Add(cmd.Context(), paths...)
				if err != nil {
					return err
				}
				return a.sayReport(report)
			})
		},
	}
	c.Flags().BoolVar(&dry, "dry-run", false, "only say what would be done")
	c.Flags().BoolVar(&all, "all", false, "also by-products of editors and downloads")
	return c
}

func (a *app) sayNotice(n watcher.Notice) {
	text := n.Text
	if text != "" {
		text = ": " + text
	}
	fmt.Fprintf(a.err, "%s: %s%s\n", n.What, catalog.FileName(n.Path), safe(text))
}

func (a *app) sayTaken(t intake.Taken) {
	what := "taken in"
	if b := t.Before(); b != "" {
		what = b
	}
	a.printf("%s: %s\n", catalog.FileName(t.File.Name), safe(what))
}

func (a *app) sayRead(r intake.Read) {
	switch {
	case r.Problem != nil:
		a.warn("%s: not read: %v", r.Paper.Ref(), r.Problem)
	case r.Unread():
		a.printf("%s  %s: not read: %s\n", r.Paper.Ref(), r.Name, safe(r.Reason))
	case r.Open > 0:
		a.printf("%s  %s: %s, %s\n", r.Paper.Ref(), r.Name, r.Kind, count(r.Open, "question", "questions"))
	default:
		a.printf("%s  %s: %s\n", r.Paper.Ref(), r.Name, r.Kind)
	}
}

// tally is what a run over files came to, in numbers.
type tally struct {
	Taken  int        `json:"taken"`
	Known  int        `json:"known"`
	Read   int        `json:"read"`
	Unread int        `json:"unread"`
	Left   []leftFile `json:"left"`
}

type leftFile struct {
	File string `json:"file"`
	Why  string `json:"why"`
}

func tallyOf(r intake.Report) tally {
	t := tally{Left: []leftFile{}}
	for _, taken := range r.Taken {
		if taken.Before() != "" {
			t.Known++
		} else {
			t.Taken++
		}
	}
	for _, read := range r.Read {
		if read.Unread() {
			t.Unread++
		} else {
			t.Read++
		}
	}
	for _, l := range r.Left {
		t.Left = append(t.Left, leftFile{catalog.FileName(l.File.Path()).String(), l.Err.Error()})
	}
	return t
}

func (a *app) sayReport(r intake.Report) error {
	a.see = r.ToSee()
	t := tallyOf(r)
	if a.json {
		return a.printJSON(t)
	}
	for _, l := range t.Left {
		a.warn("%s: not taken in: %s", l.File, l.Why)
	}
	a.printf("%s taken in, %d known before; %s read, %d not\n", count(t.Taken, "file", "files"), t.Known, count(t.Read, "paper", "papers"), t.Unread)
	return nil
}

// planned is one line of add --dry-run.
type planned struct {
	File   string   `json:"file"`
	SHA256 string   `json:"sha256"`
	Would  string   `json:"would"` // take, pass over, leave, nothing
	Why    string   `json:"why"`
	Papers []string `json:"papers"`
}

func (a *app) planAdd(ctx context.Context, in *intake.Intake, paths []string) error {
	found, err := in.Plan(ctx, paths...)
	if err != nil {
		return err
	}
	list := make([]planned, len(found))
	take := 0
	for i, f := range found {
		p := planned{File: catalog.FileName(f.File.Name).String(), SHA256: f.SHA256, Would: "take", Why: f.Text, Papers: []string{}}
		switch {
		case f.What == watcher.PassedOver || f.What == watcher.Unfinished:
			p.Would = "pass over"
		case f.What != watcher.Ordinary:
			p.Would = "leave"
		case f.Known:
			p.Would, p.Why = "nothing", "the vault has it"
			for _, known := range f.Papers {
				p.Papers = append(p.Papers, known.Ref())
				p.Why += fmt.Sprintf(", %s is %s", known.Ref(), known.State)
			}
		default:
			take++
		}
		list[i] = p
	}
	if a.json {
		return a.printJSON(list)
	}
	rows := make([][]string, len(list))
	for i, p := range list {
		rows[i] = []string{p.Would, p.File, p.Why}
	}
	a.table([]column{{head: "would"}, {head: "file", most: 60}, {head: "why", most: 60}}, rows)
	a.printf("\n%s would be taken in. Nothing was changed.\n", count(take, "file", "files"))
	return nil
}

func (a *app) rereadCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "reread PAPER…",
		Short:   "read papers anew, as after a program for pictures was installed",
		Example: "  vaultctl reread P4",
		Args:    a.args(cobra.MinimumNArgs(1)),
		RunE: func(cmd *cobra.Command, ids []string) error {
			return a.reread(cmd.Context(), ids, "")
		},
	}
}

func (a *app) unlockCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "unlock PAPER",
		Short: "give the password of an encrypted document, and read it",
		Long: `unlock asks for the password of an encrypted document, without showing it, reads the
document and forgets the password. The original stays encrypted. Without a terminal
the password is the first line of standard input.`,
		Example: "  vaultctl unlock P4",
		Args:    a.args(cobra.ExactArgs(1)),
		RunE: func(cmd *cobra.Command, ids []string) error {
			password, err := a.askPassword(cmd.Context())
			if err == nil && password == "" {
				err = errors.New("no password was given; nothing was changed")
			}
			if err != nil {
				return err
			}
			return a.reread(cmd.Context(), ids, password)
		},
	}
}

func (a *app) reread(ctx context.Context, refs []string, password string) error {
	return a.withJournal(ctx, func(j *journal.Journal) error {
		ids, err := j.PaperIDs(ctx, refs)
		if err != nil {
			return err
		}
		return a.readNow(ctx, j, password, ids...)
	})
}

// readNow reads papers, by UUID, and says what was found.
func (a *app) readNow(ctx context.Context, j *journal.Journal, password string, ids ...string) error {
	o := intake.Options{Notice: a.sayNotice, Read: a.sayRead, Habits: j.Taught}
	if a.json {
		o.Read = nil
	}
	in := intake.New(j.Catalog(), o)
	reads, err := in.Reread(ctx, password, ids...)
	if err = errors.Join(err, in.Close()); err != nil {
		return err
	}
	report := intake.Report{Read: reads}
	a.see = report.ToSee()
	if !a.json {
		return nil
	}
	return a.printJSON(tallyOf(report))
}
