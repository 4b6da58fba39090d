package main

import (
	"github.com/spf13/cobra"

	"evidencevault/catalog"
)

func (a *app) keyCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "key",
		Short: "renew the key that signs the log",
		Args:  a.unknownVerb,
		RunE:  func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	c.AddCommand(&cobra.Command{
		Use:   "renew",
		Short: "make a new key, handed over by the old one",
		Long: `renew makes a new key and signs the log with it from here on: when somebody else may
have read the old one, or when it is lost. The old key hands over in an event. Where it
is missing there is a break, which verify names for ever: what came before is then tied
to what comes after only by a head kept elsewhere, as every backup and packet holds one.`,
		Example: "  vaultctl key renew",
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.withCatalog(cmd.Context(), func(c *catalog.Catalog) error {
				if err := c.RenewKey(cmd.Context()); err != nil {
					return err
				}
				public, err := c.PublicKey(cmd.Context())
				if err != nil {
					return err
				}
				if a.json {
					return a.printJSON(map[string]any{"public": public})
				}
				a.printf("A new key signs the log: %s\n", public)
				return nil
			})
		},
	})
	return c
}
