package audit

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"evidencevault/credit"
)

//go:embed words/*.txt
var wordFiles embed.FS

// ErrLanguage says that what is handed over cannot be written in that language.
var ErrLanguage = errors.New("not a language that is built in")

// wording is every text of what is handed over on paper, in one language: "key: text"
// line by line in words/TAG.txt. A further language is one more file.
type wording struct {
	tag    string // BCP 47
	text   map[string]string
	months []string
}

// Languages lists what [Dossier.WritePDF] and [WriteBinder] can write in, as BCP 47
// tags in order.
func Languages() []string {
	names, err := fs.Glob(wordFiles, "words/*.txt")
	if err != nil {
		panic(err) // the pattern is a constant
	}
	for i, n := range names {
		names[i] = strings.TrimSuffix(strings.TrimPrefix(n, "words/"), ".txt")
	}
	return names
}

// wordsIn returns the texts of a language; "" is English. The error wraps [ErrLanguage].
func wordsIn(tag string) (*wording, error) {
	if tag == "" {
		tag = "en"
	}
	if !slices.Contains(Languages(), tag) {
		return nil, fmt.Errorf("%q: %w: want one of %s", tag, ErrLanguage, strings.Join(Languages(), ", "))
	}
	data, err := wordFiles.ReadFile("words/" + tag + ".txt")
	if err != nil {
		return nil, err
	}
	w := &wording{tag: tag, text: map[string]string{}}
	for line := range strings.Lines(string(data)) {
		if key, text, ok := strings.Cut(strings.TrimSpace(line), ": "); ok && !strings.HasPrefix(key, "#") {
			w.text[key] = text
		}
	}
	w.months = strings.Split(w.text["months"], ",")
	return w, nil
}

// In returns the dossier with a language of [Languages] for what is printed of it; ""
// is English. The error wraps [ErrLanguage].
func (d Dossier) In(language string) (Dossier, error) {
	_, err := wordsIn(language)
	d.language = language
	return d, err
}

// say returns a text with its values put in. A key that is missing shows itself.
func (w *wording) say(key string, args ...any) string {
	text, ok := w.text[key]
	if !ok {
		return key
	}
	if len(args) == 0 {
		return text
	}
	return fmt.Sprintf(text, args...)
}

// day prints a date in words, so that nobody takes the month for the day.
func (w *wording) day(d credit.Date) string {
	if d.IsZero() {
		return w.say("no date")
	}
	y, m, day := d.YMD()
	return w.say("day", day, w.months[m-1], y)
}

func (w *wording) span(start, end credit.Date) string {
	switch {
	case start.IsZero() || start == end:
		return w.day(end)
	case end.IsZero():
		return w.say("since", w.day(start))
	}
	return w.say("from to", w.day(start), w.day(end))
}
