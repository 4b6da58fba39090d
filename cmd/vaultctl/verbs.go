package main

import (
	"context"

	"github.com/spf13/cobra"

	"evidencevault/journal"
)

// verbs lists every verb, in the order in which help shows groups of them.
func (a *app) verbs() []*cobra.Command {
	return []*cobra.Command{
		a.setupCommand(), a.certificationCommand(), a.factCommand(), a.demoCommand(),
		a.addCommand(), a.readCommand(), a.rereadCommand(), a.unlockCommand(),
		a.waitingCommand(), a.showCommand(), a.confirmCommand(), a.setAsideCommand(), a.undoCommand(), a.cutCommand(), a.joinCommand(),
		a.claimsCommand(), a.claimCommand(), a.attachCommand(), a.receiptsCommand(),
		a.standingCommand(), a.explainCommand(), a.calcCommand(), a.schemeCommand(),
		a.indexCommand(), a.verifyCommand(), a.versionCommand(),
	}
}

// withJournal opens the vault for changing, does work, and closes it.
func (a *app) withJournal(ctx context.Context, work func(*journal.Journal) error) (err error) {
	return a.open(ctx, journal.Options{Now: a.now}, work)
}

// reading opens the vault for looking only.
func (a *app) reading(ctx context.Context, work func(*journal.Journal) error) (err error) {
	return a.open(ctx, journal.Options{Now: a.now, ReadOnly: true}, work)
}

func (a *app) open(ctx context.Context, o journal.Options, work func(*journal.Journal) error) (err error) {
	dir, err := a.dir()
	if err != nil {
		return err
	}
	j, err := journal.Open(ctx, dir, o)
	if err != nil {
		return err
	}
	defer closeInto(&err, j)
	return work(j)
}
