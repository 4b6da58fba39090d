package audit

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"
	"sync"

	"golang.org/x/text/language"
	"golang.org/x/text/language/display"

	"evidencevault/credit"
)

//go:embed words/*.txt
var wordFiles embed.FS

// ErrLanguage says that what is handed over cannot be written in that language.
var ErrLanguage = errors.New("not a language that is built in")

// wording is every text of what is handed over, in one language: "key: text" line by line
// in words/TAG.txt, and "say: English => other" for sentences that come in English. A
// further language is one more file.
type wording struct {
	tag     string // BCP 47
	text    map[string]string
	months  []string
	sayings Sayings
	lines   []string // of the sayings
	said    *sync.Map
}

// wordings are those that are built in, by their tags.
var wordings = sync.OnceValue(func() map[string]*wording {
	names, err := fs.Glob(wordFiles, "words/*.txt")
	if err != nil {
		panic(err) // the pattern is a constant
	}
	all := make(map[string]*wording, len(names))
	for _, name := range names {
		data, err := wordFiles.ReadFile(name)
		if err != nil {
			panic(err) // it is built in
		}
		w, err := parseWords(strings.TrimSuffix(strings.TrimPrefix(name, "words/"), ".txt"), string(data))
		if err != nil {
			panic(fmt.Sprintf("%s: %v", name, err)) // it is built in, and tests read it
		}
		all[w.tag] = w
	}
	return all
})

func parseWords(tag, data string) (*wording, error) {
	w := &wording{tag: tag, text: map[string]string{}}
	for line := range strings.Lines(data) {
		line = strings.TrimSpace(line)
		if rest, ok := strings.CutPrefix(line, "say: "); ok {
			if err := w.sayings.Add(rest); err != nil {
				return nil, err
			}
			w.lines = append(w.lines, rest)
			continue
		}
		if key, text, ok := strings.Cut(line, ": "); ok && !strings.HasPrefix(key, "#") {
			w.text[key] = text
		}
	}
	w.months = strings.Split(w.text["months"], ",")
	return w, nil
}

// Languages lists the languages that what is handed over can be written in, as BCP 47
// tags in order.
func Languages() []string { return slices.Sorted(maps.Keys(wordings())) }

// SayingsIn lists the sentences that what is handed over shares with the local page, for
// [Sayings.Add]; none for a language that is not built in, and for English.
func SayingsIn(tag string) []string {
	if w, ok := wordings()[tag]; ok {
		return w.lines
	}
	return nil
}

// wordsIn returns the texts of a language; "" is English. The error wraps [ErrLanguage].
func wordsIn(tag string) (*wording, error) {
	if tag == "" {
		tag = "en"
	}
	w, ok := wordings()[tag]
	if !ok {
		return nil, fmt.Errorf("%q: %w: want one of %s", tag, ErrLanguage, strings.Join(Languages(), ", "))
	}
	mine := *w
	mine.said = &sync.Map{}
	return &mine, nil
}

// In returns the dossier with a language of [Languages] for what people read of it; "" is
// English. The error wraps [ErrLanguage].
func (d Dossier) In(language string) (Dossier, error) {
	w, err := wordsIn(language)
	if err != nil {
		return d, err
	}
	d.w = w
	return d, nil
}

// words are the texts of the dossier's language.
func (d Dossier) words() *wording {
	if d.w == nil {
		w, err := wordsIn("")
		if err != nil {
			panic(err) // English is built in
		}
		return w
	}
	return d.w
}

// say returns a text with its values put in. A key that is missing shows itself; a test
// finds it.
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

// number is say for a number of things: "key one" for 1, else "key".
func (w *wording) number(key string, n int, args ...any) string {
	if n == 1 {
		return w.say(key+" one", args...)
	}
	return w.say(key, append([]any{n}, args...)...)
}

// sentence returns a sentence of the program in this language; what is none that it knows
// comes back as it is.
func (w *wording) sentence(text string) string {
	if len(w.lines) == 0 || text == "" {
		return text
	}
	if said, ok := w.said.Load(text); ok {
		return said.(string)
	}
	said := w.sayings.Say(text)
	w.said.Store(text, said)
	return said
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

// field is the name of a field in words; a log field has the name that the scheme gives.
func (w *wording) field(name string) string {
	if text, ok := w.text["f "+name]; ok {
		return text
	}
	return strings.ReplaceAll(name, "_", " ")
}

// kind is the name of a kind of paper in words.
func (w *wording) kind(name string) string {
	if text, ok := w.text["k "+name]; ok {
		return text
	}
	return name
}

// value prints a value so that it cannot be misread: a date in words, a kind in words.
func (w *wording) value(field, value string) string {
	if field == "kind" {
		return w.kind(value)
	}
	if d, err := credit.ParseDate(value); err == nil && !d.IsZero() && len(value) == len("2026-03-05") {
		return w.day(d)
	}
	return value
}

// language names a language of BCP 47 in this one.
func (w *wording) language(tag string) string {
	if tag == undetermined {
		return w.say("language not told")
	}
	t, err := language.Parse(tag)
	if err != nil {
		return tag
	}
	base, _ := t.Base()
	if name := display.Languages(language.Make(w.tag)).Name(language.Make(base.String())); name != "" {
		return name
	}
	return tag
}
