package page

import (
	"bytes"
	"regexp"
)

var (
	fieldLine = regexp.MustCompile(`^[!-9;-~]+[ \t]*:`)
	ownField  = regexp.MustCompile(`(?i)^(?:from|to|cc|date|subject|message-id|mime-version|content-[a-z-]+|received|reply-to|return-path|x-[a-z-]+)[ \t]*:`)
)

// withBlankLine returns a message with the blank line between head and body that was lost on
// its way: the first line that is no field, and goes on none, begins the body. A message is
// left as it is where it has that line, where nothing before it is a field of a message, or
// where such a field follows, as then that line is only a damaged one of the head.
func withBlankLine(b []byte) []byte {
	fields := 0
	for from := 0; from < len(b); {
		end := bytes.IndexByte(b[from:], '\n')
		if end < 0 {
			end = len(b) - from
		}
		line := bytes.TrimRight(b[from:from+end], "\r")
		switch {
		case len(bytes.TrimSpace(line)) == 0:
			return b
		case ownField.Match(line):
			fields++
		case fieldLine.Match(line), fields > 0 && (line[0] == ' ' || line[0] == '\t'), from == 0 && bytes.HasPrefix(line, []byte("From ")):
		case fields < 2 || fieldFollows(b[from:]):
			return b
		default:
			return bytes.Join([][]byte{b[:from], b[from:]}, []byte("\r\n"))
		}
		from += end + 1
	}
	return b
}

// fieldFollows reports that a field of a head stands before the next blank line.
func fieldFollows(b []byte) bool {
	for line := range bytes.Lines(b) {
		if len(bytes.TrimSpace(line)) == 0 {
			return false
		}
		if ownField.Match(line) {
			return true
		}
	}
	return false
}
