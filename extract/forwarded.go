package extract

import (
	"strings"

	"evidencevault/extract/find"
	"evidencevault/extract/page"
)

// A message that was passed on holds the one that counts, with its head in lines:
//
//	---------- Forwarded message ---------
//	From: Course office <office@example.org>
//	Date: Mon, 11 May 2026 at 17:02
//	Subject: Your certificate
//	To: Anna Vey
//
// The words are those that mail programs write in the languages that are read.

var (
	forwardMark = matching(`^[-_=>\s]*(?:(?:begin )?forwarded (?:message|e-?mail)|message (?:transfere|reexpedie)|debut du message (?:transfere|reexpedie)|mensaje reenviado|weitergeleitete (?:nachricht|e-?mail)|doorgestuurd (?:bericht|e-?mail)|messaggio inoltrato|mensagem encaminhada)[-_=:\s]*$`)
	earlierMark = matching(`^[-_=>\s]*(?:original (?:message|e-?mail)|message (?:d'origine|original)|mensaje original|urspr\S+ nachricht|oorspronkelijk bericht|messaggio originale|mensagem original)[-_=:\s]*$`)
	passedOn    = matching(`^(?:fwd?|tr|wg|rv|doorst|fs|enc|i|inoltro) ?:`)
	forwardHead = matching(`^(from|von|de|van|da|date|datum|fecha|data|sent|gesendet|envoye|enviado(?: el)?|verzonden|inviato|enviada(?: em)?|subject|betreff|objet|asunto|onderwerp|oggetto|assunto|to|an|a|para|aan|cc|reply-to|reponse a)\s*:\s*(.*)$`)
)

// forwarded returns the document that a message passes on in its text; false where it
// passes on none, or says more itself than a line or two.
func forwarded(doc page.Document) (page.Document, bool) {
	if doc.Type != "eml" || doc.Mail == nil || len(doc.Pages) != 1 || len(doc.Pages[0].Words) > 0 {
		return doc, false
	}
	lines := doc.Pages[0].Lines
	mark, ok := headOfInner(lines, passedOn.MatchString(fold(doc.Mail.Subject)))
	if !ok || len(strings.Fields(strings.Join(lines[:mark], " "))) > 40 {
		return doc, false
	}
	mail := page.Mail{To: doc.Mail.To}
	known, to := readHead(&mail, lines, mark, unquoted)
	if known < 2 || mail.From == "" {
		return doc, false
	}
	inner := doc
	inner.Mail, inner.Title = &mail, mail.Subject
	p := doc.Pages[0]
	p.Lines = nil
	for _, line := range lines[to:] {
		p.Lines = append(p.Lines, strings.TrimPrefix(strings.TrimPrefix(line, ">"), " "))
	}
	inner.Pages = []page.Page{p}
	if again, ok := forwarded(inner); ok {
		return again, true
	}
	return inner, hasText(inner)
}

// savedMessage returns a text that begins with the head of a message, as a mail program saves it in its own
// language, as that message: "De: …", "Fecha: …", "Asunto: …".
func savedMessage(doc page.Document) (page.Document, bool) {
	if doc.Type != "txt" || doc.Mail != nil || len(doc.Pages) != 1 || len(doc.Pages[0].Words) > 0 {
		return doc, false
	}
	lines, mail := doc.Pages[0].Lines, page.Mail{}
	known, to := readHead(&mail, lines, 0, strings.TrimSpace)
	if known < 3 || mail.From == "" || mail.Date == "" || mail.Subject == "" {
		return doc, false
	}
	p := doc.Pages[0]
	p.Lines = lines[to:]
	doc.Type, doc.Mail, doc.Title, doc.Pages = "eml", &mail, mail.Subject, []page.Page{p}
	return doc, hasText(doc)
}

// readHead reads the head of a message from a line on, each line made bare first, and returns how many
// fields it has and the line behind it; empty lines before it are passed over.
func readHead(mail *page.Mail, lines []string, from int, bare func(string) string) (known, to int) {
	for to = from; to < len(lines); to++ {
		text := bare(lines[to])
		if text == "" && known == 0 {
			continue
		}
		m := forwardHead.FindStringSubmatch(fold(text))
		if m == nil {
			break
		}
		_, value, _ := strings.Cut(text, ":")
		known++
		headField(mail, m[1], strings.TrimSpace(value))
	}
	return known, to
}

// headOfInner returns the line with which the head of an inner message begins. Where
// the subject says that a message was passed on, the mark that an answer has too will
// do, or three lines of a head without any mark.
func headOfInner(lines []string, passed bool) (int, bool) {
	run := 0
	for i, line := range lines {
		low := fold(unquoted(line))
		if forwardMark.MatchString(strings.TrimSpace(fold(line))) || passed && earlierMark.MatchString(strings.TrimSpace(fold(line))) {
			return i + 1, true
		}
		if !forwardHead.MatchString(low) {
			run = 0
		} else if run++; run == 3 && passed {
			return i - 2, true
		}
	}
	return 0, false
}

// unquoted takes the marks of a quoted line and the stars of bold text off it.
func unquoted(line string) string { return strings.Trim(line, "> *\t") }

// headField puts a field of the inner head where it belongs.
func headField(m *page.Mail, name, value string) {
	value = strings.Trim(value, "* ")
	switch name {
	case "from", "von", "de", "van", "da":
		m.From = value
	case "date", "datum", "fecha", "data", "sent", "gesendet", "envoye", "enviado", "enviado el", "verzonden", "inviato", "enviada", "enviada em":
		if d := find.Dates(value, nil); len(d) > 0 && len(d[0].Days()) == 1 {
			m.Date = d[0].Days()[0].String()
		}
	case "subject", "betreff", "objet", "asunto", "onderwerp", "oggetto", "assunto":
		m.Subject = value
	case "to", "an", "a", "para", "aan":
		m.To = value
	}
}

// withoutEarlier returns an answer without the message that it answers, which stands beneath it with its head.
func withoutEarlier(doc page.Document) page.Document {
	if doc.Type != "eml" || doc.Mail == nil || len(doc.Pages) != 1 || passedOn.MatchString(fold(doc.Mail.Subject)) {
		return doc
	}
	lines := doc.Pages[0].Lines
	for from, line := range lines {
		if unquoted(line) == "" {
			continue // a head begins with a field
		}
		var mail page.Mail
		known, _ := readHead(&mail, lines, from, unquoted)
		if known < 3 || !strings.Contains(mail.From+mail.To, "@") || len(strings.Fields(strings.Join(lines[:from], " "))) < 15 {
			continue
		}
		p := doc.Pages[0]
		p.Lines = lines[:from]
		doc.Pages = []page.Page{p}
		return doc
	}
	return doc
}
