package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"evidencevault/catalog"
	"evidencevault/extract/page"
	"evidencevault/intake"
	"evidencevault/journal"
	"evidencevault/web"
)

func (a *app) reviewCommand() *cobra.Command {
	var port int
	c := &cobra.Command{
		Use:   "review",
		Short: "serve the local page: see the paper, see the values, confirm",
		Long: `review serves a page on this machine alone and prints its address; open it in a browser.
The address holds a secret that is made anew at each start: whoever has it can use the
vault while the page runs. While no vaultd holds the vault, what is dropped into the drop
folder is taken in too. Where there is no vault yet, the page's first steps make one.
Ctrl-C ends it.`,
		Example: "  vaultctl review\n  vaultctl review --port 8420",
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if port < 0 || port > 65535 {
				return usagef("--port %d: want a number from 1 to 65535, or none for any that is free", port)
			}
			err := a.withJournal(cmd.Context(), func(j *journal.Journal) error { return a.review(cmd.Context(), j, port) })
			if errors.Is(err, catalog.ErrNoVault) {
				return a.firstReview(cmd.Context(), port)
			}
			return err
		},
	}
	c.Flags().IntVar(&port, "port", 0, "on which the page is served (else any that is free)")
	return c
}

// review serves until ctx ends, which is no failure.
func (a *app) review(ctx context.Context, j *journal.Journal, port int) (err error) {
	in := intake.New(j.Catalog(), intake.Options{Habits: j.Taught})
	defer closeInto(&err, in)
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	watching := watch(ctx, j, in)
	err = a.serve(ctx, web.Options{Journal: j, Intake: in, Port: port})
	stop()
	return errors.Join(err, <-watching)
}

// firstReview serves the first steps, and the whole page once they made a vault.
func (a *app) firstReview(ctx context.Context, port int) (err error) {
	dir, err := a.dir()
	if err != nil {
		return err
	}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	var made []io.Closer
	var watching <-chan error
	err = a.serve(ctx, web.Options{Dir: dir, Port: port, Begin: func(setup context.Context, o journal.SetupOptions) (*journal.Journal, *intake.Intake, error) {
		o.Now = a.now
		j, err := journal.Setup(setup, dir, o)
		if err != nil {
			return nil, nil, err
		}
		in := intake.New(j.Catalog(), intake.Options{Habits: j.Taught})
		made, watching = []io.Closer{in, j}, watch(ctx, j, in)
		return j, in, nil
	}})
	stop()
	if watching != nil {
		err = errors.Join(err, <-watching)
	}
	for _, c := range made {
		closeInto(&err, c)
	}
	return err
}

// watch takes in what is dropped into the drop folder, unless a vaultd does. It ends with
// ctx; what comes of it is sent once.
func watch(ctx context.Context, j *journal.Journal, in *intake.Intake) <-chan error {
	watching := make(chan error, 1)
	release, busy := catalog.LockDaemon(j.Catalog().Dir())
	if busy != nil {
		watching <- nil
		return watching
	}
	go func() {
		err := in.Run(ctx)
		if errors.Is(err, context.Canceled) || errors.Is(err, intake.ErrNoDrop) {
			err = nil
		}
		watching <- errors.Join(err, release())
	}()
	return watching
}

// serve prints the page's address and serves it.
func (a *app) serve(ctx context.Context, o web.Options) (err error) {
	o.Pages = page.NewReader(page.Options{})
	defer closeInto(&err, o.Pages)
	o.Failed = func(err error) {
		_, _ = fmt.Fprintf(a.err, "vaultctl: review: %s\n", safe(err.Error())) // the visitor was told that something went wrong
	}
	s, err := web.New(o)
	if err != nil {
		return err
	}
	a.printf("%s\n", s.Address())
	return s.Serve(ctx)
}
