package audit

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"
)

var csvHead = []string{"claim", "start_date", "end_date", "category", "title", "provider", "duration_minutes", "awarded", "counted",
	"scheme", "version", "rule_line", "rule_source", "field", "value", "file", "sha256", "page", "quote", "by"}

// WriteCSV writes one line for each proof, and one for each claim without a
// proof, as RFC 4180 says, in UTF-8. No cell can be taken for a formula by a
// spreadsheet program: one that begins like a formula gets an apostrophe in front.
func (d Dossier) WriteCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	rows := [][]string{csvHead}
	for _, e := range d.Claims {
		minutes := ""
		if e.Minutes != nil {
			minutes = strconv.FormatInt(int64(*e.Minutes), 10)
		}
		claim := []string{e.ID, e.Start.String(), e.End.String(), e.Category, e.Title, e.Provider, minutes, e.Awarded.String(), e.Counted.String(),
			d.Scheme.ID, d.Scheme.Version, strconv.Itoa(e.Rule.Line), e.Rule.Source}
		if len(e.Proofs) == 0 {
			rows = append(rows, append(claim, "", "", "", "", "", "", ""))
		}
		for _, p := range e.Proofs {
			row := append([]string{}, claim...)
			rows = append(rows, append(row, p.Field, p.Value, p.Copy, p.SHA256, strconv.Itoa(p.Page), p.Quote, p.By))
		}
	}
	for _, row := range rows {
		for i := range row {
			row[i] = noFormula(row[i])
		}
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// noFormula puts an apostrophe before a text that a spreadsheet program would run:
// one that begins, after blanks and quotation marks, with a formula's sign, in plain or
// full-width form, or with a control character. The text without it is the original.
func noFormula(s string) string {
	begin := strings.TrimLeft(s, " \u00a0\u3000\"';,")
	if begin == "" {
		return s
	}
	if r, _ := utf8.DecodeRuneInString(begin); strings.ContainsRune("=+-@＝＋－＠", r) || r < ' ' {
		return "'" + s
	}
	return s
}
