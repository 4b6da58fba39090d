package web

import (
	"net/http"

	"evidencevault/extract/paper"
)

// Say returns a sentence of the program in this language; English, and what is no
// sentence that this language knows, as it is.
func (w *words) Say(text string) string { return w.sayings.Say(text) }

// say is an error's text in the visitor's language.
func (s *Server) say(r *http.Request, err error) string { return wordsFor(r).Say(err.Error()) }

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
