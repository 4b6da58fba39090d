package web

import (
	"cmp"
	"embed"
	"fmt"
	"html/template"
	"io/fs"
	"net/http"
	"slices"
	"strings"
	"sync"
	"time"

	"golang.org/x/text/language"

	"evidencevault/audit"
	"evidencevault/credit"
)

//go:embed words/*.txt
var wordFiles embed.FS

// words is every text of the page in one language: "key: text" line by line in
// words/TAG.txt. A further language is one more file.
type words struct {
	tag  language.Tag
	text map[string]string
	back *words // English, for what is not there

	sayings audit.Sayings // sentences that come in English
}

// languages returns the words of each language, English first. They are read when a page is
// first asked for: every process of the program, each child too, would wait for it else.
var languages = sync.OnceValue(mustLanguages)

func mustLanguages() []*words {
	files, err := fs.Glob(wordFiles, "words/*.txt")
	if err != nil || len(files) == 0 {
		panic("web: no words are built in")
	}
	var list []*words
	for _, name := range files {
		data, err := wordFiles.ReadFile(name)
		if err != nil {
			panic(err) // it is built in
		}
		w := &words{tag: language.MustParse(strings.TrimSuffix(strings.TrimPrefix(name, "words/"), ".txt")), text: map[string]string{}}
		for _, line := range audit.SayingsIn(w.Lang()) {
			if err := w.sayings.Add(line); err != nil {
				panic(fmt.Sprintf("%s: %v", name, err)) // it is built in, and a test reads it
			}
		}
		for line := range strings.Lines(string(data)) {
			if rest, ok := strings.CutPrefix(strings.TrimSpace(line), "say: "); ok {
				if err := w.sayings.Add(rest); err != nil {
					panic(fmt.Sprintf("%s: %v", name, err)) // it is built in, and a test reads it
				}
				continue
			}
			if key, text, ok := strings.Cut(strings.TrimSpace(line), ": "); ok && !strings.HasPrefix(key, "#") {
				w.text[key] = text
			}
		}
		list = append(list, w)
	}
	slices.SortFunc(list, func(a, b *words) int {
		return cmp.Compare(btoi(a.tag != language.English), btoi(b.tag != language.English))
	})
	for _, w := range list[1:] {
		w.back = list[0]
	}
	return list
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// wordsFor picks the language that the browser asks for first.
func wordsFor(r *http.Request) *words {
	tags := make([]language.Tag, len(languages()))
	for i, w := range languages() {
		tags[i] = w.tag
	}
	asked, _, err := language.ParseAcceptLanguage(r.Header.Get("Accept-Language"))
	if err != nil || len(asked) == 0 {
		return languages()[0]
	}
	_, i, _ := language.NewMatcher(tags).Match(asked...)
	return languages()[i]
}

// Lang is the language's tag, for the page's own lang.
func (w *words) Lang() string { return w.tag.String() }

// T returns the text of key with its arguments filled in; the key itself where no
// language has it.
func (w *words) T(key string, args ...any) string {
	for l := w; l != nil; l = l.back {
		if text, ok := l.text[key]; ok {
			if len(args) == 0 {
				return text
			}
			return fmt.Sprintf(text, args...)
		}
	}
	return key
}

// Or returns the text of the key with this prefix and name, or the name in plain words.
func (w *words) Or(prefix, name string) string {
	if text := w.T(prefix + "." + name); text != prefix+"."+name {
		return text
	}
	return strings.ReplaceAll(name, "_", " ")
}

// N is T for a number of things: it takes key.one for 1 and key.many else.
func (w *words) N(key string, n int) string {
	if n == 1 {
		return w.T(key+".one", n)
	}
	return w.T(key+".many", n)
}

// Left says how many days are left until a day; negative ones are past.
func (w *words) Left(days *int) string {
	switch {
	case days == nil:
		return ""
	case *days < 0:
		return w.N("letter.toolate", -*days)
	case *days == 0:
		return w.T("letter.today")
	}
	return w.N("letter.left", *days)
}

// Day prints a date that cannot be misread: 5 March 2026.
func (w *words) Day(d credit.Date) string {
	if d.IsZero() {
		return ""
	}
	y, m, day := d.YMD()
	return w.T("day", day, w.T(fmt.Sprintf("month.%d", m)), y)
}

// DayOf prints the local day of a time.
func (w *words) DayOf(t time.Time) string { return w.Day(credit.DateOf(t.Local())) }

// Span prints the days of an activity.
func (w *words) Span(start, end credit.Date) string {
	switch {
	case start.IsZero() || start == end:
		return w.Day(end)
	case end.IsZero():
		return w.T("since", w.Day(start))
	}
	return w.T("fromto", w.Day(start), w.Day(end))
}

// Time prints minutes as hours and minutes.
func (w *words) Time(m *credit.Minutes) string {
	if m == nil {
		return ""
	}
	h, rest := *m/60, *m%60
	switch {
	case h == 0:
		return w.T("minutes", rest)
	case rest == 0:
		return w.T("hours", h)
	}
	return w.T("hoursminutes", h, rest)
}

// Units prints an amount with its unit: 1 point, 2 points.
func (w *words) Units(a credit.Amount, unit string) string {
	if a.Equal(credit.Whole(1)) || unit == "" || strings.HasSuffix(unit, "s") || unit == strings.ToUpper(unit) {
		return strings.TrimSpace(a.String() + " " + unit)
	}
	return a.String() + " " + unit + "s"
}

// Strong puts the one %s of a text in strong letters; everything else is escaped.
func (w *words) Strong(key, what string) template.HTML {
	const mark = "\x00"
	before, after, _ := strings.Cut(template.HTMLEscapeString(w.T(key, mark)), template.HTMLEscapeString(mark))
	return template.HTML(before + "<strong>" + template.HTMLEscapeString(what) + "</strong>" + after) // all of it escaped above
}
