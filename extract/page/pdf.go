package page

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"runtime"
	"strings"

	pdferrors "github.com/klippa-app/go-pdfium/errors"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
	"github.com/klippa-app/go-pdfium/responses"
)

const (
	mostWords = 120_000 // of one document: more is no certificate
	mostChars = 100_000 // of one page
	mostParts = 100     // files within a file
	partBytes = 32 << 20
)

// open opens the document held; close must be called.
func (e *engine) open(password string) (references.FPDF_DOCUMENT, Document, bool) {
	data := e.last[max(pdfStart(e.last), 0):]
	res, err := e.load(data, password)
	if errors.Is(err, pdferrors.ErrFormat) {
		if again := mended(data); again != nil {
			if mend, failed := e.load(again, password); failed == nil || trapped(failed) {
				res, err, e.last = mend, failed, again // what else is asked of it is asked of the mended one
			}
		}
	}
	switch {
	case err == nil:
		return res.Document, Document{}, true
	case errors.Is(err, pdferrors.ErrPassword) && password != "":
		return "", Document{Trouble: Password, Reason: "the password given does not open it"}, true
	case errors.Is(err, pdferrors.ErrPassword):
		return "", Document{Trouble: Password, Reason: "it is encrypted and opens only with its password"}, true
	case errors.Is(err, pdferrors.ErrSecurity):
		return "", Document{Trouble: Unreadable, Reason: "it is encrypted in a way that is not known; ask its sender for a plain copy"}, true
	case trapped(err):
		return "", trapTrouble(), false
	}
	return "", Document{Trouble: Unreadable, Reason: "it is no whole PDF: its inner table of contents is damaged or cut off; ask its sender for it again"}, true
}

func (e *engine) load(data []byte, password string) (*responses.OpenDocument, error) {
	return e.pdf.OpenDocument(&requests.OpenDocument{FileReader: bytes.NewReader(data), FileReaderSize: int64(len(data)), Password: &password})
}

// trapped says that the engine itself broke off: it must not be used again.
func trapped(err error) bool {
	return err != nil && (strings.Contains(err.Error(), "wasm error") || strings.Contains(err.Error(), "panic") || strings.Contains(err.Error(), "module closed"))
}

// trapTrouble tells a document that outgrew the engine's memory from one that broke it.
func trapTrouble() Document {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	if m.HeapAlloc > 100<<20 {
		return tooLarge("unpacking its pages needs more memory than allowed")
	}
	return Document{Trouble: Unreadable, Reason: "the PDF engine broke off on it; the file is damaged"}
}

// readPDF reads the pages asked for. again is false when the engine broke.
func (e *engine) readPDF(o order) (a reply, again bool) {
	doc, d, again := e.open(o.Password)
	if d.Trouble != None {
		return reply{Document: d}, again
	}
	count, err := e.pdf.FPDF_GetPageCount(&requests.FPDF_GetPageCount{Document: doc})
	if err != nil {
		return reply{Document: trapTrouble()}, false
	}
	if count.PageCount == 0 {
		d = Document{Trouble: Unreadable, Reason: "it has no pages that can be found; the file is damaged"}
		return reply{Document: d}, e.shut(doc)
	}
	e.properties(doc, &a.Document)
	from, to := max(o.From, 1), count.PageCount
	if o.To > 0 {
		to = min(to, o.To)
	}
	end := min(to, from+o.Pages-1)
	if from > to {
		d = Document{Trouble: Unreadable, Reason: fmt.Sprintf("it has no page %d: there are %d", from, count.PageCount)}
		return reply{Document: d}, e.shut(doc)
	}
	if n, err := e.sheets(doc, &a, from, end); err != nil {
		return broken(a, to-n+1, err), false
	}
	a.Document.Unread += to - end
	if len(a.Document.Pages) == 0 {
		a.Document.Trouble, a.Document.Reason = Unreadable, "none of its pages can be read: they are damaged"
	}
	e.parts(doc, &a.Document)
	return a, e.shut(doc)
}

// sheets reads pages into a reply. An error, with the page at which it came, is one after which the
// engine reads no more; a page that is only damaged is counted.
func (e *engine) sheets(doc references.FPDF_DOCUMENT, a *reply, from, end int) (int, error) {
	words := 0
	for n := from; n <= end; n++ {
		s, err := e.sheet(doc, n)
		if trapped(err) || errors.Is(err, errCrowded) {
			return n, err
		}
		if err != nil {
			a.Document.Unread++
			a.Document.Reason = fmt.Sprintf("page %d is unread: it is damaged", n)
			continue
		}
		if words += len(s.page.Words); words > mostWords {
			return n, errCrowded
		}
		a.Document.Pages = append(a.Document.Pages, s.page)
		if s.need {
			a.Need = append(a.Need, n)
		}
	}
	return end, nil
}

// broken keeps the pages read before the one that could not be.
func broken(a reply, unread int, err error) reply {
	d := trapTrouble()
	if errors.Is(err, errCrowded) {
		d = tooLarge("a page holds more letters than are read of one")
	}
	for _, p := range a.Document.Pages {
		if len(p.Words) > 0 {
			a.Document.Unread, a.Document.Reason = unread, fmt.Sprintf("%d pages are unread: %s", unread, d.Reason)
			return a
		}
	}
	return reply{Document: d}
}

func (e *engine) shut(doc references.FPDF_DOCUMENT) bool {
	_, err := e.pdf.FPDF_CloseDocument(&requests.FPDF_CloseDocument{Document: doc})
	return err == nil
}

// properties reads what the file says of itself.
func (e *engine) properties(doc references.FPDF_DOCUMENT, d *Document) {
	for tag, to := range map[string]*string{"Title": &d.Title, "Producer": &d.Producer} {
		if res, err := e.pdf.FPDF_GetMetaText(&requests.FPDF_GetMetaText{Document: doc, Tag: tag}); err == nil {
			*to = plain(res.Value, 500)
		}
	}
	if res, err := e.pdf.FPDFCatalog_GetLanguage(&requests.FPDFCatalog_GetLanguage{Document: doc}); err == nil {
		d.Language = languageTag(res.Language)
	}
}

// parts takes out the files within the document.
func (e *engine) parts(doc references.FPDF_DOCUMENT, d *Document) {
	count, err := e.pdf.FPDFDoc_GetAttachmentCount(&requests.FPDFDoc_GetAttachmentCount{Document: doc})
	if err != nil {
		return
	}
	room := partBytes
	for i := 0; i < min(count.AttachmentCount, mostParts); i++ {
		at, err := e.pdf.FPDFDoc_GetAttachment(&requests.FPDFDoc_GetAttachment{Document: doc, Index: i})
		if err != nil {
			continue
		}
		p := Part{Name: fmt.Sprintf("file %d", i+1)}
		if name, err := e.pdf.FPDFAttachment_GetName(&requests.FPDFAttachment_GetName{Attachment: at.Attachment}); err == nil && name.Name != "" {
			p.Name = plain(name.Name, 200)
		}
		file, err := e.pdf.FPDFAttachment_GetFile(&requests.FPDFAttachment_GetFile{Attachment: at.Attachment})
		if err != nil || len(file.Contents) == 0 || len(file.Contents) > room {
			continue
		}
		room -= len(file.Contents)
		p.Data = bytes.Clone(file.Contents)
		p.Type = typeOf(p.Data)
		d.Parts = append(d.Parts, p)
	}
}

// hundredths turns points into hundredths, within what an int32 holds.
func hundredths(points float64) int {
	if math.IsNaN(points) {
		return 0
	}
	return int(math.Round(min(max(points*100, -1e9), 1e9)))
}
