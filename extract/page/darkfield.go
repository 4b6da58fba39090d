package page

import "image"

// What is written light on a dark field, as in the head of a card or of a table, is turned into
// dark letters on white. A field is dark, wider than any letter, and holds things that are
// lighter and thinner than it.
const (
	widestLight = 14  // half as many dots as the widest stroke of a light letter is wide
	leastField  = 20  // the same of the sides of a field
	fieldBelow  = 0.6 // of the light of the page's paper, below which a field is dark
	fullField   = 0.6 // share of the box about a field that it fills at least
	leastLight  = 0.004
	mostLight   = 0.45 // shares of a field that its letters cover
	lightFrom   = 0.3  // of the way from the field to paper, from which on a dot is part of a letter
	lightWhole  = 0.65 // and from here on wholly
)

// A darkField is a box of dots, two by two, and the ground in it.
type darkField struct {
	box   image.Rectangle
	under ground
	paper float64
}

// darkFields finds them in a picture of which the ground is given and has paper of a light.
func darkFields(g *image.Gray, under ground, paper float64) []darkField {
	k := ground{append([]uint8(nil), under.pix...), under.width, under.height}
	k.grow(widestLight/2, func(a, b uint8) uint8 { return min(a, b) })
	k.grow(widestLight/2, func(a, b uint8) uint8 { return max(a, b) })
	mask := image.NewGray(image.Rect(0, 0, k.width, k.height))
	for i, v := range k.pix {
		if float64(v) >= fieldBelow*paper {
			mask.Pix[i] = 255
		}
	}
	var out []darkField
	for _, p := range inkPieces(mask) {
		box := image.Rect(p.left, p.top, p.right+1, p.bottom+1)
		f := darkField{box: box, under: k, paper: paper}
		if min(box.Dx(), box.Dy()) >= leastField && float64(p.dots) >= fullField*float64(box.Dx()*box.Dy()) && f.written(g) {
			out = append(out, f)
		}
	}
	return out
}

// holds reports a dot of the picture that is part of the field; inside says that it is not at its edge.
func (f darkField) holds(x, y int) (part, inside bool) {
	dark := func(x, y int) bool {
		return image.Pt(x, y).In(f.box) && float64(f.under.pix[y*f.under.width+x]) < fieldBelow*f.paper
	}
	x, y = x/2, y/2
	if !dark(x, y) {
		return false, false
	}
	return true, dark(x-2, y) && dark(x+2, y) && dark(x, y-2) && dark(x, y+2)
}

// lightness is how far a dot is on the way from the field to paper.
func (f darkField) lightness(g *image.Gray, x, y int) float64 {
	field := float64(f.under.at(x, y))
	return (float64(g.Pix[y*g.Stride+x]) - field) / (f.paper - field)
}

// written reports that some of the field, but not half of it, is light.
func (f darkField) written(g *image.Gray) bool {
	light, all := 0, 0
	for y := 2 * f.box.Min.Y; y < min(2*f.box.Max.Y, g.Rect.Dy()); y += 2 {
		for x := 2 * f.box.Min.X; x < min(2*f.box.Max.X, g.Rect.Dx()); x += 2 {
			if _, inside := f.holds(x, y); !inside {
				continue
			}
			if all++; f.lightness(g, x, y) > (lightFrom+lightWhole)/2 {
				light++
			}
		}
	}
	return float64(light) > leastLight*float64(all) && float64(light) < mostLight*float64(all)
}

// invert writes the field into a picture: its letters dark, the rest of it and its edge white.
func (f darkField) invert(g, out *image.Gray) {
	for y := 2 * f.box.Min.Y; y < min(2*f.box.Max.Y, g.Rect.Dy()); y++ {
		for x := 2 * f.box.Min.X; x < min(2*f.box.Max.X, g.Rect.Dx()); x++ {
			part, inside := f.holds(x, y)
			if !part {
				continue
			}
			v := uint8(255)
			if inside {
				ink := (f.lightness(g, x, y) - lightFrom) / (lightWhole - lightFrom)
				v = uint8(255 * (1 - min(max(ink, 0), 1)))
			}
			out.Pix[y*out.Stride+x] = v
		}
	}
}
