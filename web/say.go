package web

import (
	"net/http"
	"strings"

	"evidencevault/extract/paper"
)

// Say returns a sentence of the program in this language; English, and what is no
// sentence that this language knows, as it is.
func (w *words) Say(text string) string { return w.sayings.Say(text) }

// say is an error's text in the visitor's language.
func (s *Server) say(r *http.Request, err error) string { return wordsFor(r).Say(err.Error()) }

// Because says in one line why a field has its value.
func (w *words) Because(field string, b *because) string {
	if b.Person {
		return w.T("why.person")
	}
	var parts []string
	switch {
	case b.Why != "":
		parts = append(parts, w.Say(b.Why))
	case b.Page > 0:
		parts = append(parts, w.T("why.place"))
	}
	if b.Page > 0 {
		parts = append(parts, w.T("paper.page", b.Page))
	}
	if b.Certain {
		parts = append(parts, w.T("why.certain"))
	} else {
		parts = append(parts, w.T("why.open"))
	}
	if b.Score > 0 {
		parts = append(parts, w.T("why.score", b.Score))
	}
	for _, o := range b.Others {
		other := w.T("why.other", w.Value(field, o.Value))
		if o.Why != "" {
			other += " (" + w.Say(o.Why) + ")"
		}
		parts = append(parts, other)
	}
	return strings.Join(parts, "; ")
}

// Value prints the value of a field so that it cannot be misread.
func (w *words) Value(field, value string) string {
	if field == string(paper.FieldKind) {
		return w.Or("kind", value)
	}
	if d := day(value); !d.IsZero() {
		return w.Day(d)
	}
	if m, ok := minutes(value); ok && field == string(paper.FieldDuration) {
		return w.Time(&m)
	}
	return value
}
