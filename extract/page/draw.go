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
	blank              bool       // one colour all over
	turn               int        // quarters clockwise by which the page was turned for it
	back               projection // from its dots to shares of the page as displayed
	wide, high         int        // of the page, in hundredths of a point
	marks              marks
}

// drawPDF draws one page of the document held. For recognition, where DPI is 0, it is
// grey, else in colours.
func (e *engine) drawPDF(o order) (a reply, blob []byte, again bool) {
	doc, d, again := e.open(o.Password)
	if d.Trouble != None {
		return reply{Document: d}, nil, again
	}
	dpi, most, format := o.DPI, 600, requests.RenderImageFormatRGBA
	if dpi <= 0 { // a page that says it is tiny may need more dots for letters to be seen
		dpi, most, format = readDPI, 2400, requests.RenderImageFormatGrayscale
	}
	page := requests.Page{ByIndex: &requests.PageByIndex{Document: doc, Index: o.Page - 1}}
	size, err := e.pdf.GetPageSize(&requests.GetPageSize{Page: page})
	if trapped(err) {
		return reply{Document: trapTrouble()}, nil, false
	}
	if err != nil || o.Page < 1 {
		return reply{Document: Document{Trouble: Unreadable, Reason: "it has no such page"}}, nil, e.shut(doc)
	}
	var broke error
	render := func(scale float64) (image.Image, projection, int) {
		dpi := fitting(max(1, int(float64(dpi)*scale)), most, size.Width, size.Height)
		res, err := e.pdf.RenderPageInDPI(&requests.RenderPageInDPI{Page: page, DPI: dpi, ImageFormat: format, RenderForm: true, Document: &doc})
		if err != nil {
			broke = err
			return nil, same, dpi
		}
		defer res.Cleanup()
		img := copied(res.Result.RenderedImage)
		return img, scaling(1/float64(img.Bounds().Dx()), 1/float64(img.Bounds().Dy())), dpi
	}
	if o.DPI <= 0 {
		a, blob = readable(render, o, 1)
	} else if img, _, dpi := render(1); broke == nil {
		a, blob = encoded(img, dpi)
	}
	a.Wide, a.High = hundredths(size.Width), hundredths(size.Height)
	if trapped(broke) {
		return reply{Document: trapTrouble()}, nil, false
	}
	if broke != nil {
		return reply{Document: Document{Trouble: Unreadable, Reason: "the page cannot be drawn"}}, nil, e.shut(doc)
	}
	return a, blob, e.shut(doc)
}

// copied returns a picture that stays when the engine takes its own back.
func copied(img image.Image) image.Image {
	switch p := img.(type) {
	case *image.Gray:
		return &image.Gray{Pix: bytes.Clone(p.Pix), Stride: p.Stride, Rect: p.Rect}
	case *image.RGBA:
		return &image.RGBA{Pix: bytes.Clone(p.Pix), Stride: p.Stride, Rect: p.Rect}
	}
	return img
}

// readable writes a picture of a page, turned as the order says, ready for recognition.
// draw draws it so many times as large as the page is by itself, and tells the way from
// there to shares of the page and the dots to the inch.
func readable(draw func(scale float64) (image.Image, projection, int), o order, scale float64) (reply, []byte) {
	img, back, dpi := draw(scale)
	if img == nil {
		return reply{}, nil
	}
	turn := o.Turn
	var m marks
	if !blank(img) {
		g := cleaned(img)
		if grow := toBest(letterHeight(g)); grow != 1 {
			if img, back, _ = draw(scale * grow); img == nil {
				return reply{}, nil
			}
			g, dpi = cleaned(img), readDPI
		}
		if !o.Turned && sidelong(g, dpi) {
			// Laid down. Whether the letters stand on their feet then is not known yet.
			turn++
		}
		g = turned(g, turn).(*image.Gray)
		back = back.after(unturned(turn, g.Rect.Dx(), g.Rect.Dy()))
		g, tilt := straight(g)
		img, back = g, back.after(untilted(tilt, g.Rect.Dx(), g.Rect.Dy()))
		m = marksOf(g)
	}
	a, blob := encoded(img, dpi)
	a.Turn, a.Back, a.Marks = turn%4, back, m
	return a, blob
}

// fitting lowers dpi to most, and until a page of that size in points fits the most pixels.
func fitting(dpi, most int, width, height float64) int {
	dpi = min(max(dpi, 1), most)
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
