package web

import (
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/paper"
	"evidencevault/journal"
)

// value is what a paper says of a field, in canonical form.
func value(p journal.WaitingPaper, f paper.Field) string {
	return text(p.Values[f].Value)
}

// text is a value as the machine interface has it, in canonical form.
func text(v any) string {
	switch v := v.(type) {
	case nil:
		return ""
	case string:
		return v
	case []paper.Printed:
		return paper.FormatCredits(v)
	case paper.Money:
		return v.Amount + " " + v.Currency
	case *paper.Money:
		return v.Amount + " " + v.Currency
	}
	return fmt.Sprint(v)
}

func day(text string) credit.Date {
	d, err := credit.ParseDate(text)
	if err != nil {
		return credit.Date{} // shown as not known; the form has the text itself
	}
	return d
}

func minutes(text string) (credit.Minutes, bool) {
	n, err := strconv.ParseInt(text, 10, 64)
	return credit.Minutes(n), err == nil
}

// nameOf says which paper it is by the name under which its file came.
func nameOf(p journal.WaitingPaper) string {
	name := p.File
	if p.Part != "" {
		name += ": " + p.Part
	}
	return name
}

func firstPage(p journal.WaitingPaper) string { return strconv.Itoa(max(1, p.Pages[0])) }

// typed is what somebody put into a field.
type typed struct{ Field, Value string }

// typedIn are the fields of a form that hold something else than the page had put there,
// in the order of their names.
func typedIn(r *http.Request) []typed {
	var list []typed
	for key := range r.PostForm {
		value := strings.TrimSpace(r.PostForm.Get(key))
		if field, ok := strings.CutPrefix(key, "set."); ok && value != "" && value != r.PostForm.Get("was."+field) {
			list = append(list, typed{field, value})
		}
	}
	slices.SortFunc(list, func(a, b typed) int { return strings.Compare(a.Field, b.Field) })
	return list
}
