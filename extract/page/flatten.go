package page

import (
	"image"
	"math"
)

// A sheet of paper in a photograph is found on a small copy of it: what lies about the
// middle and changes nowhere at once, but for what is written on it, is paper. Common
// practice, no source.

const (
	smallSide = 320  // of the copy, its longer side in dots
	edgeStep  = 0.07 // share of light that changes from dot to dot at the edge of a sheet, not in a shadow
	leastPage = 0.15 // share of the photograph that a sheet covers at least
	mostPage  = 0.97 // from here on there is nothing about the sheet
)

// corners are those of a sheet in a picture, clockwise from the first letter's.
type corners [4][2]float64

// sheetIn finds the sheet that a photograph shows on a table. found is false where the
// whole picture is the sheet, or no sheet stands out.
func sheetIn(img image.Image) (c corners, found bool) {
	small, step := copyOf(img)
	small = closed(closed(small, 3, true), 3, false)
	area := small.flood()
	if area == nil {
		return c, false
	}
	if c, found = small.around(area); found {
		c, found = small.wholeSheet(c, area)
	}
	for i := range c {
		for k := range c[i] {
			c[i][k] *= step
		}
	}
	return c, found
}

// shades is a small picture: light and two shares of colour.
type shades struct {
	w, h  int
	light []float64
	red   []float64 // of all light
	blue  []float64
}

// copyOf makes the small copy, and says how many dots of img one of it stands for.
func copyOf(img image.Image) (*shades, float64) {
	b := img.Bounds()
	step := max(1, float64(max(b.Dx(), b.Dy()))/smallSide)
	s := &shades{w: int(float64(b.Dx()) / step), h: int(float64(b.Dy()) / step)}
	for y := range s.h {
		for x := range s.w {
			var sum [3]float64
			for k := range 16 {
				px := b.Min.X + int((float64(x)+(float64(k%4)+0.5)/4)*step)
				py := b.Min.Y + int((float64(y)+(float64(k/4)+0.5)/4)*step)
				r, g, bl, _ := img.At(min(px, b.Max.X-1), min(py, b.Max.Y-1)).RGBA()
				sum[0], sum[1], sum[2] = sum[0]+float64(r), sum[1]+float64(g), sum[2]+float64(bl)
			}
			all := sum[0] + sum[1] + sum[2] + 1
			s.light = append(s.light, (sum[0]+2*sum[1]+sum[2])/4/16/65535)
			s.red, s.blue = append(s.red, sum[0]/all), append(s.blue, sum[2]/all)
		}
	}
	return s, step
}

// closed spreads the lightest dot within reach, with its colour, or the darkest: one after
// the other they take out what is written and leave the edge where it was.
func closed(s *shades, reach int, lightest bool) *shades {
	for _, across := range []bool{true, false} {
		out := &shades{w: s.w, h: s.h, light: make([]float64, s.w*s.h), red: make([]float64, s.w*s.h), blue: make([]float64, s.w*s.h)}
		for y := range s.h {
			for x := range s.w {
				best := y*s.w + x
				for d := -reach; d <= reach; d++ {
					nx, ny := x+d, y
					if !across {
						nx, ny = x, y+d
					}
					if nx < 0 || ny < 0 || nx >= s.w || ny >= s.h {
						continue
					}
					if at := ny*s.w + nx; s.light[at] > s.light[best] == lightest && s.light[at] != s.light[best] {
						best = at
					}
				}
				i := y*s.w + x
				out.light[i], out.red[i], out.blue[i] = s.light[best], s.red[best], s.blue[best]
			}
		}
		s = out
	}
	return s
}

// flood returns the largest area about the middle within which light and colour change
// only little by little; nil where none is large enough.
func (s *shades) flood() []bool {
	var best []bool
	most := 0
	seen := make([]bool, s.w*s.h)
	for _, at := range [9][2]int{{5, 5}, {4, 4}, {6, 4}, {4, 6}, {6, 6}, {5, 3}, {5, 7}, {3, 5}, {7, 5}} {
		from := at[1]*s.h/10*s.w + at[0]*s.w/10
		if seen[from] {
			continue
		}
		area, n := s.spread(from, seen)
		if n > most {
			best, most = area, n
		}
	}
	if float64(most) < leastPage*float64(s.w*s.h) {
		return nil
	}
	return best
}

func (s *shades) spread(from int, seen []bool) ([]bool, int) {
	area := make([]bool, s.w*s.h)
	area[from], seen[from] = true, true
	queue, n := []int{from}, 0
	for len(queue) > 0 {
		at := queue[len(queue)-1]
		queue = queue[:len(queue)-1]
		n++
		x := at % s.w
		for _, next := range [4]int{at - 1, at + 1, at - s.w, at + s.w} {
			if next < 0 || next >= len(area) || area[next] || next == at-1 && x == 0 || next == at+1 && x == s.w-1 {
				continue
			}
			if s.alike(at, next) {
				area[next], seen[next] = true, true
				queue = append(queue, next)
			}
		}
	}
	return area, n
}

func (s *shades) alike(a, b int) bool {
	return math.Abs(s.light[a]-s.light[b]) < edgeStep*max(s.light[a], s.light[b], 0.1) &&
		math.Abs(s.red[a]-s.red[b]) < 0.02 && math.Abs(s.blue[a]-s.blue[b]) < 0.02
}

// around lays four straight sides about an area. found is false where it has another
// form, or fills the picture.
func (s *shades) around(area []bool) (c corners, found bool) {
	var edge [4][][2]float64 // the outermost dots to the top, right, bottom and left
	n := 0
	for y := range s.h {
		first, last := -1, -1
		for x := range s.w {
			if area[y*s.w+x] {
				if n++; first < 0 {
					first = x
				}
				last = x
			}
		}
		if first >= 0 {
			edge[3] = append(edge[3], [2]float64{float64(y), float64(first)})
			edge[1] = append(edge[1], [2]float64{float64(y), float64(last + 1)})
		}
	}
	for x := range s.w {
		first, last := -1, -1
		for y := range s.h {
			if area[y*s.w+x] {
				if first < 0 {
					first = y
				}
				last = y
			}
		}
		if first >= 0 {
			edge[0] = append(edge[0], [2]float64{float64(x), float64(first)})
			edge[2] = append(edge[2], [2]float64{float64(x), float64(last + 1)})
		}
	}
	var side [4]line
	for i := range side {
		var ok bool
		if side[i], ok = through(edge[i]); !ok {
			return c, false
		}
	}
	for i, pair := range [4][2]int{{0, 3}, {0, 1}, {2, 1}, {2, 3}} {
		c[i] = side[pair[0]].meets(side[pair[1]])
	}
	return c, s.credible(c, n)
}

// line is y = at + slope·x for the top and bottom, x = at + slope·y for the sides.
type line struct{ at, slope float64 }

// through lays a line through most of the dots; ok is false where they are not on one.
func through(dots [][2]float64) (line, bool) {
	if len(dots) < 30 {
		return line{}, false
	}
	dots = dots[len(dots)/12 : len(dots)-len(dots)/12] // the corners belong to two sides
	var best line
	most := 0
	for i := 0; i < len(dots); i += 3 {
		for k := i + len(dots)/3; k < len(dots); k += 5 {
			l := line{slope: (dots[k][1] - dots[i][1]) / (dots[k][0] - dots[i][0])}
			l.at = dots[i][1] - l.slope*dots[i][0]
			near := 0
			for _, d := range dots {
				if math.Abs(d[1]-l.at-l.slope*d[0]) < 2 {
					near++
				}
			}
			if near > most {
				best, most = l, near
			}
		}
	}
	return best, most*2 >= len(dots) && math.Abs(best.slope) < 0.5
}

// meets returns where a line that runs across meets one that runs down.
func (l line) meets(down line) [2]float64 {
	y := (l.at + l.slope*down.at) / (1 - l.slope*down.slope)
	return [2]float64{down.at + down.slope*y, y}
}

// credible says whether corners can be those of a sheet that fills them with n dots.
func (s *shades) credible(c corners, n int) bool {
	area := c.area()
	for i := range c {
		if c[i][0] < -8 || c[i][1] < -8 || c[i][0] > float64(s.w)+8 || c[i][1] > float64(s.h)+8 {
			return false
		}
	}
	top, right, bottom, left := c.side(0), c.side(1), c.side(2), c.side(3)
	whole := float64(s.w * s.h)
	return area > leastPage*whole && area < mostPage*whole && float64(n) > 0.8*area && float64(n) < 1.06*area &&
		min(top, bottom)*10 > max(top, bottom)*6 && min(left, right)*10 > max(left, right)*6
}

// area is that of the sheet.
func (c corners) area() float64 {
	sum := 0.0
	for i := range c {
		next := c[(i+1)%4]
		sum += (c[i][0]*next[1] - next[0]*c[i][1]) / 2
	}
	return sum
}

// side is the length of the side behind corner i.
func (c corners) side(i int) float64 {
	next := c[(i+1)%4]
	return math.Hypot(next[0]-c[i][0], next[1]-c[i][1])
}

// from returns the way from a flat sheet of that size to where the corners are, and the
// size it is best laid out with.
func (c corners) from(scale float64) (m projection, width, height int) {
	w, h := (c.side(0)+c.side(2))/2*scale, (c.side(1)+c.side(3))/2*scale
	sx := c[0][0] - c[1][0] + c[2][0] - c[3][0]
	sy := c[0][1] - c[1][1] + c[2][1] - c[3][1]
	dx1, dx2 := c[1][0]-c[2][0], c[3][0]-c[2][0]
	dy1, dy2 := c[1][1]-c[2][1], c[3][1]-c[2][1]
	den := dx1*dy2 - dx2*dy1
	g, k := (sx*dy2-dx2*sy)/den, (dx1*sy-sx*dy1)/den
	m = projection{
		c[1][0] - c[0][0] + g*c[1][0], c[3][0] - c[0][0] + k*c[3][0], c[0][0],
		c[1][1] - c[0][1] + g*c[1][1], c[3][1] - c[0][1] + k*c[3][1], c[0][1],
		g, k, 1,
	}
	return m.after(scaling(1/w, 1/h)), max(1, int(w)), max(1, int(h))
}

// flattened lays out a part of a picture by the way given.
func flattened(g *image.Gray, m projection, width, height int) *image.Gray {
	out := image.NewGray(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			u, v := m.at(float64(x)+0.5, float64(y)+0.5)
			out.Pix[y*out.Stride+x] = between(g, u-0.5, v-0.5)
		}
	}
	return out
}
