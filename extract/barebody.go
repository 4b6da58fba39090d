package extract

import (
	"slices"
	"strings"
	"unicode"
)

// What a letterhead sets beside or beneath a name, and a reader of lines takes for a part of it.

var (
	lettersAhead = matching(`^(\p{Lu}{2,6})\s+(\p{Lu}.{8,})$`)
	// streetBehind is an address behind a name and a sign that parts them, or in the Spanish form.
	streetBehind = matching(`\s+[-–·|*]\s+\p{Lu}[\p{L}.’' ]{2,30} \d{1,4}[a-z]?(?:$|\s*[-–·|*,])|\s+[cC]/\s?\p{Lu}`)
)

// bareBody takes from the name of a body its own letters before it ("FSE Freunde der Sternwarte
// Eschenried"), its street, and, where the name is in capitals, what the next line says of it in small
// letters ("SCHOOL OF RECORDS distance learning since 1974").
func (l *look) bareBody(a at) at {
	text := l.text(a)
	if m := lettersAhead.FindStringSubmatchIndex(text); m != nil && initialsOf(text[m[2]:m[3]], text[m[4]:m[5]]) {
		a = a.within(m[4], m[5]-m[4])
		text = l.text(a)
	}
	if m := numberAndStreet.FindStringIndex(text); m != nil && m[0] > 5 && l.isBody(text[:m[0]]) {
		a = a.within(0, m[0])
		text = text[:m[0]]
	}
	if m := asOrganiser.FindStringIndex(text); m != nil && m[0] > 5 {
		a = a.within(0, m[0])
		text = text[:m[0]]
	}
	if m := streetBehind.FindStringIndex(text); m != nil && m[0] > 5 {
		a = a.within(0, m[0])
		text = text[:m[0]]
	}
	if k := smallBehindCapitals(text); k > 0 {
		a = a.within(0, k)
	}
	return a
}

// initialsOf reports that letters are the first ones of the capitalised words of a name, in their order.
func initialsOf(letters, name string) bool {
	var first []rune
	for _, w := range strings.FieldsFunc(name, func(r rune) bool { return unicode.IsSpace(r) || r == '-' }) {
		if r := []rune(w)[0]; unicode.IsUpper(r) {
			first = append(first, r)
		}
	}
	return len(first) >= len([]rune(letters)) && slices.Equal([]rune(letters), first[:len([]rune(letters))])
}

// smallBehindCapitals returns where, behind two words or more in capitals, small letters begin that go on
// to the end; 0 if they do not.
func smallBehindCapitals(text string) int {
	end, words := 0, 0
	for k := 0; k < len(text); {
		for k < len(text) && text[k] == ' ' {
			k++
		}
		n := strings.IndexByte(text[k:]+" ", ' ')
		w := text[k : k+n]
		switch upper, letters := upperShare(w); {
		case letters == 0:
		case upper == letters && (letters > 1 || end == 0):
			if end > 0 {
				return 0 // capitals again: "VEREIN DER FREUNDE von TANNAU"
			}
			words++
		case upper < letters && end == 0:
			if !startsLower(w) || words < 2 {
				return 0
			}
			end = k
		}
		k += n
	}
	return end
}

// asOrganiser says behind the name of a body what it was to the event.
var asOrganiser = matching(`(?i), (?:as )?(?:the )?(?:entidad|institución|organismo) organizadora?\b.*$|(?i), (?:as )?(?:the )?(?:organisme organisateur|(?:als )?veranstalter(?:in)?|(?:als )?ausrichter(?:in)?|organi[sz]ers?|hosts?|organisatrice|organisateur|(?:als )?organisator)\s*,?$`)

// numberAndStreet is an English address behind a name, in the same line.
var numberAndStreet = matching(`,?\s\d{1,5} \p{Lu}[\p{L}'’-]+(?: \p{Lu}[\p{L}'’-]+)? (?:Street|St|Road|Rd|Avenue|Ave|Lane|Ln|Drive|Dr|Boulevard|Blvd|Way|Square|Court|Place)\b`)
