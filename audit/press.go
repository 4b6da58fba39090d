package audit

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"

	"evidencevault/credit"
)

// Sizes of a printed page, in points (A4, and well within Letter's height).
const (
	pageMargin = 48
	pageFoot   = 44
	textSize   = 9.5
	lineFactor = 1.35
)

// mostShown bounds how many characters of one text are printed.
const mostShown = 400

// press prints pages as PDF. Its fonts are the Go fonts (BSD licence, with package
// golang.org/x/image); a character that they lack is printed as its number, so that
// none is lost unseen.
type press struct {
	*fpdf.Fpdf
	w    *wording
	font *sfnt.Font
	have map[rune]bool
	foot string
	set  typeface // that is set; zero: not known
}

// typeface is a font in a size.
type typeface struct {
	family, style string
	size          float64
}

// SetFont sets a font, unless it is set already: the library would write it down again.
func (p *press) SetFont(family, style string, size float64) {
	if f := (typeface{family, style, size}); f != p.set {
		p.set = f
		p.Fpdf.SetFont(family, style, size)
	}
}

// newPress begins a document. Equal calls give equal bytes: its dates are that of the
// figures.
func newPress(w *wording, title, author string, on credit.Date) (*press, error) {
	font, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		return nil, err
	}
	p := &press{Fpdf: fpdf.New("P", "pt", "A4", ""), w: w, font: font, have: map[rune]bool{}}
	y, m, d := on.YMD()
	if on.IsZero() {
		y, m, d = 1970, 1, 1
	}
	day := time.Date(y, time.Month(m), d, 0, 0, 0, 0, time.UTC)
	p.SetCreationDate(day)
	p.SetModificationDate(day)
	p.SetCatalogSort(true)
	p.SetProducer("evidence vault", true)
	p.SetTitle(p.clean(title), true)
	p.SetAuthor(p.clean(author), true)
	p.SetLang(w.tag)
	p.AddUTF8FontFromBytes("text", "", slices.Clone(goregular.TTF)) // the library writes into what it is given
	p.AddUTF8FontFromBytes("text", "B", slices.Clone(gobold.TTF))
	p.AddUTF8FontFromBytes("mono", "", slices.Clone(gomono.TTF))
	p.SetCompression(false) // see squeeze
	p.SetMargins(pageMargin, pageMargin, pageMargin)
	p.SetAutoPageBreak(false, pageFoot)
	p.SetDisplayMode("fullpage", "single")
	p.foot = p.clean(title)
	p.SetFooterFunc(p.footer)
	return p, p.Error()
}

// Output writes the document, with its pages deflated. The library writes it at once.
func (p *press) Output(w io.Writer) error {
	return p.Fpdf.Output(squeezer{w, strconv.Itoa(p.PageCount())})
}

func (p *press) footer() {
	width, height := p.GetPageSize()
	p.SetFont("text", "", 7.5)
	p.SetTextColor(90, 90, 90)
	p.SetXY(pageMargin, height-30)
	p.CellFormat(width-2*pageMargin-90, 10, p.fitted(p.foot, width-2*pageMargin-90), "", 0, "L", false, 0, "")
	p.CellFormat(90, 10, p.w.say("page of", p.PageNo()), "", 0, "R", false, 0, "")
	p.SetTextColor(0, 0, 0)
	p.set = typeface{} // the library goes back to the font that it had before
}

// clean makes text fit for printing: no control characters, no marks that turn the
// direction of writing, and the number of each character that the font lacks.
func (p *press) clean(s string) string {
	if isPlain(s) {
		return s
	}
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == utf8.RuneError || unicode.Is(unicode.Bidi_Control, r) || r == '\u2060' || r == '\ufeff' || r == '\u00ad':
		case unicode.IsSpace(r) || unicode.IsControl(r):
			b.WriteByte(' ')
		case r < utf8.RuneSelf || p.has(r):
			b.WriteRune(r)
		default:
			fmt.Fprintf(&b, "[U+%04X]", r)
		}
	}
	return b.String()
}

// isPlain reports whether s has nothing but letters and signs of ASCII, which the font has.
func isPlain(s string) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return false
		}
	}
	return true
}

func (p *press) has(r rune) bool {
	known, seen := p.have[r]
	if !seen {
		var buffer sfnt.Buffer
		glyph, err := p.font.GlyphIndex(&buffer, r)
		known = err == nil && glyph != 0
		p.have[r] = known
	}
	return known
}

// shown is clean, cut short if it is very long.
func (p *press) shown(s string) string {
	if n := utf8.RuneCountInString(s); n > mostShown {
		s = string([]rune(s)[:mostShown]) + p.w.say("cut short", n)
	}
	if !isPlain(s) || strings.Contains(s, "  ") || strings.HasPrefix(s, " ") || strings.HasSuffix(s, " ") {
		s = strings.Join(strings.Fields(s), " ")
	}
	return p.clean(s)
}

// fitted cuts a line that is wider than width.
func (p *press) fitted(s string, width float64) string {
	if p.GetStringWidth(s) <= width {
		return s
	}
	r := []rune(s)
	for len(r) > 1 && p.GetStringWidth(string(r)+"…") > width {
		r = r[:len(r)-1]
	}
	return string(r) + "…"
}

// room begins a new page unless so much height is left on this one.
func (p *press) room(height float64) {
	if _, page := p.GetPageSize(); p.GetY()+height > page-pageFoot {
		p.AddPage()
	}
}

func (p *press) inner() float64 {
	width, _ := p.GetPageSize()
	return width - 2*pageMargin
}

// heading prints a heading with its bookmark.
func (p *press) heading(level int, text string) {
	size := []float64{17, 13, 10.5}[level]
	p.room(size * 4)
	if p.GetY() > pageMargin+1 {
		p.SetY(p.GetY() + size*0.7)
	}
	text = p.shown(text)
	p.Bookmark(text, level, -1)
	p.SetFont("text", "B", size)
	p.lines(text, size*1.25, p.inner())
	p.SetY(p.GetY() + size*0.25)
}

// paragraph prints a text over as many lines and pages as it takes.
func (p *press) paragraph(text string) {
	p.SetFont("text", "", textSize)
	p.lines(text, textSize*lineFactor, p.inner())
	p.SetY(p.GetY() + 3)
}

// itemHeight is the height that an item needs on one page: all of a short one, a line of a
// longer one.
func (p *press) itemHeight(text string) float64 {
	const height, kept = textSize * lineFactor, 5
	p.SetFont("text", "", textSize)
	if lines := len(p.SplitText(text, p.inner()-16)); lines <= kept {
		return float64(lines) * height
	}
	return height
}

// item prints a text with a mark before it; a short one is kept on one page.
func (p *press) item(mark, text string) {
	p.room(p.itemHeight(text))
	p.SetX(pageMargin)
	y := p.GetY()
	p.Text(pageMargin, y+textSize, mark)
	p.SetLeftMargin(pageMargin + 16)
	p.SetXY(pageMargin+16, y)
	p.lines(text, textSize*lineFactor, p.inner()-16)
	p.SetLeftMargin(pageMargin)
	p.SetY(p.GetY() + 1.5)
}

// lines prints wrapped text in the font that is set.
func (p *press) lines(text string, height, width float64) {
	for _, line := range p.SplitText(text, width) {
		p.room(height)
		p.CellFormat(width, height, strings.TrimRight(line, " "), "", 2, "L", false, 0, "")
	}
}
