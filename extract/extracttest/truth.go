package extracttest

import (
	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// Made is one invented paper. The zero Made is no paper.
type Made struct {
	Name  string // the name of the file, a handle without meaning
	Data  []byte // the bytes of the file
	Truth Truth
	Text  string // the words on the paper in the order in which they were laid out, for checks of the generator

	facts facts
}

// Truth is what a careful reader writes down from one paper. A nil field is one that
// the paper does not have, or that stands in Ask. It is written as JSON in the layout
// of the corpus truth files.
type Truth struct {
	File     string           `json:"file"`
	Format   string           `json:"format"`
	Language string           `json:"language"`
	Kind     paper.Kind       `json:"kind"`
	Title    *string          `json:"title"`
	Provider *string          `json:"provider"`
	Attendee *string          `json:"attendee"`
	Start    *string          `json:"start_date"`
	End      *string          `json:"end_date"`
	Issue    *string          `json:"issue_date"`
	Duration *int64           `json:"duration_minutes"` // net minutes
	Credits  []paper.Printed  `json:"credits"`
	Total    *paper.Money     `json:"total"`
	Ask      []Ask            `json:"ask"`  // never nil
	Also     map[string][]any `json:"also"` // never nil; other values that count as exact
	Why      string           `json:"why"`
}

// Ask is a field that the paper leaves open, with the values that are possible.
type Ask struct {
	Field      paper.Field `json:"field"`
	Candidates []any       `json:"candidates"`
}

// Asks reports whether the paper leaves field f open.
func (t Truth) Asks(f paper.Field) bool {
	for _, a := range t.Ask {
		if a.Field == f {
			return true
		}
	}
	return false
}

// facts is what was drawn for a paper, kept for the checks.
type facts struct {
	start, end, issue credit.Date
	clocks            []clockTime // one day's clock times
	breaks            []clockTime // listed breaks of one day; a length alone begins at 0
	days              int         // how many days have these clock times
	stated            int         // minutes that the paper states, 0 for none
	layout            string
}

// clockTime is a stretch of a day in minutes after midnight.
type clockTime struct{ from, to int }

func (c clockTime) minutes() int { return c.to - c.from }
