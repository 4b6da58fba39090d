package page

import (
	"strings"
	"testing"
)

// TestHeadWithoutBlankLine: the body is read where the blank line before it was lost, and a
// damaged line within the head takes nothing from the head.
func TestHeadWithoutBlankLine(t *testing.T) {
	const head = "From: Dunmarrow Trust <office@dunmarrow.example>\r\nTo: Orla Fennimore <orla@post.example>\r\nSubject: Your certificate\r\nDate: Tue, 03 Mar 2026 09:00:00 +0000\r\n"
	for _, tt := range []struct{ why, mail, line, subject string }{
		{"a blank line", head + "\r\nYou attended Kiln Vents on 3 March 2026.\r\n", "You attended Kiln Vents on 3 March 2026.", "Your certificate"},
		{"none", head + "You attended Kiln Vents on 3 March 2026.\r\nAwarded: 6 PDH\r\n", "You attended Kiln Vents on 3 March 2026.", "Your certificate"},
		{"none, and one between paragraphs", head + "Dear Orla Fennimore\r\n\r\nYou attended Kiln Vents on 3 March 2026.\r\n", "Dear Orla Fennimore", "Your certificate"},
		{"a damaged line within the head", strings.Replace(head, "Subject", "broken line\r\nSubject", 1) + "\r\nYou attended Kiln Vents.\r\n", "You attended Kiln Vents.", "Your certificate"},
	} {
		d := readMail([]byte(tt.mail))
		text := ""
		for _, p := range d.Pages {
			text += strings.Join(p.Lines, "\n")
		}
		if !strings.Contains(text, tt.line) || d.Mail == nil || d.Mail.Subject != tt.subject {
			t.Errorf("%s: read %q, trouble %q; want the line %q and the subject %q", tt.why, text, d.Reason, tt.line, tt.subject)
		}
	}
}
