package journal

import (
	"fmt"
	"maps"
	"strconv"

	"evidencevault/extract/paper"
)

// texts returns the canonical text of each value that has one.
func texts(values map[paper.Field]paper.Value) map[paper.Field]string {
	out := make(map[paper.Field]string, len(values))
	for f, v := range values {
		if v.Text != "" {
			out[f] = v.Text
		}
	}
	return out
}

// withSet returns values with what a person set over them. Such a value is proven by
// the paper's first page without box or quote; an empty one takes the value away.
func withSet(values map[paper.Field]paper.Value, set map[paper.Field]string, firstPage int) map[paper.Field]paper.Value {
	out := make(map[paper.Field]paper.Value, len(values)+len(set))
	maps.Copy(out, values)
	for f, text := range set {
		if text == "" {
			delete(out, f)
			continue
		}
		out[f] = paper.Value{Text: text, Certain: true, By: paper.ByPerson, Place: paper.Place{Page: max(1, firstPage)}}
	}
	return out
}

// rowField reports whether each row of a transcript has a value of its own for f.
func rowField(f paper.Field) bool {
	switch f {
	case paper.FieldTitle, paper.FieldStart, paper.FieldEnd, paper.FieldDuration, paper.FieldCredits:
		return true
	}
	return false
}

// rowValues returns the values of row n (from 1) of a transcript: those of the paper,
// but title, days, minutes and credits from the row alone.
func rowValues(values map[paper.Field]paper.Value, r paper.Reading, n int) map[paper.Field]paper.Value {
	row := r.Rows[n-1]
	out := make(map[paper.Field]paper.Value, len(values))
	for f, v := range values {
		if !rowField(f) || v.By == paper.ByPerson {
			out[f] = v
		}
	}
	put := func(f paper.Field, text string) {
		if v := out[f]; text != "" && v.By != paper.ByPerson {
			out[f] = paper.Value{Text: text, Place: row.Place, Certain: true, By: paper.ByProgram}
		}
	}
	put(paper.FieldTitle, row.Title)
	put(paper.FieldStart, row.Start.String())
	put(paper.FieldEnd, row.End.String())
	if row.Duration != nil {
		put(paper.FieldDuration, strconv.FormatInt(int64(*row.Duration), 10))
	}
	if len(row.Credits) > 0 {
		put(paper.FieldCredits, paper.FormatCredits(row.Credits))
	}
	return out
}

// rowsInRange reports the first of rows that the reading does not have.
func rowsInRange(id string, r paper.Reading, rows ...int) error {
	for _, n := range rows {
		if n < 1 || n > len(r.Rows) {
			return fmt.Errorf("%s row %d: %w: the reading has %d rows", id, n, ErrUnknown, len(r.Rows))
		}
	}
	return nil
}
