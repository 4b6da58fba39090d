package audit

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf16"

	"evidencevault/evidence"
)

// errOwnPDF says that a PDF made here is not as it is expected to be.
var errOwnPDF = errors.New("the end of the PDF is not as it is written here")

var ownTrailer = regexp.MustCompile(`trailer\n<<\n/Size (\d+)\n/Root (\d+) 0 R\n/Info (\d+) 0 R\n>>\nstartxref\n(\d+)\n%%EOF\n?$`)

// attacher appends to a PDF that [press] made, as an incremental update: the pictures of
// its pages in the places of those of one dot, and the originals. The file is written
// through, so that none of them is held in memory.
//
// Source: ISO 32000-1:2008, 7.5.6 (incremental updates), 7.11.4 (embedded file
// streams), 7.9.6 (name trees).
type attacher struct {
	to     io.Writer
	at     int64           // bytes written
	next   int             // number of the next object
	places map[int]int64   // of the objects that are added or replaced
	names  map[string]int  // filespec by the attachment's name
	store  *evidence.Store // where the originals lie
}

// Write counts what goes through.
func (a *attacher) Write(p []byte) (int, error) {
	n, err := a.to.Write(p)
	a.at += int64(n)
	return n, err
}

func (a *attacher) object(number int, format string, args ...any) error {
	a.places[number] = a.at
	_, err := fmt.Fprintf(a, "%d 0 obj\n"+format, append([]any{number}, args...)...)
	return err
}

// complete writes the PDF, the pictures of its pages, then the originals. The error wraps
// [evidence.ErrChanged] when one is not what was taken in.
func complete(ctx context.Context, w io.Writer, pdf []byte, store *evidence.Store, list []Original, pages shelf) error {
	m := ownTrailer.FindSubmatch(pdf[max(0, len(pdf)-300):])
	if m == nil {
		return errOwnPDF
	}
	number := func(i int) int { n, _ := strconv.Atoi(string(m[i])); return n } // digits, by the pattern
	a := &attacher{to: w, next: number(1), places: map[int]int64{}, names: map[string]int{}, store: store}
	if _, err := a.Write(append(bytes.TrimRight(pdf, "\n"), '\n')); err != nil {
		return err
	}
	if err := a.pictures(ctx, pdf, pages); err != nil {
		return err
	}
	for _, o := range list {
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := a.attach(ctx, o); err != nil {
			return err
		}
	}
	if err := a.catalog(pdf, number(2)); err != nil {
		return err
	}
	return a.end(number(2), number(3), number(4))
}

// pictureObject is a picture as the library writes it.
var pictureObject = regexp.MustCompile(`\n(\d+) 0 obj\n<</Type /XObject\n/Subtype /Image\n`)

// pictures writes each picture in the place of its one dot. The library writes them in the
// order that [inOrder] gives them, which is that of the shelf.
func (a *attacher) pictures(ctx context.Context, pdf []byte, pages shelf) error {
	dots := pictureObject.FindAllSubmatch(pdf, -1)
	if len(dots) != len(pages.list) {
		return fmt.Errorf("%w: %d pictures, want %d", errOwnPDF, len(dots), len(pages.list))
	}
	for i, p := range pages.list {
		if err := ctx.Err(); err != nil {
			return err
		}
		number, err := strconv.Atoi(string(dots[i][1]))
		if err != nil {
			return err
		}
		if err := a.picture(number, p); err != nil {
			return err
		}
	}
	return nil
}

func (a *attacher) picture(number int, p shelved) error {
	data, err := os.ReadFile(p.file)
	if err != nil {
		return err
	}
	space := "/DeviceRGB"
	if p.grey {
		space = "/DeviceGray"
	}
	err = a.object(number, "<< /Type /XObject /Subtype /Image /Width %d /Height %d /ColorSpace %s /BitsPerComponent 8 /Filter /DCTDecode /Length %d >>\nstream\n",
		p.width, p.height, space, len(data))
	if err != nil {
		return err
	}
	if _, err := a.Write(data); err != nil {
		return err
	}
	if _, err := io.WriteString(a, "\nendstream\nendobj\n"); err != nil {
		return err
	}
	return os.Remove(p.file) // what is written needs the room no more
}

// attach writes one original as it is, with its file specification.
func (a *attacher) attach(ctx context.Context, o Original) error {
	from, err := o.open(ctx, a.store)
	if err != nil {
		return fmt.Errorf("%s (%s): %w; see vaultctl verify", o.Copy, firstOf(o.Names), err)
	}
	defer from.Close() // it was only read
	stream, spec := a.next, a.next+1
	a.next += 2
	err = a.object(stream, "<< /Type /EmbeddedFile /Length %d /Params << /Size %d >> >>\nstream\n", o.Size, o.Size)
	if err != nil {
		return err
	}
	hash := sha256.New()
	if _, err := io.Copy(a, io.TeeReader(from, hash)); err != nil {
		return fmt.Errorf("%s: attaching %s: %w", o.Copy, firstOf(o.Names), err)
	}
	if got := hex.EncodeToString(hash.Sum(nil)); got != o.SHA256 {
		return fmt.Errorf("%s (%s): %w: want sha256 %s, got %s; see vaultctl verify", o.Copy, firstOf(o.Names), evidence.ErrChanged, o.SHA256, got)
	}
	if _, err := io.WriteString(a, "\nendstream\nendobj\n"); err != nil {
		return err
	}
	name := path.Base(o.Copy) // plain ASCII without brackets, see copyName
	a.names[name] = spec
	return a.object(spec, "<< /Type /Filespec /F (%s) /UF (%s) /EF << /F %d 0 R >> /Desc %s >>\nendobj\n", name, name, stream,
		hexText(firstOf(o.Names)+", SHA-256 "+o.SHA256))
}

// hexText is a text string in UTF-16, as hexadecimal digits.
func hexText(s string) string {
	var b strings.Builder
	b.WriteString("<FEFF")
	for _, unit := range utf16.Encode([]rune(s)) {
		fmt.Fprintf(&b, "%04X", unit)
	}
	return b.String() + ">"
}

// catalog writes the catalog anew, with the names of what is attached.
func (a *attacher) catalog(pdf []byte, root int) error {
	begin := fmt.Appendf(nil, "\n%d 0 obj\n", root)
	i := bytes.LastIndex(pdf, begin)
	if i < 0 {
		return errOwnPDF
	}
	text, _, ended := bytes.Cut(pdf[i+len(begin):], []byte("endobj"))
	kept, _, named := bytes.Cut(text, []byte("/Names <<"))
	if !ended || !named {
		return errOwnPDF
	}
	var list strings.Builder
	for _, name := range slices.Sorted(maps.Keys(a.names)) {
		fmt.Fprintf(&list, "\n(%s) %d 0 R", name, a.names[name])
	}
	return a.object(root, "%s/Names << /EmbeddedFiles << /Names [%s\n] >> >>\n>>\nendobj\n", kept, list.String())
}

// end writes the table of what was added and the trailer.
func (a *attacher) end(root, info, before int) error {
	start := a.at
	var b strings.Builder
	b.WriteString("xref\n")
	for _, n := range slices.Sorted(maps.Keys(a.places)) {
		fmt.Fprintf(&b, "%d 1\n%010d 00000 n \n", n, a.places[n])
	}
	fmt.Fprintf(&b, "trailer\n<<\n/Size %d\n/Root %d 0 R\n/Info %d 0 R\n/Prev %d\n>>\nstartxref\n%d\n%%%%EOF\n", a.next, root, info, before, start)
	_, err := io.WriteString(a, b.String())
	return err
}
