package page

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// checked says whether a child's answer is one that an honest child could give. What
// a child says was made from foreign bytes, so nothing of it is taken on trust.
func checked(d Document) (Document, error) {
	switch d.Trouble {
	case None, Unreadable, Password, TooLarge, Empty, Other:
	default:
		return d, fmt.Errorf("a trouble called %q", plain(string(d.Trouble), 40))
	}
	last := 0
	for _, p := range d.Pages {
		if p.Number <= last {
			return d, fmt.Errorf("page %d after page %d", p.Number, last)
		}
		last = p.Number
		if p.Width < 0 || p.Height < 0 {
			return d, fmt.Errorf("page %d: a size of %d by %d", p.Number, p.Width, p.Height)
		}
		for _, w := range p.Words {
			if w.Text == "" || !utf8.ValidString(w.Text) || w.Box[0] > w.Box[2] || w.Box[1] > w.Box[3] {
				return d, fmt.Errorf("page %d: a word without text or box", p.Number)
			}
		}
	}
	if d.Unread < 0 {
		return d, fmt.Errorf("%d unread pages", d.Unread)
	}
	return d, nil
}

// settled says of a document with nothing on its pages that it is empty.
func settled(d Document) Document {
	if d.Trouble != None || d.Unread > 0 || d.Mail != nil || len(d.Parts) > 0 {
		return d
	}
	drawn := false
	for _, p := range d.Pages {
		if len(p.Words) > 0 || len(p.Lines) > 0 {
			return d
		}
		drawn = drawn || p.Picture
	}
	switch {
	case drawn:
		d.Trouble, d.Reason = Unreadable, "no letters could be recognised in its picture; scan it again, straight and sharp, and drop it"
	case d.Reason == "":
		d.Trouble, d.Reason = Empty, "there is nothing to read on its pages"
	default:
		d.Trouble = Empty
	}
	return d
}

// plain returns s as one line of at most most bytes without control characters.
func plain(s string, most int) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r), r == 0xfeff, r >= 0x202a && r <= 0x202e, r >= 0x2066 && r <= 0x2069:
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "�"))
	s = strings.Join(strings.Fields(s), " ")
	for len(s) > most {
		_, n := utf8.DecodeLastRuneInString(s)
		s = s[:len(s)-n]
	}
	return s
}

// languageTag returns s if it can be a language tag, else "".
// Source: BCP 47, section 2.1, by shape only.
func languageTag(s string) string {
	s = strings.ReplaceAll(plain(s, 35), "_", "-")
	for i, r := range s {
		letter := r < utf8.RuneSelf && (unicode.IsLetter(r) || (i > 1 && (r == '-' || unicode.IsDigit(r))))
		if !letter {
			return ""
		}
	}
	if len(s) < 2 {
		return ""
	}
	return s
}
