package extracttest

import (
	"image"
	"math"
)

// camera is how a telephone sees a sheet on a table.
type camera struct {
	to      [9]float64 // from a dot of the photograph to the sheet, whose sides are 0 to 1
	curl    [2]float64 // by how much the sheet is bent, and where
	shade   [4]float64 // the edge of a shadow: a, b, c of a·x + b·y < c, and its softness
	dark    float64    // share of light within the shadow
	fall    [2]float64 // light from one side
	table   int        // which table
	colours [3]float64 // of the light
}

// photo photographs the first page: 8 to 12 megapixels, at an angle, on a table.
func (w *worn) photo() {
	p := w.pages[0]
	size := [][2]int{{3264, 2448}, {4000, 3000}}[w.r.IntN(2)]
	wide, high := size[1], size[0]
	if p.Rect.Dx() > p.Rect.Dy() {
		wide, high = high, wide
	}
	c := w.camera(p, wide, high)
	out := image.NewRGBA(image.Rect(0, 0, wide, high))
	grain := 3 + w.r.IntN(8)
	for y := range high {
		for x := range wide {
			u, v := apply(c.to, float64(x), float64(y))
			v += c.curl[0] * math.Sin(math.Pi*(u+c.curl[1]))
			var at [3]float64
			if u >= 0 && u < 1 && v >= 0 && v < 1 {
				at = dot(p, u*float64(p.Rect.Dx()-1), v*float64(p.Rect.Dy()-1), [3]float64{245, 245, 245})
			} else {
				at = c.background(x, y, u, v, w)
			}
			light := c.light(float64(x)/float64(wide), float64(y)/float64(high))
			n := float64(w.r.IntN(2*grain+1) - grain)
			for k := range at {
				at[k] = at[k]*light*c.colours[k] + n
			}
			set(out, x, y, at)
		}
	}
	w.pages = []*image.RGBA{blurred(out)}
	w.format, w.says, w.quality = "jpg", 72, 78+w.r.IntN(14)
	if w.chance(50) {
		// The camera was held otherwise, and says so.
		w.turned = oneOf(w.draw, 3, 6, 8)
		w.turn(map[int]int{3: 2, 6: 3, 8: 1}[w.turned])
	}
}

// camera draws where the corners of the sheet come to lie, and the light.
func (w *worn) camera(p *image.RGBA, wide, high int) camera {
	fill := 0.78 + 0.16*w.r.Float64()
	sw, sh := float64(p.Rect.Dx()), float64(p.Rect.Dy())
	scale := fill * min(float64(wide)/sw, float64(high)/sh)
	mx, my := float64(wide)/2, float64(high)/2
	sin, cos := math.Sincos((w.r.Float64()*2 - 1) * 0.05)
	var corners [4][2]float64
	for i, at := range [4][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
		x, y := at[0]*sw/2*scale*(1-0.09*w.r.Float64()), at[1]*sh/2*scale*(1-0.07*w.r.Float64())
		corners[i] = [2]float64{mx + cos*x - sin*y, my + sin*x + cos*y}
	}
	angle := w.r.Float64() * 2 * math.Pi
	return camera{
		to:      inverted(square(corners)),
		curl:    [2]float64{(w.r.Float64()*2 - 1) * 0.012, w.r.Float64() * 0.4},
		shade:   [4]float64{math.Cos(angle), math.Sin(angle), (w.r.Float64() - 0.3) * 0.8, 0.02 + 0.06*w.r.Float64()},
		dark:    0.5 + 0.3*w.r.Float64(),
		fall:    [2]float64{(w.r.Float64()*2 - 1) * 0.2, (w.r.Float64()*2 - 1) * 0.2},
		table:   w.r.IntN(3),
		colours: [3]float64{0.95 + 0.05*w.r.Float64(), 0.93 + 0.05*w.r.Float64(), 0.82 + 0.14*w.r.Float64()},
	}
}

func (c camera) light(x, y float64) float64 {
	d := c.shade[0]*(x-0.5) + c.shade[1]*(y-0.5) - c.shade[2]*0.5
	in := 1 / (1 + math.Exp(-d/c.shade[3]*4))
	return (1 - in*(1-c.dark)) * (0.92 + c.fall[0]*(x-0.5) + c.fall[1]*(y-0.5))
}

// background is the table: wood, a dark plate, or a cloth with a pattern.
func (c camera) background(x, y int, u, v float64, w *worn) [3]float64 {
	near := 1.0
	if u > -0.02 && u < 1.02 && v > -0.02 && v < 1.02 {
		near = 0.7 // the sheet's own shadow
	}
	switch c.table {
	case 0:
		s := 20*math.Sin(float64(y)/37+3*math.Sin(float64(x)/900)) + 8*math.Sin(float64(y)/9)
		return [3]float64{(135 + s) * near, (95 + s*0.8) * near, (60 + s*0.5) * near}
	case 1:
		return [3]float64{48 * near, 50 * near, 55 * near}
	}
	if (x/120+y/120)%2 == 0 {
		return [3]float64{150 * near, 60 * near, 60 * near}
	}
	return [3]float64{205 * near, 195 * near, 180 * near}
}

// blurred takes the mean of neighbours, as a lens that is not quite in focus.
func blurred(p *image.RGBA) *image.RGBA {
	out := image.NewRGBA(p.Rect)
	copy(out.Pix, p.Pix)
	for y := 1; y < p.Rect.Dy()-1; y++ {
		for x := 1; x < p.Rect.Dx()-1; x++ {
			i := p.PixOffset(x, y)
			for k := i; k < i+3; k++ {
				sum := 4*int(p.Pix[k]) + 2*(int(p.Pix[k-4])+int(p.Pix[k+4])+int(p.Pix[k-p.Stride])+int(p.Pix[k+p.Stride])) +
					int(p.Pix[k-p.Stride-4]) + int(p.Pix[k-p.Stride+4]) + int(p.Pix[k+p.Stride-4]) + int(p.Pix[k+p.Stride+4])
				out.Pix[k] = uint8(sum / 16)
			}
		}
	}
	return out
}

// square is the projection of the square from (0, 0) to (1, 1) onto four corners, given
// clockwise from the first. Source: Heckbert, Fundamentals of Texture Mapping, 1989, section 2.2.3.
func square(c [4][2]float64) [9]float64 {
	sx := c[0][0] - c[1][0] + c[2][0] - c[3][0]
	sy := c[0][1] - c[1][1] + c[2][1] - c[3][1]
	dx1, dx2 := c[1][0]-c[2][0], c[3][0]-c[2][0]
	dy1, dy2 := c[1][1]-c[2][1], c[3][1]-c[2][1]
	den := dx1*dy2 - dx2*dy1
	g, h := (sx*dy2-dx2*sy)/den, (dx1*sy-sx*dy1)/den
	return [9]float64{
		c[1][0] - c[0][0] + g*c[1][0], c[3][0] - c[0][0] + h*c[3][0], c[0][0],
		c[1][1] - c[0][1] + g*c[1][1], c[3][1] - c[0][1] + h*c[3][1], c[0][1],
		g, h, 1,
	}
}

// inverted is the projection back, but for a factor.
func inverted(m [9]float64) [9]float64 {
	return [9]float64{
		m[4]*m[8] - m[5]*m[7], m[2]*m[7] - m[1]*m[8], m[1]*m[5] - m[2]*m[4],
		m[5]*m[6] - m[3]*m[8], m[0]*m[8] - m[2]*m[6], m[2]*m[3] - m[0]*m[5],
		m[3]*m[7] - m[4]*m[6], m[1]*m[6] - m[0]*m[7], m[0]*m[4] - m[1]*m[3],
	}
}

func apply(m [9]float64, x, y float64) (float64, float64) {
	d := m[6]*x + m[7]*y + m[8]
	return (m[0]*x + m[1]*y + m[2]) / d, (m[3]*x + m[4]*y + m[5]) / d
}
