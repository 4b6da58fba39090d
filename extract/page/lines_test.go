package page

import (
	"image"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// inLine makes a word that was recognised in a line.
func inLine(line int, text string, confidence int, box [4]int) Word {
	return Word{Text: text, Box: box, Confidence: confidence, line: line}
}

func spoke(ws []Word) string {
	var out []string
	for _, w := range ws {
		out = append(out, w.Text)
	}
	return strings.Join(out, " ")
}

func TestWordsKeepWithinTheirLine(t *testing.T) {
	ws := []Word{
		inLine(1, "PRAIRIE", 96, [4]int{340, 200, 540, 245}), inLine(1, "LANTERN", 96, [4]int{560, 200, 790, 245}), inLine(1, "COMPANY", 91, [4]int{1080, 196, 1340, 287}),
		inLine(2, "Minton", 96, [4]int{1100, 268, 1200, 286}),
		inLine(3, "Received", 96, [4]int{340, 380, 440, 400}), inLine(3, "of", 96, [4]int{450, 380, 470, 400}), inLine(3, "Adele", 93, [4]int{480, 360, 640, 402}),
	}
	withinLines(ws)
	if got := ws[2].Box; got[3] > 250 {
		t.Errorf("a word that reaches over the next line has the box %v, want it to end with its own line", got)
	}
	if got := ws[6].Box; got != [4]int{480, 360, 640, 402} {
		t.Errorf("a word in larger letters, with nothing in its way, has the box %v", got)
	}
}

func TestFrameIsNoText(t *testing.T) {
	ws := []Word{
		inLine(1, "A", 34, [4]int{80, 79, 350, 106}), inLine(1, "ES", 32, [4]int{365, 75, 403, 110}), inLine(2, "A", 59, [4]int{1541, 80, 1571, 98}), inLine(9, "SR", 38, [4]int{2240, 823, 2258, 1404}),
		inLine(3, "Certificate", 96, [4]int{700, 212, 1000, 244}), inLine(3, "of", 96, [4]int{1010, 212, 1050, 244}), inLine(4, "Completion", 96, [4]int{700, 312, 1000, 344}),
		inLine(5, "Modern", 95, [4]int{700, 412, 900, 444}), inLine(5, "Glazing", 95, [4]int{910, 412, 1100, 444}), inLine(6, "Academy", 92, [4]int{700, 512, 900, 544}),
		inLine(7, "Smudged", 41, [4]int{700, 612, 900, 644}), inLine(7, "footnote", 40, [4]int{910, 612, 1100, 644}),
	}
	if got, want := spoke(withoutFrame(ws)), "Certificate of Completion Modern Glazing Academy Smudged footnote"; got != want {
		t.Errorf("left of the page: %q, want %q", got, want)
	}
}

func TestSlantedWordsOfOneLineStayApart(t *testing.T) {
	ws := []Word{inLine(1, "Budding", 96, [4]int{255, 803, 368, 836}), inLine(1, "for", 96, [4]int{372, 803, 414, 836}), inLine(2, "Ev", 92, [4]int{497, 900, 523, 924}), inLine(3, "ening", 93, [4]int{524, 900, 580, 924})}
	if diff := cmp.Diff("Budding for Evening", spoke(rejoined(ws))); diff != "" {
		t.Error(diff)
	}
}

func TestSpacesOfTheSurerReading(t *testing.T) {
	own := []Word{inLine(4, "Reçu", 92, [4]int{95, 950, 149, 973}), inLine(4, "établile", 73, [4]int{158, 949, 251, 969}), inLine(4, "notebook", 90, [4]int{264, 949, 350, 969})}
	all := []Word{inLine(8, "Reçu", 91, [4]int{95, 950, 149, 973}), inLine(8, "établi", 92, [4]int{158, 949, 222, 969}), inLine(8, "le", 95, [4]int{230, 949, 251, 969}), inLine(8, "note", 80, [4]int{264, 949, 300, 969}), inLine(8, "book", 85, [4]int{304, 949, 350, 969})}
	if got, want := spoke(withSpaces(own, all)), "Reçu établi le notebook"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// boxed draws boxes of 20 dots at the places given, crossed or not, and a row of letter-like strokes.
func boxed(crossed map[int]bool, at ...int) *image.Gray {
	g := image.NewGray(image.Rect(0, 0, 600, 200))
	for i := range g.Pix {
		g.Pix[i] = 255
	}
	for k, left := range at {
		for i := range 20 {
			for _, d := range [4][2]int{{i, 0}, {i, 19}, {0, i}, {19, i}} {
				g.Pix[(60+d[1])*g.Stride+left+d[0]] = 0
			}
			if crossed[k] {
				for w := range 2 {
					g.Pix[(60+i)*g.Stride+left+min(i+w, 19)] = 0
					g.Pix[(60+i)*g.Stride+left+max(19-i-w, 0)] = 0
				}
			}
		}
	}
	return g
}

func TestBoxesAreSeen(t *testing.T) {
	g := boxed(map[int]bool{1: true}, 40, 240, 440)
	for i := range 20 { // a letter with three sides is no box
		for _, d := range [3][2]int{{i, 0}, {0, i}, {i, 19}} {
			g.Pix[(60+d[1])*g.Stride+540+d[0]] = 0
		}
	}
	m := marksOf(g)
	words := []Word{
		inLine(1, "[]", 55, [4]int{40, 60, 60, 80}), inLine(1, "honorary", 95, [4]int{70, 60, 200, 80}), inLine(1, "D]", 52, [4]int{240, 60, 260, 80}), inLine(1, "active", 95, [4]int{270, 60, 400, 80}),
		inLine(1, "student", 95, [4]int{470, 60, 530, 80}),
	}
	got := withBoxes(words, m.Boxes)
	var marked []string
	for _, w := range got {
		if w.Text == "☐" || w.Text == "☒" {
			marked = append(marked, w.Text)
		}
	}
	if len(m.Boxes) != 3 || strings.Count(spoke(got), "☐") != 2 || strings.Count(spoke(got), "☒") != 1 || strings.Contains(spoke(got), "]") {
		t.Errorf("%d boxes, read as %q with the marks %q: want three, of which the second is crossed", len(m.Boxes), spoke(got), marked)
	}
}

func TestLettersPassedOver(t *testing.T) {
	a := attempt{words: []Word{inLine(1, "Welding", 96, [4]int{40, 60, 140, 80}), inLine(1, "granted", 96, [4]int{200, 60, 300, 80}), inLine(2, "Total", 96, [4]int{40, 100, 140, 120}), inLine(2, "17", 96, [4]int{500, 100, 520, 120})}}
	a.pic.marks.Runs = [][4]int{{40, 60, 140, 80}, {200, 60, 300, 80}, {504, 60, 516, 80}, {40, 100, 140, 120}, {500, 100, 520, 120}}
	if !a.passed() {
		t.Error("a figure level with words, where none was read: want it seen")
	}
	a.words = append(a.words, inLine(1, "6", 96, [4]int{504, 60, 516, 80}))
	if a.passed() {
		t.Error("all letters were read, want nothing to be missed")
	}
}

// TestLightOnDarkField turns what is light on a dark band into ink, and leaves broad black type.
func TestLightOnDarkField(t *testing.T) {
	g := image.NewGray(image.Rect(0, 0, 600, 400))
	for y := range 400 {
		for x := range 600 {
			v := uint8(240)
			if y < 120 {
				v = 45
				if y > 40 && y < 70 && x > 100 && x < 400 && x%30 < 6 {
					v = 235
				}
			}
			if y > 200 && y < 260 && x > 100 && x < 500 && x%50 < 24 {
				v = 20 // broad strokes of a heading
			}
			g.Pix[y*g.Stride+x] = v
		}
	}
	out := evened(g)
	for _, p := range []struct {
		x, y int
		ink  bool
		why  string
	}{{123, 55, true, "a light letter"}, {110, 55, false, "the band"}, {500, 100, false, "the band beside it"}, {300, 160, false, "paper"}, {110, 230, true, "a broad stroke"}, {140, 230, false, "paper between broad strokes"}} {
		if v := out.GrayAt(p.x, p.y).Y; (v < 100) != p.ink || v >= 100 && v < 200 {
			t.Errorf("%s at %d, %d is %d", p.why, p.x, p.y, v)
		}
	}
}

// TestSheetWithAHead takes the dark head of a card for part of the card, and a picture that is a page
// with a band at its head for the page.
func TestSheetWithAHead(t *testing.T) {
	want := corners{{120, 130}, {780, 110}, {820, 1080}, {90, 1060}}
	m, w, h := want.from(1)
	m = m.inverse()
	img := onTable(want)
	for y := range 1200 {
		for x := range 900 {
			if u, v := m.at(float64(x), float64(y)); u >= 0 && v >= 0 && u < float64(w) && v < float64(h)*0.25 {
				img.Pix[img.PixOffset(x, y)], img.Pix[img.PixOffset(x, y)+1], img.Pix[img.PixOffset(x, y)+2] = 60, 10, 25
			}
		}
	}
	got, found := sheetIn(img)
	if !found {
		t.Fatal("no sheet was found")
	}
	for i := range want {
		if math.Hypot(got[i][0]-want[i][0], got[i][1]-want[i][1]) > 14 {
			t.Errorf("corner %d at %v, want %v within 14 dots", i, got[i], want[i])
		}
	}
	screen := image.NewRGBA(image.Rect(0, 0, 1200, 560))
	for y := range 560 {
		for x := range 1200 {
			at := screen.Pix[screen.PixOffset(x, y):]
			at[0], at[1], at[2], at[3] = 255, 255, 255, 255
			if y < 52 {
				at[1], at[2] = 200, 60
			}
		}
	}
	if c, found := sheetIn(screen); found {
		t.Errorf("a page with a yellow band at its head was cut to %v", c)
	}
}

// TestRulesOfInk: the lines of a table are told from the letters beside them, also where one falls a little; a bar is none.
func TestRulesOfInk(t *testing.T) {
	g := image.NewGray(image.Rect(0, 0, 1200, 800))
	for i := range g.Pix {
		g.Pix[i] = 255
	}
	fill := func(x0, y0, x1, y1 int) {
		for y := y0; y < y1; y++ {
			for x := x0; x < x1; x++ {
				g.Pix[y*g.Stride+x] = 0
			}
		}
	}
	fill(100, 200, 1100, 203)
	fill(100, 200, 103, 400)
	for x := 100; x < 1100; x++ { // falls by four dots
		y := 400 + x/250
		fill(x, y, x+1, y+2)
	}
	fill(100, 600, 1100, 640)        // a bar
	for x := 200; x < 600; x += 30 { // letters
		fill(x, 260, x+12, 290)
	}
	var level, upright int
	for _, r := range inkRules(g) {
		if r[2]-r[0] > r[3]-r[1] {
			level++
			if r[0] > 105 || r[2] < 1095 {
				t.Errorf("a rule %v, want it from 100 to 1100", r)
			}
		} else {
			upright++
		}
	}
	if level != 2 || upright != 1 {
		t.Errorf("%d level rules and %d upright, want 2 and 1", level, upright)
	}
}
