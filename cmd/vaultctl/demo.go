package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"evidencevault/audit"
	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/intake"
	"evidencevault/internal/demo"
	"evidencevault/journal"
)

func (a *app) demoCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "demo DIR",
		Short: "make a demo vault in a new folder, filled from its drop folder",
		Long: `demo makes a vault of an invented ropeway inspector in DIR, drops her papers into
DIR/drop, takes them in and reads them as the daemon does, confirms the clear ones,
prints the standing and writes the index. Everyone and everything in it is invented.`,
		Example: "  vaultctl demo demo-vault",
		Args:    a.args(cobra.ExactArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error {
			return a.demo(cmd.Context(), args[0])
		},
	}
}

func (a *app) demo(ctx context.Context, dir string) (err error) {
	a.vault = dir
	start, _ := demo.Cycle()
	j, err := journal.Setup(ctx, dir, journal.SetupOptions{Holder: demo.Holder, Number: demo.Number, SchemeID: demo.Scheme, Start: start,
		Drop: filepath.Join(dir, "drop"), Now: a.now})
	if err != nil {
		return err
	}
	defer closeInto(&err, j)
	drop := filepath.Join(dir, "drop")
	if err := os.MkdirAll(drop, 0o700); err != nil {
		return err
	}
	if err := demo.Write(drop); err != nil {
		return err
	}
	a.printf("A demo vault of %s, %s. Everyone in it is invented.\n", demo.Holder, demo.Number)
	a.printf("%s were dropped into %s.\n\n", count(len(demo.Papers()), "file", "files"), safe(drop))

	in := intake.New(j.Catalog(), intake.Options{Notice: a.sayNotice, Habits: j.Taught})
	report, err := in.Once(ctx)
	if err = errors.Join(err, in.Close()); err != nil {
		return err
	}
	t := tallyOf(report)
	a.printf("%s taken in, %d known before; %s read, %d not.\n\n", count(t.Taken, "file", "files"), t.Known, count(t.Read, "paper", "papers"), t.Unread)
	return a.demoRest(ctx, j, dir)
}

// demoRest confirms what is clear and shows where that leads.
func (a *app) demoRest(ctx context.Context, j *journal.Journal, dir string) error {
	plan, err := j.ConfirmClear(ctx, "")
	if err != nil {
		return err
	}
	a.printPlan(plan)
	result, err := j.DoClear(ctx, plan, "")
	if err != nil {
		return err
	}
	a.printf("Confirmed: %s, %s; %d set aside.\n\n", count(len(result.Claims), "claim", "claims"), count(len(result.Receipts), "receipt", "receipts"), len(result.SetAside))
	list, err := j.Waiting(ctx)
	if err != nil {
		return err
	}
	a.printWaiting(list)
	today := credit.DateOf(a.now())
	standing, err := j.Standing(ctx, today, "")
	if err != nil {
		return err
	}
	a.printf("\nStanding\n\n")
	for _, s := range standing {
		a.printStatement(s)
	}
	d, err := audit.Gather(ctx, j, "", today)
	if err != nil {
		return err
	}
	out := filepath.Join(dir, "index")
	if err := audit.WriteIndex(ctx, j.Catalog().Store(), d, out); err != nil {
		return err
	}
	if err := a.demoPlan(ctx, j, dir); err != nil {
		return err
	}
	a.printf("\nThe index is written. Open %s\n", safe(filepath.Join(out, "index.html")))
	next := "next"
	for _, p := range list {
		if p.State == catalog.Waiting && !p.Clear() {
			next = p.ID
			break
		}
	}
	self := a.self()
	a.printf("\nWhat to type next:\n")
	a.printf("  export EVIDENCE_VAULT_DIR=%s\n", quoted(absolute(dir)))
	a.printf("  %s waiting           the papers that still ask something\n", self)
	a.printf("  %s show %-12s one of them, with what was read\n", self, next)
	a.printf("  %s explain C1        how a figure came about\n", self)
	a.printf("  %s plan              what closes the gap, for how much money and time\n", self)
	a.printf("  %s verify            that nothing was changed since\n", self)
	return nil
}

// demoPlan writes the list of what could still be done, and says where it leads.
func (a *app) demoPlan(ctx context.Context, j *journal.Journal, dir string) error {
	if err := os.WriteFile(filepath.Join(dir, journal.PossibleFile), demo.Possible(), 0o600); err != nil {
		return fmt.Errorf("writing the demo's possible activities: %w", err)
	}
	r, err := j.Plan(ctx, journal.PlanOptions{})
	if err != nil || r.State != journal.PlanGap || len(r.Ways) == 0 {
		return err
	}
	first, last := r.Ways[0], r.Ways[len(r.Ways)-1]
	a.printf("\nPlan\n\nFrom what could still be done, the cheapest way to what is missing: %s and %s h.\n", costText(first), about(first.Hours))
	if len(r.Ways) > 1 {
		a.printf("The shortest: %s and %s h. %d ways in all.\n", costText(last), about(last.Hours), len(r.Ways))
	}
	return nil
}

// self is how a person calls this program from here.
func (a *app) self() string {
	if exe, err := os.Executable(); err == nil {
		if wd, err := os.Getwd(); err == nil {
			if rel, err := filepath.Rel(wd, exe); err == nil && len(rel) < len(exe) {
				return rel
			}
		}
	}
	return "vaultctl"
}

func absolute(dir string) string {
	if abs, err := filepath.Abs(dir); err == nil {
		return abs
	}
	return fmt.Sprint(dir)
}
