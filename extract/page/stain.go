package page

import "image"

// What is grey and wider than the stroke of any letter is no ink: a ring of coffee, the field
// of a stamp, the shade of a table's head. It is part of the paper, and letters on it are read
// against it.
const (
	widestStroke = 9    // twice as many dots, as wide as no stroke of a letter is
	stainFrom    = 0.42 // of the paper's light, below which a field is printed ink
	stainTo      = 0.93 // of the paper's light, from which on a field is paper
)

// A ground is the picture without what is thinner than [widestStroke], half as large.
type ground struct {
	pix           []uint8
	width, height int
}

// groundOf takes thin things out of a picture: what is light grows over them and shrinks
// back (closing, in the words of morphology).
func groundOf(g *image.Gray) ground {
	w, h := (g.Rect.Dx()+1)/2, (g.Rect.Dy()+1)/2
	k := ground{make([]uint8, w*h), w, h}
	for y := range h {
		top := g.Pix[2*y*g.Stride:]
		low := g.Pix[min(2*y+1, g.Rect.Dy()-1)*g.Stride:]
		for x := range w {
			a, b := 2*x, min(2*x+1, g.Rect.Dx()-1)
			k.pix[y*w+x] = max(top[a], top[b], low[a], low[b])
		}
	}
	lighter := func(a, b uint8) uint8 { return max(a, b) }
	darker := func(a, b uint8) uint8 { return min(a, b) }
	k.grow(widestStroke/2, lighter)
	k.grow(widestStroke/2+1, darker) // one more, for the halving took the light's side
	return k
}

// at returns the light of the ground under a dot of the picture.
func (k ground) at(x, y int) uint8 { return k.pix[y/2*k.width+x/2] }

// grow sets each dot to the most, by pick, of those up to r away in its row and column.
func (k ground) grow(r int, pick func(a, b uint8) uint8) {
	line := make([]uint8, max(k.width, k.height))
	ahead, behind := make([]uint8, len(line)), make([]uint8, len(line))
	for y := range k.height {
		row := k.pix[y*k.width : (y+1)*k.width]
		spread(row, ahead, behind, r, pick)
	}
	for x := range k.width {
		col := line[:k.height]
		for y := range col {
			col[y] = k.pix[y*k.width+x]
		}
		spread(col, ahead, behind, r, pick)
		for y, v := range col {
			k.pix[y*k.width+x] = v
		}
	}
}

// spread sets each value of a line to the most of those up to r away, in time that does not
// depend on r. Source: M. van Herk, Pattern Recognition Letters 13 (1992); from memory.
func spread(line, ahead, behind []uint8, r int, pick func(a, b uint8) uint8) {
	n, window := len(line), 2*r+1
	for i := range n {
		if ahead[i] = line[i]; i%window != 0 {
			ahead[i] = pick(ahead[i-1], line[i])
		}
	}
	for i := n - 1; i >= 0; i-- {
		if behind[i] = line[i]; i+1 < n && (i+1)%window != 0 {
			behind[i] = pick(behind[i+1], line[i])
		}
	}
	for i := range n {
		from, to := max(i-r, 0), min(i+r, n-1)
		line[i] = pick(behind[from], ahead[to])
		if from/window == to/window && from == 0 {
			line[i] = ahead[to]
		} else if from/window == to/window && to == n-1 {
			line[i] = behind[from]
		}
	}
}
