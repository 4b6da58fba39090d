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

	"evidencevault/intake"
)

// The exit codes of the machine interface.
const (
	exitDone   = 0 // done; a target that is not met is no failure
	exitFailed = 1 // failed, nothing was changed or the message says what was
	exitUsage  = 2 // wrong usage
	exitSee    = 3 // done, and there is something to see
)

// app is what every verb works with.
type app struct {
	in            *os.File
	out           *countingWriter
	err           io.Writer
	now           func() time.Time
	vault         string
	certification string
	json          bool
	verb          string // the verb that runs, for its error line
	see           bool   // done, and there is something to see: exit 3
}

// countingWriter remembers the first error, so that output that could not be
// written is never taken for success.
type countingWriter struct {
	w   io.Writer
	err error
}

func (c *countingWriter) Write(p []byte) (int, error) {
	if c.err != nil {
		return 0, c.err
	}
	n, err := c.w.Write(p)
	c.err = err
	return n, err
}

// usageError marks an error as wrong usage.
type usageError struct{ error }

func (u usageError) Unwrap() error { return u.error }

func usagef(format string, args ...any) error { return usageError{fmt.Errorf(format, args...)} }

// errStopped is said when the program was asked to end.
var errStopped = errors.New("stopped as asked; what was done before is kept, so the same command goes on from there")

// stoppedAs is errStopped with what is left to do, where that is known.
func stoppedAs(err error) error {
	var left *intake.StoppedError
	if !errors.As(err, &left) {
		return errStopped
	}
	return fmt.Errorf("%w; %s not taken in yet, and %s not read", errStopped, count(left.Files, "file is", "files are"), count(left.Papers, "paper is", "papers are"))
}

// run does one call of vaultctl and returns its exit code.
func run(ctx context.Context, args []string, in *os.File, out, stderr io.Writer) int {
	a := &app{in: in, out: &countingWriter{w: out}, err: stderr, now: time.Now}
	root := a.root()
	root.SetArgs(args)
	root.SetOut(a.out)
	root.SetErr(stderr)
	err := root.ExecuteContext(ctx)
	if a.out.err != nil && (err == nil || errors.Is(err, a.out.err)) {
		err = fmt.Errorf("standard output: %w; what was asked for is done, but its report is not whole", a.out.err)
	}
	if err != nil && ctx.Err() != nil && errors.Is(err, ctx.Err()) {
		err = stoppedAs(err)
	}
	if err != nil {
		fmt.Fprintln(stderr, a.errorLine(err))
		if errors.As(err, &usageError{}) {
			return exitUsage
		}
		return exitFailed
	}
	if a.see {
		return exitSee
	}
	return exitDone
}

// errorLine is the one line on standard error: "vaultctl: what: why".
func (a *app) errorLine(err error) string {
	text := strings.ReplaceAll(safe(err.Error()), "\n", "; ")
	if a.verb == "" {
		return "vaultctl: " + text + "; see vaultctl help"
	}
	line := "vaultctl: " + a.verb + ": " + text
	if errors.As(err, &usageError{}) {
		line += "; see vaultctl " + a.verb + " --help"
	}
	return line
}

func (a *app) root() *cobra.Command {
	root := &cobra.Command{
		Use:   "vaultctl",
		Short: "Keeps the proofs of a professional certification and counts what they earn",
		Long: `vaultctl works on a vault: a folder that keeps every certificate and receipt
unaltered, says what was read in them, counts the credits under the certifying
body's rules, and writes the index that an auditor can follow.

The body's current rules decide; the vault's count is an aid. Reading can err:
confirm what was read. A vault holds personal data.`,
		Example: `  vaultctl setup --holder "Mirela Tannhof" --scheme demo --start 2024-07-01
  vaultctl add ~/certificates --dry-run
  vaultctl waiting
  vaultctl confirm P3 --category course
  vaultctl standing`,
		SilenceUsage:      true,
		SilenceErrors:     true,
		CompletionOptions: cobra.CompletionOptions{HiddenDefaultCmd: true},
		PersistentPreRunE: func(cmd *cobra.Command, _ []string) error {
			a.verb = verbOf(cmd)
			return nil
		},
		Args: a.unknownVerb,
		RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		a.verb = verbOf(cmd)
		return usageError{err}
	})
	flags := root.PersistentFlags()
	flags.StringVar(&a.vault, "vault", "", "the vault's folder (else EVIDENCE_VAULT_DIR, else a folder of yours)")
	flags.StringVar(&a.certification, "certification", "", "which certification, where the vault has several")
	flags.BoolVar(&a.json, "json", false, "print JSON instead of text")
	cobra.EnableCommandSorting = false
	for _, j := range a.jobs() {
		root.AddGroup(&cobra.Group{ID: j.name, Title: j.name})
		for _, c := range j.verbs {
			c.GroupID = j.name
			root.AddCommand(c)
		}
	}
	root.SetHelpCommandGroupID("About")
	return root
}

// verbOf is the verb as a person types it, "" for the program itself.
func verbOf(cmd *cobra.Command) string {
	return strings.TrimPrefix(strings.TrimPrefix(cmd.CommandPath(), cmd.Root().Name()), " ")
}

// unknownVerb refuses a first argument that names no verb below cmd, and names those
// that look like it.
func (a *app) unknownVerb(cmd *cobra.Command, given []string) error {
	a.verb = verbOf(cmd)
	if len(given) == 0 {
		return nil
	}
	near := cmd.SuggestionsFor(given[0])
	if len(near) == 0 {
		return usagef("no verb %q", given[0])
	}
	return usagef("no verb %q; is %s meant?", given[0], strings.Join(near, " or "))
}

// dir is the vault's folder: --vault, else EVIDENCE_VAULT_DIR, else the XDG data folder.
// The error says that no folder is named and there is no home folder to find one in.
func (a *app) dir() (string, error) {
	if a.vault != "" {
		return a.vault, nil
	}
	if dir := os.Getenv("EVIDENCE_VAULT_DIR"); dir != "" {
		return dir, nil
	}
	if _, err := os.UserHomeDir(); err != nil && !filepath.IsAbs(os.Getenv("XDG_DATA_HOME")) {
		return "", usagef("no vault is named, and there is no home folder to find one in (%w); name it with --vault DIR", err)
	}
	return filepath.Join(xdg.DataHome, "evidence-vault"), nil
}

// args wraps a check of the arguments so that its error is one of usage, says how the
// verb is called, and names the verb.
func (a *app) args(check cobra.PositionalArgs) cobra.PositionalArgs {
	return func(cmd *cobra.Command, given []string) error {
		a.verb = verbOf(cmd)
		if check(cmd, given) == nil {
			return nil
		}
		want := strings.TrimSuffix(cmd.UseLine(), " [flags]")
		if len(given) == 0 {
			return usagef("something is missing; want %s", want)
		}
		return usagef("%q does not fit; want %s", strings.Join(given, " "), want)
	}
}
