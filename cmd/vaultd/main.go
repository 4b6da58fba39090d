// Command vaultd watches the drop folder of a vault, takes in what comes and reads it.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
	"time"

	"evidencevault/extract/page"
)

// version is set when the program is built.
var version = "unknown"

// graceful is how long the program may take to end when it is asked to. What it
// leaves undone then is made good at the next start.
const graceful = 4 * time.Second

func main() {
	page.Main() // a child that reads a document ends here
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	context.AfterFunc(ctx, func() {
		stop() // a second signal ends it at once
		time.AfterFunc(graceful, func() { os.Exit(exitFailed) })
	})
	code := run(ctx, os.Args[1:], os.Stdout, os.Stderr)
	os.Exit(code)
}
