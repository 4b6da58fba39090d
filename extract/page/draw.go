package page

import (
	"bytes"
	"image"
	"image/png"

	"github.com/klippa-app/go-pdfium/requests"
)

const (
	mostPixels = 12_000_000 // of a picture that we make
	readDPI    = 200        // at which letters are recognised
)

// picture is one page as pixels.
type picture struct {
	png                []byte
	width, height, dpi int
	blank              bool // one colour all over
	tilt               int  // taken out of it
	wide, high         int  // of the page, in hundredths of a point
}

// drawPDF draws one page of the document held. For recognition, where DPI is 0, it is
// grey, else in colours.
func (e *engine) drawPDF(o order) (a reply, blob []byte, again bool) {
	doc, d, again := e.open(o.Password)
	if d.Trouble != None {
		return reply{Document: d}, nil, again
	}
	dpi, format := o.DPI, requests.RenderImageFormatRGBA
	if dpi <= 0 {
		dpi, format = readDPI, requests.RenderImageFormatGrayscale
	}
	page := requests.Page{ByIndex: &requests.PageByIndex{Document: doc, Index: o.Page - 1}}
	size, err := e.pdf.GetPageSize(&requests.GetPageSize{Page: page})
	if trapped(err) {
		return reply{Document: trapTrouble()}, nil, false
	}
	if err != nil || o.Page < 1 {
		return reply{Document: Document{Trouble: Unreadable, Reason: "it has no such page"}}, nil, e.shut(doc)
	}
	dpi = fitting(dpi, size.Width, size.Height)
	res, err := e.pdf.RenderPageInDPI(&requests.RenderPageInDPI{Page: page, DPI: dpi, ImageFormat: format, RenderForm: true, Document: &doc})
	if trapped(err) {
		return reply{Document: trapTrouble()}, nil, false
	}
	if err != nil {
		return reply{Document: Document{Trouble: Unreadable, Reason: "the page cannot be drawn"}}, nil, e.shut(doc)
	}
	img := turned(res.Result.RenderedImage, o.Turn)
	tilt := 0
	if o.DPI <= 0 && !blank(img) {
		img, tilt = cleaned(img)
	}
	a, blob = encoded(img, dpi)
	a.Tilt, a.Wide, a.High = tilt, hundredths(size.Width), hundredths(size.Height)
	res.Cleanup()
	return a, blob, e.shut(doc)
}

// fitting lowers dpi until a page of that size in points fits the most pixels.
func fitting(dpi int, width, height float64) int {
	dpi = min(max(dpi, 1), 600)
	for dpi > 1 && width*float64(dpi)/72*height*float64(dpi)/72 > mostPixels {
		dpi = dpi * 9 / 10
	}
	return max(dpi, 1)
}

// encoded writes a picture as PNG, with its size.
func encoded(img image.Image, dpi int) (reply, []byte) {
	var out bytes.Buffer
	enc := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := enc.Encode(&out, img); err != nil {
		return reply{Document: Document{Trouble: Unreadable, Reason: "its picture cannot be made"}}, nil
	}
	b := img.Bounds()
	return reply{Width: b.Dx(), Height: b.Dy(), DPI: dpi, Blank: blank(img)}, out.Bytes()
}

// blank says whether a picture has one colour all over. Only what pixels are made of
// here is looked into; of others it says no.
func blank(img image.Image) bool {
	var pix []byte
	step := 1
	switch p := img.(type) {
	case *image.Gray:
		pix = p.Pix
	case *image.RGBA:
		pix, step = p.Pix, 4
	default:
		return false
	}
	for i := step; i+step <= len(pix); i += step {
		if !bytes.Equal(pix[i:i+step], pix[:step]) {
			return false
		}
	}
	return true
}

// turned returns img turned clockwise by quarter turns.
func turned(img image.Image, quarters int) image.Image {
	for range quarters % 4 {
		b := img.Bounds()
		if g, ok := img.(*image.Gray); ok {
			to := image.NewGray(image.Rect(0, 0, b.Dy(), b.Dx()))
			for y := range b.Dy() {
				for x := range b.Dx() {
					to.Pix[x*to.Stride+b.Dy()-1-y] = g.Pix[y*g.Stride+x]
				}
			}
			img = to
			continue
		}
		to := image.NewRGBA(image.Rect(0, 0, b.Dy(), b.Dx()))
		for y := range b.Dy() {
			for x := range b.Dx() {
				to.Set(b.Dy()-1-y, x, img.At(b.Min.X+x, b.Min.Y+y))
			}
		}
		img = to
	}
	return img
}
