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
// order's dots to the inch, or for recognition to what fits.
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
	head := headOf(b, kind)
	dpi := head.dpi
	if dpi == 0 {
		dpi = 72
	}
	scale := 1.0
	if o.DPI > 0 {
		scale = min(4, float64(o.DPI)/float64(dpi))
	}
	size := img.Bounds().Size()
	if o.DPI <= 0 {
		scale = readScale(head.dpi, size)
	}
	if pixels := float64(size.X) * float64(size.Y) * scale * scale; pixels > mostPixels {
		scale *= math.Sqrt(mostPixels / pixels)
	}
	to := image.Rect(0, 0, max(1, int(float64(size.X)*scale)), max(1, int(float64(size.Y)*scale)))
	var out draw.Image
	if o.DPI > 0 {
		out = image.NewRGBA(to)
	} else {
		out = image.NewGray(to)
	}
	draw.Draw(out, to, image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.ApproxBiLinear.Scale(out, to, img, img.Bounds(), draw.Over, nil)
	upright := turned(mirrored(out, head.orientation), quarters(head.orientation))
	upright = turned(upright, o.Turn)
	tilt := 0
	if o.DPI <= 0 && !blank(upright) {
		upright, tilt = cleaned(upright)
	}
	a, blob := encoded(upright, guessDPI(head.dpi, upright.Bounds().Size(), scale))
	a.Tilt = tilt
	for _, p := range r.Document.Pages {
		a.Wide, a.High = p.Width, p.Height
	}
	return a, blob
}

// readScale brings a picture to about the dots to the inch at which letters are best
// recognised: larger ones take longer and show the grain of the paper, in smaller ones
// letters run together.
func readScale(dpi int, size image.Point) float64 {
	guess := guessDPI(dpi, size, 1)
	switch {
	case guess > readDPI*5/4:
		return float64(readDPI) / float64(guess)
	case guess < 130:
		return min(2, 180/float64(guess))
	}
	return 1
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
