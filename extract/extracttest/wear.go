package extracttest

import (
	"image"
	"image/color"
	"math"
	"slices"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
)

// scanner puts each page on a glass: a little askew, with the grain of the sensor.
func (w *worn) scanner() {
	for i, p := range w.pages {
		slope := (w.r.Float64()*2 - 1) * 0.022
		grain := 2 + w.r.IntN(8)
		white := 0.90 + 0.1*w.r.Float64()
		out := image.NewRGBA(p.Rect)
		mx, my := float64(p.Rect.Dx())/2, float64(p.Rect.Dy())/2
		sin, cos := math.Sincos(slope)
		for y := range p.Rect.Dy() {
			for x := range p.Rect.Dx() {
				dx, dy := float64(x)-mx, float64(y)-my
				v := dot(p, cos*dx+sin*dy+mx, cos*dy-sin*dx+my, [3]float64{250, 250, 250})
				n := float64(w.r.IntN(2*grain+1) - grain)
				set(out, x, y, [3]float64{v[0]*white + n, v[1]*white + n, v[2]*white + n})
			}
		}
		w.pages[i] = out
	}
}

// dot returns the colour between four dots; outside has the colour given.
func dot(p *image.RGBA, x, y float64, outside [3]float64) [3]float64 {
	i, j := int(math.Floor(x)), int(math.Floor(y))
	if i < 0 || j < 0 || i+1 >= p.Rect.Dx() || j+1 >= p.Rect.Dy() {
		return outside
	}
	fx, fy := x-float64(i), y-float64(j)
	at := p.Pix[p.PixOffset(i, j):]
	below := p.Pix[p.PixOffset(i, j+1):]
	var out [3]float64
	for k := range out {
		out[k] = (float64(at[k])*(1-fx)+float64(at[4+k])*fx)*(1-fy) + (float64(below[k])*(1-fx)+float64(below[4+k])*fx)*fy
	}
	return out
}

func set(p *image.RGBA, x, y int, v [3]float64) {
	i := p.PixOffset(x, y)
	for k := range v {
		p.Pix[i+k] = uint8(max(0, min(255, v[k])))
	}
	p.Pix[i+3] = 255
}

// turn turns all pages clockwise by quarters.
func (w *worn) turn(quarters int) {
	for i, p := range w.pages {
		for range quarters {
			to := image.NewRGBA(image.Rect(0, 0, p.Rect.Dy(), p.Rect.Dx()))
			for y := range p.Rect.Dy() {
				for x := range p.Rect.Dx() {
					copy(to.Pix[to.PixOffset(p.Rect.Dy()-1-y, x):][:4], p.Pix[p.PixOffset(x, y):][:4])
				}
			}
			p = to
		}
		w.pages[i] = p
	}
}

// fax sends each page over the telephone: two tones, few dots, and lines that were lost.
func (w *worn) fax() {
	w.dpi = oneOf(w.draw, 100, 120, 150, 150)
	w.says = w.dpi
	w.format = oneOf(w.draw, "pdf", "png")
	w.grey = true
	w.quality = 95
	for i, p := range w.pages {
		scale := 204 / float64(w.dpi)
		out := image.NewRGBA(image.Rect(0, 0, int(float64(p.Rect.Dx())/scale), int(float64(p.Rect.Dy())/scale)))
		limit := 140 + 40*w.r.Float64()
		for y := range out.Rect.Dy() {
			lost := w.r.IntN(700) == 0
			for x := range out.Rect.Dx() {
				v := 0.0
				for _, d := range [4][2]float64{{0.25, 0.25}, {0.75, 0.25}, {0.25, 0.75}, {0.75, 0.75}} {
					v += dot(p, (float64(x)+d[0])*scale, (float64(y)+d[1])*scale, [3]float64{255, 255, 255})[1] / 4
				}
				ink := v+float64(w.r.IntN(41)-20) < limit != (w.r.IntN(4000) == 0)
				tone := [3]float64{255, 255, 255}
				if ink || lost && x%7 != 0 {
					tone = [3]float64{}
				}
				set(out, x, y, tone)
			}
		}
		w.pages[i] = out
	}
}

// stain puts rings of coffee on a page, and drops.
func (w *worn) stain(p *image.RGBA) {
	brown := color.RGBA{R: 120, G: 78, B: 40, A: 255}
	for range 1 + w.r.IntN(3) {
		mx, my := w.r.Float64()*float64(p.Rect.Dx()), w.r.Float64()*float64(p.Rect.Dy())
		radius := float64(w.dpi) * (0.8 + 0.9*w.r.Float64())
		dark, wide := 0.25+0.3*w.r.Float64(), float64(w.dpi)*(0.03+0.06*w.r.Float64())
		filled := w.r.Float64() * 0.25
		for y := max(0, int(my-radius*1.2)); y < min(p.Rect.Dy(), int(my+radius*1.2)); y++ {
			for x := max(0, int(mx-radius*1.2)); x < min(p.Rect.Dx(), int(mx+radius*1.2)); x++ {
				d := math.Hypot(float64(x)-mx, float64(y)-my) + 3*math.Sin(math.Atan2(float64(y)-my, float64(x)-mx)*5)
				share := dark * math.Exp(-(d-radius)*(d-radius)/wide/wide)
				if d < radius {
					share = max(share, filled)
				}
				blend(p, x, y, brown, share)
			}
		}
	}
}

// inked lists some dots of a page that have ink, to aim at.
func inked(p *image.RGBA) []image.Point {
	var out []image.Point
	for y := 0; y < p.Rect.Dy(); y += 5 {
		for x := 0; x < p.Rect.Dx(); x += 5 {
			if p.Pix[p.PixOffset(x, y)+1] < 128 {
				out = append(out, image.Point{X: x, Y: y})
			}
		}
	}
	return out
}

// stamp puts one or two stamps over what is written.
func (w *worn) stamp(p *image.RGBA) {
	at := inked(p)
	if len(at) == 0 {
		return
	}
	for range 1 + w.r.IntN(2) {
		ink := oneOf(w.draw, color.RGBA{R: 40, G: 60, B: 170, A: 255}, color.RGBA{R: 190, G: 30, B: 40, A: 255}, color.RGBA{R: 30, G: 110, B: 70, A: 255}, color.RGBA{R: 80, G: 40, B: 130, A: 255})
		mark := w.mark(oneOf(w.draw, "COPY", "SEEN", "ORIGINAL", "VALID", "REGISTERED", "FILED"))
		middle := at[w.r.IntN(len(at))]
		sin, cos := math.Sincos((w.r.Float64()*2 - 1) * 0.5)
		strong := 0.35 + 0.35*w.r.Float64()
		reach := mark.Rect.Dx()
		for dy := -reach; dy <= reach; dy++ {
			for dx := -reach; dx <= reach; dx++ {
				x := int(cos*float64(dx)+sin*float64(dy)) + mark.Rect.Dx()/2
				y := int(cos*float64(dy)-sin*float64(dx)) + mark.Rect.Dy()/2
				if v := mark.AlphaAt(x, y).A; v > 0 && w.r.IntN(10) > 0 {
					blend(p, middle.X+dx, middle.Y+dy, ink, strong*float64(v)/255)
				}
			}
		}
	}
}

// mark is a word in a frame.
func (w *worn) mark(word string) *image.Alpha {
	size := float64(w.dpi) * (0.16 + 0.14*w.r.Float64())
	parsed, err := opentype.Parse(gobold.TTF)
	if err != nil {
		panic(err) // the font lies in the program
	}
	face, err := opentype.NewFace(parsed, &opentype.FaceOptions{Size: size, DPI: 72})
	if err != nil {
		panic(err)
	}
	width := font.MeasureString(face, word).Ceil()
	pad := int(size / 2)
	m := image.NewAlpha(image.Rect(0, 0, width+2*pad, int(size)+2*pad))
	d := font.Drawer{Dst: m, Src: image.Opaque, Face: face, Dot: fixed.P(pad, pad+int(size*0.85))}
	d.DrawString(word)
	line := max(2, int(size/12))
	for y := range m.Rect.Dy() {
		for x := range m.Rect.Dx() {
			if x < line || y < line || x >= m.Rect.Dx()-line || y >= m.Rect.Dy()-line {
				m.SetAlpha(x, y, color.Alpha{A: 255})
			}
		}
	}
	return m
}

// pattern gives a page the tinted paper with waves that certificates are printed on.
func (w *worn) pattern(p *image.RGBA) {
	tint := oneOf(w.draw, color.RGBA{R: 250, G: 240, B: 205, A: 255}, color.RGBA{R: 215, G: 232, B: 245, A: 255}, color.RGBA{R: 220, G: 240, B: 215, A: 255}, color.RGBA{R: 245, G: 220, B: 222, A: 255})
	line := color.RGBA{R: tint.R - 70, G: tint.G - 60, B: tint.B - 70, A: 255}
	period, height := float64(w.dpi)*(0.05+0.1*w.r.Float64()), float64(w.dpi)*(0.05+0.15*w.r.Float64())
	wave, strong := float64(w.dpi)*(0.4+w.r.Float64()), 0.3+0.5*w.r.Float64()
	for y := range p.Rect.Dy() {
		for x := range p.Rect.Dx() {
			blend(p, x, y, tint, 1)
			for k := range 2 {
				s := float64(y) + height*math.Sin(float64(x)/wave*2*math.Pi+float64(k)*math.Pi)
				if d := math.Abs(math.Mod(s, period) - period/2); d < 1 {
					blend(p, x, y, line, strong*(1-d))
				}
			}
		}
	}
}

// bleed lets the back of each sheet show through: another page, or the same, mirrored.
func (w *worn) bleed() {
	strong := 0.10 + 0.16*w.r.Float64()
	backs := make([]*image.RGBA, len(w.pages))
	for i, p := range w.pages {
		backs[i] = &image.RGBA{Pix: slices.Clone(p.Pix), Stride: p.Stride, Rect: p.Rect}
	}
	for i, p := range w.pages {
		back := backs[(i+1)%len(backs)]
		shift := w.r.IntN(60) - 30
		for y := range p.Rect.Dy() {
			for x := range p.Rect.Dx() {
				v := dot(back, float64(back.Rect.Dx()-x)+0.5, float64(y+shift)+0.5, [3]float64{255, 255, 255})
				blend(p, x, y, color.RGBA{R: 90, G: 90, B: 90, A: 255}, strong*(1-v[1]/255))
			}
		}
	}
}

// lie makes the file say dots to the inch that cannot be.
func (w *worn) lie() {
	w.format = oneOf(w.draw, "jpg", "pdf")
	w.says = oneOf(w.draw, 1, 10, 40, 72, 2400, 4000, 60000)
	if w.format == "pdf" {
		w.says = oneOf(w.draw, 20, 40, 72, 600, 1200)
	}
}

// spread puts two pages on one sheet, side by side, as a book lies on the glass.
func (w *worn) spread() {
	var out []*image.RGBA
	for i := 0; i < len(w.pages); i += 2 {
		left := w.pages[i]
		right := left
		if i+1 < len(w.pages) {
			right = w.pages[i+1]
		}
		sheet := image.NewRGBA(image.Rect(0, 0, left.Rect.Dx()+right.Rect.Dx(), max(left.Rect.Dy(), right.Rect.Dy())))
		for y := range sheet.Rect.Dy() {
			for x := range sheet.Rect.Dx() {
				v := dot(left, float64(x), float64(y), [3]float64{255, 255, 255})
				if x >= left.Rect.Dx() {
					v = [3]float64{255, 255, 255}
					if i+1 < len(w.pages) {
						v = dot(right, float64(x-left.Rect.Dx()), float64(y), v)
					}
				}
				fold := math.Abs(float64(x - left.Rect.Dx()))
				shade := 1 - 0.5*math.Exp(-fold/float64(w.dpi)/0.12)
				set(sheet, x, y, [3]float64{v[0] * shade, v[1] * shade, v[2] * shade})
			}
		}
		out = append(out, sheet)
	}
	w.pages = out
}
