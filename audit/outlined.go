package audit

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"path"
	"slices"
	"strings"

	"evidencevault/evidence"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// pictures is the folder of a packet with the pages that prove something.
const pictures = "pictures"

const outlinedDPI = 120

// addPictures adds a picture of each page on which a place proves something, with the
// places outlined, named after the copy of its original. A page that cannot be drawn,
// since its original is locked or has no pages to draw, is listed with the reason.
func (d Dossier) addPictures(ctx context.Context, store *evidence.Store, to adder, pages *page.Reader) error {
	list, _ := d.exhibitsOf()
	var notes strings.Builder
	for _, x := range list {
		if err := x.addPictures(ctx, store, to, pages, d.words(), &notes); err != nil {
			return err
		}
	}
	if notes.Len() == 0 {
		return nil
	}
	_, err := to.Add(pictures+"/NOT-DRAWN.txt", strings.NewReader(notes.String()), 0o600)
	return err
}

func (x *exhibit) addPictures(ctx context.Context, store *evidence.Store, to adder, pages *page.Reader, w *wording, notes *strings.Builder) error {
	var numbers []int
	for _, m := range x.marks {
		if !slices.Contains(numbers, m.page) {
			numbers = append(numbers, m.page)
		}
	}
	slices.Sort(numbers)
	for _, n := range numbers {
		if err := ctx.Err(); err != nil {
			return err
		}
		picture, err := x.outlined(ctx, store, pages, n)
		if errors.Is(err, page.ErrNoPicture) || errors.Is(err, page.ErrLocked) {
			key := "picture none"
			if errors.Is(err, page.ErrLocked) {
				key = "picture locked"
			}
			notes.WriteString(w.say(key, x.Copy, n) + "\n")
			continue
		}
		if err != nil {
			return fmt.Errorf("%s, page %d: %w", x.Copy, n, err)
		}
		base := strings.TrimSuffix(path.Base(x.Copy), path.Ext(x.Copy))
		if _, err := to.Add(fmt.Sprintf("%s/%s-page-%d.png", pictures, base, n), bytes.NewReader(picture), 0o600); err != nil {
			return err
		}
	}
	return nil
}

// outlined draws one page and the places on it.
func (x *exhibit) outlined(ctx context.Context, store *evidence.Store, pages *page.Reader, number int) ([]byte, error) {
	from, err := x.open(ctx, store)
	if err != nil {
		return nil, err
	}
	defer from.Close() // it was only read
	drawn, err := pages.Draw(ctx, from, number, outlinedDPI, "")
	if err != nil {
		return nil, err
	}
	img, err := png.Decode(bytes.NewReader(drawn.PNG))
	if err != nil {
		return nil, err
	}
	canvas := image.NewRGBA(img.Bounds())
	draw.Draw(canvas, canvas.Bounds(), img, img.Bounds().Min, draw.Src)
	for _, m := range x.marks {
		if m.page == number && drawn.Width > 0 && drawn.Height > 0 {
			outline(canvas, onCanvas(m.box, drawn, canvas.Bounds()))
		}
	}
	var out bytes.Buffer
	err = png.Encode(&out, canvas)
	return out.Bytes(), err
}

// onCanvas is a box of a page in pixels of its picture, a little wider.
func onCanvas(b paper.Points, p page.Drawn, canvas image.Rectangle) image.Rectangle {
	w, h := canvas.Dx(), canvas.Dy()
	return image.Rect(b[0]*w/p.Width-3, b[1]*h/p.Height-3, b[2]*w/p.Width+3, b[3]*h/p.Height+3).Intersect(canvas)
}

// outline draws the border of a rectangle, two pixels wide.
func outline(canvas *image.RGBA, r image.Rectangle) {
	ink := image.NewUniform(color.RGBA{R: 20, G: 60, B: 140, A: 255})
	for _, side := range []image.Rectangle{
		image.Rect(r.Min.X, r.Min.Y, r.Max.X, r.Min.Y+2), image.Rect(r.Min.X, r.Max.Y-2, r.Max.X, r.Max.Y),
		image.Rect(r.Min.X, r.Min.Y, r.Min.X+2, r.Max.Y), image.Rect(r.Max.X-2, r.Min.Y, r.Max.X, r.Max.Y),
	} {
		draw.Draw(canvas, side, ink, image.Point{}, draw.Src)
	}
}
