package extracttest

import (
	"strconv"
	"strings"

	"evidencevault/credit"
	"evidencevault/extract/paper"
)

// sheet is a paper in the making.
type sheet struct {
	draw
	w        words
	lang     string // "en", "de", …
	loc      string // "en-GB", "en-US", "en", "de", …
	dayFirst bool
	labelled bool // names, titles and dates stand beside labels, not in a sentence
	plain    bool // no sizes or styles: the format is text alone
	layout   string
	mail     bool // the paper is the text of a message
	city     string
	provider string
	holder   person
	dates    []printedDate
	c        content
	f        facts
	t        Truth
	markup   bool   // the message is HTML
	week     bool   // a week is named instead of days
	before   *sheet // another paper on the pages before
	open     bool   // the order of day and month may stay open
}

// person is an invented name.
type person struct{ first, last, honor, degree string }

func (p person) full() string { return p.first + " " + p.last }

// item is a label with its value.
type item struct{ label, value string }

// content is what a paper says, before it is laid out.
type content struct {
	heading  string
	lines    []string // lead, holder, verb, title, tail: a sentence in five parts
	items    []item
	says     []string // further sentences
	notes    []string // small print
	sign     []string // place and date, signer
	grid     [][]string
	gridFoot []item
	to       string // who is written to
	letter   bool   // a letter speaks to the person
	date     string // date of a letter, beside the letterhead
	top      bool   // the provider stands in the letterhead
	foot     []string
	behind   []string // a page stapled behind
}

// list returns the section for the sheet's own form of the language.
func (s *sheet) list(section string) []string {
	if !s.dayFirst || s.loc == "en-US" {
		if l := s.w[section+".us"]; len(l) > 0 {
			return l
		}
	}
	l := s.w[section]
	if len(l) == 0 {
		panic("extracttest: words/" + s.lang + ".txt has no section " + section)
	}
	return l
}

// say draws a wording of a section and fills it.
func (s *sheet) say(section string, values ...string) string {
	return fill(oneOf(s.draw, s.list(section)...), values...)
}

// put adds a value, beside a label or in a sentence.
func (s *sheet) put(label, sentence, name, value string) {
	if s.labelled || sentence == "" || s.chance(30) {
		s.c.items = append(s.c.items, item{s.say(label), value})
		return
	}
	s.c.says = append(s.c.says, strings.ReplaceAll(s.say(sentence, name, value), "..", "."))
}

func (s *sheet) item(label, value string) {
	s.c.items = append(s.c.items, item{s.say(label), value})
}

// syllables joins a beginning and an ending of a section of syllables.
func (s *sheet) syllables(section string) string {
	var begin, end []string
	for _, line := range s.w[section] {
		for _, f := range strings.Fields(line) {
			if rest, ok := strings.CutPrefix(f, "~"); ok {
				end = append(end, rest)
			} else if stem, ok := strings.CutSuffix(f, "~"); ok {
				begin = append(begin, stem)
			} else {
				end = append(end, " "+f)
			}
		}
	}
	a, b := oneOf(s.draw, begin...), oneOf(s.draw, end...)
	if a[len(a)-1] == b[0] {
		b = b[1:]
	}
	return a + b
}

func (s *sheet) someone() person {
	p := person{first: s.syllables("first"), last: s.syllables("last")}
	if s.chance(12) {
		p.last += "-" + s.syllables("last")
	}
	if s.chance(10) && len(s.w["particle"]) > 0 {
		p.last = s.say("particle") + " " + p.last
	}
	if s.chance(25) {
		p.honor = s.say("honor")
	}
	if s.chance(6) {
		p.degree = s.say("degree")
	}
	return p
}

// shown writes a person's name as papers do.
func (s *sheet) shown(p person) string {
	name := p.full()
	if s.labelled && s.chance(8) {
		return p.last + ", " + p.first
	}
	if s.chance(5) {
		name = strings.ToUpper(name)
	}
	if p.honor != "" {
		name = p.honor + " " + name
	}
	if p.degree != "" {
		name += ", " + p.degree
	}
	return name
}

// compose fills a template of names and titles from the word lists.
func (s *sheet) compose(section string) string {
	text := s.say(section)
	for _, name := range []string{"place", "field", "trade", "act", "thing", "group", "topic2", "topic", "turn", "prof"} {
		if !strings.Contains(text, "{"+name+"}") {
			continue
		}
		switch name {
		case "place":
			text = fill(text, name, s.city)
		case "topic2":
			text = fill(text, name, s.say("topic"))
		default:
			text = fill(text, name, s.say(name))
		}
	}
	for strings.Contains(text, "{last}") {
		text = strings.Replace(text, "{last}", s.syllables("last"), 1)
	}
	return fill(text, "n", s.numeral(), "y", strconv.Itoa(s.f.start.Time().Year()))
}

func (s *sheet) numeral() string { return oneOf(s.draw, "1", "2", "3", "II", "III") }

// quoted writes a title within a sentence.
func (s *sheet) quoted(title string) string {
	if s.plain || s.chance(65) {
		return strings.Replace(s.say("quote"), "~", title, 1)
	}
	return title
}

func text(v string) *string { return &v }

func number(n int) *int64 { return new(int64(n)) }

func isoDate(d credit.Date) *string {
	if d.IsZero() {
		return nil
	}
	return text(d.String())
}

// ask leaves a field open.
func (s *sheet) ask(f paper.Field, candidates ...any) {
	s.t.Ask = append(s.t.Ask, Ask{f, candidates})
}

func (s *sheet) also(f paper.Field, values ...any) {
	s.t.Also[string(f)] = append(s.t.Also[string(f)], values...)
}

func (s *sheet) why(text string) {
	if s.t.Why != "" {
		s.t.Why += "; "
	}
	s.t.Why += text
}
