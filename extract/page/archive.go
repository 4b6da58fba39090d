package page

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"path"
	"strings"

	"golang.org/x/text/encoding/charmap"
)

// zipEntries bounds how many files an archive may have.
const zipEntries = 1000

// readArchive takes the files out of a ZIP archive, so that each becomes a document of
// its own. Its page lists them. Files that cannot be taken out are named in Reason, with
// the way out. What is unpacked is bounded by what the archive says and by what comes,
// whichever is less.
//
// Source: PKWARE APPNOTE.TXT 6.3.10, 4.3 and 4.4 (as archive/zip reads it).
func readArchive(b []byte) Document {
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		return Document{Trouble: Unreadable, Reason: "the archive is damaged; ask for it again, or unpack what can be had of it and drop the files"}
	}
	if len(z.File) > zipEntries {
		return tooLarge(fmt.Sprintf("the archive has %d files; at most %d are taken out, so unpack it and drop the files in parts", len(z.File), zipEntries))
	}
	var d Document
	var lines, left []string
	room := partBytes
	for _, f := range z.File {
		name := entryName(f)
		if f.FileInfo().IsDir() || byProduct(name) {
			continue
		}
		data, why := unpack(f, room)
		if why == "" && len(d.Parts) >= mostParts {
			why = fmt.Sprintf("it is beyond the first %d", mostParts)
		}
		if why != "" {
			left = append(left, name+" ("+why+")")
			continue
		}
		room -= len(data)
		lines = append(lines, name)
		if len(data) > 0 {
			d.Parts = append(d.Parts, Part{Name: name, Type: typeOf(data), Data: data})
		}
	}
	d.Pages = textDocument(lines).Pages
	switch {
	case len(left) > 0:
		d.Reason = fmt.Sprintf("of the files in the archive %d could not be taken out: %s; unpack it and drop them", len(left), plain(strings.Join(left, ", "), 600))
	case len(d.Parts) == 0:
		d.Trouble, d.Reason = Empty, "there is no file with anything in it in the archive"
	}
	return d
}

// unpack returns the bytes of one file, or why it cannot be had.
func unpack(f *zip.File, room int) ([]byte, string) {
	switch {
	case f.Flags&1 != 0:
		return nil, "it is encrypted"
	case !f.Mode().IsRegular():
		return nil, "it is no file but a link or the like"
	case f.UncompressedSize64 > uint64(room):
		return nil, "there is no room left for it"
	}
	r, err := f.Open()
	if err != nil {
		return nil, "it is packed in a way that is not known here"
	}
	defer r.Close() // it was only read
	data, err := io.ReadAll(io.LimitReader(r, int64(f.UncompressedSize64)+1))
	if err != nil || uint64(len(data)) != f.UncompressedSize64 {
		return nil, "it is damaged"
	}
	return data, ""
}

// entryName is the name of a file in an archive, with the folders it lies in. One that
// is not marked as UTF-8 is in the code page that the format began with.
func entryName(f *zip.File) string {
	name := f.Name
	if f.NonUTF8 {
		if text, err := charmap.CodePage437.NewDecoder().String(name); err == nil {
			name = text
		}
	}
	if name = plain(strings.ReplaceAll(name, `\`, "/"), 200); name == "" {
		return "a file without a name"
	}
	return name
}

// byProduct reports a file that a system or program leaves beside the real ones.
func byProduct(name string) bool {
	base := path.Base(name)
	return strings.HasPrefix(name, "__MACOSX/") || strings.Contains(name, "/__MACOSX/") || strings.HasPrefix(base, "._") || strings.HasPrefix(base, "~$") ||
		base == ".DS_Store" || strings.EqualFold(base, "Thumbs.db") || strings.EqualFold(base, "desktop.ini")
}
