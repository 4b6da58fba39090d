package main

import (
	"context"
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"evidencevault/audit"
	"evidencevault/credit"
	"evidencevault/internal/heap"
	"evidencevault/journal"
)

func (a *app) indexCommand() *cobra.Command {
	var out, on, cycle, language string
	var without []string
	c := &cobra.Command{
		Use:   "index -o DIR",
		Short: "write the index: every credit with its rule and its proof",
		Long: `index writes index.html, index.pdf, index.csv, index.xlsx, index.json, SHA256SUMS and originals/, copies of
the proofs. Links are relative and lead to file and page, so the folder can be handed
over as it is. An index that lies in DIR already is replaced; anything else there is
left alone, and refused. The folder holds personal data: --without provider,number leaves
out what is said of fields that nobody asked for. The originals stay as they came.`,
		Example: "  vaultctl index -o ~/index",
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if out == "" {
				return usagef("-o: name the folder to write")
			}
			day, err := a.parseOn(on)
			if err != nil {
				return err
			}
			return a.reading(cmd.Context(), func(j *journal.Journal) error {
				archive, err := a.closedCycle(cmd.Context(), j, cycle, on)
				if err != nil {
					return err
				}
				if archive != nil && language == "en" && len(without) == 0 {
					return a.archivedIndex(cmd, j, archive, out)
				}
				return a.writeIndex(cmd, j, out, func() (audit.Dossier, error) {
					d, err := a.dossierIn(cmd.Context(), j, archive, day, language)
					if err != nil {
						return d, err
					}
					return withoutFields(d, without)
				})
			})
		},
	}
	cycleFlag(c, &cycle)
	languageFlag(c, &language)
	withoutFlag(c, &without)
	c.Flags().StringVarP(&out, "output", "o", "", "the folder to write")
	c.Flags().StringVar(&on, "on", "", "the day for which the figures hold, YYYY-MM-DD (else today)")
	return c
}

// dossierIn gathers the present cycle, or that of an archive, in a language.
func (a *app) dossierIn(ctx context.Context, j *journal.Journal, archive *audit.Archive, day credit.Date, language string) (d audit.Dossier, err error) {
	if archive != nil {
		d, err = archive.Dossier()
	} else {
		d, err = audit.Gather(ctx, j, a.certification, day)
	}
	if err != nil {
		return d, err
	}
	if d, err = d.In(language); err != nil {
		return d, usagef("--language %v", err)
	}
	return d, nil
}

func (a *app) writeIndex(cmd *cobra.Command, j *journal.Journal, out string, gather func() (audit.Dossier, error)) error {
	if err := a.notDropped(cmd, j, out); err != nil {
		return err
	}
	defer heap.Grow()()
	d, err := gather()
	if err != nil {
		return err
	}
	if err := audit.WriteIndex(cmd.Context(), j.Catalog().Store(), d, out); err != nil {
		return err
	}
	if a.json {
		return a.printJSON(map[string]any{"folder": out, "claims": len(d.Claims), "originals": len(d.Originals), "exceptions": d.Exceptions})
	}
	a.printf("%s, %s: %s\n", count(len(d.Claims), "claim", "claims"), count(len(d.Originals), "original file", "original files"), safe(filepath.Join(out, "index.html")))
	if n := len(d.Exceptions); n > 0 {
		a.printf("%s that an auditor would ask about; the index lists them\n", count(n, "point", "points"))
	}
	return nil
}

// notDropped refuses a folder for the index within a drop folder: its files would be
// taken in as proofs of themselves.
func (a *app) notDropped(cmd *cobra.Command, j *journal.Journal, out string) error {
	about, err := j.About(cmd.Context())
	if err != nil {
		return err
	}
	out = resolved(out)
	for _, drop := range about.Drops {
		if rel, err := filepath.Rel(resolved(drop.Dir), out); err == nil && filepath.IsLocal(rel) {
			return fmt.Errorf("%s: it lies in the drop folder %s, from where its files would be taken in; name another folder", out, drop.Dir)
		}
	}
	return nil
}

// resolved is a path without links, as far as it exists.
func resolved(path string) string {
	path = absolute(path)
	if real, err := filepath.EvalSymlinks(path); err == nil {
		return real
	}
	if parent := filepath.Dir(path); parent != path {
		return filepath.Join(resolved(parent), filepath.Base(path))
	}
	return path
}

// count prints n with the word that goes with it.
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
