// Command make writes the demo's papers anew.
//
// It lays them into internal/demo/papers, or where -o says. Most are made by
// programs that must be installed: soffice, chromium, rsvg-convert, gs, qpdf; the
// fonts are named in papers/SOURCE.md. The rest, which [ownPapers] returns, need
// none and come out the same byte for byte. The papers are kept with the program,
// so that neither its build nor the demo runs this.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
)

func main() {
	dir := flag.String("o", filepath.Join("internal", "demo", "papers"), "folder to write to")
	own := flag.Bool("own", false, "only the papers that need no installed program")
	flag.Parse()
	if err := run(*dir, *own); err != nil {
		fmt.Fprintln(os.Stderr, "make:", err)
		os.Exit(1)
	}
}

// paper is one file to write.
type paper struct {
	name string
	data []byte
}

func run(dir string, own bool) error {
	papers, err := ownPapers()
	if err != nil {
		return err
	}
	if !own {
		more, err := programPapers()
		if err != nil {
			return err
		}
		papers = append(papers, more...)
	}
	for _, p := range papers {
		if err := os.WriteFile(filepath.Join(dir, p.name), p.data, 0o644); err != nil {
			return fmt.Errorf("writing a demo paper: %w; run this at the top of the project, or name a folder with -o", err)
		}
		fmt.Printf("%7d  %s\n", len(p.data), p.name)
	}
	return nil
}
