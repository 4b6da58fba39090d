package web

import (
	"net/http"
	"regexp"
	"strings"

	"evidencevault/extract/paper"
)

// Say returns a sentence of the program in this language; English, and what is no
// sentence that this language knows, as it is.
func (w *words) Say(text string) string { return w.sayings.Say(text) }

// Here is Say for a text that may name a way out of the command line, which is no way out
// here: that part is left out. The page's own forms stand beside it.
func (w *words) Here(text string) string {
	said := w.Say(text)
	for _, part := range ofCommandLine {
		said = part.ReplaceAllString(said, "")
	}
	return said
}

// ofCommandLine are the parts of a sentence that name a command or a flag: a clause that
// gives nothing else, the command after a colon, and a flag alone.
var ofCommandLine = []*regexp.Regexp{
	regexp.MustCompile(`; (?:see|run|use)\b[^;]*\bvaultctl [^;]*`),
	regexp.MustCompile(`(?:[:;,]? see| with|[:;])? vaultctl [a-z][^,;]*`),
	regexp.MustCompile(` \(vaultctl [^)]*\)`),
	regexp.MustCompile(`; [^;]* --[a-z][^;]*`),
	regexp.MustCompile(` --[a-z][a-z-]*(?:[ =][A-Z]+\b)?`),
}

// say is an error's text in the visitor's language, as it makes sense on the page.
func (s *Server) say(r *http.Request, err error) string { return wordsFor(r).Here(err.Error()) }

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
