package page

import "math"

// A sheet may have a head or a foot in a colour of its own, as cards and the pages of a portal
// have: the light part of it is then not all of it.

const (
	nearEdge  = 2.5 // dots of the small copy, within which two edges are one
	pastEdge  = 7   // dots past the edge of a sheet, where what lies beside it is looked at
	leastFull = 0.6 // share of what the sheet grows by that is of the field, and the other way round
	sameSheet = 5   // dots by which a corner may move when its edge is measured again
)

// wholeSheet returns the corners of the sheet of which an area with corners c is the light part.
// found is false where the picture goes on beyond one edge only: it shows a sheet and no table.
func (s *shades) wholeSheet(c corners, area []bool) (all corners, found bool) {
	for side := range c {
		for _, share := range [3]float64{0.5, 0.25, 0.75} {
			if wider, ok := s.beyond(c, area, side, share); ok {
				c = wider
				break
			}
		}
	}
	ends := 0
	for side := range c {
		if s.endsAt(c, side) {
			ends++
		}
	}
	return c, ends < 3
}

// endsAt reports an edge of the sheet that is one of the picture.
func (s *shades) endsAt(c corners, side int) bool {
	a, b := c[side], c[(side+1)%4]
	at, end := 1, float64(0)
	switch side {
	case 1:
		at, end = 0, float64(s.w)
	case 2:
		end = float64(s.h)
	case 3:
		at = 0
	}
	return math.Abs(a[at]-end) < nearEdge && math.Abs(b[at]-end) < nearEdge
}

// beyond looks past an edge, at a share of its length, for a field that carries the sheet on: its
// sides are those of the sheet, drawn out.
func (s *shades) beyond(c corners, area []bool, side int, share float64) (corners, bool) {
	a, b, far := c[side], c[(side+1)%4], c[(side+2)%4]
	along := math.Hypot(b[0]-a[0], b[1]-a[1])
	out := [2]float64{(b[1] - a[1]) / along, (a[0] - b[0]) / along} // clockwise corners have the outside at their left
	if out[0]*(far[0]-b[0])+out[1]*(far[1]-b[1]) > 0 {
		return c, false
	}
	x, y := int(a[0]+(b[0]-a[0])*share+out[0]*pastEdge), int(a[1]+(b[1]-a[1])*share+out[1]*pastEdge)
	if x < 0 || y < 0 || x >= s.w || y >= s.h || area[y*s.w+x] {
		return c, false
	}
	field, n := s.spread(y*s.w+x, make([]bool, s.w*s.h))
	wider, ok := s.around(s.filled(area, field))
	if grown := wider.area() - c.area(); !ok || float64(n) < leastFull*grown || float64(n) > grown/leastFull {
		return c, false
	}
	for i := range c {
		moved := math.Hypot(wider[i][0]-c[i][0], wider[i][1]-c[i][1])
		if of := i == side || i == (side+1)%4; of && (moved < pastEdge || !wider.onSides(c[i], side)) || !of && moved > sameSheet {
			return c, false
		}
	}
	return wider, true
}

// onSides reports a dot on one of the two edges that meet the edge given.
func (c corners) onSides(dot [2]float64, side int) bool {
	for _, from := range [2]int{(side + 1) % 4, (side + 3) % 4} {
		a, b := c[from], c[(from+1)%4]
		off := ((b[0]-a[0])*(dot[1]-a[1]) - (b[1]-a[1])*(dot[0]-a[0])) / c.side(from)
		if math.Abs(off) < sameSheet {
			return true
		}
	}
	return false
}

// filled joins two areas, and takes what lies between their dots of one row for part of them.
func (s *shades) filled(a, b []bool) []bool {
	out := make([]bool, len(a))
	for y := range s.h {
		first, last := s.w, -1
		for x := range s.w {
			if i := y*s.w + x; a[i] || b[i] {
				first, last = min(first, x), x
			}
		}
		for x := first; x <= last; x++ {
			out[y*s.w+x] = true
		}
	}
	return out
}
