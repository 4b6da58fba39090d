package journal

import (
	"strings"

	"evidencevault/credit"
)

// letterWidth is how many characters a line of a letter has at most.
const letterWidth = 76

// letterText is the short letter that asks a provider for the certificate that a
// receipt still lacks: plain text, lines ended by \n.
func letterText(holder string, r Receipt, today credit.Date) string {
	to, about, what := r.Provider, "Certificate of attendance", "a course"
	if to == "" {
		to = "Sir or Madam"
	}
	if r.Title != "" {
		about += ": " + r.Title
		what = "“" + r.Title + "”"
	}
	paragraphs := []string{
		longDate(today),
		about,
		"Dear " + to + ",",
		"I have your receipt" + of(r.Date) + over(r.Total) + " for " + what + held(r.Start, r.End) + ", but no certificate. " +
			"Please send me one that names me, the title, the dates, the net hours and any credits, " +
			"so that I can prove the activity to my certifying body.",
		"Thank you.",
		holder,
	}
	var b strings.Builder
	for i, p := range paragraphs {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(wrap(p, letterWidth))
	}
	return b.String()
}

// wrap breaks text between words, so that no line but of one long word has more than
// width characters.
func wrap(text string, width int) string {
	var b strings.Builder
	at := 0
	for word := range strings.FieldsSeq(text) {
		n := len([]rune(word))
		switch {
		case at == 0:
		case at+1+n > width:
			b.WriteByte('\n')
			at = 0
		default:
			b.WriteByte(' ')
			at++
		}
		b.WriteString(word)
		at += n
	}
	b.WriteByte('\n')
	return b.String()
}

func of(d credit.Date) string {
	if d.IsZero() {
		return ""
	}
	return " of " + longDate(d)
}

func over(total string) string {
	if total == "" {
		return ""
	}
	return " over " + total
}

func held(start, end credit.Date) string {
	switch {
	case start.IsZero() && end.IsZero():
		return ""
	case start.IsZero() || start == end:
		return " held on " + longDate(end)
	case end.IsZero():
		return " held from " + longDate(start)
	}
	return " held from " + longDate(start) + " to " + longDate(end)
}

// longDate prints "5 March 2026".
func longDate(d credit.Date) string { return d.Time().Format("2 January 2006") }
