package page

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"encoding/xml"
	"hash/crc32"
	"strings"
)

// readBaked reads the badge in a picture. found is false for a picture without one.
func readBaked(b []byte, kind string) (d Document, found bool) {
	var text []byte
	var problem string
	switch kind {
	case "png":
		text, problem = pngBadge(b)
	case "image/svg+xml":
		text, problem = drawingBadge(b)
	}
	switch {
	case problem != "":
		return Document{Trouble: Unreadable, Reason: "it is a picture with a badge in it, and " + problem + "; ask the issuer for it again"}, true
	case text == nil:
		return Document{}, false
	case bytes.HasPrefix(text, []byte("http")):
		return Document{Trouble: Other, Reason: "it is a picture with the address of a badge in it, and nothing is fetched; open the badge's page, " + wayOut}, true
	}
	return readBadge(text, "application/json"), true
}

// pngBadge walks the chunks of a PNG. Sources: PNG third edition, sections 5.3 and
// 11.3.3; Open Badges 2.0, baking, and 3.0, section 5.3.1.
func pngBadge(b []byte) (text []byte, problem string) {
	for at := 8; at+12 <= len(b); {
		n := int64(binary.BigEndian.Uint32(b[at:]))
		if int64(at)+12+n > int64(len(b)) {
			return text, ""
		}
		chunk := b[at+4 : at+8+int(n)]
		sum := binary.BigEndian.Uint32(b[at+8+int(n):])
		at += 12 + int(n)
		word, rest, ok := bytes.Cut(chunk[4:], []byte{0})
		name, form := string(word), string(chunk[:4])
		if !ok || form != "iTXt" && form != "tEXt" || name != "openbadges" && name != "openbadgecredential" {
			continue
		}
		switch {
		case sum != crc32.ChecksumIEEE(chunk):
			return nil, "the badge is damaged: its checksum is wrong"
		case text != nil:
			return nil, "it holds two badges, which the form does not allow"
		}
		if form == "iTXt" {
			if len(rest) < 2 || rest[0] != 0 {
				return nil, "the badge is packed, which the form does not allow"
			}
			parts := bytes.SplitN(rest[2:], []byte{0}, 3)
			if len(parts) < 3 {
				return nil, "the badge is damaged"
			}
			rest = parts[2]
		}
		text = append([]byte{}, bytes.TrimSpace(rest)...)
	}
	return text, ""
}

// drawingBadge looks for the element of a badge in an SVG. No entity is replaced and
// nothing is fetched. Sources: Open Badges 2.0, baking, and 3.0, section 5.3.2.
func drawingBadge(b []byte) (text []byte, problem string) {
	if len(b) > textBytes {
		return nil, "it is larger than 8 MiB"
	}
	dec := xml.NewDecoder(bytes.NewReader(b))
	dec.Strict = false
	dec.Entity = map[string]string{}
	inside := false
	var found []string
	address := "" // of a badge without text
	for {
		token, err := dec.RawToken()
		if err != nil {
			break // what stands before the damage is judged by itself
		}
		switch t := token.(type) {
		case xml.StartElement:
			if inside = t.Name.Space == "openbadges" && (t.Name.Local == "assertion" || t.Name.Local == "credential"); !inside {
				continue
			}
			found = append(found, "")
			if signed, link := verifyOf(t); signed != "" {
				found[len(found)-1], inside = signed, false // what is signed counts before any text
			} else {
				address = link
			}
		case xml.EndElement:
			inside = false
		case xml.CharData:
			if inside {
				found[len(found)-1] += string(t)
			}
		}
	}
	switch len(found) {
	case 0:
		return nil, ""
	case 1:
		if strings.TrimSpace(found[0]) == "" {
			found[0] = address
		}
		return []byte(strings.TrimSpace(found[0])), ""
	}
	return nil, "it holds two badges, which the form does not allow"
}

// verifyOf returns what the element of a badge names to verify it by: what is signed, or else an
// address.
func verifyOf(t xml.StartElement) (signed, address string) {
	for _, a := range t.Attr {
		if a.Name.Local == "verify" && signedToken.MatchString(a.Value) {
			signed = a.Value
		} else if a.Name.Local == "verify" {
			address = strings.TrimSpace(a.Value)
		}
	}
	return signed, address
}

// decodedPart decodes one part of a token; nil where it is none.
func decodedPart(s string) []byte {
	out, err := base64.RawURLEncoding.DecodeString(s)
	if err != nil {
		return nil
	}
	return out
}
