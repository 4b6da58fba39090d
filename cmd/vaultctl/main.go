// Command vaultctl does what a person does with a vault: take in, read, confirm,
// count, explain, and write the index. One verb per job; see vaultctl help.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"

	"evidencevault/extract/page"
)

// version is set when the program is built.
var version = "unknown"

func main() {
	page.Main() // a child that reads a document ends here
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second signal ends it at once
	code := run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}
