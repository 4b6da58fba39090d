package page

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"io"
	"mime/quotedprintable"
	"net/mail"
	"regexp"
	"strings"
	"time"
	"unicode/utf8"

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
	// A blank before the first field hides it from the parser.
	b = withBlankLine(bytes.TrimLeft(b, " \t\r\n"))
	env, err := parser(false).ReadEnvelope(bytes.NewReader(b))
	if err != nil {
		return Document{Trouble: Unreadable, Reason: "the message is damaged: " + plain(err.Error(), 200)}
	}
	body := env
	if said := withoutASCII(b); said != nil {
		if other, err := parser(false).ReadEnvelope(bytes.NewReader(said)); err == nil {
			body = other // its words; what is attached stays as it was sent
		}
	}
	lines := columned(strings.Split(lineEnds(body.Text), "\n"))
	language := ""
	if body.HTML != "" {
		if w := walkHTML(body.HTML); strings.TrimSpace(body.Text) == "" || madeFromHTML(body) || onlyPoints(body.Text, w.lines) {
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
	mailParts(b, env, &d)
	return d
}

var saysASCII = regexp.MustCompile(`(?i)charset="?us-ascii"?`)

// withoutASCII returns a message that calls a text ASCII and is UTF-8, with its texts
// called that; nil for any other.
func withoutASCII(b []byte) []byte {
	b = bytes.TrimLeft(b, " \t\r\n")
	if !utf8.Valid(b) || !bytes.ContainsFunc(b, func(r rune) bool { return r >= utf8.RuneSelf }) || !saysASCII.Match(b) {
		return nil
	}
	return saysASCII.ReplaceAll(b, []byte("charset=utf-8"))
}

// onlyPoints says that the text of a message only points to its page, which says far more: "Your mail program
// does not show HTML".
func onlyPoints(text string, page []string) bool {
	n := len(strings.Fields(text))
	return n < 40 && 3*n < len(strings.Fields(strings.Join(page, " ")))
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

// parser makes a parser that never gives up on a part and believes the character set
// that is stated; raw leaves the content of parts as it was sent.
func parser(raw bool) *enmime.Parser {
	return enmime.NewParser(enmime.SkipMalformedParts(true), enmime.MaxStoredPartErrors(20), enmime.MultipartWOBoundaryAsSinglePart(true),
		enmime.DisableCharacterDetection(true), enmime.RawContent(raw))
}

// mailParts takes out the attachments, byte for byte as they were sent.
func mailParts(b []byte, env *enmime.Envelope, d *Document) {
	var sent *enmime.Part // the same message, nothing unpacked; made when it is needed
	room := partBytes
	add := func(p *enmime.Part, inline bool) {
		content := p.Content
		if strings.HasPrefix(p.ContentType, "text/") {
			// The parser has turned a text into UTF-8, which is another file.
			if sent == nil {
				if raw, err := parser(true).ReadEnvelope(bytes.NewReader(b)); err == nil {
					sent = raw.Root
				}
			}
			content = unpacked(sent, p)
		}
		if len(content) == 0 || len(content) > room || len(d.Parts) >= mostParts {
			return
		}
		room -= len(content)
		name := plain(p.FileName, 200)
		if name == "" {
			name = fmt.Sprintf("part %d", len(d.Parts)+1)
		}
		d.Parts = append(d.Parts, Part{Name: name, Type: typeOf(content), Inline: inline, Data: content})
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

// unpacked returns the bytes of a part as its sender had them, from the message whose
// parts were left as sent. Where that cannot be done they are the parser's.
// Source: RFC 2045, sections 6.7 and 6.8.
func unpacked(sent, p *enmime.Part) []byte {
	if sent == nil {
		return p.Content
	}
	raw := sent.BreadthMatchFirst(func(o *enmime.Part) bool { return o.PartID == p.PartID })
	if raw == nil {
		return p.Content
	}
	switch strings.ToLower(strings.TrimSpace(raw.Header.Get("Content-Transfer-Encoding"))) {
	case "base64":
		packed := bytes.Map(func(r rune) rune {
			if r == '+' || r == '/' || (r >= '0' && r <= '9') || (r >= 'A' && r <= 'Z') || (r >= 'a' && r <= 'z') {
				return r
			}
			return -1
		}, raw.Content)
		out, err := base64.RawStdEncoding.DecodeString(string(packed))
		if err != nil {
			return p.Content
		}
		return out
	case "quoted-printable":
		out, err := io.ReadAll(quotedprintable.NewReader(bytes.NewReader(raw.Content)))
		if err != nil {
			return p.Content
		}
		return out
	}
	return raw.Content
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
