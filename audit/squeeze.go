package audit

import (
	"bytes"
	"cmp"
	"compress/zlib"
	"errors"
	"fmt"
	"io"
	"runtime"
	"slices"
	"strconv"
	"sync"
)

// errPress says that the library did not write what it used to write.
var errPress = errors.New("the printed document is not laid out as expected")

// object is one object of a PDF.
type object struct {
	number int
	at     int    // where it lies
	raw    []byte // with what follows it, up to the next one
	packed []byte // its stream, deflated; nil: raw is written
}

// pagesMark stands on pages for how many there are, in the two bytes for each character
// in which the library writes text.
var pagesMark = wide("{nb}")

// squeezer hands on a PDF of the library, which it is given in one piece, with pages in the
// place of each pagesMark and its plain streams deflated: several at once, each with a
// deflater that is used again. The library makes a new one for every page, which takes
// longer than the deflating, and goes through all pages twice for the mark. Equal documents
// give equal bytes.
type squeezer struct {
	w     io.Writer
	pages string
}

func (s squeezer) Write(pdf []byte) (int, error) {
	if err := squeeze(s.w, pdf, wide(s.pages)); err != nil {
		return 0, err
	}
	return len(pdf), nil
}

// wide writes ASCII with two bytes for each character.
func wide(text string) []byte {
	var b []byte
	for i := range len(text) {
		b = append(b, 0, text[i])
	}
	return b
}

func squeeze(w io.Writer, pdf, pages []byte) error {
	objects, table, err := objectsOf(pdf)
	if err != nil {
		return err
	}
	if err := deflateAll(objects, pages); err != nil {
		return err
	}
	out := &counter{w: w}
	out.Write(pdf[:objects[0].at])
	offsets := make([]int, len(objects)+1)
	for _, o := range objects {
		offsets[o.number] = out.n
		out.object(o)
	}
	at := out.n
	fmt.Fprintf(out, "xref\n0 %d\n0000000000 65535 f \n", len(offsets))
	for _, offset := range offsets[1:] {
		fmt.Fprintf(out, "%010d 00000 n \n", offset)
	}
	out.Write(table)
	fmt.Fprintf(out, "startxref\n%d\n%%%%EOF\n", at)
	return out.err
}

// objectsOf cuts a PDF into its objects, in the order in which they lie, and returns the
// trailer too. The error is errPress.
func objectsOf(pdf []byte) (list []object, trailer []byte, err error) {
	at, n, begin, end, err := tableOf(pdf)
	if err != nil {
		return nil, nil, err
	}
	for i := 1; i < n; i++ {
		line := pdf[begin+i*tableEntry:][:10]
		offset, err := strconv.Atoi(string(line))
		if err != nil || offset <= 0 || offset >= at {
			return nil, nil, fmt.Errorf("%w: object %d at %q", errPress, i, line)
		}
		list = append(list, object{number: i, at: offset})
	}
	slices.SortFunc(list, func(a, b object) int { return cmp.Compare(a.at, b.at) })
	for i := range list {
		next := at
		if i+1 < len(list) {
			next = list[i+1].at
		}
		list[i].raw = pdf[list[i].at:next]
	}
	return list, pdf[begin+n*tableEntry : end], nil
}

// tableEntry is the length of a line of the table of objects (ISO 32000-1, section 7.5.4).
const tableEntry = len("0000000000 65535 f \n")

// tableOf finds the table of objects: where it lies, how many lines it has, where they
// begin, and where the trailer behind them ends.
func tableOf(pdf []byte) (at, n, begin, end int, err error) {
	end = bytes.LastIndex(pdf, []byte("startxref\n"))
	if end < 0 {
		return 0, 0, 0, 0, fmt.Errorf("%w: no startxref", errPress)
	}
	text, _, _ := bytes.Cut(pdf[end+len("startxref\n"):], []byte("\n"))
	at, err = strconv.Atoi(string(text))
	if err != nil || at < 0 || at > end {
		return 0, 0, 0, 0, fmt.Errorf("%w: startxref %q", errPress, text)
	}
	if _, err := fmt.Sscanf(string(pdf[at:min(end, at+30)]), "xref\n0 %d\n", &n); err != nil || n < 2 {
		return 0, 0, 0, 0, fmt.Errorf("%w: no table of objects", errPress)
	}
	begin = at + len(fmt.Sprintf("xref\n0 %d\n", n))
	if begin+n*tableEntry > end {
		return 0, 0, 0, 0, fmt.Errorf("%w: short table of objects", errPress)
	}
	return at, n, begin, end, nil
}

// plain returns the stream of an object that is nothing but a plain stream.
func (o object) plain() ([]byte, bool) {
	head := fmt.Appendf(nil, "%d 0 obj\n<</Length ", o.number)
	rest, ok := bytes.CutPrefix(o.raw, head)
	if !ok {
		return nil, false
	}
	text, rest, ok := bytes.Cut(rest, []byte(">>\nstream\n"))
	n, err := strconv.Atoi(string(text))
	if !ok || err != nil || n < 0 || n > len(rest) || !bytes.HasPrefix(rest[n:], []byte("\nendstream\nendobj\n")) {
		return nil, false
	}
	return rest[:n], true
}

// deflateAll deflates the plain streams of the objects, in place.
func deflateAll(objects []object, pages []byte) error {
	var all sync.WaitGroup
	workers := runtime.GOMAXPROCS(0)
	errs := make([]error, workers)
	for k := range workers {
		all.Go(func() {
			z, err := zlib.NewWriterLevel(io.Discard, zlib.BestSpeed)
			for i := k; i < len(objects) && err == nil; i += workers {
				text, ok := objects[i].plain()
				if !ok {
					continue
				}
				var b bytes.Buffer
				b.Grow(len(text) / 3)
				z.Reset(&b)
				_, err = z.Write(bytes.ReplaceAll(text, pagesMark, pages))
				err = errors.Join(err, z.Close())
				objects[i].packed = b.Bytes()
			}
			errs[k] = err
		})
	}
	all.Wait()
	return errors.Join(errs...)
}

// counter counts what it writes, and keeps the first error.
type counter struct {
	w   io.Writer
	n   int
	err error
}

func (c *counter) Write(b []byte) (int, error) {
	if c.err != nil {
		return 0, c.err
	}
	n, err := c.w.Write(b)
	c.n, c.err = c.n+n, err
	return n, err
}

func (c *counter) object(o object) {
	if o.packed == nil {
		c.Write(o.raw)
		return
	}
	fmt.Fprintf(c, "%d 0 obj\n<</Filter /FlateDecode /Length %d>>\nstream\n", o.number, len(o.packed))
	c.Write(o.packed)
	io.WriteString(c, "\nendstream\nendobj\n")
}
