package page

import (
	"image"
	"slices"
)

// bestHeight is how high, in dots, the most of the letters are best for recognition: as at
// 200 dots to the inch those of 10 or 11 points are.
const bestHeight = 17

// An inkPiece is ink that touches itself and nothing else: its edges, and how many dots it has.
type inkPiece struct{ left, top, right, bottom, dots int }

// isLetter reports a piece that has the form of a letter, on a page of a height.
func (p inkPiece) isLetter(page int) bool {
	wide, high := p.right-p.left+1, p.bottom-p.top+1
	return high >= 5 && high < page/6 && wide < 4*high && high < 6*wide && p.dots*8 > wide*high
}

// letterHeight measures how high the most of the letters of a page are, in dots: pieces of
// ink that touch nothing. 0 means that there are too few to tell.
func letterHeight(g *image.Gray) int {
	var heights []int
	for _, p := range inkPieces(g) {
		if p.isLetter(g.Rect.Dy()) {
			heights = append(heights, p.bottom-p.top+1)
		}
	}
	if len(heights) < 40 {
		return 0
	}
	slices.Sort(heights)
	return heights[len(heights)/2]
}

// inkPieces finds the pieces of ink of a page, row by row.
func inkPieces(g *image.Gray) []inkPiece {
	var k inkMap
	label := make([]int32, g.Rect.Dx()) // of the row above
	for i := range label {
		label[i] = -1
	}
	for y := range g.Rect.Dy() {
		before := int32(-1)
		for x := range label {
			if g.Pix[y*g.Stride+x] >= 128 {
				before, label[x] = -1, -1
				continue
			}
			before = k.dot(x, y, before, label[x])
			label[x] = before
		}
	}
	return k.whole()
}

// An inkMap is what the rows of a page come to that were seen: pieces, of which some grew together.
type inkMap struct {
	pieces []inkPiece
	same   []int32 // for each the one that it grew together with, which came first; itself where none
}

// dot adds a dot to the pieces before and above it, which are -1 where there is white, and returns
// its piece.
func (k *inkMap) dot(x, y int, before, above int32) int32 {
	at := before
	switch {
	case at < 0 && above < 0:
		at = int32(len(k.pieces))
		k.pieces, k.same = append(k.pieces, inkPiece{x, y, x, y, 0}), append(k.same, at)
	case at < 0:
		at = k.root(above)
	case above >= 0:
		if other := k.root(above); other != k.root(at) {
			k.same[max(other, k.root(at))] = min(other, k.root(at))
		}
		at = k.root(at)
	}
	p := &k.pieces[at]
	p.left, p.top, p.right, p.bottom, p.dots = min(p.left, x), min(p.top, y), max(p.right, x), max(p.bottom, y), p.dots+1
	return at
}

func (k *inkMap) root(i int32) int32 {
	for k.same[i] != i {
		i = k.same[i]
	}
	return i
}

// whole returns each piece with those that grew together with it.
func (k *inkMap) whole() []inkPiece {
	for i := len(k.pieces) - 1; i >= 0; i-- {
		if to := k.root(int32(i)); to != int32(i) {
			p, q := k.pieces[i], &k.pieces[to]
			*q = inkPiece{min(p.left, q.left), min(p.top, q.top), max(p.right, q.right), max(p.bottom, q.bottom), p.dots + q.dots}
		}
	}
	list := k.pieces[:0]
	for i, p := range k.pieces {
		if k.same[i] == int32(i) {
			list = append(list, p)
		}
	}
	return list
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
