package demo

import (
	"cmp"
	"embed"
	"encoding/json"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"evidencevault/credit"
)

//go:embed truth
var truths embed.FS

// Truth is what a careful reader writes down from one paper. A field that the paper
// does not have, or that is in Ask, is its zero value. A file with several papers
// has a Truth for each.
type Truth struct {
	File      string                       `json:"file"`
	Pages     string                       `json:"pages"` // of a file with several papers: the page of this one
	Format    string                       `json:"format"`
	Language  string                       `json:"language"`
	Kind      string                       `json:"kind"`
	Title     string                       `json:"title"`
	Provider  string                       `json:"provider"`
	Attendee  string                       `json:"attendee"`
	StartDate string                       `json:"start_date"` // YYYY-MM-DD, as the next two
	EndDate   string                       `json:"end_date"`
	IssueDate string                       `json:"issue_date"`
	Duration  *credit.Minutes              `json:"duration_minutes"` // nil: none
	Credits   []Printed                    `json:"credits"`
	Total     *Money                       `json:"total"` // nil: none
	Ask       []Ask                        `json:"ask"`
	Also      map[string][]json.RawMessage `json:"also"`    // by field: other values that are as right
	Outcome   []string                     `json:"outcome"` // of a file that cannot be read well: how reading it may end
	Why       string                       `json:"why"`
}

// Printed is a number of credits as a paper prints it.
type Printed struct {
	Unit  string        `json:"unit"`
	Value credit.Amount `json:"value"`
}

// Money is a sum, exact as printed, with the ISO 4217 code of its currency.
type Money struct {
	Amount   string `json:"amount"`
	Currency string `json:"currency"`
}

// Ask is a field that the paper leaves open, with the values that are possible.
type Ask struct {
	Field      string            `json:"field"`
	Candidates []json.RawMessage `json:"candidates"` // each a string or a number, as the field has it
}

// Truths returns what is in the papers, by file and then by page: that of each
// paper that can be read, and for the two others only File, Outcome and Why.
func Truths() []Truth {
	var list []Truth
	err := fs.WalkDir(truths, "truth", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		var t Truth
		if err := json.Unmarshal(read(truths, name), &t); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		list = append(list, t)
		return nil
	})
	if err != nil {
		panic(err) // what is embedded can be read
	}
	slices.SortFunc(list, func(a, b Truth) int {
		return cmp.Or(strings.Compare(a.File, b.File), strings.Compare(a.Pages, b.Pages))
	})
	return list
}

// TruthFiles returns the folder truth as it is kept: NAME.json for every paper
// (the last one of a file with several), more/ for the further papers of such a
// file, and trouble/ for files that cannot be read well.
func TruthFiles() fs.FS {
	sub, err := fs.Sub(truths, "truth")
	if err != nil {
		panic(err) // the name is a constant
	}
	return sub
}
