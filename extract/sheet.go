package extract

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"evidencevault/extract/find"
	"evidencevault/extract/page"
	"evidencevault/extract/paper"
)

// A sheet is a document as it is read: cells in rows, and passages of text that
// run over several of them.
type sheet struct {
	pages    []page.Page
	cells    []cell
	rows     [][]int // indexes of cells, left to right; rows from the top down
	passages []passage
	pairs    []pair
	tables   []table
	formed   map[int]bool // cells that are headings over one row of values
	labels   map[int]bool // cells that the layout shows to be labels
	lang     find.Lang
	langs    find.Languages
	boxed    bool
	usual    int   // size of most of the letters
	stacked  bool  // labels stand alone in the row above their values
	parted   bool  // a page is read in columns
	upward   bool  // labels stand beneath their values, as on a form that is signed
	grid     *grid // of the page whose words are added
}

// A cell is a run of words in one row without a wide gap.
type cell struct {
	text       string
	page       int
	box        paper.Box
	size       int
	bold       bool
	confidence int
	hidden     bool
	row        int
	column     int       // of a line of cells parted by tabs: how many stand before it, empty ones too
	edge       int       // in a narrow column: how far right its lines run; else 0
	ruled      int       // number of the ruled cell of a table on its page; 0 if it stands in none
	room       paper.Box // that ruled cell
	item       bool      // a bullet stands before it
	words      []placed
	passage    int // which passage holds it
	from       int // where in the passage it begins
}

// inColumnOf reports that c stands above or beneath o on its page.
func (c *cell) inColumnOf(o *cell) bool {
	return c.page == o.page && c.box[0] < o.box[2] && o.box[0] < c.box[2]
}

// middle is how far down the page the middle of a cell lies.
func (c *cell) middle() int { return (c.box[1] + c.box[3]) / 2 }

// clearOf reports that c stands wholly to the left or to the right of o; edges that only touch are
// neither this nor a column.
func (c *cell) clearOf(o *cell) bool { return c.box[2] < o.box[0] || c.box[0] > o.box[2] }

// placed is a word with its place in the text of its cell, and its box on the page as displayed.
type placed struct {
	from, to   int
	box        paper.Box
	confidence int
	hidden     bool
	bold       bool
}

// A passage is text that belongs together: a line, or lines joined to a paragraph.
type passage struct {
	text  string
	cells []int
}

// at names a part of a passage.
type at struct {
	passage int
	span    find.Span
}

func (s *sheet) text(a at) string { return a.span.Of(s.passages[a.passage].text) }

// whole returns the part of a passage that a cell fills.
func (s *sheet) whole(c int) at {
	return at{s.cells[c].passage, find.Span{From: s.cells[c].from, To: s.cells[c].from + len(s.cells[c].text)}}
}

// place returns where a stands, and the least confidence of its words.
func (s *sheet) place(a at) (paper.Place, int, bool) {
	p := paper.Place{Quote: strings.TrimSpace(s.text(a))}
	confidence, hidden := 100, false
	for _, ci := range s.passages[a.passage].cells {
		c := &s.cells[ci]
		for _, w := range c.words {
			if c.from+w.from >= a.span.To || c.from+w.to <= a.span.From {
				continue
			}
			if p.Page == 0 {
				p.Page = c.page
			}
			if p.Page == c.page {
				p.Box = p.Box.Union(w.box)
			}
			confidence, hidden = min(confidence, w.confidence), hidden || w.hidden
		}
		if p.Page == 0 && c.from < a.span.To && c.from+len(c.text) > a.span.From {
			p.Page = c.page
		}
	}
	p.Page = max(p.Page, 1)
	return p, confidence, hidden
}

// cellAt returns the cell in which a begins.
func (s *sheet) cellAt(a at) int {
	cells := s.passages[a.passage].cells
	found := cells[0]
	for _, ci := range cells {
		if s.cells[ci].from <= a.span.From {
			found = ci
		}
	}
	return found
}

// newSheet lays out pages.
func newSheet(doc page.Document, pages []page.Page) *sheet {
	s := &sheet{pages: pages, formed: map[int]bool{}}
	for _, p := range pages {
		if len(p.Words) > 0 {
			s.boxed = true
			s.addWords(p)
		}
		if len(p.Words) == 0 || p.Width == 0 {
			s.addLines(p)
		}
	}
	s.leaveOutFurniture()
	s.usual = s.bodySize()
	s.partColumns()
	s.join(doc.Type)
	s.setLanguage(doc.Language)
	s.findTables()
	s.findLabels()
	s.findPairs()
	s.rolesOfParts()
	return s
}

func (s *sheet) setLanguage(declared string) {
	var all strings.Builder
	for _, p := range s.passages {
		all.WriteString(p.text)
		all.WriteByte('\n')
	}
	s.lang = find.Language(all.String())
	if s.lang == "" {
		if tag, _, _ := strings.Cut(strings.ToLower(declared), "-"); slices.Contains([]string{"en", "de", "fr", "es", "nl"}, tag) {
			s.lang = find.Lang(tag)
		}
	}
	if s.lang != "" {
		s.langs = find.Languages{s.lang}
	}
}

// addLines takes the lines of a page without boxes: cells are parted by tabs, in
// plain text also by three spaces.
func (s *sheet) addLines(p page.Page) {
	var lines [][]string
	for _, line := range p.Lines {
		if strings.HasPrefix(line, ">") {
			continue // quoted of an earlier message
		}
		line = dotted.ReplaceAllString(plainHyphens(line), "$1:\t")
		lines = append(lines, strings.Split(strings.ReplaceAll(line, "   ", "\t"), "\t"))
	}
	lines = chosenLines(lines)
	numbered := formNumbers(lines)
	for r, parts := range lines {
		var row []int
		for column, part := range parts {
			part = strings.Join(strings.Fields(part), " ")
			if part == "" || column == 0 && numbered[r] || strings.Trim(part, "-_=*.·~ ") == "" {
				continue
			}
			row = append(row, len(s.cells))
			s.cells = append(s.cells, cell{text: part, page: max(p.Number, 1), confidence: 100, row: len(s.rows), column: column})
		}
		if len(row) > 0 {
			s.rows = append(s.rows, row)
		} else {
			s.rows = append(s.rows, nil) // an empty line parts paragraphs
		}
	}
}

// plainHyphens writes the hyphens of a text that are not to be broken as those that may be.
func plainHyphens(text string) string { return strings.ReplaceAll(text, "\u2011", "-") }

// dotted is a label with a row of dots up to its value.
var dotted = matching(`^(\s*\p{L}[^.:]{1,40}?)\s*:?\s*(?:\.{4,}|(?:\. ){3,})\s*`)

// join makes passages of cells.
func (s *sheet) join(kind string) {
	for r, row := range s.rows {
		for _, ci := range row {
			c := &s.cells[ci]
			if prev := s.above(r, ci, kind); prev >= 0 {
				s.attach(prev, ci)
				continue
			}
			c.passage, c.from = len(s.passages), 0
			s.passages = append(s.passages, passage{text: c.text, cells: []int{ci}})
		}
	}
}

// attach puts cell ci behind the passage of cell prev.
func (s *sheet) attach(prev, ci int) {
	c := &s.cells[ci]
	c.passage = s.cells[prev].passage
	p := &s.passages[c.passage]
	if cut := hyphenated(p.text, c.text); cut > 0 {
		p.text = p.text[:len(p.text)-cut]
	} else if !strings.HasSuffix(p.text, "-") || !startsFigure(c.text) && !joinsWord.MatchString(tail(p.text, 12)+head(c.text, 8)) {
		p.text += " "
	}
	c.from = len(p.text)
	p.text += c.text
	p.cells = append(p.cells, ci)
}

// joinsWord is a hyphen within a compound: "Jean-" before "Baptiste".
var joinsWord = matching(`\p{L}\p{Ll}-\p{Lu}\p{L}*[^-]*$`)

func startsFigure(text string) bool { return text != "" && text[0] >= '0' && text[0] <= '9' }

var keepsHyphen = words(`self|non|co|pre|post|re|multi|e|in|on|off|part|full|half|two|three|one|well|follow|long|short|cross|intra|inter|anti`)

// hyphenated returns how many bytes of hyphen to take off a before b is joined.
func hyphenated(a, b string) int {
	r, n := utf8.DecodeLastRuneInString(a)
	next, _ := utf8.DecodeRuneInString(b)
	if r != '-' && r != '\u2010' && r != '\u00ad' {
		return 0
	}
	before, _ := utf8.DecodeLastRuneInString(a[:len(a)-n])
	if !unicode.IsLower(next) || !unicode.IsLower(before) {
		return 0
	}
	if i := strings.LastIndexByte(a, ' '); keepsHyphen.MatchString(fold(a[i+1 : len(a)-n])) {
		return 0
	}
	return n
}
