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

// cleaned returns a picture with white paper and dark ink.
func cleaned(img image.Image) *image.Gray { return unspeckled(evened(grey(img))) }

// straight returns a picture whose lines are level, and by how much they fell to the right
// before: hundredths of a dot in 100 dots.
func straight(g *image.Gray) (*image.Gray, int) {
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
	sorted := slices.Sorted(slices.Values(light))
	if 10*sorted[len(sorted)/2] < 6*sorted[len(sorted)-1-len(sorted)/50] && lightOnDark(g) {
		return g // more of it is dark than light, and not because it lies in a shadow
	}
	out := image.NewGray(image.Rect(0, 0, w, h))
	shares := make([]uint16, w)
	var count [1024]int
	under := groundOf(g)
	share := func(y int) {
		for x := range w {
			paper := lightAt(light, cols, rows, x, y)
			if field := float64(under.at(x, y)); field > stainFrom*paper && field < stainTo*paper {
				paper = field
			}
			shares[x] = uint16(min(1023, float64(g.Pix[y*g.Stride+x])*512/paper))
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
	for _, f := range darkFields(g, under, sorted[len(sorted)*3/4]) {
		f.invert(g, out)
	}
	return out
}

// lightOnDark says whether in more squares what is written is lighter than what is about it.
func lightOnDark(g *image.Gray) bool {
	w, h := g.Rect.Dx(), g.Rect.Dy()
	light, dark := 0, 0
	for top := 0; top+lightBlock <= h; top += lightBlock {
		for left := 0; left+lightBlock <= w; left += lightBlock {
			var count [256]int
			for y := top; y < top+lightBlock; y += 2 {
				for x := left; x < left+lightBlock; x += 2 {
					count[g.Pix[y*g.Stride+x]]++
				}
			}
			all := lightBlock * lightBlock / 4
			low, middle, high := darkest(count, all/33), darkest(count, all/2), darkest(count, all-all/33)
			switch {
			case high-low < 40:
			case middle-low < high-middle:
				light++
			default:
				dark++
			}
		}
	}
	return light > dark
}

// darkest returns the grey below which n pixels are.
func darkest(count [256]int, n int) int {
	for v, c := range count {
		if n -= c; n < 0 {
			return v
		}
	}
	return 255
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

// ink is the dark dots of a picture, about as many to its width whatever its size: how far
// each stands right of the middle, and from the top.
type ink struct {
	dots          [][2]float64
	width, height int
}

// inkOf returns the ink of a picture; none where there is too little to measure lines by,
// or more than letters have.
func inkOf(g *image.Gray) ink {
	w, h := g.Rect.Dx(), g.Rect.Dy()
	step := max(1, w/800)
	k := ink{width: w / step, height: h / step}
	for y := 0; y < h; y += step {
		for x := 0; x < w; x += step {
			if g.Pix[y*g.Stride+x] < 128 {
				k.dots = append(k.dots, [2]float64{float64(x-w/2) / float64(step), float64(y) / float64(step)})
			}
		}
	}
	if len(k.dots) < 200 || len(k.dots) > k.width*k.height/4 {
		k.dots = nil
	}
	return k
}

// edge measures how unlike the ink of each row is to that of the next one, if rows fall to
// the right by slope.
func (k ink) edge(slope float64) float64 {
	margin := int(mostTilt*float64(k.width)/2) + 2
	rows := make([]float64, k.height+2*margin)
	for _, d := range k.dots {
		rows[int(d[1]-slope*d[0])+margin]++
	}
	sum := 0.0
	for i := 1; i < len(rows); i++ {
		sum += (rows[i] - rows[i-1]) * (rows[i] - rows[i-1])
	}
	return sum
}

// sidelong says whether the lines of a page of that many dots to the inch run up or down:
// between letters of one line there is less white than between lines.
func sidelong(g *image.Gray, dpi int) bool {
	w, h := g.Rect.Dx(), g.Rect.Dy()
	short, long := max(6, dpi*6/100), max(40, dpi/2)
	wide := func(lines, length, line, along int) (share float64, all int) {
		gaps := 0
		for i := 0; i < lines; i += 2 {
			last := -1
			for k, at := 0, i*line; k < length; k, at = k+1, at+along {
				if g.Pix[at] >= 128 {
					continue
				}
				if gap := k - last - 1; last >= 0 && gap > 0 && gap < long {
					all++
					if gap > short {
						gaps++
					}
				}
				last = k
			}
		}
		return float64(gaps) / float64(max(1, all)), all
	}
	across, n := wide(h, w, g.Stride, 1)
	down, _ := wide(w, h, 1, g.Stride)
	return n > 400 && across > 1.15*down
}

// tiltOf measures by how much the lines of a page fall to the right. Where they are level
// the ink of a row of pixels is most unlike that of the next row.
func tiltOf(g *image.Gray) int {
	k := inkOf(g)
	if k.dots == nil {
		return 0
	}
	level := k.edge(0)
	best, most := 0.0, level
	for _, pass := range []struct{ reach, step float64 }{{mostTilt, 0.002}, {0.002, 0.0004}} {
		middle := best
		for s := middle - pass.reach; s <= middle+pass.reach; s += pass.step {
			if math.Abs(s) > mostTilt {
				continue
			}
			if e := k.edge(s); e > most {
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
