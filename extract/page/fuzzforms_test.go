package page

import (
	"archive/zip"
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"hash/crc32"
	"io"
	"strings"
	"testing"
	"time"
)

// Each format has a target of its own, so that the search does not spend itself on
// telling formats apart. All promise the same: a sound document, and no panic.

func FuzzMail(f *testing.F) {
	seeds(f, "own/*.eml", "mail/*.eml")
	f.Fuzz(func(t *testing.T, b []byte) { sound(t, readMail(b)) })
}

func FuzzHTML(f *testing.F) {
	seeds(f, "own/*.html")
	f.Add([]byte("<table><tr><td rowspan=2>a<td>b<tr><td><dl><dt>Hours<dd>7</table><p hidden>x"))
	f.Fuzz(func(t *testing.T, b []byte) { sound(t, readHTML(b)) })
}

func FuzzCalendar(f *testing.F) {
	seeds(f, "own/*.ics", "mail/*.ics")
	f.Add([]byte("BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nDTSTART;TZID=\"A:B\":20260303T090000\r\nDURATION:PT7H\r\nRRULE:FREQ=DAILY;COUNT=3\r\nSUMMARY:a\\,\r\n b\r\nEND:VEVENT\r\nEND:VCALENDAR"))
	f.Fuzz(func(t *testing.T, b []byte) { sound(t, readCalendar(b)) })
}

// FuzzArchive changes what an archive holds; its own bytes are changed by
// FuzzArchivesNeverPanic.
func FuzzArchive(f *testing.F) {
	f.Add("a.txt", []byte("x"), "b/c.pdf", []byte("%PDF-1.4"))
	f.Add("../../etc/x", []byte("Certificate"), "..\\y", []byte("PK\x03\x04"))
	f.Add("\xff\xfe", []byte{}, "a/", []byte("a"))
	f.Fuzz(func(t *testing.T, one string, first []byte, two string, second []byte) {
		sound(t, readArchive(packedFiles(t, one, string(first), two, string(second))))
	})
}

// packedFiles zips pairs of name and content; what the format cannot hold is left out.
func packedFiles(t testing.TB, pairs ...string) []byte {
	t.Helper()
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for i := 0; i+1 < len(pairs); i += 2 {
		e, err := w.Create(pairs[i])
		if err != nil {
			continue
		}
		if _, err := io.WriteString(e, pairs[i+1]); err != nil && !strings.HasSuffix(pairs[i], "/") {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// FuzzDocx changes the body and the properties of a document; bytes of the archive
// around them are changed by FuzzFormatsNeverPanic.
func FuzzDocx(f *testing.F) {
	const body = `<w:document xmlns:w="w"><w:body><w:p><w:r><w:t>Certificate</w:t><w:tab/><w:t>7 h</w:t></w:r></w:p><w:tbl><w:tr><w:tc><w:p><w:r><w:t>a</w:t></w:r></w:p></w:tc></w:tr></w:tbl></w:body></w:document>`
	const properties = `<cp:coreProperties xmlns:dc="dc"><dc:title>T</dc:title><dc:language>de</dc:language></cp:coreProperties>`
	f.Add([]byte(body), []byte(properties))
	f.Add([]byte(`<w:document><w:txbxContent><w:p><w:del><w:t>x</w:t></w:del></w:p></w:txbxContent>`), []byte(`<a/>`))
	f.Fuzz(func(t *testing.T, body, properties []byte) {
		sound(t, readDocx(packedFiles(t, "[Content_Types].xml", "<Types/>", "word/document.xml", string(body), "docProps/core.xml", string(properties))))
	})
}

// FuzzBadge reads JSON, a token and an SVG. Of what nobody signed no signature is good.
func FuzzBadge(f *testing.F) {
	seeds(f, "badge/*.json", "badge/*.jws", "badge/*.jwt", "badge/*.svg", "badge/bad/*")
	f.Fuzz(func(t *testing.T, b []byte) {
		for _, kind := range []string{"application/json", "application/jwt"} {
			d := readBadge(b, kind)
			sound(t, d)
			if d.Badge != nil && d.Badge.Seal == SealGood && !signedToken.Match(bytes.TrimSpace(bytes.TrimPrefix(b, []byte("\xef\xbb\xbf")))) {
				t.Fatalf("what is no token has a good signature: %+v", d.Badge)
			}
		}
		d, _ := readBaked(b, "image/svg+xml")
		sound(t, d)
	})
}

// FuzzBakedPicture puts text into a chunk of a picture, with its right checksum, so that
// the search comes to what stands behind it; and reads the bytes as a picture.
func FuzzBakedPicture(f *testing.F) {
	f.Add("iTXt", "openbadges", []byte("\x00\x00\x00\x00{}"))
	f.Add("tEXt", "openbadges", []byte("https://badges.example/1"))
	f.Add("iTXt", "openbadgecredential", []byte("\x01\x00\x00\x00x"))
	f.Fuzz(func(t *testing.T, form, word string, text []byte) {
		if len(form) != 4 {
			return
		}
		chunk := append([]byte(form+word+"\x00"), text...)
		b := []byte("\x89PNG\r\n\x1a\n")
		b = binary.BigEndian.AppendUint32(b, uint32(len(chunk)-4))
		b = append(b, chunk...)
		b = binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(chunk))
		for _, picture := range [][]byte{b, text} {
			d, _ := readBaked(picture, "png")
			sound(t, d)
		}
	})
}

// FuzzToken signs nothing, so that whatever the head says, no payload is called signed.
func FuzzToken(f *testing.F) {
	f.Add(`{"alg":"none"}`, `{"vc":{}}`, []byte(""))
	f.Add(`{"alg":"RS256","jwk":{"kty":"RSA","n":"AQAB","e":"AQAB"}}`, `{"type":"Assertion"}`, []byte("x"))
	f.Add(`{"alg":"EdDSA","kid":"did:key:z6MkhaXgBZDvotDkL5257faiztiGiC2QtKLGpbnnEGta2doK"}`, `{}`, make([]byte, 64))
	f.Fuzz(func(t *testing.T, head, payload string, sign []byte) {
		enc := base64.RawURLEncoding.EncodeToString
		start := time.Now()
		_, seal, why := unsealed(enc([]byte(head)) + "." + enc([]byte(payload)) + "." + enc(sign))
		if seal == SealGood || seal == SealUnchecked && why == "" {
			t.Fatalf("%s %s: %s %q", head, payload, seal, why)
		}
		if d := time.Since(start); d > 5*time.Second {
			t.Fatalf("%s took %v", head, d)
		}
	})
}
