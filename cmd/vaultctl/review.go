package main

import (
	"context"
	"errors"
	"fmt"

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
folder is taken in too. Ctrl-C ends it.`,
		Example: "  vaultctl review\n  vaultctl review --port 8420",
		Args:    a.args(cobra.NoArgs),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if port < 0 || port > 65535 {
				return usagef("--port %d: want a number from 1 to 65535, or none for any that is free", port)
			}
			return a.withJournal(cmd.Context(), func(j *journal.Journal) error { return a.review(cmd.Context(), j, port) })
		},
	}
	c.Flags().IntVar(&port, "port", 0, "on which the page is served (else any that is free)")
	return c
}

// review serves until ctx ends, which is no failure.
func (a *app) review(ctx context.Context, j *journal.Journal, port int) (err error) {
	pages := page.NewReader(page.Options{})
	defer closeInto(&err, pages)
	in := intake.New(j.Catalog(), intake.Options{})
	defer closeInto(&err, in)
	s, err := web.New(web.Options{Journal: j, Intake: in, Pages: pages, Port: port, Failed: func(err error) {
		_, _ = fmt.Fprintf(a.err, "vaultctl: review: %s\n", safe(err.Error())) // the visitor was told that something went wrong
	}})
	if err != nil {
		return err
	}
	a.printf("%s\n", s.Address())
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	watching := make(chan error, 1)
	release, busy := catalog.LockDaemon(j.Catalog().Dir())
	if busy == nil {
		defer func() { err = errors.Join(err, release()) }()
		go func() { watching <- in.Run(ctx) }()
	} else {
		watching <- nil
	}
	err = s.Serve(ctx)
	stop()
	if e := <-watching; e != nil && !errors.Is(e, context.Canceled) && !errors.Is(e, intake.ErrNoDrop) {
		err = errors.Join(err, e)
	}
	return err
}
