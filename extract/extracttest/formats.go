package extracttest

import (
	"archive/zip"
	"bytes"
	"encoding/base64"
	"fmt"
	"html"
	"mime"
	"mime/quotedprintable"
	"strings"
	"time"

	"evidencevault/credit"
)

// finish writes the paper in its format.
func (s *sheet) finish(name string) (Made, bool) {
	s.f.layout = s.layout
	list := s.blocks()
	if s.before != nil {
		list = append(append(s.before.blocks(), block{newPage: true}), list...)
	}
	m := Made{Text: plainText(list), Truth: s.t, facts: s.f}
	if s.layout == "sidebar" || s.layout == "panel" {
		m.Text += s.provider + "\n" + strings.Join(s.c.foot, "\n") + "\n"
	}
	ext, err := s.t.Format, error(nil)
	switch s.t.Format {
	case "pdf":
		m.Data, err = s.pdf(list)
	case "eml-pdf":
		ext, m.Truth.Format = "eml", "eml"
		if m.Data, err = s.pdf(list); err == nil {
			m.Data, err = s.message(s.covering(), m.Data)
		}
	case "eml":
		body := m.Text
		if s.markup = s.chance(30); s.markup {
			body = string(s.html(list))
		} else if s.chance(30) {
			body += "\n" + oneOf(s.draw, s.say("disclaim"), s.say("thread")+"\n> "+s.say("mail.attached")) + "\n"
		}
		m.Data, err = s.message(body, nil)
	case "html":
		m.Data = s.html(list)
	case "docx":
		m.Data, err = docx(list)
	case "ics":
		m.Data = s.ics()
	default:
		m.Data = []byte(m.Text)
	}
	if err != nil {
		panic(fmt.Sprintf("extracttest: %s of %s: %v", s.t.Format, name, err))
	}
	m.Name = name + "." + ext
	m.Truth.File = m.Name
	return m, true
}

// covering is the text of a message that brings a paper.
func (s *sheet) covering() string {
	return s.say("dear", "who", s.holder.full()) + "\n\n" + s.say("mail.attached") + "\n\n" + s.say("closing") + "\n" + s.say("office") + "\n"
}

// message writes an e-mail; its date is the day of issue at noon.
func (s *sheet) message(text string, attached []byte) ([]byte, error) {
	day := s.f.issue
	if day.IsZero() {
		day = credit.MustDate("2026-11-11")
		if attached != nil && !s.latest().IsZero() {
			day = s.latest().AddDays(3)
		}
	}
	var b bytes.Buffer
	head := func(name, value string) { fmt.Fprintf(&b, "%s: %s\r\n", name, value) }
	subject := fill(s.say("mail.subj"), "head", s.c.heading, "title", s.c.heading)
	from := s.provider
	if s.c.top && s.chance(25) {
		from = s.say("office")
	}
	head("From", mime.QEncoding.Encode("utf-8", from)+" <office@"+foldHost(s.provider)+".example>")
	head("To", mime.QEncoding.Encode("utf-8", s.holder.full())+" <post@"+foldHost(s.holder.last)+".example>")
	head("Subject", mime.QEncoding.Encode("utf-8", subject))
	zone := time.FixedZone("", map[string]int{"en-US": -6, "en-GB": 0, "en": 0}[s.loc]*3600)
	if s.lang != "en" {
		zone = time.FixedZone("", 3600)
	}
	y, m, d := day.YMD()
	head("Date", time.Date(y, m, d, 9+s.r.IntN(8), s.r.IntN(60), 0, 0, zone).Format(time.RFC1123Z))
	head("Message-ID", "<"+s.digits(9)+"@"+foldHost(s.provider)+".example>")
	head("MIME-Version", "1.0")
	if attached == nil {
		err := s.textPart(&b, text)
		return b.Bytes(), err
	}
	border := "part-" + s.digits(12)
	head("Content-Type", `multipart/mixed; boundary="`+border+`"`)
	b.WriteString("\r\n--" + border + "\r\n")
	if err := s.textPart(&b, text); err != nil {
		return nil, err
	}
	b.WriteString("\r\n--" + border + "\r\n")
	head("Content-Type", `application/pdf; name="document.pdf"`)
	head("Content-Disposition", `attachment; filename="document.pdf"`)
	head("Content-Transfer-Encoding", "base64")
	b.WriteString("\r\n")
	for text := base64.StdEncoding.EncodeToString(attached); text != ""; {
		n := min(76, len(text))
		b.WriteString(text[:n] + "\r\n")
		text = text[n:]
	}
	b.WriteString("--" + border + "--\r\n")
	return b.Bytes(), nil
}

// textPart writes the head and the body of a part of text.
func (s *sheet) textPart(b *bytes.Buffer, text string) error {
	kind := "text/plain"
	if s.markup {
		kind = "text/html"
	}
	b.WriteString("Content-Type: " + kind + "; charset=\"utf-8\"\r\nContent-Transfer-Encoding: quoted-printable\r\n\r\n")
	q := quotedprintable.NewWriter(b)
	if _, err := q.Write([]byte(strings.ReplaceAll(text, "\n", "\r\n"))); err != nil {
		return err
	}
	return q.Close()
}

// html writes a page of markup.
func (s *sheet) html(list []block) []byte {
	var b strings.Builder
	esc := html.EscapeString
	fmt.Fprintf(&b, "<!doctype html>\n<html lang=%q><head><meta charset=\"utf-8\"><title>%s</title></head><body>\n", s.lang, esc(s.c.heading))
	tags := map[string]string{"org": "h2", "heading": "h1", "name": "h2", "title": "h3", "body": "p", "small": "small"}
	style := oneOf(s.draw, "table", "dl", "p")
	page := s.t.Format == "html" && s.chance(35)
	if page {
		fmt.Fprintf(&b, "<nav>%s</nav>\n", esc(s.say("nav")))
	}
	for _, k := range list {
		switch {
		case len(k.items) > 0:
			b.WriteString(htmlItems(k.items, style))
		case len(k.grid) > 0:
			b.WriteString(htmlGrid(k))
		case k.newPage:
			b.WriteString("<hr>\n")
		case k.right != "":
			fmt.Fprintf(&b, "<p><span>%s</span> <span style=\"float:right\">%s</span></p>\n", esc(k.text), esc(k.right))
		case k.text != "":
			fmt.Fprintf(&b, "<div><%[1]s>%s</%[1]s></div>\n", tags[k.role], esc(k.text))
		}
	}
	if page {
		fmt.Fprintf(&b, "<footer><small>%s</small></footer>\n", esc(s.say("footer")))
	}
	b.WriteString("</body></html>\n")
	return []byte(b.String())
}

func htmlItems(items []item, style string) string {
	form := map[string][3]string{
		"table": {"<table>\n", "<tr><th>%s</th><td>%s</td></tr>\n", "</table>\n"},
		"dl":    {"<dl>\n", "<dt>%s</dt><dd>%s</dd>\n", "</dl>\n"},
		"p":     {"", "<p><b>%s:</b> %s</p>\n", ""},
	}[style]
	var b strings.Builder
	b.WriteString(form[0])
	for _, it := range items {
		fmt.Fprintf(&b, form[1], html.EscapeString(it.label), html.EscapeString(it.value))
	}
	b.WriteString(form[2])
	return b.String()
}

func htmlGrid(k block) string {
	var b strings.Builder
	b.WriteString("<table>\n")
	for i, row := range k.grid {
		tag := "td"
		if i == 0 {
			tag = "th"
		}
		b.WriteString("<tr>")
		for _, cell := range row {
			fmt.Fprintf(&b, "<%[1]s>%s</%[1]s>", tag, html.EscapeString(cell))
		}
		b.WriteString("</tr>\n")
	}
	for _, it := range k.foot {
		fmt.Fprintf(&b, "<tr><td>%s</td><td>%s</td></tr>\n", html.EscapeString(it.label), html.EscapeString(it.value))
	}
	b.WriteString("</table>\n")
	return b.String()
}

// docxBody writes the blocks as paragraphs and tables.
func docxBody(list []block) string {
	var body strings.Builder
	para := func(text, size string) string {
		return `<w:p><w:r><w:rPr><w:sz w:val="` + size + `"/></w:rPr><w:t xml:space="preserve">` + html.EscapeString(text) + `</w:t></w:r></w:p>`
	}
	table := func(rows [][]string) {
		body.WriteString(`<w:tbl><w:tblPr/><w:tblGrid/>`)
		for _, row := range rows {
			body.WriteString(`<w:tr>`)
			for _, cell := range row {
				body.WriteString(`<w:tc><w:tcPr/>` + para(cell, "22") + `</w:tc>`)
			}
			body.WriteString(`</w:tr>`)
		}
		body.WriteString(`</w:tbl>`)
	}
	sizes := map[string]string{"org": "28", "heading": "40", "name": "36", "title": "30", "body": "22", "small": "18"}
	for _, b := range list {
		switch {
		case len(b.items) > 0 && b.style == "columns":
			var rows [][]string
			for _, it := range b.items {
				rows = append(rows, []string{it.label, it.value})
			}
			table(rows)
		case len(b.items) > 0:
			for _, it := range b.items {
				body.WriteString(para(it.label+": "+it.value, "22"))
			}
		case len(b.grid) > 0:
			table(b.grid)
			for _, it := range b.foot {
				body.WriteString(para(it.label+": "+it.value, "22"))
			}
		case b.text != "":
			body.WriteString(para(b.text, sizes[b.role]))
			if b.right != "" {
				body.WriteString(para(b.right, sizes[b.role]))
			}
		}
	}
	return body.String()
}

// docx writes the parts that a word processor needs.
func docx(list []block) ([]byte, error) {
	const head = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"
	files := [][2]string{
		{"[Content_Types].xml", head + `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/word/document.xml" ContentType="application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml"/></Types>`},
		{"_rels/.rels", head + `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="word/document.xml"/></Relationships>`},
		{"word/document.xml", head + `<w:document xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"><w:body>` + docxBody(list) + `</w:body></w:document>`},
	}
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, f := range files {
		w, err := z.CreateHeader(&zip.FileHeader{Name: f[0], Method: zip.Deflate, Modified: made})
		if err != nil {
			return nil, err
		}
		if _, err := w.Write([]byte(f[1])); err != nil {
			return nil, err
		}
	}
	err := z.Close()
	return out.Bytes(), err
}

// ics writes a calendar entry of all-day events.
func (s *sheet) ics() []byte {
	day := func(d credit.Date) string { return strings.ReplaceAll(d.String(), "-", "") }
	escape := strings.NewReplacer("\\", "\\\\", ",", "\\,", ";", "\\;")
	lines := []string{"BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//invented//papers//EN", "BEGIN:VEVENT", "UID:" + s.digits(8) + "@" + foldHost(s.provider) + ".example",
		"DTSTAMP:20260102T030405Z", "DTSTART;VALUE=DATE:" + day(s.f.start), "DTEND;VALUE=DATE:" + day(s.f.end.AddDays(1)),
		"SUMMARY:" + escape.Replace(s.c.heading), "LOCATION:" + escape.Replace(s.city), "END:VEVENT", "END:VCALENDAR"}
	return []byte(strings.Join(lines, "\r\n") + "\r\n")
}
