package main

import (
	"time"

	"github.com/spf13/cobra"

	"evidencevault/audit"
	"evidencevault/catalog"
)

func (a *app) stampCommand() *cobra.Command {
	var by audit.Authority
	var roots, out string
	c := &cobra.Command{
		Use:   "stamp",
		Short: "have a time-stamp authority confirm when the log's head existed",
		Long: `stamp sends the hash of the signed head to a time-stamp authority that you name (RFC 3161)
and keeps its token in the log: proof, by somebody who has neither vault nor key, that
everything up to that event existed by then. Only the hash leaves the computer.

With --certificate the authority's certificate must lead to the one in that file. With
--output the stamps are written as files, so that

  openssl ts -verify -token_in -in head-57.tst -data head-57.txt -CAfile root.pem

checks them without this program.`,
		Example: "  vaultctl stamp --authority https://tsa.example/ --certificate root.pem\n  vaultctl stamp --output stamps",
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) (err error) {
			switch {
			case (by.Address == "") == (out == ""):
				return usagef("name an authority with --authority, or a folder with --output")
			case out != "":
				return a.withCatalog(cmd.Context(), func(c *catalog.Catalog) error { return a.writeStamps(cmd, c, out) })
			case roots != "":
				if by.Roots, err = audit.ReadRoots(roots); err != nil {
					return err
				}
			}
			return a.withCatalog(cmd.Context(), func(c *catalog.Catalog) error {
				got, err := audit.Stamp(cmd.Context(), c, by)
				if err != nil {
					return err
				}
				if a.json {
					return a.printJSON(map[string]any{"time": got.Time, "signer": got.Signer})
				}
				a.printf("The log existed at %s, says %s.\n", got.Time.Format(time.RFC3339), safe(got.Signer))
				return nil
			})
		},
	}
	c.Flags().StringVar(&by.Address, "authority", "", "the address of the time-stamp authority, http or https")
	c.Flags().StringVar(&roots, "certificate", "", "the file with the certificate, in PEM, that the authority's must lead to")
	c.Flags().DurationVar(&by.Wait, "wait", 30*time.Second, "the longest that the answer may take")
	c.Flags().StringVarP(&out, "output", "o", "", "write the stamps in the log as files into this folder")
	return c
}

func (a *app) writeStamps(cmd *cobra.Command, c *catalog.Catalog, out string) error {
	all, err := audit.WriteStamps(cmd.Context(), c, out)
	if err != nil {
		return err
	}
	if a.json {
		return a.printJSON(all)
	}
	a.printf("%s: %s\n", safe(out), count(len(all), "stamp", "stamps"))
	return nil
}
