package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"golang.org/x/image/font"
	"golang.org/x/image/font/basicfont"
	"golang.org/x/image/math/fixed"

	"evidencevault/extract"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

const traceDPI = 110

var (
	inkWord  = color.RGBA{R: 190, G: 190, B: 190, A: 255} // a line or paragraph
	inkOther = color.RGBA{R: 140, G: 110, B: 60, A: 255}  // a candidate that was not taken
	inkTaken = color.RGBA{R: 20, G: 60, B: 140, A: 255}   // the value of a field
)

// traceMargin is the room right of a page for the names of fields, in pixels.
const traceMargin = 260

// A tracePage is a page that is drawn, with its size in hundredths of a point.
type tracePage struct {
	canvas *image.RGBA
	page   image.Rectangle // without the margin
	size   [2]int
}

func newTracePage(img image.Image, size [2]int) tracePage {
	at := image.Rect(0, 0, img.Bounds().Dx(), img.Bounds().Dy())
	d := tracePage{canvas: image.NewRGBA(image.Rect(0, 0, at.Dx()+traceMargin, at.Dy())), page: at, size: size}
	draw.Draw(d.canvas, d.canvas.Bounds(), image.White, image.Point{}, draw.Src)
	draw.Draw(d.canvas, at, img, img.Bounds().Min, draw.Src)
	return d
}

// drawTrace writes a picture of each page of a paper into folder: every line outlined,
// the candidates, and the values with the names of their fields; one that is asked
// about has a broken line. It returns the names of the pictures. A file without pages to
// draw has none.
func drawTrace(ctx context.Context, r *page.Reader, src io.ReadSeeker, t *extract.Trace, folder, name string) ([]string, error) {
	var out []string
	for _, p := range t.Pages {
		if _, err := src.Seek(0, io.SeekStart); err != nil {
			return out, err
		}
		raw, err := r.Picture(ctx, src, p.Number, traceDPI, "")
		if errors.Is(err, page.ErrNoPicture) {
			continue
		}
		if err != nil {
			return out, fmt.Errorf("%s, page %d: %w", name, p.Number, err)
		}
		img, err := png.Decode(bytes.NewReader(raw))
		if err != nil {
			return out, fmt.Errorf("%s, page %d: %w", name, p.Number, err)
		}
		d := newTracePage(img, p.Size)
		d.draw(t, p.Number)
		var b bytes.Buffer
		if err := png.Encode(&b, d.canvas); err != nil {
			return out, err
		}
		file := filepath.Join(folder, fmt.Sprintf("%s-page-%d.png", name, p.Number))
		if err := writeNew(file, b.Bytes(), false); err != nil {
			return out, err
		}
		out = append(out, file)
	}
	return out, nil
}

// draw outlines what t tells of one page.
func (d tracePage) draw(t *extract.Trace, number int) {
	for _, p := range t.Text {
		if p.Page == number {
			d.outline(p.Box, inkWord, false)
		}
	}
	type marked struct {
		box  paper.Box
		text string
		open bool
	}
	var taken []marked
	for _, f := range t.Fields {
		for _, c := range f.Candidates {
			if c.Place.Page != number || c.Place.Box.IsZero() {
				continue
			}
			if c.Value != f.Value {
				d.outline(c.Place.Box, inkOther, true)
				continue
			}
			text := strings.ReplaceAll(string(f.Field), "_", " ")
			if !f.Certain {
				text += " ?"
			}
			same := false
			for i := range taken {
				if taken[i].box == c.Place.Box {
					taken[i].text, taken[i].open, same = taken[i].text+", "+text, taken[i].open || !f.Certain, true
				}
			}
			if !same {
				taken = append(taken, marked{c.Place.Box, text, !f.Certain})
			}
		}
	}
	slices.SortFunc(taken, func(a, b marked) int { return a.box[1] - b.box[1] })
	below := 0
	for _, m := range taken {
		d.outline(m.box, inkTaken, m.open)
		below = d.name(m.box, m.text, below)
	}
}

// onCanvas is a box of the page in pixels, a little wider.
func (d tracePage) onCanvas(b paper.Box) image.Rectangle {
	if d.size[0] == 0 || d.size[1] == 0 {
		return image.Rectangle{}
	}
	w, h := d.page.Dx(), d.page.Dy()
	return image.Rect(b[0]*w/d.size[0]-2, b[1]*h/d.size[1]-2, b[2]*w/d.size[0]+2, b[3]*h/d.size[1]+2).Intersect(d.page)
}

// outline draws a border of one pixel, broken or not.
func (d tracePage) outline(b paper.Box, ink color.RGBA, broken bool) {
	r := d.onCanvas(b)
	if b.IsZero() || r.Empty() {
		return
	}
	dot := func(x, y int) {
		if !broken || (x+y)/4%2 == 0 {
			d.canvas.SetRGBA(x, y, ink)
		}
	}
	for x := r.Min.X; x < r.Max.X; x++ {
		dot(x, r.Min.Y)
		dot(x, r.Max.Y-1)
	}
	for y := r.Min.Y; y < r.Max.Y; y++ {
		dot(r.Min.X, y)
		dot(r.Max.X-1, y)
	}
}

// name writes a text into the margin at the height of a box, at least as low as below,
// with a line to the box. It returns where the next may stand.
func (d tracePage) name(b paper.Box, text string, below int) int {
	face := basicfont.Face7x13
	r := d.onCanvas(b)
	base := max((r.Min.Y+r.Max.Y)/2+4, below+face.Height, face.Ascent)
	left := d.page.Max.X + 12
	for x := r.Max.X; x < left-4; x++ {
		y := r.Max.Y - 1 + (base-4-r.Max.Y+1)*(x-r.Max.X)/max(left-4-r.Max.X, 1)
		if (x-r.Max.X)%3 == 0 {
			d.canvas.SetRGBA(x, y, inkTaken)
		}
	}
	drawer := font.Drawer{Dst: d.canvas, Src: image.NewUniform(inkTaken), Face: face, Dot: fixed.P(left, base)}
	drawer.DrawString(text)
	return base
}
