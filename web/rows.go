package web

import (
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"evidencevault/catalog"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// What can be chosen for a row of a transcript.
const (
	rowClaim = "claim"
	rowLeave = "leave"
	rowLater = "later"
)

// rowFields are those that a row says itself; for the whole transcript they cannot be
// set.
var rowFields = []paper.Field{paper.FieldTitle, paper.FieldStart, paper.FieldEnd, paper.FieldDuration, paper.FieldCredits}

// rowPart is one row of a transcript in the form.
type rowPart struct {
	journal.WaitingRow
	Open   bool
	Choice string // rowClaim, rowLeave or rowLater
	Lacks  bool   // a question on it is open
}

// byRow reports whether each row of the paper becomes a claim of its own.
func (p *paperPage) byRow() bool {
	return p.Kind == string(paper.Transcript) && len(p.PaperDetail.Rows) > 0
}

// rows makes the table of a transcript and, where the form is about one row alone,
// takes what the row says as the paper's values.
func (p *paperPage) rows(filled *filledForm) error {
	if !p.byRow() {
		p.Row = 0
		return nil
	}
	for _, r := range p.PaperDetail.Rows {
		part := rowPart{WaitingRow: r, Open: p.Open && (r.State == "" || r.State == catalog.Waiting), Choice: rowClaim}
		if filled != nil && filled.rows[r.Row] != "" {
			part.Choice = filled.rows[r.Row]
		}
		part.Lacks = slices.ContainsFunc(p.WaitingPaper.Questions, func(q journal.WaitingQuestion) bool { return q.Row == r.Row })
		p.RowParts = append(p.RowParts, part)
		if part.Open && r.Row > p.Row && p.NextRow == 0 {
			p.NextRow = r.Row
		}
	}
	if p.Row == 0 {
		return nil
	}
	if p.Row > len(p.RowParts) || p.Row < 0 {
		return fmt.Errorf("%s row %d: %w: it has %d rows", p.ID, p.Row, journal.ErrUnknown, len(p.RowParts))
	}
	p.take(p.RowParts[p.Row-1].WaitingRow)
	return nil
}

// take puts a row's values in the place of the paper's.
func (p *paperPage) take(r journal.WaitingRow) {
	values := map[paper.Field]paper.LineValue{}
	for f, v := range p.WaitingPaper.Values {
		if !slices.Contains(rowFields, f) || v.By == paper.ByPerson {
			values[f] = v
		}
	}
	put := func(f paper.Field, text string) {
		if _, ok := values[f]; !ok && text != "" {
			values[f] = paper.LineValue{Value: text, Certain: true, By: paper.ByProgram}
		}
	}
	put(paper.FieldTitle, r.Title)
	put(paper.FieldStart, r.Start.String())
	put(paper.FieldEnd, r.End.String())
	put(paper.FieldCredits, paper.FormatCredits(r.Credits))
	if r.Duration != nil {
		put(paper.FieldDuration, strconv.FormatInt(int64(*r.Duration), 10))
	}
	p.WaitingPaper.Values = values
}

// about reports whether a question belongs to what the form is about: the row that was
// chosen, or the whole paper. Of a transcript it leaves out what the rows say.
func (p *paperPage) about(q journal.WaitingQuestion) bool {
	if p.byRow() && q.Row == 0 && slices.Contains(rowFields, q.Field) {
		return false
	}
	return q.Row == 0 || q.Row == p.Row
}

// readRows takes what was chosen for each row: "row.3" is claim, leave or later.
func (f *filledForm) readRows(r *http.Request) {
	f.row, _ = strconv.Atoi(r.PostForm.Get("row")) // 0: the whole paper
	f.rows = map[int]string{}
	for key := range r.PostForm {
		if n, err := strconv.Atoi(strings.TrimPrefix(key, "row.")); err == nil && strings.HasPrefix(key, "row.") {
			f.rows[n] = r.PostForm.Get(key)
		}
	}
}

// chosen returns the rows of which the form says what.
func (f *filledForm) chosen(what string) []int {
	var list []int
	for n, w := range f.rows {
		if w == what {
			list = append(list, n)
		}
	}
	slices.Sort(list)
	return list
}

// acts are what the journal is asked to do for a form, one after the other: one act,
// but where some rows of a transcript are left for later one for each row.
func (f *filledForm) acts() []journal.ConfirmOptions {
	o := f.options()
	if f.row > 0 {
		o.Row = f.row
		return []journal.ConfirmOptions{o}
	}
	o.SkipRows = f.chosen(rowLeave)
	if len(f.chosen(rowLater)) == 0 {
		return []journal.ConfirmOptions{o}
	}
	var list []journal.ConfirmOptions
	for _, n := range f.chosen(rowClaim) {
		one := o
		one.Row = n
		if len(list) > 0 {
			one.SkipRows = nil // they were left out by the first
		}
		list = append(list, one)
	}
	return list
}

// foretold is one act that comes to the same figures: what is left for later is as if it
// were left out.
func (f *filledForm) foretold() journal.ConfirmOptions {
	o := f.options()
	if o.Row = f.row; f.row == 0 {
		o.SkipRows = append(f.chosen(rowLeave), f.chosen(rowLater)...)
		slices.Sort(o.SkipRows)
	}
	return o
}

// RowChoices are what can be chosen for a row of a transcript.
func (w *words) RowChoices() []string { return []string{rowClaim, rowLeave, rowLater} }
