package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"evidencevault/audit"
	"evidencevault/extract/page"
	"evidencevault/journal"
)

// formFlags are those of the verb form.
type formFlags struct {
	mapping, out, on, claims string
}

// mostForm is the largest form that is opened, in bytes.
const mostForm = 96 << 20

func (a *app) formCommand() *cobra.Command {
	var f formFlags
	c := &cobra.Command{
		Use:   "form FILE",
		Short: "fill the body's own form from the claims",
		Long: `form fills a PDF with fields, a workbook (.xlsx) or a word processor's document (.docx)
with content controls. A mapping file says which expression goes into which field, see
docs/form.md; without --map the fields are listed. Where there are more claims than rows
the form is filled once more: OUT.pdf, OUT-2.pdf. The form itself is not touched, and no
file is written over.

What to see before it is handed in, such as fields that the mapping does not name or a
text that does not fit, is listed, and the program ends with 3.`,
		Example: "  vaultctl form report.pdf\n  vaultctl form report.pdf --map report.toml -o filled.pdf",
		Args:    a.args(cobra.ExactArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error {
			if f.mapping != "" && f.out == "" {
				return usagef("-o: name the file to write")
			}
			form, err := smallFile(args[0])
			if err != nil {
				return err
			}
			r := page.NewReader(page.Options{})
			defer r.Close() // what it held is no longer wanted
			if f.mapping == "" {
				return a.listFields(cmd, r, args[0], form)
			}
			return a.reading(cmd.Context(), func(j *journal.Journal) error { return a.fillForm(cmd, j, r, args[0], form, f) })
		},
	}
	c.Flags().StringVar(&f.mapping, "map", "", "the file that says what goes where (else the fields are listed)")
	c.Flags().StringVarP(&f.out, "output", "o", "", "the file to write")
	c.Flags().StringVar(&f.on, "on", "", "the day for which the figures hold, YYYY-MM-DD (else today)")
	c.Flags().StringVar(&f.claims, "claims", "", "only these, as in C1,C4-C6")
	return c
}

// smallFile reads a file whole, unless it is too large for a form.
func smallFile(name string) ([]byte, error) {
	info, err := os.Stat(name)
	if err == nil && !info.Mode().IsRegular() { // a pipe would be waited for
		err = fmt.Errorf("%s: it is no file; name a PDF, a workbook or a document", name)
	}
	if err == nil && info.Size() > mostForm {
		err = fmt.Errorf("%s: it has %d bytes, and a form at most %d", name, info.Size(), mostForm)
	}
	if err != nil {
		return nil, err
	}
	return os.ReadFile(name)
}

func (a *app) listFields(cmd *cobra.Command, r *page.Reader, name string, form []byte) error {
	fields, err := r.FormFields(cmd.Context(), strings.NewReader(string(form)), "")
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if a.json {
		return a.printJSON(fields)
	}
	var rows [][]string
	for _, f := range fields {
		note := strings.Join(f.Options, " | ")
		if f.Locked {
			note = "locked"
		}
		rows = append(rows, []string{f.Name, f.Kind, fmt.Sprint(f.Page), f.Value, note})
	}
	a.table([]column{{head: "field", most: 48}, {head: "kind"}, {head: "page", number: true}, {head: "value", most: 40}, {head: "", most: 40}}, rows)
	return nil
}

func (a *app) fillForm(cmd *cobra.Command, j *journal.Journal, r *page.Reader, name string, form []byte, f formFlags) error {
	text, err := smallFile(f.mapping)
	if err != nil {
		return err
	}
	m, err := audit.ParseFormMap(filepath.Base(f.mapping), text)
	if err != nil {
		return err
	}
	day, err := a.parseOn(f.on)
	if err != nil {
		return err
	}
	d, err := audit.Gather(cmd.Context(), j, a.certification, day)
	if err == nil && f.claims != "" {
		d, err = chosen(d, packetFlags{claims: f.claims})
	}
	if err != nil {
		return err
	}
	data, err := audit.GatherForm(cmd.Context(), j, d)
	if err != nil {
		return err
	}
	files, found, err := audit.FillForm(cmd.Context(), r, form, m, data)
	if errors.Is(err, audit.ErrMap) {
		return err
	}
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	written, err := writeForms(f.out, files)
	if err != nil {
		return err
	}
	a.see = len(found) > 0
	if a.json {
		return a.printJSON(map[string]any{"files": written, "claims": len(data.Claims), "findings": found})
	}
	for _, w := range written {
		a.printf("written: %s\n", safe(w))
	}
	a.printf("%s filled in\n", count(len(data.Claims), "claim", "claims"))
	for _, x := range found {
		where := x.Field + x.Claim
		if x.File > 0 && len(written) > 1 {
			where = fmt.Sprintf("file %d, %s", x.File, where)
		}
		a.say(fmt.Sprintf("  %s: %s (%s)", safe(where), safe(x.Text), x.What))
	}
	return nil
}

// writeForms writes all files or none: name, then name-2, name-3 …
func writeForms(name string, files [][]byte) (written []string, err error) {
	ext := filepath.Ext(name)
	for i, data := range files {
		to := name
		if i > 0 {
			to = fmt.Sprintf("%s-%d%s", strings.TrimSuffix(name, ext), i+1, ext)
		}
		if err := writeNew(to, data, false); err != nil {
			for _, w := range written {
				if rerr := os.Remove(w); rerr != nil {
					return nil, fmt.Errorf("%w; %s was written and could not be removed", err, w)
				}
			}
			return nil, err
		}
		written = append(written, to)
	}
	return written, nil
}
