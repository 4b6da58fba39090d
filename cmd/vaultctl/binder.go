package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/audit"
	"evidencevault/extract/page"
	"evidencevault/journal"
)

func (a *app) binderCommand() *cobra.Command {
	var f packetFlags
	c := &cobra.Command{
		Use:   "binder -o FILE",
		Short: "print the packet as one PDF: first page, index, each proof stamped and marked",
		Long: `binder writes one PDF for someone who reads or prints: the first page, the index, each
claim with its rule and arithmetic, then every page of each original with its exhibit
number, the places that prove something outlined. Links lead from the index to them, and
the originals are attached inside, unaltered. Which claims go in is said as for packet.

On a terminal it asks for the password of an encrypted original; without it the exhibit
says that it is locked. The binder holds personal data.`,
		Example: "  vaultctl binder -o binder.pdf\n  vaultctl binder -o binder.pdf --claims C1,C4-C6 --language de",
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if err := f.check("the file"); err != nil {
				return err
			}
			return a.reading(cmd.Context(), func(j *journal.Journal) error { return a.binder(cmd, j, f) })
		},
	}
	f.add(c, "the file to write")
	return c
}

// languageFlag declares the language of what is printed.
func languageFlag(c *cobra.Command, language *string) {
	c.Flags().StringVar(language, "language", "en", "the language of its words: "+strings.Join(audit.Languages(), ", "))
}

func (a *app) binder(cmd *cobra.Command, j *journal.Journal, f packetFlags) error {
	d, _, err := a.toHandOver(cmd, j, f)
	if err != nil {
		return err
	}
	pages := page.NewReader(page.Options{})
	o := audit.BinderOptions{Language: f.language, Pages: pages, Done: a.progress("binding", "original files")}
	if a.interactive() && !a.json {
		o.Password = func(ctx context.Context, o audit.Original) (string, error) {
			fmt.Fprintf(a.err, "\n%s is encrypted. Enter alone leaves it locked.\n", safe(o.Names[0]))
			return a.askPassword(ctx)
		}
	}
	made, err := audit.WriteBinder(cmd.Context(), j.Catalog().Store(), d, f.out, o)
	err = errors.Join(err, pages.Close())
	switch {
	case errors.Is(err, audit.ErrUnproven):
		return fmt.Errorf("nothing was written: %w (--leave-out-unproven)", err)
	case errors.Is(err, audit.ErrLanguage):
		return usagef("--language %v", err)
	case err != nil:
		return err
	}
	if a.json {
		return a.printJSON(struct {
			File  string      `json:"file"`
			Asked audit.Asked `json:"asked"`
			audit.Binder
		}{f.out, d.Asked, made})
	}
	a.printf("%s: %s, %s, %s\n", safe(f.out), d.Asked, count(made.Exhibits, "exhibit", "exhibits"), count(made.Pages, "page", "pages"))
	for _, name := range made.Locked {
		a.printf("locked, so its pages are not shown: %s\n", safe(name))
	}
	for _, name := range made.NotDrawn {
		a.printf("not drawn: %s\n", safe(name))
	}
	if n := len(d.Exceptions); n > 0 {
		a.printf("%s that an auditor would ask about; the first page lists them\n", count(n, "point", "points"))
	}
	return nil
}
