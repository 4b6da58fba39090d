package page

import (
	"bytes"
	"fmt"
	"net/mail"
	"strings"
	"time"

	"github.com/jhillyerd/enmime/v2"
)

const mostBoundaries = 400 // lines that could begin a part's head, before it is called a bomb

// readMail reads a message: its head, the text of its body, and what is attached.
func readMail(b []byte) Document {
	if n := bytes.Count(bytes.ToLower(b), []byte("boundary=")); n > mostBoundaries {
		return tooLarge(fmt.Sprintf("the message has %d parts within parts", n))
	}
	if n := headBytes(b); n > 1<<20 {
		return tooLarge("the head of the message has more than 1 MiB")
	}
	env, err := parser(false).ReadEnvelope(bytes.NewReader(b))
	if err != nil {
		return Document{Trouble: Unreadable, Reason: "the message is damaged: " + plain(err.Error(), 200)}
	}
	lines := strings.Split(lineEnds(env.Text), "\n")
	language := ""
	if strings.TrimSpace(env.Text) == "" || madeFromHTML(env) {
		if w := walkHTML(env.HTML); env.HTML != "" {
			lines, language = w.lines, languageTag(w.language)
		}
	}
	d := textDocument(lines)
	d.Language = language
	d.Mail = &Mail{
		From: plain(env.GetHeader("From"), 500), To: plain(env.GetHeader("To"), 2000),
		Subject: plain(env.GetHeader("Subject"), 1000), Date: mailDate(env.GetHeader("Date")),
	}
	d.Title = d.Mail.Subject
	mailParts(b, &d)
	return d
}

// madeFromHTML says that the message has no text of its own: what the parser offers
// as text it made from the page, and we make better lines of that.
func madeFromHTML(env *enmime.Envelope) bool {
	if env.HTML == "" || env.Root == nil {
		return false
	}
	text := env.Root.BreadthMatchFirst(func(p *enmime.Part) bool {
		return p.Disposition != "attachment" && strings.HasPrefix(p.ContentType, "text/plain") && len(bytes.TrimSpace(p.Content)) > 0
	})
	return text == nil
}

// parser makes a parser that never gives up on a part; raw keeps the bytes of texts
// as they came.
func parser(raw bool) *enmime.Parser {
	return enmime.NewParser(enmime.SkipMalformedParts(true), enmime.MaxStoredPartErrors(20), enmime.DisableTextConversion(raw), enmime.MultipartWOBoundaryAsSinglePart(true))
}

// mailParts takes out the attachments, byte for byte as they were sent.
func mailParts(b []byte, d *Document) {
	env, err := parser(true).ReadEnvelope(bytes.NewReader(b))
	if err != nil {
		return
	}
	room := partBytes
	add := func(p *enmime.Part, inline bool) {
		if len(p.Content) == 0 || len(p.Content) > room || len(d.Parts) >= mostParts {
			return
		}
		room -= len(p.Content)
		name := plain(p.FileName, 200)
		if name == "" {
			name = fmt.Sprintf("part %d", len(d.Parts)+1)
		}
		d.Parts = append(d.Parts, Part{Name: name, Type: typeOf(p.Content), Inline: inline, Data: p.Content})
	}
	for _, p := range env.Attachments {
		add(p, false)
	}
	for _, p := range env.Inlines {
		add(p, strings.HasPrefix(p.ContentType, "image/"))
	}
	for _, p := range env.OtherParts {
		add(p, p.ContentID != "" || strings.HasPrefix(p.ContentType, "image/"))
	}
}

// headBytes returns where the first empty line stands.
func headBytes(b []byte) int {
	at := len(b)
	for _, end := range []string{"\r\n\r\n", "\n\n"} {
		if n := bytes.Index(b, []byte(end)); n >= 0 {
			at = min(at, n)
		}
	}
	return at
}

// mailDate returns the day and time in the sender's zone. "" means there is none that
// can be read. Source: RFC 5322, section 3.3.
func mailDate(s string) string {
	t, err := mail.ParseDate(strings.TrimSpace(s))
	if err != nil {
		return ""
	}
	return t.Format(time.RFC3339)
}
