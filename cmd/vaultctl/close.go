package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"evidencevault/audit"
	"evidencevault/credit"
	"evidencevault/journal"
)

// closeFlags are those of the verb close.
type closeFlags struct {
	journal.CloseOptions
	yes, resume, undo, withFindings, dateIsRight bool
	why, note, cycle, scheme, nextStart, nextEnd string
}

func (a *app) closeCommand() *cobra.Command {
	var f closeFlags
	c := &cobra.Command{
		Use:   "close",
		Short: "close a cycle that has ended: hand in, archive, carry over, open the next",
		Long: `close rehearses the audit, shows what is handed in and what passes into the next cycle,
and asks. Then it seals the cycle: nothing in it changes any more, its archive lies in the
vault under cycles/, and the next cycle is open with what was carried over. Claims that
are dated after the cycle go to the next one.

A closing that was interrupted is finished with --resume or taken back with --undo.
--undo also takes back the last closing, until something is claimed in the next cycle or
a note is written. After that a closed cycle is corrected by a note:
close --note "…" --cycle 1.`,
		Example: "  vaultctl close\n  vaultctl close --yes --with-findings\n  vaultctl close --resume\n  vaultctl close --undo --why \"a certificate was missing\"\n  vaultctl close --note \"C4 was five hours\" --cycle 1",
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			f.Certification = a.certification
			if err := f.check(); err != nil {
				return err
			}
			return a.withJournal(cmd.Context(), func(j *journal.Journal) error { return a.close(cmd.Context(), j, f) })
		},
	}
	s := c.Flags()
	s.BoolVar(&f.yes, "yes", false, "do not ask first")
	s.BoolVar(&f.withFindings, "with-findings", false, "close although an auditor would strike claims; what is unproven is left out of the packet")
	s.BoolVar(&f.Early, "early", false, "close before the cycle has ended")
	s.BoolVar(&f.Last, "last", false, "open no next cycle")
	s.StringVar(&f.nextStart, "next-start", "", "first day of the next cycle, YYYY-MM-DD (else the day after this one)")
	s.StringVar(&f.nextEnd, "next-end", "", "its last day (else as the scheme says)")
	s.StringVar(&f.scheme, "next-scheme", "", "rules of the next cycle: a file, or the id of a scheme that ships (else those of this one)")
	s.BoolVar(&f.resume, "resume", false, "finish a closing that was interrupted")
	s.BoolVar(&f.undo, "undo", false, "take the last closing back")
	s.StringVar(&f.why, "why", "", "with --undo: the reason")
	s.StringVar(&f.note, "note", "", "add a note to the closed cycle that --cycle names")
	s.StringVar(&f.cycle, "cycle", "", "with --note: the number of the cycle, or a day in it")
	s.BoolVar(&f.dateIsRight, "date-is-right", false, "the computer's date is right although long past the last entry, or before it")
	return c
}

func (f *closeFlags) check() (err error) {
	if f.resume && f.undo || (f.note != "") != (f.cycle != "") || f.note != "" && (f.resume || f.undo) {
		return usagef("give one of --resume, --undo, and --note TEXT --cycle N")
	}
	if f.nextStart != "" {
		if f.NextStart, err = credit.ParseDate(f.nextStart); err != nil {
			return usagef("--next-start: %w", err)
		}
	}
	if f.nextEnd != "" {
		if f.NextEnd, err = credit.ParseDate(f.nextEnd); err != nil {
			return usagef("--next-end: %w", err)
		}
	}
	if f.scheme == "" {
		return nil
	}
	data, err := os.ReadFile(f.scheme)
	if errors.Is(err, os.ErrNotExist) && !strings.ContainsAny(f.scheme, `/\.`) {
		f.SchemeID = f.scheme
		return nil
	}
	f.Scheme = journal.SchemeFile{Name: f.scheme, Data: data}
	return err
}

func (a *app) close(ctx context.Context, j *journal.Journal, f closeFlags) error {
	switch {
	case f.note != "":
		c, err := j.NoteCycle(ctx, a.certification, f.cycle, f.note)
		if err != nil {
			return err
		}
		return a.sayCycle(c, "noted")
	case f.undo:
		return a.undoClose(ctx, j, f)
	case f.resume:
		done, err := audit.ResumeClose(ctx, j, a.certification, a.progress("archiving", "original files"))
		return a.sayClosed(done, err)
	}
	if err := audit.SweepArchives(ctx, j); err != nil {
		return err
	}
	p, err := audit.PreviewClose(ctx, j, f.CloseOptions)
	if err != nil {
		return err
	}
	if p.Plan.Begun > 0 {
		_, err := audit.Close(ctx, j, p, true, nil)
		return err
	}
	if !a.json {
		a.printPreview(p)
	}
	ok, err := a.mayClose(ctx, p, &f)
	if err != nil || !ok {
		return err
	}
	done, err := audit.Close(ctx, j, p, f.withFindings, a.progress("archiving", "original files"))
	return a.sayClosed(done, err)
}

// doubtDate says why the computer's date may be wrong, or "".
func doubtDate(quiet time.Duration) string {
	switch journal.DoubtDate(quiet) {
	case journal.DateBefore:
		return "the computer's date lies before the last entry of the log"
	case journal.DateLong:
		return fmt.Sprintf("the last entry of the log is %d days old; is the computer's date right?", int(quiet.Hours()/24))
	}
	return ""
}

// mayClose asks, or says which flag is missing.
func (a *app) mayClose(ctx context.Context, p audit.ClosePreview, f *closeFlags) (bool, error) {
	doubt := doubtDate(p.Plan.Quiet)
	if f.yes {
		if doubt != "" && !f.dateIsRight {
			return false, fmt.Errorf("nothing was closed: %s; say so with --date-is-right", doubt)
		}
		return true, nil
	}
	if !a.interactive() || a.json {
		return false, fmt.Errorf("nothing was closed; look at what is handed in, then say it again with --yes")
	}
	if doubt != "" {
		a.warn("%s", doubt)
	}
	text := "Close this cycle for good"
	if n := len(p.Rehearsal.Weak); n > 0 {
		text = "Close this cycle for good, with " + count(n, "claim", "claims") + " that an auditor would strike"
	}
	ok, err := a.prompter().yes(ctx, text)
	if err == nil && !ok {
		a.printf("Nothing was closed.\n")
	}
	f.withFindings = f.withFindings || ok
	return ok, err
}

// printPreview shows what closing would do.
func (a *app) printPreview(p audit.ClosePreview) {
	plan, st := p.Plan, p.Statement()
	a.say(fmt.Sprintf("%s, cycle %d from %s to %s, under %s", plan.Certification.Name, plan.Number, st.Cycle.Start.Words(), st.Cycle.End.Words(), schemeWords(plan.Certification.Scheme)))
	a.printf("\nHanded in\n")
	a.say("  " + countedOf(st))
	for _, m := range st.Minimums {
		state := "met"
		if !m.Met {
			state = m.Want.Sub(m.Have).String() + " missing"
		}
		a.say(fmt.Sprintf("  minimum %s: %v of %v, %s", m.ID, m.Have, m.Want, state))
	}
	if st.AsksAnything() && !st.Meets {
		a.say("  What is asked is not met. The body decides what then.")
	}
	a.printf("\nCarried over\n")
	a.printPassing(p)
	a.printf("\nThen\n")
	if plan.Next == nil {
		a.say("  no cycle follows")
	} else {
		a.say(fmt.Sprintf("  the next cycle runs from %s to %s, under %s", plan.Next.Start.Words(), plan.Next.End.Words(), schemeWords(plan.Next.Rules)))
	}
	if len(plan.Moves) > 0 {
		a.say("  dated after this cycle, so they go to the next: " + strings.Join(plan.Moves, " "))
	}
	a.printOpen(p)
	a.printf("\n")
}

func schemeWords(s credit.Scheme) string {
	if s.Version == "" {
		return "scheme " + s.ID
	}
	return "scheme " + s.ID + ", version " + s.Version
}

// countedOf is how much of how much is counted.
func countedOf(st credit.Statement) string {
	text := credit.Quantity(st.Counted, st.Unit) + " counted"
	if st.HasTarget {
		text = fmt.Sprintf("%v of %s counted", st.Counted, credit.Quantity(st.Target, st.Unit))
	}
	return text + fmt.Sprintf(", %s", count(len(st.Claims), "claim", "claims"))
}

func (a *app) printPassing(p audit.ClosePreview) {
	st := p.Statement()
	if p.Plan.Next == nil || st.CarryOut.Sign() == 0 {
		a.say("  nothing")
	} else {
		a.say("  " + credit.Quantity(st.CarryOut, st.Unit))
	}
	for _, d := range st.Derivations {
		if d.Step == credit.StepCarry && p.Plan.Next != nil {
			a.say("  " + d.Text)
		}
	}
	if p.Plan.Next == nil {
		return
	}
	for _, c := range p.Plan.Passing {
		text := "    " + c.Amount.String()
		if c.ID != "" {
			text += " of " + c.ID
		}
		if !c.Earned.IsZero() {
			text += ", earned " + c.Earned.String()
		}
		if len(c.Tags) > 0 {
			text += ", tagged " + strings.Join(c.Tags, ", ")
		}
		a.say(text)
	}
}

// printOpen says what is left undone in the cycle.
func (a *app) printOpen(p audit.ClosePreview) {
	var lines []string
	if n := len(p.Plan.Waiting) + len(p.Plan.Unread); n > 0 {
		lines = append(lines, fmt.Sprintf("%s not decided: %s; what they prove in this cycle cannot be claimed in it any more", count(n, "paper is", "papers are"),
			strings.Join(append(p.Plan.Waiting, p.Plan.Unread...), " ")))
	}
	if len(p.Rehearsal.Weak) > 0 {
		lines = append(lines, fmt.Sprintf("an auditor would strike %s; without them %v counted", strings.Join(p.Rehearsal.Weak, " "), p.Rehearsal.IfWeakFall.Counted))
	}
	if n := len(p.Rehearsal.Findings); n > 0 {
		lines = append(lines, count(n, "finding", "findings")+" of the rehearsal: vaultctl rehearse")
	}
	if len(lines) > 0 {
		a.printf("\nStill open\n")
	}
	for _, line := range lines {
		a.say("  " + line)
	}
}

func (a *app) sayClosed(done audit.Closed, err error) error {
	if err != nil {
		return err
	}
	if a.json {
		return a.printJSON(done)
	}
	c := done.Cycle
	a.say(fmt.Sprintf("Closed: cycle %d of %s, %s to %s, %s counted.", c.Number, c.Certification, c.Start, c.End, credit.Quantity(c.Counted, c.Unit)))
	a.say("Its archive: " + c.Archive + " in the vault; vaultctl packet --cycle " + fmt.Sprint(c.Number) + " hands it over.")
	if len(done.LeftOut) > 0 {
		a.say("Left out of the packet, since nothing proves them: " + strings.Join(done.LeftOut, " "))
	}
	if c.KeepUntil != nil {
		a.say("Keep its proofs until " + c.KeepUntil.Words() + ".")
	}
	if done.Next != nil {
		a.say(fmt.Sprintf("Open: cycle %d, %s to %s, with %s carried in.", done.Next.Number, done.Next.Start, done.Next.End, credit.Quantity(c.CarryOut, c.Unit)))
	}
	return nil
}

func (a *app) undoClose(ctx context.Context, j *journal.Journal, f closeFlags) error {
	c, err := audit.UndoClose(ctx, j, a.certification, f.why)
	if err != nil {
		return err
	}
	list, err := j.Cycles(ctx, a.certification)
	if err != nil {
		return err
	}
	for _, one := range list {
		if one.ID == c.Cycle {
			return a.sayCycle(one, "open again")
		}
	}
	return nil
}

func (a *app) sayCycle(c journal.Cycle, what string) error {
	if a.json {
		return a.printJSON(c)
	}
	a.printf("cycle %d of %s, %s to %s: %s\n", c.Number, c.Certification, c.Start, c.End, what)
	return nil
}

func (a *app) cyclesCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "cycles",
		Short: "list every cycle: what it came to, where its archive lies, how long to keep it",
		Long: `cycles lists the cycles of every certification, or of the one that --certification
names. Of a cycle that is not closed the figures are those of today. A closed one is shown
as at its closing with --cycle N on standing, claims, explain, index and packet.`,
		Example: "  vaultctl cycles\n  vaultctl cycles --json\n  vaultctl standing --cycle 1",
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.reading(cmd.Context(), func(j *journal.Journal) error {
				list, err := j.Cycles(cmd.Context(), a.certification)
				if err != nil {
					return err
				}
				if a.json {
					return a.printJSON(list)
				}
				a.printCycles(list)
				return nil
			})
		},
	}
}

func (a *app) printCycles(list []journal.Cycle) {
	rows := make([][]string, len(list))
	several := false
	for i, c := range list {
		several = several || c.Certification != list[0].Certification
		target, keep, carried := "", "", ""
		if c.Target != nil {
			target = c.Target.String()
		}
		if c.KeepUntil != nil {
			keep = c.KeepUntil.String()
		}
		if sum := carriedIn(c); sum.Sign() > 0 {
			carried = sum.String()
		}
		rows[i] = []string{c.Certification, fmt.Sprint(c.Number), c.Start.String(), c.End.String(), c.State, c.Counted.String(), target, carried, c.CarryOut.String(), keep}
	}
	columns := []column{{head: "certification"}, {head: "cycle", number: true}, {head: "from"}, {head: "to"}, {head: "state"}, {head: "counted", number: true},
		{head: "of", number: true}, {head: "carried in", number: true}, {head: "on", number: true}, {head: "keep until"}}
	if !several {
		columns = columns[1:]
		for i := range rows {
			rows[i] = rows[i][1:]
		}
	}
	a.table(columns, rows)
	for _, c := range list {
		name := fmt.Sprintf("cycle %d", c.Number)
		if several {
			name += " of " + c.Certification
		}
		switch {
		case c.State == journal.CycleClosing:
			a.say(name + ": its closing was begun and not finished; vaultctl close --resume, or close --undo")
		case c.State == journal.CycleEnded:
			a.say(name + ": it has ended; close it with vaultctl close")
		case c.ArchiveGone:
			a.say(name + ": its archive was deleted after the time of keeping")
		case c.Archive != "":
			a.say(name + ": " + c.Archive)
		}
		for _, n := range c.Notes {
			a.say("  note of " + n.At.Format(time.DateOnly) + ": " + n.Text)
		}
	}
}

func carriedIn(c journal.Cycle) credit.Amount {
	var sum credit.Amount
	for _, in := range c.CarriedIn {
		sum = sum.Add(in.Amount)
	}
	return sum
}
