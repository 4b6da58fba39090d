package web

import (
	"fmt"
	"net/http"
	"regexp"
	"slices"
	"strings"

	"evidencevault/extract/paper"
)

// saying is a sentence of the program's own that comes from below the page in English,
// as a question of a reading or an act of the history, with what stands for it in another
// language. Parts in braces are what is filled in: {x} is taken over as it is, {x!} is
// said in the other language too. {n}, {m} and {y} are one word, {h}, {r} and {d} have no comma.
type saying struct {
	from  *regexp.Regexp
	to    string
	fixed int // bytes that are not filled in: the more, the earlier it is tried
}

var hole = regexp.MustCompile(`\{(\w+)(!?)\}`)

// newSaying reads "English => other".
func newSaying(line string) (saying, error) {
	from, to, ok := strings.Cut(line, " => ")
	if !ok {
		return saying{}, fmt.Errorf("%q: want English => other", line)
	}
	var pattern strings.Builder
	at, fixed := 0, len(from)
	for _, m := range hole.FindAllStringSubmatchIndex(from, -1) {
		pattern.WriteString(regexp.QuoteMeta(from[at:m[0]]))
		pattern.WriteString("(?P<" + from[m[2]:m[3]] + ">" + filling(from[m[2]:m[3]]) + ")")
		at, fixed = m[1], fixed-(m[1]-m[0])
	}
	pattern.WriteString(regexp.QuoteMeta(from[at:]))
	re, err := regexp.Compile(`(?s)^` + pattern.String() + `$`)
	if err != nil {
		return saying{}, err
	}
	for _, m := range hole.FindAllStringSubmatch(to, -1) {
		if re.SubexpIndex(m[1]) < 0 {
			return saying{}, fmt.Errorf("%q: {%s} is not in the English text", line, m[1])
		}
	}
	return saying{re, to, fixed}, nil
}

// filling is the pattern of what a part of this name can be.
func filling(name string) string {
	switch name {
	case "n", "m", "y":
		return `\S+?`
	case "h", "r", "d":
		return `[^,]+?`
	}
	return `.+?`
}

// say returns the sentence in the other language, if text is one of its kind.
func (s saying) say(w *words, text string) (string, bool) {
	found := s.from.FindStringSubmatch(text)
	if found == nil {
		return "", false
	}
	return hole.ReplaceAllStringFunc(s.to, func(h string) string {
		name, again := strings.Trim(h, "{}!"), strings.HasSuffix(h, "!}")
		part := found[s.from.SubexpIndex(name)]
		if again {
			return w.Say(part)
		}
		return part
	}), true
}

// Say returns a sentence of the program in this language; English, and what is no
// sentence that this language knows, as it is.
func (w *words) Say(text string) string {
	if text == "" || len(w.sayings) == 0 {
		return text
	}
	if bare := strings.TrimLeft(text, " "); bare != text {
		return text[:len(text)-len(bare)] + w.Say(bare)
	}
	key := text[:strings.IndexAny(text+" ", " ,.:;")]
	for _, list := range [][]saying{w.sayings[key], w.sayings[""]} {
		for _, s := range list {
			if said, ok := s.say(w, text); ok {
				return said
			}
		}
	}
	return text
}

// keep sorts a saying by the first word of the English text; those that begin with
// something filled in stand under "".
func (w *words) keep(line string) error {
	s, err := newSaying(line)
	if err != nil {
		return err
	}
	key := line[:strings.IndexAny(line, " ,.:;")]
	if strings.Contains(key, "{") {
		key = ""
	}
	w.sayings[key] = append(w.sayings[key], s)
	slices.SortStableFunc(w.sayings[key], func(a, b saying) int { return b.fixed - a.fixed })
	return nil
}

// say is an error's text in the visitor's language.
func (s *Server) say(r *http.Request, err error) string { return wordsFor(r).Say(err.Error()) }

// Candidate prints a value that answers a question, so that it cannot be misread.
func (w *words) Candidate(field, value string) string {
	if d := day(value); !d.IsZero() {
		return w.Day(d)
	}
	if m, ok := minutes(value); ok && field == string(paper.FieldDuration) {
		return w.Time(&m)
	}
	return value
}
