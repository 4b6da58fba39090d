package extracttest

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"codeberg.org/go-pdf/fpdf"
)

// ErrNoScanner says that the program pdftoppm is not installed.
var ErrNoScanner = errors.New("pdftoppm not found: install poppler-utils")

// Scan returns m as if it had been printed and put on a scanner: a gray picture, turned
// by up to 2 degrees and noisy, as a PDF without text, or as a JPEG or PNG if it has one
// page. The truth stays, but for name and format. Equal arguments give equal bytes with
// one version of pdftoppm. The error is [ErrNoScanner] where that program is missing;
// a paper that is no PDF cannot be scanned.
func Scan(m Made, seed uint64) (Made, error) {
	if !strings.HasSuffix(m.Name, ".pdf") {
		return Made{}, fmt.Errorf("scan %s: want a PDF", m.Name)
	}
	program, err := exec.LookPath("pdftoppm")
	if err != nil {
		return Made{}, ErrNoScanner
	}
	d := draw{rand.New(rand.NewPCG(seed, 0x5ca))}
	dpi := oneOf(d, 150, 200, 200, 300)
	pages, err := printed(program, m.Data, dpi)
	if err != nil {
		return Made{}, fmt.Errorf("scan %s: %w", m.Name, err)
	}
	for i, p := range pages {
		pages[i] = wear(p, d)
	}
	format := oneOf(d, "pdf-scan", "pdf-scan", "jpg", "png")
	if len(pages) > 1 {
		format = "pdf-scan"
	}
	out := m
	out.Truth.Format = format
	out.Name = strings.TrimSuffix(m.Name, ".pdf") + "-scan." + map[string]string{"pdf-scan": "pdf", "jpg": "jpg", "png": "png"}[format]
	out.Truth.File = out.Name
	switch format {
	case "jpg":
		out.Data, err = encodeJPEG(pages[0], 60+d.r.IntN(30))
	case "png":
		var b bytes.Buffer
		err = png.Encode(&b, pages[0])
		out.Data = b.Bytes()
	default:
		out.Data, err = picturePDF(pages, dpi, d)
	}
	if err != nil {
		return Made{}, fmt.Errorf("scan %s: %w", m.Name, err)
	}
	return out, nil
}

// printed returns the pages of a PDF as gray pictures.
func printed(program string, pdf []byte, dpi int) ([]*image.Gray, error) {
	dir, err := os.MkdirTemp("", "scan")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir) // a folder of our own; what is left of it harms nobody
	cmd := exec.Command(program, "-gray", "-png", "-r", fmt.Sprint(dpi), "-", filepath.Join(dir, "page"))
	cmd.Stdin = bytes.NewReader(pdf)
	if out, err := cmd.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("pdftoppm: %w: %s", err, out)
	}
	names, err := filepath.Glob(filepath.Join(dir, "*.png"))
	if err != nil {
		return nil, err
	}
	slices.Sort(names)
	var pages []*image.Gray
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		decoded, err := png.Decode(bytes.NewReader(data))
		if err != nil {
			return nil, err
		}
		pages = append(pages, grayOf(decoded))
	}
	return pages, nil
}

func grayOf(from image.Image) *image.Gray {
	if g, ok := from.(*image.Gray); ok {
		return g
	}
	g := image.NewGray(from.Bounds())
	for y := g.Rect.Min.Y; y < g.Rect.Max.Y; y++ {
		for x := g.Rect.Min.X; x < g.Rect.Max.X; x++ {
			g.Set(x, y, from.At(x, y))
		}
	}
	return g
}

// wear turns a page by up to 2 degrees about its middle, fades it and adds noise.
func wear(p *image.Gray, d draw) *image.Gray {
	angle := (d.r.Float64()*4 - 2) * math.Pi / 180
	if d.chance(40) {
		angle /= 5
	}
	sin, cos := math.Sincos(angle)
	w, h := p.Rect.Dx(), p.Rect.Dy()
	noise := 4 + d.r.IntN(22)
	white := 225 + d.r.IntN(30)
	lens := drawLens(d, h)
	out := image.NewGray(p.Rect)
	for y := range h {
		for x := range w {
			dx, dy := lens.bend(float64(x)-float64(w)/2, float64(y)-float64(h)/2)
			v := sample(p, cos*dx+sin*dy+float64(w)/2, cos*dy-sin*dx+float64(h)/2)
			v = v*float64(white)/255*lens.light(x, y, w, h) + float64(d.r.IntN(2*noise+1)-noise)
			if d.r.IntN(9000) == 0 {
				v = 60 // a speck of dust
			}
			out.SetGray(x, y, color.Gray{Y: uint8(max(0, min(255, v)))})
		}
	}
	return out
}

// sample returns the gray between the four dots about (x, y); outside is white.
func sample(p *image.Gray, x, y float64) float64 {
	x0, y0 := math.Floor(x), math.Floor(y)
	at := func(i, j int) float64 {
		if !(image.Point{X: i, Y: j}).In(p.Rect) {
			return 255
		}
		return float64(p.GrayAt(i, j).Y)
	}
	i, j, fx, fy := int(x0), int(y0), x-x0, y-y0
	return (at(i, j)*(1-fx)+at(i+1, j)*fx)*(1-fy) + (at(i, j+1)*(1-fx)+at(i+1, j+1)*fx)*fy
}

func encodeJPEG(p *image.Gray, quality int) ([]byte, error) {
	var b bytes.Buffer
	err := jpeg.Encode(&b, p, &jpeg.Options{Quality: quality})
	return b.Bytes(), err
}

// picturePDF puts each picture on a page of its own size.
func picturePDF(pages []*image.Gray, dpi int, d draw) ([]byte, error) {
	doc := fpdf.New("P", "pt", "A4", "")
	doc.SetCreationDate(made)
	doc.SetModificationDate(made)
	doc.SetCatalogSort(true)
	for i, p := range pages {
		data, err := encodeJPEG(p, 60+d.r.IntN(30))
		if err != nil {
			return nil, err
		}
		size := fpdf.SizeType{Wd: float64(p.Rect.Dx()) * 72 / float64(dpi), Ht: float64(p.Rect.Dy()) * 72 / float64(dpi)}
		doc.AddPageFormat("P", size)
		name := fmt.Sprintf("page%d", i)
		doc.RegisterImageOptionsReader(name, fpdf.ImageOptions{ImageType: "JPG"}, bytes.NewReader(data))
		doc.ImageOptions(name, 0, 0, size.Wd, size.Ht, false, fpdf.ImageOptions{ImageType: "JPG"}, 0, "")
	}
	var b bytes.Buffer
	err := doc.Output(&b)
	return b.Bytes(), err
}
