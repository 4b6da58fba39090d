package main

import (
	"context"
	"errors"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"evidencevault/audit"
	"evidencevault/extract/page"
	"evidencevault/transfer"
)

func (a *app) verifyCommand() *cobra.Command {
	var f secretFlags
	var against string
	c := &cobra.Command{
		Use:   "verify [DIR|FILE]",
		Short: "check that nothing in the vault, or in a packet, was changed, lost or added",
		Long: `verify hashes every file in the store, makes all rows anew from the log and compares,
and checks the log against the signed head. Findings say which claim is touched and
end with 3. Notes say what is in force on this machine; they are no findings.

With DIR it checks the packet that lies there, or any other BagIt bag: every file listed
in every list of hashes, none missing, none added. A packet needs no vault. With FILE it
reads a backup to its end; an encrypted one needs its passphrase or private key.

With --against it also checks that the log continues the head of an earlier day, which
every backup, export, index and packet holds: only so it shows that a whole vault, head
included, was set back.

What it proves of a vault: nothing was changed behind the program's back by anyone who lacks the
vault's key. Whoever can use your account can use the key.`,
		Example: "  vaultctl verify\n  vaultctl verify packet\n  vaultctl verify --against vault.backup\n  vaultctl verify --json",
		Args:    a.args(cobra.MaximumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 1 && against != "" {
				return usagef("--against compares a vault; leave out %s", args[0])
			}
			if len(args) == 1 {
				return a.verifyOther(cmd.Context(), args[0], f)
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
			head, err := a.earlierHead(cmd.Context(), against, f)
			if err != nil {
				return err
			}
			report, err := audit.VerifyAgainst(cmd.Context(), dir, held.Lines, head)
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
	c.Flags().StringVar(&against, "against", "", "a head, backup, export, index or packet of an earlier day that the log must continue")
	f.opening(c)
	return c
}

// earlierHead reads the head that the log must continue; nil when none is named.
func (a *app) earlierHead(ctx context.Context, at string, f secretFlags) ([]byte, error) {
	if at == "" {
		return nil, nil
	}
	secret, err := f.toOpen(ctx, a)
	if err != nil {
		return nil, err
	}
	return audit.HeadIn(ctx, at, secret, a.progressBytes("reading the earlier head"))
}

// verifyOther checks a packet or a backup.
func (a *app) verifyOther(ctx context.Context, at string, f secretFlags) error {
	info, err := os.Stat(at)
	if err != nil {
		return err
	}
	if !info.IsDir() && !info.Mode().IsRegular() {
		return fmt.Errorf("%s: it is neither a folder nor a file; name a packet or a backup", at)
	}
	if info.IsDir() || !transfer.IsBackup(at) {
		return a.verifyPacket(at)
	}
	secret, err := f.toOpen(ctx, a)
	if err != nil {
		return err
	}
	about, res, err := transfer.CheckBackup(ctx, at, secret, a.progressBytes("verifying"))
	report := backupReport{About: about, Result: res}
	if errors.Is(err, transfer.ErrCut) || errors.Is(err, transfer.ErrChanged) || errors.Is(err, transfer.ErrName) {
		report.Findings, err = []string{err.Error()}, nil
	}
	if err != nil {
		return err
	}
	a.see = len(report.Findings) > 0 || len(res.Missing) > 0
	if a.json {
		return a.printJSON(report)
	}
	for _, w := range report.Findings {
		a.printf("finding  %s\n", safe(w))
	}
	for _, m := range res.Missing {
		a.printf("finding  %s: it was missing or altered when the backup was made\n", m)
	}
	if len(report.Findings) == 0 {
		a.printf("a backup of %s, %s, %s: complete, and every hash is right\n", safe(about.Made), count(int(res.Events), "event", "events"), count(res.Evidence, "file", "files"))
	}
	return nil
}

// backupReport is what verify prints of a backup.
type backupReport struct {
	About transfer.About `json:"about"`
	transfer.Result
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
