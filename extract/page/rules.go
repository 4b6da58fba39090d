package page

import (
	"github.com/klippa-app/go-pdfium/enums"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
)

const (
	mostRules    = 1500 // of a page
	mostSegments = 200  // of one drawn path: one of more is a picture
	ruleWidth    = 250  // the most of a rule, in hundredths of a point
	ruleLength   = 700  // the least
)

// rules returns the level and upright straight lines of a drawn path, as boxes of the display: the edges of a
// rectangle, the lines of a grid, a single rule. What is painted white or not at all has none.
func (e *engine) rules(obj references.FPDF_PAGEOBJECT, s sheet, bounds [4]int) [][4]int {
	mode, err := e.pdf.FPDFPath_GetDrawMode(&requests.FPDFPath_GetDrawMode{PageObject: obj})
	if err != nil || !mode.Stroke && (mode.FillMode == enums.FPDF_FILLMODE_NONE || e.white(obj)) {
		return nil
	}
	if isRule(bounds) {
		return [][4]int{bounds}
	}
	if bounds[2]-bounds[0] < ruleLength || bounds[3]-bounds[1] < ruleLength {
		return nil
	}
	n, err := e.pdf.FPDFPath_CountSegments(&requests.FPDFPath_CountSegments{PageObject: obj})
	if err != nil || n.Count > mostSegments {
		return nil
	}
	m, err := e.pdf.FPDFPageObj_GetMatrix(&requests.FPDFPageObj_GetMatrix{PageObject: obj})
	if err != nil {
		return nil
	}
	own := affine{float64(m.Matrix.A), float64(m.Matrix.C), float64(m.Matrix.E), float64(m.Matrix.B), float64(m.Matrix.D), float64(m.Matrix.F)}
	var out [][4]int
	line := func(a, b [2]float64) {
		if box := s.view.box(a[0], a[1], b[0], b[1]); isRule(box) {
			out = append(out, box)
		}
	}
	var begin, last [2]float64
	for i := 0; i < n.Count; i++ {
		seg, err := e.pdf.FPDFPath_GetPathSegment(&requests.FPDFPath_GetPathSegment{PageObject: obj, Index: i})
		if err != nil {
			return out
		}
		at, err := e.pdf.FPDFPathSegment_GetPoint(&requests.FPDFPathSegment_GetPoint{PathSegment: seg.PathSegment})
		if err != nil {
			return out
		}
		kind, err := e.pdf.FPDFPathSegment_GetType(&requests.FPDFPathSegment_GetType{PathSegment: seg.PathSegment})
		if err != nil {
			return out
		}
		var to [2]float64
		to[0], to[1] = own.at(float64(at.X), float64(at.Y))
		switch kind.Type {
		case enums.FPDF_SEGMENT_MOVETO:
			begin = to
		case enums.FPDF_SEGMENT_LINETO:
			line(last, to)
		}
		last = to
		if shut, err := e.pdf.FPDFPathSegment_GetClose(&requests.FPDFPathSegment_GetClose{PathSegment: seg.PathSegment}); err == nil && shut.IsClose {
			line(last, begin)
			last = begin
		}
	}
	return out
}

// isRule reports a box that is long and thin, either way.
func isRule(b [4]int) bool {
	w, h := b[2]-b[0], b[3]-b[1]
	return min(w, h) <= ruleWidth && max(w, h) >= ruleLength
}
