package page

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"fmt"
	"hash/crc32"
	"io"
	"strings"
	"testing"
)

// packed makes an archive; a name that ends in a slash is a folder.
func packed(t testing.TB, files ...string) []byte {
	t.Helper()
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for i := 0; i < len(files); i += 2 {
		w, err := z.Create(files[i])
		if err == nil {
			_, err = io.WriteString(w, files[i+1])
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// raw makes an archive of one file whose head says what it likes.
func raw(t testing.TB, h zip.FileHeader, content string) []byte {
	t.Helper()
	var body, out bytes.Buffer
	c, err := flate.NewWriter(&body, 9)
	if err == nil {
		_, err = io.WriteString(c, content)
	}
	if err == nil {
		err = c.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
	if h.UncompressedSize64 == 0 {
		h.UncompressedSize64 = uint64(len(content))
	}
	h.Method, h.CompressedSize64, h.CRC32 = zip.Deflate, uint64(body.Len()), crc32.ChecksumIEEE([]byte(content))
	z := zip.NewWriter(&out)
	w, err := z.CreateRaw(&h)
	if err == nil {
		_, err = w.Write(body.Bytes())
	}
	if err == nil {
		err = z.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestArchiveGivesItsFiles(t *testing.T) {
	d := readArchive(packed(t, "2025/", "", "2025/kurs.txt", "Certificate of Attendance", "__MACOSX/2025/._kurs.txt", "x", "2025/.DS_Store", "x",
		`old\letter.html`, "<!doctype html><p>Letter", "empty.txt", ""))
	if d.Trouble != None || d.Reason != "" || len(d.Parts) != 2 {
		t.Fatalf("%q, %q, %d parts", d.Trouble, d.Reason, len(d.Parts))
	}
	for i, want := range []Part{{Name: "2025/kurs.txt", Type: "txt"}, {Name: "old/letter.html", Type: "html"}} {
		if got := d.Parts[i]; got.Name != want.Name || got.Type != want.Type || got.Inline {
			t.Errorf("part %d: %q of type %q, want %q of type %q", i, got.Name, got.Type, want.Name, want.Type)
		}
	}
	if typeOf(packed(t, "a.txt", "x")) != "zip" {
		t.Error("an archive is not known by its content")
	}
	z := raw(t, zip.FileHeader{Name: "Pr\x81fung.txt", NonUTF8: true}, "x") // code page 437
	if d := readArchive(z); len(d.Parts) != 1 || d.Parts[0].Name != "Prüfung.txt" {
		t.Errorf("a name of the old code page: %+v %s", d.Parts, d.Reason)
	}
}

// What cannot be taken out is named with the reason and the way out; the rest is taken.
func TestArchiveNamesWhatItKeeps(t *testing.T) {
	link := zip.FileHeader{Name: "link"}
	link.SetMode(0o777 | 1<<27) // a symbolic link
	for _, c := range []struct {
		name, want string
		give       []byte
	}{
		{"encrypted", "locked.pdf (it is encrypted)", raw(t, zip.FileHeader{Name: "locked.pdf", Flags: 1}, "secret")},
		{"says it is small", "bomb.txt (it is damaged)", raw(t, zip.FileHeader{Name: "bomb.txt", UncompressedSize64: 10}, strings.Repeat("0", 5_000_000))},
		{"says it is large", "bomb.txt (there is no room left for it)", raw(t, zip.FileHeader{Name: "bomb.txt", UncompressedSize64: 1 << 40}, "0")},
		{"link", "link (it is no file", raw(t, link, "/etc/passwd")},
	} {
		d := readArchive(c.give)
		if len(d.Parts) != 0 || !strings.Contains(d.Reason, c.want) || !strings.Contains(d.Reason, "unpack it and drop them") {
			t.Errorf("%s: %d parts, %q, want %q", c.name, len(d.Parts), d.Reason, c.want)
		}
	}
	many := make([]string, 0, 2*(zipEntries+1))
	for i := range zipEntries + 1 {
		many = append(many, fmt.Sprintf("%d.txt", i), "x")
	}
	if d := readArchive(packed(t, many...)); d.Trouble != TooLarge {
		t.Errorf("%d files: trouble %q", zipEntries+1, d.Trouble)
	}
	if d := readArchive(packed(t, many[:2*(mostParts+3)]...)); len(d.Parts) != mostParts || !strings.Contains(d.Reason, "3 could not be taken out") {
		t.Errorf("%d parts, %q", len(d.Parts), d.Reason)
	}
	if d := readArchive([]byte("PK\x03\x04 and then nothing")); d.Trouble != Unreadable {
		t.Errorf("damaged: %q", d.Trouble)
	}
	if d := readArchive(packed(t, "folder/", "")); d.Trouble != Empty {
		t.Errorf("empty: %q", d.Trouble)
	}
}

func FuzzArchivesNeverPanic(f *testing.F) {
	f.Add(packed(f, "a.txt", "x", "b/c.pdf", "%PDF-1.4"))
	f.Add(raw(f, zip.FileHeader{Name: "bomb", UncompressedSize64: 10}, strings.Repeat("0", 1000)))
	f.Add(packed(f, "inner.zip", string(packed(f, "a", "b"))))
	f.Fuzz(func(t *testing.T, b []byte) { sound(t, readArchive(b)) })
}
