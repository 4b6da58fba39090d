package page

import (
	"image"
	"image/color"
	"math"
	"testing"
)

// onTable draws a written sheet with the corners given on a chequered table, half of it
// in a soft shadow.
func onTable(c corners) *image.RGBA {
	m, w, h := c.from(1)
	m = m.inverse()
	img := image.NewRGBA(image.Rect(0, 0, 900, 1200))
	for y := range 1200 {
		for x := range 900 {
			v := color.RGBA{R: 150, G: 60, B: 60, A: 255}
			if (x/40+y/40)%2 == 0 {
				v = color.RGBA{R: 190, G: 180, B: 165, A: 255}
			}
			if u, t := m.at(float64(x), float64(y)); u >= 0 && t >= 0 && u < float64(w) && t < float64(h) {
				v = color.RGBA{R: 245, G: 240, B: 230, A: 255}
				if int(t)%40 < 10 && int(u)%7 < 4 && u > 60 && u < float64(w)-60 {
					v = color.RGBA{R: 30, G: 30, B: 40, A: 255}
				}
			}
			light := 0.6 + 0.4/(1+math.Exp(-float64(x+y-1000)/25))
			img.SetRGBA(x, y, color.RGBA{R: uint8(float64(v.R) * light), G: uint8(float64(v.G) * light), B: uint8(float64(v.B) * light), A: 255})
		}
	}
	return img
}

func TestSheetOnATable(t *testing.T) {
	want := corners{{120, 130}, {780, 110}, {820, 1080}, {90, 1060}}
	got, found := sheetIn(onTable(want))
	if !found {
		t.Fatal("no sheet was found")
	}
	for i := range want {
		if math.Hypot(got[i][0]-want[i][0], got[i][1]-want[i][1]) > 12 {
			t.Errorf("corner %d at %v, want %v within 12 dots", i, got[i], want[i])
		}
	}
	whole := image.NewGray(image.Rect(0, 0, 900, 1200))
	for i := range whole.Pix {
		whole.Pix[i] = 240
	}
	if c, found := sheetIn(whole); found {
		t.Errorf("a sheet was found at %v where all is paper", c)
	}
}

func TestCornersLeadToTheSheet(t *testing.T) {
	c := corners{{120, 130}, {780, 110}, {820, 1080}, {90, 1060}}
	m, w, h := c.from(0.5)
	for i, p := range [4][2]float64{{0, 0}, {float64(w), 0}, {float64(w), float64(h)}, {0, float64(h)}} {
		if x, y := m.at(p[0], p[1]); math.Hypot(x-c[i][0], y-c[i][1]) > 3 {
			t.Errorf("corner %d leads to (%v, %v), want %v", i, x, y, c[i])
		}
	}
}

func TestHeightOfLetters(t *testing.T) {
	g := image.NewGray(image.Rect(0, 0, 600, 600))
	for i := range g.Pix {
		g.Pix[i] = 255
	}
	for y := 20; y < 580; y++ {
		for x := 20; x < 580; x++ {
			if y%50 < 24 && x%20 < 14 || x == 590 {
				g.Pix[y*g.Stride+x] = 0
			}
		}
	}
	if got := letterHeight(g); got != 24 {
		t.Errorf("the letters are %d high, want 24", got)
	}
	if f := toBest(17); f != 1 {
		t.Errorf("letters of the best height are to grow by %v", f)
	}
	if f := toBest(letterHeight(image.NewGray(image.Rect(0, 0, 50, 50)))); f != 1 {
		t.Errorf("letters that are not there are to grow by %v", f)
	}
}
