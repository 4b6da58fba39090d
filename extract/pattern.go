package extract

import (
	"regexp"
	"sync"
)

// pattern is a regular expression that is compiled when it is first used. There are a
// good hundred of them, and a program that reads no document shall not wait for them at
// its start.
type pattern struct {
	text     string
	longest  bool // of several ways to match the longest is taken
	once     sync.Once
	compiled *regexp.Regexp
}

// matching returns the pattern for a regular expression, which is not compiled yet.
func matching(text string) *pattern { return &pattern{text: text} }

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

func (p *pattern) MatchString(s string) bool { return p.re().MatchString(s) }

func (p *pattern) FindString(s string) string { return p.re().FindString(s) }

func (p *pattern) FindStringIndex(s string) []int { return p.re().FindStringIndex(s) }

func (p *pattern) FindStringSubmatch(s string) []string { return p.re().FindStringSubmatch(s) }

func (p *pattern) FindStringSubmatchIndex(s string) []int { return p.re().FindStringSubmatchIndex(s) }

func (p *pattern) FindAllStringIndex(s string, n int) [][]int { return p.re().FindAllStringIndex(s, n) }

func (p *pattern) FindAllStringSubmatchIndex(s string, n int) [][]int {
	return p.re().FindAllStringSubmatchIndex(s, n)
}

func (p *pattern) ReplaceAllString(s, with string) string { return p.re().ReplaceAllString(s, with) }
