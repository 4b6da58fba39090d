package journal

import (
	"errors"
	"fmt"
	"strings"

	"evidencevault/catalog"
	"evidencevault/extract/paper"
)

// The errors that a caller may test for.
var (
	// ErrOpen says that a question that matters is open; see [OpenError].
	ErrOpen = errors.New("a question is open")
	// ErrNotWaiting says that a paper is not in the state that the act needs, often
	// since it was decided in the meantime; see [StateError].
	ErrNotWaiting = errors.New("not waiting")
	// ErrUnknown says that the vault has nothing of this name.
	ErrUnknown = catalog.ErrUnknown
	// ErrField says that a field has an unknown name or a value that it cannot have.
	ErrField = errors.New("not a field")
	// ErrCategory says that the scheme has no such category.
	ErrCategory = errors.New("no such category")
	// ErrClosed says that the cycle is closed, so nothing in it can change.
	ErrClosed = errors.New("the cycle is closed")
	// ErrNothing says that there is nothing to take back.
	ErrNothing = errors.New("nothing to undo")
	// ErrPages says that page ranges do not fit the paper.
	ErrPages = errors.New("the pages do not fit")
	// ErrScheme says that a scheme file has problems; see [SchemeError].
	ErrScheme = errors.New("the scheme file has problems")
	// ErrCertification says that no certification, or more than one, is meant.
	ErrCertification = errors.New("which certification")
	// ErrVault says that a folder is no vault, or is one already.
	ErrVault = errors.New("not a folder for a vault")
)

// An OpenError names the paper and each question that keeps it from being
// confirmed, with the way out. It matches [ErrOpen].
type OpenError struct {
	Paper     string // P12
	Row       int    // of a transcript, counted from 1; 0 for the whole paper
	For       string // the further certification that asks; "" for the first
	Questions []paper.Question
}

// Error gives one line: paper, fields, the first question, and what to type.
func (e *OpenError) Error() string {
	names := make([]string, len(e.Questions))
	flags := make([]string, len(e.Questions))
	for i, q := range e.Questions {
		names[i] = string(q.Field)
		if flags[i] = "--set " + names[i] + "=VALUE"; q.Field == paper.FieldCategory {
			flags[i] = "--category NAME"
			if e.For != "" {
				flags[i] = "--category " + e.For + "=NAME"
			}
		}
	}
	what := e.Paper
	if e.Row > 0 {
		what = fmt.Sprintf("%s row %d", e.Paper, e.Row)
	}
	if e.For != "" {
		what += " for " + e.For
	}
	text := strings.TrimRight(strings.ReplaceAll(e.Questions[0].Text, "\n", " "), ".")
	text += choices(e.Questions[0].Candidates)
	then := "; answer"
	if strings.HasSuffix(text, "?") {
		then = " Answer"
	}
	return fmt.Sprintf("%s: %v: %s: %s%s with %s", what, ErrOpen, strings.Join(names, ", "), text, then, strings.Join(flags, " "))
}

// choices lists candidates in brackets, unless there are none.
func choices(candidates []paper.Candidate) string {
	if len(candidates) == 0 {
		return ""
	}
	texts := make([]string, len(candidates))
	for i, c := range candidates {
		texts[i] = c.Text
	}
	return " (" + strings.Join(texts, ", ") + ")"
}

func (e *OpenError) Unwrap() error { return ErrOpen }

// A StateError says in which state a paper or claim is already, so that the act does
// not do. It matches
// [ErrNotWaiting].
type StateError struct {
	Paper string   // P12, or the claim or activity that is meant
	State string   // confirmed, set aside, retired, withdrawn, …
	Now   []string // what it has become: claims, receipts, or new papers
	Want  string   // the way out
}

func (e *StateError) Error() string {
	now := ""
	if len(e.Now) > 0 {
		now = ", see " + strings.Join(e.Now, " ")
	}
	return fmt.Sprintf("%s: already %s%s; %s", e.Paper, e.State, now, e.Want)
}

func (e *StateError) Unwrap() error { return ErrNotWaiting }
