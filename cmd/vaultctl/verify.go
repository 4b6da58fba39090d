package main

import (
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"evidencevault/audit"
	"evidencevault/extract/page"
)

func (a *app) verifyCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "verify [DIR]",
		Short: "check that nothing in the vault, or in a packet, was changed, lost or added",
		Long: `verify hashes every file in the store, makes all rows anew from the log and compares,
and checks the log against the signed head. Findings say which claim is touched and
end with 3. Notes say what is in force on this machine; they are no findings.

With DIR it checks the packet that lies there, or any other BagIt bag: every file listed
in every list of hashes, none missing, none added. A packet needs no vault.

What it proves of a vault: nothing was changed behind the program's back by anyone who lacks the
vault's key. Whoever can use your account can use the key.`,
		Example: "  vaultctl verify\n  vaultctl verify packet\n  vaultctl verify --json",
		Args:    a.args(cobra.MaximumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 1 {
				return a.verifyPacket(args[0])
			}
			dir, err := a.dir()
			if err != nil {
				return err
			}
			r := page.NewReader(page.Options{})
			defer closeInto(new(error), r) // nothing was read through it
			held, err := r.Confinement(cmd.Context())
			if err != nil {
				return err
			}
			report, err := audit.Verify(cmd.Context(), dir, held.Lines)
			if err != nil {
				return err
			}
			a.see = len(report.Findings) > 0
			if a.json {
				return a.printJSON(report)
			}
			for _, n := range report.Notes {
				a.printf("note     %s\n", safe(n))
			}
			for _, f := range report.Findings {
				a.printf("finding  %s\n", safe(f.String()))
			}
			if len(report.Findings) == 0 {
				a.printf("%s, %s: nothing was changed, lost or added\n", count(int(report.Evidence), "file", "files"), count(int(report.Events), "event", "events"))
			}
			return nil
		},
	}
	return c
}

// verifyPacket checks a bag. A folder that is a vault is no packet; it is named so.
func (a *app) verifyPacket(dir string) error {
	if _, err := os.Stat(dir); err != nil {
		return err
	}
	report, err := audit.VerifyPacket(dir)
	if err != nil {
		return err
	}
	if !audit.IsPacket(dir) && report.Files == 0 {
		return fmt.Errorf("%s: it is no packet: bagit.txt is missing; name the folder of a packet, or a vault with --vault", dir)
	}
	a.see = !report.Valid()
	if a.json {
		return a.printJSON(report)
	}
	for _, n := range report.Notes {
		a.printf("note     %s\n", safe(n.String()))
	}
	for _, f := range report.Findings {
		a.printf("finding  %s\n", safe(f.String()))
	}
	if report.Valid() {
		a.printf("%s, %s: complete, and every hash is right\n", count(report.Files, "file", "files"), count(int(report.Bytes), "byte", "bytes"))
	}
	return nil
}
