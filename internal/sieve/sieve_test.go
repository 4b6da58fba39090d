package sieve_test

import (
	"regexp"
	"strings"
	"testing"

	"evidencevault/internal/sieve"
)

// expressions are of all the forms that the reader uses, and of some that it does not.
var expressions = []string{
	`hours?`, `^(?:the |our )?(?:course|seminar)s?(?:$|[ :.])`, `(?i)k\. s`, `(?i)straße|café`, `[0-9]{1,2}\.[0-9]{4}`,
	`a*b+c?`, `(?:ab){2,3}`, `\bend\b`, `(?m)^total *$`, `x|`, ``, `[^ ]+`, `.`, `(a|b|cd)(e|fg)`, `[äö]x`, `(?i)[ks]t`,
	`é|\x{fffd}`, `(?:one|two)\s+(?:three|four)`, `[a-p]q`, `(?s).*z`, `a{0}b`, `[^\x00-\x{10ffff}]`, `(?i)MiXed`,
}

var texts = []string{
	"", "Hour", "hours", "the Course: welding", "SEMINARS", "K. S", "\u212a. \u017f", "STRASSE", "STRAßE Café CAFÉ", "3.2026", "abab ababab",
	"bbb", "the end.", "line\ntotal  \nline", "cdfg", "ae", "äx Öx", "\u017ft", "\xff", "two   four", "pq", "z", "mixed", "MIXED", "xyz",
}

// A text that the sieve does not let pass is one in which the expression matches nowhere.
func TestNothingIsHeldBack(t *testing.T) {
	held := 0
	for _, expr := range expressions {
		re, s := regexp.MustCompile(expr), sieve.New(expr)
		for _, text := range texts {
			may := s.May(text)
			if !may {
				held++
			}
			if !may && re.MatchString(text) {
				t.Errorf("%q held back from %q", text, expr)
			}
		}
	}
	if held < len(expressions)*len(texts)/3 {
		t.Errorf("only %d texts were held back", held)
	}
}

func TestWhatIsHeldBack(t *testing.T) {
	for expr, texts := range map[string]struct{ passes, held string }{
		`(?:attended|besucht) (?:the|den)`: {"he BESUCHT den", "attend the"},
		`^total\s*:`:                       {"Total", "totl:"},
		`(?:page|seite)s? [0-9]`:           {"Seite 7", "seite siebzehn"},
		`[0-9]+ (?:h|min)`:                 {"7 min", "min"},
	} {
		s := sieve.New(expr)
		if !s.May(texts.passes) {
			t.Errorf("%q: %q is held back", expr, texts.passes)
		}
		if s.May(texts.held) {
			t.Errorf("%q: %q passes", expr, texts.held)
		}
	}
}

func FuzzNothingIsHeldBack(f *testing.F) {
	for i, expr := range expressions {
		f.Add(expr, texts[i%len(texts)])
	}
	f.Fuzz(func(t *testing.T, expr, text string) {
		re, err := regexp.Compile(expr)
		if err != nil || len(expr) > 100 || len(text) > 100 {
			return
		}
		if !sieve.New(expr).May(text) && re.MatchString(text) {
			t.Errorf("%q held back from %q", text, expr)
		}
	})
}

func BenchmarkMay(b *testing.B) {
	expr := `(?:course|seminar|workshop|lehrgang|fortbildung|formation|cursus) (?:of|von|de|van) [a-z]+`
	line := strings.Repeat("nothing of this is said on any line ", 3)
	s, re := sieve.New(expr), regexp.MustCompile(expr)
	b.Run("sieve", func(b *testing.B) {
		for b.Loop() {
			s.May(line)
		}
	})
	b.Run("expression", func(b *testing.B) {
		for b.Loop() {
			re.MatchString(line)
		}
	})
}
