package audit

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// Sayings are sentences of the program's own that come from below in English, as the
// derivation of a figure or a question of a reading, with what stands for each in another
// language. The zero Sayings knows none.
type Sayings struct {
	byFirst map[string][]saying // by the first word; "": those that begin with what is filled in
}

// saying is one kind of sentence. Parts in braces are what is filled in: {x} is taken over
// as it is, {x!} is said in the other language too. {n}, {m} and {y} are one word, {p} is a
// short number as P12, {h}, {r} and {d} have no comma.
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
		if from[m[2]:m[3]] == "p" {
			fixed += 6 // it fits fewer texts than a part that may be anything
		}
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
	case "p":
		return `[A-Z][0-9]+`
	case "n", "m", "y":
		return `\S+?`
	case "h", "r", "d":
		return `[^,]+?`
	}
	return `.+?`
}

// Add takes in a kind of sentence, as "English => other".
func (s *Sayings) Add(line string) error {
	one, err := newSaying(line)
	if err != nil {
		return err
	}
	key := line[:strings.IndexAny(line, " ,.:;")]
	if strings.Contains(key, "{") {
		key = ""
	}
	if s.byFirst == nil {
		s.byFirst = map[string][]saying{}
	}
	s.byFirst[key] = append(s.byFirst[key], one)
	slices.SortStableFunc(s.byFirst[key], func(a, b saying) int { return b.fixed - a.fixed })
	return nil
}

// Say returns a sentence of the program in the other language; what is no sentence that
// is known comes back as it is. The place of a rule, in brackets after two blanks at the
// end, stays as the scheme writes it.
func (s *Sayings) Say(text string) string {
	if text == "" || len(s.byFirst) == 0 {
		return text
	}
	if bare := strings.TrimLeft(text, " "); bare != text {
		return text[:len(text)-len(bare)] + s.Say(bare)
	}
	if at := strings.LastIndex(text, "  ["); at > 0 && strings.HasSuffix(text, "]") {
		return s.Say(text[:at]) + text[at:]
	}
	key := text[:strings.IndexAny(text+" ", " ,.:;")]
	for _, list := range [][]saying{s.byFirst[key], s.byFirst[""]} {
		for _, one := range list {
			if said, ok := s.one(one, text); ok {
				return said
			}
		}
	}
	return text
}

// one returns the sentence in the other language, if text is one of its kind.
func (s *Sayings) one(k saying, text string) (string, bool) {
	found := k.from.FindStringSubmatch(text)
	if found == nil {
		return "", false
	}
	return hole.ReplaceAllStringFunc(k.to, func(h string) string {
		name, again := strings.Trim(h, "{}!"), strings.HasSuffix(h, "!}")
		part := found[k.from.SubexpIndex(name)]
		if again {
			return s.Say(part)
		}
		return part
	}), true
}
