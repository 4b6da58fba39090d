package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"github.com/spf13/cobra"

	"evidencevault/journal"
)

func (a *app) calendarCommand() *cobra.Command {
	var on, out string
	c := &cobra.Command{
		Use:   "calendar -o FILE.ics",
		Short: "write the deadlines, with open audit letters, for a calendar",
		Long: `calendar writes one event of a whole day for each deadline from the day on, each day
on which credit stops counting, and each audit letter that is open, with a reminder two
weeks before (iCalendar, RFC 5545). Made again, the same deadline keeps its name, so that
a calendar replaces it. A file that is there already stays, unless --force is given.`,
		Example: "  vaultctl calendar -o deadlines.ics\n  vaultctl calendar -o -",
		Args:    a.args(cobra.NoArgs),
	}
	force := c.Flags().Bool("force", false, "replace a file that is there already")
	c.Flags().StringVarP(&out, "output", "o", "", `the file to write; "-" is standard output`)
	c.Flags().StringVar(&on, "on", "", "the day from which on, YYYY-MM-DD (else today)")
	c.RunE = func(cmd *cobra.Command, _ []string) error {
		if out == "" {
			return usagef(`-o: name the file to write, or "-" for standard output`)
		}
		day, err := a.parseOn(on)
		if err != nil {
			return err
		}
		return a.reading(cmd.Context(), func(j *journal.Journal) error {
			list, err := j.Standing(cmd.Context(), day, a.certification)
			if err != nil {
				return err
			}
			data := journal.Calendar(list, a.now())
			if out == "-" {
				a.printf("%s", data)
				return nil
			}
			if err := writeNew(out, data, *force); err != nil {
				return err
			}
			if a.json {
				return a.printJSON(map[string]string{"file": out})
			}
			a.printf("%s: import it into a calendar\n", safe(out))
			return nil
		})
	}
	return c
}

// writeNew writes a file that holds personal data, and replaces one only when force is
// set.
func writeNew(name string, data []byte, force bool) error {
	flags := os.O_WRONLY | os.O_CREATE | os.O_EXCL
	if force {
		flags = os.O_WRONLY | os.O_CREATE | os.O_TRUNC
	}
	f, err := os.OpenFile(name, flags, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s: there is a file already; name another one", name)
	}
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	err = errors.Join(err, f.Sync(), f.Close())
	if err != nil && !force {
		err = errors.Join(err, os.Remove(name))
	}
	return err
}
