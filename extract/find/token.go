package find

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// kind is what a token is made of.
type kind uint8

const (
	word  kind = iota // letters; an apostrophe or a dot ends it
	digit             // ASCII figures
	mark              // one rune of anything else
	end               // past the last token
)

// token is a piece of text without white space.
type token struct {
	Span
	kind   kind
	s      string // folded: lower case, without accents; dashes all "-", apostrophes "'"
	raw    string // as printed
	spaced bool   // white space or the start of the text stands before it
	n      int    // the value of up to nine figures, else -1
}

// tokens is a text cut into its pieces.
type tokens struct {
	text string
	list []token
	none token // what lies outside the list
}

// at returns token i, or one of kind end outside the list.
func (t *tokens) at(i int) *token {
	if i < 0 || i >= len(t.list) {
		return &t.none
	}
	return &t.list[i]
}

// is reports whether token i folds to s.
func (t *tokens) is(i int, s string) bool { k := t.at(i); return k.kind != end && k.s == s }

// oneOf reports whether token i is a member of set.
func (t *tokens) oneOf(i int, set map[string]bool) bool {
	k := t.at(i)
	return k.kind != end && set[k.s]
}

// span returns the bytes from token i up to, not with, token j.
func (t *tokens) span(i, j int) Span { return Span{t.at(i).From, t.at(j - 1).To} }

// cut splits text. It takes time in proportion to its length. Nobody changes what it returns.
func cut(text string) *tokens {
	if len(text) > longestKept {
		return pared(text)
	}
	return keptCuts.Of(text, pared)
}

func pared(text string) *tokens {
	t := &tokens{text: text, none: token{kind: end, Span: Span{len(text), len(text)}, n: -1, spaced: true}}
	spaced := true
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		if isSpace(r) {
			spaced = true
			i += size
			continue
		}
		j, k := i+size, mark
		switch {
		case r >= '0' && r <= '9' || confused(text, i):
			k = digit
			for j < len(text) && (figure(text[j]) || confused(text, j)) {
				j++
			}
		case unicode.IsLetter(r):
			k = word
			for j < len(text) {
				q, n := utf8.DecodeRuneInString(text[j:])
				if !unicode.IsLetter(q) && !unicode.Is(unicode.Mn, q) && q != '\u00ad' {
					break
				}
				j += n
			}
		case r == '\u00ad' || r == '\u200b' || r == '\ufeff':
			i += size // a soft hyphen or a mark without width is no text
			continue
		}
		t.list = append(t.list, makeToken(text, Span{i, j}, k, spaced))
		spaced = false
		i = j
	}
	return t
}

func figure(c byte) bool { return c >= '0' && c <= '9' }

// confused reports whether the letter at i is a figure that a scan has misread: O
// for 0, l or I for 1. It is so between two figures (2O26), and next to one figure
// where a date or time goes on (O3/04, 3O.03, l2.03), never at the edge of a word.
func confused(text string, i int) bool {
	switch text[i] {
	case 'O', 'o', 'l', 'I':
	default:
		return false
	}
	at := func(j int) byte {
		if j < 0 || j >= len(text) {
			return ' '
		}
		return text[j]
	}
	joint := func(j int) bool { c := at(j); return (c == '.' || c == '/' || c == ':' || c == '-') && figure(at(j+1)) }
	before, after := figure(at(i-1)), figure(at(i+1))
	switch {
	case before && after:
		return true
	case after && text[i] != 'o':
		p := at(i - 1)
		return (p == ' ' || p == '\t' || p == '(') && !figure(at(i+2)) && joint(i+2) || (p == '/' || p == '.' || p == ':') && figure(at(i-2)) && !figure(at(i+2))
	case before && text[i] == 'O':
		return joint(i+1) && !figure(at(i-2))
	}
	return false
}

// unconfused writes figures for the letters that confused let through.
func unconfused(s string) string { return asFigures.Replace(s) }

var asFigures = strings.NewReplacer("O", "0", "o", "0", "l", "1", "I", "1")

func makeToken(text string, s Span, k kind, spaced bool) token {
	tok := token{Span: s, kind: k, raw: text[s.From:s.To], spaced: spaced, n: -1}
	switch k {
	case word:
		tok.s = fold(tok.raw)
	case digit:
		tok.s = unconfused(tok.raw)
		if len(tok.s) <= 9 {
			tok.n = 0
			for _, c := range tok.s {
				tok.n = tok.n*10 + int(c-'0')
			}
		}
	default:
		tok.s = foldMark(tok.raw)
	}
	return tok
}

// isSpace knows the no-break and narrow spaces as well.
func isSpace(r rune) bool {
	return unicode.IsSpace(r) || unicode.Is(unicode.Zs, r)
}

func foldMark(s string) string {
	switch s {
	case "‐", "‑", "‒", "–", "—", "―", "−", "﹣", "－", "~", "∼", "→":
		return "-"
	case "’", "‘", "ʼ", "´", "`", "′":
		return "'"
	case "⁄", "∕":
		return "/"
	case "×", "✕", "·x":
		return "x"
	case "“", "”", "„", "«", "»":
		return "\""
	}
	return s
}

// fold writes s in lower case without the accents of the five languages.
func fold(s string) string {
	ascii := true
	for i := 0; i < len(s); i++ {
		if s[i] >= utf8.RuneSelf {
			ascii = false
			break
		}
	}
	if ascii {
		return strings.ToLower(s)
	}
	var b strings.Builder
	for _, r := range s {
		r = unicode.ToLower(r)
		if p, ok := plain[r]; ok {
			b.WriteString(p)
			continue
		}
		if unicode.Is(unicode.Mn, r) || r == '\u00ad' {
			continue
		}
		b.WriteRune(r)
	}
	return b.String()
}

var plain = map[rune]string{
	'à': "a", 'á': "a", 'â': "a", 'ã': "a", 'ä': "a", 'å': "a", 'ç': "c", 'è': "e", 'é': "e", 'ê': "e", 'ë': "e",
	'ì': "i", 'í': "i", 'î': "i", 'ï': "i", 'ñ': "n", 'ò': "o", 'ó': "o", 'ô': "o", 'õ': "o", 'ö': "o", 'ø': "o",
	'ù': "u", 'ú': "u", 'û': "u", 'ü': "u", 'ý': "y", 'ÿ': "y", 'ß': "ss", 'œ': "oe", 'æ': "ae", 'º': "o", 'ª': "a",
	'ﬁ': "fi", 'ﬂ': "fl", 'ﬀ': "ff",
}
