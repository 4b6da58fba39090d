package journal

import (
	"fmt"
	"strings"

	"evidencevault/credit"
)

// letterText is the short letter that asks a provider for the certificate that a
// receipt still lacks. It is plain text with line ends of \n.
func letterText(holder string, r Receipt, today credit.Date) string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	to, subject := r.Provider, r.Title
	if to == "" {
		to = "Sir or Madam"
	}
	if subject == "" {
		subject = "the course that I paid for"
	}
	line("%s", longDate(today))
	line("")
	line("Certificate of attendance: %s", subject)
	line("")
	line("Dear %s,", to)
	line("")
	line("%s", "I have your receipt"+ofDate(r.Date)+forSum(r.Total)+" for "+subject+heldOn(r.Start, r.End)+", but no certificate.")
	line("Please send me a certificate that names me, the title, the dates, the net hours")
	line("and any credits, so that I can prove the activity to my certifying body.")
	line("")
	line("Thank you.")
	line("")
	line("%s", holder)
	return b.String()
}

func ofDate(d credit.Date) string {
	if d.IsZero() {
		return ""
	}
	return " of " + longDate(d)
}

func forSum(total string) string {
	if total == "" {
		return ""
	}
	return " over " + total
}

func heldOn(start, end credit.Date) string {
	switch {
	case start.IsZero() && end.IsZero():
		return ""
	case start.IsZero() || start == end:
		return " (" + longDate(end) + ")"
	case end.IsZero():
		return " (from " + longDate(start) + ")"
	}
	return " (" + longDate(start) + " to " + longDate(end) + ")"
}

// longDate prints "5 March 2026".
func longDate(d credit.Date) string { return d.Time().Format("2 January 2006") }
