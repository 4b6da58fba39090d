package scheme

import (
	"cmp"
	"fmt"
	"slices"
)

// Problem is one thing that is wrong in a file, and where.
type Problem struct {
	File   string `json:"file"`
	Line   int    `json:"line"`   // counted from 1
	Column int    `json:"column"` // counted in bytes from 1
	Text   string `json:"text"`   // what is wrong
	Hint   string `json:"hint,omitempty"`
}

// String prints "FILE:LINE:COLUMN: text (hint)".
func (p Problem) String() string {
	s := fmt.Sprintf("%s:%d:%d: %s", p.File, p.Line, p.Column, p.Text)
	if p.Hint != "" {
		s += " (" + p.Hint + ")"
	}
	return s
}

// maxProblems bounds the list that is given for one file.
const maxProblems = 200

// problems gathers what is wrong in one file.
type problems struct {
	file string
	list []Problem
}

func (p *problems) add(at position, hint, format string, args ...any) {
	if len(p.list) < maxProblems {
		p.list = append(p.list, Problem{p.file, at.line, at.column, fmt.Sprintf(format, args...), hint})
	}
}

// sorted returns the problems in the order of the file, each once.
func (p *problems) sorted() []Problem {
	slices.SortStableFunc(p.list, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return slices.Compact(p.list)
}

// maxSlips is how many letters a misspelt name may be off.
const maxSlips = 2

// nearest returns the known name that name is likely meant to be, or "": one that one or
// two letters make of it, and less than half of its letters.
func nearest(name string, known []string) string {
	best, least := "", maxSlips+1
	for _, k := range known {
		if d := distance(name, k); d < least && 2*d < len(name) {
			best, least = k, d
		}
	}
	return best
}

// distance counts the letters to change, add or take away to make b of a. Names longer
// than 64 bytes are not compared.
func distance(a, b string) int {
	if len(a) > 64 || len(b) > 64 {
		return 64
	}
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		before := row[0]
		row[0] = i + 1
		for j := range len(b) {
			next := min(row[j+1], row[j]) + 1
			if a[i] == b[j] {
				next = min(next, before)
			} else {
				next = min(next, before+1)
			}
			before, row[j+1] = row[j+1], next
		}
	}
	return row[len(b)]
}
