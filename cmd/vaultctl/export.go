package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"evidencevault/catalog"
	"evidencevault/transfer"
)

func (a *app) exportCommand() *cobra.Command {
	var incomplete bool
	c := &cobra.Command{
		Use:   "export DIR",
		Short: "write the whole vault as open files, for any other program",
		Long: `export writes log.jsonl (every event), vault.json (what they amount to, table by table),
originals/, schemes/, what else lies in the vault's folder, and SHA256SUMS. DIR must be
absent or empty. The forms are described in docs/backup.md and docs/export.schema.json.

It holds no private key, and is not encrypted. It holds personal data. import makes a
vault from it.`,
		Example: "  vaultctl export ~/vault-as-files",
		Args:    a.args(cobra.ExactArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error {
			return a.withCatalog(cmd.Context(), func(c *catalog.Catalog) error {
				res, err := transfer.Export(cmd.Context(), c, args[0], transfer.Options{Incomplete: incomplete, Progress: a.progressBytes("exporting")})
				if err != nil {
					return err
				}
				a.see = len(res.Missing) > 0
				return a.printMoved(args[0], res)
			})
		},
	}
	c.Flags().BoolVar(&incomplete, "incomplete", false, "go on without evidence that is missing or altered, and list it")
	return c
}

func (a *app) importCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "import DIR",
		Short: "make a vault from what export wrote",
		Long: `import makes a vault from an export: every file is compared with SHA256SUMS, the log with
the head that signed it, and the rows are made from the log. The vault's folder must be
absent or empty: two histories are never mixed. The vault gets a new key, in an event
that names the old one.

Into a vault that has something already, add takes the documents of an export: what it
has is not taken in again. What was decided about them is confirmed anew.`,
		Example: "  vaultctl import --vault ~/vault ~/vault-as-files",
		Args:    a.args(cobra.ExactArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error {
			dir, err := a.dir()
			if err != nil {
				return err
			}
			res, err := transfer.Import(cmd.Context(), args[0], dir, catalog.Options{Now: a.now}, a.progressBytes("importing"))
			if err != nil {
				return vaultThere(err, dir, "take the documents alone into this one with vaultctl add "+quoted(filepath.Join(args[0], "originals"))+", and confirm them here")
			}
			return a.printBroughtIn(dir, res)
		},
	}
}

// vaultThere says of a place that is taken by a vault why nothing is mixed into it, and
// what else to do. Any other error is returned as it is.
func vaultThere(err error, dir, instead string) error {
	if !errors.Is(err, transfer.ErrThere) {
		return err
	}
	if _, there := os.Lstat(filepath.Join(dir, catalog.DatabaseFile)); there != nil {
		return err
	}
	return fmt.Errorf("%s: there is a vault already, and two histories are never mixed; name an empty folder with --vault, or %s", dir, instead)
}
