package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strings"
	"unicode"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
	"golang.org/x/term"
)

// printJSON prints v as indented JSON with a line end.
func (a *app) printJSON(v any) error {
	enc := json.NewEncoder(a.out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(v)
}

func (a *app) printf(format string, args ...any) { fmt.Fprintf(a.out, format, args...) }

// warn prints one line on standard error that is no failure.
func (a *app) warn(format string, args ...any) {
	fmt.Fprintf(a.err, "vaultctl: %s: %s\n", a.verb, safe(fmt.Sprintf(format, args...)))
}

// column is one column of a table: its heading, and whether it holds numbers.
type column struct {
	head   string
	number bool
	most   int // greatest width on a terminal; 0: no limit
}

// table prints rows under columns: aligned, without rules or colour, cut to the
// terminal's width where there is one.
func (a *app) table(columns []column, rows [][]string) {
	t := table.NewWriter()
	t.SetOutputMirror(nil)
	style := table.StyleDefault
	style.Options = table.Options{}
	style.Box = table.BoxStyle{PaddingRight: "  "}
	style.Format.Header = text.FormatDefault
	style.Format.Footer = text.FormatDefault
	t.SetStyle(style)
	width := a.width()
	limits := fit(columns, rows, width)
	head := make(table.Row, len(columns))
	configs := make([]table.ColumnConfig, len(columns))
	for i, c := range columns {
		head[i] = c.head
		configs[i] = table.ColumnConfig{Number: i + 1}
		if c.number {
			configs[i].Align, configs[i].AlignHeader = text.AlignRight, text.AlignRight
		}
		if most := limits[i]; most > 0 {
			configs[i].WidthMax = most
			configs[i].WidthMaxEnforcer = cut
		}
	}
	t.AppendHeader(head)
	t.SetColumnConfigs(configs)
	for _, row := range rows {
		cells := make(table.Row, len(row))
		for i, cell := range row {
			cells[i] = safe(cell)
		}
		t.AppendRow(cells)
	}
	for line := range strings.SplitSeq(t.Render(), "\n") {
		line = strings.TrimRight(line, " ")
		if width > 0 {
			line = cut(line, width)
		}
		fmt.Fprintln(a.out, line)
	}
}

// least is how narrow fit may make a column of text.
const least = 8

// fit returns how wide each column may be so that the table fits into width; 0 is no
// limit. Only columns with a greatest width give way, the widest first: figures, dates
// and numbers are what a table is read for.
func fit(columns []column, rows [][]string, width int) []int {
	limits := make([]int, len(columns))
	if width <= 0 {
		return limits
	}
	widths, total := make([]int, len(columns)), 0
	for i, c := range columns {
		widths[i] = text.StringWidthWithoutEscSequences(c.head)
		for _, row := range rows {
			widths[i] = max(widths[i], text.StringWidthWithoutEscSequences(safe(row[i])))
		}
		if c.most > 0 {
			widths[i] = min(widths[i], c.most)
			limits[i] = widths[i]
		}
		total += widths[i] + 2
	}
	for total -= 2; total > width; total-- {
		widest := -1
		for i := range columns {
			if limits[i] > least && (widest < 0 || limits[i] > limits[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			break
		}
		limits[widest]--
	}
	return limits
}

// cut shortens s to width columns, with a mark where something is missing.
func cut(s string, width int) string {
	if width < 2 || text.StringWidthWithoutEscSequences(s) <= width {
		return s
	}
	return strings.TrimRight(text.Trim(s, width-1), " ") + "…"
}

// displayed is how many columns s takes.
func displayed(s string) int { return text.StringWidthWithoutEscSequences(s) }

// width is the terminal's width in columns, 0 when the output is no terminal.
func (a *app) width() int {
	if f, ok := a.out.w.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		if w, _, err := term.GetSize(int(f.Fd())); err == nil && w > 20 {
			return w
		}
		return 80
	}
	return 0
}

// narrow reports whether the terminal has no room for the first and the last day of
// an activity: then tables show the last, which decides where it counts.
func (a *app) narrow() bool { w := a.width(); return w > 0 && w < 110 }

// interactive reports whether a person can be asked: standard input is a terminal.
// Questions go to standard error, so that what is printed can be piped all the same.
func (a *app) interactive() bool {
	return a.in != nil && term.IsTerminal(int(a.in.Fd()))
}

// progress returns a function that shows how far long work is, on one line of standard
// error and only where that is a terminal; nil where it is none.
func (a *app) progress(doing, what string) func(n, of int) {
	f, ok := a.err.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return nil
	}
	return func(n, of int) {
		end := ""
		if n == of {
			end = "\r\x1b[K"
		}
		_, _ = fmt.Fprintf(f, "\r%s: %d of %d %s%s", doing, n, of, what, end) // no more than a sign of life
	}
}

// progressBytes is progress of work that is counted in bytes. What moves within one
// hundredth is not shown anew.
func (a *app) progressBytes(doing string) func(done, of int64) {
	tell := a.progress(doing, "MB")
	if tell == nil {
		return nil
	}
	shown := int64(-1)
	return func(done, of int64) {
		if part := done * 100 / max(of, 1); part != shown || done == of {
			shown = part
			tell(int((done+999_999)/1_000_000), int((of+999_999)/1_000_000))
		}
	}
}

// safe replaces what could steer a terminal or turn text round: control
// characters, and the marks that change the direction of writing.
func safe(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return '\n'
		case unicode.IsControl(r), r >= 0x202A && r <= 0x202E, r >= 0x2066 && r <= 0x2069, r == 0x200E, r == 0x200F, r == 0x061C, r == unicode.ReplacementChar:
			return '�'
		}
		return r
	}, s)
}

// quoted is a path as it can be pasted into a command line: in quotes where a shell
// would take it apart.
func quoted(path string) string {
	plain := func(r rune) bool {
		return unicode.IsLetter(r) || unicode.IsDigit(r) || strings.ContainsRune("/._-+,:@%~", r)
	}
	if path != "" && strings.IndexFunc(path, func(r rune) bool { return !plain(r) }) < 0 {
		return path
	}
	return "'" + strings.ReplaceAll(safe(path), "'", `'\''`) + "'"
}

// closeInto closes c and keeps its error in err if there is none yet.
func closeInto(err *error, c io.Closer) {
	if e := c.Close(); e != nil && *err == nil {
		*err = e
	}
}
