package page

import (
	"image"
	"math"
	"slices"
)

// A picture is made ready for recognition in three steps: what is uneven in its light is
// taken out, its ink is made dark and its paper white, and its lines are set level. Common
// practice, no source; each step was kept because more values of worn scans came out right.

const (
	lightBlock = 40   // pixels along the side of a square whose paper has one light
	paperShare = 0.82 // of the paper's light, from which on a pixel is paper
	inkBelow   = 358  // parts of 512 of the paper's light, below which a pixel is ink
	mostTilt   = 0.07 // slope of lines that is looked for, 4 degrees
	leastTilt  = 15   // hundredths of a point in 100 points, from which on lines are set level
)

// grey returns img in grey, without a copy where it is.
func grey(img image.Image) *image.Gray {
	if g, ok := img.(*image.Gray); ok && g.Rect.Min == (image.Point{}) {
		return g
	}
	b := img.Bounds()
	g := image.NewGray(image.Rect(0, 0, b.Dx(), b.Dy()))
	for y := range b.Dy() {
		for x := range b.Dx() {
			g.Set(x, y, img.At(b.Min.X+x, b.Min.Y+y))
		}
	}
	return g
}

// cleaned returns a picture with white paper and dark ink, whose lines are level, and by
// how much they fell to the right before: hundredths of a point in 100 points.
func cleaned(img image.Image) (*image.Gray, int) {
	g := unspeckled(evened(grey(img)))
	tilt := tiltOf(g)
	if tilt > -leastTilt && tilt < leastTilt {
		return g, 0
	}
	return levelled(g, tilt), tilt
}

// evened divides each pixel by the light of the paper about it, and stretches what is
// left from the ink to the paper over all greys.
func evened(g *image.Gray) *image.Gray {
	w, h := g.Rect.Dx(), g.Rect.Dy()
	cols, rows := (w+lightBlock-1)/lightBlock, (h+lightBlock-1)/lightBlock
	if cols < 2 || rows < 2 {
		return g
	}
	light := paperLight(g, cols, rows)
	if sorted := slices.Sorted(slices.Values(light)); 10*sorted[len(sorted)/2] < 6*sorted[len(sorted)-1-len(sorted)/50] {
		return g // more of it is dark than light: what is written stands light on dark
	}
	out := image.NewGray(image.Rect(0, 0, w, h))
	shares := make([]uint16, w)
	var count [1024]int
	share := func(y int) {
		for x := range w {
			shares[x] = uint16(min(1023, float64(g.Pix[y*g.Stride+x])*512/lightAt(light, cols, rows, x, y)))
		}
	}
	for y := 0; y < h; y += 3 {
		share(y)
		for _, s := range shares {
			count[s]++
		}
	}
	ink := inkLevel(count[:])
	paper := paperShare * 512
	for y := range h {
		share(y)
		for x, s := range shares {
			out.Pix[y*out.Stride+x] = uint8(max(0, min(255, (float64(s)-ink)*255/(paper-ink))))
		}
	}
	return out
}

// inkLevel returns the share of light from which down a pixel is ink: that of the darker
// half of all that is not paper, so that thin letters become as dark as thick ones; and not
// above half of the light, so that an empty page stays empty.
func inkLevel(count []int) float64 {
	dark := 0
	for _, n := range count[:inkBelow] {
		dark += n
	}
	sum := 0
	for s, n := range count[:inkBelow] {
		if sum += n; sum*2 > dark {
			return min(float64(s), 256)
		}
	}
	return 0
}

// paperLight measures the light of the paper in each square: what nine in ten of its pixels
// stay below, and at least half of the light of the whole, for what is printed dark is no shadow.
func paperLight(g *image.Gray, cols, rows int) []float64 {
	light := make([]float64, cols*rows)
	var all []float64
	for r := range rows {
		for c := range cols {
			var count [256]int
			n := 0
			for y := r * lightBlock; y < min((r+1)*lightBlock, g.Rect.Dy()); y += 2 {
				for x := c * lightBlock; x < min((c+1)*lightBlock, g.Rect.Dx()); x += 2 {
					count[g.Pix[y*g.Stride+x]]++
					n++
				}
			}
			sum := 0
			for v := 255; v >= 0; v-- {
				if sum += count[v]; sum*5 > n {
					light[r*cols+c] = float64(v)
					break
				}
			}
			all = append(all, light[r*cols+c])
		}
	}
	slices.Sort(all)
	least := max(8, all[len(all)*3/4]/2)
	for i := range light {
		light[i] = max(light[i], least)
	}
	return light
}

// lightAt returns the light between the middles of the four squares about a pixel.
func lightAt(light []float64, cols, rows, x, y int) float64 {
	fx, fy := float64(x)/lightBlock-0.5, float64(y)/lightBlock-0.5
	c, r := min(max(int(fx), 0), cols-2), min(max(int(fy), 0), rows-2)
	dx, dy := min(max(fx-float64(c), 0), 1), min(max(fy-float64(r), 0), 1)
	at := light[r*cols+c:]
	below := light[(r+1)*cols+c:]
	return (at[0]*(1-dx)+at[1]*dx)*(1-dy) + (below[0]*(1-dx)+below[1]*dx)*dy
}

// unspeckled takes out dark pixels that stand alone.
func unspeckled(g *image.Gray) *image.Gray {
	w, h := g.Rect.Dx(), g.Rect.Dy()
	for y := 1; y < h-1; y++ {
		for x := 1; x < w-1; x++ {
			i := y*g.Stride + x
			if g.Pix[i] >= 200 {
				continue
			}
			alone := true
			for _, o := range [8]int{-g.Stride - 1, -g.Stride, -g.Stride + 1, -1, 1, g.Stride - 1, g.Stride, g.Stride + 1} {
				alone = alone && g.Pix[i+o] >= 200
			}
			if alone {
				g.Pix[i] = 255
			}
		}
	}
	return g
}

// tiltOf measures by how much the lines of a page fall to the right. Where they are level
// the ink of a row of pixels is most unlike that of the next row.
func tiltOf(g *image.Gray) int {
	w, h := g.Rect.Dx(), g.Rect.Dy()
	step := max(1, w/800)
	var dots [][2]float64
	for y := 0; y < h; y += step {
		for x := 0; x < w; x += step {
			if g.Pix[y*g.Stride+x] < 128 {
				dots = append(dots, [2]float64{float64(x-w/2) / float64(step), float64(y) / float64(step)})
			}
		}
	}
	if len(dots) < 200 || len(dots) > w*h/step/step/4 {
		return 0
	}
	height := h / step
	edge := func(slope float64) float64 {
		margin := int(mostTilt*float64(w/step)/2) + 2
		rows := make([]float64, height+2*margin)
		for _, d := range dots {
			rows[int(d[1]-slope*d[0])+margin]++
		}
		sum := 0.0
		for i := 1; i < len(rows); i++ {
			sum += (rows[i] - rows[i-1]) * (rows[i] - rows[i-1])
		}
		return sum
	}
	level := edge(0)
	best, most := 0.0, level
	for _, pass := range []struct{ reach, step float64 }{{mostTilt, 0.002}, {0.002, 0.0004}} {
		middle := best
		for s := middle - pass.reach; s <= middle+pass.reach; s += pass.step {
			if math.Abs(s) > mostTilt {
				continue
			}
			if e := edge(s); e > most {
				best, most = s, e
			}
		}
	}
	if most < level*1.05 {
		return 0
	}
	return int(math.Round(best * 10000))
}

// levelled turns a picture about its middle by the tilt given; what comes in from outside is white.
func levelled(g *image.Gray, tilt int) *image.Gray {
	w, h := g.Rect.Dx(), g.Rect.Dy()
	sin, cos := math.Sincos(math.Atan(float64(tilt) / 10000))
	out := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		dy := float64(y) - float64(h)/2
		for x := range w {
			dx := float64(x) - float64(w)/2
			out.Pix[y*out.Stride+x] = between(g, cos*dx-sin*dy+float64(w)/2, sin*dx+cos*dy+float64(h)/2)
		}
	}
	return out
}

// between returns the grey between four pixels.
func between(g *image.Gray, x, y float64) uint8 {
	i, j := int(math.Floor(x)), int(math.Floor(y))
	if i < 0 || j < 0 || i+1 >= g.Rect.Dx() || j+1 >= g.Rect.Dy() {
		return 255
	}
	fx, fy := x-float64(i), y-float64(j)
	p := g.Pix[j*g.Stride+i:]
	a, b, c, d := float64(p[0]), float64(p[1]), float64(p[g.Stride]), float64(p[g.Stride+1])
	return uint8((a*(1-fx)+b*fx)*(1-fy) + (c*(1-fx)+d*fx)*fy + 0.5)
}

// tilted moves a box of the levelled picture to where it stands in the picture itself. Its
// size stays, so that rows do not grow into each other.
func tilted(b [4]int, width, height, tilt int) [4]int {
	x, y := (b[0]+b[2])/2-width/2, (b[1]+b[3])/2-height/2
	dx, dy := -y*tilt/10000, x*tilt/10000
	return [4]int{b[0] + dx, b[1] + dy, b[2] + dx, b[3] + dy}
}

// Level returns the box as if the lines of the page were level: for a page without tilt
// the box itself.
func (p Page) Level(b [4]int) [4]int { return tilted(b, p.Width, p.Height, -p.Tilt) }

// Tilted undoes [Page.Level].
func (p Page) Tilted(b [4]int) [4]int { return tilted(b, p.Width, p.Height, p.Tilt) }
