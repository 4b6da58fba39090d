package watcher

import (
	"errors"
	"os"
	"syscall"
)

func changed(stat *syscall.Stat_t) int64 { return stat.Ctimespec.Nano() }

// writers knows nothing on this system.
func writers(*os.File) writing { return unknown }

// silentPlace is not asked on this system: everything is looked at regularly anyway.
func silentPlace(string) string { return "" }

// noWatches reports whether err means that no file is left to be opened for a watch.
func noWatches(err error) (string, bool) {
	return "the system gives no more watches; looking regularly instead. To raise the limit: ulimit -n 4096",
		errors.Is(err, syscall.EMFILE) || errors.Is(err, syscall.ENFILE)
}
