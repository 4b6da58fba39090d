package page

import (
	"context"
	"errors"
	"fmt"
	"io"
)

// ErrNoForm says that a document is no form that can be filled.
var ErrNoForm = errors.New("it is no form that can be filled")

// Kinds of field of a form.
const (
	FieldText   = "text"
	FieldCheck  = "check"  // a box to tick, or one of several of which one is chosen
	FieldChoice = "choice" // one of a list
	FieldSigned = "signature"
	FieldCell   = "cell"
)

// FormField is one field of a form as it is now.
type FormField struct {
	Name    string   `json:"name"`
	Kind    string   `json:"kind"`
	Page    int      `json:"page,omitempty"` // counted from 1; 0 where the format has none
	Value   string   `json:"value,omitempty"`
	Options []string `json:"options,omitempty"` // of a choice
	Locked  bool     `json:"locked,omitempty"`  // nobody is to write there
}

// Kinds of value, so that a workbook gets real numbers and days.
const (
	ValueText   = ""
	ValueNumber = "number" // decimal, with a point
	ValueDay    = "day"    // YYYY-MM-DD
)

// FormValue is what is written into one field: of a PDF by its full name, of a word
// processor's document by the tag or title of its content control, of a workbook by its
// cell, as B3 or Sheet!B3.
type FormValue struct {
	Name string
	Text string // as it is shown; of a box to tick "yes" ticks it
	Kind string // ValueText, ValueNumber or ValueDay
	Raw  string // the number or day itself, where Kind says so
}

// Problem is what went wrong with one field while a form was filled.
type Problem struct {
	Name string
	What string // one of the constants below
	Text string // in words
}

// What can go wrong with a field.
const (
	ProblemUnknown = "unknown-field" // the form has none of this name
	ProblemLong    = "overlong"      // the text does not fit, or was cut off
	ProblemChoice  = "no-such-choice"
	ProblemLocked  = "locked"
	ProblemFormula = "formula" // the cell works out its own value
)

// FormFields lists the fields of a form: a PDF with fields, a word processor's document
// with content controls, a workbook (of which it lists the cells with text). The error
// matches [ErrNoForm] or [ErrLocked].
func (r *Reader) FormFields(ctx context.Context, src io.Reader, password string) ([]FormField, error) {
	a, _, err := r.form(ctx, src, order{Do: doFields, Password: password})
	return a.Fields, err
}

// Fill returns the form with values written into it; the original is not touched. What
// could not be written is left out and told. Every change is made by a limited child.
// The error matches [ErrNoForm] or [ErrLocked].
func (r *Reader) Fill(ctx context.Context, src io.Reader, values []FormValue, password string) ([]byte, []Problem, error) {
	a, data, err := r.form(ctx, src, order{Do: doFill, Password: password, Values: values})
	if err == nil && len(data) == 0 {
		err = fmt.Errorf("%w: nothing came out of it", ErrNoForm)
	}
	return data, a.Problems, err
}

func (r *Reader) form(ctx context.Context, src io.Reader, o order) (reply, []byte, error) {
	var a reply
	in, size, err := seekable(src, r.o.Bytes)
	if err != nil {
		return a, nil, err
	}
	if size == 0 || size > r.o.Bytes {
		return a, nil, fmt.Errorf("%w: the file has %d bytes", ErrNoForm, size)
	}
	c, err := r.take(ctx)
	if err != nil {
		return a, nil, err
	}
	defer func() { r.give(c) }()
	data, err := r.ask(ctx, c, o, in, &a)
	if err != nil {
		doc, err := troubled(err)
		if err == nil {
			err = fmt.Errorf("%w: %s", ErrNoForm, doc.Reason)
		}
		return a, nil, err
	}
	switch a.Document.Trouble {
	case None:
		return a, data, nil
	case Password:
		return a, nil, fmt.Errorf("%w: %s", ErrLocked, a.Document.Reason)
	}
	return a, nil, fmt.Errorf("%w: %s", ErrNoForm, a.Document.Reason)
}

// typeWorkbook is the media type of a workbook.
const typeWorkbook = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"

// formJob lists or fills the fields of the document held.
func (e *engine) formJob(kind string, o order) (answer, blob []byte, again bool) {
	var a reply
	again = true
	switch kind {
	case "pdf":
		a, blob, again = e.formPDF(o)
	case "docx":
		a, blob = formDocx(e.last, o)
	case typeWorkbook:
		a, blob = formSheet(e.last, o)
	default:
		a.Document = Document{Trouble: Other, Reason: "want a PDF, a workbook (.xlsx) or a word processor's document (.docx), and this is " + kind}
	}
	return replyBytes(a), blob, again
}

func noForm(reason string) reply {
	return reply{Document: Document{Trouble: Unreadable, Reason: reason}}
}

// unknown returns a problem for each value whose field is not among the names.
func unknown(values []FormValue, names map[string]bool) []Problem {
	var list []Problem
	for _, v := range values {
		if !names[v.Name] {
			list = append(list, Problem{v.Name, ProblemUnknown, "the form has no field of this name"})
		}
	}
	return list
}
