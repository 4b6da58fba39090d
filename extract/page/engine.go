package page

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"regexp"
	"runtime"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/gabriel-vasile/mimetype"
	"github.com/klippa-app/go-pdfium"
	"github.com/klippa-app/go-pdfium/webassembly"
	"github.com/tetratelabs/wazero"
	"github.com/tetratelabs/wazero/api"
	"github.com/tetratelabs/wazero/experimental"

	"evidencevault/internal/confine"
)

// memoryPages bounds the PDF engine, in pages of 64 KiB: 128 MiB.
const memoryPages = 2048

// engine is the PDF engine of a reading child, and the document it read last.
type engine struct {
	pdf  pdfium.Pdfium
	last []byte
}

// prepareRead starts the PDF engine. It runs before the child gives up its files,
// since the compiled engine comes from the cache.
func prepareRead(b []byte) (confine.Handler, error) {
	var s setup
	if err := json.Unmarshal(b, &s); err != nil {
		return nil, fmt.Errorf("read the set-up: %w", err)
	}
	rc := wazero.NewRuntimeConfig().
		WithCoreFeatures(api.CoreFeaturesV2 | experimental.CoreFeaturesExceptionHandling).
		WithMemoryLimitPages(memoryPages)
	if s.Cache != "" {
		cache, err := wazero.NewCompilationCacheWithDir(s.Cache)
		if err != nil {
			return nil, fmt.Errorf("open the cache of the PDF engine in %s: %w", s.Cache, err)
		}
		rc = rc.WithCompilationCache(cache)
	}
	pool, err := webassembly.Init(webassembly.Config{
		Context: experimental.WithCompilationWorkers(context.Background(), runtime.GOMAXPROCS(0)),
		MinIdle: 1, MaxIdle: 1, MaxTotal: 1,
		FSConfig: wazero.NewFSConfig(), RuntimeConfig: rc,
		Stdout: io.Discard, Stderr: io.Discard,
	})
	if err != nil {
		return nil, fmt.Errorf("start the PDF engine: %w", err)
	}
	pdf, err := pool.GetInstance(30 * time.Second)
	if err != nil {
		return nil, fmt.Errorf("start the PDF engine: %w", err)
	}
	e := &engine{pdf: pdf}
	return e.handle, nil
}

// handle answers one order.
func (e *engine) handle(head, body []byte) (answer, blob []byte, again bool) {
	var o order
	if err := json.Unmarshal(head, &o); err != nil {
		return replyBytes(reply{Document: Document{Trouble: Unreadable, Reason: "the reader was not told what to do"}}), nil, false
	}
	if !o.Held {
		e.last = body
	}
	kind := typeOf(e.last)
	if o.Do == doPicture {
		return e.drawPage(kind, o)
	}
	if o.Do == doFields || o.Do == doFill {
		return e.formJob(kind, o)
	}
	a, again := e.read(kind, o)
	a.Document.Type = kind
	for i, p := range a.Document.Parts {
		a.Sizes, blob = append(a.Sizes, len(p.Data)), append(blob, p.Data...)
		a.Document.Parts[i].Data = nil
	}
	return replyBytes(a), blob, again
}

func (e *engine) read(kind string, o order) (a reply, again bool) {
	if d, found := readBaked(e.last, kind); found {
		return reply{Document: d}, true
	}
	switch kind {
	case "pdf":
		return e.readPDF(o)
	case "jpeg", "png", "tiff", "gif", "bmp", "webp":
		return readImage(e.last, kind), true
	case "docx":
		a.Document = readDocx(e.last)
	case "eml":
		a.Document = readMail(e.last)
	case "html":
		a.Document = readHTML(e.last)
	case "zip":
		a.Document = readArchive(e.last)
	case "ics":
		a.Document = readCalendar(e.last)
	case "application/json", "application/jwt":
		a.Document = readBadge(e.last, kind)
	case "txt":
		a.Document = readText(e.last)
	default:
		a.Document = refuse(kind, e.last)
	}
	return a, true
}

func (e *engine) drawPage(kind string, o order) (answer, blob []byte, again bool) {
	var a reply
	again = true
	switch kind {
	case "pdf":
		a, blob, again = e.drawPDF(o)
	case "jpeg", "png", "tiff", "gif", "bmp", "webp":
		a, blob = drawImage(e.last, o)
	default:
		a.Document = Document{Trouble: Other, Reason: "its pages have no picture, only text"}
	}
	return replyBytes(a), blob, again
}

// typeOf returns the type by content: never by a name, which may lie.
func typeOf(b []byte) string {
	if at := pdfStart(b); at >= 0 {
		return "pdf"
	}
	switch m := mimetype.Detect(b); {
	case m.Is("image/jpeg"):
		return "jpeg"
	case m.Is("image/png"), m.Is("image/vnd.mozilla.apng"):
		return "png"
	case m.Is("image/tiff"):
		return "tiff"
	case m.Is("image/gif"):
		return "gif"
	case m.Is("image/bmp"):
		return "bmp"
	case m.Is("image/webp"):
		return "webp"
	case m.Is("application/vnd.openxmlformats-officedocument.wordprocessingml.document"):
		return "docx"
	case m.Is("application/zip"):
		return "zip"
	case m.Is("text/html"):
		return textKind(b, "html")
	case m.Is("text/calendar"):
		return "ics"
	case m.Is("message/rfc822"):
		return "eml"
	case m.Is("image/svg+xml"), isDrawing(b):
		return "image/svg+xml"
	case m.Is("application/json"), json.Valid(b) && isText(m) && bytes.HasPrefix(bytes.TrimSpace(b), []byte("{")):
		return "application/json"
	case signedToken.Match(b):
		return "application/jwt"
	case isText(m), m.Is("application/pdf") && utf8.Valid(b[:min(len(b), 1<<20)]): // a text that speaks of PDF
		return textKind(b, "txt")
	default:
		kind, _, _ := strings.Cut(m.String(), ";")
		return kind
	}
}

// signedToken is a signed text of three parts (RFC 7515, section 7.1), as credentials
// are handed out.
var signedToken = regexp.MustCompile(`^\s*eyJ[A-Za-z0-9_-]{10,}\.[A-Za-z0-9_-]{10,}\.[A-Za-z0-9_-]*\s*$`)

// isDrawing reports a drawing in SVG form, whose markup is no text for people.
func isDrawing(b []byte) bool {
	start := bytes.TrimLeft(bytes.TrimPrefix(b[:min(len(b), 4<<10)], []byte("\xef\xbb\xbf")), " \t\r\n")
	return bytes.HasPrefix(start, []byte("<svg")) || bytes.HasPrefix(start, []byte("<?xml")) && bytes.Contains(start, []byte("<svg"))
}

// isText says whether m is a kind of text, however special.
func isText(m *mimetype.MIME) bool {
	for ; m != nil; m = m.Parent() {
		if m.Is("text/plain") {
			return true
		}
	}
	return false
}
