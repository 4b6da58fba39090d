package page

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"github.com/klippa-app/go-pdfium/enums"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
	"github.com/klippa-app/go-pdfium/structs"
)

// errCrowded says that a page has more letters than are read.
var errCrowded = errors.New("more letters than are read of one page")

// sheet is a page being read.
type sheet struct {
	page  Page
	need  bool // its letters must be recognised
	view  affine
	width float64 // as displayed, in points
	high  float64
	odd   bool // letters may be drawn invisibly or faintly
}

// affine turns page coordinates into those of the display, in hundredths of a point.
type affine struct{ xx, xy, x0, yx, yy, y0 float64 }

func (a affine) at(x, y float64) (float64, float64) {
	return a.xx*x + a.xy*y + a.x0, a.yx*x + a.yy*y + a.y0
}

// turn returns the quarters clockwise by which the page must be turned for a line that
// runs in the direction (x, y) of its own coordinates to run to the right.
func (a affine) turn(x, y float64) int {
	dx, dy := a.xx*x+a.xy*y, a.yx*x+a.yy*y
	switch {
	case math.Abs(dx) >= math.Abs(dy) && dx >= 0:
		return 0
	case math.Abs(dx) >= math.Abs(dy):
		return 2
	case dy > 0: // down the page
		return 3
	}
	return 1
}

// box returns the upright box around a rectangle of page coordinates.
func (a affine) box(l, b, r, t float64) [4]int {
	x1, y1 := a.at(l, b)
	x2, y2 := a.at(r, t)
	return [4]int{hundredths(min(x1, x2) / 100), hundredths(min(y1, y2) / 100), hundredths(max(x1, x2) / 100), hundredths(max(y1, y2) / 100)}
}

// sheet reads page n, counted from 1. An error that is not [trapped] means that this
// one page cannot be read.
func (e *engine) sheet(doc references.FPDF_DOCUMENT, n int) (sheet, error) {
	loaded, err := e.pdf.FPDF_LoadPage(&requests.FPDF_LoadPage{Document: doc, Index: n - 1})
	if err != nil {
		return sheet{}, err
	}
	ref := loaded.Page
	fields, annotated := e.fields(ref)
	if annotated {
		if ref, err = e.flatten(doc, ref, n); err != nil {
			return sheet{}, err
		}
	}
	page := requests.Page{ByReference: &ref}
	s, err := e.measure(page, n)
	if err != nil {
		return s, err
	}
	c := e.covers(page, s)
	s.odd, s.page.Rules = c.odd, c.rules
	chars, err := e.chars(page, s)
	if err != nil {
		return s, err
	}
	s.page.Words = words(evenGaps(chars), s.page.Width, s.page.Height)
	s.page.Words = withFields(s.page.Words, fields, s.view)
	if err := e.hideUnseen(page, &s, c); err != nil {
		return s, err
	}
	s.need, s.page.Words = mustRecognise(s.page.Words, c.pictured)
	laidDown(s.page.Words, s.page.Width, s.page.Height)
	level(s.page.Words)
	_, err = e.pdf.FPDF_ClosePage(&requests.FPDF_ClosePage{Page: ref})
	return s, err
}

// flatten writes what is filled in and stamped on into the page, in memory only.
func (e *engine) flatten(doc references.FPDF_DOCUMENT, ref references.FPDF_PAGE, n int) (references.FPDF_PAGE, error) {
	// A page that cannot be flattened is read as it is.
	if _, err := e.pdf.FPDFPage_Flatten(&requests.FPDFPage_Flatten{Page: requests.Page{ByReference: &ref}, Usage: requests.FPDFPage_FlattenUsageNormalDisplay}); trapped(err) {
		return ref, err
	}
	if _, err := e.pdf.FPDF_ClosePage(&requests.FPDF_ClosePage{Page: ref}); err != nil {
		return ref, err
	}
	again, err := e.pdf.FPDF_LoadPage(&requests.FPDF_LoadPage{Document: doc, Index: n - 1})
	if err != nil {
		return ref, err
	}
	return again.Page, nil
}

// measure finds the page's size as displayed, and the way from its own coordinates
// to those of the display by three points, as the engine rounds to whole units.
func (e *engine) measure(page requests.Page, n int) (sheet, error) {
	w, err := e.pdf.FPDF_GetPageWidthF(&requests.FPDF_GetPageWidthF{Page: page})
	if err != nil {
		return sheet{}, err
	}
	h, err := e.pdf.FPDF_GetPageHeightF(&requests.FPDF_GetPageHeightF{Page: page})
	if err != nil {
		return sheet{}, err
	}
	s := sheet{width: float64(w.PageWidth), high: float64(h.PageHeight)}
	s.page = Page{Number: n, Width: hundredths(s.width), Height: hundredths(s.high)}
	if s.page.Width <= 0 || s.page.Height <= 0 || s.page.Width > 2_000_000 || s.page.Height > 2_000_000 {
		return s, fmt.Errorf("page %d: a size of %d by %d hundredths of a point", n, s.page.Width, s.page.Height)
	}
	const far = 1000
	var x, y [3]float64
	for i, p := range [3][2]float64{{0, 0}, {far, 0}, {0, far}} {
		d, err := e.pdf.FPDF_PageToDevice(&requests.FPDF_PageToDevice{Page: page, SizeX: s.page.Width, SizeY: s.page.Height, PageX: p[0], PageY: p[1]})
		if err != nil {
			return s, err
		}
		x[i], y[i] = float64(d.DeviceX), float64(d.DeviceY)
	}
	s.view = affine{(x[1] - x[0]) / far, (x[2] - x[0]) / far, x[0], (y[1] - y[0]) / far, (y[2] - y[0]) / far, y[0]}
	return s, nil
}

// field is a form field, or a text set on the page: where it stands, and what it holds.
type field struct {
	rect  structs.FPDF_FS_RECTF
	value string
	form  bool
	box   bool // it is a box to tick, and its value a mark
}

// How a box to tick of a form stands in the text of a page.
const (
	Ticked   = "☒"
	Unticked = "☐"
)

// fields lists the form fields and set-on texts of a page, and says whether anything lies on it that
// must be flattened to be read.
func (e *engine) fields(ref references.FPDF_PAGE) (found []field, annotated bool) {
	page := requests.Page{ByReference: &ref}
	count, err := e.pdf.FPDFPage_GetAnnotCount(&requests.FPDFPage_GetAnnotCount{Page: page})
	if err != nil {
		return nil, false
	}
	for i := 0; i < min(count.Count, 1000); i++ {
		an, err := e.pdf.FPDFPage_GetAnnot(&requests.FPDFPage_GetAnnot{Page: page, Index: i})
		if err != nil {
			continue
		}
		kind, err := e.pdf.FPDFAnnot_GetSubtype(&requests.FPDFAnnot_GetSubtype{Annotation: an.Annotation})
		if err == nil && kind.Subtype != enums.FPDF_ANNOT_SUBTYPE_LINK && kind.Subtype != enums.FPDF_ANNOT_SUBTYPE_POPUP {
			annotated = true
		}
		if err == nil && (kind.Subtype == enums.FPDF_ANNOT_SUBTYPE_WIDGET || kind.Subtype == enums.FPDF_ANNOT_SUBTYPE_FREETEXT) {
			if f, ok := e.field(an.Annotation, kind.Subtype == enums.FPDF_ANNOT_SUBTYPE_WIDGET); ok {
				found = append(found, f)
			}
		}
		// Handles that stay open go with the document.
		_, _ = e.pdf.FPDFPage_CloseAnnot(&requests.FPDFPage_CloseAnnot{Annotation: an.Annotation})
	}
	return found, annotated
}

func (e *engine) field(an references.FPDF_ANNOTATION, form bool) (field, bool) {
	flags, err := e.pdf.FPDFAnnot_GetFlags(&requests.FPDFAnnot_GetFlags{Annotation: an})
	if err != nil || flags.Flags&(enums.FPDF_ANNOT_FLAG_HIDDEN|enums.FPDF_ANNOT_FLAG_NOVIEW) != 0 {
		return field{}, false
	}
	rect, err := e.pdf.FPDFAnnot_GetRect(&requests.FPDFAnnot_GetRect{Annotation: an})
	if err != nil {
		return field{}, false
	}
	f := field{rect: rect.Rect, form: form}
	key := "Contents"
	if form {
		if f.value, f.box = e.ticked(an); f.box {
			return f, true
		}
		kind, err := e.pdf.FPDFAnnot_GetStringValue(&requests.FPDFAnnot_GetStringValue{Annotation: an, Key: "FT"})
		if err != nil || kind.Value == "Btn" || kind.Value == "Sig" {
			return f, true
		}
		key = "V"
	}
	if v, err := e.pdf.FPDFAnnot_GetStringValue(&requests.FPDFAnnot_GetStringValue{Annotation: an, Key: key}); err == nil {
		f.value = plain(v.Value, 2000)
	}
	return f, true
}

// ticked returns the mark of a box to tick; false for any other field. Of a box the file says which of
// its appearances shows. Source: ISO 32000-1, section 12.7.4.2.3 (check boxes).
func (e *engine) ticked(an references.FPDF_ANNOTATION) (string, bool) {
	state, err := e.pdf.FPDFAnnot_GetStringValue(&requests.FPDFAnnot_GetStringValue{Annotation: an, Key: "AS"})
	switch {
	case err != nil || state.Value == "":
		return "", false
	case state.Value == "Off":
		return Unticked, true
	}
	return Ticked, true
}

// withFields marks the words that stand in a form field, and adds the content of
// fields of which the file holds no appearance.
func withFields(ws []Word, fields []field, view affine) []Word {
	for _, f := range fields {
		box := view.box(float64(f.rect.Left), float64(f.rect.Bottom), float64(f.rect.Right), float64(f.rect.Top))
		within := func(w Word) bool {
			x, y := (w.Box[0]+w.Box[2])/2, (w.Box[1]+w.Box[3])/2
			return x >= box[0] && x <= box[2] && y >= box[1] && y <= box[3]
		}
		if f.box {
			ws = slices.DeleteFunc(ws, within) // the letter by which the tick is drawn
		}
		seen := false
		for i := range ws {
			if within(ws[i]) {
				ws[i].Form, seen = ws[i].Form || f.form, true
			}
		}
		if seen {
			continue
		}
		for _, t := range strings.Fields(f.value) {
			ws = append(ws, Word{Text: t, Box: box, Confidence: 100, Form: f.form, typed: true})
		}
	}
	return ws
}

// mustRecognise says whether the letters of a page must be read off its picture, and
// which of its words are kept beside them.
func mustRecognise(ws []Word, pictured int) (bool, []Word) {
	shown, lost, private, runes := 0, 0, 0, 0
	for _, w := range ws {
		if w.Hidden {
			continue
		}
		shown++
		for _, r := range w.Text {
			runes++
			switch {
			case unicode.Is(unicode.Co, r):
				private++
			case r == unicode.ReplacementChar || unicode.IsControl(r):
				lost++
			}
		}
	}
	switch {
	case shown == 0:
		return true, ws
	// Its fonts do not say which letters they draw. A bullet is often a letter for
	// private use, so a few of these say nothing.
	case lost*30 > runes, private*5 > runes:
		return true, nil
	case garbled(ws):
		for i := range ws {
			ws[i].Veiled = true
		}
		return true, ws
	case shown <= 15 && pictured >= 60: // a scan with a stamp or a line set on it
		return true, ws
	}
	return false, ws
}
