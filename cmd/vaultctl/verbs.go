package main

import (
	"context"

	"github.com/spf13/cobra"

	"evidencevault/journal"
)

// job is a group of verbs, as help shows them.
type job struct {
	name  string
	verbs []*cobra.Command
}

// jobs lists every verb in the order in which a person comes to need them.
func (a *app) jobs() []job {
	return []job{
		{"Begin", []*cobra.Command{a.setupCommand(), a.demoCommand(), a.certificationCommand(), a.factCommand(), a.schemeCommand()}},
		{"Papers", []*cobra.Command{a.addCommand(), a.waitingCommand(), a.showCommand(), a.confirmCommand(), a.setAsideCommand(), a.undoCommand(),
			a.cutCommand(), a.joinCommand(), a.rereadCommand(), a.unlockCommand(), a.habitsCommand(), a.readCommand()}},
		{"Claims and costs", []*cobra.Command{a.claimsCommand(), a.claimCommand(), a.attachCommand(), a.receiptsCommand(), a.costsCommand()}},
		{"Counting", []*cobra.Command{a.standingCommand(), a.explainCommand(), a.planCommand(), a.calcCommand()}},
		{"Handing over", []*cobra.Command{a.reviewCommand(), a.rehearseCommand(), a.indexCommand(), a.packetCommand(), a.binderCommand(), a.formCommand(), a.letterCommand(), a.lettersCommand(), a.calendarCommand(), a.verifyCommand()}},
		{"Cycles", []*cobra.Command{a.closeCommand(), a.cyclesCommand(), a.deleteCommand()}},
		{"Keeping safe", []*cobra.Command{a.backupCommand(), a.restoreCommand(), a.exportCommand(), a.importCommand(), a.keyCommand(), a.stampCommand()}},
		{"About", []*cobra.Command{a.versionCommand()}},
	}
}

// verbs lists every verb.
func (a *app) verbs() []*cobra.Command {
	var all []*cobra.Command
	for _, j := range a.jobs() {
		all = append(all, j.verbs...)
	}
	return all
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
