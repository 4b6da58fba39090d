package page_test

import (
	"bytes"
	"strings"
	"testing"

	"evidencevault/extract/page"
)

// TestTextThatOnlyPoints: where the text of a message only says that it has a page, the page is read; where it says
// what the page says, it is the text.
func TestTextThatOnlyPoints(t *testing.T) {
	page1 := "<p>You completed the course <b>Allergen Handling</b> on 5 February 2026.</p>" + strings.Repeat("<p>Learner: Orla Fennimore, study time 2.5 hours.</p>", 8)
	tests := []struct{ text, says, not string }{
		{"Your mail program does not show HTML. Log in to see your record.", "Allergen Handling", "Log in"},
		{"You completed the course Allergen Handling on 5 February 2026, as Orla Fennimore. The study time was 2.5 hours. Plain text." + strings.Repeat(" You can see your record.", 4), "Plain text", "Learner"},
	}
	for _, tt := range tests {
		mail := "From: a@b.invalid\r\nTo: o@post.invalid\r\nSubject: Done\r\nMIME-Version: 1.0\r\nContent-Type: multipart/alternative; boundary=x\r\n\r\n" +
			"--x\r\nContent-Type: text/plain\r\n\r\n" + tt.text + "\r\n--x\r\nContent-Type: text/html\r\n\r\n<html><body>" + page1 + "</body></html>\r\n--x--\r\n"
		d, err := reader(t).Read(t.Context(), bytes.NewReader([]byte(mail)), page.Request{})
		if err != nil {
			t.Fatal(err)
		}
		if got := text(d); !strings.Contains(got, tt.says) || strings.Contains(got, tt.not) {
			t.Errorf("read %q of a message whose text is %q", got, tt.text)
		}
	}
}
