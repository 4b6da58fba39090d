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
		got, tilt := cleaned(ruled(slope))
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

func TestLevelAndBack(t *testing.T) {
	p := Page{Width: 60000, Height: 80000, Tilt: 200}
	box := [4]int{50000, 30000, 52000, 31000}
	level := p.Level(box)
	if level[1] >= box[1] {
		t.Errorf("%v became %v: a box at the right of lines that fall to the right must rise", box, level)
	}
	back := p.Tilted(level)
	for i := range box {
		if d := back[i] - box[i]; d > 20 || d < -20 {
			t.Errorf("%v came back as %v, want it within a fifth of a point", box, back)
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
