package extracttest

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"codeberg.org/go-pdf/fpdf"
)

// wears are the ways in which a paper becomes a worn picture. They share nothing with
// [Scan] but the program that draws the page.
var wears = map[string]func(*worn){
	"turned right": func(w *worn) { w.scanner(); w.turn(1) },
	"turned over":  func(w *worn) { w.scanner(); w.turn(2) },
	"turned left":  func(w *worn) { w.scanner(); w.turn(3) },
	"photo":        (*worn).photo,
	"fax":          (*worn).fax,
	"stain":        func(w *worn) { w.each(w.stain); w.scanner() },
	"stamp":        func(w *worn) { w.each(w.stamp); w.scanner() },
	"pattern":      func(w *worn) { w.each(w.pattern); w.scanner() },
	"bleed":        func(w *worn) { w.bleed(); w.scanner() },
	"poor jpeg":    func(w *worn) { w.scanner(); w.quality = 20 },
	"grey 300":     func(w *worn) { w.scanner(); w.grey = true },
	"grey 400":     func(w *worn) { w.scanner(); w.grey = true },
	"grey 600":     func(w *worn) { w.scanner(); w.grey = true },
	"density":      func(w *worn) { w.scanner(); w.lie() },
}

// density is at how many dots to the inch a page is drawn for a wear; 200 for others.
var density = map[string]int{"photo": 250, "grey 300": 300, "grey 400": 400, "grey 600": 600, "poor jpeg": 150, "fax": 204}

// Wears lists the wears that [Worn] knows, in order.
func Wears() []string {
	var names []string
	for name := range wears {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// worn is a paper on its way to a picture.
type worn struct {
	draw
	pages   []*image.RGBA
	dpi     int    // of the pages
	says    int    // dots to the inch that the file says; 0 says nothing
	quality int    // of JPEG
	grey    bool   // the file has no colours
	format  string // "jpg", "png" or "pdf"; "" is drawn
	turned  int    // orientation that the head of a JPEG says; 0 none
}

// Worn returns m as a picture that was worn in the way named: a PDF without text, a JPEG
// or a PNG. The truth stays, but for name and format. The error is [ErrNoScanner] where
// the program pdftoppm is missing; what is no PDF cannot be worn.
func Worn(m Made, wear string, seed uint64) (Made, error) {
	do, ok := wears[wear]
	if !ok || !strings.HasSuffix(m.Name, ".pdf") {
		return Made{}, fmt.Errorf("wear %q of %s: want a PDF and one of %q", wear, m.Name, Wears())
	}
	w := &worn{draw: drawn(seed), dpi: density[wear], quality: 85}
	if w.dpi == 0 {
		w.dpi = 200
	}
	w.says = w.dpi
	var err error
	if w.pages, err = coloured(m.Data, w.dpi); err != nil {
		return Made{}, err
	}
	do(w)
	return w.file(m, wear)
}

// Pile returns papers as one scan, a PDF without text, whose pages come one behind the
// other; or, as a spread, two to a sheet side by side.
func Pile(ms []Made, spread bool, seed uint64) (Made, error) {
	w := &worn{draw: drawn(seed), dpi: 200, says: 200, quality: 85, format: "pdf"}
	for _, m := range ms {
		pages, err := coloured(m.Data, w.dpi)
		if err != nil {
			return Made{}, err
		}
		w.pages = append(w.pages, pages...)
	}
	if spread {
		w.spread()
	}
	w.scanner()
	return w.file(ms[0], "pile")
}

func drawn(seed uint64) draw { return draw{rand.New(rand.NewPCG(seed, 0x307))} }

// coloured returns the pages of a PDF as pictures in colours.
func coloured(pdf []byte, dpi int) ([]*image.RGBA, error) {
	program, err := exec.LookPath("pdftoppm")
	if err != nil {
		return nil, ErrNoScanner
	}
	dir, err := os.MkdirTemp("", "worn")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir) // a folder of our own; what is left of it harms nobody
	cmd := exec.Command(program, "-r", fmt.Sprint(dpi), "-", filepath.Join(dir, "page"))
	cmd.Stdin = bytes.NewReader(pdf)
	if out, err := cmd.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("pdftoppm: %w: %s", err, out)
	}
	names, err := filepath.Glob(filepath.Join(dir, "*.ppm"))
	if err != nil || len(names) == 0 {
		return nil, errors.Join(err, errors.New("pdftoppm drew no page"))
	}
	slices.Sort(names)
	var pages []*image.RGBA
	for _, name := range names {
		b, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		p, err := pixmap(b)
		if err != nil {
			return nil, err
		}
		pages = append(pages, p)
	}
	return pages, nil
}

// pixmap reads a PPM of 8 bits.
func pixmap(b []byte) (*image.RGBA, error) {
	var w, h, most int
	if n, err := fmt.Sscanf(string(b[:min(40, len(b))]), "P6\n%d %d\n%d", &w, &h, &most); n != 3 || most != 255 || len(b) < w*h*3 {
		return nil, fmt.Errorf("pdftoppm drew no pixmap: %v", err)
	}
	b = b[len(b)-w*h*3:]
	p := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := range w * h {
		p.Pix[4*i], p.Pix[4*i+1], p.Pix[4*i+2], p.Pix[4*i+3] = b[3*i], b[3*i+1], b[3*i+2], 255
	}
	return p, nil
}

func (w *worn) each(do func(*image.RGBA)) {
	for _, p := range w.pages {
		do(p)
	}
}

// file writes the pages.
func (w *worn) file(m Made, wear string) (Made, error) {
	out := m
	if w.format == "" {
		w.format = oneOf(w.draw, "pdf", "pdf", "jpg", "png")
	}
	if len(w.pages) > 1 {
		w.format = "pdf"
	}
	var err error
	switch w.format {
	case "jpg":
		out.Data, err = w.jpeg(w.pages[0])
		out.Data = headed(out.Data, w.says, w.turned)
	case "png":
		var b bytes.Buffer
		err = png.Encode(&b, w.flat(w.pages[0]))
		out.Data = b.Bytes()
	default:
		out.Data, err = w.pdf()
	}
	if err != nil {
		return Made{}, fmt.Errorf("wear %q of %s: %w", wear, m.Name, err)
	}
	out.Truth.Format = map[string]string{"jpg": "jpg", "png": "png", "pdf": "pdf-scan"}[w.format]
	out.Name = strings.TrimSuffix(m.Name, ".pdf") + "-" + strings.ReplaceAll(wear, " ", "-") + "." + w.format
	out.Truth.File = out.Name
	return out, nil
}

// flat is the picture as the file holds it: grey, in two tones, or in colours.
func (w *worn) flat(p *image.RGBA) image.Image {
	if !w.grey {
		return p
	}
	return grayOf(p)
}

func (w *worn) jpeg(p *image.RGBA) ([]byte, error) {
	var b bytes.Buffer
	err := jpeg.Encode(&b, w.flat(p), &jpeg.Options{Quality: w.quality})
	return b.Bytes(), err
}

func (w *worn) pdf() ([]byte, error) {
	doc := fpdf.New("P", "pt", "A4", "")
	doc.SetCreationDate(made)
	doc.SetModificationDate(made)
	doc.SetCatalogSort(true)
	for i, p := range w.pages {
		data, err := w.jpeg(p)
		if err != nil {
			return nil, err
		}
		size := fpdf.SizeType{Wd: float64(p.Rect.Dx()) * 72 / float64(w.says), Ht: float64(p.Rect.Dy()) * 72 / float64(w.says)}
		doc.AddPageFormat("P", size)
		name := fmt.Sprintf("page%d", i)
		doc.RegisterImageOptionsReader(name, fpdf.ImageOptions{ImageType: "JPG"}, bytes.NewReader(data))
		doc.ImageOptions(name, 0, 0, size.Wd, size.Ht, false, fpdf.ImageOptions{ImageType: "JPG"}, 0, "")
	}
	var b bytes.Buffer
	err := doc.Output(&b)
	return b.Bytes(), err
}

// headed puts density and orientation into the head of a JPEG: JFIF 1.02, Exif 2.32.
func headed(data []byte, dpi, orientation int) []byte {
	out := bytes.Clone(data[:2])
	if dpi > 0 {
		out = append(out, 0xff, 0xe0, 0, 16, 'J', 'F', 'I', 'F', 0, 1, 2, 1, byte(dpi>>8), byte(dpi), byte(dpi>>8), byte(dpi), 0, 0)
	}
	if orientation > 0 {
		out = append(out, 0xff, 0xe1, 0, 34, 'E', 'x', 'i', 'f', 0, 0, 'M', 'M', 0, 42, 0, 0, 0, 8, 0, 1,
			0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, byte(orientation), 0, 0, 0, 0, 0, 0)
	}
	return append(out, data[2:]...)
}

// blend moves the colour of a dot towards c, by a share of 1.
func blend(p *image.RGBA, x, y int, c color.RGBA, share float64) {
	if !(image.Point{X: x, Y: y}).In(p.Rect) {
		return
	}
	i := p.PixOffset(x, y)
	for k, v := range [3]uint8{c.R, c.G, c.B} {
		// As ink on paper: it can only take light away.
		p.Pix[i+k] = uint8(float64(p.Pix[i+k]) * (1 - share + share*float64(v)/255))
	}
}
