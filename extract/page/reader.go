package page

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"sync"
	"time"

	"evidencevault/internal/confine"
)

// Options says how documents are read. The zero Options is ready to use.
type Options struct {
	CacheDir  string        // of the compiled PDF engine, made with mode 0700; "" means a folder of this program's in the user's cache folder
	Pool      int           // children that read at the same time, and stay warm; 0 means 1
	Timeout   time.Duration // of reading one document without recognition, or of making one picture; 0 means 12 s
	Pages     int           // read of one document; 0 means 200. The rest is counted as unread
	Bytes     int64         // of one document; 0 means 96 MiB
	Second    bool          // ask a second opinion on every PDF (only on Linux: elsewhere it cannot be held)
	Tesseract string        // the program that recognises letters; "" looks for it in PATH
	Languages []string      // to recognise, of those installed; nil means English, German, French, Spanish, Dutch
	PageTime  time.Duration // of recognising one page once; 0 means 20 s
	OCRTime   time.Duration // of recognising one document; 0 means 60 s. Pages after that are unread
}

func (o Options) filled() Options {
	if o.Pool == 0 {
		o.Pool = 1
	}
	if o.Timeout == 0 {
		o.Timeout = 12 * time.Second
	}
	if o.Pages == 0 {
		o.Pages = 200
	}
	if o.Bytes == 0 {
		o.Bytes = 96 << 20
	}
	if o.Languages == nil {
		o.Languages = []string{"eng", "deu", "fra", "spa", "nld"}
	}
	if o.PageTime == 0 {
		o.PageTime = 20 * time.Second
	}
	if o.OCRTime == 0 {
		o.OCRTime = time.Minute
	}
	return o
}

// Request says what is wanted of one document. The zero Request reads all of it.
type Request struct {
	Password string // opens an encrypted document; used and forgotten
	Second   bool   // ask the second opinion on this one
	NoOCR    bool   // do not recognise letters in pictures
	From, To int    // first and last page, counted from 1; 0 means the first and the last
}

// Reader reads documents in limited children, which it starts when they are needed
// and keeps for the next document. It is safe for use by several goroutines at once.
type Reader struct {
	o        Options
	slots    chan struct{}
	mu       sync.Mutex
	idle     []*confine.Child
	others   []*confine.Child // idle, for the second opinion
	in       *confine.InForce // of the last child
	closed   bool
	compiled sync.Mutex
	ready    bool // the compiled engine is in the cache
	ocr      recogniser
}

// NewReader returns a Reader. The caller must Close it.
func NewReader(o Options) *Reader {
	o = o.filled()
	return &Reader{o: o, slots: make(chan struct{}, o.Pool), ocr: recogniser{program: o.Tesseract, wanted: o.Languages}}
}

// ErrClosed says that the Reader was closed.
var ErrClosed = errors.New("the reader is closed")

// ErrNoPicture says that there is no picture of that page.
var ErrNoPicture = errors.New("there is no picture of it")

// ErrLocked says that the document opens only with its password.
var ErrLocked = errors.New("it opens only with its password")

// Close ends all children. What is being read is finished first.
func (r *Reader) Close() error {
	for range cap(r.slots) {
		r.slots <- struct{}{}
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	var errs []error
	for _, c := range append(r.idle, r.others...) {
		errs = append(errs, c.Close())
	}
	r.idle, r.others, r.closed = nil, nil, true
	for range cap(r.slots) {
		<-r.slots
	}
	return errors.Join(errs...)
}

// Read returns what src says. A document that cannot be read is no error but a
// Document with Trouble and Reason. The error is ctx's, [ErrClosed], or says that a
// child could not be started or src not be read. Where src is an [io.Seeker] it is
// read in pieces; else it is held in memory.
func (r *Reader) Read(ctx context.Context, src io.Reader, q Request) (Document, error) {
	in, size, err := seekable(src, r.o.Bytes)
	if err != nil {
		return Document{}, err
	}
	switch {
	case size == 0:
		return Document{Trouble: Empty, Reason: "the file is empty: it has no bytes"}, nil
	case size > r.o.Bytes:
		return tooLarge(fmt.Sprintf("the file has %d MiB; at most %d MiB are read", size>>20, r.o.Bytes>>20)), nil
	}
	c, err := r.take(ctx)
	if err != nil {
		return Document{}, err
	}
	defer func() { r.give(c) }()
	start := time.Now()
	doc, need, err := r.words(ctx, &c, in, q)
	if err != nil || doc.Trouble != None {
		return doc, err
	}
	if (q.Second || r.o.Second) && doc.Type == "pdf" {
		if err := r.second(ctx, in, &doc, q, time.Since(start)); err != nil {
			return Document{}, err
		}
	}
	if len(need) > 0 && !q.NoOCR {
		if err := r.recognise(ctx, c, &doc, need); err != nil {
			return Document{}, err
		}
	}
	return settled(doc), nil
}

// Drawn is one page as a picture.
type Drawn struct {
	PNG           []byte
	Width, Height int // of the page as displayed, in hundredths of a point
}

// Picture returns one page as a PNG, dpi dots to the inch of the page as displayed.
// It is made by us and holds nothing of the document but what is seen. The error
// matches [ErrNoPicture] where the format or the page has none, and [ErrLocked] where
// the password is wanted.
func (r *Reader) Picture(ctx context.Context, src io.Reader, pageNumber, dpi int, password string) ([]byte, error) {
	d, err := r.Draw(ctx, src, pageNumber, dpi, password)
	return d.PNG, err
}

// Draw is [Reader.Picture], with the size of the page, so that places on it can be found
// on the picture without reading it again.
func (r *Reader) Draw(ctx context.Context, src io.Reader, pageNumber, dpi int, password string) (Drawn, error) {
	in, size, err := seekable(src, r.o.Bytes)
	if err != nil {
		return Drawn{}, err
	}
	if size == 0 || size > r.o.Bytes {
		return Drawn{}, fmt.Errorf("page %d: %w: the file has %d bytes", pageNumber, ErrNoPicture, size)
	}
	c, err := r.take(ctx)
	if err != nil {
		return Drawn{}, err
	}
	defer func() { r.give(c) }()
	p, err := r.picture(ctx, c, order{Do: doPicture, Password: password, Page: pageNumber, DPI: dpi}, in)
	return Drawn{PNG: p.png, Width: p.wide, Height: p.high}, err
}

// words has the child read everything but pictures. need lists the pages whose
// letters must be recognised. A child that has read other documents and dies is
// replaced once, so that no document suffers from the one before.
func (r *Reader) words(ctx context.Context, c **confine.Child, in io.Reader, q Request) (Document, []int, error) {
	o := order{Do: doRead, Password: q.Password, From: q.From, To: q.To, Pages: r.o.Pages}
	var a reply
	blob, err := r.ask(ctx, *c, o, in, &a)
	if (errors.Is(err, confine.ErrDied) || errors.Is(err, confine.ErrMemory)) && !(*c).Fresh() {
		next, serr := r.start(ctx)
		if serr != nil {
			return Document{}, nil, serr
		}
		// What is left of the old one is of no use to anyone.
		_ = (*c).Close()
		*c, a = next, reply{}
		blob, err = r.ask(ctx, *c, o, in, &a)
	}
	if err != nil {
		doc, err := troubled(err)
		return doc, nil, err
	}
	doc, err := checked(a.Document)
	if err == nil {
		err = a.joined(blob)
	}
	if err != nil {
		return Document{Trouble: Unreadable, Reason: fmt.Sprintf("the reader's answer made no sense: %v", err)}, nil, nil
	}
	return doc, a.Need, nil
}

// picture has the child draw one page of the document in r, or of the one it holds.
func (r *Reader) picture(ctx context.Context, c *confine.Child, o order, in io.Reader) (picture, error) {
	var a reply
	png, err := r.ask(ctx, c, o, in, &a)
	switch {
	case err != nil:
		doc, err := troubled(err)
		if err != nil {
			return picture{}, err
		}
		return picture{}, fmt.Errorf("page %d: %w: %s", o.Page, ErrNoPicture, doc.Reason)
	case a.Document.Trouble == Password:
		return picture{}, fmt.Errorf("page %d: %w: %s", o.Page, ErrLocked, a.Document.Reason)
	case a.Document.Trouble != None || len(png) == 0:
		return picture{}, fmt.Errorf("page %d: %w: %s", o.Page, ErrNoPicture, a.Document.Reason)
	}
	return picture{png: png, width: a.Width, height: a.Height, dpi: a.DPI, blank: a.Blank, turn: a.Turn, back: a.Back, wide: a.Wide, high: a.High, marks: a.Marks}, nil
}

// troubled turns the end of a child into what it says about the document. Only what
// is no fault of the document stays an error.
func troubled(err error) (Document, error) {
	switch {
	case errors.Is(err, confine.ErrTime):
		return tooLarge("reading it took longer than allowed and was stopped"), nil
	case errors.Is(err, confine.ErrMemory):
		return tooLarge("reading it needed more memory than allowed and was stopped"), nil
	case errors.Is(err, confine.ErrFlood):
		return tooLarge("it holds more text than is read of one document"), nil
	case errors.Is(err, confine.ErrDied):
		return Document{Trouble: Unreadable, Reason: "the reader broke on it; the file is damaged or not what it seems"}, nil
	}
	return Document{}, err
}

func tooLarge(reason string) Document { return Document{Trouble: TooLarge, Reason: reason} }

// seekable returns src from its present place on as something that can be read
// twice, and its size. Of what cannot be wound back, at most one byte more than
// most is taken.
func seekable(src io.Reader, most int64) (io.ReadSeeker, int64, error) {
	if f, ok := src.(*os.File); ok {
		if info, err := f.Stat(); err == nil && !info.Mode().IsRegular() && !info.Mode().IsDir() {
			src = struct{ io.Reader }{f} // a pipe cannot be read twice
		} else if err == nil && info.IsDir() {
			return nil, 0, fmt.Errorf("read the document: %s is a folder", f.Name())
		}
	}
	if s, ok := src.(io.ReadSeeker); ok {
		size, err := s.Seek(0, io.SeekEnd)
		if err == nil {
			_, err = s.Seek(0, io.SeekStart)
		}
		if err == nil {
			return s, size, nil
		}
	}
	all, err := io.ReadAll(io.LimitReader(src, most+1))
	if err != nil {
		return nil, 0, fmt.Errorf("read the document: %w", err)
	}
	return bytes.NewReader(all), int64(len(all)), nil
}
