package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"math/rand/v2"

	"codeberg.org/go-pdf/fpdf"
)

// A look says what scanning or photographing does to a page.
type look struct {
	turn    float64 // degrees, to the right
	noise   int     // largest change of a pixel's grey
	shade   float64 // how much darker the right edge is: 0 not at all, 1 black
	desk    int     // pixels of a dark desk around the page
	quality int     // of the JPEG
	seed    uint64
}

// photograph returns the page, a PNG, as a grey JPEG that looks scanned or photographed.
func photograph(page []byte, l look) ([]byte, error) {
	src, err := png.Decode(bytes.NewReader(page))
	if err != nil {
		return nil, err
	}
	size := src.Bounds().Size()
	grey := image.NewGray(image.Rect(0, 0, size.X+2*l.desk, size.Y+2*l.desk))
	sin, cos := math.Sincos(l.turn * math.Pi / 180)
	midX, midY := float64(grey.Rect.Dx())/2, float64(grey.Rect.Dy())/2
	dice := rand.New(rand.NewPCG(l.seed, 7))
	for y := range grey.Rect.Dy() {
		for x := range grey.Rect.Dx() {
			dx, dy := float64(x)-midX, float64(y)-midY
			v := sample(src, dx*cos+dy*sin+float64(size.X)/2, dy*cos-dx*sin+float64(size.Y)/2, l.desk > 0)
			v = 25 + v*0.86
			v *= 1 - l.shade*float64(x)/float64(grey.Rect.Dx())
			v += float64(dice.IntN(2*l.noise+1) - l.noise)
			grey.SetGray(x, y, color.Gray{Y: uint8(max(0, min(255, v)))})
		}
	}
	var b bytes.Buffer
	err = jpeg.Encode(&b, grey, &jpeg.Options{Quality: l.quality})
	return b.Bytes(), err
}

// sample returns the grey at a point between pixels; beyond the page lies paper, or a dark desk.
func sample(src image.Image, x, y float64, desk bool) float64 {
	x0, y0 := int(math.Floor(x)), int(math.Floor(y))
	fx, fy := x-float64(x0), y-float64(y0)
	at := func(x, y int) float64 {
		if !(image.Point{X: x, Y: y}).In(src.Bounds()) {
			if desk {
				return 60
			}
			return 252
		}
		return float64(color.GrayModel.Convert(src.At(x, y)).(color.Gray).Y)
	}
	return (at(x0, y0)*(1-fx)+at(x0+1, y0)*fx)*(1-fy) + (at(x0, y0+1)*(1-fx)+at(x0+1, y0+1)*fx)*fy
}

// bind puts pictures into a PDF, one a page of A4.
func bind(pictures ...[]byte) ([]byte, error) {
	p := fpdf.New("P", "mm", "A4", "")
	p.SetCatalogSort(true)
	p.SetProducer("", false)
	for i, picture := range pictures {
		p.AddPage()
		name := fmt.Sprint(i)
		p.RegisterImageOptionsReader(name, fpdf.ImageOptions{ImageType: "JPG"}, bytes.NewReader(picture))
		p.ImageOptions(name, 0, 0, 210, 297, false, fpdf.ImageOptions{ImageType: "JPG"}, 0, "")
	}
	return output(p)
}
