package page

import "math"

// projection leads from the dots of one picture to those of another, which may show the
// same sheet from another side. It is a matrix of three by three, row by row.
// Source: Heckbert, Fundamentals of Texture Mapping, 1989, chapter 2.
type projection [9]float64

// same leads nowhere.
var same = projection{1, 0, 0, 0, 1, 0, 0, 0, 1}

func (m projection) at(x, y float64) (float64, float64) {
	d := m[6]*x + m[7]*y + m[8]
	return (m[0]*x + m[1]*y + m[2]) / d, (m[3]*x + m[4]*y + m[5]) / d
}

// after returns the way that goes by n first.
func (m projection) after(n projection) projection {
	var out projection
	for r := range 3 {
		for c := range 3 {
			for k := range 3 {
				out[3*r+c] += m[3*r+k] * n[3*k+c]
			}
		}
	}
	return out
}

// inverse returns the way back; one that does not exist leads to no number.
func (m projection) inverse() projection {
	return projection{
		m[4]*m[8] - m[5]*m[7], m[2]*m[7] - m[1]*m[8], m[1]*m[5] - m[2]*m[4],
		m[5]*m[6] - m[3]*m[8], m[0]*m[8] - m[2]*m[6], m[2]*m[3] - m[0]*m[5],
		m[3]*m[7] - m[4]*m[6], m[1]*m[6] - m[0]*m[7], m[0]*m[4] - m[1]*m[3],
	}
}

// scaling multiplies lengths.
func scaling(x, y float64) projection { return projection{x, 0, 0, 0, y, 0, 0, 0, 1} }

// unturned leads from a picture that was turned clockwise by quarters, and then had that
// size, to the one before.
func unturned(quarters, width, height int) projection {
	m := same
	w, h := float64(width), float64(height)
	for range quarters & 3 {
		// Before a clockwise turn the point (x, y) stood at (y, width − x).
		m = projection{0, 1, 0, -1, 0, w, 0, 0, 1}.after(m)
		w, h = h, w
	}
	return m
}

// untilted leads from a picture that was set level, as [levelled] does, to the one before.
func untilted(tilt, width, height int) projection {
	sin, cos := math.Sincos(math.Atan(float64(tilt) / 10000))
	x, y := float64(width)/2, float64(height)/2
	return projection{cos, -sin, x - cos*x + sin*y, sin, cos, y - sin*x - cos*y, 0, 0, 1}
}

// box returns the upright box about the middles of the sides of b: lines that fall a
// little do not make it higher.
func (m projection) box(b [4]float64) [4]float64 {
	mx, my := (b[0]+b[2])/2, (b[1]+b[3])/2
	var out [4]float64
	for i, p := range [4][2]float64{{b[0], my}, {mx, b[1]}, {b[2], my}, {mx, b[3]}} {
		x, y := m.at(p[0], p[1])
		if i == 0 {
			out = [4]float64{x, y, x, y}
		}
		out = [4]float64{min(out[0], x), min(out[1], y), max(out[2], x), max(out[3], y)}
	}
	return out
}

// sane says whether a way that a child told leads from a picture of that size to a page
// whose sides are 0 to 1, or near it.
func (m projection) sane(width, height int) bool {
	w, h := float64(width), float64(height)
	for _, p := range [4][2]float64{{0, 0}, {w, 0}, {w, h}, {0, h}} {
		x, y := m.at(p[0], p[1])
		if !(x > -1 && x < 2 && y > -1 && y < 2) {
			return false
		}
	}
	return true
}

// lay leads from the picture of a page that was read to the page: as it is displayed,
// and as it is read, upright and with level lines, in the same measure.
type lay struct {
	back          projection // from dots to shares of the page as displayed
	width, height int        // of the page, hundredths of a point
	point         float64    // hundredths of a point that a dot is long
	slant         projection // sets level what the picture left askew
}

// layOf returns the lay of a picture of p whose lines still fall by slant.
func layOf(pic picture, p *Page, slant int) lay {
	l := lay{back: pic.back, width: p.Width, height: p.Height, point: 1}
	l.slant = untilted(slant, pic.width, pic.height).inverse()
	x, y := float64(pic.width)/2, float64(pic.height)/2
	x0, y0 := l.back.at(x-1, y)
	x1, y1 := l.back.at(x+1, y)
	if d := math.Hypot((x1-x0)*float64(p.Width), (y1-y0)*float64(p.Height)) / 2; d > 0 && d < 1e6 {
		l.point = d
	}
	return l
}

// shown returns where a box of the picture stands on the page as displayed.
func (l lay) shown(b [4]int) [4]int {
	f := l.back.box(floats(b))
	return [4]int{l.clip(f[0], l.width), l.clip(f[1], l.height), l.clip(f[2], l.width), l.clip(f[3], l.height)}
}

func (l lay) clip(share float64, most int) int {
	return int(math.Round(max(0, min(1, share)) * float64(most)))
}

// laid returns where a box of the picture stands on the page as it is read.
func (l lay) laid(b [4]float64) [4]int {
	f := l.slant.box(b)
	var out [4]int
	for i := range f {
		out[i] = hundredths(f[i] * l.point / 100)
	}
	return out
}

// relaid returns where a box of the page as displayed stands on the page as it is read.
func (l lay) relaid(b [4]int) [4]int {
	f := floats(b)
	w, h := float64(l.width), float64(l.height)
	return l.laid(l.back.inverse().box([4]float64{f[0] / w, f[1] / h, f[2] / w, f[3] / h}))
}

func floats(b [4]int) [4]float64 {
	return [4]float64{float64(b[0]), float64(b[1]), float64(b[2]), float64(b[3])}
}
