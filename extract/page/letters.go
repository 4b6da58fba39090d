package page

import (
	"image"
	"slices"
)

// bestHeight is how high, in dots, the most of the letters are best for recognition: as at
// 200 dots to the inch those of 10 or 11 points are.
const bestHeight = 17

// letterHeight measures how high the most of the letters of a page are, in dots: pieces of
// ink that touch nothing. 0 means that there are too few to tell.
func letterHeight(g *image.Gray) int {
	w, h := g.Rect.Dx(), g.Rect.Dy()
	type piece struct{ left, top, right, bottom, dots int }
	label := make([]int32, w) // of the row above
	var pieces []piece
	var same []int32 // pieces that grew together
	root := func(i int32) int32 {
		for same[i] != i {
			i = same[i]
		}
		return i
	}
	for y := range h {
		before := int32(-1)
		for x := range w {
			if g.Pix[y*g.Stride+x] >= 128 {
				before, label[x] = -1, -1
				continue
			}
			above := int32(-1)
			if y > 0 {
				above = label[x]
			}
			at := before
			switch {
			case at < 0 && above < 0:
				at = int32(len(pieces))
				pieces, same = append(pieces, piece{x, y, x, y, 0}), append(same, at)
			case at < 0:
				at = root(above)
			case above >= 0:
				if other := root(above); other != root(at) {
					same[max(other, root(at))] = min(other, root(at))
				}
				at = root(at)
			}
			p := &pieces[at]
			p.left, p.top, p.right, p.bottom, p.dots = min(p.left, x), min(p.top, y), max(p.right, x), max(p.bottom, y), p.dots+1
			before, label[x] = at, at
		}
	}
	for i := len(pieces) - 1; i >= 0; i-- {
		if to := root(int32(i)); to != int32(i) {
			p, q := pieces[i], &pieces[to]
			*q = piece{min(p.left, q.left), min(p.top, q.top), max(p.right, q.right), max(p.bottom, q.bottom), p.dots + q.dots}
		}
	}
	var heights []int
	for i, p := range pieces {
		wide, high := p.right-p.left+1, p.bottom-p.top+1
		if same[i] == int32(i) && high >= 5 && high < h/6 && wide < 4*high && high < 6*wide && p.dots*8 > wide*high {
			heights = append(heights, high)
		}
	}
	if len(heights) < 40 {
		return 0
	}
	slices.Sort(heights)
	return heights[len(heights)/2]
}

// toBest is by how much a picture should grow for its letters to be of the best height; 1
// where they nearly are, or are not known.
func toBest(height int) float64 {
	f := float64(bestHeight) / float64(max(1, height))
	if height == 0 || f > 0.65 && f < 1.22 {
		return 1
	}
	return min(max(f, 0.2), 3.5)
}
