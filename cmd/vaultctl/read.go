package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"strings"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"evidencevault/catalog"
	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

func (a *app) readCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "read FILE…",
		Short: "read documents and print what was found; needs no vault",
		Long: `read prints what was found in each document, and what is open. Nothing is kept.
With --json it prints one line of JSON for each paper: a file that holds several
papers gives several lines. It ends with 3 when a file could not be read.`,
		Example: `  vaultctl read certificate.pdf
  vaultctl read --json *.pdf > readings.jsonl`,
		Args: a.args(cobra.MinimumNArgs(1)),
		RunE: func(cmd *cobra.Command, files []string) error {
			r := page.NewReader(page.Options{Second: true})
			return errors.Join(a.readFiles(cmd.Context(), r, files), r.Close())
		},
	}
	return c
}

// readFiles reads one file after the other; one that cannot be opened is a line too.
func (a *app) readFiles(ctx context.Context, r *page.Reader, files []string) error {
	for _, name := range files {
		lines, err := a.readFile(ctx, r, name)
		if err != nil {
			return err
		}
		for _, line := range lines {
			if err := a.printLine(line); err != nil {
				return err
			}
		}
	}
	return nil
}

func (a *app) readFile(ctx context.Context, r *page.Reader, name string) (lines []paper.Line, err error) {
	f, err := os.Open(name)
	if err == nil {
		defer closeInto(&err, f)
		var info os.FileInfo
		if info, err = f.Stat(); err == nil && !info.Mode().IsRegular() {
			err = fmt.Errorf("%s: not an ordinary file", name)
		}
	}
	if err != nil {
		a.warn("%v", err)
		a.see = true
		return []paper.Line{paper.LineOf(jsonName(name), paper.Reading{Outcome: paper.OutcomeUnreadable, Reason: err.Error()})}, nil
	}
	papers, err := extract.Read(ctx, r, f, extract.Hints{})
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	for _, p := range papers {
		if p.Carrier {
			continue // the message that carries the documents that follow
		}
		switch p.Reading.Outcome {
		case paper.OutcomeRead, paper.OutcomeNotEvidence:
		default:
			a.see = true
		}
		lines = append(lines, paper.LineOf(jsonName(name), p.Reading))
	}
	return lines, nil
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

func (a *app) printLine(line paper.Line) error {
	if a.json {
		enc := json.NewEncoder(a.out)
		enc.SetEscapeHTML(false)
		return enc.Encode(line)
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
