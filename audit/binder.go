package audit

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"codeberg.org/go-pdf/fpdf"

	"evidencevault/evidence"
	"evidencevault/extract/page"
	"evidencevault/internal/lock"
)

// BinderOptions says how a binder is made. Pages is required.
type BinderOptions struct {
	Language string       // of [Languages]; "" is the dossier's own
	Pages    *page.Reader // draws the pages
	// Password gives the password of a locked original; "" leaves it locked. nil: none is known.
	Password func(ctx context.Context, o Original) (string, error)
	Done     func(n, of int) // told how many of the originals are in; nil: nobody
}

// Binder says what a binder holds.
type Binder struct {
	Exhibits int      `json:"exhibits"`
	Pages    int      `json:"pages"`
	Locked   []string `json:"locked"`    // originals that open only with their password
	NotDrawn []string `json:"not_drawn"` // originals of which a page could not be drawn, with the reason
}

const (
	binderDPI  = 150 // of the pictures of pages
	mostPages  = 200 // of one exhibit that are shown
	stampSpace = 44  // above a page, for its stamp
	mostWords  = 4000
)

// WriteBinder writes the dossier as one PDF: the first page, the index, then every page
// of each original with the exhibit's number, the places that prove something outlined,
// and links from the index to them; the originals are attached inside, unaltered. A
// page is a picture that the confined child made, with its words beneath so that it can
// be searched; nothing of a foreign file but what is seen gets into the pages.
//
// The error wraps [ErrUnproven] when a claim has no proof, [ErrThere] when the file
// exists, [ErrLanguage], or [evidence.ErrChanged] when an original is not what was taken
// in. Nothing is left behind then. The pictures lie on disk while it is made, beside the
// file; neither they nor the originals are held in memory.
func WriteBinder(ctx context.Context, store *evidence.Store, d Dossier, file string, o BinderOptions) (Binder, error) {
	for _, e := range d.Claims {
		if !e.Proven {
			return Binder{}, fmt.Errorf("claim %s (%s): %w; attach its proof, or leave out what is unproven", e.ID, e.Title, ErrUnproven)
		}
	}
	if err := vacant(file); err != nil {
		return Binder{}, err
	}
	if o.Language != "" {
		var err error
		if d, err = d.In(o.Language); err != nil {
			return Binder{}, err
		}
	}
	var report Binder
	err := putFile(file, func(dir string, w io.Writer) (err error) {
		report, err = writeBinder(ctx, store, d, dir, w, o)
		return err
	})
	return report, err
}

// writeBinder writes the binder to w; its pictures lie in dir meanwhile.
func writeBinder(ctx context.Context, store *evidence.Store, d Dossier, dir string, w io.Writer, o BinderOptions) (Binder, error) {
	l, err := d.newLeaf("binder")
	if err != nil {
		return Binder{}, err
	}
	b := binding{leaf: l, o: o, report: Binder{Locked: []string{}, NotDrawn: []string{}}, shelf: shelf{dir: dir}}
	list, byCopy := d.exhibitsOf()
	b.exhibits = byCopy
	b.front("binder")
	b.claims()
	b.each()
	b.files()
	for i, x := range list {
		if err := ctx.Err(); err != nil {
			return Binder{}, err
		}
		if err := b.exhibit(ctx, store, x); err != nil {
			return Binder{}, err
		}
		if o.Done != nil {
			o.Done(i+1, len(list))
		}
	}
	for _, x := range list {
		for number, link := range x.links {
			if !slices.Contains(x.printed, number) {
				b.SetLink(link, 0, x.first) // a page that is not shown: lead to the exhibit
			}
		}
	}
	b.report.Exhibits, b.report.Pages = len(list), b.PageCount()
	var pages bytes.Buffer
	if err := b.Output(&pages); err != nil {
		return Binder{}, err
	}
	return b.report, complete(ctx, w, pages.Bytes(), store, d.Originals, b.shelf)
}

// putFile has a file written beside its place and moves it there when it is whole, unless
// something came to lie there meanwhile: that is [ErrThere].
// Dir is the folder in which that happens, for what is needed meanwhile.
func putFile(name string, write func(dir string, w io.Writer) error) (err error) {
	making, err := lock.Make(name)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, making.Discard()) }() // what is whole was moved out of it
	fresh := filepath.Join(making.Dir, "new")
	f, err := os.OpenFile(fresh, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	if err := errors.Join(write(making.Dir, f), f.Sync(), f.Close()); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if err := vacant(name); err != nil {
		return err
	}
	return os.Rename(fresh, name)
}

// binding is a binder that is being made.
type binding struct {
	leaf
	o      BinderOptions
	report Binder
	begun  bool // an exhibit was printed
	shelf  shelf
}

// exhibit prints the pages of one original.
func (b *binding) exhibit(ctx context.Context, store *evidence.Store, x *exhibit) error {
	data, err := x.open(ctx, store)
	if err != nil {
		return fmt.Errorf("%s (%s): %w; see vaultctl verify", x.Copy, firstOf(x.Names), err)
	}
	defer data.Close() // it was only read
	doc, password, err := b.read(ctx, x, data)
	if err != nil {
		return err
	}
	name := firstOf(x.Names)
	switch {
	case doc.Trouble == page.Password:
		b.report.Locked = append(b.report.Locked, name)
		b.textPage(x, 1, b.w.say("locked"), nil)
		return nil
	case doc.Trouble != page.None && doc.Trouble != page.Empty:
		b.report.NotDrawn = append(b.report.NotDrawn, name+": "+doc.Reason)
		b.textPage(x, 1, b.w.say("not drawn", doc.Reason), nil)
		return nil
	case len(doc.Pages) == 0 || doc.Pages[0].Width == 0:
		b.textPage(x, 1, b.w.say("as text"), textOf(doc))
		return nil
	}
	x.pages = len(doc.Pages) + doc.Unread
	for _, p := range doc.Pages[:min(len(doc.Pages), mostPages)] {
		if err := b.page(ctx, x, p, data, password); err != nil {
			return err
		}
	}
	if rest := x.pages - mostPages; rest > 0 {
		b.textPage(x, mostPages+1, b.w.say("not shown", rest), nil)
	}
	return nil
}

// read returns the words of an original, and the password that opened it.
func (b *binding) read(ctx context.Context, x *exhibit, data io.ReadSeeker) (page.Document, string, error) {
	doc, err := b.o.Pages.Read(ctx, data, page.Request{NoOCR: true})
	if err != nil || doc.Trouble != page.Password || b.o.Password == nil {
		return doc, "", err
	}
	password, err := b.o.Password(ctx, x.Original)
	if err != nil || password == "" {
		return doc, "", err
	}
	doc, err = b.o.Pages.Read(ctx, data, page.Request{NoOCR: true, Password: password})
	return doc, password, err
}

// page prints one page of an original as a picture, with its words and marks.
func (b *binding) page(ctx context.Context, x *exhibit, p page.Page, data io.ReadSeeker, password string) error {
	raw, err := b.o.Pages.Picture(ctx, data, p.Number, binderDPI, password)
	if errors.Is(err, page.ErrNoPicture) || errors.Is(err, page.ErrLocked) {
		b.report.NotDrawn = append(b.report.NotDrawn, fmt.Sprintf("%s, page %d: %v", firstOf(x.Names), p.Number, err))
		b.textPage(x, p.Number, b.w.say("not drawn", err.Error()), nil)
		return nil
	}
	if err != nil {
		return err
	}
	name, err := b.shelf.put(raw)
	if err != nil {
		return fmt.Errorf("%s, page %d: %w", firstOf(x.Names), p.Number, err)
	}
	width, height := float64(p.Width)/100, float64(p.Height)/100
	first := len(x.printed) == 0
	sheet := b.sheet(x, p.Number, width > height)
	b.stamp(b.w.say("stamp", x.number, p.Number, x.pages, firstOf(x.Names)), x)
	if first {
		b.note(b.w.say("as picture"))
	}
	scale := min((sheet[0]-pageFoot)/width, (sheet[1]-stampSpace-pageFoot-12)/height, 1.5)
	left, top := (sheet[0]-width*scale)/2, float64(stampSpace+12)
	b.words(p, left, top, scale)
	info := b.RegisterImageOptionsReader(name, fpdf.ImageOptions{ImageType: "JPEG"}, bytes.NewReader(placeholder()))
	if err := inOrder(info, len(b.shelf.list)); err != nil {
		return fmt.Errorf("%s, page %d: %w", firstOf(x.Names), p.Number, err)
	}
	b.ImageOptions(name, left, top, width*scale, height*scale, false, fpdf.ImageOptions{ImageType: "JPEG"}, 0, "")
	b.SetDrawColor(160, 160, 160)
	b.SetLineWidth(0.4)
	b.Rect(left, top, width*scale, height*scale, "D")
	b.SetDrawColor(0, 0, 0)
	b.marks(x, p.Number, left, top, scale)
	return b.Error()
}

// sheet begins a page for one page of an exhibit, sets the links that lead to it, and
// returns its size.
func (b *binding) sheet(x *exhibit, number int, wide bool) [2]float64 {
	size := b.GetPageSizeStr("A4")
	orientation := "P"
	if wide {
		orientation = "L"
	}
	b.AddPageFormat(orientation, size)
	if !b.begun {
		b.begun = true
		b.SetFont("text", "", 8)
		b.Bookmark(b.w.say("exhibits"), 0, 0)
	}
	b.SetLink(x.linkTo(b.press, number), 0, -1)
	if len(x.printed) == 0 {
		b.Bookmark(b.clean(fmt.Sprintf("%s · %s", b.w.say("exhibit", x.number), firstOf(x.Names))), 1, 0)
		x.first = b.PageNo()
	}
	x.printed = append(x.printed, number)
	w, h := b.GetPageSize()
	return [2]float64{w, h}
}

// stamp prints the line that names an exhibit's page, and what it proves.
func (b *binding) stamp(text string, x *exhibit) {
	width, _ := b.GetPageSize()
	b.SetFont("text", "B", 10)
	b.SetXY(pageFoot/2, 14)
	b.CellFormat(width-pageFoot, 14, b.fitted(b.shown(text), width-pageFoot), "", 2, "L", false, 0, "")
	b.SetFont("mono", "", 6.5)
	b.CellFormat(width-pageFoot, 9, b.fitted(b.clean(strings.Join(x.claims, " ")+"  SHA-256 "+x.SHA256), width-pageFoot), "", 2, "L", false, 0, "")
	b.SetLineWidth(0.8)
	b.Line(pageFoot/2, stampSpace-3, width-pageFoot/2, stampSpace-3)
}

// note prints a small line beneath the stamp.
func (b *binding) note(text string) {
	width, _ := b.GetPageSize()
	b.SetFont("text", "", 7)
	b.SetXY(pageFoot/2, stampSpace-1)
	b.CellFormat(width-pageFoot, 9, b.fitted(b.clean(text), width-pageFoot), "", 2, "L", false, 0, "")
}

// words prints the page's words unseen beneath its picture, so that the binder can be
// searched.
func (b *binding) words(p page.Page, left, top, scale float64) {
	b.SetTextRenderingMode(3)
	for _, w := range p.Words[:min(len(p.Words), mostWords)] {
		height := float64(w.Box[3]-w.Box[1]) / 100 * scale
		if w.Hidden || height < 2 || height > 200 {
			continue
		}
		b.SetFont("text", "", height*0.85)
		b.Text(left+float64(w.Box[0])/100*scale, top+float64(w.Box[3])/100*scale-height*0.2, b.clean(w.Text))
	}
	b.SetTextRenderingMode(0)
}

// marks outlines the places that prove something.
func (b *binding) marks(x *exhibit, number int, left, top, scale float64) {
	b.SetDrawColor(20, 60, 140)
	b.SetTextColor(20, 60, 140)
	b.SetLineWidth(0.9)
	b.SetFont("text", "B", 5.5)
	for _, m := range x.marks {
		if m.page != number {
			continue
		}
		x0, y0 := left+float64(m.box[0])/100*scale-1.5, top+float64(m.box[1])/100*scale-1.5
		b.Rect(x0, y0, float64(m.box[2]-m.box[0])/100*scale+3, float64(m.box[3]-m.box[1])/100*scale+3, "D")
		names := make([]string, len(m.labels))
		for i, label := range m.labels {
			claim, field, _ := strings.Cut(label, " ")
			names[i] = claim + " " + b.w.field(field)
		}
		b.Text(x0, y0-1.2, b.clean(strings.Join(names, ", ")))
	}
	b.SetDrawColor(0, 0, 0)
	b.SetTextColor(0, 0, 0)
}

// textPage prints what an exhibit without pages says, or why it shows none.
func (b *binding) textPage(x *exhibit, number int, note string, lines []string) {
	b.sheet(x, number, false)
	b.stamp(b.w.say("stamp text", x.number, firstOf(x.Names)), x)
	b.SetXY(pageMargin, stampSpace+8)
	b.paragraph(b.shown(note))
	b.paragraph(b.clean(b.w.say("attached", path.Base(x.Copy))))
	b.SetFont("mono", "", 8)
	for _, line := range lines {
		b.lines(b.shown(line), 11, b.inner())
	}
}

// mostLines bounds the text that is printed of an original without pages.
const mostLines = 600

// textOf is the text of a document without pages, a message's head before it.
func textOf(doc page.Document) []string {
	var lines []string
	if m := doc.Mail; m != nil {
		lines = append(lines, "From: "+m.From, "To: "+m.To, "Subject: "+m.Subject, "Date: "+m.Date, "")
	}
	for _, p := range doc.Pages {
		for _, line := range p.Lines {
			lines = append(lines, strings.ReplaceAll(line, "\t", "   "))
		}
	}
	if len(lines) > mostLines {
		lines = append(lines[:mostLines], "…")
	}
	return lines
}
