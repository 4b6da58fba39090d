package main

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"evidencevault/audit"
	"evidencevault/catalog"
	"evidencevault/credit"
	"evidencevault/journal"
)

// cycleFlag adds the flag by which a closed cycle is shown as at its closing.
func cycleFlag(c *cobra.Command, into *string) {
	c.Flags().StringVar(into, "cycle", "", "a closed cycle as at its closing: its number, as cycles lists it, or a day in it")
}

// closedCycle opens the archive of the cycle that --cycle names; nil when none is named
// or it is not closed, which is shown as ever. A day given besides is refused.
func (a *app) closedCycle(ctx context.Context, j *journal.Journal, cycle, on string) (*audit.Archive, error) {
	if cycle == "" {
		return nil, nil
	}
	c, err := j.Cycle(ctx, a.certification, cycle)
	if err != nil || c.State != journal.CycleClosed {
		return nil, err
	}
	if on != "" {
		return nil, usagef("--on: a closed cycle is shown as at its closing; leave it out")
	}
	return audit.OpenArchive(ctx, j, a.certification, cycle)
}

// printBytes prints what was printed at the closing.
func (a *app) printBytes(text []byte) error {
	_, err := a.out.Write(text)
	return err
}

// sayArchived says, above what is shown of a closed cycle, that it is.
func (a *app) sayArchived(c journal.Cycle) {
	at := ""
	if c.ClosedAt != nil {
		at = " on " + credit.DateOf(c.ClosedAt.Local()).Words()
	}
	a.say(fmt.Sprintf("Cycle %d of %s as it was closed%s; nothing here is worked out anew.", c.Number, c.Certification, at))
	for _, n := range c.Notes {
		a.say("Note of " + credit.DateOf(n.At.Local()).Words() + ": " + n.Text)
	}
	a.printf("\n")
}

func (a *app) archivedStanding(archive *audit.Archive) error {
	st, text, err := archive.Standing()
	if err != nil {
		return err
	}
	if a.json {
		return a.printBytes(text)
	}
	a.sayArchived(archive.Cycle)
	a.printStatement(st.Statement)
	return nil
}

func (a *app) archivedClaims(archive *audit.Archive) error {
	list, text, err := archive.Claims()
	if err != nil {
		return err
	}
	if a.json {
		return a.printBytes(text)
	}
	a.sayArchived(archive.Cycle)
	a.printClaims(list)
	return nil
}

func (a *app) archivedExplanations(archive *audit.Archive, f journal.ExplainFilter) error {
	list, err := archive.Explain(f)
	if err != nil {
		return err
	}
	if a.json {
		return a.printJSON(list)
	}
	a.sayArchived(archive.Cycle)
	for i, e := range list {
		if i > 0 {
			a.printf("\n")
		}
		a.printExplanation(e)
	}
	return nil
}

func (a *app) archivedIndex(cmd *cobra.Command, j *journal.Journal, archive *audit.Archive, out string) error {
	if err := a.notDropped(cmd, j, out); err != nil {
		return err
	}
	if err := archive.CopyIndex(cmd.Context(), out); err != nil {
		return err
	}
	return a.sayCopied(archive, "index", out)
}

func (a *app) archivedPacket(cmd *cobra.Command, j *journal.Journal, archive *audit.Archive, f packetFlags) error {
	if err := archive.CopyPacket(cmd.Context(), f.out); err != nil {
		return err
	}
	return a.sayCopied(archive, "packet", f.out)
}

func (a *app) sayCopied(archive *audit.Archive, what, out string) error {
	c := archive.Cycle
	if a.json {
		return a.printJSON(map[string]any{what: out, "cycle": c.Number, "claims": c.Claims, "archive_sha256": c.ArchiveSHA256})
	}
	a.printf("%s: the %s of cycle %d, %s, as it was closed\n", safe(out), what, c.Number, count(c.Claims, "claim", "claims"))
	return nil
}

// endLines says what the end of a cycle asks for, in the days around it, and of a
// closing that was interrupted.
func (a *app) endLines(ctx context.Context, j *journal.Journal, list []credit.Statement) ([]string, error) {
	var lines []string
	for _, s := range list {
		left, ok := s.DaysLeft()
		switch {
		case !ok:
		case left < 0:
			text := fmt.Sprintf("the cycle of %s ended on %s: close it with vaultctl close", s.Certification, s.Cycle.End.Words())
			for _, d := range s.InOrder() {
				if !d.Date.Before(s.On) && d.What != credit.KeepDeadline {
					text += fmt.Sprintf("; %s: %s, %s", d.What, d.Date.Words(), s.InDays(d.Date))
				}
			}
			lines = append(lines, text)
		case left <= nearEnd:
			lines = append(lines, fmt.Sprintf("the cycle of %s ends %s; confirm what still waits, then close it with vaultctl close", s.Certification, s.InDays(s.Cycle.End)))
		}
	}
	closings, err := j.Catalog().Closings(ctx, "")
	for _, c := range closings {
		if c.State == catalog.ClosingOpen {
			lines = append(lines, "the closing "+c.Archive+" was begun and not finished: vaultctl close --resume, or close --undo")
		}
	}
	return lines, err
}

// nearEnd is from how many days before the end of a cycle on its closing is spoken of.
const nearEnd = 30
