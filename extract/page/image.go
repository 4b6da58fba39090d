package page

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	_ "image/gif"  // registers the form; of several frames the first is read
	_ "image/jpeg" // registers the form
	_ "image/png"  // registers the form
	"math"

	_ "golang.org/x/image/bmp" // registers the form
	"golang.org/x/image/draw"
	_ "golang.org/x/image/tiff" // registers the form
	_ "golang.org/x/image/webp" // registers the form
)

// pixelLimit bounds a picture before it is decoded: 100 megapixels.
const pixelLimit = 100_000_000

// readImage returns the one page of a picture, without words: letters are recognised
// outside. Size and dots to the inch come from the head alone.
func readImage(b []byte, kind string) reply {
	if dirs := tiffPages(b); kind == "tiff" && len(dirs) > 1 {
		return readTIFF(b, dirs)
	}
	return readPicture(b, kind, 1)
}

// readTIFF takes each page of a TIFF for a page. One that is damaged is not passed over:
// the whole then says so.
func readTIFF(b []byte, dirs []uint32) reply {
	var all reply
	for i, dir := range dirs {
		if i == mostDrawn {
			all.Document.Unread = len(dirs) - i
			break
		}
		r := readPicture(tiffPage(b, dir), "tiff", i+1)
		if r.Document.Trouble != None {
			r.Document.Reason = fmt.Sprintf("page %d: %s", i+1, r.Document.Reason)
			return r
		}
		all.Document.Pages = append(all.Document.Pages, r.Document.Pages...)
		all.Need = append(all.Need, r.Need...)
	}
	return all
}

// readPicture reads the head of one picture, which is the page number of its file.
func readPicture(b []byte, kind string, number int) reply {
	cfg, _, err := image.DecodeConfig(bytes.NewReader(b))
	if err != nil || cfg.Width <= 0 || cfg.Height <= 0 {
		return reply{Document: Document{Trouble: Unreadable, Reason: "the picture is damaged: it has no head that makes sense"}}
	}
	if cfg.Width > pixelLimit || cfg.Height > pixelLimit/cfg.Width {
		return reply{Document: tooLarge(fmt.Sprintf("the picture has %d × %d pixels; at most 100 million are read", cfg.Width, cfg.Height))}
	}
	head := headOf(b, kind)
	w, h := cfg.Width, cfg.Height
	if head.orientation >= 5 {
		w, h = h, w
	}
	dpi := head.dpi
	if dpi == 0 {
		dpi = 72
	}
	p := Page{Number: number, Width: w * 7200 / dpi, Height: h * 7200 / dpi}
	return reply{Document: Document{Pages: []Page{p}}, Need: []int{number}}
}

// drawImage decodes a picture, sets it upright as its head says, and scales it: to the
// order's dots to the inch, or to what is best for recognition.
func drawImage(b []byte, o order) (reply, []byte) {
	kind := typeOf(b)
	if dirs := tiffPages(b); kind == "tiff" && o.Page > 1 && o.Page <= len(dirs) {
		b, o.Page = tiffPage(b, dirs[o.Page-1]), 1
	}
	r := readPicture(b, kind, 1)
	if r.Document.Trouble != None || o.Page != 1 {
		return reply{Document: Document{Trouble: Unreadable, Reason: "there is no such picture: " + r.Document.Reason}}, nil
	}
	img, _, err := image.Decode(bytes.NewReader(b))
	if err != nil {
		return reply{Document: Document{Trouble: Unreadable, Reason: "the picture is damaged"}}, nil
	}
	if o.DPI > 0 {
		a, blob := shownImage(img, headOf(b, kind), o.DPI)
		for _, p := range r.Document.Pages {
			a.Wide, a.High = p.Width, p.Height
		}
		return a, blob
	}
	return readableImage(img, headOf(b, kind), o)
}

// shownImage writes a picture for people: in its colours, at so many dots to the inch.
func shownImage(img image.Image, head imageHead, dpi int) (reply, []byte) {
	own := head.dpi
	if own == 0 {
		own = 72
	}
	scale := min(4, float64(dpi)/float64(own))
	size := img.Bounds().Size()
	if pixels := float64(size.X) * float64(size.Y) * scale * scale; pixels > mostPixels {
		scale *= math.Sqrt(mostPixels / pixels)
	}
	out := image.NewRGBA(image.Rect(0, 0, max(1, int(float64(size.X)*scale)), max(1, int(float64(size.Y)*scale))))
	scaled(out, img)
	upright := uprighted(out, head.orientation)
	return encoded(upright, guessDPI(head.dpi, upright.Bounds().Size(), scale))
}

// scaled fills out with img, on white where img is clear.
func scaled(out draw.Image, img image.Image) {
	draw.Draw(out, out.Bounds(), image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.ApproxBiLinear.Scale(out, out.Bounds(), img, img.Bounds(), draw.Over, nil)
}

// uprighted sets a picture upright as its head says.
func uprighted(img draw.Image, orientation int) image.Image {
	return turned(mirrored(img, orientation), quarters(orientation))
}

// readableImage makes a picture ready for recognition. If it shows a sheet on a table, the
// sheet alone is taken, and laid flat.
func readableImage(img image.Image, head imageHead, o order) (reply, []byte) {
	size := img.Bounds().Size()
	full := image.NewGray(image.Rect(0, 0, size.X, size.Y))
	if shrink := math.Sqrt(2 * mostPixels / (float64(size.X) * float64(size.Y))); shrink < 1 {
		full = image.NewGray(image.Rect(0, 0, max(1, int(float64(size.X)*shrink)), max(1, int(float64(size.Y)*shrink))))
	}
	c, found := sheetIn(img)
	scaled(full, img)
	for i := range c {
		c[i][0] *= float64(full.Rect.Dx()) / float64(size.X)
		c[i][1] *= float64(full.Rect.Dy()) / float64(size.Y)
	}
	part := &part{img: full, sheet: c, found: found, head: head, o: o}
	return readable(part.draw, o, part.scale())
}

// part is what is to be read of a picture: its sheet, or all of it.
type part struct {
	img   *image.Gray
	sheet corners
	found bool
	head  imageHead
	o     order
}

// size is that of the sheet, or of the picture.
func (p *part) size() image.Point {
	if p.found {
		_, w, h := p.sheet.from(1)
		return image.Point{X: w, Y: h}
	}
	return p.img.Bounds().Size()
}

// scale brings the picture to about the dots to the inch at which letters are best
// recognised: larger ones take longer and show the grain of the paper, in smaller ones
// letters run together.
func (p *part) scale() float64 {
	guess := p.dpi(1)
	switch {
	case guess > readDPI*5/4:
		return float64(readDPI) / float64(guess)
	case guess < 130:
		return min(2, 180/float64(guess))
	}
	return 1
}

func (p *part) dpi(scale float64) int {
	if p.found { // the head speaks of the whole photograph
		return guessDPI(0, p.size(), scale)
	}
	return guessDPI(p.head.dpi, p.size(), scale)
}

// draw draws the part so many times as large as it is, upright and turned as ordered.
func (p *part) draw(scale float64) (image.Image, projection, int) {
	size := p.size()
	if pixels := float64(size.X) * float64(size.Y) * scale * scale; pixels > mostPixels {
		scale *= math.Sqrt(mostPixels / pixels)
	}
	full := p.img.Bounds().Size()
	share := scaling(1/float64(full.X), 1/float64(full.Y))
	var out *image.Gray
	if p.found {
		m, w, h := p.sheet.from(scale)
		out = flattened(p.img, m, w, h)
		share = share.after(m)
	} else {
		out = image.NewGray(image.Rect(0, 0, max(1, int(float64(size.X)*scale)), max(1, int(float64(size.Y)*scale))))
		scaled(out, p.img)
		share = scaling(1/float64(out.Rect.Dx()), 1/float64(out.Rect.Dy()))
	}
	up := uprighted(out, p.head.orientation)
	b := out.Bounds()
	if o := p.head.orientation; o == 2 || o == 4 || o == 5 || o == 7 {
		share = share.after(projection{-1, 0, float64(b.Dx()), 0, 1, 0, 0, 0, 1})
		share = projection{-1, 0, 1, 0, 1, 0, 0, 0, 1}.after(share)
	}
	// From the part set upright to shares of the photograph set upright.
	q := quarters(p.head.orientation)
	u := up.Bounds()
	share = unturned(q, 1, 1).inverse().after(share).after(unturned(q, u.Dx(), u.Dy()))
	return up, share, p.dpi(scale)
}

// guessDPI tells the recogniser how large letters may be: from the head if it makes
// sense, else as if the picture showed a sheet of 8 by 11 inches.
func guessDPI(dpi int, size image.Point, scale float64) int {
	if dpi >= 100 && dpi <= 1200 {
		return max(70, int(float64(dpi)*scale))
	}
	return min(max(min(size.X, size.Y)/8, 70), 600)
}

// quarters returns the clockwise quarter turns that set a picture upright.
// Source: Exif 2.32, section 4.6.4, tag Orientation.
func quarters(orientation int) int {
	switch orientation {
	case 3, 4:
		return 2
	case 6, 7:
		return 1
	case 5, 8:
		return 3
	}
	return 0
}

// mirrored undoes the mirroring of the even and odd orientations that have one.
func mirrored(img draw.Image, orientation int) image.Image {
	if orientation != 2 && orientation != 4 && orientation != 5 && orientation != 7 {
		return img
	}
	b := img.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for l, r := b.Min.X, b.Max.X-1; l < r; l, r = l+1, r-1 {
			left, right := img.At(l, y), img.At(r, y)
			img.Set(l, y, right)
			img.Set(r, y, left)
		}
	}
	return img
}
