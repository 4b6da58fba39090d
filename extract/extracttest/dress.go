package extracttest

import (
	"strings"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/gomonobold"
	"golang.org/x/image/font/gofont/goregular"
)

// inParts reports a layout in which each part of the certifying sentence has lines of its own.
func (s *sheet) inParts() bool {
	switch s.layout {
	case "centred", "landscape", "sidebar", "panel":
		return true
	}
	return false
}

// spaced sets some headings with wide letters, as print does by single letters.
func (s *sheet) spaced(heading string) string {
	if s.t.Format != "pdf" || len(heading) > 24 || s.layout == "slip" || !s.chance(8) {
		return heading
	}
	var words []string
	for _, w := range strings.Fields(strings.ToUpper(heading)) {
		words = append(words, strings.Join(strings.Split(w, ""), " "))
	}
	return strings.Join(words, "     ")
}

// embed takes a font that goes into the file in place of a core font, for one in four.
func (p *page) embed() {
	if !p.chance(25) {
		return
	}
	regular, bold := goregular.TTF, gobold.TTF
	if p.font == "Courier" {
		regular, bold = gomono.TTF, gomonobold.TTF
	}
	p.AddUTF8FontFromBytes("own", "", regular)
	p.AddUTF8FontFromBytes("own", "B", bold)
	p.font, p.cp = "own", func(text string) string { return text }
	p.size = min(p.size, 11)
}

// margin is what stands in the narrow column of a panel: who issues, its address, and at
// times a teacher and a number.
func (s *sheet) margin() []string {
	lines := append([]string{s.provider}, s.c.foot...)
	if s.chance(50) {
		lines = append(lines, s.say("l.teacher")+":", s.someone().full())
	}
	if s.chance(50) {
		lines = append(lines, s.say("l.code"), s.code())
	}
	return lines
}

// panel sets lines in a narrow column at the left or at the right, without a bar behind
// them, level with the body.
func (p *page) panel(lines []string) {
	const narrow = 46
	top := p.GetY()
	x := p.left
	if p.chance(35) {
		x = p.left + p.width - narrow
	} else {
		p.left += narrow + 8
		p.SetLeftMargin(p.left)
	}
	p.width -= narrow + 8
	for i, line := range lines {
		height := p.set("body", i == 0)
		p.SetX(x)
		p.MultiCell(narrow, height, p.cp(line), "", "L", false)
		p.Ln(float64(oneOf(p.draw, 1, 2, 4)))
	}
	p.SetXY(p.left, top)
}

// A lens is how a camera sees a page: askew, and unevenly lit. The zero lens is a scanner.
type lens struct{ keystone, skew, dark float64 }

// drawLens makes one page in five a photograph; h is its height in dots.
func drawLens(d draw, h int) lens {
	if !d.chance(20) {
		return lens{}
	}
	return lens{
		keystone: (d.r.Float64()*0.10 - 0.05) / float64(h),
		skew:     d.r.Float64()*0.04 - 0.02,
		dark:     0.10 + 0.30*d.r.Float64(),
	}
}

// bend returns what the lens shows at a point, both measured from the middle.
func (l lens) bend(x, y float64) (float64, float64) { return x*(1+l.keystone*y) + l.skew*y, y }

// light is the share of light that a dot gets.
func (l lens) light(x, y, w, h int) float64 {
	return 1 - l.dark*(float64(x)/float64(w)+float64(y)/float64(h))/2
}
