package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"evidencevault/catalog"
	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// A readRequest says what `read` shows besides the readings.
type readRequest struct {
	trace    bool
	pictures string // a folder; "" means none
}

func (a *app) readCommand() *cobra.Command {
	var q readRequest
	c := &cobra.Command{
		Use:   "read FILE…",
		Short: "read documents and print what was found; needs no vault",
		Long: `read prints what was found in each document, and what is open. Nothing is kept.
With --json it prints one line of JSON for each paper: a file that holds several
papers gives several lines. It ends with 3 when a file could not be read.

With --trace it also shows how each reading came about: the pages, the text in reading
order, labels with their values, what was found, and for each field the candidates with
their weights and the decision. --trace-pictures writes each page as a PNG into a folder:
every line is outlined in grey, candidates that were not taken brown, the values that
were taken blue with the names of their fields; a broken line means that it is asked about.`,
		Example: `  vaultctl read certificate.pdf
  vaultctl read --json *.pdf > readings.jsonl
  vaultctl read --trace --trace-pictures why certificate.pdf`,
		Args: a.args(cobra.MinimumNArgs(1)),
		RunE: func(cmd *cobra.Command, files []string) error {
			r := page.NewReader(page.Options{Second: true, Pool: readers()})
			if q.pictures != "" {
				if err := os.MkdirAll(q.pictures, 0o700); err != nil {
					return err
				}
			}
			return errors.Join(a.readFiles(cmd.Context(), r, files, q), r.Close())
		},
	}
	c.Flags().BoolVar(&q.trace, "trace", false, "show how each reading came about")
	c.Flags().StringVar(&q.pictures, "trace-pictures", "", "write pages with outlines into this `folder`")
	return c
}

// A fileRead is what came of reading one file.
type fileRead struct {
	lines []tracedLine
	warn  string // why it could not be opened; "" if it was
	see   bool   // something in it could not be read
	err   error
}

// readFiles reads as many files at a time as the reader has children, and prints them in their order;
// one that cannot be opened is a line too.
func (a *app) readFiles(ctx context.Context, r *page.Reader, files []string, q readRequest) error {
	ctx, stop := context.WithCancel(ctx)
	begun := make(chan chan fileRead, readers()-1) // no more are read ahead
	var all sync.WaitGroup
	all.Go(func() {
		defer close(begun)
		for _, name := range files {
			done := make(chan fileRead, 1)
			select {
			case begun <- done:
			case <-ctx.Done():
				return
			}
			all.Go(func() { done <- readFile(ctx, r, name, q) })
		}
	})
	defer all.Wait()
	defer stop()
	for done := range begun {
		if err := a.printRead(<-done); err != nil {
			return err
		}
	}
	return ctx.Err()
}

// readers is how many files are read at a time: one for each processor, but no more than four, since
// every child takes memory.
func readers() int { return min(runtime.GOMAXPROCS(0), 4) }

// printRead prints what came of one file.
func (a *app) printRead(f fileRead) error {
	if f.warn != "" {
		a.warn("%s", f.warn)
	}
	a.see = a.see || f.see
	if f.err != nil {
		return f.err
	}
	for _, line := range f.lines {
		if err := a.printLine(line.Line, line.Trace); err != nil {
			return err
		}
		for _, picture := range line.pictures {
			fmt.Fprintf(a.err, "%s\n", safe(picture))
		}
	}
	return nil
}

// A tracedLine is a line with how it came about, where that was asked for.
type tracedLine struct {
	paper.Line
	Trace    *extract.Trace `json:"trace,omitempty"`
	pictures []string       // files written
}

// readFile reads the papers of one file.
func readFile(ctx context.Context, r *page.Reader, name string, q readRequest) (out fileRead) {
	f, err := os.Open(name)
	if err == nil {
		defer closeInto(&out.err, f)
		var info os.FileInfo
		if info, err = f.Stat(); err == nil && !info.Mode().IsRegular() {
			err = fmt.Errorf("%s: not an ordinary file", name)
		}
	}
	if err != nil {
		unread := paper.Reading{Outcome: paper.OutcomeUnreadable, Reason: err.Error()}
		return fileRead{lines: []tracedLine{{Line: paper.LineOf(jsonName(name), unread)}}, warn: err.Error(), see: true}
	}
	papers, err := extract.Read(ctx, r, f, extract.Hints{Trace: q.trace || q.pictures != ""})
	if err != nil {
		return fileRead{err: fmt.Errorf("%s: %w", name, err)}
	}
	for _, p := range papers {
		if p.Carrier {
			continue // the message that carries the documents that follow
		}
		switch p.Reading.Outcome {
		case paper.OutcomeRead, paper.OutcomeNotEvidence:
		default:
			out.see = true
		}
		line := tracedLine{Line: paper.LineOf(jsonName(name), p.Reading)}
		if q.trace {
			line.Trace = p.Trace
		}
		if q.pictures != "" && p.Trace != nil {
			if line.pictures, err = drawPaper(ctx, r, f, p, q.pictures, stem(name)); err != nil {
				return fileRead{err: err}
			}
		}
		out.lines = append(out.lines, line)
	}
	return out
}

// stem is the name of a file without its folder and ending.
func stem(name string) string { return strings.TrimSuffix(filepath.Base(name), filepath.Ext(name)) }

// drawPaper draws the pages of a paper of a file, or of a document within it.
func drawPaper(ctx context.Context, r *page.Reader, file io.ReadSeeker, p extract.Paper, folder, name string) ([]string, error) {
	if p.Part != nil {
		file, name = bytes.NewReader(p.Part.Data), name+"-"+stem(p.Part.Name)
	}
	return drawTrace(ctx, r, file, p.Trace, folder, name)
}

// jsonName is a path as it was given, or with escapes where its bytes are no UTF-8:
// JSON would make one name of two such paths.
func jsonName(path string) string {
	if utf8.ValidString(path) {
		return path
	}
	return catalog.FileName(path).Exact()
}

// printValue prints one value that was read, with a mark where it is not certain, and
// the words that show it.
func (a *app) printValue(f paper.Field, v paper.LineValue) {
	mark, where := " ", ""
	if !v.Certain {
		mark = "?"
	}
	if v.Quote != "" {
		where = fmt.Sprintf("   page %d: “%s”", v.Page, oneLine(v.Quote))
	}
	a.printf("  %s %-16s %s%s\n", mark, f, safe(shown(v.Value)), safe(where))
}

func (a *app) printLine(line paper.Line, trace *extract.Trace) error {
	if a.json {
		enc := json.NewEncoder(a.out)
		enc.SetEscapeHTML(false)
		return enc.Encode(tracedLine{Line: line, Trace: trace})
	}
	head := line.File
	if line.Part != "" {
		head += ", part " + line.Part
	}
	if line.Pages != nil && line.Pages[1] > line.Pages[0] {
		head += fmt.Sprintf(", pages %d to %d", line.Pages[0], line.Pages[1])
	}
	a.printf("%s: %s\n", safe(head), line.Outcome)
	if line.Reason != "" {
		a.printf("  %s\n", safe(line.Reason))
	}
	for _, f := range paper.Fields() {
		v, ok := line.Values[f]
		if !ok || v.Value == nil {
			continue
		}
		a.printValue(f, v)
	}
	for _, q := range line.Questions {
		a.printf("  %s\n", safe(q.Text))
	}
	a.printf("\n")
	if trace != nil {
		a.printTrace(trace)
	}
	return nil
}

// shown prints a value of a line as a person writes it.
func shown(v any) string {
	switch v := v.(type) {
	case string:
		return v
	case []paper.Printed:
		return paper.FormatCredits(v)
	case paper.Money:
		return v.String()
	case *paper.Money:
		return v.String()
	case nil:
		return ""
	}
	return fmt.Sprint(v)
}

// oneLine folds white space and cuts what is too long to show.
func oneLine(s string) string { return cut(strings.Join(strings.Fields(s), " "), 70) }
