package main

import (
	"image"
	"image/color"
	"testing"

	"evidencevault/extract"
	"evidencevault/extract/paper"
)

// The picture of a trace has a box around every line, around each value that was taken and
// around each that was not, where they stand; that of an open value is broken, and the
// names of the fields stand in the margin.
func TestTracePictureHasItsBoxes(t *testing.T) {
	line, taken, open, left := paper.Box{5000, 5000, 30000, 7000}, paper.Box{5000, 20000, 30000, 22000}, paper.Box{5000, 30000, 30000, 32000}, paper.Box{5000, 40000, 30000, 42000}
	at := func(value string, box paper.Box) extract.TracedCandidate {
		return extract.TracedCandidate{Value: value, Place: paper.Place{Page: 1, Box: box}}
	}
	trace := &extract.Trace{
		Text: []extract.TracedText{{Page: 1, Box: line}, {Page: 2, Box: paper.Box{5000, 60000, 30000, 62000}}},
		Fields: []extract.TracedField{
			{Field: paper.FieldTitle, Value: "Ropes", Certain: true, Candidates: []extract.TracedCandidate{at("Ropes", taken), at("Knots", left)}},
			{Field: paper.FieldEnd, Value: "2026-03-03", Candidates: []extract.TracedCandidate{at("2026-03-03", open)}},
		},
	}
	white := image.NewRGBA(image.Rect(0, 0, 595, 842))
	for i := range white.Pix {
		white.Pix[i] = 255
	}
	d := newTracePage(white, [2]int{59500, 84200})
	d.draw(trace, 1)
	tests := []struct {
		name   string
		box    paper.Box
		ink    color.RGBA
		broken bool
	}{{"a line of text", line, inkWord, false}, {"a value", taken, inkTaken, false}, {"an open value", open, inkTaken, true}, {"a candidate that was not taken", left, inkOther, true}}
	for _, tt := range tests {
		inked, all := 0, 0
		r := d.onCanvas(tt.box)
		for x := r.Min.X; x < r.Max.X; x++ {
			for _, y := range []int{r.Min.Y, r.Max.Y - 1} {
				if all++; d.canvas.RGBAAt(x, y) == tt.ink {
					inked++
				}
			}
		}
		if tt.broken && (inked < all/3 || inked > all*2/3) || !tt.broken && inked < all*9/10 {
			t.Errorf("%s: %d of %d dots of its border are drawn", tt.name, inked, all)
		}
	}
	if d.canvas.RGBAAt(100, 610) != (color.RGBA{255, 255, 255, 255}) {
		t.Error("something of page 2 is drawn on page 1")
	}
	names := 0
	for x := d.page.Max.X; x < d.canvas.Rect.Max.X; x++ {
		for y := range d.canvas.Rect.Max.Y {
			if d.canvas.RGBAAt(x, y) == inkTaken {
				names++
			}
		}
	}
	if names < 100 {
		t.Errorf("%d dots in the margin: want the names of two fields", names)
	}
}
