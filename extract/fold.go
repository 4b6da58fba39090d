package extract

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// fold writes text in lower case, without accents, with plain quotes, hyphens and
// single spaces, so that word lists need one spelling. Its length may differ.
func fold(text string) string {
	var b strings.Builder
	space := false
	for _, r := range norm.NFKD.String(text) {
		switch {
		case unicode.Is(unicode.Mn, r) || r == '\u00ad' || r == '\u200b' || r == '\ufeff':
			continue
		case unicode.IsSpace(r):
			space = b.Len() > 0
			continue
		}
		if space {
			b.WriteByte(' ')
			space = false
		}
		switch r = unicode.ToLower(r); r {
		case 'ß':
			b.WriteString("ss")
		case 'œ':
			b.WriteString("oe")
		case 'æ':
			b.WriteString("ae")
		case 'ø':
			b.WriteByte('o')
		case 'ı':
			b.WriteByte('i')
		case 'ł':
			b.WriteByte('l')
		case 'đ', 'ð':
			b.WriteByte('d')
		case 'þ':
			b.WriteString("th")
		case '’', '‘', 'ʼ', '´', '`', '′':
			b.WriteByte('\'')
		case '‐', '‑', '‒', '–', '—', '―', '−':
			b.WriteByte('-')
		case '“', '”', '„', '«', '»', '‹', '›':
			b.WriteByte('"')
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// bare is fold without anything but letters and figures.
func bare(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return r
		}
		return -1
	}, fold(text))
}

// words makes a pattern of a list of phrases, parted by "|", that match whole words of folded text.
func words(list string) *pattern {
	p := matching(`(?:^|[^a-z0-9])(?:` + list + `)(?:$|[^a-z0-9])`)
	p.longest = true
	return p
}

// lastMatch returns where the match of re in text ends that ends last, or -1. Matches may
// share a border, so the search goes on inside the last one.
func lastMatch(re *pattern, text string) int {
	end := -1
	for at := 0; at <= len(text); {
		m := re.FindStringIndex(text[at:])
		if m == nil {
			break
		}
		end = max(end, at+m[1])
		at += m[0] + 1
	}
	return end
}

func upperShare(text string) (upper, letters int) {
	for _, r := range text {
		if unicode.IsLetter(r) {
			letters++
			if unicode.IsUpper(r) {
				upper++
			}
		}
	}
	return upper, letters
}

func allCaps(text string) bool {
	upper, letters := upperShare(text)
	return letters > 2 && upper == letters
}
