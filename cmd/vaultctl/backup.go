package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/catalog"
	"evidencevault/transfer"
)

// secretFlags say by what a backup is encrypted or opened.
type secretFlags struct {
	encrypt    bool
	passphrase string // file
	recipients []string
	identity   string // file
}

// mostSecret bounds a file with a passphrase or keys.
const mostSecret = 1 << 20

// readSecret reads a small file.
func readSecret(name string) (string, error) {
	info, err := os.Stat(name)
	if err != nil {
		return "", err
	}
	if info.Size() > mostSecret {
		return "", fmt.Errorf("%s: it has %d bytes; a passphrase or a list of keys is shorter", name, info.Size())
	}
	data, err := os.ReadFile(name)
	return string(data), err
}

// fromFile reads the passphrase: the first line of its file.
func (f secretFlags) fromFile() (string, error) {
	if f.passphrase == "" {
		return "", nil
	}
	text, err := readSecret(f.passphrase)
	if err != nil {
		return "", err
	}
	line, _, _ := strings.Cut(text, "\n")
	if line = strings.TrimRight(line, "\r"); line == "" {
		return "", fmt.Errorf("%s: its first line is empty, and it should be the passphrase", f.passphrase)
	}
	return line, nil
}

// toSeal is what a backup is encrypted with.
func (f secretFlags) toSeal(ctx context.Context, a *app) (s transfer.Secret, err error) {
	s.Recipients = strings.Join(f.recipients, "\n")
	if s.Passphrase, err = f.fromFile(); err != nil || !f.encrypt || s.Passphrase != "" {
		return s, err
	}
	if s.Passphrase, err = a.askPassword(ctx); err != nil {
		return s, err
	}
	if s.Passphrase == "" {
		return s, errors.New("no passphrase was given; nothing was written")
	}
	if a.interactive() {
		again, err := a.askPassword(ctx)
		if err != nil {
			return s, err
		}
		if again != s.Passphrase {
			return s, errors.New("the two passphrases differ; nothing was written")
		}
	}
	return s, nil
}

// toOpen is what a backup is opened with.
func (f secretFlags) toOpen(ctx context.Context, a *app) (s transfer.Secret, err error) {
	if f.identity != "" {
		if s.Identities, err = readSecret(f.identity); err != nil {
			return s, err
		}
	}
	if a.interactive() {
		s.Ask = func() (string, error) { return a.askPassword(ctx) }
	}
	s.Passphrase, err = f.fromFile()
	return s, err
}

// opening adds the flags of a verb that opens a backup.
func (f *secretFlags) opening(c *cobra.Command) {
	c.Flags().StringVar(&f.passphrase, "passphrase-file", "", "an encrypted backup: the file whose first line is its passphrase (else asked on a terminal)")
	c.Flags().StringVar(&f.identity, "identity", "", "an encrypted backup: the file with your private key of age")
}

func (a *app) backupCommand() *cobra.Command {
	var f secretFlags
	var incomplete bool
	c := &cobra.Command{
		Use:   "backup FILE",
		Short: "write the whole vault into one file, also while vaultd runs",
		Long: `backup writes the catalog as of one moment, the evidence that it names, the schemes,
and what else lies in the vault's folder into one new file, a tar archive with a list of
hashes at its end. The file gets its name only when it is whole and was read back.

It holds no private key: restore makes a new one. It holds personal data; --encrypt asks
for a passphrase, --recipient names a public key of age instead. Without the passphrase or
the private key nobody opens it again, you neither.

Keep it on another disk. A backup also holds the signed head of the day, so that
verify --against FILE shows later that the vault was not set back.`,
		Example: "  vaultctl backup /media/stick/vault-2026-03-05.backup\n  vaultctl backup --encrypt /media/stick/vault.backup",
		Args:    a.args(cobra.ExactArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error {
			secret, err := f.toSeal(cmd.Context(), a)
			if err != nil {
				return err
			}
			return a.withCatalog(cmd.Context(), func(c *catalog.Catalog) error {
				res, err := transfer.Backup(cmd.Context(), c, args[0], transfer.Options{Secret: secret, Incomplete: incomplete, Progress: a.progressBytes("backing up")})
				if err != nil {
					return err
				}
				a.see = len(res.Missing) > 0
				return a.printMoved(args[0], res)
			})
		},
	}
	c.Flags().BoolVar(&f.encrypt, "encrypt", false, "encrypt it with a passphrase, which is asked for")
	c.Flags().StringVar(&f.passphrase, "passphrase-file", "", "encrypt it with the passphrase in the first line of this file")
	c.Flags().StringArrayVar(&f.recipients, "recipient", nil, "encrypt it for this public key of age (age1…); may be given several times")
	c.Flags().BoolVar(&incomplete, "incomplete", false, "go on without evidence that is missing or altered, and list it")
	return c
}

func (a *app) restoreCommand() *cobra.Command {
	var f secretFlags
	var only bool
	c := &cobra.Command{
		Use:   "restore FILE",
		Short: "make a vault from a backup, or bring back single files that are lost",
		Long: `restore makes the vault anew from a backup. Its folder must be absent or empty: an
existing vault is never overwritten. Everything is checked before the vault gets its name.
It gets a new key, in an event that names the old one.

With --evidence it leaves the vault that is there as it is, and puts back only the files
of evidence, and the schemes, that verify finds missing or altered.`,
		Example: "  vaultctl restore --vault ~/vault /media/stick/vault.backup\n  vaultctl restore --evidence /media/stick/vault.backup",
		Args:    a.args(cobra.ExactArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error {
			dir, err := a.dir()
			if err != nil {
				return err
			}
			secret, err := f.toOpen(cmd.Context(), a)
			if err != nil {
				return err
			}
			if only {
				return a.restoreEvidence(cmd.Context(), args[0], secret)
			}
			res, err := transfer.Restore(cmd.Context(), args[0], dir, secret, catalog.Options{Now: a.now}, a.progressBytes("restoring"))
			if err != nil {
				return vaultThere(err, dir, "bring back only what is missing or altered with --evidence")
			}
			return a.printBroughtIn(dir, res)
		},
	}
	c.Flags().BoolVar(&only, "evidence", false, "put back only evidence and schemes that are missing or altered")
	f.opening(c)
	return c
}

func (a *app) restoreEvidence(ctx context.Context, file string, secret transfer.Secret) error {
	return a.withCatalog(ctx, func(c *catalog.Catalog) error {
		back, err := transfer.RestoreEvidence(ctx, c, file, secret, a.progressBytes("reading the backup"))
		if err != nil {
			if len(back) > 0 {
				err = fmt.Errorf("%w; before that %s put back: %s", err, count(len(back), "file was", "files were"), strings.Join(back, " "))
			}
			return err
		}
		if a.json {
			return a.printJSON(map[string]any{"back": back})
		}
		for _, sum := range back {
			a.printf("put back  %s\n", sum)
		}
		if len(back) == 0 {
			a.printf("nothing was put back: nothing that the backup has is missing or altered\n")
		}
		return nil
	})
}

// printMoved says what was taken out.
func (a *app) printMoved(to string, res transfer.Result) error {
	if a.json {
		return a.printJSON(res)
	}
	a.printf("%s: %s, %s, %s\n", safe(to), count(int(res.Events), "event", "events"), count(res.Evidence, "file", "files"), count(int(res.Bytes), "byte", "bytes"))
	for _, m := range res.Missing {
		a.printf("missing   %s\n", m)
	}
	return nil
}

// printBroughtIn says what was brought in; findings end with 3.
func (a *app) printBroughtIn(dir string, res transfer.Result) error {
	a.see = len(res.Findings) > 0 || len(res.Missing) > 0
	if err := a.printMoved(dir, res); err != nil || a.json {
		return err
	}
	for _, f := range res.Findings {
		a.printf("finding   %s\n", safe(f))
	}
	a.printf("It has a new key; the log says so and names the old one.\n")
	return nil
}

// withCatalog opens the vault for changing, does work, and closes it.
func (a *app) withCatalog(ctx context.Context, work func(*catalog.Catalog) error) (err error) {
	dir, err := a.dir()
	if err != nil {
		return err
	}
	c, err := catalog.Open(ctx, dir, catalog.Options{Now: a.now})
	if err != nil {
		return err
	}
	defer closeInto(&err, c)
	return work(c)
}
