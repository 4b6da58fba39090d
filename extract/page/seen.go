package page

import (
	"image"

	"github.com/klippa-app/go-pdfium/enums"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
)

const (
	mostObjects = 2000 // of a page, that are looked at
	seenDPI     = 50
	contrast    = 20 // steps of grey, of 255, by which ink must stand out to be seen
)

// covers is what lies on a page besides letters.
type covers struct {
	boxes    [][4]int // of pictures, drawn-in pages, and painted shapes
	pictured int      // hundredths of the page that the largest picture covers
	odd      bool     // letters may be drawn invisibly or faintly
	rules    [][4]int // straight lines that are drawn, level or upright
}

// covers lists what could lie over letters or under them. A white ground that is painted
// before anything is written hides nothing.
func (e *engine) covers(page requests.Page, s sheet) covers {
	c := covers{odd: true}
	written := false
	count, err := e.pdf.FPDFPage_CountObjects(&requests.FPDFPage_CountObjects{Page: page})
	if err != nil {
		return c
	}
	c.odd = count.Count > mostObjects
	for i := 0; i < min(count.Count, mostObjects); i++ {
		obj, err := e.pdf.FPDFPage_GetObject(&requests.FPDFPage_GetObject{Page: page, Index: i})
		if err != nil {
			c.odd = true
			return c
		}
		kind, err := e.pdf.FPDFPageObj_GetType(&requests.FPDFPageObj_GetType{PageObject: obj.PageObject})
		if err != nil || kind.Type == enums.FPDF_PAGEOBJ_TEXT {
			written, c.odd = true, c.odd || err != nil || e.ghost(obj.PageObject) || e.faint(obj.PageObject)
			continue
		}
		if kind.Type == enums.FPDF_PAGEOBJ_FORM {
			written, c.odd = true, true // what stands in it is not looked at
		}
		b, err := e.pdf.FPDFPageObj_GetBounds(&requests.FPDFPageObj_GetBounds{PageObject: obj.PageObject})
		if err != nil {
			continue
		}
		box := s.view.box(float64(b.Left), float64(b.Bottom), float64(b.Right), float64(b.Top))
		if kind.Type == enums.FPDF_PAGEOBJ_PATH && len(c.rules) < mostRules {
			c.rules = append(c.rules, e.rules(obj.PageObject, s, box)...)
		}
		if !written && kind.Type == enums.FPDF_PAGEOBJ_PATH && e.white(obj.PageObject) {
			continue
		}
		c.boxes = append(c.boxes, box)
		if kind.Type == enums.FPDF_PAGEOBJ_IMAGE || kind.Type == enums.FPDF_PAGEOBJ_FORM {
			c.pictured = max(c.pictured, share(box, s.page.Width, s.page.Height))
		}
	}
	return c
}

// ghost says whether a text is drawn invisibly.
func (e *engine) ghost(obj references.FPDF_PAGEOBJECT) bool {
	m, err := e.pdf.FPDFTextObj_GetTextRenderMode(&requests.FPDFTextObj_GetTextRenderMode{PageObject: obj})
	return err == nil && (m.TextRenderMode == enums.FPDF_TEXTRENDERMODE_INVISIBLE || m.TextRenderMode == enums.FPDF_TEXTRENDERMODE_CLIP)
}

// faint says whether a text is drawn nearly white or nearly clear, or in what is no plain colour.
func (e *engine) faint(obj references.FPDF_PAGEOBJECT) bool {
	f, err := e.pdf.FPDFPageObj_GetFillColor(&requests.FPDFPageObj_GetFillColor{PageObject: obj})
	return err != nil || pale(f.FillColor.R, f.FillColor.G, f.FillColor.B, f.FillColor.A)
}

// pale says whether ink of a colour is hardly seen on white.
func pale(r, g, b, alpha uint) bool { return min(r, g, b) > 225 || alpha < 40 }

// white says whether a shape is filled with one colour that is white or nearly so.
func (e *engine) white(obj references.FPDF_PAGEOBJECT) bool {
	f, err := e.pdf.FPDFPageObj_GetFillColor(&requests.FPDFPageObj_GetFillColor{PageObject: obj})
	return err == nil && min(f.FillColor.R, f.FillColor.G, f.FillColor.B) > 225
}

// share returns how many hundredths of the page a box covers.
func share(b [4]int, width, height int) int {
	w, h := min(b[2], width)-max(b[0], 0), min(b[3], height)-max(b[1], 0)
	if w <= 0 || h <= 0 {
		return 0
	}
	return int(int64(w) * int64(h) * 100 / (int64(width) * int64(height)))
}

// over says whether a box of c holds the whole of b.
func (c covers) over(b [4]int) bool {
	for _, o := range c.boxes {
		if o[0] <= b[0]+100 && o[1] <= b[1]+100 && o[2] >= b[2]-100 && o[3] >= b[3]-100 {
			return true
		}
	}
	return false
}

// hideUnseen marks words that cannot be seen although they are drawn: white on white,
// or behind something. Only words for which that is possible are looked at, on a
// small picture of the page: where nothing stands out in a word's box, nobody reads it.
func (e *engine) hideUnseen(page requests.Page, s *sheet, c covers) error {
	var doubtful []int
	for i, w := range s.page.Words {
		if !w.Hidden && !w.typed && (w.faint || c.over(w.Box)) {
			doubtful = append(doubtful, i)
		}
	}
	if len(doubtful) == 0 {
		return nil
	}
	dpi := fitting(seenDPI, seenDPI, s.width, s.high)
	res, err := e.pdf.RenderPageInDPI(&requests.RenderPageInDPI{Page: page, DPI: dpi, ImageFormat: requests.RenderImageFormatGrayscale})
	if err != nil {
		if trapped(err) {
			return err
		}
		return nil // a page that cannot be drawn shows nothing, but its text was asked for
	}
	defer res.Cleanup()
	grey, ok := res.Result.RenderedImage.(*image.Gray)
	if !ok {
		return nil
	}
	for _, i := range doubtful {
		w := &s.page.Words[i]
		w.Hidden = flat(grey, w.Box, s.page.Width, s.page.Height)
		w.Veiled = !w.Hidden
	}
	return nil
}

// flat says whether nothing stands out within a box of the page.
func flat(g *image.Gray, box [4]int, width, height int) bool {
	b := g.Bounds()
	r := image.Rect(box[0]*b.Dx()/width, box[1]*b.Dy()/height, box[2]*b.Dx()/width+1, box[3]*b.Dy()/height+1).Intersect(b)
	lo, hi := uint8(255), uint8(0)
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for _, v := range g.Pix[y*g.Stride+r.Min.X : y*g.Stride+r.Max.X] {
			lo, hi = min(lo, v), max(hi, v)
		}
	}
	return r.Empty() || hi-lo < contrast || hi < lo
}
