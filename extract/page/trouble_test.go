package page_test

import (
	"archive/zip"
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"evidencevault/extract/page"
)

// limit is how long a document may take at most, whatever it does.
const limit = 20 * time.Second

func TestTroubleEndsWithAReason(t *testing.T) {
	tests := []struct {
		file, why string
		want      []page.Trouble
	}{
		{"empty.pdf", "no bytes", []page.Trouble{page.Empty}},
		{"expands.pdf", "a page that unpacks to 640 MiB", []page.Trouble{page.TooLarge, page.Unreadable}},
		{"locked.pdf", "AES-256 with a user password", []page.Trouble{page.Password}},
		{"loop.pdf", "the page tree holds itself", []page.Trouble{page.None, page.Unreadable, page.TooLarge}},
		{"noise.pdf", "random bytes", []page.Trouble{page.Unreadable}},
		{"swells.docx", "120 MB of XML in a small archive", []page.Trouble{page.TooLarge, page.Unreadable}},
		{"truncated.pdf", "cut off past the middle", []page.Trouble{page.Unreadable, page.None}},
		{"wrong-offsets.pdf", "every offset is wrong, the text is whole", []page.Trouble{page.None}},
	}
	for _, tt := range tests {
		t.Run(tt.file, func(t *testing.T) {
			start := time.Now()
			d := read(t, reader(t), "testdata/trouble/"+tt.file, page.Request{Second: true})
			judge(t, d, start, tt.want)
			nextReadsFine(t)
		})
	}
}

// judge demands one of the troubles, a reason for it, and that it came in time.
func judge(t *testing.T, d page.Document, start time.Time, want []page.Trouble) {
	t.Helper()
	if took := time.Since(start); took > limit {
		t.Errorf("it took %v: at most %v", took, limit)
	}
	if !slices.Contains(want, d.Trouble) {
		t.Errorf("trouble %q because %q: want one of %q", d.Trouble, d.Reason, want)
	}
	if d.Trouble != page.None && d.Reason == "" {
		t.Errorf("trouble %q without a reason", d.Trouble)
	}
}

// nextReadsFine demands that the document before left no mark.
func nextReadsFine(t *testing.T) {
	t.Helper()
	d := read(t, reader(t), "testdata/own/Oakhurst_cert_final.pdf", page.Request{})
	if !strings.Contains(text(d), "Oakhurst") {
		t.Errorf("the next document was not read: %q %q", d.Trouble, d.Reason)
	}
}

// Letters are recognised only where RECOGNISE is set, as in the long runs: the parsers are
// what these files are hard for.
func TestHardFilesEndInTime(t *testing.T) {
	r := page.NewReader(page.Options{CacheDir: cache(t), Pool: 2})
	defer r.Close()
	slots := make(chan struct{}, 2)
	t.Run("files", func(t *testing.T) {
		for _, f := range append(glob(t, "testdata/hard/*.pdf"), glob(t, "testdata/mail/*.*")...) {
			t.Run(filepath.Base(f), func(t *testing.T) {
				t.Parallel()
				slots <- struct{}{} // the time is taken of the reading, not of the waiting
				defer func() { <-slots }()
				start := time.Now()
				d := read(t, r, f, page.Request{Second: true, NoOCR: os.Getenv("RECOGNISE") == ""})
				judge(t, d, start, []page.Trouble{page.None, page.Unreadable, page.TooLarge, page.Empty, page.Password})
			})
		}
	})
	nextReadsFine(t)
}

// Documents made to hurt: each must end in time, with a reason, and with no more than
// 64 MiB of growth here, since only the child may bear it.
func TestBombs(t *testing.T) {
	tests := []struct {
		name string
		give []byte
		want []page.Trouble
	}{
		{"page packed three times", packedPage(3), []page.Trouble{page.TooLarge, page.Unreadable}},
		{"picture of 60,000 by 60,000", hugePNG(60_000, 60_000), []page.Trouble{page.TooLarge}},
		{"picture of 1 by 1,000,000,000", hugePNG(1, 1_000_000_000), []page.Trouble{page.TooLarge, page.Unreadable}},
		{"page tree 20,000 deep", deepTree(20_000), []page.Trouble{page.None, page.Unreadable, page.Empty, page.TooLarge}},
		{"page that draws itself", pdf(catalog, "<</Type/Pages/Kids[5 0 R]/Count 1>>", font, "<</Type/XObject/Subtype/Form/BBox[0 0 9 9]/Resources<</XObject<</X 4 0 R>>>>/Length 5>>\nstream\n/X Do\nendstream", "<</Type/Page/Parent 2 0 R/MediaBox[0 0 595 842]/Resources<</XObject<</X 4 0 R>>>>/Contents 6 0 R>>", stream("/X Do")), []page.Trouble{page.Empty, page.Unreadable, page.TooLarge}},
		{"entities that laugh", docx(laughs()), []page.Trouble{page.None, page.Unreadable, page.TooLarge, page.Empty}},
		{"XML a million deep", docx("<w:document>" + strings.Repeat("<w:p>", 1_000_000)), []page.Trouble{page.TooLarge, page.Unreadable}},
		{"HTML a million deep", []byte("<html><body>" + strings.Repeat("<div>", 1_000_000) + "deep"), []page.Trouble{page.None}},
		{"mail in parts without end", deepMail(5000), []page.Trouble{page.TooLarge}},
		{"mail head of 10 MB", []byte("From: a@b.example\r\nSubject: " + strings.Repeat("x", 10<<20) + "\r\n\r\nbody"), []page.Trouble{page.TooLarge}},
		{"only noughts", make([]byte, 1<<20), []page.Trouble{page.Empty, page.Unreadable}},
		{"text of 20 MB", bytes.Repeat([]byte("words and words\n"), 20<<16), []page.Trouble{page.TooLarge}},
		{"page of 200,000 letters", onePage("BT /F 1 Tf " + strings.Repeat("1 0 Td (abcdefghij klmnopqrs) Tj ", 10_000) + "ET"), []page.Trouble{page.TooLarge}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			before, start := heap(), time.Now()
			d := readBytes(t, reader(t), tt.give, page.Request{Second: true, NoOCR: true})
			judge(t, d, start, tt.want)
			if grown := int64(heap()) - int64(before); grown > 64<<20 {
				t.Errorf("memory grew by %d MiB here", grown>>20)
			}
			nextReadsFine(t)
		})
	}
}

func heap() uint64 {
	var m runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// packedPage makes a page whose content is 256 MiB of noughts, packed so many times.
func packedPage(times int) []byte {
	data := make([]byte, 256<<20)
	filters := ""
	for range times {
		var out bytes.Buffer
		w := zlib.NewWriter(&out)
		if _, err := w.Write(data); err != nil {
			panic(err)
		}
		if err := w.Close(); err != nil {
			panic(err)
		}
		data = out.Bytes()
		filters += "/FlateDecode "
	}
	return pdf(catalog, "<</Type/Pages/Kids[5 0 R]/Count 1>>", font,
		fmt.Sprintf("<</Length %d/Filter[%s]>>\nstream\n%s\nendstream", len(data), filters, data), pageHead)
}

// hugePNG makes the head of a picture of that size, with next to no data.
func hugePNG(width, height uint32) []byte {
	var b bytes.Buffer
	b.WriteString("\x89PNG\r\n\x1a\n")
	head := binary.BigEndian.AppendUint32(nil, width)
	head = append(binary.BigEndian.AppendUint32(head, height), 1, 0, 0, 0, 0)
	for _, c := range []struct {
		name string
		data []byte
	}{{"IHDR", head}, {"IDAT", []byte{0x78, 0x9c, 3, 0, 0, 0, 0, 1}}, {"IEND", nil}} {
		b.Write(binary.BigEndian.AppendUint32(nil, uint32(len(c.data))))
		body := append([]byte(c.name), c.data...)
		b.Write(body)
		b.Write(binary.BigEndian.AppendUint32(nil, crc32.ChecksumIEEE(body)))
	}
	return b.Bytes()
}

func deepTree(depth int) []byte {
	objects := []string{catalog}
	for i := range depth {
		objects = append(objects, fmt.Sprintf("<</Type/Pages/Kids[%d 0 R]/Count 1>>", i+3))
	}
	return pdf(append(objects, "<</Type/Page/MediaBox[0 0 595 842]>>")...)
}

func docx(document string) []byte {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, f := range [][2]string{
		{"[Content_Types].xml", `<?xml version="1.0"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`},
		{"word/document.xml", document},
	} {
		w, err := z.Create(f[0])
		if err == nil {
			_, err = w.Write([]byte(f[1]))
		}
		if err != nil {
			panic(err)
		}
	}
	if err := z.Close(); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// laughs is the "billion laughs" document: entities made of entities.
func laughs() string {
	var b strings.Builder
	b.WriteString(`<?xml version="1.0"?><!DOCTYPE d [<!ENTITY a "ha">`)
	for c := 'b'; c <= 'k'; c++ {
		fmt.Fprintf(&b, "<!ENTITY %c \"%s\">", c, strings.Repeat(fmt.Sprintf("&%c;", c-1), 10))
	}
	return b.String() + `]><w:document><w:body><w:p><w:r><w:t>&k;</w:t></w:r></w:p></w:body></w:document>`
}

func deepMail(depth int) []byte {
	var b strings.Builder
	b.WriteString("From: a@b.example\r\nTo: c@d.example\r\nSubject: deep\r\nMIME-Version: 1.0\r\n")
	for i := range depth {
		fmt.Fprintf(&b, "Content-Type: multipart/mixed; boundary=\"b%d\"\r\n\r\n--b%d\r\n", i, i)
	}
	return []byte(b.String() + "Content-Type: text/plain\r\n\r\nbottom\r\n")
}

// What the person can do about a type that is not read must stand in the reason.
func TestTypesThatAreNotRead(t *testing.T) {
	ole := append([]byte{0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1}, make([]byte, 1024)...)
	tests := []struct {
		name, wayOut string
		give         []byte
	}{
		{"HEIC", "save it as PDF and drop it again; the original is kept", []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic")},
		{"old office", "save it as PDF", ole},
		{"archive of another form", "unpack it", []byte("7z\xbc\xaf\x27\x1c\x00\x04")},
	}
	for _, tt := range tests {
		d := readBytes(t, reader(t), tt.give, page.Request{})
		if d.Trouble != page.Other || !strings.Contains(d.Reason, tt.wayOut) {
			t.Errorf("%s: type %q, trouble %q, reason %q: want the way out %q", tt.name, d.Type, d.Trouble, d.Reason, tt.wayOut)
		}
	}
}

// The type is told by content; what stands before it or how it is named says nothing.
func TestTypeByContent(t *testing.T) {
	junk := append(bytes.Repeat([]byte{' '}, 1000), onePage("BT /F 12 Tf 50 700 Td (behind) Tj ET")...)
	tests := []struct {
		name, want string
		give       []byte
	}{
		{"PDF after 1,000 blanks", "pdf", junk},
		{"HTML", "html", []byte("<!doctype html><p>x")},
		{"HTML without a type", "html", []byte("\n\n<html lang=en><p>x")},
		{"text that speaks of PDF", "txt", []byte("a file begins with %PDF-1.4")},
		{"mail", "eml", []byte("Return-Path: <a@b.example>\nReceived: from x\n\tby y\nFrom: a@b.example\nSubject: s\n\nbody\n")},
		{"text with a colon", "txt", []byte("Dear all:\n\nFrom: here\nTo: there\n")},
		{"calendar", "ics", []byte("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nEND:VCALENDAR\r\n")},
	}
	for _, tt := range tests {
		if d := readBytes(t, reader(t), tt.give, page.Request{}); d.Type != tt.want {
			t.Errorf("%s: type %q (%s): want %q", tt.name, d.Type, d.Reason, tt.want)
		}
	}
}
