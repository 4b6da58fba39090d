package page

import (
	"math"
	"strings"
	"unicode"

	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
)

// char is one letter as the engine gives it, its box in hundredths of a point.
type char struct {
	r     rune
	box   [4]int
	made  bool // put in by the engine: a space or a line end
	size  int  // 0 where it was not looked up: the same as the letter before
	bold  bool
	ghost bool // drawn invisibly
	faint bool // drawn nearly white or nearly clear
	slant bool // it runs across the page, as a mark behind the text does
	turn  int  // quarters clockwise by which the page must be turned for it to run to the right
}

// chars reads the letters of a page in the order of its content. What all letters of
// a word share is looked up at its first one.
func (e *engine) chars(page requests.Page, s sheet) ([]char, error) {
	text, err := e.pdf.FPDFText_LoadPage(&requests.FPDFText_LoadPage{Page: page})
	if err != nil {
		return nil, err
	}
	tp := text.TextPage
	count, err := e.pdf.FPDFText_CountChars(&requests.FPDFText_CountChars{TextPage: tp})
	if err != nil {
		return nil, err
	}
	if count.Count > mostChars {
		return nil, errCrowded
	}
	out := make([]char, 0, count.Count)
	first := true
	var prev char // the last letter
	for i := range count.Count {
		u, err := e.pdf.FPDFText_GetUnicode(&requests.FPDFText_GetUnicode{TextPage: tp, Index: i})
		if err != nil {
			return nil, err
		}
		c := char{r: rune(uint32(u.Unicode))}
		if spaced(c.r) {
			out, first = append(out, char{r: ' ', made: true}), true
			continue
		}
		if err := e.place(tp, i, s, &c); err != nil {
			if trapped(err) {
				return nil, err
			}
			continue
		}
		if first || !like(out, c) {
			e.style(tp, i, s, &c, prev)
		} else {
			c.size, c.bold, c.ghost, c.faint, c.turn, c.slant = prev.size, prev.bold, prev.ghost, prev.faint, prev.turn, prev.slant
		}
		first, prev = false, c
		out = append(out, c)
	}
	_, err = e.pdf.FPDFText_ClosePage(&requests.FPDFText_ClosePage{TextPage: tp})
	return out, err
}

// like says whether c seems to continue the run of the letter before it.
func like(out []char, c char) bool {
	if len(out) == 0 {
		return false
	}
	p := out[len(out)-1]
	return !p.made && p.box[1] == c.box[1] && p.box[3] == c.box[3]
}

// place finds the letter's box: the one of its font's height and advance, or the one
// of its ink where a font gives no sensible height.
func (e *engine) place(tp references.FPDF_TEXTPAGE, i int, s sheet, c *char) error {
	loose, err := e.pdf.FPDFText_GetLooseCharBox(&requests.FPDFText_GetLooseCharBox{TextPage: tp, Index: i})
	if err == nil {
		r := loose.Rect
		c.box = s.view.box(float64(r.Left), float64(r.Bottom), float64(r.Right), float64(r.Top))
		if w, h := c.box[2]-c.box[0], c.box[3]-c.box[1]; w > 0 && h > 0 && w < 60_000 && h < 60_000 {
			return nil
		}
	} else if trapped(err) {
		return err
	}
	tight, err := e.pdf.FPDFText_GetCharBox(&requests.FPDFText_GetCharBox{TextPage: tp, Index: i})
	if err != nil {
		return err
	}
	c.box = s.view.box(tight.Left, tight.Bottom, tight.Right, tight.Top)
	return nil
}

// style looks up size, weight and way of drawing. What the engine does not know stays
// at its zero. A letter as high as the one before it, on its line, has that one's size.
func (e *engine) style(tp references.FPDF_TEXTPAGE, i int, s sheet, c *char, prev char) {
	if prev.size > 0 && prev.box[1] == c.box[1] && prev.box[3] == c.box[3] {
		c.size, c.turn, c.slant = prev.size, prev.turn, prev.slant
	} else if size, err := e.pdf.FPDFText_GetFontSize(&requests.FPDFText_GetFontSize{TextPage: tp, Index: i}); err == nil {
		c.size = hundredths(size.FontSize)
		if m, err := e.pdf.FPDFText_GetMatrix(&requests.FPDFText_GetMatrix{TextPage: tp, Index: i}); err == nil {
			c.size = hundredths(size.FontSize * math.Hypot(float64(m.Matrix.C), float64(m.Matrix.D)))
			c.turn = s.view.turn(float64(m.Matrix.A), float64(m.Matrix.B))
			a, b := math.Abs(float64(m.Matrix.A)), math.Abs(float64(m.Matrix.B))
			c.slant = 4*min(a, b) > max(a, b) // more than 14 degrees
		}
	}
	if w, err := e.pdf.FPDFText_GetFontWeight(&requests.FPDFText_GetFontWeight{TextPage: tp, Index: i}); err == nil && w.FontWeight >= 600 {
		c.bold = true
	}
	if c.bold {
		// enough is known
	} else if f, err := e.pdf.FPDFText_GetFontInfo(&requests.FPDFText_GetFontInfo{TextPage: tp, Index: i}); err == nil {
		c.bold = boldName(f.FontName) || f.Flags&(1<<18) != 0
	}
	if !s.odd {
		return
	}
	if f, err := e.pdf.FPDFText_GetFillColor(&requests.FPDFText_GetFillColor{TextPage: tp, Index: i}); err == nil {
		c.faint = pale(f.R, f.G, f.B, f.A)
	}
	obj, err := e.pdf.FPDFText_GetTextObject(&requests.FPDFText_GetTextObject{TextPage: tp, Index: i})
	if err == nil {
		c.ghost = e.ghost(obj.TextObject)
	}
}

func boldName(name string) bool {
	low := strings.ToLower(name)
	for _, part := range []string{"bold", "black", "heavy", "-demi", "semibd", "extrabd"} {
		if strings.Contains(low, part) {
			return true
		}
	}
	return false
}

// words groups letters into words: at spaces, at gaps wider than a third of the
// letters' height, and where the next letter stands on another line.
func words(chars []char, width, height int) []Word {
	var out []Word
	var text strings.Builder
	var w Word
	var last char
	flush := func() {
		if text.Len() > 0 {
			w.Text, w.Confidence = unmangled(text.String()), 100
			w.Hidden = w.Hidden || outside(w.Box, width, height)
			out = append(out, w)
		}
		text.Reset()
	}
	for _, c := range chars {
		if c.made {
			flush()
			continue
		}
		letters := expand(c.r)
		if letters == "" {
			continue
		}
		if text.Len() > 0 && (last.slant != c.slant || !c.slant && parted(last, c)) {
			flush()
		}
		if text.Len() == 0 {
			w = Word{Box: c.box, Size: c.size, Bold: c.bold, Hidden: c.ghost || tiny(c.size), faint: c.faint, turn: c.turn, Across: c.slant}
		}
		text.WriteString(letters)
		w.Box = [4]int{min(w.Box[0], c.box[0]), min(w.Box[1], c.box[1]), max(w.Box[2], c.box[2]), max(w.Box[3], c.box[3])}
		last = c
	}
	flush()
	return out
}

// laidDown gives the words of a page on which most letters run up, down or upside down
// their places on the page turned so that they run to the right.
func laidDown(ws []Word, width, height int) {
	var letters [4]int
	all := 0
	for _, w := range ws {
		if !w.Hidden {
			letters[w.turn&3] += len(w.Text)
			all += len(w.Text)
		}
	}
	for turn := 1; turn < 4; turn++ {
		if letters[turn]*5 < all*3 || all < 20 {
			continue
		}
		for i := range ws {
			w, h := width, height
			b := ws[i].Box
			for range turn {
				b = [4]int{h - b[3], b[0], h - b[1], b[2]}
				w, h = h, w
			}
			ws[i].Laid = b
		}
	}
}

// level takes words that run across the page for such as stand in lines where most do: the page was laid down askew.
func level(ws []Word) {
	across, all := 0, 0
	for _, w := range ws {
		all += len(w.Text)
		if w.Across {
			across += len(w.Text)
		}
	}
	if 3*across <= all {
		return
	}
	for i := range ws {
		ws[i].Across = false
	}
}

// tiny letters, below a point and a half, nobody reads. Size 0 is unknown.
func tiny(size int) bool { return size > 0 && size < 150 }

// parted says whether two letters that follow each other belong to different words.
func parted(a, b char) bool {
	if a.ghost != b.ghost || restyled(a, b) {
		return true
	}
	gap := func(lo, hi int) int { return max(b.box[lo]-a.box[hi], a.box[lo]-b.box[hi]) }
	across, down := gap(0, 2), gap(1, 3)
	// The letters' height is the smaller side of the line, whichever way it runs.
	em := max(1, min(a.box[3]-a.box[1], 4*(a.box[2]-a.box[0])))
	if down > 0 && across > 0 {
		return true
	}
	return max(across, down)*3 > em && max(across, down) > 60
}

// restyled reports two small letters of one height of which only one is bold: hardly any
// word changes its type in the middle, but a space is soon lost where the type changes.
func restyled(a, b char) bool {
	return a.bold != b.bold && a.size == b.size && unicode.IsLower(a.r) && unicode.IsLower(b.r)
}

func outside(b [4]int, width, height int) bool {
	x, y := (b[0]+b[2])/2, (b[1]+b[3])/2
	return x < 0 || y < 0 || x > width || y > height
}

// spaced says whether r parts words.
func spaced(r rune) bool { return unicode.IsSpace(r) || r == 0 || r == 0x200b || r == 0xfeff }

// expand returns what a letter stands for: a ligature its letters, the engine's mark
// of a hyphen at a line's end a hyphen, marks of writing direction nothing.
func expand(r rune) string {
	switch r {
	case 0xfb00:
		return "ff"
	case 0xfb01:
		return "fi"
	case 0xfb02:
		return "fl"
	case 0xfb03:
		return "ffi"
	case 0xfb04:
		return "ffl"
	case 0xfb05, 0xfb06:
		return "st"
	case 0x02, 0xfffe, 0xad:
		return "-"
	case 0x200c, 0x200d, 0x200e, 0x200f, 0x202a, 0x202b, 0x202c, 0x202d, 0x202e, 0x2066, 0x2067, 0x2068, 0x2069:
		return ""
	}
	if r < ' ' || r > unicode.MaxRune || (r >= 0xd800 && r < 0xe000) {
		return string(unicode.ReplacementChar)
	}
	return string(r)
}
