package page

import (
	"image"
	"image/color"
	"math"
	"strconv"
	"testing"
)

// ruled draws lines of short strokes, as text, that fall by the slope given, on paper whose
// light falls off to the right, with a speck of dust in between.
func ruled(slope float64) *image.Gray {
	g := image.NewGray(image.Rect(0, 0, 800, 1000))
	for y := range 1000 {
		for x := range 800 {
			at := float64(y) - slope*float64(x-400)
			v := 230 - float64(x)/8
			if line := math.Mod(at, 40); at > 100 && at < 900 && line < 12 && x > 80 && x < 700 && x/6%2 == 0 {
				v /= 4
			}
			g.SetGray(x, y, color.Gray{Y: uint8(v)})
		}
	}
	g.SetGray(20, 20, color.Gray{Y: 10})
	return g
}

func TestPicturesAreSetLevel(t *testing.T) {
	for _, slope := range []float64{-0.035, -0.01, 0, 0.012, 0.035} {
		got, tilt := straight(cleaned(ruled(slope)))
		if want := slope * 10000; math.Abs(float64(tilt)-want) > 12 {
			t.Errorf("slope %v: tilt %d, want %v within 12", slope, tilt, want)
		}
		if again := tiltOf(got); again > 12 || again < -12 {
			t.Errorf("slope %v: the levelled picture still has a tilt of %d", slope, again)
		}
		if got.GrayAt(20, 20).Y != 255 || got.GrayAt(780, 980).Y < 240 {
			t.Errorf("slope %v: dust is %d, paper in the shade is %d; want white", slope, got.GrayAt(20, 20).Y, got.GrayAt(780, 980).Y)
		}
	}
}

// TestLightOnDarkIsLeft: what is written light on dark would be wiped out as paper.
func TestLightOnDarkIsLeft(t *testing.T) {
	g := image.NewGray(image.Rect(0, 0, 400, 400))
	for i := range g.Pix {
		g.Pix[i] = 70
	}
	for x := 100; x < 300; x++ {
		for y := 50; y < 60; y++ {
			g.SetGray(x, y, color.Gray{Y: 250})
		}
	}
	if got := evened(g); got.GrayAt(200, 55).Y < 200 || got.GrayAt(200, 200).Y > 100 {
		t.Errorf("letters are %d on %d, want light on dark as before", got.GrayAt(200, 55).Y, got.GrayAt(200, 200).Y)
	}
}

// A word in a picture that was turned and set level has its box where the page shows it,
// and another where it stands once the page is upright.
func TestLayOfATurnedPicture(t *testing.T) {
	p := &Page{Width: 60000, Height: 80000}
	// The page was turned clockwise by a quarter to be read: what stands at its left foot
	// comes to stand at the left top.
	pic := picture{width: 800, height: 600, back: scaling(1/600.0, 1/800.0).after(unturned(1, 800, 600))}
	l := layOf(pic, p, 0)
	if got, want := l.shown([4]int{10, 20, 110, 40}), [4]int{2000, 69000, 4000, 79000}; got != want {
		t.Errorf("shown at %v, want %v", got, want)
	}
	if got, want := l.laid([4]float64{10, 20, 110, 40}), [4]int{1000, 2000, 11000, 4000}; got != want {
		t.Errorf("laid at %v, want %v", got, want)
	}
	if got, want := l.relaid([4]int{2000, 69000, 4000, 79000}), [4]int{1000, 2000, 11000, 4000}; got != want {
		t.Errorf("laid again at %v, want %v", got, want)
	}
	if l = layOf(pic, p, 200); l.laid([4]float64{700, 300, 720, 310})[1] >= 30000 {
		t.Errorf("a word at the right of lines that fall to the right must rise, it is at %v", l.laid([4]float64{700, 300, 720, 310}))
	}
}

// Whichever way a page was turned, and askew besides, the way back leads to where it was.
func TestWaysLeadBack(t *testing.T) {
	for quarters := range 4 {
		w, h := 300, 200
		if quarters%2 == 1 {
			w, h = h, w
		}
		m := unturned(quarters, w, h).after(untilted(300, w, h))
		x, y := m.inverse().at(m.at(10, 20))
		if math.Abs(x-10) > 1e-6 || math.Abs(y-20) > 1e-6 {
			t.Errorf("%d quarters: (10, 20) came back as (%v, %v)", quarters, x, y)
		}
	}
	mark := image.NewGray(image.Rect(0, 0, 300, 200))
	mark.SetGray(7, 5, color.Gray{Y: 255})
	for quarters := range 4 {
		to := turned(mark, quarters).(*image.Gray)
		for y := range to.Rect.Dy() {
			for x := range to.Rect.Dx() {
				if to.GrayAt(x, y).Y == 0 {
					continue
				}
				x0, y0 := unturned(quarters, to.Rect.Dx(), to.Rect.Dy()).at(float64(x)+0.5, float64(y)+0.5)
				if int(x0) != 7 || int(y0) != 5 {
					t.Errorf("%d quarters: the mark came from (%v, %v), want (7, 5)", quarters, x0, y0)
				}
			}
		}
	}
}

// Lines that run down the page are told from lines that run across, rules or none.
func TestSidelongLines(t *testing.T) {
	for _, slope := range []float64{-0.03, 0, 0.03} {
		g := cleaned(ruled(slope))
		if sidelong(g, 100) {
			t.Errorf("slope %v: lines that run across are taken to run down", slope)
		}
		if !sidelong(turned(g, 1).(*image.Gray), 100) {
			t.Errorf("slope %v: lines that run down are taken to run across", slope)
		}
	}
}

func TestSlantOfLines(t *testing.T) {
	out := tsvHead
	for line := range 5 {
		for word := range 4 {
			x, y := 100+word*150, 100+line*40+word*3
			out += "\n5\t1\t1\t1\t" + string(rune('1'+line)) + "\t" + string(rune('1'+word)) + "\t" + strconv.Itoa(x) + "\t" + strconv.Itoa(y) + "\t100\t20\t96\tWord"
		}
	}
	if got := slantOf(out, 800); got != 200 {
		t.Errorf("slant %d, want 200: the words of each line fall by 3 in 150", got)
	}
	if got := slantOf(tsvHead, 800); got != 0 {
		t.Errorf("slant %d of no lines, want 0", got)
	}
}

func TestTongueStandsOut(t *testing.T) {
	all := []string{"eng", "deu", "fra"}
	say := func(words ...string) (out []Word) {
		for _, w := range words {
			out = append(out, Word{Text: w})
		}
		return out
	}
	if got := tongueOf(say("Frau", "Kern", "hat", "am", "Lehrgang", "der", "Akademie", "teilgenommen"), all); got != "deu" {
		t.Errorf("got %q, want deu", got)
	}
	if got := tongueOf(say("the", "of", "und", "der", "am"), all); got != "" {
		t.Errorf("got %q for a page in two languages, want none", got)
	}
}
