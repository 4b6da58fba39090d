package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/adrg/xdg"
	"github.com/spf13/cobra"

	"evidencevault/catalog"
	"evidencevault/extract/page"
	"evidencevault/intake"
	"evidencevault/journal"
	"evidencevault/web"
)

// The exit codes of the machine interface.
const (
	exitDone   = 0
	exitFailed = 1 // nothing was changed, or the message says what was
	exitUsage  = 2
	exitSee    = 3 // done, and files were left untaken or papers unread
)

// daemon is one call of the program.
type daemon struct {
	vault  string
	once   bool
	page   bool
	port   int
	settle time.Duration
	see    bool // done, and there is something to see
	out    io.Writer
	err    io.Writer
}

type usageError struct{ error }

func (u usageError) Unwrap() error { return u.error }

// run does one call of vaultd and returns its exit code.
func run(ctx context.Context, args []string, out, stderr io.Writer) int {
	d := &daemon{out: out, err: stderr}
	root := d.command()
	root.SetArgs(args)
	root.SetOut(out)
	root.SetErr(stderr)
	err := root.ExecuteContext(ctx)
	switch {
	case err == nil && d.see:
		return exitSee
	case err == nil:
		return exitDone
	}
	fmt.Fprintln(stderr, "vaultd: "+strings.ReplaceAll(catalog.FileName(err.Error()).String(), `\x0a`, "; "))
	if errors.As(err, &usageError{}) {
		return exitUsage
	}
	return exitFailed
}

func (d *daemon) command() *cobra.Command {
	root := &cobra.Command{
		Use:   "vaultd",
		Short: "Watches a vault's drop folder, takes in what comes and reads it",
		Long: `vaultd watches the drop folder of a vault. Each file that has come to rest is kept
unaltered in the vault, then read. Nothing is decided: what was read waits for you,
see vaultctl waiting. One vaultd runs for a vault at a time.

It logs to standard error, and never the text of a document.`,
		Example: `  vaultd
  vaultd --once
  vaultd --page
  vaultd --vault ~/vault --settle 10s`,
		Version:           version,
		SilenceUsage:      true,
		SilenceErrors:     true,
		CompletionOptions: cobra.CompletionOptions{DisableDefaultCmd: true},
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 0 {
				return usageError{fmt.Errorf("%q: vaultd takes no arguments; see vaultd --help", args[0])}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, _ []string) error { return d.serve(cmd.Context()) },
	}
	root.SetFlagErrorFunc(func(_ *cobra.Command, err error) error {
		return usageError{fmt.Errorf("%w; see vaultd --help", err)}
	})
	flags := root.Flags()
	flags.StringVar(&d.vault, "vault", "", "the vault's folder (else EVIDENCE_VAULT_DIR, else a folder of yours)")
	flags.BoolVar(&d.once, "once", false, "take in and read what lies there, and end")
	flags.BoolVar(&d.page, "page", false, "serve the local page too, and print its address")
	flags.IntVar(&d.port, "port", 0, "on which the page is served (else any that is free)")
	flags.DurationVar(&d.settle, "settle", 2*time.Second, "how long a file must stay unchanged to count as whole")
	return root
}

// dir is the vault's folder: --vault, else EVIDENCE_VAULT_DIR, else the XDG data folder.
// The error says that no folder is named and there is no home folder to find one in.
func (d *daemon) dir() (string, error) {
	if d.vault != "" {
		return d.vault, nil
	}
	if dir := os.Getenv("EVIDENCE_VAULT_DIR"); dir != "" {
		return dir, nil
	}
	if _, err := os.UserHomeDir(); err != nil && !filepath.IsAbs(os.Getenv("XDG_DATA_HOME")) {
		return "", usageError{fmt.Errorf("no vault is named, and there is no home folder to find one in (%w); name it with --vault DIR", err)}
	}
	return filepath.Join(xdg.DataHome, "evidence-vault"), nil
}

// serve holds the vault and takes in until ctx ends, or once.
func (d *daemon) serve(ctx context.Context) (err error) {
	if d.settle <= 0 {
		return usageError{fmt.Errorf("--settle %v: want a time above zero, as in 2s", d.settle)}
	}
	dir, err := d.dir()
	if err != nil {
		return err
	}
	c, err := catalog.Open(ctx, dir, catalog.Options{})
	if errors.Is(err, catalog.ErrNoVault) {
		return fmt.Errorf("%w; make one with vaultctl setup, or name another with --vault", err)
	}
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, c.Close()) }()
	release, err := catalog.LockDaemon(dir)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, release()) }()
	l := newLogger(d.err)
	in := intake.New(c, intake.Options{Settle: d.settle, Took: l.took, Read: l.read, Notice: l.notice, Habits: journal.Of(c, journal.Options{}).Taught})
	defer func() { err = errors.Join(err, in.Close()) }()
	if err := c.Trouble(); err != nil {
		return fmt.Errorf("%w; the drop folder is left as it is", err)
	}
	if d.once && d.page {
		return usageError{errors.New("--once and --page: the page is served for as long as vaultd runs; give one of the two")}
	}
	if d.once {
		return d.runOnce(ctx, in, l)
	}
	l.begin(c.Dir())
	if d.page {
		err = d.servePage(ctx, c, in, l)
	} else {
		err = in.Run(ctx)
	}
	if err != nil && ctx.Err() == nil {
		return err
	}
	l.end()
	return nil
}

// servePage takes in and serves the local page, until ctx ends or one of the two fails.
func (d *daemon) servePage(ctx context.Context, c *catalog.Catalog, in *intake.Intake, l *logger) (err error) {
	pages := page.NewReader(page.Options{})
	defer func() { err = errors.Join(err, pages.Close()) }()
	s, err := web.New(web.Options{Journal: journal.Of(c, journal.Options{}), Intake: in, Pages: pages, Port: d.port, Failed: l.failed})
	if err != nil {
		return err
	}
	fmt.Fprintln(d.out, s.Address())
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	taking := make(chan error, 1)
	go func() {
		defer stop()
		taking <- in.Run(ctx)
	}()
	err = s.Serve(ctx)
	stop()
	return errors.Join(err, <-taking)
}

func (d *daemon) runOnce(ctx context.Context, in *intake.Intake, l *logger) error {
	report, err := in.Once(ctx)
	l.report(report)
	d.see = report.ToSee()
	if ctx.Err() != nil {
		return errors.New("asked to end before everything was taken in; start it again")
	}
	return err
}
