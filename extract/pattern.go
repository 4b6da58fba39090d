package extract

import (
	"regexp"
	"sync"

	"evidencevault/internal/memo"
	"evidencevault/internal/sieve"
)

// pattern is a regular expression that is compiled when it is first needed. There are some
// hundreds of them, and a program that reads no document shall not wait for them at its start.
// A text in which it cannot match is told by a sieve, without the expression.
type pattern struct {
	text     string
	longest  bool // of several ways to match the longest is taken
	sifting  sync.Once
	sifts    *sieve.Sieve
	once     sync.Once
	compiled *regexp.Regexp
	answers  memo.Memo[string, bool] // of MatchString, if the pattern is a long one
}

// longPattern is the length of a text from which a pattern remembers what it matched: a list of
// hundreds of words takes a hundred times as long as looking up the answer, and the same line of a
// paper is asked about again and again.
const longPattern = 400

// matching returns the pattern for a regular expression, which is not compiled yet.
func matching(text string) *pattern { return &pattern{text: text} }

// may reports whether the pattern could match in s.
func (p *pattern) may(s string) bool {
	p.sifting.Do(func() { p.sifts = sieve.New(p.text) })
	return p.sifts.May(s)
}

func (p *pattern) re() *regexp.Regexp {
	p.once.Do(func() {
		p.compiled = regexp.MustCompile(p.text)
		if p.longest {
			p.compiled.Longest()
		}
	})
	return p.compiled
}

// String, MatchString and the others do what those of [regexp.Regexp] do.
func (p *pattern) String() string { return p.text }

func (p *pattern) MatchString(s string) bool {
	if !p.may(s) {
		return false
	}
	if len(p.text) < longPattern {
		return p.re().MatchString(s)
	}
	return p.answers.Of(s, p.re().MatchString)
}

func (p *pattern) FindString(s string) string {
	if !p.may(s) {
		return ""
	}
	return p.re().FindString(s)
}

func (p *pattern) FindStringIndex(s string) []int {
	if !p.may(s) {
		return nil
	}
	return p.re().FindStringIndex(s)
}

func (p *pattern) FindStringSubmatch(s string) []string {
	if !p.may(s) {
		return nil
	}
	return p.re().FindStringSubmatch(s)
}

func (p *pattern) FindStringSubmatchIndex(s string) []int {
	if !p.may(s) {
		return nil
	}
	return p.re().FindStringSubmatchIndex(s)
}

func (p *pattern) FindAllStringIndex(s string, n int) [][]int {
	if !p.may(s) {
		return nil
	}
	return p.re().FindAllStringIndex(s, n)
}

func (p *pattern) FindAllStringSubmatch(s string, n int) [][]string {
	if !p.may(s) {
		return nil
	}
	return p.re().FindAllStringSubmatch(s, n)
}

func (p *pattern) FindAllStringSubmatchIndex(s string, n int) [][]int {
	if !p.may(s) {
		return nil
	}
	return p.re().FindAllStringSubmatchIndex(s, n)
}

func (p *pattern) ReplaceAllString(s, with string) string {
	if !p.may(s) {
		return s
	}
	return p.re().ReplaceAllString(s, with)
}
