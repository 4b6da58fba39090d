package page

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"
)

// wayOut ends the reason of a type that is not read.
const wayOut = "save it as PDF and drop it again; the original is kept"

// unreadTypes names, for people, types that are common and not read.
var unreadTypes = map[string]string{
	"image/heic": "a photo in HEIC form", "image/heif": "a photo in HEIF form", "image/heic-sequence": "a photo in HEIC form",
	"application/json": "data in JSON form and no badge or credential", "application/jwt": "a signed credential",
	"image/svg+xml": "a drawing in SVG form", "image/avif": "a picture in AVIF form",
	"application/vnd.oasis.opendocument.text":                                   "an OpenDocument text",
	"application/vnd.oasis.opendocument.spreadsheet":                            "an OpenDocument spreadsheet",
	"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet":         "a spreadsheet",
	"application/vnd.openxmlformats-officedocument.presentationml.presentation": "a presentation",
	"application/msword":                            "a word processor's document of the old form",
	"application/vnd.ms-excel":                      "a spreadsheet of the old form",
	"application/vnd.ms-powerpoint":                 "a presentation of the old form",
	"application/vnd.ms-outlook":                    "a message in MSG form",
	"application/x-ole-storage":                     "a document of an old office program",
	"text/rtf":                                      "a document in RTF form",
	"application/epub+zip":                          "an electronic book",
	"application/vnd.apple.pages":                   "a Pages document",
	"application/x-iwork-pages-sffpages":            "a Pages document",
	"application/postscript":                        "a PostScript document",
	"audio/mpeg":                                    "a sound recording",
	"video/mp4":                                     "a film",
	"application/vnd.microsoft.portable-executable": "a program",
}

// archives are unpacked by the person, not by us; those in ZIP form we unpack.
var archives = map[string]bool{
	"application/x-7z-compressed": true, "application/x-rar-compressed": true,
	"application/x-tar": true, "application/gzip": true, "application/x-bzip2": true, "application/x-xz": true,
}

// refuse says why a type is not read, and what the person can do.
func refuse(kind string, b []byte) Document {
	switch {
	case archives[kind]:
		return Document{Trouble: Other, Reason: "it is an archive (" + kind + "); unpack it and drop the files in it; the original is kept"}
	case unreadTypes[kind] != "":
		return Document{Trouble: Other, Reason: "it is " + unreadTypes[kind] + ", which is not read; " + wayOut}
	case kind == "application/octet-stream":
		if len(bytes.Trim(b, "\x00")) == 0 {
			return Document{Trouble: Empty, Reason: "the file holds only zero bytes"}
		}
		return Document{Trouble: Unreadable, Reason: "its content is of no known type; it may be damaged"}
	}
	return Document{Trouble: Other, Reason: fmt.Sprintf("it is of type %s, which is not read; %s", kind, wayOut)}
}

// pdfStart returns where a PDF begins: its header may stand anywhere in the first
// 1024 bytes, but a text that merely speaks of it is none. -1 means it is no PDF.
// Source: ISO 32000-1, annex H, implementation note 13.
func pdfStart(b []byte) int {
	at := bytes.Index(b[:min(len(b), 1024)], []byte("%PDF-"))
	if at <= 0 {
		return at
	}
	if !bytes.Contains(b[at:], []byte("endobj")) {
		return -1
	}
	return at
}

// textKind tells mail and calendars from other text, which a sniffer that looks for
// one fixed beginning cannot.
func textKind(b []byte, other string) string {
	start := b[:min(len(b), 16<<10)]
	trimmed := bytes.TrimLeft(bytes.TrimPrefix(start, []byte("\xef\xbb\xbf")), " \t\r\n")
	if len(trimmed) >= 15 && bytes.EqualFold(trimmed[:15], []byte("BEGIN:VCALENDAR")) {
		return "ics"
	}
	if looksLikeMail(start) {
		return "eml"
	}
	if other == "txt" && utf8.Valid(start) {
		low := strings.ToLower(string(start[:min(len(start), 2048)]))
		if strings.Contains(low, "<html") || strings.Contains(low, "<!doctype html") {
			return "html"
		}
	}
	return other
}

// looksLikeMail wants a head of fields only, of which at least two are a message's.
// Source: RFC 5322, section 2.2.
func looksLikeMail(b []byte) bool {
	known := map[string]bool{}
	for i, line := range strings.Split(strings.ReplaceAll(string(b), "\r\n", "\n"), "\n") {
		if line == "" && i > 0 {
			break
		}
		if line == "" || line[0] == ' ' || line[0] == '\t' {
			continue
		}
		name, _, ok := strings.Cut(line, ":")
		if i == 0 && strings.HasPrefix(line, "From ") {
			continue
		}
		if !ok || strings.ContainsAny(name, " \t") {
			return false
		}
		switch strings.ToLower(name) {
		case "from", "to", "subject", "date", "message-id", "mime-version", "received", "return-path", "content-type", "delivered-to", "reply-to":
			known[strings.ToLower(name)] = true
		}
	}
	return len(known) >= 2
}
